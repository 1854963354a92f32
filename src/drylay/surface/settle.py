"""Rows settled on pencil marks: near edges a carpenter can set, every gap within its range."""

from collections.abc import Sequence

from attrs import frozen

from drylay.marks import nearest_mark
from drylay.surface.limits import RowLimits


@frozen(kw_only=True)
class Laying:
    """Rows to settle, in counts of 1/320 mm: widths, and the range of the gap before each.

    `ideal_320` is where each row's near edge would lie best; what the first row has of a gap and
    of an ideal is not looked at.
    """

    widths_320: tuple[int, ...]
    ideal_320: tuple[int, ...]
    least_320: tuple[int, ...]
    most_320: tuple[int, ...]
    depth_320: int
    mark_320: int


def settle(limits: RowLimits, widths_320: tuple[int, ...], depth_320: int) -> tuple[int, ...]:
    """Return the near edge of every row of one board, evenly apart, on marks where they can be."""
    count = len(widths_320)
    return settle_rows(
        Laying(
            widths_320=widths_320,
            ideal_320=even_edges(widths_320, depth_320),
            least_320=(limits.least_320,) * count,
            most_320=(limits.most_320,) * count,
            depth_320=depth_320,
            mark_320=limits.mark_320,
        )
    )


def even_edges(widths_320: Sequence[int], depth_320: int) -> tuple[int, ...]:
    """Return near edges that share what the widths leave of a depth evenly between the gaps."""
    free, gaps = depth_320 - sum(widths_320), max(1, len(widths_320) - 1)
    return tuple(sum(widths_320[:row]) + free * row // gaps for row in range(len(widths_320)))


def settle_rows(laying: Laying) -> tuple[int, ...]:
    """Return the near edge of every row, on marks wherever the ranges of gaps leave room.

    The first is 0 and the last row ends at the depth exactly, so the last gap takes what
    the cover itself has beyond a mark. The widths must fit the depth within the ranges.
    """
    widths = laying.widths_320
    low, high = _windows(laying)
    edges = [0]
    for row in range(1, len(widths)):
        before = edges[-1] + widths[row - 1]
        least = max(low[row], before + laying.least_320[row])
        most = min(high[row], before + laying.most_320[row])
        edges.append(_mark_within(laying.ideal_320[row], least, most, laying.mark_320))
    return tuple(edges)


def _windows(laying: Laying) -> tuple[list[int], list[int]]:
    """Where each near edge may lie so that the rows after it still fit, from the back."""
    widths = laying.widths_320
    low = [laying.depth_320 - widths[-1]]
    high = list(low)
    for row in range(len(widths) - 2, -1, -1):
        low.insert(0, low[0] - laying.most_320[row + 1] - widths[row])
        high.insert(0, high[0] - laying.least_320[row + 1] - widths[row])
    return low, high


def _mark_within(ideal: int, least: int, most: int, mark: int) -> int:
    """Return the mark nearest to the ideal within bounds, or what is nearest if none is."""
    inside = min(max(ideal, least), most)  # the ideal may lie further off than a mark
    near = nearest_mark(inside, mark)
    for choice in (near, near + mark, near - mark):
        if least <= choice <= most:
            return choice
    return inside
