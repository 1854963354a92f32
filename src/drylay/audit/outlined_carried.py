"""Where a board on an outline is carried: what its middle line crosses, or lies along."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, floor

from attrs import field, frozen

from drylay.audit.exact import Fraction, ticks
from drylay.audit.outlined import place, shape, subframe_of
from drylay.audit.outlined_bearing import along
from drylay.audit.outlined_strips import JUST, strips_of
from drylay.audit.plane import UNIT, Number, Place, Run, Shape, box, boxes_meet, run_of
from drylay.laying.model import LaidPiece
from drylay.plan.model import Plan
from drylay.subframe.model import Member

#: What boards are screwed to wherever they cross it.
CARRY = {"rim", "joist", "pair", "trimmer", "double"}


Line = tuple[Place, Place]


def carries(member: Member) -> bool:
    """Whether a member carries boards: of noggins only those that are named for a zone."""
    return member.kind in CARRY or (member.kind == "noggin" and member.side != "")


def stretches(plan: Plan, piece: LaidPiece, run: Run) -> list[Line]:
    """Return the middle line of a board: its row's where it lies to both sides, or its own."""
    told = told_stretches(plan, piece, run, own=True)
    return [(run.place(start), run.place(end)) for start, end in told]


def told_stretches(plan: Plan, piece: LaidPiece, run: Run, *, own: bool = False) -> list[Line]:
    """Return the middle line of a board as told along its run: its row's.

    With `own`, of a strip that lies to both sides of that nowhere, its own middle.
    """
    told = run.all_told(shape(piece.corners))
    start, low, end, high = box(told)
    level = Fraction(low + high) / 2
    if piece.kind == "border":
        return [((start, level), (end, level))]
    if piece.kind != "breaker":
        rows = [strip.middle for strip in strips_of(plan, piece.row)]
        level = (rows or [level])[0]
    found = _along_level(told, level)
    if not own or piece.kind == "breaker":
        return found
    most = ticks(subframe_of(plan).most_centres_mm) + JUST
    return [*found, *_of_strips(told, (start, end), found, most * UNIT)]


def _of_strips(
    told: Shape, tips_of: tuple[Number, Number], found: Sequence[Shape], most: Number
) -> Iterator[Line]:
    """Yield the middle lines of what of a shape some lines miss over more than so much.

    Of what they miss altogether, however short it is; and so on for what these miss.
    """
    edges = [tips_of[0], *sorted(u for line in found for u, _ in line), tips_of[1]]
    for start, end in zip(edges[::2], edges[1::2], strict=True):
        if end - start <= (most if found else 0):
            continue
        level = _middle_at(told, Fraction(start + end) / 2)
        own = [
            ((max(a, start), level), (min(b, end), level))
            for (a, _), (b, _) in _along_level(told, level)
            if min(b, end) - max(a, start) > JUST * UNIT
        ]
        if own:
            yield from own
            yield from _of_strips(told, (start, end), own, most)


def _middle_at(told: Shape, at: Fraction) -> Fraction:
    """Return the middle of the widest that a shape is across its run at one place."""
    wide = along(tuple((v, u) for u, v in told), at)
    low, high = max(wide, key=lambda each: each[1] - each[0], default=(Fraction(0), Fraction(0)))
    return (low + high) * UNIT / 2


def _along_level(told: Shape, level: Fraction) -> list[Line]:
    """Return where a shape lies to both sides of a level."""
    spans = (
        (max(a, c), min(b, d))
        for a, b in along(told, level - JUST * UNIT)
        for c, d in along(told, level + JUST * UNIT)
    )
    return [((a * UNIT, level), (b * UNIT, level)) for a, b in spans if a < b]


@frozen(kw_only=True)
class MemberLines:
    """The members that carry boards, with their middle lines: as they are, and drawn on.

    `told` are those lines along runs, each worked out once.
    """

    members: tuple[Member, ...]
    plain: tuple[Line, ...]
    drawn: tuple[Line, ...]
    told: dict[tuple[bool, Run], list[Shape]] = field(factory=dict, eq=False)

    def along(self, run: Run, *, drawn: bool) -> list[Shape]:
        """Return the plain or the drawn lines as told along a run."""
        if (drawn, run) not in self.told:
            lines = self.drawn if drawn else self.plain
            self.told[drawn, run] = [run.all_told(line) for line in lines]
        return self.told[drawn, run]


def member_lines(plan: Plan) -> MemberLines:
    """Return the middle lines of all members that carry boards, to be worked out once."""
    members = tuple(member for member in subframe_of(plan).members if carries(member))
    return MemberLines(
        members=members,
        plain=tuple((place(member.start), place(member.end)) for member in members),
        drawn=tuple(drawn_on(plan, member) for member in members),
    )


def carried_at(plan: Plan, piece: LaidPiece, run: Run, lines: MemberLines) -> list[Fraction]:
    """Return where along its run a board is carried: what crosses it, or even places."""
    own = told_stretches(plan, piece, run, own=True)
    found = crossed_at(own, lines.along(run, drawn=False))
    left, right = tips(run, piece)
    if closely(plan, found, left, right):
        return found
    found = crossed_at(own, lines.along(run, drawn=True))
    if closely(plan, found, left, right) or not any(
        lies_along(piece, run, member) for member in lines.members
    ):
        return found
    return [left + each for each in evenly(plan, right - left)]


def evenly(plan: Plan, length: Fraction) -> list[Fraction]:
    """Return where a board so long is carried that lies along a member: at even places."""
    subframe = subframe_of(plan)
    thick = ticks(subframe.timber_thickness_mm)
    clear = length - thick
    bays = max(1, int(-((JUST - clear) // ticks(subframe.most_centres_mm))))
    return [Fraction(thick, 2) + clear * at / bays for at in range(bays + 1)]


def tips(run: Run, piece: LaidPiece) -> tuple[Fraction, Fraction]:
    """Return where along its run a board begins and ends."""
    left, _, right, _ = box(run.all_told(shape(piece.corners)))
    return Fraction(left) / UNIT, Fraction(right) / UNIT


def drawn_on(plan: Plan, member: Member) -> Line:
    """Return a member's middle line, drawn on at its carried ends over what carries them."""
    start, end = place(member.start), place(member.end)
    run = None if member.kind == "rim" else run_of(start, end)
    if run is None:
        return start, end
    on = Fraction(3 * ticks(subframe_of(plan).timber_thickness_mm), 2) * UNIT
    (u, v), (w, x) = run.told(start), run.told(end)
    first = u - (on if member.start_on else 0)
    last = w + (on if member.end_on else 0)
    return run.place((first, v)), run.place((last, x))


def crossed_at(own: Sequence[Shape], others: Sequence[Shape]) -> list[Fraction]:
    """Return where along a board its middle line crosses others, in order; all told along it."""
    found: list[Fraction] = []
    levelled = [(line, floor(line[0][1]), ceil(line[0][1])) for line in own]
    for other in others:
        crossed = (
            told_crossing(line, other)
            for line, low, high in levelled
            if may_cross(other, low, high)
        )
        found += [at for at in crossed if at is not None][:1]
    return sorted(found)


def may_cross(other: Shape, low: int, high: int) -> bool:
    """Whether a line may cross a level between two whole numbers: these turn most down at once."""
    (_, v), (_, x) = other
    return (v < high or x < high) and (v > low or x > low)


def told_crossing(line: Shape, other: Shape) -> Fraction | None:
    """Return where along a run a line that lies along it crosses another, both told so, else None.

    What only just reaches does not cross it: the other's ends lie well to either side of the line,
    and the place well inside its ends.
    """
    (start, level), (end, _) = line
    (u, v), (w, x) = other
    just = JUST * UNIT
    low, high = (v, x) if v < x else (x, v)
    if not (low + just < level < high - just):
        return None
    at = u + (w - u) * Fraction(level - v) / (x - v)
    return at / UNIT if start + just < at < end - just else None


def closely(plan: Plan, found: list[Fraction], left: Fraction, right: Fraction) -> bool:
    """Whether a board is crossed by two or more, none of them far from the next, or from a tip."""
    most = 2 * ticks(subframe_of(plan).most_centres_mm) + JUST
    at = [left, *found, right]
    return len(found) >= 2 and all(other - one <= most for one, other in pairwise(at))


def lies_along(piece: LaidPiece, run: Run, member: Member) -> bool:
    """Whether a member's middle line lies inside a board over more than half the board's length."""
    corners, line = shape(piece.corners), (place(member.start), place(member.end))
    own = run_of(*line)
    if own is None or not boxes_meet(corners, line):
        return False
    (u, level), (w, _) = own.all_told(line)
    start, end = Fraction(u) / UNIT, Fraction(w) / UNIT
    told, just = own.all_told(corners), JUST * UNIT
    inner = Fraction(0)
    for a, b in along(told, Fraction(level - just)):
        for c, d in along(told, Fraction(level + just)):
            inner += max(Fraction(0), min(b, d, end) - max(a, c, start))
    left, right = tips(run, piece)
    return 2 * (inner - JUST) > right - left
