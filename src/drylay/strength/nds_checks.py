"""Single checks of the US basis: what is there, what may be, by which clause, with every figure.

Stresses are in N/mm2. `case` names the load case whose effect is given.
"""

from drylay.errors import Fault
from drylay.reasons import Source
from drylay.strength.checks import check
from drylay.strength.meant import LEAST, finite, from_nothing, positive, refuse
from drylay.strength.model import Check, Section
from drylay.strength.nds_factors import (
    MOST_SLENDER_BEAM,
    MOST_SLENDER_COLUMN,
    beam_slenderness,
    beam_stability_factor,
    column_stability_factor,
    effective_length_mm,
)
from drylay.strength.nds_faults import allowed_faults
from drylay.strength.nds_model import Allowed
from drylay.strength.nds_posts import least_side_mm
from drylay.strength.sections import (
    area_mm2,
    breadth_in_all_mm,
    count_faults,
    modulus_mm3,
    section_faults,
)

_NDS = "National Design Specification for Wood Construction"


def _of(allowed: Allowed, section: Section) -> list[Fault]:
    return [*allowed_faults(allowed), *section_faults(section)]


def _clause(clause: str) -> Source:
    return Source(kind="from memory", title=_NDS, clause=clause)


def bending_check(
    allowed: Allowed,
    section: Section,
    *,
    subject: str,
    moment_kn_m: float,
    case: str,
    free_mm: float = 0.0,
) -> Check:
    """Return the check of bending, with what is lost where the compression edge is not held.

    Args:
        allowed: What the wood may bear, without CL.
        section: Of the beam; its plies bend as one.
        subject: What is checked.
        moment_kn_m: Its size counts, not its sign.
        case: The load case.
        free_mm: Between places where the edge in compression is held sideways; 0 for all along.

    Raises:
        InputError: A size, a load or what the wood may bear cannot be meant; all are told.
        UncoveredError: It is too slender for the basis.

    Source: NDS 3.3, from memory.
    """
    loads = [*finite(moment_kn_m=moment_kn_m), *from_nothing(free_mm=free_mm)]
    refuse([*_of(allowed, section), *loads])
    ratio = _stability_ratio(allowed, section, free_mm)
    stress = abs(moment_kn_m) * 1e6 / modulus_mm3(section)
    return check(
        "bending",
        subject,
        measured=stress,
        limit=allowed.bending_n_mm2 * ratio,
        unit="N/mm2",
        case=case,
        formula="M / S <= Fb CD CM CF Ci Cr CL",
        source=_clause("3.3, table 4.3.1"),
        inputs=(
            ("moment_kn_m", moment_kn_m),
            ("CL", ratio),
            ("free_mm", free_mm),
            *allowed.factors,
        ),
    )


def stability_ratio(allowed: Allowed, section: Section, free_mm: float) -> float:
    """Return CL of a beam held `free_mm` apart: 1 if held all along, or no deeper than wide.

    Raises:
        InputError: A size, a load or what the wood may bear cannot be meant; all are told.
        UncoveredError: It is too slender for the basis.

    Source: NDS 3.3.3, from memory.
    """
    refuse([*_of(allowed, section), *from_nothing(free_mm=free_mm)])
    return _stability_ratio(allowed, section, free_mm)


def _stability_ratio(allowed: Allowed, section: Section, free_mm: float) -> float:
    breadth_mm = breadth_in_all_mm(section)
    if free_mm < LEAST or section.depth_mm <= breadth_mm:
        return 1.0
    return beam_stability_factor(
        length_mm=effective_length_mm(free_mm=free_mm, depth_mm=section.depth_mm),
        depth_mm=section.depth_mm,
        breadth_mm=breadth_mm,
        bending_n_mm2=allowed.bending_n_mm2,
        least_stiffness_n_mm2=allowed.least_stiffness_n_mm2,
    )


def slenderness_check(section: Section, *, subject: str, free_mm: float) -> Check:
    """Return the check of a beam's slenderness ratio, at most 50.

    Raises:
        InputError: A size of the section is not above 0, or what is free below 0.

    Source: NDS 3.3.3.7, from memory.
    """
    refuse([*section_faults(section), *from_nothing(free_mm=free_mm)])
    length_mm = effective_length_mm(free_mm=free_mm, depth_mm=section.depth_mm)
    breadth_mm = breadth_in_all_mm(section)
    slender = beam_slenderness(
        length_mm=length_mm, depth_mm=section.depth_mm, breadth_mm=breadth_mm
    )
    return check(
        "beam stability",
        subject,
        measured=slender,
        limit=MOST_SLENDER_BEAM,
        unit="",
        case="any load",
        formula="sqrt(le d / b^2) <= 50",
        source=_clause("3.3.3.7"),
        inputs=(("le_mm", length_mm), ("free_mm", free_mm)),
    )


def shear_check(
    allowed: Allowed, section: Section, *, subject: str, shear_kn: float, case: str
) -> Check:
    """Return the check of shear along the grain, no load near supports taken off.

    Raises:
        InputError: A size, a load or what the wood may bear cannot be meant; all are told.

    Source: NDS 3.4.2, from memory.
    """
    refuse([*_of(allowed, section), *finite(shear_kn=shear_kn)])
    stress = 1.5 * abs(shear_kn) * 1000 / area_mm2(section)
    return check(
        "shear",
        subject,
        measured=stress,
        limit=allowed.shear_n_mm2,
        unit="N/mm2",
        case=case,
        formula="3 V / 2 A <= Fv CD CM Ci",
        source=_clause("3.4.2"),
        inputs=(("shear_kn", shear_kn), *allowed.factors),
    )


def bearing_check(
    allowed: Allowed,
    section: Section,
    *,
    subject: str,
    reaction_kn: float,
    bearing_mm: float,
    case: str,
) -> Check:
    """Return the check of bearing across the grain over a length along the beam.

    Raises:
        InputError: A size, a load or what the wood may bear cannot be meant; all are told.

    Source: NDS 3.10.2, from memory; the factor for short bearings, Cb, is left out.
    """
    there = [*finite(reaction_kn=reaction_kn), *positive(bearing_mm=bearing_mm)]
    refuse([*_of(allowed, section), *there])
    stress = abs(reaction_kn) * 1000 / (breadth_in_all_mm(section) * bearing_mm)
    return check(
        "bearing",
        subject,
        measured=stress,
        limit=allowed.across_n_mm2,
        unit="N/mm2",
        case=case,
        formula="R / (b lb) <= Fc-perp CM",
        source=_clause("3.10.2"),
        inputs=(("reaction_kn", reaction_kn), ("bearing_mm", bearing_mm), *allowed.factors),
    )


def deflection_check(
    *, subject: str, deflection_mm: float, part_mm: float, over: float, case: str, where: str
) -> Check:
    """Return the check of a deflection down against a part of its span or overhang.

    What goes up counts as nothing: the source's limits are of what live load presses down.

    Raises:
        InputError: The deflection is no number, or another one not above 0.

    Source: DCA 6-2012 table 2, notes 2 and 3, read: span over 360, overhang over 180.
    """
    refuse([*finite(deflection_mm=deflection_mm), *positive(part_mm=part_mm, over=over)])
    limits = Source(kind="handbook", title="DCA 6 (2012)", clause="table 2, notes 2 and 3")
    return check(
        f"deflection, {where}",
        subject,
        measured=max(0.0, deflection_mm),
        limit=part_mm / over,
        unit="mm",
        case=case,
        formula=f"deflection <= {where} / {over:g}",
        source=limits,
        inputs=(("part_mm", part_mm), ("over", over)),
    )


def column_check(
    allowed: Allowed, section: Section, *, subject: str, load_kn: float, length_mm: float, case: str
) -> Check:
    """Return the check of a post loaded in its middle, both ends held and free to turn.

    Raises:
        InputError: A size, a load or what the wood may bear cannot be meant; all are told.
        UncoveredError: It is too slender for the basis, or built up of plies.

    Source: NDS 3.6.3 and 3.7.1, from memory.
    """
    there = [*from_nothing(load_kn=load_kn), *positive(length_mm=length_mm)]
    refuse([*_of(allowed, section), *there])
    least_mm = least_side_mm(section)
    ratio = column_stability_factor(
        length_mm=length_mm,
        least_mm=least_mm,
        along_n_mm2=allowed.along_n_mm2,
        least_stiffness_n_mm2=allowed.least_stiffness_n_mm2,
    )
    stress = load_kn * 1000 / area_mm2(section)
    return check(
        "column buckling",
        subject,
        measured=stress,
        limit=allowed.along_n_mm2 * ratio,
        unit="N/mm2",
        case=case,
        formula="P / A <= Fc CD CM CF Ci CP",
        source=_clause("3.6.3, 3.7.1"),
        inputs=(
            ("load_kn", load_kn),
            ("length_mm", length_mm),
            ("CP", ratio),
            ("slenderness", length_mm / least_mm),
            ("most slenderness", MOST_SLENDER_COLUMN),
            *allowed.factors,
        ),
    )


def footing_check(*, subject: str, load_kn: float, area_m2: float, bearing_kn_m2: float) -> Check:
    """Return the check of the soil below a footing.

    Raises:
        InputError: The load is below 0, or another number not above 0.

    Source: statics, force over area; a load in the middle on level ground.
    """
    under = positive(area_m2=area_m2, bearing_kn_m2=bearing_kn_m2)
    refuse([*from_nothing(load_kn=load_kn), *under])
    return check(
        "soil bearing",
        subject,
        measured=load_kn / area_m2,
        limit=bearing_kn_m2,
        unit="kN/m2",
        case="all load",
        formula="P / A <= q",
        source=Source(kind="arithmetic", title="force over area"),
        inputs=(("load_kn", load_kn), ("area_m2", area_m2)),
    )


def withdrawal_check(
    *, subject: str, pull_kn: float, each_n_mm: float, held_mm: float, count: int, ratio: float
) -> Check:
    """Return the check of fasteners pulled straight out of side grain.

    Args:
        subject: What is checked.
        pull_kn: On all of them.
        each_n_mm: What one holds for each mm, from `lag_withdrawal_n_mm` or `nail_withdrawal_n_mm`.
        held_mm: How much of it is in the wood that holds.
        count: How many share the pull.
        ratio: CD times wet service and all other factors of the connection.

    Raises:
        InputError: The pull is below 0, or another number not above 0 or no whole count.

    Source: NDS 12.2, table 11.3.1, from memory.
    """
    holds = positive(each_n_mm=each_n_mm, held_mm=held_mm, ratio=ratio)
    refuse([*from_nothing(pull_kn=pull_kn), *holds, *count_faults(count=count)])
    holds_kn = each_n_mm * held_mm * count * ratio / 1000
    return check(
        "withdrawal",
        subject,
        measured=pull_kn,
        limit=holds_kn,
        unit="kN",
        case="pull",
        formula="pull <= n W p CD CM",
        source=_clause("12.2"),
        inputs=(
            ("each_n_mm", each_n_mm),
            ("held_mm", held_mm),
            ("count", count),
            ("factors", ratio),
        ),
    )
