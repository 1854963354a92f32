"""One brief across families: figures, lives, blocked plans, and figures nobody tells."""

import threading
from decimal import Decimal

import pytest
from attrs import evolve

import drylay
from compare.small import LONG, ROOT, TWO, YEARS, brief, families, stock
from drylay.compare.families import across_families
from drylay.compare.model import ComparedDeck, Comparison
from drylay.compare.parts import outlay, saw_cuts, sawn_pieces
from drylay.findings import Severity


@pytest.fixture(scope="module")
def two() -> Comparison:
    return across_families(
        brief(), TWO, stock=stock(), families=families(), rate_ratio=0.05, hour_price="20"
    )


def one_deck(**more: object) -> ComparedDeck:
    asked = {"stock": stock(), "families": families(), **more}
    return across_families(brief(), {"one": {}}, **asked).decks[0]  # type: ignore[arg-type]


# ----- figures -------------------------------------------------------------------------


def test_rows_have_one_set_of_names_in_the_order_given(two: Comparison) -> None:
    soft, lasting = two.measures()
    assert (soft["name"], lasting["name"]) == ("soft", "lasting")
    assert (soft["families"], lasting["families"]) == ("softwood", "lasting")
    blocked = across_families(
        brief(), {"wide": {"frame.most_centres_mm": 600}}, stock=stock(), families=families()
    )
    assert list(soft) == list(lasting) == list(blocked.measures()[0])


def test_figures_of_the_small_deck(two: Comparison) -> None:
    """By hand: 9 boards of 9.60, 2 boxes at 12.60; a timber of 17.30, 4 of 11.50, 3 boxes at 7.80.

    Eight boards and two rims are bought just so; seven joists of 1105 mm come out of three lengths,
    a cut each.
    """
    row = two.measures()[0]
    assert row["surface_cost"] == Decimal("111.60")
    assert row["frame_cost"] == Decimal("86.70")
    assert row["first_cost"] == Decimal("198.30")
    assert (row["cuts"], row["sawn_pieces"], row["joints"]) == (7, 7, 0)
    assert row["mass_kg"] == two.decks[0].plan.measures()["delivery_kg"]


def test_a_year_of_the_small_deck(two: Comparison) -> None:
    """2.4 x 1.195 m at 0.5 h/m2 are 1.434 h, 28.68 at 20; a frame of 15 years, boards of 8.

    (A/P, 5 %, 15) = 0.096342, (P/F, 5 %, 8) = 0.676839, from memory: boards twice,
    111.60 x 1.676839 x 0.096342 = 18.0289; frame 86.70 x 0.096342 = 8.3529.
    """
    soft = two.decks[0]
    assert soft.upkeep_h == 1.434
    assert soft.upkeep == Decimal("28.68")
    assert soft.short is not None
    assert (soft.short.surface, soft.short.frame) == (Decimal("18.03"), Decimal("8.36"))
    assert soft.short.total == Decimal("55.07")
    assert (soft.short.renewed_after_years, soft.short.surfaces_bought) == (15, 2)


def test_ends_of_the_range_go_with_the_lives(two: Comparison) -> None:
    for deck, row in zip(two.decks, two.measures(), strict=True):
        assert deck.short is not None
        assert deck.long is not None
        assert row["yearly_least"] == deck.long.total
        assert row["yearly_most"] == deck.short.total
        assert deck.long.total < deck.short.total  # type: ignore[operator]


def test_parts_of_the_example_deck_by_article() -> None:
    """The frame is timber, coach and frame screws, fabric, gravel, packers; all else is boards."""
    garden = drylay.read_brief(ROOT / "docs" / "examples" / "garden.toml")
    plan = drylay.design(garden, stock=stock(), families=families())
    assert plan.buying is not None
    carry = {"FT-45-145", "CS-8-120", "FS-60-90", "GF-2", "GR-20", "PD-28-60"}
    lines = (*plan.buying.order, *plan.buying.spares)
    frame = sum((line.total for line in lines if line.article in carry), Decimal(0))
    parts = outlay(plan.buying)
    assert {line.article for line in lines} >= carry
    assert parts.frame == frame
    assert parts.surface + parts.frame == plan.buying.total


def test_a_box_for_boards_and_frame_goes_with_the_boards() -> None:
    plan = one_deck().plan
    assert plan.buying is not None
    coach = next(pack for pack in plan.buying.packs if pack.what == "coach screws")
    both = evolve(coach, what="deck screws, coach screws")
    packs = tuple(both if pack is coach else pack for pack in plan.buying.packs)
    assert outlay(evolve(plan.buying, packs=packs)).frame == Decimal("86.70") - coach.cost


def test_cuts_with_a_trim() -> None:
    """By hand from the purchase: 17 pieces of board and 11 of timber out of 7 and 5 lengths."""
    trimmed = brief().replace("cutting.end_trim_mm", 5).replace("cover.along_mm", 3000)
    plan = drylay.design(trimmed, stock=stock(), families=families())
    assert plan.buying is not None
    lengths = [length for part in plan.buying.purchases for length in part.lengths]
    assert (len(lengths), sum(len(length.pieces) for length in lengths)) == (12, 28)
    assert (saw_cuts(plan), sawn_pieces(plan)) == (40, 28)


# ----- lives ---------------------------------------------------------------------------


def test_a_frame_that_dies_before_its_boards_is_told_with_the_years(two: Comparison) -> None:
    soft, lasting = two.decks
    assert soft.remarks == ()
    assert [remark.code for remark in lasting.remarks] == ["LIF-001", "LIF-001"]
    first = lasting.remarks[0]
    assert (first.measured, first.limit, first.unit) == (15, 20, "years")
    assert "with 5 years left in them" in first.message
    assert lasting.short is not None
    assert lasting.short.governs == "frame"
    assert lasting.short.laid_again < lasting.short.total  # type: ignore[operator]


def test_a_frame_that_ends_with_its_boards_is_nothing_to_tell() -> None:
    even = YEARS | {"life_least_years": 15, "life_most_years": 30}
    deck = one_deck(families=families(soft=even))
    assert deck.remarks == ()
    assert deck.short is not None
    assert deck.short.governs == "both"


def test_answers_keep_their_source(two: Comparison) -> None:
    found = {decision.path: decision for decision in two.decks[0].reasons.decisions}
    assert set(found) == {*YEARS, "capital_least", "capital_most"}
    assert found["life_least_years"].source.clause == "a test"
    assert found["capital_most"].source.kind == "from memory"
    assert found["capital_most"].value == str(two.measures()[0]["capital_most"])


def test_the_merchants_record_comes_before_the_family() -> None:
    own = stock(life_least_years=25, life_most_years=30.7)
    deck = across_families(
        brief(), {"lasting": TWO["lasting"]}, stock=own, families=families()
    ).decks[0]
    assert (deck.lives.surface_least_years, deck.lives.surface_most_years) == (25, 30)
    decision = next(d for d in deck.reasons.decisions if d.path == "life_most_years")
    assert decision.source.kind == "merchant record"
    assert decision.inputs[-1] == ("answered", 30.7)  # a part of a year is left off


# ----- what is not known ---------------------------------------------------------------


def test_what_no_family_tells_is_not_known() -> None:
    deck = one_deck(families=families(soft={}), hour_price=25)
    assert deck.plan.buildable
    assert deck.outlay is not None
    assert (deck.short, deck.long, deck.upkeep_h, deck.upkeep) == (None, None, None, None)
    assert deck.not_known == ("upkeep_h", "life_least_years", "life_most_years",
                              "frame_life_least_years", "frame_life_most_years")  # fmt: skip
    assert {remark.code for remark in deck.remarks} == {"LIF-002"}
    assert deck.remarks[0].severity is Severity.NOTE


def test_unknown_upkeep_leaves_the_total_open_and_the_capital_known() -> None:
    told = {rule: years for rule, years in YEARS.items() if rule != "upkeep_h_m2_year"}
    deck = one_deck(families=families(soft=told), hour_price=25)
    assert deck.not_known == ("upkeep_h",)
    assert deck.short is not None
    assert (deck.short.total, deck.short.upkeep) == (None, None)
    assert deck.short.capital > 0
    apart = one_deck(families=families(soft=told))
    assert apart.short is not None
    assert apart.short.total == apart.short.capital


@pytest.mark.parametrize("rule", ["life_least_years", "upkeep_h_m2_year"])
def test_a_figure_beyond_sense_is_not_believed(rule: str) -> None:
    deck = one_deck(families=families(soft=YEARS | {rule: 5_000}))
    assert [remark.code for remark in deck.remarks] == ["LIF-003"]
    assert rule.replace("_m2_year", "") in deck.not_known
    assert deck.long is not None


def test_a_range_upside_down_is_not_believed() -> None:
    deck = one_deck(families=families(soft=YEARS | {"life_least_years": 16}))
    assert [remark.code for remark in deck.remarks] == ["LIF-004"]
    assert deck.not_known == ("life_least_years", "life_most_years")
    assert (deck.short, deck.long) == (None, None)


# ----- blocked plans -------------------------------------------------------------------


def test_a_blocked_plan_is_a_row_with_its_stops() -> None:
    alternatives = {"wide": {"frame.most_centres_mm": 600}, **TWO}
    compared = across_families(brief(), alternatives, stock=stock(), families=families())
    wide, soft, _ = compared.measures()
    assert (wide["buildable"], wide["stop_codes"]) == (False, "MAT-002")
    assert wide["first_cost"] is wide["yearly_most"] is wide["cuts"] is None
    assert wide["life_least_years"] == 8
    assert soft["buildable"]


def test_a_family_that_no_plugin_supplies_is_a_blocked_row() -> None:
    compared = across_families(brief(), TWO, stock=stock(), families=families(lasting=None))
    soft, lasting = compared.measures()
    assert soft["buildable"]
    assert (lasting["families"], lasting["stop_codes"]) == ("lasting", "MAT-001")
    assert compared.decks[1].lives.surface_least_years is None


# ----- going on ------------------------------------------------------------------------


def test_progress_counts_alternatives() -> None:
    told: list[tuple[str, int, int]] = []
    across_families(brief(), TWO, stock=stock(), families=families(),
                    progress=lambda *step: told.append(step))  # fmt: skip
    assert told[0][1:] == (0, 2)
    assert told[-1] == ("done", 2, 2)
    assert {total for *_, total in told} == {2}
    assert [done for _, done, _ in told] == sorted(done for _, done, _ in told)
    assert any(step.startswith("lasting: ") for step, *_ in told)


def test_it_can_be_cancelled() -> None:
    token = threading.Event()
    token.set()
    with pytest.raises(drylay.Cancelled):
        across_families(brief(), TWO, stock=stock(), families=families(), cancel=token)


def test_the_same_again_is_the_same(two: Comparison) -> None:
    again = across_families(
        brief(), TWO, stock=stock(), families=families(), rate_ratio=0.05, hour_price=20
    )
    assert again.papers() == two.papers()


def test_each_alternative_may_have_a_stock_of_its_own() -> None:
    yard = stock()
    dearer = evolve(yard, boards=tuple(_twice_as_dear(board) for board in yard.boards))
    compared = across_families(
        brief(), {"here": {}, "there": {}}, stock={"here": yard, "there": dearer},
        families=families(),
    )  # fmt: skip
    here, there = compared.measures()
    assert there["surface_cost"] > here["surface_cost"]  # type: ignore[operator]
    assert there["frame_cost"] == here["frame_cost"]


def _twice_as_dear(board: object) -> object:
    lengths = tuple(evolve(one, price=2 * one.price) for one in board.lengths)  # type: ignore[attr-defined]
    return evolve(board, lengths=lengths)  # type: ignore[arg-type]


def test_a_longer_life_in_a_family_is_never_dearer(two: Comparison) -> None:
    longer = {rule: value + 5 * rule.startswith("life") for rule, value in YEARS.items()}
    again = across_families(
        brief(), TWO, stock=stock(), families=families(soft=longer), rate_ratio=0.05, hour_price=20
    )
    for name in ("yearly_least", "yearly_most"):
        assert again.measures()[0][name] <= two.measures()[0][name]  # type: ignore[operator]
    assert LONG["life_least_years"] > YEARS["life_least_years"]
