"""When to measure next: every 5 to 10 rows, before each of the last four, and sooner if need be."""

from math import sqrt

from drylay.correcting.chance import below
from drylay.correcting.model import LaidSoFar
from drylay.marks import to_mm

#: Every so many rows, and before each of so many last rows.
LEAST_BETWEEN, MOST_BETWEEN, LAST = 5, 10, 4
#: What may go wrong unseen before it is measured: the chance that gaps can no longer mend it.
MISS_RATIO = 0.05


def checks_to_come(
    laid: LaidSoFar, left_320: tuple[int, ...], right_320: tuple[int, ...]
) -> tuple[int, ...]:
    """Return the rows after which to measure, in order.

    The next is at most ten rows on and at least five, or sooner where what can go astray by then,
    at two sd, is more than the gaps that then remain can take. The last four rows are each
    measured before they are laid.

    Source: a rule that 2,000 simulated decks hold; common practice for every five.
    """
    rows = len(laid.widths_mm)
    last = rows - LAST
    at, found = laid.rows_laid, []
    while at < last:
        ahead = _ahead(laid, at, (left_320, right_320))
        at = min(at + ahead, last)
        found.append(at)
    return (*found, *range(max(last + 1, laid.rows_laid + 1), rows))


def _ahead(laid: LaidSoFar, at: int, gaps: tuple[tuple[int, ...], ...]) -> int:
    """Return how many rows to lay before measuring again."""
    rows = len(laid.widths_mm)
    for ahead in range(min(MOST_BETWEEN, rows - at - 1), 1, -1):
        astray = astray_sd_mm(laid, ahead)
        room = min(_room_mm(laid, at + ahead, each) for each in gaps)
        if 2 * (1 - below(room, astray)) <= MISS_RATIO:
            return ahead
    return min(LEAST_BETWEEN, max(1, rows - at - 1))


def astray_sd_mm(laid: LaidSoFar, rows: int) -> float:
    """Return the sd of where the edge lies after so many rows that nobody measured."""
    its, seen = laid.tolerances, max(1, laid.rows_laid)
    mean = (its.width_mm**2 + its.gap_mm**2) / seen
    alone = rows * (its.width_mm**2 + its.gap_mm**2)
    return sqrt(its.tape_mm**2 + rows**2 * mean + alone)


def _room_mm(laid: LaidSoFar, after: int, gaps_320: tuple[int, ...]) -> float:
    """Return what the gaps left after a row can still take, the tighter way."""
    left = range(after - laid.rows_laid, len(gaps_320))
    limits = laid.gaps[laid.rows_laid - 1 :]
    closer = sum(to_mm(gaps_320[at]) - limits[at].least_mm for at in left)
    wider = sum(limits[at].most_mm - to_mm(gaps_320[at]) for at in left)
    return max(0.0, min(closer, wider))
