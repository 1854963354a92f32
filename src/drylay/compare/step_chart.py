"""Step points as a picture: what the deck costs at every size, its steps marked and told below."""

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from attrs import frozen

from drylay.compare.chart_marks import RADIUS_MM, ringed
from drylay.compare.chart_sheet import MARGIN_MM, TITLE_MM, WIDE_MM
from drylay.compare.step_model import Flat, Step, StepPoints, Sweep
from drylay.compare.step_sweep import SIZES
from drylay.compare.step_text import CALLED, MOST_TEXT, step_told
from drylay.papers.hatching import hatch
from drylay.papers.lettering import fitted, width_mm
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Lettering,
    Line,
    Shape,
    Sheet,
)
from drylay.papers.ruled import paragraphs, paragraphs_height
from drylay.papers.svg import svg
from drylay.papers.wording import clean
from drylay.units import length_text

#: On the sheet, in mm: room for money left of a panel, a panel's height.
MONEY_MM, PANEL_MM = 22.0, 52.0
#: What stands above the first panel, above each for its name, and below each for its sizes.
HEAD_MM, NAME_MM, SIZES_MM, BETWEEN_MM = 12.0, 8.0, 12.0, 6.0
PITCH_MM = 2.0
#: How much of a panel is left free above and below the dearest and the cheapest.
AIR_RATIO = 0.16
#: So many steps are marked in a panel, the nearest first: more could not be told apart.
MOST_MARKED = 8
#: What lies on top of what, the lowest first.
LAYERS = (
    "blocked",
    "blocked-hatch",
    "frames",
    "own",
    "cost",
    "steps",
    "title",
    "names",
    "money",
    "sizes",
    "notes",
)
LEGEND = (
    "Stepped line: the whole order at every size. Dashed: the brief's own size, and its cost. "
    "Hatched: it cannot be built. Numbers: the steps told below, each at its exact point. The line "
    "of money does not begin at 0."
)


@frozen(kw_only=True)
class _Panel:
    """One size's panel: its sweep, its steps by number, and where sizes and money stand."""

    sweep: Sweep
    steps: tuple[tuple[int, Step], ...]
    top_mm: float
    first_mm: float
    last_mm: float
    least: Decimal
    most: Decimal

    def x_mm(self, size_mm: float) -> float:
        """Return where a size stands across the sheet."""
        left_mm = MARGIN_MM + MONEY_MM
        wide_mm = WIDE_MM - MARGIN_MM - left_mm
        return left_mm + wide_mm * (size_mm - self.first_mm) / (self.last_mm - self.first_mm)

    def y_mm(self, money: Decimal) -> float:
        """Return where an amount stands down the sheet."""
        span, air_mm = self.most - self.least, PANEL_MM * AIR_RATIO
        ratio = float((self.most - money) / span) if span else 0.5
        return self.top_mm + air_mm + (PANEL_MM - 2 * air_mm) * ratio


def step_points_svg(points: StepPoints) -> bytes:
    """Return the picture as SVG, black on white: a panel for each size that was looked at."""
    panels = tuple(_panels(points))
    told = tuple(
        f"{number}: {step_told(step, points.units)}"
        for panel in panels
        for number, step in panel.steps
    )
    notes = (LEGEND, *(told or ("No step within reach.",)))
    below_mm = _top_mm(len(panels)) - NAME_MM
    wide_mm = WIDE_MM - 2 * MARGIN_MM
    high_mm = below_mm + paragraphs_height(notes, wide_mm) + MARGIN_MM
    title = f"{clean(points.title, MOST_TEXT)}: what would change it"
    shapes = [
        *_head(title, points),
        *(shape for panel in panels for shape in _panel(panel, points)),
        *paragraphs(notes, "notes", MARGIN_MM, below_mm, wide_mm),
    ]
    sheet = Sheet(paper="chart", width_mm=WIDE_MM, height_mm=high_mm, per_mm=0.0, scale="")
    shapes.sort(key=lambda shape: LAYERS.index(shape.layer))
    return svg(shapes, sheet=sheet, name="step-points", title=title, told="; ".join(told))


def _top_mm(number: int) -> float:
    each_mm = NAME_MM + PANEL_MM + SIZES_MM + BETWEEN_MM
    return MARGIN_MM + HEAD_MM + NAME_MM + number * each_mm


def _panels(points: StepPoints) -> Iterator[_Panel]:
    number, at = 1, 0
    for sweep in points.sweeps:
        if sweep.path not in SIZES:
            continue
        first_mm, last_mm = sweep.flats[0].first_mm, sweep.flats[-1].last_mm
        inside = [
            s for s in points.steps if s.path == sweep.path and first_mm <= s.to_mm <= last_mm
        ]
        near = sorted(inside, key=lambda step: abs(step.change_mm))[:MOST_MARKED]
        marked = tuple(enumerate(sorted(near, key=lambda step: step.to_mm), start=number))
        totals = [each.figures.total for each in sweep.flats if each.figures.total is not None]
        yield _Panel(
            sweep=sweep, steps=marked, top_mm=_top_mm(at), least=min(totals, default=Decimal(0)),
            most=max(totals, default=Decimal(0)), first_mm=first_mm - sweep.apart_mm / 2,
            last_mm=last_mm + sweep.apart_mm / 2,
        )  # fmt: skip
        number, at = number + len(marked), at + 1


def _head(title: str, points: StepPoints) -> Iterator[Shape]:
    text = fitted(title, TITLE_MM, WIDE_MM - 2 * MARGIN_MM)
    yield Lettering(layer="title", x_mm=MARGIN_MM, y_mm=MARGIN_MM + 2, text=text,
                    size_mm=TITLE_MM, anchor="start")  # fmt: skip
    unit = f"Order with spares, {clean(points.currency, 8)}"
    yield Lettering(layer="title", x_mm=MARGIN_MM, y_mm=MARGIN_MM + 8, text=unit, anchor="start")


def _panel(panel: _Panel, points: StepPoints) -> Iterator[Shape]:
    left_mm, wide_mm = panel.x_mm(panel.first_mm), WIDE_MM - 2 * MARGIN_MM - MONEY_MM
    name = CALLED[panel.sweep.path]
    yield Lettering(layer="names", x_mm=left_mm, y_mm=panel.top_mm - 3.5, text=name,
                    size_mm=3.0, anchor="start")  # fmt: skip
    for flat in panel.sweep.flats:
        yield from _blocked(panel, flat)
    yield Box(layer="frames", x_mm=left_mm, y_mm=panel.top_mm, width_mm=wide_mm,
              height_mm=PANEL_MM, pen_mm=THIN_MM)  # fmt: skip
    yield from _own(panel, points)
    yield from _stepped(panel)
    yield from _money(panel, points)
    yield from _sizes(panel, points)
    yield from _marks(panel)


def _ends_mm(panel: _Panel, flat: Flat) -> tuple[float, float]:
    """Return where a flat begins and ends on the sheet: half way to its neighbours."""
    half_mm = panel.sweep.apart_mm / 2
    return panel.x_mm(flat.first_mm - half_mm), panel.x_mm(flat.last_mm + half_mm)


def _blocked(panel: _Panel, flat: Flat) -> Iterator[Shape]:
    if flat.figures.stops:
        start_mm, end_mm = _ends_mm(panel, flat)
        box = Box(layer="blocked", x_mm=start_mm, y_mm=panel.top_mm, width_mm=end_mm - start_mm,
                  height_mm=PANEL_MM, pen_mm=FINE_MM)  # fmt: skip
        yield box
        yield from hatch(box, PITCH_MM)


def _stepped(panel: _Panel) -> Iterator[Shape]:
    for flat in panel.sweep.flats:
        if flat.figures.total is not None:
            start_mm, end_mm = _ends_mm(panel, flat)
            y_mm = panel.y_mm(flat.figures.total)
            yield _pen(start_mm, y_mm, end_mm, y_mm)
    for one, other in pairwise(panel.sweep.flats):
        if one.figures.total is not None and other.figures.total is not None:
            x_mm = _ends_mm(panel, one)[1]
            yield _pen(x_mm, panel.y_mm(one.figures.total), x_mm, panel.y_mm(other.figures.total))


def _pen(x1_mm: float, y1_mm: float, x2_mm: float, y2_mm: float) -> Line:
    return Line(layer="cost", x1_mm=x1_mm, y1_mm=y1_mm, x2_mm=x2_mm, y2_mm=y2_mm, pen_mm=OUTLINE_MM)


def _own(panel: _Panel, points: StepPoints) -> Iterator[Shape]:
    """Yield the brief's own size and cost, dashed."""
    x_mm, right_mm = panel.x_mm(panel.sweep.here_mm), WIDE_MM - MARGIN_MM
    yield Line(layer="own", x1_mm=x_mm, y1_mm=panel.top_mm, x2_mm=x_mm,
               y2_mm=panel.top_mm + PANEL_MM, pen_mm=FINE_MM, dash="2 1")  # fmt: skip
    if points.here.total is not None:
        y_mm = panel.y_mm(points.here.total)
        yield Line(layer="own", x1_mm=panel.x_mm(panel.first_mm), y1_mm=y_mm, x2_mm=right_mm,
                   y2_mm=y_mm, pen_mm=FINE_MM, dash="2 1")  # fmt: skip


def _money(panel: _Panel, points: StepPoints) -> Iterator[Shape]:
    """Yield the dearest, the cheapest and the brief's own order, where they do not collide."""
    wanted = [points.here.total, panel.most, panel.least]
    taken: list[float] = []
    for money in wanted:
        if not money or any(abs(panel.y_mm(money) - y_mm) < 1.2 * LETTER_MM for y_mm in taken):
            continue
        taken.append(panel.y_mm(money))
        yield Lettering(layer="money", x_mm=MARGIN_MM + MONEY_MM - 1.5, y_mm=taken[-1],
                        text=f"{money:f}", anchor="end")  # fmt: skip


def _sizes(panel: _Panel, points: StepPoints) -> Iterator[Shape]:
    """Yield the brief's own size below the panel, and the first and the last looked at."""
    flats = panel.sweep.flats
    sizes_mm = (panel.sweep.here_mm, flats[0].first_mm, flats[-1].last_mm)
    anchors = ("middle", "start", "end")
    own_mm = panel.x_mm(panel.sweep.here_mm)
    for size_mm, anchor in zip(sizes_mm, anchors, strict=True):
        text = length_text(size_mm, points.units)
        x_mm = panel.x_mm(size_mm)
        if anchor != "middle" and abs(x_mm - own_mm) < 1.6 * width_mm(text, LETTER_MM):
            continue
        yield Lettering(layer="sizes", x_mm=x_mm, y_mm=panel.top_mm + PANEL_MM + 3, text=text,
                        anchor=anchor)  # fmt: skip


def _marks(panel: _Panel) -> Iterator[Shape]:
    """Yield each step's number in a ring, above its exact point or below it where one is near."""
    before_mm, low = -WIDE_MM, False
    for number, step in panel.steps:
        half_mm = panel.sweep.apart_mm / 2 * (1 if step.to_mm > step.last_mm else -1)
        x_mm = panel.x_mm(step.to_mm - half_mm)
        low = x_mm - before_mm < 2.4 * RADIUS_MM and not low
        before_mm = x_mm
        y_mm = panel.top_mm + (PANEL_MM - 3 if low else 3)
        end_mm = panel.top_mm + (0 if low else PANEL_MM)
        yield Line(layer="steps", x1_mm=x_mm, y1_mm=y_mm, x2_mm=x_mm, y2_mm=end_mm,
                   pen_mm=FINE_MM)  # fmt: skip
        yield from ringed(number, x_mm, y_mm)
