"""Tiles lie loose: nothing is screened as if they shared load or held anything upright."""

from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.flaws import same_count
from drylay.audit.frame import frame_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import stopped
from drylay.audit.strength_asked import STRENGTH, strength_of
from drylay.audit.strength_checks import figures
from drylay.audit.tiles import are_wooden, tiling_of
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.strength.model import BeamAsked, PostAsked, Screened

#: Low posts stand without braces: DCA 6, from memory.
LOW = 600
#: A frame under tiles that break sags by this part of its span at most: docs/conventions.md.
SAG_OVER = 500
#: Factors on strength of members that share load: EN 1995-1-1 6.6; NDS 4.3.9.
SHARING = ("k_sys", "Cr bending")


def loose_tiles_hold_nothing(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a member is screened as if boards were screwed down over it."""
    tiling_of(plan)
    strength = strength_of(plan)
    message = "boards asked about, and there are none"
    yield from same_count("strength.boards", message, len(strength.boards), 0, STRENGTH)
    for beam in strength.beams:
        yield from _alone(plan, beam)
    for screened in strength.screened:
        yield from _unshared(screened)
    for post in strength.posts:
        yield from _upright(plan, post)


def _alone(plan: Plan, beam: BeamAsked) -> Iterator[Flaw]:
    if beam.kind != "joist":
        return
    message = "joists asked about as sharing what is spread"
    yield from same_count(beam.subject, message, beam.alike, 1, STRENGTH)
    least = frame_of(plan).noggin_spacing_most_mm
    if ticks(beam.held_each_mm) < ticks(least):
        message = "asked about as held closer than noggins do it"
        yield Flaw(subject=beam.subject, message=message, measured=beam.held_each_mm, limit=least,
                   unit="mm", source=STRENGTH)  # fmt: skip


def _unshared(screened: Screened) -> Iterator[Flaw]:
    for check in screened.checks:
        known = figures(check)
        more = max(known.get(name, 1.0) for name in SHARING)
        if more > 1:
            message = f"{check.name}: stronger for what it shares"
            yield Flaw(subject=screened.subject, message=message, measured=more, limit=1.0,
                       source=STRENGTH)  # fmt: skip


def _upright(plan: Plan, post: PostAsked) -> Iterator[Flaw]:
    braces = plan.raised.frame.bracing.braces if plan.raised is not None else ()
    braced = any(brace.post == post.subject for brace in braces)
    if post.braced and not braced and ticks(post.length_mm) > ticks(LOW):
        message = "asked about as held at its head, and no brace holds it"
        yield Flaw(subject=post.subject, message=message, measured=post.length_mm,
                   limit=float(LOW), unit="mm", source=STRENGTH)  # fmt: skip


def sag_under_tiles_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a frame that sags too much for brittle tiles is cautioned of it."""
    strength = strength_of(plan)
    if stopped(plan) or are_wooden(plan):
        return
    over = any(_sags(screened) for screened in strength.screened[: len(strength.beams)])
    told = {each.severity for each in plan.findings if each.code == "TIL-014"}
    if over != (Severity.CAUTION in told):
        message = "no caution that it sags much" if over else "cautioned of a sag that is none"
        yield Flaw(subject="TIL-014", message=message, source=STRENGTH)


def _sags(screened: Screened) -> bool:
    """Whether a span goes down by more than a 500th at once, as its basis tells."""
    for check in screened.checks:
        words, known = set(check.name.replace(",", "").split()), figures(check)
        span = known.get("length_mm", known.get("part_mm", 0.0))
        of_a_span = "deflection" in words and not words & {"cantilever", "final"}
        if of_a_span and check.measured * SAG_OVER > span:
            return True
    return False


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-377", "loose tiles neither share load nor hold anything upright",
     loose_tiles_hold_nothing),
    ("AUD-378", "a frame that sags much under tiles is cautioned of it", sag_under_tiles_is_told),
)  # fmt: skip
