"""What an order weighs: sums by hand beside each figure."""

from decimal import Decimal
from fractions import Fraction

import pytest

from drylay.buying.delivery import COATING_KG_PER_ML, Weights, kg_per_mm, weigh
from drylay.buying.model import Buying, OrderLine, PackCount, PackPurchase


def line(article: str, quantity: int, length: float | None = None, pack: int | None = None,
         unit: str = "pieces") -> OrderLine:  # fmt: skip
    return OrderLine(
        article=article, title=article, length_mm=length, pack=pack, unit=unit,
        quantity=quantity, unit_price=Decimal(1), total=Decimal(quantity),
    )  # fmt: skip


def bought(article: str, unit: str) -> PackPurchase:
    box = PackCount(pack=1, packs=1, price=Decimal(1))
    return PackPurchase(
        what=f"the {article}", article=article, unit=unit, need=1, spare=0, packs=(box,),
        cost=Decimal(1), bound=Decimal(1),
    )  # fmt: skip


def order(*lines: OrderLine, spares: tuple[OrderLine, ...] = ()) -> Buying:
    articles = {each.article: each.unit for each in (*lines, *spares)}
    return Buying(
        currency="EUR", vat="included", kerf_mm=3.0, end_trim_mm=0.0, spare_ratio=0.05,
        purchases=(), packs=tuple(bought(a, unit) for a, unit in articles.items()),
        order=lines, spares=spares, order_total=Decimal(0), spares_total=Decimal(0),
        total=Decimal(0),
    )  # fmt: skip


WEIGHTS = Weights(
    per_mm={"joist": kg_per_mm(45.0, 145.0, 700.0), "board": kg_per_mm(28.0, 145.0, 700.0)},
    per_unit={"gravel": Fraction(1), "oil": COATING_KG_PER_ML},
)


@pytest.mark.parametrize(
    ("thickness", "breadth", "length", "told"),
    [
        (45.0, 145.0, 6000.0, 27.5),  # 0.045 x 0.145 x 6 x 700 = 27.405
        (28.0, 145.0, 3600.0, 10.3),  # 0.028 x 0.145 x 3.6 x 700 = 10.2312
        (50.0, 100.0, 1000.0, 3.5),  # 0.005 x 700 = 3.5 just so: not 3.6
    ],
)
def test_a_length_by_hand(thickness: float, breadth: float, length: float, told: float) -> None:
    weights = Weights(per_mm={"a": kg_per_mm(thickness, breadth, 700.0)}, per_unit={})
    assert weigh(order(line("a", 1, length)), weights, density_kg_m3=700.0).lift_kg == told


def test_an_order_by_hand() -> None:
    """Joists 2 x 27.405 = 54.81; boards (9 + 1) x 10.2312 = 102.312; gravel 40 x 25 = 1000;
    oil 2 x 2.5 l x 1.3 = 6.5. In all 54.9 + 102.4 + 1000 + 6.5 = 1163.8."""
    brought = weigh(
        order(
            line("joist", 2, 6000.0), line("board", 9, 3600.0),
            line("gravel", 40, pack=25, unit="kg"), line("oil", 2, pack=2500, unit="ml"),
            line("screw", 3, pack=200), spares=(line("board", 1, 3600.0),),
        ),
        WEIGHTS, density_kg_m3=700.0,
    )  # fmt: skip
    assert [(part.what, part.mass_kg) for part in brought.parts] == [
        ("the joist", 54.9), ("the board", 102.4), ("the gravel", 1000.0), ("the oil", 6.5),
    ]  # fmt: skip
    assert brought.total_kg == 1163.8
    assert (brought.lift_article, brought.lift_length_mm, brought.lift_kg) == (
        "joist",
        6000.0,
        27.5,
    )
    assert brought.lorry_packs == 0


def test_a_bulk_bag_is_no_lift_and_a_sack_is() -> None:
    bulk = weigh(
        order(line("board", 1, 3600.0), line("gravel", 2, pack=850, unit="kg")),
        WEIGHTS, density_kg_m3=700.0,
    )  # fmt: skip
    assert (bulk.lift_article, bulk.lorry_packs) == ("board", 2)
    sack = weigh(
        order(line("board", 1, 3600.0), line("gravel", 2, pack=25, unit="kg")),
        WEIGHTS, density_kg_m3=700.0,
    )  # fmt: skip
    assert (sack.lift_article, sack.lift_pack, sack.lift_kg) == ("gravel", 25, 25.0)


def test_spares_are_lifted_too() -> None:
    brought = weigh(
        order(line("board", 1, 3600.0), spares=(line("board", 1, 5400.0),)),
        WEIGHTS, density_kg_m3=700.0,
    )  # fmt: skip
    assert brought.lift_length_mm == 5400.0
