"""Marks in a chart: many thinned to what paper holds, numbers and texts where room is free."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import ceil, cos, dist, pi, sin
from typing import TypeVar

from drylay.compare.chart_sheet import Panel
from drylay.papers.hatching import hatch
from drylay.papers.lettering import Bounds, Point, collide, width_mm
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    MEMBER_MM,
    THIN_MM,
    Area,
    Box,
    Lettering,
    Line,
    Ring,
    Shape,
    Trace,
)
from drylay.papers.placing import nearest

T = TypeVar("T")

#: A ring about a number of two digits.
RADIUS_MM = 2.2
#: Nearer than this is at the same place.
NOTHING_MM = 1e-6
#: Half the size of a sign on a line.
SIGN_MM = 0.75
#: How far from its point a text may stand, and on how many sides of it.
FAR_MM, SIDES = (3.5, 5.0, 7.0, 10.0, 14.0, 19.0, 25.0, 34.0, 46.0), 16
#: What is drawn is counted in cells of this size, to keep texts off it.
CELL_MM = 1.5
#: A thing in a text's way weighs as much as that many mm farther from its point.
WAY_MM = 4.0
Crowd = Counter[tuple[int, int]]


def thinned(
    points: Sequence[Point], *, most: int, least_mm: float
) -> tuple[list[Point], float]:  # fmt: skip
    """Return the first point in each cell of a grid, and the size of its cells in mm.

    Cells are `least_mm` wide, or so much wider that no more than `most` points are left.
    """
    cell_mm = least_mm
    while True:
        kept: dict[tuple[int, int], Point] = {}
        for point in points:
            kept.setdefault(_cell(point, cell_mm), point)
        if len(kept) <= most:
            return list(kept.values()), cell_mm
        cell_mm *= 1.5


def lean(points: Sequence[Point], least_mm: float = 0.2) -> tuple[Point, ...]:
    """Return a line's points without those that paper cannot tell: of each strip of the sheet
    `least_mm` wide the first, the highest, the lowest and the last are left.
    """
    strips: dict[int, list[int]] = {}
    for index, (x, _) in enumerate(points):
        strips.setdefault(int(x // least_mm), []).append(index)
    kept = sorted({
        index
        for among in strips.values()
        for index in (among[0], *_extremes(points, among), among[-1])
    })  # fmt: skip
    return tuple(points[index] for index in kept)


def _extremes(points: Sequence[Point], among: Sequence[int]) -> tuple[int, int]:
    return (
        min(among, key=lambda index: points[index][1]),
        max(among, key=lambda index: points[index][1]),
    )


def crowd_of(points: Iterable[Point]) -> Crowd:
    """Return how much is drawn in each cell of the sheet."""
    return Counter(_cell(point, CELL_MM) for point in points)


def along(points: Sequence[Point]) -> Iterator[Point]:
    """Yield points along a line, close enough that no cell of a crowd is passed over."""
    for (x1, y1), (x2, y2) in pairwise(points):
        parts = max(1, ceil(dist((x1, y1), (x2, y2)) / CELL_MM))
        for part in range(parts + 1):
            yield x1 + (x2 - x1) * part / parts, y1 + (y2 - y1) * part / parts


def _cell(point: Point, cell_mm: float) -> tuple[int, int]:
    return int(point[0] // cell_mm), int(point[1] // cell_mm)


def _crowding(box: Bounds, crowd: Crowd) -> int:
    left, top, right, bottom = (int(side // CELL_MM) for side in box)
    return sum(
        crowd[x, y] > 0 for x in range(left, right + 1) for y in range(top, bottom + 1)
    )  # fmt: skip


def free_spot(
    point: Point, wide_mm: float, high_mm: float, *, panel: Panel, taken: list[Bounds],
    crowd: Crowd,
) -> Point | None:  # fmt: skip
    """Return the middle of a place near a point for something so large, and take it.

    It lies in the panel and on nothing taken; of such places it is the one with the least drawn
    in it that is near. None where there is no such place.
    """
    best: tuple[float, Point, Bounds] | None = None
    for far_mm in FAR_MM:
        if best is not None and best[0] <= far_mm:
            break
        for side in range(SIDES):
            angle = 2 * pi * (side + 0.5) / SIDES
            x = point[0] + (far_mm + wide_mm / 2) * cos(angle)
            y = point[1] + (far_mm + high_mm / 2) * sin(angle)
            box = (x - wide_mm / 2, y - high_mm / 2, x + wide_mm / 2, y + high_mm / 2)
            if not _within(box, panel.bounds) or any(collide(box, other) for other in taken):
                continue
            weight = far_mm + WAY_MM * _crowding(box, crowd)
            if best is None or weight < best[0]:
                best = weight, (x, y), box
    if best is not None:
        taken.append(best[2])
    return best and best[1]


def _within(box: Bounds, outer: Bounds) -> bool:
    return (
        box[0] >= outer[0] + 1 and box[1] >= outer[1] + 1
        and box[2] <= outer[2] - 1 and box[3] <= outer[3] - 1
    )  # fmt: skip


def ringed(number: int, x_mm: float, y_mm: float) -> tuple[Shape, ...]:
    """Return a number in a ring that covers what lies under it."""
    return (
        Ring(layer="steps", x_mm=x_mm, y_mm=y_mm, radius_mm=RADIUS_MM, pen_mm=MEMBER_MM,
             fill="white"),
        Lettering(layer="steps", x_mm=x_mm, y_mm=y_mm, text=str(number)),
    )  # fmt: skip


def numbered(
    points: Sequence[Point], *, panel: Panel, taken: list[Bounds], crowd: Crowd
) -> Iterator[Shape]:
    """Yield a number in a ring for each point, 1 and on, with a line to the point."""
    for number, point in enumerate(points, start=1):
        side_mm = 2 * RADIUS_MM + 0.6
        spot = free_spot(point, side_mm, side_mm, panel=panel, taken=taken, crowd=crowd)
        if spot is not None:
            yield _leader(point, spot)
            yield from ringed(number, *spot)


def labelled(
    points: Sequence[tuple[Point, str]], *, panel: Panel, taken: list[Bounds], crowd: Crowd
) -> Iterator[Shape]:
    """Yield a text for each point, with a line to the point; none where no room is left."""
    for point, text in points:
        wide_mm = width_mm(text, LETTER_MM) + 1.0
        spot = free_spot(point, wide_mm, LETTER_MM + 0.6, panel=panel, taken=taken, crowd=crowd)
        if spot is not None:
            label = Lettering(layer="labels", x_mm=spot[0], y_mm=spot[1], text=text, knocked=True)
            yield _leader(point, nearest(label, point))
            yield label


def _leader(one: Point, other: Point) -> Line:
    return Line(layer="leaders", x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                pen_mm=FINE_MM)  # fmt: skip


def sign(kind: int, point: Point) -> Shape:
    """Return a line's sign: square, ring, diamond or triangle, black ones before white ones."""
    (x, y), size = point, SIGN_MM
    fill = "white" if kind // 4 % 2 else "black"
    if kind % 4 == 1:
        return Ring(layer="marks", x_mm=x, y_mm=y, radius_mm=size,
                    pen_mm=THIN_MM, fill=fill)  # fmt: skip
    corners = {
        0: ((-size, -size), (size, -size), (size, size), (-size, size)),
        2: ((0, -1.4 * size), (1.4 * size, 0), (0, 1.4 * size), (-1.4 * size, 0)),
        3: ((0, -1.2 * size), (1.2 * size, size), (-1.2 * size, size)),
    }[kind % 4]
    return Area(layer="marks", corners_mm=tuple((x + across, y + down) for across, down in corners),
                pen_mm=THIN_MM, fill=fill)  # fmt: skip


def combed(box: Box, pitch_mm: float, *, rising: bool = True) -> Iterator[Trace]:
    """Yield a hatching as one line that goes to and fro, round the rectangle's edge between.

    So it takes a tenth of the room in a file that it takes line by line.
    """
    points: list[Point] = []
    for index, line in enumerate(hatch(box, pitch_mm, rising=rising)):
        if isinstance(line, Line):
            ends = [(line.x1_mm, line.y1_mm), (line.x2_mm, line.y2_mm)]
            ends = ends[:: -1 if index % 2 else 1]
            points += [*(_corner(box, points[-1], ends[0]) if points else ()), *ends]
    if points:
        yield Trace(layer=f"{box.layer}-hatch", points_mm=tuple(points), pen_mm=FINE_MM)


def _corner(box: Box, one: Point, other: Point) -> tuple[Point, ...]:
    """Return the corner between two points on neighbouring sides; () on one side."""
    xs, ys = (box.x_mm, box.x_mm + box.width_mm), (box.y_mm, box.y_mm + box.height_mm)
    between = [(x, y) for x in xs for y in ys if _beside(x, y, one) and _beside(x, y, other)]
    return tuple(between) if len(between) == 1 and not _along(one, other) else ()


def _beside(x: float, y: float, point: Point) -> bool:
    """Whether a corner and a point lie on one side."""
    return abs(x - point[0]) < NOTHING_MM or abs(y - point[1]) < NOTHING_MM


def _along(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) < NOTHING_MM or abs(one[1] - other[1]) < NOTHING_MM


def spread_out(
    places_mm: Sequence[float], apart_mm: float, least_mm: float, most_mm: float
) -> list[float]:  # fmt: skip
    """Return places so far apart, in the order given, pushed no farther than that takes.

    There has to be room for them between `least_mm` and `most_mm`.
    """
    order = sorted(range(len(places_mm)), key=lambda index: places_mm[index])
    moved = list(places_mm)
    before_mm = least_mm - apart_mm
    for index in order:
        moved[index] = before_mm = max(moved[index], before_mm + apart_mm)
    after_mm = most_mm + apart_mm
    for index in reversed(order):
        moved[index] = after_mm = min(moved[index], after_mm - apart_mm)
    return moved


def evenly(items: Sequence[T], most: int) -> list[T]:
    """Return no more than so many items, the first and the last among them, as even as can be."""
    if len(items) <= most:
        return list(items)
    return [items[round(index * (len(items) - 1) / (most - 1))] for index in range(most)]
