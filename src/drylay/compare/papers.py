"""A comparison's papers: text to read, a table for spreadsheets, a chart."""

from drylay.compare.chart import comparison_svg
from drylay.compare.model import Comparison
from drylay.compare.row import flat_rows
from drylay.compare.study_papers import rows_csv
from drylay.compare.table import comparison_text

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
    return rows_csv(flat_rows(comparison))
