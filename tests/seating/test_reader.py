"""The garden file's [seating]: what it says, and every fault with its place."""

from pathlib import Path

import pytest

from drylay.errors import Fault
from drylay.intake.document import open_document
from drylay.intake.tables import Reading, all_faults
from drylay.seating.least import least_deck
from drylay.seating.model import DeckSides, Door, Passage, SeatingWish, StepsHead
from drylay.seating.reader import read_seating

EXAMPLE = Path(__file__).parents[2] / "docs" / "examples" / "gardens" / "seats.toml"


def read(source: object) -> tuple[SeatingWish | None, tuple[Fault, ...]]:
    document, faults = open_document(source, what="garden file", most_bytes=100_000)
    assert document is not None, faults
    reading = Reading(document=document)
    return read_seating(reading), all_faults(reading)


def test_the_example_is_read_whole() -> None:
    wish, faults = read(EXAMPLE)
    assert faults == ()
    assert wish is not None
    assert [(p.mark, p.kind, p.along_mm, p.count, p.hot) for p in wish.pieces] == [
        ("table", "dining table", 1500, 1, False),
        ("loungers", "lounger", 700, 2, False),
        ("barbecue", "barbecue", 1100, 1, True),
    ]
    assert wish.sides == DeckSides(
        left="guard",
        doors=(Door(wide_mm=900, opens="outward"),),
        steps=(StepsHead(side="front", wide_mm=1200),),
    )
    assert wish.passages == (Passage(piece="table", side="front"),)
    found = least_deck(
        wish.pieces, sides=wish.sides, passages=wish.passages, grid_mm=wish.grid_mm, most_nodes=50
    )
    assert found.least.grid_mm == 50


def test_a_file_without_seating_wishes_none() -> None:
    assert read({}) == (None, ())


def test_a_fixed_cover_and_own_sides_of_a_piece() -> None:
    piece = {
        "mark": "T", "kind": "small table", "across_mm": 800, "chairs": ["house"],
        "passages": ["left"], "may_turn": False, "group": "g",
    }  # fmt: skip
    table = {"cover": {"along": "3 m", "across": "4 m"}, "pieces": [piece]}
    wish, faults = read({"seating": table})
    assert faults == ()
    assert wish is not None
    assert (wish.along_mm, wish.across_mm) == (3000, 4000)
    (told,) = wish.pieces
    assert (told.along_mm, told.across_mm, told.chairs) == (700, 800, ("house",))
    assert (told.passages, told.may_turn, told.group) == (("left",), False, "g")
    assert told.source.kind == "brief"
    bounded, _ = read({"seating": {"most": {"along_mm": 5000}, "pieces": [piece]}})
    assert bounded is not None
    assert (bounded.most_along_mm, bounded.most_across_mm) == (5000, None)


WRONG = b"""[seating]
grid = 50
cover = { along = "3 m" }
most = { along = "3 m" }
doors = [{ wide = "900 mm", opens = "out" }]
[[seating.pieces]]
mark = "T"
kind = "dinning table"
[[seating.pieces]]
mark = "T"
kind = "sofa"
width = 3
"""


def test_every_fault_is_told_with_its_line() -> None:
    wish, faults = read(WRONG)
    assert wish is None
    assert [(fault.line, fault.path, fault.nearest) for fault in faults] == [
        (2, "seating.grid", "grid_mm = 50"),
        (3, "seating.cover.across_mm", "across_mm, or across as text"),
        (4, "seating.most", "leave out most"),
        (5, "seating.doors[0].opens", 'opens = "outward"'),
        (8, "seating.pieces[0].kind", 'kind = "dining table"'),
        (12, "seating.pieces[1].width", ""),
    ]


@pytest.mark.parametrize(
    ("table", "path"),
    [
        ({"pieces": [{"mark": "T", "kind": "sofa"}] * 2}, "seating.pieces"),
        ({"pieces": []}, "seating.pieces"),
        ({}, "seating.pieces"),
        (3, "seating"),
        (
            {
                "pieces": [{"mark": "T", "kind": "sofa"}],
                "passages": [{"piece": "X", "side": "left"}],
            },
            "seating.passages[0].piece",
        ),
        (
            {
                "pieces": [{"mark": "T", "kind": "sofa"}],
                "doors": [{"wide_mm": 900, "opens": "sliding", "side": "front"}],
            },
            "seating.doors[0].side",
        ),
    ],
)
def test_what_no_key_alone_could_tell_is_told(table: object, path: str) -> None:
    wish, faults = read({"seating": table})
    assert wish is None
    assert path in [fault.path for fault in faults]
