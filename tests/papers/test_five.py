"""Papers of all five families: what a softwood deck has not is drawn, listed and told once."""

import csv
import io
import re
from collections import Counter
from itertools import chain

import pytest
from attrs import evolve

import drylay
from drylay.papers.bars import bars_svg
from drylay.papers.boards_drawing import boards_svg
from drylay.papers.frame_drawing import frame_svg
from drylay.papers.rod import rod_svg
from drylay.papers.section import section_svg
from drylay.papers.setting_out import setting_out_svg
from drylay.papers.tiles_drawing import tiles_svg
from drylay.plan.model import Plan
from papers import five, measured
from papers.read_html import Sheet
from papers.test_bars import found_bars, pieces_told
from papers.test_drawings import joist_centres, scale_of
from papers.test_rod import wrong_joists, wrong_rows

ALL = {**five.MADE, **five.TILED}
DRAWINGS = (bars_svg, boards_svg, frame_svg, rod_svg, section_svg, setting_out_svg, tiles_svg)
CLIPPED = ("pairs", "battens")
Point = tuple[float, float]


@pytest.fixture(params=five.MADE, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return five.made(request.param)


@pytest.fixture(params=ALL, scope="module")
def any_plan(request: pytest.FixtureRequest) -> Plan:
    return five.made(request.param)


def rows_of(plan: Plan, name: str) -> list[dict[str, str]]:
    text = drylay.papers(plan, only=name)[name].decode("utf-8")
    return [*csv.DictReader(io.StringIO(text))]


def sheet_of(plan: Plan) -> Sheet:
    return Sheet(drylay.papers(plan, only="jobsheet.html")["jobsheet.html"])


def upright(plan: Plan, box: measured.Box) -> measured.Box:
    """A box of the paper as one of the deck: begins along the rows, and across them; its sizes."""
    x, y, wide, high = box
    return (x, y, wide, high) if plan.surface.run == "along" else (y, x, high, wide)


def on_deck(plan: Plan, svg: bytes, layer: str) -> list[measured.Box]:
    """The boxes of a layer in mm of deck from the cover's datum corner, in order."""
    (cover,) = (upright(plan, box) for box in measured.rectangles(svg, "cover"))
    found = (upright(plan, box) for box in measured.rectangles(svg, layer))
    per_mm = scale_of(svg)
    return sorted(
        ((a - cover[0]) * per_mm, (b - cover[1]) * per_mm, wide * per_mm, high * per_mm)
        for a, b, wide, high in found
    )


def near(svg: bytes) -> float:
    return scale_of(svg) * 0.003


def test_no_text_leaves_its_sheet_or_lies_on_another(any_plan: Plan) -> None:
    for draw in DRAWINGS:
        svg = draw(any_plan)
        assert not svg or measured.overlapping(svg) == []
        assert not svg or measured.outside(svg) == []


def test_nothing_that_is_drawn_leaves_its_sheet(any_plan: Plan) -> None:
    for svg in (draw(any_plan) for draw in DRAWINGS):
        sheet = re.search(rb'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
        assert bool(sheet) == bool(svg)
        if sheet is None:
            continue
        for x, y in points_of(svg):
            assert 0 <= x <= float(sheet[1])
            assert 0 <= y <= float(sheet[2])


def points_of(svg: bytes) -> list[Point]:
    """Every corner, end and middle in a drawing."""
    found: list[Point] = []
    for tag in re.findall(rb"<(?:rect|line|circle)[^>]*>", svg):
        told = {name.decode(): value for name, value in re.findall(rb' (\w+)="([-\d.]+)"', tag)}
        at = {name: float(value) for name, value in told.items()}
        pairs = (("x", "y"), ("x1", "y1"), ("x2", "y2"), ("cx", "cy"))
        found += [(at[x], at[y]) for x, y in pairs if x in at and y in at]
        if "width" in at:
            found.append((at.get("x", 0) + at["width"], at.get("y", 0) + at["height"]))
    return found


def members(plan: Plan) -> dict[str, list[measured.Box]]:
    """Every member of a frame as a box on the deck, by the layer it is drawn in."""
    frame, thick = plan.frame, plan.frame.timber_thickness_mm
    centres = {joist.mark: joist.offset_mm for joist in frame.joists}
    return {
        "joists": [(j.offset_mm - thick / 2, j.near_mm, thick, j.length_mm) for j in frame.joists],
        "battens": [
            (b.offset_mm - thick / 2, b.near_mm, thick, b.length_mm) for b in frame.battens
        ],
        "noggins": [
            (centres[n.left] + thick / 2, n.across_mm - thick / 2, n.length_mm, thick)
            for n in frame.noggins
        ],
        "rims": [
            (piece.start_mm, rim.near_mm, piece.length_mm, thick)
            for rim in frame.rims
            for piece in rim.pieces
        ],
    }


def astray(plan: Plan, svg: bytes) -> list[str]:
    """The layers in which not every member is drawn once, to scale and at its place."""
    found = []
    for layer, held in members(plan).items():
        drawn = on_deck(plan, svg, layer)
        pairs = zip(drawn, sorted(held), strict=False)
        same = all(one == pytest.approx(other, abs=near(svg)) for one, other in pairs)
        found += [] if same and len(drawn) == len(held) else [layer]
    return found


def test_every_member_of_the_frame_is_drawn_once_and_where_it_is(plan: Plan) -> None:
    assert astray(plan, frame_svg(plan)) == []


def test_that_check_sees_a_batten_left_out_and_one_moved() -> None:
    plan = five.made("battens")
    first, *others = plan.frame.battens
    for battens in (others, [evolve(first, near_mm=first.near_mm + 30), *others]):
        edited = evolve(plan, frame=evolve(plan.frame, battens=tuple(battens)))
        assert astray(plan, frame_svg(edited)) == ["battens"]


def test_battens_are_marked_or_told_in_the_job_sheet(plan: Plan) -> None:
    texts = {text.text for text in measured.texts(frame_svg(plan))}
    told = [row for rows in sheet_of(plan).rows.values() for row in rows]
    for batten in plan.frame.battens:
        assert any([batten.joist, batten.mark] == row[-4:-2] for row in told)
    assert {text for text in texts if re.fullmatch(r"Q\d+", text or "")} <= {
        batten.mark for batten in plan.frame.battens
    }
    assert bool(plan.frame.battens) == any("Battens (Q1" in (text or "") for text in texts)


@pytest.mark.parametrize("name", ["pairs", "turf across"])
def test_joists_of_a_pair_are_drawn_as_two_that_touch_at_the_seam(name: str) -> None:
    plan = five.made(name)
    svg, thick = frame_svg(plan), plan.frame.timber_thickness_mm
    drawn = joist_centres(plan, svg)
    assert plan.supports.seams
    assert len(drawn) == plan.supports.line_count
    marks = [joist.mark for joist in plan.frame.joists]
    texts = {(text.text or "").split(":")[0] for text in measured.texts(svg)}
    for seam in plan.supports.seams:
        one, other = marks.index(seam.left), marks.index(seam.right)
        assert other == one + 1
        assert drawn[one] + thick / 2 == pytest.approx(seam.offset_mm, abs=near(svg))
        assert drawn[other] - thick / 2 == pytest.approx(seam.offset_mm, abs=near(svg))
        assert {seam.left, seam.right} <= texts
    foot = " ".join(text.text or "" for text in measured.texts(svg))
    assert "Joists of pairs touch" in foot


def test_the_boards_drawing_has_both_faces_of_every_joist(plan: Plan) -> None:
    svg = boards_svg(plan)
    assert len(measured.group(svg, "joists")) == 2 * plan.supports.line_count


def test_every_row_is_drawn_once_and_the_borders_are_hatched(plan: Plan) -> None:
    svg = boards_svg(plan)
    for layer, border in (("rows", False), ("border-rows", True)):
        drawn = [box for box in on_deck(plan, svg, layer) if box[2] > 0]
        held = [(row.near_mm, row.width_mm) for row in plan.surface.rows if row.border is border]
        assert sorted(box[1] for box in drawn) == pytest.approx(
            [at for at, _ in held], abs=near(svg)
        )
        assert sorted(box[3] for box in drawn) == pytest.approx(
            sorted(width for _, width in held), abs=near(svg)
        )
    assert bool(measured.group(svg, "border-rows-hatch")) == (plan.surface.border is not None)


def test_every_joint_has_its_tick_where_it_is(plan: Plan) -> None:
    svg, per_mm = boards_svg(plan), scale_of(boards_svg(plan))
    ((left, top, *_),) = measured.rectangles(svg, "cover")
    along = plan.surface.run == "along"
    ticks = [part for part in measured.group(svg, "joints") if part.get("stroke-width") == "0.5"]
    at = [float(t.get("x1", 0)) - left if along else float(t.get("y1", 0)) - top for t in ticks]
    held = sorted(joint.centre_mm for joint in plan.pieces.joints)
    assert sorted(each * per_mm for each in at) == pytest.approx(held, abs=near(svg))


def arrows(plan: Plan, svg: bytes) -> list[tuple[Point, Point]]:
    """Every arrow on the deck, tail and tip, each as how far along the rows and across them."""
    (cover,) = (upright(plan, box) for box in measured.rectangles(svg, "cover"))
    per_mm, found = scale_of(svg), {}
    for part in measured.group(svg, "arrows"):
        ends = [
            upright(plan, (float(part.get(f"x{n}", 0)), float(part.get(f"y{n}", 0)), 0, 0))
            for n in "12"
        ]
        tail, tip = (((a - cover[0]) * per_mm, (b - cover[1]) * per_mm) for a, b, *_ in ends)
        if abs(tail[1] - tip[1]) < 0.01:  # the shaft; the head's two strokes are aslant
            found[tail, tip] = len(found)
    return [*found]


def not_arrowed(plan: Plan, svg: bytes) -> set[str]:
    """Handed pieces without exactly one arrow of theirs, and "stray" for one that is no piece's."""
    rows = {row.mark: row for row in plan.surface.rows}
    owners: Counter[str] = Counter()
    for (tail, middle), (tip, _) in arrows(plan, svg):
        inside = [
            piece.mark
            for piece in plan.pieces.pieces
            if piece.arrow
            and piece.start_mm <= tail < tip <= piece.start_mm + piece.length_mm
            and rows[piece.row].near_mm < middle < rows[piece.row].near_mm + piece.width_mm
        ]
        owners.update(inside or ["stray"])
    wanted = Counter(piece.mark for piece in plan.pieces.pieces if piece.arrow)
    return {mark for mark in owners | wanted if owners[mark] != wanted[mark]}


def test_every_handed_piece_has_an_arrow_that_points_along_the_rows(plan: Plan) -> None:
    """Towards the right as seen from the garden, or towards the front: docs/conventions.md."""
    assert not_arrowed(plan, boards_svg(plan)) == set()
    assert {piece.arrow for piece in plan.pieces.pieces} <= {
        "", {"along": "right", "across": "front"}[plan.surface.run],
    }  # fmt: skip


def test_that_check_sees_an_arrow_turned_and_one_left_out() -> None:
    plan = five.made("turf")
    first, *others = plan.pieces.pieces
    without = evolve(plan, pieces=evolve(plan.pieces, pieces=(evolve(first, arrow=""), *others)))
    assert not_arrowed(plan, boards_svg(without)) == {first.mark}
    assert not_arrowed(without, boards_svg(plan)) == {"stray"}


def test_every_piece_is_on_one_bar_and_arrows_stand_on_handed_ones(plan: Plan) -> None:
    svg = bars_svg(plan)
    assert pieces_told(svg) == Counter([*plan.sizes_mm()])
    handed = {piece.mark for piece in plan.pieces.pieces if piece.arrow}
    bars = [bar for bar in found_bars(svg) if handed & {*chain(*bar.lengths.values())}]
    shafts = [part for part in measured.group(svg, "arrows") if part.get("y1") == part.get("y2")]
    assert len(shafts) == sum(len(bar.pieces) for bar in bars)


def test_the_rod_has_every_joist_and_every_row(plan: Plan) -> None:
    assert wrong_joists(plan, rod_svg(plan)) == []
    assert wrong_rows(plan, rod_svg(plan)) == []


def test_every_piece_is_in_the_cut_list_once_and_has_one_label(plan: Plan) -> None:
    sizes = dict(plan.sizes_mm())
    cuts = {row["piece_mark"]: row for row in rows_of(plan, "cuts.csv")}
    labels = {row["mark"]: row for row in rows_of(plan, "labels.csv")}
    assert Counter([*cuts]) == Counter([*labels]) == Counter([*sizes])
    assert len(rows_of(plan, "cuts.csv")) == len(rows_of(plan, "labels.csv")) == len(sizes)
    arrowed = {piece.mark: piece.arrow for piece in plan.pieces.pieces}
    for mark, size_mm in sizes.items():
        assert float(cuts[mark]["saw_length_mm"]) == size_mm
        assert cuts[mark]["arrow_to"] == labels[mark]["arrow_to"] == arrowed.get(mark, "")
    kinds = Counter(row["kind"] for row in labels.values())
    rows = {row.mark: row.border for row in plan.surface.rows}
    edge = sum(rows[piece.row] for piece in plan.pieces.pieces)
    assert kinds["batten"] == len(plan.frame.battens)
    assert kinds["joist"] == len(plan.frame.joists)
    assert (kinds["border board"], kinds["board"]) == (edge, len(plan.pieces.pieces) - edge)


@pytest.mark.parametrize("name", CLIPPED)
def test_a_clip_is_drawn_in_every_gap_of_the_section(name: str) -> None:
    """A stem as wide as the gap and a flange across it; the row at the right alone is screwed."""
    plan = five.made(name)
    svg = section_svg(plan)
    per_mm = scale_of(svg)
    shown = measured.rectangles(svg, "boards")
    signs = measured.rectangles(svg, "clips")
    gap_mm = plan.fixings.clips.gap_mm
    stems = [box for box in signs if box[2] * per_mm == pytest.approx(gap_mm, abs=near(svg))]
    assert len(shown) > 1
    assert len(stems) == len(shown) - 1
    assert len(signs) == 2 * len(stems)
    edges = sorted(box[0] for box in shown)
    for x, _, wide, _ in stems:
        assert any(x + wide == pytest.approx(edge, abs=0.01) for edge in edges)
    outermost = max(shown)
    for x, _, wide, _ in measured.rectangles(svg, "deck-screws"):
        assert outermost[0] < x
        assert x + wide < outermost[0] + outermost[2]


@pytest.mark.parametrize("name", ALL)
def test_clips_are_told_and_bought_as_counted(name: str) -> None:
    plan = five.made(name)
    sheet = sheet_of(plan)
    told = " ".join(sheet.text.split())
    clips = plan.fixings.clips if plan.fixings else None
    assert bool(clips) == (name in CLIPPED)
    assert bool(clips) == (" starter clips" in told)
    if clips is None:
        return
    assert f"{clips.count} clips {clips.article}" in told
    assert f"{clips.starter_count} starter clips {clips.starter_article}" in told
    bought: Counter[str] = Counter()
    for row in rows_of(plan, "order.csv"):
        if row["kind"] == "needed":
            bought[row["article"]] += int(row["quantity"]) * int(row["pack_count"] or 0)
    assert bought[clips.article] >= clips.count
    assert bought[clips.starter_article] >= clips.starter_count


@pytest.mark.parametrize("name", CLIPPED)
def test_the_rod_tells_where_each_rows_boards_are_fixed(name: str) -> None:
    """One joist for each piece, from the datum; the cross itself: test_fixed_points.py."""
    plan = five.made(name)
    held: dict[str, list[str]] = {}
    for piece, point in zip(plan.pieces.pieces, plan.fixings.clips.fixed_points, strict=True):
        assert point.piece == piece.mark
        held.setdefault(piece.row, []).append(point.joist)
    told = {line[0]: line[-1].split() for line in measured.cells(rod_svg(plan), "rows")}
    assert told == held


def test_the_job_sheet_is_sound_and_tells_of_what_the_deck_has(any_plan: Plan) -> None:
    sheet = sheet_of(any_plan)
    assert sheet.wrongs == []
    assert "None" not in sheet.text
    handed = bool(any_plan.pieces and any(piece.arrow for piece in any_plan.pieces.pieces))
    assert handed == ("may be turned end for end" in sheet.text)
    border = any_plan.surface.border
    assert bool(border) == ("Border: rows" in sheet.text)
    seams = any_plan.supports.seams if any_plan.supports else ()
    assert bool(seams) == ("Joints lie over pairs of joists" in sheet.text)
