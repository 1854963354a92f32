"""Setting out an outline: pegs at the frame's corners, ties that place and check them."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import atan2, degrees, dist, hypot

from drylay.audit.exact import mm, ticks
from drylay.audit.flaws import need, same_count, same_length, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import fault, near, outline_of, outlines, place, shape
from drylay.audit.own_line import TAPE, on_line
from drylay.audit.slabs import Flat
from drylay.audit.work import UNITS, work_of
from drylay.outline.model import Outline
from drylay.plan.model import Plan
from drylay.work.model import Peg, PegTie, SettingOut

WORK = outlines("Ground, site and work: work")
#: How far a place may be off for its rounding, and a length between two such, in 1/320 mm.
OFF, LONG_OFF = 2, 4
#: Tapes meet no sharper than this where any do better; a corner so near to square is square.
SHARPEST_DEG, SQUARE_DEG = 30.0, 0.05
#: No tape goes through the ground so far behind a house side, nor through its last mm.
BEHIND, SKIN = 320_000, 320
#: Tapes that meet as near to square as others, but for this, are as good.
AS_GOOD_DEG = 0.01


def _setting_out(plan: Plan) -> SettingOut:
    outline_of(plan)
    return work_of(plan).setting_out


def base_of(outline: Outline) -> int:
    """Return which side is the base line: the longest of the house's, else of all, the first."""
    house = [side for side in outline.sides if side.kind == "house"] or list(outline.sides)
    longest = max(ticks(side.length_mm) for side in house)
    base = next(side for side in house if ticks(side.length_mm) == longest)
    return outline.sides.index(base)


def corners_of(outline: Outline) -> list[Flat]:
    """Return the corners of the frame's face in 1/320 mm, the first at the base line's start."""
    lines = []
    for side in outline.sides:
        (ax, ay), (bx, by) = place(side.start), place(side.end)
        long, back = hypot(bx - ax, by - ay), ticks(side.facing_mm)
        dx, dy = -(by - ay) / long * back, (bx - ax) / long * back
        lines.append(((ax + dx, ay + dy), (bx + dx, by + dy)))
    found = [_met(lines[index - 1], line) for index, line in enumerate(lines)]
    first = base_of(outline)
    return found[first:] + found[:first]


def _met(one: tuple[Flat, Flat], other: tuple[Flat, Flat]) -> Flat:
    """Return where two lines meet; where they are as good as one, the end of the first."""
    ((ax, ay), (bx, by)), ((cx, cy), (dx, dy)) = one, other
    under = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if abs(under) < 1e-9 * dist(*one) * dist(*other):
        return (bx, by)
    share = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / under
    return ax + share * (bx - ax), ay + share * (by - ay)


def pegs_at_the_corners(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each corner of an outline's frame without its peg."""
    pegs, corners = _setting_out(plan).pegs, corners_of(outline_of(plan))
    path = "work.setting_out.pegs"
    yield from same_count(path, "not one at each corner", len(pegs), len(corners), WORK)
    for number, (peg, corner) in enumerate(zip(pegs, corners, strict=False), start=1):
        yield from same_text(peg.mark, "not its mark", peg.mark, f"P{number}", WORK)
        for name, told, wanted in (("along", peg.along_mm, corner[0]),
                                   ("across", peg.across_mm, corner[1])):  # fmt: skip
            yield from near(f"{peg.mark}.{name}_mm", "not at the frame's corner", told, mm(wanted),
                            slack=mm(OFF), unit="mm", source=WORK)  # fmt: skip
        yield from _as_measured(peg, plan)


def _as_measured(peg: Peg, plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a peg is told as the brief measures, where that is another way."""
    deg = outline_of(plan).turned_deg
    told = (peg.brief_along_mm, peg.brief_across_mm)
    if not deg:
        if told != (None, None):
            yield fault(peg.mark, "measured another way, and the deck is not turned", WORK)
        return
    wanted = on_line(peg.along_mm, peg.across_mm, -deg)
    for name, found, ought in zip(("along", "across"), told, wanted, strict=True):
        at, message = f"{peg.mark}.brief_{name}_mm", "not where the brief's own measure has it"
        if found is None:
            yield fault(at, "not told as the brief measures", WORK)
            continue
        yield from near(at, message, found, mm(ought), slack=mm(TAPE), unit="mm", source=WORK)


def _pegs(plan: Plan) -> dict[str, Flat]:
    pegs = {peg.mark: (ticks(peg.along_mm), ticks(peg.across_mm))
            for peg in _setting_out(plan).pegs}  # fmt: skip
    return {mark: (float(x), float(y)) for mark, (x, y) in pegs.items()}


def ties_are_taped(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each tie between no pegs, of another length than theirs, or told twice."""
    out, pegs, shut = _setting_out(plan), _pegs(plan), in_the_way(outline_of(plan))
    yield from same_count("work.setting_out.tie_count", "not those told", out.tie_count or 0,
                          len(out.ties), WORK)  # fmt: skip
    seen: set[frozenset[str]] = set()
    for number, tie in enumerate(out.ties):
        path, ends = f"work.setting_out.ties[{number}]", frozenset((tie.start, tie.end))
        if len(ends & set(pegs)) != 2 or ends in seen:
            yield fault(path, "not between two pegs, or told twice", WORK)
            continue
        seen.add(ends)
        apart = dist(pegs[tie.start], pegs[tie.end])
        if tie.check and blocked(pegs[tie.start], pegs[tie.end], shut):
            yield fault(path, "it checks through the house, or what stands in the deck", WORK)
        yield from near(path, "not how far its pegs are apart", tie.length_mm, mm(apart),
                        slack=mm(LONG_OFF), unit="mm", source=WORK)  # fmt: skip


def pegs_are_placed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each peg that no two ties place well from pegs that stand already."""
    out, pegs = _setting_out(plan), _pegs(plan)
    ties = [tie for tie in out.ties if not tie.check]
    first = need(ties or None, "ties")[0]
    if (first.start, first.end) != ("P1", "P2"):
        yield fault("work.setting_out.ties[0]", "the first is not the base line", WORK)
    stand = ["P1", "P2"]
    for one, other in zip(ties[1::2], ties[2::2], strict=False):
        if one.end != other.end or one.end in stand or not {one.start, other.start} <= set(stand):
            yield fault(one.end, "not placed from two pegs that stand", WORK)
        elif {one.start, other.start, one.end} <= set(pegs):
            yield from _meets_well(plan, one, other, stand, pegs)
        stand.append(one.end)
    if sorted(stand) != sorted(pegs) or len(ties) != 2 * len(pegs) - 3:
        yield fault("work.setting_out.ties", "not two ties for every peg after P2", WORK)


def _meets_well(
    plan: Plan, one: PegTie, other: PegTie, stand: Sequence[str], pegs: dict[str, Flat]
) -> Iterator[Flaw]:
    """Yield a flaw where two other pegs that stand would place a peg better, and can be seen."""
    shut = in_the_way(outline_of(plan))
    known = [mark for mark in stand if mark in pegs]
    seen = [mark for mark in known if not blocked(pegs[mark], pegs[one.end], shut)]
    offs = {
        frozenset(pair): _off_deg(pegs[one.end], pegs[pair[0]], pegs[pair[1]])
        for pair in combinations(seen, 2)
    }
    if not offs:
        yield from _is_told_shut(plan, one, other, pegs)
        return
    told, best = offs.get(frozenset((one.start, other.start))), min(offs.values())
    if told is None or told > best + AS_GOOD_DEG:
        yield Flaw(
            subject=one.end, message="tapes from two other pegs meet nearer to square",
            measured=90.0 if told is None else told, limit=best, unit="deg", source=WORK,
        )  # fmt: skip


def _is_told_shut(plan: Plan, one: PegTie, other: PegTie, pegs: dict[str, Flat]) -> Iterator[Flaw]:
    """Yield a flaw unless the plan tells each tape that has to go through something."""
    told = {each.message.split()[3] for each in plan.findings
            if each.code == "WRK-002" and each.subject == one.end}  # fmt: skip
    shut = in_the_way(outline_of(plan))
    for tie in (one, other):
        if blocked(pegs[tie.start], pegs[tie.end], shut) != (tie.start in told):
            yield fault(tie.end, f"whether the tape from {tie.start} is clear is told wrong", WORK)


def _off_deg(at: Flat, one: Flat, other: Flat) -> float:
    """Return how far from square two tapes meet."""
    (ax, ay), (bx, by) = ((end[0] - at[0], end[1] - at[1]) for end in (one, other))
    return abs(90 - degrees(abs(atan2(ax * by - ay * bx, ax * bx + ay * by))))


def in_the_way(outline: Outline) -> list[tuple[Flat, ...]]:
    """Return what no tape goes through: the ground behind house sides, and what stands."""
    found: list[tuple[Flat, ...]] = []
    for side in outline.sides:
        if side.kind == "house":
            (ax, ay), (bx, by) = place(side.start), place(side.end)
            long = dist((ax, ay), (bx, by))
            x, y = (by - ay) / long * BEHIND, (ax - bx) / long * BEHIND
            found.append(((bx, by), (ax, ay), (ax + x, ay + y), (bx + x, by + y)))
    for opening in outline.openings:
        if opening.kind != "hatch":
            found.append(tuple((float(x), float(y)) for x, y in shape(opening.within)))
    return found


def blocked(one: Flat, other: Flat, shut: Sequence[tuple[Flat, ...]]) -> bool:
    """Return whether a tape from one place to another goes through any of some shapes."""
    return any(_goes_through(one, other, ring) for ring in shut)


def _goes_through(one: Flat, other: Flat, ring: tuple[Flat, ...]) -> bool:
    """Return whether a straight passes through a convex shape, a mm inside its sides."""
    low, high = 0.0, 1.0
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        long = dist((ax, ay), (bx, by))
        here, there = (
            ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / long - SKIN for x, y in (one, other)
        )
        if here == there:
            if here <= 0:
                return False
            continue
        at = -here / (there - here)
        low, high = (max(low, at), high) if there > here else (low, min(high, at))
    return (high - low) * dist(one, other) > SKIN / 100


def pegs_are_checked(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each peg after the first three set that no tie more checks."""
    out, pegs = _setting_out(plan), _pegs(plan)
    placed = list(dict.fromkeys(m for t in out.ties if not t.check for m in (t.start, t.end)))
    checked = {tie.end for tie in out.ties if tie.check}
    shut = in_the_way(outline_of(plan))
    used = {frozenset((tie.start, tie.end)) for tie in out.ties}
    for mark in (each for each in placed[3:] if each in pegs and each not in checked):
        if any(
            frozenset((mark, other)) not in used and not blocked(pegs[mark], pegs[other], shut)
            for other in pegs
            if other != mark
        ):
            yield fault(mark, "no tie checks it", WORK)


def triangle_at_the_base(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the 3-4-5 at P1 is the largest its sides carry, where they are square."""
    out, corners = _setting_out(plan), corners_of(outline_of(plan))
    at, along, across = corners[0], corners[1], corners[-1]
    square = _off_deg(at, along, across) <= SQUARE_DEG
    sides = [round(dist(at, end)) for end in (along, across)]
    unit = UNITS.get(plan.units, UNITS["metric"])
    times = min(min(sides) // (3 * unit), max(sides) // (4 * unit)) if square else 0
    legs = (4, 3, 5) if sides[0] >= sides[1] else (3, 4, 5)
    shut = in_the_way(outline_of(plan))
    while times and blocked(_from(at, along, legs[0] * times * unit),
                            _from(at, across, legs[1] * times * unit), shut):  # fmt: skip
        times -= 1
    told = (out.leg_along_mm, out.leg_across_mm, out.slant_mm)
    for name, leg_mm, part in zip(("leg_along_mm", "leg_across_mm", "slant_mm"), told, legs,
                                  strict=True):  # fmt: skip
        path = f"work.setting_out.{name}"
        if (leg_mm is None) != (times == 0):
            yield fault(path, "a 3-4-5 where none fits, or none where one does", WORK)
        elif leg_mm is not None:
            yield from same_length(path, "not the largest 3-4-5", leg_mm, part * times * unit, WORK)
    path = "work.setting_out.accepted_mm"
    yield from same_length(path, "not what ties may be off by", out.accepted_mm, ticks(5.0), WORK)


def _from(at: Flat, towards: Flat, by: int) -> Flat:
    share = by / dist(at, towards)
    return at[0] + share * (towards[0] - at[0]), at[1] + share * (towards[1] - at[1])


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-924", "pegs stand at the corners of an outline's frame", pegs_at_the_corners),
    ("AUD-925", "ties are as long as their pegs are apart", ties_are_taped),
    ("AUD-926", "every peg is placed by two ties that meet well", pegs_are_placed),
    ("AUD-927", "every peg after the third is checked by a tie", pegs_are_checked),
    ("AUD-928", "the 3-4-5 at P1 is the largest, where it is square", triangle_at_the_base),
)
