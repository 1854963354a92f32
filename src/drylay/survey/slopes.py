"""How steep the ground is within an outline, and lines of one level."""

from math import atan2, ceil, degrees, dist, fsum, hypot

from drylay.findings import Finding, Severity
from drylay.survey.clipping import Shape, area_of, slope_of
from drylay.survey.clipping import within_triangle as over
from drylay.survey.earth import NOTHING_MM2, corners_of
from drylay.survey.faults import outline_fits, refuse
from drylay.survey.model import Contour, Fall, Place, Ring, Slopes, Surface
from drylay.survey.rounding import part, part_up, tenth
from drylay.survey.sources import PRACTICE, SLOPE

#: A triangle so low over its longest side tells nothing across it; the same as for a deck's ground.
#: Assumption.
HIGH_MM = 300.0
#: Between points nearer than HIGH_MM only a rise of so much is a slope. Assumption.
RISE_MM = 150.0
#: Contours lie so far apart, the least that gives no more than MOST_CONTOURS.
INTERVALS_MM = (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0)
MOST_CONTOURS = 12
Steep = tuple[float, Place]


def slopes_within(surface: Surface, area: Ring) -> tuple[Slopes | None, tuple[Finding, ...]]:
    """Return how steep the ground is within an outline; None where none of it was measured.

    The mean is that of the ground as a whole: the way and the ratio in which it falls. The steepest
    is that of any triangle, or between two points next to each other. Ground steeper than 1 in 4
    stops to a professional (common practice, no source).

    Raises:
        InputError: Places that make no outline.
    """
    refuse(outline_fits(area))
    held = [
        (corners, size)
        for three in surface.triangles
        if abs(size := area_of(over(area, corners := corners_of(surface, three)))) > NOTHING_MM2
    ]
    if not held:
        return None, ()
    whole = fsum(abs(size) for _, size in held)
    along, across = (fsum(slope_of(c)[way] * abs(s) for c, s in held) / whole for way in (0, 1))
    steepest, place = max(steep for corners, _ in held for steep in _steeps(corners))
    mean = hypot(along, across)
    slopes = Slopes(
        mean_ratio=part(mean),
        falls_deg=round(degrees(atan2(-across, -along)) % 360.0, 1) if part(mean) else None,
        steepest_ratio=part_up(steepest),
        along_mm=tenth(place[0]),
        across_mm=tenth(place[1]),
    )
    return slopes, _findings(slopes)


def _is_wide(corners: Shape) -> bool:
    """Whether a triangle is high enough over its longest side to tell how it slopes across it."""
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    return 2 * area_of(corners) >= HIGH_MM * max(dist(a[:2], b[:2]) for a, b in sides)


def _steeps(corners: Shape) -> list[Steep]:
    """Return how steep a triangle is, where that can be told, and each of its sides."""
    found = [(0.0, (corners[0][0], corners[0][1]))]
    for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
        long, rise = dist(a[:2], b[:2]), abs(a[2] - b[2])
        if long >= HIGH_MM or rise >= RISE_MM:
            found.append((rise / long, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)))
    if _is_wide(corners):
        middle = (fsum(c[0] for c in corners) / 3, fsum(c[1] for c in corners) / 3)
        found.append((hypot(*slope_of(corners)), middle))
    return found


def _findings(slopes: Slopes) -> tuple[Finding, ...]:
    if slopes.steepest_ratio <= SLOPE:
        return ()
    return (
        Finding(
            code="SVY-030", severity=Severity.STOP, subject="ground",
            message=f"steeper than 1 in 4 near {slopes.along_mm:g} along, {slopes.across_mm:g} "
            "across: earth may move, ask a professional",
            measured=slopes.steepest_ratio, limit=SLOPE, unit="rise over run", source=PRACTICE,
        ),
    )  # fmt: skip


def falls_of(surface: Surface) -> tuple[Fall, ...]:
    """Return which way each triangle of ground falls; level and slender ones are left out."""
    found = []
    for three in surface.triangles:
        corners = corners_of(surface, three)
        along, across = slope_of(corners)
        steep = hypot(along, across)
        if part(steep) and _is_wide(corners):
            found.append(
                Fall(
                    along_mm=tenth(fsum(c[0] for c in corners) / 3),
                    across_mm=tenth(fsum(c[1] for c in corners) / 3),
                    falls_deg=round(degrees(atan2(-across, -along)) % 360.0, 1),
                    fall_ratio=part(steep),
                )
            )
    return tuple(found)


def contours_of(surface: Surface) -> tuple[Contour, ...]:
    """Return the lines of equal level of the ground, at a whole interval."""
    levels = [point.level_mm for point in surface.points]
    low, high = min(levels), max(levels)
    apart = next((i for i in INTERVALS_MM if (high - low) / i <= MOST_CONTOURS), INTERVALS_MM[-1])
    first = ceil(low / apart)
    wanted = [n * apart for n in range(first, int(high // apart) + 1)]
    found = ((level, tuple(_lines(surface, level))) for level in wanted)
    return tuple(Contour(level_mm=level, lines_mm=lines) for level, lines in found if lines)


def _lines(surface: Surface, level_mm: float) -> list[tuple[Place, Place]]:
    found = []
    for three in surface.triangles:
        corners = corners_of(surface, three)
        ends = sorted({
            end
            for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
            if (end := _crossing(a, b, level_mm)) is not None
        })  # fmt: skip
        if len(ends) > 1:
            found.append((ends[0], ends[-1]))
    return found


def _crossing(
    a: tuple[float, float, float], b: tuple[float, float, float], level_mm: float
) -> Place | None:
    """Return where a side passes a level; its upper end counts, its lower does not."""
    low, high = sorted((a, b), key=lambda spot: (spot[2], spot))
    if not low[2] < level_mm <= high[2]:
        return None
    share = (level_mm - low[2]) / (high[2] - low[2])
    return (tenth(low[0] + (high[0] - low[0]) * share), tenth(low[1] + (high[1] - low[1]) * share))
