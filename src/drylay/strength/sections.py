"""What a section's shape comes to: area, section modulus, second moment; symbols A, S, I."""

from drylay.errors import Fault, UncoveredError
from drylay.strength.model import Section


def breadth_in_all_mm(section: Section) -> float:
    """Return the breadth of all plies together."""
    return section.breadth_mm * section.plies


def area_mm2(section: Section) -> float:
    """Return A = b d."""
    return breadth_in_all_mm(section) * section.depth_mm


def modulus_mm3(section: Section) -> float:
    """Return the section modulus S = b d^2 / 6."""
    return breadth_in_all_mm(section) * section.depth_mm**2 / 6


def second_moment_mm4(section: Section) -> float:
    """Return the second moment of area I = b d^3 / 12."""
    return breadth_in_all_mm(section) * section.depth_mm**3 / 12


def one_piece(section: Section) -> Section:
    """Return a post's section where it is of one piece.

    Raises:
        UncoveredError: It is built up of plies, which slip on one another as it buckles: NDS 15.3
            has verbs of its own (`nds_built_up`), EN 1995-1-1 annex C is not covered.
    """
    if section.plies != 1:
        found = f"{section.plies} plies"
        raise UncoveredError((Fault(path="section.plies", found=found, wanted="a post of one"),))
    return section
