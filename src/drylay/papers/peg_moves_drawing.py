"""Pegs as they stand, drawn further off than they are, with an arrow to where each belongs."""

from collections.abc import Iterator, Mapping, Sequence
from math import atan2, cos, dist, pi, sin

from drylay.outline.model import Outline
from drylay.papers.lettering import Bounds, Point, bounds
from drylay.papers.model import FINE_MM, MEMBER_MM, OUTLINE_MM, Area, Line, Ring, Shape, View
from drylay.papers.outlined_view import (
    BETWEEN_WAYS,
    WAYS,
    around,
    kinds_told,
    line_of,
    outline_places,
    sides_drawn,
)
from drylay.papers.peg_moves_text import move_table, move_told, moves_texts
from drylay.papers.pegs_view import (
    first_of,
    outline_of,
    pegs_at,
    room_at,
    square,
    text_at,
    view_of,
)
from drylay.papers.placing import Place, line_place
from drylay.papers.ruled import (
    CELL_MM,
    head_height,
    paragraphs,
    paragraphs_height,
    ruled,
    table_width,
)
from drylay.papers.sheets import AIR_MM, HELD, INSET_MM, STRIP_MM, title_block
from drylay.papers.svg import svg
from drylay.papers.wording import clean, many
from drylay.plan.model import Plan
from drylay.work.model import PegMove, PegMoves

DASH = "4 1.5"
PEG_MM, STOOD_MM = 1.8, 0.9
#: An arrow's head on paper: how long it is, and half the angle between its strokes.
HEAD_MM, HEAD_RAD = 1.8, pi / 8
BESIDE_MM, LEAST_WIDE_MM = 6.0, 96.0
#: The longest arrow on paper is no longer than this; moves are drawn so many times as large.
ARROW_MM = 14.0
TIMES = (1, 2, 5, 10, 20, 50, 100, 200, 500)
RINGS = 6


def peg_moves_svg(plan: Plan, found: PegMoves) -> bytes:
    """Return the drawing of the pegs to move, as `drylay.work.peg_moves` found them.

    b"" of a plan without pegs.
    """
    outline = outline_of(plan)
    if outline is None or plan.work is None or not plan.work.setting_out.pegs:
        return b""
    table, texts = move_table(found, plan.units), moves_texts(found, plan.units)
    wide = max(LEAST_WIDE_MM, table_width(table))
    rows = head_height(table) + CELL_MM * len(table.rows) + AIR_MM if table.rows else 0.0
    high = rows + paragraphs_height(texts, wide)
    sheet, view = view_of([], outline, plan.units, (wide + BESIDE_MM, high))
    times = times_of(found, view.per_mm)
    pegs = pegs_at(view, plan)
    stood = {move.mark: _from(pegs[move.mark], move, times / view.per_mm) for move in found.moves}
    x = sheet.width_mm - INSET_MM - wide
    inside = (INSET_MM, INSET_MM, x - AIR_MM, sheet.height_mm - INSET_MM - STRIP_MM)
    taken = _keep_off(view, outline, pegs, stood)
    shapes: list[Shape] = [
        *sides_drawn(view, outline, FINE_MM),
        *_figure(pegs, stood),
        *_labels(taken, _told(found, plan.units), inside, pegs, stood),
        *(ruled(table, table.rows, x, INSET_MM) if table.rows else ()),
        *paragraphs(texts, "notes", x, INSET_MM + rows, wide),
        *title_block(sheet, title=plan.title, drawing="Pegs to move", units=plan.units,
                     notes=(_note(found, times), kinds_told(outline))),
    ]  # fmt: skip
    told = f"{many(len(found.moves), 'peg')} of {clean(plan.title)} to move, each with an arrow."
    title = f"Pegs to move of {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="moves", title=title, told=told)


def times_of(found: PegMoves, per_mm: float) -> int:
    """Return how many times as large moves are drawn: the most at which arrows stay short."""
    longest = max((move.by_mm for move in found.moves), default=0.0) / per_mm
    return max((each for each in TIMES if longest * each <= ARROW_MM), default=TIMES[0])


def _from(wanted: Point, move: PegMove, scale: float) -> Point:
    return wanted[0] - move.along_mm * scale, wanted[1] - move.across_mm * scale


def _figure(pegs: Mapping[str, Point], stood: Mapping[str, Point]) -> Iterator[Shape]:
    """Yield the frame as planned, as it stands with its moves drawn large, pegs and arrows."""
    ring = tuple(stood.get(mark, point) for mark, point in pegs.items())
    yield Area(layer="planned", corners_mm=tuple(pegs.values()), pen_mm=OUTLINE_MM)
    if stood:
        yield Area(layer="stood", corners_mm=ring, pen_mm=FINE_MM, dash=DASH)
    for point in pegs.values():
        yield square("peg-heads", point, PEG_MM)
    for mark, point in stood.items():
        yield Ring(layer="stood-pegs", x_mm=point[0], y_mm=point[1], radius_mm=STOOD_MM)
        yield from _arrow(point, pegs[mark])


def _arrow(tail: Point, tip: Point) -> Iterator[Line]:
    back = atan2(tail[1] - tip[1], tail[0] - tip[0])
    yield line_of("arrows", tail, tip, MEMBER_MM)
    head = min(HEAD_MM, dist(tail, tip))
    for turn in (back - HEAD_RAD, back + HEAD_RAD):
        yield line_of(
            "arrows", (tip[0] + head * cos(turn), tip[1] + head * sin(turn)), tip, MEMBER_MM
        )


def _keep_off(
    view: View, outline: Outline, pegs: Mapping[str, Point], stood: Mapping[str, Point]
) -> list[Place]:
    """Return what texts keep off: the deck's sides, pegs and arrows."""
    heads = [room_at(point, PEG_MM / 2 + 0.2) for point in (*pegs.values(), *stood.values())]
    arrows = [line_place(point, pegs[mark], 0.5) for mark, point in stood.items()]
    return [*outline_places(view, outline), *heads, *arrows]


def _told(found: PegMoves, units: str) -> dict[str, str]:
    """Return each move in words, by its peg's mark."""
    return {move.mark: move_told(move, units).replace(HELD, " ") for move in found.moves}


def _labels(
    taken: list[Place], told: Mapping[str, str], inside: Bounds, pegs: Mapping[str, Point],
    stood: Mapping[str, Point],
) -> list[Shape]:  # fmt: skip
    """Return each peg's mark, with its move in words where it has one and there is room for them.

    The list beside the figure has the words of all.
    """
    lines = [*_round(list(pegs.values()))]
    lines += [*_round([stood.get(mark, point) for mark, point in pegs.items()])]
    shapes: list[Shape] = []
    for mark, point in pegs.items():
        texts = [text_at("move-labels", told[mark], point)] if mark in told else []
        spots = [
            spot
            for text in (*texts, text_at("labels", mark, point))
            for spot in around(text, steps=RINGS, ways=(*WAYS, *BETWEEN_WAYS))
            if _within(bounds(spot), inside)
        ]
        shapes += first_of(spots, taken, (lines, []))
    return shapes


def _within(place: Bounds, inside: Bounds) -> bool:
    return (
        place[0] >= inside[0] and place[1] >= inside[1]
        and place[2] <= inside[2] and place[3] <= inside[3]
    )  # fmt: skip


def _round(ring: Sequence[Point]) -> Iterator[Place]:
    for one, other in zip(ring, [*ring[1:], *ring[:1]], strict=True):
        yield line_place(one, other)


def _note(found: PegMoves, times: int) -> str:
    if not found.moves:
        return "Thick: the frame as planned, its pegs at their places."
    return (
        f"Thick: the frame as planned. Dashed, with round pegs: as it stands, every move drawn "
        f"{times} times as large. Arrows: the way to move."
    )
