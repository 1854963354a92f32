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
from drylay.intake.values import fault, nearest_of
from drylay.materials.checks import check_article, check_rules, repeated
from drylay.materials.keys import ARTICLES, PACK_SIZES, RULE, pack_keys, stock_length_keys
from drylay.materials.model import NO_RECORD, QUESTIONS, RULE_BOUNDS
from drylay.materials.stock_model import (
    Article,
    ArticleRule,
    Bag,
    Board,
    Clip,
    CoachScrew,
    Coating,
    Fabric,
    FasciaBoard,
    Gravel,
    Hanger,
    Pack,
    Packer,
    Screw,
    StockLength,
    Tile,
    Timber,
    Tin,
)
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
}
#: What a pack of a kind is, where it is no box.
PACK_NOUNS: dict[str, type] = {"coatings": Tin, "gravels": Bag}
#: Kinds whose record may hold the merchant's own rules.
RULED = ("boards", "tiles")
#: Kinds sold by length; all others are sold in packs.
BY_LENGTH = ("boards", "timbers", "fascias", "fabrics")
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
    found = read_tables(reading, (kind,), tables, ARTICLES[kind])
    for at, values in enumerate(found):
        table = tables[at] if isinstance(tables, list | tuple) else None
        if isinstance(table, Mapping):
            _read_inside(reading, (kind, at), values, table, digits=digits)
    return found


def build_article(kind: str, values: Values) -> Article:
    """Return the noun of an article in which nothing is wrong."""
    article: Article = NOUNS[kind](**values)
    return article


def _read_inside(
    reading: Reading, keys: Keys, values: Values, table: Mapping[str, object], *, digits: int
) -> None:
    """Read an article's lengths, packs and rules, and check its sizes."""
    kind = str(keys[0])
    for wrong in check_article(kind, values):
        report(reading, (*keys, wrong.path), evolve(wrong, path=""))
    if kind in BY_LENGTH:
        values["lengths"] = _lengths(reading, (*keys, "lengths"), table.get("lengths"), digits)
    else:
        values["packs"] = _packs(reading, (*keys, "packs"), table.get("packs"), digits)
    if kind in RULED:
        values["rules"] = _rules(reading, (*keys, "rules"), table.get("rules"))


def _lengths(reading: Reading, keys: Keys, value: object, digits: int) -> tuple[StockLength, ...]:
    """Return the lengths on sale, shortest first."""
    found = _on_sale(reading, keys, value, stock_length_keys(str(keys[0]), digits), "length_mm")
    whole = [StockLength(**_priced(read, digits)) for read in found]
    return tuple(sorted(whole, key=lambda stock: stock.length_mm))


def _packs(reading: Reading, keys: Keys, value: object, digits: int) -> tuple[Any, ...]:
    """Return the packs on sale, smallest first."""
    kind = str(keys[0])
    size = PACK_SIZES.get(kind, "count")
    found = _on_sale(reading, keys, value, pack_keys(kind, digits), size)
    noun = PACK_NOUNS.get(kind, Pack)
    packs = [noun(**_priced(read, digits)) for read in found]
    return tuple(sorted(packs, key=lambda pack: int(getattr(pack, size))))


def _on_sale(
    reading: Reading, keys: Keys, value: object, known: tuple[Key, ...], size: str
) -> list[Values]:
    """Return the lengths or packs that could be read whole; none twice, at least one."""
    if value is None or (isinstance(value, list | tuple) and not value):
        report(reading, keys, fault("nothing", f"at least one of {keys[-1]}, with its price"))
        return []
    found = read_tables(reading, keys, value, known)
    sizes: list[Hashable] = [read.get(size, at) for at, read in enumerate(found)]
    for at in repeated(sizes):
        if sizes[at] is not UNREADABLE:
            again = fault(f"{sizes[at]:g} a second time", f"each {size} once")
            report(reading, (*keys, at, size), again)
    needed = [key.name for key in known if key.required]
    return [read for read in found if _whole(read, needed)]


def _whole(read: Values, needed: list[str]) -> bool:
    return all(name in read for name in needed) and UNREADABLE not in read.values()


def _priced(read: Values, digits: int) -> Values:
    """Return the values with the price to the currency's last digit: 14.4 is 14.40."""
    return {**read, "price": read["price"].quantize(Decimal(1).scaleb(-digits))}


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
    source = _source(reading, (*keys, "source"), table)
    name = read.get("rule")
    if not isinstance(name, str):
        return None
    known = tuple(rule for rule in QUESTIONS if rule not in NO_RECORD)
    if name not in known:
        near = nearest_of(name, known)
        nearest = f'rule = "{near}"' if near else ""
        wanted = f"one of {', '.join(known)}"
        report(reading, (*keys, "rule"), fault(shown_text(name), wanted, nearest))
        return None
    value = _rule_value(reading, keys, read, name)
    if value is None or source is None:
        return None
    return ArticleRule(rule=name, value=value, source=source)


def _rule_value(reading: Reading, keys: Keys, read: Values, name: str) -> float | None:
    if "value" not in read:
        return None
    least, most = RULE_BOUNDS[name]
    answer = read_measure(read["value"], unit=QUESTIONS[name][0], least=least, most=most)
    if isinstance(answer, Fault):
        report(reading, (*keys, "value"), answer)
        return None
    return answer


def _source(reading: Reading, keys: Keys, table: object) -> Source | None:
    """Return who says so; a rule without a source is no rule."""
    given = table.get("source") if isinstance(table, Mapping) else None
    if given is None:
        return None
    read: Values = read_table(reading, keys, given, _SOURCE)
    return Source(**read) if _whole(read, ["kind", "title"]) else None
