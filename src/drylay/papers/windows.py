"""Windows: parts of a figure drawn enlarged, cut off at a frame, their own scale told."""

from collections.abc import Callable, Sequence

from drylay.papers.lettering import Point
from drylay.papers.model import Area

#: Left, top, right, bottom.
Window = tuple[float, float, float, float]


def enlarged_told(per_mm: float, units: str) -> str:
    """Return the scale of a detail in words."""
    told = f"1:{per_mm:g}" if units == "metric" else f"1/{per_mm:g} of full size"
    return f"Enlarged, {told}."


def cut(  # noqa: PLR0917 - a shape and how it is drawn
    layer: str, corners: Sequence[Point], window: Window, pen_mm: float, fill: str, dash: str = "",
) -> list[Area]:  # fmt: skip
    """Return what of a shape lies in a window, as the one shape it is there; nothing if none."""
    inside = clipped(corners, window)
    if len(inside) < 3:
        return []
    return [Area(layer=layer, corners_mm=tuple(inside), pen_mm=pen_mm, fill=fill, dash=dash)]


def clipped(corners: Sequence[Point], window: Window) -> list[Point]:
    """Return the part of a shape that lies in a window, one side of the window after another.

    Source: the algorithm of Sutherland and Hodgman, from memory. A shape that is not convex may
    keep edges that run along the window's own.
    """
    left, top, right, bottom = window
    found = list(corners)
    for axis, limit, keeps in (
        (0, left, _at_least), (0, right, _at_most), (1, top, _at_least), (1, bottom, _at_most)
    ):  # fmt: skip
        found = _one_side(found, axis, limit, keeps)
    return found


def _at_least(value: float, limit: float) -> bool:
    return value >= limit


def _at_most(value: float, limit: float) -> bool:
    return value <= limit


def _one_side(
    corners: list[Point], axis: int, limit: float, keeps: Callable[[float, float], bool]
) -> list[Point]:
    found: list[Point] = []
    for before, here in zip([*corners[-1:], *corners], corners, strict=False):
        if keeps(before[axis], limit) != keeps(here[axis], limit):
            share = (limit - before[axis]) / (here[axis] - before[axis])
            found.append((before[0] + (here[0] - before[0]) * share,
                          before[1] + (here[1] - before[1]) * share))  # fmt: skip
        if keeps(here[axis], limit):
            found.append(here)
    return found
