"""The plan of furniture: at true scale, everything on the sheet, texts clear of one another."""

from functools import cache
from itertools import combinations
from xml.etree import ElementTree as ET

import pytest

from drylay.papers.lettering import width_mm
from drylay.papers.seating_drawing import seating_svg
from drylay.seating.least import least_deck
from drylay.seating.model import DeckSides, Door, Layout, Passage, StepsHead
from drylay.seating.pieces import allowances, usual_piece

NS = "{http://www.w3.org/2000/svg}"
SIDES = DeckSides(
    left="guard",
    doors=(Door(wide_mm=900, opens="outward"), Door(wide_mm=1500, opens="sliding")),
    steps=(StepsHead(side="front", wide_mm=1200), StepsHead(side="right", wide_mm=900)),
)
ROOM = allowances()


@cache
def layout() -> Layout:
    pieces = [
        usual_piece("dining table", "table"),
        usual_piece("lounger", "loungers", count=2),
        usual_piece("barbecue", "barbecue"),
    ]
    behind = (Passage(piece="table", side="front"),)
    best = least_deck(pieces, sides=SIDES, passages=behind, most_nodes=150).least.best
    assert best is not None
    return best


def drawn(of: Layout, sides: DeckSides = SIDES, units: str = "metric") -> ET.Element:
    return ET.fromstring(seating_svg(of, sides, ROOM, units=units))


def layer(root: ET.Element, name: str) -> list[ET.Element]:
    return [each for group in root.iter(f"{NS}g") if group.get("id") == f"seating-{name}"
            for each in group]  # fmt: skip


def test_bodies_are_drawn_where_they_stand_at_the_scale_that_is_told() -> None:
    of = layout()
    root = drawn(of)
    per_mm = float(root.get("data-deck-mm-per-paper-mm", "0"))
    sides = layer(root, "sides")
    left, top = float(sides[0].get("x1", "")), float(sides[0].get("y1", ""))
    boxes = {
        (
            round((float(box.get("x", "")) - left) * per_mm),
            round((float(box.get("y", "")) - top) * per_mm),
            round(float(box.get("width", "")) * per_mm),
            round(float(box.get("height", "")) * per_mm),
        )
        for box in layer(root, "bodies")
    }
    for place in of.placed:
        if place.count == 1:
            at = (place.from_along_mm, place.from_across_mm, place.along_mm, place.across_mm)
            assert tuple(map(round, at)) in boxes
    assert len(boxes) == sum(place.count for place in of.placed)
    bar = [float(box.get("width", "")) for box in layer(root, "scale-bar")]
    assert sum(bar) * per_mm in {1000, 2000}


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_texts_lie_on_the_sheet_and_clear_of_one_another(units: str) -> None:
    root = drawn(layout(), units=units)
    wide, high = (float(root.get(side, "").removesuffix("mm")) for side in ("width", "height"))
    taken = []
    for text in root.iter(f"{NS}text"):
        x, y, size = (float(text.get(key, "")) for key in ("x", "y", "font-size"))
        long = width_mm(text.text or "", size)
        before = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "")] * long
        at = (x - before, y - 0.75 * size, x - before + long, y)
        if text.get("transform"):
            at = (x - 0.75 * size, y + before - long, x, y + before)
        assert at[0] >= 0
        assert at[1] >= 0
        assert at[2] <= wide
        assert at[3] <= high
        taken.append((at, text.text))
    for (one, first), (other, second) in combinations(taken, 2):
        apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
        assert apart, (first, second)


def test_what_a_side_is_is_drawn() -> None:
    root = drawn(layout())
    assert len(layer(root, "guards")) == 1
    assert len(layer(root, "strip")) == 2
    guarded = drawn(layout(), DeckSides(right="guard", front="guard", left="guard"))
    assert len(layer(guarded, "guards")) == 3
    assert not layer(guarded, "strip")


def test_doors_and_steps_at_every_side_are_drawn() -> None:
    chest = usual_piece("chest", "C")
    walls = DeckSides(
        house="wall", right="wall", front="wall", left="wall",
        doors=tuple(Door(side=s, wide_mm=800, opens="outward") for s in ("front", "left", "right")),
        steps=(StepsHead(side="left", wide_mm=900), StepsHead(side="house", wide_mm=900)),
    )  # fmt: skip
    best = least_deck([chest], sides=walls, most_nodes=100).least.best
    assert best is not None
    root = drawn(best, walls)
    assert len(layer(root, "leaf")) == 3 * 17
    texts = [text.text for text in root.iter(f"{NS}text")]
    assert texts.count("door") == 3
    assert texts.count("steps") == 2


def test_the_same_layout_gives_the_same_bytes() -> None:
    assert seating_svg(layout(), SIDES, ROOM) == seating_svg(layout(), SIDES, ROOM)
