"""Prices as a list may tell them: of a length or pack, for a metre, or for each."""

from decimal import Decimal
from fractions import Fraction
from math import ceil

from drylay.marks import exact

#: 1/320 mm in a metre.
_TICKS_PER_M = 320_000


def to_coin(price: Decimal, digits: int) -> Decimal:
    """Return a price with all decimals of its currency: 14.4 is 14.40."""
    return price.quantize(Decimal(1).scaleb(-digits))


def price_by_metre(price_per_m: Decimal, length_mm: float, digits: int) -> Decimal:
    """Return the price of a length at so much a metre, up to the next whole coin.

    Source: assumption; a part of a coin is never rounded in the buyer's favour.
    """
    return Decimal(ceil(_coins(price_per_m, length_mm, digits))).scaleb(-digits)


def is_rounded(price_per_m: Decimal, length_mm: float, digits: int) -> bool:
    """Whether a length at so much a metre comes to no whole coin."""
    return _coins(price_per_m, length_mm, digits).denominator > 1


def _coins(price_per_m: Decimal, length_mm: float, digits: int) -> Fraction:
    per_m = Fraction(price_per_m) * Fraction(10) ** digits
    return per_m * Fraction(exact(length_mm), _TICKS_PER_M)
