"""Joints of a deck: a ledger's fasteners, and a guard post's foot."""

from math import floor

from attrs import evolve

from drylay.errors import Fault, UncoveredError
from drylay.strength.checks import check, refuse_unless_positive
from drylay.strength.ec5_actions import strength_factors
from drylay.strength.ec5_checking import ec5, screened, stopped
from drylay.strength.ec5_fasteners import bolt_steel_n, washer_n
from drylay.strength.ec5_johansen import design_kn
from drylay.strength.ec5_member import bending, shear
from drylay.strength.ec5_model import Actions, Choices, DesignCase, GuardPost, Resistance, Timber
from drylay.strength.ec5_values import kmod, number, source_of, told
from drylay.strength.model import Check, Screened, Section

_GUARD_DURATION = "short"


def ledger_loads_kn_m(
    *, span_mm: float, dead_kn_m2: float, actions: Actions, choices: Choices
) -> tuple[tuple[str, str, float], ...]:
    """Return what a ledger carries: case, duration, design load in kN/m from half a joist span.

    Source: statics; EN 1990 6.4.3.2.
    """
    half = span_mm / 2e3
    cases = tuple(
        (
            f"{name}: {on_dead:.4g} G + {on_imposed:.4g} q",
            choices.imposed_duration,
            (on_dead * dead_kn_m2 + on_imposed * actions.imposed_kn_m2) * half,
        )
        for name, on_dead, on_imposed in strength_factors(choices, actions)
    )
    alone = ("6.10: permanent load alone", "permanent", number("gamma_g") * dead_kn_m2 * half)
    return (*cases, alone)


def ledger_spacing_mm(
    resistance: Resistance,
    *,
    span_mm: float,
    dead_kn_m2: float,
    actions: Actions,
    choices: Choices,
) -> float:
    """Return how far apart a ledger's fasteners may be for spread load, down to a whole mm.

    Distances to ends and edges, and the point load, are checked apart.

    Raises:
        UncoveredError: The use is one that the basis does not cover.
        InputError: A size is not above 0.

    Source: statics; EN 1995-1-1 8.2.2.
    """
    if actions.stops:
        wanted = "a use that the basis covers"
        raise UncoveredError((Fault(path="actions.use", found=actions.use, wanted=wanted),))
    refuse_unless_positive(span_mm=span_mm, dead_kn_m2=dead_kn_m2)
    loads = ledger_loads_kn_m(
        span_mm=span_mm, dead_kn_m2=dead_kn_m2, actions=actions, choices=choices
    )
    return min(
        float(floor(1e3 * _carried(resistance, choices, duration) / load))
        for _, duration, load in loads
    )


def screen_ledger(
    subject: str,
    resistance: Resistance,
    *,
    spacing_mm: float,
    span_mm: float,
    dead_kn_m2: float,
    actions: Actions,
    choices: Choices,
) -> Screened:
    """Return the checks of a ledger's fasteners, spread load and point load.

    `dead_kn_m2` is that of boards, joists and ledger.

    Raises:
        InputError: A size is not above 0.

    Source: EN 1995-1-1 8.2.2; statics.
    """
    refuse_unless_positive(spacing_mm=spacing_mm, span_mm=span_mm, dead_kn_m2=dead_kn_m2)
    if actions.stops:
        return stopped(subject, actions.stops)
    loads = ledger_loads_kn_m(
        span_mm=span_mm, dead_kn_m2=dead_kn_m2, actions=actions, choices=choices
    )
    each = [(case, duration, load * spacing_mm / 1e3) for case, duration, load in loads]
    each += [
        (
            f"{name}: {on_dead:.4g} G + {on_imposed:.4g} Q on one fastener",
            choices.point_duration,
            on_dead * dead_kn_m2 * span_mm / 2e3 * spacing_mm / 1e3 + on_imposed * actions.point_kn,
        )
        for name, on_dead, on_imposed in strength_factors(choices, actions)
    ]
    checks = [_fastener_check(subject, resistance, choices, case) for case in each]
    return screened(
        subject,
        checks,
        assumed=(
            "the point load stands at a joist's end over one fastener, and no other helps",
            "joists load the ledger evenly; it is fixed to sound solid timber, face to face",
            "what the ledger is fixed to carries the load: not checked here",
            "least distances to ends, edges and one another are checked apart",
        ),
    )


def _carried(resistance: Resistance, choices: Choices, duration: str) -> float:
    return design_kn(resistance.resistance_kn, choices.service_class, duration)


def _fastener_check(
    subject: str,
    resistance: Resistance,
    choices: Choices,
    loaded: tuple[str, str, float],
) -> Check:
    case, duration, force_kn = loaded
    return check(
        "ledger fastener",
        subject,
        measured=force_kn,
        limit=_carried(resistance, choices, duration),
        unit="kN",
        case=case,
        formula="F_d <= k_mod F_v,Rk / gamma_M",
        source=ec5("8.2.2, 2.4.3"),
        inputs=(
            ("F_v,Rk_kn", resistance.resistance_kn),
            ("mode", resistance.governing),
            ("rope_kn", resistance.rope_kn),
            ("duration", duration),
            ("gamma_M", number("gamma_m_connection")),
        ),
    )


def guard_forces_kn(post: GuardPost) -> tuple[float, float, float]:
    """Return the design push on a guard post's top, and what its upper and lower bolts carry.

    The line load on half of both bays, or the load at one place where that is more.

    Source: statics: a couple of two bolts; gamma_Q 1.5.
    """
    push = number("gamma_q") * max(_along_kn(post), post.point_kn)
    lower = push * post.rail_mm / post.bolts_mm
    return push, push + lower, lower


def _along_kn(post: GuardPost) -> float:
    return post.line_load_kn_m * post.centres_mm / 1e3


def _pushed(post: GuardPost) -> str:
    gamma = number("gamma_q")
    if post.point_kn > _along_kn(post):
        return f"{gamma:g} x {post.point_kn:.4g} kN on one post"
    return f"{gamma:g} x {post.line_load_kn_m:.4g} kN/m on the rail"


def screen_guard_post(post: GuardPost, *, choices: Choices) -> Screened:
    """Return the checks of a guard post at its foot: bending, shear, washer, bolt.

    Raises:
        InputError: A size is not above 0, or the hole leaves no wood.

    Source: statics; EN 1995-1-1 6.1.6, 6.1.7, 8.5.2; EN 1993-1-8 table 3.4.
    """
    section = post.timber.section
    refuse_unless_positive(
        push_kn=max(_along_kn(post), post.point_kn),
        centres_mm=post.centres_mm,
        rail_mm=post.rail_mm,
        bolts_mm=post.bolts_mm,
        depth_mm=section.depth_mm,
        breadth_less_hole_mm=section.breadth_mm - post.hole_mm,
        washer_less_hole_mm=post.washer_mm - post.hole_mm,
        stress_area_mm2=post.stress_area_mm2,
    )
    push, upper, lower = guard_forces_kn(post)
    case = DesignCase(
        name=_pushed(post),
        duration=_GUARD_DURATION,
        moment_kn_m=push * post.rail_mm / 1e3,
        shear_kn=max(push, lower),
        bearing_kn=upper,
    )
    checks = (
        bending(_drilled(post), case, choices),
        shear(_drilled(post), case, choices),
        _washer(post, case, choices),
        _bolt(post, case),
    )
    return screened(
        post.timber.name,
        checks,
        assumed=(
            "two bolts in line carry the push as a couple, the upper one all of it",
            "the guard's load pushes level at its top, square to the edge, and posts alone hold "
            "it, each of half its bays; along the edge the rails hold posts to one another",
            "what presses the guard down, and the bolts in shear by it, is not checked",
            f"the guard's load is {_GUARD_DURATION}-term",
            "the frame's edge and joists that take the couple are not checked here: the edge is "
            "held against rolling by blocking or hardware of its own",
        ),
    )


def _drilled(post: GuardPost) -> Timber:
    section = post.timber.section
    left = Section(breadth_mm=section.breadth_mm - post.hole_mm, depth_mm=section.depth_mm)
    return evolve(post.timber, section=left)


def _washer(post: GuardPost, case: DesignCase, choices: Choices) -> Check:
    """Wood under the washer: the weaker of the post and the frame's edge."""
    weaker = min(post.timber.grade, post.edge_grade, key=lambda grade: grade.fc90_k_n_mm2)
    ring = washer_n(post.washer_mm, post.hole_mm, weaker) / 1e3
    return check(
        "washer bearing",
        post.timber.name,
        measured=case.bearing_kn,
        limit=design_kn(ring, choices.service_class, case.duration),
        unit="kN",
        case=case.name,
        formula="H (rail + bolts) / bolts <= k_mod 3 f_c,90,k A_washer / gamma_M",
        source=ec5("8.5.2(2)"),
        inputs=(
            ("push_kn", guard_forces_kn(post)[0]),
            ("rail_mm", post.rail_mm),
            ("bolts_mm", post.bolts_mm),
            ("washer_mm", post.washer_mm),
            ("hole_mm", post.hole_mm),
            ("class", weaker.name),
            ("f_c,90,k", weaker.fc90_k_n_mm2),
            ("k_mod", kmod(choices.service_class, case.duration).value),
            ("duration", case.duration),
            ("gamma_M", number("gamma_m_connection")),
        ),
    )


def _bolt(post: GuardPost, case: DesignCase) -> Check:
    steel = bolt_steel_n(post.stress_area_mm2, post.tensile_n_mm2) / 1e3
    return check(
        "bolt in tension",
        post.timber.name,
        measured=case.bearing_kn,
        limit=steel,
        unit="kN",
        case=case.name,
        formula="H (rail + bolts) / bolts <= 0.9 f_ub A_s / gamma_M2",
        source=source_of("ec3-memory", "table 3.4"),
        inputs=(
            ("push_kn", guard_forces_kn(post)[0]),
            ("rail_mm", post.rail_mm),
            ("bolts_mm", post.bolts_mm),
            ("A_s_mm2", post.stress_area_mm2),
            ("f_ub", post.tensile_n_mm2),
            ("gamma_M2", number("gamma_m2")),
        ),
    )


def guard_line_load_kn_m(place: str) -> float:
    """Return the guard's line load of a place: `dwelling` within one, `other` residential.

    Source: UK National Annex to EN 1991-1-1 table NA.8, from memory.
    """
    return float(told(f"guard_{place}_kn_m").value or 0.0)
