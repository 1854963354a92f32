"""The shortest piece that may be laid binds the cutter, with what the supports rule."""

from typing import Any

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

import drylay
from border_decks import brief as edged
from border_decks import families as edging
from border_decks import stock as edged_stock
from drylay.brief.model import Brief
from drylay.findings import Severity
from drylay.marks import exact
from drylay.materials.stock_model import ArticleRule, Board, Catalogue
from drylay.pieces.joints import JointRules, fewest_bays
from drylay.plan.model import Plan
from drylay.reasons import Source
from stand_ins import families as composite

CARD = Source(kind="merchant record", title="a card (invented)", clause="cuts")
YARD = drylay.load_catalogue("catalogs/hobbleden.toml")
LONG = drylay.read_brief("docs/examples/long-terrace.toml")
FAMILIES = drylay.installed_families()
#: Joists of 45 at 400: 22.5, 422.5, ... 4022.5 of a row of 4045.
STATIONS = tuple(exact(22.5 + 400 * n) for n in range(11))


def rules(least_mm: float, supports: int = 3) -> JointRules:
    return JointRules(
        end_gap_mm=4.0, end_bearing_least_mm=20.0, least_supports=supports, stagger_bays=2,
        most_joints_per_row=None, joint_price=drylay.read_brief(
            "docs/examples/long-terrace.toml").joints.price_each, least_piece_mm=least_mm,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("least_mm", "supports", "bays", "by_hand"),
    [
        (0.0, 3, 2, "three supports, two bays"),
        (796.0, 3, 2, "two bays between joints, 800 - 4"),
        (796.1, 3, 3, "a 320th of a mm or so too short"),
        (1000.0, 3, 3, "3 x 400 - 4 = 1196"),
        (1000.0, 5, 4, "five supports rule"),
        (1620.5, 3, 4, "4 x 400 + 22.5 - 2 from the edge; no room for three such pieces"),
        (1620.6, 3, 5, "5 x 400 + 20.5"),
        (2020.5, 3, 5, "one joint in the middle"),
        (2020.6, 3, 6, "6 x 400 + 20.5, and no room for two such: no joint"),
        (5000.0, 3, 11, "longer than the row"),
    ],
)
def test_so_many_bays_that_no_piece_is_too_short(
    least_mm: float, supports: int, bays: int, by_hand: str
) -> None:
    assert fewest_bays(4045.0, STATIONS, rules(least_mm, supports)) == bays, by_hand


@given(st.floats(0, 3000), st.floats(0, 3000))
def test_a_longer_piece_never_wants_fewer_bays(one_mm: float, other_mm: float) -> None:
    short_mm, long_mm = sorted((one_mm, other_mm))
    assert fewest_bays(4045.0, STATIONS, rules(short_mm)) <= fewest_bays(
        4045.0, STATIONS, rules(long_mm)
    )


# ----- whole plans, audited ----------------------------------------------------------------


def ruled(stock: Catalogue, code: str, least_mm: float) -> Catalogue:
    own = ArticleRule(rule="least_piece_mm", value=least_mm, source=CARD)

    def with_own(board: Board) -> Board:
        return evolve(board, rules=(*board.rules, own)) if board.code == code else board

    return evolve(stock, boards=tuple(map(with_own, stock.boards)))


def shortest_mm(plan: Plan) -> float:
    joined = {joint.row for joint in plan.pieces.joints}
    return min(piece.length_mm for piece in plan.pieces.pieces if piece.row in joined)


def findings(plan: Plan, brief: Brief, stock: Catalogue, **more: Any) -> Any:
    told = {"families": FAMILIES} | more
    return drylay.audit(plan, brief=brief, stock=stock, **told).findings


@pytest.mark.parametrize("least_mm", [2400.0])
def test_no_piece_is_cut_shorter_than_the_merchant_allows(least_mm: float) -> None:
    free = drylay.design(LONG, stock=YARD)
    stock = ruled(YARD, LONG.board.article, least_mm)
    plan = drylay.design(LONG, stock=stock)
    assert plan.buildable, plan.findings
    assert shortest_mm(free) < least_mm <= shortest_mm(plan)
    assert plan.pieces.least_piece_mm == least_mm
    assert plan.why("pieces.least_piece_mm").source == CARD
    assert findings(plan, LONG, stock) == ()
    words = " ".join(drylay.papers(plan)["summary.txt"].decode().split())
    assert f"none is shorter than {least_mm:g} mm" in words
    lied = evolve(free, pieces=evolve(free.pieces, least_piece_mm=least_mm))
    assert {"AUD-419", "AUD-804"} <= {found.code for found in drylay.audit(lied).findings}
    lied = evolve(plan, pieces=evolve(plan.pieces, least_piece_mm=0.0))
    assert {"AUD-W09", "AUD-804"} <= {found.code for found in findings(lied, LONG, stock)}


def test_rows_that_cannot_be_made_of_such_pieces_stop_the_plan() -> None:
    """Boards of 3600, 3590 with their trims: joints in 3000 to 3590 keep no 2 bays of 400 apart."""
    stock = evolve(YARD, boards=tuple(
        evolve(board, lengths=tuple(each for each in board.lengths if each.length_mm <= 3600))
        for board in YARD.boards
    ))  # fmt: skip
    plan = drylay.design(LONG, stock=ruled(stock, LONG.board.article, 3000.0))
    assert not plan.buildable
    stop = next(f for f in plan.findings if f.severity is Severity.STOP)
    assert stop.code == "BUY-001"
    assert "no piece under 3000 mm (least_piece_mm)" in stop.message


def test_rows_shorter_than_a_piece_may_be_are_one_piece_and_cautioned() -> None:
    short = drylay.read_brief("docs/examples/garden.toml").replace("cover.along_mm", 2400)
    stock = ruled(YARD, short.board.article, 2500.0)
    plan = drylay.design(short, stock=stock)
    assert plan.buildable
    (caution,) = [f for f in plan.findings if f.code == "JNT-005"]
    assert (caution.severity, caution.measured, caution.limit) == (Severity.CAUTION, 2400.0, 2500.0)
    assert findings(plan, short, stock) == ()
    untold = evolve(plan, findings=tuple(f for f in plan.findings if f.code != "JNT-005"))
    assert "AUD-419" in {f.code for f in findings(untold, short, stock)}


def test_a_border_has_its_own() -> None:
    brief = evolve(edged(cover={"along_mm": 7200, "across_mm": 2400}))
    families, stock = edging(least_piece_mm=2200), edged_stock()
    plan = drylay.design(brief, stock=stock, families=families)
    assert plan.buildable, plan.findings
    assert (plan.pieces.least_piece_mm, plan.pieces.border.least_piece_mm) == (0, 2200)
    edge = {row.mark for row in plan.surface.rows if row.border}
    assert min(p.length_mm for p in plan.pieces.pieces if p.row in edge) >= 2200
    assert findings(plan, brief, stock, families=families) == ()


# ----- joints over pairs -------------------------------------------------------------------

SALLOWBY = drylay.load_catalogue("catalogs/sallowby.toml")


def paired(**joints: Any) -> Brief:
    return drylay.read_brief({
        "title": "Terrace", "cover": {"along_mm": 5400, "across_mm": 1445},
        "board": {"article": "CS-23-140"},
        "frame": {"article": "UT-45-145", "most_centres_mm": 350},
        "fixings": {"screw": "DX-50-60-A2", "coach_screw": "CX-8-120-A2",
                    "frame_screw": "FX-60-100-A2", "clip": "CL-ROW-5", "starter_clip": "CL-START"},
        "climate": {"laying_c": 12, "hottest_board_c": 50}, "joints": joints,
    })  # fmt: skip


def test_lines_that_leave_a_piece_too_short_stop_the_plan() -> None:
    """1800 - gap / 2 from the edge is under 1800; the gap shared equally."""
    lines, families = paired(lines_mm=[1800, 3600]), composite(least_piece_mm=1800)
    plan = drylay.design(lines, stock=SALLOWBY, families=families)
    (stop,) = [f for f in plan.findings if f.severity is Severity.STOP]
    assert (stop.code, stop.limit) == ("SUP-006", 1800.0)
    assert stop.measured < 1800


def test_lines_that_are_chosen_leave_none_too_short() -> None:
    families = composite(least_piece_mm=1500)
    plan = drylay.design(paired(), stock=SALLOWBY, families=families)
    assert plan.buildable, plan.findings
    assert shortest_mm(plan) >= 1500
    told = drylay.audit(plan, brief=paired(), stock=SALLOWBY, families=families)
    assert told.findings == ()
