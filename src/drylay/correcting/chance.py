"""Chances of what is spread normally, rounded so that nobody is promised more than there is."""

from math import ceil, erf, floor, inf, sqrt

from drylay.correcting.model import Spread

#: Chances are told in whole thousandths, standard deviations in hundredths of a millimetre.
PER_CHANCE, PER_SD = 1000, 100
#: What a float sum may be off, so that the same figures are rounded alike on every machine.
SLACK = 1e-6


def below(at: float, sd: float) -> float:
    """Return the chance that a normal value of mean 0 lies at `at` or below."""
    if sd <= 0:
        return 1.0 if at >= 0 else 0.0
    return (1 + erf(at / (sd * sqrt(2)))) / 2


def between(low: float, high: float, sd: float) -> float:
    """Return the chance that a normal value of mean 0 lies in a range, ends included."""
    if sd <= 0:
        return 1.0 if low <= 0 <= high else 0.0
    return max(0.0, below(high, sd) - below(low, sd))


def chance_down(chance: float) -> float:
    """Return a chance in whole thousandths, down."""
    return max(0, floor(chance * PER_CHANCE + SLACK)) / PER_CHANCE


def sd_up(sd_mm: float) -> float:
    """Return a standard deviation in hundredths, up."""
    return ceil(sd_mm * PER_SD - SLACK) / PER_SD


def tenth(length_mm: float) -> float:
    """Return a length in tenths of a millimetre, away from nothing."""
    off = ceil(abs(length_mm) * 10 - SLACK) / 10
    return off if length_mm >= 0 else -off


def tenth_down(length_mm: float) -> float:
    """Return a length in tenths of a millimetre, down."""
    return floor(length_mm * 10 + SLACK) / 10


def spread(wanted_mm: float, expected_mm: float, sd_mm: float, *, limit_mm: float = 2.0) -> Spread:
    """Return a spread of an edge about what is wanted. Source: the normal distribution."""
    off = expected_mm - wanted_mm

    def within(limit: float) -> float:
        return chance_down(between(-limit - off, limit - off, sd_mm))

    return Spread(
        wanted_mm=wanted_mm,
        expected_mm=expected_mm,
        sd_mm=sd_up(sd_mm),
        within_1_ratio=within(1.0),
        within_2_ratio=within(2.0),
        limit_mm=limit_mm,
        within_limit_ratio=within(limit_mm),
    )


def quantile(chance: float) -> float:
    """Return how many sd below its mean a normal value lies with the chance 1 - `chance`.

    Found by halving: the chance that a value lies above minus this many sd is `chance`.
    """
    low, high = -40.0, 40.0
    if not 0 < chance < 1:
        return inf if chance >= 1 else -inf
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if below(middle, 1.0) < chance else (low, middle)
    return high
