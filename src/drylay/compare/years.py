"""What a deck costs a year: its price spread over the lives of boards and frame, and upkeep."""

from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import TypeVar

from attrs import evolve, frozen

from drylay.compare.model import YearlyCost
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.intake.keys import count, money, number
from drylay.intake.values import number_of, read_count, read_money, read_number
from drylay.reasons import Source

#: Bounds of sense. Source: assumption.
MOST_RATE, MOST_YEARS, MOST_MONEY, MOST_HOURS = 0.5, 200, 1_000_000_000, 100_000
MOST_HOUR_PRICE = 10_000
#: An hour may be priced as finely as any currency goes. Source: ISO 4217.
PRICE_DIGITS = 4
RECOVERY = Source(
    kind="from memory",
    title="engineering economics textbooks",
    clause="capital recovery factor (A/P, i, n) = i / (1 - (1 + i)^-n)",
)

Money = Decimal | int | str
_Read = TypeVar("_Read")


def capital_recovery_ratio(rate_ratio: float, years: int) -> Fraction:
    """Return what a price of 1 costs at the end of each year of its life: (A/P, i, n), exactly.

    Without interest that is 1 / n, which is also what it comes to as the rate goes to 0.

    Raises:
        InputError: Rate or years are beyond sense; lists both.

    Source: `RECOVERY`.
    """
    wrong: list[Fault] = []
    rate = _read_rate(rate_ratio, wrong)
    span = _read_years("years", years, wrong)
    if wrong:
        raise InputError(tuple(wrong))
    return _recovery(rate, span)


@counted
def yearly_cost(
    *,
    surface: Money,
    frame: Money,
    surface_years: int,
    frame_years: int,
    rate_ratio: float = 0.0,
    upkeep_h: float | None = None,
    hour_price: Money | None = None,
    minor_digits: int = 2,
) -> YearlyCost:
    """Return what boards and frame cost a year, bought again for good, with upkeep.

    Boards do not outlive what carries them: when a frame is renewed, new boards are laid, and
    boards that wear out before it are renewed on it. A frame may be renewed early, with the last
    boards that fill their life on it, where that costs less. Every part is rounded up to the
    smallest coin, so that the parts add up to the total.

    Args:
        surface: Price of the boards and what holds them.
        frame: Price of what they lie on.
        surface_years: Life of the boards.
        frame_years: Life of the frame.
        rate_ratio: Interest a year, 0.04 for 4 %.
        upkeep_h: Hours of upkeep a year, None where they are not known.
        hour_price: What an hour is worth; without it hours are told and not priced.
        minor_digits: Decimals of the currency.

    Raises:
        InputError: A figure cannot be used; lists every one.

    Source: `RECOVERY`; that boards go with the frame: assumption, docs/compare.md.
    """
    wrong: list[Fault] = []
    digits = _read_digits(minor_digits, wrong)
    terms = _Terms(
        surface=_read_price("surface", surface, digits, wrong),
        frame=_read_price("frame", frame, digits, wrong),
        surface_years=_read_years("surface_years", surface_years, wrong),
        frame_years=_read_years("frame_years", frame_years, wrong),
        rate=_read_rate(rate_ratio, wrong),
        digits=digits,
    )
    hours = None if upkeep_h is None else _read_hours(upkeep_h, wrong)
    price = read_hour_price(hour_price, wrong)
    if wrong:
        raise InputError(tuple(wrong))
    return _with_upkeep(_cheapest(terms), _laid_again(terms), hours, price, digits)


def priced_upkeep(upkeep_h: float, hour_price: Decimal, minor_digits: int) -> Decimal:
    """Return what a year's hours of upkeep are worth, rounded up to the smallest coin."""
    return _up(Fraction(repr(upkeep_h)) * Fraction(hour_price), minor_digits)


def read_hour_price(hour_price: Money | None, wrong: list[Fault]) -> Decimal | None:
    """Return the price of an hour, None without one; what is wrong with it goes on the list."""
    if hour_price is None:
        return None
    key = money("hour_price", 0, MOST_HOUR_PRICE, digits=PRICE_DIGITS)
    return _kept("hour_price", read_money(key, hour_price), Decimal(0), wrong)


def read_rate_ratio(rate_ratio: float, wrong: list[Fault]) -> float:
    """Return a rate of interest as a plain float; what is wrong with it goes on the list."""
    return float(_read_rate(rate_ratio, wrong))


@frozen(kw_only=True)
class _Terms:
    surface: Decimal
    frame: Decimal
    surface_years: int
    frame_years: int
    rate: Fraction
    digits: int


def _cheapest(terms: _Terms) -> YearlyCost:
    """Return the cost with everything renewed when the frame ends, or earlier where cheaper.

    Between two ends of boards' lives every further year makes all of it cheaper, and so does
    every further life filled: so only the frame's whole life, and the last boards' end within it,
    can be the cheapest.
    """
    filled = terms.frame_years // terms.surface_years * terms.surface_years
    spans = [terms.frame_years, *([filled] if filled else [])]
    return min((_renewed_after(terms, span) for span in spans), key=lambda cost: cost.capital)


def _renewed_after(terms: _Terms, span: int) -> YearlyCost:
    recovery = _recovery(terms.rate, span)
    bought = -(-span // terms.surface_years)
    worth = sum(
        (_today(terms.rate, time * terms.surface_years) for time in range(bought)), Fraction(0)
    )
    surface = _up(Fraction(terms.surface) * worth * recovery, terms.digits)
    frame = _up(Fraction(terms.frame) * recovery, terms.digits)
    return YearlyCost(
        surface=surface,
        frame=frame,
        capital=surface + frame,
        upkeep_h=None,
        upkeep=None,
        total=None,
        laid_again=None,
        renewed_after_years=span,
        surfaces_bought=bought,
        governs=_governs(terms),
    )


def _governs(terms: _Terms) -> str:
    if terms.surface_years == terms.frame_years:
        return "both"
    return "boards" if terms.surface_years < terms.frame_years else "frame"


def _laid_again(terms: _Terms) -> Decimal:
    """Return the capital cost with each part bought again at the end of its own life."""
    parts = ((terms.surface, terms.surface_years), (terms.frame, terms.frame_years))
    yearly = (
        _up(Fraction(price) * _recovery(terms.rate, years), terms.digits) for price, years in parts
    )
    return sum(yearly, Decimal(0))


def _with_upkeep(
    cost: YearlyCost, laid_again: Decimal, hours: float | None, price: Decimal | None, digits: int
) -> YearlyCost:
    """Return the cost with upkeep: priced where there is a price, or its hours alone."""
    told = evolve(cost, upkeep_h=hours)
    if price is None:
        return evolve(told, total=cost.capital, laid_again=laid_again)
    if hours is None:
        return told
    upkeep = priced_upkeep(hours, price, digits)
    return evolve(told, upkeep=upkeep, total=cost.capital + upkeep, laid_again=laid_again + upkeep)


def _recovery(rate: Fraction, years: int) -> Fraction:
    return rate / (1 - _today(rate, years)) if rate else Fraction(1, years)


def _today(rate: Fraction, years: int) -> Fraction:
    """Return what 1 that is due after so many years is worth today."""
    return (1 + rate) ** -years


def _up(exact: Fraction, digits: int) -> Decimal:
    """Return money rounded up to the smallest coin: never in the builder's favour."""
    return Decimal(ceil(exact * 10**digits)).scaleb(-digits)


def _read_rate(rate_ratio: object, wrong: list[Fault]) -> Fraction:
    key = number("rate_ratio", 0, MOST_RATE)
    read = read_number(key, rate_ratio)
    given = number_of(rate_ratio)
    if isinstance(read, Fault) and given is not None and MOST_RATE < given <= 100 * MOST_RATE:
        read = evolve(read, nearest=f"rate_ratio = {given / 100:g}, if {given:g} % is meant")
    return Fraction(repr(_kept("rate_ratio", read, 0.0, wrong)))


def _read_years(name: str, years: object, wrong: list[Fault]) -> int:
    return _kept(name, read_count(count(name, 1, MOST_YEARS), years), 1, wrong)


def _read_digits(minor_digits: object, wrong: list[Fault]) -> int:
    read = read_count(count("minor_digits", 0, PRICE_DIGITS), minor_digits)
    return _kept("minor_digits", read, PRICE_DIGITS, wrong)


def _read_price(name: str, price: object, digits: int, wrong: list[Fault]) -> Decimal:
    read = read_money(money(name, 0, MOST_MONEY, digits=digits), price)
    return _kept(name, read, Decimal(0), wrong)


def _read_hours(upkeep_h: object, wrong: list[Fault]) -> float:
    read = read_number(number("upkeep_h", 0, MOST_HOURS), upkeep_h)
    return _kept("upkeep_h", read, 0.0, wrong)


def _kept(path: str, read: _Read | Fault, instead: _Read, wrong: list[Fault]) -> _Read:
    """Return what was read; a fault goes on the list, and something harmless comes back."""
    if not isinstance(read, Fault):
        return read
    wrong.append(evolve(read, path=path))
    return instead
