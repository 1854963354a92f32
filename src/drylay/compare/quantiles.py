"""Quantiles of figures that were seen: none is reckoned between two."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import TypeVar

from drylay.compare.study_model import Quantile, Sampled
from drylay.reasons import Source

Figure = Decimal | float | int
_Figure = TypeVar("_Figure", Decimal, float, int)
QUANTILE = Source(
    kind="from memory",
    title="Hyndman & Fan 1996, The American Statistician 50",
    clause="definition 1: the inverse of the empirical distribution",
)


def quantile(figures: Sequence[_Figure], ratio: float) -> _Figure:
    """Return the least of the figures that at least the share `ratio` of them does not pass.

    `figures` are in rising order, and at least one. A ratio is taken as it is written: 0.95 of 20
    figures is 19 of them.

    Source: `QUANTILE`.
    """
    return figures[max(ceil(Fraction(repr(ratio)) * len(figures)), 1) - 1]


def sampled(name: str, figures: Sequence[Figure], ratios: Sequence[float]) -> Sampled:
    """Return a figure's quantiles over the samples that have it; none where no sample has."""
    ranked: list[Figure] = sorted(figures)
    return Sampled(
        figure=name,
        count=len(ranked),
        quantiles=tuple(
            Quantile(ratio=ratio, value=quantile(ranked, ratio))  # type: ignore[type-var]
            for ratio in ratios
            if ranked
        ),
    )
