"""Study files: read whole before anything is planned, run into a folder, stopped and resumed."""

import csv
import json
from decimal import Decimal
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from compare.sheds import SHED, STOCK
from drylay.compare.study_file import read_study
from drylay.compare.study_run import run_study
from drylay.compare.study_where import is_value
from drylay.compare.value_ranges import values_of
from drylay.errors import InputError

ROOT = Path(__file__).parents[2]
BRIEF = """
title = "Deck at the shed"
cover.along_mm = 2450
cover.across_mm = 1195
board.article = "DB-28-145"
frame.article = "FT-45-145"
joints.most_per_row = 0
fixings.screw = "DS-45-70"
fixings.coach_screw = "CS-8-120"
"""
STUDY = """
title = "Sheds"
brief = "shed.toml"
stock = "hobbleden.toml"
mode = "quick"

[vary]
cover.along_mm = { from = 1800, to = 2100, by = 150 }
"cover.across_mm" = [595, 1195, 0]
stock.without.DB-28-145 = [3600]

[vary.made_of.thick]
[vary.made_of.thin]
frame.most_centres_mm = 300

[[ask]]
what = "pareto"
name = "area-for-money"
aims = { total = "least", cover_m2 = "most" }

[[ask]]
what = "side_by_side"
by = "made_of"

[[ask]]
what = "cost_by_size"
size = "cover.along_mm"
by = "made_of"
where = { "cover.across_mm" = 595 }
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    (tmp_path / "shed.toml").write_text(BRIEF)
    (tmp_path / "hobbleden.toml").write_bytes((ROOT / "catalogs/hobbleden.toml").read_bytes())
    (tmp_path / "study.toml").write_text(STUDY)
    return tmp_path / "study.toml"


def test_a_study_is_read_as_it_is_told(file: Path) -> None:
    study = read_study(file)
    assert (study.title, study.mode, len(study.cases)) == ("Sheds", "quick", 18)
    assert study.cases.columns == (
        "made_of", "cover.along_mm", "cover.across_mm", "stock.without.DB-28-145",
        "frame.most_centres_mm",
    )  # fmt: skip
    assert [question.name for question in study.questions] == [
        "area-for-money", "side-by-side-2", "cost-by-size-3",
    ]  # fmt: skip
    assert study.questions[1].of == ("total", "yearly_least", "yearly_most")


def test_a_study_runs_into_a_folder(file: Path, tmp_path: Path) -> None:
    out, journal = tmp_path / "out", tmp_path / "run.jsonl"
    told = run_study(read_study(file), out=out, journal=journal)
    assert (told.count, told.outcomes) == (18, (("planned", 12), ("refused", 6)))
    assert told.codes == (("cover.across_mm", 6),)
    names = {
        f"{stem}.{kind}"
        for stem in ("area-for-money", "side-by-side-2", "cost-by-size-3")
        for kind in ("csv", "svg", "txt")
    }
    assert {path.name for path in out.iterdir()} == {"rows.csv", "study.txt", *names}
    for name in names:
        if name.endswith(".svg"):
            assert ET.fromstring((out / name).read_bytes()).tag.endswith("svg")
    with (out / "rows.csv").open(newline="", encoding="utf-8") as stream:
        assert len(list(csv.DictReader(stream))) == 18
    text = (out / "study.txt").read_text()
    assert text.startswith("Sheds\n\n18 decks: 12 planned, 6 refused\n  cover.across_mm: 6\n")
    again = run_study(read_study(file), out=out, journal=journal)  # all of it from the journal
    assert again == told
    assert len(journal.read_text().splitlines()) == 18


def test_a_mapping_is_a_study_too() -> None:
    study = {
        "title": "x", "brief": SHED, "stock": STOCK, "mode": "quick",
        "vary": {"cover.along_mm": range(1800, 1802)},
        "ask": [{"what": "side_by_side", "by": "cover.along_mm", "of": ["total"]}],
    }  # fmt: skip
    told = run_study(read_study(study))
    ((name, answer),) = told.answers
    assert name == "side-by-side-1"
    assert [row["count"] for row in answer.measures()] == [1, 1]


def test_every_fault_is_told_with_its_place(file: Path) -> None:
    file.write_text(
        STUDY.replace('"Sheds"', "7")
        .replace("to = 2100, ", "")
        .replace('"cover.across_mm" =', '"cover.acros_mm" =')
        .replace("DB-28-145 =", "DB-28-154 =")
        .replace("cover_m2", "cover_m3")
        .replace('by = "made_of"\nwhere', 'of = ["total"]\nwhere')
    )
    with pytest.raises(InputError) as told:
        read_study(file)
    found = [(fault.line, fault.path) for fault in told.value.faults]
    assert found == [
        (2, "title"),
        (8, "vary.cover.along_mm"),
        (9, "vary.cover.acros_mm"),
        (28, "ask[2].of"),
    ]
    mended = file.read_text().replace("cover.acros_mm", "cover.across_mm")
    file.write_text(
        mended.replace("title = 7", 'title = "x"').replace("by = 150", "to = 2100, by = 150")
    )
    with pytest.raises(InputError) as told:
        read_study(file)
    assert [(fault.line, fault.nearest) for fault in told.value.faults] == [
        (10, "DB-28-145, DB-28-120, FA-28-145"), (19, "cover_m2"), (28, ""),
    ]  # fmt: skip


def test_faults_of_brief_and_stock_are_told_together(file: Path) -> None:
    (file.parent / "shed.toml").write_text("title = 3")
    (file.parent / "hobbleden.toml").write_text("[[boards]]")
    with pytest.raises(InputError) as told:
        read_study(file)
    files = {Path(fault.file).name for fault in told.value.faults}
    assert files == {"shed.toml", "hobbleden.toml"}


@pytest.mark.parametrize(
    ("span", "values"),
    [
        ({"from": 1, "to": 5, "by": 2}, (1, 3, 5)),
        ({"from": 1, "to": 4, "by": 2}, (1, 3)),
        ({"from": 0.9, "to": 1.1, "by": 0.05}, (0.9, 0.95, 1.0, 1.05, 1.1)),
        ([3], [3]),
        ({"softwood": {}}, {"softwood": {}}),
    ],
)
def test_spans_are_written_out_exactly(span: object, values: object) -> None:
    assert values_of(span) == values


@pytest.mark.parametrize(
    "span",
    [
        {"from": 1, "to": 5}, {"from": 5, "to": 1, "by": 1}, {"from": 1, "to": 5, "by": 0},
        {"from": "1 m", "to": 5, "by": 1}, {"from": 0, "to": float("inf"), "by": 1},
        {"from": 0, "to": 1e12, "by": 1}, {"from": True, "to": 5, "by": 1},
    ],
)  # fmt: skip
def test_spans_that_are_none_are_told(span: dict[str, object]) -> None:
    study = {"title": "x", "brief": SHED, "stock": STOCK, "vary": {"cover.along_mm": span}}
    with pytest.raises(InputError) as told:
        read_study(study)
    assert [fault.path for fault in told.value.faults] == ["vary.cover.along_mm"]


def test_a_value_that_nothing_takes_is_told_before_the_first_deck(file: Path) -> None:
    file.write_text(
        STUDY.replace('"cover.across_mm" = 595', '"cover.across_mm" = 596, made_of = "thin"')
    )
    with pytest.raises(InputError) as told:
        read_study(file)
    ((line, path, wanted),) = [(each.line, each.path, each.wanted) for each in told.value.faults]
    assert (line, path) == (29, "ask[2].where.cover.across_mm")
    assert wanted == "a value that it takes: 595, 1195, 0"
    file.write_text(file.read_text().replace("596", "595").replace('"thin"', "1"))
    with pytest.raises(InputError, match="found 1, wanted a value that it takes: thick, thin"):
        read_study(file)


def test_a_sum_of_money_is_found_as_it_is_written() -> None:
    """TOML has no decimals: 232.15 comes as a float, and a row has money to the digit."""
    assert is_value(Decimal("232.15"), 232.15)
    assert is_value(4.0, 4)
    assert not is_value(Decimal("232.15"), "232.15")
    assert not is_value(1, True)


def test_what_no_row_has_is_told_when_it_is_asked() -> None:
    study = {
        "title": "x", "brief": SHED, "stock": STOCK, "mode": "quick",
        "vary": {"cover.along_mm": [1800]},
        "ask": [{"what": "side_by_side", "by": "cover.along_mm", "where": {"rows": -1}}],
    }  # fmt: skip
    with pytest.raises(InputError, match="values that some row has"):
        run_study(read_study(study))


def test_the_examples_are_studies() -> None:
    for path in (ROOT / "docs" / "examples" / "studies").glob("*.toml"):
        if path.stem != "terrace":
            assert len(read_study(path).cases) > 0


def test_an_answer_as_json_lines_is_flat(file: Path) -> None:
    for _, answer in run_study(read_study(file)).answers:
        for row in answer.measures():
            json.dumps({name: str(value) for name, value in row.items()})
            assert not any(isinstance(value, dict | list | tuple) for value in row.values())
