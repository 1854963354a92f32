"""How true a deck comes out, in closed form: its last edge, its joints' bearing, its level."""

from math import exp, pi, sqrt

from drylay.correcting.chance import (
    below,
    between,
    chance_down,
    quantile,
    sd_up,
    spread,
    tenth_down,
)
from drylay.correcting.model import BearingForecast, EdgeForecast, LevelForecast, Tolerances
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.marks import is_number

#: Strips that an integral over the normal distribution is cut into, from -8 to 8 sd.
STRIPS = 800
#: More rows, ends and points than these are slips. Assumption.
MOST_COUNT = 100_000


def sd_of(plus_minus_mm: float) -> float:
    """Return the sd of what lies anywhere within +- so much, each as likely: so much / sqrt 3."""
    return plus_minus_mm / sqrt(3)


@counted
def forecast_edge(
    rows: int, tolerances: Tolerances, *, wanted_mm: float = 0.0, limit_mm: float = 2.0
) -> EdgeForecast:
    """Return where the last edge lies if nobody measures on the way.

    Of n rows: sd^2 = n sw^2 + (n-1) sg^2 of what each has of its own, and (n bw)^2 + ((n-1) bg)^2
    of what batch and spacer share; errors of different causes add by their squares.
    `shared_mm` is n bw + (n-1) bg, both to one side.

    Raises:
        InputError: There are no rows, or a tolerance is negative or no number.

    Source: arithmetic, sums of independent errors.
    """
    _refuse(rows, "rows", tolerances)
    n, each = rows, tolerances
    alone = n * each.width_mm**2 + (n - 1) * each.gap_mm**2
    batch, spacer = n * each.batch_mm, (n - 1) * each.spacer_mm
    sd = sqrt(alone + batch**2 + spacer**2)
    return EdgeForecast(
        rows=rows,
        sd_alone_mm=sd_up(sqrt(alone)),
        shared_mm=sd_up(batch + spacer),
        spread=spread(wanted_mm, wanted_mm, sd, limit_mm=limit_mm),
    )


def forecast_bearing(
    bearing_mm: float,
    *,
    joist_sd_mm: float,
    end_sd_mm: float,
    least_mm: float,
    ends: int = 1,
    chance_ratio: float = 0.95,
) -> BearingForecast:
    """Return what a board's end bears, where joist and end each lie so far from their places.

    bearing = planned + joist's error + end's error, so sd^2 = joist^2 + end^2; with a chance p it
    is at least planned - z_p sd. All of `ends` bear the least with at least 1 - ends x (1 - p1).

    Raises:
        InputError: A figure is negative, or a chance is none.

    Source: arithmetic; the last is the bound that chances of failing add up to at most.
    """
    _refuse_figures(
        {"bearing_mm": bearing_mm, "joist_sd_mm": joist_sd_mm, "end_sd_mm": end_sd_mm,
         "least_mm": least_mm}, ends=ends, chance_ratio=chance_ratio,
    )  # fmt: skip
    sd = sqrt(joist_sd_mm**2 + end_sd_mm**2)
    one = below(bearing_mm - least_mm, sd)
    low = bearing_mm - quantile(chance_ratio) * sd if sd else bearing_mm
    return BearingForecast(
        expected_mm=bearing_mm,
        sd_mm=sd_up(sd),
        chance_ratio=chance_ratio,
        at_least_mm=max(0.0, tenth_down(low)),
        least_mm=least_mm,
        least_ratio=chance_down(one),
        ends=ends,
        all_ratio=chance_down(1 - ends * (1 - one)),
    )


def forecast_level(point_sd_mm: float, *, points: int = 2, limit_mm: float = 3.0) -> LevelForecast:
    """Return how far points that were each set so true lie out of level with one another.

    Two differ by sd sqrt 2 x that of one. The most among k points stays within r with
    k x the integral of phi(x) (Phi(x + r) - Phi(x))^(k - 1), worked out in strips.

    Raises:
        InputError: The sd is negative, or there are fewer than two points.

    Source: arithmetic, the range of normal values; 3 mm over a straightedge of 3 m by common
    practice, no source.
    """
    _refuse_figures({"point_sd_mm": point_sd_mm, "limit_mm": limit_mm}, points=points)
    sd = sqrt(2) * point_sd_mm
    return LevelForecast(
        points=points,
        sd_mm=sd_up(sd),
        limit_mm=limit_mm,
        two_ratio=chance_down(between(-limit_mm, limit_mm, sd)),
        all_ratio=chance_down(_range_within(limit_mm, point_sd_mm, points)),
    )


def _range_within(limit_mm: float, sd_mm: float, points: int) -> float:
    """Return the chance that normal values lie within `limit_mm` of one another: Simpson's rule."""
    if sd_mm <= 0:
        return 1.0
    reach, wide = limit_mm / sd_mm, 16.0 / STRIPS
    total = 0.0
    for at in range(STRIPS + 1):
        x = -8.0 + at * wide
        weight = 1 if at in (0, STRIPS) else 4 if at % 2 else 2
        density = exp(-x * x / 2) / sqrt(2 * pi)
        total += weight * density * (below(x + reach, 1.0) - below(x, 1.0)) ** (points - 1)
    return min(1.0, points * total * wide / 3)


def _refuse(count: int, name: str, tolerances: Tolerances) -> None:
    figures = {
        f"tolerances.{part}_mm": getattr(tolerances, f"{part}_mm")
        for part in ("width", "batch", "gap", "spacer", "tape")
    }
    _refuse_figures(figures, **{name: count})


def _refuse_figures(
    lengths_mm: dict[str, float], *, chance_ratio: float = 0.5, **counts: int
) -> None:
    """Raise with every length below nothing, every count that is none, and a chance that is none.

    Raises:
        InputError: There is one.
    """
    faults = [
        Fault(path=name, found=repr(value), wanted="a length of 0 mm or more, not over 1 km")
        for name, value in lengths_mm.items()
        if not is_number(value) or not 0.0 <= value <= 1e6
    ]
    for name, count in counts.items():
        least = 2 if name == "points" else 1
        if not isinstance(count, int) or not least <= count <= MOST_COUNT:
            wanted = f"a whole number, {least} to {MOST_COUNT}"
            faults.append(Fault(path=name, found=repr(count), wanted=wanted))
    if not is_number(chance_ratio) or not 0.0 < chance_ratio < 1.0:
        wanted = "a chance between 0 and 1, both left out"
        faults.append(Fault(path="chance_ratio", found=repr(chance_ratio), wanted=wanted))
    if faults:
        raise InputError(tuple(faults))
