"""Marks of pieces along their rows, where two of them begin at one place."""

from attrs import evolve

from drylay.audit.outlined_pieces import pieces_are_marked
from drylay.plan.model import Plan
from outlined_gardens import planned

#: A post that parts the rows.
POST = {"kind": "post", "along_mm": 1000, "across_mm": 800, "size_along_mm": 120,
        "size_across_mm": 120}  # fmt: skip


def swapped(plan: Plan, one: str, other: str) -> Plan:
    """Return a plan with the marks of two pieces told the other way round."""
    names = {one: other, other: one}
    assert plan.laying is not None
    pieces = tuple(
        evolve(each, mark=names.get(each.mark, each.mark)) for each in plan.laying.pieces
    )
    return evolve(plan, laying=evolve(plan.laying, pieces=pieces))


def test_pieces_that_begin_apart_are_marked_in_order() -> None:
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(((0, 0), (2000, 0), (2000, 1600), (0, 1600)))]  # fmt: skip
    plan = planned(outline={"points": points, "openings": [POST]}, groundwork={})
    assert list(pieces_are_marked(plan)) == []
    assert plan.laying is not None
    row = next(each.mark[:-2] for each in plan.laying.pieces if each.mark.endswith(".2"))
    assert len(list(pieces_are_marked(swapped(plan, f"{row}.1", f"{row}.2")))) == 2


def test_either_of_two_that_begin_at_one_place_comes_first() -> None:
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(((0, 0), (2000, 0), (2000, 1600), (0, 1600)))]  # fmt: skip
    plan = planned(outline={"points": points, "openings": [POST]}, groundwork={})
    assert plan.laying is not None
    one = next(each for each in plan.laying.pieces if each.mark.endswith(".2"))
    first = next(e for e in plan.laying.pieces if e.mark == f"{one.row}.1")
    moved = evolve(one, corners=first.corners)
    pieces = tuple(moved if each is one else each for each in plan.laying.pieces)
    twice = evolve(plan, laying=evolve(plan.laying, pieces=pieces))
    assert list(pieces_are_marked(twice)) == []
    assert list(pieces_are_marked(swapped(twice, one.mark, first.mark))) == []
