"""Finding articles, leaving some out, putting two catalogues together."""

import pickle
from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import CatalogueError, UnknownPathError
from drylay.materials.loader import load_catalogue
from drylay.materials.lookup import (
    catalogue_digest,
    find_board,
    find_clip,
    find_coach_screw,
    find_coating,
    find_concrete,
    find_fabric,
    find_fascia,
    find_gravel,
    find_hanger,
    find_packer,
    find_post_foot,
    find_screw,
    find_tile,
    find_timber,
)
from drylay.materials.stock_model import KINDS, Board, Catalogue, Pack, Screw, StockLength
from drylay.strength.ec5_classes import strength_class
from drylay.strength.model import Section
from drylay.strength.nds_asked import wood_of
from drylay.strength.nds_values import reference

CATALOGS = Path(__file__).parents[2] / "catalogs"


def yard() -> Catalogue:
    return load_catalogue(CATALOGS / "hobbleden.toml")


#: One price for every size, so that parts of one stock never contradict each other.
def sold(length_mm: int) -> StockLength:
    return StockLength(length_mm=float(length_mm), price=Decimal(length_mm) / 100)


@st.composite
def parts(draw: st.DrawFn) -> Catalogue:
    """Return a part of one larger stock: some articles, some of their lengths and packs."""
    codes = draw(st.lists(st.sampled_from("ABC"), unique=True))
    some = st.lists(st.sampled_from([3000, 3600, 4800]), unique=True, min_size=1).map(sorted)
    boards = tuple(
        Board(code=code, title=code, family="softwood", width_mm=145.0, thickness_mm=28.0,
              lengths=tuple(map(sold, draw(some))))
        for code in codes
    )  # fmt: skip
    counts = draw(st.lists(st.sampled_from([10, 50]), unique=True).map(sorted))
    packs = tuple(Pack(count=count, price=Decimal(count)) for count in counts)
    screw = Screw(code="S", title="S", shank_mm=5.0, length_mm=70.0, metal="A2", packs=packs)
    name = draw(st.sampled_from(["East", "West"]))
    screws = (screw,) if packs else ()
    return Catalogue(name=name, currency="EUR", vat="included", boards=boards, screws=screws)


@given(parts())
def test_a_catalogue_with_itself_is_itself(one: Catalogue) -> None:
    assert one | one == one


@given(one=parts(), other=parts())
def test_the_order_of_two_catalogues_does_not_matter(one: Catalogue, other: Catalogue) -> None:
    assert catalogue_digest(one | other) == catalogue_digest(other | one)


@given(one=parts(), two=parts(), three=parts())
def test_catalogues_are_put_together_in_any_grouping(
    one: Catalogue, two: Catalogue, three: Catalogue
) -> None:
    assert (one | two) | three == one | (two | three)


@given(parts())
def test_what_is_left_out_can_be_put_back(one: Catalogue) -> None:
    for board in one.boards:
        for stock in board.lengths:
            less = one.without(board.code, length_mm=stock.length_mm)
            assert less != one
            assert catalogue_digest(less | one) == catalogue_digest(one)
        assert all(left.code != board.code for left in one.without(board.code).boards)


@given(one=parts(), other=parts())
def test_digests_are_equal_for_equal_stock_only(one: Catalogue, other: Catalogue) -> None:
    backwards = evolve(one, boards=one.boards[::-1])
    assert catalogue_digest(backwards) == catalogue_digest(one)
    same = {**dict.fromkeys(one.boards), **dict.fromkeys(one.screws)}.keys() == {
        **dict.fromkeys(other.boards),
        **dict.fromkeys(other.screws),
    }.keys()
    equal = same and one.name == other.name
    assert (catalogue_digest(one) == catalogue_digest(other)) == equal


def test_every_kind_of_article_is_found_by_its_code() -> None:
    stock = yard()
    finders = (find_board, find_tile, find_timber, find_fascia, find_screw, find_coach_screw,
               find_clip, find_hanger,
               find_coating, find_fabric, find_gravel, find_packer,
               find_concrete, find_post_foot)  # fmt: skip
    for kind, find in zip(KINDS, finders, strict=True):
        for article in getattr(stock, kind):
            assert find(stock, article.code) is article
        with pytest.raises(UnknownPathError):
            find(stock, "no such code")


def test_an_unknown_code_names_the_nearest() -> None:
    with pytest.raises(UnknownPathError) as caught:
        find_board(yard(), "db-28-14")
    assert caught.value.nearest[0] == "DB-28-145"
    with pytest.raises(UnknownPathError) as caught:
        yard().without("FT-45-14")
    assert caught.value.nearest[0] == "FT-45-145"


def test_an_unknown_length_names_those_on_sale() -> None:
    with pytest.raises(UnknownPathError) as caught:
        yard().without("FA-28-145", length_mm=3601)
    assert caught.value.nearest[:2] == ("FA-28-145 2400 mm", "FA-28-145 3000 mm")
    with pytest.raises(UnknownPathError):
        yard().without("DS-45-70", length_mm=70)


def test_an_article_without_its_last_length_is_not_on_sale() -> None:
    stock = Catalogue(
        name="x", currency="EUR", vat="included",
        boards=(Board(code="A", title="A", family="f", width_mm=145.0, thickness_mm=28.0,
                      lengths=(sold(3000),)),),
    )  # fmt: skip
    assert stock.without("A", length_mm=3000).boards == ()


def test_contradictions_are_told_together() -> None:
    stock = yard()
    board = stock.boards[0]
    dearer = evolve(board.lengths[0], price=Decimal("99.00"))
    other = evolve(
        stock,
        currency="EUR",
        vat="excluded",
        boards=(evolve(board, width_mm=144.0, lengths=(dearer, *board.lengths[1:])),),
        timbers=(evolve(stock.timbers[0], code="DS-45-70"),),
    )
    with pytest.raises(CatalogueError) as caught:
        _ = stock | other
    paths = [fault.path for fault in caught.value.faults]
    assert paths == [
        "catalogue.currency",
        "catalogue.vat",
        "DB-28-145.width_mm",
        "DB-28-145 2400",
        "DS-45-70",
    ]
    assert "9.60 and 99.00" in str(caught.value)


def test_a_limit_that_differs_is_a_contradiction() -> None:
    stock = yard()
    board = stock.boards[0]
    unlimited = tuple(evolve(length, limit=None) for length in board.lengths)
    with pytest.raises(CatalogueError) as caught:
        _ = stock | evolve(stock, boards=(evolve(board, lengths=unlimited),))
    assert "24.30 (limit 8) and 24.30" in str(caught.value)


# the stock files we ship


@pytest.mark.parametrize("path", sorted(CATALOGS.glob("*.toml")), ids=lambda path: path.stem)
def test_a_stock_file_says_that_it_is_invented(path: Path) -> None:
    head = path.read_text(encoding="utf-8").split("\n\n")[0]
    assert "invented" in head
    assert "25 November 2026" in head


def test_the_yard_sells_what_a_deck_needs() -> None:
    stock = yard()
    assert {board.family for board in stock.boards} == {"softwood"}
    assert {(t.thickness_mm, t.depth_mm) for t in stock.timbers} == {
        (45.0, 145.0), (45.0, 95.0),  # frames
        (47.0, 195.0), (47.0, 220.0), (100.0, 100.0),  # bearers and posts
    }  # fmt: skip
    assert max(s.length_mm for t in stock.timbers for s in t.lengths) == 6000.0
    assert any(s.limit is not None for board in stock.boards for s in board.lengths)
    assert all(len(screw.packs) > 1 for screw in (*stock.screws, *stock.coach_screws))


@pytest.mark.parametrize("name", ["hobbleden", "marrowick"])
def test_a_yard_sells_what_a_deck_that_stands_needs(name: str) -> None:
    stock = load_catalogue(CATALOGS / f"{name}.toml")
    posts = [each for each in stock.timbers if each.thickness_mm == each.depth_mm]
    bearers = [each for each in stock.timbers if each.depth_mm > 190]
    assert posts
    assert len(bearers) == 2
    assert {each.post_mm for each in stock.post_feet} == {each.thickness_mm for each in posts}
    assert stock.concretes
    # what is in the ground or near it: common practice, no source
    assert all(each.use_class == 4 for each in (*posts, *bearers))


def test_longer_lengths_are_dearer_by_the_metre_in_places() -> None:
    per_metre = [s.price / Decimal(s.length_mm) for s in find_board(yard(), "DB-28-145").lengths]
    assert per_metre != sorted(per_metre)
    assert per_metre[-1] > per_metre[0]


def test_imperial_stock_is_in_true_sizes() -> None:
    stock = load_catalogue(CATALOGS / "marrowick.toml")
    board, joist = find_board(stock, "N54X6"), find_timber(stock, "N2X8")
    # American Softwood Lumber Standard PS 20, from memory: 1 x 5 1/2 in and 1 1/2 x 7 1/4 in
    assert (board.thickness_mm, board.width_mm) == (25.4, 139.7)
    assert (joist.thickness_mm, joist.depth_mm) == (38.1, 184.15)
    assert [s.length_mm for s in joist.lengths][0::5] == [2438.4, 6096.0]  # 8 and 20 ft
    # PS 20, from memory: 9 1/4, 11 1/4, 3 1/2 and 5 1/2 in
    deep = {code: find_timber(stock, code).depth_mm for code in ("N2X10", "N2X12", "N4X4", "N6X6")}
    assert deep == {"N2X10": 234.95, "N2X12": 285.75, "N4X4": 88.9, "N6X6": 139.7}


def test_a_timber_of_the_us_tells_species_and_grade() -> None:
    stock = load_catalogue(CATALOGS / "marrowick.toml")
    for timber in stock.timbers:
        species, grade = wood_of(timber.strength_class)
        assert (species, grade) == ("SP", "No.2")
        section = Section(breadth_mm=timber.thickness_mm, depth_mm=timber.depth_mm)
        assert reference(species, grade, section).species == "SP"


def test_a_timber_of_the_metric_yard_tells_a_class_of_en_338() -> None:
    for timber in yard().timbers:
        assert strength_class(timber.strength_class).name == timber.strength_class


def test_an_unknown_code_is_no_article() -> None:
    unknown = UnknownPathError("B9", ("B1",), noun="article")
    assert str(unknown) == "no such article: B9; did you mean B1?"
    copied = pickle.loads(pickle.dumps(unknown))
    assert (str(copied), copied.nearest) == (str(unknown), ("B1",))
