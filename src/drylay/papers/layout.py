"""Plain text laid out for a page of 78 columns."""

import re
import textwrap
from collections.abc import Iterable, Sequence

COLUMNS = 78
#: Spaces inside a size, and between a mark and its size: a line never breaks there.
_GLUED = re.compile(r"(?<=\d) (?=(?:mm|ft|in)\b)|(?<=ft) (?=\d)|(?<=\d) (?=\d+/\d)|"
                    r"(?<=\b[A-Z]\d) (?=\d)|(?<=\b[A-Z]\d\d) (?=\d)")  # fmt: skip
#: Stands for such a space while lines are broken: no paper prints it.
GLUE = "\N{NO-BREAK SPACE}"


def heading(text: str, under: str = "") -> list[str]:
    """Return a heading: a blank line, the text, and beneath it a rule if one is named."""
    return ["", text, *([under * min(len(text), COLUMNS)] if under else [])]


def para(text: str, first: str = "", rest: str | None = None) -> list[str]:
    """Return a paragraph wrapped to the page, its first line and the rest indented."""
    lines = textwrap.wrap(
        _GLUED.sub(GLUE, text), COLUMNS, initial_indent=first,
        subsequent_indent=first if rest is None else rest, break_on_hyphens=False,
    )  # fmt: skip
    return [line.replace(GLUE, " ") for line in lines]


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
