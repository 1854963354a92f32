"""Drawings of decks that stand, measured from the SVG alone and held against the plan's nouns."""

import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

import drylay
from drylay.groundwork.model import Footing
from drylay.guards.model import GuardRun
from drylay.papers.guards_drawing import edges_svg
from drylay.papers.posts_drawing import posts_svg, standing_front_svg, standing_svg
from drylay.plan.model import Plan
from papers import measured
from papers.read_html import Sheet
from papers.standing_sample import standing, steps_of
from papers.test_drawings import scale_of
from papers.test_hostile import NASTY

CASES = {
    "plain": {},
    "two posts": {"size": (1800.0, 10), "spans": (2400.0, 1900.0), "ground_mm": -600.0},
    "24 posts": {"size": (9000.0, 50), "spans": (2000.0, 1500.0), "ground_mm": -900.0,
                 "falls": (0.01, 0.02)},
    "steep": {"ground_mm": -500.0, "falls": (0.1, 0.25)},
    "across": {"run": "across", "size": (3900.0, 26), "ledger": False},
    "imperial": {"units": "imperial", "region": "north-america", "ground_mm": -914.4,
                 "sides": ("right", "front", "left"), "embed_mm": 609.6, "shape": "round"},
}  # fmt: skip
DRAWINGS = {"posts": posts_svg, "side": standing_svg, "front": standing_front_svg,
            "edges": edges_svg}  # fmt: skip
NAMES = {"posts.svg", "posts.csv", "standing.svg", "standing-front.svg", "footings.csv",
         "strength.csv", "edges.svg"}  # fmt: skip


@cache
def case(name: str) -> Plan:
    return standing(**CASES[name])  # type: ignore[arg-type]


@pytest.fixture(params=CASES, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return case(request.param)


def told(svg: bytes) -> list[str]:
    return [text.text or "" for text in measured.texts(svg)]


def corner(svg: bytes) -> tuple[float, float]:
    ((left, top, _, _),) = measured.rectangles(svg, "cover")
    return left, top


def upright(plan: Plan, along: float, across: float) -> tuple[float, float]:
    """Where a place of the boards' axes lies on the sheet, house at the top: mm of deck."""
    return (along, across) if plan.surface.run == "along" else (across, along)


def middles(svg: bytes, layer: str) -> list[tuple[float, float]]:
    """Middles of boxes and rings of a layer in mm of deck, from the cover's corner."""
    left, top = corner(svg)
    found = [(x + w / 2, y + h / 2) for x, y, w, h in measured.rectangles(svg, layer)]
    found += [(float(part.get("cx", "0")), float(part.get("cy", "0")))
              for part in measured.group(svg, layer) if part.tag.endswith("circle")]  # fmt: skip
    return [((x - left) * scale_of(svg), (y - top) * scale_of(svg)) for x, y in found]


def polygon(part: ET.Element) -> list[tuple[float, float]]:
    pairs = (point.split(",") for point in part.get("points", "").split())
    return [(float(x), float(y)) for x, y in pairs]


def axes(part: ET.Element) -> tuple[list[float], list[float]]:
    points = polygon(part)
    return [x for x, _ in points], [y for _, y in points]


def near(svg: bytes) -> float:
    return scale_of(svg) * 0.003


def test_a_deck_that_stands_has_its_papers_and_another_has_not(plan: Plan) -> None:
    assert set(drylay.papers(plan)) >= NAMES
    plain = evolve(plan, raised=None, strength=None, footings=None, guards=None, steps=None)
    assert not set(drylay.papers(plain)) & NAMES
    assert [draw(plain) for draw in DRAWINGS.values()] == [b""] * 4


@pytest.mark.parametrize("name", DRAWINGS)
def test_no_two_texts_touch_and_none_leaves_the_border(plan: Plan, name: str) -> None:
    svg = DRAWINGS[name](plan)
    assert measured.overlapping(svg) == []
    assert measured.outside(svg) == []
    assert measured.bar_mm(svg) * scale_of(svg) == pytest.approx(
        measured.bar_says_mm(svg), rel=1e-3
    )
    assert svg == DRAWINGS[name](evolve(plan))


def test_posts_and_footings_stand_where_the_plan_says(plan: Plan) -> None:
    svg, frame = posts_svg(plan), plan.raised.frame
    places = [upright(plan, p.place.along_mm, p.place.across_mm) for p in frame.posts]
    for layer in ("posts", "footings"):
        for at, place in zip(middles(svg, layer), places, strict=True):
            assert at == pytest.approx(place, abs=near(svg))
    for box in measured.rectangles(svg, "posts"):
        # 5 1/2 in, the dressed size of a 6x6 (American Softwood Lumber Standard PS 20, from memory)
        assert box[2] * scale_of(svg) == pytest.approx(139.7, abs=near(svg))


def test_footings_are_as_large_as_the_plan_says(plan: Plan) -> None:
    svg, sizes = posts_svg(plan), [one.footing.size_mm for one in plan.footings.under]
    drawn = [box[2] * scale_of(svg) for box in measured.rectangles(svg, "footings")]
    rings = [part for part in measured.group(svg, "footings") if part.tag.endswith("circle")]
    drawn += [2 * float(ring.get("r", "0")) * scale_of(svg) for ring in rings]
    assert drawn == pytest.approx(sizes, abs=2 * near(svg))


def test_bearers_lie_dashed_on_their_lines(plan: Plan) -> None:
    svg, (left, top) = posts_svg(plan), corner(posts_svg(plan))
    parts = measured.group(svg, "bearers")
    assert len(parts) == len(plan.raised.frame.bearers)
    for part, bearer in zip(parts, plan.raised.frame.bearers, strict=True):
        assert part.get("stroke-dasharray")
        half = bearer.section.breadth_mm * bearer.section.plies / 2
        one = upright(plan, bearer.start_mm, bearer.across_mm - half)
        other = upright(plan, bearer.end_mm, bearer.across_mm + half)
        x, y = ([value * scale_of(svg) for value in axis] for axis in axes(part))
        first = (min(x) - left * scale_of(svg), min(y) - top * scale_of(svg))
        last = (max(x) - left * scale_of(svg), max(y) - top * scale_of(svg))
        assert first == pytest.approx(one, abs=near(svg))
        assert last == pytest.approx(other, abs=near(svg))


def test_every_mark_is_there_and_runs_from_the_datum(plan: Plan) -> None:
    words = told(posts_svg(plan))
    frame = plan.raised.frame
    beside = {word.split(":")[0].split(",")[0] for word in words}
    assert beside >= {bearer.mark for bearer in frame.bearers}
    assert beside >= {one.mark for one in plan.footings.under}
    assert set(words) >= {post.mark for post in frame.posts}
    assert (f"{frame.ledger.mark}, ledger on the wall" in words) if frame.ledger else True
    running = [word.rsplit(": ", 1) for word in words if ": " in word and word.startswith("PO")]
    at = {mark: length for marks, length in running for mark in marks.split()}
    for post in frame.posts:
        tenth = 0.8 if plan.units == "imperial" else 0.05
        assert measured.told_mm(at[post.mark], plan.units) == pytest.approx(
            post.place.along_mm, abs=tenth
        )
    for bearer in frame.bearers:
        (label,) = [w for w in words if w.startswith(f"{bearer.mark}, PO")]
        assert measured.told_mm(label.rsplit(": ", 1)[1], plan.units) == pytest.approx(
            bearer.across_mm, abs=0.8 if plan.units == "imperial" else 0.05
        )


def test_marks_stand_on_no_footing_no_bearer_and_not_on_the_covers_edge(plan: Plan) -> None:
    svg = posts_svg(plan)
    ((x, y, w, h),) = measured.rectangles(svg, "cover")
    bodies = measured.rectangles(svg, "footings")
    bodies += [(min(a), min(b), max(a) - min(a), max(b) - min(b))
               for a, b in (zip(*polygon(p), strict=True)
                            for p in measured.group(svg, "bearers"))]  # fmt: skip
    edges = [(x, y, w, 0.0), (x, y + h, w, 0.0), (x, y, 0.0, h), (x + w, y, 0.0, h)]
    for part in measured.group(svg, "marks"):
        if part.tag.endswith("text"):
            left, top, right, bottom = measured.box_of(part)
            for bx, by, bw, bh in [*bodies, *edges]:
                apart = right <= bx or bx + bw <= left or bottom <= by or by + bh <= top
                assert apart, part.text


def test_no_drawing_loses_a_note(monkeypatch: pytest.MonkeyPatch) -> None:
    room = sys.modules["drylay.papers.sheets"]
    whole, lost = room._notes, []

    def watched(notes: tuple[str, ...], x: float, top: float, most_mm: float) -> object:
        drawn = " ".join(text.text for text in whole(notes, x, top, most_mm))
        lost.extend(note for note in notes if note not in drawn)
        return whole(notes, x, top, most_mm)

    monkeypatch.setattr(room, "_notes", watched)
    for name in CASES:
        for draw in DRAWINGS.values():
            draw(case(name))
    assert lost == []


def test_notes_without_room_at_the_foot_stand_beside_the_figure() -> None:
    words = " ".join(told(posts_svg(case("two posts"))))
    assert "FT1 FT2: the pad's top lies below what the post stands on." in words
    assert words.count("local code comes first") == 1
    deep = case("imperial")  # holes filled to the ground: nothing lies between
    assert "the pad's top" not in " ".join(told(posts_svg(deep)))


def test_the_front_view_is_of_the_bearer_with_the_longest_post(plan: Plan) -> None:
    longest = max(plan.raised.frame.posts, key=lambda post: post.length_mm)
    svg = standing_front_svg(plan)
    assert f"Front view: bearer {longest.bearer}" in told(svg)
    own = [post for post in plan.raised.frame.posts if post.bearer == longest.bearer]
    heights = [box[3] * scale_of(svg) for box in measured.rectangles(svg, "posts")]
    assert heights == pytest.approx([post.whole_mm for post in own], abs=2 * near(svg))


@pytest.mark.parametrize("draw", [standing_svg, standing_front_svg])
def test_lengths_stand_inside_their_posts_clear_of_braces(draw: Callable[[Plan], bytes]) -> None:
    low = standing(ground_mm=-600.0, units="imperial", falls=(0.01, 0.01))
    for plan in (case("steep"), case("plain"), low):
        svg = draw(plan)
        posts = measured.rectangles(svg, "posts")
        for text, (x, y, w, h) in zip(measured.group(svg, "lengths"), posts, strict=True):
            left, top, right, bottom = measured.box_of(text)
            assert x < left < right < x + w
            assert y < top < bottom < y + h
    words = told(draw(low))
    assert any(word.startswith("PO") and ":" not in word for word in words)  # the mark alone


def footings_seen(plan: Plan) -> list[Footing]:
    longest = max(plan.raised.frame.posts, key=lambda post: post.length_mm)
    own = {post.mark for post in plan.raised.frame.posts if post.bearer == longest.bearer}
    return [one.footing for one in plan.footings.under if one.post in own]


def test_footings_are_drawn_under_their_posts_as_deep_as_they_go(plan: Plan) -> None:
    svg, footings = standing_front_svg(plan), footings_seen(plan)
    boxes = measured.rectangles(svg, "footings")
    per_mm = scale_of(svg)
    for (_, _, width, height), footing in zip(boxes, footings, strict=True):
        assert width * per_mm == pytest.approx(footing.size_mm, abs=2 * near(svg))
        assert height * per_mm == pytest.approx(footing.thickness_mm, abs=2 * near(svg))
    longest = max(plan.raised.frame.posts, key=lambda post: post.length_mm)
    ((_, top, _, _),) = measured.rectangles(svg, "boards")
    low = max(y + h for _, y, _, h in boxes)
    wanted = plan.raised.frame.heights.finished_mm - longest.ground_mm + footings[-1].depth_mm
    assert (low - top) * per_mm == pytest.approx(wanted, abs=3 * near(svg))


def test_ground_screws_have_no_outline_of_a_footing() -> None:
    plan = case("plain")
    under = tuple(
        evolve(one, footing=evolve(one.footing, kind="ground screw", size_mm=0.0, thickness_mm=0.0,
                                   depth_mm=0.0))
        for one in plan.footings.under
    )  # fmt: skip
    screwed = evolve(plan, footings=evolve(plan.footings, kind="ground screw", under=under))
    assert measured.rectangles(standing_svg(screwed), "footings") == []
    assert "FT1 to FT6: as its maker declares." in " ".join(told(posts_svg(screwed)))


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


def test_a_deck_as_it_is_designed_has_clean_papers() -> None:
    folder = Path(__file__).parents[1] / "reference"
    stock = drylay.load_catalogue(folder / "S15-stock.toml")
    plan = drylay.design(drylay.read_brief(folder / "S15.toml"), stock=stock)
    made = drylay.papers(plan)
    assert set(made) >= NAMES
    for name in (name for name in made if name.endswith(".svg")):
        assert measured.overlapping(made[name]) == measured.outside(made[name]) == [], name
    assert Sheet(made["jobsheet.html"]).wrongs == []
    labels = made["labels.csv"].decode().splitlines()[1:]
    assert {line.split(",")[0] for line in labels} == set(plan.sizes_mm())
    for at, post in zip(middles(made["posts.svg"], "posts"), plan.raised.frame.posts, strict=True):
        place = (post.place.along_mm, post.place.across_mm)
        assert at == pytest.approx(place, abs=near(made["posts.svg"]))


@pytest.mark.parametrize("text", NASTY[:7], ids=range(7))
def test_hostile_marks_do_no_harm(text: str) -> None:
    plan = case("plain")
    frame = plan.raised.frame
    bearer, *bearers = frame.bearers
    post, *posts = frame.posts
    row, *rows = frame.schedule
    under, *others = plan.footings.under
    stretch = evolve(plan.guards.runs[0].stretches[0])
    run = evolve(plan.guards.runs[0], mark=text, stretches=(stretch,))
    edited = evolve(
        plan, title=text,
        raised=evolve(plan.raised, bearer_article=text, ledger_fixing=text, frame=evolve(
            frame, bearers=(evolve(bearer, mark=text), *bearers),
            posts=(evolve(post, mark=text), *posts), schedule=(evolve(row, mark=text), *rows),
        )),
        footings=evolve(plan.footings, soil=text, under=(evolve(under, mark=text), *others)),
        guards=evolve(plan.guards, runs=(run,), region=text),
        strength=evolve(plan.strength, sharing=text, title=text),
    )  # fmt: skip
    made = drylay.papers(edited)
    for name in NAMES:
        assert made[name]
    for name in (one for one in NAMES if one.endswith(".svg")):
        tags = {part.tag.removeprefix(measured.SVG) for part in ET.fromstring(made[name]).iter()}
        assert tags <= {"svg", "title", "desc", "g", "rect", "line", "circle", "text", "polygon"}
    lines = made["summary.txt"].decode("utf-8").splitlines()
    assert max(len(line) for line in lines) <= 78
