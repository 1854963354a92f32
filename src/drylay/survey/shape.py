"""How square the corners of an outline are, and which sides run off from the house."""

from collections.abc import Callable
from math import atan2, degrees, dist, radians, sin

import numpy as np

from drylay.survey.model import CornerAngle, Taper
from drylay.survey.network import Array, Net, Solved, spread_of
from drylay.survey.rounding import tenth, tenth_up
from drylay.survey.start import line_told

#: Sides nearer to the house's line than this run along it, and taper. Assumption.
ALONG_DEG = 15.0
#: Step of a slope taken by differences, in mm.
STEP_MM = 1e-3


def angles_of(
    net: Net, names: tuple[str, ...], solved: Solved, wide: float
) -> tuple[CornerAngle, ...]:
    """Return the angle inside each corner of the outline; `wide` is sigmas in an error bar."""
    ring = net.ring
    return tuple(
        _angle(names, solved, wide, (ring[at - 1], ring[at], ring[(at + 1) % len(ring)]))
        for at in range(len(ring))
    )


def _angle(
    names: tuple[str, ...], solved: Solved, wide: float, three: tuple[int, int, int]
) -> CornerAngle:
    def inside(places: Array) -> float:
        before, at, after = (places[i] for i in three)
        come, go = before - at, after - at
        turn = atan2(go[0] * come[1] - go[1] * come[0], go[0] * come[0] + go[1] * come[1])
        return float(degrees(turn) % 360.0)

    angle = inside(solved.places)
    off = (angle + 45.0) % 90.0 - 45.0
    sides = [dist(solved.places[three[1]], solved.places[i]) for i in (three[0], three[2])]
    return CornerAngle(
        corner=names[three[1]],
        angle_deg=round(angle, 3),
        error_deg=round(wide * _sigma(solved, inside) + 0.0005, 3),
        off_square_deg=round(round(off, 6), 3) + 0.0,
        off_mm=tenth(min(sides) * sin(radians(off))),
    )


def tapers_of(net: Net, names: tuple[str, ...], solved: Solved, wide: float) -> tuple[Taper, ...]:
    """Return how far each side but the house's, that runs along it, is off parallel to it."""
    ring, found = net.ring, []
    for line in zip(ring, (*ring[1:], ring[0]), strict=True):
        if set(line) == {0, net.base} or not _runs_along(solved.places, line):
            continue
        left, right = sorted(line, key=lambda at: float(solved.places[at][0]))

        def taper(places: Array, left: int = left, right: int = right) -> float:
            return float(places[right][1] - places[left][1])

        found.append(
            Taper(
                side=line_told(line, names),
                taper_mm=tenth(taper(solved.places)),
                error_mm=tenth_up(wide * _sigma(solved, taper)),
            )
        )
    return tuple(found)


def _runs_along(places: Array, line: tuple[int, int]) -> bool:
    way = places[line[1]] - places[line[0]]
    turned = degrees(atan2(way[1], way[0])) % 180.0
    return bool(min(turned, 180.0 - turned) <= ALONG_DEG)


def _sigma(solved: Solved, figure: Callable[[Array], float]) -> float:
    """Return the standard deviation of a figure of the places, its slopes taken by differences."""
    flat = solved.places.reshape(-1)
    slopes = np.zeros(len(flat))
    for at in range(len(flat)):
        step = np.zeros(len(flat))
        step[at] = STEP_MM
        more, less = (figure((flat + sign * step).reshape(-1, 2)) for sign in (1, -1))
        slopes[at] = (more - less) / (2 * STEP_MM)
    return spread_of(solved, slopes)
