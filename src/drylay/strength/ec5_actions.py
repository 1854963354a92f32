"""What stands and lies on a deck: loads by use, own weight, one load shared between joists."""

from drylay.errors import Fault, InputError
from drylay.strength.checks import refuse_unless_positive
from drylay.strength.ec5_model import Actions, Choices, Joist, Sharing, StrengthClass
from drylay.strength.ec5_simple import bending_stiffness_kn_m2
from drylay.strength.ec5_values import number, one_of, source_of, told
from drylay.strength.model import USES, Section

COMBINATIONS = ("6.10", "6.10a/b")
SHARINGS = ("one joist", "board over three joists", "stated")
_STOPS = {
    "crowd": "crowd use is not covered: a licensed engineer designs it",
    "hot tub": "a hot tub is not covered: a licensed engineer designs what carries it",
}


def actions_of(use: str) -> Actions:
    """Return the imposed loads of a use; of `crowd` and `hot tub` none, and a stop.

    Raises:
        InputError: No such use.

    Source: UK National Annex to EN 1991-1-1 table NA.3, A1 and A5, from memory.
    """
    one_of(use, USES, "use")
    covered = use in ("dwelling", "balcony")
    return Actions(
        use=use,
        imposed_kn_m2=number(f"{use}_kn_m2") if covered else 0.0,
        point_kn=number(f"{use}_kn") if covered else 0.0,
        psi_0_ratio=number("psi_0_a"),
        psi_2_ratio=number("psi_2_a"),
        source=told(f"{use}_kn_m2").source if covered else source_of("chosen", "not covered"),
        stops=() if covered else (_STOPS[use],),
    )


def boards_kn_m2(thickness_mm: float, density_kg_m3: float) -> float:
    """Return the weight of boards in kN/m2, gaps counted as wood.

    Source: EN 1991-1-1, mass x 9.81 m/s2.
    """
    return thickness_mm / 1000.0 * density_kg_m3 * number("gravity_m_s2") / 1000.0


def own_weight_kn_m(section: Section, grade: StrengthClass) -> float:
    """Return a member's own weight in kN/m, at the mean density of its class.

    Source: EN 338:2016, mean density x 9.81 m/s2; treated and wet timber is heavier.
    """
    area_m2 = section.breadth_mm * section.depth_mm * section.plies / 1e6
    return area_m2 * grade.rho_mean_kg_m3 * number("gravity_m_s2") / 1000.0


def strength_factors(choices: Choices, actions: Actions) -> tuple[tuple[str, float, float], ...]:
    """Return the combinations for strength: name, factor on permanent, factor on imposed load.

    Raises:
        InputError: No such combination.

    Source: EN 1990 6.4.3.2, (6.10), (6.10a), (6.10b); xi of the UK annex; factors from memory.
    """
    one_of(choices.combination, COMBINATIONS, "combination")
    dead, live = number("gamma_g"), number("gamma_q")
    if choices.combination == "6.10":
        return (("6.10", dead, live),)
    return (
        ("6.10a", dead, live * actions.psi_0_ratio),
        ("6.10b", number("xi") * dead, live),
    )


def shared_ratio(joist: Joist, sharing: Sharing) -> float:
    """Return which part of a point load at mid-span the joist below it carries.

    Beside a support and at a cantilever's tip one joist carries it all. `board over three joists`:
    one board under the load lies over this joist and both neighbours, all alike and loaded at
    mid-span. With springs k = 48 E I / L^3 under a board of stiffness E Ib,
    (1/2 + k s^3 / 6 E Ib) / (3/2 + k s^3 / 6 E Ib); mean stiffnesses.

    Raises:
        InputError: No such way, a stated ratio outside 0 to 1 or without its source, or a board
            without a stiffness.

    Source: statics of a beam on springs; the choice is the caller's.
    """
    one_of(sharing.way, SHARINGS, "sharing.way")
    if sharing.way == "one joist":
        return 1.0
    if sharing.way == "stated":
        return _stated(sharing)
    refuse_unless_positive(board_stiffness_kn_m2=joist.board_stiffness_kn_m2)
    board = 6.0 * joist.board_stiffness_kn_m2 / (joist.centres_mm / 1e3) ** 3
    soft = 48.0 * bending_stiffness_kn_m2(joist.timber) / (joist.span_mm / 1e3) ** 3 / board
    return (0.5 + soft) / (1.5 + soft)


def _stated(sharing: Sharing) -> float:
    faults = []
    if not 0.0 < sharing.stated_ratio <= 1.0:
        found = repr(sharing.stated_ratio)
        faults.append(Fault(path="sharing.stated_ratio", found=found, wanted="above 0, up to 1"))
    if sharing.source is None:
        faults.append(Fault(path="sharing.source", found="none", wanted="who states the ratio"))
    if faults:
        raise InputError(tuple(faults))
    return sharing.stated_ratio


def sharing_said(sharing: Sharing, ratio: float) -> str:
    """Return in words how a point load is shared between joists, with the part that one carries."""
    if sharing.way == "one joist":
        return "the point load falls on one joist and is not shared"
    part = (
        f"{ratio:.3f} of the point load at mid-span falls on the joist below it, and all of it "
        "beside a support or at a cantilever's tip"
    )
    if sharing.way == "stated":
        who = sharing.source.title if sharing.source else ""
        return f"{part}: stated by {who}"
    return f"{part}: by statics of the one board under it, whole over three joists"


def board_stiffness_kn_m2(breadth_mm: float, thickness_mm: float, e_n_mm2: float) -> float:
    """Return E I of one board laid flat, in kN m2."""
    return e_n_mm2 * breadth_mm * thickness_mm**3 / 12.0 / 1e9
