"""The family of boards with turf inserts: softwood's rules, centres by the net section."""

from functools import partial

from attrs import evolve

from drylay.materials.model import Family, Rule, RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.table import CodedRule, table_family
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_rules import number_for
from drylay.plugins.table_upkeep import upkeep_h_m2_year
from drylay.reasons import Ruling
from drylay_softwood.family import softwood


def insertboard() -> Family:
    """Return the family.

    Source: insertboard.toml, each number its own; where it is silent, drylay-softwood.
    """
    base = softwood()
    coded: dict[str, CodedRule] = {
        "most_centres_mm": partial(net_centres_mm, base.rules["most_centres_mm"]),
        "upkeep_h_m2_year": upkeep_h_m2_year,
    }
    for rule in ("gap_least_mm", "gap_preferred_mm", "gap_most_mm"):
        coded[rule] = partial(open_gap_mm, base.rules[rule])
    return table_family("drylay_insertboard", "insertboard.toml", coded=coded, base=base)


def net_centres_mm(base: Rule, _: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the base's joist centres for what the groove leaves of the board's thickness.

    Raises:
        NotCoveredError: The groove's depth is not told, the board is hollow, or what is left is
            too thin for the base.

    Source: the base's; net thickness is arithmetic.
    """
    if query.hollow:
        raise NotCoveredError("a hollow board with inserts: the base taken is solid softwood")
    if not 0 < query.groove_mm < query.board_thickness_mm:
        raise NotCoveredError(
            f"a groove {query.groove_mm:g} mm deep in a board {query.board_thickness_mm:g} mm "
            "thick: tell the depth of the groove that the insert lies in (groove_mm)"
        )
    net_mm = query.board_thickness_mm - query.groove_mm
    ruling = base(evolve(query, board_thickness_mm=net_mm))
    # the base was asked of the net section: its thickness is not the board's
    named = {"board_thickness_mm": "net_thickness_mm"}
    return evolve(
        ruling,
        rule=f"{ruling.rule}, by the net section under the insert",
        inputs=(
            ("board_thickness_mm", query.board_thickness_mm),
            ("groove_mm", query.groove_mm),
            *((named.get(name, name), value) for name, value in ruling.inputs),
        ),
    )


def open_gap_mm(base: Rule, table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the base's gap, or what lets grit wash through where that is more.

    Raises:
        NotCoveredError: The base does not cover the board.

    Source: common practice, 5 mm or more; else the base's.
    """
    ruling = base(query)
    least = number_for(table, "insert_gap_least_mm", query)
    if float(ruling.value or 0.0) >= least.value:
        return ruling
    return Ruling(
        value=least.value,
        unit=ruling.unit,
        rule="gap that lets grit wash through",
        source=least.source,
        inputs=(("base_mm", ruling.value),),
    )
