"""The way water takes downhill over flat triangles, from one place to where it ends."""

from math import hypot

from drylay.marks import exact
from drylay.survey.clipping import slope_of
from drylay.survey.earth import corners_of
from drylay.survey.ground import level_at, place_of
from drylay.survey.model import Flow, Low, Place, Surface
from drylay.survey.rounding import tenth
from drylay.survey.triangles import turn
from drylay.survey.water import OUTSIDE, Web, reached, web_of

#: A way of more turns than this many a triangle is none.
TURNS = 10
#: Ground that falls less than this is level: 1 in a million.
LEVEL = 1e-6
Three = tuple[int, int, int]
Side = tuple[int, int]
#: A step: how steep, where to, and what is met there: a point (one number) or a side (two).
Step = tuple[float, Place, tuple[int, ...]]


def flow_path(
    surface: Surface, along_mm: float, across_mm: float, lows: tuple[Low, ...] = ()
) -> Flow | None:
    """Return the way water takes downhill from a place; None beyond the points.

    It runs the steepest way down each triangle, along the bottom where two lean together, and
    ends at a low, on level ground, or at the edge of what was measured.
    """
    level = level_at(surface, along_mm, across_mm)
    if level is None:
        return None
    web = web_of(surface)
    place, met = (float(along_mm), float(across_mm)), _met(surface, along_mm, across_mm)
    path, levels = [place], [level]
    for _ in range(TURNS * len(surface.triangles)):
        step = _next(surface, web, place, met)
        if step is None:
            break
        _, place, met = step
        path.append(place)
        levels.append(_level_of(surface, place, met))
        if len(met) > 1 and _is_outside(surface, met):  # out over the side: gone
            break
    return Flow(
        path_mm=tuple((tenth(x), tenth(y)) for x, y in path),
        levels_mm=tuple(tenth(each) for each in levels),
        ends=_end(surface, web, place, met, lows),
    )


def _met(surface: Surface, along_mm: float, across_mm: float) -> tuple[int, ...]:
    """Return what a place lies on: a point, a side or a triangle."""
    spot = (exact(along_mm), exact(across_mm))
    held = []
    for three in surface.triangles:
        a, b, c = ((exact(x), exact(y)) for x, y in (place_of(surface, at) for at in three))
        parts = (turn(spot, b, c), turn(a, spot, c), turn(a, b, spot))
        if min(parts) >= 0:
            held.append(tuple(at for at, part in zip(three, parts, strict=True) if part))
    return min(held, key=len)


def _next(surface: Surface, web: Web, place: Place, met: tuple[int, ...]) -> Step | None:
    """Return the steepest step down from where water is; None where there is none."""
    steps = [*_down_triangles(surface, place, met), *_down_sides(surface, web, place, met)]
    return max(steps, key=lambda step: step[0], default=None)


def _down_triangles(surface: Surface, place: Place, met: tuple[int, ...]) -> list[Step]:
    found = []
    for three in surface.triangles:
        if set(met) <= set(three):
            step = _across(surface, three, place, met)
            if step is not None:
                found.append(step)
    return found


def _across(surface: Surface, three: Three, place: Place, met: tuple[int, ...]) -> Step | None:
    """Return where water that runs straight down a triangle leaves it; None if it does not."""
    rise = slope_of(corners_of(surface, three))
    steep = hypot(*rise)
    if steep < LEVEL:
        return None
    away = (-rise[0] / steep, -rise[1] / steep)
    best: tuple[float, Side] | None = None
    for a, b in zip(three, (*three[1:], three[0]), strict=True):
        (ax, ay), (bx, by) = place_of(surface, a), place_of(surface, b)
        long = hypot(bx - ax, by - ay)
        inwards = ((bx - ax) * away[1] - (by - ay) * away[0]) / long
        if len(met) < 3 and set(met) <= {a, b}:
            if inwards <= LEVEL:  # it runs out over this side, not into the triangle
                return None
        elif inwards < 0:
            off = ((bx - ax) * (place[1] - ay) - (by - ay) * (place[0] - ax)) / long
            reach = max(off, 0.0) / -inwards
            if best is None or reach < best[0]:
                best = (reach, (a, b))
    if best is None:
        return None
    spot = (place[0] + away[0] * best[0], place[1] + away[1] * best[0])
    return (steep, *_settled(surface, spot, best[1]))


def _settled(surface: Surface, spot: Place, side: Side) -> tuple[Place, tuple[int, ...]]:
    """Return a place on a side, moved to its end where it all but meets that."""
    for at in side:
        x, y = place_of(surface, at)
        if hypot(spot[0] - x, spot[1] - y) < 0.01:
            return (x, y), (at,)
    return spot, side


def _down_sides(surface: Surface, web: Web, place: Place, met: tuple[int, ...]) -> list[Step]:
    """Return the ways down along the sides that water is on, or that end where it is."""
    if len(met) == 2:
        ends: tuple[int, ...] = met
    else:
        ends = web.beside[met[0]] if len(met) == 1 else ()
    here = _level_of(surface, place, met) if ends else 0.0
    found: list[Step] = []
    for end in ends:
        x, y = place_of(surface, end)
        long = hypot(x - place[0], y - place[1])
        steep = (here - surface.points[end].level_mm) / (long or 1.0)
        if steep > LEVEL:
            found.append((steep, (x, y), (end,)))
    return found


def _level_of(surface: Surface, place: Place, met: tuple[int, ...]) -> float:
    """Return the level of a place on a point or side."""
    if len(met) == 1:
        return surface.points[met[0]].level_mm
    (ax, ay), (bx, by) = (place_of(surface, at) for at in met[:2])
    share = hypot(place[0] - ax, place[1] - ay) / hypot(bx - ax, by - ay)
    low, high = (surface.points[at].level_mm for at in met[:2])
    return low + (high - low) * share


def _end(
    surface: Surface, web: Web, place: Place, met: tuple[int, ...], lows: tuple[Low, ...]
) -> str:
    """Return where a way ends: a low's name, the edge, or level ground."""
    at_level = exact(_level_of(surface, place, met)) if len(met) < 3 else None
    if at_level is not None and at_level == web.level[met[0]]:
        flat = reached(web, met[0], lambda at: web.level[at] == at_level)
        spots = {place_of(surface, at) for at in flat}
        for low in lows:
            if (low.along_mm, low.across_mm) in spots and not low.on_edge:
                return low.name
    if len(met) < 3 and set(met) <= web.edge and _is_outside(surface, met):
        return OUTSIDE
    return "level ground"


def _is_outside(surface: Surface, met: tuple[int, ...]) -> bool:
    """Whether a point, or a side, lies on the outside: such a side bounds one triangle only."""
    return len(met) == 1 or sum(set(met) <= set(three) for three in surface.triangles) == 1
