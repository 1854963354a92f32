"""Outside tables of Eurocode 5 worked out again: classes, dowels, joists.

Each function takes the rows of one file as text and gives back its cells. Where a table is
rounded the tolerance is half of its last place.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import partial

from attrs import evolve

from drylay.errors import DrylayError
from drylay.strength.choosing import span_at_limit_mm
from drylay.strength.ec5_actions import actions_of
from drylay.strength.ec5_classes import related_values, strength_class
from drylay.strength.ec5_dowels import simplified_dowel
from drylay.strength.ec5_joist import span_cases, span_sags
from drylay.strength.ec5_member import bending, shear
from drylay.strength.ec5_model import (
    Choices,
    Fastener,
    Joist,
    Side,
    SimplifiedDowel,
    StrengthClass,
    Timber,
)
from drylay.strength.ec5_sag import final_sag, instant_sag
from drylay.strength.model import Check, Section
from drylay.testing.ec5_values_table import check_values
from drylay.testing.model import Cell
from drylay.testing.timber_rows import Column, Row, Rows, cells_of, number_of, standing_of, text_of

#: Columns of en338.csv that EN 384 works out: unit, and half of the last place of C and D classes.
_RELATED = {
    "ft0_k": ("N/mm2", 0.25, 0.5),
    "fc0_k": ("N/mm2", 0.5, 0.5),
    "fc90_k": ("N/mm2", 0.05, 0.05),
    "fv_k": ("N/mm2", 0.05, 0.05),
    "E0_05": ("kN/mm2", 0.05, 0.05),
    "E90_mean": ("kN/mm2", 0.005, 0.005),
    "G_mean": ("kN/mm2", 0.005, 0.005),
    "rho_mean": ("kg/m3", 5.0, 5.0),
}
#: Columns that a class is given by, and that none is worked out from.
_GIVEN = {"fm_k": "N/mm2", "ft90_k": "N/mm2", "E0_mean": "kN/mm2", "rho_k": "kg/m3"}
#: What the file of joists leaves unsaid: boards of 0.20 kN/m2, spans in whole mm.
_JOIST_DEAD_KN_M2 = 0.20
_DOWEL_STEEL_N_MM2 = 360.0
_DOWEL_CLASS = "C24"

#: Cells that the source misprints: the formula is the same with both angles exchanged.
_MISPRINTS = {
    f"ec5.dowel.{cell}:Rk_kN": f"a misprint of the source: it prints another at {across} degrees"
    for cell, across in (("16.15.30", "30/15"), ("20.75.30", "30/75"))
}


def _grade(row: Row) -> StrengthClass:
    return strength_class(text_of(row, "class"))


def _given(row: Row, *, column: str) -> float:
    """Return what the library's class has in this column, moduli in kN/mm2."""
    grade = _grade(row)
    if column == "E0_mean":
        return grade.e0_mean_n_mm2 / 1e3
    unit = "kg_m3" if column.startswith("rho") else "n_mm2"
    return float(getattr(grade, f"{column}_{unit}"))


def _related(row: Row, *, column: str) -> float:
    grade = _grade(row)
    found = related_values(
        fm_k=grade.fm_k_n_mm2,
        e0_mean=grade.e0_mean_n_mm2 / 1e3,
        rho_k=grade.rho_k_kg_m3,
        softwood=grade.softwood,
    )
    return found[column.lower() if column.startswith(("E", "G")) else column]


def _class_columns(row: Row) -> tuple[Column, ...]:
    softwood = text_of(row, "class").startswith("C")
    given = [
        Column(name=name, unit=unit, tolerance=0.0, find=partial(_given, column=name))
        for name, unit in _GIVEN.items()
    ]
    related = [
        Column(
            name=name,
            unit=unit,
            tolerance=soft if softwood else hard,
            find=partial(_related, column=name),
        )
        for name, (unit, soft, hard) in _RELATED.items()
    ]
    return (*given, *related)


def classes(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of en338.csv: what EN 384 makes of each class's three given values.

    The given ones, and ft90, are set beside the library's own table, without tolerance.
    """
    return tuple(
        cell for row in rows for cell in cells_of("en338.csv", [row], "class", _columns_of(row))
    )


def _columns_of(row: Row) -> tuple[Column, ...]:
    try:
        return _class_columns(row)
    except DrylayError:
        return _class_columns({"class": "C24"})


def _dowel(row: Row) -> SimplifiedDowel:
    grade, d = strength_class(_DOWEL_CLASS), number_of(row, "d_mm", least=1.0)
    dowel = Fastener(kind="dowel", diameter_mm=d, bending_mm=d, tensile_n_mm2=_DOWEL_STEEL_N_MM2)
    first, second = (
        Side(grade=grade, depth_mm=0.0, angle_deg=number_of(row, column))
        for column in ("a1_deg", "a2_deg")
    )
    return simplified_dowel(dowel, first, second)


_DOWELS = (
    Column(name="t1_mm", unit="mm", tolerance=1.0, find=lambda row: _dowel(row).first_mm),
    Column(name="t2_mm", unit="mm", tolerance=1.0, find=lambda row: _dowel(row).middle_mm),
    Column(
        name="Rk_kN",
        unit="kN",
        tolerance=0.0,
        share=0.01,
        find=lambda row: _dowel(row).resistance_kn,
    ),
)


def dowels(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of ec5_dowels.csv: the German simplified method, steel 360, wood C24.

    Resistances have to come within 1 %, thicknesses within 1 mm, as the file's maker says.
    """
    cells = cells_of("ec5_dowels.csv", rows, "id", _DOWELS)
    return tuple(
        evolve(cell, why=_MISPRINTS[cell.cell])
        if standing_of(cell) == "missed" and cell.cell in _MISPRINTS
        else cell
        for cell in cells
    )


def _joist(row: Row, span_mm: float) -> Joist:
    section = Section(
        breadth_mm=number_of(row, "b_mm", least=1.0), depth_mm=number_of(row, "h_mm", least=1.0)
    )
    return Joist(
        timber=Timber(name="joist", section=section, grade=_grade(row)),
        span_mm=span_mm,
        centres_mm=number_of(row, "spacing_mm", least=1.0),
        bearing_mm=50.0,
        dead_kn_m2=_JOIST_DEAD_KN_M2,
    )


def _check_of(row: Row, span_mm: float, criterion: str) -> Check:
    """Return the one check that a column of the file is about, at this span."""
    actions = evolve(actions_of("dwelling"), imposed_kn_m2=number_of(row, "qk", least=0.0))
    joist = _joist(row, span_mm)
    over = int(criterion.rpartition("L")[2]) if "_L" in criterion else 0
    choices = Choices(instant_over=over or 300, final_over=over or 150)
    spread, point, alone = span_cases(joist, actions, choices)
    evenly = next(span_sags(joist, actions, choices))
    match criterion:
        case "bend_udl":
            return bending(joist.timber, spread, choices)
        case "bend_point":
            return bending(joist.timber, point, choices)
        case "bend_perm":
            return bending(joist.timber, alone, choices)
        case "shear_udl":
            return shear(joist.timber, spread, choices)
        case "inst_L300":
            return instant_sag(joist.timber, evenly, choices)
    return final_sag(joist.timber, evenly, choices, actions.psi_2_ratio)


def _span(row: Row, *, criterion: str) -> float:
    return span_at_limit_mm(lambda span: _check_of(row, span, criterion).utilisation_ratio)


_CRITERIA = (
    "bend_udl",
    "bend_perm",
    "bend_point",
    "shear_udl",
    "inst_L300",
    "fin_L150",
    "fin_L250",
)


def joists(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of ec5_joists_derived.csv: the span at which each criterion is used up."""
    columns = [
        Column(name=name, unit="mm", tolerance=0.5, find=partial(_span, criterion=name))
        for name in _CRITERIA
    ]
    return cells_of("ec5_joists_derived.csv", rows, "id", columns)


#: What works out the cells of each file that is known by its name.
TABLES: Mapping[str, Callable[[Sequence[Row]], tuple[Cell, ...]]] = {
    "en338.csv": classes,
    "ec5_dowels.csv": dowels,
    "ec5_joists_derived.csv": joists,
    "check-values.toml": check_values,
}

_SAID = frozenset({"source", "status", "check", "holdout", "note"})
#: What columns each file may have.
COLUMNS: Mapping[str, frozenset[str]] = {
    "en338.csv": _SAID | {"class", *_GIVEN, *_RELATED},
    "ec5_dowels.csv": _SAID | {"id", "d_mm", "a1_deg", "a2_deg", "t1_mm", "t2_mm", "Rk_kN"},
    "ec5_joists_derived.csv": _SAID
    | {"id", "class", "b_mm", "h_mm", "spacing_mm", "qk", *_CRITERIA},
}
