"""The family of tiles: its table, supports by the tile's length, joints by spacer tabs."""

import math

from drylay.materials.model import Family, RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.table import table_family
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_rules import number_for, number_ruled, table_rule
from drylay.plugins.table_upkeep import upkeep_h_m2_year
from drylay.reasons import Inputs, Ruling, Source
from drylay_softwood.family import frame

GRID = Source(
    kind="arithmetic",
    title="tile and joint over the bays under it",
    clause="a joist under each joint line and midway (common practice): 302 for 600 and 4",
)
SPACER = Source(
    kind="common practice",
    title="common practice, no source",
    clause="the spacer that is told, within the 2 to 5 that tabs leave",
)


def tiles() -> Family:
    """Return the family.

    Source: tiles.toml, each number its own; of the frame, drylay-softwood's.
    """
    coded = {
        "most_centres_mm": most_centres_mm,
        "bays_per_piece": bays_per_piece,
        "gap_least_mm": gap_least_mm,
        "gap_preferred_mm": gap_preferred_mm,
        "gap_most_mm": gap_most_mm,
        "end_gap_mm": gap_preferred_mm,
        "upkeep_h_m2_year": upkeep_h_m2_year,
    }
    return table_family("drylay_tiles", "tiles.toml", coded=coded, base=frame())


def most_centres_mm(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the joists' distance: a tile and its joint over the bays under it.

    Raises:
        NotCoveredError: The tile's length is not told, or the tiles do not lie square.

    Source: common practice, a joist under each joint line and midway; arithmetic.
    """
    module_mm, bays, inputs = _module(table, query)
    return Ruling(
        value=module_mm / bays,
        unit="mm",
        rule="a joist under each joint line and midway, or closer",
        source=GRID,
        inputs=(*inputs, ("bays_per_piece", bays)),
    )


def bays_per_piece(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the bays under a tile: two, or more where they would be too wide.

    Raises:
        NotCoveredError: As for `most_centres_mm`.

    Source: common practice, a joist under each joint line and midway, edges held every 600.
    """
    _, bays, inputs = _module(table, query)
    return Ruling(
        value=bays,
        unit="count",
        rule="a joist under each joint line and midway, or closer",
        source=number_for(table, "bays_least", query).source,
        inputs=inputs,
    )


def gap_least_mm(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the narrowest joint: the spacer's where it is told. Raises and Source: `_joint`."""
    return _joint(table, query, "gap_least_mm")


def gap_preferred_mm(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the joint to lay: the spacer's where it is told. Raises and Source: `_joint`."""
    return _joint(table, query, "gap_preferred_mm")


def gap_most_mm(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the widest joint: the spacer's where it is told. Raises and Source: `_joint`."""
    return _joint(table, query, "gap_most_mm")


def _joint(table: FamilyTable, query: RuleQuery, rule: str) -> Ruling:
    """Return the table's joint, or the one that the spacer fixes.

    Raises:
        NotCoveredError: The spacer's joint is none that tabs leave.

    Source: common practice, 2 to 5 by spacer tabs.
    """
    tabled = number_ruled(table, rule, query)
    if query.clip_gap_mm is None:
        return tabled
    least, most = (number_for(table, f"gap_{end}_mm", query).value for end in ("least", "most"))
    if not least <= query.clip_gap_mm <= most:
        raise NotCoveredError(
            f"a spacer that leaves {query.clip_gap_mm:g} mm: tabs leave {least:g} to {most:g}"
        )
    return Ruling(
        value=query.clip_gap_mm,
        unit="mm",
        rule=tabled.rule,
        source=SPACER,
        inputs=(("clip_gap_mm", query.clip_gap_mm),),
    )


def _module(table: FamilyTable, query: RuleQuery) -> tuple[float, int, Inputs]:
    """Return a tile with its joint, the bays under it, and what both come from."""
    if query.board_to_joist_deg != 90.0:
        raise NotCoveredError(f"tiles at {query.board_to_joist_deg:g} degrees to the joists")
    if not 0 < query.board_length_mm < math.inf:
        raise NotCoveredError("the tile's length is not told, which sets the joists under it")
    joint_mm = float(_joint(table, query, "gap_preferred_mm").value or 0.0)
    held_mm = float(table_rule(table, query, rule="pads_at_edges_most_mm").value or 0.0)
    least = int(number_for(table, "bays_least", query).value)
    inputs: Inputs = (
        ("board_length_mm", query.board_length_mm),
        ("joint_mm", joint_mm),
        ("pads_at_edges_most_mm", held_mm),
    )
    bays = max(least, math.ceil(query.board_length_mm / held_mm))
    return query.board_length_mm + joint_mm, bays, inputs
