"""What joists reach between: two rims, or bearers that they hang between, face to face."""

from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.edges.model import Edges
from drylay.frame.model import Joist, JoistPart
from drylay.marks import exact, to_mm

#: From where to where across, in 1/320 mm.
Stretch = tuple[int, int]


@frozen(kw_only=True)
class Band:
    """A bearer that joists hang between: its mark, its near face, and how broad it is."""

    mark: str
    near_mm: float
    broad_mm: float


def stretches(edges: Edges, thickness_mm: float, bands: Sequence[Band] = ()) -> list[Stretch]:
    """Return from where to where joists reach, clear of what holds them, in 1/320 mm.

    From rim to rim; with `bands` from each to the next, and before the first from the rim that a
    ledger is, unless the first band closes the frame itself.
    """
    near, thick = exact(edges.frame_near_mm), exact(thickness_mm)
    if not bands:
        return [(near + thick, near + exact(edges.frame_depth_mm) - thick)]
    faces = [(exact(band.near_mm), exact(band.near_mm) + exact(band.broad_mm)) for band in bands]
    if faces[0][0] > near:
        faces.insert(0, (near, near + thick))
    return [(one[1], other[0]) for one, other in pairwise(faces)]


def own_rims(edges: Edges, bands: Sequence[Band]) -> int:
    """Return how many rims are sawn as such: none where bearers close the frame at both ends."""
    if not bands:
        return 2
    return int(exact(bands[0].near_mm) > exact(edges.frame_near_mm))


def joist_of(mark: str, offset_mm: float, between: Sequence[Stretch], *, hung: bool) -> Joist:
    """Return a joist from the first stretch to the last, in parts where it hangs between."""
    parts = tuple(
        JoistPart(mark=f"{mark}.{number}", near_mm=to_mm(near), length_mm=to_mm(far - near))
        for number, (near, far) in enumerate(between, 1)
    )
    return Joist(
        mark=mark,
        offset_mm=offset_mm,
        near_mm=to_mm(between[0][0]),
        length_mm=to_mm(between[-1][1] - between[0][0]),
        parts=parts if hung else (),
    )
