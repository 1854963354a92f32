"""What holds a deck that stands: its ledger on the wall, and the braces of high posts."""

from collections.abc import Iterator
from itertools import pairwise
from math import isqrt

from drylay.audit.between import bands, between
from drylay.audit.exact import ceil_div, ticks
from drylay.audit.flaws import need, off_by, same_length, same_text
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import subframe_of
from drylay.audit.outlined_stands import joists_of
from drylay.audit.raised_parts import (
    RAISED,
    broad,
    deck_of,
    frame_across,
    frame_along,
    posts_on,
    stand_of,
    stopped,
    told,
)
from drylay.audit.rows import surface_of
from drylay.audit.supports import offsets
from drylay.plan.model import Plan
from drylay.raised.model import SOUND_WALLS, Bearer, Brace, Ledger, Post, RaisedFrame

#: Where a brace may go: post, way, hand.
Place = tuple[str, str, int]


def ledger_of(plan: Plan) -> Ledger:
    """Return the ledger, if there is one."""
    return need(stand_of(plan).ledger, "ledger")


def the_ledger_is_the_rim_on_a_sound_wall(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the ledger is the frame's rim at the house, on a wall that holds it."""
    ledger, frame, deck = ledger_of(plan), frame_of(plan), deck_of(plan)
    if ledger.wall not in SOUND_WALLS:
        message = f"a ledger on a wall that is not sound: {ledger.wall!r}"
        yield Flaw(subject=ledger.mark, message=message, source=RAISED)
    yield from same_text(ledger.mark, "another wall", deck.ledger_wall, ledger.wall, RAISED)
    if surface_of(plan).run != "along":
        message = "boards run away from the house, and joists along it: no ledger carries them"
        yield Flaw(subject=ledger.mark, message=message, source=RAISED)
    if not deck.ledger_fixing:
        message = "no fixing is named"
        yield Flaw(subject=ledger.mark, message=message, source=RAISED)
    start, end = frame_along(plan)
    lengths = (
        ("start_mm", ledger.start_mm, start), ("end_mm", ledger.end_mm, end),
        ("breadth_mm", ledger.section.breadth_mm, thickness_of(plan)),
        ("depth_mm", ledger.section.depth_mm, ticks(frame.timber_depth_mm)),
    )  # fmt: skip
    for name, found, wanted in lengths:
        subject = f"{ledger.mark}: {name}"
        yield from same_length(subject, "not the rim's at the house", found, wanted, RAISED)


def fixings_of_the_ledger_hold_it(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the ledger's fixings are too far apart, off it, or behind a joist."""
    ledger, half = ledger_of(plan), ceil_div(thickness_of(plan), 2)
    start, end = ticks(ledger.start_mm), ticks(ledger.end_mm)
    at, most = [ticks(place) for place in ledger.stations_mm], ticks(ledger.spacing_most_mm)
    for before, after in pairwise([start, *at, end]):
        if not 0 < after - before <= most:
            message = "fixings further apart than they may be, or out of order"
            yield off_by(ledger.mark, message, after - before, most, RAISED)
    for joist in offsets(plan):
        for place in at:
            away = abs(joist - place)
            if away < half:
                message = "a fixing behind a joist"
                yield off_by(ledger.mark, message, away, half, RAISED)


def _roomy(plan: Plan, found: set[Place], *, most: bool) -> set[Place]:
    """Return every place at a high post where a brace finds room, the others being as found.

    With `most` joists reach as far as they may, else as far as they surely do.
    """
    stand = stand_of(plan)
    high = {post.mark for post in _high(stand)}
    return {
        (post.mark, way, hand)
        for bearer in stand.bearers
        for post in posts_on(stand, bearer)
        if post.mark in high
        for way, reach in (("along", (ticks(bearer.start_mm), ticks(bearer.end_mm))),
                           ("across", _joists_at(plan, bearer, post, most=most)))
        for hand, end in zip((-1, 1), reach, strict=True)
        if _has_room(stand, post, (way, hand, end), found)
    }  # fmt: skip


def _has_room(
    stand: RaisedFrame, post: Post, where: tuple[str, int, int], found: set[Place]
) -> bool:
    """Return whether a leg fits before the timber's end and the faces of posts on the way.

    Two legs have to, up to a post that is braced back.
    """
    way, hand, end = where
    leg, (at, half, aside) = ticks(stand.bracing.leg_mm), _seen_from(post, way)
    if hand * (end - at) - half < leg:
        return False
    for other in stand.posts:
        place, their_half, their_aside = _seen_from(other, way)
        apart = hand * (place - at)
        if apart > 0 and abs(aside - their_aside) < _beside(post, other, way):
            legs = 2 if (other.mark, way, -hand) in found else 1
            if apart - half - their_half < legs * leg:
                return False
    return True


def _seen_from(post: Post, way: str) -> tuple[int, int, int]:
    """Return a post's place one way, half its size that way, and its place the other way."""
    along, across = ticks(post.place.along_mm), ticks(post.place.across_mm)
    if way == "along":
        return along, ceil_div(ticks(post.section.breadth_mm), 2), across
    return across, ceil_div(ticks(post.section.depth_mm), 2), along


def _beside(post: Post, other: Post, way: str) -> int:
    """Return how far out of line two posts are whose braces are clear of each other.

    On one bearer they never are; on two, where a post's breadth is clear between them: no joist
    serves both.
    """
    if way == "along":
        return 1 if post.bearer == other.bearer else 0
    return ticks(post.section.breadth_mm) + ticks(other.section.breadth_mm)


def _joists_at(plan: Plan, bearer: Bearer, post: Post, *, most: bool) -> tuple[int, int]:
    """Return from where to where joists run past a post; in the bays beside it where they hang.

    Where none hangs on a face of its bearer they end there.
    """
    if plan.subframe is not None:
        return _nearest_joists(plan, bearer, post, most=most)
    stand = stand_of(plan)
    before, after = ticks(stand.joist_from_mm), ticks(stand.joist_to_mm)
    for face in (face for face in bands(plan) if face.mark == bearer.mark):
        stretches = between(plan)
        before = next((near for near, far in stretches if far == face.near), face.near)
        after = next((far for near, far in stretches if near == face.far), face.far)
    return before, after


def _nearest_joists(plan: Plan, bearer: Bearer, post: Post, *, most: bool) -> tuple[int, int]:
    """Return from where to where the joists on a bearer run that lie nearest to a post.

    At a free end a rim lies beyond them, square or aslant: it makes them longer by two timbers
    at the most, and surely by nothing.
    """
    across, along = ticks(bearer.across_mm), ticks(post.place.along_mm)
    thick = ticks(subframe_of(plan).timber_thickness_mm)
    start, end = ticks(bearer.start_mm), ticks(bearer.end_mm)
    over = [joist for joist in joists_of(plan) if across in joist.rests
            and start <= joist.at - thick // 2 and joist.at + thick // 2 <= end]  # fmt: skip
    away = min((abs(joist.at - along) for joist in over), default=0)
    near = [joist for joist in over if abs(joist.at - along) == away]
    rim = 2 * thick if most else 0
    lows = [joist.low - (0 if joist.low in joist.rests else rim) for joist in near]
    highs = [joist.high + (0 if joist.high in joist.rests else rim) for joist in near]
    if most:
        return min(lows, default=across), max(highs, default=across)
    return max(lows, default=across), min(highs, default=across)


def _high(stand: RaisedFrame) -> list[Post]:
    over = ticks(stand.bracing.over_mm)
    return [post for post in stand.posts if ticks(post.length_mm) > over]


def high_posts_are_braced(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each brace left out, or set where there is no room, or no high post."""
    stand = stand_of(plan)
    yield from same_length(
        "raised.frame.bracing.over_mm", "not the height over which posts are braced",
        stand.bracing.over_mm, ticks(deck_of(plan).brace_over_mm), RAISED,
    )  # fmt: skip
    found = [(brace.post, brace.way, brace.hand) for brace in stand.bracing.braces]
    for place in sorted(_roomy(plan, set(found), most=False) - set(found)):
        message = f"no brace {place[1]}, {_hand(place[2])}, and there is room for one"
        yield Flaw(subject=place[0], message=message, source=RAISED)
    roomy = _roomy(plan, set(found), most=True)
    for place in found:
        if place not in roomy or found.count(place) > 1:
            message = f"a brace {place[1]}, {_hand(place[2])}, without room, twice or without need"
            yield Flaw(subject=place[0], message=message, source=RAISED)
    for post in _high(stand):
        for way in ("along", "across"):
            if not any(place[:2] == (post.mark, way) for place in found) and not stopped(plan):
                message = f"so high a post has no brace {way}, and nothing stops the plan"
                over = ticks(stand.bracing.over_mm)
                yield off_by(post.mark, message, ticks(post.length_mm), over, RAISED)
    yield from _leaning(plan)


def _hand(hand: int) -> str:
    return "towards the datum" if hand < 0 else "away from the datum"


def _leaning(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where all braces lean one way and no finding tells it."""
    stand = stand_of(plan)
    hands: dict[str, set[int]] = {}
    bearer_of = {post.mark: post.bearer for post in stand.posts}
    for brace in stand.bracing.braces:
        if brace.way == "along":
            hands.setdefault(bearer_of.get(brace.post, ""), set()).add(brace.hand)
        elif stand.ledger is None:
            hands.setdefault("joists", set()).add(brace.hand)
    for subject, ways in hands.items():
        if len(ways) == 1 and not told(plan, "RSD-006", subject):
            message = "all braces lean one way, and no finding tells it"
            yield Flaw(subject=subject, message=message, source=RAISED)


def braces_are_as_long_as_they_lie(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each brace whose leg or length is not that of a brace at 45 degrees."""
    stand = stand_of(plan)
    leg = ticks(stand.bracing.leg_mm)
    deep = max((ticks(bearer.section.depth_mm) for bearer in stand.bearers), default=0)
    if stand.bracing.braces and not deep < leg <= ticks(stand.bracing.over_mm):
        message = "a leg that ends above the post or below its foot"
        yield off_by("raised.frame.bracing.leg_mm", message, leg, deep, RAISED)
    for number, brace in enumerate(stand.bracing.braces, 1):
        yield from same_text(brace.mark, "wrong mark", brace.mark, f"K{number}", RAISED)
        yield from same_length(brace.mark, "not the leg told", brace.leg_mm, leg, RAISED)
        message = "not as long as from post to timber, at 45 degrees"
        yield from same_length(brace.mark, message, brace.length_mm, _slant(brace), RAISED)


def _slant(brace: Brace) -> int:
    """Return the length at 45 degrees over a leg, up to the next 1/320 mm."""
    square = 2 * ticks(brace.leg_mm) ** 2
    down = isqrt(square)
    return down if down * down == square else down + 1


def joists_reach_as_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where joists are told to reach further than the frame, or short of a bearer."""
    stand = stand_of(plan)
    near, far = frame_across(plan)
    start, end = ticks(stand.joist_from_mm), ticks(stand.joist_to_mm)
    if not near <= start < end <= far:
        message = "joists are told to reach past the frame"
        yield off_by("raised.frame.joist_to_mm", message, end, far, RAISED)
    for bearer in stand.bearers:
        half, at = broad(bearer) // 2, ticks(bearer.across_mm)
        if not start <= at - half < at + half <= end:
            message = "joists are told to end short of it"
            yield off_by(bearer.mark, message, at, end, RAISED)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-322", "a ledger is the rim at the house, on a sound wall",
     the_ledger_is_the_rim_on_a_sound_wall),
    ("AUD-323", "fixings of a ledger are near enough, none behind a joist",
     fixings_of_the_ledger_hold_it),
    ("AUD-324", "high posts are braced wherever there is room", high_posts_are_braced),
    ("AUD-325", "braces are as long as they lie", braces_are_as_long_as_they_lie),
    ("AUD-326", "joists reach over the bearers as told", joists_reach_as_told),
)  # fmt: skip
