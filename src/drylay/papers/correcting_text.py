"""A plan corrected while it is laid, in words: rows left, what to expect, when to measure."""

from collections.abc import Iterator

from drylay.correcting.model import CutAgain, EndForecast, Laid, RowToLay
from drylay.papers.wording import size
from drylay.plan.model import Plan

#: What corrections find has codes of this kind.
FOUND = "COR-"


def corrected_text(plan: Plan, *, taken: int) -> str:
    """Return what came of readings: gaps row by row, forecasts, checks, pieces cut again."""
    if plan.laid is None:
        return "no reading was taken, and the plan has none"
    return "\n".join(_lines(plan, plan.laid, taken))


def _lines(plan: Plan, laid: Laid, taken: int) -> Iterator[str]:
    units = plan.units
    known = f"{taken} new readings, {len(laid.readings)} in all"
    yield f"{plan.title}: corrected after row {laid.rows_laid}; {known}"
    yield from (_row(row, units) for row in laid.rows)
    last = laid.readings[-1]
    yield _finish("left", last.left, units)
    yield _finish("right", last.right, units)
    checks = ", ".join(str(number) for number in laid.checks)
    yield f"measure next after rows {checks}" if checks else "no row is left to measure after"
    for way in laid.ways_back:
        yield f"way back, {way.told}"
    for again in laid.recut:
        yield from (_again(piece, units) for piece in again.pieces)
        if again.cost:
            yield f"to buy besides, {again.what}: {again.cost}"
    yield from (str(found) for found in plan.findings if found.code.startswith(FOUND))


def _row(row: RowToLay, units: str) -> str:
    ends = f"{size(row.width_left_mm, units)} left, {size(row.width_right_mm, units)} right"
    wide = f"; rip it to {ends}" if row.ripped else ""
    return (
        f"  {row.mark}: gap {size(row.gap_left_mm, units)} left, {size(row.gap_right_mm, units)} "
        f"right; near edge at {size(row.near_left_mm, units)} left, "
        f"{size(row.near_right_mm, units)} right{wide}"
    )


def _finish(end: str, seen: EndForecast, units: str) -> str:
    off = size(abs(seen.off_mm), units)
    side = "short of" if seen.off_mm < 0 else "beyond"
    where = f"{off} {side} its target" if seen.off_mm else "on its target"
    rule = seen.by_rule
    return (
        f"last edge, {end}: {where}; within 1 mm with {rule.within_1_ratio:.0%}, within 2 mm with "
        f"{rule.within_2_ratio:.0%} as the plan is laid on"
    )


def _again(piece: CutAgain, units: str) -> str:
    told = {
        "cut": "cut it so",
        "trim": f"trim {size(piece.trim_mm, units)} off" if piece.trim_mm else "rip it again",
        "shed": "too short: it goes to the shed",
    }
    wide = ""
    if piece.width_left_mm is not None and piece.width_right_mm is not None:
        ends = f"{size(piece.width_left_mm, units)} left, {size(piece.width_right_mm, units)} right"
        wide = f", ripped to {ends}"
    return (
        f"  {piece.mark}: {size(piece.was_mm, units)} becomes {size(piece.now_mm, units)}{wide}: "
        f"{told.get(piece.do, piece.do)}"
    )
