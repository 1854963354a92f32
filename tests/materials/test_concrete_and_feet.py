"""Concrete mix and post feet in a stock: read, refused, found, joined, left out, replaced."""

from decimal import Decimal
from typing import Any

import pytest

from drylay.errors import CatalogueError, UnknownPathError
from drylay.materials.loader import check_catalogue, load_catalogue
from drylay.materials.lookup import catalogue_digest, find_concrete, find_post_foot
from drylay.materials.stock_model import Bag, Catalogue, ConcreteMix, Pack, PostFoot
from drylay.plugins.stock_form import stock_form
from drylay.testing.stocks import check_stock

HEAD: dict[str, Any] = {"name": "A yard", "currency": "EUR", "vat": "included"}
MIX: dict[str, Any] = {
    "code": "M1", "title": "Mix", "dry_kg_m3": 2160,
    "packs": [{"kg": 25, "price": "7.20"}, {"kg": 20, "price": "6.40", "gtin": "2000000000022"}],
}  # fmt: skip
FOOT: dict[str, Any] = {
    "code": "P1", "title": "Foot", "post_mm": 100, "stand_off_mm": 25, "capacity_kn": 18,
    "metal": "hot-dip galvanised", "packs": [{"count": 10, "price": "79.00"}], "each": "8.90",
}  # fmt: skip
#: A mapping and a list that tell the same as the two articles above.
SHEET = """\
Kind;Code;Title;Dry;Side;Off;Holds;Pack;Price;GTIN
mix;M1;Mix;2160;;;;20;6.40;2000000000022
foot;P1;Foot;;10;25;18;10;79.00;
mix;M1;Mix;2160;;;;25;7.20;
foot;P1;Foot;;10;25;18;1;8.90;
"""
MAPPING: dict[str, Any] = {
    "file": {"encoding": "utf-8", "delimiter": ";", "decimal": ".", "kind_column": "Kind"},
    "catalogue": HEAD,
    "columns": {"code": "Code", "title": "Title", "price": "Price", "gtin": "GTIN"},
    "rows": [
        {"says": "mix", "kind": "concretes", "columns": {"dry_kg_m3": "Dry", "kg": "Pack"}},
        {
            "says": "foot", "kind": "post_feet", "constants": {"metal": "hot-dip galvanised"},
            "columns": {
                "post_mm": {"column": "Side", "unit": "cm"},
                "stand_off_mm": {"column": "Off", "unit": "mm"},
                "capacity_kn": "Holds", "count": "Pack",
            },
        },
    ],
}  # fmt: skip


def stock_of(mixes: list[dict[str, Any]], feet: list[dict[str, Any]]) -> Catalogue:
    return load_catalogue({"catalogue": HEAD, "concretes": mixes, "post_feet": feet})


def yard() -> Catalogue:
    return stock_of([MIX], [FOOT])


def test_what_a_file_tells_is_read_smallest_pack_first() -> None:
    assert yard().concretes == (
        ConcreteMix(
            code="M1", title="Mix", dry_kg_m3=2160.0,
            packs=(Bag(kg=20, price=Decimal("6.40"), gtin="2000000000022"),
                   Bag(kg=25, price=Decimal("7.20"))),
        ),
    )  # fmt: skip
    assert yard().post_feet == (
        PostFoot(
            code="P1", title="Foot", post_mm=100.0, stand_off_mm=25.0, capacity_kn=18.0,
            metal="hot-dip galvanised",
            packs=(Pack(count=1, price=Decimal("8.90")), Pack(count=10, price=Decimal("79.00"))),
        ),
    )  # fmt: skip


def test_lengths_of_a_foot_may_bring_their_unit_and_its_load_be_left_out() -> None:
    told = {name: FOOT[name] for name in ("code", "title", "metal", "each")}
    (foot,) = stock_of([], [{**told, "post": "3 1/2 in", "stand_off": "1 in"}]).post_feet
    # by hand: 3.5 x 25.4 and 25.4
    assert (foot.post_mm, foot.stand_off_mm, foot.capacity_kn) == (88.9, 25.4, None)


@pytest.mark.parametrize(
    ("kind", "changed", "path", "wanted"),
    [
        ("concretes", {"dry_kg_m3": None}, "concretes[0].dry_kg_m3", "a value"),
        ("concretes", {"dry_kg_m3": 21.6}, "concretes[0].dry_kg_m3", "1500 to 2500"),
        ("concretes", {"dry_kgm3": 2100}, "concretes[0].dry_kgm3", "dry_kg_m3"),
        ("concretes", {"packs": [{"count": 25, "price": "7"}]}, "concretes[0].packs[0].count",
         "kg"),
        ("concretes", {"packs": [{"kg": 20.5, "price": "7"}]}, "concretes[0].packs[0].kg",
         "a whole number"),
        ("concretes", {"packs": []}, "concretes[0].packs", "at least one"),
        ("concretes", {"each": "7"}, "concretes[0].each", "one of code"),
        ("concretes", {"packs": [{"kg": 20, "price": "6"}, {"kg": 20, "price": "7"}]},
         "concretes[0].packs[1].kg", "once"),
        ("concretes", {"sold_from": "2027-04-02", "sold_until": "2027-04-01"},
         "concretes[0].sold_until", "no earlier than sold_from"),
        ("post_feet", {"post_mm": None}, "post_feet[0].post_mm", "post"),
        ("post_feet", {"post_mm": 10}, "post_feet[0].post_mm", "40 to 300 mm"),
        ("post_feet", {"stand_off_mm": -5}, "post_feet[0].stand_off_mm", "0 to 500 mm"),
        ("post_feet", {"capacity_kn": 18_000}, "post_feet[0].capacity_kn", "0.1 to 500"),
        ("post_feet", {"metal": "stainless"}, "post_feet[0].metal", "stainless A2"),
        ("post_feet", {"metal": None}, "post_feet[0].metal", "one of plain steel"),
        ("post_feet", {"packs": [{"count": 1, "price": "9"}]}, "post_feet[0].packs[0].count",
         "one of the two"),
        ("post_feet", {"gtin": "2000000000022"}, "post_feet[0].gtin", "a GTIN of its own"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_where_it_is(
    kind: str, changed: dict[str, Any], path: str, wanted: str
) -> None:
    told = {**(MIX if kind == "concretes" else FOOT), **changed}
    told = {name: value for name, value in told.items() if value is not None}
    stock = {"catalogue": HEAD, "concretes": [MIX], "post_feet": [FOOT], kind: [told]}
    assert check_catalogue({"catalogue": HEAD, "concretes": [MIX], "post_feet": [FOOT]}) == ()
    found = {fault.path: fault for fault in check_catalogue(stock)}
    assert path in found
    assert wanted in f"{found[path].wanted} {found[path].nearest}"


def test_a_list_with_a_mapping_tells_the_same() -> None:
    found = load_catalogue(SHEET.encode(), mapping=MAPPING)
    assert catalogue_digest(found) == catalogue_digest(yard())
    wrong = SHEET.replace("foot;P1;Foot;;10;25", "foot;P1;Foot;;10;2500", 1)
    (fault,) = check_catalogue(wrong.encode(), mapping=MAPPING)[:1]
    assert (fault.line, fault.path.split(" ")[0]) == (3, "stand_off_mm")


def test_they_are_found_by_their_code_and_a_near_one_is_named() -> None:
    assert find_concrete(yard(), "M1") is not None
    assert find_post_foot(yard(), "P1").post_mm == 100
    for find, near in ((find_concrete, "M1"), (find_post_foot, "P1")):
        with pytest.raises(UnknownPathError) as caught:
            find(yard(), near.lower() + "0")
        assert caught.value.nearest == (near,)


def test_a_pack_or_all_of_it_is_left_out_and_put_back() -> None:
    less = yard().without("M1", pack=20).without("P1", pack=10)
    assert [bag.kg for bag in less.concretes[0].packs] == [25]
    assert [pack.count for pack in less.post_feet[0].packs] == [1]
    assert less | yard() == yard()
    assert less.without("M1", pack=25).concretes == less.without("M1").concretes == ()
    assert yard() | yard() == yard()


def test_two_lists_that_contradict_each_other_are_told() -> None:
    other = stock_of([{**MIX, "dry_kg_m3": 2000}], [{**FOOT, "capacity_kn": 20}])
    with pytest.raises(CatalogueError) as caught:
        _ = yard() | other
    assert [fault.path for fault in caught.value.faults] == ["M1.dry_kg_m3", "P1.capacity_kn"]


def test_a_day_keeps_what_is_on_sale_then() -> None:
    stock = stock_of([{**MIX, "sold_until": "2027-03-31"}], [{**FOOT, "sold_from": "2027-04-01"}])
    assert (len(stock.on("2027-03-31").concretes), stock.on("2027-03-31").post_feet) == (1, ())
    assert (stock.on("2027-04-01").concretes, len(stock.on("2027-04-01").post_feet)) == ((), 1)


def test_the_nearest_foot_takes_the_same_post_and_what_is_worse_says_so() -> None:
    feet = [
        FOOT,
        {**FOOT, "code": "P2", "capacity_kn": 24, "stand_off_mm": 50},
        {**FOOT, "code": "P3", "capacity_kn": 12, "stand_off_mm": 20},
        {**FOOT, "code": "P4", "post_mm": 90},
    ]
    undeclared = {name: told for name, told in FOOT.items() if name != "capacity_kn"}
    stock = stock_of([MIX], [*feet, {**undeclared, "code": "P5"}])
    assert [str(each) for each in stock.nearest("P1")] == [
        "P2: stand_off_mm 25 -> 50; capacity_kn 18 -> 24",
        "P5: capacity_kn 18 -> not told (worse)",
        "P3: stand_off_mm 25 -> 20 (worse); capacity_kn 18 -> 12 (worse)",
    ]


def test_mixes_are_compared_by_the_kg_and_one_that_makes_less_says_so() -> None:
    packs = [{"kg": 30, "price": "9.00"}]
    stock = stock_of([MIX, {**MIX, "code": "M2", "dry_kg_m3": 2200, "packs": packs}], [])
    (found,) = stock.nearest("M1")
    # by hand: 7.20 for 25 kg are 0.288, 9.00 for 30 kg are 0.30
    assert str(found) == (
        "M2: dry_kg_m3 2160 -> 2200 (worse); packs 20, 25 -> 30; "
        "price a kg 0.2880 -> 0.3000 (+0.0120)"
    )


def test_a_catalogue_of_them_keeps_every_law_and_is_told_as_a_file() -> None:
    flush = stock_of([MIX], [{**FOOT, "stand_off_mm": 0}])
    assert check_stock(yard()) == check_stock(flush) == ()
    assert load_catalogue(stock_form(yard())) == yard()
    assert {law.law for law in check_stock(stock_of([MIX], [{**FOOT, "each": "80.00"}]))} == {
        "pack prices"
    }
