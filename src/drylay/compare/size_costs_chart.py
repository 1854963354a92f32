"""What a size costs as a picture: a stepped line for each kind of deck, its steps told below."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import pairwise

from attrs import evolve, frozen

from drylay.compare.chart_axes import amount_told, axis_name, column_name, value_told
from drylay.compare.chart_marks import (
    along,
    combed,
    crowd_of,
    evenly,
    lean,
    numbered,
    sign,
    spread_out,
)
from drylay.compare.chart_sheet import (
    AFTER_MM,
    TOP_MM,
    Panel,
    called,
    chart,
    cut_off,
    fitting,
    framed,
    not_from_0,
    panel_of,
)
from drylay.compare.size_costs_told import NO_COST, without_steps
from drylay.compare.study_model import SizeCosts, SizeLine, SizeStep
from drylay.papers.lettering import Bounds, Point
from drylay.papers.model import FINE_MM, LETTER_MM, MEMBER_MM, Box, Lettering, Line, Shape, Trace
from drylay.papers.wording import clean, many

HIGH_MM = 110.0
#: More lines, signs on a line and steps told than these could not be told apart.
MOST_LINES, MOST_SIGNS, MOST_STEPS = 8, 12, 12
#: Room for lines' names right of the panel, and where they begin.
NAMES_MM, NAME_AT_MM, APART_MM = 40.0, 7.0, 3.6
#: Each line has a band at the foot of the panel, hatched where there is no cost.
BAND_MM, BAND_HIGH_MM, PITCH_MM, LEAST_MM = 3.8, 2.4, 1.0, 0.3
#: Dashes of lines, in their order.
DASHES = ("", "3 1", "1 0.8", "5 1 1 1", "2 2", "0.4 0.8", "6 2", "3 0.8 0.6 0.8 0.6 0.8")


@frozen(kw_only=True)
class _Drawn:
    """A line on the sheet: its stretches between sizes without a cost, and those sizes."""

    name: str
    index: int
    stretches: tuple[tuple[Point, ...], ...]
    signs: tuple[Point, ...]
    blocked: tuple[tuple[float, float], ...]


def svg_of(found: SizeCosts) -> bytes:
    """Return the picture as SVG, black on white: cost at every size that rows tell of."""
    lines = found.lines[:MOST_LINES]
    panel = _panel(lines)
    names = called((line.name for line in lines), NAMES_MM - NAME_AT_MM)
    drawn = [
        evolve(_drawn(line, index, panel), name=names[line.name])
        for index, line in enumerate(lines)
    ]
    steps = _marked(found, lines)
    told = tuple(f"{number}: {_told(found, step)}" for number, step in enumerate(steps, start=1))
    title = f"Cost by {column_name(found.size)}"
    return chart(
        _shapes(found, panel, drawn, steps),
        name="size-costs",
        title=title,
        under=_under(found),
        notes=(*_notes(found), *not_from_0(panel.up), *told, *_more(found, steps), *cut_off(names)),
        told="; ".join((_under(found), *told)),
        below_mm=panel.bounds[3] + AFTER_MM,
    )


def _under(found: SizeCosts) -> str:
    apart = f", by {column_name(found.by)}" if found.by else ""
    return f"{many(len(found.lines), 'line')}{apart}; {many(len(found.steps), 'step')}"


def _panel(lines: Sequence[SizeLine]) -> Panel:
    sizes = [Decimal(str(size)) for line in lines for size in line.sizes_mm]
    costs = [cost for line in lines for cost in line.costs if cost is not None]
    named = NAMES_MM if any(line.name for line in lines) else 0.0
    return panel_of(sizes, costs, top_mm=TOP_MM, high_mm=HIGH_MM, right_mm=named,
                    foot_mm=_foot_mm(lines))  # fmt: skip


def _foot_mm(lines: Sequence[SizeLine]) -> float:
    gaps = any(cost is None for line in lines for cost in line.costs)
    return BAND_MM * len(lines) + 1.0 if gaps else 0.0


def _edges(line: SizeLine) -> list[tuple[float, float]]:
    """Return where each size's stretch begins and ends: half way to its neighbours."""
    middles = [(one + other) / 2 for one, other in pairwise(line.sizes_mm)]
    ends = [*line.sizes_mm[:1], *middles, *line.sizes_mm[-1:]]
    return list(pairwise(ends))


def _drawn(line: SizeLine, index: int, panel: Panel) -> _Drawn:
    stretches: list[list[Point]] = [[]]
    blocked: list[tuple[float, float]] = []
    middles: list[Point] = []
    for size_mm, edges, cost in zip(line.sizes_mm, _edges(line), line.costs, strict=True):
        start, end = (panel.across.at_mm(Decimal(str(edge))) for edge in edges)
        if cost is None:
            joined = blocked and start - blocked[-1][1] < 0.01
            blocked[-1:] = [(blocked[-1][0], end)] if joined else [*blocked[-1:], (start, end)]
            stretches.append([])
            continue
        y = panel.up.at_mm(cost)
        stretches[-1] += [(start, y), (end, y)]
        middles.append((panel.across.at_mm(Decimal(str(size_mm))), y))
    return _Drawn(
        name=clean(line.name), index=index, blocked=tuple(blocked),
        signs=tuple(evenly(middles, MOST_SIGNS)),
        stretches=tuple(lean(stretch) for stretch in stretches if stretch),
    )  # fmt: skip


def _shapes(
    found: SizeCosts, panel: Panel, drawn: Sequence[_Drawn], steps: Sequence[SizeStep]
) -> Iterator[Shape]:
    costs = [cost for line in found.lines for cost in line.costs]
    yield from framed(panel, axis_name(found.size), axis_name(found.cost, costs, found.currency))
    for each in drawn:
        yield from _line(each)
    yield from _names(panel, drawn)
    if any(each.blocked for each in drawn):
        for each in drawn:
            yield from _band(panel, each, len(drawn))
    points = [point for each in drawn for stretch in each.stretches for point in along(stretch)]
    taken: list[Bounds] = []
    spots = [_spot(panel, step) for step in steps]
    yield from numbered(spots, panel=panel, taken=taken, crowd=crowd_of(points))


def _line(drawn: _Drawn) -> Iterator[Shape]:
    for stretch in drawn.stretches:
        yield Trace(layer="cost", points_mm=stretch, pen_mm=MEMBER_MM, dash=DASHES[drawn.index])
    for point in drawn.signs:
        yield sign(drawn.index, point)


def _names(panel: Panel, drawn: Sequence[_Drawn]) -> Iterator[Shape]:
    """Yield each line's name beyond its end, none upon another, with a line to where it ends."""
    _, top, right, bottom = panel.bounds
    ended = [(each, each.stretches[-1][-1]) for each in drawn if each.name and each.stretches]
    at = spread_out([end[1] for _, end in ended], APART_MM, top + 2, bottom - 2 - panel.foot_mm)
    for (each, end), y in zip(ended, at, strict=True):
        x = right + NAME_AT_MM
        yield Line(layer="leaders", x1_mm=end[0], y1_mm=end[1], x2_mm=x - 3.6, y2_mm=y,
                   pen_mm=FINE_MM)  # fmt: skip
        yield sign(each.index, (x - 2.2, y))
        yield Lettering(layer="names", x_mm=x, y_mm=y, anchor="start",
                        text=fitting(each.name, LETTER_MM, NAMES_MM - NAME_AT_MM))  # fmt: skip


def _band(panel: Panel, drawn: _Drawn, lines: int) -> Iterator[Shape]:
    """Yield a line's band, hatched where it has no cost; what is too narrow for that is black."""
    _, _, right, bottom = panel.bounds
    y = bottom - BAND_MM * (lines - drawn.index - 0.5) - 0.5
    for start, end in drawn.blocked:
        wide_mm = max(end - start, LEAST_MM)
        box = Box(layer="blocked", x_mm=start, y_mm=y - BAND_HIGH_MM / 2, width_mm=wide_mm,
                  height_mm=BAND_HIGH_MM, pen_mm=FINE_MM,
                  fill="black" if wide_mm < PITCH_MM else "none")  # fmt: skip
        yield box
        if wide_mm >= PITCH_MM:
            yield from combed(box, PITCH_MM)
    if drawn.name:
        yield sign(drawn.index, (right + NAME_AT_MM - 2.2, y))
        yield Lettering(layer="names", x_mm=right + NAME_AT_MM, y_mm=y, anchor="start",
                        text=fitting(drawn.name, LETTER_MM, NAMES_MM - NAME_AT_MM))  # fmt: skip


def _spot(panel: Panel, step: SizeStep) -> Point:
    """Return the middle of a step on the sheet."""
    middle_mm = Decimal(str((step.from_mm + step.to_mm) / 2))
    return (
        panel.across.at_mm(middle_mm),
        (panel.up.at_mm(step.before) + panel.up.at_mm(step.after)) / 2,
    )


def _marked(found: SizeCosts, lines: Sequence[SizeLine]) -> list[SizeStep]:
    """Return the steps to number: those that change the cost most."""
    names = {line.name for line in lines}
    steps = [step for step in found.steps if step.line in names]
    return sorted(steps, key=lambda step: -abs(step.change))[:MOST_STEPS]


def _told(found: SizeCosts, step: SizeStep) -> str:
    name = f"{clean(step.line, 40)}, " if step.line else ""
    way = "more" if step.change > 0 else "less"
    money = amount_told(abs(step.change), found.currency)
    return (
        f"{name}from {value_told(step.from_mm)} to {value_told(step.to_mm)} mm: {money} {way}, "
        f"{value_told(step.before)} to {value_told(step.after)}"
    )


def _notes(found: SizeCosts) -> Iterator[str]:
    yield (
        "A line holds half way to the next size looked at; of sizes between the two nothing is "
        "known. Numbers: steps, the largest first, as told below."
    )
    if any(cost is None for line in found.lines for cost in line.costs):
        yield f"At the foot, hatched or black: {NO_COST[0].lower()}{NO_COST[1:]}"
    if found.without:
        yield f"{many(found.without, 'row')} without this size left out."
    if len(found.lines) > MOST_LINES:
        yield f"{many(len(found.lines) - MOST_LINES, 'more line')} not drawn: the table has them."


def _more(found: SizeCosts, steps: Sequence[SizeStep]) -> Iterator[str]:
    more = len(found.steps) - len(steps)
    if more > 0:
        yield f"and {many(more, 'more step')}: the table has them all."
    if not found.steps:
        yield f"No step: the cost {without_steps(found)}."
