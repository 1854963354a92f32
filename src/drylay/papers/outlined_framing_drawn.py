"""Framing round an opening drawn enlarged: members with their marks in them, battens, the hole."""

from itertools import pairwise

from attrs import evolve

from drylay.outline.model import Outline
from drylay.papers.dimensions import all_edges
from drylay.papers.lettering import Point, fitted
from drylay.papers.model import (
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Box,
    Lettering,
    Shape,
    View,
)
from drylay.papers.outlined_framing import (
    HEAD_MM,
    HEADING_MM,
    Framing,
    heading_of,
    is_square_on,
    lines_of,
    room_of,
)
from drylay.papers.outlined_marks import longest, mark_spots
from drylay.papers.outlined_member_marks import beside_line, led
from drylay.papers.outlined_panels import DASH, batten_corners
from drylay.papers.outlined_view import all_at, at
from drylay.papers.placing import Place, first_clear, inside, line_place, place_of, places_of
from drylay.papers.ruled import BETWEEN_MM, LINE_MM, ruled, table_width
from drylay.papers.sheets import SLACK_RATIO
from drylay.papers.windows import Window, cut
from drylay.subframe.model import Subframe

#: Along a member, where its mark may stand beside it, and how far off it.
SHARES = tuple(0.5 + side * step / 50 for step in range(24) for side in (1, -1))
OFF_MM = 0.3
#: A part of the figure with the mark that it bears.
Marked = tuple[str, Area]


def framing_shapes(
    outline: Outline, subframe: Subframe, found: Framing, x: float, y: float
) -> list[Shape]:  # fmt: skip
    """Return a detail, its corner at `x`, `y`: heading, texts, figure with its sizes, tables."""
    room = room_of(found)
    left, near, right, far = found.window
    extent = ((right - left) / found.per_mm, (far - near) / found.per_mm)
    corner = View(left_mm=x + room.left_mm, top_mm=y + room.top_mm, per_mm=found.per_mm,
                  run="along")  # fmt: skip
    shapes = [
        *_written(found, x, y, room.tables_left_mm or room.width_mm),
        *_figure(outline, subframe, found, corner, extent),
        *(evolve(shape, layer="detail-sizes") for shape in all_edges(found.edges, corner, extent)),
    ]
    x += room.tables_left_mm
    for table in found.tables:
        shapes += ruled(table, table.rows, x, y + room.tables_top_mm)
        x += table_width(table) + BETWEEN_MM
    return shapes


def _written(found: Framing, x: float, y: float, wide_mm: float) -> list[Shape]:
    """Return a detail's heading, and what is written under it."""
    name = fitted(heading_of(found.opening), HEADING_MM, wide_mm * SLACK_RATIO)
    return [
        Lettering(layer="details", x_mm=x, y_mm=y + HEADING_MM / 2, text=name, size_mm=HEADING_MM,
                  anchor="start"),
        *(
            Lettering(layer="details", x_mm=x, y_mm=y + HEAD_MM + LINE_MM * (n + 0.5), text=line,
                      size_mm=LETTER_MM, anchor="start")
            for n, line in enumerate(lines_of(found, wide_mm))
        ),
    ]  # fmt: skip


def _figure(
    outline: Outline, subframe: Subframe, found: Framing, corner: View,
    extent: tuple[float, float],
) -> list[Shape]:  # fmt: skip
    """Return what lies in the window, cut off at its frame, with the marks."""
    x, y = corner.left_mm, corner.top_mm
    window = (x, y, x + extent[0], y + extent[1])
    left, near, _, _ = found.window
    view = View(left_mm=x - left / found.per_mm, top_mm=y - near / found.per_mm,
                per_mm=found.per_mm, run="along")  # fmt: skip
    frame = Box(layer="detail-frames", x_mm=x, y_mm=y, width_mm=extent[0], height_mm=extent[1],
                pen_mm=MEMBER_MM, fill="white")  # fmt: skip
    members, battens = _members(subframe, view, window), _battens(subframe, found, view, window)
    hole, within = _hole(found, view, window)
    drawn = [part for _, part in (*members, *battens)]
    told = {each.mark for each in found.members}
    marked = [(mark, part) for mark, part in members if mark in told]
    texts = _texts(found, view, window, [*marked, *battens], within)
    return [frame, *drawn, *hole, *within, *_cover(outline, view, window), *texts]


def _members(subframe: Subframe, view: View, window: Window) -> list[Marked]:
    return [
        (each.mark, part)
        for each in subframe.members
        for part in cut(f"detail-{each.kind}s", all_at(view, each.corners), window, THIN_MM,
                        "white")
    ]  # fmt: skip


def _battens(subframe: Subframe, found: Framing, view: View, window: Window) -> list[Marked]:
    """Return what of panels' battens lies in the window, with their marks."""
    thick_mm = subframe.timber_thickness_mm
    return [
        (each.mark, part)
        for each in subframe.battens
        if each.opening == found.opening.mark
        for part in cut("detail-battens", batten_corners(view, each, thick_mm), window, THIN_MM,
                        "none", DASH)
    ]  # fmt: skip


def _hole(found: Framing, view: View, window: Window) -> tuple[list[Area], list[Area]]:
    """Return the hole, and what stands or lies in it."""
    opening = found.opening
    hole, within = all_at(view, opening.corners), all_at(view, opening.within)
    return (
        cut("detail-openings", hole, window, OUTLINE_MM, "none", "2 1"),
        cut("detail-within", within, window, THIN_MM, "none", "3 1 1 1"),
    )


def _cover(outline: Outline, view: View, window: Window) -> list[Area]:
    """Return the deck's edge where it crosses the window."""
    corners = all_at(view, [side.start for side in outline.sides])
    cover = cut("detail-cover", corners, window, OUTLINE_MM, "none")
    return [each for each in cover if {*each.corners_mm} != {*_corners_of(window)}]


def _texts(
    found: Framing, view: View, window: Window, parts: list[Marked], within: list[Area]
) -> list[Shape]:
    """Return the marks: in each part where there is room, else beside it, else with a leader.

    What is cut off at the frame is marked on the drawing of the whole frame too, so it goes without
    a mark where there is no room in its part.
    """
    frame = _corners_of(window)
    lines = [line_place(*ends) for each in within for ends in _edges(each.corners_mm)]
    cut_off = {each.mark for each in found.members} - {*found.own}
    shapes: list[Shape] = []
    taken: list[Place] = []
    beside: list[Marked] = []
    for mark, part in parts:
        spots = mark_spots(_layer(part), part.corners_mm, mark)
        text = _clearest([spot for spot in spots if inside(spot, frame)], taken, lines)
        shapes += text
        beside += [] if text or mark in cut_off else [(mark, part)]
    taken += [place_of(part.corners_mm) for _, part in parts]
    for mark, part in beside:
        shapes += _beside(mark, part, frame, taken, shapes)
    return [*shapes, *_numbers(found, view, frame, [*taken, *lines], shapes)]


def _corners_of(window: Window) -> tuple[Point, ...]:
    left, top, right, bottom = window
    return (left, top), (right, top), (right, bottom), (left, bottom)


def _layer(part: Area) -> str:
    return part.layer.replace("detail-", "detail-marks-")


def _clearest(
    spots: list[Lettering], taken: list[Place], lines: list[Place]
) -> tuple[Lettering, ...]:
    """Return the first text clear of all lines too, else the first that is clear, on white."""
    bare = [evolve(spot, knocked=False) for spot in spots]
    text = first_clear(bare, [*taken, *lines]) or first_clear(spots, [*taken])
    taken += places_of(text)
    return text


def _beside(
    mark: str, part: Area, frame: tuple[Point, ...], taken: list[Place], shapes: list[Shape]
) -> list[Shape]:
    """Return the mark of a part that is too short or too thin for it."""
    one, other = longest(part.corners_mm)
    spots = beside_line(one, other, mark, off_mm=OFF_MM, layer=_layer(part), shares=SHARES)
    clear = first_clear([spot for spot in spots if inside(spot, frame)], taken)
    return [*clear] or led(_layer(part), mark, (one, other), taken, places_of(shapes), frame=frame)


def _edges(corners: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    return list(pairwise([*corners, corners[0]]))


def _numbers(
    found: Framing, view: View, frame: tuple[Point, ...], taken: list[Place], shapes: list[Shape]
) -> list[Shape]:
    """Return the numbers of a hole's corners, where a table tells of them, each with a leader."""
    if is_square_on(found.opening):
        return []
    numbers: list[Shape] = []
    for number, spot in enumerate(found.opening.corners, 1):
        point = at(view, spot)
        numbers += led("detail-corners", str(number), (point, point), taken,
                       places_of([*shapes, *numbers]), frame=frame)  # fmt: skip
    return numbers
