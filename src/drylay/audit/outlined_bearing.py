"""What boards on an outline lie on: measured along every board from the members under it."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, degrees, radians, sin

from attrs import frozen

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.flaws import off_by
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    SLACK,
    fault,
    laying_of,
    outlines,
    place,
    shape,
    subframe_of,
)
from drylay.audit.outlined_frame import between
from drylay.audit.outlined_strips import strips_of
from drylay.audit.plane import (
    UNIT,
    Box,
    Number,
    Run,
    Shape,
    box,
    lie_apart,
    outer_box,
    run_of,
    sides_of,
    size,
    twice_common,
)
from drylay.laying.model import LaidPiece
from drylay.plan.model import Plan

STRETCH = outlines("Frame: most_centres_mm along every board")
ENDS = outlines("Frame: every cut end of a board lies over a member")

PANELS = outlines("Frame: ledges under a hatch's panel")

Stretch = tuple[Fraction, Fraction]
Held = list[Stretch]


def runs_of(plan: Plan) -> dict[str, Run]:
    """Return which way each piece runs: as its row does, or along its longest side."""
    rows = {strip.row.mark: strip.run for strip in strips_of(plan)}
    width = ticks(laying_of(plan).board_width_mm)
    found = {}
    for piece in laying_of(plan).pieces:
        run = rows.get(piece.row) or _lengthways(shape(piece.corners), width)
        if run is not None:
            found[piece.mark] = run
    return found


def _lengthways(corners: Shape, width: int) -> Run | None:
    """Return which way a board runs: along the longest of its sides that lies a width off all.

    Where none does, it is what is left of one, and runs along its longest side.
    """
    longest, whole = None, None
    for start, end in sorted(sides_of(corners), key=lambda each: _square(*each)):
        run = run_of(start, end)
        if run is not None:
            # either way will do: the one that leads to the right, or away from the house
            longest = run if (run.cos, run.sin) > (0, 0) else Run(cos=-run.cos, sin=-run.sin)
            _, low, _, high = box(run.all_told(corners))
            if size((high - low) - width * UNIT) <= SLACK * UNIT:
                whole = longest
    return whole or longest


def _square(start: tuple[Number, Number], end: tuple[Number, Number]) -> Number:
    return (end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2


def along(told: Shape, level: Fraction) -> list[Stretch]:
    """Return from where to where along a run a line at one level lies in a shape, in 1/320 mm."""
    crossings: list[Fraction] = []
    above, below = level.numerator, level.denominator
    for (u, v), (w, x) in sides_of(told):
        off = above - v * below
        if (off < 0) != (above - x * below < 0):
            # one fraction of whole numbers: adding fractions up takes ten times as long
            under = (x - v) * below
            crossings.append(Fraction(u * under + (w - u) * off, under * UNIT))
    crossings.sort()
    return list(zip(crossings[::2], crossings[1::2], strict=False))


@frozen(kw_only=True)
class Under:
    """What boards lie on: each shape with the box round it, and as told along runs."""

    shapes: tuple[Shape, ...]
    boxes: tuple[Box, ...]
    told: dict[tuple[Run, int], Shape]

    def along(self, run: Run, index: int) -> Shape:
        """Return a shape as told along a run, worked out once."""
        if (run, index) not in self.told:
            self.told[run, index] = run.all_told(self.shapes[index])
        return self.told[run, index]

    def near(self, piece: LaidPiece) -> list[int]:
        """Return which shapes may lie under a piece."""
        whole = outer_box(shape(piece.corners))
        return [at for at, each in enumerate(self.boxes) if not lie_apart(whole, each)]


def members_under(plan: Plan) -> Under:
    """Return the members that boards lie on."""
    members = [member for member in subframe_of(plan).members if member.kind != "splice"]
    return _under([shape(member.corners) for member in members])


def carriers(plan: Plan) -> Under:
    """Return what carries boards: members, and fascia."""
    return _under([*members_under(plan).shapes, *faces(plan)])


def _under(shapes: Sequence[Shape]) -> Under:
    return Under(
        shapes=tuple(shapes), boxes=tuple(outer_box(each) for each in shapes), told={}
    )  # fmt: skip


def faces(plan: Plan) -> list[Shape]:
    """Return the fascia that boards may lie on: of each length what is square to its face.

    Fascia that is planted on nothing carries nothing.
    """
    thick = ticks(subframe_of(plan).facing_thickness_mm) * UNIT
    found = []
    for facing in subframe_of(plan).facings:
        run = run_of(place(facing.start), place(facing.end))
        if run is not None:
            (a, v), (b, _) = run.told(place(facing.start)), run.told(place(facing.end))
            told = ((a, v), (b, v), (b, v + thick), (a, v + thick))
            if _is_planted(plan, run, (a, b), v + thick):
                found.append(tuple(run.place(corner) for corner in told))
    return found


def _is_planted(plan: Plan, run: Run, reach: tuple[Number, Number], level: Number) -> bool:
    """Whether members stand against the back of a length of fascia, along most of it."""
    against: Number = 0
    for member in subframe_of(plan).members:
        left, low, right, _ = box(run.all_told(shape(member.corners)))
        if member.kind in {"rim", "joist"} and size(low - level) <= SLACK * UNIT:
            against += max(0, min(right, reach[1]) - max(left, reach[0]))
    return 2 * against > reach[1] - reach[0]


def bearers(under: Under, run: Run, piece: LaidPiece, levels: Sequence[Fraction]) -> list[Held]:
    """Return, for lines under a piece, the stretches carried, those that touch as one.

    A line along a member's face is over it, whichever of its faces that is.
    """
    told = [(shape_of, *box(shape_of)[1::2])
            for at in under.near(piece) for shape_of in (under.along(run, at),)]  # fmt: skip
    return [
        merged([part for each, low, high in told for part in along(each, _onto(low, level, high))])
        for level in levels
    ]


def _onto(low: Number, level: Fraction, high: Number) -> Fraction:
    """Return the level of a line; of one along a face, of what it is the face of.

    Rounded places tilt a face a little: as far in as both its ends may be off.
    """
    inwards = 2 * SLACK * UNIT
    if size(level - low) <= SLACK * UNIT:
        return Fraction(low) + inwards
    return Fraction(high) - inwards if size(level - high) <= SLACK * UNIT else level


def angle_of(run: Run) -> float:
    """Return the angle of a run from the house, from 0 to under 180 degrees."""
    return degrees(atan2(run.sin, run.cos)) % 180


def most_between(plan: Plan, run: Run) -> float:
    """Return the most there may be between members, face to face, along boards of a run.

    Centres as far apart as `square_centres_mm` along the board, or as `most_centres_mm` is, laid
    out along it, less the timber itself. What carries boards near the joists' own way are noggins
    across it.
    """
    subframe = subframe_of(plan)
    joists = 90.0 if subframe.joist_run == "across" else 0.0
    apart = between(angle_of(run), joists)
    lean = sin(radians(90 - apart if apart < NEAR_JOISTS_DEG else apart))
    thick = ticks(subframe.timber_thickness_mm)
    square, most = ticks(subframe.square_centres_mm), ticks(subframe.most_centres_mm)
    return (min(square * lean, most) - thick) / lean


#: Boards that lie nearer than this to the joists' own way lie on noggins across it.
NEAR_JOISTS_DEG = 30.0


def boards_are_held_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each stretch of a board that hangs free over more than it may."""
    runs, under = runs_of(plan), carriers(plan)
    for piece in laying_of(plan).pieces:
        if piece.kind == "hatch" or piece.mark not in runs:
            continue
        run = runs[piece.mark]
        told, most = run.all_told(shape(piece.corners)), most_between(plan, run)
        _, low, _, high = box(told)
        held = held_along(under, run, piece, (low, high))
        for start, end in along(told, Fraction(low + high) / 2):
            yield from _free(piece.mark, (start, end), held, most)


def held_along(under: Under, run: Run, piece: LaidPiece, edges: tuple[Number, Number]) -> Held:
    """Return where along a board something is under its middle, or under both its edges."""
    low, high = edges
    edge = Fraction(high - low) / 8
    levels = (low + 4 * edge, low + edge, high - edge)
    middle, one, other = bearers(under, run, piece, levels)
    return merged([*middle, *_common(one, other)])


def _common(one: Held, other: Held) -> Held:
    """Return the stretches that two lists in order have in common."""
    found, here, there = [], 0, 0
    while here < len(one) and there < len(other):
        (a, b), (c, d) = one[here], other[there]
        start, end = max(a, c), min(b, d)
        if start < end:
            found.append((start, end))
        here, there = (here + 1, there) if b < d else (here, there + 1)
    return found


def merged(stretches: list[Stretch]) -> list[Stretch]:
    """Return stretches in order, those that touch as one."""
    found: list[Stretch] = []
    for start, end in sorted(stretches):
        if found and start <= found[-1][1] + SLACK:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((start, end))
    return found


def _free(mark: str, whole: Stretch, held: list[Stretch], most: float) -> Iterator[Flaw]:
    inner = [each for each in held if each[1] > whole[0] and each[0] < whole[1]]
    for one, other in pairwise(inner):
        free = float(other[0] - one[1])
        if free > most + SLACK:
            message = "it hangs free over more than it may, from face to face"
            yield off_by(mark, message, free, most, STRETCH)


def ends_lie_over_members(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each end of a board too far from the nearest member under it.

    A board is looked at in the middle of its width, and of each part of it between two corners,
    so that a tip is looked at where it is.
    """
    runs, under = runs_of(plan), carriers(plan)
    most = ticks(subframe_of(plan).end_support_most_mm)
    for piece in laying_of(plan).pieces:
        if piece.kind != "hatch" and piece.mark in runs:
            told = runs[piece.mark].all_told(shape(piece.corners))
            for levels in _strips(told):
                yield from _ends(under, piece, (runs[piece.mark], levels), most)
    if most > ticks(END_SUPPORT_MM):
        message = "more than practice"
        yield off_by("subframe.end_support_most_mm", message, most, ticks(END_SUPPORT_MM), ENDS)


def _strips(told: Shape) -> list[tuple[Number, Number]]:
    """Return a board's whole width, and its parts between neighbouring corners across."""
    _, low, _, high = box(told)
    levels = sorted({v for _, v in told})
    wide = ticks(STRIP_MM) * UNIT
    return [(low, high), *((a, b) for a, b in pairwise(levels) if wide <= b - a < high - low)]


def _ends(
    under: Under, piece: LaidPiece, strip: tuple[Run, tuple[Number, Number]], most: int
) -> Iterator[Flaw]:
    run, levels = strip
    told = run.all_told(shape(piece.corners))
    held = held_along(under, run, piece, levels)
    for start, end in along(told, Fraction(levels[0] + levels[1]) / 2):
        beneath = [each for each in held if each[1] > start and each[0] < end]
        if not beneath:
            yield fault(piece.mark, "no member lies under its middle line", ENDS)
            continue
        for off in (beneath[0][0] - start, end - beneath[-1][1]):
            if off > most + SLACK:
                message = "an end is too far from the nearest member under it"
                yield off_by(piece.mark, message, float(off), most, ENDS)


def bare_pieces_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece that no member lies under, unless the plan cautions of it."""
    told = {finding.subject for finding in plan.findings if finding.code == "LAY-014"}
    under = members_under(plan)
    for piece in laying_of(plan).pieces:
        corners = shape(piece.corners)
        if piece.mark not in told and not _lies_on(under, piece, corners):
            yield fault(piece.mark, "no member lies under it, and the plan does not tell it", ENDS)


def _lies_on(under: Under, piece: LaidPiece, corners: Shape) -> bool:
    """Whether members lie under a piece by half a mm2, which is nothing, or more."""
    over: Number = 0
    for at in under.near(piece):
        over += twice_common(under.shapes[at], corners)
        if over >= PER_MM**2:
            return True
    return False


def panels_bear(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each end of a panel's board that bears on less than half a timber."""
    runs, under = runs_of(plan), members_under(plan)
    least = Fraction(ticks(subframe_of(plan).timber_thickness_mm), 2)
    for piece in laying_of(plan).pieces:
        if piece.kind != "hatch" or piece.mark not in runs:
            continue
        run = runs[piece.mark]
        told = run.all_told(shape(piece.corners))
        _, low, _, high = box(told)
        for eighth in (1, 4, 7):  # its middle, and beside either edge
            level = low + Fraction(high - low) * eighth / 8
            (held,) = bearers(under, run, piece, [level])
            for start, end in along(told, level):
                for bears in (_from(held, start), _until(held, end)):
                    if bears < least - SLACK:
                        message = "a panel's end bears on less than half a timber"
                        yield off_by(piece.mark, message, float(bears), float(least), PANELS)


def _from(held: list[Stretch], start: Fraction) -> Fraction:
    """Return for how far from its start a line is carried without a break."""
    return max((b - start for a, b in held if a <= start + SLACK), default=Fraction(0))


def _until(held: list[Stretch], end: Fraction) -> Fraction:
    """Return for how far before its end a line is carried without a break."""
    return max((end - a for a, b in held if b >= end - SLACK), default=Fraction(0))


END_SUPPORT_MM = 100.0
#: Of a board that has more corners each part so wide is looked at for itself.
STRIP_MM = 20.0

CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-796", "no stretch of a board hangs free over more than it may", boards_are_held_up),
    ("AUD-797", "every end of a board lies over a member or near one", ends_lie_over_members),
    ("AUD-800", "panels of hatches bear at both ends of every board", panels_bear),
    ("AUD-989", "pieces that no member lies under are told", bare_pieces_are_told),
)
