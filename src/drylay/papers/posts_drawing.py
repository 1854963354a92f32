"""What a deck stands on, seen from above: bearers, posts and footings, running from the datum."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.groundwork.model import Footing, PostFooting
from drylay.papers.figures import block, on_paper, upright
from drylay.papers.lettering import width_mm
from drylay.papers.model import (
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Edge,
    Lettering,
    Mark,
    Ring,
    Shape,
    Span,
    View,
)
from drylay.papers.padded import Padded, outside, padded, past_of
from drylay.papers.placing import Place, first_clear, line_place, place_of, places_of
from drylay.papers.raised_side import raised_side_svg
from drylay.papers.sheets import title_block
from drylay.papers.standing_text import (
    foot_told,
    footing_groups,
    gap_told,
    least_told,
    plies_told,
    section_told,
)
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, marks_told
from drylay.plan.model import Plan
from drylay.raised.model import Bearer, Post, RaisedFrame
from drylay.surface.model import Surface

DASH = "4 1.5"
#: How far a text stands off what it belongs to, on paper.
OFF_MM = 1.4
Box4 = tuple[float, float, float, float]


def standing_svg(plan: Plan) -> bytes:
    """Return the side view with the post schedule; b"" where the plan does not stand on posts."""
    if plan.raised is None:
        return b""
    return raised_side_svg(
        plan.raised.frame, title=plan.title, units=plan.units, footings=_reckoned(plan)
    )


def standing_front_svg(plan: Plan) -> bytes:
    """Return the front view of the bearer with the longest post; b"" as for the side view."""
    if plan.raised is None or not plan.raised.frame.posts:
        return b""
    frame = plan.raised.frame
    longest = max(frame.posts, key=lambda post: post.length_mm)
    return raised_side_svg(
        frame, title=plan.title, units=plan.units, seen="front", bearer=longest.bearer,
        footings=_reckoned(plan),
    )  # fmt: skip


def _reckoned(plan: Plan) -> dict[str, Footing]:
    """Return the footings that have a size, by post: of a ground screw nothing is reckoned."""
    under = {post: one.footing for post, one in _under(plan).items()}
    return {post: footing for post, footing in under.items() if footing.size_mm > 0}


def posts_svg(plan: Plan) -> bytes:
    """Return the drawing of bearers, posts and footings from above; b"" where none stand."""
    surface, raised = plan.surface, plan.raised
    if surface is None or raised is None or not raised.frame.posts:
        return b""
    frame, run = raised.frame, surface.run
    size_mm = upright(run, surface.row_length_mm, surface.rows_depth_mm)
    figure = padded(
        run, size_mm, past_of(_holes(plan, frame, run), size_mm), _edges(plan, surface, frame),
        units=plan.units, pitch_mm=min(post.section.breadth_mm for post in frame.posts),
        notes=_notes(plan, frame),
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


def _under(plan: Plan) -> dict[str, PostFooting]:
    """Return the footings by the post that each is under."""
    return {one.post: one for one in (plan.footings.under if plan.footings else ())}


def _half_mm(post: Post, under: dict[str, PostFooting]) -> float:
    """Return half of how broad what lies under a post is: its footing, or its own foot."""
    own = max(post.section.breadth_mm, post.section.depth_mm)
    found = under.get(post.mark)
    return max(own, found.footing.size_mm if found else 0.0) / 2


def _holes(plan: Plan, frame: RaisedFrame, run: str) -> Iterator[Box4]:
    under = _under(plan)
    for post in frame.posts:
        x, y = upright(run, post.place.along_mm, post.place.across_mm)
        half = _half_mm(post, under)
        yield x - half, y - half, x + half, y + half


def _edges(plan: Plan, surface: Surface, frame: RaisedFrame) -> dict[str, Edge]:
    """Return posts running along, bearers running across, the cover's and the bearers' sizes."""
    units, along = plan.units, Edge(marks=_along(frame, plan.units))
    across = Edge(marks=_across(frame, units))
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


def _along(frame: RaisedFrame, units: str) -> tuple[Mark, ...]:
    places: dict[float, list[str]] = {}
    for post in frame.posts:
        places.setdefault(post.place.along_mm, []).append(clean(post.mark))
    return tuple(
        Mark(at_mm=at, text=f"{' '.join(marks)}: {bare(at, units)}")
        for at, marks in sorted(places.items())
    )


def _across(frame: RaisedFrame, units: str) -> tuple[Mark, ...]:
    lines: dict[float, list[Bearer]] = {}
    for bearer in frame.bearers:
        lines.setdefault(bearer.across_mm, []).append(bearer)
    marks = []
    for at, bearers in sorted(lines.items()):
        named = {bearer.mark for bearer in bearers}
        posts = [post.mark for post in frame.posts if post.bearer in named]
        told = clean(f"{' '.join(bearer.mark for bearer in bearers)}, {marks_told(posts)}")
        marks.append(Mark(at_mm=at, text=f"{told}: {bare(at, units)}"))
    return tuple(marks)


def _members(plan: Plan, surface: Surface, frame: RaisedFrame, view: View) -> list[Shape]:
    size_mm = (surface.row_length_mm, surface.rows_depth_mm)
    shapes: list[Shape] = [block(view, "cover", (0.0, 0.0), size_mm, THIN_MM)]
    ledger = frame.ledger
    if ledger is not None:
        near = plan.edges.frame_near_mm if plan.edges else 0.0
        long = (ledger.end_mm - ledger.start_mm, ledger.section.breadth_mm)
        shapes.append(block(view, "ledger", (ledger.start_mm, near), long, OUTLINE_MM))
    under = _under(plan)
    shapes += [_footing(view, post, under[post.mark]) for post in frame.posts if post.mark in under]
    shapes += [_bearer(view, bearer) for bearer in frame.bearers]
    for post in frame.posts:
        wide, deep = post.section.breadth_mm, post.section.depth_mm
        corner = (post.place.along_mm - wide / 2, post.place.across_mm - deep / 2)
        shapes.append(block(view, "posts", corner, (wide, deep), OUTLINE_MM))
    return shapes


def _footing(view: View, post: Post, under: PostFooting) -> Shape:
    half = under.footing.size_mm / 2
    x, y = on_paper(view, post.place.along_mm, post.place.across_mm)
    if under.footing.shape == "round":
        return Ring(layer="footings", x_mm=x, y_mm=y, radius_mm=half / view.per_mm,
                    pen_mm=THIN_MM)  # fmt: skip
    corner = (post.place.along_mm - half, post.place.across_mm - half)
    return block(view, "footings", corner, (2 * half, 2 * half), THIN_MM)


def _bearer(view: View, bearer: Bearer) -> Shape:
    """Return a bearer's outline, dashed: it lies under the boards."""
    half = bearer.section.breadth_mm * bearer.section.plies / 2
    near, far = bearer.across_mm - half, bearer.across_mm + half
    ends = ((bearer.start_mm, near), (bearer.end_mm, near), (bearer.end_mm, far),
            (bearer.start_mm, far))  # fmt: skip
    return Area(layer="bearers", corners_mm=tuple(on_paper(view, *end) for end in ends),
                pen_mm=MEMBER_MM, dash=DASH)  # fmt: skip


def _marks(plan: Plan, frame: RaisedFrame, figure: Padded, drawn: list[Shape]) -> list[Shape]:
    """Return marks of posts and footings beside them, bearers' and the ledger's beside theirs."""
    view, under = figure.cover, _under(plan)
    taken = [*places_of(drawn), *_bodies(frame, under, view), *_around(figure)]
    shapes: list[Shape] = []
    for post in frame.posts:
        shapes += first_clear(_beside(view, post, _half_mm(post, under), post.mark), taken)
    for post in frame.posts:
        if post.mark in under:
            one = under[post.mark]
            text = f"{clean(one.mark)}: {least_told(one.footing, plan.units)}"
            shapes += first_clear(_beside(view, post, _half_mm(post, under), text), taken)
    for bearer in frame.bearers:
        shapes += first_clear(_on_bearer(view, bearer), taken)
    if frame.ledger is not None and plan.edges is not None:
        near = plan.edges.frame_near_mm + frame.ledger.section.breadth_mm
        at = (frame.ledger.start_mm + frame.ledger.end_mm) / 2
        text = f"{clean(frame.ledger.mark)}, ledger on the wall"
        shapes += first_clear(_off(view, at, near, text), taken)
    return shapes


def _around(figure: Padded) -> list[Place]:
    """Return the cover's outline as what no mark is to stand on."""
    (left, top), (wide, high) = (figure.cover.left_mm, figure.cover.top_mm), figure.extent
    corners = [(left, top), (left + wide, top), (left + wide, top + high), (left, top + high)]
    return [line_place(one, other) for one, other in pairwise([*corners, corners[0]])]


def _bodies(frame: RaisedFrame, under: dict[str, PostFooting], view: View) -> list[Place]:
    """Return what no mark is to hide: footings with their posts, and bearers."""
    found = []
    for post in frame.posts:
        x, y = on_paper(view, post.place.along_mm, post.place.across_mm)
        half = _half_mm(post, under) / view.per_mm
        found.append(place_of([(x - half, y - half), (x + half, y - half), (x + half, y + half),
                               (x - half, y + half)]))  # fmt: skip
    outlines = (_bearer(view, bearer) for bearer in frame.bearers)
    return found + [place_of(one.corners_mm) for one in outlines if isinstance(one, Area)]


def _beside(view: View, post: Post, half_mm: float, text: str) -> Iterator[Lettering]:
    """Yield places for a text about a post's footing: at its corners, over it, below, further."""
    x, y = on_paper(view, post.place.along_mm, post.place.across_mm)
    text, half = clean(text), half_mm / view.per_mm
    wide = width_mm(text, LETTER_MM) / 2
    for more in (0.0, 3.2, 6.4, 9.6):
        down = half + OFF_MM + LETTER_MM / 2 + more
        out = half + OFF_MM + wide + more
        yield from (_text(text, x, y + sign * down) for sign in (-1, 1))
        for aside in (half, down):
            yield from (_text(text, x + a * out, y + b * aside) for a in (1, -1) for b in (-1, 1))


def _on_bearer(view: View, bearer: Bearer) -> Iterator[Lettering]:
    """Yield places for a bearer's mark beside its line, from its start on."""
    half = bearer.section.breadth_mm * bearer.section.plies / 2
    text = f"{clean(bearer.mark)}, {plies_told(bearer.section)}"
    long = bearer.end_mm - bearer.start_mm
    for words in (text, clean(bearer.mark)):
        for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95):
            for across in (bearer.across_mm - half, bearer.across_mm + half):
                yield from _off(view, bearer.start_mm + long * share, across, words)


def _off(view: View, along_mm: float, across_mm: float, text: str) -> Iterator[Lettering]:
    """Yield a text to both sides of a line that runs along, written along it."""
    x, y = on_paper(view, along_mm, across_mm)
    off = OFF_MM + LETTER_MM / 2
    for by in (off, -off):
        if view.run == "along":
            yield _text(text, x, y + by)
        else:
            yield _text(text, x + by, y, turned=True)


def _text(text: str, x: float, y: float, *, turned: bool = False) -> Lettering:
    return Lettering(layer="marks", x_mm=x, y_mm=y, text=text, turned=turned, knocked=True)


def _notes(plan: Plan, frame: RaisedFrame) -> tuple[str, ...]:
    """Return what the drawing is to be read with."""
    first, units = frame.bearers[0], plan.units
    posts = section_told(frame.posts[0].section, units)
    foot = foot_told(plan.raised) if plan.raised else ""
    told = [
        "All from the datum corner to centres: of bearers (dashed, "
        f"{section_told(first.section, units)}), of posts ({posts}{foot}).",
        "Peg out from the datum, never from post to post. Lengths of posts: standing.svg; measure "
        "each at its own foot.",
    ]
    told += [f"{marks}: {sizes}." for marks, sizes in footing_groups(plan)]
    told += gap_told(plan)
    return (*told, "Within the screened limits, no more: local code comes first.")
