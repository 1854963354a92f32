"""Every post's length from the levels, its height class, and the schedule of all posts."""

from collections.abc import Sequence

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.marks import exact, is_number, to_mm
from drylay.outline.model import Spot
from drylay.raised.limits import LONGEST_MM
from drylay.raised.model import Brace, Heights, Post, PostRow
from drylay.reasons import Source
from drylay.strength.model import Section

LEVELS = Source(kind="arithmetic", title="levels", clause="docs/raised.md, Levels")
SHORT = Source(kind="common practice", title="common practice, no source", clause="short posts")
SCREENED = Source(kind="common practice", title="common practice, no source", clause="high decks")


def top_of_posts_mm(heights: Heights) -> float:
    """Return the level of every post's top: the finished level less what lies on the posts.

    Raises:
        InputError: A height is no number, below 0 where it may not be, or a post both stands on
            something and runs into concrete.
    """
    _refuse(heights)
    over = (heights.board_mm, heights.joist_over_mm, heights.bearer_mm)
    return to_mm(exact(heights.finished_mm) - sum(exact(part) for part in over))


def _refuse(heights: Heights) -> None:
    faults = [
        Fault(path=name, found=repr(value), wanted="a height of 0 mm or more, not over 1 km")
        for name in ("board_mm", "joist_over_mm", "bearer_mm", "stand_off_mm", "embed_mm",
                     "short_mm", "brace_over_mm", "screened_mm")
        if not is_number(value := getattr(heights, name)) or not 0.0 <= value <= LONGEST_MM
    ]  # fmt: skip
    if not is_number(heights.finished_mm) or not abs(heights.finished_mm) <= LONGEST_MM:
        faults.append(
            Fault(path="finished_mm", found=repr(heights.finished_mm), wanted="a level in mm")
        )
    if not faults and heights.stand_off_mm and heights.embed_mm:
        wanted = "0: a post stands on something or runs into concrete, not both"
        faults.append(Fault(path="embed_mm", found=f"{heights.embed_mm:g}", wanted=wanted))
    if faults:
        raise InputError(tuple(faults))


def post_at(
    *, mark: str, bearer: str, place: Spot, section: Section, ground_mm: float, heights: Heights
) -> Post:
    """Return a post with its length: ground + stand-off + post + bearer + joist + board = finished.

    Counted in 1/320 mm, nothing rounded. A post whose ground is at or above its top has a length
    of 0 or below, and is "too short".
    """
    top = exact(top_of_posts_mm(heights))
    length = top - exact(ground_mm) - exact(heights.stand_off_mm)
    return Post(
        mark=mark, bearer=bearer, place=place, section=section, top_mm=to_mm(top),
        ground_mm=ground_mm, stand_off_mm=heights.stand_off_mm, embed_mm=heights.embed_mm,
        length_mm=to_mm(length), whole_mm=to_mm(length + exact(heights.embed_mm)),
        height_class=_height_class(length, exact(ground_mm), heights),
    )  # fmt: skip


def _height_class(length: int, ground: int, heights: Heights) -> str:
    if exact(heights.finished_mm) - ground > exact(heights.screened_mm):
        return "beyond"
    if length < max(1, exact(heights.short_mm)):
        return "too short"
    return "braced" if length > exact(heights.brace_over_mm) else "plain"


def height_findings(posts: Sequence[Post], heights: Heights) -> tuple[Finding, ...]:
    """Return what is told of posts' heights: too short to be a post (RSD-003), beyond (RSD-004)."""
    found = []
    for post in posts:
        if post.height_class == "too short":
            found.append(_short(post, heights))
        elif post.height_class == "beyond":
            over = to_mm(exact(heights.finished_mm) - exact(post.ground_mm))
            found.append(Finding(
                code="RSD-004", severity=Severity.STOP, subject=post.mark, measured=over,
                limit=heights.screened_mm, unit="mm", source=SCREENED,
                message="the deck is higher over the ground here than is screened: ask an engineer",
            ))  # fmt: skip
    return tuple(found)


def _short(post: Post, heights: Heights) -> Finding:
    sunk = post.length_mm <= 0
    return Finding(
        code="RSD-003", severity=Severity.STOP if sunk else Severity.CAUTION, subject=post.mark,
        measured=post.length_mm, limit=0.0 if sunk else heights.short_mm, unit="mm", source=SHORT,
        message="the ground or its pad reaches the bearer's underside: dig, or raise the deck"
        if sunk else "too short for a post that splits at its fixings: use packers or a higher pad",
    )  # fmt: skip


def post_rows(posts: Sequence[Post], braces: Sequence[Brace]) -> tuple[PostRow, ...]:
    """Return the schedule: a row for every post, in the order given."""
    return tuple(
        PostRow(
            mark=post.mark, bearer=post.bearer, along_mm=post.place.along_mm,
            across_mm=post.place.across_mm, ground_mm=post.ground_mm, top_mm=post.top_mm,
            cut_below_mm=to_mm(-exact(post.top_mm)), length_mm=post.length_mm,
            whole_mm=post.whole_mm, height_class=post.height_class,
            braces=tuple(brace.mark for brace in braces if brace.post == post.mark),
        )
        for post in posts
    )  # fmt: skip
