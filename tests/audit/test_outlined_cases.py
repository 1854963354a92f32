"""Checks of decks on an outline by hand: joints of joists, turned decks, stations, pegs, ties."""

from fractions import Fraction
from math import cos, radians, sin

import pytest
from attrs import evolve

from audit.edits import put
from audit.outlined_ground_sample import plan_on_the_ground
from audit.outlined_planting import board, members_too
from audit.outlined_real import garden
from audit.outlined_sample import (
    CORNERS,
    box,
    level,
    outline,
    outlined_plan,
    piece,
    spot,
    upright,
)
from audit.planting import Edit, both, to
from audit.site_faults import in_reason
from audit.test_outlined_seen import CHECK, found
from drylay.audit.closed import audit_plan
from drylay.audit.exact import PER_MM
from drylay.audit.outlined_bearing import faces, runs_of
from drylay.audit.outlined_carried import stretches
from drylay.audit.outlined_chains import Chain, ways_told
from drylay.audit.outlined_tasks import _numbered, _same
from drylay.audit.outlined_trimmed import _on_splice
from drylay.audit.outlined_work import _meets_well, corners_of
from drylay.audit.own_line import (
    corners_on_line,
    levels_on_line,
    middle_on_line,
    most_moved,
)
from drylay.audit.plane import UNIT
from drylay.brief.model import GroundPoint
from drylay.brief.outline_model import OutlinePoint
from drylay.cutting.model import Line
from drylay.plan.model import Plan
from drylay.work.model import PegTie


def joined(mark: str, along_mm: float, at_mm: float) -> Edit:
    """Return an edit that parts one of the L's joists by a joint so far from the house."""

    def run(plan: Plan) -> Plan:
        members = plan.subframe.members  # type: ignore[union-attr]
        plan = put(plan, "subframe.members", tuple(m for m in members if m.mark != mark))
        return members_too(
            upright(f"{mark}.1", "joist", along_mm, 45.0, at_mm, "R1-"),
            upright(f"{mark}.2", "joist", along_mm, at_mm, 1000.0, "-R5"),
        )(plan)

    return run


def said(code: str, plan: Plan) -> str:
    return " / ".join(f"{flaw.subject}: {flaw.message}" for flaw in CHECK[code](plan))


def test_joints_of_neighbouring_joists_are_apart() -> None:
    """Joists 341 and 659 along, nothing between them: joints at 280 and 880 are 600 apart."""
    for other_mm, near in ((879.0, True), (880.0, False)):
        plan = both(joined("J2", 341.0, 280.0), joined("J3", 659.0, other_mm))(outlined_plan())
        assert ("too near that of J3.1 and J3.2" in said("AUD-988", plan)) == near


def test_a_joint_stands_off_the_trimmers_of_an_opening_beside_it() -> None:
    """The post's trimmers lie from 690 to 915, one joist's width beside J2 and far from J6."""
    for at_mm, near in ((391.0, True), (390.0, False)):
        plan = joined("J2", 341.0, at_mm)(outlined_plan())
        assert ("too near the trimmers of O1" in said("AUD-988", plan)) == near
    far = joined("J6", 1631.0, 600.0)(outlined_plan())
    assert "trimmers" not in said("AUD-988", far)


def test_no_board_is_screwed_over_a_joint_of_joists() -> None:
    """B6 lies from 525 to 625, its middle at 575: screws there are 25 off a joint, or more."""
    for at_mm, screwed in ((550.0, False), (551.0, True), (599.0, True), (600.0, False)):
        plan = joined("J2", 341.0, at_mm)(outlined_plan())
        assert ("B6.1 is screwed" in said("AUD-988", plan)) == screwed


def test_joists_along_the_house_are_looked_at_along_it() -> None:
    """A joist 262 from the house, jointed at 500 along; a board across it with its middle there."""
    lengths = members_too(
        level("J9.1", "joist", 262.0, 45.0, 500.0, "R6-"),
        level("J9.2", "joist", 262.0, 500.0, 955.0, "-R4"),
    )
    along = both(to("subframe.joist_run", "along"), lengths)
    for left_mm, screwed in ((450.0, True), (425.0, False)):
        across = board(
            "B3.1", kind="border", row="", corners=box(left_mm, 45.0, left_mm + 100, 505)
        )
        plan = both(along, across)(outlined_plan())
        assert ("B3.1 is screwed" in said("AUD-988", plan)) == screwed


def test_a_length_of_fascia_that_has_no_length_carries_nothing() -> None:
    plan = outlined_plan()
    bare = to("subframe.facings[0].end", plan.subframe.facings[0].start)(plan)  # type: ignore[union-attr]
    assert len(faces(plan)) == len(faces(bare)) + 1


def test_a_breaker_board_is_screwed_along_its_own_middle() -> None:
    """It is of no row: from 500 to 600 along, so its middle is at 550."""
    breaker = piece("B1.1", 0, 2000, kind="breaker", row="", corners=box(500.0, 0.0, 600.0, 520.0))
    plan = put(outlined_plan(), "laying.pieces[0]", breaker)
    (line,) = stretches(plan, breaker, runs_of(plan)["B1.1"])
    assert {x for x, _ in line} == {550 * PER_MM}


def test_a_panel_with_no_frame_told_spans_nothing_that_can_be_measured() -> None:
    silent = evolve(garden(), findings=(), subframe=None)
    assert "spans" not in said("AUD-758", silent)


STATIONS = tuple(
    (Fraction(at), number)
    for at, number in ((10, None), (20, 1), (30, 2), (60, 5), (70, 6), (80, 7), (90, None))
)


def test_the_three_ways_that_stations_of_a_cut_off_row_may_be_told() -> None:
    """Lines 3 and 4 are cut off: left out; or only 5 to 7 told; or at 31 and 32, just beyond 2."""
    every, longest, filled = ([int(at) for at, _ in way] for way in ways_told(STATIONS))
    assert every == [10, 20, 30, 60, 70, 80, 90]
    assert longest == [10, 60, 70, 80, 90]
    assert filled == [10, 20, 30, 31, 32, 60, 70, 80, 90]
    assert ways_told(STATIONS[:2]) == [STATIONS[:2]]


def test_a_borders_stations_may_be_told_from_its_other_end_and_a_rows_may_not() -> None:
    """Stations at 0, 300, 1000 of 1000: from the other end 0, 700, 1000."""
    plan = outlined_plan()
    at = tuple((Fraction(mm * PER_MM), 1) for mm in (0, 300, 1000))
    whole = 1000 * PER_MM
    line = Line(count=1, start=0, end=whole, stations=(0, 700 * PER_MM, whole))
    for kind, same in (("border", True), ("field", False)):
        lot = (piece("B1.1", 0.0, 1000.0, kind=kind),)
        chain = Chain(pieces=lot, length=Fraction(whole), stations=at)
        assert _same(plan, line, chain) == same
        # rows are numbered by joist lines, a border's boards are not
        own = evolve(line, stations=(0, 300 * PER_MM, whole))
        assert list(_numbered(plan, own, chain)) == ([(1, 1)] if kind == "field" else [])


def test_a_noggin_that_ends_at_a_splice_ties_the_bay_that_the_splice_fills() -> None:
    noggin = level("N9", "noggin", 500.0, 100.0, 300.0, "J2-S9")
    told = tuple((x * UNIT, y * UNIT) for x, y in ((0, 0), (45, 0), (45, 9), (0, 9)))
    splice = tuple((x * UNIT, y * UNIT) for x, y in ((0, 10), (600, 10), (600, 20), (0, 20)))
    for height, kind, ties in ((15, "noggin", True), (25, "noggin", False), (15, "joist", False)):
        reach = list(_on_splice(evolve(noggin, kind=kind), told, Fraction(height * UNIT), {
            "S9": splice
        }))  # fmt: skip
        assert reach == ([(Fraction(0), Fraction(45))] if ties else [])


def test_figures_for_square_boards_are_reckoned_at_90_degrees() -> None:
    at = "subframe.square_centres_mm"
    for deg, told in ((45.0, True), (90.0, False)):
        plan = in_reason(at, "inputs", (("board_to_joist_deg", deg),))(outlined_plan())
        codes = {finding.code for finding in audit_plan(plan).findings}
        assert ("AUD-902" in codes) == told


DEG = 20.0


def measured(x: float, y: float) -> tuple[float, float]:
    """Return a place on the deck's own line as the brief has it: 20 degrees on towards across."""
    cosine, sine = cos(radians(DEG)), sin(radians(DEG))
    return x * cosine - y * sine, x * sine + y * cosine


def test_a_turned_decks_corners_are_the_briefs_where_they_are_near_enough() -> None:
    """Corners are moved by up to 2 mm; one that lies 3 mm from the brief's is no corner of it."""
    plan = to("outline.turned_deg", DEG)(outlined_plan())
    corners = [(round(x * PER_MM), round(y * PER_MM)) for x, y in CORNERS]
    for off_mm, moved in ((0.0, 0.0), (1.0, 1.0), (3.0, 0.0)):
        places = [measured(x, y) for x, y in (*CORNERS[:-1], (off_mm, CORNERS[-1][1]))]
        points = [OutlinePoint(along_mm=x, across_mm=y) for x, y in places]
        assert list(corners_on_line(points, plan))[:-1] == corners[:-1]
        assert (corners_on_line(points, plan)[-1] == corners[-1]) == (off_mm < 2)
        assert most_moved(points, plan) / PER_MM == pytest.approx(moved, abs=0.01)


def test_a_turned_decks_other_places_lie_on_whole_tenths() -> None:
    turned = evolve(outline(), turned_deg=DEG)
    x, y = measured(100.03, 200.08)
    assert middle_on_line(x, y, turned) == (100 * PER_MM, 200.1 * PER_MM)
    point = GroundPoint(along_mm=x, across_mm=y, level_mm=7.0)
    (lies,) = levels_on_line((point,), turned)
    assert (lies.along_mm, lies.across_mm, lies.level_mm) == (100.0, 200.1, 7.0)
    assert levels_on_line((point,), outline()) == (point,)


def test_a_frames_corner_between_two_sides_in_one_straight_is_their_own() -> None:
    """The house side parted at 800: a corner of 180 degrees, the frame's face on it too."""
    sides = outline().sides
    half = spot((800.0, 0.0))
    parted = evolve(outline(), sides=(
        evolve(sides[0], end=half, length_mm=800.0),
        evolve(sides[0], start=half, length_mm=1200.0), *sides[1:],
    ))  # fmt: skip
    assert (800.0 * PER_MM, 0.0) in corners_of(parted)
    assert len(corners_of(parted)) == 7


def leaning(plan: Plan) -> Plan:
    """Return the L on its ground with its side at the base line's start leaning by 100 mm."""
    foot = spot((-100.0, 1045.0))
    return both(to("outline.sides[4].end", foot), to("outline.sides[5].start", foot))(plan)


def test_a_corner_that_is_not_square_has_no_3_4_5() -> None:
    out = "work.setting_out"
    none = both(*(to(f"{out}.{name}", None) for name in (
        "leg_along_mm", "leg_across_mm", "slant_mm"
    )))  # fmt: skip
    assert found("AUD-928", leaning(plan_on_the_ground()))
    assert not found("AUD-928", none(leaning(plan_on_the_ground())))
    assert found("AUD-928", none(plan_on_the_ground()))


def test_a_peg_that_no_two_others_see_is_placed_as_well_as_can_be() -> None:
    """The house lies behind 0, from 0 to 2000 along: no tape goes from one side of it to the other.

    Both tapes are told. Before the house all see one another, and P3, square to P1 from P9, would
    place it better.
    """
    plan = outlined_plan()
    one, other = (
        PegTie(start=start, end="P9", length_mm=4000.0, check=False) for start in ("P1", "P2")
    )
    for across_mm, flaws in ((-500.0, 2), (500.0, 1)):
        places = {"P1": (-1000.0, 0.0), "P2": (-1000.0, -1.0), "P3": (-1500.0, -2.0)}
        if across_mm > 0:
            places["P3"] = (3000.0, 900.0)
        pegs = {
            mark: (x * PER_MM, (across_mm + y) * PER_MM) for mark, (x, y) in places.items()
        }  # fmt: skip
        pegs["P9"] = (3000.0 * PER_MM, across_mm * PER_MM)
        assert len(list(_meets_well(plan, one, other, ["P1", "P2", "P3"], pegs))) == flaws
