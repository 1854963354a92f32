"""Bearers, posts and footings seen from above, and where their marks stand: of any deck."""

from collections.abc import Iterator

from drylay.groundwork.model import PostFooting
from drylay.papers.figures import block, on_paper, upright
from drylay.papers.lettering import width_mm
from drylay.papers.model import (
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Lettering,
    Mark,
    Ring,
    Shape,
    View,
)
from drylay.papers.placing import Place, first_clear, place_of
from drylay.papers.standing_text import (
    foot_told,
    footing_groups,
    gap_told,
    least_told,
    section_told,
)
from drylay.papers.wording import bare, clean, marks_told
from drylay.plan.model import Plan
from drylay.raised.model import Bearer, Post, RaisedFrame

DASH = "4 1.5"
#: How far a text stands off what it belongs to, on paper.
OFF_MM = 1.4
#: Along a bearer, where its text may stand.
BEARER_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95)
Box4 = tuple[float, float, float, float]


def under_posts(plan: Plan) -> dict[str, PostFooting]:
    """Return the footings by the post that each is under."""
    return {one.post: one for one in (plan.footings.under if plan.footings else ())}


def half_mm(post: Post, under: dict[str, PostFooting]) -> float:
    """Return half of how broad what lies under a post is: its footing, or its own foot."""
    own = max(post.section.breadth_mm, post.section.depth_mm)
    found = under.get(post.mark)
    return max(own, found.footing.size_mm if found else 0.0) / 2


def holes(plan: Plan, frame: RaisedFrame, run: str) -> Iterator[Box4]:
    """Yield the ground that what stands takes, as drawn: left, top, right, bottom."""
    under = under_posts(plan)
    for post in frame.posts:
        x, y = upright(run, post.place.along_mm, post.place.across_mm)
        half = half_mm(post, under)
        yield x - half, y - half, x + half, y + half


def along_marks(frame: RaisedFrame, units: str) -> tuple[Mark, ...]:
    """Return posts running along the bearers, those that stand as far together."""
    places: dict[float, list[str]] = {}
    for post in frame.posts:
        places.setdefault(post.place.along_mm, []).append(clean(post.mark))
    return tuple(
        Mark(at_mm=at, text=f"{' '.join(marks)}: {bare(at, units)}")
        for at, marks in sorted(places.items())
    )


def across_marks(frame: RaisedFrame, units: str) -> tuple[Mark, ...]:
    """Return lines of bearers running across, with the posts under each."""
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


def standing_drawn(view: View, plan: Plan, frame: RaisedFrame) -> list[Shape]:
    """Return footings, bearers over them, and the posts between the two."""
    under = under_posts(plan)
    shapes = [
        footing_drawn(view, post, under[post.mark]) for post in frame.posts if post.mark in under
    ]
    shapes += [bearer_drawn(view, bearer) for bearer in frame.bearers]
    for post in frame.posts:
        wide, deep = post.section.breadth_mm, post.section.depth_mm
        corner = (post.place.along_mm - wide / 2, post.place.across_mm - deep / 2)
        shapes.append(block(view, "posts", corner, (wide, deep), OUTLINE_MM))
    return shapes


def post_texts(plan: Plan, frame: RaisedFrame) -> Iterator[tuple[Post, str]]:
    """Yield what is told of each post: all their marks first, then their footings with sizes."""
    under = under_posts(plan)
    yield from ((post, clean(post.mark)) for post in frame.posts)
    for post in frame.posts:
        if post.mark in under:
            one = under[post.mark]
            yield post, f"{clean(one.mark)}: {least_told(one.footing, plan.units)}"


def post_marks(
    plan: Plan, frame: RaisedFrame, view: View, taken: list[Place]
) -> Iterator[tuple[Post, str, tuple[Lettering, ...]]]:
    """Yield each post with a text about it and where that stands: () where it finds no room."""
    under = under_posts(plan)
    for post, text in post_texts(plan, frame):
        spots = beside_post(view, post, half_mm(post, under), text)
        yield post, text, first_clear(spots, taken)


def footing_drawn(view: View, post: Post, under: PostFooting) -> Shape:
    """Return a footing from above: a ring or a square about its post's centre."""
    half = under.footing.size_mm / 2
    x, y = on_paper(view, post.place.along_mm, post.place.across_mm)
    if under.footing.shape == "round":
        return Ring(layer="footings", x_mm=x, y_mm=y, radius_mm=half / view.per_mm,
                    pen_mm=THIN_MM)  # fmt: skip
    corner = (post.place.along_mm - half, post.place.across_mm - half)
    return block(view, "footings", corner, (2 * half, 2 * half), THIN_MM)


def bearer_drawn(view: View, bearer: Bearer) -> Shape:
    """Return a bearer's outline, dashed: it lies under the boards."""
    half = bearer.section.breadth_mm * bearer.section.plies / 2
    near, far = bearer.across_mm - half, bearer.across_mm + half
    ends = ((bearer.start_mm, near), (bearer.end_mm, near), (bearer.end_mm, far),
            (bearer.start_mm, far))  # fmt: skip
    return Area(layer="bearers", corners_mm=tuple(on_paper(view, *end) for end in ends),
                pen_mm=MEMBER_MM, dash=DASH)  # fmt: skip


def bodies(frame: RaisedFrame, under: dict[str, PostFooting], view: View) -> list[Place]:
    """Return what no mark is to hide: footings with their posts, and bearers."""
    found = []
    for post in frame.posts:
        x, y = on_paper(view, post.place.along_mm, post.place.across_mm)
        half = half_mm(post, under) / view.per_mm
        found.append(place_of([(x - half, y - half), (x + half, y - half), (x + half, y + half),
                               (x - half, y + half)]))  # fmt: skip
    outlines = (bearer_drawn(view, bearer) for bearer in frame.bearers)
    return found + [place_of(one.corners_mm) for one in outlines if isinstance(one, Area)]


def beside_post(view: View, post: Post, half_mm: float, text: str) -> Iterator[Lettering]:
    """Yield places for a text about a post's footing: at its corners, over it, below, further."""
    x, y = on_paper(view, post.place.along_mm, post.place.across_mm)
    text, half = clean(text), half_mm / view.per_mm
    wide = width_mm(text, LETTER_MM) / 2
    for more in (0.0, 3.2, 6.4, 9.6):
        down = half + OFF_MM + LETTER_MM / 2 + more
        out = half + OFF_MM + wide + more
        yield from (mark_text(text, x, y + sign * down) for sign in (-1, 1))
        for aside in (half, down):
            yield from (
                mark_text(text, x + a * out, y + b * aside) for a in (1, -1) for b in (-1, 1)
            )


def beside_bearer(
    view: View, bearer: Bearer, texts: tuple[str, ...], more: tuple[float, ...] = ()
) -> Iterator[Lettering]:  # fmt: skip
    """Yield places for a bearer's text beside its line, the first of the texts first.

    `more` are further shares of the bearer that it may stand at.
    """
    half = bearer.section.breadth_mm * bearer.section.plies / 2
    long = bearer.end_mm - bearer.start_mm
    for words in texts:
        for share in (*BEARER_SHARES, *more):
            for across in (bearer.across_mm - half, bearer.across_mm + half):
                yield from off_line(view, bearer.start_mm + long * share, across, words)


def off_line(view: View, along_mm: float, across_mm: float, text: str) -> Iterator[Lettering]:
    """Yield a text to both sides of a line that runs along, written along it."""
    x, y = on_paper(view, along_mm, across_mm)
    off = OFF_MM + LETTER_MM / 2
    for by in (off, -off):
        if view.run == "along":
            yield mark_text(text, x, y + by)
        else:
            yield mark_text(text, x + by, y, turned=True)


def mark_text(text: str, x: float, y: float, *, turned: bool = False) -> Lettering:
    """Return a mark on white."""
    return Lettering(layer="marks", x_mm=x, y_mm=y, text=text, turned=turned, knocked=True)


def posts_notes(plan: Plan, frame: RaisedFrame) -> tuple[str, ...]:
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
