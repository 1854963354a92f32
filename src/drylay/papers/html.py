"""HTML put together so that no text gets in unescaped: what is `Html` came from here."""

from collections.abc import Iterable, Sequence
from html import escape
from typing import NewType

from drylay.papers.wording import clean

Html = NewType("Html", str)
#: A cell is a text, or parts that a line is not broken inside of.
Cell = str | tuple[str, ...]

#: Elements that have no end tag.
VOID = frozenset({"input", "meta"})
#: How a column is set: text from its left edge, figures to its right edge, or left to write in.
TEXT, FIGURE, BLANK = "text", "figure", "blank"
Columns = Sequence[tuple[str, str]]
#: A table of more columns than this turns into cards on a phone.
NARROW = 4
#: Longer than any sentence of ours, so that only other people's text is cut off.
LONGEST = 2_000


def words(text: str) -> Html:
    """Return a text as HTML: one line of printable signs, escaped."""
    return Html(escape(clean(text, LONGEST)))


def tag(name: str, /, *inside: Html, **attributes: str) -> Html:
    """Return an element; `class_` stands for class, other `_` for hyphens."""
    told = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{words(value)}"'
        for key, value in attributes.items()
    )
    if name in VOID:
        return Html(f"<{name}{told}>")
    return Html(f"<{name}{told}>{''.join(inside)}</{name}>")


def block(name: str, parts: Iterable[Html], /, **attributes: str) -> Html:
    """Return an element with each of its parts on lines of its own; nothing without parts."""
    inside = joined(parts)
    return tag(name, Html(f"\n{inside}\n"), **attributes) if inside else inside


def joined(parts: Iterable[Html]) -> Html:
    """Return parts one below another."""
    return Html("\n".join(part for part in parts if part))


def para(text: str) -> Html:
    """Return a paragraph; nothing for no text."""
    return tag("p", words(text)) if text else Html("")


def points(texts: Iterable[str]) -> Html:
    """Return a list; nothing without texts."""
    return block("ul", [tag("li", words(text)) for text in texts])


def table(caption: str, columns: Columns, rows: Iterable[Sequence[Cell]]) -> Html:
    """Return a table with a box to tick before each row, which its first cell names."""
    body = [_row(columns, row) for row in rows]
    if not body:
        return Html("")
    head = [tag("th", words("Done"), scope="col")]
    head += [tag("th", words(title), scope="col", class_=kind) for title, kind in columns]
    parts = [
        tag("caption", words(caption)) if caption else Html(""),
        block("thead", [tag("tr", *head)]),
        block("tbody", body),
    ]
    return block("table", parts, class_="wide" if len(columns) > NARROW else "narrow")


def separated(parts: Sequence[str]) -> tuple[str, ...]:
    """Return a cell of parts with semicolons between them."""
    return tuple(f"{part};" for part in parts[:-1]) + tuple(parts[-1:])


def _row(columns: Columns, row: Sequence[Cell]) -> Html:
    first, *others = zip(columns, row, strict=True)
    (_, kind), name = first
    told = name if isinstance(name, str) else " ".join(name)
    return tag(
        "tr",
        tag("td", tag("input", type="checkbox", aria_label=f"done: {told}")),
        tag("th", _cell(name), scope="row", class_=kind),
        *(tag("td", _cell(cell), class_=kind, data_label=title) for (title, kind), cell in others),
    )


def _cell(cell: Cell) -> Html:
    if isinstance(cell, str):
        return words(cell)
    return Html(" ".join(tag("span", words(part)) for part in cell))
