"""Joist lines: even on marks between lines that must be, no bay beyond the limit."""

from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.marks import PER_MM, exact, floor_mark, nearest_mark, to_mm


@frozen(kw_only=True)
class Lines:
    """Joist lines from the lowest on, and the widest bay between two of them."""

    lines_mm: tuple[float, ...]
    centres_mm: float


def place_lines(
    must_mm: Sequence[float], *, thickness_mm: float, most_centres_mm: float, mark_mm: float
) -> Lines:
    """Return the fewest lines that keep every bay within the limit, those that must be among them.

    Lines that must be and are nearer to one another than a thickness stand on different stretches
    of the frame: bays beside them are measured past the nearer one.

    Source: arithmetic; even spacing by common practice, no source.
    """
    thick, limit, mark = exact(thickness_mm), exact(most_centres_mm), exact(mark_mm)
    clusters = _clusters(sorted({exact(line) for line in must_mm}), thick)
    found = list(clusters[0])
    widest = 0
    for before, after in pairwise(clusters):
        between = _even(before[0], after[-1], limit, mark)
        walk = [before[0], *between, after[-1]]
        widest = max(widest, *(far - near for near, far in pairwise(walk)))
        found += [*between, *after]
    return Lines(lines_mm=tuple(to_mm(line) for line in found), centres_mm=to_mm(widest))


def _clusters(lines: list[int], thick: int) -> list[list[int]]:
    """Return lines in groups, of which none spans as much as a thickness."""
    found: list[list[int]] = []
    for line in lines:
        if found and line - found[-1][0] < thick:
            found[-1].append(line)
        else:
            found.append([line])
    return found


def _even(low: int, high: int, limit: int, mark: int) -> list[int]:
    """Return the fewest lines between two, as even as marks allow; mirrored where they allow it."""
    bays = max(1, -(-(high - low) // limit))
    mirrored, leaning = _equal_bays(low, high, bays, mark)
    for lines in (*mirrored, _nearest(low, high, bays, mark), *leaning):
        widths = [far - near for near, far in pairwise([low, *lines, high])]
        if min(widths) > 0 and max(widths) <= limit:
            return lines
    return [low + (high - low) * step // bays for step in range(1, bays)]


def _equal_bays(
    low: int, high: int, bays: int, mark: int
) -> tuple[list[list[int]], list[list[int]]]:
    """Return lines with equal inner bays, none more than 1 mm or a mark off even; best first.

    First those with equal end bays, then those with one of them wider.
    """
    span, tries = high - low, []
    floor = floor_mark(span // bays, mark)
    for inner in (floor, floor + mark):
        first = floor_mark((low + high - inner * (bays - 2)) // 2, mark)
        for start in (first, first + mark):
            lines = [start + inner * step for step in range(bays - 1)]
            unlike = abs(lines[0] - low - high + lines[-1]) if lines else 0
            tries.append((unlike, _stray(low, span, bays, lines), -inner, start, lines))
    even = [one for one in sorted(tries) if one[1] <= bays * max(PER_MM, mark)]
    return [one[-1] for one in even if not one[0]], [one[-1] for one in even if one[0]]


def _stray(low: int, span: int, bays: int, lines: list[int]) -> int:
    """Return how far lines stray from even spacing at the most, times the number of bays."""
    return max((abs((at - low) * bays - span * n) for n, at in enumerate(lines, 1)), default=0)


def _nearest(low: int, high: int, bays: int, mark: int) -> list[int]:
    """Return every line on the mark nearest to even spacing from the nearer end."""
    steps = [(high - low) * step // bays for step in range(1, (bays + 1) // 2)]
    middle = [nearest_mark((low + high) // 2, mark)] if bays % 2 == 0 else []
    from_high = [-nearest_mark(step - high, mark) for step in reversed(steps)]
    return [*(nearest_mark(low + step, mark) for step in steps), *middle, *from_high]
