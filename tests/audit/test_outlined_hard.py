"""Random decks on outlines whose frames are rare: what may be left out there, and what not."""

import tomllib
from functools import cache
from typing import Any

import pytest
from attrs import evolve

import drylay
from audit.outlined_real import GARDEN, wedge
from audit.outlined_sample import spots
from audit.real import stock
from drylay.audit import outlined_witnessed
from drylay.audit.closed import CLOSED
from drylay.audit.model import Witness
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from some_five import sold
from some_outlines import some_outline

SEEN = {code: check for code, _title, check in outlined_witnessed.CHECKS}
CHECK = {code: check for code, _title, check in CLOSED}


@cache
def plan_of(seed: int) -> Plan:
    return drylay.design(some_outline(seed), stock=sold(), families=drylay.installed_families())


@cache
def small(name: str) -> Plan:
    """Return a small deck of hand as it is planned."""
    return drylay.design(drylay.read_brief(asked() | SMALL[name]), stock=stock("hobbleden"))


def asked() -> dict[str, Any]:
    return {key: value for key, value in tomllib.loads(GARDEN).items() if key != "fascia"}


def points(*corners: tuple[int, int]) -> list[dict[str, int]]:
    return [{"along_mm": x, "across_mm": y} for x, y in corners]


POOL = {"kind": "pool", "along_mm": 1200, "across_mm": 800, "size_along_mm": 400,
        "size_across_mm": 400}  # fmt: skip
SMALL = {
    "pool": {
        "outline": {"points": points((0, 0), (2400, 0), (2400, 1600), (0, 1600)),
                    "openings": [POOL]},
        "laying": {"breakers_mm": [1200]},
    },
    "gable": {
        "outline": {"points": points((0, 0), (2400, 0), (1200, 1500))},
        "laying": {"breakers_mm": [1200], "first_row": "far"},
    },
    "half a gable": {
        "outline": {"points": points((0, 0), (2400, 0), (1200, 1500))},
        "laying": {"breakers_mm": [700], "first_row": "far"},
    },
}  # fmt: skip


def without(plan: Plan, *marks: str) -> Plan:
    subframe = plan.subframe
    assert subframe is not None
    left = tuple(each for each in subframe.members if each.mark not in marks)
    assert len(left) == len(subframe.members) - len(marks)
    return evolve(plan, subframe=evolve(subframe, members=left))


def test_a_hatch_askew_beside_a_rim_is_trimmed_along_its_own_sides() -> None:
    """The rim R5 cuts a corner off the box about it."""
    assert list(CHECK["AUD-798"](plan_of(79))) == []


@pytest.mark.parametrize("gone", [("D4",), ("D5",), ("U5", "D6")])
def test_none_of_its_own_sides_there_goes_without(gone: tuple[str, ...]) -> None:
    assert list(CHECK["AUD-798"](without(plan_of(79), *gone)))


def test_a_breaker_board_lost_in_an_opening_leaves_a_side_beside_nothing() -> None:
    """X2 goes on beyond the pool, which takes the breaker board's whole width after X1."""
    plan = small("pool")
    assert list(CHECK["AUD-761"](plan)) == []
    laying = plan.laying
    assert laying is not None
    left = tuple(each for each in laying.pieces if each.mark != "X2")
    assert list(CHECK["AUD-761"](evolve(plan, laying=evolve(laying, pieces=left))))


@pytest.mark.parametrize(("moved_mm", "faults"), [(0.0, 0), (20.0, 1), (-20.0, 1)])
def test_rows_begin_at_a_corner_that_a_breaker_board_takes(moved_mm: float, faults: int) -> None:
    """The corner furthest away, 1500 from the house, lies in a breaker board; rows begin there."""
    plan = small("gable")
    laying = plan.laying
    assert laying is not None
    first, *others = laying.rows
    at = evolve(first.start, across_mm=1500.0 + moved_mm)
    end = evolve(first.end, across_mm=1500.0 + moved_mm)
    moved = evolve(plan, laying=evolve(laying, rows=(evolve(first, start=at, end=end), *others)))
    assert len(list(CHECK["AUD-763"](moved))) == faults


@pytest.mark.parametrize(("off_mm", "found"), [(0.2, False), (-0.2, False), (0.4, True)])
def test_a_tip_is_off_by_more_the_sharper_it_is(off_mm: float, found: bool) -> None:
    """102.5 over 1486.25 are 3.95 degrees: 6/320 mm over its sine are 0.27."""
    corners = ((2957.5, 0.0), (3060.0, 0.0), (2957.5, 1486.25 + off_mm))
    assert _differs("B1.1", corners) == found


def test_a_square_corner_is_off_by_no_more_for_that() -> None:
    corners = ((2657.5, 0.0), (2802.5, 0.0), (2802.5, 2900.05), (2657.5, 2900.0))
    assert _differs("B3.1", corners)


def _differs(mark: str, corners: tuple[tuple[float, float], ...]) -> bool:
    laying = wedge().laying
    assert laying is not None
    pieces = tuple(
        evolve(each, corners=spots(*corners)) if each.mark == mark else each
        for each in laying.pieces
    )
    plan = evolve(wedge(), laying=evolve(laying, pieces=pieces))
    return any("corner" in flaw.message for flaw in CHECK["AUD-771"](plan))


def test_zones_that_breaker_boards_part_share_the_marks_of_their_field() -> None:
    """Z1 reaches 784.4 from the house, rows are counted from 1500: by half millimetres."""
    plan = small("half a gable")
    assert list(CHECK["AUD-767"](plan)) == []
    laying = plan.laying
    assert laying is not None
    mark = [row.mark for row in laying.rows if row.zone == "Z1"][2]

    def off(at: Spot) -> Spot:
        return evolve(at, across_mm=at.across_mm + 0.2)

    rows = tuple(
        evolve(row, start=off(row.start), end=off(row.end)) if row.mark == mark else row
        for row in laying.rows
    )
    found = CHECK["AUD-767"](evolve(plan, laying=evolve(laying, rows=rows)))
    assert {flaw.subject for flaw in found} == {mark}


@pytest.mark.parametrize(("at_mm", "flaws"), [(1200, 0), (1150, 3)])
def test_breaker_boards_lie_where_they_were_wished(at_mm: int, flaws: int) -> None:
    """Two pieces of one, parted by the pool: neither lies where it is wished 50 off."""
    laying = {"breakers_mm": [at_mm]}
    brief = drylay.read_brief(asked() | SMALL["pool"] | {"laying": laying})
    found = list(SEEN["AUD-W65"](small("pool"), Witness(brief=brief)))
    assert len(found) == flaws
