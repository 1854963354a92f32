"""The pictures: the same bytes each time, every text on its sheet and off the others."""

import re
from datetime import date
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

from drylay.papers.upkeep_drawing import calendar_svg, lift_svg
from drylay.upkeep.calendar import inspection_calendar
from drylay.upkeep.lift import boards_to_lift
from drylay.upkeep.locate import locate
from drylay.upkeep.model import Below
from upkeep.decks import ALL, plan_of

SVG = "{http://www.w3.org/2000/svg}"


def below(along: float, across: float) -> Below:
    return Below(from_along_mm=along, to_along_mm=along + 250, from_across_mm=across,
                 to_across_mm=across + 200)  # fmt: skip


def texts(raw: bytes) -> list[str]:
    return ["".join(text.itertext()) for text in ET.fromstring(raw).iter(f"{SVG}text")]


@pytest.mark.parametrize("name", ALL)
def test_every_board_to_lift_is_numbered_and_told(name: str) -> None:
    plan = plan_of(name)
    lift = boards_to_lift(plan, reach=below(300, 100))
    raw = lift_svg(plan, lift, spot=locate(plan, 320, 120))
    assert raw == lift_svg(plan, lift, spot=locate(plan, 320, 120))
    said = texts(raw)
    for step in lift.ways[0].steps:
        assert f"{step.turn}: {step.piece}" in said or f"{step.turn}" in said
    root = ET.fromstring(raw)
    lifted = next(g for g in root if g.get("id") == "lift-lifted")
    assert len(lifted) == len(lift.ways[0].steps)
    box = [float(part) for part in root.get("viewBox", "").split()]
    for text in root.iter(f"{SVG}text"):
        assert 0 <= float(text.get("x", "0")) <= box[2]
        assert 0 <= float(text.get("y", "0")) <= box[3]


def test_nothing_to_lift_is_told() -> None:
    plan = plan_of("S01")
    lift = boards_to_lift(plan, reach=below(-900, -900))
    assert any("nothing is lifted" in text for text in texts(lift_svg(plan, lift)))


def test_a_board_that_is_lost_is_told() -> None:
    plan = plan_of("S08")
    first = boards_to_lift(plan, reach=below(300, 100))
    assert not first.ways[0].cut_free
    assert "The first board is sawn out and lost." in texts(lift_svg(plan, first))


@pytest.mark.parametrize("name", ["S01", "S15"])
def test_the_strip_has_a_letter_and_a_day_for_every_visit(name: str) -> None:
    its = inspection_calendar(plan_of(name), handed_over=date(2026, 7, 12), years=3)
    raw = calendar_svg(its)
    assert raw == calendar_svg(its)
    said = texts(raw)
    letters = [text for text in said if re.fullmatch("[H3SAU]", text)]
    assert len(letters) == len(its.visits)
    days = [text for text in said if re.fullmatch(r"\d{1,2}", text) and text != "3"]
    assert len(days) >= len(its.visits) - 1
    assert "2029" in said


def test_a_hostile_title_does_no_harm() -> None:
    its = inspection_calendar(plan_of("S01"), handed_over=date(2026, 7, 12), years=1)
    raw = calendar_svg(evolve(its, title="<script>\x00" + "W" * 300))
    assert b"<script>" not in raw
    ET.fromstring(raw)
