"""What a list tells besides sizes: GTINs, days, batches, prices for a metre; faults by column."""

import tomllib
from datetime import date
from decimal import Decimal
from fractions import Fraction
from importlib.resources import files
from math import ceil
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import CatalogueError, Fault
from drylay.intake.gtin import check_digit, is_gtin, whole_gtin
from drylay.materials.loader import check_catalogue, load_catalogue
from drylay.materials.lookup import catalogue_digest
from drylay.materials.prices import is_rounded, price_by_metre
from drylay.materials.stock_model import ArticleRule, Catalogue, Record
from drylay.reasons import Source
from materials.test_lookup import parts

GOOD = """\
[catalogue]
name = "A yard"
currency = "EUR"
vat = "included"
vat_ratio = 0.2
valid_from = 2027-03-01
valid_until = "2027-11-30"
batch = "L7"
note = "collected only"

[[boards]]
code = "B1"
title = "Board"
family = "softwood"
width_mm = 145
thickness_mm = 28
price_per_m = "4.255"
gtin = "6291041500213"
sold_from = 2027-04-01
note = "one pallet"
lengths = [
  { length_mm = 3600, limit = 12, pack = 4 },
  { length_mm = 4800, gtin = "7300011000017" },
]

[[boards]]
code = "B2"
title = "Board of oak"
family = "hardwood"
width_mm = 120
thickness_mm = 21
durability_class = 2
lengths = [{ length_mm = 3000, price = "30.00", gtin = "8904000210037" }]

[[tiles]]
code = "P1"
title = "Tile"
family = "tiles"
length_mm = 600
width_mm = 600
thickness_mm = 20
each = "17.90"
packs = [{ count = 60, price = "948.00" }]

[[clips]]
code = "C1"
title = "Clip"
role = "row"
metal = "stainless A2"
gap_mm = 5
each = "0.40"
"""
#: The line replaced and the new line; of the fault: line, column, path, found, wanted or nearest.
PLANTED = [
    (4, "", 1, 1, "catalogue.vat", "nothing", "one of included, excluded"),
    (5, "vat_ratio = 20", 5, 13, "catalogue.vat_ratio", "20", "vat_ratio = 0.2"),
    (5, "vat_ratio = -0.2", 5, 13, "catalogue.vat_ratio", "-0.2", "0 to 0.5"),
    (5, 'vat_ratio = "20 %"', 5, 13, "catalogue.vat_ratio", '"20 %"', "a number"),
    (6, "valid_from = 2028-03-01", 7, 15, "catalogue.valid_until", "2027-11-30 with",
     "valid_from = 2027-11-30, valid_until = 2028-03-01"),
    (6, 'valid_from = "1.3.2027"', 6, 14, "catalogue.valid_from", '"1.3.2027"', "ISO 8601"),
    (6, 'valid_from = "31.3.2027"', 6, 14, "catalogue.valid_from", '"31.3.2027"',
     "valid_from = 2027-03-31"),
    (6, "valid_from = 2027", 6, 14, "catalogue.valid_from", "2027", "ISO 8601"),
    (6, "valid_from = 2027-03-01T08:00:00Z", 6, 14, "catalogue.valid_from", "2027-03-01T08",
     "valid_from = 2027-03-01"),
    (6, 'valid_from = "2027-02-30"', 6, 14, "catalogue.valid_from", '"2027-02-30"', "ISO 8601"),
    (6, "valid_from = 0227-03-01", 6, 14, "catalogue.valid_from", "0227-03-01", "2000 to 2199"),
    (8, "batch = 7", 8, 9, "catalogue.batch", "7", 'batch = "7"'),
    (9, f'note = "{"x" * 401}"', 9, 8, "catalogue.note", "401 characters", "0 to 400"),
    (17, "price_per_m = 4.255", 17, 15, "boards[0].price_per_m", "4.255", "a float loses cents"),
    (17, 'price_per_m = "4.25555"', 17, 15, "boards[0].price_per_m", "4.25555", "4 decimals"),
    (17, "", 22, 3, "boards[0].lengths[0].price", "nothing", "a price"),
    (22, '  { length_mm = 3600, price = "9.00" },', 22, 31, "boards[0].lengths[0].price",
     "a price beside price_per_m", "one of the two"),
    (22, "  { length_mm = 3600, limit = 10, pack = 4 },", 22, 31, "boards[0].lengths[0].limit",
     "10 with pack = 4", "limit = 8"),
    (22, "  { length_mm = 3600, pack = 0 },", 22, 30, "boards[0].lengths[0].pack", "0",
     "1 to 1000"),
    (22, "  { length_mm = 3600, pack = 2.0 },", 22, 30, "boards[0].lengths[0].pack", "2.0",
     "pack = 2"),
    (18, "gtin = 6291041500213", 18, 8, "boards[0].gtin", "6291041500213",
     'gtin = "6291041500213"'),
    (18, 'gtin = "6291041500214"', 18, 8, "boards[0].gtin", "500214", "3 as its last digit"),
    (18, 'gtin = "629104150021"', 18, 8, "boards[0].gtin", "0021", "4 as its last digit"),
    (18, 'gtin = "6 291041 500213"', 18, 8, "boards[0].gtin", "6 2910", 'gtin = "6291041500213"'),
    (18, 'gtin = "62910414"', 18, 8, "boards[0].gtin", "62910414", "as its last digit"),
    (18, 'gtin = "629104150021x"', 18, 8, "boards[0].gtin", "021x", "8, 12, 13 or 14 digits"),
    (18, 'gtin = ""', 18, 8, "boards[0].gtin", '""', "8, 12, 13 or 14 digits"),
    (18, 'gtin = "07300011000017"', 23, 30, "boards[0].lengths[1].gtin",
     '"7300011000017" a second time', "a GTIN of its own"),
    (33, 'lengths = [{ length_mm = 3000, price = "1", gtin = "6291041500213" }]', 33, 52,
     "boards[1].lengths[0].gtin", "a second time", "a GTIN of its own"),
    (19, "sold_from = 2028-04-01", 19, 13, "boards[0].sold_from", "on sale from 2028-04-01",
     "a day on which both hold"),
    (19, "sold_until = 2027-02-01", 19, 14, "boards[0].sold_until", "until 2027-02-01",
     "a day on which both hold"),
    (20, "sold_until = 2027-03-31", 20, 14, "boards[0].sold_until", "2027-03-31 with sold_from",
     "sold_from = 2027-03-31, sold_until = 2027-04-01"),
    (20, "not = 3", 20, 1, "boards[0].not", 'key "not"', "note"),
    (32, "durability_class = 6", 32, 20, "boards[1].durability_class", "6",
     "1 to 5"),
    (42, 'each = "0"', 42, 8, "tiles[0].each", '"0"', "0.01 to"),
    (43, 'packs = [{ count = 1, price = "17.90" }]', 43, 20, "tiles[0].packs[0].count",
     "a pack of 1 beside each", "one of the two"),
    (42, "", 42, 9, "tiles[0].packs", "", ""),
    (39, "length_mm = 60", 39, 13, "tiles[0].length_mm", "60", "100 to 3000"),
    (47, 'title = ""', 47, 9, "clips[0].title", '""', "1 to 120"),
    (48, 'role = "rows"', 48, 8, "clips[0].role", '"rows"', 'role = "row"'),
    (49, "", 45, 1, "clips[0].metal", 'nothing with role = "row"', "the metal of the clip"),
    (51, "", 45, 1, "clips[0].packs", "nothing", "at least one of packs"),
]  # fmt: skip


def faults_of(folder: Path, text: str) -> tuple[Fault, ...]:
    path = folder / "stock.toml"
    path.write_text(text, encoding="utf-8")
    faults = check_catalogue(path)
    assert all(fault.file == str(path) for fault in faults)
    return faults


def test_the_file_the_faults_are_planted_in_is_fine(tmp_path: Path) -> None:
    assert faults_of(tmp_path, GOOD) == ()


@pytest.mark.parametrize("case", PLANTED, ids=lambda case: f"{case[4]}-{case[1][:30]}")
def test_a_planted_fault_is_found_where_it_is(
    tmp_path: Path, case: tuple[int, str, int, int, str, str, str]
) -> None:
    at, new, line, column, path, found, wanted = case
    lines = GOOD.split("\n")
    lines[at - 1] = new
    faults = faults_of(tmp_path, "\n".join(lines))
    if not found:  # what is left is enough
        assert faults == ()
        return
    fault = next(fault for fault in faults if fault.path == path)
    assert (fault.line, fault.column) == (line, column)
    assert found in fault.found
    assert wanted in f"{fault.wanted} {fault.nearest}"


def test_what_a_record_tells_is_read() -> None:
    stock = load_catalogue(GOOD.encode())
    assert (stock.vat_ratio, stock.batch, stock.note) == (0.2, "L7", "collected only")
    assert (stock.valid_from, stock.valid_until) == (date(2027, 3, 1), date(2027, 11, 30))
    board, oak = stock.boards
    assert board.record == Record(
        gtin="6291041500213", batch="L7", sold_from=date(2027, 4, 1),
        sold_until=date(2027, 11, 30), note="one pallet",
    )  # fmt: skip
    # by hand: 3.6 x 4.255 = 15.318 and 4.8 x 4.255 = 20.424, up to the next cent
    assert [str(length.price) for length in board.lengths] == ["15.32", "20.43"]
    assert (board.lengths[0].pack, oak.durability_class) == (4, 2)
    assert [(pack.count, str(pack.price)) for pack in stock.tiles[0].packs] == [
        (1, "17.90"), (60, "948.00"),
    ]  # fmt: skip


# ----- GTIN ----------------------------------------------------------------------------

#: Worked examples of GS1's own pages on check digits: the international one and GS1 Hong Kong
#: (6291041500213), GS1 Sweden (7300011000017), GS1 India (8904000210037). The others by hand:
#: 9638507: 7+5+3+9 = 24 thrice is 72... from the right 3(7+5+3+9) + (0+8+6) = 72 + 14 = 86 -> 4;
#: 03600029145: 3(5+1+2+0+6+0) + (4+9+0+0+3) = 42 + 16 = 58 -> 2.
PRINTED = ["6291041500213", "7300011000017", "8904000210037", "96385074", "036000291452"]


@pytest.mark.parametrize("gtin", PRINTED)
def test_check_digits_are_those_of_printed_examples(gtin: str) -> None:
    assert check_digit(gtin[:-1]) == int(gtin[-1])
    assert is_gtin(gtin)
    assert not any(is_gtin(gtin[:-1] + str(other)) for other in range(10) if str(other) != gtin[-1])


@given(st.sampled_from([7, 11, 12, 13]).flatmap(lambda n: st.integers(1, 10**n - 1).map(
    lambda number: f"{number:0{n}d}")))  # fmt: skip
def test_a_gtin_with_its_check_digit_is_one_and_any_other_digit_is_seen(digits: str) -> None:
    gtin = f"{digits}{check_digit(digits)}"
    assert is_gtin(gtin)
    assert is_gtin(whole_gtin(gtin))  # zeros in front change nothing
    for at in range(len(gtin)):
        other = str((int(gtin[at]) + 1) % 10)
        assert not is_gtin(gtin[:at] + other + gtin[at + 1 :])


@given(st.text(max_size=15))
def test_no_text_but_digits_is_a_gtin(text: str) -> None:
    assert not is_gtin(text) or (text.isascii() and text.isdigit())


# ----- prices --------------------------------------------------------------------------


@given(
    per_m=st.integers(1, 10**7), length=st.integers(300 * 320, 13_500 * 320),
    digits=st.integers(0, 3),
)  # fmt: skip
def test_a_price_for_a_metre_is_never_rounded_down(per_m: int, length: int, digits: int) -> None:
    a_metre, length_mm = Decimal(per_m).scaleb(-digits - 2), length / 320
    exact = Fraction(per_m, 10 ** (digits + 2)) * Fraction(length, 320_000)
    price = price_by_metre(a_metre, length_mm, digits)
    assert Fraction(price) == Fraction(ceil(exact * 10**digits), 10**digits)
    assert is_rounded(a_metre, length_mm, digits) == (Fraction(price) != exact)


# ----- days ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("day", "codes"),
    [
        ("2027-02-28", []),
        ("2027-03-01", ["B2", "P1", "C1"]),  # the list holds, B1 is not yet on sale
        ("2027-04-01", ["B1", "B2", "P1", "C1"]),
        (date(2027, 11, 30), ["B1", "B2", "P1", "C1"]),
        ("2027-12-01", []),
    ],
)
def test_a_day_keeps_what_is_on_sale_then(day: date | str, codes: list[str]) -> None:
    stock = load_catalogue(GOOD.encode()).on(day)
    assert [each.code for each in (*stock.boards, *stock.tiles, *stock.clips)] == codes
    assert load_catalogue(GOOD.encode(), on=day) == stock


@pytest.mark.parametrize("day", ["tomorrow", "2027-02-30", "", 3, None, "1.4.2027"])
def test_what_is_no_day_is_refused(day: Any) -> None:
    with pytest.raises(CatalogueError) as caught:
        load_catalogue(GOOD.encode()).on(day)
    assert caught.value.faults[0].path == "on"


# ----- two lists -----------------------------------------------------------------------


def test_each_article_keeps_the_days_and_batch_of_its_own_list() -> None:
    spring = load_catalogue(GOOD.encode())
    other = GOOD.replace("L7", "L8").replace("2027-11-30", "2027-12-31")
    other = other[: other.index("[[boards]]")] + other[other.index("[[clips]]") :]
    winter = load_catalogue(other.replace('"C1"', '"C2"').encode())
    both = spring | winter
    assert (both.batch, both.valid_until, both.note) == ("", None, "collected only")
    assert {clip.code: clip.record.batch for clip in both.clips} == {"C1": "L7", "C2": "L8"}
    assert [clip.code for clip in both.on("2027-12-24").clips] == ["C2"]
    assert catalogue_digest(winter | spring) == catalogue_digest(both)


def test_what_one_list_leaves_untold_the_other_may_tell() -> None:
    stock = load_catalogue(GOOD.encode())
    board = stock.boards[0]
    bare = evolve(board, record=evolve(board.record, gtin="", note=""))
    both = stock | evolve(stock, boards=(bare, *stock.boards[1:]), vat_ratio=None)
    assert both == stock
    noted = evolve(board, record=evolve(board.record, note="two pallets"))
    both = stock | evolve(stock, boards=(noted,))
    assert both.boards[0].record.note == "one pallet / two pallets"


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"batch": "X"}, "B1.batch: found L7 and X"),
        ({"gtin": "8904000210037"}, "B1.gtin: found 6291041500213 and 8904000210037"),
        ({"sold_until": None}, "B1.sold_until: found 2027-11-30 and nothing"),
    ],
)
def test_records_that_contradict_each_other_are_told(changes: dict[str, Any], told: str) -> None:
    stock = load_catalogue(GOOD.encode())
    board = evolve(stock.boards[0], record=evolve(stock.boards[0].record, **changes))
    with pytest.raises(CatalogueError) as caught:
        _ = stock | evolve(stock, boards=(board,))
    assert told in str(caught.value)


def test_a_rule_that_differs_in_its_source_alone_tells_the_sources() -> None:
    stock = load_catalogue(GOOD.encode())
    two = [
        ArticleRule(rule="most_centres_mm", value=450.0, source=Source(
            kind="merchant record", title="Sheet", clause=clause))
        for clause in ("spring", "autumn")
    ]  # fmt: skip
    one, other = (
        evolve(stock, name=name, boards=(evolve(stock.boards[0], rules=(rule,)),))
        for name, rule in zip(("East", "West"), two, strict=True)
    )
    with pytest.raises(CatalogueError) as caught:
        _ = one | other
    (fault,) = caught.value.faults
    assert fault.path == "B1.rules.most_centres_mm"
    assert fault.found == (
        "450 (merchant record: Sheet, spring) and 450 (merchant record: Sheet, autumn)"
    )
    assert fault.wanted == "the same in East and West"


def test_lists_that_hold_for_other_days_are_told_once() -> None:
    spring = load_catalogue(GOOD.encode())
    winter = load_catalogue(GOOD.replace("2027-11-30", "2027-12-31").encode())
    with pytest.raises(CatalogueError) as caught:
        _ = spring | winter
    (fault,) = caught.value.faults
    assert fault.path == "catalogue.valid_until"
    assert fault.found.startswith("2027-11-30 and 2027-12-31, and 4 articles in both (B1, B2, ")


def test_one_code_for_two_articles_says_what_to_do() -> None:
    stock = load_catalogue(GOOD.encode())
    other = evolve(stock.boards[0], title="Another board")
    with pytest.raises(CatalogueError) as caught:
        _ = stock | evolve(stock, boards=(other,))
    (fault,) = caught.value.faults
    assert (fault.path, '.without("B1")' in fault.nearest) == ("B1.title", True)


def test_a_gtin_of_two_things_in_two_lists_is_told() -> None:
    stock = load_catalogue(GOOD.encode())
    other = evolve(stock.boards[1], code="B9")
    with pytest.raises(CatalogueError) as caught:
        _ = stock | evolve(stock, boards=(other,))
    assert "B9 3000: found GTIN 8904000210037, as B2 3000" in str(caught.value)


@st.composite
def dated(draw: st.DrawFn) -> Catalogue:
    """Return a part of one larger stock as one of three lists would have it."""
    plain = draw(parts())
    batch, until = draw(st.sampled_from([("", None), ("L7", None), ("L7", date(2027, 3, 31))]))
    code = {"": "0", "L7": "1"}[batch] + ("" if until is None else "2")
    boards = tuple(
        evolve(board, code=board.code + code, record=Record(batch=batch, sold_until=until))
        for board in plain.boards
    )
    return evolve(plain, boards=boards, screws=(), batch=batch, valid_until=until)


@given(one=dated(), two=dated(), three=dated())
def test_dated_lists_are_put_together_in_any_order_and_grouping(
    one: Catalogue, two: Catalogue, three: Catalogue
) -> None:
    assert (one | two) | three == one | (two | three)
    assert catalogue_digest(one | two) == catalogue_digest(two | one)
    assert one | one == one


def test_a_pack_may_be_left_out_and_the_last_takes_the_article_along() -> None:
    stock = load_catalogue(GOOD.encode())
    less = stock.without("P1", pack=60)
    assert [pack.count for pack in less.tiles[0].packs] == [1]
    assert less.without("P1", pack=1).tiles == ()
    assert stock.without("C1").clips == ()
    assert less | stock == stock


# ----- bytes, packages, mappings -------------------------------------------------------


def test_a_file_may_be_bytes_a_package_file_or_a_mapping(tmp_path: Path) -> None:
    path = tmp_path / "stock.toml"
    path.write_text(GOOD, encoding="utf-8")
    whole = load_catalogue(path)
    assert load_catalogue(GOOD.encode()) == whole
    assert load_catalogue(tomllib.loads(GOOD)) == whole
    assert load_catalogue(files("drylay") / ".." / ".." / "catalogs" / "sallowby.toml").tiles
    (fault, *_) = check_catalogue(GOOD.replace("4.255", "x").encode())
    assert str(fault).startswith("<catalogue>:17:15: boards[0].price_per_m")
