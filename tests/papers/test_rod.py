"""The rod read back from its own text: every joist and every row edge, as the plan has them."""

import pytest
from attrs import evolve

from drylay.papers.rod import rod_svg
from drylay.plan.model import Plan
from papers import measured
from papers.test_drawings import CASES, scale_of
from plan.made import plans
from plan.sample import sample_plan

PLANS = {**CASES, **{f"designed {n}": plan for n, plan in enumerate(plans()) if plan.frame}}


@pytest.fixture(params=PLANS, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return PLANS[request.param]


def same(text: str, length_mm: float, units: str) -> bool:
    """Whether a text tells a length: exactly, or to the last figure where it says "~"."""
    near_mm = (0.8 if units == "imperial" else 0.051) if text.startswith("~") else 1e-6
    return abs(measured.told_mm(text, units) - length_mm) <= near_mm


def wrong_joists(plan: Plan, svg: bytes) -> list[str]:
    start_mm = plan.edges.frame_start_mm
    lines = measured.cells(svg, "joists")
    assert [line[0] for line in lines] == [joist.mark for joist in plan.frame.joists]
    found = []
    for joist, (mark, *told) in zip(plan.frame.joists, lines, strict=True):
        wanted = [joist.offset_mm - start_mm, *([joist.offset_mm] if start_mm else [])]
        pairs = zip(told, wanted, strict=True)
        found += [mark for text, mm in pairs if not same(text, mm, plan.units)]
    return found


def wrong_rows(plan: Plan, svg: bytes) -> list[str]:
    lines = measured.cells(svg, "rows")
    assert [line[0] for line in lines] == [row.mark for row in plan.surface.rows]
    found = []
    for index, (row, line) in enumerate(zip(plan.surface.rows, lines, strict=True)):
        width = line[4].removesuffix(" ripped")
        wanted = [row.gap_mm, row.near_mm, row.near_mm + row.width_mm, row.width_mm]
        pairs = [*zip([*line[1:4], width], wanted, strict=True)][0 if index else 1 :]
        found += [row.mark for text, mm in pairs if not same(text, mm, plan.units)]
        assert (" ripped" in line[4]) == row.ripped
    return found


def test_every_joist_stands_on_the_rod_from_the_rims_end_and_from_the_datum(plan: Plan) -> None:
    assert wrong_joists(plan, rod_svg(plan)) == []


def test_every_row_stands_on_the_rod_with_both_its_edges_gap_and_width(plan: Plan) -> None:
    assert wrong_rows(plan, rod_svg(plan)) == []


def test_those_checks_see_a_wrong_figure() -> None:
    # by hand: rows of 145 a gap of 5 apart, so B4 lies from 3 x 150 = 450 to 595
    plan = sample_plan(row_length_mm=1200.0, rows=4)
    svg = rod_svg(plan)
    assert wrong_rows(plan, svg.replace(b">595<", b">596<")) == ["B4"]
    # by hand: bays of 385 from 22.5, the middle one
    assert measured.cells(svg, "joists")[1] == ["J2", "407.5"]
    assert wrong_joists(plan, svg.replace(b">407.5<", b">408<")) == ["J2"]


def test_the_datum_is_the_covers_corner_and_the_rims_end_lies_a_fascia_further_in() -> None:
    # by hand: 22 of fascia at the left, half a joist of 45 is 22.5
    plan = sample_plan(row_length_mm=1200.0, sides=("left",))
    assert measured.cells(rod_svg(plan), "joists")[0] == ["J1", "22.5", "44.5"]
    told = " ".join(text.text or "" for text in measured.texts(rod_svg(plan)))
    assert "from their left end" in told
    assert "the near face is 22.5 before" in told


def test_which_side_rows_are_counted_from_and_what_its_face_is() -> None:
    along = sample_plan(row_length_mm=1200.0, sides=())
    across = sample_plan(row_length_mm=1200.0, run="across", sides=("left",))
    told = [" ".join(t.text or "" for t in measured.texts(rod_svg(p))) for p in (along, across)]
    assert "the rim's outer face on the house side" in told[0]
    assert "the fascia's outer face on the left side, 22 before the rim's" in told[1]
    assert "from their house end" in told[1]


def test_every_line_ends_with_a_blank_cell_to_write_in(plan: Plan) -> None:
    svg = rod_svg(plan)
    for layer in ("joists", "rows"):
        rules = measured.group(svg, f"{layer}-rules")
        posts = sorted({float(r.get("x1", "0")) for r in rules if r.get("x1") == r.get("x2")})
        last = [text for text in measured.texts(svg) if (text.text or "").endswith("as laid")]
        assert last
        assert posts[-1] - posts[-2] >= 24
        for text in measured.group(svg, layer):
            assert not posts[-2] < float(text.get("x", "0")) < posts[-1]


def test_ripped_rows_are_named_with_their_width() -> None:
    plan = CASES["small"]
    *rows, last = plan.surface.rows
    ripped = evolve(last, width_mm=97.0, ripped=True)
    svg = rod_svg(evolve(plan, surface=evolve(plan.surface, rows=(*rows, ripped))))
    assert measured.cells(svg, "rows")[-1][:5] == ["B4", "5", "450", "547", "97 ripped"]
    assert any("factory edge outwards" in (t.text or "") for t in measured.texts(svg))


def test_joints_stand_beside_their_row() -> None:
    plan = CASES["long"]
    lines = measured.cells(rod_svg(plan), "rows")
    for row, line in zip(plan.surface.rows, lines, strict=True):
        joists = [joint.joist for joint in plan.pieces.joints if joint.row == row.mark]
        assert line[5:] == [" ".join(joists)]


def test_boards_laid_long_are_said_to_be() -> None:
    plan = CASES["small"]
    svg = rod_svg(evolve(plan, pieces=evolve(plan.pieces, trim_allowance_mm=15.0)))
    assert any("outer ends 15 over the edge" in (t.text or "") for t in measured.texts(svg))


def test_eighty_rows_of_a_deck_of_twelve_metres_are_legible_on_a_handy_sheet() -> None:
    svg = rod_svg(CASES["across long"])
    assert b"A3" in svg
    sizes = {part.get("font-size") for part in measured.group(svg, "rows")}
    assert sizes == {"3"}


def test_the_strips_are_to_scale(plan: Plan) -> None:
    svg = rod_svg(plan)
    per_mm, near = scale_of(svg), scale_of(svg) * 0.002
    rows = measured.rectangles(svg, "row-strip")
    ((left, _, whole, _),) = measured.rectangles(svg, "row-strip-whole")
    assert whole * per_mm == pytest.approx(plan.surface.rows_depth_mm, abs=near)
    told = [(row.near_mm, row.width_mm) for row in plan.surface.rows]
    for (x, _, wide, _), (at_mm, width_mm) in zip(rows, told, strict=True):
        assert (x - left) * per_mm == pytest.approx(at_mm, abs=near)
        assert wide * per_mm == pytest.approx(width_mm, abs=near)
    joists = measured.rectangles(svg, "joist-strip")
    for (x, _, wide, _), joist in zip(joists, plan.frame.joists, strict=True):
        assert (x + wide / 2 - left) * per_mm == pytest.approx(joist.offset_mm, abs=near)


def test_a_rod_too_long_for_every_sheet_gets_a_roll() -> None:
    svg = rod_svg(sample_plan(row_length_mm=1200.0, rows=1700))
    assert b" mm paper only" in svg
    assert wrong_rows(sample_plan(row_length_mm=1200.0, rows=1700), svg) == []
    assert measured.outside(svg) == []
