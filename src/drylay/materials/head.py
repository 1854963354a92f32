"""The head of a catalogue: merchant, currency, tax, and the days its prices hold."""

from collections.abc import Mapping
from typing import Any

from attrs import evolve

from drylay.intake.tables import Reading, read_table, report
from drylay.intake.values import fault
from drylay.intake.words import nearest_of
from drylay.materials.articles import Values, build_article
from drylay.materials.checks import check_days, shown_code
from drylay.materials.currencies import MINOR_DIGITS
from drylay.materials.keys import CATALOGUE
from drylay.materials.stock_model import Catalogue

_NO_CURRENCY = "a currency code of ISO 4217 in capital letters"


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
