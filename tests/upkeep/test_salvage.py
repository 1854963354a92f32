"""Old boards: no length with a hole in its clear zone, none of arsenic; the shed's first."""

import pytest
from attrs import evolve
from hypothesis import example, given, settings
from hypothesis import strategies as st

from drylay.cutting.engine import solve
from drylay.cutting.model import Piece, Stock, Task
from drylay.cutting.shed import shed_uses
from drylay.cutting.verify import verify
from drylay.findings import Severity
from drylay.marks import exact
from drylay.upkeep.parts import UpkeepError
from drylay.upkeep.salvage import salvage, shed_stock
from drylay.upkeep.stock_model import OldBoard

BOARD = OldBoard(mark="A", length_mm=3600, width_mm=145, thickness_mm=28, treatment="copper")
HOLES = st.lists(st.integers(0, 3600), max_size=12).map(lambda its: tuple(map(float, its)))


@settings(max_examples=50)
@example((10.0,), 200, 50)
@given(HOLES, st.integers(0, 200), st.integers(50, 900))
def test_no_length_has_a_hole_within_its_clear_zone(
    holes: tuple[float, ...], trim: int, least: int
) -> None:  # fmt: skip
    found = salvage([evolve(BOARD, holes_mm=holes)], end_trim_mm=trim, least_mm=least)
    for one in found.lengths:
        assert one.length_mm == one.to_mm - one.from_mm >= least
        assert trim <= one.from_mm < one.to_mm <= 3600 - trim
        assert all(hole <= one.from_mm - 30 or hole >= one.to_mm + 30 for hole in holes)
    # nor is anything left lying that would have done: by every mm of the board
    clear = [trim <= mm <= 3600 - trim and all(abs(mm - h) >= 30 for h in holes)
             for mm in range(3601)]  # fmt: skip
    runs, start = [], None
    for mm, free in enumerate([*clear, False]):
        if free and start is None:
            start = mm
        if not free and start is not None:
            runs.append((start, mm - 1))
            start = None
    wanted = [(a, b) for a, b in runs if b - a >= least]
    assert [(one.from_mm, one.to_mm) for one in found.lengths] == wanted
    assert bool(found.not_used) == (not wanted)


def test_a_board_worked_by_hand() -> None:
    """3600 with holes at 40, 1640 and 3240, 20 off either end.

    Clear of 40 +- 30 from 70 on, to 1610; 1670 to 3210; and 3270 to 3580, just over 300.
    """
    found = salvage([evolve(BOARD, holes_mm=(40.0, 1640.0, 3240.0))])
    assert [(o.from_mm, o.to_mm, o.length_mm) for o in found.lengths] == [
        (70.0, 1610.0, 1540.0), (1670.0, 3210.0, 1540.0), (3270.0, 3580.0, 310.0),
    ]  # fmt: skip
    assert (found.next_use, found.total_mm, found.kept_holes) == ("fascia", 3390.0, False)


def test_where_new_joists_stand_like_the_old_ones_holes_serve_again() -> None:
    even = evolve(BOARD, holes_mm=(40.0, 440.0, 840.0), holes_apart_mm=400.0)
    (one,) = salvage([even], joists_mm=400).lengths
    assert (one.from_mm, one.to_mm, one.holes_mm) == (20.0, 3580.0, (20.0, 420.0, 820.0))
    assert len(salvage([even], joists_mm=450).lengths) == 3
    short = evolve(even, length_mm=200, holes_mm=(40.0,))
    assert salvage([short], joists_mm=400).lengths == ()


@pytest.mark.parametrize(
    ("more", "code", "severity"),
    [({"treatment": "arsenic"}, "UPK-031", Severity.STOP),
     ({"treatment": "not known"}, "UPK-032", Severity.STOP),
     ({"soundness": "soft"}, "UPK-033", Severity.NOTE)],
)  # fmt: skip
def test_what_is_not_used_again(more: dict[str, str], code: str, severity: Severity) -> None:
    found = salvage([evolve(BOARD, **more), evolve(BOARD, mark="B")])
    assert [its.board for its in found.not_used] == ["A"]
    assert {one.board for one in found.lengths} == {"B"}
    assert (code, severity) in {(f.code, f.severity) for f in found.findings}


def test_an_arsenic_board_is_never_let_through_by_its_holes() -> None:
    bad = evolve(BOARD, treatment="arsenic", holes_mm=(40.0,), holes_apart_mm=400.0)
    assert salvage([bad], joists_mm=400).lengths == ()


@pytest.mark.parametrize(
    ("boards", "more", "wanted"),
    [([], {}, "a list of old boards"),
     ([BOARD, evolve(BOARD, width_mm=120)], {}, "one section"),
     ([evolve(BOARD, holes_mm=(9999.0,))], {}, "its length"),
     ([evolve(BOARD, holes_mm=(40.0, 460.0), holes_apart_mm=400.0)], {}, "even"),
     ([BOARD], {"joists_mm": 5}, "joists_mm"), ([BOARD], {"end_trim_mm": -1}, "end_trim_mm"),
     ([BOARD], {"least_mm": 5}, "least_mm")],
)  # fmt: skip
def test_what_makes_no_sense_is_refused(
    boards: list[OldBoard], more: dict[str, float], wanted: str
) -> None:  # fmt: skip
    with pytest.raises(UpkeepError, match=wanted):
        salvage(boards, **more)  # type: ignore[arg-type]


def test_the_cutting_room_opens_what_is_salvaged_first() -> None:
    """Two pieces of 1500: either a bought 3600 for both, or the two salvaged 1540 for nothing."""
    found = salvage([evolve(BOARD, holes_mm=(40.0, 1640.0, 3240.0))])
    old = shed_stock(found)
    assert all(stock.price == 0 and stock.limit == 1 for stock in old)
    bought = Stock(name="3600", length=exact(3600), price=2000)
    pieces = (Piece(length=exact(1500), count=2),)
    alone = solve(Task(stock=(bought,), kerf=exact(4), pieces=pieces))
    first = solve(Task(stock=(bought, *old), kerf=exact(4), pieces=pieces))
    assert (alone.cost, first.cost, first.bound) == (2000, 0, 0)
    assert sum(use.used for use in shed_uses(first)) == 2
    assert verify(first.proof).holds
