"""What a deck costs a year: laws, printed factors, examples by hand, and bad input."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.compare.model import YearlyCost
from drylay.compare.years import capital_recovery_ratio, yearly_cost

COIN = Decimal("0.01")
RATES = st.integers(0, 300).map(lambda mille: mille / 1000)
YEARS = st.integers(1, 60)
PRICES = st.integers(0, 1_000_000).map(lambda coins: Decimal(coins) / 100)


@st.composite
def decks(draw: st.DrawFn) -> dict[str, object]:
    return {
        "surface": draw(PRICES),
        "frame": draw(PRICES),
        "surface_years": draw(YEARS),
        "frame_years": draw(YEARS),
        "rate_ratio": draw(RATES),
    }


def cost(deck: dict[str, object], **more: object) -> YearlyCost:
    return yearly_cost(**{**deck, **more})  # type: ignore[arg-type]


def capital(deck: dict[str, object], **more: object) -> Decimal:
    return cost(deck, **more).capital


# ----- printed factors -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("rate_ratio", "years", "printed"),
    [
        (0.05, 10, "0.1295"),
        (0.08, 20, "0.1019"),
        (0.10, 5, "0.2638"),
        (0.06, 15, "0.1030"),
        (0.12, 10, "0.1770"),
        (0.04, 25, "0.0640"),
        (0.03, 30, "0.0510"),
        (0.10, 1, "1.1000"),
    ],
)
def test_factors_of_compound_interest_tables(rate_ratio: float, years: int, printed: str) -> None:
    """(A/P, i, n) to four decimals, as compound interest tables print it: from memory."""
    ratio = capital_recovery_ratio(rate_ratio, years)
    assert f"{float(ratio):.4f}" == printed


# ----- laws ----------------------------------------------------------------------------


@given(years=YEARS)
def test_without_interest_a_price_is_shared_out_evenly(years: int) -> None:
    assert capital_recovery_ratio(0.0, years) == Fraction(1, years)
    nearly = capital_recovery_ratio(1e-9, years)
    assert float(nearly) == pytest.approx(1 / years, rel=1e-6)


@given(rate_ratio=RATES, years=YEARS)
def test_the_years_of_a_life_pay_back_the_price_with_interest(
    rate_ratio: float, years: int
) -> None:
    """A loan book: each year the debt grows by its interest and shrinks by the payment."""
    payment, debt = capital_recovery_ratio(rate_ratio, years), Fraction(1)
    for _ in range(years):
        debt = debt * (1 + Fraction(repr(rate_ratio))) - payment
    assert debt == 0


@given(deck=decks(), longer=st.integers(0, 30))
def test_a_longer_life_is_never_dearer(deck: dict[str, int], longer: int) -> None:
    now = capital(deck)
    assert capital(deck, surface_years=deck["surface_years"] + longer) <= now
    assert capital(deck, frame_years=deck["frame_years"] + longer) <= now


@given(deck=decks(), more=st.integers(0, 100))
def test_a_higher_rate_is_never_cheaper(deck: dict[str, float], more: int) -> None:
    assert capital(deck, rate_ratio=deck["rate_ratio"] + more / 1000) >= capital(deck)


@given(deck=decks(), more=PRICES)
def test_a_higher_price_is_never_cheaper(deck: dict[str, Decimal], more: Decimal) -> None:
    assert capital(deck, surface=deck["surface"] + more) >= capital(deck)
    assert capital(deck, frame=deck["frame"] + more) >= capital(deck)


@given(deck=decks(), times=st.integers(1, 50))
def test_prices_scale_but_for_the_last_coin(deck: dict[str, Decimal], times: int) -> None:
    scaled = {"surface": deck["surface"] * times, "frame": deck["frame"] * times}
    assert times * (capital(deck) - 2 * COIN) <= capital(deck, **scaled) <= times * capital(deck)


@given(deck=decks())
def test_boards_laid_again_are_never_dearer_than_new_ones(deck: dict[str, object]) -> None:
    told = cost(deck)
    assert told.laid_again is not None
    assert told.laid_again <= told.capital


@given(deck=decks(), tenths=st.integers(0, 500), price=PRICES.filter(lambda p: p <= 10_000))
def test_the_parts_add_up(deck: dict[str, object], tenths: int, price: Decimal) -> None:
    told = cost(deck, upkeep_h=tenths / 10, hour_price=price)
    assert told.capital == told.surface + told.frame
    assert told.upkeep is not None
    assert told.upkeep - COIN < price * tenths / 10 <= told.upkeep
    assert told.total == told.capital + told.upkeep


@given(deck=decks())
def test_no_renewal_is_cheaper(deck: dict[str, int]) -> None:
    """Every number of years after which all could be renewed, its cash flow year by year."""
    rate = Fraction(repr(deck["rate_ratio"]))
    worth = [(1 + rate) ** -year for year in range(deck["frame_years"] + 1)]
    cheapest = min(
        sum(
            (Fraction(deck["frame"]) if not year else 0)
            + (Fraction(deck["surface"]) if year % deck["surface_years"] == 0 else 0) * worth[year]
            for year in range(span)
        )
        / sum(worth[1 : span + 1])
        for span in range(1, deck["frame_years"] + 1)
    )
    assert cheapest <= capital(deck) < cheapest + Fraction(2, 100)


# ----- by hand -------------------------------------------------------------------------


def test_lives_that_fit() -> None:
    """10 %, 1 and 2 years: 100 x 1.1 = 110; 210 x 0.1 / (1 - 1/1.21) = 210 x 0.121/0.21."""
    told = yearly_cost(surface=100, frame=210, surface_years=1, frame_years=2, rate_ratio=0.1)
    assert (told.surface, told.frame, told.total) == (110, 121, 231)
    assert (told.renewed_after_years, told.surfaces_bought, told.governs) == (2, 2, "boards")
    assert told.laid_again == told.total


def test_a_frame_that_dies_first_takes_its_boards_along() -> None:
    """(100 + 50) / 10 years; laid again 100 / 20 + 50 / 10."""
    told = yearly_cost(surface=100, frame=50, surface_years=20, frame_years=10)
    assert (told.capital, told.laid_again) == (15, 10)
    assert (told.renewed_after_years, told.surfaces_bought, told.governs) == (10, 1, "frame")


def test_a_dear_frame_serves_out_its_life() -> None:
    """2 years on a frame of 3: (300 + 2 x 60) / 3 = 140, against (300 + 60) / 2 = 180."""
    told = yearly_cost(surface=60, frame=300, surface_years=2, frame_years=3)
    assert (told.capital, told.renewed_after_years, told.surfaces_bought) == (140, 3, 2)


def test_a_cheap_frame_goes_with_its_boards() -> None:
    """(30 + 60) / 2 = 45, against (30 + 2 x 60) / 3 = 50."""
    told = yearly_cost(surface=60, frame=30, surface_years=2, frame_years=3)
    assert (told.capital, told.renewed_after_years, told.surfaces_bought) == (45, 2, 1)


def test_equal_lives_end_together() -> None:
    assert yearly_cost(surface=6, frame=3, surface_years=3, frame_years=3).governs == "both"


def test_money_is_rounded_up() -> None:
    """10 / 3 = 3.333..., twice; hours 0.1 x 0.11 = 0.011."""
    told = yearly_cost(
        surface=10, frame=10, surface_years=3, frame_years=3, upkeep_h=0.1, hour_price="0.11"
    )
    parts = (told.surface, told.frame, told.upkeep, told.total)
    assert list(map(str, parts)) == ["3.34", "3.34", "0.02", "6.70"]
    yen = yearly_cost(surface=10, frame=10, surface_years=3, frame_years=3, minor_digits=0)
    assert str(yen.total) == "8"


def test_upkeep_is_the_same_for_boards_laid_again() -> None:
    """100 / 20 + 50 / 10 + 2 x 3."""
    told = yearly_cost(
        surface=100, frame=50, surface_years=20, frame_years=10, upkeep_h=2, hour_price=3
    )
    assert (told.total, told.laid_again) == (21, 16)


def test_hours_without_a_price_stand_apart() -> None:
    told = yearly_cost(surface=10, frame=10, surface_years=2, frame_years=2, upkeep_h=3)
    assert (told.upkeep_h, told.upkeep, told.total) == (3, None, 10)


def test_a_price_without_hours_leaves_the_total_open() -> None:
    told = yearly_cost(surface=10, frame=10, surface_years=2, frame_years=2, hour_price=25)
    assert (told.capital, told.upkeep, told.total, told.laid_again) == (10, None, None, None)


# ----- bad input -----------------------------------------------------------------------


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(drylay.InputError) as caught:
        yearly_cost(
            surface=1.5,  # type: ignore[arg-type]
            frame=Decimal(-1),
            surface_years=0,
            frame_years=1.5,  # type: ignore[arg-type]
            rate_ratio=float("nan"),
            upkeep_h=-1,
            hour_price="dear",
            minor_digits=9,
        )
    assert [fault.path for fault in caught.value.faults] == [
        "minor_digits", "surface", "frame", "surface_years", "frame_years", "rate_ratio",
        "upkeep_h", "hour_price",
    ]  # fmt: skip


def test_per_cent_for_a_ratio_is_answered_with_the_ratio() -> None:
    with pytest.raises(drylay.InputError, match=r"rate_ratio = 0.04, if 4 % is meant"):
        capital_recovery_ratio(4, 10)


def test_a_price_finer_than_the_currency_is_a_fault() -> None:
    with pytest.raises(drylay.InputError, match="at most 2 decimals"):
        yearly_cost(surface="1.005", frame=1, surface_years=1, frame_years=1)
