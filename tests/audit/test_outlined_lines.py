"""Lines of boards on an outline as the audit tells them, worked by hand in 1/320 mm."""

from fractions import Fraction

import pytest
from attrs import evolve

from audit.edits import at
from audit.outlined_real import garden
from audit.outlined_sample import box, level, outlined_plan, spot
from audit.planting import both, to, twice
from drylay.audit.exact import PER_MM
from drylay.audit.outlined_carried import lies_along, told_crossing
from drylay.audit.outlined_chains import Chain
from drylay.audit.outlined_frame import _lies_evenly
from drylay.audit.outlined_joints import _lies_along_one, edges_of, in_line, line_of
from drylay.audit.outlined_rows import rows_reach
from drylay.audit.outlined_sawn import _at_joints
from drylay.audit.outlined_strips import (
    cornered,
    ends_cut_back,
    panels_of,
    pinched,
    strips_of,
)
from drylay.audit.outlined_tasks import _count_alike, _same
from drylay.audit.plane import UNIT, Run, run_of
from drylay.audit.sweep import span
from drylay.cutting.model import Line
from drylay.laying.model import LaidJoint, LaidPiece

FLAT = Run(cos=UNIT, sin=0)
#: A board's middle line from 0 to 1000 mm along, 70 mm across.
MIDDLE = ((0, 70 * 320), (1000 * 320, 70 * 320))


def crossed(along_mm: float, reach_mm: float) -> Fraction | None:
    u, v = round(along_mm * 320), round(reach_mm * 320)
    return told_crossing(FLAT.all_told(MIDDLE), FLAT.all_told(((u, -32000), (u, v))))


def test_what_only_just_reaches_does_not_cross() -> None:
    assert crossed(500.0, 70.2) == 500 * 320
    assert crossed(500.0, 70.0) is None
    assert crossed(500.0, 70.1) is None
    assert crossed(999.8, 500.0) == round(999.8 * 320)
    assert crossed(1000.0, 500.0) is None
    assert told_crossing(FLAT.all_told(MIDDLE), FLAT.all_told(MIDDLE)) is None


def test_an_opening_is_pinched_where_it_takes_less_than_a_gap_of_an_edge() -> None:
    plan = outlined_plan()
    strip = next(strips_of(plan))  # from 0 to 100 across, boards' ends 4 apart
    high = strip.high // UNIT

    def gaps(past_mm: float) -> list[list[int]]:
        """Return the gaps at a square on its corner, that so far past the row's far edge."""
        reach = 64000
        tip = high + round(past_mm * 320)
        hole = ((0, tip), (-reach, tip - reach), (0, tip - 2 * reach), (reach, tip - reach))
        return [[int(u / UNIT) for u, _ in gap] for gap in pinched(plan, strip, hole)]

    assert gaps(-1.0) == []
    assert gaps(3.0) == []
    assert gaps(1.5) == [[-640, 640, 640, -640]]
    assert gaps(0.0) == [[-640, 640, 640, -640]]


def test_a_row_is_cut_back_where_corners_of_its_zone_take_less_of_an_edge_than_a_gap() -> None:
    strip = next(strips_of(outlined_plan()))  # from 0 to 100 across, boards' ends 4 apart

    def gaps(tip: float) -> list[list[int]]:
        """Return the gaps at a re-entrant corner from the house, its tip so far across."""
        ring = ((0.0, 0.0), (1000 - tip, 0.0), (1000.0, tip), (1000 + tip, 0.0), (2000.0, 0.0),
                (2000.0, 300.0), (0.0, 300.0))  # fmt: skip
        zone = evolve(strip.zone, corners=tuple(map(spot, ring)))
        found = cornered(outlined_plan(), evolve(strip, zone=zone))
        return [[int(u / UNIT / PER_MM) for u, _ in gap] for gap in found]

    assert gaps(99.8) == []
    assert gaps(99.95) == [[998, 1002, 1002, 998]]
    assert gaps(102.3) == [[998, 1002, 1002, 998]]
    assert gaps(103.0) == []


@pytest.mark.parametrize(("tip", "cut_back"), [(99.0, 101.0), (99.95, 101.95), (97.9, None)])
def test_a_rows_end_is_cut_back_to_where_an_opening_takes_an_end_gap(
    tip: float, cut_back: float | None
) -> None:
    """A square hole on its corner, over the zone's end at 100 along; boards' ends are 4 apart."""
    plan = outlined_plan()
    strip = next(strips_of(plan))
    apart = evolve(strip, zone=evolve(strip.zone, corners=box(100.0, 0.0, 2000.0, 300.0)))
    ring = ((tip, 50.0), (tip + 60, -10.0), (tip + 120, 50.0), (tip + 60, 110.0))
    hole = tuple((round(x * PER_MM), round(y * PER_MM)) for x, y in ring)
    found = [max(float(u) for u, _ in each) / UNIT / PER_MM for each in
             ends_cut_back(plan, apart, hole)]  # fmt: skip
    assert found == ([] if cut_back is None else [pytest.approx(cut_back, abs=0.001)])
    # the row lies along the zone's near side, and ends at none
    along = evolve(strip, low=strip.low - 50 * PER_MM * UNIT, zone=apart.zone)
    below = tuple((x, y - round(tip * PER_MM)) for y, x in hole)
    assert not list(ends_cut_back(plan, along, below))


def askew(start: tuple[float, float], end: tuple[float, float]) -> LaidPiece:
    """Return a board 145 wide from one place to another, its corners rounded to 1/320 mm."""
    (x1, y1), (x2, y2) = start, end
    long = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    du, dv = -(y2 - y1) / long * 145, (x2 - x1) / long * 145
    ring = ((x1, y1), (x2, y2), (x2 + du, y2 + dv), (x1 + du, y1 + dv))
    corners = tuple(spot((round(x * 320) / 320, round(y * 320) / 320)) for x, y in ring)
    return evolve(at(outlined_plan(), "laying.pieces")[0], corners=corners, width_mm=145.0)  # type: ignore[index]


def test_boards_that_lie_askew_in_one_line_are_in_line_and_no_others() -> None:
    one, other = askew((0.0, 0.0), (2000.0, 701.7)), askew((2005.0, 703.45425), (5000.0, 1754.25))
    run = run_of((0, 0), (640000, 224544))
    assert run is not None
    assert in_line(run, edges_of(run, one), other)
    assert not in_line(run, edges_of(run, one), askew((0.0, 150.0), (2000.0, 851.7)))
    # one square to it, with an edge on its edge
    assert not in_line(FLAT, edges_of(FLAT, askew((0.0, 0.0), (900.0, 0.0))),
                       askew((145.0, 0.0), (145.0, 900.0)))  # fmt: skip


def test_a_joint_is_in_the_line_of_the_nearest_board() -> None:
    """That of a board askew, 1500 off, runs through the joint as well: 21.6 left of its edge."""
    boards = (
        askew((0.0, 0.0), (1000.0, 1000.0)),
        askew((1500.0, 1950.0), (1990.0, 1950.0)),
        askew((1994.0, 1950.0), (2600.0, 1950.0)),
    )
    course = tuple(
        evolve(each, kind="border", row="", mark=f"K1.{number}")
        for number, each in enumerate(boards, start=1)
    )
    joint = LaidJoint(row="K1", member="J1", at=spot((1992.0, 2022.5)))
    line = line_of(to("laying.pieces", course)(outlined_plan()), joint)
    assert line is not None
    assert line.pieces == course[1:]


def test_the_gap_of_a_joint_is_no_wider_than_its_row_lies_in_its_zone() -> None:
    """B2 lies from 105 to 205 across, 4 mm are left at its joint: 60 of it lie up to 165."""
    plan = outlined_plan()
    assert _at_joints(plan) == pytest.approx(4 * 100 / 1e6)
    zone = box(0.0, 0.0, 2000.0, 165.0)
    assert _at_joints(to("laying.zones[0].corners", zone)(plan)) == pytest.approx(4 * 60 / 1e6)


def test_a_hatchs_panel_lies_in_the_rows_of_its_own_field_alone() -> None:
    plan = garden()
    rows = [strip for strip in strips_of(plan) if panels_of(plan, strip)]
    assert rows
    apart = evolve(rows[0].zone, corners=tuple(
        spot((x, y)) for x, y in ((-900.0, -900.0), (-100.0, -900.0), (-100.0, 9000.0))
    ))  # fmt: skip
    assert not panels_of(plan, evolve(rows[0], zone=apart))


def test_panels_in_one_row_come_by_their_start_not_by_their_openings() -> None:
    """The L's row B1 from 0 to 100 across: holes from 900 to 1300 along, and from 200 to 600."""
    plan = outlined_plan()
    hatch = evolve(at(plan, "outline.openings")[0], kind="hatch")  # type: ignore[index]
    hatches = tuple(
        evolve(hatch, corners=box(left, 0.0, left + 400, 100.0)) for left in (900.0, 200.0)
    )
    plan = to("outline.openings", hatches)(plan)
    starts = [span(lot)[0] for lot in panels_of(plan, next(strips_of(plan)))]
    assert starts == [202 * PER_MM * UNIT, 902 * PER_MM * UNIT]  # half an end gap of 4 inside


@pytest.mark.parametrize(
    ("line", "most_mm", "even"),
    [(32051, 100.2, True), (32051, 101.0, False), (32060, 100.2, False)],
)
def test_lines_leave_the_marks_where_marks_would_be_too_far_apart(
    line: int, most_mm: float, even: bool
) -> None:
    """Two bays of 100.16 mm, marks 0.5 mm apart."""
    plan = to("subframe.most_centres_mm", most_mm)(outlined_plan())
    assert _lies_evenly(plan, [0, line, 64102], [0, 64102], line) is even


@pytest.mark.parametrize(
    ("lines", "firsts", "flaws"),
    [
        (((3, 4, 5), (4, 5, 6)), (3, 4), 0),
        (((5, 4, 3), (4, 3, 2)), (2, 3), 0),  # boards that run against the order of the lines
        (((5, 4, 3), (4, 3, 2)), (2, 2), 1),
        (((5, 4, 3), (3, 4, 5)), (2, 3), 1),
    ],
)
def test_rows_count_their_lines_one_way(
    lines: tuple[tuple[int, ...], ...], firsts: tuple[int, ...], flaws: int
) -> None:
    plan = outlined_plan()
    piece: LaidPiece = at(plan, "laying.pieces")[0]  # type: ignore[index]
    places = tuple(range(0, 1_600_000, 320_000))
    told = []
    for numbers, first in zip(lines, firsts, strict=True):
        stations = zip(map(Fraction, places), (None, *numbers, None), strict=True)
        chain = Chain(pieces=(piece,), length=Fraction(places[-1]), stations=tuple(stations))
        told_line = Line(
            count=1, start=0, end=places[-1], stations=places, joint_gap=0, least_bays=1,
            stagger=1, most_joints=None, first_station=first,
        )  # fmt: skip
        told.append((told_line, [chain]))
    assert len(list(_count_alike(plan, told))) == flaws


@pytest.mark.parametrize(("over", "same"), [(160, True), (162, True), (163, False), (-163, False)])
def test_a_line_of_the_proof_is_no_more_than_a_mark_and_rounding_longer(
    over: int, same: bool
) -> None:
    """A mark of half a millimetre is 160; a length between rounded corners may be off by 2."""
    stations = ((Fraction(33_382), None), (Fraction(1_685_978), None))
    piece = at(outlined_plan(), "laying.pieces")[0]  # type: ignore[index]
    chain = Chain(pieces=(piece,), length=Fraction(1_719_360), stations=stations)
    line = Line(
        count=1, start=0, end=1_719_360 + over, stations=(33_440, 1_685_920), joint_gap=0,
        least_bays=1, stagger=1, most_joints=None, first_station=0,
    )  # fmt: skip
    assert _same(outlined_plan(), line, chain) == same


def test_a_board_lies_along_what_is_under_it_and_not_what_is_beside_a_strip_of_it() -> None:
    """A strip 15 wide of 4491, then the whole board: a rim 115 off is under the last 879 alone."""
    ring = ((0, 0), (5370, 0), (5370, 140), (4491, 140), (4491, 15), (0, 15))
    piece = evolve(garden().laying.pieces[0], corners=tuple(spot(each) for each in ring))
    rims = [level("R1", "rim", across_mm, -100, 5500) for across_mm in (115, 8)]
    assert [lies_along(piece, FLAT, rim) for rim in rims] == [False, True]
    # half of 5370 is 2685, and what only just reaches does not
    short = [level("R1", "rim", 8, 0, long) for long in (2685.1, 2685.3)]
    assert [lies_along(piece, FLAT, rim) for rim in short] == [False, True]


def test_a_course_may_be_jointed_along_one_rim_and_across_other_members() -> None:
    """A piece that ends on R1, which runs as it does, lies along it whatever the joint on R4."""
    jointed = both(twice("laying.joints", 0), to("laying.joints[0].member", "R1"))(outlined_plan())
    (piece,) = (each for each in jointed.laying.pieces if each.to_member == "R4")
    assert [joint.member for joint in jointed.laying.joints] == ["R1", "R4"]
    assert _lies_along_one(jointed, evolve(piece, to_member="R1"))
    assert not _lies_along_one(jointed, piece)


@pytest.mark.parametrize(("more_mm", "short"), [(0.4, False), (0.6, True)])
def test_a_row_that_would_only_just_reach_into_a_zone_is_none(more_mm: float, short: bool) -> None:
    """The last row may end a gap before the zone's corner, and half a mm more."""
    plan = outlined_plan()
    last, gap = plan.laying.rows[9], plan.laying.gap_most_mm
    ends = to("laying.rows[9].width_mm", last.width_mm - gap - more_mm)(plan)
    told = [flaw.message for flaw in rows_reach(ends)]
    assert ("the last row stops short of the zone's far side" in told) == short
