"""Guards and steps of a deck on an outline, from above: heavy lines along its sides, the flight."""

from collections.abc import Iterator
from math import hypot

from attrs import frozen

from drylay.guards.model import Edge as DeckEdge
from drylay.guards.model import Guards, Stretch
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline, Side, Spot
from drylay.papers.guards_drawing import (
    LIMITS,
    PITCH_MM,
    RISERS,
    edge_at,
    guards_notes,
    post_centres,
)
from drylay.papers.lettering import Point, width_mm
from drylay.papers.model import (
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Lettering,
    Ring,
    Shape,
    View,
)
from drylay.papers.outlined_flight import (
    Flown,
    corners,
    flight_drawn,
    flight_shapes,
    flown,
)
from drylay.papers.outlined_marks import opening_texts
from drylay.papers.outlined_member_marks import led
from drylay.papers.outlined_view import (
    OUTSIDE_MM,
    all_at,
    area,
    at,
    bounds_mm,
    datum_text,
    datum_view,
    kinds_told,
    line_of,
    moved,
    outline_places,
    outward,
    room_for,
    sides_drawn,
    way_of,
)
from drylay.papers.padded import Padded, framed, notes_beside, padded, past_of
from drylay.papers.placing import Place, first_clear, place_of, places_of, put, sloped
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many, size
from drylay.plan.model import Plan

#: From a side to the middle of the texts beside it, further ones last.
OFFS_MM = (2.7, 5.7, 8.7)
SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
ALONG_SIDES = "; along each side from its start"
COUNTED = (
    "Along a side places count from its start: sides run round the deck, each from the end of the "
    "one before."
)


@frozen(kw_only=True)
class Told:
    """A text with the line on the sheet that it is told of: outside (`hand` 1) of it or inside.

    `more_mm` is how much further off it stands than beside an open side.
    """

    one: Point
    other: Point
    text: str
    hand: float
    more_mm: float = 0.0


def outlined_edges_svg(plan: Plan) -> bytes:
    """Return guards and steps on an outline from above; b"" where a plan has neither."""
    outline, guards, flight = plan.outline, plan.guards, flown(plan)
    if outline is None or guards is None or not (guards.runs or flight):
        return b""
    figure = _figure(plan, outline, flight)
    view = datum_view(outline, figure.cover)
    # the datum's ring last: a guard's post may stand on it
    sides = sides_drawn(view, outline, THIN_MM)
    ring = [shape for shape in sides if isinstance(shape, Ring)]
    drawn = [
        *_openings(view, outline), *(shape for shape in sides if shape not in ring),
        *_guards(view, guards), *(flight_drawn(view, flight) if flight else ()), *ring,
    ]  # fmt: skip
    shapes = [
        *drawn, *notes_beside(figure), *_texts(plan, outline, guards, figure, drawn),
        *title_block(figure.sheet, title=plan.title, drawing="Guards and steps, from above",
                     units=plan.units, notes=figure.foot, counted=ALONG_SIDES),
    ]  # fmt: skip
    steps = " and a flight of steps" if flight else ""
    told = f"{many(len(guards.runs), 'guard')}{steps} of {clean(plan.title)}, in plan."
    return svg(shapes, sheet=figure.sheet, name="edges", title=f"Guards of {clean(plan.title)}",
               told=told)  # fmt: skip


def _figure(plan: Plan, outline: Outline, flight: Flown | None) -> Padded:
    """Return the sheet: the outline, the flight that leads out of it, room for texts outside."""
    left, top, right, bottom = bounds_mm(outline)
    size_mm = (right - left, bottom - top)
    # the datum corner, which may lie off the deck, and the flight
    across, down = zip((0.0, 0.0), *(corners(flight) if flight else ()), strict=True)
    boxes = [(min(across) - left, min(down) - top, max(across) - left, max(down) - top)]
    edges = {side: room_for(1) for side in ("left", "right", "bottom")}
    return padded("along", size_mm, past_of(boxes, size_mm), edges, units=plan.units,
                  pitch_mm=PITCH_MM, notes=_notes(plan, outline, flight))  # fmt: skip


def _openings(view: View, outline: Outline) -> list[Shape]:
    return [
        area(view, "openings", opening.corners, MEMBER_MM, dash="2 1")
        for opening in outline.openings
    ]


def _paper(view: View, point: Point) -> Point:
    return at(view, Spot(along_mm=point[0], across_mm=point[1]))


def _ends(view: View, edge: DeckEdge, stretch: Stretch) -> tuple[Point, Point]:
    """Return on the sheet where a stretch begins and ends."""
    return (_paper(view, edge_at(edge, stretch.from_mm)),
            _paper(view, edge_at(edge, stretch.to_mm)))  # fmt: skip


def _guards(view: View, guards: Guards) -> Iterator[Shape]:
    """Yield every guard as a line along its sides, with its posts where it is built."""
    edges = {edge.mark: edge for edge in guards.edges}
    built = {guard.run: guard for guard in guards.built}
    for run in guards.runs:
        for stretch in run.stretches:
            yield line_of("guards", *_ends(view, edges[stretch.edge], stretch), OUTLINE_MM)
        if run.mark in built:
            guard = built[run.mark]
            for edge, middle in post_centres(run, guard, edges):
                yield _post(view, edge, middle, guard.post_mm / 2)


def _post(view: View, edge: DeckEdge, middle: Point, half_mm: float) -> Area:
    """Return a guard's post, square to its side."""
    way = way_of(edge_at(edge, 0.0), edge_at(edge, 1.0))
    out = outward(way)
    hands = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    points = (moved(moved(middle, way, a * half_mm), out, b * half_mm) for a, b in hands)
    return Area(layer="guard-posts", corners_mm=tuple(_paper(view, each) for each in points),
                pen_mm=THIN_MM, fill="white")  # fmt: skip


def _texts(
    plan: Plan, outline: Outline, guards: Guards, figure: Padded, drawn: list[Shape]
) -> list[Shape]:  # fmt: skip
    """Return the texts: the flight's, guards' outside their sides, sides' and openings' inside."""
    flight, units, view = flown(plan), plan.units, datum_view(outline, figure.cover)
    taken: list[Place] = [*places_of(drawn), *outline_places(view, outline)]
    taken += [place_of(shape.corners_mm) for shape in drawn
              if isinstance(shape, Area) and shape.layer == "guard-posts"]  # fmt: skip
    frame = framed(figure)
    shapes = flight_shapes(view, flight, units, taken, frame) if flight else []
    shapes += opening_texts(view, outline, taken)
    taken += [place_of(all_at(view, opening.corners)) for opening in outline.openings]
    for line in (*_sides(view, outline, units), *_runs(view, outline, guards, units)):
        shapes += first_clear(_beside(line), taken) or led(
            "marks", line.text, (line.one, line.other), taken, places_of(shapes), frame=frame
        )
    return [*shapes, *datum_text(view, outline, taken)]


def _sides(view: View, outline: Outline, units: str) -> Iterator[Told]:
    """Yield what is told of every side, inside of it."""
    for side in outline.sides:
        text = f"{clean(side.mark)} {side.kind} {bare(side.length_mm, units)}"
        yield Told(one=at(view, side.start), other=at(view, side.end), text=text, hand=-1.0)


def _runs(view: View, outline: Outline, guards: Guards, units: str) -> Iterator[Told]:
    """Yield what is told of every stretch of a guard, outside of its side and what is there."""
    kinds = {side.mark: side for side in outline.sides}
    edges = {edge.mark: edge for edge in guards.edges}
    for run in guards.runs:
        for stretch in run.stretches:
            one, other = _ends(view, edges[stretch.edge], stretch)
            text = f"{clean(run.mark)}: {_stretch_told(stretch, units)}"
            yield Told(one=one, other=other, text=text, hand=1.0,
                       more_mm=_clear(kinds.get(stretch.edge)))  # fmt: skip


def _clear(side: Side | None) -> float:
    """Return how far outside a side its own drawing reaches, on paper."""
    return OUTSIDE_MM.get(side.kind, 0.0) if side else 0.0


def _stretch_told(stretch: Stretch, units: str) -> str:
    """Return how long a stretch is, and where it starts unless its side does there."""
    long = bare(to_mm(exact(stretch.to_mm) - exact(stretch.from_mm)), units)
    return f"{long}, from {bare(stretch.from_mm, units)}" if stretch.from_mm > 0 else long


def _beside(line: Told) -> list[Lettering]:
    """Return where a text stands along its line, which must be longer; it may stand nowhere."""
    way = way_of(line.one, line.other)
    out, long = outward(way), hypot(line.other[0] - line.one[0], line.other[1] - line.one[1])
    flat = Lettering(layer="marks", x_mm=0.0, y_mm=0.0, text=line.text, knocked=True)
    flat = sloped(flat, line.one, line.other)
    half = width_mm(line.text, LETTER_MM) / 2
    return [
        put(flat, moved(moved(line.one, way, long * share), out, line.hand * (line.more_mm + off)))
        for off in OFFS_MM for share in SHARES if half <= long * min(share, 1 - share)
    ]  # fmt: skip


def _notes(plan: Plan, outline: Outline, flight: Flown | None) -> tuple[str, ...]:
    told = list(guards_notes(plan))
    runs = plan.guards.runs if plan.guards else ()
    if any(stretch.from_mm > 0 for run in runs for stretch in run.stretches):
        told.append(COUNTED)
    if flight is not None:
        told.append(_steps_told(flight, plan.units))
        told.append(RISERS)
    kinds = kinds_told(outline)
    return (*told, *([kinds] if kinds else []), LIMITS)


def _steps_told(flight: Flown, units: str) -> str:
    """Return where on its side a flight stands."""
    return (
        f"Steps: {size(flight.steps.width_mm, units)} wide, on side {clean(flight.edge.mark)} from "
        f"{size(flight.passage.from_mm, units)} to {size(flight.passage.to_mm, units)}."
    )
