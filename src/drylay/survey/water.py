"""Where water stands: lows of the ground, the level at which each runs over, ponds filled to it.

Water that reaches the outside of what was measured is gone: what lies beyond is not known. A low
on the outside may be part of a larger hollow, and that is told.

On flat triangles the lowest way from one point to another runs along their sides: where a side
dips to a level, one of its ends does, and the two lowest corners of a triangle are joined by a
side. So only points and sides are looked at.
"""

from collections.abc import Callable, Iterator
from heapq import heappop, heappush
from math import fsum

from attrs import frozen

from drylay.findings import Finding, Severity
from drylay.marks import exact
from drylay.survey.clipping import Shape, area_of, cut_off, volume_of
from drylay.survey.earth import corners_of
from drylay.survey.ground import place_of
from drylay.survey.model import Low, Pond, Ring, Surface
from drylay.survey.rounding import area_m2, litres_up, tenth, tenth_up
from drylay.survey.sources import SUM

#: A pond no deeper than levels are read to is none. Assumption.
DEEP_MM = 3.0
OUTSIDE = "over the edge of what was measured"


@frozen(kw_only=True)
class Web:
    """Points with those next to them, their levels in 1/320 mm, and which lie outside."""

    beside: tuple[tuple[int, ...], ...]
    level: tuple[int, ...]
    edge: frozenset[int]


def web_of(surface: Surface) -> Web:
    """Return the ground as points joined by sides."""
    beside: list[set[int]] = [set() for _ in surface.points]
    for three in surface.triangles:
        for at in three:
            beside[at] |= set(three) - {at}
    return Web(
        beside=tuple(tuple(sorted(each)) for each in beside),
        level=tuple(exact(point.level_mm) for point in surface.points),
        edge=frozenset(surface.edge),
    )


def lows_of(surface: Surface) -> tuple[Low, ...]:
    """Return every place that is lower than all ground beside it, the lowest first.

    Level ground counts as one place, told by the first of its points. On the edge of what was
    measured there is no level at which it runs over: nobody knows.
    """
    web = web_of(surface)
    flats = sorted(_flats(web), key=lambda flat: (web.level[flat[0]], flat))
    return tuple(_low(surface, web, flat, f"L{n}") for n, flat in enumerate(flats, 1))


def _flats(web: Web) -> Iterator[tuple[int, ...]]:
    """Yield the points of every level patch that no neighbour lies below."""
    seen: set[int] = set()
    for start in range(len(web.level)):
        if start in seen or not web.beside[start]:
            continue
        patch = reached(web, start, _level_with(web, web.level[start]))
        seen |= patch
        beside = {other for at in patch for other in web.beside[at]} - patch
        if all(web.level[other] > web.level[start] for other in beside):
            yield tuple(sorted(patch))


def _level_with(web: Web, level: int) -> Callable[[int], bool]:
    return lambda at: web.level[at] == level


def reached(web: Web, start: int, holds: Callable[[int], bool]) -> set[int]:
    """Return the points joined to a start by others of which something holds."""
    found, waiting = {start}, [start]
    while waiting:
        for other in web.beside[waiting.pop()]:
            if other not in found and holds(other):
                found.add(other)
                waiting.append(other)
    return found


def _low(surface: Surface, web: Web, flat: tuple[int, ...], name: str) -> Low:
    along, across = place_of(surface, flat[0])
    level = surface.points[flat[0]].level_mm
    if web.edge & set(flat):
        return Low(name=name, along_mm=along, across_mm=across, level_mm=level, on_edge=True)
    spill = _first_spill(web, flat)
    spill_along, spill_across = place_of(surface, spill)
    return Low(
        name=name, along_mm=along, across_mm=across, level_mm=level, on_edge=False,
        spill_mm=surface.points[spill].level_mm, spill_along_mm=spill_along,
        spill_across_mm=spill_across,
    )  # fmt: skip


def _first_spill(web: Web, flat: tuple[int, ...]) -> int:
    """Return the point over which water from a low first runs to lower ground, or out."""
    own = web.level[flat[0]]
    seen, heap = set(flat), [(own, at) for at in flat]
    highest = flat[0]
    while True:
        level, at = heappop(heap)
        if level > web.level[highest]:
            highest = at
        if at in web.edge or (level <= own and at not in flat):
            return highest
        for other in web.beside[at]:
            if other not in seen:
                seen.add(other)
                heappush(heap, (web.level[other], other))


def ponds_of(surface: Surface, lows: tuple[Low, ...]) -> tuple[Pond, ...]:
    """Return where water stands once all is full to running over, the largest first.

    Each pond is filled until it runs off, over the edge or to lower ground; ponds that join
    are one. One no deeper than 3 mm is none (assumption: levels are read no better).
    """
    web = web_of(surface)
    water, over = _filled(web)
    left = {at for at, level in enumerate(water) if level > web.level[at]}
    ponds = []
    while left:
        start = min(left)
        patch = reached(web, start, _stands_at(water, frozenset(left), water[start]))
        left -= patch
        pond = _pond(surface, web, lows, patch, over[start])
        if pond.depth_mm > DEEP_MM:
            ponds.append(pond)
    return tuple(sorted(ponds, key=lambda pond: (-pond.volume_m3, pond.lows)))


def _stands_at(water: list[int], left: frozenset[int], level: int) -> Callable[[int], bool]:
    return lambda at: at in left and water[at] == level


def _filled(web: Web) -> tuple[list[int], list[int]]:
    """Return the level that water stands at over every point when full, and where it runs over.

    Points are taken from the outside in, the lowest first (priority flood; Barnes, Lehman and Mulla
    2014, from memory).
    """
    water, over = list(web.level), list(range(len(web.level)))
    heap = sorted((web.level[at], at) for at in web.edge)
    seen = set(web.edge)
    while heap:
        level, at = heappop(heap)
        for other in web.beside[at]:
            if other not in seen:
                seen.add(other)
                if web.level[other] < level:
                    water[other], over[other] = level, over[at]
                heappush(heap, (water[other], other))
    return water, over


def _pond(
    surface: Surface, web: Web, lows: tuple[Low, ...], patch: set[int], spill: int
) -> Pond:  # fmt: skip
    top_mm = surface.points[spill].level_mm
    pieces = list(_under(surface, patch, top_mm))
    deepest = min(surface.points[at].level_mm for at in patch)
    spots = {place_of(surface, at) for at in patch}
    along, across = place_of(surface, spill)
    return Pond(
        lows=tuple(low.name for low in lows if (low.along_mm, low.across_mm) in spots),
        water_mm=top_mm,
        depth_mm=tenth_up(top_mm - deepest),
        area_m2=area_m2(fsum(map(area_of, pieces))),
        volume_m3=litres_up(fsum(map(volume_of, pieces))),
        spill_along_mm=along,
        spill_across_mm=across,
        spills_to=OUTSIDE if spill in web.edge else "on downhill",
        shore_mm=tuple(_ring(piece) for piece in pieces if area_of(piece) > 1.0),
    )


def _under(surface: Surface, patch: set[int], top_mm: float) -> Iterator[Shape]:
    """Yield what of each triangle at a pond's points lies under its water, with depths."""
    for three in surface.triangles:
        if patch & set(three):
            deep = tuple((x, y, top_mm - z) for x, y, z in corners_of(surface, three))
            piece = cut_off(deep, lambda spot: spot[2])
            if len(piece) > 2:
                yield piece


def _ring(piece: Shape) -> Ring:
    return tuple((tenth(x), tenth(y)) for x, y, _ in piece)


def water_findings(lows: tuple[Low, ...], ponds: tuple[Pond, ...]) -> Iterator[Finding]:
    """Yield what is told of standing water, and of lows whose surroundings nobody measured."""
    for pond in ponds:
        yield Finding(
            code="SVY-021", severity=Severity.CAUTION, subject=f"pond at {', '.join(pond.lows)}",
            message=f"water stands here up to {pond.depth_mm:g} mm deep over {pond.area_m2:g} m2, "
            f"{pond.volume_m3:g} m3, before it runs {pond.spills_to} at {pond.spill_along_mm:g} "
            f"along, {pond.spill_across_mm:g} across",
            measured=pond.depth_mm, limit=0.0, unit="mm", source=SUM,
        )  # fmt: skip
    for low in lows:
        if low.on_edge:
            yield Finding(
                code="SVY-022", severity=Severity.NOTE, subject=f"low {low.name}",
                message=f"the ground at {low.along_mm:g} along, {low.across_mm:g} across is lower "
                "than all measured beside it and lies on the edge: whether water runs on or stands "
                "there is not known; take levels further out",
                measured=low.level_mm, unit="mm", source=SUM,
            )  # fmt: skip
