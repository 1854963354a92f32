"""What is asked of both families beside the rules: years, upkeep, and what a border cannot have."""

from collections.abc import Iterator

from drylay.brief.model import Brief
from drylay.findings import Finding, Severity
from drylay.planner.asking import asking
from drylay.planner.job import Articles
from drylay.planner.rules import merchant_or_family
from drylay.plugins.model import FamilySet
from drylay.reasons import Ruling

#: A brief and its articles as one board sees them: the field's, or the border's.
Seen = tuple[Brief, Articles]


def asked_of_both(field: Seen, border: Seen, families: FamilySet) -> tuple[Finding, ...]:
    """Return what does not go together in years and upkeep, and what a border cannot have."""
    return (*_clipped(field, border, families), *_capped(field, border, families),
            *_lives(field, border, families), *_upkeep(field, border, families))  # fmt: skip


def _answer(seen: Seen, families: FamilySet, rule: str) -> Ruling | None:
    found = merchant_or_family(asking(*seen, families), rule)
    return found if isinstance(found, Ruling) else None


def _clipped(field: Seen, border: Seen, families: FamilySet) -> Iterator[Finding]:
    """Yield the stop for boards that clips hold: rows of two boards are screwed here."""
    for part, seen in (("field", field), ("border", border)):
        clips = _answer(seen, families, "hidden_clips")
        held = clips is not None and clips.value == 1
        if clips is not None and (held or (part == "field" and seen[1].clip is not None)):
            yield Finding(
                code="BDR-009",
                severity=Severity.STOP,
                subject="border",
                message=f"{seen[1].board.code} is held by clips, and beside a border all boards "
                "are screwed here: name a board that may be screwed through its face, or one whose "
                "record says so",
                source=clips.source,
            )


def _capped(field: Seen, border: Seen, families: FamilySet) -> Iterator[Finding]:
    """Yield the stop for hollow boards whose ends want caps: they are counted of one board only."""
    for seen in (field, border):
        caps = _answer(seen, families, "end_caps") if seen[1].board.hollow else None
        if caps is not None and float(caps.value or 0) > 0:
            yield Finding(
                code="BDR-010",
                severity=Severity.STOP,
                subject="border",
                message=f"{seen[1].board.code} is hollow, and caps on its ends are not counted in "
                "a deck of two boards: name a solid board, or leave the border out",
                source=caps.source,
            )


def _lives(field: Seen, border: Seen, families: FamilySet) -> Iterator[Finding]:
    lives = [
        [_answer(seen, families, f"life_{end}_years") for end in ("least", "most")]
        for seen in (field, border)
    ]
    known = [[each for each in life if each is not None] for life in lives]
    if any(len(life) < 2 for life in known):
        return
    spans = [tuple(float(each.value or 0) for each in life) for life in known]
    if spans[0] != spans[1]:
        told = [" to ".join(f"{years:g}" for years in span) for span in spans]
        yield Finding(
            code="BDR-011",
            severity=Severity.NOTE,
            subject="life",
            message=f"the field's boards are likely to last {told[0]} years, the border's "
            f"{told[1]}: the frame has to outlast both, and the one is renewed before the other",
            source=known[1][0].source,
        )


def _upkeep(field: Seen, border: Seen, families: FamilySet) -> Iterator[Finding]:
    asked = [_answer(seen, families, "upkeep_h_m2_year") for seen in (field, border)]
    hours = [each for each in asked if each is not None]
    if len(hours) == 2 and hours[0].value != hours[1].value:
        yield Finding(
            code="BDR-012",
            severity=Severity.NOTE,
            subject="upkeep",
            message=f"upkeep differs: {hours[0].value:g} h for a square metre in a year in the "
            f"field, {hours[1].value:g} in the border; what does the one good may harm the other",
            source=hours[1].source,
        )
