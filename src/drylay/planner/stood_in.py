"""Joist centres that only stand in for those of a product whose record is silent."""

from drylay.findings import Finding, Severity
from drylay.planner.asking import Asking
from drylay.planner.brought_down import RULE as CENTRES
from drylay.plugins.guard import ask
from drylay.reasons import Ruling, Source

#: The trait of a family whose centres only stand in for a product's own.
TRAIT = "centres_stand_in"
PUBLIC = Source(
    kind="common practice", title="common practice, no source", clause="public often 300 or less"
)


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


def in_public(asked: Asking, path: str, value_mm: float) -> list[Finding]:
    """Return the caution on a product's own centres where the public walks: makers want less."""
    if asked.query.use != "public" or not stands_in(asked, CENTRES):
        return []
    family = ask(asked.families, asked.articles.board.family, CENTRES, asked.query)
    if not isinstance(family, Ruling) or value_mm <= float(family.value or 0):
        return []
    return [
        Finding(
            code="MAT-010",
            severity=Severity.CAUTION,
            subject=path,
            message=f"in public use makers often want {family.value:g} mm or less for boards like "
            f"{asked.articles.board.code}, not {value_mm:g}: ask before you build",
            source=PUBLIC,
        )
    ]
