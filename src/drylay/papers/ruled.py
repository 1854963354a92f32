"""Tables and paragraphs on a sheet: lettered to be read outdoors, ruled to write in."""

from math import ceil

from attrs import evolve

from drylay.papers.lettering import width_mm
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    OUTLINE_MM,
    THIN_MM,
    Lettering,
    Line,
    Shape,
    Table,
)
from drylay.papers.sheets import SLACK_RATIO, rule, wrapped

#: Height of a row that a pencil can write in, and of the figures printed in it.
CELL_MM, FIGURE_MM = 5.5, 3.0
#: Lines of headings and paragraphs, middle to middle; the title's room; air beside a cell's text.
LINE_MM, TITLE_MM, PAD_MM = 3.4, 6.5, 1.5
#: Width of a column to write in, and air between columns of a table set in several.
BLANK_MM, BETWEEN_MM = 24.0, 6.0
#: Longer lines than this lose the eye.
LONGEST_LINE_MM = 200.0


def column_widths(table: Table) -> tuple[float, ...]:
    """Return each column's width: its widest text with air, or room to write."""
    return tuple(
        _column(head, [row[index] for row in table.rows]) for index, head in enumerate(table.heads)
    )


def _column(head: tuple[str, ...], cells: list[str]) -> float:
    text_mm = max((width_mm(cell, FIGURE_MM) for cell in cells), default=0.0)
    least_mm = 0.0 if text_mm else BLANK_MM
    head_mm = max((width_mm(line, LETTER_MM) for line in head), default=0.0)
    return max(text_mm, least_mm, head_mm) + 2 * PAD_MM


def table_width(table: Table) -> float:
    """Return a table's whole width, its title's included."""
    return max(sum(column_widths(table)), width_mm(table.title, FIGURE_MM))


def head_height(table: Table) -> float:
    """Return the height of a table's title and headings."""
    return TITLE_MM + LINE_MM * max(map(len, table.heads)) + 1.0


def columns_needed(table: Table, high_mm: float) -> int:
    """Return in how many columns a table must be set to be no higher than this; 0 for never."""
    at_once = int((high_mm - head_height(table)) // CELL_MM)
    return max(1, ceil(len(table.rows) / at_once)) if at_once > 0 else 0


def in_columns(table: Table, count: int, x: float, y: float) -> list[Shape]:
    """Return a table set in `count` columns side by side, as equal in height as can be."""
    each = ceil(len(table.rows) / count) if count else 0
    step = table_width(table) + BETWEEN_MM
    parts = [table.rows[index * each : (index + 1) * each] for index in range(count)]
    return [
        shape
        for index, rows in enumerate(parts)
        for shape in ruled(table, rows, x + index * step, y)
    ]


def ruled(table: Table, rows: tuple[tuple[str, ...], ...], x: float, y: float) -> list[Shape]:
    """Return some rows of a table with its title and headings, its corner at `x`, `y`."""
    widths = column_widths(table)
    top = y + head_height(table)
    bottom, right = top + CELL_MM * len(rows), x + sum(widths)
    layer = f"{table.layer}-rules"
    lines: list[Shape] = [_pen(rule(layer, x, top, right, top), OUTLINE_MM)]
    for index in range(1, len(rows) + 1):
        at = top + CELL_MM * index
        lines.append(_pen(rule(layer, x, at, right, at), FINE_MM if index % 5 else THIN_MM))
    posts = [x + sum(widths[:index]) for index in range(len(widths) + 1)]
    lines += [_pen(rule(layer, at, y + TITLE_MM, at, bottom), FINE_MM) for at in posts]
    return [*lines, *_heads(table, widths, x, y), *_cells(table, rows, widths, x, top)]


def _pen(line: Line, pen_mm: float) -> Line:
    return evolve(line, pen_mm=pen_mm)


def _heads(table: Table, widths: tuple[float, ...], x: float, y: float) -> list[Shape]:
    layer = f"{table.layer}-heads"
    shapes: list[Shape] = [
        Lettering(layer=layer, x_mm=x, y_mm=y + 2.5, text=table.title, size_mm=FIGURE_MM,
                  anchor="start")
    ]  # fmt: skip
    for index, head in enumerate(table.heads):
        at, anchor = _edge(table, widths, index, x)
        shapes += [
            Lettering(layer=layer, x_mm=at, y_mm=y + TITLE_MM + LINE_MM * (line + 0.5), text=text,
                      anchor=anchor)
            for line, text in enumerate(head)
        ]  # fmt: skip
    return shapes


def _cells(
    table: Table, rows: tuple[tuple[str, ...], ...], widths: tuple[float, ...], x: float,
    top: float,
) -> list[Shape]:  # fmt: skip
    edges = [_edge(table, widths, index, x) for index in range(len(widths))]
    return [
        Lettering(layer=table.layer, x_mm=at, y_mm=top + CELL_MM * (down + 0.5), text=cell,
                  size_mm=FIGURE_MM, anchor=anchor)
        for down, row in enumerate(rows)
        for cell, (at, anchor) in zip(row, edges, strict=True) if cell
    ]  # fmt: skip


def _edge(table: Table, widths: tuple[float, ...], index: int, x: float) -> tuple[float, str]:
    """Return where a column's texts stand, and which end of them that is."""
    if table.aligned[index] == "<":
        return x + sum(widths[:index]) + PAD_MM, "start"
    return x + sum(widths[: index + 1]) - PAD_MM, "end"


def paragraphs(
    texts: tuple[str, ...], layer: str, x: float, y: float, most_mm: float
) -> list[Shape]:
    """Return texts one under the other, each begun on a line of its own."""
    return [
        Lettering(layer=layer, x_mm=x, y_mm=y + LINE_MM * (index + 0.5), text=line, anchor="start")
        for index, line in enumerate(_wrapped(texts, most_mm))
    ]


def paragraphs_height(texts: tuple[str, ...], most_mm: float) -> float:
    """Return the height of those paragraphs."""
    return LINE_MM * len(_wrapped(texts, most_mm))


def _wrapped(texts: tuple[str, ...], most_mm: float) -> list[str]:
    wide_mm = min(most_mm * SLACK_RATIO, LONGEST_LINE_MM)
    return [line for text in texts for line in wrapped(text, LETTER_MM, wide_mm)]
