"""A catalogue told as a stock file tells it: whoever made it, it can be read and checked as one."""

from decimal import Decimal
from typing import Any

import attrs

from drylay.materials.model import QUESTIONS
from drylay.materials.stock_model import KINDS, ArticleRule, Catalogue

Told = dict[str, Any]


def stock_form(catalogue: Catalogue) -> Told:
    """Return a catalogue as the mapping that a stock file of it would be."""
    head = {field.name: getattr(catalogue, field.name) for field in attrs.fields(Catalogue)}
    articles = {kind: [_told(article) for article in head.pop(kind)] for kind in KINDS}
    told = {kind: found for kind, found in articles.items() if found}
    return {"catalogue": {name: _plain(value) for name, value in _said(head)}, **told}


def _said(values: Told) -> list[tuple[str, Any]]:
    """Return what there is to say: nothing is said of what is unknown or empty."""
    return [(name, value) for name, value in values.items() if value not in (None, "", ())]


def _told(noun: Any) -> Told:
    told: Told = {}
    for field in attrs.fields(type(noun)):
        value = getattr(noun, field.name)
        if value in (None, "", ()) or (value == field.default and not attrs.has(type(value))):
            continue
        if attrs.has(type(value)) and field.name != "source":
            told |= _told(value)  # what a file says of an article itself
        else:
            told[field.name] = _plain(value)
    if isinstance(noun, ArticleRule):
        told["value"] = _as_counted(noun)
    if "price_per_m" in told:  # prices of lengths follow from it, and are not told twice
        for length in told.get("lengths", ()):
            length.pop("price", None)
    return told


def _as_counted(rule: ArticleRule) -> float:
    """Return a rule's value, whole where a file has a whole number: counts, and yes or no."""
    counted = QUESTIONS.get(rule.rule, ("", ""))[0] in ("count", "yes/no")
    return int(rule.value) if counted and float(rule.value).is_integer() else rule.value


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_told(item) for item in value]
    if attrs.has(type(value)):
        return _told(value)
    return f"{value:f}" if isinstance(value, Decimal) else value
