"""Where each piece of fascia ought to be screwed, worked out again from the conventions."""

from fractions import Fraction
from itertools import pairwise

from attrs import frozen

from drylay.audit.edges import edges_of, ends_of, thickness_at
from drylay.audit.exact import ceil_div, mark_of, ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import need
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.rows import surface_of
from drylay.edges.model import FasciaFace
from drylay.fixings.model import FasciaScrews
from drylay.plan.model import Plan

#: More places on one piece than anybody drives: there the search ends.
MOST_PLACES = 2_000


@frozen(kw_only=True)
class Open:
    """Where a face may be screwed, along it from the cover's edge, in 1/320 mm.

    Between `start` and `end`, and no nearer to a centre of `shut` than its second figure.
    """

    start: int
    end: int
    shut: tuple[tuple[int, int], ...]

    def allows(self, at: int) -> bool:
        """Whether a screw may stand at a place."""
        clear = all(abs(at - centre) >= apart for centre, apart in self.shut)
        return self.start <= at <= self.end and clear


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
    held = joists if fixings_of(plan).hangers is None else (joists[0], joists[-1])
    rims = need(frame.rims if len(frame.rims) == 2 else None, "two rims")
    joints = [ticks(piece.start_mm) for piece in rims[far].pieces[1:]]
    start = ticks(edges.frame_start_mm)
    return Open(
        start=start + apart,
        end=start + ticks(edges.frame_length_mm) - apart,
        shut=(
            *((ticks(joist.offset_mm), clear) for joist in held),
            *((joint, apart) for joint in joints),
        ),
    )


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
    return Open(
        start=start + max(reach[0], apart),
        end=start + ticks(edges.frame_depth_mm) - max(reach[1], apart),
        shut=tuple(
            (ticks(noggin.across_mm), half)
            for noggin in frame.noggins
            if mark == (noggin.right if last else noggin.left)
        ),
    )


def _spots(plan: Plan, screws: FasciaScrews, allowed: Open, begins: int, length: int) -> list[int]:
    """Return the places on one piece: every mark on it is looked at."""
    mark, apart = mark_of(plan), ticks(screws.end_least_mm)
    spacing = need(ticks(screws.spacing_most_mm) or None, "spacing of fascia screws")
    marks = [
        at for at in range(ceil_div(max(apart, 0), mark) * mark, length - apart + 1, mark)
        if allowed.allows(begins + at)
    ]  # fmt: skip
    if len(marks) < 2:
        return marks
    first, last = marks[0], marks[-1]
    for spaces in range(max(ceil_div(last - first, spacing), 1), MOST_PLACES):
        step = Fraction(last - first, spaces)
        spots = [_nearest(marks, first + n * step, mark) for n in range(spaces + 1)]
        widest = [after - before for before, after in pairwise(spots)]
        if min(widest) <= 0:
            return []
        if max(widest) <= spacing:
            return spots
    return []


def _nearest(marks: list[int], share: Fraction, mark: int) -> int:
    """Return the open mark nearest a share, the lower of two."""
    low, high = 0, len(marks) - 1
    while low < high:
        middle = (low + high) // 2
        if marks[middle] < share:
            low = middle + 1
        else:
            high = middle
    before, after = marks[max(low - 1, 0)], marks[low]
    return before if before < share and share - before <= after - share else after
