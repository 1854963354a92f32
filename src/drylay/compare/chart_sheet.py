"""The sheet of a chart: its head, panels with their axes, what is told below, and what lies on top.

All charts of studies are as wide as a page and as high as what they show.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal

from attrs import frozen

from drylay.compare.chart_axes import Scale, scale_of
from drylay.papers.lettering import Bounds, first_free, fitted, width_mm
from drylay.papers.model import FINE_MM, LETTER_MM, THIN_MM, Box, Lettering, Line, Shape, Sheet
from drylay.papers.placing import SLACK_MM
from drylay.papers.ruled import paragraphs, paragraphs_height
from drylay.papers.sheets import SLACK_RATIO
from drylay.papers.svg import svg
from drylay.papers.wording import clean

#: The sheet, in mm: its width, its margin, and what lies between the margins.
WIDE_MM, MARGIN_MM = 210.0, 10.0
ROOM_MM = WIDE_MM - 2 * MARGIN_MM
#: Lettering of titles and names, where the first panel's name stands, and air below a panel.
TITLE_MM, NAME_MM, TOP_MM, AFTER_MM = 4.0, 3.0, 26.0, 13.0
#: Within its frame a panel leaves so much free.
AIR_MM = 3.0
#: Marks of an axis reach so far out of their panel.
TICK_MM = 1.2
#: Lines across a panel, to read figures by.
GRID = "0.3 1.4"
#: So much is said to those who hear a chart read.
MOST_TOLD = 2_000
#: What lies on top of what, the lowest first.
LAYERS = (
    "blocked", "blocked-hatch", "grid", "counts", "beaten", "own", "bound", "bars", "bars-hatch",
    "cost", "marks", "frames", "leaders", "title", "names", "axis-figures", "axis-names", "words",
    "steps", "labels", "notes",
)  # fmt: skip


@frozen(kw_only=True)
class Panel:
    """A panel on the sheet, where figures stand across it and up it; `foot_mm` hold none."""

    left_mm: float
    top_mm: float
    wide_mm: float
    high_mm: float
    across: Scale
    up: Scale
    foot_mm: float = 0.0

    @property
    def bounds(self) -> Bounds:
        """Left, top, right and bottom."""
        right_mm, bottom_mm = self.left_mm + self.wide_mm, self.top_mm + self.high_mm
        return self.left_mm, self.top_mm, right_mm, bottom_mm


def chart(
    shapes: Iterable[Shape], *, name: str, title: str, under: str, notes: Sequence[str],
    told: str, below_mm: float,
) -> bytes:  # fmt: skip
    """Return a chart as SVG, black on white, its notes from `below_mm` on.

    `under` stands below the title, `told` is for those who hear it read.
    """
    title, told = clean(title), clean(told, MOST_TOLD)
    lines = tuple(clean(note, MOST_TOLD) for note in notes)
    high_mm = below_mm + paragraphs_height(lines, ROOM_MM) + MARGIN_MM
    drawn = [
        *_head(title, clean(under)),
        *shapes,
        *paragraphs(lines, "notes", MARGIN_MM, below_mm, ROOM_MM),
    ]
    drawn.sort(key=lambda shape: LAYERS.index(shape.layer))
    sheet = Sheet(paper="chart", width_mm=WIDE_MM, height_mm=high_mm, per_mm=0.0, scale="")
    return svg(drawn, sheet=sheet, name=name, title=title, told=told)


def fitting(text: str, size_mm: float, most_mm: float) -> str:
    """Return a text cut off at so many mm, less what a viewer's letters may be wider than ours."""
    return fitted(text, size_mm, most_mm * SLACK_RATIO)


def called(names: Iterable[str], most_mm: float) -> dict[str, str]:
    """Return what each name is called where it has so much room: no two alike once cut off."""
    found: dict[str, str] = {}
    for name in names:
        whole, number = clean(name), 2
        short = fitting(whole, LETTER_MM, most_mm)
        while short in found.values():
            mark = f" ({number})"
            room_mm = most_mm - width_mm(mark, LETTER_MM) / SLACK_RATIO
            short, number = fitting(whole, LETTER_MM, room_mm) + mark, number + 1
        found[name] = short
    return found


def cut_off(names: Mapping[str, str]) -> Iterator[str]:
    """Yield the whole of each name that is called otherwise."""
    for name, short in names.items():
        if short != clean(name):
            yield f"{short}: {clean(name)}"


def _head(title: str, under: str) -> Iterator[Shape]:
    yield Lettering(layer="title", x_mm=MARGIN_MM, y_mm=MARGIN_MM + 3, size_mm=TITLE_MM,
                    text=fitting(title, TITLE_MM, ROOM_MM), anchor="start")  # fmt: skip
    yield Lettering(layer="title", x_mm=MARGIN_MM, y_mm=MARGIN_MM + 8.5, anchor="start",
                    text=fitting(under, LETTER_MM, ROOM_MM))  # fmt: skip


def panel_of(
    across: Iterable[Decimal], up: Iterable[Decimal], *, top_mm: float, high_mm: float,
    room_mm: float = 0.0, right_mm: float = 0.0, foot_mm: float = 0.0,
) -> Panel:  # fmt: skip
    """Return a panel that holds these figures.

    Left of it there is room for the figures of its axis, `room_mm` at least; right of it
    `right_mm` are left free, and `foot_mm` within it at its foot.
    """
    rising = scale_of(up, top_mm + high_mm - foot_mm - AIR_MM, top_mm + AIR_MM)
    left_mm = MARGIN_MM + max(figures_mm(rising), room_mm)
    end_mm = WIDE_MM - MARGIN_MM - right_mm
    running = scale_of(across, left_mm + AIR_MM, end_mm - AIR_MM)
    return Panel(left_mm=left_mm, top_mm=top_mm, wide_mm=end_mm - left_mm, high_mm=high_mm,
                 across=running, up=rising, foot_mm=foot_mm)  # fmt: skip


def not_from_0(scale: Scale) -> tuple[str, ...]:
    """Return what is to be told of an axis of money that leaves out 0."""
    return ("The axis of money does not begin at 0.",) if scale.low > 0 else ()


def figures_mm(scale: Scale) -> float:
    """Return how much room a scale's figures take beside a panel."""
    return max(width_mm(text, LETTER_MM) for _, text in scale.marks()) + TICK_MM + 1.5


def framed(panel: Panel, across: str, up: str) -> Iterator[Shape]:
    """Yield a panel's frame, both its axes with their names, and lines to read figures by.

    The name of what stands up the panel is written above it, "" for none.
    """
    left, top, _, _ = panel.bounds
    yield Box(layer="frames", x_mm=left, y_mm=top, width_mm=panel.wide_mm,
              height_mm=panel.high_mm, pen_mm=THIN_MM)  # fmt: skip
    name = fitting(panel.up.named(up), NAME_MM, WIDE_MM - MARGIN_MM - left)
    if up:
        yield Lettering(layer="axis-names", x_mm=left, y_mm=top - 3.2, text=name, size_mm=NAME_MM,
                        anchor="start")  # fmt: skip
        yield from _up(panel)
    yield from along_bottom(panel, across)


def along_bottom(panel: Panel, name: str) -> Iterator[Shape]:
    """Yield the axis below a panel: marks, as many figures as find room, its name if it has one."""
    _, top, right, bottom = panel.bounds
    taken: list[Bounds] = []
    for x_mm, text in panel.across.marks():
        yield _grid(x_mm, top, x_mm, bottom)
        yield _tick(x_mm, bottom, x_mm, bottom + TICK_MM)
        # figures at the ends stay on the sheet, also where a viewer's letters are wider
        half_mm = width_mm(text, LETTER_MM) / 2 + 2 * SLACK_MM
        at_mm = min(max(x_mm, MARGIN_MM + half_mm), WIDE_MM - MARGIN_MM - half_mm)
        figure = Lettering(layer="axis-figures", x_mm=at_mm, y_mm=bottom + 3.0, text=text)
        yield from first_free([figure], taken)
    if name:
        called = fitting(panel.across.named(name), NAME_MM, right - MARGIN_MM)
        yield Lettering(layer="axis-names", x_mm=right, y_mm=bottom + 7.0, text=called,
                        size_mm=NAME_MM, anchor="end")  # fmt: skip


def _up(panel: Panel) -> Iterator[Shape]:
    left, _, right, _ = panel.bounds
    for y_mm, text in panel.up.marks():
        yield _grid(left, y_mm, right, y_mm)
        yield _tick(left - TICK_MM, y_mm, left, y_mm)
        yield Lettering(layer="axis-figures", x_mm=left - TICK_MM - 0.6, y_mm=y_mm, text=text,
                        anchor="end")  # fmt: skip


def _grid(x1_mm: float, y1_mm: float, x2_mm: float, y2_mm: float) -> Line:
    return Line(layer="grid", x1_mm=x1_mm, y1_mm=y1_mm, x2_mm=x2_mm, y2_mm=y2_mm, pen_mm=FINE_MM,
                dash=GRID)  # fmt: skip


def _tick(x1_mm: float, y1_mm: float, x2_mm: float, y2_mm: float) -> Line:
    return Line(layer="frames", x1_mm=x1_mm, y1_mm=y1_mm, x2_mm=x2_mm, y2_mm=y2_mm, pen_mm=THIN_MM)
