"""What a deck on an outline stands on, from above: bearers, posts, footings, from the datum."""

from itertools import pairwise

from attrs import evolve

from drylay.outline.model import Outline
from drylay.papers.figures import block, on_paper, upright
from drylay.papers.lettering import Point
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Edge,
    Lettering,
    Shape,
    Span,
    View,
)
from drylay.papers.outlined_marks import opening_texts
from drylay.papers.outlined_member_marks import led
from drylay.papers.outlined_view import (
    all_at,
    area,
    bounds_mm,
    datum_text,
    datum_view,
    kinds_told,
    outline_places,
    sides_drawn,
)
from drylay.papers.outlined_ways import is_askew, ways_told
from drylay.papers.padded import Padded, dimensions, framed, notes_beside, padded, past_of
from drylay.papers.placing import Place, first_clear, place_of, places_of
from drylay.papers.posts_from_above import (
    across_marks,
    along_marks,
    beside_bearer,
    bodies,
    holes,
    off_line,
    post_marks,
    posts_notes,
    standing_drawn,
    under_posts,
)
from drylay.papers.sheets import title_block
from drylay.papers.standing_text import plies_told
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean
from drylay.plan.model import Plan
from drylay.raised.model import Bearer, RaisedFrame

#: Which way bearers run under joists that run this way.
BEARERS_RUN = {"across": "along", "along": "across"}

#: The datum corner, which may lie off the deck: places are measured from it, so it is on the sheet.
DATUM_BOX = (0.0, 0.0, 0.0, 0.0)
#: A text that found no place, with the point on the sheet that it is led from.
Lost = tuple[str, Point]


def outlined_posts_svg(plan: Plan) -> bytes:
    """Return what a deck on an outline stands on, from above; b"" where nothing stands."""
    outline, subframe, raised = plan.outline, plan.subframe, plan.raised
    if outline is None or subframe is None or raised is None or not raised.frame.posts:
        return b""
    frame, run = raised.frame, BEARERS_RUN.get(subframe.joist_run, "along")
    figure = _figure(plan, outline, frame, run)
    view = evolve(datum_view(outline, figure.cover), run=run)
    shapes = [
        *_openings(view, outline), *_ledger(view, frame), *standing_drawn(view, plan, frame),
        *sides_drawn(view, outline, THIN_MM), *dimensions(figure), *notes_beside(figure),
        *_all_texts(plan, frame, outline, view, figure),
        *title_block(figure.sheet, title=plan.title, drawing="Posts and footings, from above",
                     units=plan.units, notes=figure.foot),
    ]  # fmt: skip
    told = (f"What {clean(plan.title)} stands on, in plan: {len(frame.posts)} posts under "
            f"{len(frame.bearers)} bearers.")  # fmt: skip
    return svg(shapes, sheet=figure.sheet, name="posts", title=f"Posts of {clean(plan.title)}",
               told=told)  # fmt: skip


def _figure(plan: Plan, outline: Outline, frame: RaisedFrame, run: str) -> Padded:
    """Return the sheet: the outline, all that reaches past it, and what runs outside of it."""
    left, top, right, bottom = bounds_mm(outline)
    size_mm = (right - left, bottom - top)
    boxes = [
        (west - left, north - top, east - left, south - top)
        for west, north, east, south in [*holes(plan, frame, run), DATUM_BOX]
    ]
    return padded(
        "along", size_mm, past_of(boxes, size_mm), _edges(outline, frame, run, plan.units),
        units=plan.units, pitch_mm=min(post.section.breadth_mm for post in frame.posts),
        notes=_notes(plan, outline, frame),
    )  # fmt: skip


def _edges(outline: Outline, frame: RaisedFrame, run: str, units: str) -> dict[str, Edge]:
    """Return posts running along, lines of bearers across, told from the datum, and overall sizes.

    Edges count from the outline's corner on the sheet, which need not be the datum's.
    """
    left, top, right, bottom = bounds_mm(outline)
    first = upright(run, left, top)
    along = _counted(Edge(marks=along_marks(frame, units)), first[0])
    across = _counted(Edge(marks=across_marks(frame, units)), first[1])
    wide, high = right - left, bottom - top
    level = Span(from_mm=0.0, to_mm=wide, text=f"overall {bare(wide, units)}")
    steep = Span(from_mm=0.0, to_mm=high, text=f"overall {bare(high, units)}")
    below, beside = (along, across) if run == "along" else (across, along)
    return {"bottom": below, "right": beside, "top": Edge(spans=(level,)),
            "left": Edge(spans=(steep,))}  # fmt: skip


def _counted(edge: Edge, from_mm: float) -> Edge:
    """Return running dimensions drawn from another place than they are told from."""
    return evolve(
        edge, marks=tuple(evolve(mark, at_mm=mark.at_mm - from_mm) for mark in edge.marks)
    )


def _openings(view: View, outline: Outline) -> list[Shape]:
    shapes: list[Shape] = []
    for opening in outline.openings:
        shapes += [area(view, "openings", opening.corners, MEMBER_MM, dash="2 1"),
                   area(view, "within", opening.within, FINE_MM, dash="3 1 1 1")]  # fmt: skip
    return shapes


def _ledger(view: View, frame: RaisedFrame) -> list[Shape]:
    """Return the ledger: the rim in the line of the datum corner."""
    ledger = frame.ledger
    if ledger is None:
        return []
    size_mm = (ledger.end_mm - ledger.start_mm, ledger.section.breadth_mm)
    return [block(view, "ledger", (ledger.start_mm, 0.0), size_mm, OUTLINE_MM)]


def _texts(
    plan: Plan, frame: RaisedFrame, outline: Outline, view: View, taken: list[Place]
) -> tuple[list[Shape], list[Lost]]:  # fmt: skip
    """Return the marks, and what finds no room: of openings, posts, footings, bearers."""
    shapes = opening_texts(view, outline, taken)
    taken += [place_of(all_at(view, opening.corners)) for opening in outline.openings]
    lost: list[Lost] = []
    for post, text, placed in post_marks(plan, frame, view, taken):
        shapes += placed
        spot = on_paper(view, post.place.along_mm, post.place.across_mm)
        lost += [] if placed else [(text, spot)]
    for bearer in frame.bearers:
        texts = _told(bearer, plan.units)
        bays = _bays(bearer, frame)
        long = (bearer.end_mm - bearer.start_mm) or 1.0
        shares = tuple((bay - bearer.start_mm) / long for bay in bays)
        found = first_clear(beside_bearer(view, bearer, texts, shares), taken)
        shapes += found
        spot = on_paper(view, bays[0], bearer.across_mm)
        lost += [] if found else [(texts[0], spot)]
    if frame.ledger is not None:
        middle = (frame.ledger.start_mm + frame.ledger.end_mm) / 2
        text = f"{clean(frame.ledger.mark)}, ledger on the wall"
        shapes += first_clear(off_line(view, middle, frame.ledger.section.breadth_mm, text), taken)
    return shapes, lost


def _bays(bearer: Bearer, frame: RaisedFrame) -> list[float]:
    """Return the middles of what lies between a bearer's posts and ends, of the widest first."""
    posts = [post.place.along_mm for post in frame.posts if post.bearer == bearer.mark]
    places = sorted((bearer.start_mm, *posts, bearer.end_mm))
    bays = sorted(pairwise(places), key=lambda bay: bay[0] - bay[1])
    return [(one + other) / 2 for one, other in bays]


def _all_texts(
    plan: Plan, frame: RaisedFrame, outline: Outline, view: View, figure: Padded
) -> list[Shape]:
    """Return every text of the figure, those that find no room beside what they tell of led to."""
    outside = dimensions(figure)
    taken = [*places_of(outside), *outline_places(view, outline),
             *bodies(frame, under_posts(plan), view)]  # fmt: skip
    shapes, lost = _texts(plan, frame, outline, view, taken)
    told = [shape for shape in outside if isinstance(shape, Lettering)]
    for text, spot in lost:
        texts = places_of([*told, *(each for each in shapes if isinstance(each, Lettering))])
        shapes += led("marks", text, (spot, spot), taken, texts, frame=framed(figure))
    return [*shapes, *datum_text(view, outline, taken)]


def _told(bearer: Bearer, units: str) -> tuple[str, ...]:
    """Return what may be told of a bearer, the fullest first: plies, where it starts and ends."""
    mark = clean(bearer.mark)
    named = f"{mark}, {plies_told(bearer.section)}"
    ends = f"{bare(bearer.start_mm, units)} to {bare(bearer.end_mm, units)}"
    return f"{named}, {ends}", f"{mark}: {ends}"


def _notes(plan: Plan, outline: Outline, frame: RaisedFrame) -> tuple[str, ...]:
    askew = ways_told(outline)[:1] if is_askew(outline) else ()
    kinds = kinds_told(outline)
    bearers = "Beside a bearer: its plies, from where to where it goes."
    return (*askew, bearers, *([kinds] if kinds else []), *posts_notes(plan, frame))
