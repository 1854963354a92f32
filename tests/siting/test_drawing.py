"""The drawing of a garden: it says what the garden holds, and the same bytes each time."""

import re
from xml.etree import ElementTree as ET

from attrs import evolve

from drylay.papers.siting_drawing import hour_told, siting_svg
from drylay.siting.drawn import site_plan
from drylay.siting.model import Garden
from siting.gardens import place, whole_garden

SPACE = "{http://www.w3.org/2000/svg}"


def texts(drawing: bytes) -> set[str]:
    return {node.text or "" for node in ET.fromstring(drawing).iter(f"{SPACE}text")}


def test_it_names_what_lies_there_and_the_hours() -> None:
    plan = site_plan(whole_garden(), place(), title="Garden at the mill")
    drawing = siting_svg(plan)
    assert drawing == siting_svg(site_plan(whole_garden(), place(), title="Garden at the mill"))
    told = texts(drawing)
    assert {"A", "house", "shed", "cable", "old pipe", "sewer", "apple", "puddle", "N"} <= told
    assert {"17:00", "18:30", "20:00", "2027-06-21", "Garden at the mill"} <= told
    assert "4000 x 3000 mm, top 200" in told


def test_its_scale_is_true() -> None:
    """The deck is 4000 wide: at 1:100 that is 40 mm of paper."""
    plan = site_plan(whole_garden(), place())
    root = ET.fromstring(siting_svg(plan))
    per_mm = float(root.attrib["data-deck-mm-per-paper-mm"])
    (deck, _) = (
        node
        for group in root.iter(f"{SPACE}g")
        if group.attrib.get("id") == "siting-deck"
        for node in group
    )
    assert float(deck.attrib["width"]) * per_mm == 4000
    assert float(deck.attrib["height"]) * per_mm == 3000


def test_nothing_leaves_the_sheet() -> None:
    """Also lines and shadows that run on for ever end where the plan does."""
    far = evolve(
        whole_garden().services[0], line_mm=((3000.0, -90_000.0), (3000.0, 90_000.0)), name="main"
    )
    garden = evolve(whole_garden(), services=(far,))
    root = ET.fromstring(siting_svg(site_plan(garden, place())))
    width, height = (float(size) for size in root.attrib["viewBox"].split()[2:])
    for node in root.iter(f"{SPACE}polygon"):
        for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", node.attrib["points"]):
            assert 0 <= float(x) <= width
            assert 0 <= float(y) <= height
    for node in root.iter(f"{SPACE}line"):
        assert all(0 <= float(node.attrib[key]) <= width for key in ("x1", "x2"))
        assert all(0 <= float(node.attrib[key]) <= height for key in ("y1", "y2"))


def test_a_bare_place_is_drawn_too() -> None:
    told = texts(siting_svg(site_plan(Garden(), place(name="here"))))
    assert "here" in told
    assert not any("sun's altitude" in text for text in told)
    night = evolve(whole_garden(), hours=(evolve(whole_garden().hours[0], from_h=0.0, to_h=1.0),))
    assert site_plan(night, place()).shadows == ()


def test_hours_are_told_as_clocks_show_them() -> None:
    assert [hour_told(hour) for hour in (0.0, 17.5, 9 + 59.6 / 60)] == ["00:00", "17:30", "10:00"]


def test_the_sun_s_way_runs_from_rise_to_set() -> None:
    (path,) = site_plan(whole_garden(), place()).paths
    assert min(path.altitudes_deg) >= 0
    assert max(path.altitudes_deg) < 90 - 51.5 + 23.5
    assert len(path.hours_h) == len(path.altitudes_deg) > 60
