"""The papers of an answer about many decks: text to read, a table for spreadsheets, a picture."""

from collections.abc import Sequence

from drylay.compare.study_model import Row
from drylay.papers.spreadsheet import Cell, table_file


def answer_papers(stem: str, text: str, rows: Sequence[Row], picture: bytes) -> dict[str, bytes]:
    """Return an answer's papers by file name."""
    return {
        f"{stem}.csv": rows_csv(rows),
        f"{stem}.svg": picture,
        f"{stem}.txt": text.encode("utf-8", "backslashreplace"),
    }


def rows_csv(rows: Sequence[Row]) -> bytes:
    """Return flat rows of the same names as a CSV file, what is not known left empty."""
    names = tuple(rows[0]) if rows else ()
    told = [{name: cell_of(figure) for name, figure in row.items()} for row in rows]
    return table_file(names, told, "metric")


def cell_of(figure: object) -> Cell:
    """Return a figure as a spreadsheet takes it."""
    if isinstance(figure, bool):
        return "yes" if figure else "no"
    return figure if isinstance(figure, Cell) else str(figure)
