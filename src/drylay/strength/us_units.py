"""Pounds and inches: the one file of this room that knows them.

Published values are converted where they are read, formulas run in mm and N, and inches come back
where a printed table is reproduced. Two ways to round, never to be mixed: `table_inches` as
printed tables do, `built_inches` and `dug_inches` where a person builds.
"""

from math import ceil, floor

#: Exactly, by the international yard and pound agreement, 1959, and standard gravity.
MM_PER_INCH = 25.4
N_PER_LB = 4.4482216152605
N_MM2_PER_PSI = N_PER_LB / MM_PER_INCH**2
KN_M2_PER_PSF = N_PER_LB / (12 * MM_PER_INCH) ** 2 * 1000
M2_PER_SQFT = (12 * MM_PER_INCH / 1000) ** 2
#: What conversions back and forth may lose, in inches: far below any printed place.
NOISE_INCH = 1e-6
#: What sizes that a person wrote in mm may have lost, in mm.
NOISE_MM = 0.01


def mm_of_inches(inches: float) -> float:
    """Return inches in mm, exactly where a decimal fraction says it: 1.5 in are 38.1 mm.

    A float cannot hold 25.4, but 254 it can.
    """
    return inches * 254 / 10


def inches_of_mm(mm: float) -> float:
    """Return mm in inches."""
    return mm * 10 / 254


def mm_of_feet(feet: float) -> float:
    """Return feet in mm, exactly as `mm_of_inches` does."""
    return mm_of_inches(feet * 12)


def n_mm2_of_psi(psi: float) -> float:
    """Return pounds on a square inch in N/mm2."""
    return psi * N_MM2_PER_PSI


def psi_of_n_mm2(n_mm2: float) -> float:
    """Return N/mm2 in pounds on a square inch."""
    return n_mm2 / N_MM2_PER_PSI


def kn_m2_of_psf(psf: float) -> float:
    """Return pounds on a square foot in kN/m2."""
    return psf * KN_M2_PER_PSF


def kn_of_lb(pounds: float) -> float:
    """Return pounds of force in kN."""
    return pounds * N_PER_LB / 1000


def lb_of_kn(kn: float) -> float:
    """Return kN in pounds of force."""
    return kn * 1000 / N_PER_LB


def n_mm_of_lb_inch(lb_inch: float) -> float:
    """Return pounds for each inch of length in N for each mm."""
    return lb_inch * N_PER_LB / MM_PER_INCH


def lb_inch_of_n_mm(n_mm: float) -> float:
    """Return N for each mm of length in pounds for each inch."""
    return n_mm * MM_PER_INCH / N_PER_LB


def m2_of_sqft(sqft: float) -> float:
    """Return square feet in m2."""
    return sqft * M2_PER_SQFT


def table_inches(mm: float) -> int:
    """Return mm as printed tables round them: the nearest inch, halves up.

    Only to compare with such a table: what is built takes `built_inches` or `dug_inches`.

    Source: common practice, no source; the printed tables follow it cell for cell.
    """
    return floor(inches_of_mm(mm) + 0.5 + NOISE_INCH)


def built_inches(mm: float, *, part_inch: float = 1.0) -> float:
    """Return a span, a height or a spacing as a person may build it: rounded down."""
    return floor(inches_of_mm(mm) / part_inch + NOISE_INCH) * part_inch


def dug_inches(mm: float, *, part_inch: float = 1.0) -> float:
    """Return a size that must be there at least, such as a footing's side: rounded up."""
    return ceil(inches_of_mm(mm) / part_inch - NOISE_INCH) * part_inch
