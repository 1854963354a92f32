"""Which codes, sizes and GTINs a long file has had so far: on disk, so that memory stays flat.

Everything is put on the shelf and looked up by the hundred, for one at a time is slow.
"""

import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager

#: How many are gathered before they are put on the shelf.
MOST_GATHERED = 200

#: What rows say of a code: the kind column's word, the line, facts as the cells had them in one
#: text, and its first rows' sizes as one text, "" once they are on the shelf of sizes.
Said = tuple[str, int, str, str]
#: A code, one of its sizes, and its line.
Size = tuple[str, float, int]

#: Parts what is kept as one text: a mark that no price list holds.
_PART = "\x1f"
_NEW = "INSERT OR IGNORE INTO"
_TABLES = """
PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA cache_size = -2000;
CREATE TABLE codes (code TEXT PRIMARY KEY, word TEXT, line INTEGER, facts TEXT, sizes TEXT)
    WITHOUT ROWID;
CREATE TABLE sizes (code TEXT, size REAL, line INTEGER, PRIMARY KEY (code, size)) WITHOUT ROWID;
CREATE TABLE gtins (gtin INTEGER PRIMARY KEY, line INTEGER);
BEGIN;
"""


@contextmanager
def shelf() -> Iterator[sqlite3.Connection]:
    """Yield an empty shelf; SQLite keeps its overflow in a file that goes with it."""
    connection = sqlite3.connect("", isolation_level=None, check_same_thread=False)
    try:
        connection.executescript(_TABLES)
        yield connection
    finally:
        connection.close()


def codes_there(connection: sqlite3.Connection, codes: Sequence[str]) -> dict[str, Said]:
    """Return which of these codes are on the shelf, each with what was first said of it."""
    query = f"SELECT code, word, line, facts, sizes FROM codes WHERE code IN ({_marks(codes)})"
    return {row[0]: row[1:] for row in connection.execute(query, codes)}


def put_codes(connection: sqlite3.Connection, said: Iterable[tuple[str, Said]]) -> int:
    """Put codes on the shelf that are not there yet; return how many that were."""
    rows = [(code, *each) for code, each in said]
    return connection.executemany(f"{_NEW} codes VALUES (?, ?, ?, ?, ?)", rows).rowcount


def facts_text(facts: Sequence[str]) -> str:
    """Return facts as one text."""
    return _PART.join(facts)


def facts_of(text: str) -> list[str]:
    """Return facts out of one text."""
    return text.split(_PART)


def sizes_text(sizes: Mapping[float, int]) -> str:
    """Return sizes and their lines as one text."""
    return _PART.join([f"{size!r}={line}" for size, line in sizes.items()])


def unfold_sizes(connection: sqlite3.Connection, folded: Mapping[str, str]) -> None:
    """Put the sizes of codes that come again, told as texts, on the shelf of sizes."""
    pairs = [(code, part.split("=")) for code, text in folded.items() for part in text.split(_PART)]
    put_sizes(connection, [(code, float(size), int(line)) for code, (size, line) in pairs])
    codes = [(code,) for code in folded]
    connection.executemany("UPDATE codes SET sizes = '' WHERE code = ?", codes)


def sizes_there(
    connection: sqlite3.Connection, sizes: Sequence[Size]
) -> dict[tuple[str, float], int]:
    """Return which of these sizes are on the shelf, each with its line."""
    found: dict[tuple[str, float], int] = {}
    for start in range(0, len(sizes), MOST_GATHERED):
        some = sizes[start : start + MOST_GATHERED]
        pairs = ",".join(["(?,?)"] * len(some))
        # the wanted ones outside, so that each is looked up and the shelf is not searched through
        query = (
            f"WITH wanted(c, s) AS (VALUES {pairs}) SELECT code, size, line"
            " FROM wanted CROSS JOIN sizes ON code = c AND size = s"
        )
        told = [part for code, size, _ in some for part in (code, size)]
        found |= {(row[0], row[1]): row[2] for row in connection.execute(query, told)}
    return found


def put_sizes(connection: sqlite3.Connection, sizes: Iterable[Size]) -> None:
    """Put sizes on the shelf that are not there yet."""
    connection.executemany("INSERT INTO sizes VALUES (?, ?, ?)", sizes)


def gtins_there(connection: sqlite3.Connection, gtins: Sequence[int]) -> dict[int, int]:
    """Return which of these GTINs are on the shelf, each with its line."""
    query = f"SELECT gtin, line FROM gtins WHERE gtin IN ({_marks(gtins)})"
    return dict(connection.execute(query, gtins).fetchall())


def put_gtins(connection: sqlite3.Connection, lines: Iterable[tuple[int, int]]) -> int:
    """Put GTINs on the shelf that are not there yet, each with its line; return how many."""
    return connection.executemany(f"{_NEW} gtins VALUES (?, ?)", lines).rowcount


def _marks(items: Sequence[object]) -> str:
    return ",".join("?" * len(items))
