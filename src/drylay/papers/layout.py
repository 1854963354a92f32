"""Plain text laid out for a page of 78 columns."""

import textwrap
from collections.abc import Iterable, Sequence

COLUMNS = 78


def heading(text: str, under: str = "") -> list[str]:
    """Return a heading: a blank line, the text, and beneath it a rule if one is named."""
    return ["", text, *([under * min(len(text), COLUMNS)] if under else [])]


def para(text: str, first: str = "", rest: str | None = None) -> list[str]:
    """Return a paragraph wrapped to the page, its first line and the rest indented."""
    return textwrap.wrap(
        text, COLUMNS, initial_indent=first, subsequent_indent=first if rest is None else rest,
        break_on_hyphens=False,
    )  # fmt: skip


def points(texts: Iterable[str]) -> list[str]:
    """Return a list, one point to a paragraph."""
    return [line for text in texts for line in para(text, "- ", "  ")]


def table(rows: Sequence[tuple[str, ...]], aligned: str) -> list[str]:
    """Return rows in columns; `aligned` holds "<" or ">" for each column."""
    widths = [max(len(row[index]) for row in rows) for index in range(len(aligned))] if rows else []
    return [
        "  ".join(f"{cell:{side}{width}}" for cell, side, width in
                  zip(row, aligned, widths, strict=True)).rstrip()
        for row in rows
    ]  # fmt: skip
