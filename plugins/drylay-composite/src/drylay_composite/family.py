"""The family of composite: its table, end gaps by temperature, a softwood frame."""

import math
from decimal import Decimal
from functools import partial

from drylay.materials.model import Family, RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.table import CodedRule, table_family
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_rules import table_rule
from drylay.plugins.table_upkeep import upkeep_h_m2_year
from drylay.reasons import Ruling, Source
from drylay_softwood.family import boards_metal, frame

GROWTH = Source(
    kind="arithmetic",
    title="growth of the longest piece",
    clause="growth x warming x length, up to a whole millimetre",
)


def composite() -> Family:
    """Return the family.

    Source: composite.toml, each number its own; of the frame, drylay-softwood's.
    """
    base = frame()
    coded: dict[str, CodedRule] = {
        "end_gap_mm": end_gap_mm,
        "metal_allowed": partial(boards_metal, base),
        "upkeep_h_m2_year": upkeep_h_m2_year,
    }
    return table_family("drylay_composite", "composite.toml", coded=coded, base=base)


def end_gap_mm(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the end gap: what the longest piece grows from laying day to the hottest, rounded up.

    Each board is fixed at its middle, so that a joint closes by half the growth of either piece.

    Raises:
        NotCoveredError: The temperature of laying day is not told or is above the hottest, or the
            length is not told.

    Source: arithmetic, growth x warming x length; the growth that is told, else the table's.
    """
    growth_per_k, source = _growth(table, query)
    laying_c, hottest_c = _laying_and_hottest_c(table, query)
    if not 0 < query.board_length_mm < math.inf:
        raise NotCoveredError("the longest piece is not told, whose growth the end gap takes up")
    warming_k = _exactly(hottest_c) - _exactly(laying_c)
    growth_mm = _exactly(growth_per_k) * _exactly(query.board_length_mm) * warming_k
    return Ruling(
        value=float(math.ceil(growth_mm)),
        unit="mm",
        rule="growth of the longest piece from laying day to the hottest, up to a whole mm",
        source=source,
        inputs=(
            ("growth_per_k", growth_per_k),
            ("laying_c", laying_c),
            ("hottest_c", hottest_c),
            ("board_length_mm", query.board_length_mm),
        ),
    )


def _growth(table: FamilyTable, query: RuleQuery) -> tuple[float, Source]:
    """Return the growth that is told, else the table's; the table's own is never told as another's.

    Raises:
        NotCoveredError: What is told is no number.
    """
    tabled = table_rule(table, query, rule="growth_per_k")
    assumed = float(tabled.value or 0.0)
    told = query.growth_per_k
    if told is None or told == assumed:
        return assumed, tabled.source
    if not 0 <= told < math.inf:
        raise NotCoveredError(f"a growth of {told:g} per K")
    return told, GROWTH


def _laying_and_hottest_c(table: FamilyTable, query: RuleQuery) -> tuple[float, float]:
    hottest_c = query.hottest_c
    if hottest_c is None:
        hottest_c = float(table_rule(table, query, rule="hottest_board_c").value or 0.0)
    if query.laying_c is None:
        raise NotCoveredError(
            "the temperature of the boards on laying day is not told, and it sets the end gap: "
            "measure it, and tell it as climate.laying_c, with climate.hottest_board_c, the "
            f"hottest they get, where that is not {hottest_c:g}"
        )
    if not -math.inf < query.laying_c <= hottest_c < math.inf:
        raise NotCoveredError(
            f"boards laid at {query.laying_c:g} C, above the hottest they are told to get, "
            f"{hottest_c:g} C"
        )
    return query.laying_c, hottest_c


def _exactly(value: float) -> Decimal:
    """Return a number as it was written down: 3.6 is no 3.6000000000000000888."""
    return Decimal(repr(float(value)))
