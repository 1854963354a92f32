"""Papers of decks of tiles that stand: views, posts, edges, sheet and summary, told of rows."""

from functools import cache
from itertools import pairwise

import pytest

from drylay.planner.folder import papers
from tile_legs import deck

STANDING = {"standing.svg", "standing-front.svg", "posts.svg", "posts.csv", "edges.svg",
            "footings.csv", "strength.csv", "tiles.svg"}  # fmt: skip


@cache
def texts(name: str) -> dict[str, str]:
    return {file: made.decode("utf-8") for file, made in papers(deck(name)).items()}


@pytest.mark.parametrize("name", ["posts", "ledger"])
def test_a_deck_of_tiles_that_stands_has_its_papers(name: str) -> None:
    assert set(texts(name)) >= STANDING
    assert all(texts(name).values())
    assert papers(deck(name)) == papers(deck(name))


def test_one_on_packers_has_those_of_its_strength_alone() -> None:
    assert set(texts("packers")) & STANDING == {"strength.csv", "tiles.svg"}


@pytest.mark.parametrize("file", ["standing.svg", "standing-front.svg"])
def test_views_tell_levels_and_posts_along_rows(file: str) -> None:
    """Worked by hand in test_tile_standing of the planner: tops at -535, 215 long."""
    drawn = texts("posts")[file]
    assert ">rows<" in drawn
    assert ">boards<" not in drawn
    for told in ("-535", ">215<", "finished level -150"):
        assert told in drawn or file.endswith("front.svg"), told


def test_the_ledger_and_braces_are_drawn() -> None:
    drawn = texts("ledger")["standing.svg"]
    assert "Posts longer than 600 are braced" in drawn.replace("</text>", "")
    assert "K1 K2 K3 K4" in drawn


@pytest.mark.parametrize("name", ["posts", "ledger"])
def test_sheet_and_summary_tell_what_stands_and_nothing_of_boards(name: str) -> None:
    raised = deck(name).raised
    assert raised is not None
    for file in ("jobsheet.html", "summary.txt"):
        told = " ".join(texts(name)[file].split())
        for bearer in raised.frame.bearers:
            assert bearer.mark in told
        assert "Centres across the rows" in told
        assert "loose tiles" in told or name == "posts"
        assert "along the boards" not in told.lower()
        assert "across the boards" not in told.lower()
        assert "over the boards" not in told


def test_tasks_stand_in_the_order_of_the_work() -> None:
    told = texts("ledger")["summary.txt"]
    order = ("Set the posts out", "Dig the holes", "Mix and pour the concrete", "Stand the posts",
             "Fix the ledger", "Set the bearers", "Brace the posts", "Lay the tiles",
             "Put the guards up", "Hand over")  # fmt: skip
    at = [told.index(title) for title in order]
    assert all(before < after for before, after in pairwise(at))
    assert "profile boards outside all digging" in texts("ledger")["jobsheet.html"]


def test_strength_and_footings_are_listed_member_by_member() -> None:
    strength = texts("posts")["strength.csv"]
    for member in ("joists", "BR1", "BR2", "PO1", "PO4"):
        assert member in strength
    assert "FT4" in texts("posts")["footings.csv"]
