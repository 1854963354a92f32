"""Reference values of the US basis, by wood, grade and size: the rows of nds_values.toml."""

import re
import tomllib
from collections.abc import Collection, Iterator
from functools import cache
from importlib import resources
from typing import Any

from attrs import evolve

from drylay.errors import Fault, UncoveredError
from drylay.reasons import Source
from drylay.strength.meant import one_of, refuse
from drylay.strength.model import Section
from drylay.strength.nds_model import Reference
from drylay.strength.sections import count_faults, section_faults
from drylay.strength.us_units import inches_of_mm, mm_of_inches, n_mm2_of_psi

#: Nominal inches and what is left when dry and dressed. Source: American Softwood Lumber
#: Standard PS 20, from memory; timbers of 5 in and more are half an inch under their name.
DRESSED_INCH = {
    1: 0.75, 2: 1.5, 3: 2.5, 4: 3.5, 5: 4.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25, 14: 13.25,
    16: 15.25,
}  # fmt: skip
#: Thicker than this (4 in nominal) is a timber, with values of its own.
THICKEST_INCH = 3.5
_TIMBER_INCH = 5
_NOMINAL = re.compile(r"([1-9][0-9]?)x([1-9][0-9]?)")
_NOISE_MM = 0.01


def dressed(size: str, plies: int = 1) -> Section:
    """Return the true section of a nominal size such as "2x8", each ply of a built-up one alike.

    Thick comes first. Boards are 1 in thick and 2 to 16 deep, dimension lumber 2 to 4 and 2 to 16,
    timbers 5 in and more either way: square ones and those deeper than thick.

    Raises:
        UncoveredError: It is no size that the lumber standard names.
        InputError: Plies are no whole number, 1 or more.

    Source: American Softwood Lumber Standard PS 20, table 3, from memory.
    """
    named = _NOMINAL.fullmatch(size) if isinstance(size, str) else None
    thick, deep = (int(named[1]), int(named[2])) if named else (0, 0)
    wanted = "a nominal size such as 2x8, thick before deep"
    sold = thick in DRESSED_INCH and deep in DRESSED_INCH and deep >= max(2, thick)
    beyond = () if sold else (Fault(path="size", found=str(size) or repr(size), wanted=wanted),)
    refuse(count_faults(plies=plies), beyond)
    return Section(
        breadth_mm=mm_of_inches(_dressed_inch(thick, thick)),
        depth_mm=mm_of_inches(_dressed_inch(deep, thick)),
        plies=plies,
    )


def _dressed_inch(nominal: int, thick: int) -> float:
    return nominal - 0.5 if thick >= _TIMBER_INCH else DRESSED_INCH[nominal]


def reference(species: str, grade: str, section: Section) -> Reference:
    """Return the reference values of one ply of a wood and grade.

    Between two depths of the table the values of the deeper one hold.

    Raises:
        UncoveredError: The table has no such wood or grade, or none so thick or deep.
        InputError: A size is not above 0, or plies are no whole number, 1 or more.
    """
    refuse(section_faults(section), _unknown(species, grade) if section_faults(section) else ())
    kind = "timber" if inches_of_mm(section.breadth_mm) > THICKEST_INCH + 0.01 else "dimension"
    rows = [(row_kind, row) for row_kind, row in _woods() if row.species == species]
    graded = [row for row_kind, row in rows if row.grade == grade and row_kind == kind]
    for row in graded:  # in the order of the table: shallow before deep
        if section.depth_mm <= row.most_depth_mm + _NOISE_MM:
            return row
    if not rows:
        raise _uncovered("species", species, f"one of {', '.join(species_ids())}")
    if not graded:
        grades = sorted({row.grade for row_kind, row in rows if row_kind == kind})
        wanted = f"one of {', '.join(grades)}" if grades else f"a wood with values as {kind}"
        raise _uncovered("grade", f"{species} {grade} as {kind}", wanted)
    most_inch = inches_of_mm(graded[-1].most_depth_mm)
    found, wanted = f"{inches_of_mm(section.depth_mm):g} in", f"at most {most_inch:g} in"
    raise _uncovered("depth", found, wanted)


def _unknown(species: str, grade: str) -> list[Fault]:
    """Return what is unknown of a wood, whatever its section."""
    if faults := _strange(species_ids(), species=species):
        return faults
    return _strange(grades_of(species), grade=grade)


def species_ids() -> tuple[str, ...]:
    """Return the short names of all woods that the table holds."""
    return tuple(_content()["species"])


def grades_of(species: str) -> tuple[str, ...]:
    """Return the grades that the table has values of a wood for, in its order.

    Raises:
        UncoveredError: There is no such wood.
    """
    refuse((), _strange(species_ids(), species=species))
    return tuple(dict.fromkeys(row.grade for _, row in _woods() if row.species == species))


def species_name(species: str) -> str:
    """Return what a wood of the table is called in full.

    Raises:
        UncoveredError: There is no such wood.
    """
    return str(_species(species)["name"])


def gravity_ratio(species: str) -> float:
    """Return a wood's specific gravity, oven-dry, for fasteners.

    Raises:
        UncoveredError: There is no such wood.

    Source: NDS table 12.3.3A, read as transcribed.
    """
    return float(_species(species)["gravity"])


def group_of(name: str) -> tuple[tuple[str, ...], bool]:
    """Return the woods that printed tables take together under a name, and if they are incised.

    Raises:
        UncoveredError: There is no such group.

    Source: DCA 6-2012 table 2 and its notes, read.
    """
    groups = _content()["groups"]
    refuse((), _strange(groups, group=name))
    return tuple(groups[name]["woods"]), bool(groups[name]["incised"])


def _species(species: str) -> dict[str, Any]:
    refuse((), _strange(species_ids(), species=species))
    return dict(_content()["species"][species])


@cache
def _woods() -> tuple[tuple[str, Reference], ...]:
    return tuple(_rows())


def _rows() -> Iterator[tuple[str, Reference]]:
    sources = {key: Source(**source) for key, source in _content()["sources"].items()}
    for row in _content()["wood"]:
        timber = row["kind"] == "timber"
        yield row["kind"], _read(row, sources, most_inch=_most_inch(row["most_depth"], timber))


def _most_inch(nominal: int, timber: bool) -> float:
    return _dressed_inch(nominal, _TIMBER_INCH if timber else 2)


def _read(row: dict[str, Any], sources: dict[str, Source], *, most_inch: float) -> Reference:
    return Reference(
        species=row["species"],
        grade=row["grade"],
        bending_n_mm2=n_mm2_of_psi(row["Fb"]),
        shear_n_mm2=n_mm2_of_psi(row["Fv"]),
        across_n_mm2=n_mm2_of_psi(row["Fcperp"]),
        along_n_mm2=n_mm2_of_psi(row["Fc"]),
        stiffness_n_mm2=n_mm2_of_psi(row["E"]),
        least_stiffness_n_mm2=n_mm2_of_psi(row["Emin"]),
        most_depth_mm=mm_of_inches(most_inch),
        sized=row.get("sized", False),
        wet=row.get("wet", False),
        source=sources[row["source"]],
        more_source=sources[row["more"]],
    )


@cache
def _content() -> dict[str, Any]:
    text = resources.files("drylay.strength").joinpath("nds_values.toml").read_text("utf-8")
    return tomllib.loads(text)


def _uncovered(path: str, found: object, wanted: str) -> UncoveredError:
    return UncoveredError((Fault(path=path, found=str(found) or repr(found), wanted=wanted),))


def _strange(known: Collection[str], **words: str) -> list[Fault]:
    return [evolve(fault, found=str(words[fault.path]) or "''") for fault in one_of(known, **words)]
