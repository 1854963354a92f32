"""Stock catalogues: a file in, a Catalogue out, or every fault at once."""

import os
from collections.abc import Mapping
from datetime import date
from importlib.resources.abc import Traversable
from typing import Any

from attrs import evolve

from drylay.errors import CatalogueError, Fault
from drylay.intake.document import Document, open_document, placed
from drylay.intake.tables import Reading, all_faults, read_table, report
from drylay.intake.values import fault, nearest_of
from drylay.materials.articles import NOUNS, Values, build_article, read_articles
from drylay.materials.checks import check_days, shown_code
from drylay.materials.currencies import MINOR_DIGITS
from drylay.materials.days import within_list
from drylay.materials.keys import CATALOGUE, TOP
from drylay.materials.lookup import catalogue_on
from drylay.materials.stock_model import Catalogue
from drylay.materials.twice import refuse_twice

MOST_BYTES = 8_000_000

#: A stock file: a path, its bytes, a package's own file, or a mapping with its keys.
StockFile = str | os.PathLike[str] | bytes | Traversable | Mapping[str, object]

_NO_CURRENCY = "a currency code of ISO 4217 in capital letters"


def load_catalogue(source: StockFile, *, on: date | str | None = None) -> Catalogue:
    """Return the stock catalogue in a TOML file (or in a mapping with the same keys).

    Args:
        source: The file: its path, its bytes, or a file inside a package.
        on: Only what is on sale on this day; else everything, whatever days it tells.

    Raises:
        CatalogueError: With everything that is wrong; nothing is half-loaded.
    """
    catalogue, faults = _load(source)
    if catalogue is None:
        raise CatalogueError(faults)
    return catalogue if on is None else catalogue_on(catalogue, on)


def check_catalogue(source: StockFile) -> tuple[Fault, ...]:
    """Return everything that is wrong with a stock catalogue, nothing if it can be used."""
    return _load(source)[1]


def _load(source: object) -> tuple[Catalogue | None, tuple[Fault, ...]]:
    document, faults = open_document(source, what="catalogue", most_bytes=MOST_BYTES)
    if document is None:
        return None, faults
    if "cover" in document.tables and "catalogue" not in document.tables:
        return None, (_a_brief(document),)
    reading = Reading(document=document)
    read_table(reading, (), document.tables, TOP)
    head = read_head(reading)
    articles = {
        kind: read_articles(reading, kind, digits=int(head.get("minor_digits", 2)))
        for kind in NOUNS
    }
    refuse_twice(reading)
    within_list(reading, head, articles)
    if not any(articles.values()):
        report(reading, ("boards",), fault("no article", f"at least one of {', '.join(NOUNS)}"))
    if reading.faults:
        return None, all_faults(reading)
    return built_catalogue(head, articles), ()


def _a_brief(document: Document) -> Fault:
    wanted = "a stock file, with its [catalogue]"
    found = fault("a brief, [cover]", wanted, "give it as the brief")
    return placed(document, ("cover",), evolve(found, path="catalogue"), at_key=True)


def built_catalogue(head: Values, articles: Mapping[str, list[Values]]) -> Catalogue:
    """Return the noun of a catalogue in which nothing is wrong."""
    built: dict[str, Any] = {
        kind: tuple(build_article(kind, values) for values in found)
        for kind, found in articles.items()
    }
    return Catalogue(**head, **built)


def read_head(reading: Reading) -> Values:
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
    for wrong in check_days(head, "valid_from", "valid_until"):
        report(reading, ("catalogue", wrong.path), evolve(wrong, path=""))
    if not isinstance(head.get("minor_digits"), int):
        head["minor_digits"] = MINOR_DIGITS.get(str(currency), 2)
    return head
