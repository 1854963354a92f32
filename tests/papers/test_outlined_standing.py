"""Posts and guards of decks on outlines from above, measured from the SVG against the plan."""

import re
from functools import cache
from itertools import pairwise
from math import hypot
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

import drylay
from drylay.guards.model import Passage
from drylay.outline.model import Spot
from drylay.papers.outlined_drawings import edges_drawn, posts_drawn
from drylay.plan.model import Plan
from papers import measured
from papers.test_drawings import scale_of
from papers.test_standing import polygon
from standing_outlines import BEARER, YARD, L, sections
from standing_outlines import planned as known

NAMES = ("L", "hatch", "turned", "free", "across", "aside", "slant")
GUARDED = ("L", "hatch", "free", "across", "aside", "slant")
#: The L 600 along from the datum corner; a side at a slant, with steps; both 1000 over the ground.
HIGH = (-1000.0, 0.0, 0.0)
SLANT = ((0.0, 0.0), (4800.0, 0.0), (3600.0, 3600.0), (0.0, 3600.0))
OWN = {
    "aside": sections(tuple((x + 600, y) for x, y in L), ground=HIGH, bearer=BEARER,
                      more={"steps": {"side": "right", "width_mm": 900, "going_mm": 250}}),
    "slant": sections(SLANT, ground=HIGH, ledger=False, bearer=BEARER,
                      more={"steps": {"side": "right", "width_mm": 1000, "going_mm": 250}}),
}  # fmt: skip
Point = tuple[float, float]

each_deck = pytest.mark.parametrize("name", NAMES)
each_guarded = pytest.mark.parametrize("name", GUARDED)


@cache
def planned(name: str) -> Plan:
    if name not in OWN:
        return known(name)
    plan = drylay.design(drylay.read_brief(OWN[name]), stock=YARD)
    assert plan.buildable
    return plan


def datum(svg: bytes) -> Point:
    (ring,) = [part for part in measured.group(svg, "datum") if part.tag.endswith("circle")]
    return float(ring.get("cx", "0")), float(ring.get("cy", "0"))


def on_deck(svg: bytes, points: list[Point]) -> list[Point]:
    """Places on the sheet in mm of deck, from the datum corner."""
    (x, y), scale = datum(svg), scale_of(svg)
    return [((a - x) * scale, (b - y) * scale) for a, b in points]


def near(svg: bytes) -> float:
    return scale_of(svg) * 0.004


def place(plan: Plan, along: float, across: float) -> Point:
    """A place of the bearers' axes as along the house and away from it (docs/raised.md)."""
    assert plan.subframe is not None
    return (along, across) if plan.subframe.joist_run == "across" else (across, along)


def spot(corner: Spot) -> Point:
    return corner.along_mm, corner.across_mm


def told(svg: bytes) -> list[str]:
    return [text.text or "" for text in measured.texts(svg)]


def said(length_mm: float) -> str:
    """A length as drawings have it: to a tenth, "~" in front of what that is only near."""
    near_mm = round(length_mm, 1)
    return f"{'' if abs(near_mm - length_mm) < 1e-6 else '~'}{near_mm:g}"


def marks_in(words: str) -> list[str]:
    """Marks of a label one by one: "PO1 to PO3" is three."""
    found: list[str] = []
    for part in re.split(r", | (?=[A-Z]+\d+ to )", words):
        if match := re.fullmatch(r"([A-Z]+)(\d+) to [A-Z]+(\d+)", part):
            found += [f"{match[1]}{n}" for n in range(int(match[2]), int(match[3]) + 1)]
        else:
            found += part.split()
    return found


def running(svg: bytes) -> dict[str, list[float]]:
    """What is told of each mark outside the figure: its running places, in mm."""
    found: dict[str, list[float]] = {}
    for words in measured.words(svg, "dimensions"):
        if ": " in words:
            marks, figure = words.rsplit(": ", 1)
            for mark in marks_in(marks):
                found.setdefault(mark, []).append(measured.told_mm(figure, "metric"))
    return found


def middle(points: list[Point]) -> Point:
    return (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))


def boxes(svg: bytes, layer: str) -> list[tuple[Point, float]]:
    """Middles and sides of squares of a layer, in mm of deck."""
    found = measured.rectangles(svg, layer)
    middles = on_deck(svg, [(x + w / 2, y + h / 2) for x, y, w, h in found])
    return list(zip(middles, [w * scale_of(svg) for _, _, w, _ in found], strict=True))


def areas(svg: bytes, layer: str) -> list[list[Point]]:
    return [on_deck(svg, polygon(part)) for part in measured.group(svg, layer)
            if part.tag.endswith("polygon")]  # fmt: skip


def same(svg: bytes, one: list[Point], other: list[Point]) -> bool:
    return all(a == pytest.approx(b, abs=near(svg)) for a, b in zip(one, other, strict=True))


@each_deck
def test_no_two_texts_touch_none_leaves_the_border_and_the_scale_is_true(name: str) -> None:
    plan = planned(name)
    for draw in (posts_drawn, edges_drawn):
        svg = draw(plan)
        if draw is edges_drawn and name not in GUARDED:
            assert svg == b""
            continue
        assert measured.overlapping(svg) == []
        assert measured.outside(svg) == []
        bar = measured.bar_mm(svg) * scale_of(svg)
        assert bar == pytest.approx(measured.bar_says_mm(svg), rel=1e-3)
        assert svg == draw(evolve(plan))


def test_a_deck_on_an_outline_has_these_papers_where_it_stands_and_has_guards() -> None:
    assert {"posts.svg", "edges.svg"} <= set(drylay.papers(planned("L")))
    low = drylay.papers(planned("turned"))  # 600 over flat ground: no guard, and no steps wished
    assert "posts.svg" in low
    assert "edges.svg" not in low
    sheet = drylay.papers(planned("L"), only="jobsheet.html")["jobsheet.html"].decode()
    assert "Posts and footings, from above" in sheet
    assert "Guards and steps, from above" in sheet


@each_deck
def test_the_outline_and_its_openings_are_drawn_true(name: str) -> None:
    plan = planned(name)
    assert plan.outline is not None
    svg = posts_drawn(plan)
    (cover,) = areas(svg, "cover")
    assert same(svg, cover, [spot(side.start) for side in plan.outline.sides])
    holes = areas(svg, "openings")
    for hole, opening in zip(holes, plan.outline.openings, strict=True):
        assert same(svg, hole, [spot(corner) for corner in opening.corners])
    assert all(part.get("stroke-dasharray") for part in measured.group(svg, "openings"))
    names = [f"{opening.mark} {opening.kind}" for opening in plan.outline.openings]
    assert measured.words(svg, "opening-names") == names
    assert "Hatched outside: house wall." in told(svg)
    assert measured.group(svg, "house")


@each_deck
def test_posts_footings_and_bearers_lie_where_the_plan_says(name: str) -> None:
    plan = planned(name)
    assert plan.raised is not None
    assert plan.footings is not None
    svg, frame = posts_drawn(plan), plan.raised.frame
    under = {one.post: one.footing for one in plan.footings.under}
    posts, pads = boxes(svg, "posts"), boxes(svg, "footings")
    for post, (at, side), (pad, size) in zip(frame.posts, posts, pads, strict=True):
        where = place(plan, post.place.along_mm, post.place.across_mm)
        assert at == pytest.approx(where, abs=near(svg))
        assert pad == pytest.approx(where, abs=near(svg))
        assert side == pytest.approx(100.0, abs=near(svg))  # the brief's post is 100 x 100
        assert size == pytest.approx(under[post.mark].size_mm, abs=near(svg))
    for bearer, drawn in zip(frame.bearers, areas(svg, "bearers"), strict=True):
        half = bearer.section.breadth_mm * bearer.section.plies / 2
        ends = [(bearer.start_mm, -half), (bearer.end_mm, -half), (bearer.end_mm, half),
                (bearer.start_mm, half)]  # fmt: skip
        assert same(svg, drawn, [place(plan, x, bearer.across_mm + y) for x, y in ends])
    assert all(part.get("stroke-dasharray") for part in measured.group(svg, "bearers"))
    assert len(measured.rectangles(svg, "ledger")) == (frame.ledger is not None)


@each_deck
def test_every_post_runs_along_and_across_and_every_mark_is_told(name: str) -> None:
    plan = planned(name)
    assert plan.raised is not None
    assert plan.footings is not None
    svg, frame = posts_drawn(plan), plan.raised.frame
    runs, words = running(svg), told(svg)
    for post in frame.posts:
        wanted = sorted((post.place.along_mm, post.place.across_mm))
        assert sorted(runs[post.mark]) == pytest.approx(wanted, abs=0.05)
        assert post.mark in words
    for bearer in frame.bearers:
        assert runs[bearer.mark] == pytest.approx([bearer.across_mm], abs=0.05)
        ends = f"{said(bearer.start_mm)} to {said(bearer.end_mm)}"
        plies = "1 ply" if bearer.section.plies == 1 else f"{bearer.section.plies} plies"
        assert {f"{bearer.mark}, {plies}, {ends}", f"{bearer.mark}: {ends}"} & set(words)
    for one in plan.footings.under:
        assert f"{one.mark}: {one.footing.size_mm:g}" in words


@each_deck
def test_every_running_figure_stands_at_its_own_place(name: str) -> None:
    """The first line of a label begins where its figure says, on the side that it is told at."""
    svg = posts_drawn(planned(name))
    parts = measured.group(svg, "dimensions")
    for index, part in enumerate(parts):
        if not (part.text or "").strip() or ": " not in (part.text or ""):
            continue
        figure = measured.told_mm((part.text or "").rsplit(": ", 1)[1], "metric")
        level = part.get("transform") is None  # a label that reads level is told of a height
        ((x, y),) = on_deck(svg, [ticks(parts)[figure, level]])
        assert (y if level else x) == pytest.approx(figure, abs=near(svg)), index


def ticks(parts: list[ET.Element]) -> dict[tuple[float, bool], Point]:
    """Starts of the leaders of running labels: three lines each, the text after them or last."""
    lines = [part for part in parts if part.tag.endswith("line")]
    starts = [(float(p.get("x1", "0")), float(p.get("y1", "0"))) for p in lines]
    ends = [(float(p.get("x2", "0")), float(p.get("y2", "0"))) for p in lines]
    chains = [
        (starts[n], ends[n + 2])
        for n in range(len(lines) - 2)
        if ends[n] == starts[n + 1] and ends[n + 1] == starts[n + 2]
    ]
    found: dict[tuple[float, bool], Point] = {}
    for part in parts:
        words = part.text or ""
        if ": " not in words:
            continue
        box = measured.box_of(part)
        first, _ = min(chains, key=lambda chain: apart(chain[1], box))
        level = part.get("transform") is None
        found[measured.told_mm(words.rsplit(": ", 1)[1], "metric"), level] = first
    return found


def apart(point: Point, box: tuple[float, float, float, float]) -> float:
    x = max(box[0] - point[0], 0.0, point[0] - box[2])
    y = max(box[1] - point[1], 0.0, point[1] - box[3])
    return hypot(x, y)


def test_a_deck_on_its_own_line_says_so() -> None:
    words = " ".join(told(posts_drawn(planned("turned"))))
    assert "along the deck's own line, which is turned 17\u00b0" in words
    assert "own line" not in " ".join(told(posts_drawn(planned("L"))))


def test_a_crowd_of_posts_keeps_all_its_marks() -> None:
    """Posts every 115 in two lines: what has no room beside its post is led to."""
    plan = planned("hatch")
    assert plan.raised is not None
    assert plan.footings is not None
    frame = plan.raised.frame
    first, pad = frame.posts[0], plan.footings.under[0]
    posts = tuple(
        evolve(first, mark=f"PO{n}", bearer="BR2",
               place=Spot(along_mm=1700.0 + 115 * (n % 16), across_mm=1536.0 + 200 * (n // 16)))
        for n in range(32)
    )  # fmt: skip
    under = tuple(evolve(pad, mark=f"FT{n}", post=f"PO{n}") for n in range(32))
    crowded = evolve(plan, raised=evolve(plan.raised, frame=evolve(frame, posts=posts)),
                     footings=evolve(plan.footings, under=under))  # fmt: skip
    svg = posts_drawn(crowded)
    assert measured.overlapping(svg) == []
    assert measured.outside(svg) == []
    assert {f"PO{n}" for n in range(32)} <= set(told(svg))
    assert {f"FT{n}: {pad.footing.size_mm:g}" for n in range(32)} <= set(told(svg))


def at_side(plan: Plan, mark: str, at_mm: float) -> Point:
    assert plan.outline is not None
    (side,) = [each for each in plan.outline.sides if each.mark == mark]
    (x, y), (u, v) = spot(side.start), spot(side.end)
    return x + (u - x) * at_mm / side.length_mm, y + (v - y) * at_mm / side.length_mm


@each_guarded
def test_guards_are_heavy_lines_along_their_sides_with_their_lengths(name: str) -> None:
    plan = planned(name)
    assert plan.guards is not None
    assert plan.outline is not None
    svg, words = edges_drawn(plan), told(edges_drawn(plan))
    stretches = [(run.mark, each) for run in plan.guards.runs for each in run.stretches]
    lines = measured.group(svg, "guards")
    for (mark, each), line in zip(stretches, lines, strict=True):
        ends = [(float(line.get(f"x{n}", "0")), float(line.get(f"y{n}", "0"))) for n in (1, 2)]
        wanted = [at_side(plan, each.edge, at) for at in (each.from_mm, each.to_mm)]
        assert same(svg, on_deck(svg, ends), wanted)
        assert float(line.get("stroke-width", "0")) > 0.4  # ISO 128: wide lines twice the narrow
        start = f", from {said(each.from_mm)}" if each.from_mm else ""
        assert f"{mark}: {said(each.to_mm - each.from_mm)}{start}" in words
    for side in plan.outline.sides:
        assert f"{side.mark} {side.kind} {said(side.length_mm)}" in words
    drawn = areas(svg, "guard-posts")
    assert len(drawn) == sum(guard.posts for guard in plan.guards.built)
    for post in drawn:
        long = [hypot(c - a, d - b) for (a, b), (c, d) in pairwise(post)]
        assert long == pytest.approx([plan.guards.built[0].post_mm] * 3, abs=near(svg))


def test_the_flight_stands_on_its_side() -> None:
    """E5 runs from (2400, 3600) back to (0, 3600): steps 300 to 1500 from its end nearer the datum.

    Worked by hand: 4 risers make 3 goings of 250, so that it reaches 750 out, to 4350.
    """
    svg = edges_drawn(planned("L"))
    (flight,) = areas(svg, "flight")
    assert same(svg, flight, [(1500, 3600), (300, 3600), (300, 4350), (1500, 4350)])
    treads = [float(part.get("y1", "0")) for part in measured.group(svg, "treads")]
    places = [y for _, y in on_deck(svg, [(0.0, tread) for tread in treads])]
    assert places == pytest.approx([3850, 4100], abs=near(svg))
    words = told(svg)
    assert {"steps 1200", "out 750", "3 goings x 250"} <= set(words)
    assert any(word.startswith("4 risers x") for word in words)
    assert "on side E5 from 900 mm to 2100 mm" in " ".join(words)


def test_a_flight_too_narrow_for_its_texts_has_them_beside_it() -> None:
    plan = planned("L")
    assert plan.guards is not None
    assert plan.steps is not None
    edges = tuple(
        evolve(edge, passages=(Passage(name="steps", from_mm=1800.0, to_mm=2100.0),))
        if edge.passages
        else edge
        for edge in plan.guards.edges
    )
    narrow = evolve(plan, guards=evolve(plan.guards, edges=edges, runs=(), built=()),
                    steps=evolve(plan.steps, width_mm=300.0))  # fmt: skip
    svg = edges_drawn(narrow)
    assert measured.overlapping(svg) == []
    assert {"steps 300", "out 750", "3 goings x 250"} <= set(told(svg))
    assert edges_drawn(evolve(narrow, guards=evolve(narrow.guards, edges=()), steps=None)) == b""
