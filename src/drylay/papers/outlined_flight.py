"""The flight of steps on a side of an outline, from above: its treads, its sizes, what it is."""

from collections.abc import Iterator, Sequence
from math import hypot

from attrs import frozen

from drylay.flights.model import Steps
from drylay.guards.model import Edge as DeckEdge
from drylay.guards.model import Passage
from drylay.outline.model import Spot
from drylay.papers.dimensions import stroke
from drylay.papers.guards_drawing import edge_at
from drylay.papers.lettering import Point, width_mm
from drylay.papers.model import LETTER_MM, MEMBER_MM, THIN_MM, Area, Lettering, Shape, View
from drylay.papers.outlined_member_marks import led
from drylay.papers.outlined_view import at, line_of, moved, outward, way_of
from drylay.papers.placing import Place, first_clear, place_of, places_of, put, sloped
from drylay.papers.sheets import rule
from drylay.papers.wording import bare, many
from drylay.plan.model import Plan

#: From a flight to its dimension lines, and from these to their texts, on paper.
OUT_MM, TEXT_MM = 5.0, 2.0
#: So far off a line its texts may stand, further ones last.
OFFS_MM = (TEXT_MM, -TEXT_MM, TEXT_MM + 3.2, TEXT_MM + 6.4)


@frozen(kw_only=True)
class Flown:
    """A flight with the edge that it leads down from, and where along that."""

    steps: Steps
    edge: DeckEdge
    passage: Passage


def flown(plan: Plan) -> Flown | None:
    """Return a plan's flight where it stands; None where it has none."""
    if plan.steps is None or plan.guards is None:
        return None
    for edge in plan.guards.edges:
        for passage in edge.passages:
            return Flown(steps=plan.steps, edge=edge, passage=passage)
    return None


def place(flight: Flown, along_mm: float, out_mm: float) -> Point:
    """Return the place so far along a flight's edge, and so far out from it, in mm of deck."""
    way = way_of(edge_at(flight.edge, 0.0), edge_at(flight.edge, 1.0))
    return moved(edge_at(flight.edge, along_mm), outward(way), out_mm)


def corners(flight: Flown) -> tuple[Point, ...]:
    """Return the corners of the ground that a flight stands over, in mm of deck."""
    (near, far), run = (flight.passage.from_mm, flight.passage.to_mm), flight.steps.flight.run_mm
    return tuple(
        place(flight, *each) for each in ((near, 0.0), (far, 0.0), (far, run), (near, run))
    )


def _paper(view: View, point: Point) -> Point:
    return at(view, Spot(along_mm=point[0], across_mm=point[1]))


def flight_drawn(view: View, flight: Flown) -> Iterator[Shape]:
    """Yield a flight's outline and the edges of its treads, the deck being the last tread."""
    yield Area(layer="flight", corners_mm=tuple(_paper(view, c) for c in corners(flight)),
               pen_mm=MEMBER_MM, fill="white")  # fmt: skip
    for tread in range(1, flight.steps.flight.treads):
        out = tread * flight.steps.flight.going_mm
        one = _paper(view, place(flight, flight.passage.from_mm, out))
        other = _paper(view, place(flight, flight.passage.to_mm, out))
        yield line_of("treads", one, other, THIN_MM)


def flight_shapes(
    view: View, flight: Flown, units: str, taken: list[Place], frame: Sequence[Point]
) -> list[Shape]:  # fmt: skip
    """Return a flight's sizes, and what it is: on its treads, or led to where they are narrow.

    Texts stand within `frame` on the sheet, and what is placed after this keeps off the flight.
    """
    shapes, lost = _on_flight(view, flight, units, taken)
    taken.append(place_of([_paper(view, each) for each in corners(flight)]))
    sizes, more = _sizes(view, flight, units, taken)
    shapes += sizes
    for text, spot in (*more, *lost):
        texts = places_of(shape for shape in shapes if isinstance(shape, Lettering))
        shapes += led("marks", text, (spot, spot), taken, texts, frame=frame)
    return shapes


#: A text that found no place, with the point on the sheet that it is led from.
Lost = tuple[str, Point]


def _sizes(
    view: View, flight: Flown, units: str, taken: list[Place]
) -> tuple[list[Shape], list[Lost]]:
    """Return how wide a flight is, beyond its foot, and how far it leads out, beside it."""
    near, far, foot, start = (_paper(view, each) for each in corners(flight))
    run, way = flight.steps.flight.run_mm, way_of(near, far)
    told = [(start, foot, outward(way), f"steps {bare(flight.steps.width_mm, units)}")]
    if run > 0:
        # beside the end that has more of its side left: there is more room for it
        ends, aside = ((near, start), -1.0) if _more_before(flight) else ((far, foot), 1.0)
        told.append((*ends, (way[0] * aside, way[1] * aside), f"out {bare(run, units)}"))
    drawn = [_dimension(*each) for each in told]
    shapes = [line for lines, _ in drawn for line in lines]
    taken += places_of(shapes)
    lost: list[Lost] = []
    for (one, _, _, text), (_, spots) in zip(told, drawn, strict=True):
        found = first_clear(spots, taken)
        shapes += found
        lost += [] if found else [(text, one)]
    return shapes, lost


def _more_before(flight: Flown) -> bool:
    """Return whether more of its side lies before a flight than beyond it."""
    one, other = flight.edge.start, flight.edge.end
    long = hypot(other.along_mm - one.along_mm, other.across_mm - one.across_mm)
    return flight.passage.from_mm > long - flight.passage.to_mm


def _dimension(
    one: Point, other: Point, out: Point, text: str
) -> tuple[list[Shape], list[Lettering]]:
    """Return a dimension line so far out from two points, and where its text may stand."""
    ends = [moved(point, out, OUT_MM) for point in (one, other)]
    shapes: list[Shape] = [rule("dimensions", *ends[0], *ends[1])]
    for point, end in zip((one, other), ends, strict=True):
        shapes += [rule("dimensions", *moved(point, out, 1.0), *moved(end, out, 1.0)), stroke(end)]
    middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    flat = Lettering(layer="dimensions", x_mm=0.0, y_mm=0.0, text=text)
    flat = sloped(flat, one, other)
    return shapes, [put(flat, moved(middle, out, off)) for off in OFFS_MM]


def _on_flight(
    view: View, flight: Flown, units: str, taken: list[Place]
) -> tuple[list[Shape], list[Lost]]:
    """Return a flight's risers and goings on its treads, and what finds no room there."""
    steps = flight.steps.flight
    texts = [f"{many(steps.risers, 'riser')} x {bare(steps.riser_mm, units)}"]
    if steps.treads:
        texts.append(f"{many(steps.treads, 'going')} x {bare(steps.going_mm, units)}")
    start = _paper(view, corners(flight)[3])
    shapes: list[Shape] = []
    lost: list[Lost] = []
    for text in texts:
        found = first_clear(_on_treads(view, flight, text), taken)
        shapes += found
        lost += [] if found else [(text, start)]
    return shapes, lost


def _on_treads(view: View, flight: Flown, text: str) -> Iterator[Lettering]:
    """Yield places in the middle of treads, where a text is no longer than these are wide."""
    near, far = (_paper(view, each) for each in corners(flight)[:2])
    if width_mm(text, LETTER_MM) + 2.0 > flight.steps.width_mm / view.per_mm:
        return
    middle = (flight.passage.from_mm + flight.passage.to_mm) / 2
    flat = sloped(Lettering(layer="marks", x_mm=0.0, y_mm=0.0, text=text), near, far)
    for tread in range(flight.steps.flight.treads):
        out = (tread + 0.5) * flight.steps.flight.going_mm
        yield put(flat, _paper(view, place(flight, middle, out)))
