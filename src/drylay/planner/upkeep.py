"""The year's upkeep of the boards, task by task, as their family's ruling tells it."""

from fractions import Fraction

from drylay.brief.model import Brief
from drylay.planner.asking import asking
from drylay.planner.job import Articles
from drylay.planner.rules import merchant_or_family
from drylay.plugins.model import FamilySet
from drylay.reasons import Ruling
from drylay.work.model import Upkeep

RULE, TIMES = "upkeep_h_m2_year", "_times_a_year"
#: Nothing is told as done more seldom than once in so many years.
MOST_YEARS = 10


def upkeep_asked(brief: Brief, articles: Articles, families: FamilySet) -> tuple[Upkeep, ...]:
    """Return what the boards' family asks for; nothing where none of its tasks is told."""
    ruling = merchant_or_family(asking(brief, articles, families), RULE)
    return upkeep_of(ruling) if isinstance(ruling, Ruling) else ()


def upkeep_of(ruling: Ruling) -> tuple[Upkeep, ...]:
    """Return the tasks that a ruling names among its inputs, with how often they are done."""
    return tuple(
        _task(name.removesuffix(TIMES), Fraction(repr(value)), ruling)
        for name, value in ruling.inputs
        if name.endswith(TIMES) and isinstance(value, int | float) and value > 0
    )


def _task(what: str, times: Fraction, ruling: Ruling) -> Upkeep:
    often = times.limit_denominator(MOST_YEARS)
    return Upkeep(
        what=what,
        times=max(often.numerator, 1),
        in_years=often.denominator if often else MOST_YEARS,
        source=ruling.source,
    )
