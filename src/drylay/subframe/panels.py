"""Battens that tie the boards of a hatch's panel: between its ledges, clear of every timber."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil

from attrs import frozen

from drylay.findings import Finding, Severity
from drylay.marks import exact, floor_mark, nearest_mark, to_mm
from drylay.outline.model import Opening, Spot
from drylay.reasons import Source
from drylay.subframe.model import PanelBatten
from drylay.subframe.plane import Place, axis_through, dot, moved, spot_of

#: How far battens keep off every timber beside them, so that the panel lifts out past swollen wood
#: and the heads of coach screws.
PLAY_MM = 10.0
OURS = Source(kind="assumption", title="docs/outline-conventions.md", clause="Frame")


@frozen(kw_only=True)
class BattenWants:
    """What the battens of panels keep to.

    `most_centres_mm` is how far they are apart at most, `reach_least_mm` how far the outer boards
    lie over them at least.
    """

    timber_thickness_mm: float
    timber_depth_mm: float
    most_centres_mm: float
    reach_least_mm: float
    mark_320: int


@frozen(kw_only=True)
class _Axes:
    """A hole as its panel's boards see it: from its first corner along their run, and left."""

    origin: Place
    run: Place
    left: Place


def panel_battens(
    hatch: Opening, boards: Sequence[Sequence[Spot]], wants: BattenWants, *, first: int
) -> tuple[PanelBatten, ...] | Finding:
    """Return the battens of a hatch's panel, numbered from `first`; or why they have no room.

    `boards` are the corners of its boards. The outer battens lie beside the ledges, the fewest that
    are needed between them.

    Source: docs/outline-conventions.md, Frame: an assumption; battens under a panel are common
    practice.
    """
    axes = _axes_of(hatch)
    thick = wants.timber_thickness_mm
    begins = thick * 1.5 + PLAY_MM
    span = _seen(axes, hatch.corners[1])[0] - 2 * begins
    if span < thick:
        return _too_short(hatch, span + thick + 2 * PLAY_MM, 2 * thick + 2 * PLAY_MM)
    lines = [
        _line(hatch, axes, begins + to_mm(at), wants)
        for at in _centres(exact(span), exact(wants.most_centres_mm), wants.mark_320)
    ]
    reach = min(_least_reach(axes, line, boards) for line in lines)
    if reach < wants.reach_least_mm:
        return _not_under(hatch, reach, wants.reach_least_mm)
    return tuple(
        PanelBatten(
            mark=f"Q{number}",
            opening=hatch.mark,
            start=_spot(axes, start),
            end=_spot(axes, end),
            length_mm=end[1] - start[1],
            depth_mm=wants.timber_depth_mm,
        )
        for number, (start, end) in enumerate(lines, start=first)
    )


def ripped_depth_mm(timber_depth_mm: float, *, kerf_mm: float, mark_320: int) -> float:
    """Return how deep a timber is that is ripped down its middle, down to a mark."""
    return to_mm(floor_mark((exact(timber_depth_mm) - exact(kerf_mm)) // 2, mark_320))


def _axes_of(hatch: Opening) -> _Axes:
    origin, _, _, other = ((each.along_mm, each.across_mm) for each in hatch.corners)
    left = axis_through(origin, other).way
    return _Axes(origin=origin, run=(left[1], -left[0]), left=left)


def _seen(axes: _Axes, spot: Spot) -> Place:
    """Return a spot as how far it is along the run, and to its left."""
    way = (spot.along_mm - axes.origin[0], spot.across_mm - axes.origin[1])
    return dot(way, axes.run), dot(way, axes.left)


def _spot(axes: _Axes, place: Place) -> Spot:
    found = moved(moved(axes.origin, axes.run, place[0]), axes.left, place[1])
    return spot_of(found, "across")


def _centres(span_320: int, most_320: int, mark_320: int) -> list[int]:
    """Return where centres are, from the first: the fewest, even but for marks, close enough."""
    bays = 1
    while True:
        inner = [nearest_mark(round(span_320 * at / bays), mark_320) for at in range(1, bays)]
        centres = [0, *inner, span_320]
        if max(other - one for one, other in pairwise(centres)) <= most_320:
            return centres
        bays += 1


def _line(hatch: Opening, axes: _Axes, at_mm: float, wants: BattenWants) -> tuple[Place, Place]:
    """Return a batten's centre line: play off both sides that boards run along, on a mark."""
    right, right_end, left_end, left = (_seen(axes, corner) for corner in hatch.corners)
    half = wants.timber_thickness_mm / 2
    faces = (at_mm - half, at_mm + half)
    low = max(_level(right, right_end, at) for at in faces) + PLAY_MM
    high = min(_level(left, left_end, at) for at in faces) - PLAY_MM
    long = to_mm(floor_mark(exact(high - low), wants.mark_320))
    return (at_mm, low), (at_mm, low + long)


def _level(start: Place, end: Place, at_mm: float) -> float:
    return start[1] + (end[1] - start[1]) * (at_mm - start[0]) / (end[0] - start[0])


def _least_reach(
    axes: _Axes, line: tuple[Place, Place], boards: Sequence[Sequence[Spot]]
) -> float:  # fmt: skip
    """Return the least by which a board that reaches past a batten's end lies over it, in mm."""
    (_, start), (_, end) = line
    found = [end - start]
    for board in boards:
        levels = [_seen(axes, corner)[1] for corner in board]
        if min(levels) < start or max(levels) > end:
            found.append(min(max(levels), end) - max(min(levels), start))
    return min(found)


def _too_short(hatch: Opening, between_mm: float, wanted_mm: float) -> Finding:
    more_mm = ceil(round((wanted_mm - between_mm) * 10, 3)) / 10
    return Finding(
        code="OUT-026",
        severity=Severity.STOP,
        subject=hatch.mark,
        message="between its ledges there is no room for two battens that tie its panel, "
        f"{PLAY_MM:g} mm off either: tell a cover {more_mm:g} mm longer along the boards",
        measured=round(between_mm, 4),
        limit=wanted_mm,
        unit="mm",
        source=OURS,
    )


def _not_under(hatch: Opening, reach_mm: float, wanted_mm: float) -> Finding:
    more_mm = ceil(round((wanted_mm - reach_mm) * 10, 3)) / 10
    return Finding(
        code="OUT-027",
        severity=Severity.STOP,
        subject=hatch.mark,
        message="the outer boards of its panel lie over the battens by less than their screws "
        f"want, to the ends of these and to the boards' edges: boards {more_mm:g} mm wider",
        measured=round(reach_mm, 4),
        limit=wanted_mm,
        unit="mm",
        source=OURS,
    )
