"""What 95 of 100 stay within: the normal and the chi-square distribution, in closed form."""

from math import erfc, exp, gamma, sqrt
from statistics import NormalDist


def bar_ratio(coverage: float) -> float:
    """Return how many standard deviations hold that share, either way; 1.96 for 0.95."""
    return NormalDist().inv_cdf((1 + coverage) / 2)


def chi_square_beyond(figure: float, spare: int) -> float:
    """Return the chance that a sum of so many squares is larger than a figure.

    The regularised upper gamma function Q(a, x), a half whole number: from Q(1, x) = exp(-x) or
    Q(1/2, x) = erfc(sqrt(x)) on by Q(a + 1, x) = Q(a, x) + x^a exp(-x) / gamma(a + 1).
    """
    if figure <= 0:
        return 1.0
    half = figure / 2
    at, chance = (1.0, exp(-half)) if spare % 2 == 0 else (0.5, erfc(sqrt(half)))
    while at < spare / 2:
        chance += half**at * exp(-half) / gamma(at + 1)
        at += 1
    return chance


def chi_square_most(spare: int, coverage: float) -> float:
    """Return the figure that a sum of so many squares stays within at that chance."""
    low, high = 0.0, 10.0 * spare + 50.0
    for _ in range(100):
        middle = (low + high) / 2
        if chi_square_beyond(middle, spare) > 1 - coverage:
            low = middle
        else:
            high = middle
    return high
