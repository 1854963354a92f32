"""What a sound stock file holds that its reader should know of: families, prices, sizes."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from itertools import groupby
from typing import Any

from attrs import define, field, frozen

from drylay.errors import Fault
from drylay.intake.sources import file_given
from drylay.materials.checks import is_its_nominal_mm
from drylay.materials.keys import PACK_SIZES
from drylay.materials.loader import StockFile, load_catalogue
from drylay.materials.mapping import read_mapping
from drylay.materials.prices import is_rounded
from drylay.materials.sheet_rows import sheet_events
from drylay.materials.steep import MOST_TIMES_A_METRE, MOST_TIMES_EACH, Priced, steep_prices
from drylay.materials.stock_model import KINDS, Catalogue

#: So many slips of prices are told; the rest are counted.
MOST_TOLD = 20


@frozen(kw_only=True)
class _Seen:
    """An article as far as it is looked at: its facts by name, its sizes and their prices."""

    code: str
    facts: Mapping[str, object]
    by_length: bool
    sold: tuple[Priced, ...]


@define(kw_only=True)
class Survey:
    """Each family with the first article of it; how many lengths have a price rounded up; prices
    that look like slips, the first of them in words; articles as large as they are called.
    """

    families: dict[str, str] = field(factory=dict)
    rounded: int = 0
    first_rounded: str = ""
    slips: int = 0
    first_slips: list[str] = field(factory=list)
    nominal: int = 0
    first_nominal: str = ""


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
    for article in seen:
        _count(survey, article, digits)
    return survey


def _count(survey: Survey, article: _Seen, digits: int) -> None:
    facts, code = article.facts, article.code
    family, per_m = facts.get("family"), facts.get("price_per_m")
    if family:
        survey.families.setdefault(str(family), code)
    if isinstance(per_m, Decimal):
        rounded = sum(is_rounded(per_m, size, digits) for size, _ in article.sold)
        survey.rounded += rounded
        survey.first_rounded = survey.first_rounded or (code if rounded else "")
    width = facts.get("width_mm", facts.get("depth_mm"))
    if is_its_nominal_mm(facts.get("nominal"), facts.get("thickness_mm"), width):
        survey.nominal += 1
        survey.first_nominal = survey.first_nominal or code
    most = MOST_TIMES_A_METRE if article.by_length else MOST_TIMES_EACH
    for told in steep_prices(article.sold, most):
        survey.slips += 1
        if len(survey.first_slips) < MOST_TOLD:
            survey.first_slips.append(f"{code}: {told}")


def _of_catalogue(stock: Catalogue) -> tuple[int, Iterator[_Seen]]:
    return stock.minor_digits, (
        _Seen(
            code=article.code,
            facts={name: getattr(article, name) for name in _FACTS if hasattr(article, name)},
            by_length=hasattr(article, "lengths"),
            sold=tuple(_priced(kind, article)),
        )
        for kind in KINDS
        for article in getattr(stock, kind)
    )


_FACTS = ("family", "price_per_m", "nominal", "thickness_mm", "width_mm", "depth_mm")


def _priced(kind: str, article: Any) -> Iterator[Priced]:
    if hasattr(article, "lengths"):
        yield from ((each.length_mm, each.price) for each in article.lengths)
    else:
        size = PACK_SIZES.get(kind, "count")
        yield from ((getattr(each, size), each.price) for each in getattr(article, "packs", ()))


def _of_sheet(source: object, mapping: object) -> tuple[int, Iterator[_Seen]]:
    read, _ = read_mapping(mapping)
    file = file_given(source, what="catalogue")
    if read is None or file is None:
        return 0, iter(())
    digits = int(str(read.head["minor_digits"]))
    events = (event for event in sheet_events(file, read) if not isinstance(event, Fault))
    # rows of one article that stand together are looked at together
    return digits, (_of_rows(rows) for _, rows in groupby(events, key=lambda sold: sold[0].code))


def _of_rows(rows: Iterable[Any]) -> _Seen:
    together = list(rows)
    run = together[0][0]
    size = run.reckoning.size
    per_m = run.facts.get("price_per_m")
    return _Seen(
        code=run.code,
        facts=run.facts,
        by_length=size == "length_mm",
        sold=tuple(_priced_rows(size, per_m, (sold for _, sold in together))),
    )


def _priced_rows(size: str, per_m: object, rows: Iterable[Mapping[str, Any]]) -> Iterator[Priced]:
    """Yield each size with its price, or that of so many metres."""
    for sold in rows:
        of, price = sold.get(size), sold.get("price")
        if price is None and isinstance(per_m, Decimal) and of is not None:
            price = per_m * Decimal(str(of))
        if of is not None and price is not None:
            yield of, price
