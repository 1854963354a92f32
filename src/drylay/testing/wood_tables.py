"""The wood tables worked out: coefficients from shrinkage, moisture contents, examples."""

from collections.abc import Callable, Mapping

from drylay.errors import InputError
from drylay.movement.air import equilibrium_moisture
from drylay.movement.heat import thermal_growth_mm
from drylay.movement.model import Species
from drylay.movement.species import all_species, species_named, wood_movement
from drylay.movement.width import (
    SATURATION_PCT,
    framing_change,
    framing_shrinkage_pct,
    moisture_change,
    movement_from_shrinkage,
)
from drylay.strength.us_units import inches_of_mm, mm_of_inches
from drylay.testing.example_rows import Example, example, worked_examples
from drylay.testing.model import Cell
from drylay.testing.timber_rows import (
    Answering,
    CellError,
    Column,
    Row,
    Rows,
    cells_of,
    number_of,
    text_of,
)

Told = Mapping[str, str]
DIMCHANGE, SHRINKAGE = "wood_dimchange.csv", "wood_shrinkage.csv"
#: Half of the last place of shrinkages that coefficients of three places are worked out from.
_COEFFICIENT_SHARE = 0.005
#: Half of the last place printed.
_SHRINKAGE_PCT = 0.05
#: How near rules of thumb in whole per cents come; the handbook's own rows come ten times nearer.
_MOISTURE_PCT = 0.5
_WAYS = {"CR": ("radial_pct", "quarter"), "CT": ("tangential_pct", "flat")}
#: White fir, of the handbook's example: not a wood of `drylay.movement`, its row printed there.
_WHITE_FIR_PER_PCT = 0.00245
_ALUMINIUM_PER_K = 23e-6


def wood_emc(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of moisture contents by temperature and humidity."""
    column = Column(name="emc_pct", unit="%", tolerance=_MOISTURE_PCT, find=_settled)
    return cells_of("wood_emc.csv", rows, "id", [column])


def wood_dimchange(rows: Rows, others: Mapping[str, Rows] | None = None) -> tuple[Cell, ...]:
    """Return the cells of coefficients, from the shrinkage in the table beside or drylay's own."""
    beside = {row.get("species", ""): row for row in (others or {}).get(SHRINKAGE, ())}

    def find(name: str) -> Callable[[Row], float]:
        return lambda row: _coefficient(row, beside, name)

    columns = [
        Column(name=name, unit="1/%", tolerance=0.0, share=_COEFFICIENT_SHARE, find=find(name))
        for name in _WAYS
    ]
    return cells_of(DIMCHANGE, rows, "species", columns)


def wood_shrinkage(rows: Rows, others: Mapping[str, Rows] | None = None) -> tuple[Cell, ...]:
    """Return the cells of shrinkage: drylay's own, or what the coefficient beside comes from."""
    beside = {row.get("species", ""): row for row in (others or {}).get(DIMCHANGE, ())}

    def find(name: str) -> Callable[[Row], float]:
        return lambda row: _shrinkage(row, beside, name)

    columns = [
        Column(name=column, unit="%", tolerance=_SHRINKAGE_PCT, find=find(name))
        for name, (column, _) in _WAYS.items()
    ]
    volume = Column(name="volumetric_pct", unit="%", tolerance=_SHRINKAGE_PCT, find=_no_volume)
    return cells_of(SHRINKAGE, rows, "species", [*columns, volume])


def wood_examples(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of the wood examples among these rows."""
    return worked_examples(rows, EXAMPLES)


def _settled(row: Row) -> float:
    celsius = _celsius(number_of(row, "temp_F"))
    humidity = number_of(row, "rh", least=0)
    return equilibrium_moisture(temperature_c=celsius, humidity_ratio=humidity).moisture_pct


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def _known(name: str) -> Species | None:
    try:
        return species_named(name)
    except InputError:
        return None


def _saturation_pct(name: str) -> float:
    wood = _known(name)
    return SATURATION_PCT if wood is None else wood.saturation_pct


def _coefficient(row: Row, beside: Mapping[str, Row], name: str) -> float:
    wood = text_of(row, "species")
    column, sawn = _WAYS[name]
    if wood in beside:
        shrinkage_pct: float | None = number_of(beside[wood], column, least=0)
    else:
        shrinkage_pct = _own_shrinkage(_known(wood), sawn)
    if shrinkage_pct is None:
        return _own_coefficient(wood, sawn)
    return movement_from_shrinkage(
        shrinkage_pct=shrinkage_pct, saturation_pct=_saturation_pct(wood)
    )


def _own_coefficient(wood: str, sawn: str) -> float:
    if _known(wood) is None:
        raise CellError("no shrinkage of this wood, neither in drylay nor in a table beside")
    value = wood_movement(wood, sawn=sawn).value
    assert isinstance(value, float)
    return value


def _own_shrinkage(wood: Species | None, sawn: str) -> float | None:
    if wood is None:
        return None
    return wood.flat_shrinkage_pct if sawn == "flat" else wood.quarter_shrinkage_pct


def _shrinkage(row: Row, beside: Mapping[str, Row], name: str) -> float:
    """Return a wood's shrinkage: eq. 13-3 solved for it where only a coefficient is known."""
    wood = text_of(row, "species")
    own = _own_shrinkage(_known(wood), _WAYS[name][1])
    if own is not None:
        return own
    if wood not in beside:
        raise CellError("no shrinkage in drylay, and no coefficient of this wood in a table beside")
    moves, saturation_pct = number_of(beside[wood], name, least=0), _saturation_pct(wood)
    return 100 * saturation_pct * moves / (1 + moves * (saturation_pct - 10))


def _no_volume(_: Row) -> float:
    raise CellError("drylay works out no shrinkage of volume")


def _board_mm(told: Told) -> float:
    wood = _named_in_part(told["wood"])
    return _change_mm(told, float(told["mm"]), float(wood_movement(wood).value or 0))


def _named_in_part(name: str) -> str:
    for species in all_species():
        if name.lower() in species.name.lower():
            return species.name
    raise CellError(f"unknown wood {name!r}")


def _change_mm(told: Told, width_mm: float, per_pct: float) -> float:
    return moisture_change(
        width_mm=width_mm,
        movement_per_pct=per_pct,
        from_pct=float(told["start"]),
        to_pct=float(told["end"]),
    ).change_mm


def _white_fir_inch(told: Told) -> float:
    """The same board in inches, 8 to 11 %."""
    change = {"start": "8", "end": "11"}
    width_mm = mm_of_inches(float(told["inches"]))
    return inches_of_mm(_change_mm(change, width_mm, _WHITE_FIR_PER_PCT))


def _course_inch(told: Told) -> float:
    width_mm = mm_of_inches(float(told["inches"]))
    return -inches_of_mm(_change_mm(told, width_mm, float(told["moves"]) / 100))


def _course_green_inch(_: Told) -> float:
    """13.25 in, 19 to 10 %, of the row before it, by the form for framing."""
    change = framing_change(width_mm=mm_of_inches(13.25), from_pct=19, to_pct=10).change_mm
    return 13.25 + inches_of_mm(change)


def _from_shrinkage(told: Told) -> float:
    start_pct = float(told["start"]) if told["start"] else SATURATION_PCT
    return movement_from_shrinkage(shrinkage_pct=float(told["shrinkage"]), saturation_pct=start_pct)


def _framing_pct(told: Told) -> float:
    return framing_shrinkage_pct(moisture_pct=float(told["end"]), face=told["face"])


def _emc_pct(told: Told) -> float:
    return equilibrium_moisture(
        temperature_c=_celsius(float(told["fahrenheit"])),
        humidity_ratio=float(told["humidity"]) / 100,
    ).moisture_pct


def _growth_mm(told: Told) -> float:
    per_k = float(told["per_k"]) if told.get("per_k") else _ALUMINIUM_PER_K
    return thermal_growth_mm(
        length_mm=float(told["mm"]), growth_per_k=per_k, from_c=0.0, to_c=float(told["kelvin"])
    )


_NUMBER = r"\d+(?:\.\d+)?(?:e-?\d+)?"
_BETWEEN = rf"(?P<start>{_NUMBER}) to (?P<end>{_NUMBER}) %"
EXAMPLES: tuple[Example, ...] = (
    example(
        rf"Wood Handbook example: white fir (?P<mm>{_NUMBER}) mm, {_BETWEEN}: change",
        lambda told: _change_mm(told, float(told["mm"]), _WHITE_FIR_PER_PCT),
        share=0.005,
    ),
    example(rf"same in inches \((?P<inches>{_NUMBER}) in\)", _white_fir_inch, share=0.005),
    example(
        rf"CT .+ from S_T (?P<shrinkage>{_NUMBER}) %(?: with (?P<start>{_NUMBER}) % start)?",
        _from_shrinkage,
        share=0.005,
    ),
    example(
        rf"FPL-RP-489 (?P<face>width|thickness) shrinkage, green to (?P<end>{_NUMBER}) %",
        _framing_pct,
        share=0.005,
    ),
    example(
        rf"course problem: (?P<inches>{_NUMBER}) in, {_BETWEEN}, (?P<moves>{_NUMBER}) % per 1 %",
        _course_inch,
        share=0.0001,
    ),
    example("same by the Green formula: depth after", _course_green_inch, share=0.001),
    example(
        rf"EMC at (?P<fahrenheit>{_NUMBER}) F, RH (?P<humidity>{_NUMBER}) %, by formula",
        _emc_pct,
        share=0.005,
    ),
    example(
        rf"(?P<mm>{_NUMBER}) mm flat-sawn (?P<wood>[a-z -]+) board, {_BETWEEN}",
        _board_mm,
        share=0.001,
    ),
    example(
        rf"(?P<mm>{_NUMBER}) mm WPC board at (?P<per_k>{_NUMBER}), (?P<kelvin>{_NUMBER}) K",
        _growth_mm,
        share=1e-6,
    ),
    example(
        rf"(?P<mm>{_NUMBER}) mm aluminium board, (?P<kelvin>{_NUMBER}) K", _growth_mm, share=1e-6
    ),
)
TABLES: dict[str, Answering] = {
    "wood_emc.csv": wood_emc,
    DIMCHANGE: wood_dimchange,
    SHRINKAGE: wood_shrinkage,
    "check-values.toml": wood_examples,
}
#: Those of them that look at other tables of the same folder as well.
BESIDE: dict[str, Callable[[Rows, Mapping[str, Rows]], tuple[Cell, ...]]] = {
    DIMCHANGE: wood_dimchange,
    SHRINKAGE: wood_shrinkage,
}
_SAID = frozenset({"source", "status", "check", "note", "holdout"})
#: The columns that each file may have; those of `_SAID` are not read.
COLUMNS: dict[str, frozenset[str]] = {
    "wood_emc.csv": _SAID | {"id", "temp_F", "rh", "emc_pct"},
    DIMCHANGE: _SAID | {"species", *_WAYS},
    SHRINKAGE: _SAID | {"species", "radial_pct", "tangential_pct", "volumetric_pct"},
}
