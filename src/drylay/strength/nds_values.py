"""Reference values of the US basis, by wood, grade and size: the rows of nds_values.toml."""

import tomllib
from collections.abc import Iterator
from functools import cache
from importlib import resources
from typing import Any

from drylay.errors import Fault, UncoveredError
from drylay.reasons import Source
from drylay.strength.model import Section
from drylay.strength.nds_model import Reference
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
_NOISE_MM = 0.01


def dressed(size: str, plies: int = 1) -> Section:
    """Return the true section of a nominal size such as "2x8", each ply of a built-up one alike.

    Raises:
        UncoveredError: It is no size that the lumber standard names.
    """
    try:
        thick, deep = (int(part) for part in size.split("x"))
        return Section(
            breadth_mm=mm_of_inches(_dressed_inch(thick, thick)),
            depth_mm=mm_of_inches(_dressed_inch(deep, thick)),
            plies=plies,
        )
    except (ValueError, KeyError):
        raise _uncovered("size", size, "a nominal size such as 2x8") from None


def _dressed_inch(nominal: int, thick: int) -> float:
    return nominal - 0.5 if thick >= _TIMBER_INCH else DRESSED_INCH[nominal]


def reference(species: str, grade: str, section: Section) -> Reference:
    """Return the reference values of one ply of a wood and grade.

    Between two depths of the table the values of the deeper one hold.

    Raises:
        UncoveredError: The table has no such wood or grade, or none so thick or deep.
    """
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


def species_ids() -> tuple[str, ...]:
    """Return the short names of all woods that the table holds."""
    return tuple(_content()["species"])


def grades_of(species: str) -> tuple[str, ...]:
    """Return the grades that the table has values of a wood for, in its order."""
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
    if name not in groups:
        raise _uncovered("group", name, f"one of {', '.join(groups)}")
    return tuple(groups[name]["woods"]), bool(groups[name]["incised"])


def _species(species: str) -> dict[str, Any]:
    try:
        return dict(_content()["species"][species])
    except KeyError:
        raise _uncovered("species", species, f"one of {', '.join(species_ids())}") from None


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
    return UncoveredError((Fault(path=path, found=str(found), wanted=wanted),))
