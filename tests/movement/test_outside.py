"""Movement against other people's figures; tests/reference/movement/ORIGIN.md names them."""

import csv
import tomllib
from pathlib import Path
from typing import Any

import pytest

import drylay
from drylay.movement.air import settled_pct
from drylay.movement.heat import joint_gap_mm
from drylay.movement.species import all_species, species_named
from drylay.movement.width import framing_shrinkage_pct, movement_from_shrinkage, shrinkage_change

HERE = Path(__file__).parents[1] / "reference" / "movement"


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((HERE / name).read_text(encoding="utf-8").splitlines()))


EXAMPLES: dict[str, Any] = tomllib.loads((HERE / "examples.toml").read_text(encoding="utf-8"))
EQUILIBRIUM, COEFFICIENTS, SHRINKAGE = map(
    rows, ("equilibrium.csv", "coefficients.csv", "shrinkage.csv")
)
KIND = {"read": "handbook", "from memory": "from memory"}


def by_fahrenheit_pct(t: float, h: float) -> float:
    """Return the formula with the other set of coefficients, for degrees Fahrenheit.

    Source: Simpson (1973), as transcribed in a public source file.
    """
    w = 330 + 0.452 * t + 0.00415 * t * t
    x = (0.791 + 0.000463 * t - 0.000000844 * t * t) * h
    k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t
    k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t
    wet = (k1 * x + 2 * k1 * k2 * x * x) / (1 + k1 * x + k1 * k2 * x * x)
    return 1800 / w * (x / (1 - x) + wet)


@pytest.mark.parametrize("row", EQUILIBRIUM, ids=lambda row: "-".join(list(row.values())[:6]))
def test_equilibrium_is_as_printed(row: dict[str, str]) -> None:
    at = {name: float(row[name]) for name in row if name not in {"source", "standing"}}
    celsius = (at["temperature_f"] - 32) / 1.8
    off = at["humidity_within_ratio"]
    low = settled_pct(celsius, at["humidity_ratio"] - off) - at["within_pct"]
    high = settled_pct(celsius, at["humidity_ratio"] + off) + at["within_pct"]
    assert low <= at["moisture_pct"] <= high


def test_no_row_was_lost() -> None:
    counts = [len(found) for found in (EQUILIBRIUM, COEFFICIENTS, SHRINKAGE)]
    assert counts == [12, 18, 23]


@pytest.mark.parametrize("temperature_c", range(0, 41, 5))
def test_both_sets_of_coefficients_agree_where_decks_stand(temperature_c: int) -> None:
    for percent in range(10, 96, 5):
        ours = settled_pct(temperature_c, percent / 100)
        theirs = by_fahrenheit_pct(temperature_c * 1.8 + 32, percent / 100)
        assert ours == pytest.approx(theirs, abs=0.02)


@pytest.mark.parametrize("row", COEFFICIENTS, ids=lambda row: row["species"])
def test_the_table_of_species_holds_the_printed_coefficients(row: dict[str, str]) -> None:
    for sawn in ("flat", "quarter"):
        ruling = drylay.wood_movement(row["species"], sawn=sawn)
        assert ruling.value == float(row[f"{sawn}_per_pct"])
        assert (ruling.source.kind, ruling.source.clause) == (KIND[row["standing"]], row["source"])


@pytest.mark.parametrize("row", SHRINKAGE, ids=lambda row: row["species"])
def test_the_table_of_species_holds_the_printed_shrinkage(row: dict[str, str]) -> None:
    wood = species_named(row["species"])
    told = (wood.flat_shrinkage_pct, wood.quarter_shrinkage_pct)
    assert told == (float(row["flat_pct"]), float(row["quarter_pct"]))
    assert wood.shrinkage_source
    assert (wood.shrinkage_source.kind, wood.shrinkage_source.clause) == (
        KIND[row["standing"]],
        row["source"],
    )


def test_the_table_of_species_holds_nothing_else() -> None:
    told = {row["species"] for row in (*COEFFICIENTS, *SHRINKAGE)}
    assert [species.name for species in all_species()] == sorted(told)


BOTH = [row for row in COEFFICIENTS if species_named(row["species"]).flat_shrinkage_pct]


@pytest.mark.parametrize("row", BOTH, ids=lambda row: row["species"])
@pytest.mark.parametrize("sawn", ["flat", "quarter"])
def test_coefficients_follow_from_the_shrinkage_table(row: dict[str, str], sawn: str) -> None:
    wood = species_named(row["species"])
    shrinkage_pct = getattr(wood, f"{sawn}_shrinkage_pct")
    ours = movement_from_shrinkage(shrinkage_pct=shrinkage_pct, saturation_pct=wood.saturation_pct)
    agree = ours == pytest.approx(float(row[f"{sawn}_per_pct"]), abs=0.000006)  # printed to 0.00001
    assert agree == (wood.name != "Teak")  # which was set down as disagreeing


@pytest.mark.parametrize("name", ["Western redcedar", "Northern white-cedar"])
def test_cedars_follow_only_from_22_per_cent(name: str) -> None:
    wood = species_named(name)
    assert (wood.saturation_pct, wood.saturation_source.kind) == (22.0, "assumption")
    assert wood.flat_shrinkage_pct
    ours = movement_from_shrinkage(shrinkage_pct=wood.flat_shrinkage_pct)
    assert ours == pytest.approx(0.0017, abs=0.00005)  # table 13-5 has 0.0023


@pytest.mark.parametrize("case", EXAMPLES["change"], ids=lambda case: case["what"])
def test_changes_of_a_width(case: dict[str, Any]) -> None:
    keys = ("width_mm", "movement_per_pct", "from_pct", "to_pct")
    found = drylay.moisture_change(**{key: case[key] for key in keys})
    assert found.change_mm == pytest.approx(case["change_mm"], abs=case["within_mm"])


def test_a_change_by_the_shrinkage_form() -> None:
    """By hand, loblolly pine of 7.4 %: 145 x 3 / (3000 / 7.4 - 30 + 9) = 1.1316."""
    found = shrinkage_change(width_mm=145, shrinkage_pct=7.4, from_pct=9, to_pct=12)
    assert found.change_mm == pytest.approx(1.1316, abs=0.00005)


@pytest.mark.parametrize("case", EXAMPLES["framing"], ids=lambda case: case["face"])
def test_framing_from_green(case: dict[str, Any]) -> None:
    found = framing_shrinkage_pct(moisture_pct=case["moisture_pct"], face=case["face"])
    assert found == pytest.approx(case["shrinkage_pct"], abs=case["within_pct"])


@pytest.mark.parametrize("case", EXAMPLES["growth"], ids=lambda case: case["what"])
def test_growth_of_a_length(case: dict[str, Any]) -> None:
    found = drylay.thermal_growth_mm(
        length_mm=case["length_mm"],
        growth_per_k=case["growth_per_k"],
        from_c=10,
        to_c=10 + case["kelvins"],
    )
    assert found == pytest.approx(case["growth_mm"], abs=1e-9)


def test_the_end_gap_of_a_composite_terrace() -> None:
    case = EXAMPLES["end_gap"]
    keys = ("length_mm", "growth_per_k", "laying_c", "hottest_c", "coldest_c")
    found = drylay.end_gap(**{key: case[key] for key in keys})
    assert found.growth_mm == pytest.approx(case["growth_mm"], abs=1e-9)
    assert found.laid_mm == case["laid_mm"]
    coldest_mm = joint_gap_mm(
        laid_mm=found.laid_mm,
        neighbours_mm=case["neighbours_mm"],
        growth_per_k=case["growth_per_k"],
        laying_c=case["laying_c"],
        now_c=case["coldest_c"],
    )
    assert coldest_mm == pytest.approx(case["coldest_mm"], abs=0.0001)


def test_the_range_of_a_softwood_gap() -> None:
    case = EXAMPLES["gap_range"]
    told = {"narrowest_mm", "widest_mm", "within_mm", "source", "standing"}
    found = drylay.gap_range(**{key: case[key] for key in case.keys() - told})
    assert found.narrowest_mm == pytest.approx(case["narrowest_mm"], abs=case["within_mm"])
    assert found.widest_mm == pytest.approx(case["widest_mm"], abs=case["within_mm"])
