"""Groups of decks side by side as a picture: for each figure a panel of ranges with medians."""

from collections.abc import Iterator

from drylay.compare.chart_axes import axis_name, column_name, figures_of, value_told
from drylay.compare.chart_rows import (
    AIR_MM,
    NAMES_MM,
    NamedRow,
    RowPanel,
    bar,
    row_panel,
    rows_drawn,
    stroke,
)
from drylay.compare.chart_sheet import TOP_MM, called, chart, cut_off
from drylay.compare.row_reading import exact_of
from drylay.compare.study_model import Group, SideBySide, Spread
from drylay.papers.model import Shape
from drylay.papers.wording import clean, many

#: More groups, figures and codes than these are left to the table.
MOST_GROUPS, MOST_FIGURES, MOST_CODES, MOST_NAME = 24, 6, 3, 40
BETWEEN_MM = 6.0
LEGEND = (
    "Bar: from the least to the most of a group's decks that can be built; black stroke: the "
    "median. A stroke alone: all are alike. Axes need not begin at 0."
)


def svg_of(found: SideBySide) -> bytes:
    """Return the picture as SVG, black on white: a panel for each figure, a row for each group."""
    panels = list(_panels(found))
    below_mm = panels[-1][1].bottom_mm + BETWEEN_MM if panels else TOP_MM
    return chart(
        (shape for figure, panel in panels for shape in _drawn(found, figure, panel)),
        name="side-by-side",
        title=f"Side by side, by {column_name(found.by)}",
        under=many(len(found.groups), "group"),
        notes=(LEGEND, *_more(found), *cut_off(_called(found))),
        told="; ".join(
            f"{panel.title}: {'; '.join(map(str, panel.rows))}" for _, panel in panels
        ),
        below_mm=below_mm,
    )  # fmt: skip


def _called(found: SideBySide) -> dict[str, str]:
    return called((group.name for group in found.groups[:MOST_GROUPS]), NAMES_MM - AIR_MM)


def _figures(found: SideBySide) -> list[str]:
    """Return the figures in the order in which groups first have them."""
    spreads = (spread for group in found.groups for spread in group.spreads)
    return list(dict.fromkeys(spread.figure for spread in spreads))


def _panels(found: SideBySide) -> Iterator[tuple[str, RowPanel]]:
    """Yield each figure that is drawn with its panel, one under the other."""
    top_mm, groups, names = TOP_MM - 3.0, found.groups[:MOST_GROUPS], _called(found)
    for figure in _figures(found)[:MOST_FIGURES]:
        spreads = [_spread(group, figure) for group in groups]
        held = [value for each in spreads if each for value in (each.least, each.median, each.most)]
        panel = row_panel(
            figures_of(held),
            (_row(names[group.name], group, spread)
             for group, spread in zip(groups, spreads, strict=True)),
            title=axis_name(figure, held, found.currency), top_mm=top_mm,
        )  # fmt: skip
        yield figure, panel
        top_mm = panel.bottom_mm + BETWEEN_MM


def _spread(group: Group, figure: str) -> Spread | None:
    return next((each for each in group.spreads if each.figure == figure), None)


def _row(name: str, group: Group, spread: Spread | None) -> NamedRow:
    built = f"{group.buildable} of {group.count} can be built"
    return NamedRow(names=(name, built), words=_words(group, spread))


def _words(group: Group, spread: Spread | None) -> tuple[str, ...]:
    """Return a range in words, and of how many decks it is where not all have the figure."""
    if spread is None or exact_of(spread.least) is None or exact_of(spread.most) is None:
        return ("not known",) if group.buildable else _stopped(group)
    told_by = "" if spread.count == group.buildable else f", known of {spread.count}"
    if spread.least == spread.most:
        return (f"{value_told(spread.least)}{told_by}",)
    ends = f"{value_told(spread.least)} to {value_told(spread.most)}"
    return (ends, f"median {value_told(spread.median)}{told_by}")


def _stopped(group: Group) -> tuple[str, ...]:
    """Return that no deck of a group can be built, and by which codes."""
    codes = ", ".join(clean(code, MOST_NAME) for code, _ in group.stop_codes[:MOST_CODES])
    return ("none can be built", codes) if codes else ("none can be built",)


def _drawn(found: SideBySide, figure: str, panel: RowPanel) -> Iterator[Shape]:
    yield from rows_drawn(panel)
    for index, group in enumerate(found.groups[:MOST_GROUPS]):
        spread = _spread(group, figure)
        if spread is not None:
            yield from _range(spread, panel, panel.middle_mm(index))


def _range(spread: Spread, panel: RowPanel, middle_mm: float) -> Iterator[Shape]:
    least, median, most = map(exact_of, (spread.least, spread.median, spread.most))
    if least is None or most is None:
        return
    if least != most:
        yield bar(panel.scale.at_mm(least), panel.scale.at_mm(most), middle_mm)
    if median is not None:
        yield stroke(panel.scale.at_mm(median), middle_mm)


def _more(found: SideBySide) -> Iterator[str]:
    groups, figures = len(found.groups) - MOST_GROUPS, len(_figures(found)) - MOST_FIGURES
    if groups > 0:
        yield f"{many(groups, 'more group')} not drawn: the table has them all."
    if figures > 0:
        yield f"{many(figures, 'more figure')} not drawn: the table has them all."
    if not _figures(found):
        yield "No group has any figure."
