"""The section measured: every thickness to scale, screws where wood holds them."""

import pytest
from attrs import evolve

from drylay.papers.hatching import hatch
from drylay.papers.model import Box, Line
from drylay.papers.section import section_svg
from drylay.plan.model import Plan
from papers import measured
from papers.test_drawings import CASES, scale_of
from plan.made import example, plans
from plan.sample import sample_plan

PLANS = {**CASES, **{f"designed {n}": plan for n, plan in enumerate(plans()) if plan.fixings}}
FAR = {"along": "front", "across": "right"}


@pytest.fixture(params=PLANS, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return PLANS[request.param]


def boxes(svg: bytes, layer: str) -> list[measured.Box]:
    """x, y, width, height in mm of deck: inwards from the cover's edge, down from the top."""
    ((left, top, right),) = {_frame(svg)}
    per_mm = scale_of(svg)
    return [
        ((right - x - w) * per_mm, (y - top) * per_mm, w * per_mm, h * per_mm)
        for x, y, w, h in measured.rectangles(svg, layer)
        if x >= left - 0.01
    ]


def _frame(svg: bytes) -> tuple[float, float, float]:
    boards = measured.rectangles(svg, "boards")
    return min(b[0] for b in boards), boards[0][1], max(b[0] + b[2] for b in boards)


def faced(plan: Plan) -> bool:
    return FAR[plan.surface.run] in {face.side for face in plan.edges.faces}


def told(plan: Plan) -> str:
    return " ".join(text.text or "" for text in measured.texts(section_svg(plan)))


def test_thicknesses_are_to_scale(plan: Plan) -> None:
    svg = section_svg(plan)
    near = scale_of(svg) * 0.003
    fascia_mm = plan.edges.fascia_thickness_mm if faced(plan) else 0.0
    frame, board_mm = plan.frame, plan.surface.board_thickness_mm
    (rim,) = boxes(svg, "rims")
    assert rim == pytest.approx(
        (fascia_mm, board_mm, frame.timber_thickness_mm, frame.timber_depth_mm), abs=near
    )
    assert {round(box[3], 1) for box in boxes(svg, "boards")} == {round(board_mm, 1)}
    (joist,) = boxes(svg, "joists")
    assert joist[0] == pytest.approx(fascia_mm + frame.timber_thickness_mm, abs=near)
    assert joist[3] == pytest.approx(frame.timber_depth_mm, abs=near)
    found = boxes(svg, "fascia")
    assert len(found) == faced(plan)
    for box in found:
        assert box == pytest.approx(
            (0.0, board_mm, fascia_mm, plan.edges.fascia_depth_mm), abs=near
        )


def test_the_outermost_rows_lie_where_the_plan_has_them(plan: Plan) -> None:
    svg = section_svg(plan)
    near = scale_of(svg) * 0.003
    depth_mm = plan.surface.rows_depth_mm
    drawn = boxes(svg, "boards")
    assert drawn
    for row, box in zip(reversed(plan.surface.rows), drawn, strict=False):
        assert box[0] == pytest.approx(depth_mm - row.near_mm - row.width_mm, abs=near)
        if box is not drawn[-1]:  # the last one shown may be broken off
            assert box[2] == pytest.approx(row.width_mm, abs=near)


def test_the_figure_stops_short_of_the_other_rim(plan: Plan) -> None:
    (joist,) = boxes(section_svg(plan), "joists")
    rims = plan.edges.frame_depth_mm - plan.frame.timber_thickness_mm
    fascia_mm = plan.edges.fascia_thickness_mm if faced(plan) else 0.0
    assert joist[2] > 0
    assert joist[0] + joist[2] < fascia_mm + rims


def test_coach_screws_run_from_their_heads_through_the_rim_into_the_joist(plan: Plan) -> None:
    svg, coach = section_svg(plan), plan.fixings.coach_screws
    near = scale_of(svg) * 0.003
    fascia_mm = plan.edges.fascia_thickness_mm if faced(plan) else 0.0
    start_mm = fascia_mm + (coach.sink_mm if faced(plan) else 0.0)
    (joist,) = boxes(svg, "joists")
    screws = boxes(svg, "coach-screws")
    assert len(screws) == coach.per_joist_end
    for x, _, length, thick in screws:
        shown_mm = min(coach.length_mm, joist[0] + joist[2] - start_mm)
        assert (x, length, thick) == pytest.approx((start_mm, shown_mm, coach.shank_mm), abs=near)
    heads = measured.rectangles(svg, "coach-heads")
    assert len(heads) == coach.per_joist_end
    assert {round(w * scale_of(svg), 1) for _, _, w, _ in heads} == {round(coach.head_mm, 1)}
    assert bool(measured.rectangles(svg, "holes")) == bool(faced(plan) and coach.sink_mm)


def in_the_fascia(svg: bytes) -> list[measured.Box]:
    (rim,) = boxes(svg, "rims")
    return [box for box in boxes(svg, "deck-screws") if box[0] < rim[0] - 0.01]


def test_deck_screws_are_held_by_rim_or_joist_and_keep_their_edge(plan: Plan) -> None:
    svg, deck = section_svg(plan), plan.fixings.deck_screws
    screws = boxes(svg, "deck-screws")
    assert in_the_fascia(svg) == []
    for x, y, thick, length in screws:
        assert (y, thick, length) == pytest.approx(
            (0.0, deck.shank_mm, deck.length_mm), abs=scale_of(svg) * 0.003
        )
        centre = x + thick / 2
        depth_mm = plan.surface.rows_depth_mm
        rows = [(depth_mm - r.near_mm - r.width_mm, depth_mm - r.near_mm)
                for r in plan.surface.rows]  # fmt: skip
        (row,) = [(a, b) for a, b in rows if a <= centre <= b]
        if row[1] - row[0] >= 2 * deck.edge_least_mm:
            assert min(centre - row[0], row[1] - centre) >= deck.edge_least_mm - 0.02


def test_that_check_sees_a_screw_in_the_fascia() -> None:
    plan = CASES["example"]
    thick = evolve(plan.edges, fascia_thickness_mm=22.0)
    svg = section_svg(evolve(plan, edges=thick))
    x, _, wide, _ = measured.rectangles(svg, "deck-screws")[0]
    moved = svg.replace(f'x="{x:g}"'.encode(), f'x="{x + 15:g}"'.encode())
    assert wide > 0
    assert in_the_fascia(moved)


@pytest.mark.parametrize(("width_mm", "screws"), [(145.0, 2), (70.0, 2), (60.0, 2), (45.0, 1)])
def test_a_narrow_last_row_has_the_screws_it_has_room_for(width_mm: float, screws: int) -> None:
    # by hand: 22 of fascia and 10 inside the rim's face are 32, and 20 from the other edge: two
    # screws of 5 need a row of 57, as docs/conventions.md asks; a narrower one is none to build
    plan = sample_plan(row_length_mm=1200.0)
    *rows, last = plan.surface.rows
    near_mm = last.near_mm + last.width_mm - width_mm
    row = evolve(last, width_mm=width_mm, near_mm=near_mm, ripped=True)
    svg = section_svg(evolve(plan, surface=evolve(plan.surface, rows=(*rows, row))))
    last_row = boxes(svg, "boards")[0]
    found = [b for b in boxes(svg, "deck-screws") if b[0] < last_row[0] + last_row[2]]
    assert len(found) == screws


@pytest.mark.parametrize("length_mm", [70.0, 80.0, 90.0, 120.0])
def test_long_deck_screws_are_drawn_clear_of_the_coach_screws(length_mm: float) -> None:
    plan = CASES["example"]
    deck = evolve(plan.fixings.deck_screws, length_mm=length_mm)
    svg = section_svg(evolve(plan, fixings=evolve(plan.fixings, deck_screws=deck)))
    (_, top, _, deep) = boxes(svg, "rims")[0]
    coach = boxes(svg, "coach-screws")
    # the summary's rule: below the rim's top by the deck screws' reach and a coach screw's shank
    assert min(y for _, y, _, _ in coach) >= length_mm + 8 - 0.01
    assert max(y + h for _, y, _, h in coach) < top + deep


def test_the_side_is_named_and_what_is_not_part_of_the_plan() -> None:
    assert "Section through the front edge" in told(CASES["example"])
    assert "Section through the right edge" in told(CASES["across"])
    for plan in CASES.values():
        assert "ground or packers: not part of this plan" in told(plan)
    assert len(measured.group(section_svg(CASES["example"]), "ground")) == 1


def test_thicknesses_are_told() -> None:
    # docs/examples/garden.toml and catalogs/hobbleden.toml: board 28, timber 45 x 145, fascia 28
    text = told(example("garden"))
    for words in ("board 28", "rim 45", "fascia 28", "rim, joist 145", "fascia FA-28-145, 28 x 145",
                  "rim, FT-45-145, 45 x 145", "joist behind, FT-45-145, 45 x 145",
                  "coach screw 8 x 120", "deck screw 4.5 x 70"):  # fmt: skip
        assert words in text


def test_what_heads_and_fascia_do_is_told() -> None:
    # by hand: the sample's fascia is 170 deep, its frame 145
    text = told(CASES["example"])
    assert "Coach screws' heads are sunk 6 into the rim." in text
    assert "The fascia reaches 25 below the frame." in text
    bare = told(CASES["tiny"])
    assert "heads stand 6 proud: no fascia covers them" in bare
    assert "below the frame" not in bare


def test_other_counts_of_screws() -> None:
    plan = CASES["example"]
    deck = evolve(plan.fixings.deck_screws, per_crossing=1)
    coach = evolve(plan.fixings.coach_screws, per_joist_end=3)
    svg = section_svg(evolve(plan, fixings=evolve(plan.fixings, deck_screws=deck,
                                                  coach_screws=coach)))  # fmt: skip
    assert len(measured.rectangles(svg, "coach-screws")) == 3
    assert measured.overlapping(svg) == []


def test_a_plan_without_rows_or_rims_does_no_harm() -> None:
    plan = CASES["small"]
    assert section_svg(evolve(plan, surface=evolve(plan.surface, rows=()))) == b""
    assert b"Square to the rim at" in section_svg(evolve(plan, frame=evolve(plan.frame, rims=())))


@pytest.mark.parametrize("rising", [True, False])
def test_hatching_stays_inside_its_box_and_leans_one_way(rising: bool) -> None:
    box = Box(layer="wood", x_mm=10.0, y_mm=20.0, width_mm=7.0, height_mm=30.0)
    lines = hatch(box, 2.0, rising=rising)
    assert len(lines) == 18  # by hand: 37 / 2
    for line in lines:
        assert isinstance(line, Line)
        across, down = line.x2_mm - line.x1_mm, line.y2_mm - line.y1_mm
        assert abs(across) == pytest.approx(abs(down))
        assert (across * down < 0) == rising
        for x, y in ((line.x1_mm, line.y1_mm), (line.x2_mm, line.y2_mm)):
            assert 10 - 1e-9 <= x <= 17 + 1e-9
            assert 20 - 1e-9 <= y <= 50 + 1e-9
