"""Reference values times factors: what a member may bear in its conditions of use."""

from collections.abc import Sequence

from drylay.reasons import Inputs
from drylay.strength.model import Section
from drylay.strength.nds_factors import (
    incising_factor,
    size_factor,
    size_factor_along,
    wet_factor,
)
from drylay.strength.nds_model import Allowed, Conditions, Reference
from drylay.strength.nds_values import THICKEST_INCH, group_of, reference
from drylay.strength.us_units import inches_of_mm

_PROPERTIES = (
    "bending_n_mm2",
    "shear_n_mm2",
    "across_n_mm2",
    "along_n_mm2",
    "stiffness_n_mm2",
    "least_stiffness_n_mm2",
)


def allowed(species: str, grade: str, section: Section, conditions: Conditions) -> Allowed:
    """Return what a wood and grade may bear as this section, in these conditions.

    Fb' = Fb CD CM CF Ci Cr, Fv' = Fv CD CM Ci, Fc-perp' = Fc-perp CM, Fc* = Fc CD CM CF Ci,
    E' = E CM Ci and Emin' alike. Stability, CL and CP, is not in.

    Raises:
        UncoveredError: The basis has no values for such a timber.

    Source: NDS table 4.3.1, from memory.
    """
    row = reference(species, grade, section)
    ratios = _ratios(row, section, conditions)
    return Allowed(
        species=species,
        bending_n_mm2=row.bending_n_mm2 * _product(ratios, "bending"),
        shear_n_mm2=row.shear_n_mm2 * _product(ratios, "shear"),
        across_n_mm2=row.across_n_mm2 * _product(ratios, "across"),
        along_n_mm2=row.along_n_mm2 * _product(ratios, "along"),
        stiffness_n_mm2=row.stiffness_n_mm2 * _product(ratios, "stiffness"),
        least_stiffness_n_mm2=row.least_stiffness_n_mm2 * _product(ratios, "stiffness"),
        factors=tuple((name, ratio) for name, ratio in ratios if ratio != 1),
        source=row.source,
    )


def least_of_group(group: str, grade: str, section: Section, conditions: Conditions) -> Allowed:
    """Return the least that any wood of a printed table's group may bear, property by property.

    Whether the woods are incised is the group's own. A table that takes woods together rests on
    such values, which may belong to no single wood.

    Raises:
        UncoveredError: There is no such group, or a wood of it has no values for the section.
    """
    woods, incised = group_of(group)
    here = Conditions(
        wet=conditions.wet,
        incised=incised,
        duration_ratio=conditions.duration_ratio,
        repeated_ratio=conditions.repeated_ratio,
    )
    return least([allowed(wood, grade, section, here) for wood in woods])


def least(woods: Sequence[Allowed]) -> Allowed:
    """Return the least of several woods, property by property, and which wood gave which."""
    values: dict[str, float] = {}
    factors: Inputs = ()
    for name in _PROPERTIES:
        poorest = min(woods, key=lambda wood, name=name: getattr(wood, name))  # type: ignore[misc]
        values[name] = getattr(poorest, name)
        factors += ((f"least {name}", poorest.species),)
    species = " or ".join(wood.species for wood in woods)
    return Allowed(species=species, factors=factors, source=woods[0].source, **values)


def _ratios(row: Reference, section: Section, use: Conditions) -> list[tuple[str, float]]:
    timber = inches_of_mm(section.breadth_mm) > THICKEST_INCH + 0.01
    deep = 1.0 if row.sized else size_factor(section.depth_mm, section.breadth_mm)
    along = 1.0 if row.sized else size_factor_along(section.depth_mm)
    found = [("CD bending", use.duration_ratio), ("CD shear", use.duration_ratio)]
    found += [("CD along", use.duration_ratio), ("Cr bending", use.repeated_ratio)]
    found += [("CF bending", deep), ("CF along", along)]
    if use.wet and not row.wet:
        sized = {"bending": row.bending_n_mm2 * deep, "along": row.along_n_mm2 * along}
        found += [
            (f"CM {what}", wet_factor(what, sized.get(what, 0.0), timber=timber))
            for what in ("bending", "shear", "across", "along", "stiffness")
        ]
    if use.incised:
        found += [
            (f"Ci {what}", incising_factor(what))
            for what in ("bending", "shear", "across", "along", "stiffness")
        ]
    return found


def _product(ratios: Sequence[tuple[str, float]], what: str) -> float:
    product = 1.0
    for name, ratio in ratios:
        if name.endswith(f" {what}"):
            product *= ratio
    return product
