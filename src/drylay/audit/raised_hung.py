"""Joists that hang between bearers: within these, in hangers whose load is told."""

from collections.abc import Iterator

from drylay.audit.between import between, hung
from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.flaws import need, off_by
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import RAISED, deck_of
from drylay.audit.strength_asked import NOISE, as_told, own_least_kn_m, strength_of
from drylay.audit.supports import bays
from drylay.brief.raised_model import JOISTS
from drylay.plan.model import Plan
from drylay.strength.model import Section


def joists_hang_within_bearers(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless joists lie over bearers or hang between them, no deeper than these."""
    deck = deck_of(plan)
    if deck.joists not in JOISTS:
        message = f"joists neither over nor between: {deck.joists!r}"
        yield Flaw(subject="raised.joists", message=message, source=RAISED)
    if (deck.hanger_kn is not None) != hung(plan):
        message = "what hangers carry is told just where joists hang between bearers"
        yield Flaw(subject="raised.hanger_kn", message=message, source=RAISED)
    deep = ticks(frame_of(plan).timber_depth_mm) if hung(plan) else 0
    for bearer in deck.frame.bearers:
        if ticks(bearer.section.depth_mm) < deep:
            message = "shallower than the joists that hang on it"
            yield off_by(bearer.mark, message, ticks(bearer.section.depth_mm), deep, RAISED)


def hangers_are_told_their_load(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where less is told to come down on a hanger than does, or no finding tells it.

    Half the longest part of a joist under the widest bay: for good, and what is spread on it or a
    point load beside the hanger.
    """
    deck, strength = deck_of(plan), strength_of(plan)
    told = need(deck.hanger_kn, "load of hangers")
    longest = max((far - near for near, far in between(plan)), default=0)
    half = Fraction(longest, 2 * 1000 * PER_MM)
    area = half * Fraction(max(bays(plan), default=0), 1000 * PER_MM)
    joist = Section(breadth_mm=thickness_of(plan) / PER_MM,
                    depth_mm=frame_of(plan).timber_depth_mm)  # fmt: skip
    own = own_least_kn_m(joist) * half if strength.own_weight_apart else Fraction(0)
    spread = area * as_told(strength.imposed_kn_m2)
    lying = as_told(strength.dead_kn_m2) + as_told(strength.heavier_kn_m2)
    load = area * lying + own + max(spread, as_told(strength.point_kn))
    if told < float(load) * (1 - NOISE):
        message = "less than comes down on a hanger"
        yield Flaw(subject="raised.hanger_kn", message=message, measured=told, limit=float(load),
                   unit="kN", source=RAISED)  # fmt: skip
    found = [finding for finding in plan.findings if finding.code == "RSD-018"]
    if [finding.measured for finding in found] != [told]:
        message = "no finding tells what comes down on a hanger, or not this"
        yield Flaw(subject="RSD-018", message=message, source=RAISED)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-369", "joists lie over bearers, or hang within their depth", joists_hang_within_bearers),
    ("AUD-375", "what comes down on a hanger is told, no less than it is",
     hangers_are_told_their_load),
)  # fmt: skip
