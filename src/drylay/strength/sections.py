"""What a section's shape comes to: area, section modulus, second moment; symbols A, S, I."""

from math import floor, inf, isfinite

from drylay.errors import Fault, UncoveredError
from drylay.strength.model import Section


def breadth_in_all_mm(section: Section) -> float:
    """Return the breadth of all plies together."""
    return section.breadth_mm * section.plies


def is_whole(number: float) -> bool:
    """Return whether a count is a whole number; nan and what has no end are none."""
    return isfinite(number) and number == floor(number)


def section_faults(section: Section) -> list[Fault]:
    """Return what no timber has: a size that is not above 0, plies that are not 1 or more."""
    sizes = {"breadth_mm": section.breadth_mm, "depth_mm": section.depth_mm}
    faults = [
        Fault(path=f"section.{name}", found=repr(size), wanted="a finite number above 0")
        for name, size in sizes.items()
        if not 0 < size < inf
    ]
    if not (is_whole(section.plies) and section.plies >= 1):
        found = repr(section.plies)
        faults.append(Fault(path="section.plies", found=found, wanted="a whole number, 1 or more"))
    return faults


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
