"""Where boards on an outline are carried: by the members under their middle lines."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import evolve, frozen

from drylay.geometry import SAME_MM, Place, Region, region, shifted, stretches
from drylay.laying.axes import place_of, seen, spot
from drylay.laying.parts import Part
from drylay.subframe.model import Member

#: What only just reaches is told as not reaching, by so much: see docs/outline-conventions.md.
JUST_MM = 0.1
#: What a part of a row may be jointed on, where the family wants no pair.
JOINTED_ON = frozenset({"joist", "pair", "double", "rim"})
#: What counts as a support under a board's middle line.
CARRIES = frozenset({"joist", "pair", "double", "rim", "trimmer"})


@frozen(kw_only=True)
class Crossing:
    """Where a part's middle line crosses a member's: how far along the run, over which member.

    `line` is the number of the joist line that the member stands on, None for none. `level_mm` is
    how far to the left of the run it is crossed, None for the middle line of the row.
    """

    at_mm: float
    member: str
    line: int | None
    level_mm: float | None = None


@frozen(kw_only=True)
class Standing:
    """A member as joints see it, and the joist line it stands on, None for none."""

    member: Member
    line: int | None


def standing(members: Sequence[Member], lines_mm: Sequence[float], run: str) -> list[Standing]:
    """Return members that carry boards, each with the joist line it stands on."""
    numbers = {round(at, 3): number for number, at in enumerate(lines_mm)}
    found = []
    for member in members:
        if member.kind not in CARRIES and not (member.kind == "noggin" and member.side):
            continue
        (x1, y1), (x2, y2) = place_of(member.start), place_of(member.end)
        at, other = (x1, x2) if run == "across" else (y1, y2)
        line = numbers.get(round(at, 3)) if abs(at - other) < SAME_MM else None
        jointed = line is not None and member.kind in JOINTED_ON
        found.append(Standing(member=member, line=line if jointed else None))
    return found


@frozen(kw_only=True)
class Along:
    """How boards are held that lie along members, not across them: so far apart at most.

    The first and the last place are half a timber's thickness from the board's tips.
    """

    most_mm: float
    thickness_mm: float


def crossings(
    part: Part, members: Sequence[Standing], along: Along, *, kind: str
) -> tuple[Crossing, ...]:
    """Return where a part is carried: where its middle line crosses members', along the run.

    The middle line of a "border" board is drawn out to its tips, as where it is mitred. Where a
    part runs along a rim or a trimmer, joists that end on it count as drawn on under it. One that
    lies along a member, and is not crossed closely all the same, is carried at even places.
    """
    found = crossed(part, members, along, kind=kind, own=True)
    if _dense(part, found, along.most_mm):
        return found
    under = _along_member(part, members)
    if under is None:
        return found
    clear = part.end_mm - part.start_mm - along.thickness_mm
    bays = max(1, math.ceil((clear - JUST_MM) / along.most_mm))
    return tuple(
        Crossing(
            at_mm=part.start_mm + along.thickness_mm / 2 + clear * at / bays,
            member=under,
            line=at,
        )
        for at in range(bays + 1)
    )


def crossed(
    part: Part, members: Sequence[Standing], along: Along, *, kind: str, own: bool = False
) -> tuple[Crossing, ...]:
    """Return the members that cross a part, drawn on where they do not cross it closely.

    With `own` strips that their row's middle line misses count by their own: they are held there,
    and cannot be jointed.
    """
    line = list(_lines(part, kind, along.most_mm if own else None))
    found = _crossed(part, members, line)
    if _dense(part, found, along.most_mm):
        return found
    return _crossed(part, [_drawn_on(each, along.thickness_mm) for each in members], line)


def _drawn_on(each: Standing, thickness_mm: float) -> Standing:
    """Return a member with its carried ends drawn on over what carries them."""
    member = each.member
    if member.kind == "rim":
        return each
    start, end = place_of(member.start), place_of(member.end)
    long = math.dist(start, end)
    way = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    by = [thickness_mm * 1.5 if on else 0.0 for on in (member.start_on, member.end_on)]
    first = (start[0] - by[0] * way[0], start[1] - by[0] * way[1])
    last = (end[0] + by[1] * way[0], end[1] + by[1] * way[1])
    return evolve(each, member=evolve(member, start=spot(first), end=spot(last)))


def _dense(part: Part, found: tuple[Crossing, ...], most_mm: float) -> bool:
    """Whether members cross a part so closely that they carry it without what lies along it.

    Boards at 30 degrees to the joists, the least there is, are crossed at twice their centres.
    """
    at = [part.start_mm, *(each.at_mm for each in found), part.end_mm]
    return len(found) > 1 and all(b - a <= 2 * most_mm + JUST_MM for a, b in pairwise(at))


def _along_member(part: Part, members: Sequence[Standing]) -> str | None:
    """Return the longest member that lies under more than half of a part, None where none does."""
    found = []
    least = (part.end_mm - part.start_mm) / 2 + JUST_MM
    area = region(part.ring)
    for each in members:
        start, end = (
            seen(part.band.axes, place_of(at)) for at in (each.member.start, each.member.end)
        )
        reach = _inside_mm(area, start, end)
        if reach > least:
            found.append((-reach, each.member.mark))
    return min(found)[1] if found else None


def _inside_mm(area: Region, start: Place, end: Place) -> float:
    """Return over how much of its length a line lies inside an area, and well so to either side."""
    right, left = (stretches(area, *shifted(start, end, by)) for by in (-JUST_MM, JUST_MM))
    return sum(max(0.0, min(b, d) - max(a, c)) for a, b in right for c, d in left)


@frozen(kw_only=True)
class _Line:
    """A part's middle line: how far to the left of its run, and where along that it lies on it."""

    level_mm: float
    spans: tuple[tuple[float, float], ...]


def is_strip(part: Part) -> bool:
    """Whether a part lies beside its row's middle line over half its length or more.

    Nothing carries it on that line there, where joints lie: it cannot be jointed.
    """
    (line,) = _lines(part, "field", None)
    on_line_mm = sum(end - start for start, end in line.spans)
    return 2 * on_line_mm <= part.end_mm - part.start_mm


def _lines(part: Part, kind: str, own_mm: float | None) -> Iterator[_Line]:
    """Yield a part's middle line: its row's, and with `own_mm` those of strips that it misses."""
    across = [v for _, v in part.ring]
    if kind == "border":
        whole = ((part.start_mm, part.end_mm),)
        yield _Line(level_mm=(min(across) + max(across)) / 2, spans=whole)
        return
    level = (part.band.low_mm + part.band.high_mm) / 2
    if kind == "breaker":
        level = (min(across) + max(across)) / 2
    line = _Line(level_mm=level, spans=tuple(_spans(part, level)))
    yield line
    if own_mm is not None and kind != "breaker":
        yield from _of_strips(part, line, own_mm)


def _of_strips(part: Part, line: _Line, most_mm: float) -> Iterator[_Line]:
    """Yield the middle lines of what of a part a line misses over more than so much of its length.

    Of a part that the line misses altogether, however short it is; and so on for what these miss.
    """
    edges = [part.start_mm, *(at for span in sorted(line.spans) for at in span), part.end_mm]
    least = most_mm + JUST_MM if line.spans else 0.0
    for start, end in zip(edges[::2], edges[1::2], strict=True):
        if end - start > least:
            yield from _own_lines(part, (start, end), most_mm)


def _own_lines(part: Part, reach: tuple[float, float], most_mm: float) -> Iterator[_Line]:
    """Yield the middle line of a strip, as it lies halfway; and those of what that misses."""
    start, end = reach
    level = _middle_at(part, (start + end) / 2)
    spans = () if level is None else tuple(
        (max(low, start), min(high, end))
        for low, high in _spans(part, level)
        if min(high, end) - max(low, start) > JUST_MM
    )  # fmt: skip
    if level is None or not spans:
        return
    yield _Line(level_mm=level, spans=spans)
    edges = [start, *(at for span in sorted(spans) for at in span), end]
    for low, high in zip(edges[::2], edges[1::2], strict=True):
        if high - low > most_mm + JUST_MM:
            yield from _own_lines(part, (low, high), most_mm)


def _middle_at(part: Part, at_mm: float) -> float | None:
    """Return the middle of the widest that a part is across its run at one place."""
    across = [v for _, v in part.ring]
    low = min(across) - 1
    wide = stretches(region(part.ring), (at_mm, low), (at_mm, max(across) + 1))
    if not wide:
        return None
    first, last = max(wide, key=lambda each: each[1] - each[0])
    return low + (first + last) / 2


def _crossed(
    part: Part, members: Sequence[Standing], lines: Sequence[_Line]
) -> tuple[Crossing, ...]:
    """Return where the first of some lines crosses each member that any of them does."""
    found = []
    for each in members:
        for line in lines:
            at = _crossing_mm(part, each.member, line)
            if at is not None:
                level = None if line is lines[0] else line.level_mm
                found.append(
                    Crossing(at_mm=at, member=each.member.mark, line=each.line, level_mm=level)
                )
                break
    return tuple(sorted(found, key=lambda crossing: (crossing.at_mm, crossing.member)))


def _crossing_mm(part: Part, member: Member, line: _Line) -> float | None:
    """Return how far along a line crosses a member's middle line, None where it does not."""
    (u1, v1), (u2, v2) = (seen(part.band.axes, place_of(p)) for p in (member.start, member.end))
    if not min(v1, v2) + JUST_MM < line.level_mm < max(v1, v2) - JUST_MM:
        return None
    at = u1 + (line.level_mm - v1) / (v2 - v1) * (u2 - u1)
    within = any(start + JUST_MM < at < end - JUST_MM for start, end in line.spans)
    return at if within else None


def _spans(part: Part, level: float) -> Iterator[tuple[float, float]]:
    """Yield where a part lies to both sides of its row's middle line."""
    start, end, area = part.start_mm - 1, part.end_mm + 1, region(part.ring)
    right, left = (
        stretches(area, (start, beside), (end, beside))
        for beside in (level - JUST_MM, level + JUST_MM)
    )
    for one in right:
        for other in left:
            first, last = max(one[0], other[0]), min(one[1], other[1])
            if first < last:
                yield start + first, start + last
