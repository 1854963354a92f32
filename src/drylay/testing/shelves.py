"""What each law of catalogues looks at: heads, codes, sizes, prices, the merchant's own rules."""

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence
from decimal import Decimal
from itertools import pairwise
from math import isfinite
from operator import attrgetter
from typing import Any

import attrs

from drylay.materials.articles import NOUNS
from drylay.materials.currencies import MINOR_DIGITS
from drylay.materials.keys import PACK_SIZES, VAT
from drylay.materials.model import NO_RECORD, QUESTIONS, RULE_BOUNDS
from drylay.materials.steep import MOST_TIMES_A_METRE, MOST_TIMES_EACH, steep_prices
from drylay.materials.stock_model import KINDS, METALS, ArticleRule, Catalogue
from drylay.plugins.shapes import is_possible, kind_of, number_wrongs, source_wrongs

Wrongs = Iterator[tuple[str, str]]


def articles(catalogue: Catalogue) -> Iterator[tuple[str, str, Any]]:
    """Yield every article with its kind, and its place as faults name it."""
    for kind in KINDS:
        for at, article in enumerate(getattr(catalogue, kind)):
            yield kind, f"{kind}[{at}] {article.code}", article


def shape(catalogue: Catalogue) -> Wrongs:
    """Yield articles that are no nouns of their kind, and what in them is of another type."""
    for kind in KINDS:
        shelf = getattr(catalogue, kind)
        if type(shelf) is not tuple:
            yield kind, f"{kind_of(shelf)} for a tuple"
            continue
        for at, article in enumerate(shelf):
            if type(article) is not NOUNS[kind]:
                yield f"{kind}[{at}]", f"{kind_of(article)} for {NOUNS[kind].__name__}"
            else:
                yield from _parts(f"{kind}[{at}]", article)


def _parts(where: str, article: Any) -> Wrongs:
    for name in ("code", "title"):
        if type(getattr(article, name)) is not str:
            yield f"{where}.{name}", f"{kind_of(getattr(article, name))} for a text"
    for name in ("lengths", "packs", "rules"):
        parts = getattr(article, name, ())
        if type(parts) is not tuple or not all(attrs.has(type(part)) for part in parts):
            yield f"{where}.{name}", "something else than a tuple of nouns"
    for field in attrs.fields(type(article)):
        value = getattr(article, field.name)
        if field.name.endswith("_mm") and value is not None and type(value) not in (int, float):
            yield f"{where}.{field.name}", f"{kind_of(value)} for a number"


def head(catalogue: Catalogue) -> Wrongs:
    """Yield what is wrong with name, currency, decimals and tax."""
    if not isinstance(catalogue.name, str) or not catalogue.name.strip():
        yield "name", "no name"
    if catalogue.currency not in MINOR_DIGITS:
        yield "currency", repr(catalogue.currency)
    elif catalogue.minor_digits != MINOR_DIGITS[catalogue.currency]:
        yield "minor_digits", repr(catalogue.minor_digits)
    if catalogue.vat not in VAT:
        yield "vat", repr(catalogue.vat)


def codes(catalogue: Catalogue) -> Wrongs:
    """Yield codes used twice, and articles without code or title."""
    seen = Counter(article.code for _, _, article in articles(catalogue))
    yield from (
        (code, f"{count} articles of this code") for code, count in seen.items() if count > 1
    )
    for _, where, article in articles(catalogue):
        if not article.code.strip() or not article.title.strip():
            yield where, "no code or no title"


def _sold(catalogue: Catalogue, name: str) -> Iterator[tuple[str, str, Sequence[Any]]]:
    for kind, where, article in articles(catalogue):
        if hasattr(article, name):
            yield kind, where, getattr(article, name)


def prices(catalogue: Catalogue) -> Wrongs:
    """Yield prices that are none, and articles that have none."""
    for name in ("lengths", "packs"):
        for _, where, items in _sold(catalogue, name):
            if not items:
                yield where, f"no {name}"
            for item in items:
                if wrong := _price_wrong(item.price, catalogue.minor_digits):
                    yield where, wrong


def _price_wrong(price: object, digits: int) -> str:
    if type(price) is not Decimal:
        return f"a price that is {kind_of(price)}"
    if not price.is_finite() or price <= 0:
        return f"a price of {price}"
    return f"a price of {price}" if price != round(price, digits) else ""


def lengths(catalogue: Catalogue) -> Wrongs:
    """Yield lengths that do not rise, or are limited by no whole number."""
    for _, where, items in _sold(catalogue, "lengths"):
        yield from _rising(where, [item.length_mm for item in items])
        for item in items:
            if item.limit is not None and (type(item.limit) is not int or item.limit < 0):
                yield where, f"a limit of {item.limit!r}"


def packs(catalogue: Catalogue) -> Wrongs:
    """Yield packs that do not rise, or hold no whole number."""
    for kind, where, items in _sold(catalogue, "packs"):
        counts = [getattr(item, PACK_SIZES.get(kind, "count"), None) for item in items]
        yield from _rising(where, counts)
        yield from ((where, f"a pack of {c!r}") for c in counts if type(c) is not int)


def _rising(where: str, sizes: Sequence[Any]) -> Wrongs:
    numbers = [size for size in sizes if not list(number_wrongs(size))]
    if len(numbers) < len(sizes) or any(size <= 0 for size in numbers):
        yield where, f"{[*sizes]}"
    elif any(first >= second for first, second in pairwise(numbers)):
        yield where, f"{[*sizes]}, not rising"


def sizes(catalogue: Catalogue) -> Wrongs:
    """Yield sizes that are none, and boards laid down with the wide face as thickness."""
    for _, where, article in articles(catalogue):
        told = {
            field.name: getattr(article, field.name)
            for field in attrs.fields(type(article))
            if field.name.endswith("_mm") and getattr(article, field.name) is not None
        }
        for name, value in told.items():
            least = 0 if name in ("groove_mm", "gap_mm", "stand_off_mm") else 1e-9
            if not isfinite(value) or value < least:
                yield where, f"{name} {value!r}"
        wide = told.get("width_mm", told.get("depth_mm"))
        if wide is not None and "thickness_mm" in told and told["thickness_mm"] > wide:
            yield where, f"thickness {told['thickness_mm']:g} of a face {wide:g} wide"
        if "length_mm" in told and "width_mm" in told and told["length_mm"] < told["width_mm"]:
            yield where, f"length {told['length_mm']:g} of a tile {told['width_mm']:g} wide"


def metals(catalogue: Catalogue) -> Wrongs:
    """Yield metals that no rule speaks of."""
    for kind, where, article in articles(catalogue):
        metal = getattr(article, "metal", METALS[0])
        if metal not in METALS and not (kind == "clips" and not metal):
            yield where, f"metal {metal!r}"


def families(catalogue: Catalogue, known: Collection[str] | None) -> Wrongs:
    """Yield boards of a family that is not known."""
    for _, where, article in articles(catalogue):
        family = getattr(article, "family", None)
        if known is not None and family is not None and family not in known:
            yield where, f"family {family!r}"


def overrides(catalogue: Catalogue) -> Wrongs:
    """Yield what is wrong with the merchant's own rules."""
    for _, where, article in articles(catalogue):
        rules: tuple[ArticleRule, ...] = getattr(article, "rules", ())
        for rule in rules:
            yield from ((where, f"{rule.rule}: {wrong}") for wrong in _rule_wrongs(rule))
        twice = [name for name, count in Counter(rule.rule for rule in rules).items() if count > 1]
        yield from ((where, f"{name} twice") for name in twice)


def _rule_wrongs(rule: ArticleRule) -> Iterator[str]:
    if rule.rule not in QUESTIONS or rule.rule in NO_RECORD:
        yield "no rule that a record answers"
        return
    wrongs = tuple(number_wrongs(rule.value))
    yield from wrongs
    least, most = RULE_BOUNDS[rule.rule]
    if not wrongs and not least <= rule.value <= most:
        yield f"{rule.value:g}, and {least:g} to {most:g} makes sense"
    elif not wrongs and not is_possible(rule.value, QUESTIONS[rule.rule][0]):
        yield f"{rule.value:g}, no {QUESTIONS[rule.rule][0]}"
    yield from source_wrongs(rule.source)


def hangers(catalogue: Catalogue) -> Wrongs:
    """Yield hangers whose screw is not sold."""
    sold = {screw.code for screw in catalogue.screws}
    for at, hanger in enumerate(catalogue.hangers):
        if hanger.screw not in sold:
            yield f"hangers[{at}] {hanger.code}", f"screw {hanger.screw!r}"


def steep_lengths(catalogue: Catalogue) -> Wrongs:
    """Yield lengths that cost less than shorter ones, or many times more a metre."""
    for _, where, items in _sold(catalogue, "lengths"):
        yield from _steep(where, items, attrgetter("length_mm"), MOST_TIMES_A_METRE)


def steep_packs(catalogue: Catalogue) -> Wrongs:
    """Yield packs that cost less than smaller ones, or many times more for each piece."""
    for kind, where, items in _sold(catalogue, "packs"):
        size = attrgetter(PACK_SIZES.get(kind, "count"))
        yield from _steep(where, items, size, MOST_TIMES_EACH)


def _steep(where: str, items: Sequence[Any], size: Callable[[Any], Any], most_times: int) -> Wrongs:
    sold = [(size(item), item.price) for item in items]
    yield from ((where, told) for told in steep_prices(sold, most_times))
