"""What a deck stands on, seen from above: bearers, posts and footings, running from the datum."""

from itertools import pairwise

from drylay.groundwork.model import Footing
from drylay.papers.figures import block, upright
from drylay.papers.frame_text import courses
from drylay.papers.model import (
    OUTLINE_MM,
    THIN_MM,
    Edge,
    Shape,
    Span,
    View,
)
from drylay.papers.padded import Padded, outside, padded, past_of
from drylay.papers.placing import Place, first_clear, line_place, places_of
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
from drylay.papers.raised_side import raised_side_svg
from drylay.papers.sheets import title_block
from drylay.papers.standing_text import plies_told
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean
from drylay.plan.model import Plan
from drylay.raised.model import RaisedFrame
from drylay.surface.model import Surface


def standing_svg(plan: Plan) -> bytes:
    """Return the side view with the post schedule; b"" where the plan does not stand on posts."""
    if plan.raised is None:
        return b""
    return raised_side_svg(
        plan.raised.frame, title=plan.title, units=plan.units, footings=_reckoned(plan),
        hung_mm=plan.frame.timber_depth_mm if plan.frame and plan.frame.hung else 0.0,
        along=courses(plan),
    )  # fmt: skip


def standing_front_svg(plan: Plan) -> bytes:
    """Return the front view of the bearer with the longest post; b"" as for the side view."""
    if plan.raised is None or not plan.raised.frame.posts:
        return b""
    frame = plan.raised.frame
    longest = max(frame.posts, key=lambda post: post.length_mm)
    return raised_side_svg(
        frame, title=plan.title, units=plan.units, seen="front", bearer=longest.bearer,
        footings=_reckoned(plan), along=courses(plan),
    )  # fmt: skip


def _reckoned(plan: Plan) -> dict[str, Footing]:
    """Return the footings that have a size, by post: of a ground screw nothing is reckoned."""
    under = {post: one.footing for post, one in under_posts(plan).items()}
    return {post: footing for post, footing in under.items() if footing.size_mm > 0}


def posts_svg(plan: Plan) -> bytes:
    """Return the drawing of bearers, posts and footings from above; b"" where none stand."""
    surface, raised = plan.surface, plan.raised
    if surface is None or raised is None or not raised.frame.posts:
        return b""
    frame, run = raised.frame, surface.run
    size_mm = upright(run, surface.row_length_mm, surface.rows_depth_mm)
    figure = padded(
        run, size_mm, past_of(holes(plan, frame, run), size_mm), _edges(plan, surface, frame),
        units=plan.units, pitch_mm=min(post.section.breadth_mm for post in frame.posts),
        notes=posts_notes(plan, frame),
    )  # fmt: skip
    beside = outside(figure)
    members = _members(plan, surface, frame, figure.cover)
    shapes = [
        *members, *beside, *_marks(plan, frame, figure, [*members, *beside]),
        *title_block(figure.sheet, title=plan.title, drawing="Posts and footings, from above",
                     units=plan.units, notes=figure.foot),
    ]  # fmt: skip
    told = (f"What {clean(plan.title)} stands on, in plan: {len(frame.posts)} posts under "
            f"{len(frame.bearers)} bearers.")  # fmt: skip
    return svg(shapes, sheet=figure.sheet, name="posts", title=f"Posts of {clean(plan.title)}",
               told=told)  # fmt: skip


def _edges(plan: Plan, surface: Surface, frame: RaisedFrame) -> dict[str, Edge]:
    """Return posts running along, bearers running across, the cover's and the bearers' sizes."""
    units, along = plan.units, Edge(marks=along_marks(frame, plan.units))
    across = Edge(marks=across_marks(frame, units))
    first = frame.bearers[0]
    spans = [Span(from_mm=0.0, to_mm=surface.row_length_mm,
                  text=f"cover {bare(surface.row_length_mm, units)}")]  # fmt: skip
    if all((one.start_mm, one.end_mm) == (first.start_mm, first.end_mm) for one in frame.bearers):
        long = first.end_mm - first.start_mm
        spans.insert(0, Span(from_mm=first.start_mm, to_mm=first.end_mm,
                             text=f"bearers {bare(long, units)}"))  # fmt: skip
    deep = Span(from_mm=0.0, to_mm=surface.rows_depth_mm,
                text=f"cover {bare(surface.rows_depth_mm, units)}")  # fmt: skip
    if surface.run == "along":
        return {"bottom": along, "left": across, "top": Edge(spans=tuple(spans)),
                "right": Edge(spans=(deep,))}  # fmt: skip
    return {"right": along, "bottom": across, "left": Edge(spans=tuple(spans)),
            "top": Edge(spans=(deep,))}  # fmt: skip


def _members(plan: Plan, surface: Surface, frame: RaisedFrame, view: View) -> list[Shape]:
    size_mm = (surface.row_length_mm, surface.rows_depth_mm)
    shapes: list[Shape] = [block(view, "cover", (0.0, 0.0), size_mm, THIN_MM)]
    ledger = frame.ledger
    if ledger is not None:
        near = plan.edges.frame_near_mm if plan.edges else 0.0
        long = (ledger.end_mm - ledger.start_mm, ledger.section.breadth_mm)
        shapes.append(block(view, "ledger", (ledger.start_mm, near), long, OUTLINE_MM))
    return [*shapes, *standing_drawn(view, plan, frame)]


def _marks(plan: Plan, frame: RaisedFrame, figure: Padded, drawn: list[Shape]) -> list[Shape]:
    """Return marks of posts and footings beside them, bearers' and the ledger's beside theirs."""
    view = figure.cover
    taken = [*places_of(drawn), *bodies(frame, under_posts(plan), view), *_around(figure)]
    shapes: list[Shape] = []
    for _, _, placed in post_marks(plan, frame, view, taken):
        shapes += placed
    for bearer in frame.bearers:
        mark = clean(bearer.mark)
        texts = (f"{mark}, {plies_told(bearer.section)}", mark)
        shapes += first_clear(beside_bearer(view, bearer, texts), taken)
    if frame.ledger is not None and plan.edges is not None:
        near = plan.edges.frame_near_mm + frame.ledger.section.breadth_mm
        at = (frame.ledger.start_mm + frame.ledger.end_mm) / 2
        text = f"{clean(frame.ledger.mark)}, ledger on the wall"
        shapes += first_clear(off_line(view, at, near, text), taken)
    return shapes


def _around(figure: Padded) -> list[Place]:
    """Return the cover's outline as what no mark is to stand on."""
    (left, top), (wide, high) = (figure.cover.left_mm, figure.cover.top_mm), figure.extent
    corners = [(left, top), (left + wide, top), (left + wide, top + high), (left, top + high)]
    return [line_place(one, other) for one, other in pairwise([*corners, corners[0]])]
