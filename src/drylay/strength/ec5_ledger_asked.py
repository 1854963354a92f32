"""A ledger as a design basis is asked for it, by Eurocode 5: screws, bolts, stated anchors."""

import re
from collections.abc import Iterator

from attrs import evolve

from drylay.reasons import Source
from drylay.strength.basis_answers import FIGURE, refuse_ledger, uncovered
from drylay.strength.checks import check, ranked
from drylay.strength.ec5_actions import own_weight_kn_m, strength_factors
from drylay.strength.ec5_asked import DECK_DEAD_KN_M2, actions_for, grade_of
from drylay.strength.ec5_checking import screened
from drylay.strength.ec5_johansen import single_shear
from drylay.strength.ec5_joints import ledger_loads_kn_m, screen_ledger
from drylay.strength.ec5_model import Actions, Choices, Fastener, Side
from drylay.strength.ec5_spacing import spacing_check, spacings
from drylay.strength.model import Check, LedgerAsked, Screened

#: Forms of the words for a ledger's fixings: figures in mm, but for the kN of an anchor's maker.
FIXINGS = (
    "anchor LOAD kN",
    "coach screw DIAMETER x LENGTH into CLASS",
    "bolt DIAMETER through THICKNESS CLASS",
)
#: What joists add to boards on a ledger: 75 x 225 of D40 each 400 mm come to 0.27 kN/m2.
JOISTS_DEAD_KN_M2 = 0.3
#: Steel of property class 4.6, the least; a coach screw's root over its shank, the least that
#: EN 14592 lets be, from memory.
STEEL_N_MM2 = 400.0
ROOT_RATIO = 0.6
_ANCHOR = re.compile(rf"anchor(?: {FIGURE} ?kN)?", re.IGNORECASE)
_SCREW = re.compile(rf"coach screw {FIGURE} ?x ?{FIGURE} into (\w+)", re.IGNORECASE)
_BOLT = re.compile(rf"bolt {FIGURE} through {FIGURE} (\w+)", re.IGNORECASE)


def screened_ledger(asked: LedgerAsked, use: str) -> Screened:
    """Return the checks of a ledger's fixings.

    `anchor 4.5 kN` is the design resistance across its axis that an anchor's maker declares, for
    that wall and those distances to edges and each other. Without a figure the load that each
    anchor must carry is told, and a stop asks for one.

    Raises:
        UncoveredError: The use, the wood or the fixing is not covered.
        InputError: A number is not what it can be.

    Source: EN 1995-1-1 8.2.2, 8.5, 8.7; EN 1990 6.4.3.2; statics.
    """
    refuse_ledger(asked)
    actions, said = actions_for(use), " ".join(asked.fixing.split())
    dead_kn_m2 = _dead_kn_m2(asked)
    if found := _ANCHOR.fullmatch(said):
        return _anchored(asked, actions, dead_kn_m2, float(found[1] or 0.0))
    fastener, behind, nominal_mm = _fastener(asked, said)
    answer = _fastened(asked, actions, dead_kn_m2, fastener, behind)
    apart = _apart(asked, evolve(fastener, diameter_mm=nominal_mm))
    return evolve(answer, checks=ranked((*answer.checks, apart)))


def _dead_kn_m2(asked: LedgerAsked) -> float:
    """The ledger's own weight is spread over the half span that it carries."""
    own_kn_m = own_weight_kn_m(asked.section, grade_of(asked.wood))
    spread = DECK_DEAD_KN_M2 + JOISTS_DEAD_KN_M2 + asked.more_dead_kn_m2
    return spread + own_kn_m / (asked.span_mm / 2e3)


def _fastener(asked: LedgerAsked, said: str) -> tuple[Fastener, Side, float]:
    """Return a fixing as it works, the piece behind the ledger, and its diameter by name."""
    if found := _SCREW.fullmatch(said):
        thick, long = float(found[1]), float(found[2])
        bending_mm = 1.1 * ROOT_RATIO * thick
        # the strict reading of 8.7.1(3): wood bears on the same lesser diameter that bends
        fastener = _of_steel("coach screw", bending_mm)
        # a screw's tip, a diameter long, holds nothing
        deep = long - asked.section.breadth_mm * asked.section.plies - thick
        if deep < 6.0 * thick:
            wanted = f"at least 6 diameters, {6.0 * thick:g} mm, in the piece behind"
            raise uncovered("fixing", f"{deep:g} mm of thread behind the ledger", wanted)
        return fastener, Side(grade=grade_of(found[3]), depth_mm=deep, angle_deg=90.0), thick
    if found := _BOLT.fullmatch(said):
        side = Side(grade=grade_of(found[3]), depth_mm=float(found[2]), angle_deg=90.0)
        return _of_steel("bolt", float(found[1])), side, float(found[1])
    raise uncovered("fixing", repr(asked.fixing), "one of: " + "; ".join(FIXINGS))


def _of_steel(kind: str, diameter_mm: float) -> Fastener:
    if not 6.0 <= diameter_mm <= 30.0:
        wanted = "a bolt of 6 to 30 mm, a coach screw of 10 mm or thicker"
        raise uncovered("fixing", f"{diameter_mm:g} mm that bends", wanted)
    return Fastener(
        kind=kind, diameter_mm=diameter_mm, bending_mm=diameter_mm, tensile_n_mm2=STEEL_N_MM2
    )


def _fastened(
    asked: LedgerAsked, actions: Actions, dead_kn_m2: float, fastener: Fastener, behind: Side
) -> Screened:
    thick_mm = asked.section.breadth_mm * asked.section.plies
    ledger = Side(grade=grade_of(asked.wood), depth_mm=thick_mm, angle_deg=90.0)
    found = screen_ledger(
        asked.subject,
        single_shear(fastener, ledger, behind),
        spacing_mm=asked.spacing_mm,
        span_mm=asked.span_mm,
        dead_kn_m2=dead_kn_m2,
        actions=actions,
        choices=Choices(),
    )
    return evolve(
        found,
        assumed=(
            *found.assumed,
            f"steel of {STEEL_N_MM2:g} N/mm2; a coach screw's root is {ROOT_RATIO:g} of its shank "
            "and wood bears on 1.1 x the root; holes pre-drilled; no rope effect",
            *_dead_said(dead_kn_m2),
        ),
    )


def _apart(asked: LedgerAsked, fastener: Fastener) -> Check:
    """The ledger must be deep enough for one row: from its loaded edge and from the other."""
    grade = grade_of(asked.wood)
    least = spacings(fastener, angle_deg=90.0, rho_k_kg_m3=grade.rho_k_kg_m3)
    across_mm = least.a4t_mm + least.a4c_mm
    there_mm = asked.section.depth_mm
    return spacing_check(asked.subject, "a4,t + a4,c", least_mm=across_mm, there_mm=there_mm)


def _anchored(
    asked: LedgerAsked, actions: Actions, dead_kn_m2: float, declared_kn: float
) -> Screened:
    loads = anchor_loads(asked, actions, dead_kn_m2)
    case, most_kn = max(loads, key=lambda each: each[1])
    told = f"each anchor must carry {most_kn:.2f} kN across its axis by design ({case})"
    assumed = (
        told,
        "the point load stands at a joist's end over one anchor, and no other helps",
        "joists load the ledger evenly; the load stands off the wall's face by half the ledger, "
        "and the pull that comes of it is among what the anchor's maker is asked",
        "the wall is sound and bears the load; who lays it out holds to the maker's distances",
        *_dead_said(dead_kn_m2),
    )
    if not declared_kn:
        wanted = "'anchor LOAD kN', the design resistance that its maker declares for this wall"
        stop = f"{told}: not covered without its maker's figure; name {wanted}"
        return screened(asked.subject, (), assumed=assumed, stops=(stop,))
    checks = [_anchor_check(asked, name, kn, declared_kn) for name, kn in loads]
    return screened(asked.subject, checks, assumed=assumed)


def anchor_loads(
    asked: LedgerAsked, actions: Actions, dead_kn_m2: float
) -> tuple[tuple[str, float], ...]:
    """Return by case what one fixing of a ledger carries by design, spread load and point load."""
    choices, share = Choices(), asked.spacing_mm / 1e3
    spread = ledger_loads_kn_m(
        span_mm=asked.span_mm, dead_kn_m2=dead_kn_m2, actions=actions, choices=choices
    )
    dead_kn = dead_kn_m2 * asked.span_mm / 2e3 * share
    points = tuple(
        (
            f"{name}: {on_dead:.4g} G + {on_imposed:.4g} Q on one anchor",
            on_dead * dead_kn + on_imposed * actions.point_kn,
        )
        for name, on_dead, on_imposed in strength_factors(choices, actions)
    )
    return (*((case, kn_m * share) for case, _, kn_m in spread), *points)


def _anchor_check(asked: LedgerAsked, case: str, load_kn: float, declared_kn: float) -> Check:
    return check(
        "ledger anchor",
        asked.subject,
        measured=load_kn,
        limit=declared_kn,
        unit="kN",
        case=case,
        formula="F_d <= V_Rd as the anchor's maker declares it",
        source=Source(
            kind="brief", title="the anchor's maker, as the brief tells it", clause=asked.fixing
        ),
        inputs=(("spacing_mm", asked.spacing_mm), ("span_mm", asked.span_mm)),
    )


def _dead_said(dead_kn_m2: float) -> Iterator[str]:
    yield (
        f"a cover is taken as {DECK_DEAD_KN_M2:g} kN/m2 and joists as {JOISTS_DEAD_KN_M2:g} kN/m2; "
        f"with the ledger, and what a heavier cover adds, {dead_kn_m2:.3g} kN/m2 lie on it for good"
    )
