"""Beams over any supports, in fractions: what parts of them loaded do to supports and sections.

Slope and deflection: the turns over the supports are solved for, and everything follows from
them. Stiffness is one all along, so that only shear's share is told: `soft` is 12 E I over G A and
its shape factor, a square of lengths, 0 where bending alone counts. Places are whole numbers from
the beam's left end; a load is 1 for each length, or 1 at a place.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import frozen

from drylay.audit.exact import Fraction


@frozen(kw_only=True)
class Felt:
    """What one load does: moments over supports and reactions; within spans by `moment_at`.

    A moment above 0 bends a beam down between supports. `even` are the loads for each length, by
    part (from left: free end, spans, free end), `point` where a load of 1 stands, if one does.
    """

    length: int
    rests: tuple[int, ...]
    over: tuple[Fraction, ...]
    reactions: tuple[Fraction, ...]
    even: tuple[int, ...]
    point: int | None


def parts_of(rests: Sequence[int], length: int) -> list[tuple[int, int]]:
    """Return from where to where each part goes: both free ends, though they be nothing."""
    return [(0, rests[0]), *pairwise(rests), (rests[-1], length)]


def felt(
    rests: Sequence[int],
    length: int,
    *,
    even: Sequence[int] = (),
    point: int | None = None,
    soft: Fraction | int = 0,
) -> Felt:
    """Return what 1 for each length on some parts, or 1 at a place, does to a beam.

    `even` has a 1 for every part that is loaded, as `parts_of` has them.
    """
    parts = parts_of(rests, length)
    loaded = tuple(even) or (0,) * len(parts)
    ends = (_free(parts[0], loaded[0], point)[1], _free(parts[-1], loaded[-1], point)[1])
    fixed = [
        _fixed(part, on, point, soft) for part, on in zip(parts[1:-1], loaded[1:-1], strict=True)
    ]
    stiff = [_stiff(after - before, soft) for before, after in pairwise(rests)]
    turns = _turns(stiff, fixed, ends)
    over = [-ends[0]]
    for at, ((own, across), (_near, far)) in enumerate(zip(stiff, fixed, strict=True)):
        # what the far end of a span pulls at it: that of clamped ends, and that of the turns
        over.append(across * turns[at] + own * turns[at + 1] - far)
    reactions = _reactions(parts, loaded, point, over)
    return Felt(
        length=length, rests=tuple(rests), over=tuple(over), reactions=reactions,
        even=loaded, point=point,
    )  # fmt: skip


def _stiff(span: int, soft: Fraction | int) -> tuple[Fraction, Fraction]:
    """Return what a span's end resists of its own turn, and of the other end's."""
    share = Fraction(soft) / span**2
    return (4 + share) / ((1 + share) * span), (2 - share) / ((1 + share) * span)


def _free(part: tuple[int, int], on: int, point: int | None) -> tuple[Fraction, Fraction]:
    """Return the push of a free end on its support, and its moment there (0 or above)."""
    start, end = part
    out = end - start
    push, moment = Fraction(on * out), Fraction(on * out * out, 2)
    if point is not None and out and start <= point <= end:
        push, moment = push + 1, moment + (end - point if start == 0 else point - start)
    return push, moment


def _fixed(
    part: tuple[int, int], on: int, point: int | None, soft: Fraction | int
) -> tuple[Fraction, Fraction]:
    """Return the moments that a span with clamped ends feels there, 0 or above."""
    start, end = part
    span = end - start
    near = far = Fraction(on * span * span, 12)
    if point is not None and start < point < end:
        a, b = point - start, end - point
        share = Fraction(soft) / span**2
        under = span * span * (1 + share)
        near += a * b * (b + share * span / 2) / under
        far += a * b * (a + share * span / 2) / under
    return near, far


def _turns(
    stiff: Sequence[tuple[Fraction, Fraction]],
    fixed: Sequence[tuple[Fraction, Fraction]],
    ends: tuple[Fraction, Fraction],
) -> list[Fraction]:
    """Return the turn over every support times stiffness: clamps let go till moments meet."""
    count = len(stiff) + 1
    held = [Fraction(0)] * count
    left = [Fraction(0)] * count
    left[0] += ends[0]
    left[-1] -= ends[1]
    for at, ((own, _across), (near, far)) in enumerate(zip(stiff, fixed, strict=True)):
        held[at] += own
        held[at + 1] += own
        left[at] -= near
        left[at + 1] += far
    for at in range(1, count):
        across = stiff[at - 1][1]
        share = across / held[at - 1]
        held[at] -= share * across
        left[at] -= share * left[at - 1]
    turns = [Fraction(0)] * count
    for at in reversed(range(count)):
        beyond = stiff[at][1] * turns[at + 1] if at + 1 < count else 0
        turns[at] = (left[at] - beyond) / held[at]
    return turns


def _reactions(
    parts: Sequence[tuple[int, int]],
    loaded: Sequence[int],
    point: int | None,
    over: Sequence[Fraction],
) -> tuple[Fraction, ...]:
    found = [Fraction(0)] * len(over)
    found[0] += _free(parts[0], loaded[0], point)[0]
    found[-1] += _free(parts[-1], loaded[-1], point)[0]
    for at, (start, end) in enumerate(parts[1:-1]):
        near, far = _ends_of_span(start, end, loaded[at + 1], point)
        turned = (over[at + 1] - over[at]) / (end - start)
        found[at] += near + turned
        found[at + 1] += far - turned
    return tuple(found)


def _ends_of_span(
    start: int, end: int, on: int, point: int | None
) -> tuple[Fraction, Fraction]:  # fmt: skip
    """Return what a span by itself lays on its two supports."""
    span = end - start
    near = far = Fraction(on * span, 2)
    if point is not None and start < point < end:
        near += Fraction(end - point, span)
        far += Fraction(point - start, span)
    return near, far


def moment_at(load: Felt, at: int) -> Fraction:
    """Return the moment at a place: all forces to the left of it, by their levers."""
    total = Fraction(0)
    for rest, push in zip(load.rests, load.reactions, strict=True):
        if rest < at:
            total += push * (at - rest)
    for (start, end), on in zip(parts_of(load.rests, load.length), load.even, strict=True):
        if on and start < at:
            stop = min(end, at)
            total -= Fraction((stop - start) * (2 * at - start - stop), 2)
    if load.point is not None and load.point < at:
        total -= at - load.point
    return total


def shear_beside(load: Felt, at: int, *, after: bool) -> Fraction:
    """Return the shear just before a place, or just after it: all forces to the left."""
    total = Fraction(0)
    for rest, push in zip(load.rests, load.reactions, strict=True):
        if rest < at or (after and rest == at):
            total += push
    for (start, end), on in zip(parts_of(load.rests, load.length), load.even, strict=True):
        if on and start < at:
            total -= min(end, at) - start
    if load.point is not None and (load.point < at or (after and load.point == at)):
        total -= 1
    return total


def each_part_alone(rests: Sequence[int], length: int, soft: Fraction | int = 0) -> Iterator[Felt]:
    """Yield what 1 for each length does on each part in turn, no other loaded."""
    count = len(rests) + 1
    for at in range(count):
        yield felt(rests, length, even=[int(at == other) for other in range(count)], soft=soft)


def carried_by(rests: Sequence[int], length: int, sharing: str) -> list[Fraction]:
    """Return the length of even load that each support carries at the most.

    "levered": every part that presses on the support loaded, none that lifts it; no less than were
    the beam cut over each inner support. "halved": half of each span beside it, all of a free end.
    """
    spans = [after - before for before, after in pairwise(rests)]
    first, last = rests[0], length - rests[-1]
    if sharing == "halved":
        beside = [2 * first, *spans, 2 * last]
        return [Fraction(a + b, 2) for a, b in pairwise(beside)]
    pressed = [Fraction(0)] * len(rests)
    for load in each_part_alone(rests, length):
        pairs = zip(pressed, load.reactions, strict=True)
        pressed = [old + push if push > 0 else old for old, push in pairs]
    cut = [Fraction(0)] * len(rests)
    for at, span in enumerate(spans):
        before = first if at == 0 else 0
        beyond = last if at == len(spans) - 1 else 0
        cut[at] += Fraction((span + before) ** 2, 2 * span)
        cut[at + 1] += Fraction((span + beyond) ** 2, 2 * span)
    return [one if one > other else other for one, other in zip(pressed, cut, strict=True)]
