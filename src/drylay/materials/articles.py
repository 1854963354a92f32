"""Articles of a catalogue, read table by table with their lengths, packs and rules."""

from collections.abc import Hashable, Mapping
from decimal import Decimal
from typing import Any

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.keys import Key, choice, text
from drylay.intake.measures import read_measure
from drylay.intake.places import Keys
from drylay.intake.shown import shown_text
from drylay.intake.tables import UNREADABLE, Reading, read_table, read_tables, report
from drylay.intake.values import fault
from drylay.intake.words import nearest_of
from drylay.materials.checks import check_article, check_rules, check_sold, repeated
from drylay.materials.keys import (
    BY_LENGTH,
    PACK_SIZES,
    RECORD,
    RULE,
    article_keys,
    pack_keys,
    stock_length_keys,
)
from drylay.materials.model import NO_RECORD, QUESTIONS, RULE_BOUNDS
from drylay.materials.prices import price_by_metre, to_coin
from drylay.materials.stock_model import (
    Article,
    ArticleRule,
    Bag,
    Board,
    Clip,
    CoachScrew,
    Coating,
    ConcreteMix,
    Fabric,
    FasciaBoard,
    Gravel,
    Hanger,
    Pack,
    Packer,
    PostFoot,
    Record,
    Screw,
    StockLength,
    Tile,
    Timber,
    Tin,
)
from drylay.materials.swaps import offer_swaps
from drylay.materials.treatment import take_class_from_treatment
from drylay.reasons import SOURCE_KINDS, Source

Values = dict[str, Any]

NOUNS: dict[str, type] = {
    "boards": Board,
    "tiles": Tile,
    "timbers": Timber,
    "fascias": FasciaBoard,
    "screws": Screw,
    "coach_screws": CoachScrew,
    "clips": Clip,
    "hangers": Hanger,
    "coatings": Coating,
    "fabrics": Fabric,
    "gravels": Gravel,
    "packers": Packer,
    "concretes": ConcreteMix,
    "post_feet": PostFoot,
}
#: What a pack of a kind is, where it is no box.
PACK_NOUNS: dict[str, type] = {"coatings": Tin, "gravels": Bag, "concretes": Bag}
#: Kinds whose record may hold the merchant's own rules.
RULED = ("boards", "tiles")
#: Who may say so in a merchant's record: neither the brief nor a person overriding it.
RECORD_KINDS = tuple(
    kind for kind in SOURCE_KINDS if kind not in {"brief", "named person's override"}
)
_SOURCE = (
    choice("kind", RECORD_KINDS, required=True),
    text("title", 120, required=True),
    text("clause", 120, empty=True),
)


def read_articles(reading: Reading, kind: str, *, digits: int) -> list[Values]:
    """Return the values of every article of one kind, as far as they could be read."""
    tables = reading.document.tables.get(kind)
    found = read_tables(reading, (kind,), tables, (*article_keys(kind, digits), *RECORD))
    for at, values in enumerate(found):
        table = tables[at] if isinstance(tables, list | tuple) else None
        if isinstance(table, Mapping):
            _read_inside(reading, (kind, at), values, table, digits=digits)
    offer_swaps(reading, kind, tables)
    return found


def build_article(kind: str, values: Values) -> Article:
    """Return the noun of an article in which nothing is wrong."""
    told = {key.name: values[key.name] for key in RECORD if key.name in values}
    sizes = {name: value for name, value in values.items() if name not in told}
    article: Article = NOUNS[kind](**sizes, record=Record(**told))
    return article


def _read_inside(
    reading: Reading, keys: Keys, values: Values, table: Mapping[str, object], *, digits: int
) -> None:
    """Read an article's lengths, packs and rules, and check its sizes."""
    kind = str(keys[0])
    for wrong in check_article(kind, values):
        report(reading, (*keys, wrong.path), evolve(wrong, path=""))
    take_class_from_treatment(values)
    if kind in BY_LENGTH:
        per_m = values.get("price_per_m")
        there = (*keys, "lengths")
        values["lengths"] = _lengths(reading, there, table.get("lengths"), digits, per_m)
    else:
        there, each = (*keys, "packs"), values.pop("each", None)
        values["packs"] = _packs(reading, there, table.get("packs"), digits, each)
    if kind in RULED:
        values["rules"] = _rules(reading, (*keys, "rules"), table.get("rules"))


def _lengths(
    reading: Reading, keys: Keys, value: object, digits: int, per_m: object
) -> tuple[StockLength, ...]:
    """Return the lengths on sale, shortest first."""
    known = stock_length_keys(str(keys[0]), digits, priced=per_m is None)
    found = _on_sale(reading, keys, value, known, "length_mm")
    if per_m is not None:
        _refuse_two_prices(reading, keys, value)
    whole = [build_length(read, digits, per_m) for read in found]
    return tuple(sorted(whole, key=lambda stock: stock.length_mm))


def build_length(read: Values, digits: int, per_m: object = None) -> StockLength:
    """Return a length on sale, its price its own or that of so many metres."""
    price = read.get("price")
    if price is None and isinstance(per_m, Decimal):
        price = price_by_metre(per_m, read["length_mm"], digits)
    return StockLength(**{**read, "price": to_coin(price or Decimal(0), digits)})


def _refuse_two_prices(reading: Reading, keys: Keys, value: object) -> None:
    """Report lengths with a price of their own beside one for a metre."""
    for at, table in enumerate(value if isinstance(value, list | tuple) else ()):
        if isinstance(table, Mapping) and table.get("price") is not None:
            found = fault("a price beside price_per_m", "one of the two", "leave out one")
            report(reading, (*keys, at, "price"), found)


def _packs(
    reading: Reading, keys: Keys, value: object, digits: int, each: object
) -> tuple[Any, ...]:
    """Return the packs on sale, smallest first; what is sold singly is a pack of one."""
    kind = str(keys[0])
    size = PACK_SIZES.get(kind, "count")
    found: list[Values] = []
    if each is None or value is not None:
        found = _on_sale(reading, keys, value, pack_keys(kind, digits), size)
    if isinstance(each, Decimal):
        _refuse_two_singles(reading, keys, value)
        found = [*found, {size: 1, "price": each}]
    packs = [build_pack(kind, read, digits) for read in found]
    return tuple(sorted(packs, key=lambda pack: int(getattr(pack, size))))


def build_pack(kind: str, read: Values, digits: int) -> Any:
    """Return a pack on sale: a box, a tin or a bag."""
    return PACK_NOUNS.get(kind, Pack)(**{**read, "price": to_coin(read["price"], digits)})


def _refuse_two_singles(reading: Reading, keys: Keys, value: object) -> None:
    """Report packs of one beside a price for each."""
    for at, table in enumerate(value if isinstance(value, list | tuple) else ()):
        if isinstance(table, Mapping) and table.get("count") == 1:
            found = fault("a pack of 1 beside each", "one of the two", "leave out one")
            report(reading, (*keys, at, "count"), found)


def _on_sale(
    reading: Reading, keys: Keys, value: object, known: tuple[Key, ...], size: str
) -> list[Values]:
    """Return the lengths or packs that could be read whole; none twice, at least one."""
    if value is None or (isinstance(value, list | tuple) and not value):
        report(reading, keys, fault("nothing", f"at least one of {keys[-1]}, with its price"))
        return []
    found = read_tables(reading, keys, value, known)
    sizes: list[Hashable] = [read.get(size) for read in found]
    for at in repeated(sizes):
        if isinstance(sizes[at], int | float):
            again = fault(f"{sizes[at]:g} a second time", f"each {size} once")
            report(reading, (*keys, at, size), again)
    for at, read in enumerate(found):
        for wrong in check_sold(read):
            report(reading, (*keys, at, wrong.path), evolve(wrong, path=""))
    needed = [key.name for key in known if key.required]
    return [read for read in found if _whole(read, needed)]


def _whole(read: Values, needed: list[str]) -> bool:
    return all(name in read for name in needed) and UNREADABLE not in read.values()


def _rules(reading: Reading, keys: Keys, value: object) -> tuple[ArticleRule, ...]:
    """Return the merchant's own rules for an article."""
    tables = value if isinstance(value, list | tuple) else ()
    rules: list[ArticleRule] = []
    for at, read in enumerate(read_tables(reading, keys, value, RULE)):
        rule = _rule(reading, (*keys, at), read, tables[at])
        rules += [rule] if rule is not None else []
    for at in repeated([rule.rule for rule in rules]):
        again = f"{shown_text(rules[at].rule)} a second time"
        report(reading, keys, fault(again, "each rule once for an article"))
    for wrong in check_rules({rule.rule: rule.value for rule in rules}):
        report(reading, keys, evolve(wrong, path=""))
    return tuple(rules)


def _rule(reading: Reading, keys: Keys, read: Values, table: object) -> ArticleRule | None:
    source = read_source(reading, (*keys, "source"), table)
    name = rule_named(reading, keys, read)
    value = None if name is None else _rule_value(reading, keys, read, name)
    if name is None or value is None or source is None:
        return None
    return ArticleRule(rule=name, value=value, source=source)


def rule_named(reading: Reading, keys: Keys, read: Values) -> str | None:
    """Return the rule that a record answers, None if it names none that can be recorded."""
    name = read.get("rule")
    known = tuple(rule for rule in QUESTIONS if rule not in NO_RECORD)
    if not isinstance(name, str):
        return None
    if name not in known:
        near = nearest_of(name, known)
        nearest = f'rule = "{near}"' if near else ""
        wanted = f"one of the {len(known)} rules of a record, such as {', '.join(known[:3])}"
        report(reading, (*keys, "rule"), fault(shown_text(name), wanted, nearest))
        return None
    return name


def _rule_value(reading: Reading, keys: Keys, read: Values, name: str) -> float | None:
    if "value" not in read:
        return None
    least, most = RULE_BOUNDS[name]
    answer = read_measure(read["value"], unit=QUESTIONS[name][0], least=least, most=most)
    if isinstance(answer, Fault):
        report(reading, (*keys, "value"), answer)
        return None
    return answer


def read_source(reading: Reading, keys: Keys, table: object) -> Source | None:
    """Return who says so; a rule without a source is no rule."""
    given = table.get("source") if isinstance(table, Mapping) else None
    if given is None:
        return None
    read: Values = read_table(reading, keys, given, _SOURCE)
    return Source(**read) if _whole(read, ["kind", "title"]) else None
