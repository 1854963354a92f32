"""Whatever stock a reader accepts is planned from or refused: never a fault of drylay itself."""

from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from drylay.errors import BriefError, CatalogueError
from drylay.intake.keys import Key
from drylay.materials.keys import ARTICLES
from drylay.materials.loader import load_catalogue
from drylay.plugins.stock_form import stock_form
from some_decks import some_case
from tile_family import OBLONG, tile_brief, tile_families, yard

#: Kinds whose sizes are drawn anew, and the article of each that the brief names.
TILES = {"tiles": "TT-900", "packers": "PD-28"}


def sizes_of(kind: str) -> dict[str, Any]:
    """Return how each size of a kind is drawn, within the bounds of its key."""
    keys = [key for key in ARTICLES[kind] if key.kind == "length" and key.required]
    return {key.name: _size(key) for key in keys}


def _size(key: Key) -> st.SearchStrategy[float]:
    common = [at for at in (20, 28, 45, 60, 145, 300, 600, 900) if key.least <= at <= key.most]
    return st.one_of(st.sampled_from([*common, key.least, key.most]),
                     st.integers(int(key.least) + 1, int(key.most)))  # fmt: skip


def planned(form: dict[str, Any], kind: str, sizes: dict[str, float], brief: Any) -> str:
    """Return how a plan comes out of stock with some sizes of its own."""
    changed = {**form, kind: [{**article, **sizes} for article in form[kind]]}
    asked = {"families": tile_families()} if kind in TILES else {}
    try:
        plan = drylay.design(brief, stock=load_catalogue(changed), **asked)
    except (BriefError, CatalogueError):
        return "refused"
    return "buildable" if plan.buildable else "stopped"


@settings(max_examples=20)
@given(st.fixed_dictionaries(sizes_of("tiles")), st.booleans())
def test_no_tile_that_a_reader_accepts_is_a_fault_of_ours(
    sizes: dict[str, float], turned: bool
) -> None:
    brief = tile_brief(3616, 1800, board={"article": "TT-900", "may_turn": turned})
    planned(stock_form(yard()), "tiles", sizes, brief)


@settings(max_examples=6)
@given(st.data(), st.sampled_from(["boards", "timbers", "fascias", "screws", "coach_screws"]))
def test_no_board_or_screw_that_a_reader_accepts_is_a_fault_of_ours(data: Any, kind: str) -> None:
    brief, stock = some_case(3)
    sizes = data.draw(st.fixed_dictionaries(sizes_of(kind)))
    planned(stock_form(stock), kind, sizes, brief)


def test_a_tile_the_wrong_way_round_made_by_code_is_refused_too() -> None:
    turned = evolve(OBLONG, length_mm=600.0, width_mm=900.0)
    brief = tile_brief(3616, 1800, board={"article": "TT-900"})
    with pytest.raises(BriefError) as caught:
        drylay.design(brief, stock=evolve(yard(), tiles=(turned,)), families=tile_families())
    (fault,) = caught.value.faults
    assert fault.path == "board.article"
    assert fault.nearest == "length_mm = 900, width_mm = 600 in the stock"
