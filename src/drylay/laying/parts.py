"""The parts of a row where boards lie, before joints: each with its corners and its ends."""

import math
from collections.abc import Iterable, Iterator, Sequence

from attrs import frozen

from drylay.geometry import (
    Place,
    Region,
    Ring,
    area_mm2,
    bounds,
    box,
    common,
    hole_rings,
    minus,
    parts_of,
    region,
    ring_of,
    shared_across,
    turned,
)
from drylay.laying.axes import Axes, placed, seen
from drylay.laying.cut_back import JUST_MM, beyond, ends_cut_back, pinches
from drylay.laying.model import LaidRow
from drylay.marks import exact, to_mm

#: How far past everything a row is drawn out before it is cut to the field.
BEYOND_MM = 1e6


@frozen(kw_only=True)
class Band:
    """A row as a straight strip: its axes, and between which distances to their left it lies."""

    row: str
    axes: Axes
    low_mm: float
    high_mm: float


@frozen(kw_only=True)
class Part:
    """A stretch of a row in one piece: corners along the run and left of it, in the band's axes."""

    band: Band
    ring: Ring

    @property
    def start_mm(self) -> float:
        """Return where its first tip lies along the run."""
        return min(u for u, _ in self.ring)

    @property
    def end_mm(self) -> float:
        """Return where its last tip lies along the run."""
        return max(u for u, _ in self.ring)


@frozen(kw_only=True)
class End:
    """How an end of a part is sawn: off square by so much, or not in one straight cut."""

    saw_deg: float
    straight: bool


def band_of(row: LaidRow, *, first_row: str) -> Band:
    """Return the strip that a row's boards lie in."""
    (x1, y1), (x2, y2) = (
        (row.start.along_mm, row.start.across_mm),
        (row.end.along_mm, row.end.across_mm),
    )
    long = math.dist((x1, y1), (x2, y2))
    axes = Axes(cos_ratio=(x2 - x1) / long, sin_ratio=(y2 - y1) / long)
    edge = y1 * axes.cos_ratio - x1 * axes.sin_ratio
    low, high = (edge, edge + row.width_mm) if first_row == "near" else (edge - row.width_mm, edge)
    return Band(row=row.mark, axes=axes, low_mm=low, high_mm=high)


def parts_in(
    band: Band, area: Region, openings: Iterable[Sequence[Place]], *, end_gap_mm: float
) -> tuple[Part, ...]:
    """Return the parts of a band inside an area and outside all openings, along the run.

    No board is threaded over what stands in an opening: where a hole lies wholly inside a row the
    row is parted at the hole's middle, by an end gap; by as much where one, or a corner of the
    area, parts it by less.
    """
    zone = turned(area, band.axes.cos_ratio, band.axes.sin_ratio)
    low, high = band.low_mm, band.high_mm
    holes = [tuple(seen(band.axes, place) for place in opening) for opening in openings]
    left = common(zone, box(-BEYOND_MM, low, BEYOND_MM, high))
    if left.is_empty:
        return ()
    for hole in holes:
        left = minus(left, region(hole))
        for end in ends_cut_back(zone, hole, low, high, end_gap_mm):
            left = minus(left, region(end))
    parting = [hole for hole in holes if not all(low < v < high for _, v in hole)]
    for shape in (*parting, *beyond(zone, low, high)):
        for middle in pinches(shape, low, high, end_gap_mm):
            left = minus(left, box(middle - end_gap_mm / 2, low, middle + end_gap_mm / 2, high))
    found = [part for each in parts_of(left) for part in _unthreaded(each, band, end_gap_mm)]
    parts = [Part(band=band, ring=ring) for ring in found if area_mm2(ring) > 1]
    return tuple(sorted(parts, key=lambda part: (part.start_mm, part.end_mm)))


def _unthreaded(part: Region, band: Band, end_gap_mm: float) -> Iterator[Ring]:
    for polygon in parts_of(part):
        slit: Region = polygon
        for hole in hole_rings(polygon):
            u1, _, u2, _ = bounds(region(hole))
            middle, half = (u1 + u2) / 2, max(end_gap_mm / 2, 0.25)
            slit = minus(slit, box(middle - half, band.low_mm, middle + half, band.high_mm))
        yield from (ring_of(each) for each in parts_of(slit))


def between(part: Part, start_mm: float | None, end_mm: float | None) -> Part:
    """Return what of a part lies between two square cuts; None leaves its own end."""
    low = -BEYOND_MM if start_mm is None else start_mm
    high = BEYOND_MM if end_mm is None else end_mm
    cut = common(region(part.ring), box(low, part.band.low_mm - 1, high, part.band.high_mm + 1))
    largest = max(parts_of(cut), key=lambda each: each.area)
    return Part(band=part.band, ring=ring_of(largest))


def corners_of(part: Part) -> Ring:
    """Return a part's corners in the cover's axes."""
    return tuple(placed(part.band.axes, place) for place in part.ring)


def ends_of(part: Part) -> tuple[End, End]:
    """Return how a part's two ends are sawn."""
    low = [place for place in part.ring if abs(place[1] - part.band.low_mm) < JUST_MM]
    high = [place for place in part.ring if abs(place[1] - part.band.high_mm) < JUST_MM]
    if not low or not high:
        return (End(saw_deg=0.0, straight=False),) * 2
    return _end(part, min(low), min(high)), _end(part, max(low), max(high))


def _end(part: Part, right: Place, left: Place) -> End:
    """Return an end from where the right edge ends to where the left one does.

    It is one straight cut if no corner of the part lies between the two, and square where these
    are as good as level: corners are rounded.
    """
    apart = abs(part.ring.index(right) - part.ring.index(left))
    if apart not in {1, len(part.ring) - 1}:
        return End(saw_deg=0.0, straight=False)
    wide, leans = part.band.high_mm - part.band.low_mm, left[0] - right[0]
    square = abs(leans) < JUST_MM
    return End(saw_deg=0.0 if square else math.degrees(math.atan2(leans, wide)), straight=True)


def is_shaped(part: Part, ends: tuple[End, End]) -> bool:
    """Whether a part has other cuts than one straight one at each end."""
    if not all(end.straight for end in ends):
        return True
    on_edges = [
        place
        for place in part.ring
        if min(abs(place[1] - part.band.low_mm), abs(place[1] - part.band.high_mm)) < JUST_MM
    ]
    return len(on_edges) != len(part.ring) or len(part.ring) > 4


def seen_width_mm(band: Band, area: Region, width_mm: float) -> float:
    """Return how wide a row is seen inside an area, square to its run; no more than it is.

    The tip of a corner counts, though it may be too little to saw a board for.
    """
    seen_area = turned(area, band.axes.cos_ratio, band.axes.sin_ratio)
    spread = shared_across(seen_area, box(-BEYOND_MM, band.low_mm, BEYOND_MM, band.high_mm))
    return to_mm(exact(min(width_mm, spread)))
