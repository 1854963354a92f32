"""Odd but legal wishes and records: a plan that passes its audit, or findings; never a fault."""

import json
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.findings import Severity
from drylay.materials.stock_model import ArticleRule, Catalogue
from drylay.reasons import Source

ROOT = Path(__file__).parents[2]
GARDEN = drylay.read_brief(ROOT / "docs/examples/garden.toml")
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
FAMILIES = drylay.installed_families()


def sound(brief: drylay.Brief, stock: Catalogue = YARD) -> drylay.Plan:
    """Design, and audit with every witness: nothing stops that the plan does not tell."""
    plan = drylay.design(brief, stock=stock)
    report = drylay.audit(plan, brief=brief, stock=stock, families=FAMILIES)
    stops = [f for f in report.findings if f.severity is Severity.STOP]
    assert not stops or not plan.buildable, stops
    return plan


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("joints.end_gap_mm", 4.003125),  # 1281/320: half of what the joist leaves is no tick
        ("board.measured_width_mm", 139.303125),  # half of it, the sliver limit, is no tick
        ("cutting.kerf_mm", 3.003125),
        ("cover.along_mm", 6000.003125),
    ],
)
def test_odd_counts_of_ticks_make_a_plan_like_any_other(path: str, value: float) -> None:
    assert sound(GARDEN.replace(path, value)).buildable


def test_half_a_tick_is_never_rounded_the_builders_way() -> None:
    """45 mm less 4.003125: half is 20.4984375, told as 20.496875, the tick below. By hand."""
    plan = sound(GARDEN.replace("joints.end_gap_mm", 4.003125))
    assert plan.pieces is not None
    assert plan.pieces.end_bearing_mm == 20.496875


@pytest.mark.parametrize("gaps", [{"least_mm": 6, "most_mm": 8}, {"most_mm": 4.5}])
def test_a_preferred_gap_left_out_is_moved_and_passes_the_witnessed_audit(
    gaps: dict[str, float],
) -> None:
    brief = drylay.read_brief({**GARDEN.to_dict(), "gap": gaps})
    plan = sound(brief)
    assert "GAP-002" in {finding.code for finding in plan.findings}


@pytest.mark.parametrize("along_mm", [100.5, 118, 118.5, 140, 162.5, 163])
def test_a_deck_with_hardly_room_for_two_joists(along_mm: float) -> None:
    """One fascia of 28 on the left: below 28 + 3 x 45 = 163 there is no room. By hand."""
    cover = {"along_mm": along_mm, "across_mm": 2995}
    wish = {**GARDEN.to_dict(), "cover": cover, "lights": {}}
    brief = drylay.read_brief({**wish, "fascia": {"sides": ["left"], "article": "FA-28-145"}})
    plan = sound(brief)
    assert plan.buildable == (along_mm >= 163)
    assert plan.buildable or [f.code for f in plan.findings if f.code == "FRM-003"]


def test_heads_that_are_not_sunk_under_a_fascia_are_a_stop() -> None:
    source = Source(kind="merchant record", title="a sheet")
    rule = ArticleRule(rule="coach_screw_sink_mm", value=0.0, source=source)
    boards = tuple(evolve(board, rules=(*board.rules, rule)) for board in YARD.boards)
    plan = sound(GARDEN, evolve(YARD, boards=boards))
    assert "FIX-003" in {f.code for f in plan.findings if f.severity is Severity.STOP}


def edited(plan: drylay.Plan, part: str, name: str, value: object) -> drylay.Plan:
    content = json.loads(drylay.plan_to_json(plan))
    content[part][name] = value
    return drylay.plan_from_json(json.dumps(content))


@pytest.mark.parametrize(
    ("part", "name"), [("frame", "joists"), ("pieces", "pieces"), ("frame", "rims")]
)
def test_papers_of_a_plan_that_contradicts_itself_are_refused_in_words(
    part: str, name: str
) -> None:
    plan = edited(drylay.design(GARDEN, stock=YARD), part, name, [])
    assert not drylay.audit(plan).sound
    with pytest.raises(drylay.PapersError, match="contradicts itself"):
        drylay.papers(plan)


def test_a_plan_whose_stop_was_taken_out_is_incomplete_not_sound() -> None:
    blocked = drylay.design(GARDEN.replace("rows.prefer", ["as_wished"]), stock=YARD)
    plan = evolve(blocked, findings=())
    summary = drylay.papers(plan)["summary.txt"].decode()
    assert "INCOMPLETE" in summary
    assert "Nothing stops" not in summary


def test_a_way_out_or_a_caution_taken_out_of_a_plan_is_seen() -> None:
    plan = drylay.design(GARDEN, stock=YARD)
    assert plan.surface is not None
    ways = tuple(way for way in plan.surface.ways_out if way.kind != "shrink")
    fewer = evolve(plan, surface=evolve(plan.surface, ways_out=ways))
    assert "AUD-131" in {f.code for f in drylay.audit(fewer).findings}
    quiet = evolve(plan, cautions=plan.cautions[1:])
    seen = drylay.audit(quiet, brief=GARDEN, stock=YARD, families=FAMILIES)
    assert {"AUD-W16"} <= {f.code for f in seen.findings}
    assert "AUD-010" in {f.code for f in drylay.audit(evolve(plan, not_checked=())).findings}


def test_a_count_beyond_all_measure_is_no_plan_file() -> None:
    text = drylay.plan_to_json(drylay.design(GARDEN, stock=YARD))
    content = json.loads(text)
    content["fixings"]["deck_screws"]["count"] = 10**400
    with pytest.raises(drylay.PlanFileError):
        drylay.plan_from_json(json.dumps(content))


def test_a_joint_price_keeps_its_digits_however_it_is_written() -> None:
    plan = drylay.design(GARDEN.replace("joints.price_each", "1.5"), stock=YARD)
    assert plan.why("pieces.joint_price").value == "1.50"


def test_a_finding_beyond_all_measure_can_still_be_told() -> None:
    (first, *_) = drylay.design(GARDEN, stock=YARD).findings
    assert "a number beyond all measure" in str(evolve(first, measured=10**400, unit="count"))
