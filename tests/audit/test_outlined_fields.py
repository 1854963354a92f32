"""Fields of the brief against those of the plan: a deck of two fields, and one askew."""

from collections.abc import Callable
from functools import lru_cache
from math import cos, radians, sin
from typing import Any

import pytest
from attrs import evolve

import drylay
from audit.edits import put
from audit.planting import to
from drylay.audit.closed import WITNESSED
from drylay.audit.model import Witness
from drylay.plan.model import Plan
from outlined_gardens import STOCK, garden

CHECK = {code: check for code, _title, check in WITNESSED}["AUD-W97"]
ELL = ((0, 0), (3000, 0), (3000, 2395), (1500, 2395), (1500, 1195), (0, 1195))


@lru_cache
def brief(turned_deg: float = 0.0, edge_mm: float = 1498.5) -> drylay.Brief:
    """Return an L whose leg is a field with boards away from the house, measured off a line."""
    c, s = cos(radians(turned_deg)), sin(radians(turned_deg))
    points: list[dict[str, Any]] = [
        {"along_mm": round(c * x - s * y, 1), "across_mm": round(s * x + c * y, 1), "side": "open"}
        for x, y in ELL
    ]
    points[0]["side"] = "house"
    field = {"from_along_mm": 0, "from_across_mm": 0, "along_mm": edge_mm, "across_mm": 9000,
             "angle_deg": 90}  # fmt: skip
    laying = {"fields": [field]}
    return drylay.read_brief(garden(outline={"points": points}, laying=laying, groundwork={}))


@lru_cache
def plan(turned_deg: float = 0.0) -> Plan:
    return drylay.design(brief(turned_deg), stock=drylay.load_catalogue(STOCK))


def found(planned: Plan, wished: drylay.Brief) -> list[str]:
    return [flaw.message for flaw in CHECK(planned, Witness(brief=wished))]


@pytest.mark.parametrize("turned_deg", [0.0, 20.0])
def test_fields_laid_as_wished_are_sound(turned_deg: float) -> None:
    """Its edge is laid 1 mm off, in line with the wing's side: that is no flaw."""
    assert plan(turned_deg).buildable
    assert found(plan(turned_deg), brief(turned_deg)) == []


OTHERWISE: tuple[Callable[[Any], Any], ...] = (
    lambda field: evolve(field, along_mm=1300.0),  # the main field reaches into it no more
    lambda field: evolve(field, along_mm=1700.0),  # part of it has the main field's boards
    lambda field: evolve(field, angle_deg=45.0),
    lambda field: evolve(field, from_across_mm=600.0),
)


@pytest.mark.parametrize("change", OTHERWISE)
def test_fields_wished_otherwise_are_seen(change: Callable[[Any], Any]) -> None:
    wished = brief()
    other = evolve(wished.laying, fields=tuple(change(each) for each in wished.laying.fields))
    assert found(plan(), evolve(wished, laying=other))


def test_a_field_that_nobody_laid_is_named() -> None:
    wished = brief()
    narrow = evolve(wished.laying.fields[0], from_along_mm=4_000.0, along_mm=12.0)
    other = evolve(wished.laying, fields=(*wished.laying.fields, narrow))
    messages = found(plan(), evolve(wished, laying=other))
    assert messages == ["no zone lies where it was wished"]


def test_boards_of_a_zone_that_run_another_way_are_seen() -> None:
    assert found(to("laying.zones[1].angle_deg", 89.0)(plan()), brief())
    assert found(put(plan(), "laying.zones[0].angle_deg", 1.0), brief())
