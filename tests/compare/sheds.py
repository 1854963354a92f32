"""A deck small enough to be planned many times in a test, its stock, and a study of it."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import drylay
from drylay.compare.cases import Cases, vary
from drylay.compare.compared import compare

SHED = {
    "title": "Deck at the shed",
    "cover": {"along_mm": 2450, "across_mm": 1195},
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145", "most_centres_mm": 400},
    "joints": {"most_per_row": 0},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}
STOCK = drylay.load_catalogue(Path(__file__).parents[2] / "catalogs" / "hobbleden.toml")


def cases() -> Cases:
    """Eight decks that are planned, two that are blocked, four that are refused, in turn."""
    brief = drylay.read_brief(SHED)
    along_mm = [1800, 1920, 2040, 9000, 2160]
    return vary(brief, {"cover.along_mm": along_mm, "cover.across_mm": [1195, 700, -1]})


def study(**named: Any) -> Iterator[dict[str, object]]:
    """Return the study's rows."""
    return compare(cases(), **{"stock": STOCK, "mode": "quick", **named})
