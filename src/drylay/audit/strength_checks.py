"""Checks of timber worked out again: effects by statics, stresses by section, limits as quoted."""

import re
from collections.abc import Iterator
from math import isfinite, pi, sqrt

from drylay.audit.exact import Fraction, ticks
from drylay.audit.flaws import same_length
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.strength_asked import (
    STRENGTH,
    as_told,
    beam_named,
    own_least_kn_m,
    sections_of,
    strength_of,
)
from drylay.audit.strength_effects import (
    Influences,
    Loads,
    Worst,
    factors_of,
    influences,
    kind_of,
    over_a_support,
    soft_of,
    worst_of,
)
from drylay.plan.model import Plan
from drylay.strength.model import BeamAsked, Check, PostAsked, Screened, Section

#: How far below our own a stated effect may lie: patterns are tried at a few places.
SLACK = 0.01
#: What floats may differ by, as a share.
NOISE = 1e-6
#: Factors on dead and other load of EN 1990 (6.10), (6.10a), (6.10b), UK annex, from memory.
EC5_FACTORS = {("1.35", "1.5"), ("1.35", "1.05"), ("1.249", "1.5")}
#: k mod outdoors (service class 3) of solid timber, EN 1995-1-1 table 3.1, from memory.
K_MOD = {"permanent": 0.5, "long": 0.55, "medium": 0.65, "short": 0.7, "instantaneous": 0.9}
#: f c,0,k and E 0,05 in N/mm2 of EN 338:2016, from memory.
PRESSED = {
    "C14": (16, 4700), "C16": (17, 5400), "C18": (18, 6000), "C20": (19, 6400), "C22": (20, 6700),
    "C24": (21, 7400), "C27": (22, 7700), "C30": (24, 8000), "C35": (25, 8700), "C40": (27, 9400),
    "C45": (29, 10100), "C50": (30, 10700),
}  # fmt: skip
#: The most that a factor of a limit may be: gamma M is the least, the others the greatest.
#: EN 1995-1-1 table 2.3, 6.6, 6.1.7 with its UK annex, 6.1.5, from memory.
MOST = {"k_sys": 1.1, "k_crit": 1.0, "k_cr": 0.67, "k_c,90": 1.0, "CL": 1.0, "CP": 1.0}
GAMMA_LEAST = 1.3
#: What dead load alone is held against is no less than this of what is for other load: by k mod.
LEAST_OF_DEAD = K_MOD["permanent"] / K_MOD["short"]
#: Which quoted figure each check states its effect as, and which of our own it is.
EFFECT = {
    "bending": ("moment_kn_m",), "shear": ("shear_kn",), "bearing": ("force_kn", "reaction_kn"),
}  # fmt: skip
#: What a limit of EN 1995-1-1 is the product of, besides k mod over gamma M.
PRODUCT = {
    "bending": ("f_m,k", "k_h", "k_sys", "k_crit"), "shear": ("f_v,k",),
    "bearing": ("f_c,90,k", "k_c,90"),
}  # fmt: skip
RATIO = re.compile(r"^([\d.]+) of the point load")


def figures(check: Check) -> dict[str, float]:
    """Return the figures that a check quotes, by name."""
    return {name: float(value) for name, value in check.inputs
            if isinstance(value, int | float)}  # fmt: skip


def words(check: Check) -> dict[str, str]:
    """Return the words that a check quotes, by name."""
    return {name: value for name, value in check.inputs if isinstance(value, str)}


def _stated(check: Check) -> float | None:
    known = figures(check)
    return next((abs(known[name]) for name in EFFECT.get(check.name, ()) if name in known), None)


def loads_on(plan: Plan, beam: BeamAsked, case: str, screened: Screened) -> Loads:
    """Return what lies on a beam at the very least, with the factors that a case tells."""
    strength = strength_of(plan)
    on_dead, on_other = factors_of(case)
    strip = Fraction(ticks(beam.carried_mm), 320_000)
    dead = (as_told(strength.dead_kn_m2) + as_told(strength.heavier_kn_m2)) * strip
    if strength.own_weight_apart:
        dead += own_least_kn_m(beam.section)
        dead += _joists_kn_m2(plan) * strip if beam.kind == "bearer" else 0
    return Loads(
        dead_kn_m=on_dead * float(dead),
        spread_kn_m=on_other * float(as_told(strength.imposed_kn_m2) * strip),
        point_kn=on_other * strength.point_kn,
        shared=_shared(beam, screened),
    )


def _joists_kn_m2(plan: Plan) -> Fraction:
    """Return what joists weigh on a square metre of deck at the very least."""
    least = Section(breadth_mm=thickness_of(plan) / 320, depth_mm=frame_of(plan).timber_depth_mm)
    apart = beam_named(strength_of(plan), "joists")
    return own_least_kn_m(least) * 320_000 / ticks(apart.carried_mm) if apart else Fraction(0)


def _shared(beam: BeamAsked, screened: Screened) -> float:
    """Return what of a point load one joist bears mid-span: all, unless what is assumed tells."""
    found = [RATIO.match(assumed) for assumed in screened.assumed]
    told = next((float(match[1]) for match in found if match), 1.0)
    return told if beam.kind == "joist" else 1.0


def effects_are_no_less_than_statics(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each moment, shear and bearing stated below our own by more than 1 %."""
    strength = strength_of(plan)
    for screened in strength.screened:
        beam = beam_named(strength, screened.subject)
        if beam is None or not stands(beam):
            continue
        found = influences(beam, soft_of(beam, screened))
        for check in screened.checks:
            stated = _stated(check)
            if stated is None:
                continue
            loads = loads_on(plan, beam, check.case, screened)
            own = _own(check, worst_of(found, loads)[kind_of(check)])
            own *= _bears_longer(beam, check)
            if stated < own * (1 - SLACK):
                message = f"{check.name}: less than statics of its loads give"
                yield _less(check, message, stated, own)
        yield from _no_other_kind_is_worse(plan, beam, screened, found)


def _no_other_kind_is_worse(
    plan: Plan, beam: BeamAsked, screened: Screened, found: Influences
) -> Iterator[Flaw]:
    """Yield a flaw where another load case uses a member more, however little it is held against.

    The other's limit is taken as large as it can be: with the longest k mod, nothing turning over.
    """
    loads = loads_on(plan, beam, "1.35 G + 1.5 q" if _by_ec5(screened) else "", screened)
    every = worst_of(found, loads).values()
    for check in screened.checks:
        stated = _stated(check)
        if stated and check.limit > 0:
            most = max(
                max(_own_by(check, worst, side) for worst in every) for side in (True, False)
            )
            most *= _bears_longer(beam, check)
            used = check.measured * most / stated / _limit_most(check)
            if used > check.utilisation_ratio * (1 + SLACK) + NOISE:
                message = f"{check.name}: another load case uses it more than is told"
                yield _less(check, message, check.utilisation_ratio, used, unit="")


def _bears_longer(beam: BeamAsked, check: Check) -> float:
    """Return how much less of a bearing's force counts, where it may be that of the longer one.

    Beside a cantilever a joist bears on 30 mm more to both sides, at its end to one side.
    """
    known, out = figures(check), ticks(beam.bearing_mm)
    ends = (ticks(beam.supports_mm[0]), ticks(beam.length_mm) - ticks(beam.supports_mm[-1]))
    reaches = beam.kind == "joist" and len(beam.supports_mm) == 2 and max(ends) > out
    if check.name != "bearing" or "l_ef" not in known or not reaches:
        return 1.0
    return known["l_ef"] / (beam.bearing_mm + 2 * min(30.0, beam.bearing_mm))


def _by_ec5(screened: Screened) -> bool:
    return any(check.case.startswith("6.10") for check in screened.checks)


def _limit_most(check: Check) -> float:
    """Return the most that a check's limit can be in any load case."""
    known, limit = figures(check), check.limit
    limit *= K_MOD["short"] / known["k_mod"] if known.get("k_mod") else 1.0
    limit *= MOST["k_sys"] / known["k_sys"] if known.get("k_sys") else 1.0
    for name in ("k_crit", "CL", "CD bending", "CD shear"):
        limit /= known[name] if 0 < known.get(name, 1.0) < 1 else 1.0
    return limit


def _own(check: Check, worst: Worst) -> float:
    return _own_by(check, worst, over_a_support(check))


def _own_by(check: Check, worst: Worst, over: bool) -> float:
    if check.name == "bending":
        return worst.hogging if over else worst.sagging
    return worst.shear if check.name == "shear" else worst.force


def _less(check: Check, message: str, found: float, wanted: float, *, unit: str = "kN") -> Flaw:
    unit = "kN m" if check.name == "bending" and unit else unit
    return Flaw(subject=check.subject, message=message, measured=found, limit=wanted, unit=unit,
                source=STRENGTH)  # fmt: skip


def stands(beam: BeamAsked) -> bool:
    """Whether a beam has two supports or more, in order: others are told by AUD-331 and AUD-332."""
    at = [ticks(place) for place in beam.supports_mm]
    apart = at == sorted(set(at)) and len(at) > 1
    return apart and at[0] >= 0 and at[-1] <= ticks(beam.length_mm)


def stresses_follow_from_sections(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each stress that is not its effect over the member's section."""
    strength = strength_of(plan)
    sections = dict(sections_of(strength))
    for screened in strength.screened:
        section = sections.get(screened.subject)
        for check in screened.checks if section else ():
            wanted = None if section is None else _stress(check, section)
            if wanted is not None and not _alike(check.measured, wanted):
                message = f"{check.name}: not its effect over the section"
                yield _differ(check, message, check.measured, wanted)


def _alike(found: float, wanted: float) -> bool:
    return isfinite(wanted) and abs(found - wanted) <= NOISE * max(wanted, 1e-3)


def _stress(check: Check, section: Section) -> float | None:
    """Return the stress of a check by its stated effect; None where it states none."""
    stated, known = _stated(check), figures(check)
    broad, deep = section.breadth_mm * section.plies, section.depth_mm
    if check.name == "column buckling":
        return known.get("load_kn", 0.0) * 1e3 / (broad * deep)
    if stated is None:
        return None
    if check.name == "bending":
        return stated * 1e6 / (broad * deep**2 / 6)
    if check.name == "shear":
        return 1.5 * stated * 1e3 / (known.get("k_cr", 1.0) * broad * deep)
    rests = known.get("bearing_mm", 0.0)
    borne = min(known.get("l_ef", rests), rests + 2 * min(30.0, rests))
    return stated * 1e3 / (broad * borne) if borne > 0 else float("inf")


def _differ(check: Check, message: str, found: float, wanted: float) -> Flaw:
    return Flaw(subject=check.subject, message=message, measured=found, limit=wanted,
                unit=check.unit, source=STRENGTH)  # fmt: skip


def limits_follow_from_their_values(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each limit that is not the product of what it quotes, or quotes too much."""
    sections = dict(sections_of(strength_of(plan)))
    for screened in strength_of(plan).screened:
        section = sections.get(screened.subject)
        for check in screened.checks:
            yield from _factors(check)
            yield from _sized(check, section)
            wanted = _limit(check)
            if wanted is not None and not _alike(check.limit, wanted):
                message = f"{check.name}: its limit is not what its values come to"
                yield _differ(check, message, check.limit, wanted)


def _limit(check: Check) -> float | None:
    """Return the limit of a check from the values it quotes; None where it does not quote them."""
    known = figures(check)
    if check.name not in PRODUCT or "k_mod" not in known or not known.get("gamma_M"):
        return None
    strong = known["k_mod"] / known["gamma_M"]
    for name in PRODUCT.get(check.name, ()):
        strong *= known.get(name, 0.0)
    return strong


def _factors(check: Check) -> Iterator[Flaw]:
    """Yield a flaw for each factor that is more than a standard lets it be."""
    known, said = figures(check), words(check)
    most = {name: value for name, value in MOST.items() if name in known}
    if "k_mod" in known:
        most["k_mod"] = K_MOD.get(said.get("duration", ""), 0.0)
    if "f_m,k" in known and said.get("class", "")[1:].isdigit():
        most["f_m,k"] = float(said["class"][1:])  # a class is called by it
    if "k_h" in known:
        deep = known.get("depth_mm", 150.0)
        most["k_h"] = min(1.3, (150 / deep) ** 0.2) if 0 < deep < 150 else 1.0
    for name, limit in most.items():
        if known[name] > limit * (1 + NOISE):
            message = f"{check.name}: {name} is more than it may be"
            yield Flaw(subject=check.subject, message=message, measured=known[name], limit=limit,
                       source=STRENGTH)  # fmt: skip
    if known.get("gamma_M", GAMMA_LEAST) < GAMMA_LEAST:
        message = f"{check.name}: gamma_M is less than it may be"
        yield Flaw(subject=check.subject, message=message, measured=known["gamma_M"],
                   limit=GAMMA_LEAST, source=STRENGTH)  # fmt: skip
    told = re.match(r"6\.10[ab]?: ([\d.]+) G \+ ([\d.]+) ", check.case)
    if told and told.groups() not in EC5_FACTORS:
        message = f"{check.name}: loads with other factors: {check.case}"
        yield Flaw(subject=check.subject, message=message, source=STRENGTH)


def _sized(check: Check, section: Section | None) -> Iterator[Flaw]:
    """Yield a flaw where a check quotes another section than was asked about."""
    known = figures(check)
    for name in ("breadth_mm", "depth_mm", "plies"):
        if section is not None and name in known:
            message = f"{check.name}: {name} is not the member's"
            wanted = ticks(getattr(section, name))
            yield from same_length(check.subject, message, known[name], wanted, STRENGTH)


def posts_bear_what_comes_down(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each post checked with another load or length, or buckling left out."""
    strength = strength_of(plan)
    asked = {post.subject: post for post in strength.posts}
    for screened in strength.screened:
        post = asked.get(screened.subject)
        if post is None or screened.stops:
            continue
        checks = [check for check in screened.checks if "buckling" in check.name]
        if not checks:
            message = "a post is not checked for buckling"
            yield Flaw(subject=post.subject, message=message, source=STRENGTH)
        for check in checks:
            yield from _pressed(check, post, strength.point_kn)
            yield from _buckled(check, post)


def _pressed(check: Check, post: PostAsked, point_kn: float) -> Iterator[Flaw]:
    known = figures(check)
    on_dead, on_other = factors_of(check.case)
    other = {"dead": 0.0, "point": point_kn, "spread": post.live_kn}[kind_of(check)]
    wanted = on_dead * post.dead_kn + on_other * other
    stated = known.get("force_kn", known.get("load_kn", 0.0))
    if stated < wanted * (1 - NOISE):
        message = f"{check.name}: less than comes down it"
        yield _less(check, message, stated, wanted)
    dead, live = (1.35, 1.5) if check.case.startswith("6.10") else (1.0, 1.0)
    worst = dead * post.dead_kn + live * max(post.live_kn, point_kn)
    # dead load alone is held against less strength
    worst *= LEAST_OF_DEAD if kind_of(check) == "dead" else 1.0
    if stated < worst * (1 - NOISE):
        message = f"{check.name}: another load case brings more down it"
        yield _less(check, message, stated, worst)
    message = f"{check.name}: not as long as the post"
    length = ticks(post.length_mm)
    yield from same_length(check.subject, message, known.get("length_mm", 0.0), length, STRENGTH)


def _buckled(check: Check, post: PostAsked) -> Iterator[Flaw]:
    """Yield a flaw unless buckling is reckoned from the post's own slenderness."""
    known, side = figures(check), min(post.section.breadth_mm, post.section.depth_mm)
    if "slenderness" in known and abs(known["slenderness"] - post.length_mm / side) > NOISE:
        message = f"{check.name}: not its length over its side"
        yield _differ(check, message, known["slenderness"], post.length_mm / side)
    if "k_c_weak" not in known:
        return
    wanted = 1.0 if post.braced else 2.0
    if known.get("effective_length_over_length", 0.0) < wanted:
        message = f"{check.name}: its head may sway, and it is taken as held"
        yield _differ(check, message, known.get("effective_length_over_length", 0.0), wanted)
    straight = known.get("f_c,0,d", 0.0)
    bears = known.get("force_kn", 0.0) * 1e3
    bears /= post.section.breadth_mm * post.section.depth_mm * max(straight, NOISE)
    used = bears / max(min(known["k_c_weak"], known["k_c_strong"]), NOISE)
    if check.measured < used * (1 - NOISE):
        message = f"{check.name}: not what its values come to"
        yield _differ(check, message, check.measured, used)
    quoted = PRESSED.get(words(check).get("class", ""))
    if quoted is not None:
        strength, stiff = quoted
        most = _k_c(post.length_mm * wanted / side, strength, stiff)
        if known["k_c_weak"] > most * (1 + SLACK):
            message = f"{check.name}: k_c is more than its slenderness leaves"
            yield _differ(check, message, known["k_c_weak"], most)
        if straight > strength * K_MOD["short"] / GAMMA_LEAST * (1 + NOISE):
            message = f"{check.name}: f_c,0,d is more than its class bears"
            most = strength * K_MOD["short"] / GAMMA_LEAST
            yield _differ(check, message, straight, most)


def _k_c(slender: float, strength: float, stiff: float) -> float:
    """Return k c of EN 1995-1-1 (6.25) to (6.28) with beta c 0.2, from memory."""
    bent = slender * sqrt(12) / pi * sqrt(strength / stiff)
    k = 0.5 * (1 + 0.2 * (bent - 0.3) + bent**2)
    return 1.0 if bent <= 0.3 else 1 / (k + sqrt(k**2 - bent**2))


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-337", "moments, shears and bearings are no less than statics give",
     effects_are_no_less_than_statics),
    ("AUD-338", "stresses are effects over sections", stresses_follow_from_sections),
    ("AUD-339", "limits are what their quoted values come to", limits_follow_from_their_values),
    ("AUD-340", "posts bear what comes down them, buckling reckoned in",
     posts_bear_what_comes_down),
)  # fmt: skip
