"""How ends of boards are carried: what the frame is asked for under them, and what it lacks."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from drylay.findings import Finding, Severity
from drylay.geometry import SAME_MM, Place, Ring, common, region
from drylay.laying.axes import place_of, placed, spot
from drylay.laying.model import LaidPiece
from drylay.laying.parts import Part
from drylay.laying.rows import FAN_DEG
from drylay.outline.model import Spot
from drylay.planner.angles import carried_deg
from drylay.planner.job import Job
from drylay.planner.outlined_boards import BoardsLaid
from drylay.planner.outlined_held import STRIP_MM, Stretch, Wood, free_end_mm, hanging, wood_of
from drylay.planner.outlined_job import END_SUPPORT_MM
from drylay.planner.outlined_rules import SQUARE
from drylay.planner.rows import PRACTICE
from drylay.reasons import Source
from drylay.subframe.grid import near
from drylay.subframe.model import Facing, Member
from drylay.subframe.wants import BoardEnd

SHARP = Source(kind="assumption", title="docs/outline-conventions.md",
               clause="Fixings on an outline: ends too sharp for screws")  # fmt: skip
#: Ends of members further off square than this are sharp; so much over it is not told apart.
SHARP_DEG, SHARP_SLACK_DEG = 60.0, 0.05
#: By so much the rounding of corners alone may part two faces: less than the auditor forgives.
ROUNDED_MM = 2 / 320


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
    axes, middle, run_deg = part.band.axes, (part.start_mm + part.end_mm) / 2, _run_deg(part)
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


def hanging_stretches(job: Job, boards: BoardsLaid, wood: Wood) -> list[BoardEnd]:
    """Return the middles of all stretches that hang free over more than they may, as ends."""
    found = []
    for piece in boards.pieces:
        part = boards.parts[piece.mark]
        axes, band = part.band.axes, part.band
        for start, end in _hanging(job, piece, part, wood):
            middle = (start + end) / 2
            ends = (spot(placed(axes, (middle, v))) for v in (band.low_mm, band.high_mm))
            found.append(BoardEnd(start=next(ends), end=next(ends), inwards_deg=_run_deg(part)))
    return found


def _hanging(job: Job, piece: LaidPiece, part: Part, wood: Wood) -> list[Stretch]:
    if piece.kind == "hatch":
        return []
    return hanging(part, wood, _most_free_mm(job, _run_deg(part)) + ROUNDED_MM)


def _run_deg(part: Part) -> float:
    return math.degrees(math.atan2(part.band.axes.sin_ratio, part.band.axes.cos_ratio))


def _most_free_mm(job: Job, run_deg: float) -> float:
    """Return the most a board may hang free, face to face, between what carries it.

    Source: docs/outline-conventions.md, Frame.
    """
    lean = math.sin(math.radians(carried_deg(job.brief, run_deg)))
    most_mm = min(job.rules.value(SQUARE) * lean, job.rules.value("supports.most_centres_mm"))
    return (most_mm - job.articles.timber.thickness_mm) / lean


def unborne(job: Job, boards: BoardsLaid, wood: Wood) -> tuple[Finding, ...]:
    """Return a stop for each piece that hangs free further than it may, at an end or between.

    Source: docs/outline-conventions.md, Frame.
    """
    found = []
    for piece in boards.pieces:
        part = boards.parts[piece.mark]
        if piece.kind == "hatch":
            continue
        free = free_end_mm(part, wood)
        if free > END_SUPPORT_MM + SAME_MM:
            found.append(_hangs(piece, free))
        for start, end in _hanging(job, piece, part, wood):
            found.append(_between(piece, end - start, _most_free_mm(job, _run_deg(part))))
    return tuple(found)


def _between(piece: LaidPiece, free_mm: float, most_mm: float) -> Finding:
    return Finding(
        code="SUB-012",
        severity=Severity.STOP,
        subject=piece.mark,
        message="it hangs free over more than it may, and no noggin has room there: move the "
        "corner of the outline, the opening or the breaker board beside it",
        measured=free_mm,
        limit=most_mm,
        unit="mm",
        source=PRACTICE,
    )


def over_fascia_alone(pieces: Sequence[LaidPiece], members: Sequence[Member]) -> Iterator[Finding]:
    """Yield the caution on each piece that no timber of the frame lies under.

    Source: docs/outline-conventions.md, Frame.
    """
    wood = wood_of(members)
    for piece in pieces:
        ring = tuple(map(place_of, piece.corners))
        own = region(ring)
        if all(common(own, region(wood.shapes[at])).is_empty for at in near(wood.grid, ring)):
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


def sharp_ends(members: Sequence[Member]) -> Iterator[Finding]:
    """Yield the caution on members whose carried ends are too sharp to be screwed from behind.

    Source: docs/outline-conventions.md, Fixings on an outline: an assumption. A screw driven square
    into the middle of a 45 mm timber's end comes out of its side after 22.5 mm / sin of how far
    the end is off square: after 26 mm at 60 degrees, less than half of what it would hold by.
    """
    carried = [(member.mark, _sharpest_deg(member)) for member in members]
    sharp = {mark: deg for mark, deg in carried if deg > SHARP_DEG + SHARP_SLACK_DEG}
    if sharp:
        yield Finding(
            code="FIX-026",
            severity=Severity.CAUTION,
            subject=", ".join(sharp),
            message="an end is sawn so sharp that screws through what it stands against come out "
            "at its side: hold it over a cleat or packer fixed to both along its side, not by "
            "those screws alone",
            measured=max(sharp.values()),
            limit=SHARP_DEG,
            unit="degrees",
            source=SHARP,
        )


def _sharpest_deg(member: Member) -> float:
    """Return how far off square the sharper of a member's carried ends is; 0 without any."""
    ends = ((member.start_on, member.start_deg), (member.end_on, member.end_deg))
    return max((abs(off_deg) for on, off_deg in ends if on), default=0.0)


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
