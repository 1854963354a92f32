"""Figures told once, at the end: the same on every machine, errors and earth never told smaller."""

from math import ceil


def tenth(figure: float) -> float:
    """Return a figure to the nearest tenth, without a minus before nought."""
    return round(round(figure, 6), 1) + 0.0


def tenth_up(figure: float) -> float:
    """Return a figure up to the next tenth."""
    return ceil(round(figure * 10, 5)) / 10


def part(figure: float) -> float:
    """Return a ratio to four decimals, without a minus before nought."""
    return round(round(figure, 9), 4) + 0.0


def part_up(figure: float) -> float:
    """Return a ratio up to the next of four decimals."""
    return ceil(round(figure * 10_000, 4)) / 10_000


def litres_up(volume_mm3: float) -> float:
    """Return mm3 in m3, up to the next litre."""
    return ceil(round(volume_mm3 / 1e6, 4)) / 1000


def area_m2(area_mm2: float) -> float:
    """Return mm2 in m2, to the nearest 1/1000."""
    return round(round(area_mm2 / 1e6, 9), 3) + 0.0
