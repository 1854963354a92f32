"""Days of visits: months after a day, springs and autumns, and when a year's tasks fall due."""

from calendar import monthrange
from collections.abc import Iterable
from datetime import date, timedelta

#: The middle of April and of October, where it is spring in April. Assumption.
SPRING, AUTUMN = (4, 15), (10, 15)
#: When screws are driven home for the first time. Common practice, no source.
FIRST_MONTHS = 3
#: A task due so few days from a spring or autumn visit is done then. Assumption.
NEAR_DAYS = 31


def months_after(day: date, months: int) -> date:
    """Return the same day so many months on, or the last one of a month that is shorter."""
    count = day.year * 12 + day.month - 1 + months
    year, month = divmod(count, 12)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def season_days(
    handed_over: date, years: int, *, spring: tuple[int, int], autumn: tuple[int, int]
) -> tuple[tuple[date, str], ...]:
    """Return every spring and autumn day after the hand-over, up to so many years after it."""
    last = months_after(handed_over, 12 * years)
    found = [
        (date(year, *day), name)
        for year in range(handed_over.year, last.year + 1)
        for day, name in ((spring, "spring"), (autumn, "autumn"))
    ]
    return tuple(sorted(its for its in found if handed_over < its[0] <= last))


def due_days(
    seasons: Iterable[tuple[date, str]], last: date, *, times: int, in_years: int
) -> tuple[date, ...]:
    """Return the days on which a task falls due that is done `times` in so many years.

    Twice a year it is every spring and autumn, once in some years every nth spring. What does
    not fall on these is counted in equal steps from the first spring, and done at a season's
    visit where one lies within `NEAR_DAYS`.
    """
    visits = [day for day, _ in seasons]
    springs = [day for day, name in seasons if name == "spring"]
    if (times, in_years) == (2, 1):
        return tuple(visits)
    if times == 1:
        return tuple(springs[in_years - 1 :: in_years])
    if not springs:
        return ()
    step_days = 365.25 * in_years / times
    found, count = [springs[0]], 1
    while (day := springs[0] + timedelta(days=int(count * step_days + 0.5))) <= last:
        found.append(_at_visit(day, visits))
        count += 1
    return tuple(found)


def _at_visit(day: date, visits: list[date]) -> date:
    """Return the visit nearest to a day, or the day itself where none is near."""
    nearest = min(visits, key=lambda visit: abs(visit - day))
    return nearest if abs((nearest - day).days) <= NEAR_DAYS else day
