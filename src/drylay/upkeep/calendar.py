"""The inspection calendar of one plan: hand-over, three months, springs and autumns, coats."""

from collections.abc import Iterator
from datetime import date, datetime
from hashlib import sha256

from drylay.counting import counted
from drylay.errors import Fault
from drylay.intake.days import LAST_YEAR
from drylay.intake.shown import shown
from drylay.plan.model import Plan
from drylay.upkeep.asked import refuse
from drylay.upkeep.days import AUTUMN, FIRST_MONTHS, SPRING, due_days, months_after, season_days
from drylay.upkeep.looked_at import (
    CLEAR,
    CLEARS,
    after_three_months,
    at_hand_over,
    each_season,
    rows_of,
    told,
)
from drylay.upkeep.model import Calendar, Item, Visit
from drylay.work.model import Upkeep

#: A family's tasks in words; others are told by the family's own.
TASKS = {
    "sweep": "Sweep, and clear the gaps",
    "wash": "Wash, without solvent",
    "brush": "Brush the strips up",
    "leaves": "Take leaves off, and clear the gaps",
    "moss": "Treat moss, with what is safe for the pile",
    "screws": "Drive screws home",
    "strip": "Replace the strips",
    "oil": "Oil or stain, when boards are dry",
    "post feet": "Probe posts at their feet",
    "ledger fixings": "Try the ledger's fixings",
    "braces": "Try the braces' bolts",
    "guard posts": "Push hard at every guard post",
    "drain": "Lift a tile to see the drain, and level pads",
}
#: Tasks that the inspection itself holds, with figures, whenever the plan has what they speak of.
HELD = ("post feet", "ledger fixings", "guard posts")
TITLES = {
    "hand_over": "Hand-over", "three_months": "Three months after hand-over",
    "spring": "Spring look", "autumn": "Autumn look", "task": "Upkeep of the boards",
}  # fmt: skip
ORDER = tuple(TITLES)
MOST_YEARS = 60


@counted
def inspection_calendar(
    plan: Plan,
    *,
    handed_over: date,
    years: int,
    spring: tuple[int, int] = SPRING,
    autumn: tuple[int, int] = AUTUMN,
) -> Calendar:
    """Return every day on which this deck is looked at, and what for, up to so many years on.

    Hand-over, three months later, then every spring and autumn; what the boards' family asks for
    falls on these as often as it says, and on days of its own where it is more often. Items are
    there only where the plan has what they speak of. `spring` and `autumn` are months and days.

    Raises:
        UpkeepError: The plan is blocked, or years or days make no sense: all faults at once.

    Source: common practice, no source, each figure with its own; the days are an assumption; the
    family's upkeep by its own source.
    """
    refuse(_faults(plan, handed_over, years, (spring, autumn)))
    seasons = season_days(handed_over, years, spring=spring, autumn=autumn)
    last = months_after(handed_over, 12 * years)
    first = months_after(handed_over, FIRST_MONTHS)
    items: dict[tuple[date, str], list[Item]] = {(handed_over, "hand_over"): [*at_hand_over(plan)]}
    if first <= last:
        items[first, "three_months"] = [*after_three_months(plan)]
    looks = {season: each_season(plan, season) for season in dict(seasons).values()}
    for day, season in seasons:
        items.setdefault((day, season), []).extend(looks[season])
    for task in _tasks(plan):
        item = _of_task(plan, task)
        for day in due_days(seasons, last, times=task.times, in_years=task.in_years):
            items.setdefault((day, dict(seasons).get(day, "task")), []).append(item)
    return Calendar(
        title=plan.title,
        plan_id=plan_id(plan),
        handed_over=handed_over,
        years=years,
        visits=tuple(_visits(items)),
    )


def plan_id(plan: Plan) -> str:
    """Return 32 hex digits that a plan is known by: of what it was made from, and its title."""
    told_of = "\n".join((plan.digests.brief, plan.digests.stock, plan.title))
    return sha256(told_of.encode()).hexdigest()[:32]


def _faults(
    plan: Plan, handed_over: object, years: object, seasons: tuple[object, object]
) -> Iterator[Fault]:
    if not plan.buildable or plan.work is None:
        yield Fault(path="plan", found="a blocked plan", wanted="a plan that can be built")
    whole = isinstance(years, int) and not isinstance(years, bool)
    known = whole and 1 <= years <= MOST_YEARS  # type: ignore[operator]
    yield from _hand_over(handed_over, int(years) if known else 0)  # type: ignore[call-overload]
    if not known:
        wanted = f"1 to {MOST_YEARS}, a whole number"
        yield Fault(path="years", found=shown(years), wanted=wanted)
    for name, day in zip(("spring", "autumn"), seasons, strict=True):
        if not _is_day(day):
            wanted, nearest = "a month and a day", "(4, 15)"
            yield Fault(path=name, found=repr(day), wanted=wanted, nearest=nearest)
    if seasons[0] == seasons[1]:
        yield Fault(path="autumn", found=repr(seasons[1]), wanted="another day than spring's")


def _hand_over(day: object, years: int) -> Iterator[Fault]:
    """Yield a fault where the hand-over is no day, or the last visits have no year."""
    if not isinstance(day, date) or isinstance(day, datetime):
        yield Fault(path="handed_over", found=shown(day), wanted="a date, a day without a time")
    elif day.year + years > LAST_YEAR:
        wanted = f"a day whose last year to look is {LAST_YEAR} or before"
        yield Fault(path="handed_over", found=day.isoformat(), wanted=wanted)


def _is_day(day: object) -> bool:
    try:
        date(2001, *day)  # type: ignore[misc]
    except (TypeError, ValueError):
        return False
    return True


def _tasks(plan: Plan) -> Iterator[Upkeep]:
    """Yield the family's tasks but those that the inspection holds itself."""
    for task in plan.work.upkeep if plan.work else ():
        if task.what not in HELD:
            yield task


def _of_task(plan: Plan, task: Upkeep) -> Item:
    often = {1: "once", 2: "twice"}.get(task.times, f"{task.times} times")
    span = "a year" if task.in_years == 1 else f"in {task.in_years} years"
    return Item(
        what=TASKS.get(task.what, task.what.capitalize()),
        where=told(rows_of(plan)),
        holds=(CLEAR,) if task.what in CLEARS else (),
        rule=f"as the boards' family has it: {often} {span}",
        source=task.source,
        who="anybody",
    )


def _visits(items: dict[tuple[date, str], list[Item]]) -> Iterator[Visit]:
    keys = sorted(items, key=lambda key: (key[0], ORDER.index(key[1])))
    for number, (day, kind) in enumerate(keys, 1):
        yield Visit(
            mark=f"V{number}", day=day, kind=kind, title=TITLES[kind], items=tuple(items[day, kind])
        )
