"""Which sheet a survey is drawn on, where its figure lies there, and what stands beside it."""

from collections.abc import Iterator

from attrs import frozen

from drylay.papers.model import Sheet, Table
from drylay.papers.ruled import CELL_MM, LINE_MM, head_height, table_width
from drylay.papers.sheets import AIR_MM, INSET_MM, room, sheets, wrapped
from drylay.papers.wording import bare, clean, size
from drylay.survey.model import Earthwork, Fit, Pond, SurveyReport
from drylay.units import volume_text

#: The strip that is the house, room about a figure, and the column of tables and texts beside it.
HOUSE_MM, AROUND_MM, BESIDE_MM, TEXT_MM = 4.0, 12.0, 8.0, 92.0
#: A figure whose longer side is longer than this on paper reads well.
WELL_MM = 95.0
#: A name longer than this is cut off.
MOST_NAME = 12
Spot = tuple[float, float]


@frozen(kw_only=True)
class Laid:
    """A sheet, where its figure's corner lies, and where what stands beside it begins.

    `low_mm` is the place of the garden at the figure's corner, `house_mm` from where to where the
    house runs along, `middle` the figure's middle on paper.
    """

    sheet: Sheet
    left_mm: float
    top_mm: float
    low_mm: Spot
    house_mm: Spot
    middle: Spot
    aside_mm: float
    tables_mm: tuple[float, ...]
    texts_mm: float


def on_sheet(laid: Laid, place: Spot) -> Spot:
    """Return where a place of the garden lies on the sheet, the house at the top."""
    per_mm = laid.sheet.per_mm
    return (laid.left_mm + (place[0] - laid.low_mm[0]) / per_mm,
            laid.top_mm + (place[1] - laid.low_mm[1]) / per_mm)  # fmt: skip


def short(name: str) -> str:
    """Return somebody's name for a thing, made harmless and short."""
    return clean(name, MOST_NAME)


def laid_out(report: SurveyReport, units: str) -> Laid | None:
    """Return how a survey lies on its sheet, the smallest that it reads well on; None if empty."""
    places = list(_places(report))
    if len(set(places)) < 2:
        return None
    alongs, acrosses = zip(*places, strict=True)
    low, high = (min(alongs), min(*acrosses, 0.0)), (max(alongs), max(acrosses))
    wide, deep = high[0] - low[0], high[1] - low[1]
    tables, texts = told_beside(report, units)
    tall = sum(map(_high, tables)) + LINE_MM * len(texts)
    aside = max([TEXT_MM, *map(table_width, tables)])
    fitting = [sheet for sheet in sheets(units) if _fits(sheet, (wide, deep), (aside, tall))]
    well = [sheet for sheet in fitting if max(wide, deep) / sheet.per_mm >= WELL_MM]
    sheet = next(iter([*well, *fitting]), None)
    if sheet is None:
        return None
    return _laid(sheet, low, (wide, deep), (alongs, tables, aside))


def _laid(
    sheet: Sheet, low: Spot, extent: Spot, rest: tuple[tuple[float, ...], tuple[Table, ...], float]
) -> Laid:
    alongs, tables, aside = rest
    width, height = room(sheet)
    wide, deep = (each / sheet.per_mm for each in extent)
    left = INSET_MM + (width - aside - BESIDE_MM - wide) / 2
    top = INSET_MM + HOUSE_MM / 2 + (height - deep) / 2
    starts, y = [], INSET_MM
    for table in tables:
        starts.append(y)
        y += _high(table)
    return Laid(
        sheet=sheet, left_mm=left, top_mm=top, low_mm=low,
        house_mm=(min(alongs), max(alongs)), middle=(left + wide / 2, top + deep / 2),
        aside_mm=sheet.width_mm - INSET_MM - aside, tables_mm=tuple(starts), texts_mm=y,
    )  # fmt: skip


def _high(table: Table) -> float:
    return head_height(table) + CELL_MM * len(table.rows) + AIR_MM


def _fits(sheet: Sheet, extent: Spot, aside: Spot) -> bool:
    width, height = room(sheet)
    wide = extent[0] / sheet.per_mm + 2 * AROUND_MM + BESIDE_MM + aside[0]
    high = extent[1] / sheet.per_mm + 2 * AROUND_MM + HOUSE_MM
    return wide <= width and max(high, aside[1]) <= height


def _places(report: SurveyReport) -> Iterator[Spot]:
    """Yield every place that the drawing shows."""
    for corner in report.fit.corners if report.fit else ():
        yield (corner.along_mm, corner.across_mm)
    for point in report.book.points:
        yield (point.along_mm, point.across_mm)
    yield from report.area_mm


def told_beside(report: SurveyReport, units: str) -> tuple[tuple[Table, ...], tuple[str, ...]]:
    """Return the tables that stand beside the figure, and lines of text under them."""
    tables = (*_fit_tables(report.fit, units), *_earth_tables(report.earthworks, units))
    texts = [*_verdict_told(report.fit, units), *(_pond_told(p, units) for p in report.ponds)]
    if report.slopes is not None:
        texts.append(f"Steepest ground {report.slopes.steepest_ratio * 100:.1f} %, as a whole "
                     f"{report.slopes.mean_ratio * 100:.1f} %.")  # fmt: skip
    stops = [f"STOP {f.code}: see the report." for f in report.findings
             if f.severity.value == "stop"]  # fmt: skip
    lines = [line for text in [*texts, *dict.fromkeys(stops)]
             for line in wrapped(text, 2.5, TEXT_MM * 0.94)]  # fmt: skip
    return tables, tuple(lines)


def _fit_tables(fit: Fit | None, units: str) -> Iterator[Table]:
    if fit is None:
        return
    yield Table(
        layer="tape-table", title="Tapes", aligned="<>>>>",
        heads=(("", "tape"), ("", "read"), ("fitted", "less read"), ("others", "make it"),
               ("within", "+/-")),
        rows=tuple(
            (f"{short(t.start)}-{short(t.end)}", bare(t.measured_mm, units),
             *(_or_dash(mm, units) for mm in (t.residual_mm, t.implied_mm, t.bar_mm)))
            for t in fit.tapes
        ),
    )  # fmt: skip
    if fit.corners:
        yield Table(
            layer="corner-table", title="Corners", aligned="<>>>>",
            heads=(("", "corner"), ("", "along"), ("", "across"), ("along", "+/-"),
                   ("across", "+/-")),
            rows=tuple(
                (short(c.name), *(bare(mm, units) for mm in (
                    c.along_mm, c.across_mm, c.error_along_mm, c.error_across_mm)))
                for c in fit.corners
            ),
        )  # fmt: skip


def _or_dash(length_mm: float | None, units: str) -> str:
    return "-" if length_mm is None else bare(length_mm, units)


def _earth_tables(works: tuple[Earthwork, ...], units: str) -> Iterator[Table]:
    if works:
        yield Table(
            layer="earth-table", title="Earth, by the level dug to; the first is drawn",
            aligned=">>>>>",
            heads=(("", "level"), ("", "cut"), ("", "fill"), ("", "loose"), ("", "skips")),
            rows=tuple(
                (bare(w.formation.level_mm, units),
                 *(volume_text(m3, units) for m3 in (w.cut_m3, w.fill_m3, w.loose_m3)),
                 f"{w.skips}")
                for w in works
            ),
        )  # fmt: skip


def _verdict_told(fit: Fit | None, units: str) -> Iterator[str]:
    if fit is None:
        return
    verdict = fit.verdict
    if verdict.agrees is None:
        yield "The tapes are not tested: none is to spare."
    elif verdict.agrees or any(tape.left_out for tape in fit.tapes):
        yield "The tapes agree."
    else:
        off = "" if verdict.misfit_mm is None else f", by {size(verdict.misfit_mm, units)}"
        yield f"The tapes do not agree{off}: measure again."
    if verdict.wrong:
        yield f"Likely wrong: {', '.join(clean(each, 2 * MOST_NAME) for each in verdict.wrong)}."


def _pond_told(pond: Pond, units: str) -> str:
    return (
        f"Water at {', '.join(pond.lows)}: {size(pond.depth_mm, units)} deep, "
        f"{volume_text(pond.volume_m3, units)}, before it runs {pond.spills_to}."
    )
