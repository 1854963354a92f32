"""Lines that boards end over: whether timber lies under them, all along."""

from collections.abc import Iterator

from drylay.audit.exact import Fraction, ticks
from drylay.audit.flaws import off_by
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    SLACK,
    all_holes,
    cover,
    laying_of,
    outline_of,
    outlines,
    run_at,
    shape,
    subframe_of,
)
from drylay.audit.outlined_border import courses, inset
from drylay.audit.outlined_strips import ALONGSIDE, JUST
from drylay.audit.plane import UNIT, Place, Shape, root, sides_of, size, turn
from drylay.plan.model import Plan

SEAMS = outlines("Frame: where boards end over a line")
#: So many thicknesses in a row may be bare where no timber has room: an assumption.
BARE = 4

Line = tuple[str, Place, Place]


def seams_are_carried(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each line that boards end over and no timber lies under for too far."""
    wood = [shape(m.corners) for m in subframe_of(plan).members if m.kind != "splice"]
    most = BARE * ticks(subframe_of(plan).timber_thickness_mm)
    for subject, start, end in (*border_lines(plan), *breaker_lines(plan)):
        bare = longest_bare(start, end, [*wood, *all_holes(plan)])
        if bare > most + SLACK:
            message = "no timber lies under the line that boards end over for so far"
            yield off_by(subject, message, bare, most, SEAMS)


def border_lines(plan: Plan) -> Iterator[Line]:
    """Yield a border's inner edges, and the middles of gaps between its courses.

    Only along sides that boards of the field end at.
    """
    laying, run = laying_of(plan), run_at(laying_of(plan).angle_deg)
    half, told = ticks(laying.gap_preferred_mm) // 2, courses(plan)
    for course in told:
        deep = course[1] + (half if course != told[-1] else 0)
        inner = sides_of(inset(cover(plan), deep))
        for side, (start, end) in zip(outline_of(plan).sides, inner, strict=True):
            (u, v), (w, x) = run.told(start), run.told(end)
            if size(x - v) > size(w - u) * ALONGSIDE + LONG_OFF * UNIT:
                yield side.mark, start, end


def breaker_lines(plan: Plan) -> Iterator[Line]:
    """Yield both edges of each breaker board, but of one that is narrower than a board.

    An edge that a corner of the outline parts is a line on either side of it.
    """
    laying = laying_of(plan)
    run, board = run_at(laying.angle_deg + 90), ticks(laying.board_width_mm) * UNIT
    slack = SLACK * UNIT
    for piece in laying.pieces:
        if piece.kind != "breaker":
            continue
        told = run.all_told(shape(piece.corners))
        low, high = (pick(v for _, v in told) for pick in (min, max))
        for level in (low, high) if high - low >= board - slack else ():
            for ends in sides_of(told):
                if all(size(place[1] - level) <= slack for place in ends):
                    yield piece.mark, run.place(min(ends)), run.place(max(ends))


def longest_bare(start: Place, end: Place, wood: list[Shape]) -> float:
    """Return how long a line at most has none of some convex shapes under it."""
    long = root((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2)
    held = sorted(stretch for each in wood for stretch in stretches_under(start, end, each))
    at, bare = Fraction(0), Fraction(0)
    for first, last in (*held, (Fraction(1), Fraction(1))):
        bare = max(bare, first - at)
        at = max(at, last)
    return float(bare * long)


def stretches_under(
    start: Place, end: Place, corners: Shape
) -> Iterator[tuple[Fraction, Fraction]]:
    """Yield from which share of a line to which a convex shape lies under it, within 0.1 mm."""
    first, last = Fraction(0), Fraction(1)
    for a, b in sides_of(corners):
        slack = JUST * root((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2)
        before, after = turn(a, b, start) + slack, turn(a, b, end) + slack
        if before < 0 and after < 0:
            return
        if before < 0:
            first = max(first, Fraction(before) / (before - after))
        elif after < 0:
            last = min(last, Fraction(before) / (before - after))
    if first < last:
        yield first, last


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-991", "timber lies under the lines that boards end over", seams_are_carried),
)
