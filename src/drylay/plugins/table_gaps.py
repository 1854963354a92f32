"""Gaps between rows of wood, out of its family's table: by the moisture of laying day where told.

Code for `coded` of `drylay.plugins.table.table_family`, whole: `coded=MOISTURE_GAPS`. The table
then has under `[[numbers]]`

- `gap_least_mm`, `gap_preferred_mm`, `gap_most_mm`: what is laid where no moisture is told;
- `year_gap_least_mm`: what is left open when boards are wettest;
- `wettest_pct`: how wet boards get where the question does not tell that;

`MOISTURES` beside it answers the two extremes of the year, the driest from a number `driest_pct`.
Under `[[rules]]` stands an entry `movement_per_pct`. A wetter day wants a narrower gap and a dry
one a wider: never less than leaves `year_gap_least_mm` open at the wettest, never more than
`gap_most_mm`. Boards so dry that no such gap is left are not covered.
"""

import math

from drylay.materials.model import RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_rules import number_for, number_ruled, table_rule
from drylay.reasons import Inputs, Ruling, Source

#: Gaps are laid with spacers of whole millimetres; a sum this near to one is that one.
_DUST_MM = 1e-9
MOVEMENT = Source(
    kind="handbook",
    title="Wood Handbook FPL-GTR-190",
    clause="ch. 13: change of width = width x movement x change of moisture; made for 6 to 14 %, "
    "rougher above",
)


def gap_least_mm(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the narrowest gap to lay: at the wettest the table's least for the year is left.

    Raises:
        NotCoveredError: The table does not speak of such boards, or they are too dry to lay.

    Source: Wood Handbook FPL-GTR-190, ch. 13, for the width; the table for what is left open.
    """
    if query.laying_pct is None:
        return number_ruled(table, "gap_least_mm", query)
    least_mm, inputs = _least_when_laid(table, query)
    return Ruling(
        value=least_mm,
        unit="mm",
        rule="gap that leaves enough open when the boards are wettest",
        source=MOVEMENT,
        inputs=inputs,
    )


def gap_preferred_mm(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the gap to aim for: the narrowest, up to a whole millimetre where that is allowed.

    Raises:
        NotCoveredError: As for `gap_least_mm`.

    Source: as for `gap_least_mm`.
    """
    if query.laying_pct is None:
        return number_ruled(table, "gap_preferred_mm", query)
    least_mm, inputs = _least_when_laid(table, query)
    most_mm = number_for(table, "gap_most_mm", query).value
    return Ruling(
        value=min(float(math.ceil(least_mm - _DUST_MM)), most_mm),
        unit="mm",
        rule="gap for the moisture of laying day, up to a whole millimetre",
        source=MOVEMENT,
        inputs=(*inputs, ("gap_most_mm", most_mm)),
    )


def gap_most_mm(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the widest gap to lay, whatever the moisture.

    Raises:
        NotCoveredError: The table does not speak of such boards.

    Source: the table's own.
    """
    return number_ruled(table, "gap_most_mm", query)


#: The three as `coded` takes them.
MOISTURE_GAPS = {
    "gap_least_mm": gap_least_mm,
    "gap_preferred_mm": gap_preferred_mm,
    "gap_most_mm": gap_most_mm,
}


def wettest_board_pct(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return how wet the boards get in a year. Raises and Source: the table's number."""
    return _moisture(table, query, "wettest_pct", "the wettest boards get in a year")


def driest_board_pct(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return how dry the boards get in a year. Raises and Source: the table's number."""
    return _moisture(table, query, "driest_pct", "the driest boards get in a year")


#: Both as `coded` takes them, for a table that has `wettest_pct` and `driest_pct`.
MOISTURES = {"wettest_board_pct": wettest_board_pct, "driest_board_pct": driest_board_pct}


def _moisture(table: FamilyTable, query: RuleQuery, name: str, says: str) -> Ruling:
    number = number_for(table, name, query)
    return Ruling(value=number.value, unit="%", rule=says, source=number.source)


def _least_when_laid(table: FamilyTable, query: RuleQuery) -> tuple[float, Inputs]:
    """Return the least gap on laying day, and what it comes from.

    Boards laid wetter than they will be again only shrink: nothing is taken off their gap.
    """
    laying_pct = float(query.laying_pct or 0.0)
    wettest_pct = _wettest_pct(table, query)
    movement = _movement_per_pct(table, query)
    year_mm = number_for(table, "year_gap_least_mm", query).value
    swelling_pct = wettest_pct - laying_pct
    least_mm = year_mm + query.board_width_mm * movement * max(swelling_pct, 0.0)
    most_mm = number_for(table, "gap_most_mm", query).value
    if not least_mm <= most_mm:  # nor is what is no number
        raise NotCoveredError(_too_dry(laying_pct, least_mm, most_mm))
    return least_mm, (
        ("board_width_mm", query.board_width_mm),
        ("movement_per_pct", movement),
        ("laying_pct", laying_pct),
        ("wettest_pct", wettest_pct),
        ("year_gap_least_mm", year_mm),
    )


def _wettest_pct(table: FamilyTable, query: RuleQuery) -> float:
    if query.wettest_pct is not None:
        return query.wettest_pct
    return number_for(table, "wettest_pct", query).value


def _movement_per_pct(table: FamilyTable, query: RuleQuery) -> float:
    if query.movement_per_pct is not None:
        return query.movement_per_pct
    return float(table_rule(table, query, rule="movement_per_pct").value or 0.0)


def _too_dry(laying_pct: float, least_mm: float, most_mm: float) -> str:
    return (
        f"boards laid at {laying_pct:g} % moisture swell shut: they would want a gap of "
        f"{least_mm:.1f} mm where {most_mm:g} is the widest; let them take up moisture first"
    )
