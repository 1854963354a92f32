"""Decks turned, mirrored, or measured from a line askew to them: the same counts and money."""

from collections.abc import Callable

import pytest

import drylay
from drylay.brief.model import Brief
from drylay.plan.model import Plan
from some_five import sold
from some_outlines import outline_sections
from turned_outlines import Sections, askew, mirrored, quarter_turned, unchanged

Change = Callable[[Sections, str], Sections]
#: Seeds of small decks: an L, a bay, a wedge of hardwood, a convex one of composite with openings.
SEEDS = (2, 7, 15, 19)
SMALL_MM = 3_600


def planned(brief: Brief) -> Plan:
    stock, families = sold(), drylay.installed_families()
    plan = drylay.design(brief, stock=stock, families=families)
    assert plan.buildable
    report = drylay.audit(plan, brief=brief, stock=stock, families=families)
    assert [each for each in report.findings if each.severity is drylay.Severity.STOP] == []
    return plan


def figures(plan: Plan) -> dict[str, object]:
    assert plan.buying is not None
    return {**unchanged(plan), "money": plan.buying.order_total}


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("deg", [17.3, -31.0])
def test_counts_and_money_stay_at_any_turn(seed: int, deg: float) -> None:
    sections = outline_sections(seed, most_mm=SMALL_MM)
    plain = planned(drylay.read_brief(sections))
    other = planned(drylay.read_brief(askew(sections, deg)))
    assert figures(other) == figures(plain)
    assert other.outline is not None
    assert other.outline.turned_deg == pytest.approx(deg, abs=1e-3)
    told = [each for each in other.findings if each.code == "OUT-024"]
    assert [each.measured for each in told] == [other.outline.turned_deg]
    assert not any(each.code == "OUT-024" for each in plain.findings)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("change", [quarter_turned, mirrored])
def test_a_quarter_turn_and_a_mirror_turn_the_plan(seed: int, change: Change) -> None:
    """Counts, gaps, areas and the order stay; `turned_deg` is of no deck here."""
    sections = outline_sections(seed, most_mm=SMALL_MM)
    plain = planned(drylay.read_brief(sections))
    assert plain.laying is not None
    other = planned(drylay.read_brief(change(sections, plain.laying.zones[0].first_row)))
    assert figures(other) == figures(plain)
    assert other.outline is not None
    assert other.outline.turned_deg == 0


def surveyed() -> Sections:
    """A lawn deck of 4 x 2.6 m along (12, 5), of length 13, its corners to whole mm."""
    return {
        "title": "askew on the lawn",
        "outline": {
            "points": [
                {"along_mm": x, "across_mm": y}
                for x, y in ((1000, 700), (4692, 2238), (3692, 4638), (0, 3100))
            ],
            "openings": [{"kind": "post", "along_mm": 2346, "across_mm": 2669,
                          "size_along_mm": 100, "size_across_mm": 100}],
        },
        "levels": {
            "datum": "the top of the drain", "deck_top_mm": 260, "lowest_mm": -100,
            "points": [{"along_mm": x, "across_mm": y, "level_mm": z}
                       for x, y, z in ((900, 500, 10), (4800, 2200, 20), (3700, 4800, 0),
                                       (-100, 3200, 5))],
        },
        "board": {"article": "SB-28-145"},
        "frame": {"article": "UT-45-145"},
        "fixings": {"screw": "DX-50-70-A2", "coach_screw": "CX-8-120-A2"},
    }  # fmt: skip


def test_a_surveyed_deck_is_laid_square() -> None:
    """The corners lie within a mm of a rectangle of 4000 x 2600 on a line of atan(5 / 12)."""
    plan = planned(drylay.read_brief(surveyed()))
    outline = plan.outline
    assert outline is not None
    assert outline.turned_deg == pytest.approx(22.62, abs=0.02)
    assert 0 < outline.moved_mm <= 1
    assert [side.corner_deg for side in outline.sides] == [90.0] * 4
    assert sorted(side.length_mm for side in outline.sides) == pytest.approx(
        [2600, 2600, 4000, 4000], abs=1
    )
    assert plan.site is not None
    assert plan.site.levels is not None
    assert not plan.site.levels.beyond
