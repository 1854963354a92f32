"""A border and its field: the stricter of both governs, and what does not suit is told."""

from decimal import Decimal

import pytest
from attrs import evolve

import drylay
from audit.edits import put
from border_decks import DECK, RECORD, YARD, brief, edge, families, longer, planned, stock, told
from drylay.findings import Severity
from drylay.materials.model import RuleQuery
from drylay.materials.stock_model import ArticleRule, Catalogue, Pack, Packer
from drylay.reasons import Ruling
from some_families import SHEET, like_softwood, with_families


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


def test_a_border_that_governs_for_both_is_told_by_its_own_size() -> None:
    """The board of 21 was asked about, not the field's of 28."""

    def centres(query: RuleQuery) -> Ruling:
        thick = (("board_thickness_mm", query.board_thickness_mm),)
        return Ruling(value=350.0, unit="mm", rule="thin boards", source=SHEET, inputs=thick)

    sold, asking = stock(thickness_mm=21.0), families(most_centres_mm=centres)
    plan = planned(sold=sold, most_centres_mm=centres)
    path, of_it = "supports.most_centres_mm", "border_thickness_mm"
    assert plan.why(path).inputs == ((of_it, 21.0),)
    assert drylay.audit(plan, brief=brief(), stock=sold, families=asking).findings == ()
    index = next(n for n, each in enumerate(plan.reasons.decisions) if each.path == path)
    lied = put(plan, f"reasons.decisions[{index}].inputs", ((of_it, 28.0),))
    report = drylay.audit(lied, brief=brief(), stock=sold, families=asking)
    assert {"AUD-902", "AUD-W12"} <= {finding.code for finding in report.findings}


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


def test_a_border_that_nothing_holds_is_a_stop() -> None:
    (stop,) = [f for f in planned(screws_per_crossing=0).findings if f.severity is Severity.STOP]
    assert (stop.code, stop.subject) == ("FIX-023", "border screws")
    assert (stop.measured, stop.limit) == (0.0, 1.0)


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


def packer(code: str, least_mm: float, most_mm: float, *packs: tuple[int, str]) -> Packer:
    sold = tuple(Pack(count=count, price=Decimal(price)) for count, price in packs)
    return Packer(code=code, title=f"{code} (invented)", least_mm=least_mm, most_mm=most_mm,
                  packs=sold)  # fmt: skip


def with_packers(*packers: Packer, **more: object) -> Catalogue:
    return evolve(stock(**more), packers=packers)


SEVENS = (packer("P7-A", 7, 7, (50, "9.00")), packer("P7-B", 7, 7, (10, "2.00"), (60, "8.50")),
          packer("P5", 5, 5, (100, "1.00")), packer("PD", 5, 9, (100, "1.00")))  # fmt: skip


def test_packers_under_the_thinner_boards_are_ordered_from_the_cheapest_just_so_high() -> None:
    """28 - 21 = 7. Four rows on 13 joists: 52, and 5 % are 3: two packs of 50, or one of 60."""
    asked = brief(border={"article": "EDGE", "rows": 2})
    sold = with_packers(*SEVENS, thickness_mm=21.0)
    plan = planned(asked, sold)
    packers, joists = plan.fixings.board_packers, len(plan.frame.joists)
    assert (packers.article, packers.height_mm, packers.count) == ("P7-B", 7.0, 4 * joists)
    (bought,) = [pack for pack in plan.buying.packs if pack.article == "P7-B"]
    assert (bought.need, joists) == (52, 13)
    assert (bought.what, bought.spare, bought.cost) == ("board packers", 3, Decimal("8.50"))
    assert bought.bound == bought.cost
    (other,) = plan.why("fixings.board_packers.height_mm").turned_down
    assert (other.value, other.because) == ("P7-A", "18.00 in packs")
    assert not told(plan, "BDR-014")
    assert "52 packers of 7 mm" in told(plan, "BDR-003")[0].message
    papers = drylay.papers(plan)
    summary = " ".join(papers["summary.txt"].decode().split())
    assert "52 packers P7-B of 7 mm under them" in summary
    assert "P7-B" in papers["order.csv"].decode()
    assert "board packers P7-B" in " ".join(summary.split())
    assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan
    report = drylay.audit(plan, brief=asked, stock=sold, families=families())
    assert report.findings == ()
    dearer = evolve(plan.fixings, board_packers=evolve(packers, article="P7-A"))
    report = drylay.audit(evolve(plan, fixings=dearer), stock=sold)
    assert "AUD-W89" in {finding.code for finding in report.findings}


def test_where_no_packer_is_so_high_the_nearest_is_told_and_none_ordered() -> None:
    sold = with_packers(*SEVENS[2:], packer("P10", 10, 10, (20, "3.00")), thickness_mm=21.0)
    plan = planned(sold=sold)
    packers = plan.fixings.board_packers
    assert (packers.article, packers.count) == ("", 2 * len(plan.frame.joists))
    (finding,) = told(plan, "BDR-014")
    assert (finding.measured, finding.limit, finding.unit) == (5.0, 7.0, "mm")
    assert finding.severity is Severity.CAUTION
    assert not [pack for pack in plan.buying.packs if pack.what == "board packers"]
    report = drylay.audit(plan, brief=brief(), stock=sold, families=families())
    assert report.findings == ()
    hushed = evolve(plan, findings=tuple(f for f in plan.findings if f.code != "BDR-014"))
    assert "AUD-146" in {finding.code for finding in drylay.audit(hushed).findings}


@pytest.mark.parametrize(("border", "field"), [(0.0125, None), (0.0125, 0.01), (0.005, 0.01)])
def test_the_steeper_fall_of_both_is_told_with_its_number(border: float, field: float) -> None:
    """1 in 80 is steeper than 1 in 100 and that than 1 in 200; softwood's own rule is 0."""
    rule = ArticleRule(rule="fall_least_ratio", value=field or 0.0, source=RECORD)
    boards = tuple(evolve(board, rules=(rule,) if field else ()) for board in YARD.boards)
    sold = evolve(YARD, boards=(*boards, edge()))
    plan = planned(sold=sold, fall_least_ratio=border)
    steeper, lesser = max(border, field or 0.0), min(border, field or 0.0)
    (fall,), (unlike,) = told(plan, "BRD-007"), told(plan, "BDR-015")
    assert (fall.measured, fall.limit, fall.unit) == (steeper, steeper, "ratio")
    assert (unlike.measured, unlike.limit, unlike.unit) == (lesser, steeper, "ratio")
    assert fall.severity is unlike.severity is Severity.CAUTION
    assert fall.source == unlike.source
    assert ("EDGE" in fall.message) == (border > (field or 0.0))
    assert f"{4800 * steeper:g} mm over a row" in fall.message
    values = {"fall_least_ratio": border}
    report = drylay.audit(plan, brief=brief(), stock=sold, families=families(**values))
    assert report.findings == ()
    for finding in (fall, unlike):
        hushed = evolve(plan, findings=tuple(f for f in plan.findings if f is not finding))
        assert "AUD-113" in {found.code for found in drylay.audit(hushed).findings}
    moved = evolve(plan, findings=(*hushed.findings, evolve(unlike, limit=0.5)))
    assert "AUD-113" in {found.code for found in drylay.audit(moved).findings}


def test_no_packers_lie_between_boards_of_one_thickness() -> None:
    assert planned(sold=with_packers(*SEVENS)).fixings.board_packers is None


@pytest.mark.parametrize(
    "wants", [{"battens_per_joint": 1}, {"joists_under_joint": 2, "battens_per_joint": 0}]
)
def test_packers_lie_on_both_joists_of_a_pair_and_on_battens(wants: dict[str, float]) -> None:
    cover = brief(cover={"along_mm": 5000, "across_mm": 700})
    plan = planned(
        cover, with_packers(*SEVENS, thickness_mm=21.0), end_bearing_least_mm=20, **wants
    )
    rows = {row.mark for row in plan.surface.rows if row.border}
    on_battens = sum(j.row in rows for j in plan.pieces.joints) * int(wants["battens_per_joint"])
    assert plan.pieces.border.joint_count
    wanted = len(rows) * len(plan.frame.joists) + on_battens
    assert plan.fixings.board_packers.count == wanted


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
