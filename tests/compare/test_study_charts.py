"""Pictures of studies: laws of every sheet over any rows and names, and what each one draws."""

import re
from collections.abc import Callable, Iterator
from xml.etree import ElementTree as ET

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from compare.study_made import HOSTILE, KINDS, Made
from drylay.compare import (
    holding_chart,
    lengths_kept_chart,
    pareto_chart,
    price_breaks_chart,
    side_by_side_chart,
    size_costs_chart,
    uncertainty_chart,
)
from papers import measured
from papers.measured import SVG

CHARTS: dict[str, Callable[[Made], bytes]] = {
    "pareto": lambda made: pareto_chart.svg_of(made.two()),
    "pareto of many": lambda made: pareto_chart.svg_of(made.many()),
    "pareto of one": lambda made: pareto_chart.svg_of(made.alone()),
    "side by side": lambda made: side_by_side_chart.svg_of(made.side_by_side()),
    "size costs": lambda made: size_costs_chart.svg_of(made.size_costs()),
    "uncertainty": lambda made: uncertainty_chart.svg_of(made.uncertainty()),
    "lengths kept": lambda made: lengths_kept_chart.svg_of(made.lengths_kept()),
    "price breaks": lambda made: price_breaks_chart.svg_of(made.price_breaks()),
    "holding": lambda made: holding_chart.svg_of(made.holding()),
}
PLAIN = ("oak", "softwood", "GBP")
#: Attributes that are places, by the side of the sheet they are along.
ACROSS, DOWN = ("x", "x1", "x2", "cx"), ("y", "y1", "y2", "cy")


def points(part: ET.Element) -> Iterator[tuple[float, float]]:
    """Every point that a shape names, a rectangle's far corner too."""
    for pair in (part.get("points") or "").split():
        across, down = pair.split(",")
        yield float(across), float(down)
    for across, down in zip(ACROSS, DOWN, strict=True):
        if part.get(across) is not None:
            yield float(part.get(across, "")), float(part.get(down, ""))
    if part.tag == f"{SVG}rect":
        x, y = float(part.get("x", "")), float(part.get("y", ""))
        yield x + float(part.get("width", "")), y + float(part.get("height", ""))


def keeps_the_law(svg: bytes) -> None:
    root = ET.fromstring(svg)
    _, _, wide, high = (float(part) for part in root.get("viewBox", "").split())
    for part in root.iter():
        for x, y in points(part):
            assert 0 <= x <= wide + 0.001
            assert 0 <= y <= high + 0.001
        assert {part.get("fill"), part.get("stroke")} <= {None, "none", "black", "white"}
    assert measured.outside(svg) == []
    assert measured.overlapping(svg) == []
    assert wide == 210
    assert not re.search(rb"<script|\x00|nan|inf", svg)


@pytest.mark.parametrize("chart", CHARTS)
@settings(max_examples=5)
@given(
    count=st.integers(0, 7),
    seed=st.integers(0, 99),
    kind=st.sampled_from(sorted(KINDS)),
    names=st.lists(st.sampled_from(HOSTILE), min_size=1, max_size=4).map(tuple),
)
@example(count=6, seed=1, kind="huge", names=HOSTILE)
@example(count=5, seed=1, kind="long", names=PLAIN)
@example(count=1, seed=373, kind="negative", names=PLAIN)
def test_any_answer_makes_a_sheet_that_can_be_read(
    chart: str, count: int, seed: int, kind: str, names: tuple[str, ...]
) -> None:
    svg = CHARTS[chart](Made(count, seed, kind, names))
    assert svg == CHARTS[chart](Made(count, seed, kind, names))
    keeps_the_law(svg)


@pytest.mark.parametrize("chart", sorted(set(CHARTS) - {"pareto of one"}))
def test_thousands_of_rows_make_no_large_file(chart: str) -> None:
    svg = CHARTS[chart](Made(2000, 1, "plain", PLAIN))
    assert len(svg) < 300_000
    assert len(ET.fromstring(svg)[1].text or "") <= 2_000, "nobody listens to more"
    assert measured.outside(svg) == []
    assert measured.overlapping(svg) == []
