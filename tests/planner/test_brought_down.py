"""A merchant's centres for a use or an angle they were not given for: never in his favour."""

import math
from functools import cache

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

import drylay
from border_decks import brief as edged
from border_decks import edge
from border_decks import families as edging
from border_decks import stock as edged_stock
from drylay.brief.model import Brief
from drylay.materials.model import Family, RuleQuery
from drylay.materials.stock_model import ArticleRule, Board, Catalogue
from drylay.planner.asking import Asking, asking
from drylay.planner.brought_down import brought_down
from drylay.planner.job import find_articles
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Ruling, Source
from some_families import like_softwood

CARD = Source(kind="merchant record", title="a card (invented)", clause="38 boards")
PATH = "supports.most_centres_mm"
YARD = drylay.load_catalogue("catalogs/hobbleden.toml")
GARDEN = drylay.read_brief("docs/examples/garden.toml").replace("gap", {})


def alone(family: Family) -> FamilySet:
    return drylay.installed_families(entry_points=(), extra=(family,))


def record(value: float) -> Ruling:
    return Ruling(value=value, unit="mm", rule="merchant's most_centres_mm for B", source=CARD,
                  inputs=(("board", "B"),))  # fmt: skip


@cache
def asked(use: str, angle_deg: float) -> Asking:
    """Boards 38 thick of softwood: 600 for a dwelling, 400 in public (common practice)."""
    made = alone(like_softwood("softwood"))
    told = asking(GARDEN, find_articles(GARDEN, YARD), made)
    query = evolve(told.query, board_thickness_mm=38.0, use=use, board_to_joist_deg=angle_deg)
    return evolve(told, query=query)


@pytest.mark.parametrize(
    ("merchant_mm", "use", "angle_deg", "comes_to_mm", "by_hand"),
    [
        (500.0, "dwelling", 90.0, 500.0, "as it was given"),
        (500.0, "public", 90.0, 333.3, "500 x 400 / 600 = 333.33, down"),
        (600.0, "public", 90.0, 400.0, "the family's own"),
        (500.0, "dwelling", 45.0, 353.5, "500 x 424.2 / 600 = 353.5; 600 x sin 45 = 424.26, down"),
        (406.4, "dwelling", 90.0, 406.4, "16 in as it was given"),
        (406.4, "public", 90.0, 270.9, "406.4 x 400 / 600 = 270.93, down"),
    ],
)
def test_it_comes_down_as_the_familys_does(
    merchant_mm: float, use: str, angle_deg: float, comes_to_mm: float, by_hand: str
) -> None:
    found = brought_down(asked(use, angle_deg), record(merchant_mm))
    assert isinstance(found, Ruling)
    assert found.value == comes_to_mm, by_hand
    assert found.source == CARD
    told = dict(found.inputs)
    if comes_to_mm != merchant_mm:
        assert told["merchant_mm"] == merchant_mm
        assert told["family_square_dwelling_mm"] == 600
        assert told["family_here_mm"] == (400 if use == "public" else 424.2)
        assert str(told["family_source"]).startswith("common practice: ")


@given(st.floats(100, 1500), st.sampled_from(["dwelling", "public"]), st.integers(30, 90))
def test_it_never_goes_up(merchant_mm: float, use: str, angle_deg: int) -> None:
    found = brought_down(asked(use, float(angle_deg)), record(merchant_mm))
    assert isinstance(found, Ruling)
    assert found.value <= merchant_mm
    assert found.value == merchant_mm or found.value == math.floor(found.value * 10 + 1e-9) / 10


def test_a_family_laxer_in_public_lifts_nothing() -> None:
    def lax(query: RuleQuery) -> Ruling:
        return Ruling(value=400.0 + 200 * (query.use == "public"), unit="mm", rule="lax",
                      source=CARD)  # fmt: skip

    families = alone(like_softwood("softwood", most_centres_mm=lax))
    public = evolve(asked("public", 90.0), families=families)
    found = brought_down(public, record(500.0))
    assert isinstance(found, Ruling)
    assert found.value == 500.0


def test_what_the_family_does_not_cover_cannot_be_brought_down() -> None:
    found = brought_down(asked("dwelling", 15.0), record(500.0))
    assert isinstance(found, RuleFault)
    assert "500 mm for boards square to the joists of a dwelling" in found.wrong


# ----- whole plans, audited ----------------------------------------------------------------


def sold(stock: Catalogue, code: str, centres_mm: float) -> Catalogue:
    own = ArticleRule(rule="most_centres_mm", value=centres_mm, source=CARD)

    def ruled(board: Board) -> Board:
        return evolve(board, rules=(own,)) if board.code == code else board

    return evolve(stock, boards=tuple(map(ruled, stock.boards)))


def families(square_mm: float, public_mm: float | None) -> FamilySet:
    def centres(query: RuleQuery) -> Ruling:
        value = square_mm if query.use == "dwelling" else public_mm
        if value is None:
            raise NotCoveredError("public use")
        return Ruling(value=value, unit="mm", rule="by use", source=CARD)

    return alone(like_softwood("softwood", most_centres_mm=centres))


def in_public(brief: Brief) -> Brief:
    return evolve(brief, use="public", frame=evolve(brief.frame, most_centres_mm=None))


def test_a_public_deck_takes_it_brought_down_and_the_audit_recomputes_it() -> None:
    """450 x 300 / 400 = 337.5."""
    brief, stock = in_public(GARDEN), sold(YARD, GARDEN.board.article, 450.0)
    ruled = families(400.0, 300.0)
    plan = drylay.design(brief, stock=stock, families=ruled)
    assert plan.buildable, plan.findings
    assert plan.supports.most_centres_mm == 337.5
    (caution,) = [f for f in plan.findings if f.code == "MAT-004"]
    assert (caution.measured, caution.limit) == (337.5, 300.0)
    witnessed = {"brief": brief, "stock": stock, "families": ruled}
    assert drylay.audit(plan, **witnessed).findings == ()
    lied = evolve(plan, supports=evolve(plan.supports, most_centres_mm=450.0))
    assert "AUD-W09" in {f.code for f in drylay.audit(lied, **witnessed).findings}


def test_a_public_deck_that_the_family_does_not_cover_stops() -> None:
    brief, stock = in_public(GARDEN), sold(YARD, GARDEN.board.article, 450.0)
    plan = drylay.design(brief, stock=stock, families=families(400.0, None))
    assert not plan.buildable
    stop = next(f for f in plan.findings if f.code == "MAT-001" and f.subject == PATH)
    assert "cannot be brought down" in stop.message


def test_a_borders_record_is_brought_down_too() -> None:
    """Softwood's 400 for 28 boards in public use; the border's 450 x 300 / 400 = 337.5."""

    def centres(query: RuleQuery) -> Ruling:
        return Ruling(value=300.0 if query.use == "public" else 400.0, unit="mm", rule="by use",
                      source=CARD)  # fmt: skip

    ruled = edging(most_centres_mm=centres)  # type: ignore[arg-type]
    stock = evolve(edged_stock(), boards=(*YARD.boards, edge()))
    brief, stock = in_public(edged()), sold(stock, "EDGE", 450.0)
    plan = drylay.design(brief, stock=stock, families=ruled)
    assert plan.buildable, plan.findings
    assert plan.supports.most_centres_mm == 337.5
    assert drylay.audit(plan, brief=brief, stock=stock, families=ruled).findings == ()
