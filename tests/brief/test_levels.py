"""Levels in a brief: signs, nonsense pairs, slips; all asked about, none guessed."""

from typing import Any

import pytest

import drylay
from drylay.errors import Fault

DECK: dict[str, Any] = {
    "title": "Level deck",
    "cover": {"along_mm": 2400, "across_mm": 2395},
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}


def faults(house: dict[str, Any] | None = None, **levels: object) -> list[Fault]:
    return list(drylay.check_brief({**DECK, "house": house or {}, "levels": levels}))


def points(*places: tuple[float, float, float]) -> list[dict[str, float]]:
    return [{"along_mm": x, "across_mm": y, "level_mm": z} for x, y, z in places]


SQUARE = points((0, 0, -300), (2400, 0, -310), (2400, 2400, -320), (0, 2400, -330))


@pytest.mark.parametrize(
    ("text", "level_mm"),
    [
        ("-150 mm", -150.0),
        ("\N{MINUS SIGN}150 mm", -150.0),
        ("-0.15 m", -150.0),
        ("-6 in", -152.4),
        ("- 1 ft 2 in", -355.6),
        ("0 mm", 0.0),
        ("150 mm", 150.0),
    ],
)
def test_a_level_may_lie_below_the_datum(text: str, level_mm: float) -> None:
    brief = drylay.read_brief({**DECK, "levels": {"deck_top": text}})
    assert brief.levels.deck_top_mm == level_mm


def test_a_size_may_not_be_below_nothing_all_the_same() -> None:
    (fault,) = drylay.check_brief({**DECK, "cover": {"along": "-2.4 m", "across_mm": 2395}})
    assert fault.path == "cover.along"


def test_a_level_without_a_unit_is_asked_about() -> None:
    (fault,) = faults(deck_top="-150")
    assert fault.path == "levels.deck_top"
    assert "unit" in fault.wanted


def test_levels_that_make_sense_are_read() -> None:
    house = {"dpc_mm": 0, "floor_mm": 150, "door_leaf_mm": 120}
    assert faults(house, deck_top_mm=-150, lowest_mm=-400, points=SQUARE) == []


def test_a_floor_below_the_damp_course_is_asked_about() -> None:
    (fault,) = faults({"dpc_mm": 150, "floor_mm": 0})
    assert fault.path == "house.floor_mm"
    assert fault.nearest == "floor_mm = 150"


def test_a_leaf_far_below_the_floor_is_asked_about() -> None:
    assert faults({"floor_mm": 150, "door_leaf_mm": -150}) == []
    (fault,) = faults({"floor_mm": 150, "door_leaf_mm": -151})
    assert fault.path == "house.door_leaf_mm"


@pytest.mark.parametrize(
    "few",
    [
        points((0, 0, -300)),
        points((0, 0, -300), (2400, 0, -310)),
        points((0, 0, -300), (1200, 0, -310), (2400, 0, -320)),
        points((0, 0, -300), (1200, 1200, -310), (2400, 2400, -320), (600, 600, -305)),
    ],
)
def test_too_few_ground_heights(few: list[dict[str, float]]) -> None:
    (fault,) = faults(points=few)
    assert fault.path == "levels.points"
    assert fault.nearest.startswith("give at least four ground heights")


def test_a_place_measured_twice_is_told() -> None:
    (fault,) = faults(points=[*SQUARE, SQUARE[1]])
    assert fault.path == "levels.points[4].along_mm"
    assert "levels.points[1]" in fault.found


def test_more_points_than_are_read_are_told() -> None:
    many = points(*((100.0 * n, 50.0 * n * n, -300.0) for n in range(41)))
    assert [fault.path for fault in faults(points=many)] == ["levels.points"]
    assert faults(points=many[:40]) == []


def test_metres_among_millimetres_are_asked_about() -> None:
    (fault,) = faults({"dpc_mm": 0, "floor_mm": 150}, deck_top_mm=-0.15)
    assert fault.path == "levels.deck_top_mm"
    assert fault.nearest == "deck_top_mm = -150, if that is meant"


def test_a_level_a_hundred_times_the_others_is_asked_about() -> None:
    (fault,) = faults({"dpc_mm": 0, "floor_mm": 15}, deck_top_mm=-10, lowest_mm=-4000)
    assert fault.path == "levels.lowest_mm"
    assert "which unit is meant?" in fault.wanted


def test_a_slip_in_a_point_is_placed() -> None:
    slip = [*SQUARE[:3], {**SQUARE[3], "level_mm": -0.33}]
    (fault,) = faults(points=slip)
    assert fault.path == "levels.points[3].level_mm"


def test_levels_that_all_look_like_metres_are_asked_about_each() -> None:
    metres = points((0, 0, -0.32), (2400, 0, -0.325), (2400, 2400, -0.345), (0, 2400, 0))
    asked = faults({"dpc_mm": 0, "floor_mm": 0.15}, points=metres)
    assert [fault.path for fault in asked] == [
        "house.floor_mm",
        *(f"levels.points[{at}].level_mm" for at in range(3)),
    ]
    assert all("levels look like metres" in fault.wanted for fault in asked)
    assert asked[-1].nearest.startswith("level_mm = -345, if metres are meant")
    assert faults({"dpc_mm": 0, "floor_mm": 0}, deck_top_mm=0) == []
    assert faults({"dpc_mm": 0, "floor_mm": 0.15}) == []  # two are too few to tell
    assert faults({"dpc_mm": 0, "floor_mm": 0}, deck_top_mm=-5.1) == []


def test_places_that_look_like_metres_are_asked_about_and_not_called_in_line() -> None:
    asked = faults(points=points((0, 0, -300), (2.4, 0, -310), (2.4, 2.4, -320), (0, 2.4, -330)))
    assert [fault.path for fault in asked] == [
        f"levels.points[{at}].{key}"
        for at, key in ((1, "along_mm"), (2, "along_mm"), (2, "across_mm"), (3, "across_mm"))
    ]
    assert all("look like metres" in fault.wanted for fault in asked)
    assert asked[0].nearest == "along_mm = 2400, if metres are meant"


def test_a_point_refused_is_not_also_called_in_line_and_places_stay() -> None:
    refused = points((0, 0, -300), (2400, 0, -310), (1200, 2400, -9000))
    assert [fault.path for fault in faults(points=refused)] == ["levels.points[2].level_mm"]
    first = [{"along_mm": 0, "across_mm": 0, "level_mm": -9000}, *SQUARE[1:], SQUARE[3]]
    assert [fault.path for fault in faults(points=first)] == [
        "levels.points[0].level_mm", "levels.points[4].along_mm",
    ]  # fmt: skip
    assert "levels.points[3]" in faults(points=first)[1].found


@pytest.mark.parametrize(
    ("flat", "fine"),
    [
        # 299 and 300 mm high over the longest side
        (points((0, 0, 0), (2400, 0, -10), (1200, 299, -20)),
         points((0, 0, 0), (2400, 0, -10), (1200, 300, -20))),
        # sine of the sharpest corner about 400 / 23000 = 1 / 57.5, and 410 / 23000 = 1 / 56.1
        (points((0, 0, 0), (23000, 0, -10), (22995, 400, -20)),
         points((0, 0, 0), (23000, 0, -10), (22995, 410, -20))),
    ],
)  # fmt: skip
def test_a_flat_triangle_is_in_line(
    flat: list[dict[str, float]], fine: list[dict[str, float]]
) -> None:
    (fault,) = faults(points=flat)
    assert "in line" in fault.found
    assert faults(points=fine) == []


@pytest.mark.parametrize(("gap", "nearest"), [(0.01, "10"), (0.1, "100"), (0.5, "1")])
def test_a_gap_in_metres_is_asked_about(gap: float, nearest: str) -> None:
    (fault,) = faults({"wall_gap_mm": gap})
    assert fault.path == "house.wall_gap_mm"
    assert "metres" in fault.wanted
    assert fault.nearest == f"wall_gap_mm = {nearest}"
    assert faults({"wall_gap_mm": 0}) == faults({"wall_gap_mm": 1}) == []
