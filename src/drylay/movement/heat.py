"""How a length grows with its temperature, and the gap that board ends need for it."""

from collections.abc import Iterator
from fractions import Fraction

from drylay.counting import counted
from drylay.errors import Fault
from drylay.movement.bounds import refuse, shown, unfit, unfit_units
from drylay.movement.model import EndGap
from drylay.movement.rounding import STEP_320, exactly, up_to_step_mm
from drylay.reasons import Source

END_GAP_SOURCE = Source(
    kind="arithmetic",
    title="growth of a length with its temperature",
    clause="coefficient x kelvins x length, up to the next whole mm or 1/16 in",
)


@counted
def thermal_growth_mm(
    *, length_mm: float, growth_per_k: float, from_c: float, to_c: float
) -> float:
    """Return how much longer a length is at one temperature than at another; shorter is below 0.

    Raises:
        InputError: A number is not one of its kind.

    Source: physics; the coefficient is the board's own.
    """
    refuse(
        unfit("length", length_mm=length_mm),
        unfit("growth", growth_per_k=growth_per_k),
        unfit("board", from_c=from_c, to_c=to_c),
    )
    return float(_growth(length_mm, growth_per_k, from_c, to_c))


@counted
def end_gap(
    *,
    length_mm: float,
    growth_per_k: float,
    laying_c: float,
    hottest_c: float,
    coldest_c: float,
    least_mm: float = 0.0,
    units: str = "metric",
) -> EndGap:
    """Return the gap to lay between the ends of boards, from the temperature on laying day.

    What the longest board grows from laying to hottest, and what must still be open then, up
    to the next whole millimetre, or the next 1/16 in. A board is fixed at its own middle, so
    either neighbour sends half its growth into a gap, and none more than the longest.

    Args:
        length_mm: The longest board.
        growth_per_k: The board's coefficient, such as 40e-6.
        laying_c: The boards' temperature when they are laid.
        hottest_c: That of boards in the sun, not of air in the shade.
        coldest_c: That of boards in the coldest night.
        least_mm: What must still be open when they are hottest.
        units: "metric" or "imperial" steps.

    Raises:
        InputError: A number is not one of its kind, or the laying temperature does not lie
            between the coldest and the hottest.

    Source: arithmetic; the next whole step is common practice.
    """
    refuse(
        unfit("length", length_mm=length_mm),
        unfit("growth", growth_per_k=growth_per_k),
        unfit("board", laying_c=laying_c, hottest_c=hottest_c, coldest_c=coldest_c),
        unfit("gap", least_mm=least_mm),
        unfit_units(units),
    )
    refuse(_unordered(coldest_c, laying_c, hottest_c))
    growth = _growth(length_mm, growth_per_k, laying_c, hottest_c)
    laid_mm = up_to_step_mm(growth + exactly(least_mm), STEP_320[units])
    shrinkage = _growth(length_mm, growth_per_k, laying_c, coldest_c)
    return EndGap(
        length_mm=float(length_mm),
        growth_per_k=float(growth_per_k),
        laying_c=float(laying_c),
        hottest_c=float(hottest_c),
        coldest_c=float(coldest_c),
        growth_mm=float(growth),
        laid_mm=laid_mm,
        hottest_mm=float(exactly(laid_mm) - growth),
        coldest_mm=float(exactly(laid_mm) - shrinkage),
        source=END_GAP_SOURCE,
    )


def joint_gap_mm(
    *,
    laid_mm: float,
    neighbours_mm: tuple[float, float],
    growth_per_k: float,
    laying_c: float,
    now_c: float,
) -> float:
    """Return a joint's gap at a temperature: as laid, less half the growth of either neighbour.

    Each board is fixed at its own middle. Below 0 the boards press by so much.

    Raises:
        InputError: A number is not one of its kind, or there are not two neighbours.

    Source: arithmetic.
    """
    refuse(
        unfit("gap", laid_mm=laid_mm),
        _unfit_pair(neighbours_mm),
        unfit("growth", growth_per_k=growth_per_k),
        unfit("board", laying_c=laying_c, now_c=now_c),
    )
    between = (exactly(neighbours_mm[0]) + exactly(neighbours_mm[1])) / 2
    kelvins = exactly(now_c) - exactly(laying_c)
    return float(exactly(laid_mm) - between * exactly(growth_per_k) * kelvins)


def _growth(length_mm: float, growth_per_k: float, from_c: float, to_c: float) -> Fraction:
    return exactly(length_mm) * exactly(growth_per_k) * (exactly(to_c) - exactly(from_c))


def _unordered(coldest_c: float, laying_c: float, hottest_c: float) -> Iterator[Fault]:
    if hottest_c < laying_c:
        wanted = f"no colder than on laying day, {laying_c:g}"
        yield Fault(path="hottest_c", found=f"{hottest_c:g}", wanted=wanted)
    if coldest_c > laying_c:
        wanted = f"no hotter than on laying day, {laying_c:g}"
        yield Fault(path="coldest_c", found=f"{coldest_c:g}", wanted=wanted)


def _unfit_pair(neighbours_mm: object) -> Iterator[Fault]:
    if not isinstance(neighbours_mm, tuple | list) or len(neighbours_mm) != 2:
        wanted = "the lengths of the two boards that meet"
        yield Fault(path="neighbours_mm", found=shown(neighbours_mm), wanted=wanted)
        return
    for number, length_mm in enumerate(neighbours_mm):
        yield from unfit("length", **{f"neighbours_mm[{number}]": length_mm})
