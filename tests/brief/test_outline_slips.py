"""Slips and nonsense in outlines: asked about or refused, and a brief for tiles on one."""

from typing import Any

import pytest

import drylay
from brief.test_outline import BODY, DECK, block, corners, fault, faults


def test_places_in_metres_beside_millimetres() -> None:
    wing = block((4.0, 0), (1500, 3000))
    found = fault({"rectangles": [BODY, wing]})
    assert found.path == "outline.rectangles[1].from_along_mm"
    assert found.nearest == "from_along_mm = 4000, if metres are meant"
    post = {"kind": "post", "along_mm": 1.5, "across_mm": 2,
            "size_along_mm": 90, "size_across_mm": 90}  # fmt: skip
    found = fault({"rectangles": [BODY], "openings": [post]})
    assert found.nearest == "along_mm = 1500, across_mm = 2000, if metres are meant"


def test_a_corner_too_sharp_to_saw() -> None:
    # 3000 to 500: atan(1 / 6) = 9.46 degrees
    found = fault({"points": corners((0, 0), (3000, 0), (0, 500))})
    assert (found.path, "9.46 degrees" in found.found) == ("outline.points[1]", True)
    assert faults({"points": corners((0, 0), (3000, 0), (0, 550))}) == []  # 10.4


def test_breaker_boards_off_the_deck() -> None:
    found = fault({"rectangles": [BODY]}, laying={"breakers_mm": [1800, 4000]})
    assert (found.path, found.nearest) == ("laying.breakers_mm[1]", "leave 4000 out")
    across = faults({"rectangles": [BODY]}, laying={"breakers_mm": [3500], "angle_deg": 90})
    assert len(across) == 1
    # at 45 the deck reaches (4000 + 3000) / sqrt 2 = 4949.7
    found = fault({"rectangles": [BODY]}, laying={"breakers_mm": [4949, 4950], "angle_deg": 45})
    assert found.path == "laying.breakers_mm[1]"


@pytest.mark.parametrize("key", ["points", "rectangles", "openings"])
def test_no_more_are_read_than_a_deck_has_use_for(key: str) -> None:
    many = {
        "points": corners(*((x, x * 7 % 9000) for x in range(201))),
        "rectangles": [BODY] * 41,
        "openings": [{"kind": "post", "along_mm": 900, "across_mm": 900,
                      "size_along_mm": 90, "size_across_mm": 90}] * 41,
    }  # fmt: skip
    outline = {key: many[key]} | ({"rectangles": [BODY]} if key == "openings" else {})
    found = faults(outline)
    assert [one.path for one in found if "at most" in one.wanted] == [f"outline.{key}"]


@pytest.mark.parametrize("value", [5, "x", [1], {}, [None], [[]], True, {"points": 3}])
def test_nonsense_is_refused_not_raised(value: Any) -> None:
    assert faults({"points": value}) or value == {}
    assert drylay.check_brief({**DECK, "outline": value})
    assert faults({"rectangles": [BODY]}, laying={"fields": value, "breakers": value}) or not value


def test_a_side_too_short_is_told_at_its_corner() -> None:
    found = fault({"points": corners((0, 0), (4000, 0), (4000, 10), (3500, 3000), (0, 3000))})
    assert (found.path, found.nearest) == ("outline.points[1]", "leave outline.points[1] out")


def test_fascia_that_ends_on_a_straight() -> None:
    wing = block((4000, 0), (1500, 3000), faced=True)
    found = faults({"rectangles": [BODY, wing]}, fascia={"article": "FA-28-145"})
    # the front goes on straight at 4000; on the house's line no fascia is carried anyway
    assert [one.found for one in found] == [
        "fascia that begins or ends at (4000, 3000), on a straight"
    ]


def test_too_many_fields() -> None:
    fields = [block((at * 100, 0), (90, 3000), angle_deg=45) for at in range(21)]
    assert fault({"rectangles": [BODY]}, laying={"fields": fields}).found == "21 of them"


def test_tiles_on_an_outline_are_read() -> None:
    pads = {"title": "Tiles", "outline": {"rectangles": [BODY]},
            "board": {"article": "PT-600-600-20", "support": "pads"},
            "groundwork": {"packer": "SPD-40-70"}}  # fmt: skip
    assert drylay.check_brief(pads) == ()
