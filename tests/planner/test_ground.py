"""The ground in a plan: what a brief asks for, what it costs, and what stops it."""

from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import Brief
from drylay.findings import Severity
from drylay.groundwork.model import Groundwork
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner import siting
from drylay.site.model import Levels, Site

ROOT = Path(__file__).parents[2]
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
GARDEN = drylay.read_brief(ROOT / "docs/examples/garden.toml")
#: A small deck for speed: 3 x 2.395 m, 16 rows at 5 mm.
SMALL = evolve(
    GARDEN,
    cover=evolve(GARDEN.cover, along_mm=3000.0, across_mm=2395.0),
    groundwork=type(GARDEN.groundwork)(),
    house=type(GARDEN.house)(),
    levels=type(GARDEN.levels)(),
    lights=type(GARDEN.lights)(),
)
WHOLE = {"fabric": "GF-2", "gravel": "GR-20", "packer": "PD-28-60"}


def planned(ground: dict[str, Any], stock: Catalogue = YARD, **more: Any) -> Plan:
    brief: Brief = SMALL.replace("groundwork", ground) if ground else SMALL
    for path, value in more.items():
        brief = brief.replace(path.replace("__", "."), value)
    return drylay.design(brief, stock=stock)


def ground_of(plan: Plan) -> Groundwork:
    assert plan.groundwork is not None
    return plan.groundwork


def stops(plan: Plan) -> dict[str, str]:
    return {f.code: f.message for f in plan.findings if f.severity is Severity.STOP}


def codes(plan: Plan) -> set[str]:
    return {finding.code for finding in plan.findings}


def test_a_brief_that_asks_for_nothing_gets_no_groundwork() -> None:
    plan = planned({})
    assert plan.groundwork is None
    assert not any(code.startswith("GND") for code in codes(plan))


def test_a_whole_groundwork_is_bought() -> None:
    """Dig 3.2 x 2.595 x 0.05; strips (2595 - 100) / 1900 = 1.3: 2 of 3200, cut from one of 10 m;
    gravel 3.2 x 2.595 x 0.04 x 1650 = 548.06 kg; 9 joists (2944 - 45) / 400 = 7.2."""
    plan = planned(WHOLE)
    assert plan.buildable
    ground = ground_of(plan)
    assert ground.dig is not None
    assert (ground.dig.solid_m3, ground.dig.loose_m3) == (0.416, 0.519)  # 0.4152, 0.519
    assert ground.fabric is not None
    assert (ground.fabric.run, len(ground.fabric.strips)) == ("along", 2)
    assert ground.fabric.other_strips == 2  # (3200 - 100) / 1900 = 1.6, of 2595
    assert ground.gravel is not None
    assert ground.gravel.mass_kg == 548.1
    assert ground.packing is not None
    assert ground.packing.count == 9 * ground.packing.per_joist
    assert plan.buying is not None
    (rolls,) = (part for part in plan.buying.purchases if part.what == "fabric")
    assert [roll.length_mm for roll in rolls.lengths] == [10_000.0]
    needs = {pack.what: (pack.need, pack.unit, pack.spare) for pack in plan.buying.packs}
    assert needs["gravel"] == (549, "kg", 0)


def test_packers_alone_ask_for_no_dig() -> None:
    ground = ground_of(planned({"packer": "PD-28-60"}))
    assert ground.dig is None
    assert ground.packing is not None


@pytest.mark.parametrize(
    ("ground", "code", "told"),
    [
        ({"fabric": "GS-4"}, "GND-001", "holds water"),
        ({"fabric": "GF-2", "lap_mm": 1000, "margin_mm": 2000}, "", ""),
        ({"gravel": "GR-20", "strip_mm": 25}, "GND-004", "strip_mm = 30"),
        ({"gravel": "GR-20", "below_lawn_mm": 60}, "GND-004", "strip_mm = 80"),
    ],
)
def test_what_stops_the_ground(ground: dict[str, Any], code: str, told: str) -> None:
    found = stops(planned(ground))
    assert (code in found) == bool(code)
    assert told in found.get(code, "")


def narrow(width_mm: float, longest_mm: float) -> Catalogue:
    rolls = tuple(
        evolve(
            roll,
            width_mm=width_mm if roll.code == "GF-2" else roll.width_mm,
            lengths=tuple(e for e in roll.lengths if e.length_mm <= longest_mm)
            or (evolve(roll.lengths[0], length_mm=longest_mm),),
        )
        for roll in YARD.fabrics
    )
    return evolve(YARD, fabrics=rolls)


@pytest.mark.parametrize(("lap_mm", "stopped"), [(450, False), (450.5, True), (900, True)])
def test_a_lap_over_half_the_roll_is_no_lap(lap_mm: float, stopped: bool) -> None:
    plan = planned({"fabric": "GF-2", "lap_mm": lap_mm}, narrow(900.0, 50_000.0))
    found = [(f.measured, f.limit) for f in plan.findings if f.code == "GND-003"]
    assert found == ([(lap_mm, 450.0)] if stopped else [])


def test_rolls_too_short_one_way_are_laid_the_other() -> None:
    """Rolls of 3 m give no strip of 3200, but strips of 2595: (3200 - 100) / 1900, so 2."""
    fabric = ground_of(planned({"fabric": "GF-2"}, narrow(2000.0, 3000.0))).fabric
    assert fabric is not None
    assert (fabric.run, len(fabric.strips), fabric.strips[0].length_mm) == ("across", 2, 2595.0)
    assert "cannot be cut" in fabric.other_note


def test_rolls_too_short_either_way_stop_with_the_longest() -> None:
    plan = planned({"fabric": "GF-2"}, narrow(2000.0, 2500.0))
    (stop,) = (f for f in plan.findings if f.code == "GND-002")
    assert (stop.measured, stop.limit) == (2595.0, 2500.0)


def test_a_house_ends_the_dig_at_its_wall() -> None:
    open_, walled = planned(WHOLE), planned(WHOLE, house__dpc_mm=150)
    free, at_wall = ground_of(open_).dig, ground_of(walled).dig
    assert free is not None
    assert at_wall is not None
    gap = walled.site.wall_gap_mm if walled.site else 0.0
    assert free.house_margin_mm == 100.0
    assert at_wall.house_margin_mm == min(100.0, gap)
    assert at_wall.across_mm == free.across_mm - 100.0 + gap


@pytest.fixture
def levelled(monkeypatch: pytest.MonkeyPatch) -> Any:
    """Return a way to give the site levels, without the rest of a survey."""

    def give(underside: float, low: float, high: float) -> None:
        known = Levels(
            datum="a peg", limits=(), highest_mm=None, lowest_mm=None, highest_by="",
            lowest_by="", deck_top_mm=underside + 173.0, underside_mm=underside,
            ground_most_mm=high, ground_least_mm=low, marks=(), steps_down=None, rise_mm=None,
        edge_least_mm=low, drop_mm=None, under_most_mm=None, under_least_mm=None,
        fall_to_house_mm=None, garden_lowest_mm=None,
        )  # fmt: skip
        site = Site(exposure="inland", wall_gap_mm=10.0, levels=known)
        monkeypatch.setattr(siting, "site_of", lambda *_: site)
        monkeypatch.setattr(siting, "rows", lambda *_: [])
        monkeypatch.setattr(siting, "remarks", lambda *_: [])
        monkeypatch.setattr("drylay.planner.design.audit_plan", lambda _: _sound())

    return give


def _sound() -> Any:
    return type("Report", (), {"findings": ()})()


@pytest.mark.parametrize(
    ("underside", "low", "high", "code", "figures"),
    [
        # gravel lies 10 under the lawn, so the room is underside - ground + 10
        (20.0, -20.0, 0.0, "", None),  # 30 to 50: the pedestals reach from 28 to 60
        (20.0, -31.0, 0.0, "GND-005", (61.0, 60.0)),
        (17.0, -10.0, 0.0, "GND-005", (27.0, 28.0)),
        (-11.0, -10.0, 0.0, "GND-007", (-1.0, 0.0)),
        (130.0, -11.0, 0.0, "GND-006", (151.0, 150.0)),
    ],
)
def test_packers_between_bed_and_frame(  # noqa: PLR0917 - a row of the table
    levelled: Any, underside: float, low: float, high: float, code: str, figures: Any
) -> None:
    levelled(underside, low, high)
    plan = planned(WHOLE, fascia={})
    assert set(stops(plan)) == ({code} if code else set())
    if code:
        (stop,) = (f for f in plan.findings if f.code == code)
        assert (stop.measured, stop.limit) == figures
    else:
        packing = ground_of(plan).packing
        assert packing is not None
        assert (packing.height_least_mm, packing.height_most_mm) == (30.0, 50.0)
        assert "GND-010" not in codes(plan)


def test_a_frame_on_nothing_is_told(levelled: Any) -> None:
    """Gravel 10 under the lawn: 5 + 10 = 15 over its bed can be made up, 20 + 20 + 10 = 50 not."""
    levelled(5.0, 0.0, 0.0)
    assert "GND-011" in codes(planned({"gravel": "GR-20"}))
    levelled(20.0, -20.0, 0.0)
    assert stops(planned({"gravel": "GR-20"}))["GND-014"].startswith("it lies on nothing")


def test_a_frame_in_the_ground_is_told_though_no_dig_is_asked_for(levelled: Any) -> None:
    levelled(-20.0, -20.0, 0.0)
    plan = planned({}, fascia={})
    assert plan.buildable
    assert "GND-012" in codes(plan)


@pytest.mark.parametrize(
    ("underside", "ground", "depth_mm", "code", "limit"),
    [
        # the frame 20 over the lawn, no dig: 145 + 20 = 165, and 10 clear of it 155
        (20.0, {}, 155.0, None, 0.0),
        (20.0, {}, 155.5, "FAS-001", 165.0),
        (20.0, {}, 165.0, "FAS-001", 165.0),
        (20.0, {}, 165.5, "FAS-002", 165.0),
        # 20 below the lawn in a dig of 40, no gravel: 145 - 20 + 40 = 165
        (-20.0, {"strip_mm": 40}, 165.0, "FAS-001", 165.0),
        (-20.0, {"strip_mm": 40}, 165.5, "FAS-002", 165.0),
        # on pedestals over gravel 10 under the lawn: 145 + 20 + 10 = 175
        (20.0, {"packer": "PD-28-60", "gravel": "GR-20"}, 165.0, None, 0.0),
        (20.0, {"packer": "PD-28-60", "gravel": "GR-20"}, 175.5, "FAS-002", 175.0),
    ],
)
def test_a_fascia_stays_clear_of_the_ground(  # noqa: PLR0917 - a table
    levelled: Any, underside: float, ground: dict[str, Any], depth_mm: float, code: str | None,
    limit: float,
) -> None:  # fmt: skip
    levelled(underside, 0.0, 0.0)
    plan = planned(ground, deep(depth_mm))
    found = [f for f in plan.findings if f.code.startswith("FAS-00") and f.code != "FAS-003"]
    told = [(f.code, f.measured, f.limit) for f in found]
    assert told == ([(code, depth_mm, limit)] if code else [])
    assert plan.buildable == (code != "FAS-002")


def test_packers_tell_the_room_where_levels_do_not() -> None:
    """The pedestals are 28 at least: 145 + 28 = 173, and 10 clear of that 163."""
    packed = {"packer": "PD-28-60"}
    assert not {"FAS-001", "FAS-002"} & codes(planned(packed, deep(163.0)))
    assert "FAS-001" in codes(planned(packed, deep(163.5)))
    assert "FAS-002" in stops(planned(packed, deep(173.5)))
    assert "FAS-001" not in codes(planned({}, deep(135.0)))
    assert "FAS-001" in codes(planned({}, deep(135.5)))


def deep(depth_mm: float) -> Catalogue:
    """Return the yard with every fascia board so deep."""
    return evolve(YARD, fascias=tuple(evolve(each, depth_mm=depth_mm) for each in YARD.fascias))


def test_levels_unknown_are_told() -> None:
    plan = planned(WHOLE)
    assert {"GND-008", "GND-009", "GND-010", "GND-013"} <= codes(plan)


def test_every_decision_on_the_ground_answers() -> None:
    plan = planned(WHOLE)
    assert plan.why("groundwork.fabric.strips[0].length_mm").path == "groundwork.fabric.run"
    assert plan.why("groundwork.dig.solid_m3").path == "groundwork.dig.depth_mm"
    assert plan.why("buying.delivery.parts[0].mass_kg").path == "buying.delivery.total_kg"
    assert plan.why("buying.delivery.density_kg_m3").source.kind == "from memory"


def test_the_ground_is_sound_before_witnesses() -> None:
    brief = SMALL.replace("groundwork", WHOLE)
    plan = drylay.design(brief, stock=YARD)
    report = drylay.audit(plan, brief=brief, stock=YARD, families=drylay.installed_families())
    assert report.findings == ()
    assert {"AUD-841", "AUD-861", "AUD-W41", "AUD-W44"} <= set(report.checks)
