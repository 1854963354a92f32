"""What is not certain as a picture: for each figure how samples lie, and their quantiles."""

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal

from attrs import frozen

from drylay.compare.chart_axes import axis_name, figures_of, scale_of, value_told, with_unit
from drylay.compare.chart_marks import evenly
from drylay.compare.chart_rows import bar, stroke
from drylay.compare.chart_sheet import (
    AIR_MM,
    MARGIN_MM,
    NAME_MM,
    ROOM_MM,
    TOP_MM,
    WIDE_MM,
    Panel,
    along_bottom,
    chart,
    fitting,
)
from drylay.compare.row_reading import can_be_built, exact_of
from drylay.compare.study_model import Quantile, Sampled, Uncertainty
from drylay.papers.model import FINE_MM, LETTER_MM, THIN_MM, Box, Lettering, Line, Shape
from drylay.papers.ruled import LINE_MM
from drylay.papers.wording import clean, many

#: More figures, and quantiles of one, than these are left to the table.
MOST_FIGURES, MOST_QUANTILES = 8, 8
#: A panel's height, room above it for its name and below it for its axis, what the quantiles take
#: at its foot, and the room for them in words at its right.
HIGH_MM, NAME_ROOM_MM, BELOW_MM, FOOT_MM, WORDS_MM = 30.0, 8.0, 7.0, 8.0, 56.0
#: Samples are counted in so many parts of the axis, where they have more figures than a few.
PARTS, FEW = 40, 12
MEDIAN = 0.5
#: A year's two ends are one where all lives are drawn: they share a panel of this name.
ENDS, A_YEAR = ("yearly_least", "yearly_most"), "cost a year"
LEGEND = (
    "Columns: how many samples lie there. Bar: from the lowest quantile told to the highest, with "
    "a stroke at each, a thick one at the median. 95 % at most 12: of 100 samples 95 come to 12 or "
    "less. Axes need not begin at 0."
)


@frozen(kw_only=True)
class _Drawn:
    """A figure, its panel, the samples that have it, and the quantiles told in words."""

    sampled: Sampled
    name: str
    panel: Panel
    samples: tuple[Decimal, ...]
    told: tuple[Quantile, ...]


def svg_of(found: Uncertainty) -> bytes:
    """Return the picture as SVG, black on white: a panel for each figure."""
    shown = _figures(found)[:MOST_FIGURES]
    drawn = [_figure(found, name, each, at) for at, (name, each) in enumerate(shown)]
    below_mm = drawn[-1].panel.bounds[3] + BELOW_MM if drawn else TOP_MM
    return chart(
        (shape for each in drawn for shape in _shapes(each)),
        name="uncertainty",
        title=f"{clean(found.title, 60)}: what is not certain",
        under=_under(found),
        notes=(LEGEND, *_notes(found)),
        told="; ".join((_under(found), *(f"{each.name}: {_in_words(each)}" for each in drawn))),
        below_mm=below_mm,
    )


def _under(found: Uncertainty) -> str:
    blocked = f", {found.blocked} of them without a plan" if found.blocked else ""
    return f"{many(found.samples, 'sample')}{blocked}; seed {found.seed}"


def _figures(found: Uncertainty) -> list[tuple[str, Sampled]]:
    """Return what is drawn, by name: what would be the same picture twice once."""
    least, most = ENDS
    named = {each.figure: each.quantiles for each in found.figures}
    one = (
        least in named
        and named[least] == named.get(most)
        and all(row.get(least) == row.get(most) for row in found.rows)
    )
    both = {least: with_unit(A_YEAR, clean(found.currency, 8))} if one else {}
    return [
        (both.get(each.figure) or _name(found, each), each)
        for each in found.figures
        if not (one and each.figure == most)
    ]


def _name(found: Uncertainty, sampled: Sampled) -> str:
    return axis_name(sampled.figure, [each.value for each in sampled.quantiles], found.currency)


def _figure(found: Uncertainty, name: str, sampled: Sampled, at: int) -> _Drawn:
    samples = figures_of(row.get(sampled.figure) for row in found.rows if can_be_built(row))
    values = [each.value for each in sampled.quantiles]
    left_mm, end_mm = MARGIN_MM, WIDE_MM - MARGIN_MM - WORDS_MM
    top_mm = TOP_MM + NAME_ROOM_MM - 3.0 + at * (HIGH_MM + BELOW_MM + NAME_ROOM_MM)
    across = scale_of((*samples, *figures_of(values)), left_mm + AIR_MM, end_mm - AIR_MM)
    up = scale_of((), top_mm + HIGH_MM - FOOT_MM, top_mm + AIR_MM)
    return _Drawn(
        sampled=sampled,
        name=name,
        panel=Panel(left_mm=left_mm, top_mm=top_mm, wide_mm=end_mm - left_mm, high_mm=HIGH_MM,
                    across=across, up=up, foot_mm=FOOT_MM),
        samples=tuple(samples),
        told=tuple(evenly(sampled.quantiles, MOST_QUANTILES)),
    )  # fmt: skip


def _shapes(drawn: _Drawn) -> Iterator[Shape]:
    panel = drawn.panel
    left, top, right, _ = panel.bounds
    yield Box(layer="frames", x_mm=left, y_mm=top, width_mm=panel.wide_mm,
              height_mm=panel.high_mm, pen_mm=THIN_MM)  # fmt: skip
    yield Lettering(layer="names", x_mm=left, y_mm=top - 3.2, size_mm=NAME_MM, anchor="start",
                    text=fitting(panel.across.named(drawn.name), NAME_MM, ROOM_MM))  # fmt: skip
    yield from along_bottom(panel, "")
    yield from _columns(drawn)
    yield from _quantiles(drawn)
    for line, text in enumerate(_words(drawn)):
        yield Lettering(layer="words", x_mm=right + 3, y_mm=top + LINE_MM * (line + 0.5),
                        text=fitting(text, LETTER_MM, WORDS_MM - 3), anchor="start")  # fmt: skip


def _columns(drawn: _Drawn) -> Iterator[Shape]:
    """Yield columns as high as samples lie there: one for each figure where these are few."""
    across, up = drawn.panel.across, drawn.panel.up
    places = [across.at_mm(sample) for sample in drawn.samples]
    wide_mm = (across.to_mm - across.from_mm) / PARTS
    counts = Counter(places)
    if len(counts) > FEW:
        counts = Counter(
            across.from_mm + wide_mm * (min(int((x - across.from_mm) / wide_mm), PARTS - 1) + 0.5)
            for x in places
        )
    for x, count in sorted(counts.items()):
        high_mm = (up.from_mm - up.to_mm) * count / max(counts.values())
        yield Box(layer="counts", x_mm=x - wide_mm / 2, y_mm=up.from_mm - high_mm,
                  width_mm=wide_mm, height_mm=high_mm, pen_mm=FINE_MM, fill="white")  # fmt: skip


def _quantiles(drawn: _Drawn) -> Iterator[Shape]:
    middle_mm = drawn.panel.bounds[3] - FOOT_MM / 2
    places = [
        (drawn.panel.across.at_mm(figure), each.ratio)
        for each in drawn.told if (figure := exact_of(each.value)) is not None
    ]  # fmt: skip
    if not places:
        return
    box = bar(places[0][0], places[-1][0], middle_mm)
    yield box
    for x, ratio in places:
        if ratio == MEDIAN:
            yield stroke(x, middle_mm)
        else:
            yield Line(layer="marks", x1_mm=x, y1_mm=box.y_mm, x2_mm=x,
                       y2_mm=box.y_mm + box.height_mm, pen_mm=THIN_MM)  # fmt: skip


def _words(drawn: _Drawn) -> Iterator[str]:
    if not drawn.told:
        yield "no sample has it"
    for each in drawn.told:
        share = {0.0: "none below", 1.0: "all at most"}.get(each.ratio)
        yield f"{share or f'{each.ratio * 100:.10g} % at most'} {value_told(each.value)}"


def _in_words(drawn: _Drawn) -> str:
    return ", ".join(_words(drawn))


def _notes(found: Uncertainty) -> Iterator[str]:
    if found.blocked:
        left = found.samples - found.blocked
        yield f"{many(found.blocked, 'sample')} came to no plan: shares are of the other {left}."
    if found.assumed:
        yield "What was drawn, and what all this rests on, is told in the text."
    hidden = len(_figures(found)) - MOST_FIGURES
    if hidden > 0:
        yield f"{many(hidden, 'more figure')} not drawn: the table has them all."
    if any(len(each.quantiles) > MOST_QUANTILES for each in found.figures):
        yield f"No more than {MOST_QUANTILES} quantiles are drawn: the table has them all."
