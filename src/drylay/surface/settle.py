"""Rows settled on pencil marks: near edges a carpenter can set, every gap within its range."""

from drylay.marks import nearest_mark
from drylay.surface.limits import RowLimits


def settle(limits: RowLimits, widths_320: tuple[int, ...], depth_320: int) -> tuple[int, ...]:
    """Return the near edge of every row, on marks wherever the gap's range leaves room.

    The first is 0 and the last row ends at the depth exactly, so the last gap takes what
    the cover itself has beyond a mark. The widths must fit the depth within the gap range.
    """
    count = len(widths_320)
    low, high = _windows(limits, widths_320, depth_320)
    free = depth_320 - sum(widths_320)
    edges = [0]
    for row in range(1, count):
        ideal = sum(widths_320[:row]) + free * row // (count - 1)
        before = edges[-1] + widths_320[row - 1]
        least = max(low[row], before + limits.least_320)
        most = min(high[row], before + limits.most_320)
        edges.append(_mark_within(ideal, least, most, limits.mark_320))
    return tuple(edges)


def _windows(
    limits: RowLimits, widths_320: tuple[int, ...], depth_320: int
) -> tuple[list[int], list[int]]:
    """Where each near edge may lie so that the rows after it still fit, from the back."""
    last = depth_320 - widths_320[-1]
    low, high = [last], [last]
    for width in reversed(widths_320[:-1]):
        low.insert(0, low[0] - limits.most_320 - width)
        high.insert(0, high[0] - limits.least_320 - width)
    return low, high


def _mark_within(ideal: int, least: int, most: int, mark: int) -> int:
    """Return the mark nearest to the ideal within bounds, or the ideal itself if none is."""
    near = nearest_mark(ideal, mark)
    for choice in (near, near + mark, near - mark):
        if least <= choice <= most:
            return choice
    return min(max(ideal, least), most)
