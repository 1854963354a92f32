"""Checks of guards' posts worked out again: a couple of two bolts, the wood left, washer, steel.

Nothing of this is a design: it is a floor under what is stated, and a ceiling over its limits.
"""

import re
from collections.abc import Iterator
from math import pi

from attrs import frozen

from drylay.audit.flaws import NothingToMeasure
from drylay.audit.guard_posts_asked import guard_posts_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.strength_asked import STRENGTH, strength_of
from drylay.audit.strength_checks import GAMMA_LEAST, K_MOD, NOISE, figures
from drylay.plan.model import Plan
from drylay.strength.model import Check, GuardPostAsked, Screened

#: What a foot is checked for by any basis that works by stresses.
NAMES = ("bending", "shear", "washer bearing", "bolt in tension")
#: Factor on imposed load of EN 1990, UK annex; what wood bears under a washer beside plain
#: bearing, EN 1995-1-1 8.5.2; gamma M2 and k2 of EN 1993-1-8 table 3.4; all from memory.
ON_IMPOSED, UNDER_WASHER, STEEL = 1.5, 3.0, 0.9 / 1.25
#: f c,90,k in N/mm2 of EN 338:2016, from memory.
ACROSS = {
    "C14": 2.0, "C16": 2.2, "C18": 2.2, "C20": 2.3, "C22": 2.4, "C24": 2.5, "C27": 2.5,
    "C30": 2.7, "C35": 2.7, "C40": 2.8, "C45": 2.9, "C50": 3.0,
}  # fmt: skip
#: Stress areas of coarse threads in mm2, ISO 898-1, and tensile strengths in N/mm2 by property
#: class, EN 1993-1-8 table 3.1 and EN ISO 3506-1, from memory.
AREAS = {8: 36.6, 10: 58.0, 12: 84.3, 16: 157.0, 20: 245.0}
TENSILE = {"4.6": 400, "4.8": 400, "5.6": 500, "5.8": 500, "8.8": 800, "A2-70": 700, "A4-70": 700}
#: The most that any wood of the NDS tables bears across the grain, 625 psi of Douglas fir-larch
#: and its wet factor 0.67, and A307 steel in tension, 20 ksi: from memory, in N/mm2.
PSI = 4.4482216152605 / 25.4**2
ACROSS_MOST, A307 = 625 * 0.67 * PSI, 20_000 * PSI
THREAD = re.compile(r"M(\d+) (\S+)", re.IGNORECASE)
INCHES = re.compile(r"(\d)/(\d) ?in A307", re.IGNORECASE)


@frozen(kw_only=True)
class Couple:
    """What a push does to a post's foot: its moment in kN m, forces in kN, factors in."""

    moment_kn_m: float
    shear_kn: float
    upper_kn: float


def couple_of(asked: GuardPostAsked, factor: float) -> Couple:
    """Return what the greater of both loads does, by statics of two bolts."""
    push = factor * max(asked.line_kn_m * asked.centres_mm / 1000, asked.point_kn)
    lower = push * asked.rail_mm / asked.bolts_mm
    return Couple(
        moment_kn_m=push * asked.rail_mm / 1000, shear_kn=max(push, lower), upper_kn=push + lower
    )


def _by_ec5(screened: Screened) -> bool:
    return any("k_mod" in figures(check) for check in screened.checks)


def _asked_and_answered(plan: Plan) -> Iterator[tuple[GuardPostAsked, Screened]]:
    asked = {each.subject: each for each in guard_posts_of(plan)}
    if not asked:
        raise NothingToMeasure("no basis was asked about guards' posts")
    for screened in strength_of(plan).screened:
        known = asked.get(screened.subject)
        if known is not None and known.bolts_mm > 0 and screened.checks:
            yield known, screened


def feet_bear_their_push(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each moment, shear and pull below statics, each stress not over its wood."""
    for asked, screened in _asked_and_answered(plan):
        own = couple_of(asked, ON_IMPOSED if _by_ec5(screened) else 1.0)
        names = {check.name for check in screened.checks}
        told = any(f.code == "STR-012" and f.subject == asked.subject for f in plan.findings)
        for name in NAMES:
            if name not in names and not told:
                message = f"nothing is told of {name}"
                yield Flaw(subject=asked.subject, message=message, source=STRENGTH)
        for check in screened.checks:
            yield from _effect(check, own)
            yield from _stress(check, asked)


def _effect(check: Check, own: Couple) -> Iterator[Flaw]:
    known = figures(check)
    for name, found, wanted, unit in (
        ("bending", known.get("moment_kn_m", 0.0), own.moment_kn_m, "kN m"),
        ("shear", known.get("shear_kn", 0.0), own.shear_kn, "kN"),
        ("washer bearing", check.measured, own.upper_kn, "kN"),
        ("bolt in tension", check.measured, own.upper_kn, "kN"),
    ):
        if check.name == name and found < wanted * (1 - NOISE):
            message = f"{name}: less than the push on its top gives"
            yield Flaw(subject=check.subject, message=message, measured=found, limit=wanted,
                       unit=unit, source=STRENGTH)  # fmt: skip


def _stress(check: Check, asked: GuardPostAsked) -> Iterator[Flaw]:
    """Yield a flaw unless a stress is its effect over the wood beside the bolt's hole."""
    known, deep = figures(check), asked.section.depth_mm
    left = asked.section.breadth_mm - (diameter_mm(asked.bolt) or 0.0)
    broad = known.get("breadth_less_hole_mm", known.get("breadth_mm", left))
    if broad > left * (1 + NOISE):
        message = f"{check.name}: more wood than the bolt leaves"
        yield _over(check, message, broad, left, "mm")
    wanted = {
        "bending": known.get("moment_kn_m", 0.0) * 1e6 / (left * deep**2 / 6),
        "shear": 1.5 * known.get("shear_kn", 0.0) * 1e3 / (known.get("k_cr", 1.0) * left * deep),
    }.get(check.name, 0.0)
    if check.measured < wanted * (1 - NOISE):
        message = f"{check.name}: less than its effect over the wood left"
        yield _over(check, message, check.measured, wanted, check.unit)


def diameter_mm(bolt: str) -> float | None:
    """Return a bolt's diameter by what it is called, None where that tells none."""
    said = " ".join(bolt.split())
    if found := THREAD.fullmatch(said):
        return float(found[1])
    if found := INCHES.fullmatch(said):
        return 25.4 * int(found[1]) / max(1, int(found[2]))
    return None


def _over(check: Check, message: str, found: float, wanted: float, unit: str) -> Flaw:
    return Flaw(subject=check.subject, message=message, measured=found, limit=wanted, unit=unit,
                source=STRENGTH)  # fmt: skip


def feet_are_held_against_no_more(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each washer and bolt of a known kind that is told to bear more than it."""
    for asked, screened in _asked_and_answered(plan):
        most = dict(_most_kn(asked, ec5=_by_ec5(screened)))
        for check in screened.checks:
            limit = most.get(check.name)
            if limit is not None and check.limit > limit * (1 + NOISE):
                message = f"{check.name}: told to bear more than it does"
                yield _over(check, message, check.limit, limit, "kN")


def _most_kn(asked: GuardPostAsked, *, ec5: bool) -> Iterator[tuple[str, float]]:
    """Yield the most that washer and bolt bear, where their kinds are known here."""
    wide = diameter_mm(asked.bolt)
    if wide is None:
        return
    ring = pi * max(0.0, asked.washer_mm**2 - wide**2) / 4000
    if not ec5:
        yield "washer bearing", ACROSS_MOST * ring
        yield "bolt in tension", A307 * pi * wide**2 / 4000
        return
    known = [ACROSS[wood] for wood in (asked.wood, asked.edge_wood) if wood in ACROSS]
    if known:
        strong = UNDER_WASHER * K_MOD["short"] / GAMMA_LEAST
        yield "washer bearing", min(known) * strong * ring
    grade = " ".join(asked.bolt.split()).partition(" ")[2].upper()
    if grade in TENSILE and wide in AREAS:
        yield "bolt in tension", TENSILE[grade] * AREAS[int(wide)] * STEEL / 1000


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-366", "guards' posts bear the push on their tops at their feet", feet_bear_their_push),
    ("AUD-367", "washers and bolts of guards' posts bear no more than they do",
     feet_are_held_against_no_more),
)  # fmt: skip
