"""Sheets of a frame on an outline, and what of them stands where it should not."""

import re
from collections.abc import Iterator
from math import hypot
from xml.etree import ElementTree as ET

from drylay.papers.outlined_drawings import frame_pages
from drylay.papers.outlined_frame import outlined_frame_svg
from drylay.papers.outlined_frame_layout import frame_layout
from drylay.papers.outlined_framing import Framing
from drylay.plan.model import Plan
from papers import measured

Corners = list[tuple[float, float]]
KINDS = ("rim", "joist", "pair", "trimmer", "double", "noggin", "splice")
#: Groups of texts that name parts of the frame, by the end of their name.
NAMING = re.compile(r"(marks(-\w+)?|opening-names|detail-corners)$")


def details_of(plan: Plan) -> tuple[Framing, ...]:
    assert plan.outline is not None
    assert plan.subframe is not None
    return frame_layout(plan, plan.outline, plan.subframe).details


def frame_sheets(plan: Plan) -> list[bytes]:
    return [outlined_frame_svg(plan), *(draw(plan) for draw in frame_pages(plan).values())]


def groups(svg: bytes) -> Iterator[tuple[str, list[ET.Element]]]:
    for part in ET.fromstring(svg).iter(f"{measured.SVG}g"):
        yield part.get("id", "").split("-", 1)[1], list(part)


def shapes_of(svg: bytes, layer: str) -> list[Corners]:
    """The corners of every shape of a layer that is drawn with a pen."""
    return [
        [(float(x), float(y)) for x, y in (pair.split(",") for pair in part.get("points").split())]
        for part in measured.group(svg, layer)
        if part.tag == f"{measured.SVG}polygon" and part.get("stroke") == "black"
    ]


def members_drawn(svg: bytes) -> list[Corners]:
    """Every member on a sheet, on the whole frame and in details."""
    layers = [f"{before}{kind}s" for kind in KINDS for before in ("", "detail-")]
    return [corners for layer in layers for corners in shapes_of(svg, layer)]


def naming(svg: bytes) -> list[tuple[str, Corners]]:
    """Every text that names a part of the frame, and the room it takes."""
    return [
        (part.text or "", measured.quad_of(part))
        for layer, parts in groups(svg) if NAMING.search(layer)
        for part in parts if part.tag == f"{measured.SVG}text"
    ]  # fmt: skip


def leaders(svg: bytes) -> list[tuple[str, Corners]]:
    """Every leader to such a text."""
    ends = (("x1", "y1"), ("x2", "y2"))
    return [
        (layer, [(float(part.get(x, "0")), float(part.get(y, "0"))) for x, y in ends])
        for layer, parts in groups(svg) if NAMING.search(layer)
        for part in parts if part.tag == f"{measured.SVG}line"
    ]  # fmt: skip


def middle(corners: Corners) -> tuple[float, float]:
    return sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)


def holds(corners: Corners, point: tuple[float, float]) -> bool:
    """Whether a convex shape holds a point: it lies to one side of all its edges."""
    x, y = point
    sides = [
        (bx - ax) * (y - ay) - (by - ay) * (x - ax)
        for (ax, ay), (bx, by) in zip(corners, [*corners[1:], corners[0]], strict=True)
    ]
    return min(sides) >= 0 or max(sides) <= 0


def astray(svg: bytes) -> list[str]:
    """Texts that lie on a member but do not stand in it."""
    shapes = [(shape, measured.about(shape)) for shape in members_drawn(svg)]
    return [
        text
        for text, quad, box in ((text, quad, measured.about(quad)) for text, quad in naming(svg))
        for shape, its in shapes
        if measured.touch(box, its)
        and not holds(shape, middle(quad))
        and measured.depth_mm(quad, shape) > 0.1
    ]


def struck(svg: bytes) -> list[str]:
    """Texts that a leader runs through; its own it touches at the edge alone."""
    texts = [(each.text or "", measured.quad_of(each)) for each in measured.texts(svg)]
    boxed = [(text, quad, measured.about(quad)) for text, quad in texts]
    lines = [strip(*ends) for _, ends in leaders(svg)]
    return [
        text for line, its in ((line, measured.about(line)) for line in lines)
        for text, quad, box in boxed
        if measured.touch(box, its) and measured.depth_mm(quad, line) > 0.3
    ]  # fmt: skip


def strip(one: tuple[float, float], other: tuple[float, float]) -> Corners:
    """A line half a millimetre wide: so it overlaps what it runs through by as much."""
    long = hypot(other[0] - one[0], other[1] - one[1]) or 1.0
    x, y = (other[1] - one[1]) / long / 4, (one[0] - other[0]) / long / 4
    return [(one[0] + x, one[1] + y), (other[0] + x, other[1] + y),
            (other[0] - x, other[1] - y), (one[0] - x, one[1] - y)]  # fmt: skip
