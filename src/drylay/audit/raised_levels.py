"""Levels of a deck that stands: from the ground up to its top, post by post, nothing rounded."""

from collections.abc import Iterator

from drylay.audit.between import hung
from drylay.audit.edged import thickest
from drylay.audit.exact import ticks
from drylay.audit.flaws import off_by, same_count, same_length, same_text
from drylay.audit.frame import frame_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import RAISED, deck_of, stand_of, stopped, told
from drylay.audit.rows import surface_of
from drylay.audit.site import levels_of
from drylay.plan.model import Plan
from drylay.raised.model import Heights, Post, PostRow

#: A deck higher than this over the ground is for an engineer, whatever the plan quotes: common
#: practice, no source.
SCREENED = 1800


def parts_add_up_to_the_top(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless ground, foot, post, bearer, joist and board come to the deck's top."""
    stand = stand_of(plan)
    heights = stand.heights
    over = ticks(heights.bearer_mm) + ticks(heights.joist_over_mm) + ticks(heights.board_mm)
    for post in stand.posts:
        foot = ticks(post.ground_mm) + ticks(post.stand_off_mm)
        message = "not where ground, foot and post reach to"
        yield from same_length(
            post.mark, message, post.top_mm, foot + ticks(post.length_mm), RAISED
        )
        message = "ground, foot, post, bearer, joist and board do not come to the deck's top"
        reached = foot + ticks(post.length_mm) + over
        if reached != ticks(heights.finished_mm):
            yield off_by(post.mark, message, reached, ticks(heights.finished_mm), RAISED)
        whole = ticks(post.length_mm) + ticks(post.embed_mm)
        message = "not its length and what runs into concrete"
        yield from same_length(post.mark, message, post.whole_mm, whole, RAISED)
    message = "not where the posts end"
    for post in stand.posts[:1]:
        subject = "raised.post_top_mm"
        yield from same_length(
            subject, message, deck_of(plan).post_top_mm, ticks(post.top_mm), RAISED
        )


def heights_are_the_decks(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the heights told are those of boards, frame, bearers, posts and site."""
    deck, heights = deck_of(plan), stand_of(plan).heights
    wanted = {
        "board_mm": thickest(surface_of(plan)),
        "joist_over_mm": 0 if hung(plan) else ticks(frame_of(plan).timber_depth_mm),
        "brace_over_mm": ticks(deck.brace_over_mm),
    }
    for name, height in wanted.items():
        subject = f"raised.frame.heights.{name}"
        yield from same_length(
            subject, "not the deck's own", getattr(heights, name), height, RAISED
        )
    for bearer in deck.frame.bearers:
        message = "not as deep as the levels count on"
        deep = ticks(heights.bearer_mm)
        yield from same_length(bearer.mark, message, bearer.section.depth_mm, deep, RAISED)
    for post in deck.frame.posts:
        for name in ("stand_off_mm", "embed_mm"):
            message = "stands on another foot than the levels count on"
            foot = ticks(getattr(heights, name))
            yield from same_length(post.mark, message, getattr(post, name), foot, RAISED)
    yield from _foot(heights)
    if plan.site is not None and plan.site.levels is not None:
        top, subject = ticks(plan.site.levels.deck_top_mm), "raised.frame.heights.finished_mm"
        yield from same_length(subject, "not the deck's top", heights.finished_mm, top, RAISED)


def _foot(heights: Heights) -> Iterator[Flaw]:
    off, into = ticks(heights.stand_off_mm), ticks(heights.embed_mm)
    if (off and into) or min(off, into) < 0:
        message = "posts stand on something or run into concrete, not both"
        yield off_by("raised.frame.heights", message, into, 0, RAISED)


def schedule_tells_the_posts(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the schedule has a row for every post, with its own figures."""
    stand = stand_of(plan)
    message = "rows of the schedule"
    found, wanted = len(stand.schedule), len(stand.posts)
    yield from same_count("raised.frame.schedule", message, found, wanted, RAISED)
    for post, row in zip(stand.posts, stand.schedule, strict=False):
        braces = tuple(brace.mark for brace in stand.bracing.braces if brace.post == post.mark)
        yield from _row(post, row)
        if row.braces != braces:
            message = "the schedule tells other braces"
            yield Flaw(subject=post.mark, message=message, source=RAISED)


def _row(post: Post, row: PostRow) -> Iterator[Flaw]:
    message = "not the schedule's"
    words = (
        (row.mark, post.mark),
        (row.bearer, post.bearer),
        (row.height_class, post.height_class),
    )
    for found, wanted in words:
        yield from same_text(post.mark, message, found, wanted, RAISED)
    lengths = {
        "along_mm": post.place.along_mm, "across_mm": post.place.across_mm,
        "ground_mm": post.ground_mm, "top_mm": post.top_mm, "cut_below_mm": -post.top_mm,
        "length_mm": post.length_mm, "whole_mm": post.whole_mm,
    }  # fmt: skip
    for name, length_mm in lengths.items():
        message = f"the schedule's {name} is not the post's"
        yield from same_length(post.mark, message, getattr(row, name), ticks(length_mm), RAISED)


def classes_follow_their_limits(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every post's height class is that of its length and the deck's height."""
    stand = stand_of(plan)
    for post in stand.posts:
        wanted = _height_class(post, stand.heights)
        message = "not its height class"
        yield from same_text(post.mark, message, post.height_class, wanted, RAISED)
        if wanted == "beyond" and not stopped(plan):
            message = "so high a deck is for an engineer, and nothing stops the plan"
            height = ticks(stand.heights.finished_mm) - ticks(post.ground_mm)
            limit = ticks(min(stand.heights.screened_mm, SCREENED))
            yield off_by(post.mark, message, height, limit, RAISED)
        if wanted == "too short" and not told(plan, "RSD-003", post.mark):
            message = "too short for a post, and no finding tells it"
            short = ticks(stand.heights.short_mm)
            yield off_by(post.mark, message, ticks(post.length_mm), short, RAISED)
        if ticks(post.length_mm) <= 0 and not stopped(plan):
            message = "the ground reaches its top, and nothing stops the plan"
            yield off_by(post.mark, message, ticks(post.length_mm), 0, RAISED)


def _height_class(post: Post, heights: Heights) -> str:
    high = ticks(heights.finished_mm) - ticks(post.ground_mm)
    if high > ticks(min(heights.screened_mm, SCREENED)):
        return "beyond"
    length = ticks(post.length_mm)
    if length < max(1, ticks(heights.short_mm)):
        return "too short"
    return "braced" if length > ticks(heights.brace_over_mm) else "plain"


def ground_is_under_the_deck(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each post whose ground is not between the highest and lowest under it.

    And one where the lowest is deeper under the deck's top than is screened, and nothing stops it.
    """
    levels = levels_of(plan)
    most, least = levels.ground_most_mm, levels.ground_least_mm
    if least is not None and not stopped(plan):
        high = ticks(levels.deck_top_mm) - ticks(least)
        if high > ticks(SCREENED):
            message = "so deep a hollow under the deck is for an engineer, and nothing stops it"
            yield off_by("site.levels.ground_least_mm", message, high, ticks(SCREENED), RAISED)
    for post in stand_of(plan).posts:
        if most is None or least is None:
            message = "a post whose ground the plan does not know"
            yield Flaw(subject=post.mark, message=message, source=RAISED)
        elif not ticks(least) <= ticks(post.ground_mm) <= ticks(most):
            message = "its ground is not between the highest and the lowest under the deck"
            limit = ticks(least if post.ground_mm < least else most)
            yield off_by(post.mark, message, ticks(post.ground_mm), limit, RAISED)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-310", "ground, foot, post, bearer, joist and board come to the deck's top",
     parts_add_up_to_the_top),
    ("AUD-311", "heights of a deck that stands are its own parts'", heights_are_the_decks),
    ("AUD-312", "the schedule tells every post", schedule_tells_the_posts),
    ("AUD-313", "posts are of the height class that they are long", classes_follow_their_limits),
    ("AUD-314", "posts stand on known ground, none of it too deep", ground_is_under_the_deck),
)  # fmt: skip
