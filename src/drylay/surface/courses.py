"""Courses of tiles in one direction: whole where they fit, a cover resized before a tile is cut.

With D the depth, a the tile, j the joint, n courses: n a + (n - 1) j whole; a changed cover of the
same; cut alike at both edges 2 c = D - k a - (k + 1) j beside k whole ones. A joint is as wide as
its spacers and is never stretched, so that a cut is what is left, to the last 1/320 mm.
"""

from drylay.marks import to_mm
from drylay.surface.limits import RowLimits
from drylay.surface.model import RowFit, WayOut
from drylay.surface.ways import Trial, judge


def fit_courses(limits: RowLimits) -> RowFit:
    """Return the naive count of whole tiles, the strip it leaves, and every way out.

    The joint is the preferred one; least and most only say whether that is allowed. Ways out come
    in the order of kinds, of two ways to cut the one with fewer courses, so larger cuts, first.

    Source: arithmetic; cuts alike at both edges by common practice, no source.
    """
    strip = limits.strip_320
    return RowFit(
        depth_mm=to_mm(limits.depth_320),
        board_mm=to_mm(limits.board_320),
        gap_least_mm=to_mm(limits.least_320),
        gap_preferred_mm=to_mm(limits.preferred_320),
        gap_most_mm=to_mm(limits.most_320),
        sliver_limit_mm=to_mm(limits.sliver_320),
        whole_rows=limits.whole_rows,
        remainder_mm=to_mm(limits.remainder_320),
        strip_mm=to_mm(strip),
        sliver_mm=to_mm(strip) if strip < limits.sliver_320 else 0.0,
        ways_out=_ways_out(limits),
    )


def _ways_out(limits: RowLimits) -> tuple[WayOut, ...]:
    whole, more = limits.whole_rows, limits.whole_rows + 1
    if not limits.remainder_320:
        return (judge(limits, _whole(limits, whole, "as_wished")),)
    trials = [
        *([_whole(limits, whole, "shrink")] if whole else []),
        _whole(limits, more, "grow"),
        *(trial for count in (whole - 1, whole) if (trial := _cut_both(limits, count))),
        *([] if whole else [Trial(kind="rip_last", widths_320=(limits.depth_320,))]),
    ]
    return tuple(judge(limits, trial) for trial in trials)


def _whole(limits: RowLimits, count: int, kind: str) -> Trial:
    """Return so many whole tiles, the cover changed to what they fill."""
    fills = count * limits.board_320 + (count - 1) * limits.preferred_320
    return Trial(
        kind=kind,
        widths_320=(limits.board_320,) * count,
        change_320=fills - limits.depth_320,
    )


def _cut_both(limits: RowLimits, whole: int) -> Trial | None:
    """Return so many whole tiles between two cut alike; None where these would be no cut tiles."""
    if whole < 0:
        return None
    left = limits.depth_320 - whole * limits.board_320 - (whole + 1) * limits.preferred_320
    last = left // 2
    first = left - last  # an odd 1/320 mm has to lie at one edge
    if last <= 0 or first >= limits.board_320:
        return None
    widths = (first, *(limits.board_320,) * whole, last)
    return Trial(kind="rip_both", widths_320=widths)


def courses_in_order(ways: tuple[WayOut, ...], prefer: tuple[str, ...]) -> tuple[WayOut, ...]:
    """Return the honest ways out asked for, best first: by kind, then fewer courses."""
    honest = [way for way in ways if way.honest and way.kind in prefer]
    return tuple(sorted(honest, key=lambda way: (prefer.index(way.kind), way.rows)))
