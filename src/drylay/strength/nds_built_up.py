"""Posts built up of plies that are nailed or bolted, by the US basis (NDS 15.3)."""

from attrs import evolve

from drylay.errors import Fault, UncoveredError
from drylay.reasons import Source
from drylay.strength.checks import check, ranked
from drylay.strength.meant import MOST, from_nothing, lies, one_of, positive, refuse, together
from drylay.strength.model import Check, Screened, Section
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_factors import column_stability_factor, duration_factor
from drylay.strength.nds_faults import allowed_faults
from drylay.strength.nds_joint_model import PlyFixing
from drylay.strength.nds_model import Allowed, Conditions
from drylay.strength.nds_screen import BASIS, WITHIN, refuse_member
from drylay.strength.nds_tables import named_values
from drylay.strength.sections import area_mm2, breadth_in_all_mm, section_faults
from drylay.strength.us_units import NOISE_MM, mm_of_inches

#: Source: NDS 15.3.1, from memory.
LEAST_PLIES, MOST_PLIES = 2, 5
_LEAST_PLY_INCH = 1.5
JOINED = ("nailed", "bolted")
_BUILT_UP = Source(
    kind="from memory",
    title="National Design Specification for Wood Construction",
    clause="15.3.2",
)


def built_up_ratio(
    wood: Allowed, section: Section, *, joined: str, length_mm: float, braced_mm: float
) -> tuple[float, str]:
    """Return CP of a post of plies and which way it buckles: the less of both ways.

    Across the plies, in the direction that they slip on one another, Kf times that of solid wood;
    along their faces, that of solid wood. The NDS lets no post bear less than its plies one by
    one would; that is left out here.

    Args:
        wood: What it may bear, without CP.
        section: One ply, and how many.
        joined: "nailed" (Kf 0.6) or "bolted" (Kf 0.75).
        length_mm: Between places where it is held the way that its plies are deep.
        braced_mm: Between places where it is held across its plies.

    Raises:
        UncoveredError: Plies, their thickness, how they are joined or the slenderness is not
            covered; all faults of plies are told.
        InputError: A length or what the wood may bear is not above 0.

    Source: NDS 15.3.1 and 15.3.2, from memory.
    """
    lengths = positive(length_mm=length_mm, braced_mm=braced_mm)
    refuse([*allowed_faults(wood), *lengths], _ply_faults(section, joined))
    along = _solid_ratio(wood, length_mm, section.depth_mm)
    across = _solid_ratio(wood, braced_mm, breadth_in_all_mm(section))
    across *= named_values("built_up")[joined]
    return min((across, "across the plies"), (along, "the way the plies are deep"))


def built_up_check(
    wood: Allowed,
    section: Section,
    *,
    subject: str,
    joined: str,
    load_kn: float,
    length_mm: float,
    braced_mm: float,
    case: str,
) -> Check:
    """Return the check of a post of plies loaded in its middle, ends held and free to turn.

    Raises:
        UncoveredError: As `built_up_ratio`.
        InputError: As `built_up_ratio`, or the load is below 0 or no number.

    Source: NDS 15.3.2 and 3.6.3, from memory.
    """
    lengths = positive(length_mm=length_mm, braced_mm=braced_mm)
    nonsense = [*from_nothing(load_kn=load_kn), *allowed_faults(wood), *lengths]
    refuse(nonsense, _ply_faults(section, joined))
    ratio, way = built_up_ratio(
        wood, section, joined=joined, length_mm=length_mm, braced_mm=braced_mm
    )
    return check(
        "column buckling, built up",
        subject,
        measured=load_kn * 1000 / area_mm2(section),
        limit=wood.along_n_mm2 * ratio,
        unit="N/mm2",
        case=case,
        formula="P / A <= Fc CD CM CF Ci CP, CP = Kf that of solid wood across the plies",
        source=_BUILT_UP,
        inputs=(
            ("load_kn", load_kn),
            ("length_mm", length_mm),
            ("braced_mm", braced_mm),
            ("CP", ratio),
            ("buckles", way),
            ("Kf", named_values("built_up")[joined]),
            *wood.factors,
        ),
    )


def screened_built_up_post(
    section: Section,
    *,
    subject: str,
    wood: tuple[str, str],
    joined: str,
    fastener_mm: float,
    length_mm: float,
    dead_kn: float,
    live_kn: float,
    conditions: Conditions,
    braced_mm: float = 0.0,
    live_for: str = "occupancy",
) -> Screened:
    """Return the checks of a post of plies, under dead load alone and all load.

    What is assumed tells how its plies are to be fixed, with the least and most of each distance:
    without that the figures do not hold.

    Args:
        section: One ply and how many.
        subject: What is checked.
        wood: Species and grade of every ply.
        joined: "nailed" or "bolted".
        fastener_mm: Diameter of its nails or bolts.
        length_mm: Between places where it is held both ways.
        dead_kn: Down its middle.
        live_kn: Down its middle.
        conditions: Of use; the duration factor is that of each load case.
        braced_mm: Between places where it is held across its plies, where that is less; 0 if not.
        live_for: What the live load lasts like.

    Raises:
        UncoveredError: Wood, plies, joining or slenderness is not covered.
        InputError: A size or load is not what it can be.

    Source: NDS 15.3, from memory but for nailing.
    """
    loads_kn = from_nothing(dead_kn=dead_kn, live_kn=live_kn, braced_mm=braced_mm)
    together(
        lambda: refuse([*positive(fastener_mm=fastener_mm, length_mm=length_mm), *loads_kn]),
        lambda: refuse((), _ply_faults(section, joined)),
        lambda: refuse_member(section, wood, conditions, live_for=live_for),
    )
    loads = (
        ("permanent", "dead load", dead_kn),
        (live_for, "dead and live load", dead_kn + live_kn),
    )
    checks = [
        built_up_check(
            allowed(*wood, section, evolve(conditions, duration_ratio=duration_factor(duration))),
            section,
            subject=subject,
            joined=joined,
            load_kn=kn,
            length_mm=length_mm,
            braced_mm=braced_mm or length_mm,
            case=case,
        )
        for duration, case, kn in loads
    ]
    return Screened(
        basis=BASIS,
        subject=subject,
        checks=ranked(checks),
        assumed=_assumed(section, joined, fastener_mm),
    )


def ply_fixings(section: Section, *, joined: str, fastener_mm: float) -> tuple[PlyFixing, ...]:
    """Return least and most of each distance of the nails or bolts that join a post's plies.

    Raises:
        UncoveredError: The plies or how they are joined is not covered, or the fastener is so
            thick that no distance along a row is left, or no room for its rows.
        InputError: Its diameter is not above 0.

    Source: NDS 15.3.3, read as summed up on a public page; 15.3.4, softwoods, from memory.
    """
    refuse(positive(fastener_mm=fastener_mm), _ply_faults(section, joined))
    found = named_values(f"{joined}_plies")
    along = PlyFixing(
        name="along",
        least_mm=found["along_least"] * fastener_mm,
        most_mm=6 * section.breadth_mm,
    )
    if along.least_mm > along.most_mm:
        wanted = f"at most {along.most_mm / found['along_least']:.4g}"
        fault = Fault(path="fastener_mm", found=f"{fastener_mm:.4g}", wanted=wanted)
        raise UncoveredError((fault,))
    others = (
        PlyFixing(
            name=name.replace("_", " "),
            least_mm=found[f"{name}_least"] * fastener_mm,
            most_mm=found[f"{name}_most"] * fastener_mm,
        )
        for name in ("end", "between_rows", "edge")
    )
    fixings = (along, *others)
    _refuse_what_has_no_room(section, {each.name: each.least_mm for each in fixings}, fastener_mm)
    return fixings


def _refuse_what_has_no_room(
    section: Section, least_mm: dict[str, float], fastener_mm: float
) -> None:
    """Refuse fasteners so thick that their rows do not fit between the edges of a ply."""
    rows = least_rows(section)
    needed = 2 * least_mm["edge"] + (rows - 1) * least_mm["between rows"]
    if needed > section.depth_mm + NOISE_MM:
        wanted = f"at most {fastener_mm * section.depth_mm / needed:.4g}: {rows} rows and edges"
        fault = Fault(path="fastener_mm", found=f"{fastener_mm:.4g}", wanted=wanted)
        raise UncoveredError((fault,))


def least_rows(section: Section) -> int:
    """Return how many rows of nails or bolts a post of plies has at least: 2 of deep plies.

    Source: NDS 15.3.3 (read as summed up on a public page) and 15.3.4 (from memory): two where a
    ply is more than three times as deep as thick.

    Raises:
        InputError: A size is not above 0.
    """
    refuse(section_faults(section))
    return 2 if section.depth_mm > 3 * section.breadth_mm + NOISE_MM else 1


def least_nail_mm(section: Section) -> float:
    """Return how long its nails are at least: through all plies but the last, 3/4 into that.

    Raises:
        InputError: A size is not above 0, or plies are no whole number, 1 or more.

    Source: NDS 15.3.3, read as summed up on a public page.
    """
    refuse(section_faults(section))
    return (section.plies - 0.25) * section.breadth_mm


def _assumed(section: Section, joined: str, fastener_mm: float) -> tuple[str, ...]:
    told = ", ".join(
        f"{each.name} {each.least_mm:.4g} to {each.most_mm:.4g} mm"
        for each in ply_fixings(section, joined=joined, fastener_mm=fastener_mm)
    )
    rows = f"{least_rows(section)} row{'s' if least_rows(section) > 1 else ''} at least"
    how = {
        "nailed": f"nails {least_nail_mm(section):.4g} mm long at least, driven from either side "
        "in turn",
        "bolted": "plates or washers under heads and nuts, nuts tightened until faces touch",
    }
    return (
        WITHIN,
        "the load stands in the post's middle and on every ply, both ends are held sideways",
        "plies are of one depth, whole from end to end, their faces touch",
        f"{joined} along the whole post, {rows}: {told}; {how[joined]}",
    )


def _solid_ratio(wood: Allowed, length_mm: float, thick_mm: float) -> float:
    return column_stability_factor(
        length_mm=length_mm,
        least_mm=thick_mm,
        along_n_mm2=wood.along_n_mm2,
        least_stiffness_n_mm2=wood.least_stiffness_n_mm2,
    )


def _ply_faults(section: Section, joined: str) -> list[Fault]:
    faults = [fault for fault in section_faults(section) if fault.path != "section.breadth_mm"]
    least_mm = mm_of_inches(_LEAST_PLY_INCH)
    if not faults and not LEAST_PLIES <= section.plies <= MOST_PLIES:
        wanted = f"from {LEAST_PLIES} to {MOST_PLIES}"
        faults.append(Fault(path="section.plies", found=str(section.plies), wanted=wanted))
    if not lies(section.breadth_mm, least_mm - NOISE_MM, MOST):
        found, wanted = repr(section.breadth_mm), f"at least {least_mm:g}"
        faults.append(Fault(path="section.breadth_mm", found=found, wanted=wanted))
    return [*faults, *one_of(JOINED, joined=joined)]
