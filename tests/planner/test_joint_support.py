"""Pairs, battens, clips and the weather as a planner settles them: what is said, what stops."""

from typing import Any

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import Brief
from drylay.errors import BriefError
from drylay.findings import Severity
from drylay.materials.stock_model import Catalogue, Clip, Pack
from drylay.plan.model import Plan
from drylay.planner.asking import asking
from drylay.planner.job import find_articles
from drylay_composite.family import composite
from stand_ins import families

YARD = drylay.load_catalogue("catalogs/sallowby.toml")
REAL = drylay.installed_families(entry_points=(), extra=(composite(),))
PLAIN: dict[str, Any] = {
    "title": "Terrace",
    "cover": {"along_mm": 5400, "across_mm": 1445},
    "board": {"article": "CS-23-140"},
    "frame": {"article": "UT-45-145", "most_centres_mm": 350},
    "fixings": {
        "screw": "DX-50-60-A2", "coach_screw": "CX-8-120-A2", "frame_screw": "FX-60-100-A2",
        "clip": "CL-ROW-5", "starter_clip": "CL-START", "end_cap": "CL-CAP-23",
    },
    "climate": {"laying_c": 12, "hottest_board_c": 50, "coldest_board_c": -10},
}  # fmt: skip


def brief(**changed: dict[str, Any]) -> Brief:
    """Return the plain brief, keys of its sections changed; None leaves a key out."""
    sections = {
        name: {**PLAIN.get(name, {}), **changed.get(name, {})}
        for name in {*PLAIN, *changed} - {"title"}
    }
    return drylay.read_brief({"title": "Terrace", **sections})


def planned(wish: Brief, stock: Catalogue = YARD, **answers: Any) -> Plan:
    return drylay.design(wish, stock=stock, families=families("composite", **answers))


def codes(plan: Plan) -> set[str]:
    return {finding.code for finding in plan.findings}


def stops(plan: Plan) -> set[str]:
    return {f.code for f in plan.findings if f.severity is Severity.STOP}


# ----- what joints lie over --------------------------------------------------------------


def test_a_family_that_wants_pairs_gets_them_and_a_weaker_wish_is_told() -> None:
    asked = planned(brief())
    assert asked.supports.joists_under_joint == 2
    assert "MAT-002" not in codes(asked)
    weaker = planned(brief(joints={"support": "single"}))
    assert (weaker.supports.joists_under_joint, weaker.supports.seams) == (1, ())
    (told,) = (f for f in weaker.findings if f.code == "MAT-002")
    assert (told.subject, told.measured, told.limit) == ("supports.joists_under_joint", 1.0, 2.0)


def test_a_stronger_wish_than_the_familys_is_nobodys_business() -> None:
    plan = planned(brief(joints={"support": "pair"}), joists_under_joint=1, battens_per_joint=1)
    assert plan.supports.joists_under_joint == 2
    assert (plan.supports.battens_per_joint, plan.frame.batten_count) == (0, None)
    assert "MAT-002" not in codes(plan)
    assert plan.why("supports.battens_per_joint").rule == "a pair of joists needs no batten"


def test_battens_lie_under_every_joint_and_are_bought_and_screwed() -> None:
    plan = planned(brief(), joists_under_joint=1, battens_per_joint=1)
    battens = {batten.mark for batten in plan.frame.battens}
    assert battens
    assert {joint.beside for joint in plan.pieces.joints} == battens
    sawn = {mark for length in plan.buying.purchases[1].lengths for mark in length.pieces}
    assert battens <= sawn
    screws = plan.fixings.frame_screws
    assert (screws.per_batten_joint, screws.batten_joints) == (3, plan.pieces.joint_count)
    assert screws.count == 2 * screws.noggin_ends + 4 * screws.splice_sides + 3 * len(
        plan.pieces.joints
    )
    assert plan.pieces.end_bearing_mm == 45 - plan.pieces.end_gap_mm / 2


def test_joists_of_pairs_do_not_hang() -> None:
    """Of n joists the outer two and four in pairs stay on coach screws."""
    plan = planned(brief(fixings={"hanger": "HH-45-108-A2"}, joints={"lines_mm": [1800, 3600]}))
    joists = len(plan.frame.joists)
    assert plan.fixings.hangers.count == 2 * (joists - 6)
    assert plan.fixings.coach_screws.joist_ends == 12


def test_a_fascia_thicker_than_the_overhang_allowed_is_told() -> None:
    faced = brief(fascia={"sides": ["right"], "article": "UF-28-145"})
    plan = planned(faced)
    (told,) = (f for f in plan.findings if f.code == "SUP-001")
    assert (told.measured, told.limit, told.severity) == (28.0, 25.0, Severity.CAUTION)
    assert "SUP-001" not in codes(planned(faced, overhang_most_mm=28))
    assert "SUP-001" not in codes(planned(brief()))


def test_boards_that_no_screw_goes_through_are_held_by_clips_or_stop_the_plan() -> None:
    assert planned(brief(), screws_per_crossing=0).buildable
    bare = brief(fixings={"clip": None, "starter_clip": None})
    gaps = {"gap_least_mm": 3, "gap_preferred_mm": 5, "gap_most_mm": 8}
    plan = planned(bare, screws_per_crossing=0, hidden_clips=0, **gaps)
    assert stops(plan) == {"FIX-023"}


# ----- joint lines -----------------------------------------------------------------------


def test_lines_too_near_for_the_supports_of_a_piece_stop_the_plan() -> None:
    """350 between two lines: two joists, one bay; three supports want two."""
    plan = planned(brief(joints={"lines_mm": [1800, 2150, 3600]}))
    assert stops(plan) == {"SUP-003"}


def test_lines_without_room_for_two_joists_stop_the_plan() -> None:
    assert stops(planned(brief(joints={"lines_mm": [1800, 1850, 3600]}))) == {"SUP-005"}


def test_lines_where_nobody_wants_pairs_stop_the_plan() -> None:
    plan = planned(brief(joints={"lines_mm": [1800, 3600]}), joists_under_joint=1)
    assert stops(plan) == {"SUP-004"}


def test_no_lines_at_all_ask_for_whole_boards() -> None:
    short = {"along_mm": 4500}
    plan = planned(brief(cover=short, joints={"lines_mm": []}))
    assert (plan.supports.seams, plan.pieces.joints) == ((), ())
    assert stops(planned(brief(joints={"lines_mm": []}))) == {"BUY-001"}


def test_the_lines_of_a_wished_run_are_not_those_of_boards_turned() -> None:
    """Turned, the boards fill the cover's other size; drylay chooses lines for them itself."""
    wish = brief(
        cover={"along_mm": 3040, "across_mm": 5400},
        board={"run": "across", "may_turn": True},
        joints={"lines_mm": [1800, 3600]},
    )
    plan = planned(wish)
    assert plan.surface.run == "across"
    assert [seam.offset_mm for seam in plan.supports.seams] == [1800.0, 3600.0]
    assert planned(wish.replace("rows.prefer", ["turn"])).surface.run == "along"


def test_a_cheapest_count_of_joists_is_not_looked_for_over_pairs() -> None:
    plan = planned(brief(frame={"lines": "cheapest"}))
    assert plan.why("supports.line_count").turned_down == ()
    assert drylay.audit(plan).findings == ()


def test_no_end_gap_is_asked_for_where_no_row_has_a_joint() -> None:
    """Composite asks for laying day: 2400 is one board, and the brief says so."""
    short = {"cover": {"along_mm": 2400}, "climate": {"laying_c": None, "hottest_board_c": None,
                                                     "coldest_board_c": None}}  # fmt: skip
    plan = drylay.design(brief(**short), stock=YARD, families=REAL)
    (stop,) = [f for f in plan.findings if f.code == "MAT-001"]
    assert "joints.most_per_row = 0" in stop.message
    wish = brief(**short, joints={"most_per_row": 0})
    plan = drylay.design(wish, stock=YARD, families=REAL)
    assert plan.buildable
    assert plan.why("pieces.end_gap_mm").source.clause == "joints.most_per_row"
    assert drylay.audit(plan, brief=wish, stock=YARD, families=REAL).findings == ()
    long = drylay.design(brief(climate=short["climate"]), stock=YARD, families=REAL)
    (stop,) = [f for f in long.findings if f.code == "MAT-001"]
    assert "most_per_row" not in stop.message


def test_one_stop_does_not_hide_that_the_rows_cannot_be_filled() -> None:
    untold = {"laying_c": None, "hottest_board_c": None, "coldest_board_c": None}
    hollow = brief(climate=untold, board={"article": "CH-23-140"}, cover={"across_mm": 1530},
                   rows={"prefer": ["rip_last"]})  # fmt: skip
    plan = drylay.design(hollow, stock=YARD, families=REAL)
    assert stops(plan) == {"MAT-001", "ROW-001"}
    assert "CLP-006" in codes(plan)
    filled = brief(climate=untold, board={"article": "CH-23-140"})
    assert stops(drylay.design(filled, stock=YARD, families=REAL)) == {"MAT-001"}


# ----- clips -----------------------------------------------------------------------------


def test_boards_that_want_clips_stop_without_one() -> None:
    unclipped = {"clip": None, "starter_clip": None, "end_cap": None}
    gaps = {"gap_preferred_mm": 5.0, "gap_least_mm": 5.0, "gap_most_mm": 5.0}
    plan = planned(brief(fixings=unclipped), **gaps)
    assert stops(plan) == {"CLP-001"}


def test_boards_that_want_screws_stop_with_a_clip() -> None:
    assert "CLP-002" in stops(planned(brief(), hidden_clips=0))


def test_a_gap_that_the_clip_does_not_leave_stops_the_plan() -> None:
    across = 10 * 140 + 9 * 4
    narrow = {"gap_preferred_mm": 4.0, "gap_least_mm": 4.0, "gap_most_mm": 6.0}
    assert stops(planned(brief(cover={"across_mm": across}), **narrow)) == {"CLP-003"}


def test_a_gap_wished_that_the_clip_does_not_leave_names_the_clip() -> None:
    for gap in ({"preferred_mm": 8}, {"least_mm": 6}):
        plan = drylay.design(brief(gap=gap), stock=YARD, families=REAL)
        (stop,) = [f for f in plan.findings if f.code == "GAP-001"]
        assert "the clip CL-ROW-5 leaves a gap of 5 mm and no other" in stop.message
        assert "override" not in stop.message


def test_starters_and_caps_wanted_and_not_named_are_told() -> None:
    unnamed = {"starter_clip": None, "end_cap": None}
    bare = brief(fixings=unnamed, board={"article": "CH-23-140"})
    plan = planned(bare)
    assert {"CLP-004", "CLP-005", "CLP-006"} <= codes(plan)
    assert plan.fixings.end_caps is None
    assert drylay.audit(plan).findings == ()


def test_caps_named_for_solid_boards_are_left_out_and_told() -> None:
    plan = planned(brief(), end_caps=0)
    assert "CLP-007" in codes(plan)
    assert plan.fixings.end_caps is None
    assert "CL-CAP-23" not in {line.article for line in plan.buying.order}


def test_hollow_boards_are_never_ripped_whoever_allows_it() -> None:
    ripping = brief(board={"article": "CH-23-140"}, cover={"across_mm": 1530},
                    rows={"prefer": ["rip_last"]})  # fmt: skip
    assert "ROW-001" in stops(planned(ripping, may_rip=1))
    solid = brief(cover={"across_mm": 1530}, rows={"prefer": ["rip_last"]})
    assert planned(solid, may_rip=1).buildable


def test_ripped_rows_in_clips_are_screwed_beside_their_ripped_edge() -> None:
    """Ripped both: two lines of clips hold one board only, one screw a joist at each."""
    wish = brief(cover={"across_mm": 1530}, rows={"prefer": ["rip_both"]}, joints={"lines_mm": []},
                 board={"article": "CS-23-140"}).replace("cover.along_mm", 2400)  # fmt: skip
    plan = planned(wish, may_rip=1)
    (caution,) = [f for f in plan.findings if f.code == "CLP-008"]
    assert (caution.severity, caution.measured, caution.limit) == (Severity.CAUTION, 2.0, 0.0)
    joists = len(plan.frame.joists)
    assert plan.fixings.clips.edge_screws == 2 * joists
    (box,) = [pack for pack in plan.buying.packs if pack.article == "DX-50-60-A2"]
    fixed = plan.fixings.clips.fixed_screws or 0
    assert (
        box.need == joists + 2 * joists + fixed
    )  # the last row's, beside both ripped edges, fixed
    assert drylay.audit(plan).findings == ()
    papers = {name: paper.decode() for name, paper in drylay.papers(plan).items()}
    assert "ripped edge sealed" not in "".join(papers.values())
    assert f"{2 * joists} deck screws more" in " ".join(papers["summary.txt"].split())
    ripped = tuple(evolve(row, ripped=False) for row in plan.surface.rows)
    for code, fault in (
        ("AUD-613", evolve(plan, fixings=evolve(plan.fixings, clips=evolve(
            plan.fixings.clips, edge_screws=joists)))),
        ("AUD-617", evolve(plan, findings=tuple(f for f in plan.findings if f is not caution))),
        ("AUD-613", evolve(plan, surface=evolve(plan.surface, rows=ripped))),
        ("AUD-741", evolve(plan, buying=evolve(plan.buying, packs=tuple(
            evolve(p, need=joists) if p is box else p for p in plan.buying.packs)))),
    ):  # fmt: skip
        assert code in {f.code for f in drylay.audit(fault).findings}
    last = planned(wish.replace("rows.prefer", ["rip_last"]), may_rip=1)
    assert [f.measured for f in last.findings if f.code == "CLP-008"] == [1.0]
    held = planned(wish, may_rip=1, end_row_screws_per_joist=0)
    (caution,) = [f for f in held.findings if f.code == "CLP-008"]
    assert "no screws for those edges are in the order" in caution.message
    assert drylay.audit(held).findings == ()


def test_where_the_last_row_has_a_starter_too_screws_are_bought_for_fixed_points_alone() -> None:
    plan = planned(brief(), end_row_screws_per_joist=0)
    assert plan.fixings.deck_screws.count == 0
    needs = {pack.article: pack.need for pack in plan.buying.packs}
    assert needs["DX-50-60-A2"] == plan.fixings.clips.fixed_screws == len(plan.pieces.pieces)
    assert plan.fixings.clips.slot_mm is None
    assert drylay.audit(plan).findings == ()
    assert drylay.papers(plan)["summary.txt"]


def test_a_clip_of_another_kind_is_a_fault_of_the_brief() -> None:
    wrong = brief(fixings={"clip": "CL-START", "starter_clip": "CL-ROW-5", "end_cap": "CL-ROW-5"})
    with pytest.raises(BriefError) as caught:
        planned(wrong)
    assert [fault.path for fault in caught.value.faults] == [
        "fixings.clip", "fixings.starter_clip", "fixings.end_cap",
    ]  # fmt: skip


def test_a_clip_whose_gap_nobody_tells_is_a_fault() -> None:
    silent = Clip(code="CL-X", title="clip", role="row", metal="stainless A2",
                  packs=(Pack(count=10, price=YARD.clips[0].packs[0].price),))  # fmt: skip
    stock = evolve(YARD, clips=(*YARD.clips, silent))
    with pytest.raises(BriefError) as caught:
        planned(brief(fixings={"clip": "CL-X"}), stock)
    assert [fault.path for fault in caught.value.faults] == ["fixings.clip"]


# ----- the weather -----------------------------------------------------------------------


def asked_with(wish: Brief, **answers: Any) -> Any:
    family = families("composite", **answers)
    return asking(wish, find_articles(wish, YARD), family).query


def test_a_family_is_asked_with_the_weather_the_record_and_its_own_answers() -> None:
    """The merchant's record tells growth, 35e-6; of the hottest the brief."""
    query = asked_with(brief(), movement_per_pct=0.0001)
    assert (query.laying_c, query.hottest_c, query.coldest_c) == (12.0, 50.0, -10.0)
    assert (query.growth_per_k, query.movement_per_pct) == (35e-6, 0.0001)
    assert (query.clip_gap_mm, query.board_length_mm) == (5.0, 4800.0)
    hot = asked_with(brief(climate={"hottest_board_c": None}), hottest_board_c=65)
    assert hot.hottest_c == 65


def test_without_weather_a_family_is_not_asked_about_it() -> None:
    plain = drylay.read_brief({**PLAIN, "climate": {}})
    query = asked_with(plain)
    assert (query.growth_per_k, query.hottest_c) == (None, None)
    assert planned(plain).pieces.movement is None


def test_boards_are_no_longer_than_their_row() -> None:
    assert asked_with(brief(cover={"along_mm": 3000})).board_length_mm == 3000.0
    trimmed = brief(cover={"along_mm": 3000}, board={"ends": "trim_in_line",
                                                     "trim_allowance_mm": 20})  # fmt: skip
    assert asked_with(trimmed).board_length_mm == 3040.0


def test_damp_air_tells_how_wet_the_boards_lie() -> None:
    """Wood Handbook, table 4-2 (from memory): 16.0 % at 21.1 C and 80 %."""
    damp = brief(climate={"laying_c": 21.1, "laying_humidity_ratio": 0.8})
    assert asked_with(damp).laying_pct == pytest.approx(16.0, abs=0.1)
    measured = brief(climate={"laying_humidity_ratio": 0.8, "laying_pct": 18})
    assert asked_with(measured).laying_pct == 18.0


def test_a_narrower_end_gap_than_boards_grow_by_is_told() -> None:
    plan = planned(brief(joints={"end_gap_mm": 2}))
    assert plan.pieces.movement.narrowest_mm < 0
    (told,) = (f for f in plan.findings if f.code == "MOV-102")
    assert told.measured == plan.pieces.movement.narrowest_mm
    assert "none: boards press" in " ".join(drylay.papers(plan)["summary.txt"].decode().split())


def test_a_gap_to_the_wall_that_the_family_wants_wider_is_told() -> None:
    tight = planned(brief(house={"wall_gap_mm": 12}), wall_gap_least_mm=15)
    (told,) = (f for f in tight.findings if f.code == "LVL-025")
    assert (told.measured, told.limit) == (12.0, 15.0)
    left_open = planned(brief(house={"dpc_mm": 0}), wall_gap_least_mm=15)
    assert left_open.site.wall_gap_mm == 15.0


def test_a_plan_with_all_of_it_is_read_back_as_it_was_written() -> None:
    for plan in (planned(brief()), planned(brief(joints={"support": "batten"}))):
        assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan
