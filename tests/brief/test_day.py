"""Joint lines, clips and the weather in a brief: read, and told at their place when wrong."""

from typing import Any

import pytest

import drylay
from drylay.errors import BriefError

LEAST: dict[str, Any] = {
    "title": "Terrace",
    "cover": {"along_mm": 5400, "across_mm": 1445},
    "board": {"article": "B"},
    "frame": {"article": "T"},
    "fixings": {"screw": "S", "coach_screw": "C"},
}


def document(**sections: dict[str, Any]) -> dict[str, Any]:
    told = {name: {**LEAST.get(name, {}), **keys} for name, keys in sections.items()}
    return {**LEAST, **told}


def faulty(**sections: dict[str, Any]) -> list[str]:
    with pytest.raises(BriefError) as caught:
        drylay.read_brief(document(**sections))
    return [fault.path for fault in caught.value.faults]


def test_joint_lines_are_read_in_mm_or_as_texts_with_units() -> None:
    by_mm = drylay.read_brief(document(joints={"lines_mm": [1800, 3600]}))
    by_text = drylay.read_brief(document(joints={"lines": ["1.8 m", "360 cm"]}))
    assert by_mm.joints.lines_mm == by_text.joints.lines_mm == (1800.0, 3600.0)
    assert drylay.read_brief(document(joints={"lines_mm": []})).joints.lines_mm == ()
    assert drylay.read_brief(LEAST).joints.lines_mm is None


@pytest.mark.parametrize(
    ("lines", "at"),
    [
        ([1800, "wide", -3], ["joints.lines_mm[1]", "joints.lines_mm[2]"]),
        (1800, ["joints.lines_mm"]),
        ([3600, 1800], ["joints.lines_mm[1]"]),
        ([1800, 1800], ["joints.lines_mm[1]"]),
        ([1800, 5400], ["joints.lines_mm[1]"]),
    ],
)
def test_wrong_lines_are_told_each_in_its_place(lines: object, at: list[str]) -> None:
    assert faulty(joints={"lines_mm": lines}) == at


def test_lines_are_for_pairs_alone() -> None:
    assert faulty(joints={"lines_mm": [1800], "support": "batten"}) == ["joints.lines_mm"]
    assert faulty(joints={"support": "triple"}) == ["joints.support"]


def test_starters_without_clips_are_a_fault() -> None:
    assert faulty(fixings={"starter_clip": "CS"}) == ["fixings.clip"]


@pytest.mark.parametrize(("laying_pct", "what"), [(10, "from the kiln"), (40, "green")])
def test_boards_may_be_laid_drier_or_wetter_than_they_will_be_again(
    laying_pct: int, what: str
) -> None:
    weather = {"laying_pct": laying_pct, "driest_pct": 14, "wettest_pct": 24}
    read = drylay.read_brief(document(climate=weather))
    assert read.climate.laying_pct == laying_pct, what


@pytest.mark.parametrize(
    ("climate", "at"),
    [
        ({"laying_c": 12, "hottest_board_c": 10}, ["climate.hottest_board_c"]),
        ({"laying_c": -12, "coldest_board_c": -5}, ["climate.laying_c"]),
        ({"driest_pct": 24, "wettest_pct": 14}, ["climate.wettest_pct"]),
        ({"laying_humidity_ratio": 0.8}, ["climate.laying_c"]),
        ({"laying_humidity_ratio": 80, "laying_c": 12}, ["climate.laying_humidity_ratio"]),
        ({"laying_c": 300}, ["climate.laying_c"]),
    ],
)
def test_weather_out_of_order_or_sense_is_told(climate: dict[str, Any], at: list[str]) -> None:
    assert faulty(climate=climate) == at
