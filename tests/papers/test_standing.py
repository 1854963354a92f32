"""Drawings of decks that stand, measured from the SVG alone and held against the plan's nouns."""

import sys
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

import drylay
from drylay.groundwork.model import Footing
from drylay.papers.guards_drawing import edges_svg
from drylay.papers.posts_drawing import posts_svg, standing_front_svg, standing_svg
from drylay.plan.model import Plan
from papers import measured
from papers.read_html import Sheet
from papers.standing_cases import CASES, axes, case, corner, middles, near, polygon, told, upright
from papers.standing_sample import standing
from papers.test_drawings import scale_of
from papers.test_hostile import NASTY

DRAWINGS = {"posts": posts_svg, "side": standing_svg, "front": standing_front_svg,
            "edges": edges_svg}  # fmt: skip
NAMES = {"posts.svg", "posts.csv", "standing.svg", "standing-front.svg", "footings.csv",
         "strength.csv", "edges.svg"}  # fmt: skip


@pytest.fixture(params=CASES, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return case(request.param)


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
