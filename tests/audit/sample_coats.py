"""What is brushed on the hand-made deck, worked out by hand.

Sawn ends, length by length of `sample_buying`, no end trim, nothing filled: 2n - 1 each.
DB1 to DB4 one piece each: 4 ends; DB5, DB6 two pieces each: 6. Boards 10.
T1, T2: rim first (1), splice (2). T3, T4: rim first (1), a joist (2), three noggins (6).
T5: six joists, 11. T6: three joists, 5, four noggins, 8.
Rims 1 + 1 + 1 + 1 = 4, joists 2 + 2 + 11 + 5 = 20, noggins 6 + 6 + 8 = 20, splices 4.
FB1, FB2 one piece each, FB3 two: 1 + 1 + 3 = 5. All: 10 + 4 + 20 + 20 + 4 + 5 = 63.

Sections: board 145 x 28 = 4060 mm2, timber 45 x 120 = 5400, fascia 20 x 120 = 2400.
"""

from decimal import Decimal

from drylay.buying.model import PackCount, PackPurchase
from drylay.fixings.model import CoatedEnds, EndWax, Finish, Preserver, WaxedEnds
from drylay.materials.stock_model import Coating, Tin

PARTS = (
    ("boards", 10, 0.0406), ("rims", 4, 0.0216), ("joists", 20, 0.108), ("noggins", 20, 0.108),
    ("splices", 4, 0.0216), ("fascia", 5, 0.012),
)  # fmt: skip


def sample_preserver() -> Preserver:
    return Preserver(
        article="QP-1", coats=2, covers_m2_per_l=4.0,
        parts=tuple(CoatedEnds(what=w, ends=n, area_m2=area) for w, n, area in PARTS),
        ends=63, ripped_m2=0.0, area_m2=0.3118,
        need_ml=156,  # 0.3118 x 2 / 4 = 0.1559 l
    )  # fmt: skip


def sample_finish() -> Finish:
    return Finish(
        article="QO-1", coats=2, covers_m2_per_l=8.0, face_up="smooth", groove_ratio=0.0,
        boards_m2=2.3693,  # 4 x 145 x 4085
        fascia_m2=0.6282,  # (4085 + 575 + 575) x 120
        area_m2=2.9975,  # 2.3693 + 0.6282: a smooth face
        need_ml=750,  # 2.9975 x 2 / 8 = 0.749375 l
    )  # fmt: skip


def sample_wax() -> EndWax:
    return EndWax(
        article="QW-1", covers_m2_per_l=5.0,
        parts=(WaxedEnds(what="boards", ends=10, area_m2=0.0406),), ends=10, area_m2=0.0406,
        need_ml=9,  # 0.0406 / 5 = 0.00812 l
    )  # fmt: skip


def coating_packs() -> tuple[PackPurchase, ...]:
    """Return the tins: 250 ml for 5.00 (500 for 9.00), 100 ml for 4.00, 1000 ml for 20.00."""
    return tuple(
        PackPurchase(
            what=what, article=article, unit="ml", need=need, spare=0,
            packs=(PackCount(pack=ml, packs=1, price=Decimal(price)),),
            cost=Decimal(price), bound=Decimal(price),
        )
        for what, article, need, ml, price in (
            ("end-grain preserver", "QP-1", 156, 250, "5.00"),
            ("end-grain wax", "QW-1", 9, 100, "4.00"),
            ("finish", "QO-1", 750, 1000, "20.00"),
        )
    )  # fmt: skip


#: 5.00 + 4.00 + 20.00
COATS_COST = Decimal("29.00")


def sample_coatings() -> tuple[Coating, ...]:
    return (
        Coating(
            code="QP-1", title="QP-1 (invented)", use="end grain", covers_m2_per_l=4.0,
            packs=(Tin(ml=250, price=Decimal("5.00")), Tin(ml=500, price=Decimal("9.00"))),
        ),
        Coating(
            code="QW-1", title="QW-1 (invented)", use="end wax", covers_m2_per_l=5.0,
            packs=(Tin(ml=100, price=Decimal("4.00")),),
        ),
        Coating(
            code="QO-1", title="QO-1 (invented)", use="finish", covers_m2_per_l=8.0,
            packs=(Tin(ml=1000, price=Decimal("20.00")),),
        ),
    )  # fmt: skip


COATS_FROM_FAMILY = {
    "fixings.seal_board_ends", "fixings.wax_board_ends", "fixings.board_finish_coats",
    "fixings.preserver.coats", "fixings.finish.coats", "fixings.finish.groove_ratio",
}  # fmt: skip
COATS_BY_SUM = {
    "fixings.preserver.covers_m2_per_l", "fixings.preserver.ends", "fixings.preserver.ripped_m2",
    "fixings.preserver.need_ml", "fixings.finish.covers_m2_per_l", "fixings.finish.area_m2",
    "fixings.finish.need_ml", "fixings.wax.covers_m2_per_l", "fixings.wax.ends",
    "fixings.wax.need_ml",
}  # fmt: skip
