"""Places of a deck that stands: bearers under all joists, posts under bearers, spans told right."""

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.between import bands, between, hung
from drylay.audit.exact import ceil_div, ticks
from drylay.audit.flaws import off_by, same_count, same_length, same_text
from drylay.audit.frame import thickness_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import (
    RAISED,
    broad,
    deck_of,
    frame_across,
    frame_along,
    joist_rests,
    lines_across,
    posts_along,
    posts_on,
    stand_of,
    widest,
)
from drylay.audit.statics import carried_by
from drylay.audit.supports import offsets
from drylay.plan.model import Plan
from drylay.raised.model import SHARINGS, Bearer, Post, RaisedFrame


def bearers_lie_under_the_frame(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bearer that reaches out of the frame, or lies over another."""
    stand = stand_of(plan)
    near, far = frame_across(plan)
    start, end = frame_along(plan)
    for number, bearer in enumerate(stand.bearers, 1):
        yield from same_text(bearer.mark, "wrong mark", bearer.mark, f"BR{number}", RAISED)
        half, at = ceil_div(broad(bearer), 2), ticks(bearer.across_mm)
        if not near + half <= at <= far - half:
            message = "reaches past the frame that lies on it"
            yield off_by(bearer.mark, message, at, far - half if at > far - half else near, RAISED)
        if not start <= ticks(bearer.start_mm) < ticks(bearer.end_mm) <= end:
            message = "its ends are not within the frame, one before the other"
            yield off_by(bearer.mark, message, ticks(bearer.start_mm), start, RAISED)
    for one, other in pairwise(stand.bearers):
        apart = ticks(other.across_mm) - ticks(one.across_mm)
        if apart < ceil_div(broad(one) + broad(other), 2):
            message = "lies over the bearer before it, or nearer the house"
            yield off_by(other.mark, message, apart, broad(one), RAISED)


def bearers_carry_every_joist(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bearer that some joist or rim does not lie on, its thickness whole."""
    half = ceil_div(thickness_of(plan), 2)
    at = offsets(plan)
    for bearer in stand_of(plan).bearers:
        for outer, face in ((min(at) - half, bearer.start_mm), (max(at) + half, bearer.end_mm)):
            over = ticks(face) - outer
            if over > 0 if face == bearer.start_mm else over < 0:
                message = "a joist does not lie on it"
                yield off_by(bearer.mark, message, ticks(face), outer, RAISED)


def posts_stand_under_bearers(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each post that is not under its bearer, or stands where another does."""
    stand = stand_of(plan)
    marks = {bearer.mark for bearer in stand.bearers}
    for number, post in enumerate(stand.posts, 1):
        yield from same_text(post.mark, "wrong mark", post.mark, f"PO{number}", RAISED)
        if post.bearer not in marks:
            message = f"stands under no bearer: {post.bearer!r}"
            yield Flaw(subject=post.mark, message=message, source=RAISED)
    order = {mark: at for at, mark in enumerate(bearer.mark for bearer in stand.bearers)}
    told = [order.get(post.bearer, -1) for post in stand.posts]
    if told != sorted(told):
        message = "posts are not told bearer by bearer"
        yield Flaw(subject="raised.frame.posts", message=message, source=RAISED)
    for bearer in stand.bearers:
        yield from _under(stand, bearer)


def _under(stand: RaisedFrame, bearer: Bearer) -> Iterator[Flaw]:
    posts = posts_on(stand, bearer)
    if len(posts) < 2:
        yield from same_count(bearer.mark, "a bearer stands on two posts", len(posts), 2, RAISED)
    for post in posts:
        message = "not in its bearer's middle"
        across = ticks(bearer.across_mm)
        yield from same_length(post.mark, message, post.place.across_mm, across, RAISED)
        half, at = ceil_div(ticks(post.section.breadth_mm), 2), ticks(post.place.along_mm)
        first, last = ticks(bearer.start_mm) + half, ticks(bearer.end_mm) - half
        if not first <= at <= last:
            message = "not inside its bearer's ends"
            yield off_by(post.mark, message, at, first if at < first else last, RAISED)
    for one, other in pairwise(posts):
        apart = ticks(other.place.along_mm) - ticks(one.place.along_mm)
        room = _both(one, other)
        if apart < room:
            message = "stands in the post before it, or nearer the bearer's start"
            yield off_by(other.mark, message, apart, room, RAISED)


def _both(one: Post, other: Post) -> int:
    return ceil_div(ticks(one.section.breadth_mm) + ticks(other.section.breadth_mm), 2)


def spans_are_the_widest(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless spans and free ends told are the widest of joists and of bearers."""
    deck = deck_of(plan)
    length, rests = joist_rests(plan)
    joist = widest(rests, length, held=deck.frame.ledger is not None)
    found = [(0, 0)]
    for bearer in deck.frame.bearers:
        long = ticks(bearer.end_mm) - ticks(bearer.start_mm)
        found.append(widest(posts_along(deck.frame, bearer), long))
    told = (
        ("joist_span_mm", joist[0]), ("joist_end_mm", joist[1]),
        ("bearer_span_mm", max(span for span, _ in found)),
        ("bearer_end_mm", max(end for _, end in found)),
    )  # fmt: skip
    for name, wanted in told:
        message = "not the widest there is, centre to centre"
        yield from same_length(f"raised.{name}", message, getattr(deck, name), wanted, RAISED)


def bearers_tell_what_they_carry(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each bearer tells the width of deck that statics give it.

    Halves are for what posts carry of a bearer, in either sharing.
    """
    deck = deck_of(plan)
    if deck.sharing not in SHARINGS:
        message = f"no such sharing: {deck.sharing!r}"
        yield Flaw(subject="raised.sharing", message=message, source=RAISED)
        return
    if hung(plan):
        yield from _between(plan)
        return
    length, rests = joist_rests(plan)
    if len(rests) < 2:
        yield from same_count("raised", "joists rest on two supports", len(rests), 2, RAISED)
        return
    shares = carried_by(rests, length, "levered")
    lines = lines_across(deck.frame)
    for bearer in deck.frame.bearers:
        share = shares[len(shares) - len(lines) + lines.index(ticks(bearer.across_mm))]
        carried = ticks(bearer.carried_mm)
        if abs(carried - share) > 1:
            message = "not the width of deck that it carries"
            yield off_by(bearer.mark, message, carried, float(share), RAISED)


def _between(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each bearer tells its own breadth and half of each bay beside it."""
    stretches = between(plan)
    for bearer, face in zip(stand_of(plan).bearers, bands(plan), strict=True):
        beside = sum(far - near for near, far in stretches if face.far == near or face.near == far)
        share = face.far - face.near + ceil_div(beside, 2)
        message = "not the width of deck that it carries"
        yield from same_length(bearer.mark, message, bearer.carried_mm, share, RAISED)


def plies_are_jointed_over_posts(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joint of a ply that is not alone over the middle of an inner post."""
    stand = stand_of(plan)
    for bearer in stand.bearers:
        at = posts_along(stand, bearer)
        posts = Counter(joint.post for joint in bearer.joints)
        for joint in bearer.joints:
            subject = f"{bearer.mark}: ply {joint.ply}"
            if not 1 < joint.post < len(at):
                message = "jointed over no inner post"
                yield from same_count(subject, message, joint.post, 2, RAISED)
                continue
            message = "not jointed over the post's middle"
            yield from same_length(subject, message, joint.at_mm, at[joint.post - 1], RAISED)
            message = "plies jointed over one post"
            yield from same_count(subject, message, posts[joint.post], 1, RAISED)
            if not 1 <= joint.ply <= bearer.section.plies:
                message = "it has no such ply"
                yield from same_count(subject, message, joint.ply, bearer.section.plies, RAISED)


def lines_and_posts_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless lines of bearers are counted, and posts."""
    deck = deck_of(plan)
    lines, posts = len(lines_across(deck.frame)), len(deck.frame.posts)
    yield from same_count("raised.line_count", "lines of bearers", deck.line_count, lines, RAISED)
    yield from same_count("raised.post_count", "posts", deck.post_count, posts, RAISED)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-315", "bearers lie under the frame, apart", bearers_lie_under_the_frame),
    ("AUD-316", "every joist lies on every bearer", bearers_carry_every_joist),
    ("AUD-317", "posts stand under their bearers, apart", posts_stand_under_bearers),
    ("AUD-318", "spans and free ends told are the widest", spans_are_the_widest),
    ("AUD-319", "bearers tell the width of deck they carry", bearers_tell_what_they_carry),
    ("AUD-320", "plies are jointed over inner posts, one at each", plies_are_jointed_over_posts),
    ("AUD-321", "lines of bearers and their posts are counted", lines_and_posts_are_counted),
)
