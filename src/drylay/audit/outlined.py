"""Decks on an outline: the parts such a plan has, and its places in whole 1/320 mm."""

from collections.abc import Iterator
from math import cos, radians, sin

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.flaws import need
from drylay.audit.model import Flaw
from drylay.audit.plane import UNIT, Run, Shape, twice_area
from drylay.laying.model import Laying, Zone
from drylay.outline.model import Outline, Spot
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.subframe.model import Subframe

#: How far places may be off for their rounding, in 1/320 mm: a place, and a length between two.
OFF, LONG_OFF = 1, 2
#: Of what is measured between places that are both rounded, and once more where lines meet.
SLACK = 3
#: How far degrees may be off.
DEGREES = 0.01


def outlines(clause: str) -> Source:
    """Return docs/outline-conventions.md as a source."""
    return Source(kind="arithmetic", title="docs/outline-conventions.md", clause=clause)


def outline_of(plan: Plan) -> Outline:
    """Return the plan's outline, if it has one."""
    return need(plan.outline, "outline")


def laying_of(plan: Plan) -> Laying:
    """Return the boards of a deck on an outline, if the plan has them."""
    return need(plan.laying, "boards laid on an outline")


def subframe_of(plan: Plan) -> Subframe:
    """Return the frame under an outline, if the plan has it."""
    return need(plan.subframe, "frame under an outline")


def place(spot: Spot) -> tuple[int, int]:
    """Return a place as counts of 1/320 mm."""
    return ticks(spot.along_mm), ticks(spot.across_mm)


def shape(corners: tuple[Spot, ...]) -> Shape:
    """Return the corners of a shape as counts of 1/320 mm."""
    return tuple(place(corner) for corner in corners)


def cover(plan: Plan) -> Shape:
    """Return the corners of the outline."""
    return shape(tuple(side.start for side in outline_of(plan).sides))


def holes(plan: Plan) -> tuple[Shape, ...]:
    """Return the holes of all openings but hatches, which are closed by boards."""
    openings = outline_of(plan).openings
    return tuple(shape(each.corners) for each in openings if each.kind != "hatch")


def all_holes(plan: Plan) -> tuple[Shape, ...]:
    """Return the holes of all openings."""
    return tuple(shape(each.corners) for each in outline_of(plan).openings)


def run_at(angle_deg: float) -> Run:
    """Return the direction of boards at an angle from the house."""
    angle = radians(angle_deg)
    return Run(cos=round(cos(angle) * UNIT), sin=round(sin(angle) * UNIT))


def zones_of(plan: Plan) -> dict[str, Zone]:
    """Return the zones by their marks."""
    return {zone.mark: zone for zone in laying_of(plan).zones}


def square_m(corners: Shape) -> float:
    """Return the area of a shape in m2."""
    return float(Fraction(twice_area(corners)) / 2) / PER_MM**2 / 1e6


def near(
    subject: str, message: str, found: float, wanted: float,
    *, slack: float, unit: str, source: Source,
) -> Iterator[Flaw]:  # fmt: skip
    """Yield a flaw unless a figure is what it ought to be, but for so much."""
    if abs(found - wanted) > slack:
        yield Flaw(
            subject=subject, message=message, measured=found, limit=wanted, unit=unit,
            source=source,
        )  # fmt: skip


def fault(subject: str, message: str, source: Source) -> Flaw:
    """Return a flaw without figures."""
    return Flaw(subject=subject, message=message, source=source)
