"""Joist lines that nothing stands on: whether a joist would have had room there."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.exact import Fraction, ticks
from drylay.audit.outlined import all_holes, cover, shape, subframe_of
from drylay.audit.plane import Number, Place, Shape, box, clipped, inside
from drylay.plan.model import Plan


def has_room(plan: Plan, line: int) -> bool:
    """Return whether a joist line has a clear stretch on the deck as long as a timber is thick.

    Clear of all members and openings, over the timber's whole thickness: shorter stretches want no
    joist (docs/outline-conventions.md, Frame).
    """
    subframe = subframe_of(plan)
    thick, turned = ticks(subframe.timber_thickness_mm), subframe.joist_run != "across"
    stands = [*(shape(member.corners) for member in subframe.members), *all_holes(plan)]
    deck = _seen(cover(plan), turned=turned)
    taken = sorted(_taken([_seen(each, turned=turned) for each in stands], line, thick))
    reach = taken[0][1] if taken else Fraction(0)
    for (_, end), (start, _) in pairwise(taken):
        reach = max(reach, end)
        middle: Place = (line, Fraction(reach + start) / 2)
        if start - reach >= thick and inside(middle, deck) > 0:
            return True
    return False


def _seen(told: Shape, *, turned: bool) -> Shape:
    """Return a shape with the joists' way second."""
    return tuple((y, x) for x, y in told) if turned else told


def _taken(stands: list[Shape], line: int, thick: int) -> Iterator[tuple[Number, Number]]:
    """Yield from where to where each shape stands in a strip along a line."""
    low, high = Fraction(2 * line - thick, 2), Fraction(2 * line + thick, 2)
    for each in stands:
        part = clipped(clipped(each, (low, 1), (low, 0)), (high, 0), (high, 1))
        if len(part) > 2:
            _, first, _, last = box(part)
            yield first, last
