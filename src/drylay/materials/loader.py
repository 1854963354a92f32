"""Stock catalogues: a file in, a Catalogue out, or every fault at once."""

import os
from collections.abc import Iterator, Mapping
from datetime import date
from importlib.resources.abc import Traversable

from attrs import evolve

from drylay.counting import counted
from drylay.errors import CatalogueError, Fault
from drylay.intake.document import Document, open_document, placed
from drylay.intake.sources import file_given
from drylay.intake.tables import Reading, all_faults, read_table, report
from drylay.intake.values import fault
from drylay.materials.articles import NOUNS, read_articles
from drylay.materials.days import within_list
from drylay.materials.head import built_catalogue, read_head
from drylay.materials.keys import TOP
from drylay.materials.lookup import catalogue_on
from drylay.materials.stock_model import Catalogue
from drylay.materials.twice import refuse_twice, with_code

MOST_BYTES = 8_000_000
#: A long list with one slip in every line is told whole; past this its file is no list.
MOST_FAULTS = 100_000
_MAPPING = "mapping=..., --mapping MAP on the command line"

#: A stock file: a path, its bytes, a package's own file, or a mapping with its keys.
StockFile = str | os.PathLike[str] | bytes | Traversable | Mapping[str, object]


@counted
def load_catalogue(
    source: StockFile, *, mapping: StockFile | None = None, on: date | str | None = None
) -> Catalogue:
    """Return the stock catalogue in a TOML file, or in a CSV file with a mapping beside it.

    Args:
        source: The file: its path, its bytes, or a file inside a package; or a mapping with
            the keys of a stock file.
        mapping: What the columns of a CSV file mean: a TOML file, given likewise.
        on: Only what is on sale on this day; else everything, whatever days it tells.

    Raises:
        CatalogueError: With everything that is wrong; nothing is half-loaded.
    """
    catalogue, faults = _load(source) if mapping is None else _load_sheet(source, mapping)
    if catalogue is None:
        raise CatalogueError(faults)
    return catalogue if on is None else catalogue_on(catalogue, on)


@counted
def check_catalogue(source: StockFile, *, mapping: StockFile | None = None) -> tuple[Fault, ...]:
    """Return everything that is wrong with a stock catalogue, nothing if it can be used."""
    if mapping is None:
        return _load(source)[1]
    from drylay.materials.sheets import in_order

    return in_order(list(each_fault(source, mapping=mapping)))


def each_fault(source: StockFile, *, mapping: StockFile | None = None) -> Iterator[Fault]:
    """Yield what is wrong with a stock catalogue as it is met, for files of any length."""
    if mapping is None:
        yield from _load(source)[1]
        return
    # SQLite and all: a stock file in TOML needs nothing of it
    from drylay.materials.sheets import sheet_faults

    yield from sheet_faults(source, mapping)


def _load_sheet(source: object, mapping: object) -> tuple[Catalogue | None, tuple[Fault, ...]]:
    from drylay.materials.sheets import load_sheet

    return load_sheet(source, mapping)


def _load(source: object) -> tuple[Catalogue | None, tuple[Fault, ...]]:
    file = None if isinstance(source, Mapping) else file_given(source, what="catalogue")
    if file is not None and file.name.lower().endswith(".csv"):
        return None, (_no_mapping(file.name),)
    document, faults = open_document(source, what="catalogue", most_bytes=MOST_BYTES)
    if document is None:
        return None, faults
    if "file" in document.tables and "rows" in document.tables:
        return None, (_a_mapping(document),)
    if "cover" in document.tables and "catalogue" not in document.tables:
        return None, (_a_brief(document),)
    reading = Reading(document=document, most_faults=MOST_FAULTS)
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
        return None, tuple(with_code(document, found) for found in all_faults(reading))
    return built_catalogue(head, articles), ()


def _no_mapping(name: str) -> Fault:
    found = fault("a CSV file alone", "a mapping that says what its columns mean", _MAPPING)
    return evolve(found, path="catalogue", file=name)


def _a_mapping(document: Document) -> Fault:
    wanted = "a stock file, with its articles"
    found = fault("a mapping, [file]", wanted, "give the CSV file, with this as its mapping")
    return placed(document, ("file",), evolve(found, path="catalogue"), at_key=True)


def _a_brief(document: Document) -> Fault:
    wanted = "a stock file, with its [catalogue]"
    found = fault("a brief, [cover]", wanted, "give it as the brief")
    return placed(document, ("cover",), evolve(found, path="catalogue"), at_key=True)
