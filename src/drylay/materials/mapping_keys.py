"""Every key of the mapping beside a CSV stock file."""

from drylay.intake.cells import DATES, DECIMALS, UNITS
from drylay.intake.keys import Key, choice, count, flag, table, tables, text
from drylay.intake.sheet import ENCODINGS
from drylay.materials.keys import BY_LENGTH, RECORD, article_keys, pack_keys, stock_length_keys
from drylay.materials.stock_model import KINDS

#: What parts the cells of a row, by its name in a mapping.
DELIMITERS = {",": ",", ";": ";", "|": "|", "tab": "\t"}

TOP: tuple[Key, ...] = (
    table("file", required=True),
    table("catalogue", required=True),
    table("columns"),
    tables("rows"),
)
FILE: tuple[Key, ...] = (
    choice("encoding", ENCODINGS, required=True),
    choice("delimiter", tuple(DELIMITERS), required=True),
    choice("decimal", DECIMALS, required=True),
    choice("dates", DATES),
    text("kind_column", 120),
    Key(name="leave_out", kind="measure"),
    count("skip_lines", 0, 100),
    flag("trim"),
)
ROWS: tuple[Key, ...] = (
    text("says", 120),
    choice("kind", KINDS, required=True),
    table("constants"),
    table("columns"),
    tables("rules"),
)
COLUMN: tuple[Key, ...] = (
    text("column", 120, required=True),
    choice("unit", UNITS),
    table("words"),
)
RULE: tuple[Key, ...] = (
    text("rule", 40, required=True),
    text("column", 120, required=True),
    choice("unit", UNITS),
    table("source", required=True),
)


def sold_keys(kind: str, digits: int) -> tuple[Key, ...]:
    """Return the keys of what one row sells: a length, or a pack."""
    if kind in BY_LENGTH:
        return stock_length_keys(kind, digits)
    return pack_keys(kind, digits)


def shared_keys(kind: str, digits: int) -> tuple[Key, ...]:
    """Return the keys of an article that all its rows have alike."""
    record = tuple(key for key in RECORD if key.name != "gtin")
    return tuple(
        key
        for key in (*article_keys(kind, digits), *record)
        if key.kind not in ("table", "tables") and key.name != "each"
    )


def row_keys(kind: str, digits: int) -> tuple[Key, ...]:
    """Return every key that a column or constant may fill for a kind."""
    each = tuple(key for key in article_keys(kind, digits) if key.name == "each")
    return (*shared_keys(kind, digits), *sold_keys(kind, digits), *each)
