"""A comparison on paper: text, CSV and chart say what the rows say."""

import csv
import io
import re
from decimal import Decimal
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

from compare.small import TWO, YEARS, brief, families, stock
from drylay.compare.families import across_families
from drylay.compare.model import Comparison

SVG = "{http://www.w3.org/2000/svg}"
THREE = {**TWO, "too wide": {"frame.most_centres_mm": 600}}
HOSTILE = '=1+1, <b>&"'


@pytest.fixture(scope="module")
def three() -> Comparison:
    return across_families(
        brief(), THREE, stock=stock(), families=families(), rate_ratio=0.035, hour_price="22.50"
    )


def line(text: str, label: str) -> list[str]:
    found = next(each for each in text.splitlines() if each.startswith(label))
    return re.split(r"\s{2,}", found.strip())


def svg_texts(comparison: Comparison) -> list[str]:
    root = ET.fromstring(comparison.papers()["compare.svg"])
    return [each.text or "" for each in root.iter(f"{SVG}text")]


def test_the_text_has_the_figures_of_the_rows(three: Comparison) -> None:
    soft, lasting, _ = three.measures()
    text = str(three)
    assert line(text, "first cost") == [
        "first cost", str(soft["first_cost"]), str(lasting["first_cost"]), "-"
    ]  # fmt: skip
    assert line(text, "COST A YEAR")[1] == f"{soft['yearly_least']} to {soft['yearly_most']}"
    assert line(text, "can be built")[1:] == ["yes", "yes", "no: MAT-002"]
    assert line(text, "upkeep, hours")[1:] == ["1.5", "0.6", "-"]  # 1.434 and 0.5736, rounded up
    assert line(text, "life of boards")[1:] == ["8 to 15", "20 to 40", "8 to 15"]
    assert "at r = 3.5 % interest a year" in text.replace("\n  ", " ")
    assert "22.50 GBP an hour" in text
    assert all(len(each) <= 78 for each in text.splitlines())


def test_a_stop_and_a_short_lived_frame_are_told(three: Comparison) -> None:
    text = " ".join(str(three).split())
    assert "too wide: stop MAT-002" in text
    assert "lasting: caution LIF-001 least lives: the frame's life ends before" in text


def test_several_stops_are_counted() -> None:
    """Joists too far apart, and a screw too short for its board."""
    poor = {"frame.most_centres_mm": 600, "fixings.screw": "DS-45-60"}
    compared = across_families(brief(), {"a": poor}, stock=stock(), families=families())
    assert compared.measures()[0]["stop_codes"] == "FIX-001 MAT-002"
    assert line(str(compared), "can be built")[1] == "no: 2 stops"


def test_what_is_not_known_is_told_so_and_left_empty_in_the_table() -> None:
    silent = {rule: value for rule, value in YEARS.items() if "life" not in rule}
    compared = across_families(
        brief(), {"silent": {}}, stock=stock(), families=families(soft=silent)
    )
    assert line(str(compared), "life of boards")[1] == "not known"
    assert line(str(compared), "COST A YEAR, less upkeep")[1] == "not known"
    (row,) = csv.DictReader(io.StringIO(compared.papers()["compare.csv"].decode()))
    assert row["life_least_years"] == row["yearly_most"] == ""
    assert row["not_known"].split()[:2] == ["life_least_years", "life_most_years"]
    assert "not known: life of boards, life of frame" in svg_texts(compared)


def test_csv_is_the_rows_digit_for_digit(three: Comparison) -> None:
    read = list(csv.DictReader(io.StringIO(three.papers()["compare.csv"].decode())))
    for row, told in zip(read, three.measures(), strict=True):
        assert list(row) == list(told)
        for name, figure in told.items():
            if isinstance(figure, Decimal):
                assert Decimal(row[name]) == figure
    assert [row["buildable"] for row in read] == ["yes", "yes", "no"]


def test_bars_are_as_long_as_a_year_costs(three: Comparison) -> None:
    """Solid to the least, hatched to the most, all on one scale."""
    root = ET.fromstring(three.papers()["compare.svg"])
    bars = [each for each in root.iter(f"{SVG}rect") if each.get("stroke") == "black"]
    solid = [float(bar.attrib["width"]) for bar in bars if bar.get("fill") == "black"]
    spread = [float(bar.attrib["width"]) for bar in bars if bar.get("fill") == "white"]
    rows = [row for row in three.measures() if row["buildable"]]
    for index, row in enumerate(rows):
        least, most = float(str(row["yearly_least"])), float(str(row["yearly_most"]))
        assert (solid[index] + spread[index]) / solid[index] == pytest.approx(
            most / least, rel=1e-3
        )
        assert solid[index] / solid[0] == pytest.approx(
            least / float(str(rows[0]["yearly_least"])), rel=1e-3
        )
    assert len(solid) == len(spread) == 2


def test_the_chart_stays_on_its_sheet(three: Comparison) -> None:
    root = ET.fromstring(three.papers()["compare.svg"])
    wide, high = (float(side) for side in root.attrib["viewBox"].split()[2:])
    for each in root.iter(f"{SVG}rect"):
        right = float(each.attrib["x"]) + float(each.attrib["width"])
        below = float(each.attrib["y"]) + float(each.attrib["height"])
        assert right <= wide
        assert below <= high
    assert "cannot be built" in svg_texts(three)
    assert "data-deck-mm-per-paper-mm" not in root.attrib


def test_marks_of_the_axis_reach_the_dearest_year(three: Comparison) -> None:
    most = max(row["yearly_most"] for row in three.measures() if row["yearly_most"])  # type: ignore[type-var]
    marks = [Decimal(text) for text in svg_texts(three) if re.fullmatch(r"\d+(\.\d+)?", text)]
    assert marks[0] == 0
    assert marks[-2] < most <= marks[-1]


def test_nothing_known_is_a_chart_too() -> None:
    compared = across_families(
        brief(), {"a": THREE["too wide"]}, stock=stock(), families=families()
    )
    assert "cannot be built" in svg_texts(compared)
    assert "GBP a year, upkeep not in it" in svg_texts(compared)


def test_other_peoples_text_does_no_harm(three: Comparison) -> None:
    decks = tuple(evolve(deck, name=HOSTILE) for deck in three.decks)
    hostile = evolve(three, title=f"{HOSTILE}\x00\u202e", decks=decks)
    made = hostile.papers()
    assert ET.fromstring(made["compare.svg"]).tag == f"{SVG}svg"
    rows = list(csv.DictReader(io.StringIO(made["compare.csv"].decode())))
    assert rows[0]["name"] == f"'{HOSTILE}"
    assert b"\x00" not in made["compare.txt"] + made["compare.svg"]


def test_many_alternatives_stand_in_several_tables() -> None:
    one = across_families(brief(), {"a": {}}, stock=stock(), families=families())
    many = evolve(one, decks=tuple(evolve(one.decks[0], name=f"deck number {n}") for n in range(9)))
    text = str(many)
    assert all(len(each) <= 78 for each in text.splitlines())
    assert text.count("first cost") > 1
    assert all(f"deck number {n}" in text for n in range(9))
