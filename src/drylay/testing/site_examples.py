"""Worked examples of the ground: root zones of trees, concrete in holes."""

from collections.abc import Mapping
from math import pi, sqrt

from drylay.outline.notes import root_radius_mm
from drylay.testing.example_rows import TABLE, Example, example, worked_examples
from drylay.testing.model import Cell
from drylay.testing.timber_rows import Answering, Rows

Told = Mapping[str, str]
_COUNTS = {"two": 2, "three": 3, "four": 4, "five": 5}
#: What an 80 lb bag of concrete yields, of the rows before it.
_BAG_LB, _BAG_FT3 = 80.0, 0.6


def site_examples(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of examples of the ground among these rows."""
    return worked_examples(rows, EXAMPLES)


def _root_radius_m(told: Told) -> float:
    return root_radius_mm(float(told["stem"]) * 1000) / 1000


def _root_area_m2(told: Told) -> float:
    return pi * float(told["radius"]) ** 2


def _several_stems_m(told: Told) -> float:
    """Return the radius of a stem as thick as all together: by the root of their squares."""
    return root_radius_mm(sqrt(_COUNTS[told["count"]]) * float(told["mm"])) / 1000


def _hole_ft3(told: Told) -> float:
    return pi / 4 * (float(told["across"]) / 12) ** 2 * float(told["deep"]) / 12


_NUMBER = r"\d+(?:\.\d+)?"
EXAMPLES: tuple[Example, ...] = (
    example(rf"example: (?P<stem>{_NUMBER}) m stem, radius", _root_radius_m),
    example(rf"example: (?P<radius>{_NUMBER}) m radius, area", _root_area_m2, share=0.001),
    example(
        rf"(?P<count>two|three|four|five) stems of (?P<mm>{_NUMBER}) mm: 12 sqrt\(sum d\^2\)",
        _several_stems_m,
        share=0.001,
    ),
    example(
        rf"(?P<across>{_NUMBER}) in round hole (?P<deep>{_NUMBER}) in deep", _hole_ft3, share=0.05
    ),
    example(r"wet density implied", lambda _: _BAG_LB / _BAG_FT3, share=0.005),
)
TABLES: dict[str, Answering] = {TABLE: site_examples}
