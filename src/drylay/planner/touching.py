"""Fixings of two metals that touch in the wet: the lesser metal goes."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.fixings.model import FixingMetal
from drylay.planner.built import Framed
from drylay.planner.rows import PRACTICE

#: Metals by their place among others, the lesser first: common practice, no source.
NOBILITY = {
    "aluminium": 0, "bright zinc": 1, "hot-dip galvanised": 1, "coated for treated timber": 1,
    "plain steel": 2, "stainless A2": 3, "stainless A4": 3,
}  # fmt: skip
#: Fixings that touch one another as they are laid.
TOUCHING = (("hangers", "hanger screws"), ("hangers", "deck screws"),
            ("clips", "deck screws"), ("starter clips", "deck screws"))  # fmt: skip


def remarks(built: Framed) -> Iterator[Finding]:
    """Yield the caution on each two fixings that touch and are of unlike metals."""
    held = {metal.what: metal for metal in built.fixings.metals}
    for one, other in TOUCHING:
        if one in held and other in held and _unlike(held[one], held[other]):
            yield _told(held[one], held[other])


def _unlike(one: FixingMetal, other: FixingMetal) -> bool:
    return NOBILITY.get(one.metal) != NOBILITY.get(other.metal)


def _told(one: FixingMetal, other: FixingMetal) -> Finding:
    lesser = min(one, other, key=lambda metal: NOBILITY.get(metal.metal, 0))
    return Finding(
        code="FIX-024",
        severity=Severity.CAUTION,
        subject=f"{one.what} and {other.what}",
        message=f"{one.article} is {one.metal}, {other.article} {other.metal}: where two metals "
        f"touch in the wet the lesser goes, here {lesser.article}; name both of one metal, or keep "
        "them apart",
        source=PRACTICE,
    )
