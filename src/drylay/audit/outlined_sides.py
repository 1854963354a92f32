"""The outline: do its sides close round it, and are its angles, lengths and areas its own?"""

from collections.abc import Iterator
from math import atan2, degrees

from drylay.audit.exact import PER_MM, mm, ticks
from drylay.audit.flaws import need, off_by, same_count, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    DEGREES,
    LONG_OFF,
    cover,
    fault,
    near,
    outline_of,
    outlines,
    place,
    shape,
    square_m,
)
from drylay.audit.plane import Place, is_simple, root, sides_of, turn, twice_area
from drylay.outline.model import SIDE_KINDS
from drylay.plan.model import Plan

SIDES = outlines("Outline: sides")
AREAS = outlines("Outline: gross and net area")
CORNERS = outlines("Places: corners of a shape")


def sides_close(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each side begins where the one before ends, and none meets another."""
    sides = need(outline_of(plan).sides or None, "sides")
    for index, side in enumerate(sides):
        yield from same_text(side.mark, "wrong mark", side.mark, f"E{index + 1}", SIDES)
        if place(side.start) != place(sides[index - 1].end):
            yield fault(side.mark, "it does not begin where the side before ends", SIDES)
    corners = cover(plan)
    if not is_simple(corners):
        yield fault("outline.sides", "sides cross, touch or turn back on each other", SIDES)
    if twice_area(corners) <= 0:
        yield fault("outline.sides", "they do not run from along towards across", CORNERS)
    for index, corner in enumerate(corners):
        straight = turn(corners[index - 1], corner, corners[(index + 1) % len(corners)]) == 0
        if straight and sides[index].kind == sides[index - 1].kind:
            yield fault(f"E{index + 1}", "it goes straight on from the side before", CORNERS)


def first_corner(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the first side begins at the corner nearest the datum corner."""
    corners = need(cover(plan) or None, "sides")
    nearest = min(corners, key=lambda each: (each[0] ** 2 + each[1] ** 2, each))
    if corners[0] != nearest:
        message = "the first side does not begin at the corner nearest the datum corner"
        yield fault("E1", message, SIDES)


def sides_are_known(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a side of no known kind, or one faced by no fascia of the plan's."""
    thick = 0 if plan.subframe is None else ticks(plan.subframe.facing_thickness_mm)
    for side in outline_of(plan).sides:
        if side.kind not in SIDE_KINDS:
            yield fault(side.mark, f"no kind of side is {side.kind!r}", SIDES)
        faced = ticks(side.facing_mm)
        if faced not in {0, thick} and plan.subframe is not None:
            yield off_by(side.mark, "not as thick as the fascia", faced, thick, SIDES)
        if faced < 0:
            yield off_by(side.mark, "a fascia below nothing", faced, 0, SIDES)


def lengths_and_angles(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless lengths, angles and the perimeter are those of the corners."""
    outline = outline_of(plan)
    around = 0.0
    for index, side in enumerate(outline.sides):
        long = length(place(side.start), place(side.end))
        around += long
        if abs(ticks(side.length_mm) - long) > LONG_OFF:
            message = "not as long as from its start to its end"
            yield off_by(side.mark, message, ticks(side.length_mm), long, SIDES)
        found = inner_angle(
            place(outline.sides[index - 1].start), place(side.start), place(side.end)
        )
        message = "not the angle inside, at its start"
        yield from near(
            side.mark, message, side.corner_deg, found,
            slack=DEGREES, unit="degrees", source=SIDES,
        )  # fmt: skip
    slack, found = LONG_OFF * len(outline.sides), ticks(outline.perimeter_mm)
    if abs(found - around) > slack:
        yield off_by("outline.perimeter_mm", "not the sum of all sides", found, around, AREAS)


def length(start: Place, end: Place) -> float:
    """Return how long it is from one place to another."""
    return float(root((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2))


def inner_angle(before: Place, corner: Place, after: Place) -> float:
    """Return the angle inside a shape at a corner, in degrees."""
    (ax, ay), (bx, by), (cx, cy) = before, corner, after
    across = (ax - bx) * (cy - by) - (ay - by) * (cx - bx)
    along = (ax - bx) * (cx - bx) + (ay - by) * (cy - by)
    return degrees(atan2(-float(across), float(along))) % 360


def areas(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless gross and net area are those of the corners."""
    outline, corners = outline_of(plan), cover(plan)
    slack = rounding_m2(corners)
    gross = square_m(corners)
    message = "not the area that the sides enclose"
    yield from near(
        "outline.gross_m2", message, outline.gross_m2, gross, slack=slack, unit="m2", source=AREAS
    )
    left = gross
    for opening in outline.openings:
        if opening.kind != "hatch":
            left -= square_m(shape(opening.corners))
            slack += rounding_m2(shape(opening.corners))
    message = "not the gross area less the openings that are not walked on"
    yield from near(
        "outline.net_m2", message, outline.net_m2, left, slack=slack, unit="m2", source=AREAS
    )


def rounding_m2(corners: tuple[Place, ...]) -> float:
    """Return by how much an area may be off, corners being rounded: a strip all round it."""
    around = sum(length(start, end) for start, end in sides_of(corners))
    return mm(around) / PER_MM / 1e6 + 1e-9


def openings_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless openings are counted and marked in order."""
    outline = outline_of(plan)
    message = "not the openings there are"
    found, wanted = outline.opening_count, len(outline.openings)
    yield from same_count("outline.opening_count", message, found, wanted, SIDES)
    for index, opening in enumerate(outline.openings, 1):
        yield from same_text(opening.mark, "wrong mark", opening.mark, f"O{index}", SIDES)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-750", "sides close round the outline and meet at corners alone", sides_close),
    ("AUD-751", "the first side begins nearest the datum corner", first_corner),
    ("AUD-752", "sides are of known kinds, faced by the plan's fascia", sides_are_known),
    ("AUD-753", "lengths and angles of sides are those of their corners", lengths_and_angles),
    ("AUD-754", "gross and net area are those of the corners", areas),
    ("AUD-755", "openings are counted and marked in order", openings_counted),
)
