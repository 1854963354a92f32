"""Lines, profiles and moved pegs, measured from the drawings alone."""

import math
from functools import cache
from itertools import combinations
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

from drylay.papers.peg_moves_drawing import peg_moves_svg
from drylay.papers.peg_moves_text import move_told
from drylay.papers.profiles_drawing import profiles_svg
from drylay.plan.model import Plan
from drylay.planner.profiles import profiles
from drylay.survey.model import Tape
from drylay.work.model import PegMove, PegMoves, Profiles
from drylay.work.peg_moves import move_pegs
from papers import measured
from papers.outlined_sample import shapes
from plan.sample import blocked_plan, sample_plan

CASES = {
    **shapes(),
    "rectangle": sample_plan(row_length_mm=6000.0, rows=20, sides=("right", "front", "left")),
    "across": sample_plan(row_length_mm=3000.0, rows=30, run="across"),
    "imperial": sample_plan(row_length_mm=4876.8, rows=24, units="imperial"),
    "tiny": sample_plan(row_length_mm=400.0, rows=2, sides=(), noggin_rows=0),
}
KNOCKED = (0.0, 9.0, -14.0, 21.0, 6.0, -8.0, 17.0, -12.0)


def moved(plan: Plan) -> PegMoves:
    """Return what comes of all tapes between pegs that were knocked about, read to the mm."""
    out = plan.work.setting_out
    at = {
        peg.mark: (peg.along_mm + KNOCKED[n] * (n > 1), peg.across_mm + KNOCKED[-n] * (n > 1))
        for n, peg in enumerate(out.pegs)
    }
    tapes = [
        Tape(start=one, end=other, length_mm=float(round(math.dist(at[one], at[other]))))
        for one, other in combinations(at, 2)
    ]
    return move_pegs(out, tapes)


@cache
def lines_of(name: str) -> Profiles:
    return profiles(CASES[name])


@cache
def drawn(name: str, drawing: str) -> bytes:
    """A drawing of one of the cases, drawn once."""
    if drawing == "profiles":
        return profiles_svg(CASES[name], lines_of(name))
    return peg_moves_svg(CASES[name], moved(CASES[name]))


@pytest.fixture(params=CASES, scope="module")
def name(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def plan(name: str) -> Plan:
    return CASES[name]


@pytest.fixture(params=["profiles", "moves"], scope="module")
def svg(request: pytest.FixtureRequest, name: str) -> bytes:
    return drawn(name, request.param)


def scale_of(svg: bytes) -> float:
    return float(ET.fromstring(svg).get("data-deck-mm-per-paper-mm", "0"))


def test_no_two_texts_touch_and_none_leaves_the_border(svg: bytes) -> None:
    assert measured.overlapping(svg) == []
    assert measured.outside(svg) == []


def test_pens_lettering_and_colours_are_those_of_all_drawings(svg: bytes) -> None:
    parts = list(ET.fromstring(svg).iter())
    assert {part.get("stroke-width") for part in parts} - {None} <= {"0.13", "0.25", "0.35", "0.5"}
    assert min(float(text.get("font-size", "0")) for text in measured.texts(svg)) >= 2.5
    assert {part.get(key) for part in parts for key in ("fill", "stroke")} <= {
        None, "none", "black", "white",
    }  # fmt: skip


def from_first_peg(svg: bytes, x: float, y: float) -> tuple[float, float]:
    """Return a point of the sheet as mm of deck from the first peg drawn."""
    left, top, wide, high = measured.rectangles(svg, "peg-heads")[0]
    return (x - left - wide / 2) * scale_of(svg), (y - top - high / 2) * scale_of(svg)


def test_profiles_stand_where_they_are_told(plan: Plan, name: str) -> None:
    found, svg = lines_of(name), drawn(name, "profiles")
    first, near = plan.work.setting_out.pegs[0], scale_of(svg) * 0.004 + 0.01
    boards = [
        [from_first_peg(svg, float(line.get(f"x{n}", "0")), float(line.get(f"y{n}", "0")))
         for n in (1, 2)]
        for line in measured.group(svg, "profiles")
    ]  # fmt: skip
    assert len(boards) == len(found.profiles)
    for ends, profile in zip(boards, found.profiles, strict=True):
        for end, spot in zip(ends, (profile.start, profile.end), strict=True):
            told = (spot.along_mm - first.along_mm, spot.across_mm - first.across_mm)
            assert end == pytest.approx(told, abs=near)


def test_every_peg_profile_and_line_is_marked_and_every_end_is_told(plan: Plan, name: str) -> None:
    found, svg = lines_of(name), drawn(name, "profiles")
    assert {peg.mark for peg in plan.work.setting_out.pegs} <= set(measured.words(svg, "labels"))
    marks = set(measured.words(svg, "profile-marks"))
    assert marks == {profile.mark for profile in found.profiles}
    rows = [row[:3] for row in measured.cells(svg, "line-ends")]
    assert len(rows) == 2 * len(found.lines)
    assert {row[0] for row in rows} == {line.mark for line in found.lines}


def test_the_diagonals_drawn_are_the_lengths_told() -> None:
    """A rectangle's two: each drawn as long as the plan's own frame has it."""
    plan, svg = CASES["rectangle"], drawn("rectangle", "profiles")
    long_mm = [
        scale_of(svg) * math.hypot(
            float(line.get("x2", "0")) - float(line.get("x1", "0")),
            float(line.get("y2", "0")) - float(line.get("y1", "0")),
        )
        for line in measured.group(svg, "diagonals")
    ]  # fmt: skip
    assert long_mm == pytest.approx([plan.frame.diagonal_mm] * 2, abs=scale_of(svg) * 0.004 + 0.06)


def test_where_lines_stand_in_words() -> None:
    """From the house 200 inside the pegs; from a datum line with its two pegs drawn."""
    plan = CASES["L"]
    words = " ".join(text.text or "" for text in measured.texts(drawn("L", "profiles")))
    assert "SL1: 200 mm inside P1 and P2." in words
    assert "All lines at one level, clear of the ground" in words
    found = profiles(plan, source_line="datum line", datum=((-900.0, 0.0), (-900.0, 4000.0)))
    svg = profiles_svg(plan, evolve(found, over_top_mm=-100.0))
    assert set(measured.words(svg, "datum-marks")) == {"D1", "D2"}
    assert len(measured.rectangles(svg, "datum-pegs")) == 2
    words = " ".join(text.text or "" for text in measured.texts(svg))
    assert "100 mm below the deck's top" in words
    level = profiles_svg(plan, evolve(found, over_top_mm=0.0))
    assert "All lines level with the deck's top" in " ".join(measured.words(level, "notes"))


def test_arrows_are_drawn_as_many_times_as_large_as_is_told() -> None:
    """P3 and P4 of a frame slid by 20: each arrow is 20 mm long on site, times what is told."""
    plan = CASES["rectangle"]
    out = plan.work.setting_out
    at = {peg.mark: (peg.along_mm, peg.across_mm) for peg in out.pegs}
    down = at["P4"][1] - at["P1"][1]
    front = at["P1"][1] + math.sqrt(down**2 - 20.0**2)
    at |= {"P3": (at["P3"][0] + 20.0, front), "P4": (at["P4"][0] + 20.0, front)}
    found = move_pegs(out, [Tape(start=a, end=b, length_mm=math.dist(at[a], at[b]))
                            for a, b in (("P1", "P3"), ("P2", "P4"))])  # fmt: skip
    svg = peg_moves_svg(plan, found)
    note = " ".join(measured.words(svg, "notes"))
    times = int(note.split("every move drawn ")[1].split(" times")[0])
    shafts = measured.group(svg, "arrows")[::3]
    for shaft in shafts:
        run = float(shaft.get("x2", "0")) - float(shaft.get("x1", "0"))
        assert run * scale_of(svg) / times == pytest.approx(-20.0, abs=0.1)
    assert measured.cells(svg, "moves")[0][:2] == ["P3", "-20"]
    assert "the front has slid 20 mm to the right" in note
    assert "P3: 20 mm left" in " ".join(measured.words(svg, "move-labels"))


def test_a_move_in_words() -> None:
    by_hand = PegMove(mark="P4", along_mm=-11.0, across_mm=3.0, by_mm=11.4)
    assert move_told(by_hand, "metric").replace("\u00a0", " ") == (
        "P4: 11 mm left, 3 mm away from the house"
    )
    other = evolve(by_hand, along_mm=12.7, across_mm=-6.35)
    assert move_told(other, "imperial").replace("\u00a0", " ") == (
        "P4: 1/2 in right, 1/4 in towards the house"
    )


def test_tapes_that_contradict_each_other_draw_no_arrow() -> None:
    plan = CASES["rectangle"]
    long = plan.frame.diagonal_mm + 30.0
    tapes = [Tape(start=a, end=b, length_mm=long) for a, b in (("P1", "P3"), ("P2", "P4"))]
    found = move_pegs(plan.work.setting_out, tapes)
    svg = peg_moves_svg(plan, found)
    assert measured.group(svg, "arrows") == []
    assert "move nothing" in " ".join(measured.words(svg, "notes"))


def test_a_plan_without_pegs_has_neither() -> None:
    plan = CASES["rectangle"]
    assert profiles_svg(blocked_plan(), lines_of("rectangle")) == b""
    assert peg_moves_svg(blocked_plan(), moved(plan)) == b""


@pytest.mark.parametrize("name", ["L", "rectangle"])
def test_the_same_plan_gives_the_same_bytes(name: str) -> None:
    plan = evolve(CASES[name])
    assert drawn(name, "profiles") == profiles_svg(plan, profiles(plan))
    assert drawn(name, "moves") == peg_moves_svg(plan, moved(plan))


def test_that_check_sees_a_text_on_another() -> None:
    svg = drawn("rectangle", "profiles")
    assert measured.overlapping(svg.replace(b">PR3<", b">PR3" + b" moved here" * 20 + b"<"))
