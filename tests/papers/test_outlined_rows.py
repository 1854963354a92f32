"""Rows are told where their edges cross the sides of the deck, worked by hand and by shapely."""

import html
import re
from functools import lru_cache
from math import hypot

import pytest
from shapely.geometry import LineString, Point, Polygon

import drylay
from drylay.papers.outlined_rows import begin_told, strung_rows
from drylay.plan.model import Plan
from outlined_gardens import planned

#: Both sides lean in by 1 in 5, the far side out of parallel by 8 mm: gaps fan narrower.
WEDGE = ((0, 0), (4000, 0), (3600, 2000), (400, 2008))
BOX = ((0, 0), (3000, 0), (3000, 2000), (0, 2000))


@lru_cache
def deck(corners: tuple[tuple[int, int], ...], angle_deg: float) -> Plan:
    points = [{"along_mm": x, "across_mm": y} for x, y in corners]
    points[0]["side"] = "house"
    return planned(outline={"points": points}, laying={"angle_deg": angle_deg})


def test_rows_of_a_wedge_are_told_on_its_sides() -> None:
    """The left side is 400 in over 2008, the right one 400 over 2000."""
    plan = deck(WEDGE, 0.0)
    strung = strung_rows(plan.outline, plan.laying)
    assert len(strung) == len(plan.laying.rows) > 10
    for row in plan.laying.rows[1:]:
        one, other = strung[row.mark].start, strung[row.mark].end
        assert (one.side, one.before, other.side, other.before) == ("E4", "E3", "E2", "E1")
        assert one.at.along_mm == pytest.approx(one.at.across_mm * 400 / 2008, abs=0.01)
        assert other.at.along_mm == pytest.approx(4000 - other.at.across_mm / 5, abs=0.01)
        assert one.from_start_mm == pytest.approx(
            hypot(one.at.along_mm - 400, one.at.across_mm - 2008), abs=0.01
        )
        assert other.from_start_mm == pytest.approx(
            hypot(other.at.along_mm - 4000, other.at.across_mm), abs=0.01
        )
        assert one.at.across_mm == pytest.approx(row.start.across_mm, abs=1.0)


@pytest.mark.parametrize(("corners", "angle_deg"), [(BOX, 30.0), (BOX, 135.0), (WEDGE, 45.0)])
def test_edges_of_rows_at_an_angle_are_told_from_side_to_side(
    corners: tuple[tuple[int, int], ...], angle_deg: float
) -> None:
    plan = deck(corners, angle_deg)
    ring = Polygon(corners).exterior
    strung = strung_rows(plan.outline, plan.laying)
    for row in plan.laying.rows:
        run = (row.end.along_mm - row.start.along_mm, row.end.across_mm - row.start.across_mm)
        edge = LineString([
            (row.start.along_mm - run[0], row.start.across_mm - run[1]),
            (row.end.along_mm + run[0], row.end.across_mm + run[1]),
        ])  # fmt: skip
        if edge.intersection(Polygon(corners)).length < 5:
            continue
        told = strung[row.mark]
        assert told.long_mm == pytest.approx(edge.intersection(Polygon(corners)).length, abs=0.1)
        sides = {side.mark: side for side in plan.outline.sides}
        for end in (told.start, told.end):
            start = sides[end.side].start
            place = Point(end.at.along_mm, end.at.across_mm)
            assert max(ring.distance(place), edge.distance(place)) < 0.01
            assert place.distance(Point(start.along_mm, start.across_mm)) == pytest.approx(
                end.from_start_mm, abs=0.01
            )
    most_mm = max(each.long_mm for each in strung.values())
    (told_first,) = begin_told(plan.outline, plan.laying, plan.units)
    assert ",;" not in told_first
    begun = strung[re.search(r"Stretch a string for (B\d+), ", told_first)[1]]
    assert begun.long_mm == pytest.approx(most_mm, abs=0.2)
    (step,) = [s for task in plan.work.tasks for s in task.steps if s.startswith("Field Z1, rows")]
    assert "one of the longest to a string line" in step


def test_rows_that_begin_along_a_side_are_begun_with_the_first() -> None:
    plan = deck(WEDGE, 0.0)
    assert begin_told(plan.outline, plan.laying, plan.units) == []


def test_the_job_sheet_tells_no_row_off_the_deck_and_no_fan_below_nothing() -> None:
    plan = deck(WEDGE, 0.0)
    assert plan.laying.fan_mm < 0
    made = drylay.papers(plan, only="jobsheet.html")["jobsheet.html"].decode()
    cells = re.findall(r'data-label="(?:Edge, from|to)">~?([-0-9.]+), ~?([-0-9.]+) \((E\d)', made)
    assert len(cells) == 2 * len(plan.laying.rows)
    deck_shape = Polygon(WEDGE).buffer(0.2)
    for along, across, _ in cells:
        assert deck_shape.covers(Point(float(along), float(across)))
    text = html.unescape(made)
    assert "narrower at the right end than at the left one" in text
    assert not re.search(r"by -\d|\(-\d[0-9.]* mm\)", text)


def test_a_row_whose_edge_leaves_the_deck_before_its_board_does_is_told_up_to_there() -> None:
    """A T, boards away from the house: a row 50 wide of it in the foot and wholly in the head.

    Rows of 145 and gaps of 5 count from along 0: the ninth begins at 1200, and the foot's right
    side stands at 1250, so the board runs on to 2000 beside its far edge's end at 1000.
    """
    corners = ((0, 0), (2400, 0), (2400, 1000), (1250, 1000), (1250, 2000), (0, 2000))
    plan = deck(corners, 90.0)
    strung = strung_rows(plan.outline, plan.laying)
    for row in plan.laying.rows:
        told = strung[row.mark]
        assert told.start.at.across_mm == pytest.approx(0.0, abs=0.01)
        far = 2000.0 if row.start.along_mm < 1250 else 1000.0
        assert told.end.at.across_mm == pytest.approx(far, abs=0.01)
