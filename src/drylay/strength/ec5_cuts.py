"""Notches at supports, and where holes and notches in a joist may go."""

from math import sqrt

from drylay.errors import Fault, InputError, UncoveredError
from drylay.strength.checks import check, refuse_unless_positive
from drylay.strength.ec5_checking import ec5
from drylay.strength.ec5_member import design_n_mm2
from drylay.strength.ec5_model import Choices, DesignCase, Notch, Timber
from drylay.strength.ec5_values import number, told
from drylay.strength.model import Check
from drylay.strength.sections import breadth_in_all_mm


def kv(notch: Notch, depth_mm: float) -> float:
    """Return k v, a ratio: what a notch at a support leaves of the shear strength.

    1 for a notch in the upper edge, off the support's side.

    Source: EN 1995-1-1 6.5.2, (6.61) to (6.63), k_n 5 of solid timber, from memory.
    """
    if not notch.below:
        return 1.0
    left = (depth_mm - notch.deep_mm) / depth_mm
    sloped = number("kn") * (1.0 + 1.1 * notch.slope_ratio**1.5 / sqrt(depth_mm))
    off = notch.off_support_mm / depth_mm
    torn = sqrt(left * (1.0 - left)) + 0.8 * off * sqrt(1.0 / left - left * left)
    return min(1.0, float(sloped / (sqrt(depth_mm) * torn)))


def notched_shear(timber: Timber, notch: Notch, case: DesignCase, choices: Choices) -> Check:
    """Return the check of shear beside a notch at a support, stresses in N/mm2.

    Raises:
        InputError: The notch leaves no wood.

    Source: EN 1995-1-1 6.5.2, (6.60), from memory; k_cr is reckoned in as in 6.1.7.
    """
    depth = timber.section.depth_mm
    if not 0.0 < notch.deep_mm < depth:
        wanted = f"above 0 and below {depth:g}"
        raise InputError((Fault(path="notch.deep_mm", found=repr(notch.deep_mm), wanted=wanted),))
    left_mm, factor = depth - notch.deep_mm, kv(notch, depth)
    area = number("kcr") * breadth_in_all_mm(timber.section) * left_mm
    return check(
        "shear at a notch",
        timber.name,
        measured=1.5 * case.shear_kn * 1e3 / area,
        limit=factor * design_n_mm2(timber.grade.fv_k_n_mm2, case, choices),
        unit="N/mm2",
        case=case.name,
        formula="tau_d = 1.5 V_d / (k_cr b h_ef) <= k_v f_v,d",
        source=ec5("6.5.2"),
        inputs=(
            ("k_v", factor),
            ("h_ef_mm", left_mm),
            ("off_support_mm", notch.off_support_mm),
            ("slope", notch.slope_ratio),
            ("below", str(notch.below).lower()),
        ),
    )


def hole_checks(
    subject: str, *, depth_mm: float, span_mm: float, across_mm: float, at_mm: float
) -> tuple[Check, ...]:
    """Return the checks of a hole on a joist's middle line: its size, and where along the span.

    `at_mm` is from the nearer support. Three diameters at least lie between two holes.

    Raises:
        UncoveredError: The joist is deeper than the guidance goes.
        InputError: A size is not above 0.

    Source: UK guidance on floor joists, from memory: no formula of EN 1995-1-1.
    """
    size = _cut_size(subject, "hole", across_mm, depth_mm)
    return (size, *_places(subject, "hole", at_mm, span_mm))


def top_notch_checks(
    subject: str, *, depth_mm: float, span_mm: float, deep_mm: float, at_mm: float
) -> tuple[Check, ...]:
    """Return the checks of a notch in a joist's upper edge within the span: depth and place.

    `at_mm` is from the nearer support, to the notch's nearer edge for the least, its further edge
    for the most: ask twice. 100 mm at least lie between a notch and a hole.

    Raises:
        UncoveredError: The joist is deeper than the guidance goes.
        InputError: A size is not above 0.

    Source: UK guidance on floor joists, from memory: no formula of EN 1995-1-1.
    """
    size = _cut_size(subject, "notch", deep_mm, depth_mm)
    return (size, *_places(subject, "notch", at_mm, span_mm))


def _cut_size(subject: str, cut: str, found_mm: float, depth_mm: float) -> Check:
    refuse_unless_positive(depth_mm=depth_mm)
    if depth_mm > number("cut_depth_mm"):
        wanted = f"at most {number('cut_depth_mm'):g}, or an engineer"
        raise UncoveredError((Fault(path="depth_mm", found=f"{depth_mm:g}", wanted=wanted),))
    rule = f"{cut}_depth_share"
    return check(
        f"{cut} size",
        subject,
        measured=found_mm,
        limit=number(rule) * depth_mm,
        unit="mm",
        case="any",
        formula="size <= share of the depth",
        source=told(rule).source,
        inputs=(("share", number(rule)),),
    )


def _places(subject: str, cut: str, at_mm: float, span_mm: float) -> tuple[Check, Check]:
    refuse_unless_positive(at_mm=at_mm, span_mm=span_mm)
    near, far = number(f"{cut}_from_span"), number(f"{cut}_to_span")
    place = (("span_mm", span_mm), ("at_mm", at_mm))
    nearer = check(
        f"{cut} near a support",
        subject,
        measured=near * span_mm,
        limit=at_mm,
        unit="mm",
        case="any",
        formula=f"{near} L <= distance from the support",
        source=told(f"{cut}_from_span").source,
        inputs=place,
    )
    further = check(
        f"{cut} near mid-span",
        subject,
        measured=at_mm,
        limit=far * span_mm,
        unit="mm",
        case="any",
        formula=f"distance from the support <= {far} L",
        source=told(f"{cut}_to_span").source,
        inputs=place,
    )
    return nearer, further
