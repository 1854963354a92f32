"""Dimensions outside a figure: running ones from the datum, and plain ones end to end."""

from collections.abc import Mapping
from itertools import pairwise

from attrs import frozen

from drylay.papers.lettering import width_mm
from drylay.papers.model import LETTER_MM, Edge, Lettering, Line, Mark, Shape, Span, View
from drylay.papers.sheets import rule

#: From the figure to a label: a gap, a tick, a slanted leader.
GAP_MM, TICK_MM, LEADER_MM = 1.0, 2.0, 3.0
#: Least distance of two lines of text, middle to middle.
PITCH_MM = LETTER_MM + 0.5
#: A label may stand this far beside the point it belongs to, else labels go in columns.
ASIDE_MM = 4.0
FIRST_MM, NEXT_MM = 7.0, 6.5
AIR_MM = 2.0
#: The strip that stands for the house, above the figure.
HOUSE_MM = 4.5


@frozen(kw_only=True)
class Laid:
    """Where each label of a ruler stands along its edge, and in which column."""

    columns: int
    column_mm: float
    at_mm: tuple[float, ...]


def spread(points_mm: list[float], least_mm: float) -> list[float]:
    """Return points moved as little as need be to stand at least `least_mm` apart.

    Neighbours that would be too close are pooled about their middle. Source: the pool
    adjacent violators algorithm of isotonic regression, from memory.
    """
    pools: list[list[float]] = []
    for index, point in enumerate(points_mm):
        pools.append([point - index * least_mm])
        while len(pools) > 1 and _mean(pools[-2]) > _mean(pools[-1]):
            last = pools.pop()
            pools[-1] += last
    level = [_mean(pool) for pool in pools for _ in pool]
    return [value + index * least_mm for index, value in enumerate(level)]


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)


def laid(marks: tuple[Mark, ...], per_mm: float, most: int = 3) -> Laid:
    """Return where a ruler's labels stand: one column, or up to `most` where marks are close."""
    points = [mark.at_mm / per_mm for mark in marks]
    widest = max((width_mm(mark.text, LETTER_MM) for mark in marks), default=0.0) + 1.5
    for columns in range(1, most + 1):
        at = [0.0] * len(points)
        for first in range(columns):
            at[first::columns] = spread(points[first::columns], PITCH_MM)
        aside = max((abs(a - b) for a, b in zip(at, points, strict=True)), default=0.0)
        if aside <= ASIDE_MM:
            break
    return Laid(columns=columns, column_mm=widest, at_mm=tuple(at))


def depth_mm(edge: Edge, per_mm: float) -> float:
    """Return how much paper an edge's dimensions take, outwards from the figure."""
    if edge.marks:
        ruler = laid(edge.marks, per_mm, edge.columns)
        return GAP_MM + TICK_MM + LEADER_MM + ruler.columns * ruler.column_mm
    return FIRST_MM + NEXT_MM * len(edge.spans) if edge.spans else AIR_MM


def overrun_mm(edge: Edge, per_mm: float, extent_mm: float) -> tuple[float, float]:
    """Return how far an edge's labels run past its two ends, in mm of paper."""
    at = laid(edge.marks, per_mm, edge.columns).at_mm
    if not at:
        return 0.0, 0.0
    return PITCH_MM / 2 - min(at), max(at) + PITCH_MM / 2 - extent_mm / per_mm


def edge_shapes(side: str, edge: Edge, view: View, extent: tuple[float, float]) -> list[Shape]:
    """Return the dimensions outside one edge; `extent` is the figure's size on paper."""
    shapes = _ruler(side, edge, view, extent) if edge.marks else []
    for level, span in enumerate(edge.spans):
        shapes += _span(side, span, level, view, extent)
    return shapes


def all_edges(edges: Mapping[str, Edge], view: View, extent: tuple[float, float]) -> list[Shape]:
    """Return the dimensions outside every edge of a figure."""
    return [shape for side in edges for shape in edge_shapes(side, edges[side], view, extent)]


def _ruler(side: str, edge: Edge, view: View, extent: tuple[float, float]) -> list[Shape]:
    marks = edge.marks
    ruler = laid(marks, view.per_mm, edge.columns)
    shapes: list[Shape] = []
    for index, (mark, label_mm) in enumerate(zip(marks, ruler.at_mm, strict=True)):
        out_mm = GAP_MM + TICK_MM + LEADER_MM + (index % ruler.columns) * ruler.column_mm
        knees = [(GAP_MM, mark.at_mm / view.per_mm), (GAP_MM + TICK_MM, mark.at_mm / view.per_mm)]
        knees += [(GAP_MM + TICK_MM + LEADER_MM - 0.5, label_mm), (out_mm, label_mm)]
        shapes += _polyline([outside(side, *knee, view, extent) for knee in knees])
        shapes.append(_label(side, mark.text, outside(side, out_mm + 0.5, label_mm, view, extent)))
    return shapes


def outside(
    side: str, out_mm: float, along_mm: float, view: View, extent: tuple[float, float]
) -> tuple[float, float]:
    """Return the point of the sheet that is so far outside an edge, so far along it."""
    x, y = view.left_mm, view.top_mm
    return {
        "top": (x + along_mm, y - out_mm),
        "bottom": (x + along_mm, y + extent[1] + out_mm),
        "left": (x - out_mm, y + along_mm),
        "right": (x + extent[0] + out_mm, y + along_mm),
    }[side]


def _label(side: str, text: str, at: tuple[float, float]) -> Lettering:
    return Lettering(
        layer="dimensions", x_mm=at[0], y_mm=at[1], text=text, turned=side in ("top", "bottom"),
        anchor="start" if side in ("top", "right") else "end",
    )  # fmt: skip


def _polyline(points: list[tuple[float, float]]) -> list[Line]:
    return [rule("dimensions", *one, *other) for one, other in pairwise(points)]


def _span(
    side: str, span: Span, level: int, view: View, extent: tuple[float, float]
) -> list[Shape]:
    ends = (span.from_mm / view.per_mm, span.to_mm / view.per_mm)
    house_mm = HOUSE_MM if side == "top" else 0.0
    out_mm = house_mm + FIRST_MM + NEXT_MM * level - 1.0
    shapes: list[Shape] = []
    for end in ends:
        inner = outside(side, house_mm + GAP_MM, end, view, extent)
        outer = outside(side, out_mm + 1.0, end, view, extent)
        shapes.append(rule("dimensions", *inner, *outer))
        shapes.append(stroke(outside(side, out_mm, end, view, extent)))
    line = [outside(side, out_mm, end, view, extent) for end in ends]
    middle = outside(side, out_mm, sum(ends) / 2, view, extent)
    return [*shapes, *_polyline(line), _over(side, span.text, middle)]


def thick_edge(spans: tuple[Span, ...]) -> Edge:
    """Return thicknesses as an edge: each told at its middle, for texts may be wider than it."""
    return Edge(
        marks=tuple(Mark(at_mm=(s.from_mm + s.to_mm) / 2, text=s.text) for s in spans)
    )  # fmt: skip


def thick_lines(
    side: str, spans: tuple[Span, ...], view: View, extent: tuple[float, float]
) -> list[Shape]:
    """Return the dimension lines of a `thick_edge`, face to face, close to the figure."""
    shapes: list[Shape] = []
    for span in spans:
        ends = [end / view.per_mm for end in (span.from_mm, span.to_mm)]
        line = [outside(side, GAP_MM + 1.0, end, view, extent) for end in ends]
        for end, at in zip(ends, line, strict=True):
            inner = outside(side, GAP_MM, end, view, extent)
            outer = outside(side, GAP_MM + TICK_MM, end, view, extent)
            shapes += [rule("dimensions", *inner, *outer), stroke(at)]
        shapes += _polyline(line)
    return shapes


def stroke(at: tuple[float, float]) -> Line:
    """Return the oblique stroke that ends a dimension line."""
    return rule("dimensions", at[0] - 0.9, at[1] + 0.9, at[0] + 0.9, at[1] - 0.9)


def _over(side: str, text: str, at: tuple[float, float]) -> Lettering:
    """Return a dimension's text: above its line, read from below or from the right."""
    upright = side in ("top", "bottom")
    aside = (0.0, -2.0) if upright else (-2.0, 0.0)
    return Lettering(
        layer="dimensions", x_mm=at[0] + aside[0], y_mm=at[1] + aside[1], text=text,
        turned=not upright,
    )  # fmt: skip
