"""Rows that were corrected while laying do not lie where the design has them: that is told."""

from collections.abc import Iterator

from drylay.correcting.model import Laid
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.surface.model import Row

READINGS = Source(
    kind="arithmetic",
    title="the plan's own places",
    clause="edges measured and rows to lay, less those designed",
)


def laid_anew(plan: Plan) -> Iterator[Finding]:
    """Yield UPK-006 where rows lie elsewhere than designed, with the most by which they do.

    Measured is the greatest known difference of an edge at either end of a row. Rows between two
    readings are known by no reading of their own, so places are the design's, and are said to be.
    """
    if plan.laid is None or plan.surface is None:
        return
    most = max((abs(off) for off in _off(plan.laid, plan.surface.rows)), default=0)
    if most:
        after = plan.laid.readings[0].reading.rows_laid
        yield Finding(
            code="UPK-006",
            severity=Severity.CAUTION,
            subject="rows",
            message=f"rows were laid anew after row {after}: places here are the design's; measure "
            "from the rows themselves",
            measured=to_mm(most),
            unit="mm",
            source=READINGS,
        )


def _off(laid: Laid, rows: tuple[Row, ...]) -> Iterator[int]:
    """Yield by how much each known edge lies off the designed one, in 1/320 mm."""
    for each in laid.readings:
        if each.reading.rows_laid:
            far = _far(rows[each.reading.rows_laid - 1])
            yield exact(each.reading.left_mm) - far
            yield exact(each.reading.right_mm) - far
    designed = {row.mark: row for row in rows}
    for left in (each for each in laid.rows if each.mark in designed):
        row = designed[left.mark]
        ends = ((left.near_left_mm, left.width_left_mm), (left.near_right_mm, left.width_right_mm))
        for near_mm, width_mm in ends:
            yield exact(near_mm) - exact(row.near_mm)
            yield exact(near_mm) + exact(width_mm) - _far(row)


def _far(row: Row) -> int:
    return exact(row.near_mm) + exact(row.width_mm)
