"""A garden file's [siting]: what is read, and every slip asked about."""

from pathlib import Path
from typing import Any

import pytest

from drylay.errors import Fault
from drylay.intake.document import Document, open_document
from drylay.intake.tables import Reading
from drylay.siting.model import Garden
from drylay.siting.reader import read_siting

FILE = """
[siting]
latitude_deg = 51.5
longitude_deg = -0.1
utc_offset_h = 1
along_bearing_deg = 90
clear = "0.5 m"
door_along = "4 m"
door_across_mm = 0
low_along_mm = 2500
low_across_mm = 3500
low_outfall = false
region = "united-kingdom"
soil = "firm clay"
searched = true
plot = [{ along_mm = 0, across_mm = 0 }, { along = "12 m", across_mm = 0 },
  { along = "12 m", across = "15 m" }]

[[siting.hours]]
day = 2027-06-21
from_h = 17
to_h = 20

[[siting.buildings]]
from_along_mm = -1000
from_across_mm = -8000
along = "10 m"
across = "8 m"
height = "6 m"

[[siting.fences]]
name = "back"
from_along_mm = 0
from_across = "15 m"
to_along = "12 m"
to_across = "15 m"
height_mm = 1500
private = "8 m"

[[siting.services]]
kind = "electricity"
from_along_mm = 1000
from_across_mm = 0
to_along_mm = 1000
to_across_mm = 9000
depth_mm = 450

[[siting.covers]]
along_mm = 3000
across_mm = 2000
size_mm = 600

[[siting.trees]]
along_mm = 9000
across_mm = 9000
stem_mm = 250

[[siting.flues]]
along_mm = 2000
across_mm = 0
level_mm = 2100

[[siting.wet]]
from_along_mm = 2000
from_across_mm = 3000
along_mm = 1500
across_mm = 1500
stood_days = 3

[[siting.firmness]]
along_mm = 1000
across_mm = 1000
kind = "heel"
sunk_mm = 15

[[siting.places]]
name = "by the door"
along_mm = 3000
across_mm = 10
size_along_mm = 4000
size_across_mm = 3000
top_mm = 200
stands = "legs"
hole_mm = 300
holes = [{ along_mm = 100, across_mm = 100 }]
"""


def read(tables: dict[str, Any]) -> tuple[Garden | None, list[Fault]]:
    reading = Reading(document=Document(tables={"siting": tables}))
    return read_siting(reading), reading.faults


def faults(**told: Any) -> list[Fault]:
    garden, found = read(told)
    assert (garden is None) == bool(found)
    return found


def test_a_whole_file(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_text(FILE, encoding="utf-8")
    document, wrong = open_document(str(file), what="garden file", most_bytes=100_000)
    assert document is not None, wrong
    reading = Reading(document=document)
    garden = read_siting(reading)
    assert not reading.faults
    assert garden is not None
    assert garden.plot_mm == ((0, 0), (12000, 0), (12000, 15000))
    assert (garden.clear_mm, garden.door_mm, garden.soil) == (500, (4000, 0), "firm clay")
    assert garden.meridian is not None
    assert garden.meridian.utc_offset_h == 1
    assert garden.casters[0].name == "building 1"
    assert garden.casters[0].corners_mm[2] == (9000, 0)
    assert garden.fences[0].private_mm == 8000
    assert garden.services[0].line_mm == ((1000, 0), (1000, 9000))
    assert garden.trees[0].height_mm is None
    assert garden.low is not None
    assert garden.low.outfall is False
    assert garden.wet[0].stood_days == 3
    assert garden.firmness[0].kind == "heel"
    (place,) = garden.places
    assert (place.name, place.stands, place.holes_mm) == ("by the door", "legs", ((100, 100),))
    assert garden.hours[0].to_h == 20


def test_no_table_is_no_garden_and_no_fault() -> None:
    reading = Reading(document=Document(tables={}))
    assert read_siting(reading) is None
    assert reading.faults == []
    assert read({})[0] == Garden()


@pytest.mark.parametrize(
    ("told", "path", "nearest"),
    [
        # 0.9 radians are 51.57 degrees
        ({"latitude_deg": 0.9}, "latitude_deg", "51.57"),
        # London, swapped; New York, swapped: longitude 40.7 with a clock of -4
        ({"latitude_deg": -0.1, "longitude_deg": 51.5}, "latitude_deg", "latitude_deg = 51.5"),
        ({"latitude_deg": -74.0, "longitude_deg": 40.7, "utc_offset_h": -4}, "longitude_deg",
         "latitude_deg = 40.7, longitude_deg = -74"),
        # Wellington with a northern latitude; Boston with an eastern longitude
        ({"latitude_deg": 41.3, "longitude_deg": 174.8, "region": "new-zealand"}, "latitude_deg",
         "latitude_deg = -41.3"),
        ({"latitude_deg": 42.4, "longitude_deg": 71.1, "region": "north-america"}, "latitude_deg",
         "longitude_deg = -71.1"),
        ({"latitude_deg": 41.3, "region": "new-zealand"}, "latitude_deg", "latitude_deg = -41.3"),
        ({"longitude_deg": 3}, "latitude_deg", ""),
        ({"latitude_deg": 50, "utc_offset_h": 1}, "longitude_deg", ""),
        ({"door_along_mm": 3}, "door_across_mm", ""),
        ({"low_across_mm": 3}, "low_along_mm", ""),
    ],
)  # fmt: skip
def test_slips_of_the_place_on_earth_are_asked(
    told: dict[str, Any], path: str, nearest: str
) -> None:
    (found,) = faults(**told)
    assert found.path == f"siting.{path}"
    assert nearest in found.nearest


def test_the_equator_may_be_meant() -> None:
    assert faults(latitude_deg=1.35, longitude_deg=103.8, utc_offset_h=8, near_equator=True) == []
    # the west of China keeps the clock of 120 east: 44 degrees off
    assert faults(latitude_deg=39.5, longitude_deg=76.0, utc_offset_h=8) == []


CORNER = {"along_mm": 5.0, "across_mm": 8.0}
FENCE = {"from_along_mm": 0, "from_across_mm": 0, "to_along_mm": 0, "to_across_mm": 0}
DECK = {"along_mm": 0, "across_mm": 0, "size_along_mm": 4000, "size_across_mm": 3000, "top_mm": 0}


@pytest.mark.parametrize(
    ("told", "path"),
    [
        ({"plot": [CORNER, {"along_mm": 9000, "across_mm": 1}]}, "plot"),
        ({"plot": [CORNER, {"along_mm": 13, "across_mm": 8}, {"along_mm": 13, "across_mm": 20}]},
         "plot"),
        ({"plot": [{"along_mm": x, "across_mm": y} for x, y in
                   ((0, 0), (9000, 9000), (9000, 0), (0, 9000))]}, "plot"),
        ({"hours": [{"day": "2027-06-21", "from_h": 20, "to_h": 17}]}, "hours[0].to_h"),
        ({"hours": [{"from_h": 17, "to_h": 20}]}, "hours[0].day"),
        ({"fences": [{**FENCE, "height_mm": 1500}]}, "fences[0]"),
        ({"trees": [{**CORNER, "stem_mm": 200, "height_mm": 4000, "clear_mm": 4000}]},
         "trees[0].clear_mm"),
        ({"places": [{**DECK, "ground_least_mm": 5, "ground_most_mm": 4}]},
         "places[0].ground_least_mm"),
        ({"places": [{**DECK, "name": "a"}, {**DECK, "name": "a"}]}, "places[1].name"),
    ],
)  # fmt: skip
def test_slips_inside_are_told_with_their_place(told: dict[str, Any], path: str) -> None:
    (found,) = faults(**told)
    assert found.path == f"siting.{path}"


def test_all_faults_are_told_at_once_each_in_its_row() -> None:
    found = faults(
        latitude_deg=100,
        plot=[{"along_mm": 5}],
        places=[{"along_mm": 1}, {**DECK, "ground_least_mm": 5, "ground_most_mm": 4}],
        services=3,
    )
    paths = {fault.path for fault in found}
    assert {"siting.latitude_deg", "siting.plot[0].across_mm", "siting.services",
            "siting.places[0].top_mm", "siting.places[1].ground_least_mm"} <= paths  # fmt: skip
    assert read({"holes": 1})[0] is None
    assert [fault.path for fault in read_faults_of(3)] == ["siting"]


def read_faults_of(table: object) -> list[Fault]:
    reading = Reading(document=Document(tables={"siting": table}))
    assert read_siting(reading) is None
    return reading.faults
