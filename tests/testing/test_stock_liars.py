"""Catalogues that lie, each caught by the law it breaks; and good ones that break none."""

import math
from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve

from drylay.materials.loader import load_catalogue
from drylay.materials.stock_model import (
    ArticleRule,
    Board,
    Catalogue,
    Hanger,
    Pack,
    StockLength,
    Timber,
)
from drylay.plugins.stock_form import stock_form
from drylay.reasons import Source
from drylay.testing import STOCK_LAWS, StockContract, check_stock
from liars import SCREW
from tile_family import OBLONG

ROOT = Path(__file__).parents[2]
YARD = Source(kind="merchant record", title="a yard sheet")


def lengths(*pairs: tuple[float, str]) -> tuple[StockLength, ...]:
    return tuple(StockLength(length_mm=mm, price=Decimal(price)) for mm, price in pairs)


def packs(*pairs: tuple[int, str]) -> tuple[Pack, ...]:
    return tuple(Pack(count=count, price=Decimal(price)) for count, price in pairs)


BOARD = Board(
    code="DB-28-145",
    title="Deck board",
    family="softwood",
    width_mm=145.0,
    thickness_mm=28.0,
    lengths=lengths((2400.0, "9.80"), (3600.0, "14.65")),
    rules=(ArticleRule(rule="most_centres_mm", value=380.0, source=YARD),),
)
TIMBER = Timber(
    code="FT-45-145",
    title="Frame timber",
    thickness_mm=45.0,
    depth_mm=145.0,
    lengths=lengths((2400.0, "11.60")),
)
HANGER = Hanger(
    code="JH-45", title="Hanger", joist_mm=45.0, depth_mm=90.0, metal="hot-dip galvanised",
    screw="DS-45-70", screws_each=8, packs=packs((1, "1.20")),
)  # fmt: skip
GOOD = Catalogue(
    name="Yard",
    currency="GBP",
    vat="included",
    boards=(BOARD,),
    timbers=(TIMBER,),
    screws=(SCREW,),
    hangers=(HANGER,),
)

#: A tile whose length is its shorter side.
ACROSS = evolve(OBLONG, family="softwood", length_mm=500.0)


def board(**changes: object) -> Catalogue:
    return evolve(GOOD, boards=(evolve(BOARD, **changes),))


def screw(**changes: object) -> Catalogue:
    return evolve(GOOD, screws=(evolve(SCREW, **changes),))


def rule(name: str, value: object, source: object = YARD, times: int = 1) -> Catalogue:
    own = ArticleRule(rule=name, value=value, source=source)  # type: ignore[arg-type]
    return board(rules=(own,) * times)


LIARS: dict[str, tuple[str, object]] = {
    "no catalogue": ("shape", {"catalogue": "Yard"}),
    "a screw among boards": ("shape", evolve(GOOD, boards=(SCREW,))),
    "boards in a list": ("shape", evolve(GOOD, boards=[BOARD])),
    "a width as text": ("shape", board(width_mm="145")),
    "a code that is a number": ("shape", board(code=28145)),
    "rules in a list": ("shape", board(rules=[])),
    "no title": ("codes", board(title=" ")),
    "no name": ("head", evolve(GOOD, name=" ")),
    "a currency of its own": ("head", evolve(GOOD, currency="BTC")),
    "a tax half told": ("head", evolve(GOOD, vat="maybe")),
    "pounds without pence": ("head", evolve(GOOD, minor_digits=0)),
    "a code twice": ("codes", evolve(GOOD, boards=(BOARD, BOARD))),
    "a code of two kinds": ("codes", evolve(GOOD, timbers=(evolve(TIMBER, code=BOARD.code),))),
    "for nothing": ("prices", board(lengths=lengths((2400.0, "0.00")))),
    "a price that is none": ("prices", board(lengths=lengths((2400.0, "NaN")))),
    "a price below nothing": ("prices", screw(packs=packs((100, "-12.90")))),
    "a price in floats": (
        "prices",
        board(lengths=(StockLength(length_mm=2400.0, price=9.8),)),  # type: ignore[arg-type]
    ),
    "a price of half a penny": ("prices", board(lengths=lengths((2400.0, "9.805")))),
    "nothing on sale": ("prices", board(lengths=())),
    "lengths falling": ("lengths", board(lengths=lengths((3600.0, "14.65"), (2400.0, "9.80")))),
    "a length twice": ("lengths", board(lengths=lengths((2400.0, "9.80"), (2400.0, "9.80")))),
    "half a board left": (
        "lengths",
        board(
            lengths=(
                StockLength(length_mm=2400.0, price=Decimal("9.80"), limit=1.5),  # type: ignore[arg-type]
            )
        ),
    ),
    "packs falling": ("packs", screw(packs=packs((500, "55.00"), (100, "12.90")))),
    "half a screw": ("packs", screw(packs=packs((99.5, "12.90")))),  # type: ignore[arg-type]
    "a board on edge": ("sizes", board(width_mm=28.0, thickness_mm=145.0)),
    "a tile across": ("sizes", evolve(GOOD, tiles=(ACROSS,))),
    "no thickness": ("sizes", board(thickness_mm=0.0)),
    "a width without end": ("sizes", board(width_mm=math.inf)),
    "a metal of its own": ("metals", screw(metal="unobtainium")),
    "a family nobody has": ("families", board(family="bogoak")),
    "a rule of its own": ("overrides", rule("colour", 3.0)),
    "a rule no record answers": ("overrides", rule("metal_allowed", 1.0)),
    "centres to fall through": ("overrides", rule("most_centres_mm", 3800.0)),
    "centres of nan": ("overrides", rule("most_centres_mm", math.nan)),
    "half a support": ("overrides", rule("least_supports", 2.5)),
    "centres by nobody": ("overrides", rule("most_centres_mm", 380.0, source=None)),
    "centres twice": ("overrides", rule("most_centres_mm", 380.0, times=2)),
    "a hanger without screws": ("hangers", evolve(GOOD, hangers=(evolve(HANGER, screw="X"),))),
    "longer for less": (
        "length prices",
        board(lengths=lengths((2400.0, "9.80"), (3600.0, "9.65"))),
    ),
    "a slip of the point": (
        "length prices",
        board(lengths=lengths((2400.0, "9.80"), (3600.0, "146.50"))),
    ),
    "a box for less": ("pack prices", screw(packs=packs((100, "12.90"), (500, "5.50")))),
    "a box for much more": ("pack prices", screw(packs=packs((100, "0.10"), (500, "55.00")))),
    "boards a metre wide": ("loads", board(width_mm=1450.0)),
}  # fmt: skip
#: What a lie may break beside its own law: a stock file refuses most of them, and a currency
#: without decimals has no prices of 9.80.
BESIDE = {"loads", "prices"}


def laws(catalogue: object) -> set[str]:
    told = check_stock(catalogue, known_families={"softwood"})  # type: ignore[arg-type]
    return {broken.law for broken in told}


@pytest.mark.parametrize("liar", LIARS)
def test_a_lying_catalogue_is_caught_by_the_law_it_breaks(liar: str) -> None:
    law, catalogue = LIARS[liar]
    assert law in laws(catalogue)


@pytest.mark.parametrize(
    "liar", [name for name, (law, _) in LIARS.items() if law not in {"prices", "lengths", "packs"}]
)
def test_a_lie_breaks_no_law_of_another_kind(liar: str) -> None:
    law, catalogue = LIARS[liar]
    assert laws(catalogue) - BESIDE == {law} - BESIDE


def test_every_law_has_its_liar() -> None:
    assert set(STOCK_LAWS) - {law for law, _ in LIARS.values()} == {"round trip"}  # below


def test_a_price_that_a_stock_file_would_tell_otherwise() -> None:
    """9.8 is 9.80 to a person; a file gives it all decimals, so the catalogue is another one."""
    assert laws(board(lengths=(lengths((2401.00001, "9.80"))))) == {"round trip"}


def test_the_good_catalogue_breaks_no_law() -> None:
    assert check_stock(GOOD, known_families={"softwood"}) == ()


SOLD = [path for path in ROOT.glob("catalogs/*.*") if not path.name.endswith(".map.toml")]


@pytest.mark.parametrize("path", sorted(SOLD), ids=lambda path: path.stem)
def test_stock_files_come_out_of_their_form_as_they_went_in(path: Path) -> None:
    sheet = path.suffix == ".csv"
    stock = load_catalogue(path, mapping=path.with_suffix(".map.toml") if sheet else None)
    assert load_catalogue(stock_form(stock)) == stock
    assert check_stock(stock) == ()


def test_what_cannot_be_looked_at_is_told() -> None:
    broken = check_stock(screw(packs=(Pack(count="many", price=Decimal(1)),) * 2))  # type: ignore[arg-type]
    assert {"packs", "pack prices"} <= {each.law for each in broken}
    assert all(str(each).startswith(f"{each.law}: ") for each in broken)


class TestHobbleden(StockContract):
    catalogue = ROOT / "catalogs" / "hobbleden.toml"
    known_families = ("softwood",)


class Liar(StockContract):
    catalogue = board(family="bogoak")
    known_families = ("softwood",)


def test_the_class_has_a_test_for_each_law_and_the_right_one_fails() -> None:
    names = {f"test_{law.replace(' ', '_')}" for law in STOCK_LAWS}
    assert names == {name for name in dir(StockContract) if name.startswith("test_")}
    with pytest.raises(AssertionError, match="found family 'bogoak', wanted a family that is"):
        Liar().test_families()  # type: ignore[attr-defined]
    Liar().test_prices()  # type: ignore[attr-defined]
