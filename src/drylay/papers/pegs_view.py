"""Pegs put on a sheet: what the drawings of lines, profiles and moved pegs share."""

from collections.abc import Iterable, Sequence
from math import dist

from drylay.outline.model import Outline, Side, Spot
from drylay.papers.figures import placed
from drylay.papers.lettering import Point
from drylay.papers.model import FINE_MM, MEMBER_MM, Box, Lettering, Line, Sheet, View
from drylay.papers.outlined_view import at, moved, room_for, way_of
from drylay.papers.placing import Place, first_clear, place_of, put, sloped
from drylay.plan.model import Plan

#: The least of a deck that must stay legible on the sheet: a part of its smaller size.
PARTS = 13
#: Along a line, where a text may stand: from its middle outwards.
SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.45, 0.55, 0.35, 0.65, 0.25, 0.75)


def outline_of(plan: Plan) -> Outline | None:
    """Return the outline of a plan; that of a rectangle has four sides, one of them the house's."""
    surface = plan.surface
    if plan.outline is not None or surface is None:
        return plan.outline
    along, across = surface.cover_along_mm, surface.cover_across_mm
    corners = [(0.0, 0.0), (along, 0.0), (along, across), (0.0, across)]
    spots = [Spot(along_mm=x, across_mm=y) for x, y in corners]
    house = "house" if plan.site is not None and plan.site.beside_house else "open"
    kinds = (house, "open", "open", "open")
    sides = tuple(
        Side(mark=kind, kind=kind, start=one, end=other, corner_deg=90.0, facing_mm=0.0,
             length_mm=along if number % 2 == 0 else across)
        for number, (kind, one, other)
        in enumerate(zip(kinds, spots, [*spots[1:], spots[0]], strict=True))
    )  # fmt: skip
    square = along * across / 1e6
    return Outline(sides=sides, opening_count=0, gross_m2=square, net_m2=square,
                   perimeter_mm=2 * (along + across))  # fmt: skip


def view_of(
    spots: Iterable[Spot], outline: Outline, units: str, aside_mm: Point
) -> tuple[Sheet, View]:
    """Return the sheet for all that is drawn, and the view from the datum corner.

    `aside_mm` is the width and height in mm of paper kept free at the sheet's right.
    """
    all_of = [*spots, *(side.start for side in outline.sides)]
    left, right = (pick(s.along_mm for s in all_of) for pick in (min, max))
    top, bottom = (pick(s.across_mm for s in all_of) for pick in (min, max))
    deep = [side.start.across_mm for side in outline.sides]
    wide = [side.start.along_mm for side in outline.sides]
    least = min(max(deep) - min(deep), max(wide) - min(wide))
    edges = {side: room_for(1) for side in ("left", "right", "top", "bottom")}
    sheet, view = placed("along", (right - left, bottom - top), edges, units=units,
                         pitch_mm=least / PARTS, aside_mm=aside_mm)  # fmt: skip
    return sheet, View(left_mm=view.left_mm - left / view.per_mm,
                       top_mm=view.top_mm - top / view.per_mm, per_mm=view.per_mm,
                       run=view.run)  # fmt: skip


def pegs_at(view: View, plan: Plan) -> dict[str, Point]:
    """Return where the pegs belong on the sheet, by mark."""
    pegs = plan.work.setting_out.pegs if plan.work else ()
    return {
        peg.mark: at(view, Spot(along_mm=peg.along_mm, across_mm=peg.across_mm)) for peg in pegs
    }


def dashed(layer: str, one: Point, other: Point, dash: str) -> Line:
    """Return a fine line of dashes."""
    return Line(layer=layer, x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                pen_mm=FINE_MM, dash=dash)  # fmt: skip


def square(layer: str, point: Point, size_mm: float) -> Box:
    """Return a small square about a point: the head of a peg or a stake."""
    x, y = point
    return Box(layer=layer, x_mm=x - size_mm / 2, y_mm=y - size_mm / 2, width_mm=size_mm,
               height_mm=size_mm, pen_mm=MEMBER_MM, fill="white")  # fmt: skip


def room_at(point: Point, half_mm: float) -> Place:
    """Return the room about a point that texts keep off."""
    x, y = point
    return place_of([(x - half_mm, y - half_mm), (x + half_mm, y - half_mm),
                     (x + half_mm, y + half_mm), (x - half_mm, y + half_mm)])  # fmt: skip


def text_at(layer: str, text: str, point: Point) -> Lettering:
    """Return a text on white, its middle at a point."""
    return Lettering(layer=layer, x_mm=point[0], y_mm=point[1], text=text, knocked=True)


def first_of(
    spots: Sequence[Lettering], taken: list[Place], keep_off: Sequence[Sequence[Place]]
) -> list[Lettering]:
    """Return a text at the first place clear of what is taken, and of the first of `keep_off`."""
    for more in keep_off:
        both = [*taken, *more]
        found = first_clear(spots, both)
        if found:
            taken.append(both[-1])
            return [*found]
    return []


def along(
    text: Lettering, one: Point, other: Point, asides: Sequence[float] = (2.2, -2.2, 3.4, -3.4)
) -> list[Lettering]:
    """Return a text's places beside a line, written along it."""
    flat, way, long = sloped(text, one, other), way_of(one, other), dist(one, other)
    return [
        put(flat, moved(moved(one, way, long * share), (-way[1], way[0]), off))
        for off in asides for share in SHARES
    ]  # fmt: skip
