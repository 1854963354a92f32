"""Guards and steps as they are drawn, measured from the SVG alone and held against the plan."""

import pytest
from attrs import evolve

import drylay
from drylay.guards.model import GuardRun
from drylay.papers.guards_drawing import edges_svg
from drylay.papers.posts_drawing import posts_svg
from drylay.plan.model import Plan
from papers import measured
from papers.standing_cases import CASES, case, corner, near, polygon, told
from papers.standing_sample import steps_of
from papers.test_drawings import scale_of


@pytest.fixture(params=CASES, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return case(request.param)


def guard_lines(svg: bytes) -> list[float]:
    parts = measured.group(svg, "guards")
    ends = [[float(part.get(key, "0")) for key in ("x1", "y1", "x2", "y2")] for part in parts]
    return [(abs(c - a) + abs(d - b)) * scale_of(svg) for a, b, c, d in ends]


def stretches_mm(runs: tuple[GuardRun, ...]) -> list[float]:
    return [one.to_mm - one.from_mm for run in runs for one in run.stretches]


def test_guards_run_along_their_edges_as_long_as_the_plan_says(plan: Plan) -> None:
    svg, guards = edges_svg(plan), plan.guards
    assert guard_lines(svg) == pytest.approx(stretches_mm(guards.runs), abs=2 * near(svg))
    words = told(svg)
    for run in guards.runs:
        labels = [word for word in words if word.startswith(f"{run.mark}: ")]
        assert len(labels) == len(run.stretches)
    assert len(measured.rectangles(svg, "guard-posts")) == sum(one.posts for one in guards.built)


def test_a_flight_is_as_wide_and_long_as_the_plan_says(plan: Plan) -> None:
    svg, flight = edges_svg(plan), plan.steps.flight
    (outline,) = measured.group(svg, "flight")
    across, down = zip(*polygon(outline), strict=True)
    assert (max(across) - min(across)) * scale_of(svg) == pytest.approx(900.0, abs=2 * near(svg))
    assert (max(down) - min(down)) * scale_of(svg) == pytest.approx(
        flight.run_mm, abs=2 * near(svg)
    )
    assert len(measured.group(svg, "treads")) == flight.treads - 1
    left, top = corner(svg)
    assert (min(across) - left) * scale_of(svg) == pytest.approx(plan.steps.from_mm, abs=near(svg))
    assert (min(down) - top) * scale_of(svg) == pytest.approx(
        plan.surface.cover_across_mm, abs=near(svg)
    )
    words = told(svg)
    assert any(word.startswith(f"{flight.risers} risers x ") for word in words)
    assert any(word.startswith(f"{flight.treads} goings x ") for word in words)


@pytest.mark.parametrize(
    ("side", "way"), [("left", (-1, 0)), ("right", (1, 0)), ("house", (0, -1))]
)
@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_steps_lead_out_from_their_side(side: str, way: tuple[int, int], units: str) -> None:
    base = evolve(case("plain"), units=units)
    plan = evolve(base, steps=steps_of(base, 800.0, "united-kingdom", side))
    svg = edges_svg(plan)
    assert measured.overlapping(svg) == measured.outside(svg) == []
    (outline,) = measured.group(svg, "flight")
    across, down = zip(*polygon(outline), strict=True)
    ((x, y, w, _),) = measured.rectangles(svg, "cover")
    out = {(-1, 0): x - min(across), (1, 0): max(across) - x - w, (0, -1): y - min(down)}[way]
    assert out * scale_of(svg) == pytest.approx(plan.steps.flight.run_mm, abs=2 * near(svg))
    (whole,) = [part for part in measured.texts(svg) if (part.text or "").startswith("cover 4000")
                or (part.text or "").startswith("cover ~13 ft")]  # fmt: skip
    assert float(whole.get("x", "0")) == pytest.approx(x + w / 2, abs=0.01)
    inside = (max(across) <= x + 0.01, min(across) >= x + w - 0.01, max(down) <= y + 0.01)
    assert inside[{"left": 0, "right": 1, "house": 2}[side]]


@pytest.mark.parametrize("name", ["plain", "across"])
def test_footings_may_reach_past_the_cover(name: str) -> None:
    plan = case(name)
    under = tuple(evolve(one, footing=evolve(one.footing, size_mm=1500.0))
                  for one in plan.footings.under)  # fmt: skip
    broad = evolve(plan, footings=evolve(plan.footings, under=under))
    svg = posts_svg(broad)
    assert measured.overlapping(svg) == measured.outside(svg) == []
    ((x, _, w, _),) = measured.rectangles(svg, "cover")
    boxes = measured.rectangles(svg, "footings")
    assert min(box[0] for box in boxes) < x
    assert max(box[0] + box[2] for box in boxes) > x + w
    marks = {post.mark: post for post in plan.raised.frame.posts}
    labels = [part for part in measured.texts(svg) if (part.text or "").startswith("PO")
              and ": " in (part.text or "") and part.get("transform")]  # fmt: skip
    for label in labels if name == "plain" else ():
        post = marks[(label.text or "").split(":")[0].split()[0]]
        left, _, _, right = measured.box_of(label)[0], 0, 0, measured.box_of(label)[2]
        at = ((left + right) / 2 - x) * scale_of(svg)
        assert at == pytest.approx(post.place.along_mm, abs=scale_of(svg) * 1.5)


def test_guards_alone_and_steps_alone_are_drawn() -> None:
    plan = case("plain")
    alone = edges_svg(evolve(plan, steps=None))
    assert not measured.group(alone, "flight")
    assert guard_lines(alone) == pytest.approx(stretches_mm(plan.guards.runs), abs=1.0)
    steps = edges_svg(evolve(plan, guards=None))
    assert measured.group(steps, "flight")
    assert not measured.group(steps, "guards")
    told_only = evolve(plan.guards, built=())
    assert not measured.rectangles(edges_svg(evolve(plan, guards=told_only)), "guard-posts")
    none = evolve(plan, guards=evolve(plan.guards, runs=(), built=()), steps=None)
    assert edges_svg(none) == b""
    assert "edges.svg" not in drylay.papers(none)


def test_a_guard_that_begins_off_a_corner_tells_from_where() -> None:
    plan = case("plain")
    run = plan.guards.runs[0]
    first = evolve(run.stretches[0], from_mm=1200.0, to_mm=3000.0)
    guards = evolve(plan.guards, runs=(evolve(run, stretches=(first,)),), built=())
    assert f"{run.mark}: 1800, from 1200" in told(edges_svg(evolve(plan, guards=guards)))
