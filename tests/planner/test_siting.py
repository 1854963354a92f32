"""Where the deck stands, from brief to plan: hand sums, conflicts, and what is asked."""

from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.site.model import Levels

ROOT = Path(__file__).parents[2]
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")

#: 2400 x 2395 mm, boards of 28 on timber of 145: 173 mm from the top to the frame's underside.
DECK: dict[str, Any] = {
    "title": "Level deck",
    "cover": {"along_mm": 2400, "across_mm": 2395},
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}
TOP = "site.levels.deck_top_mm"
HOUSE: dict[str, Any] = {"dpc_mm": 0, "floor_mm": 150, "steps_down": 2, "door_opens": "inward"}


def ground(house: float, front: float, **more: object) -> dict[str, Any]:
    """Return levels with a ground that is level along the house and along the front."""
    corners = ((0, 0, house), (2400, 0, house), (2400, 2395, front), (0, 2395, front))
    named = [{"along_mm": x, "across_mm": y, "level_mm": z} for x, y, z in corners]
    return {"points": named, **more}


def planned(house: dict[str, Any] | None = None, levels: dict[str, Any] | None = None,
            **more: Any) -> Plan:  # fmt: skip
    deck = {**DECK, **more}
    deck |= {"house": house} if house is not None else {}
    deck |= {"levels": levels} if levels is not None else {}
    brief = drylay.read_brief(deck)
    plan = drylay.design(brief, stock=YARD)
    families = drylay.installed_families()
    report = drylay.audit(plan, brief=brief, stock=YARD, families=families)
    assert report.findings == ()
    return plan


def levels_of(plan: Plan) -> Levels:
    assert plan.buildable, [str(finding) for finding in plan.findings]
    assert plan.site is not None
    assert plan.site.levels is not None
    return plan.site.levels


def found(plan: Plan, code: str) -> Finding:
    (finding,) = (finding for finding in plan.findings if finding.code == code)
    return finding


def codes(plan: Plan) -> set[str]:
    return {finding.code for finding in plan.findings if finding.code.startswith("LVL")}


def test_a_brief_without_a_house_says_what_it_said_before() -> None:
    plan = planned()
    assert codes(plan) == set()
    assert plan.site is not None
    assert plan.site.levels is None
    assert not plan.site.beside_house
    assert any("yours to leave outside the cover" in line for line in plan.not_checked)
    assert "house wall" not in str(drylay.papers(plan, only="summary.txt"))


def test_the_highest_allowed_by_hand() -> None:
    levels = levels_of(planned(HOUSE, ground(-330, -340, lowest_mm=-400)))
    assert levels.deck_top_mm == -150.0  # 0 - 150
    assert levels.underside_mm == -323.0  # -150 - 28 - 145
    assert levels.lowest_mm == -290.0  # 150 - 2 x 220
    assert levels.rise_mm == 150.0  # (150 + 150) / 2
    assert levels.drop_mm == 190.0  # -150 + 340
    assert (levels.under_most_mm, levels.under_least_mm) == (17.0, 7.0)
    assert levels.hollow == "elsewhere"
    plan = planned(HOUSE, ground(-330, -340, lowest_mm=-400))
    why = plan.why("site.levels.deck_top_mm")
    assert why.rule == "the highest allowed: below the damp course"
    assert [other.value for other in why.turned_down] == [-290.0]


def test_in_inches_the_top_chosen_is_a_pencil_mark() -> None:
    plan = planned(HOUSE, ground(-330, -340, lowest_mm=-400), units="imperial")
    levels = levels_of(plan)
    # 150 mm = 94.49 sixteenths of an inch: 95 of them below the damp course, 5 15/16 in
    assert levels.deck_top_mm == -150.8125  # 95 x 1.5875
    assert levels.highest_mm == -150.0
    (turned,) = (x for x in plan.why(TOP).turned_down if x.value == -150.0)
    assert "governs" in turned.because
    papers = drylay.papers(plan)
    for name in ("summary.txt", "jobsheet.html", "section.svg"):
        text = " ".join(papers[name].decode().split())
        assert "5 15/16 in below" in text, name
        assert "5 7/8 in below" not in text, name
    assert "5 15/16 in below the damp course; governs" in " ".join(
        papers["summary.txt"].decode().split()
    )
    stop = found(planned({**HOUSE, "floor_mm": 300}, units="imperial"), "LVL-001")
    assert "the top at -5 15/16 in or lower" in stop.message
    stop = found(planned(HOUSE, {"deck_top_mm": -100}, units="imperial"), "LVL-002")
    assert "a top of -5 15/16 in" in stop.message


def test_the_auditor_wants_the_pencil_mark() -> None:
    brief = drylay.read_brief({**DECK, "house": HOUSE, "units": "imperial"})
    plan = drylay.design(brief, stock=YARD)
    levels = levels_of(plan)
    assert plan.site is not None
    unmarked = evolve(levels, deck_top_mm=-150.0)
    report = drylay.audit(
        evolve(plan, site=evolve(plan.site, levels=unmarked)), brief=brief, stock=YARD,
        families=drylay.installed_families(),
    )  # fmt: skip
    assert "AUD-W54" in {finding.code for finding in report.findings}


def test_a_top_on_the_ground_is_marked_above_it_and_one_without_room_is_exact() -> None:
    # -20 + 145 + 28 = 153 mm = 96.38 sixteenths: up to 97, 153.9875 mm
    levels = levels_of(planned(None, ground(-20, -35, lowest_mm=-60), units="imperial"))
    assert levels.deck_top_mm == 153.9875
    assert levels.under_least_mm == 0.9875
    # highest 0 - 150; lowest 290 - 2 x 220 = -150: no pencil mark between them
    tight = {**HOUSE, "floor_mm": 290}
    assert levels_of(planned(tight, units="imperial")).deck_top_mm == -150.0
    half = levels_of(planned({"dpc_mm": 1.2, "floor_mm": 150, "steps_down": 2}))
    assert half.deck_top_mm == -149.0  # 1.2 - 150 = -148.8, down to -149


def test_without_limits_the_frame_lies_on_the_highest_ground() -> None:
    levels = levels_of(planned(None, ground(-20, -35, lowest_mm=-60)))
    assert levels.deck_top_mm == 153.0  # -20 + 145 + 28
    assert levels.under_least_mm == 0.0
    sunk = levels_of(
        planned(None, ground(-20, -35), groundwork={"below_lawn_mm": 15, "gravel": "GR-20"})
    )
    assert sunk.deck_top_mm == 138.0


def test_a_house_without_levels_is_asked_for_them() -> None:
    plan = planned({"wall_gap_mm": 12})
    assert codes(plan) == {"LVL-004"}
    assert "give at least four ground heights" in found(plan, "LVL-004").message
    assert plan.site is not None
    assert plan.site.wall_gap_mm == 12.0


def test_a_conflict_is_told_with_the_nearest_change() -> None:
    plan = planned({**HOUSE, "steps_down": 1})
    assert not plan.buildable
    stop = found(plan, "LVL-001")
    assert stop.severity is Severity.STOP
    assert (stop.measured, stop.limit) == (-70.0, -150.0)  # 150 - 220, 0 - 150
    assert "80 mm short" in stop.message
    assert "steps_down = 2 instead of 1" in stop.message
    assert planned({**HOUSE, "steps_down": 2}).buildable


def test_a_top_above_its_limits_stops_for_each() -> None:
    plan = planned(HOUSE, {"deck_top_mm": -100})
    stop = found(plan, "LVL-002")
    assert (stop.measured, stop.limit) == (-100.0, -150.0)
    assert "50 mm too high" in stop.message
    assert "a top of -150 mm" in stop.message
    low = found(planned(HOUSE, {"deck_top_mm": -300}), "LVL-003")
    assert (low.measured, low.limit) == (-300.0, -290.0)
    assert "steps_down = 3 instead of 2" in low.message  # 450 / 220 = 2.05


def test_a_door_of_unknown_opening_is_asked_about_and_limits() -> None:
    house = {"dpc_mm": 200, "floor_mm": 210, "door_leaf_mm": 60, "steps_down": 1}
    plan = planned(house)
    assert levels_of(plan).deck_top_mm == 45.0  # 60 - 15 is below 200 - 150
    assert "which way does it open?" in found(plan, "LVL-005").message
    assert levels_of(planned({**house, "door_opens": "inward"})).deck_top_mm == 50.0


@pytest.mark.parametrize(
    ("lowest", "outfall", "code", "severity"),
    [
        (-330, False, "LVL-011", Severity.STOP),
        (-330, None, "LVL-012", Severity.CAUTION),
        (-330, True, "", None),
        (-340, False, "", None),  # as low as the garden: not the lowest spot
    ],
)
def test_the_hollow(lowest: float, outfall: bool | None, code: str, severity: object) -> None:
    more = {"lowest_mm": lowest} | ({} if outfall is None else {"outfall": outfall})
    plan = planned(HOUSE, ground(-330, -340, **more))
    assert codes(plan) - {"LVL-009"} == ({code} if code else set())
    if code:
        told = found(plan, code)
        assert told.severity is severity
        assert (told.measured, told.limit) == (-340.0, -330.0)
        assert "10 mm below all else" in told.message


def test_ground_towards_the_house() -> None:
    plan = planned(HOUSE, ground(-340, -325, lowest_mm=-400))
    stop = found(plan, "LVL-015")
    assert (stop.severity, stop.measured, stop.limit) == (Severity.STOP, 15.0, 10.0)
    led = planned(HOUSE, ground(-340, -325, lowest_mm=-400, outfall=True))
    assert found(led, "LVL-015").severity is Severity.CAUTION
    slack = planned(HOUSE, ground(-335, -325, lowest_mm=-400))
    assert found(slack, "LVL-015").severity is Severity.CAUTION


def test_frame_and_ground() -> None:
    dig = planned(HOUSE, ground(-300, -340, lowest_mm=-400))
    assert found(dig, "LVL-008").measured == -23.0  # -323 + 300
    assert "LVL-008" not in codes(planned(HOUSE, ground(-300, -340), groundwork={"strip_mm": 50}))
    assert found(planned(HOUSE, ground(-330, -340)), "LVL-009").measured == 7.0
    legs = found(planned(HOUSE, ground(-330, -480)), "LVL-010")
    assert (legs.measured, legs.limit) == (157.0, 150.0)  # -323 + 480
    assert "a top of -157 mm (7 mm lower)" in legs.message


def test_heights_that_rules_name() -> None:
    assert codes(planned(HOUSE, ground(-380, -450, lowest_mm=-500))) == set()  # drop 300: not over
    over = planned(HOUSE, ground(-380, -451, lowest_mm=-500))
    assert found(over, "LVL-018").measured == 301.0
    assert found(over, "LVL-018").severity is Severity.CAUTION


def test_a_narrow_wall_gap_and_papers_that_tell_the_gap() -> None:
    plan = planned({**HOUSE, "wall_gap_mm": 6})
    assert (found(plan, "LVL-016").measured, found(plan, "LVL-016").limit) == (6.0, 10.0)
    papers = drylay.papers(plan)
    for name in ("summary.txt", "jobsheet.html"):
        text = " ".join(papers[name].decode().split())
        assert "the datum edge, stands 6 mm from the house wall" in text
    assert "stands 6 mm" in papers["setting-out.svg"].decode()
    assert "the gap to the wall" not in " ".join(plan.not_checked)


def test_what_is_checked_is_not_told_as_unchecked() -> None:
    bare, told = planned(), planned(HOUSE, ground(-330, -340, lowest_mm=-400))
    assert "ground, drainage, levels beside the house, buried services" in bare.not_checked
    assert "the house: air bricks" in told.not_checked
    assert not any("levels beside the house" in line for line in told.not_checked)


def spread(*places: tuple[float, float, float]) -> dict[str, Any]:
    return {"points": [{"along_mm": x, "across_mm": y, "level_mm": z} for x, y, z in places]}


def test_ground_measured_near_no_corner_stops() -> None:
    # the nearest to a corner: (300, 400) from the house left, 500 mm off
    plan = planned(HOUSE, spread((300, 400, -330), (1900, 400, -330), (1200, 1800, -340)))
    assert not plan.buildable
    stop = found(plan, "LVL-007")
    assert stop.severity is Severity.STOP
    assert (stop.measured, stop.limit) == (500.0, 300.0)
    assert "500 mm from the corner house left" in stop.message
    near = planned(HOUSE, spread((100, 100, -330), (1900, 400, -330), (1200, 1800, -340)))
    assert near.buildable
    assert found(near, "LVL-007").severity is Severity.CAUTION


def test_an_air_brick_off_the_deck_is_named_and_not_reckoned() -> None:
    bricks = [{"along_mm": -150, "under_mm": -160}, {"along_mm": 2550.5, "under_mm": -500},
              {"along_mm": -1000, "under_mm": -500}]  # fmt: skip
    plan = planned({**HOUSE, "air_bricks": bricks}, ground(-330, -340, lowest_mm=-400))
    levels = levels_of(plan)
    assert levels.deck_top_mm == -160.0  # the first, 150 left of the corner
    notes = [f for f in plan.findings if f.code == "LVL-024"]
    assert [note.subject for note in notes] == ["air brick 2", "air brick 3"]
    assert all("not beside the deck, not reckoned" in note.message for note in notes)
    assert {note.severity for note in notes} == {Severity.NOTE}


def test_s05_must_be_stopped_with_its_reasons() -> None:
    """Figures of the shared check brief S05: damp course 0, top 40, ground -710, floor 55.

    The brief says that it falls towards the house; here the ground lies 40 higher at the front.
    """
    house = {"dpc_mm": 0, "floor_mm": 55, "air_bricks": [{"along_mm": 1200, "under_mm": -140}]}
    plan = planned(house, ground(-710, -670, deck_top_mm=40))
    assert not plan.buildable
    assert plan.buying is None
    stops = {f.code: f for f in plan.findings if f.severity is Severity.STOP}
    (damp,) = (f for f in plan.findings if f.code == "LVL-002" and f.limit == -150.0)
    assert damp.measured == 40.0
    assert "lies 40 mm above the damp course" in damp.message  # deck_above_dpc_by = 40
    assert stops["LVL-019"].measured == 750.0  # deck_height_above_ground = 750: guard missing
    assert stops["LVL-015"].measured == 40.0  # towards the house
    assert any(f.code == "LVL-002" and f.limit == -140.0 for f in plan.findings)  # air brick
    assert "permission" in found(plan, "LVL-018").message  # raised platform over 300
    assert "LVL-010" in stops


LEVEL = st.integers(-40, 40).map(lambda n: n * 12.5)


@settings(max_examples=40, deadline=None)
@given(dpc=LEVEL, above=st.integers(0, 60), steps=st.integers(1, 4), leaf=st.none() | LEVEL)
def test_a_conflict_is_always_told_and_never_planned(
    dpc: float, above: int, steps: int, leaf: float | None
) -> None:
    floor = dpc + above * 12.5
    house = {"dpc_mm": dpc, "floor_mm": floor, "steps_down": steps}
    house |= {"door_leaf_mm": leaf} if leaf is not None and leaf >= floor - 300 else {}
    plan = planned(house)
    most = min([dpc - 150, *([house["door_leaf_mm"] - 15] if "door_leaf_mm" in house else [])])
    conflict = floor - 220 * steps > most
    assert ("LVL-001" in codes(plan)) is conflict
    assert plan.buildable is not conflict
    if not conflict:
        assert levels_of(plan).deck_top_mm == most
