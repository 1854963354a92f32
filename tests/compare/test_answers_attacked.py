"""What a sharp reader found wrong in answers about many decks: each fault seen red before."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any
from xml.etree import ElementTree as ET

import pytest

import drylay
from compare.shops import BOARD, brief, families, shop
from compare.study_made import noun
from drylay.compare import (
    holding_chart,
    lengths_kept_chart,
    pareto_chart,
    price_breaks_chart,
    side_by_side_chart,
    size_costs_chart,
    uncertainty_chart,
)
from drylay.compare.merchant_model import (
    HoldingPrice,
    HoldingPrices,
    KeptLengths,
    LengthsToKeep,
    PriceBreaks,
    PriceSpan,
)
from drylay.compare.quantiles import sampled
from drylay.compare.study_model import Row, Uncertainty
from drylay.errors import InputError
from papers.measured import SVG

SEVEN = (2400.0, 3000.0, 3600.0, 4200.0, 4800.0, 5400.0, 6000.0)
LARCH = "Terrace along the orangery at Upper Quarl, in larch"
OAK = LARCH.replace("larch", "oak")
WHY = "BUY-001 cannot be cut from this stock: " + "a long reason, " * 30 + "or allow joints"

ASKED: tuple[tuple[str, Callable[..., Any]], ...] = (
    ("lengths", lambda stock, **more: drylay.lengths_to_keep(
        {"step": brief()}, article=BOARD, stock=stock, **more)),
    ("breaks", lambda stock, **more: drylay.price_breaks(
        brief(), article=BOARD, length_mm=3000, least="10", most="11", stock=stock, **more)),
    ("holding", lambda stock, **more: drylay.holding_prices(
        {"step": brief()}, stock=stock, **more)),
)  # fmt: skip


def faults(ask: Callable[..., Any], *given: Any, **more: Any) -> dict[str, tuple[str, str]]:
    with pytest.raises(InputError) as raised:
        ask(*given, families=families(), **more)
    return {fault.path: (fault.found, fault.nearest) for fault in raised.value.faults}


def layer(svg: bytes, name: str) -> list[ET.Element]:
    groups = ET.fromstring(svg).iter(f"{SVG}g")
    return [part for each in groups if (each.get("id") or "").endswith(name) for part in each]


def words(svg: bytes) -> str:
    return " ".join(part.text or "" for part in ET.fromstring(svg).iter(f"{SVG}text"))


def kept() -> LengthsToKeep:
    choice = noun(KeptLengths, count=7, lengths_mm=SEVEN, cost=Decimal(80), bound=Decimal(80),
                  best_bound=Decimal(79), apart=None, joint_cost=Decimal(0),
                  bought=tuple((mm, 9) for mm in SEVEN))  # fmt: skip
    return noun(LengthsToKeep, article="FT", currency="GBP", decks=((LARCH, 2), (OAK, 1)),
                on_sale_mm=SEVEN, choices=(choice,), cannot=(("X", WHY),), exact=True,
                looked=3)  # fmt: skip


def breaks() -> PriceBreaks:
    span = noun(PriceSpan, name=LARCH, first=Decimal(9), last=Decimal(11), bought=((2400.0, 2),),
                total_first=Decimal(18), total_last=Decimal(22), gap=Decimal("0.50"))  # fmt: skip
    return noun(PriceBreaks, article="DB", length_mm=2400.0, currency="GBP", here=Decimal(10),
                spans=(span,), remarks=((LARCH, "another order could lie hidden"),),
                cannot=(("X", WHY),))  # fmt: skip


def holding() -> HoldingPrices:
    prices = tuple(
        noun(HoldingPrice, name=name, total=Decimal(100), holds=None, dearest=Decimal(120),
             worst=None, loses=(("DB-28-145", 5400.0), ("DB-28-145", 2400.0)))
        for name in (LARCH, OAK)
    )  # fmt: skip
    return noun(HoldingPrices, currency="GBP", articles=("DB-28-145",), prices=prices,
                refused=(("X", WHY),))  # fmt: skip


# --- what cannot be used --------------------------------------------------------------------------


@pytest.mark.parametrize("stock", [None, "catalogs/hobbleden.toml"])
@pytest.mark.parametrize("ask", [ask for _, ask in ASKED], ids=[name for name, _ in ASKED])
def test_a_stock_that_is_none_is_a_fault_and_no_crash(ask: Callable[..., Any], stock: Any) -> None:
    assert list(faults(ask, stock)) == ["stock"]


def test_articles_that_are_no_list_are_a_fault() -> None:
    assert list(faults(dict(ASKED)["holding"], shop(), articles=5)) == ["articles"]


def test_decks_without_names_are_told_how_to_name_them() -> None:
    """A list, or a brief alone: the nearest fix is a name for each."""
    for decks in ([brief()], brief()):
        found = faults(drylay.holding_prices, decks, stock=shop())
        assert found["decks"][1] == '{"a name": brief}'


def test_a_fix_names_what_was_asked_and_not_a_key_of_a_file() -> None:
    found = faults(drylay.price_breaks, brief(), article=BOARD, length_mm=3000, least=12.5,
                   most="13", stock=shop())  # fmt: skip
    assert found["least"] == ("12.5", 'least = "12.50"')


def test_an_aim_with_signs_that_no_paper_prints_is_told_harmlessly() -> None:
    with pytest.raises(InputError) as raised:
        drylay.pareto([{"a": 1, "b": 2}], {"a": "least", "\x1b[31m": "best"})
    assert str(raised.value).replace("\n", "").isprintable()


# --- what is told ---------------------------------------------------------------------------------


def test_no_length_is_cut_off_the_list_of_those_to_keep() -> None:
    told = " ".join(str(kept()).split("HOW IT IS KNOWN")[0].split())
    assert ", ".join(f"9 x {mm:g}" for mm in SEVEN[:3]) in told
    assert all(f"9 x {mm:g}" in told for mm in SEVEN)


def test_with_a_gap_left_it_is_not_claimed_that_nothing_is() -> None:
    assert "no other is left" not in str(kept())


@pytest.mark.parametrize("answer", [kept, breaks, holding])
def test_names_and_reasons_stand_whole_in_the_text(answer: Callable[[], object]) -> None:
    """Two decks whose names differ at their end are two; the fix is at the end of a reason."""
    told = " ".join(str(answer()).split())
    assert LARCH in told
    assert "or allow joints" in told


def test_a_price_list_tells_decks_of_long_names_apart() -> None:
    lines = str(holding()).splitlines()
    assert lines.index(LARCH) < lines.index(OAK)
    said = words(holding_chart.svg_of(holding()))
    assert "larch" in said
    assert "oak" in said
    assert "DB-28-145 5400 mm, 1 more" in said


def test_a_price_break_tells_that_spares_are_in_the_order_and_not_in_what_is_cheapest() -> None:
    assert "Cheapest is what is sawn" in " ".join(str(breaks()).split())


def test_without_an_order_nothing_is_claimed_of_how_it_is_known() -> None:
    none = noun(
        PriceBreaks, article="DB", length_mm=2400.0, currency="GBP", here=Decimal(10), spans=()
    )
    assert "HOW IT IS KNOWN" not in str(none)
    assert "No deck can be built." in words(price_breaks_chart.svg_of(none))


def test_the_picture_of_price_breaks_hides_no_deck_and_no_doubt() -> None:
    said = words(price_breaks_chart.svg_of(breaks()))
    for part in ("Not looked at: X", "another order could lie hidden", "0.50 over the least"):
        assert part in said


def test_the_picture_of_lengths_names_the_whole_mix() -> None:
    said = words(lengths_kept_chart.svg_of(kept()))
    assert "7 lengths on sale; 3 decks" in said
    assert f"2 of {LARCH}, 1 of {OAK}" in said


def test_a_value_that_looks_like_a_numbered_name_is_a_line_of_its_own() -> None:
    """2400, "2400" and "2400 (2)" are three values: they were two lines, one of falling sizes."""
    rows: list[Row] = [
        {"g": value, "x_mm": size, "total": Decimal(size)}
        for value, size in ((2400, 5), ("2400", 9), ("2400 (2)", 7))
    ]
    found = drylay.cost_by_size(rows, "x_mm", by="g")
    assert [line.sizes_mm for line in found.lines] == [(5.0,), (9.0,), (7.0,)]
    assert len({line.name for line in found.lines}) == 3
    assert not found.steps


def test_the_picture_of_a_set_says_nothing_of_what_was_not_put_in() -> None:
    """No board named is the brief's board: "board article none" reads as no board at all."""
    rows: list[Row] = [
        {
            "case": at,
            "board.article": board,
            "outcome": "planned",
            "total": total,
            "cover_m2": total,
        }
        for at, (board, total) in enumerate(((None, 5), ("OAK", 6)))
    ]
    said = words(pareto_chart.svg_of(drylay.pareto(rows, {"total": "least", "cover_m2": "most"})))
    assert "board article OAK" in said
    assert "none" not in said


def test_what_a_joint_is_reckoned_at_keeps_no_deck_out_that_may_have_none() -> None:
    """The first deck may have no joints: at 9.00 or at 1.50, they cost it nothing."""
    decks = {
        "whole": brief(joints={"most_per_row": 0, "price_each": "9.00"}),
        "jointed": brief(2450, 295, joints={"most_per_row": 1, "price_each": "1.50"}),
    }
    found = drylay.lengths_to_keep(decks, article=BOARD, stock=shop(), keep=1, families=families())
    assert not found.cannot
    assert found.joint_price == Decimal("1.50")


def test_groups_and_lines_of_long_names_are_told_apart_in_pictures() -> None:
    """Both names are cut off at the same place: the second is numbered, and both told whole."""
    rows: list[Row] = [
        {"g": name, "x_mm": size, "total": Decimal(size), "currency": "GBP"}
        for name in (LARCH, OAK)
        for size in (5, 9)
    ]
    groups = side_by_side_chart.svg_of(drylay.side_by_side(rows, by="g", of=["total"]))
    lines = size_costs_chart.svg_of(drylay.cost_by_size(rows, "x_mm", by="g"))
    for svg in (groups, lines):
        names = {part.text or "" for part in layer(svg, "names")} - {"1 of 1 can be built"}
        assert any(name.endswith("... (2)") for name in names)
        for name in (LARCH, OAK):
            assert f": {name}" in words(svg)


def test_names_that_are_one_once_made_harmless_are_one_more_time() -> None:
    """A sign that no paper prints is all that tells two groups apart."""
    rows: list[Row] = [{"g": name, "total": Decimal(5)} for name in ("oak", "oak\x07")]
    svg = side_by_side_chart.svg_of(drylay.side_by_side(rows, by="g", of=["total"]))
    names = [part.text for part in layer(svg, "names")]
    assert names[:4:2] == ["oak", "oak (2)"]


# --- samples -------------------------------------------------------------------------------------


def samples() -> Uncertainty:
    """Three samples, one of them blocked, of which a life is known nevertheless."""
    rows: tuple[Row, ...] = tuple(
        {"outcome": outcome, "codes": "", "mode": "quick", "life_least_years": years}
        for outcome, years in (("planned", 8), ("planned", 9), ("blocked", 20))
    )
    figure = sampled("life_least_years", [8, 9], (0, 0.5, 1))
    return noun(Uncertainty, title="Shed", currency="GBP", samples=3, seed=1, blocked=1,
                figures=(figure,), rows=rows, assumed=())  # fmt: skip


def test_shares_are_said_to_be_of_the_samples_with_a_plan() -> None:
    """ "In 1 of 2 samples" is 1 of the 2 that were planned, and 1 of the 3 that were drawn."""
    assert "shares are of the other 2" in " ".join(str(samples()).split())
    assert "shares are of the other 2" in words(uncertainty_chart.svg_of(samples()))


def test_a_blocked_sample_is_no_column_of_the_picture() -> None:
    svg = uncertainty_chart.svg_of(samples())
    assert len(layer(svg, "counts")) == 2
    assert "none below 8" in words(svg)
    assert "all at most 9" in words(svg)


def test_a_brief_of_a_long_title_has_its_price_breaks() -> None:
    """A title may have 200 signs, a deck's name 60."""
    titled = brief(title="A step, " * 20 + "and no more")
    found = drylay.price_breaks(titled, article=BOARD, length_mm=3000, least="12", most="12",
                                stock=shop(), families=families())  # fmt: skip
    assert found.spans[0].name.startswith("A step, A step")
