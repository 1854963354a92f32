"""What rests on readings: widths of boards to come, forecasts, what is told of them."""

from collections.abc import Iterator
from math import erf, sqrt

from drylay.audit.edged import ranges
from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, off_by
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.correcting.model import EndForecast, Laid, Spread
from drylay.findings import Severity
from drylay.plan.model import Plan

FORECAST = conventions("Rows while laying (laid): forecasts")
#: What a chance and an sd may be off for being rounded, away from the builder.
CHANCE, SD_MM = 0.001 + 1e-6, 0.01 + 1e-6
#: An edge so near is in: common practice, no source.
FINISH_MM = 2.0
LAST = 4


def laid_of(plan: Plan) -> Laid:
    """Return what lies and what is left, if anything was measured while laying."""
    laid = need(plan.laid, "rows that lie")
    need(laid if laid.readings and laid.rows else None, "readings while laying")
    return laid


def expected_more(plan: Plan, laid: Laid, end: str) -> int:
    """Return what a board takes more than planned at an end, from what was measured: 1/320 mm."""
    rows, entry = surface_of(plan).rows, laid.readings[-1]
    lie, left = rows[: laid.rows_laid], rows[laid.rows_laid :]
    if laid.board_takes == "boards laid tight":
        # a board that will be ripped was measured whole
        planned = sum(board_320(plan) if row.ripped else ticks(row.width_mm) for row in left)
        return round((ticks(entry.reading.together_mm or 0.0) - planned) / len(left))
    if laid.board_takes == "boards measured":
        told = _measured(plan, laid)
        return round(sum(ticks(width) for width in told) / len(told) - board_320(plan))
    if laid.board_takes == "plan":
        return 0
    planned = sum(ticks(row.width_mm) for row in lie)
    gaps = sum(ticks(gap) for gap in getattr(entry, f"gaps_{end}_mm"))
    return round((ticks(getattr(entry.reading, f"{end}_mm")) - gaps - planned) / len(lie))


def board_320(plan: Plan) -> int:
    """Return how wide a whole board of the last rows is as planned."""
    surface = surface_of(plan)
    width = surface.rows[-1].width_mm if surface.border else surface.board_width_mm
    return ticks(width)


def _measured(plan: Plan, laid: Laid) -> tuple[float, ...]:
    """Return the widths told last; boards measured tight together have their mean."""
    rows = len(surface_of(plan).rows)
    told: tuple[float, ...] = (0.0,)
    for entry in laid.readings:
        reading = entry.reading
        count = rows - reading.rows_laid
        told = reading.widths_mm or told
        told = (reading.together_mm / count,) * count if reading.together_mm else told
    return told


def _within(off_mm: float, sd_mm: float, limit_mm: float) -> float:
    low, high = (-limit_mm - off_mm) / sd_mm, (limit_mm - off_mm) / sd_mm
    return (erf(high / sqrt(2)) - erf(low / sqrt(2))) / 2


def _sds(plan: Plan, laid: Laid) -> tuple[float, float, float]:
    """Return the sd of the finish measured no more, of that by the rule, and of a board's mean."""
    its, lie, left = laid.tolerances, laid.rows_laid, len(laid.rows)
    own = its.width_mm**2 + its.gap_mm**2
    rounding = laid.step_mm**2 / 12
    rule = sqrt(2 * its.tape_mm**2 + min(LAST, left) * its.gap_mm**2 + rounding)
    rows_mm2 = lie * its.width_mm**2 + (lie - 1) * its.gap_mm**2
    means = {
        "boards laid tight": its.tape_mm / left,
        "boards measured": its.width_mm / sqrt(len(_measured(plan, laid))),
        "rows laid": sqrt(rows_mm2 + its.tape_mm**2) / lie,
    }
    mean = means.get(laid.board_takes, its.batch_mm)
    if laid.board_takes == "rows laid":
        far = left / lie
        alone = far**2 * rows_mm2 + (its.tape_mm * (1 + far)) ** 2 + left * own + rounding
    else:
        boards = 0.0 if laid.board_takes == "boards laid tight" else left * its.width_mm**2
        shared = (left * mean) ** 2 + (left * its.spacer_mm) ** 2
        alone = its.tape_mm**2 + shared + boards + left * its.gap_mm**2 + rounding
    if laid.rows[-1].ripped:
        rip = sqrt(its.tape_mm**2 + its.gap_mm**2)
        return rip, rip, mean
    return sqrt(alone), sqrt(alone) if _clipped(plan) else rule, mean


def _clipped(plan: Plan) -> bool:
    """Whether clips fix the gaps, so that no rule helps."""
    return plan.fixings is not None and plan.fixings.clips is not None


def forecasts_hold(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each forecast of the last reading that edges and tolerances do not give."""
    laid = laid_of(plan)
    entry, row = laid.readings[-1], laid.rows[-1]
    alone, rule, mean = _sds(plan, laid)
    for end in ("left", "right"):
        told: EndForecast = getattr(entry, end)
        target = ticks(getattr(entry, f"target_{end}_mm"))
        far = ticks(getattr(row, f"near_{end}_mm")) + ticks(getattr(row, f"width_{end}_mm"))
        if ticks(told.off_mm) != far - target:
            message = f"the {end} end's last edge is not so far off"
            yield off_by("laid.readings", message, ticks(told.off_mm), far - target, FORECAST)
        near = abs(told.off_mm) <= laid.step_mm / 2 and not _clipped(plan)
        yield from _spread(told.as_set, target / 320, told.off_mm, alone)
        yield from _spread(told.by_rule, target / 320, 0.0 if near else told.off_mm, rule)
        yield from _limits(plan, laid, end, mean)


def _spread(told: Spread, target_mm: float, off_mm: float, sd_mm: float) -> Iterator[Flaw]:
    """Yield a flaw where a spread is not about its edge, or promises more than there is."""
    figures = (
        ("wanted_mm", told.wanted_mm, target_mm, 1e-6),
        ("expected_mm", told.expected_mm, target_mm + off_mm, 1e-6),
        ("sd_mm", told.sd_mm, sd_mm, SD_MM),
        ("within_1_ratio", told.within_1_ratio, _within(off_mm, sd_mm, 1.0), CHANCE),
        ("within_2_ratio", told.within_2_ratio, _within(off_mm, sd_mm, 2.0), CHANCE),
        ("within_limit_ratio", told.within_limit_ratio, _within(off_mm, sd_mm, told.limit_mm),
         CHANCE),
    )  # fmt: skip
    for name, found, wanted, slack in figures:
        yield from _same(f"laid.readings: {name}", found, wanted, slack)


def _same(subject: str, found: float, wanted: float, slack: float) -> Iterator[Flaw]:
    if abs(found - wanted) > slack:
        message = "not what the readings and the tolerances give"
        yield Flaw(subject=subject, message=message, measured=found, limit=wanted, source=FORECAST)


def _limits(plan: Plan, laid: Laid, end: str, mean_mm: float) -> Iterator[Flaw]:
    """Yield a flaw where the gap needed, or the chance that limits allow it, is another."""
    left, its, entry = len(laid.rows), laid.tolerances, laid.readings[-1]
    told: EndForecast = getattr(entry, end)
    rows = surface_of(plan).rows[laid.rows_laid :]
    takes = sum(ticks(row.width_mm) + (0 if row.ripped else ticks(told.more_mm)) for row in rows)
    free = ticks(getattr(entry, f"target_{end}_mm")) - takes
    free -= ticks(getattr(entry.reading, f"{end}_mm"))
    yield from _same("laid.readings: needed_gap_mm", told.needed_gap_mm, free / left / 320, 0.001)
    limits = ranges(surface_of(plan))[laid.rows_laid - 1 :]
    least = sum(low for low, _ in limits) / left / 320
    most = sum(high for _, high in limits) / left / 320
    sd = sqrt(mean_mm**2 + (its.width_mm**2 + its.gap_mm**2) / left)
    needed = told.needed_gap_mm
    chance = (erf((most - needed) / sd / sqrt(2)) - erf((least - needed) / sd / sqrt(2))) / 2
    yield from _same("laid.readings: limits_ratio", told.limits_ratio, chance, CHANCE)


def what_is_out_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where an end comes out beyond half a step and no finding tells it.

    One beyond 2 mm is a caution.
    """
    laid = laid_of(plan)
    told = {(f.subject, f.measured): f.severity for f in plan.findings if f.code == "COR-001"}
    for end in ("left", "right"):
        off = getattr(laid.readings[-1], end).off_mm
        severity = told.get((f"{end} end", abs(off)))
        hushed = severity is None or (abs(off) > FINISH_MM and severity is Severity.NOTE)
        if abs(off) > laid.step_mm / 2 and hushed:
            message = "no finding tells how far the last edge comes out"
            yield off_by(f"COR-001 {end} end", message, ticks(off), 0, FORECAST)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-138", "forecasts are what readings and tolerances give", forecasts_hold),
    ("AUD-139", "a last edge out of its place stands among the findings", what_is_out_is_told),
)
