"""What joists reach between: two rims, or bearers that they hang between, face to face."""

from collections.abc import Iterator
from itertools import pairwise

from attrs import frozen

from drylay.audit.edges import edges_of
from drylay.audit.exact import ceil_div, ticks
from drylay.audit.flaws import conventions, need, same_count, same_length, same_text
from drylay.audit.model import Flaw
from drylay.frame.model import Frame, Joist
from drylay.plan.model import Plan

FRAME = conventions("Frame")


@frozen(kw_only=True)
class Face:
    """A bearer that joists hang on, or a rim: its mark, from where to where across, in 1/320 mm."""

    mark: str
    near: int
    far: int


def hung(plan: Plan) -> bool:
    """Return whether joists hang between bearers, as the plan has it."""
    return plan.raised is not None and plan.raised.joists == "between"


def bands(plan: Plan) -> list[Face]:
    """Return the bearers that joists hang between, in order; none where they lie over these."""
    if plan.raised is None or not hung(plan):
        return []
    found = []
    for bearer in plan.raised.frame.bearers:
        broad = ticks(bearer.section.breadth_mm) * bearer.section.plies
        near = ticks(bearer.across_mm) - ceil_div(broad, 2)
        found.append(Face(mark=bearer.mark, near=near, far=near + broad))
    return found


def on_ledger(plan: Plan) -> bool:
    """Return whether the rim at the house is a ledger."""
    return plan.raised is not None and plan.raised.frame.ledger is not None


def closing(plan: Plan) -> list[Face]:
    """Return what closes the frame at either end, where it would have to lie, nearest first.

    Its own rims; where joists hang between bearers the outer two of these, the near one unless
    that is a ledger.
    """
    edges = edges_of(plan)
    near, thick = ticks(edges.frame_near_mm), _thickness(plan)
    end = near + ticks(edges.frame_depth_mm)
    first, last = ("RA", thick), ("RB", thick)
    if hung(plan):
        outer = need(bands(plan) or None, "bearers that joists hang between")
        last = (outer[-1].mark, outer[-1].far - outer[-1].near)
        if not on_ledger(plan):
            first = (outer[0].mark, outer[0].far - outer[0].near)
    return [
        Face(mark=first[0], near=near, far=near + first[1]),
        Face(mark=last[0], near=end - last[1], far=end),
    ]


def between(plan: Plan) -> list[tuple[int, int]]:
    """Return from where to where joists reach, from face to face, in 1/320 mm."""
    outer = closing(plan)
    taken = {face.mark for face in outer}
    inner = [face for face in bands(plan) if face.mark not in taken]
    return [(one.far, other.near) for one, other in pairwise([outer[0], *inner, outer[1]])]


def _thickness(plan: Plan) -> int:
    return ticks(need(plan.frame, "frame").timber_thickness_mm)


def joist_pieces(joist: Joist) -> list[tuple[str, float]]:
    """Return what a joist is sawn in: its parts, or itself whole."""
    parts = [(part.mark, part.length_mm) for part in joist.parts]
    return parts or [(joist.mark, joist.length_mm)]


def joists_sawn(frame: Frame) -> list[tuple[str, float]]:
    """Return what all joists are sawn in."""
    return [piece for joist in frame.joists for piece in joist_pieces(joist)]


def joists_are_in_parts(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless joists that hang have a part in every bay, and others none."""
    stretches = between(plan) if hung(plan) else []
    for joist in need(plan.frame, "frame").joists:
        message = "parts, one in every bay between bearers"
        found = len(joist.parts)
        yield from same_count(joist.mark, message, found, len(stretches), FRAME)
        parts = enumerate(zip(joist.parts, stretches, strict=False), 1)
        for number, (part, (near, far)) in parts:
            wanted = f"{joist.mark}.{number}"
            yield from same_text(part.mark, "wrong mark", part.mark, wanted, FRAME)
            message = "does not begin at the face that it hangs on"
            yield from same_length(part.mark, message, part.near_mm, near, FRAME)
            message = "not as long as from face to face"
            yield from same_length(part.mark, message, part.length_mm, far - near, FRAME)
