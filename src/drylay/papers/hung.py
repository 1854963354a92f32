"""Frames whose joists hang between bearers, as papers tell and draw them."""

from itertools import pairwise

from drylay.edges.model import Edges
from drylay.frame.model import Frame, Joist
from drylay.marks import exact, to_mm

#: Where a row's screws lie over the end of a joist; common practice, no source.
OFF_WHERE_THEY_MEET = (
    "Where a row lies over a bearer's face, put its screws well into the bearer or well into the "
    "joist: none where the two meet, nor through a hanger (common practice, no source)."
)


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
    if not frame.hung:
        return ()
    parts = frame.joists[0].parts
    near, far = edges.frame_near_mm, to_mm(exact(edges.frame_near_mm) + exact(edges.frame_depth_mm))
    ends = [near, *(to_mm(exact(each.near_mm) + exact(each.length_mm)) for each in parts)]
    faces = list(zip(ends, [*(each.near_mm for each in parts), far], strict=True))
    faces = faces[1:] if frame.rims[0].pieces else faces
    return tuple((f"BR{number}", *each) for number, each in enumerate(faces, 1))


def rims_told(frame: Frame) -> str:
    """Return what joists' centres are marked on: both rims, or ledger and bearers by mark."""
    return ", ".join(frame.hung_on) if frame.hung else "both rims"


def carrying(frame: Frame) -> str:
    """Return the word for what joists are marked on: rims, or bearers where joists hang."""
    return "bearers" if frame.hung else "rims"


def held_by(frame: Frame) -> list[str]:
    """Return what each part of a joist hangs between, in words; nothing where none hangs."""
    return [f"{one} and {other}" for one, other in pairwise(frame.hung_on)]
