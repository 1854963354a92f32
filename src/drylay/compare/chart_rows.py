"""Rows of a chart: a name at the left, a bar over an axis of figures, what it says at the right."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from attrs import frozen

from drylay.compare.chart_axes import Scale, scale_of
from drylay.compare.chart_marks import combed
from drylay.compare.chart_sheet import MARGIN_MM, NAME_MM, ROOM_MM, WIDE_MM, fitting
from drylay.papers.lettering import Bounds, first_free
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    Box,
    Lettering,
    Line,
    Shape,
)

#: Room for names at the left and words at the right, in mm; the axis lies between them.
NAMES_MM, WORDS_MM, AIR_MM = 40.0, 64.0, 3.0
#: A row's height, its bar's, and the head of a panel: its name, and figures of the axis.
ROW_MM, BAR_MM, HEAD_MM = 8.5, 4.4, 11.0
#: Two lines of text in a row stand so far off its middle; lines of a hatching so far apart.
LINE_MM, PITCH_MM = 1.7, 2.0


@frozen(kw_only=True)
class NamedRow:
    """A row: one or two lines of text at its left, its name first, and as many at its right.

    As text it is what those hear who have the chart read.
    """

    names: tuple[str, ...]
    words: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.names[0]}: {', '.join(self.words)}"


@frozen(kw_only=True)
class RowPanel:
    """Rows under one axis of figures."""

    title: str
    top_mm: float
    scale: Scale
    rows: tuple[NamedRow, ...]

    def middle_mm(self, index: int) -> float:
        """Return how far down the sheet the middle of a row lies."""
        return self.top_mm + HEAD_MM + ROW_MM * (index + 0.5)

    @property
    def bottom_mm(self) -> float:
        """Return how far down the sheet the last row ends."""
        return self.top_mm + HEAD_MM + ROW_MM * len(self.rows)


def row_panel(
    figures: Iterable[Decimal], rows: Iterable[NamedRow], *, title: str, top_mm: float,
    with_zero: bool = False,
) -> RowPanel:  # fmt: skip
    """Return a panel whose axis holds these figures."""
    start_mm, end_mm = MARGIN_MM + NAMES_MM, WIDE_MM - MARGIN_MM - WORDS_MM
    scale = scale_of(figures, start_mm, end_mm, most=5, with_zero=with_zero)
    return RowPanel(title=title, top_mm=top_mm, scale=scale, rows=tuple(rows))


def rows_drawn(panel: RowPanel) -> Iterator[Shape]:
    """Yield a panel's name, its axis, and the name and the words of each row."""
    title = fitting(panel.scale.named(panel.title), NAME_MM, ROOM_MM)
    yield Lettering(layer="axis-names", x_mm=MARGIN_MM, y_mm=panel.top_mm + 2, text=title,
                    size_mm=NAME_MM, anchor="start")  # fmt: skip
    yield from _axis(panel)
    for index, row in enumerate(panel.rows):
        y = panel.middle_mm(index)
        yield from _lines(row.names, MARGIN_MM, y, NAMES_MM - AIR_MM, "names")
        yield from _lines(row.words, WIDE_MM - MARGIN_MM - WORDS_MM + AIR_MM, y, WORDS_MM - AIR_MM,
                          "words")  # fmt: skip


def _axis(panel: RowPanel) -> Iterator[Shape]:
    top, bottom = panel.top_mm + HEAD_MM, panel.bottom_mm
    taken: list[Bounds] = []
    for x, text in panel.scale.marks():
        pen = OUTLINE_MM if text == "0" else FINE_MM
        yield Line(layer="grid", x1_mm=x, y1_mm=top - 1, x2_mm=x, y2_mm=bottom, pen_mm=pen)
        figure = Lettering(layer="axis-figures", x_mm=x, y_mm=top - 3, text=text)
        yield from first_free([figure], taken)


def _lines(
    texts: Sequence[str], x: float, y: float, most_mm: float, layer: str
) -> Iterator[Shape]:  # fmt: skip
    off = LINE_MM if len(texts) > 1 else 0.0
    for text, line in zip(texts, (-off, off), strict=False):
        yield Lettering(layer=layer, x_mm=x, y_mm=y + line, anchor="start",
                        text=fitting(text, LETTER_MM, most_mm))  # fmt: skip


def bar(one_mm: float, other_mm: float, middle_mm: float, fill: str = "white") -> Box:
    """Return a bar between two places of an axis."""
    return Box(layer="bars", x_mm=min(one_mm, other_mm), y_mm=middle_mm - BAR_MM / 2,
               width_mm=abs(other_mm - one_mm), height_mm=BAR_MM, pen_mm=MEMBER_MM,
               fill=fill)  # fmt: skip


def hatched(box: Box, *, crossed: bool = False) -> Iterator[Shape]:
    """Yield a bar with its hatching, both ways where it is `crossed`."""
    yield box
    for rising in (True, False) if crossed else (True,):
        yield from combed(box, PITCH_MM, rising=rising)


def stroke(x_mm: float, middle_mm: float) -> Box:
    """Return a black stroke across a bar."""
    return Box(layer="marks", x_mm=x_mm - 0.45, y_mm=middle_mm - BAR_MM / 2 - 0.5, width_mm=0.9,
               height_mm=BAR_MM + 1.0, pen_mm=0.0, fill="black")  # fmt: skip
