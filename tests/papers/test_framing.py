"""What stands round openings, enlarged: real decks with hatches at all angles, measured."""

import re
from functools import lru_cache

import pytest
from attrs import evolve

import drylay
from drylay.papers.outlined_drawings import FRAME_PAGES, frame_pages
from drylay.papers.outlined_frame import frame_page_svg
from drylay.papers.outlined_frame_layout import frame_layout
from drylay.papers.outlined_setting import outlined_setting_svg
from drylay.plan.model import Plan
from outlined_gardens import STOCK, plain
from papers import measured
from papers.framed import astray, details_of, frame_sheets, holds, middle, naming, shapes_of, struck
from plan.sample import sample_plan

HATCH = {"kind": "hatch", "along_mm": 2000, "across_mm": 1700, "size_along_mm": 400,
         "size_across_mm": 400}  # fmt: skip
TREE = {"kind": "tree", "along_mm": 4200, "across_mm": 2900, "trunk_mm": 60, "years": 5}
POOL = {"kind": "pool", "along_mm": 4700, "across_mm": 1300, "size_along_mm": 1500,
        "size_across_mm": 1200}  # fmt: skip
FIELD = {"from_along_mm": 3000, "from_across_mm": 0, "along_mm": 3000, "across_mm": 3600,
         "angle_deg": 30}  # fmt: skip
DECKS: dict[str, tuple[list[dict[str, object]], dict[str, object]]] = {
    "square": ([HATCH], {"angle_deg": 0}),
    "17": ([HATCH], {"angle_deg": 17}),
    "30": ([HATCH], {"angle_deg": 30}),
    "45": ([HATCH], {"angle_deg": 45}),
    "fields": ([HATCH | {"along_mm": 1500}, HATCH | {"along_mm": 4500}], {"fields": [FIELD]}),
    "tree and pool": ([HATCH, TREE, POOL], {"angle_deg": 0}),
}
PEGGED = ("garden", "tree and pool")


@lru_cache
def deck(name: str, units: str = "metric") -> Plan:
    if name == "garden":
        return plain()
    openings, laying = DECKS[name]
    corners = ((0, 0, "house"), (6000, 0, "open"), (6000, 3600, "open"), (0, 3600, "open"))
    points = [{"along_mm": x, "across_mm": y, "side": side} for x, y, side in corners]
    brief = {
        "title": name, "units": units, "outline": {"points": points, "openings": openings},
        "laying": laying, "board": {"article": "DB-28-145"},
        "gap": {"preferred_mm": 5, "least_mm": 4, "most_mm": 8},
        "frame": {"article": "FT-45-145", "most_centres_mm": 400}, "joints": {"end_gap_mm": 4},
        "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90"},
    }  # fmt: skip
    plan = drylay.design(drylay.read_brief(brief), stock=drylay.load_catalogue(STOCK))
    assert plan.buildable, plan.findings
    return plan


@pytest.fixture(params=[*DECKS, "garden"], scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return deck(request.param)


@lru_cache
def sheets_of(name: str) -> tuple[bytes, ...]:
    return tuple(frame_sheets(deck(name)))


@pytest.fixture(params=[*DECKS, "garden"], scope="module")
def sheets(request: pytest.FixtureRequest) -> tuple[bytes, ...]:
    return sheets_of(request.param)


def test_no_text_stands_on_another_or_leaves_the_sheet(sheets: tuple[bytes, ...]) -> None:
    for svg in sheets:
        assert measured.overlapping(svg) == []
        assert measured.outside(svg) == []


def test_no_mark_lies_on_a_member_it_does_not_name(sheets: tuple[bytes, ...]) -> None:
    """Before there were details 2 to 9 did on each of these decks."""
    for svg in sheets:
        assert astray(svg) == []


def test_no_leader_runs_through_a_text(sheets: tuple[bytes, ...]) -> None:
    for svg in sheets:
        assert struck(svg) == []


def test_these_checks_see_a_mark_moved_onto_a_member_and_a_leader_through_a_mark() -> None:
    svg = sheets_of("17")[1]
    marks = {text: middle(quad) for text, quad in naming(svg)}
    (x, y), (there_x, there_y) = marks["U3"], marks["Q2"]
    text = re.search(rb'<text x="([\d.]+)" y="([\d.]+)"[^>]*>U5<', svg)
    assert text is not None
    moved = svg.replace(text[0], text[0].replace(text[1], b"%.3f" % (x + 3)).replace(
        text[2], b"%.3f" % y).replace(b"transform", b"data-was"))  # fmt: skip
    assert astray(moved)
    line = b'<line x1="%.3f" y1="%.3f" x2="%.3f" y2="%.3f" stroke="black"/>'
    group = b'id="frame2-detail-corners">'
    assert group in svg
    through = line % (x, y, there_x, there_y)
    assert set(struck(svg.replace(group, group + through))) >= {"U3", "Q2"}


def scale_of(svg: bytes) -> float:
    return float(re.search(rb'per-paper-mm="([\d.]+)"', svg)[1])  # type: ignore[index]


def area_mm2(corners: list[tuple[float, float]]) -> float:
    ends = zip(corners, [*corners[1:], corners[0]], strict=True)
    return abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in ends)) / 2


def test_every_member_of_a_detail_is_drawn_to_its_scale_with_its_mark_in_it(plan: Plan) -> None:
    """Areas of corners of the plan, by the surveyor's formula, against those on paper."""
    assert plan.subframe is not None
    pages = frame_sheets(plan)
    members = {each.mark: each for each in plan.subframe.members}
    for detail in details_of(plan):
        for mark in detail.own:
            layer = f"detail-{members[mark].kind}s"
            wanted = area_mm2([(c.along_mm, c.across_mm) for c in members[mark].corners])
            shown = [
                area_mm2(shape) * detail.per_mm**2
                for svg in pages for text, quad in naming(svg) if text == mark
                for shape in shapes_of(svg, layer) if holds(shape, middle(quad))
            ]  # fmt: skip
            assert shown == [pytest.approx(wanted, rel=0.01)], mark


def test_battens_are_marked_in_details_alone(plan: Plan) -> None:
    assert plan.subframe is not None
    whole, *_ = pages = frame_sheets(plan)
    marks = sorted(each.mark for each in plan.subframe.battens)
    found = [text for svg in pages for text in measured.words(svg, "detail-marks-battens")]
    assert sorted(found) == marks
    assert shapes_of(whole, "battens") == []


def test_every_hatch_and_small_opening_is_enlarged_once_and_the_note_says_where(plan: Plan) -> None:
    assert plan.outline is not None
    whole, *pages = frame_sheets(plan)
    files = ["here", *(f"on {file}" for file in FRAME_PAGES)]
    note = " ".join(measured.words(whole, "notes"))
    for opening in plan.outline.openings:
        heads = [
            where for where, svg in zip(files, [whole, *pages], strict=False)
            if any(re.match(rf"{opening.mark} ", word) for word in measured.words(svg, "details"))
        ]  # fmt: skip
        assert len(heads) == (opening.kind != "pool")
        for where in heads:
            assert re.search(rf"\b{opening.mark}\b[^;]* {re.escape(where)}\b", note)
        assert re.search(rf"\b{opening.mark}\b", " ".join(measured.words(whole, "opening-names")))


def test_each_page_of_details_tells_its_scale(plan: Plan) -> None:
    for svg in frame_sheets(plan)[1:]:
        told = {word for word in measured.words(svg, "details") if word.startswith("Enlarged")}
        assert {word.split(".")[0] for word in told} == {f"Enlarged, 1:{scale_of(svg):g}"}
        assert measured.bar_says_mm(svg) == pytest.approx(measured.bar_mm(svg) * scale_of(svg))


def test_members_askew_are_told_from_end_to_end_and_others_by_their_middles(plan: Plan) -> None:
    """The plan's own places of ends; a member is askew where these differ both ways."""
    assert plan.subframe is not None
    pages = frame_sheets(plan)
    rows = {row[0]: row[1:] for svg in pages for row in measured.cells(svg, "askew")}
    sizes = [word for svg in pages for word in measured.words(svg, "detail-sizes")]
    own = {mark for each in details_of(plan) for mark in each.own}
    for each in plan.subframe.members:
        if each.mark not in own:
            continue
        ends = (each.start.along_mm, each.start.across_mm, each.end.along_mm, each.end.across_mm)
        askew = abs(ends[0] - ends[2]) > 1 and abs(ends[1] - ends[3]) > 1
        assert (each.mark in rows) == askew
        if askew:
            told = [float(cell.strip("~")) for cell in rows[each.mark][1:]]
            assert told == pytest.approx(ends, abs=0.1)
        else:
            at_mm = ends[0] if abs(ends[0] - ends[2]) < 1 else ends[1]
            stem = re.escape(each.mark.split(".")[0])
            found = [word.split(": ")[1] for word in sizes if re.search(rf"\b{stem}\b.*: ", word)]
            near = [abs(float(word.strip("~")) - at_mm) for word in found]
            assert min(near) <= 0.1, each.mark


def test_the_corners_of_a_hole_askew_are_numbered_and_told() -> None:
    plan, (_, svg) = deck("30"), sheets_of("30")
    assert plan.outline is not None
    assert sorted(measured.words(svg, "detail-corners")) == ["1", "2", "3", "4"]
    told = [[float(cell.strip("~")) for cell in row] for row in measured.cells(svg, "holes")]
    wanted = [
        [number, corner.along_mm, corner.across_mm]
        for number, corner in enumerate(plan.outline.openings[0].corners, 1)
    ]
    for one, other in zip(told, wanted, strict=True):
        assert one == pytest.approx(other, abs=0.1)


def test_a_hole_that_lies_square_is_told_at_its_sides() -> None:
    plan = deck("square")
    assert plan.outline is not None
    (hatch,) = plan.outline.openings
    sizes = [word for svg in sheets_of("square") for word in measured.words(svg, "detail-sizes")]
    told = sorted({float(word.split("~")[-1].split()[-1]) for word in sizes if "hole" in word})
    ends = {c.along_mm for c in hatch.corners} | {c.across_mm for c in hatch.corners}
    assert told == pytest.approx(sorted(ends), abs=0.1)


def test_in_feet_details_have_a_builders_scale() -> None:
    plan = deck("30", "imperial")
    _, svg = frame_sheets(plan)
    assert "scale 1 in = 1 ft" in measured.words(svg, "scale")
    assert measured.overlapping(svg) == []
    assert astray(svg) == struck(svg) == []


def test_the_folder_and_the_job_sheet_have_the_pages_that_there_are(plan: Plan) -> None:
    made = drylay.papers(plan, only=["frame.svg", *frame_pages(plan), "jobsheet.html"])
    sheet = made["jobsheet.html"].decode()
    assert [*made][1:-1] == [*FRAME_PAGES[: len(frame_sheets(plan)) - 1]]
    for file in [*made][1:-1]:
        assert made[file] in frame_sheets(plan)
        assert f"To scale on its own sheet: {file}." in sheet


def test_other_plans_have_no_such_page() -> None:
    assert frame_pages(sample_plan()) == {}
    assert frame_page_svg(sample_plan(), 2) == b""
    assert frame_page_svg(deck("square"), 7) == b""


def test_many_details_stand_on_many_pages_and_none_is_lost() -> None:
    """The same hatch told forty times: too much for the pages that common printers take."""
    plan = deck("30")
    assert plan.outline is not None
    assert plan.subframe is not None
    (hatch,) = plan.outline.openings
    many = tuple(evolve(hatch, mark=f"O{number}") for number in range(1, 41))
    layout = frame_layout(plan, evolve(plan.outline, openings=many), plan.subframe)
    marks = [each.opening.mark for page in layout.pages for each, _, _ in page.details]
    assert marks == [each.mark for each in many]
    assert [page.sheet.paper for page in layout.pages[:-1]] == ["A3"] * (len(layout.pages) - 1)
    assert layout.pages[-1].sheet.paper != "A3"


@pytest.mark.parametrize("name", PEGGED)
def test_no_length_of_a_tie_stands_on_an_opening(name: str) -> None:
    """The length from P1 to P4 once stood on a hatch's corner."""
    svg = outlined_setting_svg(deck(name))
    holes = shapes_of(svg, "openings")
    assert holes
    for part in measured.group(svg, "tie-lengths"):
        if part.tag == f"{measured.SVG}text":
            quad = measured.quad_of(part)
            assert max(measured.depth_mm(quad, hole) for hole in holes) <= 0


def test_no_bought_length_is_called_like_a_member(plan: Plan) -> None:
    """Bought boards and doubles both were D1 once."""
    assert plan.buying is not None
    assert plan.subframe is not None
    bought = {length.mark for each in plan.buying.purchases for length in each.lengths}
    parts = (*plan.subframe.members, *plan.subframe.battens, *plan.subframe.facings)
    assert not bought & {part.mark for part in parts}
