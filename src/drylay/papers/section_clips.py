"""Clips in the section: a sign in every gap between rows, and what they are called."""

from collections.abc import Callable, Iterable
from itertools import pairwise

from drylay.fixings.model import Clips
from drylay.papers.model import FINE_MM, Box, Shape
from drylay.papers.wording import bare, clean

Extent = tuple[float, float, float, float]
#: How far a sign reaches under the boards on either side, and how thick it is, in mm of deck.
UNDER_MM, THICK_MM = 6.0, 3.0
SIGN = "Clips are drawn as a sign: their shape is their maker's."


def clip_shapes(
    rows: tuple[tuple[float, float], ...],
    board_mm: float,
    shown_mm: float,
    box: Callable[[str, Extent, float], Box],
) -> list[Shape]:
    """Return a stem and a flange in every gap shown; `rows` are their edges, the outermost first.

    A sign, not a shape: the stem stands on the joist, the flange lies in the boards' grooves.
    """
    shapes: list[Shape] = []
    for outer, inner in _gaps(rows, shown_mm):
        middle = board_mm / 2
        shapes.append(box("clips", (outer, middle, inner, board_mm), FINE_MM))
        flange = (outer - UNDER_MM, middle, inner + UNDER_MM, middle + THICK_MM)
        shapes.append(box("clips", flange, FINE_MM))
    return shapes


def clip_name(
    clips: Clips,
    rows: tuple[tuple[float, float], ...],
    board_mm: float,
    shown_mm: float,
    units: str,
) -> list[tuple[float, float, str]]:
    """Return the clips' name, how far down and inwards its leader begins; nothing without a gap."""
    gaps = list(_gaps(rows, shown_mm))
    if not gaps:
        return []
    outer, inner = gaps[0]
    told = f"clip {clean(clips.article, 24)}, gap {bare(clips.gap_mm, units)}, at every joist"
    return [(board_mm * 0.8, (outer + inner) / 2, told)]


def _gaps(rows: tuple[tuple[float, float], ...], shown_mm: float) -> Iterable[tuple[float, float]]:
    for one, other in pairwise(rows):
        if other[0] + UNDER_MM < shown_mm:
            yield one[1], other[0]
