"""What a board's own make asks for: handed pieces, inserts, wax, holes for every screw, mass."""

from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from drylay.findings import Severity
from drylay.materials.stock_model import ArticleRule
from drylay.plan.model import Plan
from drylay.plugins.model import FamilySet
from drylay.reasons import Source
from some_decks import some_case
from some_families import like_softwood, turf, with_families
from whole_decks import whole_case

ROOT = Path(__file__).parents[2]
YARD = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
SMALL = {
    "title": "Small", "cover": {"along_mm": 3000, "across_mm": 1195},
    "board": {"article": "DB-28-145"}, "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}  # fmt: skip


def only(**values: float) -> FamilySet:
    """Softwood that answers these rules otherwise."""
    return drylay.installed_families(
        entry_points=(), extra=(like_softwood("softwood", "Handle with care.", **values),)
    )


def planned(families: FamilySet, **sections: dict) -> Plan:
    plan = drylay.design(drylay.read_brief({**SMALL, **sections}), stock=YARD, families=families)
    assert plan.buildable, plan.findings
    return plan


def told(plan: Plan, code: str) -> list[drylay.Finding]:
    return [finding for finding in plan.findings if finding.code == code]


@settings(max_examples=6)
@given(seed=st.integers(0, 400))
def test_handed_or_not_the_same_is_cut_and_bought(seed: int) -> None:
    """Square ends: turning a piece about changes no length, so no purchase and no joint."""
    brief, stock = some_case(seed, most_mm=2_400)
    free = drylay.design(brief, stock=stock, families=only(handed=0))
    handed = drylay.design(brief, stock=stock, families=only(handed=1))
    assert free.buildable == handed.buildable
    if not free.buildable:
        return
    assert [p.lengths for p in free.buying.purchases] == [
        p.lengths for p in handed.buying.purchases
    ]
    assert free.pieces.joints == handed.pieces.joints
    assert {piece.arrow for piece in free.pieces.pieces} == {""}
    side = "right" if handed.surface.run == "along" else "front"
    assert {piece.arrow for piece in handed.pieces.pieces} == {side}


@pytest.mark.parametrize(
    ("family", "record", "turned"), [(1, True, True), (1, None, False), (0, False, False)]
)
def test_the_boards_own_record_outranks_its_family(
    family: int, record: bool | None, turned: bool
) -> None:
    boards = tuple(evolve(board, turnable=record) for board in YARD.boards)
    stock, families = evolve(YARD, boards=boards), only(handed=family)
    brief = drylay.read_brief(SMALL)
    plan = drylay.design(brief, stock=stock, families=families)
    assert plan.pieces.handed != turned
    kind = "assumption" if record is None else "merchant record"
    assert plan.why("pieces.handed").source.kind == kind
    assert drylay.audit(plan, brief=brief, stock=stock, families=families).findings == ()
    lied = drylay.audit(
        evolve(plan, pieces=evolve(plan.pieces, handed=turned)),
        brief=brief, stock=stock, families=families,
    )  # fmt: skip
    assert {"AUD-415", "AUD-W09"} <= {finding.code for finding in lied.findings}


def test_arrows_stand_in_every_paper_that_names_pieces() -> None:
    plan = planned(only(handed=1))
    papers = drylay.papers(plan)
    marks = [piece.mark for piece in plan.pieces.pieces]
    summary, sheet = papers["summary.txt"].decode(), papers["jobsheet.html"].decode()
    for mark in marks:
        assert f"{mark}\u2192" in summary
        assert sheet.count(f"{mark}\u2192") == 2  # where it is cut, and where it is laid
    assert "every arrow points to the right" in " ".join(summary.split())
    assert papers["boards.svg"].decode().count('id="boards-arrows"') == 1
    assert papers["bars.svg"].decode().count('id="bars-arrows"') == 1
    for name in ("cuts.csv", "labels.csv"):
        rows = papers[name].decode().splitlines()
        board_rows = [row for row in rows if ",B" in row or row.startswith("B")]
        assert len(board_rows) == len(marks)
        assert all(row.endswith(",right") for row in board_rows)
    (task,) = [task for task in plan.work.tasks if task.kind == "boards"]
    assert "Draw an arrow" in task.steps[0]
    assert any("Turn none with an arrow end for end" in step for step in task.steps)


def test_boards_that_may_be_turned_have_no_arrow_in_any_paper() -> None:
    papers = drylay.papers(planned(only()))
    assert all("\u2192" not in paper.decode() for paper in papers.values())
    assert all("-arrows" not in paper.decode() for paper in papers.values())


def test_boards_that_run_away_from_the_house_point_to_the_front() -> None:
    plan = planned(only(handed=1), board={"article": "DB-28-145", "run": "across"})
    assert {piece.arrow for piece in plan.pieces.pieces} == {"front"}
    assert "BRD-001" in {finding.code for finding in plan.findings}


#: Rows shorter than any board on sale, so that each is sawn; what it is waxed with.
SAWN = {"cover": {"along_mm": 2900, "across_mm": 1195}}
WAXED = {**SAWN, "finish": {"preserver": "EP-CLEAR", "end_wax": "EW-CLEAR"}}


def test_boards_that_want_wax_and_no_preserver_get_just_that() -> None:
    """8 rows of 2900 out of 3600 mm: by hand one end of each is sawn."""
    (board,) = [board for board in YARD.boards if board.code == "DB-28-145"]
    (length,) = [sold for sold in board.lengths if sold.length_mm == 3600]
    stock = evolve(YARD, boards=(evolve(board, lengths=(length,)),))
    brief = drylay.read_brief({**SMALL, **WAXED, "joints": {"most_per_row": 0}})
    families = only(seal_board_ends=0, wax_board_ends=1)
    plan = drylay.design(brief, stock=stock, families=families)
    wax, preserver = plan.fixings.wax, plan.fixings.preserver
    # 8 ends of 145 x 28 mm: 0.03248 m2, over 6 m2 a litre 5.41 ml
    assert (wax.ends, wax.area_m2, wax.need_ml) == (8, 0.03248, 6)
    assert [part.what for part in wax.parts] == ["boards"]
    assert {part.what for part in preserver.parts} <= {"rims", "joists"}
    (bought,) = [pack for pack in plan.buying.packs if pack.article == "EW-CLEAR"]
    assert (bought.what, bought.need, bought.cost) == ("end-grain wax", 6, Decimal("9.80"))
    assert drylay.audit(plan, brief=brief, stock=stock, families=families).findings == ()
    summary = " ".join(drylay.papers(plan)["summary.txt"].decode().split())
    assert "The boards' own ends want no preserver" in summary
    assert "End-grain wax EW-CLEAR: 8 sawn ends of boards" in summary


def test_wax_that_is_wanted_and_not_named_is_cautioned() -> None:
    plan = planned(only(wax_board_ends=1), **SAWN)
    (caution,) = told(plan, "COT-005")
    assert caution.severity is Severity.CAUTION
    assert "finish.end_wax" in caution.message
    assert plan.fixings.wax is None
    assert not told(planned(only(wax_board_ends=1), **WAXED), "COT-005")
    assert not told(planned(only(), **SAWN), "COT-005")


def test_a_brief_may_ask_for_wax_that_no_family_asks_for() -> None:
    plan = planned(only(), **WAXED)
    assert plan.fixings.wax is not None
    assert "boards" in {part.what for part in plan.fixings.preserver.parts}


def test_a_coating_for_another_use_is_refused() -> None:
    brief = drylay.read_brief({**SMALL, "finish": {"end_wax": "EP-CLEAR"}})
    with pytest.raises(drylay.BriefError) as caught:
        drylay.design(brief, stock=YARD)
    (fault,) = caught.value.faults
    assert (fault.path, fault.wanted) == ("finish.end_wax", "a coating for end wax")


def test_holes_for_every_screw_are_work_and_take_two_more_bits() -> None:
    plain, drilled = planned(only()), planned(only(predrill_all=1))
    assert drilled.fixings.deck_screws.predrill_all
    tools = {tool.mark: tool.size_at for tool in drilled.work.tools}
    assert tools["deck_clear_bit"] == "fixings.deck_screws.shank_mm"
    assert "countersink" in tools
    assert not {"deck_clear_bit", "countersink"} & {tool.mark for tool in plain.work.tools}
    (task,) = [task for task in drilled.work.tasks if task.kind == "boards"]
    assert any("Drill for every screw" in step for step in task.steps)
    (before,) = [task for task in plain.work.tasks if task.kind == "boards"]
    # 8 rows on 9 joists, two screws at each: 144, so 1.44 to 2.88 h more of one person's time,
    # halved and to the quarter hour outwards
    assert plain.fixings.deck_screws.count == 144
    assert 0.72 - 0.25 <= task.least_h - before.least_h <= 0.72 + 0.25
    assert 1.44 - 0.25 <= task.most_h - before.most_h <= 1.44 + 0.25


def test_a_metre_weighs_what_the_record_says_and_wet_inserts_on_top() -> None:
    """8 boards of 3000 and a spare, 2 kg a metre; 3 kg/m2 on 145 mm: 0.435 kg a metre."""
    boards = tuple(evolve(board, mass_kg_m=2.0) for board in YARD.boards)
    brief = drylay.read_brief(SMALL)
    stock, families = evolve(YARD, boards=boards), only(extra_mass_kg_m2=3)
    plan = drylay.design(brief, stock=stock, families=families)
    metres = sum(
        line.length_mm * line.quantity / 1000
        for line in (*plan.buying.order, *plan.buying.spares)
        if line.article == "DB-28-145"
    )
    (part,) = [part for part in plan.buying.delivery.parts if part.what == "boards"]
    assert part.mass_kg == pytest.approx(metres * 2.435, abs=0.1)
    assert part.mass_kg >= metres * 2.435
    assert drylay.audit(plan, brief=brief, stock=stock, families=families).findings == ()


def with_board(**record: object) -> drylay.Catalogue:
    (board,) = [board for board in YARD.boards if board.code == "DB-28-145"]
    return evolve(YARD, boards=(evolve(board, **record),))


def test_whole_boards_only_stretch_the_gaps_or_give_way_with_reasons() -> None:
    """1195 is 8 rows at 5; 1215 is 8 rows at 7.86, and 1240 cannot be filled with whole boards."""
    families = with_families(turf())
    stock = with_board(family="turf", groove_mm=6.0)
    wide = drylay.read_brief({**SMALL, "cover": {"along_mm": 3000, "across_mm": 1215}})
    plan = drylay.design(wide, stock=stock, families=families)
    assert plan.surface.way_out == "gaps"
    assert {row.width_mm for row in plan.surface.rows} == {145.0}
    assert plan.surface.groove_mm == 6.0
    (note,) = told(plan, "BRD-002")
    assert "every row is a whole board" in note.message
    assert drylay.audit(plan, brief=wide, stock=stock, families=families).findings == ()
    other = drylay.read_brief({**SMALL, "cover": {"along_mm": 3000, "across_mm": 1240}})
    blocked = drylay.design(other, stock=stock, families=families)
    (stop,) = told(blocked, "ROW-001")
    assert "may not be ripped, by the rules of its make" in stop.message
    assert told(blocked, "BRD-002")


def test_a_record_that_lets_inserts_be_ripped_is_not_followed() -> None:
    """The trade list: never through or within 10 of a strip, and no record tells where it lies."""
    families = with_families(turf())
    own = ArticleRule(rule="may_rip", value=1, source=Source(kind="merchant record", title="x"))
    stock = with_board(family="turf", groove_mm=6.0, rules=(own,))
    brief = drylay.read_brief({**SMALL, "cover": {"along_mm": 3000, "across_mm": 1240}})
    blocked = drylay.design(brief, stock=stock, families=families)
    (stop,) = told(blocked, "ROW-001")
    assert "where the strip lies" in stop.message
    assert blocked.buying is None
    plain = drylay.design(brief, stock=with_board(), families=families)
    assert "AUD-151" not in {finding.code for finding in drylay.audit(plain).findings}
    ripped = evolve(plain, surface=evolve(plain.surface, groove_mm=6.0))
    assert "AUD-151" in {finding.code for finding in drylay.audit(ripped).findings}


def test_joists_stand_by_what_the_insert_leaves_of_the_board() -> None:
    """Softwood of 28 goes 400 apart as of 25 on; 28 less 4 is 24, which goes as 20 to 22 does."""
    families = with_families(turf())
    for groove_mm, thickness_mm in ((4.0, 28.0), (0.0, 24.0)):
        stock = with_board(family="turf", groove_mm=groove_mm, thickness_mm=thickness_mm)
        plan = drylay.design(drylay.read_brief(SMALL), stock=stock, families=families)
        net = drylay.design(
            drylay.read_brief(SMALL), stock=with_board(thickness_mm=24.0), families=families
        )
        assert plan.supports.most_centres_mm == net.supports.most_centres_mm


def test_an_insert_brings_its_notes_its_steps_and_a_fire_kept_further_off() -> None:
    stock = with_board(family="turf", groove_mm=6.0)
    families = with_families(turf())
    plan = drylay.design(drylay.read_brief(SMALL), stock=stock, families=families)
    codes = {finding.code for finding in plan.findings}
    assert {"BRD-001", "BRD-002", "BRD-003", "BRD-004", "BRD-006", "BRD-007"} <= codes
    (fall,) = told(plan, "BRD-007")
    assert "37.5 mm over a row" in fall.message  # 3000 / 80
    assert (fall.measured, fall.limit, fall.unit) == (1 / 80, 1 / 80, "ratio")
    assert (plan.surface.fall_mm, plan.surface.low_side) == (37.5, "right")
    put = next(task for task in plan.work.tasks if task.kind == "frame")
    assert "fall" in {hold.mark for hold in put.holds}
    assert any("its right end {surface.fall_mm} lower" in step for step in put.steps)
    steps = " ".join(step for task in plan.work.tasks for step in task.steps)
    assert "glue its last 30 mm" not in steps  # three metres each, as sold: none is sawn
    assert "No board is sawn" in steps
    assert "never through a strip" in steps
    assert "strip_knife" not in {tool.mark for tool in plan.work.tools}
    cautions = " ".join(text for task in plan.work.tasks for text in task.cautions)
    assert "2 m or more clear" in cautions
    assert "1 m or more clear" not in cautions
    assert "BRD-005" not in codes
    long = drylay.read_brief({**SMALL, "cover": {"along_mm": 6000, "across_mm": 1195}})
    jointed = drylay.design(long, stock=stock, families=families)
    assert bool(jointed.pieces.joint_count) == bool(told(jointed, "BRD-005"))
    sawn = drylay.read_brief({**SMALL, "cover": {"along_mm": 2950, "across_mm": 1195}})
    short = drylay.design(sawn, stock=stock, families=families)
    steps = " ".join(step for task in short.work.tasks for step in task.steps)
    assert "glue its last 30 mm" in steps
    assert "strip_knife" in {tool.mark for tool in short.work.tools}


@pytest.mark.parametrize(
    ("species", "thickness_mm", "codes"),
    # 145 wide: 6 x 24 is 144, 6 x 24.5 is 147
    [
        ("white oak", 24.5, {"BRD-009"}), ("iroko", 24.0, {"BRD-008", "BRD-009"}),
        ("redwood", 24.0, {"BRD-008"}), ("", 24.0, set()), ("oakum", 24.5, set()),
    ],
)  # fmt: skip
def test_species_that_wash_and_boards_that_cup(
    species: str, thickness_mm: float, codes: set[str]
) -> None:
    stock = with_board(species=species, thickness_mm=thickness_mm)
    plan = drylay.design(drylay.read_brief(SMALL), stock=stock)
    assert {f.code for f in plan.findings if f.code in {"BRD-008", "BRD-009"}} == codes


@pytest.mark.parametrize("seed", range(40, 46))
def test_random_decks_of_such_boards_stand_before_the_audit(seed: int) -> None:
    brief, stock = whole_case(seed, most_mm=4_000)
    (board,) = stock.boards
    record = {"groove_mm": float(seed % 3 * 2), "mass_kg_m": None if seed % 2 else 2.5}
    stock = evolve(stock, boards=(evolve(board, **record),))
    families = only(
        handed=1, seal_board_ends=seed % 2, wax_board_ends=1, predrill_all=1, extra_mass_kg_m2=2.5,
        fall_least_ratio=0.01,
    )  # fmt: skip
    wax = evolve(stock.coatings[0], code="WX", use="end wax")
    stock = evolve(stock, coatings=(*stock.coatings, wax))
    brief = evolve(brief, finish=evolve(brief.finish, end_wax="WX" if seed % 3 else None))
    plan = drylay.design(brief, stock=stock, families=families)
    report = drylay.audit(plan, brief=brief, stock=stock, families=families)
    assert [f for f in report.findings if f.severity is Severity.STOP] == []
    if plan.buildable:
        assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan
        drylay.papers(plan)
