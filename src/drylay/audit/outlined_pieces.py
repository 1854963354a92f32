"""Pieces on an outline: each the part of its row that is left, and nothing missing or twice."""

from collections.abc import Iterable, Iterator, Sequence

from drylay.audit.exact import Fraction, mark_of, ticks
from drylay.audit.flaws import off_by, same_count, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import LONG_OFF, SLACK, fault, laying_of, outlines, shape
from drylay.audit.outlined_strips import (
    Strip,
    boards_of,
    by_row,
    panels_of,
    strips_of,
)
from drylay.audit.plane import (
    UNIT,
    Number,
    Place,
    Shape,
    box,
    inside,
    is_simple,
    root,
    sides_of,
    size,
    squared_to_edge,
    twice_area,
)
from drylay.audit.sweep import Trapezium, trapezia, twice_area_of
from drylay.laying.model import PIECE_KINDS, LaidPiece
from drylay.plan.model import Plan

PIECES = outlines("Laying: a piece is the part of its row's board inside the zone")
MARKS = outlines("Laying: marks")
SAWN = outlines("Laying: length_mm and cut_mm")


def pieces_are_shapes(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a piece that is no shape, of no known kind, or as wide as no board."""
    laying = laying_of(plan)
    widths = {row.mark: row.width_mm for row in laying.rows}
    for piece in laying.pieces:
        corners = shape(piece.corners)
        if not is_simple(corners) or twice_area(corners) <= 0:
            yield fault(piece.mark, "it is no shape, or runs the wrong way round", PIECES)
        if piece.kind not in PIECE_KINDS:
            yield fault(piece.mark, f"no kind of piece is {piece.kind!r}", PIECES)
        wanted = ticks(widths.get(piece.row, laying.board_width_mm))
        if ticks(piece.width_mm) != wanted:
            message = "not as wide as its row, or its board"
            yield off_by(piece.mark, message, ticks(piece.width_mm), wanted, PIECES)


def pieces_are_their_rows(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a row's pieces are just what of it lies in its zone, free of the rest."""
    laid, panels = by_row(plan), by_row(plan, "hatch")
    for strip in strips_of(plan):
        mark = strip.row.mark
        for found, wanted, what in (
            (laid.pop(mark, []), boards_of(plan, strip), "pieces of the row"),
            (panels.pop(mark, []), panels_of(plan, strip), "pieces of panels in the row"),
        ):
            yield from same_count(mark, what, len(found), len(wanted), PIECES)
            if len(found) == len(wanted):
                told = sorted(((_told(strip, piece), piece) for piece in found), key=_start)
                for (corners, piece), lot in _paired(told, wanted):
                    yield from _same_shape(piece.mark, corners, lot)
    for pieces in (*laid.values(), *panels.values()):
        for piece in pieces:
            yield fault(piece.mark, f"no row is {piece.row!r}", PIECES)


def _paired(
    told: list[tuple[Shape, LaidPiece]], wanted: Sequence[list[Trapezium]]
) -> Iterator[tuple[tuple[Shape, LaidPiece], list[Trapezium]]]:
    """Yield pieces with the parts they have to be: each with the one whose middle it covers.

    Of two that begin at one place either may be the first. What covers none is paired in order.
    """
    left = list(told)
    for lot in wanted:
        middle = _middle(lot[0].corners)
        at = next((n for n, each in enumerate(left) if inside(middle, each[0]) >= 0), 0)
        yield left.pop(at), lot


def _middle(corners: Shape) -> Place:
    """Return a place inside a convex shape: the mean of its corners."""
    u, v = (sum(corner[k] for corner in corners) for k in (0, 1))
    return Fraction(u) / len(corners), Fraction(v) / len(corners)


def _told(strip: Strip, piece: LaidPiece) -> Shape:
    return strip.run.all_told(shape(piece.corners))


def _start(told: tuple[Shape, LaidPiece]) -> tuple[Number, Number]:
    corners = told[0]
    return min(u for u, _ in corners), min(v for _, v in corners)


def _same_shape(mark: str, corners: Shape, lot: list[Trapezium]) -> Iterator[Flaw]:
    """Yield a flaw unless a piece is, corner by corner and in all, the part that it has to be."""
    beyond = (
        (min(_outside(corner, part.corners) for part in lot), corner, corners) for corner in corners
    )
    if off := _furthest(beyond):
        message = "a corner of it reaches out of what it has to cover"
        yield off_by(mark, message, float(root(off)) / UNIT, 0, PIECES)
    short = (
        (_outside(corner, corners), corner, part.corners)
        for part in lot for corner in part.corners
    )  # fmt: skip
    if off := _furthest(short):
        message = "it stops short of a corner of what it has to cover"
        yield off_by(mark, message, float(root(off)) / UNIT, 0, PIECES)
    shapes = (corners, *(part.corners for part in lot))
    _, low, _, high = box([corner for each in shapes for corner in each])
    off = twice_area_of(trapezia(shapes, _in_one_alone, low, high))
    if float(off) > 2 * SLACK * UNIT * round_about(corners):
        message = "it is not just what it has to cover: so much is missing, or too much"
        yield Flaw(subject=mark, message=message, measured=square_mm(off), limit=0.0, unit="mm2",
                   source=PIECES)  # fmt: skip


def _furthest(corners: Iterable[tuple[Number, Place, Shape]]) -> Number:
    """Return the most that a corner of a shape is off, squared: 0 where rounding accounts for all.

    Two rounded lines that meet at a slant meet further along the flatter they do.
    """
    slack = (2 * SLACK * UNIT) ** 2
    return max(
        (off for off, at, own in corners if off > slack and off * _keen(at, own) > slack), default=0
    )


def _keen(corner: Place, own: Shape) -> Fraction:
    """Return the square of the sine of a shape's angle at a corner of it; 1 from 90 degrees on."""
    places = [place for place, after in sides_of(own) if place != after]
    at = places.index(corner)
    (u, v), (w, x) = ((a - corner[0], b - corner[1])
                      for a, b in (places[at - 1], places[(at + 1) % len(places)]))  # fmt: skip
    if u * w + v * x <= 0:
        return Fraction(1)
    return Fraction((u * x - v * w) ** 2) / ((u**2 + v**2) * (w**2 + x**2))


def _in_one_alone(into: frozenset[int]) -> bool:
    """Whether a stretch lies in a piece, the first shape, or in its parts, and not in both."""
    return (0 in into) != bool(into - {0})


def round_about(corners: Shape) -> float:
    """Return how long it is all round a shape."""
    return sum(float(root((c - a) ** 2 + (d - b) ** 2)) for (a, b), (c, d) in sides_of(corners))


def square_mm(twice: Number) -> float:
    """Return twice an area, as told along a run, in mm2."""
    return float(twice) / 2 / UNIT**2 / 320**2


def _outside(place: Place, corners: Shape) -> Number:
    """Return the square of how far a place is out of a shape, 0 inside and on its edge."""
    if inside(place, corners) >= 0:
        return 0
    return squared_to_edge(place, corners)


def pieces_are_marked(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the field's pieces are marked row by row along the run."""
    laid, runs = by_row(plan), {strip.row.mark: strip for strip in strips_of(plan)}
    for mark, pieces in laid.items():
        if mark in runs:
            told = sorted(((_told(runs[mark], piece), piece) for piece in pieces), key=_start)
            starts = {each[1].mark: _start(each)[0] for each in told}
            for index, each in enumerate(told, 1):
                found, wanted = each[1].mark, f"{mark}.{index}"
                off = size(starts[wanted] - _start(each)[0]) if wanted in starts else UNIT**2
                if off > SLACK * UNIT:  # of two that begin at one place either may be the first
                    yield from same_text(found, "wrong mark", found, wanted, MARKS)
    marks = [piece.mark for piece in laying_of(plan).pieces]
    for mark in sorted({mark for mark in marks if marks.count(mark) > 1}):
        yield from same_count(mark, "pieces with this mark", marks.count(mark), 1, MARKS)


def lengths_are_tip_to_tip(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a piece is as long as from tip to tip, and cut at the next mark."""
    mark, runs = mark_of(plan), {strip.row.mark: strip for strip in strips_of(plan)}
    for piece in laying_of(plan).pieces:
        found, cut = ticks(piece.length_mm), ticks(piece.cut_mm)
        strip = runs.get(piece.row)
        if strip is not None:
            long = float(spread(_told(strip, piece))) / UNIT
            if abs(found - long) > LONG_OFF:
                message = "not as long as from tip to tip along its run"
                yield off_by(piece.mark, message, found, long, SAWN)
        if not 0 <= cut - found < mark:
            yield off_by(piece.mark, "not its length, or up to a mark more", cut, found, SAWN)


def spread(told: Shape) -> Number:
    """Return how far some places lie apart along the run."""
    return max(u for u, _ in told) - min(u for u, _ in told)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-770", "pieces on an outline are shapes as wide as their row", pieces_are_shapes),
    ("AUD-771", "a row's pieces are just what of it lies free in its zone", pieces_are_their_rows),
    ("AUD-772", "pieces on an outline are marked along their rows", pieces_are_marked),
    ("AUD-773", "pieces are as long as from tip to tip, cut at a mark", lengths_are_tip_to_tip),
)
