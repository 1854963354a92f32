"""Groups side by side in words, and as flat rows."""

from collections.abc import Callable, Iterator, Mapping, Sequence

from drylay.compare.row_reading import told_value
from drylay.compare.rows_seen import codes_told, gaps_told
from drylay.compare.side_by_side import COSTS, YEARS
from drylay.compare.study_model import Group, Row, SideBySide, Spread
from drylay.compare.table import LEFT_OUT, MOST_NAME, NOT_KNOWN, NOTHING
from drylay.papers.layout import COLUMNS, heading, points, table
from drylay.papers.wording import clean, many

#: So many groups are told in words: the rest stands in the table.
MOST_GROUPS = 40
MOST_FIGURE = 32
#: What a study's figures are called here.
CALLED = {
    "total": "first cost",
    "yearly_least": "cost a year, lives at most",
    "yearly_most": "cost a year, lives at least",
}
MEDIAN = "Median: of two figures in the middle the higher one is told."
MEDIAN_YEARS = "Median: of two figures in the middle the higher one is told, of years the lower."
UNLIKE = (
    "Figures are of the decks that can be built. Where some cannot, groups are not of the same "
    "decks: hold them against each other with care."
)
UPKEEP = "Upkeep is in a year's cost only where the study was told the price of an hour."

_Cells = Callable[[Group], str]
#: What each group is called in a table's head, by its name.
_Heads = Mapping[str, str]


def rows_of(answer: SideBySide) -> tuple[Row, ...]:
    """Return one row for each group, with the least, the median and the most of each figure.

    "most_total" is the most that `total` comes to: units stay at the end of a name.
    """
    return tuple(_row(answer, group) for group in answer.groups)


def _row(answer: SideBySide, group: Group) -> Row:
    row: Row = {
        "by": answer.by,
        "group": group.name,
        "count": group.count,
        "buildable_count": group.buildable,
        "stop_codes": " ".join(code for code, _ in group.stop_codes),
        "currency": answer.currency or None,
    }
    for spread in group.spreads:
        row[f"known_{spread.figure}"] = spread.count
        row[f"least_{spread.figure}"] = spread.least
        row[f"median_{spread.figure}"] = spread.median
        row[f"most_{spread.figure}"] = spread.most
    return row


def text_of(answer: SideBySide) -> str:
    """Return the groups as text of 78 columns: figures down, groups across."""
    groups = answer.groups[:MOST_GROUPS]
    heads = _heads(groups)
    lines = heading(f"SIDE BY SIDE: {clean(answer.by, MOST_FIGURE)}", "=")
    if answer.currency:
        lines += [f"All money in {clean(answer.currency, 8)}."]
    for block in _blocks(answer, groups, heads):
        lines += ["", *block]
    left = len(answer.groups) - len(groups)
    if left:
        lines += ["", f"{many(left, 'more group')} in the table."]
    cut = [f"{head}: {clean(name)}" for name, head in heads.items() if head != name]
    if cut:
        lines += [*heading("NAMES CUT OFF ABOVE"), *points(cut)]
    stopped = [_stops_told(group, heads) for group in groups if group.buildable < group.count]
    if stopped:
        lines += [*heading("CANNOT BE BUILT"), *points(stopped)]
    lines += [*heading("HOW TO READ IT"), *points(_notes(answer))]
    return "\n".join(lines).strip("\n") + "\n"


def _heads(groups: Sequence[Group]) -> _Heads:
    """Return a short name for each group; what would be alike once cut off is numbered."""
    heads: dict[str, str] = {}
    taken: set[str] = set()
    for group in groups:
        head, number = clean(group.name, MOST_NAME), 2
        while head in taken:
            mark = f" ({number})"
            head, number = clean(group.name, MOST_NAME - len(mark)) + mark, number + 1
        taken.add(head)
        heads[group.name] = head
    return heads


def _blocks(answer: SideBySide, groups: Sequence[Group], heads: _Heads) -> Iterator[list[str]]:
    """Yield the groups in as many tables as the page's width asks for."""
    first = 0
    while first < len(groups):
        last = first + 1
        while last < len(groups) and _width(answer, groups[first : last + 1], heads) <= COLUMNS:
            last += 1
        yield _table(answer, groups[first:last], heads)
        first = last


def _width(answer: SideBySide, groups: Sequence[Group], heads: _Heads) -> int:
    return max(map(len, _table(answer, groups, heads)))


def _table(answer: SideBySide, groups: Sequence[Group], heads: _Heads) -> list[str]:
    cells = [(label, *(cell(group) for group in groups)) for label, cell in _lines(answer, heads)]
    return table(cells, "<" + ">" * len(groups))


def _lines(answer: SideBySide, heads: _Heads) -> Iterator[tuple[str, _Cells]]:
    """Yield a table's lines: what each is called, and what it holds of a group."""
    yield "", lambda group: heads[group.name]
    yield "decks", lambda group: str(group.count)
    yield "can be built", lambda group: str(group.buildable)
    for index, figure in enumerate(figures_of(answer)):
        yield from _figure_lines(answer, index, CALLED.get(figure, clean(figure, MOST_FIGURE)))
    if {"yearly_least", "yearly_most"} <= set(figures_of(answer)):
        yield "COST A YEAR", _years


def _figure_lines(answer: SideBySide, index: int, name: str) -> Iterator[tuple[str, _Cells]]:
    yield f"{name}: least", lambda group: _told(group, group.spreads[index].least)
    yield "  median", lambda group: _told(group, group.spreads[index].median)
    yield "  most", lambda group: _told(group, group.spreads[index].most)
    if any(group.spreads[index].count < group.buildable for group in answer.groups):
        yield "  known of", lambda group: str(group.spreads[index].count)


def figures_of(answer: SideBySide) -> tuple[str, ...]:
    """Return the names of the figures that every group has a spread of."""
    return tuple(spread.figure for spread in answer.groups[0].spreads) if answer.groups else ()


def _told(group: Group, figure: object) -> str:
    if figure is None:
        return NOT_KNOWN if group.buildable else NOTHING
    return told_value(figure)


def _years(group: Group) -> str:
    """Return what a year costs: the least with lives at their most, the most at their least."""
    spreads: dict[str, Spread] = {spread.figure: spread for spread in group.spreads}
    least, most = spreads["yearly_least"].least, spreads["yearly_most"].most
    if least is None or most is None:
        return _told(group, None)
    return f"{told_value(least)} to {told_value(most)}"


def _stops_told(group: Group, heads: _Heads) -> str:
    decks = f"{group.count - group.buildable} of {many(group.count, 'deck')}"
    return f"{heads[group.name]}: {decks}: {codes_told(group.stop_codes)}"


def _notes(answer: SideBySide) -> Iterator[str]:
    """Yield how the figures are to be read."""
    figures = figures_of(answer)
    yield MEDIAN_YEARS if any(figure.endswith(YEARS) for figure in figures) else MEDIAN
    if any(group.buildable < group.count for group in answer.groups):
        yield UNLIKE
    if told := gaps_told(answer.seen, answer.currency):
        yield told
    if set(figures) & set(COSTS[1:]):
        yield UPKEEP
        yield LEFT_OUT
