"""How ends of boards are carried: what the frame is asked for under them, and what it lacks."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from drylay.findings import Finding, Severity
from drylay.geometry import SAME_MM, Place, Ring, common, region
from drylay.laying.axes import place_of, placed, seen, spot
from drylay.laying.model import LaidPiece
from drylay.laying.parts import Part, corners_of
from drylay.laying.rows import FAN_DEG
from drylay.outline.model import Spot
from drylay.planner.outlined_boards import BoardsLaid
from drylay.planner.outlined_job import END_SUPPORT_MM
from drylay.planner.rows import PRACTICE
from drylay.subframe.grid import Grid, grid_of, near
from drylay.subframe.model import Facing, Member
from drylay.subframe.wants import BoardEnd

#: Of a board that has more corners each part so wide is looked at for itself: less is never a tip
#: to tread on. Assumption.
STRIP_MM = 20.0

Stretch = tuple[float, float]


def faces_of(facings: Sequence[Facing], thickness_mm: float) -> list[tuple[Spot, ...]]:
    """Return what of each length of fascia lies square to its face, seen from above."""
    found: list[tuple[Spot, ...]] = []
    for each in facings:
        (x1, y1), (x2, y2) = place_of(each.start), place_of(each.end)
        long = math.dist((x1, y1), (x2, y2))
        dx, dy = -(y2 - y1) / long * thickness_mm, (x2 - x1) / long * thickness_mm
        inner = (spot((x2 + dx, y2 + dy)), spot((x1 + dx, y1 + dy)))
        found.append((each.start, each.end, *inner))
    return found


def board_ends(boards: BoardsLaid) -> list[BoardEnd]:
    """Return all ends of all pieces: every side of one that is no edge of its row.

    A side is parted where another corner lies across from it, so that each part of a board is
    carried to its own end.
    """
    return [end for piece in boards.pieces for end in _ends(boards.parts[piece.mark])]


def _ends(part: Part) -> Iterator[BoardEnd]:
    axes, middle = part.band.axes, (part.start_mm + part.end_mm) / 2
    run_deg = math.degrees(math.atan2(axes.sin_ratio, axes.cos_ratio))
    for one, other in zip(part.ring, [*part.ring[1:], part.ring[0]], strict=True):
        if abs(other[1] - one[1]) < SAME_MM or _on_edge(one, other):
            continue
        start = (one[0] + other[0]) / 2 < middle
        for first, last in _parted(one, other, part.ring):
            yield BoardEnd(
                start=spot(placed(axes, first)),
                end=spot(placed(axes, last)),
                inwards_deg=run_deg if start else run_deg + 180,
            )


def _on_edge(one: Place, other: Place) -> bool:
    """Whether a side of a part lies along its row: no end, though it may lean a little."""
    leans = abs(other[1] - one[1]) < abs(other[0] - one[0]) * math.tan(math.radians(FAN_DEG))
    return leans and abs(other[0] - one[0]) > 1


def _parted(one: Place, other: Place, ring: Ring) -> Iterator[tuple[Place, Place]]:
    """Yield a side in parts, from the level of a corner to that of the next, no narrower strip."""
    low, high = sorted((one[1], other[1]))
    levels = [low]
    for _, v in sorted(ring, key=lambda place: place[1]):
        if v - levels[-1] >= STRIP_MM and high - v >= STRIP_MM:
            levels.append(v)
    at = [
        (one[0] + (other[0] - one[0]) * (v - one[1]) / (other[1] - one[1]), v)
        for v in (*levels, high)
    ]
    yield from pairwise(at)


def unborne_ends(
    boards: BoardsLaid, members: Sequence[Member], faces: Sequence[Sequence[Spot]]
) -> tuple[Finding, ...]:
    """Return a stop for each piece of which an end hangs free further than it may.

    Source: docs/outline-conventions.md, Frame.
    """
    shapes = [
        *(tuple(map(place_of, each.corners)) for each in members if each.kind != "splice"),
        *(tuple(map(place_of, each)) for each in faces),
    ]
    grid = grid_of(shapes)
    found = []
    for piece in boards.pieces:
        if piece.kind != "hatch":
            free = _free_mm(boards.parts[piece.mark], shapes, grid)
            if free > END_SUPPORT_MM + SAME_MM:
                found.append(_hangs(piece, free))
    return tuple(found)


def over_fascia_alone(pieces: Sequence[LaidPiece], members: Sequence[Member]) -> Iterator[Finding]:
    """Yield the caution on each piece that no timber of the frame lies under.

    Source: docs/outline-conventions.md, Frame.
    """
    shapes = [tuple(map(place_of, each.corners)) for each in members if each.kind != "splice"]
    grid = grid_of(shapes)
    for piece in pieces:
        ring = tuple(map(place_of, piece.corners))
        own = region(ring)
        if all(common(own, region(shapes[at])).is_empty for at in near(grid, ring)):
            yield Finding(
                code="LAY-014",
                severity=Severity.CAUTION,
                subject=piece.mark,
                message="it lies over the fascia alone, no screw holds it to the frame: fix it to "
                "the board beside it, or leave it out of the board before it is sawn",
                measured=piece.length_mm,
                unit="mm",
                source=PRACTICE,
            )


def _hangs(piece: LaidPiece, free_mm: float) -> Finding:
    lies = math.isfinite(free_mm)
    return Finding(
        code="SUB-009",
        severity=Severity.STOP,
        subject=piece.mark,
        message=(
            "an end of it is too far from the nearest timber under it, and no noggin has room: "
            if lies
            else "no timber lies under all of a part of it, and no noggin has room: "
        )
        + "move the corner of the outline, the opening or the breaker board beside it",
        measured=free_mm if lies else piece.length_mm,
        limit=END_SUPPORT_MM,
        unit="mm",
        source=PRACTICE,
    )


def _free_mm(part: Part, shapes: Sequence[Sequence[Place]], grid: Grid) -> float:
    """Return the furthest that an end is off what carries its strip; endless where nothing does."""
    axes = part.band.axes
    wood = [
        [seen(axes, place) for place in shapes[number]] for number in near(grid, corners_of(part))
    ]
    levels = sorted({v for _, v in part.ring})
    low, high = levels[0], levels[-1]
    strips = [(a, b) for a, b in pairwise(levels) if STRIP_MM <= b - a < high - low]
    return max(_free_of_strip(part, wood, strip) for strip in [(low, high), *strips])


def _free_of_strip(part: Part, wood: Sequence[Sequence[Place]], strip: Stretch) -> float:
    low, high = strip
    eighth = (high - low) / 8
    both = [
        (max(a, c), min(b, d))
        for a, b in _carried(wood, low + eighth)
        for c, d in _carried(wood, high - eighth)
        if max(a, c) < min(b, d)
    ]
    held = [*both, *_carried(wood, (low + high) / 2)]
    worst = 0.0
    for start, end in _stretches(part.ring, (low + high) / 2):
        under = [each for each in held if each[1] > start and each[0] < end]
        if not under:
            return math.inf
        before = min(a for a, _ in under) - start
        worst = max(worst, before, end - max(b for _, b in under))
    return worst


def _carried(wood: Sequence[Sequence[Place]], level_mm: float) -> list[Stretch]:
    return [stretch for shape in wood for stretch in _stretches(shape, level_mm)]


def _stretches(ring: Sequence[Place], level_mm: float) -> list[Stretch]:
    """Return from where to where a line at one level lies in a shape."""
    crossed = sorted(
        u + (w - u) * (level_mm - v) / (x - v)
        for (u, v), (w, x) in zip(ring, [*ring[1:], ring[0]], strict=True)
        if (v > level_mm) != (x > level_mm)
    )
    return list(zip(crossed[::2], crossed[1::2], strict=False))
