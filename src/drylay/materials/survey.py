"""What a sound stock file holds that its reader should know of: families, prices rounded up."""

from collections.abc import Iterator
from decimal import Decimal

from attrs import define, field

from drylay.errors import Fault
from drylay.intake.sources import file_given
from drylay.materials.loader import StockFile, load_catalogue
from drylay.materials.mapping import read_mapping
from drylay.materials.prices import is_rounded
from drylay.materials.sheet_rows import sheet_events
from drylay.materials.stock_model import Catalogue

#: A code, its family ("" where its kind has none), a price for a metre, a length.
_Seen = tuple[str, str, Decimal | None, float]


@define(kw_only=True)
class Survey:
    """Each family with the first article of it, and how many lengths have a price rounded up."""

    families: dict[str, str] = field(factory=dict)
    rounded: int = 0
    first_rounded: str = ""


def survey_stock(source: StockFile, *, mapping: StockFile | None = None) -> Survey:
    """Return what a stock file in which nothing is wrong holds.

    Raises:
        CatalogueError: Something is wrong with it, and it is no CSV file.
    """
    survey = Survey()
    if mapping is None:
        digits, seen = _of_catalogue(load_catalogue(source))
    else:
        digits, seen = _of_sheet(source, mapping)
    for code, family, per_m, length_mm in seen:
        if family:
            survey.families.setdefault(family, code)
        if per_m is not None and is_rounded(per_m, length_mm, digits):
            survey.rounded += 1
            survey.first_rounded = survey.first_rounded or code
    return survey


def _of_catalogue(stock: Catalogue) -> tuple[int, Iterator[_Seen]]:
    return stock.minor_digits, (
        (article.code, getattr(article, "family", ""), getattr(article, "price_per_m", None), size)
        for kind in (stock.boards, stock.tiles, stock.timbers, stock.fascias)
        for article in kind
        for size in ([each.length_mm for each in getattr(article, "lengths", ())] or [0.0])
    )


def _of_sheet(source: object, mapping: object) -> tuple[int, Iterator[_Seen]]:
    read, _ = read_mapping(mapping)
    file = file_given(source, what="catalogue")
    if read is None or file is None:
        return 0, iter(())
    digits = int(str(read.head["minor_digits"]))
    return digits, (
        (run.code, run.facts.get("family", ""), run.facts.get("price_per_m"),
         sold.get("length_mm", 0.0))
        for event in sheet_events(file, read) if not isinstance(event, Fault)
        for run, sold in [event]
    )  # fmt: skip
