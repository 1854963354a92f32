"""Random decks on outlines that the audit once stopped, or that once said the wrong thing."""

import math
import re

import pytest

import drylay
from drylay.plan.model import Plan
from some_five import sold
from some_outlines import outline_sections, some_outline

ONCE = {
    122: "a post's corner that only just parts a row",
    136: "a hatch's panel beside breaker boards, whose rows go on in the next field",
    20239: "a stretch that hung free where a noggin more had moved the row of its bay",
    100238: "a joint of a breaker board that a corner cuts off along its middle line",
    61036: "a border's joint within a gap of the end of a row beside it",
    10182: "a gap beside a border, on the mark below the least gap",
    10479: "a row over no more than the tip of a corner",
    4412: "a breaker board's middle line along the face of the one joist left under it",
}


def plan_of(seed: int) -> Plan:
    return drylay.design(some_outline(seed), stock=sold(), families=drylay.installed_families())


@pytest.mark.parametrize("seed", sorted(ONCE))
def test_what_was_once_stopped_is_planned(seed: int) -> None:
    assert plan_of(seed).buildable, ONCE[seed]


#: Of decks no longer than 4.5 m.
SMALL_ONCE = {
    639: "joist lines evenly off all marks, and one of them moved aside for its joist's end",
    860: "a strip whose own middle leaves it at once",
    2125: "a border's board 90 wide on a slanted rim 45 thick: its middle along the rim's face",
    2188: "breaker boards that ran on through a field of its own",
    2206: "a corner that the gap beside a breaker board takes",
    3061: "a strip beside a tree with slanted ends",
    3220: "two pieces beside a post that begin at one place",
    3749: "a corner 0.06 mm off another at a board's end",
    3774: "arrows on a row too short to tell its angle by its ends",
    4375: "a breaker board that the corner of a house's bay parts along one edge",
    4612: "joist lines with no room for a joist, through the frame of an askew hatch",
    90399: "an askew hatch whose box reaches into a slanted rim",
    201472: "a field whose edge a side of the outline continues, 1 mm further on",
    201539: "a joist's end on one rim, its corner on the next",
}


@pytest.mark.parametrize("seed", sorted(SMALL_ONCE))
def test_what_once_stopped_on_small_decks_is_planned(seed: int) -> None:
    brief = some_outline(seed, most_mm=4_500)
    plan = drylay.design(brief, stock=sold(), families=drylay.installed_families())
    assert plan.buildable, SMALL_ONCE[seed]


def test_a_rim_with_no_room_for_a_splice_says_so_by_its_side() -> None:
    """A seam's joist stands 29.5 mm behind it all along, and a splice is 45 thick."""
    (stop,) = (each for each in plan_of(11).findings if each.severity.name == "STOP")
    assert (stop.code, stop.subject) == ("SUB-003", "rim of E4")
    assert stop.limit == 6000
    # from fascia and rim of the square corner to the mitre, halfway round its 45 degrees
    long = 6204 - (28 + 45) - 28 * math.tan(math.radians(22.5))
    assert stop.measured == pytest.approx(long, abs=0.01)


def test_a_strip_beside_a_border_is_not_jointed_over_the_rim_beyond_it() -> None:
    """What a border leaves of row B12 is 14.8 wide: no joist's crossing lies on its middle line."""
    row, stock = (each for each in plan_of(4462).findings if each.severity.name == "STOP")
    assert (row.code, row.subject, row.limit) == ("LAY-018", "B12", 4800)
    assert (stock.code, stock.limit) == ("BUY-001", 4800)
    # 5668 less a border's 145 and a gap of 4 on either side
    assert row.measured == stock.measured == 5668 - 2 * 149
    assert "not to be jointed: B12;" in stock.message


def places(message: str) -> list[tuple[float, float]]:
    found = re.findall(r"its middle at along (-?[\d.]+), across (-?[\d.]+)", message)
    return [(float(along), float(across)) for along, across in found]


@pytest.mark.parametrize("seed", [30007, 30026])
def test_a_place_that_the_frame_has_no_room_at_is_told_with_one_that_it_has(seed: int) -> None:
    """The first place is clear of the other opening: there the frame stops; at the second not."""
    sections = outline_sections(seed, most_mm=4_500)
    stock, families = sold(), drylay.installed_families()

    def stop_at(along_mm: float, across_mm: float) -> drylay.Finding | None:
        sections["outline"]["openings"][1].update(along_mm=along_mm, across_mm=across_mm)
        plan = drylay.design(drylay.read_brief(sections), stock=stock, families=families)
        return next((each for each in plan.findings if each.severity.name == "STOP"), None)

    own = sections["outline"]["openings"][1]
    stop = stop_at(own["along_mm"], own["across_mm"])
    assert stop is not None
    assert (stop.code, stop.subject) == ("OUT-003", "O2")
    clear, works = places(stop.message)
    there = stop_at(*clear)
    assert there is not None
    assert there.code.startswith("SUB-")
    assert stop_at(*works) is None
