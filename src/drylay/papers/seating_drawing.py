"""The plan of a deck's furniture: pieces, chairs, zones, ways behind, edges, sizes; true scale."""

from collections.abc import Iterator
from itertools import pairwise
from math import cos, pi, sin

from attrs import evolve

from drylay.papers.dimensions import all_edges
from drylay.papers.figures import house_side, placed
from drylay.papers.hatching import hatch
from drylay.papers.lettering import Bounds, first_free, width_mm
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Box,
    Edge,
    Lettering,
    Line,
    Mark,
    Shape,
    Span,
    View,
)
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, size
from drylay.seating.model import SIDES, Allowances, DeckSides, Layout, Placed, Zone

#: Lines of the hatching of ways on foot, apart; dashes of zones, of the strip, of a fire's zone.
PITCH_MM = 2.6
ZONE_DASH, STRIP_DASH, CLEAR_DASH = "1.2 0.8", "3 1.2", "4 1 1 1"
#: A chair's seat, and how much of a side each takes. Common practice, no source.
SEAT_MM, EACH_MM = 450.0, 600.0
#: The gap between the two lines of a guard, on paper.
GUARD_MM = 1.2
ARC_STEPS = 16
#: A figure is so many times as large as what must stay legible: the words in a body.
PARTS = 20
NO_CLASH_MM = 3.2


def seating_svg(
    layout: Layout,
    sides: DeckSides,
    room: Allowances,
    *,
    title: str = "Deck for its furniture",
    units: str = "metric",
) -> bytes:
    """Return the plan of a layout as SVG, black on white.

    Bodies are outlined and named, with chairs pulled back beside them; ways on foot are hatched,
    zones dashed; along open sides runs the line that chairs stay within.
    """
    extent_mm = (layout.along_mm, layout.across_mm)
    edges = _edges(layout, units)
    sheet, view = placed("along", extent_mm, edges, units=units, pitch_mm=max(extent_mm) / PARTS)
    extent = (extent_mm[0] / view.per_mm, extent_mm[1] / view.per_mm)
    shapes = [
        *_zones(layout, view),
        *_strips(layout, sides, room, view),
        *_bodies(layout, view),
        *_sides(sides, view, extent),
        *house_side(view, extent),
        *all_edges(edges, view, extent),
        *_labels(layout, view, units),
        *title_block(
            sheet, title=title, drawing=f"Furniture, {room.level} room", units=units,
            notes=_notes(layout, sides, room, units),
        ),
    ]  # fmt: skip
    return svg(shapes, sheet=sheet, name="seating", title=clean(title), told=_told(layout, units))


def _told(layout: Layout, units: str) -> str:
    """Return the plan in words, for those who hear it read."""
    deck = f"{size(layout.along_mm, units)} along the house, {size(layout.across_mm, units)} across"
    stood = "; ".join(
        f"{clean(each.piece)} {size(each.from_along_mm, units)} along, "
        f"{size(each.from_across_mm, units)} across"
        for each in layout.placed
    )
    return f"A deck of {deck}. {stood}"


def _edges(layout: Layout, units: str) -> dict[str, Edge]:
    """Return the overall sizes, and where bodies begin, counted from the datum corner."""
    along, across = layout.along_mm, layout.across_mm
    return {
        "top": Edge(spans=(Span(from_mm=0.0, to_mm=along, text=bare(along, units)),)),
        "right": Edge(spans=(Span(from_mm=0.0, to_mm=across, text=bare(across, units)),)),
        "bottom": _running({p.from_along_mm for p in layout.placed}, units),
        "left": _running({p.from_across_mm for p in layout.placed}, units),
    }


def _running(at_mm: set[float], units: str) -> Edge:
    return Edge(marks=tuple(Mark(at_mm=at, text=bare(at, units)) for at in sorted(at_mm)))


def _box(
    view: View, layer: str, at: Zone | Placed, *, pen_mm: float = MEMBER_MM, fill: str = "none"
) -> Box:
    return Box(
        layer=layer,
        x_mm=view.left_mm + at.from_along_mm / view.per_mm,
        y_mm=view.top_mm + at.from_across_mm / view.per_mm,
        width_mm=at.along_mm / view.per_mm,
        height_mm=at.across_mm / view.per_mm,
        pen_mm=pen_mm,
        fill=fill,
    )


def _dashed(box: Box, dash: str) -> Area:
    left, top = box.x_mm, box.y_mm
    right, bottom = left + box.width_mm, top + box.height_mm
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return Area(layer=box.layer, corners_mm=corners, pen_mm=box.pen_mm, fill=box.fill, dash=dash)


def _zones(layout: Layout, view: View) -> Iterator[Shape]:
    """Yield ways on foot first, over them what chairs take, and last the zones of fires."""
    of_kind = {kind: [z for z in layout.zones if z.kind == kind] for kind in _KINDS}
    for kind in ("passage", "steps", "door"):
        for zone in of_kind[kind]:
            box = _box(view, kind, zone, pen_mm=FINE_MM)
            yield from (box, *hatch(box, PITCH_MM, rising=kind != "door"))
    for zone in of_kind["pulled back"]:
        box = _box(view, "pulled-back", zone, pen_mm=FINE_MM, fill="white")
        yield _dashed(box, ZONE_DASH)
        yield from _chairs(zone, layout, view)
    for zone in of_kind["clear"]:
        box = _box(view, "clear", _inside(zone, layout), pen_mm=THIN_MM)
        yield _dashed(box, CLEAR_DASH)
    for zone in of_kind["door"]:
        yield from _leaf(_box(view, "door", zone), _side_of(zone, layout))
    for zone in of_kind["steps"]:
        yield from _treads(_box(view, "steps", zone), _side_of(zone, layout))


_KINDS = ("passage", "steps", "door", "pulled back", "clear")


def _inside(zone: Zone, layout: Layout) -> Zone:
    """Return the part of a zone that lies on the deck."""
    left, top = max(0.0, zone.from_along_mm), max(0.0, zone.from_across_mm)
    right = min(layout.along_mm, zone.from_along_mm + zone.along_mm)
    front = min(layout.across_mm, zone.from_across_mm + zone.across_mm)
    return Zone(
        kind=zone.kind,
        piece=zone.piece,
        from_along_mm=left,
        from_across_mm=top,
        along_mm=right - left,
        across_mm=front - top,
    )


def _chairs(zone: Zone, layout: Layout, view: View) -> Iterator[Shape]:
    """Yield the chairs of one side, in the middle of the room they are pulled back into."""
    body = next(p for p in layout.placed if p.piece == zone.piece)
    upright = zone.from_across_mm == body.from_across_mm and zone.across_mm == body.across_mm
    long_mm = zone.across_mm if upright else zone.along_mm
    count = max(1, int(long_mm // EACH_MM))
    seat_mm = min(SEAT_MM, long_mm)
    for number in range(count):
        middle_mm = long_mm * (number + 0.5) / count
        along = zone.along_mm / 2 if upright else middle_mm
        across = middle_mm if upright else zone.across_mm / 2
        yield Box(
            layer="chairs",
            x_mm=view.left_mm + (zone.from_along_mm + along - seat_mm / 2) / view.per_mm,
            y_mm=view.top_mm + (zone.from_across_mm + across - seat_mm / 2) / view.per_mm,
            width_mm=seat_mm / view.per_mm,
            height_mm=seat_mm / view.per_mm,
            pen_mm=THIN_MM,
            fill="white",
        )


def _side_of(zone: Zone, layout: Layout) -> str:
    """Return the side that a door or steps stand at."""
    if zone.from_across_mm == 0.0:
        return "house"
    if zone.from_across_mm + zone.across_mm == layout.across_mm:
        return "front"
    return "left" if zone.from_along_mm == 0.0 else "right"


def _leaf(box: Box, side: str) -> Iterator[Shape]:
    """Yield a leaf that swings over a square zone, hinged at the end nearest the datum."""
    if box.width_mm != box.height_mm:
        return
    wide, (x, y) = box.width_mm, (box.x_mm, box.y_mm)
    hinge, start = {
        "house": ((x, y), 0.0),
        "front": ((x, y + wide), -pi / 2),
        "left": ((x, y), 0.0),
        "right": ((x + wide, y), pi / 2),
    }[side]
    points = [
        (hinge[0] + wide * cos(start + at), hinge[1] + wide * sin(start + at))
        for at in (pi / 2 * step / ARC_STEPS for step in range(ARC_STEPS + 1))
    ]
    for (x1, y1), (x2, y2) in pairwise(points):
        yield Line(layer="leaf", x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=THIN_MM)
    opened = points[-1] if side in {"house", "right"} else points[0]
    yield Line(
        layer="leaf", x1_mm=hinge[0], y1_mm=hinge[1], x2_mm=opened[0], y2_mm=opened[1],
        pen_mm=MEMBER_MM,
    )  # fmt: skip


def _treads(box: Box, side: str) -> Iterator[Shape]:
    """Yield an arrow from the head of steps out over their side."""
    x, y = box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2
    dx, dy = {"house": (0, -1), "front": (0, 1), "left": (-1, 0), "right": (1, 0)}[side]
    half = (box.height_mm if dy else box.width_mm) / 2
    tip = (x + dx * half, y + dy * half)
    yield Line(layer="steps", x1_mm=x, y1_mm=y, x2_mm=tip[0], y2_mm=tip[1], pen_mm=MEMBER_MM)
    for aside in (-1.0, 1.0):
        yield Line(
            layer="steps", x1_mm=tip[0], y1_mm=tip[1],
            x2_mm=tip[0] - 1.8 * dx + aside * dy, y2_mm=tip[1] - 1.8 * dy + aside * dx,
            pen_mm=MEMBER_MM,
        )  # fmt: skip


def _strips(layout: Layout, sides: DeckSides, room: Allowances, view: View) -> Iterator[Shape]:
    """Yield along every open side the line that chairs pulled back stay within."""
    off, wide = room.from_open_edge_mm / view.per_mm, layout.along_mm / view.per_mm
    deep, (left, top) = layout.across_mm / view.per_mm, (view.left_mm, view.top_mm)
    lines = {
        "house": (left, top + off, left + wide, top + off),
        "right": (left + wide - off, top, left + wide - off, top + deep),
        "front": (left, top + deep - off, left + wide, top + deep - off),
        "left": (left + off, top, left + off, top + deep),
    }
    for side in SIDES:
        if getattr(sides, side) == "open":
            x1, y1, x2, y2 = lines[side]
            yield Line(
                layer="strip", x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=THIN_MM,
                dash=STRIP_DASH,
            )  # fmt: skip


def _bodies(layout: Layout, view: View) -> Iterator[Shape]:
    for body in layout.placed:
        for one in _each(body):
            yield _box(view, "bodies", one, pen_mm=OUTLINE_MM, fill="white")


def _each(body: Placed) -> Iterator[Placed]:
    """Yield the bodies that a piece is made of: side by side, as it was turned."""
    sideways = body.turned_deg in {90.0, 270.0}
    step_mm = body.each_mm + body.between_mm
    for number in range(body.count):
        if sideways:
            at = body.from_across_mm + number * step_mm
            yield evolve(body, from_across_mm=at, across_mm=body.each_mm)
        else:
            at = body.from_along_mm + number * step_mm
            yield evolve(body, from_along_mm=at, along_mm=body.each_mm)


def _sides(sides: DeckSides, view: View, extent: tuple[float, float]) -> Iterator[Shape]:
    """Yield the deck's outline: a line inside it too where there is a guard, thick at a wall."""
    (left, top), (wide, deep) = (view.left_mm, view.top_mm), extent
    lines = {
        "house": (left, top, left + wide, top, 0.0, 1.0),
        "right": (left + wide, top, left + wide, top + deep, -1.0, 0.0),
        "front": (left, top + deep, left + wide, top + deep, 0.0, -1.0),
        "left": (left, top, left, top + deep, 1.0, 0.0),
    }
    for side in SIDES:
        x1, y1, x2, y2, dx, dy = lines[side]
        pen = 2 * OUTLINE_MM if getattr(sides, side) == "wall" else OUTLINE_MM
        yield Line(layer="sides", x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=pen)
        if getattr(sides, side) == "guard":
            x, y = GUARD_MM * dx, GUARD_MM * dy
            yield Line(
                layer="guards", x1_mm=x1 + x, y1_mm=y1 + y, x2_mm=x2 + x, y2_mm=y2 + y,
                pen_mm=THIN_MM,
            )  # fmt: skip


def _labels(layout: Layout, view: View, units: str) -> Iterator[Shape]:
    """Yield each piece's name and size in its body or beside it, then what doors and steps are."""
    taken: list[Bounds] = []
    for body in layout.placed:
        yield from _in_body(body, view, units, taken)
    for zone in layout.zones:
        if zone.kind in {"door", "steps"}:
            box = _box(view, "labels", zone)
            x, y = box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2
            places = [(x, y - box.height_mm / 4), (x, y + box.height_mm / 4), (x, y)]
            yield from first_free([_text(zone.kind, *place) for place in places], taken)


def _in_body(body: Placed, view: View, units: str, taken: list[Bounds]) -> Iterator[Shape]:
    box = _box(view, "labels", body)
    sizes = f"{bare(body.along_mm, units)} x {bare(body.across_mm, units)}"
    texts = [clean(body.piece, 20), sizes]
    turned = box.height_mm > box.width_mm and _widest(texts) > box.width_mm - 1.0
    x, y = box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2
    for text, off in zip(texts, (-NO_CLASH_MM / 2, NO_CLASH_MM / 2), strict=True):
        at = (x + off, y) if turned else (x, y + off)
        yield from first_free([_text(text, *at, turned=turned)], taken)


def _widest(texts: list[str]) -> float:
    return max(width_mm(text, LETTER_MM) for text in texts)


def _text(text: str, x: float, y: float, *, turned: bool = False) -> Lettering:
    return Lettering(layer="labels", x_mm=x, y_mm=y, text=text, turned=turned, knocked=True)


def _notes(layout: Layout, sides: DeckSides, room: Allowances, units: str) -> tuple[str, ...]:
    kinds = {zone.kind for zone in layout.zones}
    told = {
        "pulled back": f"Dashed: chairs pulled back, {size(room.pulled_back_mm, units)}.",
        "passage": f"Hatched: a way kept free, {size(room.passage_mm, units)} and more.",
        "clear": f"Dash and dot: {size(room.clear_mm, units)} clear of a fire.",
    }
    notes = [text for kind, text in told.items() if kind in kinds]
    open_sides = [side for side in SIDES if getattr(sides, side) == "open"]
    if open_sides:
        off = size(room.from_open_edge_mm, units)
        notes.append(f"Open: {', '.join(open_sides)}; chairs stay {off} within (long dashes).")
    guarded = [side for side in SIDES if getattr(sides, side) == "guard"]
    if guarded:
        notes.append(f"Double line: guard at {', '.join(guarded)}.")
    return tuple(notes)
