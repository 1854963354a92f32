"""Where a field's edges lie: on a side of the outline that they nearly meet."""

from collections.abc import Iterator

from attrs import frozen

from drylay.geometry import SAME_MM, Place, Ring, region
from drylay.laying.fields import field_box, seams_of_field


@frozen(kw_only=True)
class FieldBox:
    """A field's rectangle: where it begins, and how far it reaches."""

    corner: Place
    size: Place


@frozen(kw_only=True)
class EdgeMoved:
    """An edge of a field laid elsewhere than wished: across which axis, and from where to where."""

    axis: int
    wished_mm: float
    laid_mm: float


@frozen(kw_only=True)
class EdgeClash:
    """An edge nearly in line with sides of the outline that leave the gap no one place.

    `off_mm` is how far it lies off the nearest of them.
    """

    axis: int
    wished_mm: float
    off_mm: float
    sides: tuple[int, ...]


@frozen(kw_only=True)
class EdgesLaid:
    """A field's rectangle as it is laid, what was moved of it, and what cannot be laid."""

    box: FieldBox
    moved: tuple[EdgeMoved, ...]
    clashes: tuple[EdgeClash, ...]


def edges_laid(ring: Ring, wished: FieldBox, *, gap_mm: float) -> EdgesLaid:
    """Return a field with its edges moved to sides of the outline nearer than a gap.

    The gap between two fields lies half on either side of an edge. Where a side of the outline
    continues an edge, at a corner that boards go round on one side of it, the boards on that side
    end on the side of the outline, and all of the gap lies beyond: the edge is moved by half a gap
    off the side. Only sides square to the axes count, and the ring runs from along towards across.
    Source: arithmetic.
    """
    moved: list[EdgeMoved] = []
    clashes: list[EdgeClash] = []
    low = list(wished.corner)
    high = [at + long for at, long in zip(wished.corner, wished.size, strict=True)]
    seams = seams_of_field(region(ring), field_box(wished.corner, wished.size))
    for axis in (0, 1):
        span = (wished.corner[1 - axis], wished.corner[1 - axis] + wished.size[1 - axis])
        for ends in (low, high):
            edge = ends[axis]
            if not any(_lies_on(seam, axis, edge) for seam in seams):
                continue  # nothing is parted there
            near = tuple(_near(ring, axis, edge, span, gap_mm))
            places = {_beside(ring, number, axis, gap_mm / 2) for number in near}
            if len(places) > 1:
                off = min(abs(edge - ring[number][axis]) for number in near)
                clashes.append(EdgeClash(axis=axis, wished_mm=edge, off_mm=off, sides=near))
            elif places and abs(edge - (laid := places.pop())) > SAME_MM:
                ends[axis] = laid
                moved.append(EdgeMoved(axis=axis, wished_mm=edge, laid_mm=laid))
    size = (high[0] - low[0], high[1] - low[1])
    return EdgesLaid(
        box=FieldBox(corner=(low[0], low[1]), size=size),
        moved=tuple(moved), clashes=tuple(clashes),
    )  # fmt: skip


def _lies_on(seam: tuple[Place, Place], axis: int, edge_mm: float) -> bool:
    return all(abs(end[axis] - edge_mm) <= SAME_MM for end in seam)


def _near(
    ring: Ring, axis: int, edge_mm: float, span: tuple[float, float], gap_mm: float
) -> Iterator[int]:
    """Yield the sides of an outline square to an axis that lie nearer to an edge than a gap."""
    for number, start in enumerate(ring):
        end = ring[(number + 1) % len(ring)]
        low, high = sorted((start[1 - axis], end[1 - axis]))
        square = abs(start[axis] - end[axis]) <= SAME_MM
        beside = span[0] - gap_mm < high and span[1] + gap_mm > low
        if square and beside and abs(edge_mm - start[axis]) < gap_mm - SAME_MM:
            yield number


def _beside(ring: Ring, number: int, axis: int, half_mm: float) -> float:
    """Return where the middle of a gap lies whose other side is in line with one of an outline."""
    start, end = ring[number], ring[(number + 1) % len(ring)]
    forward = end[1 - axis] > start[1 - axis]
    inside_above = forward == (axis == 1)  # the deck lies to the left of its sides
    return start[axis] - half_mm if inside_above else start[axis] + half_mm
