"""What a section's shape comes to: area, section modulus, second moment; symbols A, S, I."""

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
