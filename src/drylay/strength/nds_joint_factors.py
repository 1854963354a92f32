"""What a joint of the US basis keeps of its fasteners' values: wet, many in a row, distances."""

from math import sqrt

from drylay.errors import Fault, InputError
from drylay.reasons import Source
from drylay.strength.checks import check, refuse_unless_positive
from drylay.strength.meant import between, from_nothing, lies, positive, refuse
from drylay.strength.model import Check
from drylay.strength.nds_dowels import THIN_INCH
from drylay.strength.nds_faults import dowel_faults
from drylay.strength.nds_joint_model import Distances, Dowel
from drylay.strength.nds_tables import named_values
from drylay.strength.sections import count_faults
from drylay.strength.us_units import NOISE_INCH, inches_of_mm, n_mm_of_lb_inch

_GEOMETRY = Source(
    kind="standard",
    title="National Design Specification for Wood Construction",
    clause="12.5.1, tables 12.5.1A to 12.5.1D, softwoods, read as transcribed in a public file",
)
_MOST_IN_ROW = 100
#: Where what the formula takes off one another leaves digits that count.
_LEAST_SLIP, _MOST_SLIP = 1 + 1e-9, 1e7
_SLIP_WOOD, _SLIP_STEEL = 180_000.0, 270_000.0


def wet_joint_ratio(
    dowel: Dowel, *, made_wet: bool, used_wet: bool = True, one_row: bool = False
) -> float:
    """Return CM of a joint loaded across its fasteners.

    Args:
        dowel: One of them.
        made_wet: Its wood holds more than 19 % when it is put together.
        used_wet: It holds more than 19 % at some time in service, as wood outdoors is taken to.
        one_row: There is one fastener, or one row along the grain; it counts from 1/4 in on.

    Raises:
        InputError: The dowel has a size or steel that is not above 0.

    Source: NDS table 11.3.3 and footnote 2, read as transcribed.
    """
    refuse(dowel_faults(dowel))
    ratios = named_values("wet_joint")
    if used_wet:
        return ratios["wet"]
    if not made_wet:
        return ratios["dry"]
    if _thin(dowel):
        return ratios["dries, thin"]
    return ratios["dries, one row" if one_row else "dries"]


def group_ratio(
    dowel: Dowel, *, count: int, spacing_mm: float, main_n: float, side_n: float, steel: bool
) -> float:
    """Return Cg, what each fastener of a row keeps of its value; 1 below 1/4 in.

    Args:
        dowel: One of them.
        count: In the row, along the load; at most 100 (assumption: more cannot be meant).
        spacing_mm: From one to the next.
        main_n: E A of the main piece, in N: stiffness in N/mm2 times area across the load.
        side_n: E A of all side pieces together, in N.
        steel: The side pieces are steel.

    Raises:
        InputError: A number cannot be meant; all of them are told. Or pieces are so soft or stiff
            beside what a fastener slips that the formula says nothing.

    Source: NDS 11.3.6, (11.3-1), read as transcribed; gives tables 11.3.6A and 11.3.6C.
    """
    counted = count_faults(count=count) or between(1, _MOST_IN_ROW, count=count)
    sizes = positive(spacing_mm=spacing_mm, main_n=main_n, side_n=side_n)
    refuse([*dowel_faults(dowel), *counted, *sizes])
    if count == 1 or _thin(dowel):
        return 1.0
    slip = _SLIP_STEEL if steel else _SLIP_WOOD
    gamma = n_mm_of_lb_inch(slip * inches_of_mm(dowel.diameter_mm) ** 1.5)
    u = 1.0 + gamma * spacing_mm / 2.0 * (1.0 / main_n + 1.0 / side_n)
    if not lies(u, _LEAST_SLIP, _MOST_SLIP):
        found = f"{spacing_mm:g} mm, {main_n:g} N, {side_n:g} N"
        wanted = f"pieces as stiff as wood and steel are: u {_LEAST_SLIP:g} to {_MOST_SLIP:g}"
        raise InputError((Fault(path="spacing_mm, main_n, side_n", found=found, wanted=wanted),))
    m = u - sqrt(u * u - 1.0)
    ratio = min(main_n / side_n, side_n / main_n)
    fading = m ** (2 * count)
    below = count * ((1.0 + ratio * m**count) * (1.0 + m) - 1.0 + fading)
    return float(m * (1.0 - fading) / below * (1.0 + ratio) / (1.0 - m))


def distances(
    dowel: Dowel,
    *,
    angle_deg: float,
    bears_mm: float,
    pulls_to_end: bool = True,
    rows_apart_mm: float = 0.0,
) -> Distances:
    """Return how far fasteners keep from ends, edges and one another for their full value.

    Between 0 and 90 degrees the greater of both holds. Less distance and the geometry factor that
    goes with it are not covered.

    Args:
        dowel: From 1/4 in on.
        angle_deg: Of the load to the grain.
        bears_mm: How much of it bears in the piece; of side and main piece the less.
        pulls_to_end: A load along the grain goes to the end of the piece.
        rows_apart_mm: How far rows are apart, where there are more than one; 0 where not.

    Raises:
        UncoveredError: It is thinner than 1/4 in: the NDS has no figures, only that wood must not
            split; or the angle is none.
        InputError: A size is below 0.

    Source: NDS tables 12.5.1A to 12.5.1D, softwoods, read as transcribed.
    """
    sizes = [*positive(bears_mm=bears_mm), *from_nothing(rows_apart_mm=rows_apart_mm)]
    refuse([*dowel_faults(dowel), *sizes], _geometry_faults(dowel, angle_deg))
    d, slender = dowel.diameter_mm, bears_mm / dowel.diameter_mm
    along, across = angle_deg < 90, angle_deg > 0
    plain_edge = max(1.5 * d, rows_apart_mm / 2) if along and slender > 6 else 1.5 * d
    return Distances(
        end_mm=(7.0 if along and pulls_to_end else 4.0) * d,
        along_mm=4.0 * d,
        edge_mm=plain_edge,
        loaded_edge_mm=max(plain_edge, 4.0 * d) if across else plain_edge,
        between_rows_mm=_rows_mm(d, slender) if across else 1.5 * d,
        source=_GEOMETRY,
    )


def distance_check(subject: str, name: str, *, least_mm: float, there_mm: float) -> Check:
    """Return the check that a distance is there: the least for full value over what there is.

    Raises:
        InputError: A distance is not above 0.

    Source: NDS 12.5.1, read as transcribed.
    """
    refuse_unless_positive(least_mm=least_mm, there_mm=there_mm)
    return check(
        f"distance, {name}",
        subject,
        measured=least_mm,
        limit=there_mm,
        unit="mm",
        case="any",
        formula="least for full value <= distance",
        source=_GEOMETRY,
    )


def _rows_mm(d: float, slender: float) -> float:
    """Return how far rows are apart where the load goes across the grain. Source: table 12.5.1D."""
    if slender <= 2:
        return 2.5 * d
    return 5.0 * d if slender >= 6 else (5.0 * slender + 10.0) * d / 8.0


def _thin(dowel: Dowel) -> bool:
    return inches_of_mm(dowel.diameter_mm) < THIN_INCH - NOISE_INCH


def _geometry_faults(dowel: Dowel, angle_deg: float) -> list[Fault]:
    faults = between(0, 90, angle_deg=angle_deg)
    if not dowel_faults(dowel) and _thin(dowel):
        found = f"{inches_of_mm(dowel.diameter_mm):g} in"
        wanted = "at least 0.25 in: the NDS has no distances of thinner ones"
        faults.insert(0, Fault(path="dowel.diameter_mm", found=found, wanted=wanted))
    return faults
