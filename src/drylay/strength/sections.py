"""What a section's shape comes to: area, section modulus, second moment; symbols A, S, I."""

from math import floor, isfinite

from drylay.errors import Fault, UncoveredError
from drylay.strength.meant import LEAST, MOST, lies, positive, refuse
from drylay.strength.model import Section

_PLIES = (1, 2, 3, 4, 5)


def breadth_in_all_mm(section: Section) -> float:
    """Return the breadth of all plies together.

    Raises:
        InputError: A size is not above 0, or plies are no whole number, 1 or more. So say
            `area_mm2`, `modulus_mm3` and `second_moment_mm4`.
    """
    refuse(section_faults(section))
    return section.breadth_mm * section.plies


def is_whole(number: float) -> bool:
    """Return whether a count is a whole number; nan and what has no end are none."""
    return lies(number, -MOST, MOST) and isfinite(number) and number == floor(number)


def section_faults(section: Section) -> list[Fault]:
    """Return what no timber has: a size that is not above 0, plies that are not 1 or more."""
    breadth, depth, plies = section.breadth_mm, section.depth_mm, section.plies
    if lies(breadth, LEAST, MOST) and lies(depth, LEAST, MOST) and plies in _PLIES:
        return []  # asked for every figure of every check: no dicts where nothing is wrong
    sizes = {"section.breadth_mm": section.breadth_mm, "section.depth_mm": section.depth_mm}
    return [*positive(**sizes), *count_faults(**{"section.plies": section.plies})]


def count_faults(**counts: float) -> list[Fault]:
    """Return a fault of each count that is not a whole number, 1 or more."""
    return [
        Fault(path=path, found=repr(count), wanted="a whole number, 1 or more")
        for path, count in counts.items()
        if not (is_whole(count) and count >= 1)
    ]


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
        InputError: A size is not above 0, or plies are no whole number, 1 or more.
        UncoveredError: It is built up of plies, which slip on one another as it buckles: NDS 15.3
            has verbs of its own (`nds_built_up`), EN 1995-1-1 annex C is not covered.
    """
    refuse(section_faults(section))
    if section.plies != 1:
        found = f"{section.plies} plies"
        raise UncoveredError((Fault(path="section.plies", found=found, wanted="a post of one"),))
    return section
