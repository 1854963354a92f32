"""Lengths on sale as a merchant calls them: in mm, or in feet where all decks are told in them."""

from collections.abc import Iterable, Sequence

from drylay.brief.model import Brief
from drylay.units import length_text

METRIC, IMPERIAL = "metric", "imperial"


def units_of(briefs: Iterable[Brief]) -> str:
    """Return the units of all briefs; of unlike ones, or none, metric."""
    return IMPERIAL if {brief.units for brief in briefs} == {IMPERIAL} else METRIC


def length_called(length_mm: float, units: str) -> str:
    """Return a length with its unit: "3000 mm", "10 ft"."""
    return length_text(length_mm, units) if units == IMPERIAL else f"{length_mm:.10g} mm"


def lengths_called(lengths_mm: Sequence[float], units: str) -> str:
    """Return lengths with their unit: "2400, 3000 mm", "8 ft, 10 ft"."""
    if units == IMPERIAL:
        return ", ".join(length_text(mm, units) for mm in lengths_mm)
    return ", ".join(f"{mm:.10g}" for mm in lengths_mm) + (" mm" if lengths_mm else "")


def bought_called(bought: Iterable[tuple[float, int]], units: str) -> str:
    """Return how many of which length: "3 x 2400, 1 x 3600" in mm, "3 x 8 ft, 1 x 12 ft"."""
    told = [
        f"{count} x {length_text(mm, units) if units == IMPERIAL else f'{mm:.10g}'}"
        for mm, count in bought
    ]
    return ", ".join(told) or "none"
