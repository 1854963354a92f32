"""Where each piece of fascia ought to be screwed, worked out again from the conventions."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import floor

from attrs import frozen

from drylay.audit.between import between, hung
from drylay.audit.edges import edges_of, ends_of, thickness_at
from drylay.audit.exact import ceil_div, mark_of, ticks
from drylay.audit.fixings import fixings_of, never_hung
from drylay.audit.flaws import need
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.rows import surface_of
from drylay.edges.model import FasciaFace
from drylay.fixings.model import FasciaScrews
from drylay.plan.model import Plan

#: More places on one piece than anybody drives: such a plan is not measured here.
MOST_PLACES = 200


@frozen(kw_only=True)
class Open:
    """Where a face may be screwed, along it from the cover's edge, in 1/320 mm.

    Between `start` and `end`, and no nearer to a centre of `shut` than its second figure.
    """

    start: int
    end: int
    shut: tuple[tuple[int, int], ...]


def places_of(plan: Plan, screws: FasciaScrews) -> dict[str, list[int]]:
    """Return the places of each piece from its own end; a piece without any is left out."""
    found: dict[str, list[int]] = {}
    for face in edges_of(plan).faces:
        begins, allowed = _begins(plan, face), _open(plan, screws, face)
        for piece in face.pieces:
            length = ticks(piece.length_mm)
            spots = _spots(plan, screws, allowed, begins, length)
            if spots:
                found[piece.mark] = spots
            begins += length
    return found


def _begins(plan: Plan, face: FasciaFace) -> int:
    """Return where a face begins from the cover's edge, behind the face beside it if short."""
    beside = "left" if face.side in {"house", "front"} else "house"
    return 0 if face.long_face else thickness_at(edges_of(plan), beside)


def _open(plan: Plan, screws: FasciaScrews, face: FasciaFace) -> Open:
    ends = ends_of(surface_of(plan).run)
    if face.side in {ends.near, ends.far}:
        return _on_a_rim(plan, screws, far=face.side == ends.far)
    return _on_a_joist(plan, screws, last=face.side == ends.end)


def _on_a_rim(plan: Plan, screws: FasciaScrews, *, far: bool) -> Open:
    edges, frame = edges_of(plan), frame_of(plan)
    apart, clear = ticks(screws.end_least_mm), ticks(screws.clear_mm)
    joists = need(frame.joists or None, "joists")
    stay = never_hung(plan)
    held = [j for j in joists if fixings_of(plan).hangers is None or j.mark in stay]
    rims = need(frame.rims if len(frame.rims) == 2 else None, "two rims")
    joints = [ticks(piece.start_mm) for piece in rims[far].pieces[1:]]
    joints += _plies_meet(plan, rims[far].mark)
    start = ticks(edges.frame_start_mm)
    return Open(
        start=start + apart,
        end=start + ticks(edges.frame_length_mm) - apart,
        shut=(
            *((ticks(joist.offset_mm), clear) for joist in held),
            *((joint, apart) for joint in joints),
        ),
    )


def _plies_meet(plan: Plan, mark: str) -> list[int]:
    """Return where plies of a bearer meet that closes the frame, from the datum in 1/320 mm."""
    bearers = plan.raised.frame.bearers if plan.raised is not None else ()
    return [
        ticks(bearer.start_mm) + ticks(joint.at_mm)
        for bearer in bearers
        if bearer.mark == mark
        for joint in bearer.joints
    ]


def _on_a_joist(plan: Plan, screws: FasciaScrews, *, last: bool) -> Open:
    edges, frame, coach = edges_of(plan), frame_of(plan), fixings_of(plan).coach_screws
    ends, apart = ends_of(surface_of(plan).run), ticks(screws.end_least_mm)
    joists = need(frame.joists or None, "joists")
    mark = joists[-1].mark if last else joists[0].mark
    reach = [
        ticks(coach.length_mm)
        + (ticks(coach.sink_mm) if thickness_at(edges, side) else 0)
        + ceil_div(ticks(screws.shank_mm), 2)
        for side in (ends.near, ends.far)
    ]
    start = ticks(edges.frame_near_mm)
    half = ceil_div(thickness_of(plan), 2)
    own, stretches = ceil_div(ticks(screws.shank_mm), 2), between(plan) if hung(plan) else []
    if stretches:
        far_end = start + ticks(edges.frame_depth_mm)
        reach = [stretches[0][0] - start + own, far_end - stretches[-1][1] + own]
    return Open(
        start=start + max(reach[0], apart),
        end=start + ticks(edges.frame_depth_mm) - max(reach[1], apart),
        shut=(
            *(
                (ticks(noggin.across_mm), half)
                for noggin in frame.noggins
                if mark == (noggin.right if last else noggin.left)
            ),
            *_ends_between(stretches, own),
        ),
    )


def _ends_between(stretches: list[tuple[int, int]], own: int) -> Iterator[tuple[int, int]]:
    """Yield where ends of inner bearers show between parts of an outer joist: middle, half."""
    for (_, low), (high, _) in pairwise(stretches):
        yield low + (high - low) // 2, ceil_div(high - low, 2) + own


def _spots(plan: Plan, screws: FasciaScrews, allowed: Open, begins: int, length: int) -> list[int]:
    """Return the places on one piece, from its own end."""
    mark, apart = mark_of(plan), ticks(screws.end_least_mm)
    spacing = need(max(ticks(screws.spacing_most_mm), 0) or None, "spacing of fascia screws")
    runs = _runs(allowed, begins, max(apart, 0), length - apart, mark)
    if not runs:
        return []
    first, last = runs[0][0], runs[-1][1]
    if first == last:
        return [first]
    fewest = ceil_div(last - first, spacing)
    need(fewest if fewest <= MOST_PLACES else None, "fascia that can be screwed")
    for spaces in range(fewest, 2 * fewest + 1):
        step = Fraction(last - first, spaces)
        spots = [_nearest(runs, first + n * step, mark) for n in range(spaces + 1)]
        widths = [after - before for before, after in pairwise(spots)]
        if min(widths) <= 0:
            return []
        if max(widths) <= spacing:
            return spots
    return []


def _runs(allowed: Open, begins: int, low: int, high: int, mark: int) -> list[tuple[int, int]]:
    """Return the first and last mark of every open stretch of a piece, from its own end."""
    low, high = max(low, allowed.start - begins), min(high, allowed.end - begins)
    stretches, at = [], low
    for shut, opens in sorted(
        (c - apart - begins, c + apart - begins) for c, apart in allowed.shut
    ):
        if shut < opens and opens > at:
            stretches.append((at, min(shut, high)))
            at = opens
    stretches.append((at, high))
    marks = ((ceil_div(a, mark) * mark, b // mark * mark) for a, b in stretches)
    return [(a, b) for a, b in marks if a <= b]


def _nearest(runs: list[tuple[int, int]], share: Fraction, mark: int) -> int:
    """Return the open mark nearest a share, the lower of two."""
    below = floor(share / mark) * mark
    near = [min(max(at, a), b) for a, b in runs for at in (below, below + mark)]
    return min(near, key=lambda at: (abs(at - share), at))
