"""Bays between joists: those with room between, and what is free in them."""

from itertools import pairwise

from attrs import frozen

from drylay.marks import exact
from drylay.supports.model import Supports


@frozen(kw_only=True)
class Bay:
    """A bay in 1/320 mm: the number of its left joist from 0, and the centres of both joists."""

    number: int
    left: int
    right: int


def open_bays(supports: Supports) -> tuple[Bay, ...]:
    """Return the bays that are open: between the two joists of a pair there is none."""
    centres = [exact(line.offset_mm) for line in supports.lines]
    thick = exact(supports.joist_thickness_mm)
    return tuple(
        Bay(number=number, left=left, right=right)
        for number, (left, right) in enumerate(pairwise(centres))
        if right - left > thick
    )


def clear_widths(supports: Supports, thickness_mm: float) -> list[int]:
    """Return the width of every open bay, face to face, in 1/320 mm."""
    thick = exact(thickness_mm)
    return [bay.right - bay.left - thick for bay in open_bays(supports)]
