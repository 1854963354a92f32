"""A bearer, or any other beam, screened from load cases and deflections that are handed in.

What a beam over several supports feels is worked out elsewhere and comes in as cases; for one
span the cases are made here.
"""

from collections.abc import Iterable, Iterator

from drylay.strength.checks import refuse_unless_positive
from drylay.strength.ec5_actions import own_weight_kn_m
from drylay.strength.ec5_checking import screened, stopped
from drylay.strength.ec5_member import bearing, bending, effective_mm, shear
from drylay.strength.ec5_model import Actions, Bearer, Choices, DesignCase, Restraint, Sag, Timber
from drylay.strength.ec5_sag import final_sag, instant_sag
from drylay.strength.ec5_simple import span_point_sag_mm, span_sag_mm
from drylay.strength.ec5_spans import one_span_cases
from drylay.strength.model import Check, Screened


def beam_checks(
    timber: Timber,
    cases: Iterable[DesignCase],
    sags: Iterable[Sag],
    *,
    choices: Choices,
    psi_2_ratio: float,
    bearing_mm: float,
    beyond_mm: tuple[float, float] = (0.0, 30.0),
    restraint: Restraint | None = None,
) -> Iterator[Check]:
    """Yield bending, shear and bearing of every case, and both checks of every deflection.

    Without a `restraint` the edge in compression is taken as held all along: over a middle
    support that is the lower edge. What a support must hold down is not checked here.

    Source: EN 1995-1-1, see each check.
    """
    for case in cases:
        yield bending(timber, case, choices, restraint)
        yield shear(timber, case, choices)
        yield bearing(timber, case, choices, bearing_mm=bearing_mm, beyond_mm=beyond_mm)
    for sag in sags:
        yield instant_sag(timber, sag, choices)
        yield final_sag(timber, sag, choices, psi_2_ratio)


def bearer_loads_kn_m(bearer: Bearer, actions: Actions) -> tuple[float, float]:
    """Return what lies on a bearer for good, its own weight with it, and spread imposed, kN/m."""
    strip = bearer.carried_mm / 1e3
    own = own_weight_kn_m(bearer.timber.section, bearer.timber.grade)
    return bearer.dead_kn_m2 * strip + own, actions.imposed_kn_m2 * strip


def bearer_cases(bearer: Bearer, actions: Actions, choices: Choices) -> Iterator[DesignCase]:
    """Return the cases for strength of a bearer over one span.

    Source: `one_span_cases`.
    """
    dead, spread = bearer_loads_kn_m(bearer, actions)
    return one_span_cases(
        actions, choices, span_mm=bearer.span_mm, dead_kn_m=dead, imposed_kn_m=spread
    )


def bearer_sags(bearer: Bearer, actions: Actions) -> Iterator[Sag]:
    """Yield the mid-span deflections of a bearer over one span."""
    dead, spread = bearer_loads_kn_m(bearer, actions)
    timber, span = bearer.timber, bearer.span_mm
    permanent = span_sag_mm(timber, span, dead)
    sinks = (
        ("G + q, spread", span_sag_mm(timber, span, spread)),
        ("G + Q, point load", span_point_sag_mm(timber, span, actions.point_kn)),
    )
    for name, sink in sinks:
        yield Sag(name=name, permanent_mm=permanent, imposed_mm=sink, length_mm=span)


def screen_bearer(bearer: Bearer, *, actions: Actions, choices: Choices) -> Screened:
    """Return every check of a bearer over one span, the governing one first.

    Raises:
        InputError: A size is not above 0, or a choice is none of those known.

    Source: EN 1995-1-1, EN 1990, EN 1991-1-1 and their UK annexes, see each check.
    """
    section = bearer.timber.section
    refuse_unless_positive(
        span_mm=bearer.span_mm,
        carried_mm=bearer.carried_mm,
        bearing_mm=bearer.bearing_mm,
        held_each_mm=bearer.held_each_mm,
        breadth_mm=section.breadth_mm,
        depth_mm=section.depth_mm,
        plies=section.plies,
    )
    if actions.stops:
        return stopped(bearer.timber.name, actions.stops)
    checks = beam_checks(
        bearer.timber,
        bearer_cases(bearer, actions, choices),
        bearer_sags(bearer, actions),
        choices=choices,
        psi_2_ratio=actions.psi_2_ratio,
        bearing_mm=bearer.bearing_mm,
        restraint=held_by_joists(bearer),
    )
    return screened(bearer.timber.name, checks, assumed=_assumed(bearer, choices))


def held_by_joists(bearer: Bearer) -> Restraint:
    """Return the restraint of a bearer that joists hold at their centres: that far, and 2 h.

    Source: EN 1995-1-1 table 6.1, load at the compression edge, from memory.
    """
    effective = effective_mm(bearer.held_each_mm, bearer.timber.section.depth_mm, "moment")
    said = f"joists hold its upper edge each {bearer.held_each_mm:g} mm: that + 2 h"
    return Restraint(effective_mm=effective, said=said)


def _assumed(bearer: Bearer, choices: Choices) -> tuple[str, ...]:
    said = (
        "joists load the bearer as if evenly spread",
        "the bearer is cut over each support: no continuity is reckoned",
        "no load is shared with other bearers: k_sys 1.0",
        f"imposed load is {choices.imposed_duration}-term, the point load {choices.point_duration}"
        f"-term, service class {choices.service_class}",
        f"combination {choices.combination}; final deflection up to span / {choices.final_over}",
        "the span is between the centres of the bearings",
        "no snow, wind or vibration, no notch and no hole is reckoned",
    )
    if bearer.timber.section.plies == 1:
        return said
    return (*said, "plies are fixed so that they share load alike, each whole over its span")
