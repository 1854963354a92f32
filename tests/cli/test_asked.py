"""Commands beside the plan: the garden before it, and what is asked of a plan after it."""

import json
import math
import tomllib
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

import drylay
from cli.conftest import ROOT, STOCK, Run
from drylay.cli import codes
from drylay.cli.asked import mm_of

GARDEN = str(ROOT / "docs" / "examples" / "gardens" / "quarl.toml")
READINGS = """
[[reading]]
row = 10
edge_left = "1519.5 mm"
edge_right = "1518.5 mm"

[[reading]]
row = 15
edge_left = "2279 mm"
edge_right = "2279 mm"
"""


@pytest.fixture
def readings(tmp_path: Path) -> str:
    path = tmp_path / "readings.toml"
    path.write_text(READINGS, encoding="utf-8")
    return str(path)


def is_drawing(path: Path) -> bool:
    return ET.fromstring(path.read_bytes()).tag.endswith("svg")


def test_a_garden_is_told_and_written(run: Run, tmp_path: Path) -> None:
    code, out, err = run("garden", GARDEN, "--best", "2 m", "--out", str(tmp_path / "g"))
    assert (code, err) == (codes.FINE, "")
    for heading in ("SURVEY", "PLACE: by the door", "THE BEST FIRST", "FURNITURE"):
        assert heading in out
    drawn = {path.name for path in (tmp_path / "g").glob("*.svg")}
    assert drawn == {"survey.svg", "place-1.svg", "place-2.svg", "seating-least.svg",
                     "seating-comfortable.svg"}  # fmt: skip
    assert all(is_drawing(tmp_path / "g" / name) for name in drawn)


def test_a_garden_as_json(run: Run) -> None:
    code, out, _ = run("garden", GARDEN, "--json")
    assert code == codes.FINE
    assert set(json.loads(out)) == {"best", "file", "fitted", "places", "seating", "survey"}


@pytest.mark.parametrize(
    "argv",
    [
        ["garden", "no-such.toml"],
        ["garden", GARDEN, "--best", "2"],
        ["garden", GARDEN, "--best", "0 m"],
        ["locate", "{plan}", "1.2", "0.8 m"],
        ["locate", "{plan}", "1.2 m", "0.8 m", "--reach", "-1 m"],
        ["pegs", "{plan}", "P1P3=4 m"],
        ["pegs", "{plan}", "P1-P9=4 m"],
        ["profiles", "{plan}", "--clear", "1 mm"],
        ["upkeep", "{plan}", "--handed-over", "20.6.2027"],
        ["upkeep", "{plan}", "--handed-over", "2027-06-20", "--years", "0"],
        ["extend", "{plan}", "roof", "1 m"],
        ["extend", "{plan}", "front", "-1 m"],
        ["waste", "{plan}", "--factors", "no-such.toml"],
        ["correct", "{plan}", "no-such.toml"],
        ["steps", GARDEN, "--stock", STOCK],
    ],
    ids=" ".join,
)
def test_what_cannot_be_used_is_told_in_one_way(run: Run, folder: Path, argv: list[str]) -> None:
    code, out, err = run(*(str(folder) if each == "{plan}" else each for each in argv))
    assert (code, out) == (codes.UNUSABLE, "")
    assert "found" in err
    assert "wanted" in err


def test_steps_are_told_and_drawn(run: Run, tmp_path: Path) -> None:
    brief = tmp_path / "small.toml"
    brief.write_text(
        'title = "Small"\n[cover]\nalong = "2.4 m"\nacross = "595 mm"\n[board]\n'
        'article = "DB-28-145"\n[frame]\narticle = "FT-45-145"\n[fixings]\nscrew = "DS-45-70"\n'
        'coach_screw = "CS-8-120"\n', encoding="utf-8",
    )  # fmt: skip
    code, out, _ = run(
        "steps", str(brief), "--stock", STOCK, "--within", "2mm", "--counts-within", "2mm",
        "--change", "cover.along_mm", "--out", str(tmp_path / "s"),
    )  # fmt: skip
    assert code == codes.FINE
    assert "HOW MUCH MORE SIZE IS FREE" in out
    assert is_drawing(tmp_path / "s" / "steps.svg")


def test_readings_correct_a_plan_and_are_taken_once(
    run: Run, folder: Path, readings: str, tmp_path: Path
) -> None:
    code, out, err = run("correct", str(folder), readings, "--out", str(tmp_path / "laid"))
    assert (code, err) == (codes.FINE, "")
    assert "corrected after row 15; 2 new readings, 2 in all" in out
    assert is_drawing(tmp_path / "laid" / "correction.svg")
    assert run("audit", str(tmp_path / "laid"))[0] == codes.FINE
    code, out, _ = run("correct", str(tmp_path / "laid"), readings)
    assert "0 new readings, 2 in all" in out
    assert code == codes.FINE


def test_a_correction_as_json_is_the_plan(run: Run, folder: Path, readings: str) -> None:
    _, out, _ = run("correct", str(folder), readings, "--json")
    assert drylay.plan_from_json(out).laid.rows_laid == 15


def test_profiles_and_pegs(run: Run, folder: Path, tmp_path: Path) -> None:
    drawing = tmp_path / "lines.svg"
    code, out, _ = run("profiles", str(folder), "--out", str(drawing))
    assert code == codes.FINE
    assert "profiles" in out
    assert is_drawing(drawing)
    datum = ("--datum", "-1 m", "-1 m", "5 m", "-1 m")
    assert "D1 to D2" in run("profiles", str(folder), *datum)[1]


def taped(places: dict[str, tuple[float, float]]) -> list[str]:
    pairs = combinations(sorted(places), 2)
    return [f"{a}-{b}={math.dist(places[a], places[b]):.1f}mm" for a, b in pairs]


def test_pegs_stand_true_or_one_is_moved(run: Run, folder: Path, tmp_path: Path) -> None:
    pegs = drylay.plan_from_json((folder / "plan.json").read_text()).work.setting_out.pegs
    places = {peg.mark: (peg.along_mm, peg.across_mm) for peg in pegs}
    assert run("pegs", str(folder), *taped(places))[0] == codes.FINE
    along_mm, across_mm = places["P4"]
    knocked = taped({**places, "P4": (along_mm - 12, across_mm)})
    code, out, _ = run("pegs", str(folder), *knocked, "--out", str(tmp_path / "pegs.svg"))
    assert code == codes.STOPPED
    assert "P4: 12\u00a0mm right" in out
    assert is_drawing(tmp_path / "pegs.svg")


def test_upkeep_is_told_and_written(run: Run, folder: Path, tmp_path: Path) -> None:
    code, out, _ = run("upkeep", str(folder), "--handed-over", "2027-06-20", "--years", "1",
                       "--out", str(tmp_path / "u"))  # fmt: skip
    assert code == codes.FINE
    assert "V1  2027-06-20  Hand-over" in out
    assert (tmp_path / "u" / "upkeep.ics").read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")
    assert is_drawing(tmp_path / "u" / "upkeep.svg")
    code, out, _ = run("upkeep", str(folder), "--handed-over", "2027-06-20", "--json")
    assert json.loads(out)["handed_over"] == "2027-06-20"


def test_a_fault_is_located_and_drawn(run: Run, folder: Path, tmp_path: Path) -> None:
    drawing = tmp_path / "lift.svg"
    code, out, _ = run("locate", str(folder), "1.2 m", "0.8 m", "--out", str(drawing))
    assert code == codes.FINE
    assert "piece B6.1" in out
    assert "in this order" in out
    assert is_drawing(drawing)


def test_an_extensions_brief_reads_back(run: Run, folder: Path, tmp_path: Path) -> None:
    brief = tmp_path / "more.toml"
    code, out, _ = run("extend", str(folder), "front", "1 m", "--out", str(brief))
    assert code == codes.FINE
    assert run("check-brief", str(brief))[0] == codes.FINE
    _, plain, _ = run("extend", str(folder), "front", "1 m", "--json")
    told = json.loads(plain)["brief"]
    assert drylay.read_brief(told) == drylay.read_brief(brief)
    assert tomllib.loads(out)["title"] == told["title"]
    tied = ("--tied", "--old-frame", "soft")
    code, out, _ = run("extend", str(folder), "front", "1 m", *tied)
    assert code == codes.STOPPED
    assert "UPK-022" in out


def test_waste_by_class(run: Run, folder: Path) -> None:
    code, out, _ = run("waste", str(folder))
    assert code == codes.FINE
    assert "treated timber: offcuts of boards" in out
    code, out, _ = run("waste", str(folder), "--json")
    assert json.loads(out)["carbon"] is None


@pytest.mark.parametrize(("text", "mm"), [("1.2 m", 1200.0), ("-300 mm", -300.0), ("1 in", 25.4)])
def test_lengths_on_the_command_line(text: str, mm: float) -> None:
    assert mm_of("x", text) == mm
