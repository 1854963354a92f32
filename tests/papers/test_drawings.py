"""Drawings measured from the SVG alone: scale, places, texts that do not touch."""

import sys
from collections.abc import Callable
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.papers.bars import bars_svg
from drylay.papers.boards_drawing import boards_svg
from drylay.papers.dimensions import PITCH_MM, spread
from drylay.papers.frame_drawing import frame_svg
from drylay.papers.lettering import fitted, width_mm
from drylay.papers.rod import rod_svg
from drylay.papers.section import section_svg
from drylay.papers.setting_out import setting_out_svg
from drylay.papers.sheets import held, sheets, wrapped
from drylay.plan.model import Plan
from papers import measured
from plan.made import plans
from plan.sample import blocked_plan, sample_plan

ALL_SIDES = ("house", "right", "front", "left")
CASES = {
    "small": sample_plan(row_length_mm=1200.0, rows=4),
    "tiny": sample_plan(row_length_mm=300.0, rows=1, sides=(), noggin_rows=0),
    "tiny across": sample_plan(row_length_mm=300.0, rows=1, run="across", units="imperial"),
    "example": sample_plan(row_length_mm=6000.0, rows=20, sides=("right", "front", "left")),
    "long": sample_plan(row_length_mm=12000.0, rows=53, noggin_rows=4, sides=ALL_SIDES),
    "across": sample_plan(row_length_mm=3000.0, rows=40, run="across", sides=ALL_SIDES),
    "across long": sample_plan(row_length_mm=8000.0, rows=80, run="across", noggin_rows=3),
    "imperial": sample_plan(row_length_mm=4876.8, rows=24, units="imperial"),
    "narrow": sample_plan(row_length_mm=12000.0, rows=3, noggin_rows=2),
    "close joists": sample_plan(row_length_mm=12000.0, rows=20, most_mm=100.0),
    "beyond every sheet": sample_plan(row_length_mm=60000.0, rows=12, run="across", sides=()),
    "beyond every sheet too": sample_plan(row_length_mm=60000.0, rows=12, units="imperial"),
}
IN_PLAN = {"frame": frame_svg, "boards": boards_svg, "setting out": setting_out_svg}
DRAWINGS = {**IN_PLAN, "rod": rod_svg, "bars": bars_svg, "section": section_svg}


@pytest.fixture(params=CASES, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return CASES[request.param]


@pytest.fixture(params=DRAWINGS, scope="module")
def svg(request: pytest.FixtureRequest, plan: Plan) -> bytes:
    return DRAWINGS[request.param](plan)


def scale_of(svg: bytes) -> float:
    return float(ET.fromstring(svg).get("data-deck-mm-per-paper-mm", "0"))


def test_no_two_texts_touch_and_none_leaves_the_border(svg: bytes) -> None:
    assert measured.overlapping(svg) == []
    assert measured.outside(svg) == []


def test_that_check_sees_a_text_on_another() -> None:
    svg = boards_svg(CASES["small"]).replace(b">B2:", b">" + b"more text than room " * 9)
    assert measured.outside(svg)
    moved = boards_svg(CASES["small"]).replace(b"HOUSE SIDE", b"HOUSE SIDE" * 20)
    assert measured.overlapping(moved)


def test_the_scale_bar_is_as_long_as_it_says(svg: bytes) -> None:
    assert measured.bar_mm(svg) * scale_of(svg) == pytest.approx(
        measured.bar_says_mm(svg), rel=1e-3
    )
    assert 15 < measured.bar_mm(svg) <= 50.001


@pytest.mark.parametrize("draw", IN_PLAN.values(), ids=IN_PLAN)
def test_the_cover_is_drawn_to_that_scale(plan: Plan, draw: Callable[[Plan], bytes]) -> None:
    svg = draw(plan)
    ((_, _, width, height),) = measured.rectangles(svg, "cover")
    near = max(0.1, scale_of(svg) * 0.001)
    assert width * scale_of(svg) == pytest.approx(plan.surface.cover_along_mm, abs=near)
    assert height * scale_of(svg) == pytest.approx(plan.surface.cover_across_mm, abs=near)


def test_lettering_is_never_below_two_and_a_half_millimetres(svg: bytes) -> None:
    assert min(float(text.get("font-size", "0")) for text in measured.texts(svg)) >= 2.5


def test_pens_are_those_of_iso_128(svg: bytes) -> None:
    # the series of ISO 128-2: 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 ... (from memory)
    pens = {part.get("stroke-width") for part in ET.fromstring(svg).iter()} - {None}
    assert pens <= {"0.13", "0.25", "0.35", "0.5"}


def test_a_drawing_is_black_on_white_and_says_what_it_is(svg: bytes) -> None:
    root = ET.fromstring(svg)
    colours = {part.get(key) for part in root.iter() for key in ("fill", "stroke")}
    assert colours <= {None, "none", "black", "white"}
    assert root.get("viewBox", "").split()[2:] == [
        root.get("width", "").removesuffix("mm"),
        root.get("height", "").removesuffix("mm"),
    ]
    ids = {part.get("id") for part in root if part.text}
    assert set(root.get("aria-labelledby", "").split()) <= ids


def test_the_same_plan_gives_the_same_bytes(plan: Plan) -> None:
    for draw in DRAWINGS.values():
        assert draw(plan) == draw(evolve(plan))


def joist_centres(plan: Plan, svg: bytes) -> list[float]:
    """Centres of the joists' rectangles in mm of deck, counted from the cover's corner."""
    ((left, top, _, _),) = measured.rectangles(svg, "cover")
    along = plan.surface.run == "along"
    return sorted(
        (x + w / 2 - left if along else y + h / 2 - top) * scale_of(svg)
        for x, y, w, h in measured.rectangles(svg, "joists")
    )


def test_joists_stand_where_the_plan_says_whichever_way_boards_run(plan: Plan) -> None:
    svg = frame_svg(plan)
    told = [joist.offset_mm for joist in plan.frame.joists]
    assert joist_centres(plan, svg) == pytest.approx(told, abs=scale_of(svg) * 0.002)


def test_every_joist_and_every_row_is_marked(plan: Plan) -> None:
    frame = {(text.text or "").split(":")[0] for text in measured.texts(frame_svg(plan))}
    assert frame >= {joist.mark for joist in plan.frame.joists}
    boards = {(text.text or "").split(":")[0] for text in measured.texts(boards_svg(plan))}
    assert boards >= {row.mark for row in plan.surface.rows}
    assert boards >= {joist.mark for joist in plan.frame.joists}


def test_rows_and_gaps_are_drawn_to_scale(plan: Plan) -> None:
    svg = boards_svg(plan)
    ((left, top, _, _),) = measured.rectangles(svg, "cover")
    along = plan.surface.run == "along"
    near = sorted(
        (y - top if along else x - left) * scale_of(svg)
        for x, y, _, _ in measured.rectangles(svg, "rows")
    )
    assert near == pytest.approx([r.near_mm for r in plan.surface.rows], abs=scale_of(svg) * 0.002)


def test_every_joint_has_its_tick_and_joist(plan: Plan) -> None:
    parts = measured.group(boards_svg(plan), "joints")
    ticks = [part for part in parts if part.get("stroke-width") == "0.5"]
    assert len(ticks) == len(plan.pieces.joints)
    labels = [part.text for part in parts if part.tag.endswith("text")]
    assert sorted(labels) == sorted(joint.joist for joint in plan.pieces.joints)


@pytest.mark.parametrize("name", ["example", "long", "across"])
def test_fascia_lies_inside_the_cover_on_its_sides(name: str) -> None:
    plan = CASES[name]
    svg = frame_svg(plan)
    ((left, top, width, height),) = measured.rectangles(svg, "cover")
    boxes = measured.rectangles(svg, "fascia")
    assert len(boxes) == len(plan.edges.faces)
    for face, (x, y, w, h) in zip(plan.edges.faces, boxes, strict=True):
        at = {"house": y - top, "left": x - left,
              "front": top + height - y - h, "right": left + width - x - w}[face.side]  # fmt: skip
        assert at == pytest.approx(0.0, abs=0.002)
        assert max(w, h) * scale_of(svg) == pytest.approx(face.length_mm, rel=1e-3)
    members = [*measured.rectangles(svg, "rims"), *measured.rectangles(svg, "joists")]
    for x, y, w, h in members:
        for fx, fy, fw, fh in boxes:
            assert (
                min(x + w, fx + fw) - max(x, fx) < 0.01 or min(y + h, fy + fh) - max(y, fy) < 0.01
            )


def test_splices_lie_against_the_inner_faces_of_their_rims() -> None:
    svg = frame_svg(CASES["long"])
    rims, splices = measured.rectangles(svg, "rims"), measured.rectangles(svg, "splices")
    assert len(splices) == 2
    near, far = sorted(splices, key=lambda box: box[1])
    assert near[1] == pytest.approx(min(y + h for _, y, _, h in rims), abs=0.002)
    assert far[1] + far[3] == pytest.approx(max(y for _, y, _, _ in rims), abs=0.002)


def test_the_diagonals_run_from_corner_to_corner_of_the_frame() -> None:
    svg = frame_svg(CASES["example"])
    lines = measured.group(svg, "diagonals")
    long = [
        (float(p.get("x2", "0")) - float(p.get("x1", "0"))) ** 2
        + (float(p.get("y2", "0")) - float(p.get("y1", "0"))) ** 2
        for p in lines
    ]
    told = CASES["example"].frame.diagonal_mm
    assert [length**0.5 * 20 for length in long] == pytest.approx([told, told], rel=1e-4)
    assert all(part.get("stroke-dasharray") for part in lines)
    assert any("both diagonals" in (text.text or "") for text in measured.texts(svg))


def test_a_ripped_row_and_unequal_gaps_are_told() -> None:
    plan = CASES["small"]
    *rows, last = plan.surface.rows
    ripped = evolve(last, width_mm=97.0, ripped=True, gap_mm=6.5)
    svg = boards_svg(evolve(plan, surface=evolve(plan.surface, rows=(*rows, ripped))))
    told = " ".join(text.text or "" for text in measured.texts(svg))
    assert "ripped" in told
    assert "Gap before B2 B3: 5, B4: 6.5." in told
    assert "Width of B1 to B3: 145, B4: 97." in told


def test_many_different_gaps_are_left_to_the_edges() -> None:
    plan = CASES["example"]
    rows = tuple(evolve(row, gap_mm=5.0 + n % 2) for n, row in enumerate(plan.surface.rows))
    svg = boards_svg(evolve(plan, surface=evolve(plan.surface, rows=rows)))
    told = " ".join(text.text or "" for text in measured.texts(svg))
    assert "Gap before each row: see its edges" in told


def test_rows_too_thin_for_a_text_keep_their_ticks() -> None:
    plan = CASES["long"]
    thin = tuple(evolve(row, width_mm=60.0) for row in plan.surface.rows)
    parts = measured.group(
        boards_svg(evolve(plan, surface=evolve(plan.surface, rows=thin))), "joints"
    )
    assert len(parts) == len(plan.pieces.joints)
    assert not [part for part in parts if part.tag.endswith("text")]


def test_a_plan_without_a_frame_has_no_drawings() -> None:
    assert [draw(blocked_plan()) for draw in DRAWINGS.values()] == [b""] * len(DRAWINGS)


def test_a_hand_edited_plan_with_stray_marks_is_drawn_all_the_same() -> None:
    plan = CASES["long"]
    frame = plan.frame
    noggins = (evolve(frame.noggins[0], left="J99"), *frame.noggins[1:])
    splices = (evolve(frame.splices[0], rim="RX"), *frame.splices[1:])
    joints = (evolve(plan.pieces.joints[0], row="B99"), *plan.pieces.joints[1:])
    edited = evolve(
        plan, supports=None, frame=evolve(frame, noggins=noggins, splices=splices),
    )  # fmt: skip
    assert len(measured.rectangles(frame_svg(edited), "noggins")) == len(noggins) - 1
    edited = evolve(plan, pieces=evolve(plan.pieces, joints=joints))
    assert len(measured.group(boards_svg(edited), "joints")) > 0
    single = evolve(
        plan, frame=evolve(frame, joists=frame.joists[:1], rims=(), noggins=(), splices=())
    )
    assert measured.overlapping(frame_svg(single)) == []


def test_designed_decks_are_drawn_clean() -> None:
    for plan in plans():
        for draw in DRAWINGS.values():
            drawn = draw(plan)
            if drawn:
                assert measured.overlapping(drawn) == []
                assert measured.outside(drawn) == []


def test_no_drawing_loses_a_note_for_want_of_room(monkeypatch: pytest.MonkeyPatch) -> None:
    room = sys.modules["drylay.papers.sheets"]
    whole = room._notes
    lost: list[str] = []

    def watched(notes: tuple[str, ...], x: float, top: float, most_mm: float) -> object:
        drawn = " ".join(text.text for text in whole(notes, x, top, most_mm))
        lost.extend(note for note in notes if note.replace("\u00a0", " ") not in drawn)
        return whole(notes, x, top, most_mm)

    monkeypatch.setattr(room, "_notes", watched)
    for plan in [*CASES.values(), *plans()]:
        for draw in DRAWINGS.values():
            draw(plan)
    assert lost == []
    monkeypatch.setattr(room, "MOST_LINES", 1)
    boards_svg(CASES["small"])
    assert lost


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(0, 300), min_size=1, max_size=40).map(sorted))
def test_labels_keep_their_order_and_their_distance(points: list[float]) -> None:
    at = spread(points, PITCH_MM)
    assert all(b - a >= PITCH_MM - 1e-6 for a, b in pairwise(at))
    if all(b - a >= PITCH_MM for a, b in pairwise(points)):
        assert at == pytest.approx(points)


def test_text_is_fitted_and_wrapped_to_its_room() -> None:
    assert fitted("short", 2.5, 50) == "short"
    assert width_mm(fitted("W" * 50, 2.5, 50), 2.5) <= 50
    assert fitted("W" * 50, 2.5, 50).endswith("...")
    lines = wrapped("one two three " + "W" * 60, 2.5, 30)
    assert all(width_mm(line, 2.5) <= 30 for line in lines)
    assert fitted("W", 2.5, 1.0) == "..."
    length = "12 ft 6 1/2 in"
    assert not any(length in line for line in wrapped(f"as long as {length} is", 2.5, 30))
    assert any(length in line for line in wrapped(f"as long as {held(length)} is", 2.5, 30))


def test_sheets_are_landscape_and_come_smallest_first() -> None:
    for units in ("metric", "imperial"):
        widths = [sheet.width_mm for sheet in sheets(units)]
        assert widths == sorted(widths)
        assert all(sheet.width_mm > sheet.height_mm for sheet in sheets(units))
