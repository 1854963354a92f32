"""The site in words: signs, bounds never rounded in the builder's favour, marks by name."""

from pathlib import Path

import pytest
from attrs import evolve

import drylay
from audit.sample_site import site
from drylay.papers.site_text import between_told, heights_told, limit_told, site_told, top_from
from drylay.plan.model import Plan
from drylay.site.model import Levels
from plan.sample import sample_plan

PLAN = evolve(sample_plan(), site=site())
ROOT = Path(__file__).parents[2]


def levels() -> Levels:
    found = site().levels
    assert found is not None
    return found


def told(plan: Plan) -> str:
    return " ".join(site_told(plan))


def test_the_top_is_told_from_marks_by_name() -> None:
    assert "Top of the boards: 150 mm below the damp course" in told(PLAN)
    assert "300 mm below the house floor" in told(PLAN)
    mark = evolve(levels().marks[1], down_mm=-40.0)
    assert top_from(levels(), mark, "metric") == "40 mm above the damp course"
    mark = evolve(levels().marks[1], down_mm=0.0)
    assert top_from(levels(), mark, "metric") == "level with the damp course"


def test_limits_say_which_govern() -> None:
    texts = [limit_told(limit, levels(), "metric") for limit in levels().limits]
    assert ["governs" in text for text in texts] == [True, False, False, False]
    assert "the tightest of its kind" in texts[3]
    assert texts[0].startswith("the top no higher than 150 mm below the damp course")
    assert texts[3].startswith("the top no lower than 440 mm below the house floor")


def test_bounds_are_never_rounded_in_the_builders_favour() -> None:
    # 150 mm = 5.906 in: at least 5 15/16 in below; 440 mm = 17.323 in: at most 17 5/16 in below
    texts = [limit_told(limit, levels(), "imperial") for limit in levels().limits]
    assert "5 15/16 in below the damp course" in texts[0]
    assert "1 ft 5 5/16 in below the house floor" in texts[3]
    # the lowest, -290 mm = -11.417 in: at most 11 3/8 in below; the highest 5 15/16 in below
    assert between_told(levels(), "imperial").startswith(
        "The top may lie anywhere from 11 3/8 in below the datum of levels (damp course) to "
        "5 15/16 in below"
    )
    above = evolve(levels(), highest_mm=150.0, lowest_mm=100.0)
    # 100 mm = 3.937 in: at least 3 15/16 in is 100.01; 150 mm: at most 5 7/8 in above
    assert "from 3 15/16 in above" in between_told(above, "imperial")
    assert "to 5 7/8 in above" in between_told(above, "imperial")


def test_the_wall_is_told_only_beside_a_house() -> None:
    assert "stands 12 mm from the house wall" in told(PLAN)
    assert site_told(evolve(PLAN, site=evolve(site(), beside_house=False, levels=None))) == []
    assert site_told(sample_plan()) == []


def test_ground_that_falls_either_way() -> None:
    assert "falls away from the house, by 6 mm" in told(PLAN)
    to_house = evolve(levels(), fall_to_house_mm=20.0)
    assert "falls 20 mm towards the house" in told(
        evolve(PLAN, site=evolve(site(), levels=to_house))
    )


def test_heights_reached_stand_out() -> None:
    first = evolve(levels().triggers[0], reached=True)
    reached = evolve(levels(), triggers=(first, *levels().triggers[1:]))
    texts = heights_told(reached, "metric")
    assert "REACHED" in texts[0]
    assert texts[-1].startswith("Heights not reached: guard, England, 600 mm")
    assert len(heights_told(levels(), "metric")) == 1


@pytest.mark.parametrize(("name", "yard"), [("garden", "hobbleden"), ("imperial", "marrowick")])
def test_the_site_is_in_sheet_and_drawings(name: str, yard: str) -> None:
    brief = drylay.read_brief(ROOT / "docs/examples" / f"{name}.toml")
    stock = drylay.load_catalogue(ROOT / "catalogs" / f"{yard}.toml")
    papers = drylay.papers(drylay.design(brief, stock=stock))
    assert b'id="sheet-site"' in papers["jobsheet.html"]
    assert b"What limits the top of the boards" in papers["jobsheet.html"]
    assert b"finished level:" in papers["section.svg"]
    assert b"house wall" in papers["setting-out.svg"].replace(b"\n", b" ")
