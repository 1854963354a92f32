"""Shear of a beam that hangs on its fasteners, and how wide they spread across its grain."""

from drylay.errors import Fault
from drylay.reasons import Source
from drylay.strength.checks import check, refuse_unless_positive
from drylay.strength.meant import finite, from_nothing, positive, refuse
from drylay.strength.model import Check, Section
from drylay.strength.nds_faults import allowed_faults
from drylay.strength.nds_model import Allowed
from drylay.strength.sections import breadth_in_all_mm, section_faults
from drylay.strength.us_units import mm_of_inches

_NDS = "National Design Specification for Wood Construction"
_SHEAR = Source(kind="from memory", title=_NDS, clause="3.4.3.3")
_SPREAD = Source(
    kind="standard", title=_NDS, clause="12.5.1.3, read as transcribed in a public file"
)
#: Nearer than so many depths to its end a beam at its fasteners is like a notched one.
_NEAR_DEPTHS = 5.0
_WIDEST_INCH = 5.0


def joint_shear_kn(
    allowed: Allowed, section: Section, *, held_mm: float, to_end_mm: float
) -> float:
    """Return the shear V'r that a beam may carry at fasteners across its grain, in kN.

    Nearer than 5 d to its end 2/3 Fv' b de (de / d)^2, else 2/3 Fv' b de: what lies beyond the
    last fastener is as good as cut away.

    Args:
        allowed: What the wood may bear.
        section: Of the beam.
        held_mm: de, from the edge that the load leaves to the middle of the fastener that is
            furthest from it.
        to_end_mm: From the fasteners to the end of the beam.

    Raises:
        InputError: A size cannot be meant; all of them are told.

    Source: NDS 3.4.3.3, bolts and lag screws, from memory.
    """
    refuse(_faults(allowed, section, held_mm, to_end_mm))
    depth = section.depth_mm
    left = (held_mm / depth) ** 2 if to_end_mm < _NEAR_DEPTHS * depth else 1.0
    whole_n = allowed.shear_n_mm2 * breadth_in_all_mm(section) * held_mm * 2.0 / 3.0
    return float(whole_n * left / 1e3)


def joint_shear_check(
    allowed: Allowed,
    section: Section,
    *,
    subject: str,
    shear_kn: float,
    held_mm: float,
    to_end_mm: float,
    case: str,
) -> Check:
    """Return the check of shear where a beam hangs on fasteners across its grain.

    Raises:
        InputError: As `joint_shear_kn`, or the shear is no number.

    Source: NDS 3.4.3.3, from memory.
    """
    refuse([*finite(shear_kn=shear_kn), *_faults(allowed, section, held_mm, to_end_mm)])
    return check(
        "shear at fasteners",
        subject,
        measured=abs(shear_kn),
        limit=joint_shear_kn(allowed, section, held_mm=held_mm, to_end_mm=to_end_mm),
        unit="kN",
        case=case,
        formula="V <= 2/3 Fv' b de (de / d)^2 nearer than 5 d to the end, else 2/3 Fv' b de",
        source=_SHEAR,
        inputs=(
            ("held_mm", held_mm),
            ("depth_mm", section.depth_mm),
            ("to_end_mm", to_end_mm),
            *allowed.factors,
        ),
    )


def spread_check(subject: str, *, spread_mm: float) -> Check:
    """Return the check of how far outer fasteners lie apart across the grain: 5 in at most.

    Sawn wood that shrinks between them splits; details that let it shrink are not covered.

    Raises:
        InputError: It is not above 0.

    Source: NDS 12.5.1.3, sawn lumber, read as transcribed.
    """
    refuse_unless_positive(spread_mm=spread_mm)
    return check(
        "spread across the grain",
        subject,
        measured=spread_mm,
        limit=mm_of_inches(_WIDEST_INCH),
        unit="mm",
        case="any",
        formula="spread <= 5 in",
        source=_SPREAD,
    )


def _faults(allowed: Allowed, section: Section, held_mm: float, to_end_mm: float) -> list[Fault]:
    held = positive(held_mm=held_mm)
    if not positive(held=held_mm, of=section.depth_mm) and held_mm > section.depth_mm:
        wanted = f"above 0 and at most {section.depth_mm:g}"
        held = [Fault(path="held_mm", found=repr(held_mm), wanted=wanted)]
    sizes = [*section_faults(section), *held, *from_nothing(to_end_mm=to_end_mm)]
    return [*allowed_faults(allowed), *sizes]
