"""The ground beside an edge, cut to what counts: exact along the edge, nothing sampled."""

from collections.abc import Callable
from math import hypot

from attrs import frozen

from drylay.guards.model import Edge, Facet

#: Ground within this of a line is taken to reach it: places are told to 1/320 mm and turned.
REACH_MM = 1.0
#: Kinds of sides where nobody falls off, or another barrier is ruled.
CLOSED = ("house", "pool")
Point = tuple[float, float, float]
Span = tuple[float, float]


@frozen(kw_only=True)
class Slope:
    """A side of a patch of ground beside an edge: from where to where along it, and its levels."""

    from_mm: float
    to_mm: float
    from_level_mm: float
    to_level_mm: float


@frozen(kw_only=True)
class Beside:
    """The ground beside an edge: sides of its patches, and where it is known, at it and out."""

    slopes: tuple[Slope, ...]
    at_edge: tuple[Span, ...]
    at_reach: tuple[Span, ...]


def edge_mm(edge: Edge) -> float:
    """Return an edge's length."""
    return hypot(edge.end.along_mm - edge.start.along_mm, edge.end.across_mm - edge.start.across_mm)


def ground_beside(edge: Edge, facets: tuple[Facet, ...], out_mm: float) -> Beside:
    """Return the ground from an edge to so far out, square to it.

    On flat patches the lowest level at any place along the edge lies on a patch's side, so the
    sides tell everything.
    """
    patches = [patch for facet in facets if (patch := _patch(edge, facet, out_mm))]
    sides = [pair for patch in patches for pair in zip(patch, patch[1:] + patch[:1], strict=True)]
    return Beside(
        slopes=tuple(_slope(*pair) for pair in sides),
        at_edge=_spans([patch for patch in patches if _meets(patch, 0.0)], 0.0),
        at_reach=_spans([patch for patch in patches if _meets(patch, out_mm)], out_mm),
    )


def united(spans: tuple[Span, ...], *, slack_mm: float = 0.0) -> tuple[Span, ...]:
    """Return spans put together where they touch, or lie no more than the slack apart."""
    found: list[Span] = []
    for start, end in sorted(spans):
        if found and start <= found[-1][1] + slack_mm:
            found[-1] = (found[-1][0], max(found[-1][1], end))
        else:
            found.append((start, end))
    return tuple(found)


def without(span: Span, taken: tuple[Span, ...]) -> tuple[Span, ...]:
    """Return what of a span is left beside others."""
    left, at = [], span[0]
    for start, end in united(taken):
        if start > at:
            left.append((at, min(start, span[1])))
        at = max(at, end)
    left.append((at, span[1]))
    return tuple((start, end) for start, end in left if end > start)


def _patch(edge: Edge, facet: Facet, out_mm: float) -> list[Point]:
    """Return what of a facet lies beside an edge: along it, out from it, level."""
    points = _in_edge(edge, facet)
    length = edge_mm(edge)
    for axis, limit, sign in ((0, 0.0, 1), (0, length, -1), (1, -REACH_MM, 1), (1, out_mm, -1)):
        points = _clipped(points, axis, limit, sign)
    return points


def _in_edge(edge: Edge, facet: Facet) -> list[Point]:
    length = edge_mm(edge)
    x = (edge.end.along_mm - edge.start.along_mm) / length
    y = (edge.end.across_mm - edge.start.across_mm) / length
    found = []
    for spot in facet.corners:
        dx, dy = spot.along_mm - edge.start.along_mm, spot.across_mm - edge.start.across_mm
        found.append((dx * x + dy * y, dx * y - dy * x, spot.level_mm))
    return found


def cut(points: list[Point], over: Callable[[Point], float]) -> list[Point]:
    """Return the corners of what of a flat figure is left where `over` is not below 0."""
    kept: list[Point] = []
    for at, point in enumerate(points):
        here, was = over(point), over(points[at - 1])
        if here * was < 0:
            kept.append(_between(points[at - 1], point, was / (was - here)))
        if here >= 0:
            kept.append(point)
    return kept


def _clipped(points: list[Point], axis: int, limit: float, sign: int) -> list[Point]:
    return cut(points, lambda point: sign * (point[axis] - limit))


def _between(one: Point, other: Point, share: float) -> Point:
    x, y, z = (a + (b - a) * share for a, b in zip(one, other, strict=True))
    return x, y, z


def _slope(one: Point, other: Point) -> Slope:
    first, last = sorted((one, other))
    return Slope(from_mm=first[0], to_mm=last[0], from_level_mm=first[2], to_level_mm=last[2])


def _meets(patch: list[Point], out_mm: float) -> bool:
    nearest, furthest = min(p[1] for p in patch), max(p[1] for p in patch)
    return nearest <= out_mm + REACH_MM and furthest >= out_mm - REACH_MM


def _spans(patches: list[list[Point]], out_mm: float) -> tuple[Span, ...]:
    """Return where patches are known along a line that runs beside the edge."""
    spans = []
    for patch in patches:
        near = [p[0] for p in _band(patch, out_mm)]
        if near:
            spans.append((min(near), max(near)))
    return united(tuple(spans), slack_mm=REACH_MM)


def _band(patch: list[Point], out_mm: float) -> list[Point]:
    low = _clipped(patch, 1, out_mm - REACH_MM, 1)
    return _clipped(low, 1, out_mm + REACH_MM, -1)
