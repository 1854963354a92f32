"""Stock catalogues: a TOML file in, a Catalogue out, or every fault at once."""

import os
from collections.abc import Iterator, Mapping
from typing import Any

from attrs import evolve

from drylay.errors import CatalogueError, Fault
from drylay.intake.document import Document, open_document, placed
from drylay.intake.places import Keys
from drylay.intake.tables import Reading, all_faults, read_table, report
from drylay.intake.values import fault, nearest_of
from drylay.materials.articles import NOUNS, Values, build_article, read_articles
from drylay.materials.checks import repeated, shown_code
from drylay.materials.currencies import MINOR_DIGITS
from drylay.materials.keys import CATALOGUE, TOP
from drylay.materials.stock_model import Catalogue

MOST_BYTES = 8_000_000

_NO_CURRENCY = "a currency code of ISO 4217 in capital letters"


def load_catalogue(path: str | os.PathLike[str] | Mapping[str, object]) -> Catalogue:
    """Return the stock catalogue in a TOML file (or in a mapping with the same keys).

    Raises:
        CatalogueError: With everything that is wrong; nothing is half-loaded.
    """
    catalogue, faults = _load(path)
    if catalogue is None:
        raise CatalogueError(faults)
    return catalogue


def check_catalogue(path: str | os.PathLike[str] | Mapping[str, object]) -> tuple[Fault, ...]:
    """Return everything that is wrong with a stock catalogue, nothing if it can be used."""
    return _load(path)[1]


def _load(source: object) -> tuple[Catalogue | None, tuple[Fault, ...]]:
    document, faults = open_document(source, what="catalogue", most_bytes=MOST_BYTES)
    if document is None:
        return None, faults
    if "cover" in document.tables and "catalogue" not in document.tables:
        return None, (_a_brief(document),)
    reading = Reading(document=document)
    read_table(reading, (), document.tables, TOP)
    head = _read_head(reading)
    articles = {
        kind: read_articles(reading, kind, digits=int(head.get("minor_digits", 2)))
        for kind in NOUNS
    }
    _refuse_repeated_codes(reading)
    if not any(articles.values()):
        report(reading, ("boards",), fault("no article", f"at least one of {', '.join(NOUNS)}"))
    if reading.faults:
        return None, all_faults(reading)
    return _built(head, articles), ()


def _a_brief(document: Document) -> Fault:
    wanted = "a stock file, with its [catalogue]"
    found = fault("a brief, [cover]", wanted, "give it as the brief")
    return placed(document, ("cover",), evolve(found, path="catalogue"), at_key=True)


def _built(head: Values, articles: dict[str, list[Values]]) -> Catalogue:
    built: dict[str, Any] = {
        kind: tuple(build_article(kind, values) for values in found)
        for kind, found in articles.items()
    }
    return Catalogue(**head, **built)


def _read_head(reading: Reading) -> Values:
    """Return the head of a catalogue, its minor digits settled by its currency if unsaid."""
    table = reading.document.tables.get("catalogue")
    if table is None:
        return {}
    head: Values = read_table(reading, ("catalogue",), table, CATALOGUE)
    currency = head.get("currency")
    if isinstance(currency, str) and currency not in MINOR_DIGITS:
        near = nearest_of(currency.lower(), tuple(code.lower() for code in MINOR_DIGITS)).upper()
        found = fault(shown_code(currency), _NO_CURRENCY, f'currency = "{near}"' if near else "")
        report(reading, ("catalogue", "currency"), found)
    if not isinstance(head.get("minor_digits"), int):
        head["minor_digits"] = MINOR_DIGITS.get(str(currency), 2)
    return head


def _refuse_repeated_codes(reading: Reading) -> None:
    """Report codes used twice: a brief names an article by its code alone."""
    coded: list[tuple[Keys, str]] = [
        ((kind, at, "code"), code)
        for kind in NOUNS
        for at, code in _codes(reading.document.tables.get(kind))
    ]
    for again in repeated([code for _, code in coded]):
        keys, code = coded[again]
        found = fault(f"{shown_code(code)} a second time", "a code of its own for every article")
        report(reading, keys, found)


def _codes(tables: object) -> Iterator[tuple[int, str]]:
    """Yield the index and code of each article that has one."""
    for at, table in enumerate(tables if isinstance(tables, list | tuple) else ()):
        if isinstance(table, Mapping) and isinstance(table.get("code"), str):
            yield at, table["code"]
