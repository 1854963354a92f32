"""Decks that stand, for tests of their papers, and what is read off their drawings."""

from functools import cache
from xml.etree import ElementTree as ET

from drylay.plan.model import Plan
from papers import measured
from papers.standing_sample import standing
from papers.test_drawings import scale_of

CASES = {
    "plain": {},
    "two posts": {"size": (1800.0, 10), "spans": (2400.0, 1900.0), "ground_mm": -600.0},
    "24 posts": {"size": (9000.0, 50), "spans": (2000.0, 1500.0), "ground_mm": -900.0,
                 "falls": (0.01, 0.02)},
    "steep": {"ground_mm": -500.0, "falls": (0.1, 0.25)},
    "across": {"run": "across", "size": (3900.0, 26), "ledger": False},
    "imperial": {"units": "imperial", "region": "north-america", "ground_mm": -914.4,
                 "sides": ("right", "front", "left"), "embed_mm": 609.6, "shape": "round"},
}  # fmt: skip


@cache
def case(name: str) -> Plan:
    return standing(**CASES[name])  # type: ignore[arg-type]


def told(svg: bytes) -> list[str]:
    return [text.text or "" for text in measured.texts(svg)]


def corner(svg: bytes) -> tuple[float, float]:
    ((left, top, _, _),) = measured.rectangles(svg, "cover")
    return left, top


def upright(plan: Plan, along: float, across: float) -> tuple[float, float]:
    """Where a place of the boards' axes lies on the sheet, house at the top: mm of deck."""
    return (along, across) if plan.surface.run == "along" else (across, along)


def middles(svg: bytes, layer: str) -> list[tuple[float, float]]:
    """Middles of boxes and rings of a layer in mm of deck, from the cover's corner."""
    left, top = corner(svg)
    found = [(x + w / 2, y + h / 2) for x, y, w, h in measured.rectangles(svg, layer)]
    found += [(float(part.get("cx", "0")), float(part.get("cy", "0")))
              for part in measured.group(svg, layer) if part.tag.endswith("circle")]  # fmt: skip
    return [((x - left) * scale_of(svg), (y - top) * scale_of(svg)) for x, y in found]


def polygon(part: ET.Element) -> list[tuple[float, float]]:
    pairs = (point.split(",") for point in part.get("points", "").split())
    return [(float(x), float(y)) for x, y in pairs]


def axes(part: ET.Element) -> tuple[list[float], list[float]]:
    points = polygon(part)
    return [x for x, _ in points], [y for _, y in points]


def near(svg: bytes) -> float:
    return scale_of(svg) * 0.003
