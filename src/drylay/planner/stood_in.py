"""Joist centres that only stand in for those of a product whose record is silent."""

from drylay.findings import Finding, Severity
from drylay.planner.asking import Asking
from drylay.planner.brought_down import RULE as CENTRES
from drylay.plugins.guard import ask
from drylay.reasons import Ruling

#: The trait of a family whose centres only stand in for a product's own.
TRAIT = "centres_stand_in"


def stands_in(asked: Asking, rule: str) -> bool:
    """Return whether the family's answer to a rule only stands in for the product's own."""
    if rule != CENTRES:
        return False
    found = ask(asked.families, asked.articles.board.family, TRAIT, asked.query)
    return isinstance(found, Ruling) and found.value == 1


def assumed(asked: Asking, path: str, found: Ruling) -> list[Finding]:
    """Return the caution on centres that the family assumes for want of the record's."""
    if not stands_in(asked, CENTRES):
        return []
    code, value_mm = asked.articles.board.code, float(found.value or 0)
    return [
        Finding(
            code="MAT-007",
            severity=Severity.CAUTION,
            subject=path,
            message=f"the record of {code} tells no support centres: {value_mm:g} mm is assumed; "
            "get the maker's figure before you buy",
            source=found.source,
        )
    ]
