"""Laying day: gaps that hang on how warm and how moist boards are, and those for other days."""

from collections.abc import Iterator
from fractions import Fraction

from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.pieces import pieces_of
from drylay.audit.rows import surface_of
from drylay.pieces.model import BorderMovement, Movement
from drylay.plan.model import Plan
from drylay.reasons import Source

ENDS = conventions("Movement of boards")
GAPS = conventions("Rows (surface)")
#: What end gaps and gaps are told for, besides the day planned for.
DAYS_C, DAYS_PCT = tuple(range(0, 31, 5)), tuple(range(10, 25, 2))


def day_holds(plan: Plan) -> set[str]:
    """Return what is to be measured before boards are laid."""
    pieces, surface = plan.pieces, plan.surface
    warm = pieces is not None and pieces.movement is not None and bool(pieces.joints)
    moist = surface is not None and surface.gaps_by_moisture is not None
    return ({"board_warmth"} if warm else set()) | ({"board_moisture"} if moist else set())


def _number(value: float) -> Fraction:
    return Fraction(repr(float(value)))


def end_gaps_of_other_days(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless end gaps are told for other temperatures, each enough for its day."""
    pieces = pieces_of(plan)
    border = pieces.border.movement if pieces.border else None
    for path, movement in (("movement", pieces.movement), ("border.movement", border)):
        if movement is not None:
            yield from _end_gaps(f"pieces.{path}.other_days", movement)


def _end_gaps(subject: str, movement: Movement | BorderMovement) -> Iterator[Flaw]:
    wanted = []
    if movement.between_mm is not None and movement.hottest_c is not None:
        length, hottest = max(movement.between_mm, movement.board_mm), _number(movement.hottest_c)
        for day in DAYS_C:
            grown = _number(length) * _number(movement.growth_per_k) * (hottest - day)
            wanted += [(float(day), float(-(-grown // 1)))] if day < hottest else []
    told = [(day.laying_c, day.end_gap_mm) for day in movement.other_days]
    yield from _same_days(subject, told, wanted, ENDS)


def gaps_of_other_days(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the least gap, and those of other days, follow from moisture."""
    surface = surface_of(plan)
    moist = surface.gaps_by_moisture
    if moist is None:
        return

    def least(day: float) -> Fraction:
        swelling = max(_number(moist.wettest_pct) - _number(day), Fraction(0))
        width = Fraction(ticks(surface.board_width_mm), 320)
        return _number(moist.open_least_mm) + width * _number(moist.movement_per_pct) * swelling

    planned = Fraction(ticks(surface.gap_least_mm), 320)
    if abs(planned - least(moist.laying_pct)) > Fraction(1, 320):
        yield Flaw(
            subject="surface.gap_least_mm",
            message="not what the moisture of laying day asks for",
            measured=float(planned),
            limit=float(least(moist.laying_pct)),
            unit="mm",
            source=GAPS,
        )
    wanted = [(float(day), float(-(-least(day) * 10 // 1) / 10)) for day in DAYS_PCT]
    told = [(day.laying_pct, day.gap_least_mm) for day in moist.others]
    yield from _same_days("surface.gaps_by_moisture.others", told, wanted, GAPS)


def _same_days(
    subject: str,
    told: list[tuple[float, float]],
    wanted: list[tuple[float, float]],
    source: Source,
) -> Iterator[Flaw]:
    if [day for day, _ in told] != [day for day, _ in wanted]:
        yield Flaw(subject=subject, message="not the days that are told", source=source)
        return
    for (day, found), (_, ought) in zip(told, wanted, strict=True):
        if found != ought:
            message = f"not the gap for a day of {day:g}"
            yield Flaw(subject=subject, message=message, measured=found, limit=ought, unit="mm",
                       source=source)  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-116", "gaps follow the moisture of laying day, and of others", gaps_of_other_days),
    ("AUD-421", "end gaps for other temperatures are enough", end_gaps_of_other_days),
)
