"""The survey as a drawing: corners and tapes, ground and water, and what is dug and filled."""

from collections.abc import Iterator
from math import hypot

from drylay.papers.lettering import width_mm
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Lettering,
    Line,
    Ring,
    Shape,
)
from drylay.papers.placing import Place, first_clear, line_place, places_of, sloped
from drylay.papers.ruled import ruled
from drylay.papers.sheets import title_block
from drylay.papers.survey_ground import arrow_of, ground_shapes
from drylay.papers.survey_sheet import (
    HOUSE_MM,
    Laid,
    laid_out,
    on_sheet,
    short,
    told_beside,
)
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean
from drylay.survey.model import Corner, Fit, SurveyReport

#: Error bars are drawn so many times as large as they are: the most that keeps them this short.
TIMES = (200, 100, 50, 20, 10, 5, 2, 1)
BAR_MOST_MM = 7.0
DASH = "2.4 1.2"
Spot = tuple[float, float]


def survey_svg(report: SurveyReport, *, title: str = "Survey", units: str = "metric") -> bytes:
    """Return a plan of what was measured and what follows, as SVG, black on white.

    House at the top. Corners have their error bars, drawn larger by the factor told. Levels have
    contours and arrows downhill; water is ruled level, cut earth hatched rising and filled earth
    falling. b"" where nothing was measured that has a place.
    """
    laid = laid_out(report, units)
    if laid is None:
        return b""
    taken: list[Place] = []
    ground, ground_texts = ground_shapes(report, laid, units)
    fit, fit_texts = _fitted(report.fit, laid, units)
    shapes = [*_house(laid), *ground, *fit, *_north(report, laid)]
    taken += places_of([s for s in shapes if s.layer in {"house", "north", "bars", "falls"}])
    taken += [line_place((s.x1_mm, s.y1_mm), (s.x2_mm, s.y2_mm)) for s in fit
              if isinstance(s, Line) and s.layer == "tapes"]  # fmt: skip
    for candidates in (*fit_texts, *ground_texts):
        shapes += first_clear(candidates, taken)
    shapes += _beside(report, laid, units)
    shapes += title_block(laid.sheet, title=title, drawing="Survey", units=units,
                          notes=_notes(report, laid))  # fmt: skip
    told = f"Plan of {clean(title)}: {_told(report)}"
    return svg(shapes, sheet=laid.sheet, name="survey", title=f"Survey: {clean(title)}", told=told)


def _told(report: SurveyReport) -> str:
    """Return the drawing in words, for those who hear it read."""
    corners = report.fit.corners if report.fit else ()
    parts = [f"{c.name} at {c.along_mm:g} along, {c.across_mm:g} across" for c in corners]
    parts += [f"water up to {p.depth_mm:g} mm deep at {', '.join(p.lows)}" for p in report.ponds]
    parts += [f"cut {w.cut_m3:g} m3, fill {w.fill_m3:g} m3" for w in report.earthworks[:1]]
    return "; ".join(parts) or "levels of the ground"


def _house(laid: Laid) -> Iterator[Shape]:
    """Yield the hatched strip along the house's line."""
    left, right = (on_sheet(laid, (along, 0.0))[0] for along in laid.house_mm)
    y = on_sheet(laid, (0.0, 0.0))[1]
    up = y - HOUSE_MM
    yield Line(layer="house", x1_mm=left, y1_mm=up, x2_mm=right, y2_mm=up, pen_mm=THIN_MM)
    at = left
    while at + 3.0 <= right:
        yield Line(layer="house", x1_mm=at, y1_mm=y - 0.8, x2_mm=at + 3.0, y2_mm=up,
                   pen_mm=FINE_MM)  # fmt: skip
        at += 3.0
    if right - left > width_mm(" HOUSE SIDE ", 2.5):
        yield Lettering(layer="house", x_mm=(left + right) / 2, y_mm=(y + up) / 2 - 0.4,
                        text=" HOUSE SIDE ", knocked=True)  # fmt: skip


def _north(report: SurveyReport, laid: Laid) -> Iterator[Shape]:
    """Yield an arrow to the north, where the book tells which way the garden lies."""
    if report.book.across_bearing_deg is None:
        return
    x, y = laid.sheet.width_mm - 24.0, laid.sheet.height_mm - 48.0
    yield from arrow_of("north", (x, y), report.book.across_bearing_deg + 180.0, 12.0)
    yield Ring(layer="north", x_mm=x, y_mm=y, radius_mm=7.0, pen_mm=FINE_MM)
    yield Lettering(layer="north", x_mm=x, y_mm=y + 9.5, text="north")


def bar_times(fit: Fit | None, per_mm: float) -> int:
    """Return how many times as large as they are error bars are drawn."""
    corners = fit.corners if fit else ()
    most = max((max(c.error_along_mm, c.error_across_mm) for c in corners), default=0.0)
    if not most:
        return 1
    return next((n for n in TIMES if most * n / per_mm <= BAR_MOST_MM), 1)


def _fitted(
    fit: Fit | None, laid: Laid, units: str
) -> tuple[list[Shape], list[list[Lettering]]]:  # fmt: skip
    """Return tapes and corners with their bars, and the texts at both, each with its places."""
    if fit is None or not fit.corners:
        return [], []
    spots = {c.name: on_sheet(laid, (c.along_mm, c.across_mm)) for c in fit.corners}
    sides = {frozenset(pair) for pair in zip(fit.outline, (*fit.outline[1:], fit.outline[0]),
                                             strict=True)}  # fmt: skip
    shapes: list[Shape] = []
    texts = [_name(corner, spots[corner.name], laid) for corner in fit.corners]
    for tape in fit.tapes:
        one, other = spots[tape.start], spots[tape.end]
        side = frozenset((tape.start, tape.end)) in sides
        shapes.append(Line(layer="tapes", x1_mm=one[0], y1_mm=one[1], x2_mm=other[0],
                           y2_mm=other[1], pen_mm=MEMBER_MM if side else FINE_MM,
                           dash="" if side else DASH))  # fmt: skip
        off = f" ({tape.residual_mm:+g})" if tape.residual_mm else ""
        left = " left out" if tape.left_out else ""
        texts.append(_along(f"{bare(tape.measured_mm, units)}{off}{left}", one, other))
    times = bar_times(fit, laid.sheet.per_mm)
    for corner in fit.corners:
        shapes += _bars(corner, spots[corner.name], times / laid.sheet.per_mm)
    return shapes, texts


def _bars(corner: Corner, at: Spot, per_mm: float) -> Iterator[Shape]:
    (x, y), along, across = at, corner.error_along_mm * per_mm, corner.error_across_mm * per_mm
    ends = (((x - along, y), (x + along, y)), ((x, y - across), (x, y + across)))
    for (x1, y1), (x2, y2) in ends:
        if hypot(x2 - x1, y2 - y1) > 0.4:
            yield Line(layer="bars", x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=OUTLINE_MM)
    yield Ring(layer="corners", x_mm=x, y_mm=y, radius_mm=1.1, pen_mm=MEMBER_MM)


def _name(corner: Corner, at: Spot, laid: Laid) -> list[Lettering]:
    """Return a corner's name in places about it, those away from the middle first."""
    x, y = at
    aside = 1 if x >= laid.middle[0] else -1
    under = 1 if y >= laid.middle[1] else -1
    return [
        Lettering(layer="names", x_mm=x + dx * far, y_mm=y + dy * far, text=short(corner.name),
                  size_mm=4.0, knocked=True)
        for far in (3.6, 5.0, 8.0, 11.0)
        for dx, dy in ((aside, under), (aside, -under), (-aside, under), (aside * 1.4, 0),
                       (0, under * 1.4), (-aside, -under))
    ]  # fmt: skip


def _along(text: str, one: Spot, other: Spot) -> list[Lettering]:
    """Return a text along a tape, beside it, at one of several places."""
    long = hypot(other[0] - one[0], other[1] - one[1]) or 1.0
    across = ((other[1] - one[1]) / long, (one[0] - other[0]) / long)
    return [
        sloped(
            Lettering(layer="lengths", x_mm=one[0] + (other[0] - one[0]) * share + across[0] * off,
                      y_mm=one[1] + (other[1] - one[1]) * share + across[1] * off, text=text,
                      knocked=True),
            one, other,
        )
        for share in (0.5, 0.35, 0.65, 0.25, 0.75)
        for off in (2.2, -2.2)
    ]  # fmt: skip


def _beside(report: SurveyReport, laid: Laid, units: str) -> Iterator[Shape]:
    """Yield the tables and paragraphs at the sheet's right."""
    tables, texts = told_beside(report, units)
    for table, y in zip(tables, laid.tables_mm, strict=True):
        yield from ruled(table, table.rows, laid.aside_mm, y)
    for line, text in enumerate(texts):
        yield Lettering(layer="told", x_mm=laid.aside_mm, y_mm=laid.texts_mm + 3.4 * (line + 0.5),
                        text=text, anchor="start")  # fmt: skip


def _notes(report: SurveyReport, laid: Laid) -> tuple[str, ...]:
    notes = []
    if report.fit and report.fit.corners:
        times = bar_times(report.fit, laid.sheet.per_mm)
        large = f"{times} times as large as they are" if times > 1 else "to scale"
        notes.append(f"Bars at corners hold 95 of 100, drawn {large}.")
        notes.append("Beside a tape: what was read, and in brackets fitted less read.")
    if report.surface:
        notes.append("Thin lines: contours. Arrows: downhill. Crosses: levels measured.")
    if report.ponds:
        notes.append("Ruled level: water stands.")
    if report.earthworks:
        notes.append("Hatched rising: cut. Hatched falling: filled.")
    return tuple(notes)
