"""Joists and bearers as a design basis is asked for them, by Eurocode 5, over any supports."""

from collections.abc import Iterator

from attrs import evolve, frozen

from drylay.strength.basis_answers import refuse_beam
from drylay.strength.beam import effects_of, parts_of
from drylay.strength.checks import check
from drylay.strength.ec5_actions import own_weight_kn_m
from drylay.strength.ec5_asked import (
    ALIKE_TO_SHARE,
    DECK_DEAD_KN_M2,
    actions_for,
    grade_of,
    sharing_of,
)
from drylay.strength.ec5_checking import screened
from drylay.strength.ec5_continuous import Felt, continuous_effects, continuous_sags
from drylay.strength.ec5_joist import screen_joist
from drylay.strength.ec5_member import bearing, bending, effective_mm, shear
from drylay.strength.ec5_model import Actions, Choices, DesignCase, Joist, Restraint, Timber
from drylay.strength.ec5_sag import final_sag, instant_sag
from drylay.strength.ec5_simple import bending_stiffness_kn_m2, case_of, shear_stiffness_kn
from drylay.strength.ec5_values import ksys, number, source_of
from drylay.strength.model import Beam, BeamAsked, Check, LineLoad, PointLoad, Screened
from drylay.strength.patterns import point_loads

#: What sums of floats may leave where nothing lifts.
_NOISE_KN = 1e-9
_LIFTING = "1.1 G + 1.5 Q where they lift it, 0.9 G where it holds"


@frozen(kw_only=True)
class _Member:
    """A beam with its wood, and what lies on it."""

    asked: BeamAsked
    timber: Timber
    beam: Beam
    actions: Actions
    choices: Choices
    dead_kn_m: float
    imposed_kn_m: float


def screened_beam(asked: BeamAsked, use: str) -> Screened:
    """Return every check of a joist or a bearer over its supports, the governing one first.

    A joist over two supports, with at most one end past them and boards along its upper edge, is
    screened in closed form and may share a point load. Any other beam is taken as it is, spread
    load in every pattern and the point load whole on it.

    Raises:
        UncoveredError: The use, the wood or the sharing is not covered.
        InputError: The beam cannot stand, or a number is not what it can be.

    Source: EN 1995-1-1, EN 1990, EN 1991-1-1 and their UK annexes, see each check.
    """
    refuse_beam(asked)
    actions, grade = actions_for(use), grade_of(asked.wood)
    # only joists share a point load: of a bearer it is known that the word is one
    alike = asked.alike if asked.kind == "joist" else ALIKE_TO_SHARE
    sharing, stiff = sharing_of(asked.sharing, alike)
    choices = Choices(sharing=sharing)
    timber = Timber(name=asked.subject, section=asked.section, grade=grade)
    beam = _beam(asked, timber)
    effects_of(beam, [])  # refuses one that cannot stand
    if (ends := _simple_ends(asked)) is not None:
        joist = _joist(asked, timber, ends, stiff)
        found = screen_joist(joist, actions=actions, choices=choices)
        return evolve(found, assumed=(*found.assumed, dead_said(asked.more_dead_kn_m2)))
    strip = asked.carried_mm / 1e3
    member = _Member(
        asked=asked,
        timber=timber,
        beam=beam,
        actions=actions,
        choices=choices,
        dead_kn_m=(DECK_DEAD_KN_M2 + asked.more_dead_kn_m2) * strip
        + own_weight_kn_m(asked.section, grade),
        imposed_kn_m=actions.imposed_kn_m2 * strip,
    )
    return _over_supports(member)


def dead_said(more_kn_m2: float) -> str:
    """Return in words what is taken to lie on a member for good besides its own weight."""
    more = (
        f", and {more_kn_m2:.3g} kN/m2 more lie on it, of other members or a heavier cover"
        if more_kn_m2
        else ""
    )
    return (
        f"{DECK_DEAD_KN_M2:g} kN/m2 are taken for a cover and all that lies on the deck for good, "
        f"as of wood up to 28 mm thick{more}; planters and roofs are not covered"
    )


def _beam(asked: BeamAsked, timber: Timber) -> Beam:
    return Beam(
        length_mm=asked.length_mm,
        supports_mm=asked.supports_mm,
        bending_stiffness_kn_m2=bending_stiffness_kn_m2(timber),
        shear_stiffness_kn=shear_stiffness_kn(timber),
    )


def _simple_ends(asked: BeamAsked) -> tuple[float, float] | None:
    """Return span and cantilever of a joist that the closed forms hold for; None of any other.

    An end that reaches past its support by no more than the bearing is no cantilever; where one
    reaches past at the left, the joist is the same seen from its other side.
    """
    if asked.kind != "joist" or asked.held_each_mm or len(asked.supports_mm) != 2:
        return None
    left, last = asked.supports_mm
    span, right = last - left, asked.length_mm - last
    near, out = sorted((left, right))
    if near > asked.bearing_mm:
        return None
    return span, 0.0 if out <= asked.bearing_mm else out


def _joist(
    asked: BeamAsked, timber: Timber, ends: tuple[float, float], board_stiffness: float
) -> Joist:
    span, out = ends
    return Joist(
        timber=timber,
        span_mm=span,
        centres_mm=asked.carried_mm,
        bearing_mm=asked.bearing_mm,
        dead_kn_m2=DECK_DEAD_KN_M2 + asked.more_dead_kn_m2,
        cantilever_mm=out,
        hold_down_kn=asked.hold_down_kn,
        alike=asked.alike,
        board_stiffness_kn_m2=board_stiffness,
    )


def _over_supports(member: _Member) -> Screened:
    asked = member.asked
    lift_kn = lifted_kn(
        member.beam,
        dead_kn_m=member.dead_kn_m,
        imposed_kn_m=member.imposed_kn_m,
        point_kn=member.actions.point_kn,
    )
    checks = [*_strength(member), *_sags(member)]
    stops: tuple[str, ...] = ()
    if lift_kn and asked.hold_down_kn:
        checks.append(_held_down(asked, lift_kn))
    elif lift_kn:
        stops = (
            f"a support is lifted by {lift_kn:.2f} kN ({_LIFTING}) and nothing is told that holds "
            "the member down",
        )
    return screened(asked.subject, checks, assumed=tuple(_assumed(member)), stops=stops)


def _strength(member: _Member) -> Iterator[Check]:
    asked, timber, choices = member.asked, member.timber, member.choices
    joist = asked.kind == "joist"
    upper, lower = _upper(member), _lower(member)
    for felt in continuous_effects(
        member.beam,
        dead_kn_m=member.dead_kn_m,
        imposed_kn_m=member.imposed_kn_m,
        actions=member.actions,
        choices=choices,
        system_ratio=ksys(asked.carried_mm, asked.alike) if joist else 1.0,
    ):
        case = case_of(felt[0], felt[1], felt[2], system_ratio=felt[3])
        sagging, hogging = _bent(felt, case)
        yield bending(timber, sagging, choices, upper)
        if hogging.moment_kn_m:
            yield bending(timber, hogging, choices, lower)
        yield shear(timber, case, choices)
        yield bearing(timber, case, choices, bearing_mm=asked.bearing_mm)


def _bent(felt: Felt, case: DesignCase) -> tuple[DesignCase, DesignCase]:
    """Return the case with what bends the beam down, and with what bends it up over supports."""
    sagging, hogging = felt[2].sagging.value_kn_m, -felt[2].hogging.value_kn_m
    over = f"{case.name}, over a support"
    return evolve(case, moment_kn_m=sagging), evolve(case, name=over, moment_kn_m=hogging)


def _upper(member: _Member) -> Restraint:
    asked = member.asked
    if not asked.held_each_mm:
        return Restraint(said="boards hold its upper edge all along")
    effective = effective_mm(asked.held_each_mm, asked.section.depth_mm, "moment")
    said = f"its upper edge is held each {asked.held_each_mm:g} mm: that + 2 h"
    return Restraint(effective_mm=effective, said=said)


def _lower(member: _Member) -> Restraint:
    """The lower edge is free from support to support, and to a cantilever's tip."""
    depth_mm = member.asked.section.depth_mm
    effective = max(
        effective_mm(
            high - low, depth_mm, "moment" if name.startswith("span") else "cantilever, tip"
        )
        for low, high, name in parts_of(member.beam)
    )
    said = "its lower edge is free between supports, and to a cantilever's tip (table 6.1)"
    return Restraint(effective_mm=effective, said=said)


def _sags(member: _Member) -> Iterator[Check]:
    found = continuous_sags(
        member.beam,
        dead_kn_m=member.dead_kn_m,
        imposed_kn_m=member.imposed_kn_m,
        point_kn=member.actions.point_kn,
    )
    for sag in found:
        yield instant_sag(member.timber, sag, member.choices)
        yield final_sag(member.timber, sag, member.choices, member.actions.psi_2_ratio)


def lifted_kn(beam: Beam, *, dead_kn_m: float, imposed_kn_m: float, point_kn: float) -> float:
    """Return the most that any support is lifted by, 0 where none is.

    Dead load counts 0.9 on spans and ends where it holds that support down and 1.1 where it lifts;
    imposed load 1.5, spread on those that lift or at the one place where it lifts most.

    Source: EN 1990 6.4.3.1(4) and table A1.2(A), from memory; influence lines keep their sign
    within a span.
    """
    held, lifts, live = number("gamma_g_held"), number("gamma_g_lifts"), number("gamma_q")
    parts = [
        effects_of(
            beam, [LineLoad(from_mm=low, to_mm=high, load_kn_m=1.0)], bends=False
        ).reactions_kn
        for low, high, _ in parts_of(beam)
    ]
    placed: list[PointLoad] = [load for _, load in point_loads(beam, live * point_kn)]
    points = [effects_of(beam, [load], bends=False).reactions_kn for load in placed]
    least = 0.0
    for at in range(len(beam.supports_mm)):
        shares = [part[at] for part in parts]
        dead = dead_kn_m * sum(each * (held if each > 0 else lifts) for each in shares)
        spread = live * imposed_kn_m * sum(min(0.0, each) for each in shares)
        least = min(least, dead + min(spread, *(point[at] for point in points), 0.0))
    return -least if least < -_NOISE_KN else 0.0


def _held_down(asked: BeamAsked, lift_kn: float) -> Check:
    return check(
        "holding down",
        asked.subject,
        measured=lift_kn,
        limit=asked.hold_down_kn,
        unit="kN",
        case=_LIFTING,
        formula="least reaction by statics <= what holds a support down, by design",
        source=source_of("ec0-memory", "table A1.2(A), EQU; statics"),
        inputs=(("length_mm", asked.length_mm), ("supports", len(asked.supports_mm))),
    )


def _assumed(member: _Member) -> Iterator[str]:
    asked, choices = member.asked, member.choices
    joist = asked.kind == "joist"
    if choices.sharing.way == "one joist" or not joist:
        yield f"the point load falls on one {asked.kind} and is not shared"
    else:
        yield "the point load falls on one joist: over such supports no sharing is reckoned"
    yield "imposed and point load never act together (EN 1991-1-1 6.3.1.2)"
    yield (
        f"imposed load is {choices.imposed_duration}-term, the point load {choices.point_duration}"
        f"-term, service class {choices.service_class}"
    )
    yield f"combination {choices.combination}; final deflection up to span / {choices.final_over}"
    yield dead_said(asked.more_dead_kn_m2)
    yield "spans are between the centres of bearings; imposed load stands on the worst of them"
    yield f"{_upper(member).said}; {_lower(member).said}"
    yield "the member is held upright over its supports, and is one piece from end to end"
    if not joist:
        yield "joists load the bearer as if evenly spread; its load is not shared: k_sys 1.0"
    elif ksys(asked.carried_mm, asked.alike) > 1.0:
        yield "four joists or more, alike, share spread load: k_sys 1.1"
    yield "no snow, wind or vibration, no notch and no hole is reckoned"
    if asked.section.plies > 1:
        yield "plies are fixed so that they share load alike, each whole over its length"
