"""A comparison's papers: text to read, a table for spreadsheets, a chart."""

from drylay.compare.chart import comparison_svg
from drylay.compare.model import Comparison
from drylay.compare.row import flat_rows
from drylay.compare.table import comparison_text
from drylay.papers.spreadsheet import Cell, table_file

TEXT, CSV, CHART = "compare.txt", "compare.csv", "compare.svg"


def comparison_papers(comparison: Comparison) -> dict[str, bytes]:
    """Return the papers of a comparison by file name."""
    return {
        CHART: comparison_svg(comparison),
        CSV: comparison_csv(comparison),
        TEXT: comparison_text(comparison).encode("utf-8", "backslashreplace"),
    }


def comparison_csv(comparison: Comparison) -> bytes:
    """Return the flat rows as a CSV file, exact figures, what is not known left empty."""
    rows = [{name: _cell(figure) for name, figure in row.items()} for row in flat_rows(comparison)]
    return table_file(tuple(rows[0]), rows, "metric")


def _cell(figure: object) -> Cell:
    if isinstance(figure, bool):
        return "yes" if figure else "no"
    return figure if isinstance(figure, Cell) else str(figure)
