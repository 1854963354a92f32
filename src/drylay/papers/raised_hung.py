"""Joists that hang between bearers, as the side view shows them."""

from collections.abc import Sequence
from itertools import pairwise

from drylay.marks import exact, to_mm
from drylay.raised.model import Bearer, RaisedFrame


def hung_ends(frame: RaisedFrame, bearers: Sequence[Bearer]) -> list[tuple[float, float]]:
    """Return from where to where across joists hang: from bearer to bearer, or from the ledger."""
    half = {each.across_mm: exact(each.section.breadth_mm) * each.section.plies // 2
            for each in bearers}  # fmt: skip
    faces = [(exact(at) - broad, exact(at) + broad) for at, broad in sorted(half.items())]
    if frame.ledger is not None:
        faces.insert(0, (exact(frame.joist_from_mm), exact(frame.joist_from_mm)))
    return [(to_mm(one[1]), to_mm(other[0])) for one, other in pairwise(faces)]


def brace_rise_mm(frame: RaisedFrame, hung_mm: float) -> float:
    """Return how far over a post's top the underside of joists lies that a brace runs to.

    `hung_mm` is how deep joists are that hang; as deep as the bearers where nobody tells.
    """
    deep = exact(frame.heights.bearer_mm)
    if frame.heights.joist_over_mm:
        return to_mm(deep)
    return to_mm(deep - exact(hung_mm)) if hung_mm else 0.0
