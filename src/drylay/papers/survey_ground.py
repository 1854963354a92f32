"""Ground in a survey's drawing: contours, levels, arrows downhill, water, earth cut and filled."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, cos, floor, hypot, radians, sin

from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Lettering,
    Line,
    Ring,
    Shape,
)
from drylay.papers.survey_sheet import Laid, on_sheet
from drylay.papers.wording import bare
from drylay.survey.model import Contour, Flow, SurveyReport
from drylay.survey.model import Ring as Outline

Spot = tuple[float, float]
Texts = list[list[Lettering]]
#: Lines of hatchings, apart.
CUT_MM, FILL_MM, WATER_MM = 3.0, 3.0, 1.6
CROSS_MM, LOW_MM, ARROW_MM = 0.9, 1.8, 4.5
#: Arrows nearer to each other than this are left out.
ARROWS_APART_MM = 7.0
HATCH = {"cut": 45.0, "fill": 135.0, "water": 0.0}


def ground_shapes(
    report: SurveyReport, laid: Laid, units: str
) -> tuple[list[Shape], Texts]:  # fmt: skip
    """Return what is drawn of the ground, and the texts at it, each with its places."""
    shapes = [*_earth(report, laid), *_ponds(report, laid), *_contours(report, laid),
              *_flows(report.flows, laid), *_falls(report, laid), *_points(report, laid),
              *_lows(report, laid)]  # fmt: skip
    texts = [*_low_texts(report, laid), *_point_texts(report, laid, units),
             *(_contour_text(c, laid, units) for c in report.contours)]  # fmt: skip
    return shapes, texts


def _earth(report: SurveyReport, laid: Laid) -> Iterator[Shape]:
    if report.area_mm:
        corners = tuple(on_sheet(laid, place) for place in report.area_mm)
        yield Area(layer="area", corners_mm=corners, pen_mm=MEMBER_MM, dash="6 1.5 1.5 1.5")
    for work in report.earthworks[:1]:
        for layer, pieces, pitch in (
            ("cut", work.cut_rings_mm, CUT_MM),
            ("fill", work.fill_rings_mm, FILL_MM),
        ):
            yield from _hatched(layer, pieces, laid, pitch)


def _ponds(report: SurveyReport, laid: Laid) -> Iterator[Shape]:
    for pond in report.ponds:
        yield from _hatched("water", pond.shore_mm, laid, WATER_MM)
        for one, other in _outer_sides(pond.shore_mm):
            yield _line("shore", on_sheet(laid, one), on_sheet(laid, other), MEMBER_MM)


def _outer_sides(pieces: Sequence[Outline]) -> list[tuple[Spot, Spot]]:
    """Return the sides that bound one piece only: the edge of all together."""
    sides = [
        (one, other)
        for ring in pieces
        for one, other in zip(ring, (*ring[1:], ring[0]), strict=True)
    ]
    counted = Counter(map(_side_key, sides))
    return [side for side in sides if counted[_side_key(side)] == 1]


def _side_key(side: tuple[Spot, Spot]) -> frozenset[tuple[int, int]]:
    return frozenset((round(x), round(y)) for x, y in side)


def _hatched(
    layer: str, pieces: Sequence[Outline], laid: Laid, pitch_mm: float
) -> Iterator[Shape]:  # fmt: skip
    """Yield lines over all pieces, on one ruling for the whole sheet so that they join up."""
    turn = radians(HATCH[layer])
    way = (cos(turn), -sin(turn))
    for ring in pieces:
        spots = [on_sheet(laid, place) for place in ring]
        for one, other in _ruled_over(spots, way, pitch_mm):
            yield _line(f"{layer}-hatch", one, other, FINE_MM)


def _ruled_over(
    spots: Sequence[Spot], way: Spot, pitch_mm: float
) -> Iterator[tuple[Spot, Spot]]:  # fmt: skip
    """Yield the parts of parallel lines that lie inside a shape."""
    seen = [(x * way[0] + y * way[1], y * way[0] - x * way[1]) for x, y in spots]
    offs = [v for _, v in seen]
    for n in range(ceil(min(offs) / pitch_mm), floor(max(offs) / pitch_mm) + 1):
        v = n * pitch_mm
        ends = sorted(
            u1 + (u2 - u1) * (v - v1) / (v2 - v1)
            for (u1, v1), (u2, v2) in zip(seen, [*seen[1:], seen[0]], strict=True)
            if (v1 <= v) != (v2 <= v)
        )
        for start, end in zip(ends[::2], ends[1::2], strict=True):
            if end - start > 0.05:
                yield _back(start, v, way), _back(end, v, way)


def _back(u: float, v: float, way: Spot) -> Spot:
    return (u * way[0] - v * way[1], u * way[1] + v * way[0])


def _contours(report: SurveyReport, laid: Laid) -> Iterator[Shape]:
    for contour in report.contours:
        for one, other in contour.lines_mm:
            yield _line("contours", on_sheet(laid, one), on_sheet(laid, other), THIN_MM)


def _long(one: Spot, other: Spot) -> float:
    return hypot(other[0] - one[0], other[1] - one[1])


def _contour_text(contour: Contour, laid: Laid, units: str) -> list[Lettering]:
    """Return a contour's level in the middle of one of its parts, the longest first."""
    parts = sorted(contour.lines_mm, key=lambda part: (-_long(*part), part))
    middles = [on_sheet(laid, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)) for a, b in parts[:6]]
    return [
        Lettering(layer="contour-levels", x_mm=x, y_mm=y, text=bare(contour.level_mm, units),
                  knocked=True)
        for x, y in middles
    ]  # fmt: skip


def _flows(flows: Sequence[Flow], laid: Laid) -> Iterator[Shape]:
    for flow in flows:
        spots = [on_sheet(laid, place) for place in flow.path_mm]
        for one, other in pairwise(spots):
            yield _line("flow", one, other, OUTLINE_MM)
        if len(spots) > 1:
            yield from _head("flow", spots[-2], spots[-1], OUTLINE_MM)


def _falls(report: SurveyReport, laid: Laid) -> Iterator[Shape]:
    """Yield an arrow downhill for each triangle with room for one, the steepest first."""
    drawn: list[Spot] = []
    for fall in sorted(report.falls, key=lambda f: (-f.fall_ratio, f.along_mm, f.across_mm)):
        x, y = on_sheet(laid, (fall.along_mm, fall.across_mm))
        if all(hypot(x - a, y - b) >= ARROWS_APART_MM for a, b in drawn):
            drawn.append((x, y))
            turn = radians(fall.falls_deg)
            dx, dy = cos(turn) * ARROW_MM / 2, sin(turn) * ARROW_MM / 2
            one, other = (x - dx, y - dy), (x + dx, y + dy)
            yield _line("falls", one, other, THIN_MM)
            yield from _head("falls", one, other, THIN_MM)


def arrow_of(layer: str, middle: Spot, up_bearing_deg: float, long_mm: float) -> Iterator[Shape]:
    """Yield an arrow to the north about a place, where the sheet's top has such a bearing."""
    turn = radians(-up_bearing_deg)
    dx, dy = sin(turn) * long_mm / 2, -cos(turn) * long_mm / 2
    one, other = (middle[0] - dx, middle[1] - dy), (middle[0] + dx, middle[1] + dy)
    yield _line(layer, one, other, MEMBER_MM)
    yield from _head(layer, one, other, MEMBER_MM)


def _head(layer: str, one: Spot, tip: Spot, pen_mm: float) -> Iterator[Shape]:
    long = hypot(tip[0] - one[0], tip[1] - one[1]) or 1.0
    ux, uy = (tip[0] - one[0]) / long, (tip[1] - one[1]) / long
    for side in (-0.6, 0.6):
        tail = (tip[0] - 1.5 * ux - side * uy, tip[1] - 1.5 * uy + side * ux)
        yield _line(layer, tail, tip, pen_mm)


def _points(report: SurveyReport, laid: Laid) -> Iterator[Shape]:
    for point in report.book.points:
        x, y = on_sheet(laid, (point.along_mm, point.across_mm))
        for dx, dy in ((CROSS_MM, 0.0), (0.0, CROSS_MM)):
            yield _line("levels", (x - dx, y - dy), (x + dx, y + dy), THIN_MM)


def _point_texts(report: SurveyReport, laid: Laid, units: str) -> Iterator[list[Lettering]]:
    """Yield each level in places about its cross, the near ones first."""
    for point in report.book.points:
        x, y = on_sheet(laid, (point.along_mm, point.across_mm))
        yield [
            Lettering(layer="level-texts", x_mm=x + dx, y_mm=y + dy * far, anchor=anchor,
                      knocked=True, text=bare(point.level_mm, units))
            for far in (1.9, 3.2, 4.6, 6.0)
            for dx, dy, anchor in ((1.4, -1, "start"), (1.4, 1, "start"), (-1.4, -1, "end"),
                                   (-1.4, 1, "end"), (0, -1, "middle"), (0, 1, "middle"))
        ]  # fmt: skip


def _lows(report: SurveyReport, laid: Laid) -> Iterator[Shape]:
    for low in report.lows:
        x, y = on_sheet(laid, (low.along_mm, low.across_mm))
        yield Ring(layer="lows", x_mm=x, y_mm=y, radius_mm=LOW_MM, pen_mm=MEMBER_MM)


def _low_texts(report: SurveyReport, laid: Laid) -> Iterator[list[Lettering]]:
    for low in report.lows:
        x, y = on_sheet(laid, (low.along_mm, low.across_mm))
        yield [
            Lettering(layer="low-names", x_mm=x + dx, y_mm=y + dy, text=low.name, size_mm=3.0,
                      anchor=anchor, knocked=True)
            for dx, dy, anchor in ((2.6, 0.0, "start"), (-2.6, 0.0, "end"), (0.0, 3.8, "middle"),
                                   (0.0, -3.8, "middle"), (2.6, 4.0, "start"))
        ]  # fmt: skip


def _line(layer: str, one: Spot, other: Spot, pen_mm: float) -> Line:
    return Line(layer=layer, x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                pen_mm=pen_mm)  # fmt: skip
