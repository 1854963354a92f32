"""What joists reach between: two rims, or bearers that they hang between, face to face."""

from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.edges.model import Edges
from drylay.frame.model import Frame, Joist, JoistPart
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


def is_hung(frame: Frame) -> bool:
    """Return whether a frame's joists hang between bearers."""
    return any(joist.parts for joist in frame.joists)


def joist_pieces(joist: Joist) -> tuple[tuple[str, float], ...]:
    """Return what a joist is sawn in, by mark and length: its parts, or itself whole."""
    if not joist.parts:
        return ((joist.mark, joist.length_mm),)
    return tuple((part.mark, part.length_mm) for part in joist.parts)


def piece_count(frame: Frame) -> int:
    """Return how many pieces all joists are sawn in."""
    return sum(len(joist.parts) or 1 for joist in frame.joists)


def joist_stretches(joist: Joist) -> tuple[tuple[float, float], ...]:
    """Return from where each piece of a joist begins and how long it is, in mm."""
    if not joist.parts:
        return ((joist.near_mm, joist.length_mm),)
    return tuple((part.near_mm, part.length_mm) for part in joist.parts)


def bearers_between(frame: Frame, edges: Edges) -> tuple[tuple[str, float, float], ...]:
    """Return mark, near and far face of every bearer that a frame's joists hang between, in mm.

    Told by what joists leave free; those that close the frame stand among its rims. None where
    joists lie over bearers, or on the ground.
    """
    if not is_hung(frame):
        return ()
    parts = frame.joists[0].parts
    near, far = edges.frame_near_mm, to_mm(exact(edges.frame_near_mm) + exact(edges.frame_depth_mm))
    ends = [near, *(to_mm(exact(each.near_mm) + exact(each.length_mm)) for each in parts)]
    faces = list(zip(ends, [*(each.near_mm for each in parts), far], strict=True))
    faces = faces[1:] if frame.rims[0].pieces else faces
    return tuple((f"BR{number}", *each) for number, each in enumerate(faces, 1))


def rims_told(frame: Frame) -> str:
    """Return what joists' centres are marked on: both rims, or ledger and bearers by mark."""
    if not is_hung(frame):
        return "both rims"
    own = [rim.mark for rim in frame.rims if rim.pieces]
    count = len(frame.joists[0].parts) + 1 - len(own)
    return " and ".join([*own, "BR1" if count == 1 else f"BR1 to BR{count}"])


def held_by(frame: Frame) -> list[str]:
    """Return what each part of a joist hangs between, in words; nothing where none hangs."""
    if not is_hung(frame):
        return []
    own = [rim.mark for rim in frame.rims if rim.pieces]
    count = len(frame.joists[0].parts) + 1 - len(own)
    marks = [*own, *(f"BR{number}" for number in range(1, count + 1))]
    return [f"{one} and {other}" for one, other in pairwise(marks)]
