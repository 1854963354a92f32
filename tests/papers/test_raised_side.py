"""The side view measured with a ruler, and its schedule read, against sums by hand."""

from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

from drylay.papers.raised_side import raised_side_svg
from drylay.raised.model import RaisedFrame
from papers import measured
from papers.test_drawings import scale_of
from raised.slope import on_a_slope

FRAME = on_a_slope()


def view(seen: str = "side", **changed: str) -> bytes:
    return raised_side_svg(FRAME, title="Slope", units="metric", seen=seen, **changed)


def told(svg: bytes) -> list[str]:
    return [text.text or "" for text in measured.texts(svg)]


def heights(svg: bytes, layer: str) -> list[float]:
    return [box[3] * scale_of(svg) for box in measured.rectangles(svg, layer)]


def test_posts_are_as_long_as_the_schedule_says_worked_by_hand() -> None:
    # ground at BR1's longest post: -700 - 3718 / 5 - 1890 / 10 = -1632.6; its top lies at
    # -150 - 28 - 145 - 195 = -518; with a foot of 20 it is 1094.6 long; at BR2 189 more
    svg = view()
    near = scale_of(svg) * 0.003
    assert heights(svg, "posts") == pytest.approx([1094.6, 1283.6], abs=near)
    assert heights(svg, "feet") == pytest.approx([20.0, 20.0], abs=near)
    assert heights(svg, "bearers") == pytest.approx([195.0, 195.0], abs=near)
    assert heights(svg, "joists") == pytest.approx([145.0], abs=near)
    assert heights(svg, "boards") == pytest.approx([28.0], abs=near)


def test_what_lies_on_what_touches() -> None:
    svg = view("front", bearer="BR2")
    tops = {layer: measured.rectangles(svg, layer)[0]
            for layer in ("boards", "joists", "bearers", "posts", "feet")}  # fmt: skip
    order = list(tops.values())
    for above, below in pairwise(order):
        assert above[1] + above[3] == pytest.approx(below[1], abs=0.003)


@pytest.mark.parametrize("length_mm", [80.0, 60.0])
def test_a_mark_longer_than_its_post_lies_beside_it(length_mm: float) -> None:
    """On paper at 1:20 a post of 80 is 4 long: its mark in letters of 2.5 is longer."""
    low = {"length_mm": length_mm, "whole_mm": length_mm, "stand_off_mm": 0.0}
    short = [
        evolve(post, mark=f"POST{number}", ground_mm=post.top_mm - length_mm, **low)
        for number, post in enumerate(FRAME.posts)
    ]
    frame = evolve(FRAME, posts=tuple(short))
    drawn = raised_side_svg(frame, title="Low", units="metric", seen="front")
    marks = [text for text in measured.texts(drawn) if (text.text or "").startswith("POST")]
    own = [text for text in marks if text.get("text-anchor") == "start"]
    assert own
    assert not [text for text in own if "rotate" in text.get("transform", "")]


def test_every_post_is_in_the_schedule() -> None:
    words = told(view())
    for row in FRAME.schedule:
        assert row.mark in words
        assert f"{row.length_mm:g}" in words
    assert "finished level -150" in words
    assert any("RSD-006" in word for word in words)


def test_a_brace_to_a_joist_reaches_the_joist() -> None:
    # PO8's leg of 500 is measured from the joist's underside, a bearer's depth over the post's top
    svg = view()
    (brace,) = lines(svg, "raised-braces")
    boxes = {layer: measured.rectangles(svg, layer) for layer in ("joists", "posts")}
    (joist,) = boxes["joists"]
    assert min(brace[1], brace[3]) == pytest.approx(joist[1] + joist[3], abs=0.003)
    assert abs(brace[3] - brace[1]) * scale_of(svg) == pytest.approx(500, abs=0.2)
    assert abs(brace[2] - brace[0]) * scale_of(svg) == pytest.approx(500, abs=0.2)


def lines(svg: bytes, layer: str) -> list[tuple[float, ...]]:
    groups = [g for g in ET.fromstring(svg).iter(f"{measured.SVG}g") if g.get("id") == layer]
    return [tuple(float(line.get(key, "0")) for key in ("x1", "y1", "x2", "y2"))
            for group in groups for line in group.iter(f"{measured.SVG}line")]  # fmt: skip


def test_texts_do_not_overlap() -> None:
    parted = raised_side_svg(parted_frame(), title="Parted", units="metric")
    for seen, svg in (("side", view()), ("front", view("front")), ("parted", parted)):
        boxes = [measured.box_of(text) for text in measured.texts(svg)]
        for n, one in enumerate(boxes):
            for other in boxes[n + 1 :]:
                apart = one[2] <= other[0] or other[2] <= one[0]
                assert apart or one[3] <= other[1] or other[3] <= one[1], (seen, one, other)


def parted_frame() -> RaisedFrame:
    """Return the frame with a part of BR2's line as a bearer of its own, BR3."""
    parts = tuple(evolve(post, bearer="BR3") if post.mark in {"PO7", "PO8"} else post
                  for post in FRAME.posts)  # fmt: skip
    second = evolve(FRAME.bearers[1], mark="BR3", start_mm=2000.0)
    return evolve(FRAME, bearers=(*FRAME.bearers, second), posts=parts)


def test_bearers_on_one_line_hide_one_another_from_the_side() -> None:
    """BR2 and BR3 are named once, and the longer post of both is drawn."""
    svg = raised_side_svg(parted_frame(), title="Parted", units="metric")
    assert len(measured.rectangles(svg, "posts")) == len(measured.rectangles(svg, "bearers")) == 2
    words = told(svg)
    assert "BR2 BR3" in words
    assert any(word.startswith("PO8:") for word in words)
    assert words.count("3780") == 1 + sum(row.across_mm == 3780.0 for row in FRAME.schedule)
    assert "several places along" not in " ".join(words)


def test_posts_that_do_not_stand_behind_one_another_are_told() -> None:
    moved = evolve(FRAME.posts[-1], place=evolve(FRAME.posts[-1].place, along_mm=3000.0))
    frame = evolve(FRAME, posts=(*FRAME.posts[:-1], moved))
    notes = " ".join(told(raised_side_svg(frame, title="Apart", units="metric")))
    assert "several places along" in notes


def test_the_same_frame_gives_the_same_bytes() -> None:
    assert view() == raised_side_svg(on_a_slope(), title="Slope", units="metric")


@pytest.mark.parametrize("seen", ["side", "front"])
def test_imperial_sheets_and_posts_in_concrete(seen: str) -> None:
    frame = on_a_slope(stand_off_mm=0.0, embed_mm=600.0, joist_over_mm=0.0)
    svg = raised_side_svg(frame, title="Slope", units="imperial", seen=seen)
    assert measured.rectangles(svg, "concrete")
    assert not measured.rectangles(svg, "joists")
    assert any("in" in word for word in told(svg))


def test_a_frame_too_large_for_any_sheet_is_drawn_on_a_roll() -> None:
    far = evolve(FRAME, joist_to_mm=2e6)
    svg = raised_side_svg(far, title="Long", units="metric")
    wide_mm = float(ET.fromstring(svg).get("width", "").removesuffix("mm"))
    assert wide_mm > 1189  # the longer side of the largest sheet, A0 of ISO 216
    (joists,) = measured.rectangles(svg, "joists")
    assert joists[2] * scale_of(svg) == pytest.approx(2e6 - 45, abs=scale_of(svg) * 0.01)
    assert joists[0] + joists[2] < wide_mm


def test_no_posts_no_drawing_and_no_such_view() -> None:
    assert raised_side_svg(evolve(FRAME, posts=()), title="", units="metric") == b""
    with pytest.raises(ValueError, match="side or front"):
        view("above")


def test_the_picture_in_the_docs_is_what_is_drawn() -> None:
    page = Path(__file__).parents[2] / "docs" / "raised-side.svg"
    made = raised_side_svg(FRAME, title="Deck on a slope", units="metric")
    assert page.read_bytes() == made
