"""What may stand in a catalogue only once: codes of articles, and their numbers in trade."""

import re
from collections.abc import Iterator, Mapping

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.document import Document, path_text, placed
from drylay.intake.gtin import whole_gtin
from drylay.intake.places import Keys
from drylay.intake.shown import shown_word
from drylay.intake.tables import Reading, report
from drylay.intake.values import fault
from drylay.materials.articles import NOUNS
from drylay.materials.checks import repeated, shown_code

OWN_CODE = "a code of its own for every article"
OWN_GTIN = "a GTIN of its own for everything sold apart"
#: An article by its count, and not its code alone, which tells itself.
_ARTICLE = re.compile(r"(\w+)\[(\d{1,9})\](?!\.code$)", re.ASCII)


def refuse_twice(reading: Reading) -> None:
    """Report codes and GTINs used twice: a brief names an article by its code alone."""
    tables = reading.document.tables
    for name, wanted, found in (
        ("code", OWN_CODE, list(_codes(tables))),
        ("gtin", OWN_GTIN, list(_gtins(tables))),
    ):
        same = [_same(name, value) for _, value in found]
        first = dict(zip(reversed(same), reversed(found), strict=True))
        for again in repeated([*same]):
            keys, value = found[again]
            before = _told_first(reading.document, first[same[again]][0])
            report(reading, keys, fault(f"{shown_code(value)} a second time, as {before}", wanted))


def _told_first(document: Document, keys: Keys) -> str:
    """Return where something stands first: its line, or its place where there is no file."""
    there = placed(document, keys, fault("", ""))
    return f"on line {there.line}" if there.line else f"in {path_text(keys)}"


def with_code(document: Document, found: Fault) -> Fault:
    """Return a fault with the code of the article that its place counts out."""
    match = _ARTICLE.match(found.path)
    tables = document.tables.get(match[1]) if match else None
    if match is None or match[1] not in NOUNS or not isinstance(tables, list | tuple):
        return found
    table = tables[int(match[2])] if int(match[2]) < len(tables) else None
    code = table.get("code") if isinstance(table, Mapping) else None
    return evolve(found, article=shown_word(code)) if isinstance(code, str) and code else found


def _same(name: str, value: str) -> str:
    return whole_gtin(value) if name == "gtin" else value


def _articles(tables: Mapping[str, object]) -> Iterator[tuple[Keys, Mapping[str, object]]]:
    for kind in NOUNS:
        for at, table in _tables(tables.get(kind)):
            yield (kind, at), table


def _tables(value: object) -> Iterator[tuple[int, Mapping[str, object]]]:
    for at, table in enumerate(value if isinstance(value, list | tuple) else ()):
        if isinstance(table, Mapping):
            yield at, table


def _codes(tables: Mapping[str, object]) -> Iterator[tuple[Keys, str]]:
    """Yield the place and code of each article that has one."""
    for keys, table in _articles(tables):
        if isinstance(code := table.get("code"), str):
            yield (*keys, "code"), code


def _gtins(tables: Mapping[str, object]) -> Iterator[tuple[Keys, str]]:
    """Yield the place and GTIN of each article, length and pack that has one."""
    for keys, table in _articles(tables):
        sold = [((*keys, name, at), item) for name in ("lengths", "packs")
                for at, item in _tables(table.get(name))]  # fmt: skip
        for there, item in [(keys, table), *sold]:
            if isinstance(number := item.get("gtin"), str) and number:
                yield (*there, "gtin"), number
