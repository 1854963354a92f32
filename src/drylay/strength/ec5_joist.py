"""A joist screened whole: every load case, every check, what is taken for granted."""

from collections.abc import Iterator

from drylay.strength.checks import check, refuse_unless_positive
from drylay.strength.ec5_actions import (
    own_weight_kn_m,
    shared_ratio,
    sharing_said,
    strength_factors,
)
from drylay.strength.ec5_checking import screened, stopped
from drylay.strength.ec5_member import bearing, bending, effective_mm, shear
from drylay.strength.ec5_model import Actions, Choices, DesignCase, Joist, Restraint, Sag
from drylay.strength.ec5_sag import final_sag, instant_sag
from drylay.strength.ec5_simple import (
    cantilever_case,
    span_point_sag_mm,
    span_sag_mm,
    tip_point_sag_mm,
    tip_sag_mm,
    uplift_kn,
)
from drylay.strength.ec5_spans import one_span_cases
from drylay.strength.ec5_values import ksys, number, source_of
from drylay.strength.model import Check, Screened

_LIFTING = "1.1 G + 1.5 Q on the cantilever, 0.9 G on the span"


def dead_kn_m(joist: Joist) -> float:
    """Return what lies on one joist for good, with its own weight, in kN/m."""
    own = own_weight_kn_m(joist.timber.section, joist.timber.grade)
    return joist.dead_kn_m2 * joist.centres_mm / 1e3 + own


def imposed_kn_m(joist: Joist, actions: Actions) -> float:
    """Return the spread imposed load of one joist's strip, in kN/m."""
    return actions.imposed_kn_m2 * joist.centres_mm / 1e3


def span_cases(joist: Joist, actions: Actions, choices: Choices) -> Iterator[DesignCase]:
    """Return the cases of the span for strength: spread, point load, permanent load alone.

    The cantilever is taken as empty: what lies there would relieve the span.
    """
    return one_span_cases(
        actions,
        choices,
        span_mm=joist.span_mm,
        dead_kn_m=dead_kn_m(joist),
        imposed_kn_m=imposed_kn_m(joist, actions),
        shared_ratio=shared_ratio(joist, choices.sharing),
        system_ratio=ksys(joist.centres_mm, joist.alike),
    )


def cantilever_cases(joist: Joist, actions: Actions, choices: Choices) -> Iterator[DesignCase]:
    """Yield the cases of the support beside the cantilever: all loaded, or a load at the tip.

    Where the span is empty, less reaches the support and its moment is the same.
    """
    dead, spread = dead_kn_m(joist), imposed_kn_m(joist, actions)
    for name, on_dead, on_imposed in strength_factors(choices, actions):
        factors = f"{on_dead:.4g} G + {on_imposed:.4g}"
        yield cantilever_case(
            f"{name}: {factors} q, spread, at the cantilever",
            choices.imposed_duration,
            span_mm=joist.span_mm,
            cantilever_mm=joist.cantilever_mm,
            load_kn_m=on_dead * dead + on_imposed * spread,
            system_ratio=ksys(joist.centres_mm, joist.alike),
        )
        yield cantilever_case(
            f"{name}: {factors} Q, point load at the tip",
            choices.point_duration,
            span_mm=joist.span_mm,
            cantilever_mm=joist.cantilever_mm,
            load_kn_m=on_dead * dead,
            tip_kn=on_imposed * actions.point_kn,
        )


def span_sags(joist: Joist, actions: Actions, choices: Choices) -> Iterator[Sag]:
    """Yield the mid-span deflections, spread load and point load."""
    timber, span = joist.timber, joist.span_mm
    permanent = span_sag_mm(timber, span, dead_kn_m(joist))
    spread = span_sag_mm(timber, span, imposed_kn_m(joist, actions))
    point = actions.point_kn * shared_ratio(joist, choices.sharing)
    sink = span_point_sag_mm(timber, span, point)
    yield Sag(name="G + q, spread", permanent_mm=permanent, imposed_mm=spread, length_mm=span)
    yield Sag(name="G + Q, point load", permanent_mm=permanent, imposed_mm=sink, length_mm=span)


def cantilever_sags(joist: Joist, actions: Actions) -> Iterator[Sag]:
    """Yield the tip's deflections with the span empty, which would relieve it."""
    timber, span, out = joist.timber, joist.span_mm, joist.cantilever_mm
    permanent = tip_sag_mm(timber, span, out, dead_kn_m(joist))
    loads = (
        ("G + q, spread", tip_sag_mm(timber, span, out, imposed_kn_m(joist, actions))),
        ("G + Q, point load at the tip", tip_point_sag_mm(timber, span, out, actions.point_kn)),
    )
    for name, sink in loads:
        yield Sag(
            name=name,
            permanent_mm=permanent,
            imposed_mm=sink,
            length_mm=out,
            cantilever=True,
        )


def screen_joist(joist: Joist, *, actions: Actions, choices: Choices) -> Screened:
    """Return every check of a joist over two supports, the governing one first.

    A use that the basis does not cover comes back with its stop and no check.

    Raises:
        InputError: A size is not above 0, or a choice is none of those known.

    Source: EN 1995-1-1, EN 1990, EN 1991-1-1 and their UK annexes, see each check.
    """
    _refuse(joist)
    if actions.stops:
        return stopped(joist.timber.name, actions.stops)
    checks = [*_span_checks(joist, actions, choices)]
    stops: tuple[str, ...] = ()
    if joist.cantilever_mm:
        lifted_kn = uplift_of_kn(joist, actions)
        checks += [*_cantilever_checks(joist, actions, choices), *_held_down(joist, lifted_kn)]
        stops = _lift_stops(joist, lifted_kn)
    assumed = joist_assumed(joist, choices)
    return screened(joist.timber.name, checks, assumed=assumed, stops=stops)


def _refuse(joist: Joist) -> None:
    section = joist.timber.section
    refuse_unless_positive(
        span_mm=joist.span_mm,
        centres_mm=joist.centres_mm,
        bearing_mm=joist.bearing_mm,
        breadth_mm=section.breadth_mm,
        depth_mm=section.depth_mm,
        plies=section.plies,
    )
    if joist.cantilever_mm != 0.0:
        refuse_unless_positive(cantilever_mm=joist.cantilever_mm)
    if joist.dead_kn_m2 != 0.0:
        refuse_unless_positive(dead_kn_m2=joist.dead_kn_m2)


def _span_checks(joist: Joist, actions: Actions, choices: Choices) -> Iterator[Check]:
    timber = joist.timber
    for case in span_cases(joist, actions, choices):
        yield bending(timber, case, choices)
        yield shear(timber, case, choices)
        yield bearing(timber, case, choices, bearing_mm=joist.bearing_mm)
    for sag in span_sags(joist, actions, choices):
        yield instant_sag(timber, sag, choices)
        yield final_sag(timber, sag, choices, actions.psi_2_ratio)


def _cantilever_checks(joist: Joist, actions: Actions, choices: Choices) -> Iterator[Check]:
    timber, out = joist.timber, joist.cantilever_mm
    held = Restraint(
        effective_mm=effective_mm(out, timber.section.depth_mm, "cantilever, tip"),
        said="the lower edge is free out to the tip: 0.8 a + 2 h (EN 1995-1-1 table 6.1)",
    )
    for case in cantilever_cases(joist, actions, choices):
        yield bending(timber, case, choices, held)
        yield shear(timber, case, choices)
        past = (joist.span_mm, out)
        yield bearing(timber, case, choices, bearing_mm=joist.bearing_mm, beyond_mm=past)
    for sag in cantilever_sags(joist, actions):
        yield instant_sag(timber, sag, choices)
        yield final_sag(timber, sag, choices, actions.psi_2_ratio)


def uplift_of_kn(joist: Joist, actions: Actions) -> float:
    """Return what lifts the joist's far end when only its cantilever is loaded, 0 where nothing.

    Source: EN 1990 6.4.3.1(4) and table A1.2(A), from memory: a weight that lifts and one that
    holds down are two actions.
    """
    dead, spread = dead_kn_m(joist), imposed_kn_m(joist, actions)
    held, lifts, live = number("gamma_g_held"), number("gamma_g_lifts"), number("gamma_q")
    return max(
        uplift_kn(
            span_mm=joist.span_mm,
            cantilever_mm=joist.cantilever_mm,
            load_kn_m=held * dead,
            out_kn_m=lifts * dead + live * even,
            tip_kn=live * tip,
        )
        for even, tip in ((spread, 0.0), (0.0, actions.point_kn))
    )


def _held_down(joist: Joist, lifted_kn: float) -> tuple[Check, ...]:
    if not lifted_kn or not joist.hold_down_kn:
        return ()
    return (
        check(
            "holding down",
            joist.timber.name,
            measured=lifted_kn,
            limit=joist.hold_down_kn,
            unit="kN",
            case=_LIFTING,
            formula="(M_cantilever / L - 0.9 G L / 2) <= what holds the far end down, by design",
            source=source_of("ec0-memory", "table A1.2(A), EQU; statics"),
            inputs=(("span_mm", joist.span_mm), ("cantilever_mm", joist.cantilever_mm)),
        ),
    )


def _lift_stops(joist: Joist, lifted_kn: float) -> tuple[str, ...]:
    if not lifted_kn or joist.hold_down_kn:
        return ()
    return (
        f"the joist's far end is lifted by {lifted_kn:.2f} kN ({_LIFTING}) and nothing is told "
        "that holds it down",
    )


def joist_assumed(joist: Joist, choices: Choices) -> tuple[str, ...]:
    """Return in words what the screening of a joist takes for granted."""
    ratio = shared_ratio(joist, choices.sharing)
    said = [
        sharing_said(choices.sharing, ratio),
        "imposed and point load never act together (EN 1991-1-1 6.3.1.2)",
        f"imposed load is {choices.imposed_duration}-term, the point load {choices.point_duration}"
        f"-term, service class {choices.service_class}",
        f"combination {choices.combination}; final deflection up to span / {choices.final_over}",
        "the span is between the centres of the bearings",
        "boards are screwed to every joist and hold its upper edge all along",
        "joists are held upright over their supports",
        "no snow, wind or vibration, no notch and no hole is reckoned",
    ]
    if ksys(joist.centres_mm, joist.alike) > 1.0:
        said.append("four joists or more, alike, share spread load: k_sys 1.1")
    if joist.timber.section.plies > 1:
        said.append("plies are fixed so that they share load alike")
    return tuple(said)
