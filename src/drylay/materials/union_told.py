"""How two catalogues that contradict each other are told: each thing once, by both their names."""

from collections.abc import Iterator
from typing import Any

from attrs import evolve

from drylay.errors import Fault
from drylay.materials.stock_model import ArticleRule, Catalogue
from drylay.reasons import Source

#: What may be told in one of two catalogues only.
UNTOLD: tuple[object, ...] = ("", None)
_BOTH = "the same in both catalogues"
#: A day that a list tells of all its articles, by how an article has it.
_LIST_DAYS = {"sold_from": "valid_from", "sold_until": "valid_until"}


def contradiction(path: str, here: object, there: object, nearest: str = "") -> Fault:
    """Return the fault of something that two catalogues tell in two ways."""
    found = f"{_told(here)} and {_told(there)}"
    return Fault(path=path, found=found, wanted=_BOTH, nearest=nearest)


def named(first: Catalogue, second: Catalogue, faults: list[Fault]) -> list[Fault]:
    """Return contradictions with the names of the two catalogues, in the order they are told."""
    if first.name == second.name:
        return faults
    both = f"the same in {first.name} and {second.name}"
    return [evolve(f, wanted=both) if f.wanted == _BOTH else f for f in faults]


def rules_disagree(code: str, here: Any, there: Any) -> Iterator[Fault]:
    """Yield each of the merchant's own rules for an article that is not the same in both."""
    ours, theirs = ({rule.rule: rule for rule in rules} for rules in (here, there))
    for rule in sorted({*ours, *theirs}):
        pair = ours.get(rule), theirs.get(rule)
        if pair[0] != pair[1]:
            alike = None not in pair and len({each.value for each in pair if each}) == 1
            told = [_rule_told(each, sourced=alike) for each in pair]
            yield contradiction(f"{code}.rules.{rule}", *told)


def _rule_told(rule: ArticleRule | None, *, sourced: bool) -> str:
    """Return a rule's figure, with who says so where the figures are alike."""
    if rule is None:
        return "nothing"
    return f"{rule.value:g}" + (f" ({_source_told(rule.source)})" if sourced else "")


def _source_told(source: Source) -> str:
    return f"{source.kind}: {source.title}" + (f", {source.clause}" if source.clause else "")


def days_of_lists(first: Catalogue, second: Catalogue, faults: list[Fault]) -> list[Fault]:
    """Return faults with days that are the lists' own told once, not for every article in both."""
    kept = faults
    for own, lists in _LIST_DAYS.items():
        days = getattr(first, lists), getattr(second, lists)
        if days[0] == days[1]:
            continue
        told = contradiction("", *days).found
        alike = [f for f in faults if f.path.endswith(f".{own}") and f.found == told]
        if alike:
            codes = ", ".join(f.path.removesuffix(f".{own}") for f in alike[:3])
            more = ", ..." if len(alike) > 3 else ""
            found = f"{told}, and {len(alike)} articles in both ({codes}{more})"
            once = Fault(path=f"catalogue.{lists}", found=found, wanted=_BOTH,
                         nearest=f"the same {lists} in both, or .on(day) of each")  # fmt: skip
            kept = [once, *(f for f in kept if f not in alike)]
    return kept


def _told(value: object) -> str:
    return "nothing" if value in UNTOLD else str(value)
