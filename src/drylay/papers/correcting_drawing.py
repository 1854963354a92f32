"""Correction as a picture: how far each end lies from the plan, and how its finish spreads.

Rows run to the right, each end has a strip of its own. Up is beyond the plan. What was measured is
a ring, what is expected a line. Behind the last row stand two bars of 2 sd either way: hatched,
where nobody measures again; black, where the last rows' rule is kept.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import ceil

from attrs import frozen

from drylay.correcting.model import EndForecast, Laid
from drylay.papers.hatching import hatch
from drylay.papers.lettering import fitted
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Lettering,
    Line,
    Ring,
    Shape,
    Sheet,
)
from drylay.papers.ruled import paragraphs, paragraphs_height
from drylay.papers.svg import svg
from drylay.papers.wording import ENDS, bare, clean
from drylay.plan.model import Plan
from drylay.surface.model import Row

#: The sheet, in mm: its width and margin, room for figures left of a strip, for bars right of it.
WIDE_MM, MARGIN_MM, FIGURES_MM, BARS_MM = 210.0, 10.0, 16.0, 32.0
#: A strip's height, what stands over it, and the title's room.
STRIP_MM, OVER_MM, HEAD_MM, FOOT_MM = 56.0, 8.0, 14.0, 12.0
TITLE_MM, BAR_MM, RING_MM = 4.0, 5.0, 1.0
#: Whole millimetres between two lines of a scale, the first that gives no more lines than these.
STEPS, MOST_LINES = (1, 2, 5, 10, 20, 50, 100), 8
#: So many rows between two figures under a strip at least.
ROW_MARKS_MM = 9.0
LEGEND = (
    "Rings: edges as measured, against the plan. Line: edges expected with the gaps of the rod. "
    "Bars: 2 sd to either side of the last edge. Hatched: measured no more. Black: the last four "
    "laid tight and measured together, or the last row ripped to what is left. Up is beyond."
)


@frozen(kw_only=True)
class _Strip:
    """One end's strip: where it stands on the sheet, mm of paper for a mm and for a row."""

    top_mm: float
    middle_mm: float
    per_mm_mm: float
    per_row_mm: float
    most_mm: int
    step_mm: int

    def x_mm(self, row: int) -> float:
        """Return where a row stands."""
        return MARGIN_MM + FIGURES_MM + row * self.per_row_mm

    def y_mm(self, off_mm: float) -> float:
        """Return where an edge so far beyond the plan stands."""
        return self.middle_mm - off_mm * self.per_mm_mm


def correction_svg(plan: Plan) -> bytes:
    """Return the picture of a plan that was corrected while laying; b"" where none was."""
    laid, surface = plan.laid, plan.surface
    if laid is None or surface is None:
        return b""
    most = _most_mm(laid, surface.rows)
    strips = [_strip(index, most, len(surface.rows)) for index in range(2)]
    notes = (LEGEND, _finish_told(laid, plan.units, ENDS[surface.run]))
    below = MARGIN_MM + HEAD_MM + 2 * (STRIP_MM + OVER_MM) + FOOT_MM
    wide = WIDE_MM - 2 * MARGIN_MM
    high = below + paragraphs_height(notes, wide) + MARGIN_MM
    title = f"{clean(plan.title)}: corrected after row {laid.rows_laid}"
    shapes: list[Shape] = [
        Lettering(layer="title", x_mm=MARGIN_MM, y_mm=MARGIN_MM + 3, size_mm=TITLE_MM,
                  anchor="start", text=fitted(title, TITLE_MM, wide)),
        Lettering(layer="title", x_mm=MARGIN_MM, y_mm=MARGIN_MM + 9, anchor="start",
                  text="How far the far edge of each row lies from the plan, in mm"),
    ]  # fmt: skip
    for strip, name, end in zip(strips, ("left", "right"), ENDS[surface.run], strict=True):
        shapes += _drawn(strip, laid, surface.rows, name, end)
    shapes += paragraphs(notes, "notes", MARGIN_MM, below, wide)
    sheet = Sheet(paper="chart", width_mm=WIDE_MM, height_mm=high, per_mm=0.0, scale="")
    return svg(shapes, sheet=sheet, name="correction", title=title, told=notes[1])


def _off(laid: Laid, rows: tuple[Row, ...], name: str) -> list[tuple[int, float, bool]]:
    """Return row, how far its far edge lies beyond the plan, and whether it was measured."""
    far = [row.near_mm + row.width_mm for row in rows]
    found = [
        (entry.reading.rows_laid,
         getattr(entry.reading, f"{name}_mm") - far[entry.reading.rows_laid - 1], True)
        for entry in laid.readings
    ]  # fmt: skip
    for number, row in enumerate(laid.rows, laid.rows_laid + 1):
        edge = getattr(row, f"near_{name}_mm") + getattr(row, f"width_{name}_mm")
        found.append((number, edge - far[number - 1], False))
    return found


def _most_mm(laid: Laid, rows: tuple[Row, ...]) -> int:
    """Return the whole millimetres that a strip has to show to either side."""
    entry = laid.readings[-1]
    offs = [abs(off) for name in ("left", "right") for _, off, _ in _off(laid, rows, name)]
    bars = [
        abs(end.as_set.expected_mm - rows[-1].near_mm - rows[-1].width_mm) + 2 * spread.sd_mm
        for end in (entry.left, entry.right)
        for spread in (end.as_set, end.by_rule)
    ]
    return max(1, ceil(max(*offs, *bars)))


def _strip(index: int, most: int, rows: int) -> _Strip:
    step = next((step for step in STEPS if 2 * most // step <= MOST_LINES), STEPS[-1])
    most = -(-most // step) * step
    top = MARGIN_MM + HEAD_MM + OVER_MM + index * (STRIP_MM + OVER_MM)
    return _Strip(
        top_mm=top,
        middle_mm=top + STRIP_MM / 2,
        per_mm_mm=STRIP_MM / 2 / most,
        per_row_mm=(WIDE_MM - 2 * MARGIN_MM - FIGURES_MM - BARS_MM) / rows,
        most_mm=most,
        step_mm=step,
    )


def _drawn(
    strip: _Strip, laid: Laid, rows: tuple[Row, ...], name: str, end: str
) -> Iterator[Shape]:
    yield Lettering(layer=f"{name}-title", x_mm=MARGIN_MM, y_mm=strip.top_mm - 3.5,
                    text=f"{end.capitalize()} end", anchor="start")  # fmt: skip
    yield from _scale(strip, name, len(rows))
    points = _off(laid, rows, name)
    places = [(strip.x_mm(0), strip.y_mm(0.0))]
    places += [(strip.x_mm(row), strip.y_mm(off)) for row, off, _ in points]
    for at, ((x1, y1), (x2, y2)) in enumerate(pairwise(places)):
        lies = points[at][2]
        pen = {"pen_mm": MEMBER_MM, "dash": "1.5 1"} if lies else {"pen_mm": OUTLINE_MM}
        yield Line(layer=f"{name}-edge", x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, **pen)
    for row, off, lies in points:
        if lies:
            yield Ring(layer=f"{name}-measured", x_mm=strip.x_mm(row), y_mm=strip.y_mm(off),
                       radius_mm=RING_MM)  # fmt: skip
    yield from _bars(strip, getattr(laid.readings[-1], name), name, rows)


def _scale(strip: _Strip, name: str, rows: int) -> Iterator[Shape]:
    """Yield lines at whole millimetres with their figures, and rows under the strip."""
    left, right = strip.x_mm(0), strip.x_mm(rows)
    for off in range(-strip.most_mm, strip.most_mm + 1, strip.step_mm):
        y = strip.y_mm(off)
        yield Line(layer=f"{name}-scale", x1_mm=left, y1_mm=y, x2_mm=right + BARS_MM, y2_mm=y,
                   pen_mm=FINE_MM if off else THIN_MM)  # fmt: skip
        yield Lettering(layer=f"{name}-scale", x_mm=left - 2, y_mm=y, anchor="end",
                        text=f"{off:+d}" if off else "0")  # fmt: skip
    every = max(1, ceil(ROW_MARKS_MM / strip.per_row_mm))
    marked = [row for row in range(every, rows, every) if rows - row >= every / 2]
    for row in (*marked, rows):
        x = strip.x_mm(row)
        yield Line(layer=f"{name}-scale", x1_mm=x, y1_mm=strip.top_mm, x2_mm=x,
                   y2_mm=strip.top_mm + STRIP_MM, pen_mm=FINE_MM)  # fmt: skip
        yield Lettering(layer=f"{name}-scale", x_mm=x, y_mm=strip.top_mm - 2, text=f"B{row}")


def _bars(strip: _Strip, end: EndForecast, name: str, rows: tuple[Row, ...]) -> Iterator[Shape]:
    """Yield two bars of 2 sd about the last edge, each with its sd beside it."""
    last = rows[-1].near_mm + rows[-1].width_mm
    for at, spread in enumerate((end.as_set, end.by_rule)):
        x = strip.x_mm(len(rows)) + 3 + at * 15
        off = spread.expected_mm - last
        top, foot = strip.y_mm(off + 2 * spread.sd_mm), strip.y_mm(off - 2 * spread.sd_mm)
        bar = Box(layer=f"{name}-bar", x_mm=x, y_mm=top, width_mm=BAR_MM, height_mm=foot - top,
                  fill="black" if at else "white")  # fmt: skip
        yield bar
        if not at:
            yield from hatch(bar, 1.6)
        yield Lettering(layer=f"{name}-bar", x_mm=x + BAR_MM + 1, y_mm=(top + foot) / 2,
                        text=f"{spread.sd_mm:g}", anchor="start", knocked=True)  # fmt: skip


def _finish_told(laid: Laid, units: str, ends: tuple[str, str]) -> str:
    entry = laid.readings[-1]
    told = [
        f"{name} end: last edge expected at {bare(end.by_rule.expected_mm, units)}, sd "
        f"{end.by_rule.sd_mm:g} mm by the rule, {end.as_set.sd_mm:g} mm measured no more"
        for name, end in zip(ends, (entry.left, entry.right), strict=True)
    ]
    return "; ".join(told).capitalize() + ". Figures beside bars are sd in mm."
