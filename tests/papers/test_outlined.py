"""Papers of decks on an outline: drawings measured, cut lists read back."""

import csv
import io
import re
from collections.abc import Callable
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

import drylay
from drylay.papers.outlined_boards import outlined_boards_svg
from drylay.papers.outlined_frame import outlined_frame_svg
from drylay.papers.outlined_ledges import is_ledge
from drylay.papers.outlined_setting import outlined_setting_svg
from drylay.plan.model import Plan
from papers import measured
from papers.framed import details_of, frame_sheets
from papers.outlined_sample import POST, RECTANGLE, outlined_plan, shapes
from papers.read_html import Sheet
from plan.sample import blocked_plan, sample_plan

CASES = shapes()
DRAWINGS = {
    "boards": outlined_boards_svg,
    "frame": outlined_frame_svg,
    "setting": outlined_setting_svg,
}
DRAWN: dict[tuple[int, str], bytes] = {}
POLYGON = f"{measured.SVG}polygon"


@pytest.fixture(params=CASES, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return CASES[request.param]


@pytest.fixture(params=DRAWINGS, scope="module")
def svg(request: pytest.FixtureRequest, plan: Plan) -> bytes:
    return drawn(plan, request.param)


def drawn(plan: Plan, name: str) -> bytes:
    """A drawing of one of the cases, drawn once."""
    key = (id(plan), name)
    if key not in DRAWN:
        DRAWN[key] = DRAWINGS[name](plan)
    return DRAWN[key]


def scale_of(svg: bytes) -> float:
    return float(ET.fromstring(svg).get("data-deck-mm-per-paper-mm", "0"))


def polygons(svg: bytes, layer: str) -> list[list[tuple[float, float]]]:
    """The corners of every shape of a layer that is drawn with a pen."""
    return [
        [tuple(map(float, pair.split(","))) for pair in part.get("points", "").split()]
        for part in measured.group(svg, layer)
        if part.tag == POLYGON and part.get("stroke") == "black"
    ]


def area_mm2(corners: list[tuple[float, float]]) -> float:
    ends = zip(corners, corners[1:] + corners[:1], strict=True)
    return abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in ends)) / 2


def test_no_two_texts_touch_and_none_leaves_the_border(svg: bytes) -> None:
    assert measured.overlapping(svg) == []
    assert measured.outside(svg) == []


def test_that_check_sees_a_sloped_text_on_another() -> None:
    svg = drawn(CASES["diagonal"], "boards")
    assert svg.count(b"rotate(45 ") > 20
    assert measured.overlapping(svg.replace(b"rotate(45 ", b"rotate(-45 "))


def test_pens_lettering_and_colours_are_those_of_all_drawings(svg: bytes) -> None:
    parts = list(ET.fromstring(svg).iter())
    assert {part.get("stroke-width") for part in parts} - {None} <= {"0.13", "0.25", "0.35", "0.5"}
    assert min(float(text.get("font-size", "0")) for text in measured.texts(svg)) >= 2.5
    colours = {part.get(key) for part in parts for key in ("fill", "stroke")}
    assert colours <= {None, "none", "black", "white"}


def test_every_piece_is_drawn_to_scale_and_marked(plan: Plan) -> None:
    svg = drawn(plan, "boards")
    layers = [polygons(svg, name) for name in ("pieces", "border-pieces")]
    shown = sorted(area_mm2(corners) * scale_of(svg) ** 2 for layer in layers for corners in layer)
    told = sorted(
        area_mm2([(c.along_mm, c.across_mm) for c in piece.corners])
        for piece in plan.laying.pieces
    )  # fmt: skip
    # the file counts paper to a thousandth of a mm: so far off may each edge be
    for one, other in zip(shown, told, strict=True):
        assert one == pytest.approx(other, abs=scale_of(svg) * 0.004 * 6000)
    marks = [text.text for text in measured.texts(svg)]
    assert set(marks) >= {piece.mark for piece in plan.laying.pieces}
    assert set(marks) >= {row.mark for row in plan.laying.rows}


def test_every_side_is_told_with_its_kind_and_length(plan: Plan) -> None:
    words = [text.text or "" for text in measured.texts(drawn(plan, "boards"))]
    for side in plan.outline.sides:
        (told,) = [word for word in words if word.startswith(f"{side.mark} ")]
        _, kind, length = told.split(" ", 2)
        assert kind == side.kind
        near = 1.6 if plan.units == "imperial" else 0.1
        assert measured.told_mm(length, plan.units) == pytest.approx(side.length_mm, abs=near)


def test_corners_that_are_not_square_have_their_angle() -> None:
    words = measured.words(drawn(CASES["L"], "boards"), "angles")
    assert words == ["135\u00b0", "135\u00b0"]
    # by hand: atan(3600 / 700) = 79.0 and its supplement
    words = measured.words(drawn(CASES["wedge"], "boards"), "angles")
    assert [float(word.strip("~\u00b0")) for word in words] == [79.0, 79.0, 101.0, 101.0]


def test_sizes_stand_outside_the_deck(plan: Plan) -> None:
    svg = drawn(plan, "boards")
    (cover,) = polygons(svg, "cover")
    for text in measured.group(svg, "dimensions"):
        if text.tag == f"{measured.SVG}text":
            quad = measured.quad_of(text)
            x, y = sum(p[0] for p in quad) / 4, sum(p[1] for p in quad) / 4
            assert not holds(cover, x, y)


def holds(corners: list[tuple[float, float]], x: float, y: float) -> bool:
    crossings = 0
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        if (ay > y) != (by > y):
            crossings += ax + (y - ay) * (bx - ax) / (by - ay) > x
    return crossings % 2 == 1


def test_a_house_wall_is_hatched_and_a_boundary_and_a_pool_have_their_lines() -> None:
    assert len(measured.group(drawn(CASES["L"], "boards"), "house")) > 20
    assert len(measured.group(drawn(CASES["wedge"], "boards"), "boundary")) == 2
    assert len(measured.group(drawn(CASES["small"], "boards"), "pool")) == 2


def test_every_member_is_drawn_and_told(plan: Plan) -> None:
    """Ledges of hatches that are drawn enlarged are drawn there alone."""
    svg = drawn(plan, "frame")
    enlarged = {each.opening.mark for each in details_of(plan)}
    there = [
        each for each in plan.subframe.members
        if each.side not in enlarged or not is_ledge(each, plan.outline)
    ]  # fmt: skip
    kinds = {member.kind for member in plan.subframe.members}
    shown = [corners for kind in kinds for corners in polygons(svg, f"{kind}s")]
    assert len(shown) == len(there)
    words = " ".join(
        text.text or "" for page in frame_sheets(plan) for text in measured.texts(page)
    )
    for member in plan.subframe.members:
        assert re.search(rf"\b{re.escape(member.mark)}\b", words), member.mark


def test_joist_lines_run_from_the_datum(plan: Plan) -> None:
    words = measured.words(drawn(plan, "frame"), "dimensions")
    told = [word.split(": ")[1] for word in words if re.match(r"(J|R|line )\d+( .*)?: ", word)]
    near = 1.6 if plan.units == "imperial" else 0.1
    found = sorted(measured.told_mm(word, plan.units) for word in told)
    assert found == pytest.approx(sorted(plan.subframe.lines_mm), abs=near)


def test_a_detail_shows_a_splayed_end_with_its_setting() -> None:
    words = measured.words(drawn(CASES["L"], "boards"), "details")
    told = " ".join(words)
    assert "right end 45\u00b0, house edge longer;" in told
    assert "from tip to tip" in told
    assert "O1 post: 10 mm clear of the post" in told


def test_the_same_plan_gives_the_same_bytes(plan: Plan) -> None:
    for name, draw in DRAWINGS.items():
        assert drawn(plan, name) == draw(evolve(plan))


@pytest.mark.parametrize("draw", DRAWINGS.values(), ids=DRAWINGS)
def test_other_plans_have_no_such_drawings(draw: Callable[[Plan], bytes]) -> None:
    assert draw(sample_plan()) == b""
    assert draw(blocked_plan()) == b""


def test_the_folder_has_no_rod_and_no_section() -> None:
    made = drylay.papers(CASES["small"])
    assert not {"rod.svg", "section.svg", "tiles.svg"} & set(made)
    assert {"boards.svg", "frame.svg", "setting-out.svg", "bars.svg", "proof.json"} <= set(made)
    assert drylay.show(CASES["small"]).drawing.startswith("<svg")
    half = evolve(CASES["small"], subframe=None)
    assert sorted(drylay.papers(half)) == ["plan.json", "summary.txt"]


def cuts_of(plan: Plan) -> dict[str, dict[str, str]]:
    text = drylay.papers(plan, only="cuts.csv")["cuts.csv"].decode()
    return {row["piece_mark"]: row for row in csv.DictReader(io.StringIO(text))}


def test_cut_lists_tell_the_saw_at_both_ends() -> None:
    rows = cuts_of(CASES["L"])
    # B10 ends on the splay, which turns off 45 degrees: its edge nearer the house is the longer
    splayed = rows["B10.2"]
    assert (splayed["one_end"], splayed["one_end_deg"]) == ("left", "0")
    assert float(splayed["other_end_deg"]) == pytest.approx(45.0)
    assert (splayed["other_end"], splayed["other_end_longer"]) == ("right", "house edge")
    assert rows["B15.1"]["other_end_deg"] == "0"
    shaped = [piece.mark for piece in CASES["L"].laying.pieces if piece.shaped]
    assert shaped
    assert {mark for mark, row in rows.items() if row["mark_out"]} == set(shaped)


def test_edges_are_named_by_where_they_lie() -> None:
    # away from the house, the splay at the right: boards end earlier the further right they lie
    rows = cuts_of(CASES["L away"])
    splayed = rows["B2.1"]
    assert (splayed["one_end"], splayed["other_end"]) == ("house", "garden")
    assert splayed["other_end_longer"] == "left edge"


def test_every_piece_has_a_label(plan: Plan) -> None:
    text = drylay.papers(plan, only="labels.csv")["labels.csv"].decode()
    marks = [row["mark"] for row in csv.DictReader(io.StringIO(text))]
    parts = (*plan.laying.pieces, *plan.subframe.members, *plan.subframe.facings)
    assert marks == [part.mark for part in parts]


def test_the_job_sheet_tells_sides_openings_ties_and_corners() -> None:
    plan = CASES["L"]
    page = drylay.papers(plan, only="jobsheet.html")["jobsheet.html"]
    sheet = Sheet(page)
    assert sheet.wrongs == []
    text = " ".join(sheet.parts["Outline and openings"])
    assert "Do not dig, drive posts or heap earth inside the tree" in text
    for side in plan.outline.sides:
        assert f"{side.mark} {side.kind}" in text
    rows = {row[1]: row for row in sheet.rows["Boards and joints, row by row"]}
    # by hand: the tree's hole of 3940 to 4460, 640 to 1160, is let into the row from 600 to 745;
    # B5.2 begins at 3400 + 2, so that the notch begins 538 along it and 40 in from its house edge
    corners = rows["B5.2"][4]
    assert "538, 40" in corners
    assert "1058, 40" in corners


def test_the_summary_tells_outline_boards_and_frame() -> None:
    told = drylay.papers(CASES["bay"], only="summary.txt")["summary.txt"].decode()
    for heading in ("OUTLINE", "BOARDS", "FRAME", "CUT LIST"):
        assert f"\n{heading}\n" in told
    assert "E2 house" in told
    assert "saw 45\u00b0, off square" in told


def test_a_rectangle_on_an_outline_is_drawn_too() -> None:
    svg = outlined_boards_svg(outlined_plan(RECTANGLE))
    assert measured.overlapping(svg) == []
    assert not [word for word in measured.words(svg, "dimensions") if "overall" in word]


def test_every_tie_is_drawn_and_told_and_checks_are_apart(plan: Plan) -> None:
    svg = drawn(plan, "setting")
    lines = measured.group(svg, "diagonals")
    ties = plan.work.setting_out.ties
    assert [line.get("stroke-dasharray") == "0.6 1.4" for line in lines] == [t.check for t in ties]
    rows = [cell for line in measured.cells(svg, "ties") for cell in line]
    assert [cell for cell in rows if cell in {"check", "sets"}] == [
        "check" if tie.check else "sets" for tie in ties
    ]
    for line, tie in zip(lines, ties, strict=True):
        ends = [float(line.get(name, "0")) for name in ("x1", "y1", "x2", "y2")]
        long = ((ends[2] - ends[0]) ** 2 + (ends[3] - ends[1]) ** 2) ** 0.5 * scale_of(svg)
        assert long == pytest.approx(tie.length_mm, abs=scale_of(svg) * 0.003)


def test_what_somebody_calls_an_opening_harms_no_paper() -> None:
    name = "=cmd|' /C'!A0 <script>alert(1)</script> \x00\u202e " + "long " * 60
    plan = outlined_plan(RECTANGLE, holes=(evolve(POST, name=name),), title=name)
    made = drylay.papers(plan)
    for file in ("boards.svg", "frame.svg", "setting-out.svg"):
        assert measured.overlapping(made[file]) == []
        assert measured.outside(made[file]) == []
    assert Sheet(made["jobsheet.html"]).wrongs == []


def test_the_ends_of_a_border_are_those_that_lie_there_whichever_way_round_it_is_told() -> None:
    # a clipped corner: K1.4 lies along the front, square corner left (45), clipped one right (67.5
    # inside, so that the saw is set to 22.5), and is told from right to left, as sides run
    corners = [(0.0, 0.0), (4500.0, 0.0), (4500.0, 2000.0), (3500.0, 3000.0), (0.0, 3000.0)]
    plan = outlined_plan(corners, border=True)
    turned = tuple(
        evolve(piece, start_deg=piece.end_deg, end_deg=piece.start_deg)
        if piece.mark == "K1.4"
        else piece
        for piece in plan.laying.pieces
    )
    for laying in (plan.laying, evolve(plan.laying, pieces=turned)):
        row = cuts_of(evolve(plan, laying=laying))["K1.4"]
        assert (row["one_end"], row["other_end"]) == ("left", "right")
        assert float(row["one_end_deg"]) == pytest.approx(45.0)
        assert float(row["other_end_deg"]) == pytest.approx(22.5)
        assert row["one_end_longer"] == row["other_end_longer"] == "garden edge"
