"""Strength: was every member asked about, as the plan has it, and answered once, within limits?"""

from collections.abc import Iterator

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.flaws import (
    NothingToMeasure,
    need,
    same_count,
    same_length,
    same_text,
)
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import (
    deck_of,
    joist_rests,
    posts_along,
    posts_on,
    stand_of,
    stopped,
)
from drylay.audit.statics import carried_by
from drylay.audit.supports import bays
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.strength.model import BeamAsked, PostAsked, Section, Strength

STRENGTH = Source(kind="arithmetic", title="docs/strength.md", clause="statics and sections")
#: A member weighs at least this: no class of EN 338:2016 is lighter in the mean (C14, from memory).
LIGHTEST_KG_M3, GRAVITY = Fraction(350), Fraction("9.81")
#: What sums of floats may differ by, as a share.
NOISE = 1e-6


def strength_of(plan: Plan) -> Strength:
    """Return what the plan's timber was screened by, if it was."""
    return need(plan.strength, "strength")


def sections_of(strength: Strength) -> list[tuple[str, Section]]:
    """Return what was asked about with its section, in order: beams, posts, boards, ledgers."""
    found = [(beam.subject, beam.section) for beam in strength.beams]
    found += [(post.subject, post.section) for post in strength.posts]
    found += [(board.subject, board.section) for board in strength.boards]
    return found + [(ledger.subject, ledger.section) for ledger in strength.ledgers]


def beam_named(strength: Strength, subject: str) -> BeamAsked | None:
    """Return the joist or bearer that was asked about under a name."""
    return next((beam for beam in strength.beams if beam.subject == subject), None)


def as_told(figure: float) -> Fraction:
    """Return a figure as it is written."""
    return Fraction(repr(float(figure)))


def own_least_kn_m(section: Section) -> Fraction:
    """Return what a metre of a member weighs at the very least."""
    square = ticks(section.breadth_mm) * section.plies * ticks(section.depth_mm)
    return Fraction(square, (1000 * PER_MM) ** 2) * LIGHTEST_KG_M3 * GRAVITY / 1000


def every_member_is_asked_about(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every member that stands was asked about once, and answered in order."""
    strength = strength_of(plan)
    told = [screened.subject for screened in strength.screened]
    asked = [subject for subject, _section in sections_of(strength)]
    asked += [post.subject for post in strength.guard_posts]
    if told != asked:
        message = f"answered {', '.join(told)}; asked about {', '.join(asked)}"
        yield Flaw(subject="strength.screened", message=message, source=STRENGTH)
    wanted = _joists(plan, asked)
    if plan.raised is not None:
        stand = plan.raised.frame
        wanted += [bearer.mark for bearer in stand.bearers]
        wanted += [post.mark for post in stand.posts]
        wanted += [stand.ledger.mark] if stand.ledger is not None else []
    for subject in wanted:
        message = "members asked about under this name"
        yield from same_count(subject, message, asked.count(subject), 1, STRENGTH)
    # AUD-362 counts guards' posts
    wanted += [post.subject for post in strength.guard_posts]
    for subject in asked:
        if subject not in wanted and subject != "boards":
            message = "no such member stands in the plan"
            yield Flaw(subject=subject, message=message, source=STRENGTH)
    for screened in strength.screened:
        message = "another basis"
        if not screened.basis:
            yield Flaw(subject=screened.subject, message="no basis is told", source=STRENGTH)
        bases = {other.basis for other in strength.screened}
        yield from same_count(screened.subject, message, len(bases), 1, STRENGTH)


def _joists(plan: Plan, asked: list[str]) -> list[str]:
    """Return what joists are asked about as: under an outline by where they lie, and trimmers.

    Where a frame lies on the ground all along, they span nothing, and nothing is asked.
    """
    packed = plan.groundwork is not None and plan.groundwork.packing is not None
    if plan.raised is None and not packed:
        return []
    if plan.subframe is None:
        return ["joists"]
    own = [subject for subject in asked if subject.startswith(("joists at ", "TR"))]
    return list(dict.fromkeys(own)) or ["joists"]


def joists_are_asked_as_they_lie(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the joists asked about are the plan's, at its widest bay."""
    beam = need(beam_named(strength_of(plan), "joists"), "joists asked about")
    frame = frame_of(plan)
    yield from same_text("joists", "not a joist", beam.kind, "joist", STRENGTH)
    lengths = (
        ("breadth_mm", beam.section.breadth_mm, thickness_of(plan)),
        ("depth_mm", beam.section.depth_mm, ticks(frame.timber_depth_mm)),
    )
    for name, found, wanted in lengths:
        yield from same_length(f"joists: {name}", "not the frame's", found, wanted, STRENGTH)
    yield from same_count("joists: plies", "a joist is one", beam.section.plies, 1, STRENGTH)
    widest = max(bays(plan), default=0)
    message = "not the widest between two joists"
    yield from same_length("joists: carried_mm", message, beam.carried_mm, widest, STRENGTH)
    if plan.raised is not None:
        length, rests = joist_rests(plan)
        yield from _lies(beam, length, rests)


def bearers_are_asked_as_they_lie(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each bearer asked about has its own section, length, posts and width."""
    strength, stand = strength_of(plan), stand_of(plan)
    for bearer in stand.bearers:
        beam = beam_named(strength, bearer.mark)
        if beam is None:
            continue  # AUD-330 tells it
        yield from same_text(bearer.mark, "not a bearer", beam.kind, "bearer", STRENGTH)
        if beam.section != bearer.section:
            message = f"asked as {beam.section}, built as {bearer.section}"
            yield Flaw(subject=bearer.mark, message=message, source=STRENGTH)
        message = "not the width that it carries"
        carried = ticks(bearer.carried_mm)
        yield from same_length(bearer.mark, message, beam.carried_mm, carried, STRENGTH)
        length = ticks(bearer.end_mm) - ticks(bearer.start_mm)
        yield from _lies(beam, length, posts_along(stand, bearer))
        least = min((ticks(post.section.breadth_mm) for post in posts_on(stand, bearer)), default=0)
        if ticks(beam.bearing_mm) > least:
            message = "asked with a bearing broader than its posts"
            yield from same_length(bearer.mark, message, beam.bearing_mm, least, STRENGTH)


def _lies(beam: BeamAsked, length: int, rests: list[int]) -> Iterator[Flaw]:
    message = "not asked as long as it is"
    yield from same_length(beam.subject, message, beam.length_mm, length, STRENGTH)
    found = [ticks(place) for place in beam.supports_mm]
    message = "asked over other supports"
    yield from same_count(beam.subject, message, len(found), len(rests), STRENGTH)
    for place, wanted in zip(beam.supports_mm, rests, strict=False):
        yield from same_length(beam.subject, message, place, wanted, STRENGTH)


def posts_are_asked_with_their_loads(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each post asked about has its own size, and no less than its load."""
    strength, deck = strength_of(plan), deck_of(plan)
    asked = {post.subject: post for post in strength.posts}
    for bearer in deck.frame.bearers:
        posts = posts_on(deck.frame, bearer)
        long = ticks(bearer.end_mm) - ticks(bearer.start_mm)
        at = posts_along(deck.frame, bearer)
        shares = carried_by(at, long, deck.sharing) if _in_order(at, long) else []
        for post, share in zip(posts, shares, strict=False):
            found = asked.get(post.mark)
            if found is None:
                continue  # AUD-330 tells it
            if found.section != post.section:
                message = f"asked as {found.section}, built as {post.section}"
                yield Flaw(subject=post.mark, message=message, source=STRENGTH)
            message = "not asked as long as it is"
            yield from same_length(post.mark, message, found.length_mm,
                                   ticks(post.length_mm), STRENGTH)  # fmt: skip
            area = Fraction(ticks(bearer.carried_mm)) * share / (1000 * PER_MM) ** 2
            own = own_least_kn_m(bearer.section) * share / (1000 * PER_MM)
            yield from _load(strength, found, area, own if strength.own_weight_apart else own * 0)


def _in_order(at: list[int], long: int) -> bool:
    """Whether places are two or more, in order, on the beam: others are told by AUD-317."""
    return len(at) > 1 and at == sorted(set(at)) and at[0] >= 0 and at[-1] <= long


def _load(strength: Strength, post: PostAsked, area: Fraction, own: Fraction) -> Iterator[Flaw]:
    """Yield a flaw where less comes down a post than its area brings."""
    lying = as_told(strength.dead_kn_m2) + as_told(strength.heavier_kn_m2)
    wanted = {
        "dead_kn": area * lying + own,
        "live_kn": area * as_told(strength.imposed_kn_m2),
    }
    for name, load in wanted.items():
        found = getattr(post, name)
        if found < float(load) * (1 - NOISE):
            message = "less than its area brings down it"
            yield Flaw(subject=f"{post.subject}: {name}", message=message, measured=found,
                       limit=float(load), unit="kN", source=STRENGTH)  # fmt: skip


def checks_are_figure_over_limit(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every utilisation is its figure over its limit, the greatest first."""
    strength = strength_of(plan)
    most = 0.0
    for screened in strength.screened:
        used = [check.utilisation_ratio for check in screened.checks]
        if used != sorted(used, reverse=True):
            message = "its checks do not stand the most used first"
            yield Flaw(subject=screened.subject, message=message, source=STRENGTH)
        # boards that a basis does not screen are told of among what it assumes
        idle = screened.subject == "boards" and screened.assumed
        if not screened.checks and not screened.stops and not idle:
            message = "answered without a check, and nothing stops it"
            yield Flaw(subject=screened.subject, message=message, source=STRENGTH)
        for check in screened.checks:
            yield from same_text(screened.subject, "another member's check", check.subject,
                                 screened.subject, STRENGTH)  # fmt: skip
            # over a limit of nothing anything is too much
            ratio = check.measured / check.limit if check.limit > 0 else 1e9
            if abs(check.utilisation_ratio - ratio) > NOISE * max(1.0, ratio):
                message = f"{check.name}: not its figure over its limit"
                yield Flaw(
                    subject=check.subject, message=message, source=STRENGTH,
                    measured=check.utilisation_ratio, limit=ratio,
                )  # fmt: skip
            most = max(most, check.utilisation_ratio)
    if abs(strength.most_ratio - most) > NOISE:
        message = "not the greatest utilisation"
        yield Flaw(subject="strength.most_ratio", message=message, measured=strength.most_ratio,
                   limit=most, source=STRENGTH)  # fmt: skip


def what_is_over_its_limit_stops(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each member over its limit, or not covered, that does not stop the plan."""
    for screened in strength_of(plan).screened:
        codes = {
            finding.code
            for finding in plan.findings
            if finding.severity is Severity.STOP and finding.subject == screened.subject
        }
        over = [check for check in screened.checks if check.utilisation_ratio > 1]
        if over and "STR-001" not in codes:
            message = f"{over[0].name}: over its limit, and nothing stops the plan"
            yield Flaw(subject=screened.subject, message=message, limit=1.0,
                       measured=over[0].utilisation_ratio, source=STRENGTH)  # fmt: skip
        if screened.stops and "STR-002" not in codes:
            message = f"not covered, and nothing stops the plan: {screened.stops[0]}"
            yield Flaw(subject=screened.subject, message=message, source=STRENGTH)


def what_was_assumed_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless loads are told, and findings say what was assumed of how they fall."""
    strength = strength_of(plan)
    for name in ("dead_kn_m2", "imposed_kn_m2"):
        if getattr(strength, name) <= 0 and not stopped(plan):
            message = "no load lies on this deck"
            yield Flaw(subject=f"strength.{name}", message=message, source=STRENGTH)
    if not any(screened.assumed for screened in strength.screened):
        raise NothingToMeasure("the plan's strength assumes nothing")
    if not any(finding.code == "STR-003" for finding in plan.findings):
        message = "something was assumed, and no finding tells it"
        yield Flaw(subject="strength.screened", message=message, source=STRENGTH)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-330", "every member that stands is screened, once", every_member_is_asked_about),
    ("AUD-331", "joists are screened as they lie, at their widest bay",
     joists_are_asked_as_they_lie),
    ("AUD-332", "bearers are screened as they lie", bearers_are_asked_as_they_lie),
    ("AUD-333", "posts are screened as they stand, with what comes down them",
     posts_are_asked_with_their_loads),
    ("AUD-334", "utilisations are figures over limits, the greatest first",
     checks_are_figure_over_limit),
    ("AUD-335", "what is over its limit, or not covered, stops the plan",
     what_is_over_its_limit_stops),
    ("AUD-336", "loads are told, and what was assumed of them", what_was_assumed_is_told),
)  # fmt: skip
