"""Fields of a deck on an outline: each where the brief has it, its boards running as wished."""

from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.flaws import need
from drylay.audit.model import Flaw, Witness
from drylay.audit.outlined import SLACK, fault, laying_of, outline_of, outlines, shape
from drylay.audit.own_line import middle_on_line
from drylay.audit.plane import Number, Place, box
from drylay.audit.sweep import trapezia
from drylay.brief.outline_model import FieldWish
from drylay.laying.model import Zone
from drylay.plan.model import Plan

Rectangle = tuple[Number, Number, Number, Number]
FIELDS = outlines("Laying: fields")
#: Angles are told to thousandths of a degree.
ALIKE_DEG = 0.001


def fields_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless every zone lies in a field wished, or beside all, and runs as that does.

    An edge may lie off its wished place by what a side of the outline that continues it asks for:
    half a gap off a side less than a gap away, and half of the gap from there to the boards.
    """
    wishes, laying = need(witness.brief, "brief as witness").laying.fields, laying_of(plan)
    reach = 2 * max(ticks(laying.end_gap_mm), ticks(laying.gap_preferred_mm)) + SLACK
    boxes = [_box_of(plan, wish) for wish in wishes]
    left = set(range(len(wishes)))
    for zone in laying.zones:
        own = {at for at, each in enumerate(boxes) if _lies_in(zone, each, reach)}
        named = {at for at in own if abs(zone.angle_deg - wishes[at].angle_deg) <= ALIKE_DEG}
        beside = abs(zone.angle_deg - laying.angle_deg) <= ALIKE_DEG and not any(
            _reaches_into(zone, each, reach) for each in boxes
        )
        if not named and not beside:
            yield fault(zone.mark, "no field wished lies so, or its boards run another way", FIELDS)
        left -= named
    for at in sorted(left):
        yield fault(f"field {at + 1}", "no zone lies where it was wished", FIELDS)


def _box_of(plan: Plan, wish: FieldWish) -> Rectangle:
    """Return the rectangle of a field on the deck's own line."""
    left, low = middle_on_line(wish.from_along_mm, wish.from_across_mm, outline_of(plan))
    return left, low, left + ticks(wish.along_mm), low + ticks(wish.across_mm)


def _lies_in(zone: Zone, field: Rectangle, reach: int) -> bool:
    """Whether all corners of a zone lie in a field, but for so much."""
    (left, low, right, high), (a, b, c, d) = box(shape(zone.corners)), field
    return a - reach <= left and b - reach <= low and right <= c + reach and high <= d + reach


def _reaches_into(zone: Zone, field: Rectangle, reach: int) -> bool:
    """Whether some of a zone lies in a field by more than so much."""
    a, b, c, d = (field[0] + reach, field[1] + reach, field[2] - reach, field[3] - reach)
    if a >= c or b >= d:
        return False
    inner: tuple[Place, ...] = ((a, b), (c, b), (c, d), (a, d))
    shapes = (shape(zone.corners), inner)
    return bool(trapezia(shapes, lambda into: len(into) == len(shapes), b, d))
