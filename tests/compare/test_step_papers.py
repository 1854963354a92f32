"""Step points on paper: the text says what the nouns say, and the picture keeps to its sheet."""

import re
from decimal import Decimal
from xml.etree import ElementTree as ET

import pytest

from drylay.compare.step_chart import step_points_svg
from drylay.compare.step_model import (
    CountChange,
    Effect,
    Figures,
    Flat,
    FreeSize,
    Step,
    StepPoints,
    Sweep,
)
from drylay.compare.step_text import step_points_text
from drylay.findings import Finding, Severity
from drylay.papers.lettering import width_mm
from drylay.reasons import Source

SVG = "{http://www.w3.org/2000/svg}"
SOURCE = Source(kind="assumption", title="a test")
STOP = Finding(code="ROW-001", severity=Severity.STOP, subject="rows", message="m", source=SOURCE)

FREE = FreeSize(path="cover.along_mm", from_mm=2450, to_mm=2451, free_mm=1, area_m2=0.0011,
                next_mm=2452, extra=Decimal("40.00"), currency="GBP")  # fmt: skip


def figures(cents: int) -> Figures:
    return Figures(total=Decimal(cents).scaleb(-2), joists=8)


def effect(kind: str, **more: object) -> Effect:
    return Effect(kind=kind, currency="GBP", source=SOURCE, **more)


def joist(before: int, after: int) -> CountChange:
    return CountChange(what="joist line", before=before, after=after, rule="r", source=SOURCE)


def step(to_mm: float, last_mm: float, what: Effect) -> Step:
    return Step(path="cover.along_mm", from_mm=2450, last_mm=last_mm, to_mm=to_mm,
                change_mm=to_mm - 2450, holds_to_mm=to_mm, effect=what)  # fmt: skip


@pytest.fixture
def points() -> StepPoints:
    """A deck whose joist line goes at 2445, that costs more from 2452 and is blocked at 2458."""
    saves = effect("saves", fewer=("joist line",), changes=(joist(8, 7),),
                   saving=Decimal("12.40"), area_lost_m2=0.006)  # fmt: skip
    flats = (
        Flat(first_mm=2440, last_mm=2445, figures=figures(98760)),
        Flat(first_mm=2446, last_mm=2451, figures=figures(100000)),
        Flat(first_mm=2452, last_mm=2457, figures=figures(104000)),
        Flat(first_mm=2458, last_mm=2460, figures=Figures(stops=("ROW-001",))),
    )
    return StepPoints(
        title="Deck <of a test>",
        units="metric",
        currency="GBP",
        apart_mm=1.0,
        within_mm=10.0,
        counts_within_mm=10.0,
        here=figures(100000),
        steps=(
            step(2445, 2446, saves),
            step(2452, 2451, effect("adds", more=("order",), saving=Decimal("-40.00"),
                                    area_lost_m2=-0.0023)),
            step(2458, 2457, effect("blocks", gained=(STOP,))),
        ),
        swaps=(),
        free_sizes=(FREE,),
        sweeps=(Sweep(path="cover.along_mm", here_mm=2450, apart_mm=1.0, flats=flats),),
        untold=(),
    )  # fmt: skip


def test_the_text_tells_each_step_with_its_saving(points: StepPoints) -> None:
    assert step_points_text(points).splitlines() == [
        "What would change it: Deck <of a test>",
        "",
        "WHAT WOULD SAVE SOMETHING",
        "  along 5 mm less, at 2445 mm: 1 joist line less, saves 12.40 GBP, 0.006 m2 less",
        "",
        "WHAT WOULD TAKE MORE",
        "  along 2 mm more, at 2452 mm: costs 40.00 GBP more, 0.0023 m2 more",
        "",
        "WHERE IT CAN NO LONGER BE BUILT",
        "  along 8 mm more, at 2458 mm: it cannot be built: ROW-001",
        "",
        "HOW MUCH MORE SIZE IS FREE",
        "  along: 1 mm more costs nothing; at 2452 mm it costs 40.00 GBP more",
    ]


def test_the_picture_has_every_stretch_and_every_step(points: StepPoints) -> None:
    """Three flats cost something, and two rise to the next: five lines; one is blocked."""
    root = ET.fromstring(step_points_svg(points))
    layers = {group.get("id") or group.get("data-layer"): group for group in root.iter(f"{SVG}g")}
    cost = next(group for name, group in layers.items() if name and "cost" in name)
    assert len(list(cost.iter(f"{SVG}line"))) == 5
    assert len(list(root.iter(f"{SVG}circle"))) == 3
    texts = [each.text for each in root.iter(f"{SVG}text")]
    assert {"1000.00", "987.60", "1040.00", "2450 mm", "2440 mm", "2460 mm"} <= set(texts)
    assert "1: along 5 mm less, at 2445 mm: 1 joist line less" in " ".join(t or "" for t in texts)


def test_no_lettering_leaves_the_sheet(points: StepPoints) -> None:
    root = ET.fromstring(step_points_svg(points))
    wide, high = (float(re.sub("mm", "", root.get(side))) for side in ("width", "height"))
    for text in root.iter(f"{SVG}text"):
        long = width_mm(text.text, float(text.get("font-size")))
        before = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "start")] * long
        assert 0 <= float(text.get("x")) - before <= wide - long
        assert 0 <= float(text.get("y")) <= high


def test_the_same_points_make_the_same_bytes(points: StepPoints) -> None:
    assert step_points_svg(points) == step_points_svg(points)
