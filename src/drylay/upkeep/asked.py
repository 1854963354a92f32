"""Figures of a question: told as faults where they are no numbers, or cannot be meant."""

from collections.abc import Iterable, Iterator

from drylay.errors import Fault
from drylay.intake.shown import shown
from drylay.marks import is_number
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.upkeep.parts import UpkeepError

#: No spot of a deck lies so far from its datum corner. Assumption.
FARTHEST_MM = 1_000_000
#: Of a plan whose reasons do not tell who set its gaps.
LIMITS = Source(kind="assumption", title="the plan's own limits of gaps", clause="surface")


def figure_faults(
    path: str, value: object, low: float, high: float, unit: str = "mm"
) -> Iterator[Fault]:
    """Yield a fault where a value is no number from `low` to `high`; NaN is none."""
    if not is_number(value):
        yield Fault(path=path, found=shown(value), wanted=f"a number, {low:g} to {high:g} {unit}")
    elif not low <= value <= high:
        yield Fault(path=path, found=f"{value:g}", wanted=f"{low:g} to {high:g} {unit}")


def place_faults(places: Iterable[tuple[str, object]]) -> Iterator[Fault]:
    """Yield a fault for each place that is no number, or lies off every deck."""
    for path, value in places:
        yield from figure_faults(path, value, -FARTHEST_MM, FARTHEST_MM)


def refuse(faults: Iterable[Fault]) -> None:
    """Raise one error of all faults, if there are any."""
    found = tuple(faults)
    if found:
        raise UpkeepError(found)


def limit_source(plan: Plan, path: str) -> Source:
    """Return who set a limit of the plan."""
    found = (its.source for its in plan.reasons.decisions if its.path == path)
    return next(found, LIMITS)
