"""Footings as a published table rounds them: for holding tables against, never to build from."""

from math import floor, pi, sqrt

from attrs import frozen

#: What the table adds to the live load, its least sizes, and the post it takes. Source:
#: International Residential Code, table R507.3.1, from memory.
DEAD_PSF, SQUARE_LEAST_IN, ROUND_LEAST_IN, THICK_LEAST_IN, POST_IN = 10, 12, 14, 6, 6


@frozen(kw_only=True)
class TabledFooting:
    """A cell of the table, in whole inches."""

    square_in: int
    round_in: int
    thick_in: int


def footing_as_tabled(*, area_ft2: float, soil_psf: float, live_psf: float = 40) -> TabledFooting:
    """Return a footing as table R507.3.1 prints it: to the nearest inch, halves up.

    The nearest inch may fall short of the area by 1 to 2 %: build from `footing_size_mm`.

    Args:
        area_ft2: Of the deck that the footing carries.

    Source: International Residential Code, table R507.3.1, from memory; its rounding is inferred
        from its cells.
    """
    area_in2 = 144 * (live_psf + DEAD_PSF) * area_ft2 / soil_psf
    square = max(SQUARE_LEAST_IN, _nearest(sqrt(area_in2)))
    round_in = max(ROUND_LEAST_IN, _nearest(sqrt(4 * area_in2 / pi)))
    thick = max(THICK_LEAST_IN, floor((square - POST_IN) / 2))
    return TabledFooting(square_in=square, round_in=round_in, thick_in=thick)


def _nearest(inches: float) -> int:
    return floor(inches + 0.5)
