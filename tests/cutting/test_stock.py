"""The public door: millimetres and decimals in, a proven purchase out."""

from decimal import Decimal
from random import Random
from typing import Any

import pytest

import drylay
from drylay.cutting.errors import CutTaskError, NoPlan
from drylay.cutting.model import StockCuts
from drylay.cutting.stock import cut_stock
from drylay.cutting.verify import verify
from drylay.materials.stock_model import StockLength


def test_a_purchase_by_hand() -> None:
    # 2400 + 1800.5 and two 1800.5 to a 4800; twelve pieces, two to a board: six boards.
    # A 3600 holds one piece, or no two (2 x 1800.5 = 3601): never better than half a 4800.
    cuts = cut_stock({2400: 5, 1800.5: 7}, [(4800, "31.20"), (3600, "22")], kerf_mm=4)
    assert isinstance(cuts, StockCuts)
    assert (cuts.cost, cuts.bound, cuts.gap) == (Decimal("187.20"), Decimal("187.20"), 0)
    assert sum(len(s.pieces_mm) * s.boards for s in cuts.lengths) == 12
    assert verify(cuts.proof).holds
    assert drylay.verify(cuts.proof).holds


def test_pieces_may_be_listed_one_by_one_and_stock_as_nouns() -> None:
    sold = [StockLength(length_mm=3000.0, price=Decimal("10.5"), limit=1), (2000, 8)]
    cuts = cut_stock([1000, 1000.0, Decimal(1000), 1000], sold, kerf_mm=0)
    assert cuts.cost == Decimal("16.0")  # two 2000s; a 3000 with its fourth piece on a 2000: 18.5
    assert [(s.length_mm, s.boards, s.pieces_mm) for s in cuts.lengths] == [
        (2000.0, 2, (1000.0, 1000.0))
    ]


def test_end_trim_and_kerf_are_exact() -> None:
    # 2 x 1000.1 + 3.2 kerf + 2 x 5 trim = 2013.4
    fits = {"kerf_mm": 3.2, "end_trim_mm": 5}
    assert cut_stock([1000.1] * 2, [(2013.4, 7)], **fits).cost == 7
    assert cut_stock([1000.1] * 2, [(2013.3, 7)], **fits).cost == 14


def test_order_does_not_change_a_byte() -> None:
    sold: list[Any] = [(2400, "9.1"), (3600, "13.9"), (4200, "16.1", 9), (4800, "19")]
    wanted = [700, 1500, 1500, 2100, 2300, 3100, 800, 800, 900, 1234.5]
    first = cut_stock(wanted, sold, kerf_mm=3)
    rng = Random(1)
    for _ in range(3):
        rng.shuffle(sold)
        rng.shuffle(wanted)
        assert repr(cut_stock(wanted, sold, kerf_mm=3)) == repr(first)


@pytest.mark.parametrize("seed", range(4))
def test_triplets_fill_their_boards(seed: int) -> None:
    # built as Falkenauer's triplets (J. Heuristics 2, 1996) are: three pieces, each over a
    # quarter of the board, fill each of five boards, so five boards are the least
    rng = Random(seed)
    wanted = []
    for _ in range(5):
        first = rng.randint(380, 490)
        second = rng.randint(251, (1000 - first) // 2)
        wanted += [first, second, 1000 - first - second]
    cuts = cut_stock(wanted, [(1000, 1)], kerf_mm=0)
    assert cuts.bound == 5
    assert cuts.cost in (5, 6)


def test_every_fault_is_listed_at_once() -> None:
    sold: list[Any] = [(2400, 9.5), (0, "-1"), ("long", "x"), (1, 2, 3.5), (5,), (1, "NaN", -1)]
    with pytest.raises(CutTaskError) as caught:
        cut_stock({-1: 1, 100: 1.5, True: 1}, sold, kerf_mm=-1, end_trim_mm=float("nan"))
    assert isinstance(caught.value, ValueError)
    assert {fault.path for fault in caught.value.faults} == {
        "pieces[0]", "pieces[1]", "pieces[2]", "kerf_mm", "end_trim_mm",
        "lengths[0].price", "lengths[1]", "lengths[1].price", "lengths[2]", "lengths[2].price",
        "lengths[3].limit", "lengths[4]", "lengths[5].price", "lengths[5].limit",
    }  # fmt: skip


def test_a_piece_too_long_is_no_plan() -> None:
    with pytest.raises(NoPlan) as caught:
        cut_stock([2500], [(2400, 9)], kerf_mm=3)
    assert caught.value.proven


def test_nothing_wanted_costs_nothing() -> None:
    cuts = cut_stock({}, [(2400, 9)], kerf_mm=3)
    assert (cuts.cost, cuts.bound, cuts.lengths) == (0, 0, ())


def test_what_cannot_be_cut_is_told_in_millimetres() -> None:
    """2500 mm out of 2400 mm with 10 mm off each end: 2380 mm is the longest usable."""
    with pytest.raises(drylay.NoPlan, match=r"2500 mm.*longest usable board 2380 mm"):
        drylay.cut_stock([2500], [(2400, "5.00")], kerf_mm=4, end_trim_mm=10)


def test_a_mode_nobody_knows_is_a_fault_with_the_others() -> None:
    with pytest.raises(drylay.CutTaskError) as caught:
        drylay.cut_stock([100], [(2400, 5.0)], kerf_mm=4, mode="slow")
    assert [fault.path for fault in caught.value.faults] == ["lengths[0].price", "mode"]
    assert isinstance(caught.value, drylay.InputError)


@pytest.mark.parametrize(
    ("path", "wrong"),
    [
        ("pieces", {"pieces": 5}),
        ("pieces", {"pieces": b"ab"}),
        ("pieces", {"pieces": {2300: 10**9}}),
        ("pieces[0]", {"pieces": [Decimal("sNaN")]}),
        ("pieces", {"pieces": {2300: 10**5000}}),
        ("lengths", {"lengths": None}),
        ("lengths[0].price", {"lengths": [(2400, "1e999")]}),
        ("lengths[0].price", {"lengths": [(2400, 10**20)]}),
        ("lengths[0].price", {"lengths": [(2400, "0.000001")]}),
        ("lengths[0].price", {"lengths": [(2400, "1e-999999999")]}),
        ("kerf_mm", {"kerf_mm": Decimal("NaN")}),
        ("end_trim_mm", {"end_trim_mm": 10**5000}),
    ],
)
def test_arguments_beyond_all_measure_are_faults(path: str, wrong: dict[str, Any]) -> None:
    asked = {"pieces": {2300: 4}, "lengths": [(2400, "5.20")], "kerf_mm": 4, **wrong}
    with pytest.raises(CutTaskError) as caught:
        cut_stock(asked.pop("pieces"), asked.pop("lengths"), **asked)
    assert path in {fault.path for fault in caught.value.faults}
