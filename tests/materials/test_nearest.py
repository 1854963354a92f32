"""What may stand in for an article that is out: ranked, and never silently worse."""

from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import CatalogueError, UnknownPathError
from drylay.materials.loader import load_catalogue
from drylay.materials.nearest import is_worse, lowest_price
from drylay.materials.nearest_model import Substitute
from drylay.materials.stock_model import KINDS, METALS, Catalogue

CATALOGS = Path(__file__).parents[2] / "catalogs"
HOBBLEDEN = load_catalogue(CATALOGS / "hobbleden.toml")
SALLOWBY = load_catalogue(CATALOGS / "sallowby.toml")
BOTH = HOBBLEDEN | SALLOWBY

#: EN 338, from memory: softwood classes by rising strength, hardwood classes likewise.
SOFTWOODS = ("C14", "C16", "C18", "C20", "C22", "C24", "C27", "C30", "C35", "C40", "C45", "C50")
HARDWOODS = ("D18", "D24", "D30", "D35", "D40", "D50", "D60", "D70")


def codes(found: tuple[Substitute, ...]) -> list[str]:
    return [each.article.code for each in found]


def changes(found: Substitute) -> dict[str, tuple[object, object, bool]]:
    return {change.fact: (change.old, change.new, change.worse) for change in found.changes}


def test_the_same_family_comes_first_then_width_then_thickness() -> None:
    assert codes(BOTH.nearest("DB-28-145"))[:2] == ["SB-28-145", "DB-33-145"]
    families = [each.article.family for each in BOTH.nearest("CS-23-140")]
    assert families[0] == "composite"
    assert "composite" not in families[1:]


def test_exactly_what_changes_is_told() -> None:
    found = {each.article.code: each for each in HOBBLEDEN.nearest("DB-28-145")}["DB-28-120"]
    # hobbleden.toml, both boards read side by side
    assert changes(found) == {
        "width_mm": (145.0, 120.0, False),
        "faces": ("one grooved", "smooth", False),
        "lengths": ("2400, 3000, 3600, 4200, 4800, 5400", "2400, 3000, 3600, 4200, 4800", False),
    }
    # 11.85 for 3 m are 3.95 a metre; 8.15 for 2.4 m are 3.39583..., up
    assert (found.unit, str(found.price_old), str(found.price_new)) == ("m", "3.9500", "3.3959")
    assert str(found).endswith("price a m 3.9500 -> 3.3959 (-0.5541)")


def test_what_is_not_told_is_worse_than_what_is() -> None:
    timber = HOBBLEDEN.timbers[0]
    other = evolve(timber, code="X", use_class=None, strength_class="")
    stock = evolve(HOBBLEDEN, timbers=(timber, other))
    (found,) = stock.nearest(timber.code)
    assert changes(found) == {
        "strength_class": ("C24", "", True),
        "use_class": (4, None, True),
    }
    assert "strength_class C24 -> not told (worse)" in str(found)


@pytest.mark.parametrize("scale", [SOFTWOODS, HARDWOODS])
def test_a_lower_strength_class_is_worse_and_a_higher_is_not(scale: tuple[str, ...]) -> None:
    for at, old in enumerate(scale):
        for to, new in enumerate(scale):
            assert is_worse("strength_class", f"graded {old}", new) == (to < at)


@pytest.mark.parametrize(("old", "new"), [("C24", "D24"), ("C24", "GL24h"), ("VSG 8", "C24")])
def test_classes_of_two_scales_are_not_said_to_be_as_good(old: str, new: str) -> None:
    assert is_worse("strength_class", old, new)


@given(st.sampled_from(METALS), st.sampled_from(METALS))
def test_no_metal_is_better_than_one_that_is_better_than_it(one: str, other: str) -> None:
    if one != other and not is_worse("metal", one, other):
        both_coatings = {one, other} == {"coated for treated timber", "hot-dip galvanised"}
        assert is_worse("metal", other, one) or both_coatings
    assert is_worse("metal", "stainless A4", other) == (other != "stainless A4")


def test_aluminium_is_not_held_against_steel() -> None:
    assert all(is_worse("metal", "aluminium", other) for other in METALS)


@given(st.sampled_from([(kind, each.code) for kind in KINDS for each in getattr(BOTH, kind)]))
def test_substitutes_are_of_the_kind_each_once_and_what_is_worse_says_so(
    wanted: tuple[str, str],
) -> None:
    kind, code = wanted
    article = next(each for each in getattr(BOTH, kind) if each.code == code)
    found = BOTH.nearest(code)
    assert len(set(codes(found))) == len(found)
    assert code not in codes(found)
    for each in found:
        assert each.article in getattr(BOTH, kind)
        told = changes(each)
        for fact in ("metal", "use_class", "strength_class", "thickness_mm", "depth_mm"):
            if hasattr(article, fact) and getattr(article, fact) != getattr(each.article, fact):
                assert told[fact][:2] == (getattr(article, fact), getattr(each.article, fact))
        assert each.price_new >= lowest_price(each.article)
    same_family = [getattr(each.article, "family", "") == getattr(article, "family", "")
                   for each in found]  # fmt: skip
    assert same_family == sorted(same_family, reverse=True)
    worse = [sum(change.worse for change in each.changes)
             for each, same in zip(found, same_family, strict=True) if same]  # fmt: skip
    assert worse == sorted(worse)


def test_only_clips_of_the_role_and_coatings_of_the_use_stand_in() -> None:
    assert codes(SALLOWBY.nearest("CL-ROW-5")) == []
    assert codes(BOTH.nearest("EW-CLEAR")) == ["EW-SALLOW"]


def test_what_is_sold_out_does_not_stand_in_and_may_be_replaced() -> None:
    board = HOBBLEDEN.boards[0]
    out = evolve(board, lengths=tuple(evolve(each, limit=0) for each in board.lengths))
    stock = evolve(HOBBLEDEN, boards=(out, *HOBBLEDEN.boards[1:]))
    found = stock.nearest(board.code)
    assert found[0].price_old is None
    assert board.code not in codes(stock.nearest("DB-28-120"))
    assert "price a m not told -> " in str(found[0])


def test_another_merchant_may_be_asked() -> None:
    found = HOBBLEDEN.nearest("FT-45-145", among=SALLOWBY)
    assert codes(found) == ["UT-45-145", "UT-45-95"]
    assert found[0].price_new == Decimal("5.1667")  # 12.40 for 2.4 m, and 15.50 for 3 m
    with pytest.raises(CatalogueError):
        HOBBLEDEN.nearest("FT-45-145", among=load_catalogue(CATALOGS / "marrowick.toml"))


@pytest.mark.parametrize(("code", "near"), [("db-28-14", "DB-28-145"), ("FT-45-14", "FT-45-145")])
def test_an_unknown_article_names_the_nearest(code: str, near: str) -> None:
    with pytest.raises(UnknownPathError) as caught:
        HOBBLEDEN.nearest(code)
    assert near in caught.value.nearest


def test_nothing_else_of_the_kind_is_no_fault() -> None:
    alone = Catalogue(name="x", currency="GBP", vat="included", fabrics=HOBBLEDEN.fabrics[:1])
    assert alone.nearest("GF-2") == ()


def test_litres_and_kilograms_are_compared_by_their_own_measure() -> None:
    kinds = ("boards", "tiles", "screws", "coatings", "gravels", "packers")
    units = {kind: BOTH.nearest(getattr(BOTH, kind)[0].code)[0].unit for kind in kinds}
    assert units == {
        "boards": "m", "tiles": "piece", "screws": "piece", "coatings": "l", "gravels": "kg",
        "packers": "piece",
    }  # fmt: skip
    # EP-SALLOW: 29.00 for 2.5 l are 11.60; EP-CLEAR: 27.50 for 2.5 l are 11.00 a litre
    (found,) = HOBBLEDEN.nearest("EP-CLEAR", among=SALLOWBY)
    assert (str(found.price_old), str(found.price_new)) == ("11.0000", "11.6000")
