"""A sum shared out over gaps, in whole steps, each within its limits and near the one before."""

from collections.abc import Sequence

from drylay.marks import ceil_mark, floor_mark

Range = tuple[int, int]


def share(
    total_320: int, limits: Sequence[Range], *, before_320: int, change_320: int, step_320: int
) -> tuple[int, ...]:
    """Return gaps that add up to a total as nearly as steps and limits allow, evenly.

    No gap differs from the one before it by more than `change_320`, the first from `before_320`.
    Gaps are whole steps, those over spread as (i+1) T div k - i T div k; where limits hold no
    whole step the gap is what they allow nearest to the one before.
    """
    ranges = reach(limits, before_320=before_320, change_320=change_320, step_320=step_320)
    level = _level(total_320, ranges, step_320)
    low = [min(max(level, least), most) for least, most in ranges]
    high = [min(max(level + step_320, least), most) for least, most in ranges]
    more = (total_320 - sum(low) + step_320 // 2) // step_320
    rising = [at for at, (one, other) in enumerate(zip(low, high, strict=True)) if one < other]
    more = min(max(more, 0), len(rising))
    for number, at in enumerate(rising):
        if (number + 1) * more // len(rising) > number * more // len(rising):
            low[at] = high[at]
    return tuple(low)


def reach(
    limits: Sequence[Range], *, before_320: int, change_320: int, step_320: int
) -> list[Range]:
    """Return the least and most that each gap can be, on steps, coming from the gap before."""
    found: list[Range] = []
    least_before = most_before = before_320
    for least, most in limits:
        low, high = ceil_mark(least, step_320), floor_mark(most, step_320)
        if low > high:
            low = high = min(max(least_before, least), most)
        else:
            # a gap before that lies outside these limits has to come back into them
            low = max(low, min(high, ceil_mark(least_before - change_320, step_320)))
            high = min(high, max(low, floor_mark(most_before + change_320, step_320)))
        found.append((low, high))
        least_before, most_before = low, high
    return found


def _level(total_320: int, ranges: Sequence[Range], step_320: int) -> int:
    """Return the highest level, in whole steps, at which the gaps do not come to more."""
    low = min(least for least, _ in ranges) // step_320 - 1
    high = -(-max(most for _, most in ranges) // step_320)
    while low < high:
        middle = (low + high + 1) // 2
        summed = sum(min(max(middle * step_320, least), most) for least, most in ranges)
        low, high = (middle, high) if summed <= total_320 else (low, middle - 1)
    return low * step_320
