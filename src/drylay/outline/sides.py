"""The outline's sides: marked round from the datum corner, with lengths, angles and area."""

from collections.abc import Iterable
from math import hypot

from attrs import evolve

from drylay.brief.outline_model import OutlineWish
from drylay.marks import PER_MM, exact, to_mm
from drylay.outline.model import Opening, Outline, Side, Spot
from drylay.own_line import most_moved_mm, outline_on_own_line, own_line_deg, turned_back
from drylay.rings import Place, Ring, corner_deg, twice_area
from drylay.shapes import Shape, shape_of


def spot_of(place: Place) -> Spot:
    """Return a place in 1/320 mm as one in mm."""
    return Spot(along_mm=to_mm(place[0]), across_mm=to_mm(place[1]))


def ring_of(spots: Iterable[Spot]) -> Ring:
    """Return places in mm as a ring in 1/320 mm."""
    return tuple((exact(spot.along_mm), exact(spot.across_mm)) for spot in spots)


#: How a place is told that an opening may be moved to: its middle follows.
WORKS = "the nearest place that works has"


def middle_told(place: Place, turned_deg: float) -> str:
    """Return a middle in words, as the brief measures it."""
    x, y = turned_back(place, turned_deg) if turned_deg else place
    return f"its middle at along {to_mm(x):g}, across {to_mm(y):g}"


def square_m(ring: Ring) -> float:
    """Return the area a ring encloses, in square metres."""
    return abs(twice_area(ring)) / 2 / PER_MM**2 / 1e6


def outline_of(wish: OutlineWish, *, facing_mm: float) -> Outline:
    """Return the outline that a brief wishes, its wall put in, still without openings.

    Its places are along and across the deck's own line.

    Args:
        wish: One that `read_brief` has taken, as the brief has it.
        facing_mm: How thick the fascia is that faced sides carry.

    Raises:
        ValueError: The wish has no outline, or one in several pieces.
    """
    deg = own_line_deg(wish)
    shape = shape_of(outline_on_own_line(wish, deg) if deg else wish)
    sides = tuple(_side(shape, at, facing_mm) for at in range(len(shape.corners)))
    area_m2 = square_m(shape.corners)
    return Outline(
        sides=sides,
        opening_count=0,
        gross_m2=area_m2,
        net_m2=area_m2,
        perimeter_mm=to_mm(sum(exact(side.length_mm) for side in sides)),
        turned_deg=deg,
        moved_mm=most_moved_mm(wish, deg),
    )


def _side(shape: Shape, at: int, facing_mm: float) -> Side:
    ring = shape.corners
    before, start, end = ring[at - 1], ring[at], ring[(at + 1) % len(ring)]
    kind, faced = shape.labels[at]
    return Side(
        mark=f"E{at + 1}",
        kind=kind,
        start=spot_of(start),
        end=spot_of(end),
        length_mm=to_mm(round(hypot(end[0] - start[0], end[1] - start[1]))),
        corner_deg=corner_deg(before, start, end),
        facing_mm=facing_mm if faced else 0.0,
    )


def with_openings(outline: Outline, openings: tuple[Opening, ...]) -> Outline:
    """Return an outline with its openings, their area taken off but for hatches."""
    lost_m2 = sum(square_m(ring_of(each.corners)) for each in openings if each.kind != "hatch")
    return evolve(
        outline,
        openings=openings,
        opening_count=len(openings),
        net_m2=outline.gross_m2 - lost_m2,
    )


def corners_of(outline: Outline) -> Ring:
    """Return the corners of an outline as a ring."""
    return ring_of(side.start for side in outline.sides)
