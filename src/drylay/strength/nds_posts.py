"""How tall a post may be, and how large its footing must be, by the US basis."""

from math import pi, sqrt

from drylay.errors import Fault, UncoveredError
from drylay.strength.meant import LEAST, positive, refuse
from drylay.strength.model import Section
from drylay.strength.nds_factors import MOST_SLENDER_COLUMN, column_stability_factor
from drylay.strength.nds_faults import allowed_faults
from drylay.strength.nds_model import Allowed, Extent
from drylay.strength.sections import area_mm2, one_piece, section_faults
from drylay.strength.us_units import dug_inches, mm_of_feet, mm_of_inches, table_inches

#: Source: IRC 2021 table R507.4, from memory: the cap; the offset is inferred from its cells.
TALLEST_POST_MM = mm_of_feet(14)
POST_OFFSET_MM = mm_of_inches(1.5)
#: Source: IRC table R507.3.1, from memory.
LEAST_SQUARE_INCH, LEAST_ROUND_INCH, LEAST_THICK_INCH = 12, 14, 6
TABLE_POST_INCH = 6
_HALVINGS = 80


def post_length(
    allowed: Allowed, section: Section, *, load_kn: float, most_mm: float = TALLEST_POST_MM
) -> Extent:
    """Return how long a post may be between where it is held, loaded in its middle.

    `most_mm` caps it; without end, no cap holds, and it stands so among the limits.

    Raises:
        UncoveredError: The load is not above 0, the post bears it at no length, or is built up
            of plies (`nds_built_up` screens those).
        InputError: A size of the post, what it may bear or the cap is not above 0.

    Source: NDS 3.7.1, from memory. Buckling about the thinner side.
    """
    nonsense = [*allowed_faults(allowed), *section_faults(section)]
    cap = [] if most_mm == float("inf") else positive(most_mm=most_mm)
    refuse([*nonsense, *cap], positive(load_kn=load_kn))
    least_mm = least_side_mm(section)
    if load_kn * 1000 > allowed.along_n_mm2 * area_mm2(section):
        wanted = "a load that the post bears without buckling"
        raise UncoveredError((Fault(path="load_kn", found=f"{load_kn:.4g}", wanted=wanted),))
    low, high = 0.0, MOST_SLENDER_COLUMN * least_mm
    if _bears(allowed, section, high, load_kn):
        return _extent(high, most_mm, "slenderness")
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if _bears(allowed, section, middle, load_kn) else (low, middle)
    return _extent(low, most_mm, "buckling")


def least_side_mm(section: Section) -> float:
    """Return the thinner side of a post of one piece.

    Raises:
        UncoveredError: It is built up of plies.
        InputError: A size is not above 0.
    """
    return min(one_piece(section).breadth_mm, section.depth_mm)


def post_height_mm(allowed: Allowed, section: Section, *, load_kn: float) -> float:
    """Return the height that the post table prints before it is rounded: 1.5 in less, capped.

    Raises:
        UncoveredError: As `post_length`, or the post is no longer than those 1.5 in.
        InputError: As `post_length`.

    Source: IRC 2021 table R507.4, from memory; the offset is inferred.
    """
    free_mm = post_length(allowed, section, load_kn=load_kn, most_mm=float("inf")).extent_mm
    if not free_mm > POST_OFFSET_MM:
        wanted = "a load that the post bears at more than 1.5 in"
        raise UncoveredError((Fault(path="load_kn", found=f"{load_kn:.4g}", wanted=wanted),))
    return min(free_mm - POST_OFFSET_MM, TALLEST_POST_MM)


def footing_side_mm(load_kn: float, bearing_kn_m2: float) -> float:
    """Return the side of a square footing that keeps the soil within its bearing value.

    Raises:
        UncoveredError: A number is not above 0.

    Source: statics, force over area; a load in the middle on level ground.
    """
    return sqrt(_bearing_m2(load_kn, bearing_kn_m2)) * 1000


def footing_diameter_mm(load_kn: float, bearing_kn_m2: float) -> float:
    """Return the diameter of a round footing that keeps the soil within its bearing value.

    Raises:
        UncoveredError: A number is not above 0.

    Source: statics, force over area; a load in the middle on level ground.
    """
    return sqrt(4 * _bearing_m2(load_kn, bearing_kn_m2) / pi) * 1000


def footing_thickness_inch(side_inch: float, post_inch: float = TABLE_POST_INCH) -> float:
    """Return how thick a footing is at least: as thick as it juts out past its post, or 6 in.

    Raises:
        UncoveredError: A size is not above 0.

    Source: IRC table R507.3.1, from memory. Whole inches down, as the table prints.
    """
    refuse((), positive(side_inch=side_inch, post_inch=post_inch))
    return max(float(LEAST_THICK_INCH), float((side_inch - post_inch) // 2))


def table_footing_inches(load_kn: float, bearing_kn_m2: float) -> tuple[int, int, int]:
    """Return side, diameter and thickness as the footing table prints them, to the nearest inch.

    These may fall 2 % short of the area needed: build by `built_footing_inches`.

    Raises:
        UncoveredError: A number is not above 0.

    Source: IRC table R507.3.1, from memory.
    """
    side = max(LEAST_SQUARE_INCH, table_inches(footing_side_mm(load_kn, bearing_kn_m2)))
    around = max(LEAST_ROUND_INCH, table_inches(footing_diameter_mm(load_kn, bearing_kn_m2)))
    return side, around, int(footing_thickness_inch(side))


def built_footing_inches(load_kn: float, bearing_kn_m2: float) -> tuple[float, float, float]:
    """Return side, diameter and thickness to dig and pour, all rounded up to whole inches.

    Raises:
        UncoveredError: A number is not above 0.

    Source: statics; the least sizes of IRC table R507.3.1, from memory.
    """
    side = max(LEAST_SQUARE_INCH, dug_inches(footing_side_mm(load_kn, bearing_kn_m2)))
    around = max(LEAST_ROUND_INCH, dug_inches(footing_diameter_mm(load_kn, bearing_kn_m2)))
    juts_mm = mm_of_inches((max(side, around) - TABLE_POST_INCH) / 2)
    return side, around, max(LEAST_THICK_INCH, dug_inches(juts_mm))


def _bears(allowed: Allowed, section: Section, length_mm: float, load_kn: float) -> bool:
    if length_mm < LEAST:  # nothing buckles
        return load_kn * 1000 <= allowed.along_n_mm2 * area_mm2(section)
    ratio = column_stability_factor(
        length_mm=length_mm,
        least_mm=least_side_mm(section),
        along_n_mm2=allowed.along_n_mm2,
        least_stiffness_n_mm2=allowed.least_stiffness_n_mm2,
    )
    return load_kn * 1000 <= ratio * allowed.along_n_mm2 * area_mm2(section)


def _extent(found_mm: float, most_mm: float, why: str) -> Extent:
    governs = why if found_mm <= most_mm else "cap"
    by_limit_mm = ((why, found_mm), ("cap", most_mm))
    return Extent(extent_mm=min(found_mm, most_mm), governs=governs, by_limit_mm=by_limit_mm)


def _bearing_m2(load_kn: float, bearing_kn_m2: float) -> float:
    refuse((), positive(load_kn=load_kn, bearing_kn_m2=bearing_kn_m2))
    return load_kn / bearing_kn_m2
