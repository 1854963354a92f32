"""A deck on an outline put on its sheet: its points on paper, its sides, what they are."""

from collections.abc import Sequence
from math import hypot

from drylay.outline.model import Outline, Side, Spot
from drylay.papers.dimensions import FIRST_MM, NEXT_MM, stroke
from drylay.papers.figures import placed
from drylay.papers.lettering import Point
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Edge,
    Lettering,
    Line,
    Ring,
    Shape,
    Sheet,
    Span,
    View,
)
from drylay.papers.placing import (
    Place,
    beyond,
    first_clear,
    line_place,
    place_of,
    places_of,
    sloped,
)
from drylay.papers.sheets import rule
from drylay.papers.wording import bare

#: A row of boards is at least so high on paper, so that a mark stands inside it.
ROW_MM, LEGIBLE_MM = 2.7, 1.8
#: From a side to its own dimension line, and to the text beside it.
DIMENSION_MM, TEXT_MM = 11.0, 2.0
#: What stands for a house wall, and how far apart its hatching is.
WALL_MM, HATCH_MM = 2.5, 2.5
CHAIN = "6 1.5 1 1.5"
#: How far outside a side its drawing reaches.
OUTSIDE_MM = {"house": WALL_MM, "boundary": 1.4, "pool": 2.0}
#: Angles nearer to square than this are not told.
SQUARE_DEG = 0.005
#: The ways from a point to places for its text, and those that lie between them.
WAYS = (
    (0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0),
    (0.7, -0.7), (0.7, 0.7), (-0.7, 0.7), (-0.7, -0.7),
)  # fmt: skip
BETWEEN_WAYS = (
    (0.4, -0.9), (0.9, -0.4), (0.9, 0.4), (0.4, 0.9),
    (-0.4, 0.9), (-0.9, 0.4), (-0.9, -0.4), (-0.4, -0.9),
)  # fmt: skip
#: Where along a side its text may stand.
SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)


def bounds_mm(outline: Outline) -> tuple[float, float, float, float]:
    """Return the least along and across of an outline, and the greatest."""
    along = [side.start.along_mm for side in outline.sides]
    across = [side.start.across_mm for side in outline.sides]
    return min(along), min(across), max(along), max(across)


def fitted_view(
    outline: Outline, edges: dict[str, Edge], *, units: str, pitch_mm: float,
    aside_mm: tuple[float, float] = (0.0, 0.0),
) -> tuple[Sheet, View]:  # fmt: skip
    """Return the sheet for an outline with what stands about it, and where the outline lies.

    The view's corner is that of the least along and across, as `dimensions` wants it.
    """
    left, top, right, bottom = bounds_mm(outline)
    pitch_mm *= LEGIBLE_MM / ROW_MM
    return placed("along", (right - left, bottom - top), edges, units=units, pitch_mm=pitch_mm,
                  aside_mm=aside_mm)  # fmt: skip


def room_for(levels: int) -> Edge:
    """Return an edge that keeps the paper of so many dimension lines free."""
    return Edge(spans=(Span(from_mm=0.0, to_mm=0.0, text=""),) * levels)


def datum_view(outline: Outline, view: View) -> View:
    """Return the view whose corner is the datum corner, which all places are counted from."""
    left, top, _, _ = bounds_mm(outline)
    return View(left_mm=view.left_mm - left / view.per_mm, top_mm=view.top_mm - top / view.per_mm,
                per_mm=view.per_mm, run=view.run)  # fmt: skip


def at(view: View, spot: Spot) -> Point:
    """Return the point of the sheet for a place of the deck."""
    return view.left_mm + spot.along_mm / view.per_mm, view.top_mm + spot.across_mm / view.per_mm


def all_at(view: View, corners: Sequence[Spot]) -> tuple[Point, ...]:
    """Return the points of the sheet for the corners of something."""
    return tuple(at(view, corner) for corner in corners)


def area(
    view: View, layer: str, corners: Sequence[Spot], pen_mm: float, *, fill: str = "none",
    dash: str = "",
) -> Area:  # fmt: skip
    """Return a shape of the deck on the sheet."""
    return Area(layer=layer, corners_mm=all_at(view, corners), pen_mm=pen_mm, fill=fill, dash=dash)


def angle(value_deg: float) -> str:
    """Return an angle to a tenth of a degree, which is finer than any saw's scale."""
    near = round(value_deg, 1)
    about = "" if abs(near - value_deg) < SQUARE_DEG else "~"
    return f"{about}{near:g}\u00b0"


def moved(point: Point, way: Point, by_mm: float) -> Point:
    """Return a point moved so far along a way."""
    return point[0] + way[0] * by_mm, point[1] + way[1] * by_mm


def way_of(one: Point, other: Point) -> Point:
    """Return the way from one point to another, one long."""
    long = hypot(other[0] - one[0], other[1] - one[1]) or 1.0
    return (other[0] - one[0]) / long, (other[1] - one[1]) / long


def outward(way: Point) -> Point:
    """Return the way out of a shape beside a side of it that runs this way."""
    return way[1], -way[0]


def sides_drawn(view: View, outline: Outline, pen_mm: float = OUTLINE_MM) -> list[Shape]:
    """Return the outline with what each side is drawn outside of it, and the datum."""
    corners = [side.start for side in outline.sides]
    shapes: list[Shape] = [area(view, "cover", corners, pen_mm)]
    for side in outline.sides:
        shapes += _kind(view, side)
    datum = at(view, Spot(along_mm=0.0, across_mm=0.0))
    return [*shapes, Ring(layer="datum", x_mm=datum[0], y_mm=datum[1], radius_mm=1.2)]


def datum_text(view: View, outline: Outline, taken: list[Place]) -> list[Shape]:
    """Return the word beside the datum corner, where there is room for it outside the deck."""
    datum = at(view, Spot(along_mm=0.0, across_mm=0.0))
    deck = all_at(view, [side.start for side in outline.sides])
    spots = around(_text("datum", *datum, "datum"), steps=4, step_mm=2.6)
    return [*first_clear([spot for spot in spots if beyond(spot, deck)], taken)]


def _kind(view: View, side: Side) -> list[Shape]:
    one, other = at(view, side.start), at(view, side.end)
    way = way_of(one, other)
    out = outward(way)
    if side.kind == "house":
        return _wall(one, other, way, out)
    if side.kind == "boundary":
        line = rule("boundary", *moved(one, out, 1.2), *moved(other, out, 1.2))
        return [_dashed(line, CHAIN)]
    if side.kind == "pool":
        return [rule("pool", *moved(one, out, by), *moved(other, out, by)) for by in (0.9, 1.8)]
    return []


def _dashed(line: Line, dash: str) -> Line:
    return Line(layer=line.layer, x1_mm=line.x1_mm, y1_mm=line.y1_mm, x2_mm=line.x2_mm,
                y2_mm=line.y2_mm, pen_mm=MEMBER_MM, dash=dash)  # fmt: skip


def _wall(one: Point, other: Point, way: Point, out: Point) -> list[Shape]:
    """Return a wall: a line outside the side, and slanted strokes between the two."""
    long = hypot(other[0] - one[0], other[1] - one[1])
    back = rule("house", *moved(one, out, WALL_MM), *moved(other, out, WALL_MM))
    count = int(long // HATCH_MM)
    strokes = [
        (moved(one, way, HATCH_MM * n), moved(moved(one, way, HATCH_MM * (n + 1)), out, WALL_MM))
        for n in range(count)
    ]
    return [back, *(line_of("house", *ends, FINE_MM) for ends in strokes)]


def side_dimensions(view: View, outline: Outline, units: str, taken: list[Place]) -> list[Shape]:
    """Return each side's dimension outside the outline, with its mark, kind and length."""
    shapes: list[Shape] = []
    for side in outline.sides:
        shapes += _dimension_lines(view, side)
    taken += places_of(shapes)
    deck = all_at(view, [side.start for side in outline.sides])
    for side in outline.sides:
        spots = [spot for spot in _dimension_texts(view, side, units) if beyond(spot, deck)]
        shapes += first_clear(spots, taken)
    return shapes


def _dimension_lines(view: View, side: Side) -> list[Shape]:
    one, other = at(view, side.start), at(view, side.end)
    out = outward(way_of(one, other))
    air_mm = WALL_MM + 0.8 if side.kind == "house" else 2.4
    ends = [moved(point, out, DIMENSION_MM) for point in (one, other)]
    shapes: list[Shape] = [rule("dimensions", *ends[0], *ends[1])]
    for point, end in zip((one, other), ends, strict=True):
        shapes += [rule("dimensions", *moved(point, out, air_mm), *moved(end, out, 1.0)),
                   stroke(end)]  # fmt: skip
    return shapes


def _dimension_texts(view: View, side: Side, units: str) -> list[Lettering]:
    """Return where a side's text may stand: along its dimension line, else near its middle."""
    one, other = at(view, side.start), at(view, side.end)
    way = way_of(one, other)
    out = outward(way)
    text = f"{side.mark} {side.kind} {bare(side.length_mm, units)}"
    spots = []
    for off in (TEXT_MM, TEXT_MM + 3.2, TEXT_MM + 6.4, -TEXT_MM, TEXT_MM + 9.6, TEXT_MM + 12.8):
        for share in SHARES:
            x, y = moved(moved(one, way, share * hypot(other[0] - one[0], other[1] - one[1])), out,
                         DIMENSION_MM + off)  # fmt: skip
            spots.append(sloped(_text("dimensions", x, y, text), one, other))
    middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
    return spots + around(_text("dimensions", *moved(middle, out, DIMENSION_MM), text), steps=12)


def around(
    text: Lettering, *, steps: int, step_mm: float = 3.2, ways: Sequence[Point] = WAYS
) -> list[Lettering]:  # fmt: skip
    """Return places for a text about a point, nearer ones first, all ways of each ring."""
    return [
        Lettering(layer=text.layer, x_mm=text.x_mm + x * ring * step_mm,
                  y_mm=text.y_mm + y * ring * step_mm, text=text.text, knocked=text.knocked,
                  anchor="start" if x > 0 else "end" if x < 0 else "middle")
        for ring in range(1, steps + 1) for x, y in ways
    ]  # fmt: skip


def _text(layer: str, x: float, y: float, text: str, *, knocked: bool = False) -> Lettering:
    return Lettering(layer=layer, x_mm=x, y_mm=y, text=text, knocked=knocked)


def corner_angles(view: View, outline: Outline, taken: list[Place]) -> list[Shape]:
    """Return the angle inside at every corner that is not square."""
    shapes: list[Shape] = []
    sides = outline.sides
    for before, side in zip((sides[-1], *sides), sides, strict=False):
        if min(abs(side.corner_deg - square) for square in (90.0, 180.0, 270.0)) < SQUARE_DEG:
            continue
        corner = at(view, side.start)
        back, on = way_of(corner, at(view, before.start)), way_of(corner, at(view, side.end))
        inwards = way_of((0.0, 0.0), (back[0] + on[0], back[1] + on[1]))
        if side.corner_deg > 180.0:
            inwards = (-inwards[0], -inwards[1])
        spots = [
            _text("angles", *moved(corner, inwards, by), angle(side.corner_deg), knocked=True)
            for by in (5.0, 6.5, 8.0, 10.0, 12.0, -5.0, -7.0, -9.0, 15.0, 18.0)
        ]
        shapes += first_clear(spots, taken)
    return shapes


def overall(view: View, outline: Outline, units: str, level: int = 2) -> list[Shape]:
    """Return the greatest sizes along and across, outside everything else; none of a rectangle."""
    if len(outline.sides) == 4 and all(abs(s.corner_deg - 90) < SQUARE_DEG for s in outline.sides):
        return []
    left, top, right, bottom = bounds_mm(outline)
    out = FIRST_MM + NEXT_MM * level - 1.0
    west, north = at(view, Spot(along_mm=left, across_mm=top))
    east, south = at(view, Spot(along_mm=right, across_mm=bottom))
    below, aside = south + out, west - out
    flat = f"overall {bare(right - left, units)}"
    upright = f"overall {bare(bottom - top, units)}"
    return [
        rule("dimensions", west, below, east, below), stroke((west, below)), stroke((east, below)),
        rule("dimensions", aside, north, aside, south), stroke((aside, north)),
        stroke((aside, south)),
        _text("dimensions", (west + east) / 2, below + TEXT_MM + 0.2, flat),
        Lettering(layer="dimensions", x_mm=aside - TEXT_MM - 0.2, y_mm=(north + south) / 2,
                  text=upright, turned=True),
    ]  # fmt: skip


def kinds_told(outline: Outline) -> str:
    """Return what is drawn outside the sides, of the kinds that this outline has."""
    told = {
        "house": "hatched outside: house wall",
        "boundary": "chain line: boundary",
        "pool": "double line: edge of a pool",
    }
    kinds = dict.fromkeys(side.kind for side in outline.sides)
    named = [told[kind] for kind in kinds if kind in told]
    words = "; ".join(named)
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def line_of(layer: str, one: Point, other: Point, pen_mm: float = THIN_MM) -> Line:
    """Return a line between two points of the sheet."""
    return Line(layer=layer, x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                pen_mm=pen_mm)  # fmt: skip


def outline_places(view: View, outline: Outline) -> list[Place]:
    """Return the sides, and what is drawn outside of them, as what texts keep off."""
    places = []
    for side in outline.sides:
        one, other = at(view, side.start), at(view, side.end)
        places.append(line_place(one, other))
        deep_mm = OUTSIDE_MM.get(side.kind, 0.0)
        if deep_mm:
            out = outward(way_of(one, other))
            strip = [one, other, moved(other, out, deep_mm), moved(one, out, deep_mm)]
            places.append(place_of(strip))
    return places
