"""The fields of an outline: what a border, breaker boards and other fields leave of it."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import frozen

from drylay.geometry import (
    Place,
    Region,
    Ring,
    bounds,
    box,
    common,
    grown,
    inset,
    minus,
    parts_of,
    region,
    shared_edges,
    stretches,
    turned,
    whole,
)
from drylay.laying.axes import axes_of, placed, seen
from drylay.laying.rows import FAN_DEG, FLAT_MM


@frozen(kw_only=True)
class Edge:
    """A side of the outline as a field sees it: at its first or its last row, or neither.

    `alongside`: the field's boards run along it, or lean from it by no more than a fan.
    """

    alongside: bool
    first: bool
    last: bool


@frozen(kw_only=True)
class Breaker:
    """A breaker board across the main field: from where to where along the run it lies."""

    start_mm: float
    end_mm: float


def edges_seen(ring: Sequence[Place], angle_deg: float, first_row: str) -> tuple[Edge, ...]:
    """Return each side of an outline as boards at an angle see it.

    Source: docs/outline-conventions.md, Laying.
    """
    axes = axes_of(angle_deg)
    ends = [seen(axes, place) for place in ring]
    low, high = min(v for _, v in ends), max(v for _, v in ends)
    first, last = (low, high) if first_row == "near" else (high, low)
    least = math.tan(math.radians(FAN_DEG))
    found = []
    for (u1, v1), (u2, v2) in zip(ends, [*ends[1:], ends[0]], strict=True):
        flat = abs(v2 - v1) <= FLAT_MM < abs(u2 - u1)
        found.append(
            Edge(
                alongside=flat or abs(v2 - v1) <= least * abs(u2 - u1),
                first=flat and abs(v1 - first) <= FLAT_MM,
                last=flat and abs(v1 - last) <= FLAT_MM,
            )
        )
    return tuple(found)


def inside_border(
    ring: Sequence[Place],
    edges: Sequence[Edge],
    *,
    border_mm: float,
    end_gap_mm: float,
    gap_mm: float,
    ends_mm: tuple[float, float] = (0.0, 0.0),
) -> Region:
    """Return what a border leaves for the field inside it, gaps off.

    Boards stop an end gap short of it where they end, a row gap short where they lie alongside. At
    the sides of the first and the last row `ends_mm` are the gaps.
    """
    if not border_mm:
        return region(ring)
    off = off_sides(
        edges, border_mm=border_mm, end_gap_mm=end_gap_mm, gap_mm=gap_mm, ends_mm=ends_mm
    )
    return region(inset(ring, off))


def off_sides(
    edges: Sequence[Edge],
    *,
    border_mm: float,
    end_gap_mm: float,
    gap_mm: float,
    ends_mm: tuple[float, float] = (0.0, 0.0),
) -> list[float]:
    """Return how far off each side the field inside a border begins: the border, and a gap."""
    return [
        border_mm + (_alongside(edge, gap_mm, ends_mm) if edge.alongside else end_gap_mm)
        for edge in edges
    ]


def _alongside(edge: Edge, gap_mm: float, ends_mm: tuple[float, float]) -> float:
    return ends_mm[0] if edge.first else ends_mm[1] if edge.last else gap_mm


def field_box(corner: Place, size: Place) -> Region:
    """Return the rectangle of a field from its lowest corner and its sizes."""
    return box(corner[0], corner[1], corner[0] + size[0], corner[1] + size[1])


def without_fields(area: Region, others: Sequence[Region], half_gap_mm: float) -> Region:
    """Return an area less other fields, half a gap short of what each takes of it.

    Past the end of what a field takes, the area's own edge is kept.
    """
    left = area
    for other in others:
        taken = common(area, other)
        left = left if taken.is_empty else minus(left, grown(taken, half_gap_mm))
    return left


def within_field(area: Region, own: Region, half_gap_mm: float) -> Region:
    """Return the part of an area inside a field, half an end gap short of its edges.

    Where the field's edge lies on the area's own there is nothing to stop short of.
    """
    inner, beyond = common(area, own), minus(area, own)
    return inner if beyond.is_empty else minus(inner, grown(beyond, half_gap_mm))


def seams_of_field(area: Region, own: Region) -> tuple[tuple[Place, Place], ...]:
    """Return the stretches of a field's edges that part an area: over them board ends meet."""
    inner, beyond = common(area, own), minus(area, own)
    return tuple(line for part in parts_of(inner) for line in shared_edges(part, beyond))


def breakers_at(at_mm: Sequence[float], board_mm: float) -> tuple[Breaker, ...]:
    """Return breaker boards whose middles lie so far along the run."""
    half = board_mm / 2
    return tuple(Breaker(start_mm=at - half, end_mm=at + half) for at in sorted(at_mm))


def breakers_needed(
    area: Region, angle_deg: float, *, longest_mm: float, board_mm: float, gap_mm: float
) -> tuple[float, ...]:
    """Return where the fewest breaker boards lie that leave no row longer than `longest_mm`.

    They part the field's whole length along the run evenly, on millimetres where that leaves no
    stretch longer.
    """
    axes = axes_of(angle_deg)
    u1, _, u2, _ = bounds(turned(area, axes.cos_ratio, axes.sin_ratio))
    taken = board_mm + 2 * gap_mm
    count = max(0, math.ceil((u2 - u1 - longest_mm) / (longest_mm + taken) - 1e-9))
    clear = (u2 - u1 - count * taken) / (count + 1)
    even = [u1 + (at + 1) * clear + at * taken + taken / 2 for at in range(count)]
    told = [float(round(at)) for at in even]
    edges = [u1 - taken / 2, *told, u2 + taken / 2]
    fitting = all(b - a - taken <= longest_mm for a, b in pairwise(edges))
    return tuple(told if fitting else even)


def breaker_area(area: Region, angle_deg: float, breaker: Breaker, beyond_mm: float) -> Region:
    """Return the band of a breaker board inside an area, `beyond_mm` wider on either side."""
    axes = axes_of(angle_deg)
    _, v1, _, v2 = bounds(turned(area, axes.cos_ratio, axes.sin_ratio))
    band = box(breaker.start_mm - beyond_mm, v1 - 1, breaker.end_mm + beyond_mm, v2 + 1)
    return common(area, turned(band, axes.cos_ratio, -axes.sin_ratio))


def breaker_lies(
    area: Region,
    inside: Region,
    angle_deg: float,
    breaker: Breaker,
    *,
    gap_mm: float,
    least_mm: float,
) -> tuple[Region, Region]:
    """Return where a breaker board lies inside an area, and what it takes of a field around.

    Where a corner of the field only just reaches into its band, less than `least_mm` of a board's
    width, there is none: the field's boards run on to the corner.

    Source: docs/outline-conventions.md, Laying.
    """
    axes = axes_of(angle_deg)
    board = breaker_area(inside, angle_deg, breaker, 0.0)
    kept = []
    for part in parts_of(breaker_area(area, angle_deg, breaker, gap_mm)):
        boards = parts_of(turned(common(board, part), axes.cos_ratio, axes.sin_ratio))
        if any(u2 - u1 >= least_mm for u1, _, u2, _ in map(bounds, boards)):
            kept.append(part)
    taken = whole(kept)
    return common(board, taken), taken


def breaker_seams(
    area: Region, angle_deg: float, breaker: Breaker, others: Sequence[Region] = ()
) -> tuple[tuple[Place, Place], ...]:
    """Return the lines under a breaker board's two edges, across an area but for other fields."""
    axes = axes_of(angle_deg)
    _, v1, _, v2 = bounds(turned(area, axes.cos_ratio, axes.sin_ratio))
    if not others:
        lines = (((at, v1), (at, v2)) for at in (breaker.start_mm, breaker.end_mm))
        return tuple((placed(axes, one), placed(axes, other)) for one, other in lines)
    left = without_fields(area, others, 0.0)
    return tuple(
        (placed(axes, (at, v1 + low)), placed(axes, (at, v1 + high)))
        for at in (breaker.start_mm, breaker.end_mm)
        for low, high in stretches(left, placed(axes, (at, v1)), placed(axes, (at, v2)))
    )


def inner_edges(
    ring: Sequence[Place], edges: Sequence[Edge], border_mm: float
) -> tuple[tuple[Place, Place], ...]:
    """Return a border's inner edge along each side that boards of the field end at."""
    inner: Ring = inset(ring, [border_mm] * len(ring))
    return tuple(
        (inner[at], inner[(at + 1) % len(inner)])
        for at, edge in enumerate(edges)
        if not edge.alongside
    )


def zones_in(area: Region) -> tuple[Region, ...]:
    """Return the parts of a field, from the corner nearest the datum on."""
    return tuple(sorted(parts_of(area), key=lambda part: (bounds(part)[0], bounds(part)[1])))


def rung_lines(
    area: Region, zone: str, *, across: bool, most_mm: float
) -> Iterator[tuple[Place, Place, str]]:
    """Yield lines across joists that part an area evenly, no further apart than `most_mm`.

    `across`: joists run away from the house, and the lines along it.
    """
    x1, y1, x2, y2 = bounds(area)
    low, high = (y1, y2) if across else (x1, x2)
    bays = max(1, math.ceil((high - low) / most_mm - 1e-9))
    for at in (low + (high - low) * bay / bays for bay in range(1, bays)):
        yield ((x1, at), (x2, at), zone) if across else ((at, y1), (at, y2), zone)
