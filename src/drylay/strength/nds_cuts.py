"""Notches and holes in sawn beams by the US basis: what they leave of shear, and their limits."""

from collections.abc import Iterator

from drylay.errors import Fault
from drylay.reasons import Source
from drylay.strength.checks import check, ranked
from drylay.strength.meant import finite, from_nothing, positive, refuse
from drylay.strength.model import Check, Screened, Section
from drylay.strength.nds_faults import allowed_faults
from drylay.strength.nds_joint_model import SawnNotch
from drylay.strength.nds_model import Allowed
from drylay.strength.nds_screen import BASIS, WITHIN
from drylay.strength.nds_tables import named_values, table_source
from drylay.strength.nds_values import THICKEST_INCH
from drylay.strength.sections import breadth_in_all_mm, section_faults
from drylay.strength.us_units import NOISE_INCH, NOISE_MM, inches_of_mm, mm_of_inches

_SHEAR = Source(
    kind="from memory",
    title="National Design Specification for Wood Construction",
    clause="3.4.3.2",
)
_NET = Source(
    kind="from memory",
    title="National Design Specification for Wood Construction",
    clause="3.2.3, 3.1.2",
)


def notched_shear_kn(allowed: Allowed, section: Section, notch: SawnNotch) -> float:
    """Return the shear V'r that a notched beam may carry, in kN.

    In the stretched edge 2/3 Fv' b dn (dn/d)^2; in the pressed one, at an end,
    2/3 Fv' b (d - (d - dn) / dn e) with e its reach past the support, dn for d from e = dn on.

    Raises:
        InputError: The notch leaves no wood, or a size of it or of the beam cannot be meant.

    Source: NDS 3.4.3.2, from memory.
    """
    _refuse_notch(allowed, section, notch)
    depth, left = section.depth_mm, section.depth_mm - notch.deep_mm
    whole_n_mm = allowed.shear_n_mm2 * breadth_in_all_mm(section) * 2.0 / 3.0
    if notch.stretched:
        return float(whole_n_mm * left * (left / depth) ** 2 / 1e3)
    reach = min(notch.reach_mm, left) if notch.at_end else left
    return whole_n_mm * (depth - notch.deep_mm / left * reach) / 1e3


def notched_shear_check(
    allowed: Allowed,
    section: Section,
    notch: SawnNotch,
    *,
    subject: str,
    shear_kn: float,
    case: str,
) -> Check:
    """Return the check of shear beside a notch, no load near the support taken off.

    Raises:
        InputError: As `notched_shear_kn`, or the shear is no number.

    Source: NDS 3.4.3.2, from memory.
    """
    _refuse_notch(allowed, section, notch, shear_kn=shear_kn)
    formula = "V <= 2/3 Fv' b dn (dn / d)^2"
    return check(
        "shear at a notch",
        subject,
        measured=abs(shear_kn),
        limit=notched_shear_kn(allowed, section, notch),
        unit="kN",
        case=case,
        formula=formula if notch.stretched else "V <= 2/3 Fv' b (d - (d - dn) / dn e)",
        source=_SHEAR,
        inputs=(
            ("deep_mm", notch.deep_mm),
            ("reach_mm", notch.reach_mm),
            ("stretched", str(notch.stretched).lower()),
            *allowed.factors,
        ),
    )


def notched_bending_check(
    allowed: Allowed,
    section: Section,
    notch: SawnNotch,
    *,
    subject: str,
    moment_kn_m: float,
    case: str,
) -> Check:
    """Return the check of bending where the notch is, on the depth it leaves, without CL.

    Raises:
        InputError: As `notched_shear_kn`, or the moment is no number.

    Source: NDS 3.1.2 and 3.2.3, from memory: the net section.
    """
    _refuse_notch(allowed, section, notch, moment_kn_m=moment_kn_m)
    left = section.depth_mm - notch.deep_mm
    stress = abs(moment_kn_m) * 1e6 * 6 / (breadth_in_all_mm(section) * left**2)
    return check(
        "bending at a notch",
        subject,
        measured=stress,
        limit=allowed.bending_n_mm2,
        unit="N/mm2",
        case=case,
        formula="6 M / b dn^2 <= Fb'",
        source=_NET,
        inputs=(("moment_kn_m", moment_kn_m), ("left_mm", left), *allowed.factors),
    )


def screened_notch(
    allowed: Allowed,
    section: Section,
    notch: SawnNotch,
    *,
    subject: str,
    span_mm: float,
    shear_kn: float,
    moment_kn_m: float,
    case: str,
) -> Screened:
    """Return the checks of a notch: shear and bending there, depth, length and place.

    A notch in the stretched edge of wood nominally 4 in thick or more, off the ends, is a stop.

    Args:
        allowed: What the wood may bear.
        section: Of the beam; each ply's own thickness counts for the 4 in.
        notch: It.
        subject: What is checked.
        span_mm: Clear.
        shear_kn: Where the notch is.
        moment_kn_m: Where the notch is.
        case: The load case.

    Raises:
        InputError: The notch leaves no wood, a size is not what it can be, or it reaches further
            than its support is near: past half the span, or at an end past its own length.

    Source: NDS 3.4.3.2, 3.2.3, 4.4.3, from memory; IRC R502.8.1, read as quoted.
    """
    loads = {"shear_kn": shear_kn, "moment_kn_m": moment_kn_m}
    _refuse_notch(allowed, section, notch, span_mm=span_mm, **loads)
    here = {"subject": subject, "case": case}
    checks = [
        notched_shear_check(allowed, section, notch, shear_kn=shear_kn, **here),
        notched_bending_check(allowed, section, notch, moment_kn_m=moment_kn_m, **here),
        *_limits(section, notch, subject, span_mm),
    ]
    assumed = (
        WITHIN,
        "the notch is square and its corner is not overcut; a taper is not reckoned with",
        "the beam spans once: no notch within the spans of one over more supports is covered",
    )
    stops = tuple(_stops(section, notch))
    return Screened(
        basis=BASIS, subject=subject, checks=ranked(checks), assumed=assumed, stops=stops
    )


def hole_checks(
    subject: str,
    *,
    depth_mm: float,
    across_mm: float,
    to_edge_mm: float,
    to_next_mm: float | None = None,
) -> tuple[Check, ...]:
    """Return the checks of a hole bored through a joist: its size, to the edges, to the next cut.

    A rule of thumb of the code, for joists; the NDS has no formula for holes.

    Args:
        subject: What is checked.
        depth_mm: Of the joist.
        across_mm: Of the hole.
        to_edge_mm: From the hole's edge to the nearer edge of the joist.
        to_next_mm: From the hole's edge to the nearest hole or notch; None where there is none.

    Raises:
        InputError: A size cannot be meant; all of them are told. Or the hole is as broad as the
            joist is deep, or further from its nearer edge than there is room.

    Source: IRC R502.8.1, read as quoted on public pages.
    """
    next_cut = {} if to_next_mm is None else {"to_next_mm": to_next_mm}
    sizes = positive(depth_mm=depth_mm, across_mm=across_mm, to_edge_mm=to_edge_mm, **next_cut)
    refuse([*sizes, *_beyond(depth_mm, across_mm, to_edge_mm)])
    apart = mm_of_inches(named_values("cuts")["apart_inch"])
    size = _part("hole size", subject, across_mm, "hole_depth", whole_mm=depth_mm)
    edge = _apart("hole to edge", subject, apart, to_edge_mm)
    if to_next_mm is None:
        return size, edge
    return size, edge, _apart("hole to next cut", subject, apart, to_next_mm)


def _beyond(depth_mm: float, across_mm: float, to_edge_mm: float) -> Iterator[Fault]:
    """Yield that a hole is further from the nearer edge than there is room: a slip in measuring."""
    if positive(depth_mm=depth_mm, across_mm=across_mm):
        return
    most = (depth_mm - across_mm) / 2
    if across_mm >= depth_mm:
        wanted = f"below {depth_mm:g}, the joist's depth"
        yield Fault(path="across_mm", found=repr(across_mm), wanted=wanted)
    elif not positive(to_edge_mm=to_edge_mm) and to_edge_mm > most + NOISE_MM:
        wanted = f"at most {most:g}: to the nearer edge, from the hole's own"
        yield Fault(path="to_edge_mm", found=repr(to_edge_mm), wanted=wanted)


def _limits(section: Section, notch: SawnNotch, subject: str, span_mm: float) -> Iterator[Check]:
    depth = section.depth_mm
    rule = "end_notch_depth" if notch.at_end else "notch_depth"
    yield _part("notch depth", subject, notch.deep_mm, rule, whole_mm=depth)
    yield _part("notch length", subject, notch.long_mm, "notch_length", whole_mm=depth)
    if not notch.at_end:
        reach = notch.reach_mm
        yield _part("notch near mid-span", subject, reach, "notch_place", whole_mm=span_mm)


def _part(name: str, subject: str, found_mm: float, rule: str, *, whole_mm: float) -> Check:
    share = named_values("cuts")[rule]
    letter = "L" if rule == "notch_place" else "d"
    return check(
        name,
        subject,
        measured=found_mm,
        limit=share * whole_mm,
        unit="mm",
        case="any",
        formula=f"<= {letter} / {1 / share:.0f}",
        source=table_source("cuts"),
        inputs=(("whole_mm", whole_mm),),
    )


def _apart(name: str, subject: str, least_mm: float, there_mm: float) -> Check:
    return check(
        name,
        subject,
        measured=least_mm,
        limit=there_mm,
        unit="mm",
        case="any",
        formula="2 in <= distance",
        source=table_source("cuts"),
    )


def _stops(section: Section, notch: SawnNotch) -> Iterator[str]:
    thick = inches_of_mm(section.breadth_mm) >= THICKEST_INCH - NOISE_INCH
    if thick and notch.stretched and not notch.at_end:
        yield (
            "wood nominally 4 in thick or more takes no notch in its stretched edge off its ends "
            "(NDS 4.4.3, IRC R502.8.1)"
        )


def _refuse_notch(
    allowed: Allowed,
    section: Section,
    notch: SawnNotch,
    span_mm: float | None = None,
    **loads: float,
) -> None:
    span = {} if span_mm is None else {"span_mm": span_mm}
    faults = [*positive(**span), *finite(**loads), *allowed_faults(allowed)]
    faults += section_faults(section)
    sawn = {"notch.deep_mm": notch.deep_mm, "notch.long_mm": notch.long_mm}
    sizes = positive(**sawn)
    if not positive(deep=notch.deep_mm, of=section.depth_mm) and notch.deep_mm >= section.depth_mm:
        wanted = f"above 0 and below {section.depth_mm:g}"
        sizes.insert(0, Fault(path="notch.deep_mm", found=repr(notch.deep_mm), wanted=wanted))
    refuse([*faults, *sizes, *_reach_faults(notch, span_mm)])


def _reach_faults(notch: SawnNotch, span_mm: float | None) -> list[Fault]:
    """Return that a notch reaches no way, or further than it may be said to."""
    faults = from_nothing(**{"notch.reach_mm": notch.reach_mm})
    if faults or notch.reach_mm <= (most := _farthest(notch, span_mm)) + NOISE_MM:
        return faults
    wanted = f"at most {most:g}: from the nearer support, at an end no further than it is long"
    return [Fault(path="notch.reach_mm", found=repr(notch.reach_mm), wanted=wanted)]


def _farthest(notch: SawnNotch, span_mm: float | None) -> float:
    """Return how far a notch may be said to reach: at an end its length, else half the span.

    Where no span is told, or sizes are refused anyway, as far as it likes.
    """
    if span_mm is None or positive(span_mm=span_mm, long_mm=notch.long_mm):
        return float("inf")
    return min(notch.long_mm, span_mm / 2) if notch.at_end else span_mm / 2
