"""Guards and steps seen from above: lines along the cover's edges, guard posts, the flight."""

from collections.abc import Iterator
from math import hypot

from drylay.flights.model import Steps
from drylay.guards.model import Edge as DeckEdge
from drylay.guards.model import Guard, GuardRun, Stretch
from drylay.marks import exact, to_mm
from drylay.papers.guards_text import FROM_TOLD
from drylay.papers.lettering import width_mm
from drylay.papers.model import (
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Box,
    Edge,
    Lettering,
    Line,
    Shape,
    Span,
    View,
)
from drylay.papers.padded import Padded, outside, padded, past_of
from drylay.papers.placing import first_clear, place_of, places_of
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many, size
from drylay.plan.model import Plan
from drylay.surface.model import Surface

#: What must stay legible: a guard's post, a step's going.
PITCH_MM = 100.0
#: How each side of a cover is drawn, and which ways lie along it and out from it.
DRAWN = {"house": "top", "front": "bottom", "left": "left", "right": "right"}
WAYS = {"front": (0.0, 1.0), "house": (0.0, -1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}
RISERS = (
    "Risers are equal; the deck is the last tread. Measure the ground at the foot before stringers "
    "are cut."
)
LIMITS = "Within the screened limits, no more: local rules come first."
Point = tuple[float, float]


def edges_svg(plan: Plan) -> bytes:
    """Return guards and steps from above; b"" where a plan has neither."""
    surface, runs = plan.surface, plan.guards.runs if plan.guards else ()
    if surface is None or not (runs or plan.steps):
        return b""
    size_mm = (surface.cover_along_mm, surface.cover_across_mm)
    boxes = [_flight_box(plan.steps, surface)] if plan.steps else []
    figure = padded(
        "along", size_mm, past_of(boxes, size_mm), _dimensions(plan, surface), units=plan.units,
        pitch_mm=PITCH_MM, notes=(*guards_notes(plan), *_steps_notes(plan), LIMITS),
    )  # fmt: skip
    beside = outside(figure)
    drawn = [
        _cover(figure), *_guards(plan, figure.cover),
        *(_flight(plan.steps, surface, figure.cover) if plan.steps else ()),
    ]  # fmt: skip
    shapes = [
        *drawn, *beside, *_marks(plan, surface, figure, [*drawn, *beside]),
        *title_block(figure.sheet, title=plan.title, drawing="Guards and steps, from above",
                     units=plan.units, notes=figure.foot),
    ]  # fmt: skip
    steps = " and a flight of steps" if plan.steps else ""
    told = f"{many(len(runs), 'guard')}{steps} of {clean(plan.title)}, in plan."
    return svg(shapes, sheet=figure.sheet, name="edges", title=f"Guards of {clean(plan.title)}",
               told=told)  # fmt: skip


def _cover(figure: Padded) -> Box:
    return Box(layer="cover", x_mm=figure.cover.left_mm, y_mm=figure.cover.top_mm,
               width_mm=figure.extent[0], height_mm=figure.extent[1], pen_mm=THIN_MM,
               fill="white")  # fmt: skip


def _dimensions(plan: Plan, surface: Surface) -> dict[str, Edge]:
    """Return guards and steps side by side of the cover, then the cover's own size."""
    units = plan.units
    spans: dict[str, list[Span]] = {"left": [], "right": [], "top": [], "bottom": []}
    edges = {edge.mark: edge for edge in (plan.guards.edges if plan.guards else ())}
    for run in plan.guards.runs if plan.guards else ():
        for stretch in run.stretches:
            side, span = _guard_span(run, stretch, edges[stretch.edge], surface, units)
            spans[side] += [span]
    if plan.steps is not None:
        side = DRAWN.get(plan.steps.side, "bottom")
        spans[side].append(_steps_span(plan.steps, units))
        spans[_beside(side)].append(_run_span(plan.steps, surface, units))
    wide, deep = surface.cover_along_mm, surface.cover_across_mm
    spans["bottom"].append(Span(from_mm=0.0, to_mm=wide, text=f"cover {bare(wide, units)}"))
    spans["left"].append(Span(from_mm=0.0, to_mm=deep, text=f"cover {bare(deep, units)}"))
    return {side: Edge(spans=tuple(found)) for side, found in spans.items()}


def _beside(side: str) -> str:
    """Return the side on which the length of a flight from a side is told."""
    return "right" if side in {"top", "bottom"} else "bottom"


def _guard_span(
    run: GuardRun, stretch: Stretch, edge: DeckEdge, surface: Surface, units: str
) -> tuple[str, Span]:  # fmt: skip
    """Return at which side a stretch is told, from where to where along it, and how long it is."""
    (x1, y1), (x2, y2) = (edge_at(edge, at) for at in (stretch.from_mm, stretch.to_mm))
    level = abs(x2 - x1) >= abs(y2 - y1)
    near, far = sorted((x1, x2) if level else (y1, y2))
    whole = surface.cover_along_mm if level else surface.cover_across_mm
    long = to_mm(exact(stretch.to_mm) - exact(stretch.from_mm))
    start = f", from {bare(near, units)}" if near > 0 and far < whole else ""
    side = ("top" if y1 <= 0 else "bottom") if level else ("left" if x1 <= 0 else "right")
    text = f"{clean(run.mark)}: {bare(long, units)}{start}"
    return side, Span(from_mm=near, to_mm=far, text=text)


def _steps_span(steps: Steps, units: str) -> Span:
    far = to_mm(exact(steps.from_mm) + exact(steps.width_mm))
    return Span(from_mm=steps.from_mm, to_mm=far, text=f"steps {bare(steps.width_mm, units)}")


def _run_span(steps: Steps, surface: Surface, units: str) -> Span:
    run = steps.flight.run_mm
    start = {"front": surface.cover_across_mm, "right": surface.cover_along_mm}.get(
        steps.side, -run
    )
    return Span(from_mm=start, to_mm=start + run, text=f"out {bare(run, units)}")


def edge_at(edge: DeckEdge, at_mm: float) -> Point:
    """Return the point of the deck that lies so far along an edge, along the house and away."""
    x, y = edge.end.along_mm - edge.start.along_mm, edge.end.across_mm - edge.start.across_mm
    share = at_mm / (hypot(x, y) or 1.0)
    return edge.start.along_mm + x * share, edge.start.across_mm + y * share


def _paper(view: View, at: Point) -> Point:
    return view.left_mm + at[0] / view.per_mm, view.top_mm + at[1] / view.per_mm


def _guards(plan: Plan, view: View) -> Iterator[Shape]:
    """Yield every guard as a line along its edges, with its posts where it is built."""
    guards = plan.guards
    if guards is None:
        return
    edges = {edge.mark: edge for edge in guards.edges}
    built = {guard.run: guard for guard in guards.built}
    for run in guards.runs:
        for stretch in run.stretches:
            one, other = (_paper(view, edge_at(edges[stretch.edge], at))
                          for at in (stretch.from_mm, stretch.to_mm))  # fmt: skip
            yield Line(layer="guards", x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                       pen_mm=OUTLINE_MM)  # fmt: skip
        if run.mark in built:
            yield from _posts(run, built[run.mark], edges, view)


def _posts(
    run: GuardRun, guard: Guard, edges: dict[str, DeckEdge], view: View
) -> Iterator[Shape]:  # fmt: skip
    """Yield a guard's posts."""
    half, side = guard.post_mm / 2, guard.post_mm / view.per_mm
    for _, (x, y) in post_centres(run, guard, edges):
        left, top = _paper(view, (x - half, y - half))
        yield Box(layer="guard-posts", x_mm=left, y_mm=top, width_mm=side, height_mm=side,
                  pen_mm=THIN_MM, fill="white")  # fmt: skip


def post_centres(
    run: GuardRun, guard: Guard, edges: dict[str, DeckEdge]
) -> Iterator[tuple[DeckEdge, Point]]:  # fmt: skip
    """Yield a guard's posts, each with its edge: half a post in from its ends, at bends but once.

    Places are on the deck, along the house and away from it.
    """
    half = guard.post_mm / 2
    seen: set[tuple[float, float]] = set()
    for number, (stretch, line) in enumerate(zip(run.stretches, guard.lines, strict=False)):
        first = stretch.from_mm + (0.0 if number or run.closed else half)
        for centre in line.centres_mm:
            x, y = edge_at(edges[stretch.edge], first + centre)
            if (round(x, 1), round(y, 1)) not in seen:
                seen.add((round(x, 1), round(y, 1)))
                yield edges[stretch.edge], (x, y)


def _flight_box(steps: Steps, surface: Surface) -> tuple[float, float, float, float]:
    """Return the ground that a flight stands over: left, top, right, bottom, on the deck."""
    corners = [
        _of_flight(steps, surface, along, out)
        for along in (0.0, steps.width_mm)
        for out in (0.0, steps.flight.run_mm)
    ]
    across, down = zip(*corners, strict=True)
    return min(across), min(down), max(across), max(down)


def _of_flight(steps: Steps, surface: Surface, along_mm: float, out_mm: float) -> Point:
    """Return the point so far along a flight's width and so far out from its side."""
    at, way = steps.from_mm + along_mm, WAYS.get(steps.side, (0.0, 1.0))
    foot = {"right": surface.cover_along_mm, "front": surface.cover_across_mm}.get(steps.side, 0.0)
    if way[0]:
        return foot + way[0] * out_mm, at
    return at, foot + way[1] * out_mm


def _flight(steps: Steps, surface: Surface, view: View) -> Iterator[Shape]:
    """Yield a flight's outline and the edges of its treads, the deck being the last tread."""
    wide, run = steps.width_mm, steps.flight.run_mm
    ends = ((0.0, 0.0), (wide, 0.0), (wide, run), (0.0, run))
    corners = tuple(_paper(view, _of_flight(steps, surface, *end)) for end in ends)
    yield Area(layer="flight", corners_mm=corners, pen_mm=MEMBER_MM, fill="white")
    for tread in range(1, steps.flight.treads):
        out = tread * steps.flight.going_mm
        one, other = (_paper(view, _of_flight(steps, surface, along, out)) for along in (0.0, wide))
        yield Line(layer="treads", x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                   pen_mm=THIN_MM)  # fmt: skip


def _marks(plan: Plan, surface: Surface, figure: Padded, drawn: list[Shape]) -> list[Shape]:
    """Return the marks of edges inside the cover, and the flight's risers and goings."""
    boxes = [shape for shape in drawn if isinstance(shape, Box) and shape.layer == "guard-posts"]
    taken = [*places_of(drawn), *(place_of(_corners(box)) for box in boxes)]
    shapes: list[Shape] = []
    if plan.steps is not None:
        for text, spots in _flight_texts(plan.steps, surface, figure.cover, plan.units):
            shapes += first_clear((_text(text, *spot) for spot in spots), taken)
    for edge in plan.guards.edges if plan.guards else ():
        shapes += first_clear(_inwards(edge, surface, figure.cover), taken)
    return shapes


def _corners(box: Box) -> list[Point]:
    right, bottom = box.x_mm + box.width_mm, box.y_mm + box.height_mm
    return [(box.x_mm, box.y_mm), (right, box.y_mm), (right, bottom), (box.x_mm, bottom)]


def _flight_texts(
    steps: Steps, surface: Surface, view: View, units: str
) -> Iterator[tuple[str, list[Point]]]:  # fmt: skip
    """Yield what is told of a flight with places for it: beside the flight, to either hand."""
    flight = steps.flight
    left, top, right, bottom = _flight_box(steps, surface)
    down = [f"{many(flight.risers, 'riser')} x {bare(flight.riser_mm, units)}"]
    if flight.treads:
        down.append(f"{many(flight.treads, 'going')} x {bare(flight.going_mm, units)}")
    for line, text in enumerate(down):
        half = width_mm(text, LETTER_MM) / 2 + 2.0
        places = _over_and_under(steps, (left, top, right, bottom), view, line)
        for at, sign in ((right, 1), (left, -1)):
            x, y = _paper(view, (at, (top + bottom) / 2))
            places += [(x + sign * half, y + (line - 0.5) * 3.4 + dy)
                       for dy in (0.0, 3.4, -3.4, 6.8, -6.8, 10.2)]  # fmt: skip
        x, y = _paper(view, ((left + right) / 2, (top + bottom) / 2))
        yield text, [*places, (x, y + (line - 0.5) * 3.4)]


def _over_and_under(
    steps: Steps, box: tuple[float, float, float, float], view: View, line: int
) -> list[Point]:
    """Return places of a line over a flight and under it, for one that leads out sideways."""
    if not WAYS.get(steps.side, (0.0, 1.0))[0]:
        return []
    x, top = _paper(view, ((box[0] + box[2]) / 2, box[1]))
    _, bottom = _paper(view, (box[0], box[3]))
    return [(x, top - 6.5 + 3.4 * line), (x, bottom + 3.2 + 3.4 * line)]


def _inwards(edge: DeckEdge, surface: Surface, view: View) -> Iterator[Lettering]:
    """Yield places for an edge's mark inside the cover, beside its line."""
    long = hypot(edge.end.along_mm - edge.start.along_mm, edge.end.across_mm - edge.start.across_mm)
    middle = (surface.cover_along_mm / 2, surface.cover_across_mm / 2)
    text = f"{clean(edge.mark)}, house" if edge.kind == "house" else clean(edge.mark)
    off = 2.0 + width_mm(text, LETTER_MM) / 2
    for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8):
        at = edge_at(edge, long * share)
        x, y = _paper(view, at)
        level = edge.start.across_mm == edge.end.across_mm
        dx = 0.0 if level else (off if at[0] < middle[0] else -off)
        dy = (3.0 if at[1] < middle[1] else -3.0) if level else 0.0
        yield _text(text, x + dx, y + dy)


def _text(text: str, x: float, y: float) -> Lettering:
    return Lettering(layer="marks", x_mm=x, y_mm=y, text=text, knocked=True)


def guards_notes(plan: Plan) -> tuple[str, ...]:
    """Return what guards are drawn as, from which drop on, and where their posts stand."""
    guards, units = plan.guards, plan.units
    told = []
    if guards is not None and guards.runs:
        told.append(f"Guards (heavy lines) where the drop is over {size(guards.trigger_mm, units)}"
                    f", at least {size(guards.height_mm, units)} high.")  # fmt: skip
    if guards is not None and guards.built:
        told.append("Guard posts: centres on the edge's line, half a post in from both ends.")
        if guards.foot is not None:
            told.append("They are bolted outside the frame's edge: keep the places along it.")
    return tuple(told)


def _steps_notes(plan: Plan) -> tuple[str, ...]:
    if plan.steps is None:
        return ()
    told = (f"Steps: {size(plan.steps.width_mm, plan.units)} wide, from "
            f"{size(plan.steps.from_mm, plan.units)} on, "
            f"{FROM_TOLD.get(plan.steps.side, 'along the side')}.")  # fmt: skip
    return told, RISERS
