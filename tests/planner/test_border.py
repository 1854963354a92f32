"""A border of one board round a field of another: laid, jointed, bought, and what does not suit."""

import json
from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import BorderWish
from drylay.cutting.check_proof import main as check_proof
from drylay.findings import Severity
from drylay.materials.stock_model import ArticleRule, Board, Catalogue, StockLength
from drylay.plan.model import Plan
from drylay.plugins.model import FamilySet
from drylay.reasons import Source
from some_families import like_softwood, turf, with_families
from whole_decks import whole_case

ROOT = Path(__file__).parents[2]
YARD = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
RECORD = Source(kind="merchant record", title="a card (invented)")
DECK = {
    "title": "Edged", "cover": {"along_mm": 4800, "across_mm": 2400},
    "board": {"article": "DB-28-145"}, "border": {"article": "EDGE"},
    "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90"},
    "finish": {"preserver": "EP-CLEAR", "end_wax": "EW-CLEAR", "article": "DO-NATURAL"},
}  # fmt: skip


def edge(**more: object) -> Board:
    """A border board 28 x 95, in two lengths."""
    known = {
        "code": "EDGE", "title": "edge board (invented)", "family": "edging", "width_mm": 95.0,
        "thickness_mm": 28.0, "use_class": 3, "faces": "smooth", "species": "redwood",
        "lengths": (StockLength(length_mm=3000.0, price=Decimal("9.00")),
                    StockLength(length_mm=4800.0, price=Decimal("15.00"))),
    }  # fmt: skip
    return Board(**{**known, **more})


def stock(**more: object) -> Catalogue:
    return evolve(YARD, boards=(*YARD.boards, edge(**more)))


def families(**values: float) -> FamilySet:
    return with_families(like_softwood("edging", "Handle with care.", **values), turf())


def brief(**sections: object) -> drylay.Brief:
    return drylay.read_brief({**DECK, **sections})


def planned(
    asked: drylay.Brief | None = None, sold: Catalogue | None = None, **values: float
) -> Plan:
    return drylay.design(asked or brief(), stock=sold or stock(), families=families(**values))


def told(plan: Plan, code: str) -> list[drylay.Finding]:
    return [finding for finding in plan.findings if finding.code == code]


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(brief(border={"article": "EDGE", "rows": 2}))


def test_the_border_is_the_first_and_the_last_rows(plan: Plan) -> None:
    """2400 less twice 2 x 95 + 5 + 5 is 2000: 13 x 145 + 12 x 5 = 1945, and 55 are left over."""
    border = plan.surface.border
    assert (border.rows, border.width_mm, border.beside_mm) == (2, 95.0, 5.0)
    assert border.field_depth_mm == 2000.0
    assert [row.border for row in plan.surface.rows[:3]] == [True, True, False]
    assert [row.near_mm for row in plan.surface.rows[:3]] == [0.0, 100.0, 200.0]
    assert sum(row.border for row in plan.surface.rows) == 4
    assert plan.surface.whole_rows == 13
    assert plan.surface.remainder_mm == 55.0


def test_each_board_is_bought_from_its_own_article_with_its_own_proof(plan: Plan) -> None:
    """Four border rows of 4800 in one piece, 15.00 each, cannot be cheaper than 4 x 15.00."""
    boards, edged, frame = plan.buying.purchases
    assert [part.what for part in (boards, edged, frame)] == ["boards", "border boards", "frame"]
    assert edged.article == "EDGE"
    assert {length.mark[0] for length in edged.lengths} == {"E"}
    assert edged.cost == Decimal("60.00")
    assert drylay.verify(edged.proof).holds
    assert drylay.verify(boards.proof).holds
    marks = {mark for length in edged.lengths for mark in length.pieces}
    rows = {row.mark for row in plan.surface.rows if row.border}
    assert {piece.mark for piece in plan.pieces.pieces if piece.row in rows} == marks
    spare = [line for line in plan.buying.spares if line.article == "EDGE"]
    assert sum(line.quantity for line in spare) == 1  # 5 % of 4, rounded up


def test_the_proof_slip_counts_the_border_too(plan: Plan, tmp_path: Path, capsys) -> None:
    papers = drylay.papers(plan)
    (tmp_path / "proof.json").write_bytes(papers["proof.json"])
    assert check_proof(tmp_path / "proof.json") == 0
    assert "border boards: holds" in capsys.readouterr().out
    told_wrong = json.loads(papers["proof.json"])
    assert json.dumps(told_wrong).count("border boards") == 1


def test_screws_are_counted_for_each_board(plan: Plan) -> None:
    """4 border rows, and the field's others, two screws at each crossing."""
    fixings, joists = plan.fixings, len(plan.frame.joists)
    field = sum(not row.border for row in plan.surface.rows)
    assert fixings.border_screws.crossings == 4 * joists
    assert fixings.border_screws.count == 8 * joists
    assert fixings.deck_screws.crossings == field * joists
    (pack,) = [pack for pack in plan.buying.packs if pack.article == "DS-45-70"]
    assert pack.need == fixings.border_screws.count + fixings.deck_screws.count
    assert pack.what == "deck screws, border screws"


def test_the_plan_stands_before_all_witnesses_and_goes_round_its_file(plan: Plan) -> None:
    asked = brief(border={"article": "EDGE", "rows": 2})
    report = drylay.audit(plan, brief=asked, stock=stock(), families=families())
    assert report.findings == ()
    assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan


def test_a_border_with_a_screw_of_its_own() -> None:
    asked = brief(border={"article": "EDGE", "screw": "DS-50-80"})
    plan = planned(asked)
    assert plan.fixings.border_screws.article == "DS-50-80"
    assert {pack.what for pack in plan.buying.packs} >= {"deck screws", "border screws"}
    assert drylay.audit(plan, brief=asked, stock=stock(), families=families()).findings == ()


def test_a_measured_border() -> None:
    """2400 less twice 94.6 + 5 leaves 2200.8."""
    asked = brief(border={"article": "EDGE", "measured_width_mm": 94.6})
    plan = planned(asked)
    assert plan.surface.border.width_mm == 94.6
    assert plan.surface.border.field_depth_mm == 2200.8
    assert drylay.audit(plan, brief=asked, stock=stock(), families=families()).findings == ()


@pytest.mark.parametrize(
    ("own", "governs", "left"), [(350.0, "border", 400.0), (450.0, "field", 450.0)]
)
def test_the_least_centres_govern_and_the_other_is_kept(
    own: float, governs: str, left: float
) -> None:
    """Softwood of 28 answers 400 for the field."""
    plan = planned(most_centres_mm=own)
    assert plan.supports.most_centres_mm == min(own, 400.0)
    decision = plan.why("supports.most_centres_mm")
    assert decision.rule.startswith(f"the {governs}'s: ")
    (other,) = decision.turned_down
    assert other.value == left
    assert told(plan, "BDR-006")
    report = drylay.audit(
        plan, brief=brief(), stock=stock(), families=families(most_centres_mm=own)
    )
    assert report.findings == ()
    lied = evolve(plan, supports=evolve(plan.supports, most_centres_mm=500.0))
    report = drylay.audit(
        lied, brief=brief(), stock=stock(), families=families(most_centres_mm=own)
    )
    assert "AUD-W09" in {finding.code for finding in report.findings}


def test_a_wish_looser_than_the_borders_centres_is_a_stop() -> None:
    asked = brief(frame={"article": "FT-45-145", "most_centres_mm": 380})
    plan = planned(asked, most_centres_mm=350)
    stop = next(f for f in plan.findings if f.severity is Severity.STOP)
    assert (stop.code, stop.measured, stop.limit) == ("MAT-002", 380.0, 350.0)
    assert planned(asked, most_centres_mm=380).buildable


def test_the_stricter_of_what_both_share_governs_the_frame() -> None:
    plan = planned(coach_screws_per_joist_end=3, fascia_screws_per_place=1)
    assert plan.fixings.coach_screws.per_joist_end == 3
    assert plan.why("fixings.coach_screws.per_joist_end").turned_down[0].value == 2


def test_no_gap_that_suits_both_is_a_stop() -> None:
    """The border fixed at 9; softwood of 145 goes up to 8."""
    plan = planned(gap_least_mm=9, gap_preferred_mm=9, gap_most_mm=9)
    (stop,) = [f for f in plan.findings if f.severity is Severity.STOP]
    assert (stop.code, stop.measured, stop.limit) == ("BDR-001", 9.0, 8.0)
    assert plan.buying is None


def test_a_fixed_gap_beside_stretched_ones_is_cautioned() -> None:
    plan = planned(gap_least_mm=6, gap_preferred_mm=6, gap_most_mm=6)
    assert plan.surface.border.beside_mm == 6.0
    (caution,) = told(plan, "BDR-004")
    assert caution.severity is Severity.CAUTION
    assert "the border's gap is fixed" in caution.message
    assert told(plan, "BDR-005")
    report = drylay.audit(
        plan, brief=brief(), stock=stock(),
        families=families(gap_least_mm=6, gap_preferred_mm=6, gap_most_mm=6),
    )  # fmt: skip
    assert report.findings == ()


def test_a_cover_that_the_border_fills_leaves_no_field() -> None:
    """2 x (3 x 95 + 2 x 5 + 5) = 600."""
    asked = brief(cover={"along_mm": 4800, "across_mm": 600}, border={"article": "EDGE", "rows": 3})
    (stop,) = [f for f in planned(asked).findings if f.severity is Severity.STOP]
    assert (stop.code, stop.measured, stop.limit) == ("BDR-002", 600.0, 600.0)


@pytest.mark.parametrize(
    ("thickness_mm", "packed", "screw"),
    [(21.0, "border", "border screws"), (33.0, "field", "deck screws")],
)
def test_the_thinner_boards_lie_on_packers_and_want_longer_screws(
    thickness_mm: float, packed: str, screw: str
) -> None:
    """28 - 21 = 7, 33 - 28 = 5; a screw of 70 is 2.5 times 28, and 5 or 7 too short on packers."""
    sold = stock(thickness_mm=thickness_mm)
    plan = planned(sold=sold)
    needs = {"border": 2.5 * 21 + 7, "field": 2.5 * 28 + 5}
    if packed == "field":
        stop = next(f for f in plan.findings if f.code == "FIX-001" and f.subject == screw)
        assert (stop.measured, stop.limit) == (70.0, needs[packed])
        fixings = {**DECK["fixings"], "screw": "DS-50-90"}
        sold = evolve(sold, screws=(*sold.screws, longer(sold)))
        plan = planned(brief(fixings=fixings), sold)
    assert plan.buildable, plan.findings
    border = plan.surface.border
    assert (border.packed, border.packing_mm) == (packed, abs(28.0 - thickness_mm))
    (caution,) = told(plan, "BDR-003")
    assert f"{abs(28 - thickness_mm):g} mm" in caution.message
    summary = " ".join(drylay.papers(plan)["summary.txt"].decode().split())
    assert f"The {packed}'s boards are" in summary
    assert drylay.audit(plan).findings == ()


def longer(sold: Catalogue) -> object:
    (screw,) = [each for each in sold.screws if each.code == "DS-45-70"]
    return evolve(screw, code="DS-50-90", length_mm=90.0)


def test_the_decks_top_is_that_of_the_thicker_board() -> None:
    levels = {
        "deck_top_mm": 0,
        "points": [
            {"along_mm": x, "across_mm": y, "level_mm": -200} for x in (0, 4800) for y in (0, 2400)
        ],
    }
    plan = planned(brief(levels=levels), stock(thickness_mm=21.0))
    assert plan.site.levels.underside_mm == -(28.0 + 145.0)
    assert drylay.audit(plan).findings == ()


def test_a_metal_that_one_board_refuses_stops_the_plan() -> None:
    """Galvanised coach screws suit the field, not a border whose family takes stainless alone."""

    def stainless(query: drylay.RuleQuery):
        from drylay.reasons import Ruling

        return Ruling(value=int(query.metal.startswith("stainless")), unit="yes/no",
                      rule="stainless beside tannin", source=RECORD)  # fmt: skip

    refusing = with_families(like_softwood("edging", metal_allowed=stainless))
    plan = drylay.design(brief(), stock=stock(), families=refusing)
    stops = {f.subject for f in plan.findings if f.code == "FIX-021"}
    metals = {screw.code: screw.metal for screw in (*YARD.screws, *YARD.coach_screws)}
    named = {"coach screws": "CS-8-120", "frame screws": "FS-60-90", "border screws": "DS-45-70"}
    assert stops == {w for w, code in named.items() if not metals[code].startswith("stainless")}
    assert "deck screws" not in stops
    assert stops


def test_tannin_beside_other_boards_is_cautioned() -> None:
    plan = planned(sold=stock(species="white oak"))
    assert {"BDR-008", "BRD-009"} <= {finding.code for finding in plan.findings}
    both = tuple(evolve(board, species="oak") for board in YARD.boards)
    alike = planned(sold=evolve(YARD, boards=(*both, edge(species="white oak"))))
    assert not told(alike, "BDR-008")


def test_lives_and_upkeep_that_differ_are_told() -> None:
    years = {"life_least_years": 15, "life_most_years": 25, "upkeep_h_m2_year": 0.2}
    rules = tuple(ArticleRule(rule=rule, value=value / 2, source=RECORD)
                  for rule, value in years.items())  # fmt: skip
    boards = tuple(evolve(board, rules=rules) for board in YARD.boards)
    plan = planned(sold=evolve(YARD, boards=(*boards, edge())), **years)
    (life,), (upkeep,) = told(plan, "BDR-011"), told(plan, "BDR-012")
    assert "7.5 to 12.5 years, the border's 15 to 25" in life.message
    assert "0.1 h" in upkeep.message
    assert not told(planned(), "BDR-011")


def test_clips_beside_a_border_are_a_stop() -> None:
    (finding,) = told(planned(hidden_clips=1), "BDR-009")
    assert finding.severity is Severity.STOP


def test_caps_on_a_hollow_border_are_a_stop() -> None:
    (finding,) = told(planned(sold=stock(hollow=True), end_caps=1), "BDR-010")
    assert finding.severity is Severity.STOP


@pytest.mark.parametrize(
    "wants", [{"battens_per_joint": 1}, {"joists_under_joint": 2, "battens_per_joint": 0}]
)
def test_what_the_border_wants_under_joints_the_field_has_too(wants: dict[str, float]) -> None:
    cover = brief(cover={"along_mm": 5000, "across_mm": 700})
    plan = planned(cover, end_bearing_least_mm=20, **wants)
    assert plan.supports.battens_per_joint == wants["battens_per_joint"]
    assert plan.pieces.border.joint_count
    assert plan.pieces.border.end_bearing_mm == plan.pieces.end_bearing_mm
    report = drylay.audit(
        plan, brief=cover, stock=stock(), families=families(end_bearing_least_mm=20, **wants)
    )
    assert report.findings == ()


def test_ends_are_sealed_and_waxed_each_by_its_family() -> None:
    """Softwood seals and does not wax; this border waxes and does not seal."""
    short = {"along_mm": 4700, "across_mm": 2400}
    asked = brief(cover=short)
    plan = planned(asked, seal_board_ends=0, wax_board_ends=1)
    assert [part.what for part in plan.fixings.wax.parts] == ["border boards"]
    kinds = [part.what for part in plan.fixings.preserver.parts]
    assert "boards" in kinds
    assert "border boards" not in kinds
    values = {"seal_board_ends": 0, "wax_board_ends": 1}
    report = drylay.audit(plan, brief=asked, stock=stock(), families=families(**values))
    assert report.findings == ()


def test_a_handed_border_has_arrows_and_the_field_none() -> None:
    plan = planned(handed=1)
    rows = {row.mark for row in plan.surface.rows if row.border}
    assert {(piece.row in rows, piece.arrow) for piece in plan.pieces.pieces} == {
        (True, "right"), (False, ""),
    }  # fmt: skip
    summary = " ".join(drylay.papers(plan)["summary.txt"].decode().split())
    assert "no piece of the border's boards may be turned" in summary


def test_boards_that_turn_have_their_border_at_the_other_two_sides() -> None:
    asked = brief(
        board={"article": "DB-28-145", "may_turn": True},
        cover={"along_mm": 2405, "across_mm": 3000},
        rows={"prefer": ["turn"]},
    )
    plan = planned(asked)
    assert plan.surface.run == "across"
    assert plan.surface.border.field_depth_mm == 2405.0 - 2 * (95 + 5)
    assert drylay.audit(plan, brief=asked, stock=stock(), families=families()).findings == ()


def test_both_families_answer_for_the_plan_and_caution() -> None:
    plan = planned()
    assert [family.id for family in plan.families] == ["softwood", "edging"]
    assert "Handle with care." in plan.cautions


def test_papers_tell_of_the_border() -> None:
    plan = planned(brief(border={"article": "EDGE", "rows": 1}), handed=1)
    papers = {name: paper.decode() for name, paper in drylay.papers(plan).items()}
    assert 'id="boards-border-hatch"' in papers["boards.svg"]
    assert "border hatched, B1" in papers["boards.svg"]
    assert ", border</text>" in papers["boards.svg"]
    assert "border EDGE, 95 x 28" in papers["section.svg"]
    assert "border screw 4.5 x 70" in papers["section.svg"]
    assert "EDGE" in papers["rod.svg"]
    assert "border boards: EDGE" in papers["bars.svg"]
    for name in ("summary.txt", "jobsheet.html"):
        assert "EDGE" in papers[name]
        assert "border screws DS-45-70" in papers[name]
    assert "border board" in papers["labels.csv"]
    assert "E1,EDGE,4800" in papers["cuts.csv"]
    assert "edge board (invented)" in papers["order.csv"]
    steps = " ".join(step for task in plan.work.tasks for step in task.steps)
    assert "are the border's, of its own board" in steps


@pytest.mark.parametrize(
    ("border", "path", "says"),
    [
        ({"rows": 2}, "border.article", "nothing with border.rows"),
        ({"screw": "DS-45-70"}, "border.article", "nothing with border.screw"),
        ({"article": "DB-28-145"}, "border.article", "the field's own board"),
        ({"article": "EDGE", "rows": 4}, "border.rows", "4"),
    ],
)
def test_a_border_that_makes_no_sense_is_refused(border: dict, path: str, says: str) -> None:
    (fault,) = drylay.check_brief({**DECK, "border": border})
    assert fault.path == path
    assert says in fault.found


def test_a_border_that_nobody_sells_is_refused() -> None:
    with pytest.raises(drylay.BriefError) as caught:
        drylay.design(brief(), stock=YARD)
    assert caught.value.faults[0].path == "border.article"


def test_a_border_of_a_family_that_nobody_supplies_stops_the_plan() -> None:
    plan = drylay.design(brief(), stock=stock(), families=with_families())
    subjects = {f.subject for f in plan.findings if f.code == "MAT-001"}
    assert "surface.border.gap_least_mm" in subjects
    assert not plan.buildable


def test_a_border_that_cannot_be_cut_says_so() -> None:
    short = (StockLength(length_mm=400.0, price=Decimal("1.00")),)
    (stop,) = told(planned(sold=stock(lengths=short)), "BUY-001")
    assert stop.subject == "border boards"


@pytest.mark.parametrize("seed", range(100, 104))
def test_random_decks_with_a_border_stand_before_the_audit(seed: int) -> None:
    asked, sold = whole_case(seed, most_mm=4_000)
    values = {
        "gap_least_mm": 3.0 + seed % 3, "gap_preferred_mm": 5.0 + seed % 2, "gap_most_mm": 7.0,
        "end_gap_mm": 3.0, "stagger_bays": 1 + seed % 3, "handed": seed % 2,
        "seal_board_ends": seed % 2, "wax_board_ends": 1, "predrill_all": seed % 2,
        "density_most_kg_m3": 1000.0, "most_centres_mm": 350.0 + 50 * (seed % 3),
    }  # fmt: skip
    thick = 28.0 if seed % 2 else sold.boards[0].thickness_mm
    sold = evolve(sold, boards=(*sold.boards, edge(thickness_mm=thick, faces=None)))
    asked = evolve(asked, border=BorderWish(article="EDGE", rows=1 + seed % 3))
    plan = drylay.design(asked, stock=sold, families=families(**values))
    report = drylay.audit(plan, brief=asked, stock=sold, families=families(**values))
    assert [f for f in report.findings if f.severity is Severity.STOP] == []
    if plan.buildable:
        assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan
        drylay.papers(plan)
