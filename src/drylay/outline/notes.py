"""What has to be minded about openings: roots, pools, drains; and which way the deck runs."""

from collections.abc import Iterator
from math import ceil, pi, sqrt

from attrs import frozen

from drylay.brief.outline_model import OpeningWish
from drylay.findings import Finding, Severity
from drylay.outline.model import Outline
from drylay.reasons import Source

ROOTS = Source(kind="standard", title="BS 5837", clause="root protection area")
BARRIER = Source(kind="from memory", title="AS 1926.1", clause="height of a pool's barrier")
POOL_ZONE = Source(kind="standard", title="BS 7671", clause="section 702, zone 1")
SEWER = Source(kind="standard", title="Approved Document H", clause="H4")

OWN_LINE = Source(kind="assumption", title="docs/outline-conventions.md", clause="Places")

#: A tree's roots are protected so many stem diameters from its middle, and over no more ground.
ROOT_STEMS, ROOT_MOST_M2 = 12, 707.0


def root_radius_mm(trunk_mm: float) -> float:
    """Return how far from a tree's middle its roots are protected.

    Source: BS 5837: 12 times the stem's diameter, over no more than 707 m2.
    """
    return min(ROOT_STEMS * trunk_mm, sqrt(ROOT_MOST_M2 * 1e6 / pi))


def opening_notes(wishes: tuple[OpeningWish, ...]) -> Iterator[Finding]:
    """Yield what has to be minded about each opening, in the brief's order."""
    for number, wish in enumerate(wishes, start=1):
        for note in _NOTES.get(wish.kind, ()):
            trunk_mm = wish.trunk_mm or 0.0
            yield Finding(
                code=note.code,
                severity=note.severity,
                subject=f"O{number}",
                message=f"the {wish.kind}{wish.name and f' {wish.name}'}: {note.says}",
                limit=note.limit_mm or round(root_radius_mm(trunk_mm), 1),
                unit="mm",
                source=note.source,
            )


def own_line_note(outline: Outline) -> Iterator[Finding]:
    """Yield how far the deck's own line is turned from the brief's, where it is."""
    if outline.turned_deg:
        yield Finding(
            code="OUT-024",
            severity=Severity.NOTE,
            subject="outline",
            message="the deck's own line is turned so much from the brief's along, towards its "
            "across: places in the plan and on its papers are along and across that line, from "
            "the same datum corner; corners were moved by no more than "
            f"{ceil(outline.moved_mm * 100) / 100:g} mm to lie square on it",
            measured=outline.turned_deg,
            unit="degrees",
            source=OWN_LINE,
        )


@frozen(kw_only=True)
class _Note:
    """What is said of every opening of a kind; a limit of 0 is that of the tree's roots."""

    code: str
    says: str
    source: Source
    limit_mm: float = 0.0
    severity: Severity = Severity.CAUTION


_NOTES: dict[str, tuple[_Note, ...]] = {
    "tree": (
        _Note(
            code="OUT-020",
            says="no digging, stripping or footing within so far of its middle; ask the council "
            "first whether it is protected",
            source=ROOTS,
        ),
    ),
    "pool": (
        _Note(
            code="OUT-021",
            says="a barrier of so much or more keeps children from water; local rules come first",
            source=BARRIER,
            limit_mm=1200.0,
        ),
        _Note(
            code="OUT-022",
            says="no lights or sockets of mains voltage within so far of the water; wiring there "
            "is a licensed electrician's work",
            source=POOL_ZONE,
            limit_mm=2000.0,
        ),
    ),
    "hatch": (
        _Note(
            code="OUT-023",
            says="building within so far of a shared sewer wants the water company's consent",
            source=SEWER,
            limit_mm=3000.0,
            severity=Severity.NOTE,
        ),
    ),
}
