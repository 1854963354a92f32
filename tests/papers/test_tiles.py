"""Papers of tiles: the drawing to scale, every cut tile listed, and only what the plan says."""

import csv
import io
import re
from collections import Counter

import pytest

import drylay
from audit.tile_decks import deck
from drylay.papers.section import section_svg
from drylay.papers.setting_out import setting_out_svg
from drylay.papers.tiles_drawing import tiles_svg
from drylay.plan.model import Plan
from papers import measured
from papers.read_html import Sheet
from tile_family import FRAME, tile_brief, tile_families, yard

CIRCLE = f"{measured.SVG}circle"


def designed(along_mm: float, across_mm: float, **sections: dict) -> Plan:
    brief = tile_brief(along_mm, across_mm, **sections)
    return drylay.design(brief, stock=yard(), families=tile_families())


CASES = {
    "pads": lambda: deck("pads"),
    "frame": lambda: deck("frame"),
    "oblong": lambda: designed(3700, 2410, board={"article": "TT-900"}),
    "across": lambda: designed(
        2410, 3700, board={"article": "TT-900", "run": "across"}, frame=FRAME
    ),
    "one": lambda: designed(600, 600),
    "long": lambda: designed(12_076, 604 * 2 - 4),
    "feet": lambda: drylay.design(
        tile_brief(3014, 2410).replace("units", "imperial"), stock=yard(), families=tile_families()
    ),
}


@pytest.fixture(params=CASES, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return CASES[request.param]()


def test_every_tile_is_drawn_to_scale(plan: Plan) -> None:
    svg = tiles_svg(plan)
    per_mm = measured.bar_says_mm(svg) / measured.bar_mm(svg)
    sizes = sorted(
        tuple(sorted((column.length_mm, row.width_mm)))
        for column in plan.tiling.columns
        for row in plan.surface.rows
    )
    drawn = [box[2:] for box in measured.rectangles(svg, "tiles")]
    assert len(drawn) == len(sizes) == plan.tiling.places
    read = sorted(tuple(sorted((wide * per_mm, high * per_mm))) for wide, high in drawn)
    for one, other in zip(read, sizes, strict=True):
        assert one == pytest.approx(other, abs=per_mm * 0.02)


def test_tiles_lie_inside_the_cover_and_over_no_other(plan: Plan) -> None:
    svg = tiles_svg(plan)
    (cover,) = measured.rectangles(svg, "cover")
    boxes = measured.rectangles(svg, "tiles")
    for x, y, wide, high in boxes:
        assert cover[0] - 0.02 <= x
        assert x + wide <= cover[0] + cover[2] + 0.02
        assert cover[1] - 0.02 <= y
        assert y + high <= cover[1] + cover[3] + 0.02
    area = sum(wide * high for _, _, wide, high in boxes)
    assert area <= cover[2] * cover[3] + 0.5


def test_what_carries_the_tiles_is_drawn(plan: Plan) -> None:
    svg = tiles_svg(plan)
    rings = [part for part in measured.group(svg, "pads") if part.tag == CIRCLE]
    faces = measured.group(svg, "joists")
    if plan.tiling.pads is None:
        assert not rings
        assert len(faces) == 2 * plan.supports.line_count
    else:
        assert len(rings) == plan.tiling.pads.count
        assert not faces


def test_no_words_overlap_or_leave_the_sheet(plan: Plan) -> None:
    for svg in (tiles_svg(plan), setting_out_svg(plan), section_svg(plan)):
        assert measured.overlapping(svg) == []
        assert measured.outside(svg) == []


def test_the_section_on_pads_is_to_scale() -> None:
    """A tile of 20 on pads of 30, the joint of 4 beside it: the first row is cut to 297."""
    svg = section_svg(deck("pads"))
    per_mm = measured.bar_says_mm(svg) / measured.bar_mm(svg)
    first, second = measured.rectangles(svg, "tiles")
    assert first[2] * per_mm == pytest.approx(297, abs=per_mm * 0.02)
    assert first[3] * per_mm == pytest.approx(20, abs=per_mm * 0.02)
    assert (second[0] - first[0] - first[2]) * per_mm == pytest.approx(4, abs=per_mm * 0.02)
    pads = measured.rectangles(svg, "pads")
    low = max(y + high for _, y, _, high in pads)
    assert (low - first[1]) * per_mm == pytest.approx(20 + 30, abs=per_mm * 0.02)
    assert "30 mm to 40 mm high" in " ".join(measured.words(svg, "notes"))


def test_marks_stand_in_cut_tiles_alone(plan: Plan) -> None:
    marks = measured.words(tiles_svg(plan), "marks")
    assert {*marks} <= {piece.mark for piece in plan.tiling.cut_tiles}
    assert len({*marks}) == len(marks)


def rows_of(plan: Plan, name: str) -> list[dict[str, str]]:
    text = drylay.papers(plan, only=name)[name].decode("utf-8")
    return [*csv.DictReader(io.StringIO(text))]


def test_every_cut_tile_is_in_the_cut_list_once_and_has_a_label(plan: Plan) -> None:
    wanted = {piece.mark: piece for piece in plan.tiling.cut_tiles}
    cuts = [row for row in rows_of(plan, "cuts.csv") if row["bought_mark"].startswith("TC")]
    assert Counter(row["piece_mark"] for row in cuts) == Counter([*wanted])
    for row in cuts:
        piece = wanted[row["piece_mark"]]
        assert float(row["saw_length_mm"]) == piece.length_mm
        narrow = piece.width_mm < plan.surface.board_width_mm
        assert row["rip_to_mm"] == "" or (narrow and float(row["rip_to_mm"]) == piece.width_mm)
    labels = [row for row in rows_of(plan, "labels.csv") if row["kind"] == "cut tile"]
    assert {row["mark"] for row in labels} == {*wanted}


def test_the_order_buys_what_the_plan_does(plan: Plan) -> None:
    told = Counter()
    for row in rows_of(plan, "order.csv"):
        if row["kind"] == "needed":
            told[row["article"]] += int(row["quantity"]) * int(row["pack_count"] or 0)
    assert told[plan.surface.board_article] >= plan.tiling.need
    if plan.tiling.pads is not None:
        assert told[plan.tiling.pads.article] >= plan.tiling.pads.count


def test_the_job_sheet_is_sound_and_tells_of_tiles(plan: Plan) -> None:
    sheet = Sheet(drylay.papers(plan, only="jobsheet.html")["jobsheet.html"])
    assert sheet.wrongs == []
    headings = {heading for _, heading in sheet.headings}
    assert {"Tiles", "What the tiles lie on", "Cut tiles"} <= headings
    assert ("Frame" in headings) == (plan.frame is not None)
    assert "None" not in sheet.text
    assert ("silica" in sheet.text) == bool(plan.tiling.cut)


def test_the_summary_tells_what_the_plan_says(plan: Plan) -> None:
    told = " ".join(drylay.papers(plan, only="summary.txt")["summary.txt"].decode().split())
    tiling = plan.tiling
    assert re.search(rf"{tiling.places} places?, {tiling.whole} whole and {tiling.cut} cut", told)
    assert re.search(rf"{tiling.need} tiles? needed", told)
    assert "None" not in told
    for part in ("FRAME", "FIXINGS"):
        assert (part in told) == (plan.frame is not None)


def test_papers_are_those_that_the_plan_has() -> None:
    pads, frame = (set(drylay.papers(deck(support))) for support in ("pads", "frame"))
    framed = {"frame.svg", "rod.svg", "bars.svg", "proof.json", "check_proof.py"}
    assert frame - pads == framed
    assert "tiles.svg" in pads & frame
    assert "boards.svg" not in pads | frame
    assert tiles_svg(deck("pads")) == tiles_svg(deck("pads"))


def test_a_plan_of_boards_has_no_drawing_of_tiles() -> None:
    brief = drylay.read_brief("docs/examples/garden.toml")
    plan = drylay.design(brief, stock=drylay.load_catalogue("catalogs/hobbleden.toml"))
    assert tiles_svg(plan) == b""
    assert "tiles.svg" not in drylay.papers(plan)
