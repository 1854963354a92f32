"""What is lifted lays bare what is to be reached, and nothing smaller does."""

from itertools import combinations

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.plan.model import Plan
from drylay.upkeep.lift import boards_to_lift
from drylay.upkeep.model import Below, LiftWay, Top
from drylay.upkeep.parts import UpkeepError, members, tops
from upkeep.decks import ALL, plan_of
from upkeep.test_locate import spot

PART = st.tuples(st.floats(0, 1), st.floats(0, 1))


def below(plan: Plan, one: tuple[float, float], size: tuple[int, int]) -> Below:
    x, y = spot(plan, one)
    return Below(from_along_mm=x, to_along_mm=x + size[0], from_across_mm=y,
                 to_across_mm=y + size[1])  # fmt: skip


def box_of(top: Top) -> tuple[float, float, float, float]:
    along, across = [c.along_mm for c in top.corners], [c.across_mm for c in top.corners]
    return min(along), min(across), max(along), max(across)


def lies_over(top: Top, reach: Below) -> bool:
    """Whether a piece of a rectangle covers any of a rectangle: by their boxes alone."""
    x1, y1, x2, y2 = box_of(top)
    wide = min(x2, reach.to_along_mm) - max(x1, reach.from_along_mm)
    deep = min(y2, reach.to_across_mm) - max(y1, reach.from_across_mm)
    return wide > 0.02 and deep > 0.02


@settings(max_examples=40)
@given(PART, st.tuples(st.integers(20, 900), st.integers(20, 500)))
def test_of_a_screwed_deck_just_what_lies_over_it_is_lifted(
    part: tuple[float, float], size: tuple[int, int]
) -> None:  # fmt: skip
    plan = plan_of("S03")
    reach = below(plan, part, size)
    lift = boards_to_lift(plan, reach=reach)
    wanted = {top.mark for top in tops(plan) if lies_over(top, reach)}
    lifted = [step.piece for way in lift.ways for step in way.steps]
    assert set(lifted) == wanted == set(lift.over)
    assert len(lifted) == len(wanted)


def small_clipped() -> Plan:
    """The first six rows of S08, whose clips lock every board to the next; 12 pieces."""
    plan = plan_of("S08")
    assert plan.surface is not None
    assert plan.pieces is not None
    rows = plan.surface.rows[:6]
    marks = {row.mark for row in rows}
    pieces = tuple(piece for piece in plan.pieces.pieces if piece.row in marks)
    return evolve(plan, surface=evolve(plan.surface, rows=rows),
                  pieces=evolve(plan.pieces, pieces=pieces))  # fmt: skip


def locked(plan: Plan) -> dict[str, dict[int, set[str]]]:
    """Which pieces of the next row on either side share a joist with each, by intervals alone."""
    assert plan.surface is not None
    assert plan.frame is not None
    number = {row.mark: at for at, row in enumerate(plan.surface.rows)}
    half = plan.frame.timber_thickness_mm / 2
    on = {
        top.mark: {
            j.mark for j in plan.frame.joists
            if box_of(top)[0] < j.offset_mm + half - 0.02
            and box_of(top)[2] > j.offset_mm - half + 0.02
        }
        for top in tops(plan)
    }  # fmt: skip
    return {
        top.mark: {
            step: {
                other.mark for other in tops(plan)
                if number[other.row] == number[top.row] + step and on[other.mark] & on[top.mark]
            }
            for step in (-1, 1)
        }
        for top in tops(plan)
    }  # fmt: skip


def comes_up(chosen: set[str], locks: dict[str, dict[int, set[str]]], step: int) -> bool:
    """Whether a set comes up from one end: nothing beyond any of it on that side stays."""
    return all(locks[mark][step] <= chosen for mark in chosen)


@pytest.mark.parametrize(
    ("along", "across", "wide", "deep"),
    [(500, 300, 200, 60), (2900, 160, 250, 20), (4200, 590, 100, 200), (100, 20, 50, 50),
     (5000, 750, 200, 60)],
)  # fmt: skip
def test_no_smaller_set_comes_up_from_one_end_of_a_clipped_deck(
    along: int, across: int, wide: int, deep: int
) -> None:  # fmt: skip
    plan = small_clipped()
    reach = Below(from_along_mm=along, to_along_mm=along + wide, from_across_mm=across,
                  to_across_mm=across + deep)  # fmt: skip
    lift = boards_to_lift(plan, reach=reach)
    locks, marks = locked(plan), [top.mark for top in tops(plan)]
    wanted = {top.mark for top in tops(plan) if lies_over(top, reach)}
    for way, step in ((by(lift.ways, "the last row"), 1), (by(lift.ways, "the first row"), -1)):
        lifted = {its.piece for its in way.steps}
        assert wanted <= lifted
        assert comes_up(lifted, locks, step)
        smaller = (
            set(chosen)
            for count in range(len(wanted), len(lifted))
            for chosen in combinations(marks, count)
        )
        assert not any(wanted <= its and comes_up(its, locks, step) for its in smaller)
        assert len(lift.ways[0].steps) <= len(way.steps)


def by(ways: tuple[LiftWay, ...], begins: str) -> LiftWay:
    return next(way for way in ways if way.begins == begins)


def test_clipped_boards_come_up_row_by_row_from_the_end() -> None:
    plan = small_clipped()
    reach = Below(from_along_mm=500, to_along_mm=700, from_across_mm=300, to_across_mm=350)
    ways = boards_to_lift(plan, reach=reach).ways
    last, first = by(ways, "the last row"), by(ways, "the first row")
    number = {f"B{n}": n for n in range(1, 7)}
    assert [number[s.row] for s in last.steps] == sorted(number[s.row] for s in last.steps)[::-1]
    assert [number[s.row] for s in first.steps] == sorted(number[s.row] for s in first.steps)
    assert last.cut_free
    assert not first.cut_free
    assert "UPK-003" in {f.code for f in boards_to_lift(plan, reach=reach).findings} or (
        ways[0].begins == "the last row"
    )
    assert {step.held_by for step in last.steps} == {"clips"}


def test_the_lock_is_seen_to_matter() -> None:
    """Planted: with what lies over it alone, a board in the middle would stay locked."""
    plan = small_clipped()
    reach = Below(from_along_mm=500, to_along_mm=700, from_across_mm=300, to_across_mm=350)
    wanted = {top.mark for top in tops(plan) if lies_over(top, reach)}
    assert not comes_up(wanted, locked(plan), 1)


@pytest.mark.parametrize("name", ALL)
def test_to_reach_a_joist_every_row_over_it_comes_up(name: str) -> None:
    plan = plan_of(name)
    joist = next(its for its in members(plan) if its.kind == "joist" and its.mark != "J1")
    lift = boards_to_lift(plan, reach=joist.mark)
    under = [step.piece for step in lift.ways[0].steps if joist.mark in step.over]
    assert set(lift.over) == set(under)
    assert lift.reach == f"joist {joist.mark}"
    assert [step.turn for step in lift.ways[0].steps] == list(range(1, len(lift.ways[0].steps) + 1))


def test_screws_to_undo_worked_by_hand() -> None:
    """S03: to reach 700 to 900 by 400 to 700 rows B3, B4 and B5 come up from the left.

    B3.1 and B5.1 end at J5, B4.1 at J12 (the drawing): 5 + 12 + 5 joists of two screws are 44.
    """
    reach = Below(from_along_mm=700, to_along_mm=900, from_across_mm=400, to_across_mm=700)
    (way,) = boards_to_lift(plan_of("S03"), reach=reach).ways
    assert [(s.piece, s.screws) for s in way.steps] == [("B3.1", 10), ("B4.1", 24), ("B5.1", 10)]
    assert (way.screws, way.rows, way.cut_free) == (44, ("B3", "B4", "B5"), True)


def test_a_panel_comes_up_whole_and_unscrewed() -> None:
    plan = plan_of("S10")
    assert plan.laying is not None
    first, second, *rest = plan.laying.pieces
    panel = (evolve(first, mark="H1.1", kind="hatch"), evolve(second, mark="H1.2", kind="hatch"))
    hatched = evolve(plan, laying=evolve(plan.laying, pieces=(*panel, *rest)))
    middle = first.corners[0], first.corners[2]
    reach = Below(
        from_along_mm=middle[0].along_mm, to_along_mm=middle[1].along_mm,
        from_across_mm=middle[0].across_mm, to_across_mm=middle[1].across_mm,
    )  # fmt: skip
    lift = boards_to_lift(hatched, reach=reach)
    held = {step.piece: step.held_by for step in lift.ways[0].steps}
    assert held["H1.1"] == held["H1.2"] == "its panel"
    assert "UPK-004" in {finding.code for finding in lift.findings}


def test_what_makes_no_sense_is_refused_and_what_is_free_is_told() -> None:
    with pytest.raises(UpkeepError, match="no timber J99"):
        boards_to_lift(plan_of("S01"), reach="J99")
    flat = Below(from_along_mm=5, to_along_mm=5, from_across_mm=0, to_across_mm=9)
    with pytest.raises(UpkeepError, match="a rectangle with an area"):
        boards_to_lift(plan_of("S01"), reach=flat)
    away = Below(from_along_mm=0, to_along_mm=9, from_across_mm=-90, to_across_mm=-50)
    lift = boards_to_lift(plan_of("S01"), reach=away)
    assert (lift.ways, [f.code for f in lift.findings]) == ((), ["UPK-002"])


@pytest.mark.parametrize("name", ALL)
def test_a_rectangle_beside_the_deck_has_nothing_to_lift(name: str) -> None:
    beside = Below(
        from_along_mm=-500, to_along_mm=-400, from_across_mm=-500, to_across_mm=-400
    )  # fmt: skip
    lift = boards_to_lift(plan_of(name), reach=beside)
    assert (lift.over, lift.ways) == ((), ())
    (finding,) = lift.findings
    assert (finding.code, "nothing is lifted" in finding.message) == ("UPK-002", True)
