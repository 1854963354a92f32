"""A garden file: read whole or refused whole, and where its tables meet."""

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import GroundPoint
from drylay.planner.garden import ground_of, with_low
from drylay.planner.garden_model import GardenFile, of_place
from drylay.planner.garden_papers import garden_json, garden_text
from drylay.siting.model import DeckPlace, Garden
from drylay.survey.model import FieldBook

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples" / "gardens"
QUARL = EXAMPLES / "quarl.toml"


@pytest.fixture(scope="module")
def report() -> drylay.GardenReport:
    return drylay.look_at_garden(drylay.read_garden(QUARL))


def tables() -> dict[str, Any]:
    return tomllib.loads(QUARL.read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.name)
def test_every_example_is_a_garden(path: Path) -> None:
    assert drylay.read_garden(path) == drylay.read_garden(path.read_bytes())


@pytest.mark.parametrize("name", ["survey", "siting", "seating"])
def test_each_table_stands_by_itself(name: str) -> None:
    found = drylay.look_at_garden(drylay.read_garden({name: tables()[name]}))
    told = {"survey": found.survey, "siting": found.places, "seating": found.seating}
    assert {key for key, value in told.items() if value} == {name}
    assert drylay.garden_papers(found)["garden.txt"]


def test_every_fault_of_every_table_is_told_with_its_line() -> None:
    text = QUARL.read_text(encoding="utf-8")
    spoilt = (
        text.replace('length = "9.004 m"', "length = 9.004")
        .replace("latitude_deg = 52.4", "latitude_deg = 152.4")
        .replace('kind = "dining table"', 'kind = "dinning table"')
        + "\n[soil]\nkind = 1\n"
    )
    with pytest.raises(drylay.GardenError) as refused:
        drylay.read_garden(spoilt.encode())
    paths = {fault.path for fault in refused.value.faults}
    assert {"survey.tapes[0].length", "siting.latitude_deg", "seating.pieces[0].kind",
            "soil"} <= paths  # fmt: skip
    assert all(fault.line for fault in refused.value.faults)


@pytest.mark.parametrize("source", [{}, b"", "no-such-garden.toml", b"[survey", 3])
def test_what_is_no_garden_is_one_fault(source: Any) -> None:
    with pytest.raises(drylay.GardenError) as refused:
        drylay.read_garden(source)
    assert len(refused.value.faults) == 1


def test_ground_under_a_place_is_the_surveys_or_nobodys() -> None:
    """Ground falls 1 in 100 along: under 1000 to 3000 it lies from -10 down to -30."""
    corners = ((0, 0), (4000, 0), (4000, 4000), (0, 4000))
    points = tuple(GroundPoint(along_mm=x, across_mm=y, level_mm=-x / 100) for x, y in corners)
    survey = drylay.survey_garden(FieldBook(points=points))
    ground = ground_of(survey)
    place = DeckPlace(name="d", along_mm=1000, across_mm=500, size_along_mm=2000,
                      size_across_mm=2000, top_mm=200)  # fmt: skip
    assert ground is not None
    assert ground(place) == (-30.0, -10.0)
    assert ground(evolve(place, along_mm=2500)) is None  # half a metre beyond the levels
    assert ground_of(None) is None


def test_the_lowest_level_measured_is_the_lowest_spot_unless_one_is_told() -> None:
    book = drylay.read_garden(QUARL).survey
    assert book is not None
    survey = drylay.survey_garden(book)
    assert with_low(Garden(), survey).low.at_mm == (6500.0, 6200.0)  # -455, by the file
    told = with_low(Garden(), survey)
    assert with_low(told, None) == told
    assert with_low(Garden(), None).low is None


def test_heights_for_the_region_are_over_the_lowest_ground(report: drylay.GardenReport) -> None:
    """By the door the lowest ground is at 3.41 m across, between levels of -372 and -391."""
    (door, _) = report.places
    permission = next(f for f in door.notes if f.code == "RGN-001" and f.limit == 300)
    least = door.verdict.place.ground_least_mm
    assert permission.measured == pytest.approx(-160 - least)
    assert -380 < least < -372  # between the levels around it, read in the file


def test_all_found_is_told_and_all_told_is_found(report: drylay.GardenReport) -> None:
    text = garden_text(report)
    told = [str(found) for place in report.places for found in of_place(place)]
    assert [each for each in told if each not in text] == []
    assert set(report.survey.findings) <= set(report.findings)


def test_papers_are_the_same_bytes_and_json_is_json(report: drylay.GardenReport) -> None:
    again = drylay.look_at_garden(drylay.read_garden(QUARL))
    assert drylay.garden_papers(report) == drylay.garden_papers(again)
    plain = json.loads(garden_json(report))
    assert plain["survey"]["book"]["accuracy_mm"] == 3.0


def test_places_on_a_grid_are_in_order_and_need_a_place_to_go_by() -> None:
    garden = drylay.read_garden(QUARL)
    found = drylay.look_at_garden(garden, step_mm=2000)
    ranks = [(each.stops, each.cautions, -(each.sun_h or 0.0)) for each in found.best]
    assert ranks == sorted(ranks)
    assert len(found.best) > 1
    bare = GardenFile(siting=evolve(garden.siting, places=()))
    assert drylay.look_at_garden(bare, step_mm=2000).best == ()
    with pytest.raises(drylay.GardenError):
        drylay.look_at_garden(garden, step_mm=0)


def test_a_cover_that_is_fixed_is_held_against_the_furniture() -> None:
    seating = {**tables()["seating"], "cover": {"along": "3 m", "across": "3 m"}}
    found = drylay.look_at_garden(drylay.read_garden({"seating": seating}))
    assert [(one.level, one.fits) for one in found.fitted] == [
        ("least", False), ("comfortable", False),
    ]  # fmt: skip
    assert any(each.code == "SEA-001" for each in found.findings)


def test_where_no_height_is_known_all_else_is_asked() -> None:
    siting = tables()["siting"]
    for place in siting["places"]:
        for key in ("ground_least", "ground_most", "ground_least_mm", "ground_most_mm"):
            place.pop(key, None)
    (place, *_) = drylay.look_at_garden(drylay.read_garden({"siting": siting})).places
    assert {"RGN-002", "RGN-003"} <= {each.code for each in place.notes}
    heights = [each for each in place.notes if each.code == "RGN-001"]
    assert [each.measured for each in heights] == [None]
    assert "not known" in heights[0].message


@pytest.mark.parametrize(
    ("bearing", "good"), [(180, True), (184.9, True), (186, False), (0, False)]
)
def test_both_bearings_are_of_one_garden(bearing: float, good: bool) -> None:
    """Along runs in 90: across, away from the house, in 180."""
    told = tables()
    told["survey"]["across_bearing_deg"] = bearing
    if good:
        assert drylay.read_garden(told).siting
        return
    with pytest.raises(drylay.GardenError) as refused:
        drylay.read_garden(told)
    (fault,) = refused.value.faults
    assert fault.path == "survey.across_bearing_deg"
    assert "180" in fault.wanted


@pytest.mark.parametrize("step", [float("inf"), "2 m"])
def test_a_step_that_is_none_is_told(step: Any) -> None:
    with pytest.raises(drylay.GardenError):
        drylay.look_at_garden(drylay.read_garden(QUARL), step_mm=step)


def test_what_a_shift_clears_is_all_that_is_claimed(report: drylay.GardenReport) -> None:
    assert "clear of all that lies near" not in garden_text(report)


def test_a_soil_wants_its_region_and_its_name() -> None:
    def wrong(**told: str) -> drylay.Fault:
        siting = {key: value for key, value in tables()["siting"].items()
                  if key not in {"region", "soil"}}  # fmt: skip
        with pytest.raises(drylay.GardenError) as refused:
            drylay.read_garden({"siting": siting | told})
        (fault,) = refused.value.faults
        return fault

    lone = wrong(soil="peat")
    assert (lone.path, "united-kingdom" in lone.wanted) == ("siting.region", True)
    other = wrong(soil="Firm Clay", region="united-kingdom")
    assert (other.path, "firm clay" in other.nearest) == ("siting.soil", True)
    nowhere = wrong(soil="peat", region="united-kingdon")
    assert nowhere.path == "siting.region"
    assert nowhere.nearest.startswith("united-kingdom")
