"""Reference values times factors: what a member may bear in its conditions of use."""

from collections.abc import Callable, Sequence
from functools import partial

from attrs import evolve

from drylay.strength.meant import positive, refuse, together
from drylay.strength.model import Section
from drylay.strength.nds_factors import (
    incising_factor,
    size_factor,
    size_factor_along,
    wet_factor,
)
from drylay.strength.nds_faults import allowed_faults, conditions_faults
from drylay.strength.nds_model import Allowed, Conditions, Extent, Reference
from drylay.strength.nds_values import THICKEST_INCH, group_of, reference
from drylay.strength.sections import section_faults
from drylay.strength.us_units import inches_of_mm


def allowed(species: str, grade: str, section: Section, conditions: Conditions) -> Allowed:
    """Return what a wood and grade may bear as this section, in these conditions.

    Fb' = Fb CD CM CF Ci Cr, Fv' = Fv CD CM Ci, Fc-perp' = Fc-perp CM, Fc* = Fc CD CM CF Ci,
    E' = E CM Ci and Emin' alike. Stability, CL and CP, is not in.

    Raises:
        UncoveredError: The basis has no values for such a timber.
        InputError: A size is not above 0, or a factor of the conditions is none that there is.

    Source: NDS table 4.3.1, from memory.
    """
    if faults := conditions_faults(conditions):
        together(lambda: reference(species, grade, section), lambda: refuse(faults))
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


def allowed_in_group(
    group: str, grade: str, section: Section, conditions: Conditions
) -> tuple[Allowed, ...]:
    """Return what each wood of a printed table's group may bear.

    Whether the woods are incised is the group's own. A table that takes woods together prints the
    least that any of them reaches, each with its own values: `least_extent`.

    Raises:
        UncoveredError: There is no such group, or a wood of it has no values for the section.
        InputError: As `allowed`.

    Source: DCA 6-2012 table 2 and notes, read.
    """
    faults = conditions_faults(conditions)
    if section_faults(section) or faults:
        sizes = [*section_faults(section), *faults]
        together(lambda: _referred(group, grade, section), lambda: refuse(sizes))
    woods, incised = group_of(group)
    here = evolve(conditions, incised=incised)
    return tuple(allowed(wood, grade, section, here) for wood in woods)


def _referred(group: str, grade: str, section: Section) -> None:
    woods, _ = group_of(group)
    together(*(partial(reference, wood, grade, section) for wood in woods))


def least_extent(woods: Sequence[Allowed], extent: Callable[[Allowed], Extent]) -> Extent:
    """Return the least extent of several woods; what governs it names the wood.

    Raises:
        InputError: There is no wood, or what one may bear is not above 0.
    """
    refuse(positive(woods=len(woods)))
    refuse([fault for wood in woods for fault in allowed_faults(wood)])
    found = [(wood, extent(wood)) for wood in woods]
    wood, least = min(found, key=lambda pair: pair[1].extent_mm)
    return evolve(least, governs=f"{least.governs}, {wood.species}")


def _ratios(row: Reference, section: Section, use: Conditions) -> list[tuple[str, float]]:
    timber = inches_of_mm(section.breadth_mm) > THICKEST_INCH + 0.01
    deep = 1.0 if row.sized else size_factor(section.depth_mm, section.breadth_mm)
    along = 1.0 if row.sized else size_factor_along(section.depth_mm)
    found = [("CD bending", use.duration_ratio), ("CD shear", use.duration_ratio)]
    repeated = 1.0 if timber else use.repeated_ratio
    found += [("CD along", use.duration_ratio), ("Cr bending", repeated)]
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
