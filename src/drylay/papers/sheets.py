"""Which paper and scale a figure gets, and what frames every sheet: title block, scale bar."""

from math import ceil

from drylay.papers.lettering import fitted, width_mm
from drylay.papers.model import FINE_MM, OUTLINE_MM, THIN_MM, Box, Lettering, Line, Shape, Sheet
from drylay.papers.wording import clean

MARGIN_MM, STRIP_MM, AIR_MM = 10.0, 25.0, 3.0
INSET_MM = MARGIN_MM + AIR_MM
TITLE_MM, BAR_MM = 92.0, 62.0
#: How high the title is lettered: as it fits, cut off only beyond the last.
TITLE_HIGH_MM = (4.0, 3.5, 3.0, 2.5)
#: A viewer's letters may be a little wider than ours.
SLACK_RATIO = 0.94
#: A space at which no line ends.
HELD = "\u00a0"
#: So many lines of notes find room in the strip at a sheet's foot.
MOST_LINES = 7
MM_PER_FOOT = 304.8

#: ISO 216 and ANSI/ASME Y14.1 sheets, landscape. Sizes from memory.
PAPERS = {
    "metric": (("A4", 297.0, 210.0), ("A3", 420.0, 297.0), ("A2", 594.0, 420.0),
               ("A1", 841.0, 594.0), ("A0", 1189.0, 841.0)),
    "imperial": (("Letter", 279.4, 215.9), ("Tabloid", 431.8, 279.4), ("ANSI C", 558.8, 431.8),
                 ("ANSI D", 863.6, 558.8), ("ANSI E", 1117.6, 863.6)),
}  # fmt: skip
#: ISO 5455 scales, and the builder's scales of inches to the foot. From memory.
SCALES = {
    "metric": tuple((per, f"1:{per}") for per in (2, 5, 10, 20, 50, 100, 200, 500, 1000)),
    "imperial": ((4, "3 in = 1 ft"), (8, "1 1/2 in = 1 ft"), (12, "1 in = 1 ft"),
                 (16, "3/4 in = 1 ft"), (24, "1/2 in = 1 ft"), (48, "1/4 in = 1 ft"),
                 (96, "1/8 in = 1 ft"), (192, "1/16 in = 1 ft"), (384, "1/32 in = 1 ft"),
                 (768, "1/64 in = 1 ft")),
}  # fmt: skip
BARS = {
    "metric": tuple((float(n), f"{n} mm" if n < 1000 else f"{n // 1000} m")
                    for n in (20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000)),
    "imperial": ((MM_PER_FOOT / 4, "3 in"), (MM_PER_FOOT / 2, "6 in"),
                 *((feet * MM_PER_FOOT, f"{feet} ft") for feet in (1, 2, 5, 10, 20, 50, 100))),
}  # fmt: skip
#: What is too large for every sheet is drawn on a roll: its least sides, its scale.
SMALLEST_MM = 297
ROLL = {"metric": (50.0, "1:50"), "imperial": (48.0, "1/4 in = 1 ft")}
#: The bar is as long as fits into this much paper.
BAR_MOST_MM = 50.0


def sheets(units: str) -> tuple[Sheet, ...]:
    """Return every sheet there is, the smallest papers first, the largest scale first in each."""
    return tuple(
        Sheet(paper=paper, width_mm=width, height_mm=height, per_mm=float(per), scale=scale)
        for paper, width, height in PAPERS[units]
        for per, scale in SCALES[units]
    )


def roll(units: str, wide_mm: float, high_mm: float) -> Sheet:
    """Return a sheet as large as a figure of this size on paper needs."""
    per_mm, scale = ROLL[units]
    width = max(SMALLEST_MM, ceil(wide_mm + 2 * INSET_MM))
    height = max(SMALLEST_MM, ceil(high_mm + 2 * INSET_MM + STRIP_MM))
    return Sheet(paper=f"{width} x {height} mm", width_mm=float(width), height_mm=float(height),
                 per_mm=per_mm, scale=scale)  # fmt: skip


def room(sheet: Sheet) -> tuple[float, float]:
    """Return the width and height that a sheet leaves for a figure with its dimensions."""
    return sheet.width_mm - 2 * INSET_MM, sheet.height_mm - 2 * INSET_MM - STRIP_MM


def title_block(
    sheet: Sheet, *, title: str, drawing: str, units: str, notes: tuple[str, ...],
    counted: str = "; counted from the datum corner",
) -> list[Shape]:  # fmt: skip
    """Return what frames a sheet: border, notes, scale bar, title."""
    left, right = MARGIN_MM, sheet.width_mm - MARGIN_MM
    top, bottom = sheet.height_mm - MARGIN_MM - STRIP_MM, sheet.height_mm - MARGIN_MM
    first, second = right - TITLE_MM - BAR_MM, right - TITLE_MM
    border = Box(layer="border", x_mm=left, y_mm=left, width_mm=right - left,
                 height_mm=bottom - left, pen_mm=OUTLINE_MM)  # fmt: skip
    strip = Line(layer="border", x1_mm=left, y1_mm=top, x2_mm=right, y2_mm=top)
    posts = [
        Line(layer="border", x1_mm=x, y1_mm=top, x2_mm=x, y2_mm=bottom) for x in (first, second)
    ]
    return [
        border, strip, *posts,
        *_notes(notes, left + AIR_MM, top, notes_width(sheet)),
        *_scale_bar(sheet, units, first + AIR_MM, top),
        *_title(sheet, title, drawing, units, counted),
    ]  # fmt: skip


def _notes(notes: tuple[str, ...], x: float, top: float, most_mm: float) -> list[Shape]:
    lines = [line for note in notes for line in wrapped(note, 2.5, most_mm)]
    return [
        Lettering(layer="notes", x_mm=x, y_mm=top + 3.0 + 3.2 * index, text=line, anchor="start")
        for index, line in enumerate(lines[:MOST_LINES])
    ]


def notes_width(sheet: Sheet) -> float:
    """Return how wide a line of notes beside the scale bar may be."""
    return (sheet.width_mm - 2 * MARGIN_MM - TITLE_MM - BAR_MM - 2 * AIR_MM) * SLACK_RATIO


def body_notes(sheet: Sheet, notes: tuple[str, ...]) -> tuple[str, ...]:
    """Return the notes that must stand in the figure: all, where the foot has no room for all."""
    lines = sum(len(wrapped(note, 2.5, notes_width(sheet))) for note in notes)
    return notes if lines > MOST_LINES else ()


def wrapped(text: str, size_mm: float, most_mm: float) -> list[str]:
    """Return a text as lines no wider than `most_mm`; longer words are cut off."""
    lines: list[str] = []
    for word in filter(None, text.split(" ")):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, size_mm) <= most_mm:
            lines[-1] = longer
        else:
            lines.append(fitted(word, size_mm, most_mm))
    return [line.replace(HELD, " ") for line in lines]


def held(text: str) -> str:
    """Return a text that `wrapped` keeps on one line: a length torn in two is misread."""
    return text.replace(" ", HELD)


def _scale_bar(sheet: Sheet, units: str, x: float, top: float) -> list[Shape]:
    """Return a bar of four fields whose whole length is a round figure of deck."""
    fits = [bar for bar in BARS[units] if bar[0] / sheet.per_mm <= BAR_MOST_MM]
    real_mm, label = fits[-1]
    field_mm = real_mm / sheet.per_mm / 4
    fields: list[Shape] = [
        Box(layer="scale-bar", x_mm=x + index * field_mm, y_mm=top + 11.0, width_mm=field_mm,
            height_mm=2.0, pen_mm=FINE_MM, fill="white" if index % 2 else "black")
        for index in range(4)
    ]  # fmt: skip
    words = [
        Lettering(layer="scale", x_mm=x, y_mm=top + 5.0, text=f"scale {sheet.scale}",
                  size_mm=3.0, anchor="start"),
        Lettering(layer="scale", x_mm=x, y_mm=top + 16.5, text="0", anchor="start"),
        Lettering(layer="scale", x_mm=x + 4 * field_mm, y_mm=top + 16.5, text=label, anchor="end"),
        Lettering(layer="scale", x_mm=x, y_mm=top + 21.0, text=f"true on {sheet.paper} paper only",
                  anchor="start"),
    ]  # fmt: skip
    return [*fields, *words]


def _title(sheet: Sheet, title: str, drawing: str, units: str, counted: str) -> list[Shape]:
    left = sheet.width_mm - MARGIN_MM - TITLE_MM + AIR_MM
    top = sheet.height_mm - MARGIN_MM - STRIP_MM
    unit = "sizes in mm" if units == "metric" else "sizes in feet and inches"
    name, most_mm = clean(title), TITLE_MM - 2 * AIR_MM
    high_mm = next(
        (h for h in TITLE_HIGH_MM if fitted(name, h, most_mm) == name), TITLE_HIGH_MM[-1]
    )
    lines = (
        (5.5, high_mm, name),
        (11.5, 3.5, drawing),
        (16.5, 2.5, f"{unit}{counted}"),
        (20.5, 2.5, f"{sheet.paper}, {sheet.scale}; take no size off the paper"),
    )
    return [
        Lettering(layer="title-block", x_mm=left, y_mm=top + down, size_mm=high, anchor="start",
                  text=fitted(text, high, most_mm))
        for down, high, text in lines
    ]  # fmt: skip


def rule(layer: str, x1: float, y1: float, x2: float, y2: float) -> Line:
    """Return a thin line, as dimensions and leaders have."""
    return Line(layer=layer, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=THIN_MM)
