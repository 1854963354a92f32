"""Supports spread along a length: the fewest within span and free ends, on pencil marks.

Bearers along joists and posts along a bearer are one and the same sum. Of the fewest, those
places are taken whose largest share of its limit is the least that marks leave.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from drylay.marks import ceil_mark, floor_mark, nearest_mark
from drylay.raised.limits import MOST_COUNT, Limits, end_alone, keeps, shares, virtual


@frozen(kw_only=True)
class Length:
    """What is carried, in 1/320 mm: how long, where it hangs at its start (None: free), marks."""

    length: int
    held: int | None
    mark: int


def spread(of: Length, limits: Limits, *, more: int = 0) -> tuple[int, ...] | None:
    """Return the fewest supports, or `more` than those; None where no number of them will do.

    Free at both ends they mirror about the middle, where a line may lie off a mark; what hangs
    at its start is set out from there. An outer support that closes the frame is off a mark
    where the frame's end is.

    Source: arithmetic; what is asked of a share of the span behind is a limit that comes in.
    """
    side_by_side = of.length // (2 * limits.half) + 1  # more find no room
    for count in range(_least(of, limits), min(MOST_COUNT, side_by_side) + 1):
        found = spread_over(count, of, limits)
        if found is not None:
            return found if not more else _further(count + more, of, limits)
    return None


def _further(count: int, of: Length, limits: Limits) -> tuple[int, ...] | None:
    return spread_over(count, of, limits) if count <= MOST_COUNT else None


def _least(of: Length, limits: Limits) -> int:
    """Return a number of supports that fewer than cannot do: all spans and ends at their most."""
    if of.held is None:
        return max(2, 1 + (of.length - 2 * limits.end_most) // limits.span)
    return max(1, (of.length - limits.end_most - virtual(of.held, limits)) // limits.span)


def spread_over(count: int, of: Length, limits: Limits) -> tuple[int, ...] | None:
    """Return the places of so many supports whose largest share is least; None if none keep."""
    tries = [
        places
        for places in (_free(count, of, limits) if of.held is None else _held(count, of, limits))
        if keeps(places, of.length, limits, of.held)
    ]
    return min(
        tries,
        key=lambda places: (max(shares(places, of.length, limits, of.held), default=0), places),
        default=None,
    )


def _free(count: int, of: Length, limits: Limits) -> Iterator[tuple[int, ...]]:
    """Yield mirrored places for a length that is free at both ends."""
    spans = count - 1
    whole = floor_mark(limits.span, of.mark)
    reach = _reach(spans, whole, limits.span)
    least = max(limits.inset, -((reach - of.length) // 2))
    for first in _firsts(of, limits, least, _ideal(of, limits, spans, ends=2)):
        for lead in (0, whole):
            half = _half(first, spans, of, limits, lead)
            if half is not None:
                yield _unfolded(half, spans, of.length)


def _reach(spans: int, whole: int, most: int) -> int:
    """Return how long spans together may be whose inner places lie on marks, mirrored."""
    if spans % 2:
        return (spans - 1) * whole + most
    return 2 * ((spans // 2 - 1) * whole + most)


def _firsts(of: Length, limits: Limits, least: int, ideal: Fraction) -> list[int]:
    """Return where a first support may stand: about the best, the nearest, flush."""
    most = limits.end_most
    low = floor_mark(int(ideal), of.mark)
    tries = [low, low + of.mark, ceil_mark(least, of.mark), limits.inset]
    return sorted({place for place in tries if least <= place <= most})


def _ideal(of: Length, limits: Limits, spans: int, *, ends: int) -> Fraction:
    """Return the end, to the first centre, at which spans and ends are alike used up."""
    if limits.end is None:
        return Fraction(limits.half)
    return used_up(of, limits, spans, ends=ends) * end_alone(limits) + limits.end_less


def used_up(of: Length, limits: Limits, spans: int, *, ends: int) -> Fraction:
    """Return the share of their limits at which so many spans and free ends make up a length."""
    start = 0 if of.held is None else virtual(of.held, limits)
    less = limits.half if limits.end is None else limits.end_less
    whole = of.length - start - ends * less - spans * limits.span_less
    most = ends * end_alone(limits) + spans * (limits.span - limits.span_less)
    return max(Fraction(whole) / most, Fraction(0))


def _half(
    first: int, spans: int, of: Length, limits: Limits, lead: int
) -> list[int] | None:  # fmt: skip
    """Return the places of the first half, the first among them, but not one in the middle."""
    inner = (spans - 1) // 2
    middle = of.length // 2
    far = middle - limits.span if spans % 2 == 0 else -((limits.span - of.length) // 2)
    rest = of.length - 2 * first
    if lead and inner:
        ideals = [first + lead + Fraction((rest - 2 * lead) * n, max(spans - 2, 1))
                  for n in range(inner)]  # fmt: skip
    else:
        ideals = [first + Fraction(rest * n, spans) for n in range(1, inner + 1)]
    chained = _chain(first, ideals, far, limits.span, of.mark)
    return None if chained is None else [first, *chained]


def _chain(
    start: int, ideals: Sequence[Fraction], last_least: int, most: int, mark: int
) -> list[int] | None:
    """Return a place on a mark near each ideal, none further than `most` from the one before.

    The last one is no nearer to the start than `last_least`.
    """
    whole, places, before = floor_mark(most, mark), [], start
    for left, ideal in zip(reversed(range(len(ideals))), ideals, strict=True):
        low = ceil_mark(last_least, mark) - left * whole
        high = floor_mark(before + most, mark)
        if low > high:
            return None
        before = min(max(nearest_mark(round(ideal), mark), low), high)
        places.append(before)
    return places


def _unfolded(half: list[int], spans: int, length: int) -> tuple[int, ...]:
    """Return all places from those of the first half: half, middle, mirror."""
    middle = [] if spans % 2 else [length // 2]
    return (*half, *middle, *(length - place for place in reversed(half)))


def _held(count: int, of: Length, limits: Limits) -> Iterator[tuple[int, ...]]:
    """Yield places for a length that hangs at its start, set out from there on marks."""
    start = virtual(of.held or 0, limits)
    whole = floor_mark(limits.span, of.mark)
    furthest = min(floor_mark(start + limits.span, of.mark) + (count - 1) * whole,
                   of.length - limits.inset)  # fmt: skip
    nearest = of.length - limits.end_most
    ideal = of.length - _ideal(of, limits, count, ends=1)
    low = floor_mark(int(ideal), of.mark)
    tries = {low, low + of.mark, floor_mark(furthest, of.mark), of.length - limits.inset}
    for last in sorted(place for place in tries if nearest <= place):
        for lead in (0, whole):
            places = _held_to(last, count, of, limits, lead)
            if places is not None:
                yield places


def _held_to(
    last: int, count: int, of: Length, limits: Limits, lead: int
) -> tuple[int, ...] | None:  # fmt: skip
    """Return places up to a last one; with `lead` the last span is so long, the others even."""
    start, inner = virtual(of.held or 0, limits), count - 1
    run = last - start
    if lead and inner:
        ideals = [start + Fraction((run - lead) * n, inner) for n in range(1, inner + 1)]
    else:
        ideals = [start + Fraction(run * n, count) for n in range(1, inner + 1)]
    chained = _chain(start, ideals, last - limits.span, limits.span, of.mark)
    return None if chained is None else (*chained, last)
