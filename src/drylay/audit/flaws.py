"""How a check says what it found, and what it does where a part of the plan is missing."""

from collections.abc import Iterator
from decimal import Decimal
from typing import TypeVar

from drylay.audit.exact import mm, ticks
from drylay.audit.model import Flaw
from drylay.plan.model import Plan
from drylay.reasons import Source

Part = TypeVar("Part")


class NothingToMeasure(Exception):  # noqa: N818 - no error: a blocked plan has fewer parts
    """A check's part of the plan is not there; the runner lists the check as not run."""


def need(part: Part | None, name: str) -> Part:
    """Return a part of the plan.

    Raises:
        NothingToMeasure: The plan has no such part.
    """
    if part is None:
        raise NothingToMeasure(f"the plan has no {name}")
    return part


def of_boards(plan: Plan) -> None:
    """Return nothing for a deck of boards.

    Raises:
        NothingToMeasure: The deck is one of tiles, which are measured by checks of their own.
    """
    if plan.tiling is not None:
        raise NothingToMeasure("the plan has tiles, no boards")


def on_pads(plan: Plan) -> bool:
    """Return whether a plan's tiles stand on pads, on a rectangle or an outline."""
    return plan.tiles is not None or (plan.tiling is not None and plan.tiling.pads is not None)


def conventions(clause: str) -> Source:
    """Return docs/conventions.md as a source: what a plan's numbers mean and how they add up."""
    return Source(kind="arithmetic", title="docs/conventions.md", clause=clause)


def practice(clause: str) -> Source:
    """Return common practice as a source."""
    return Source(kind="common practice", title="common practice, no source", clause=clause)


def off_by(
    subject: str, message: str, measured_320: float, limit_320: float, source: Source
) -> Flaw:
    """Return a flaw of two lengths, both counted in 1/320 mm."""
    return Flaw(
        subject=subject,
        message=message,
        measured=mm(measured_320),
        limit=mm(limit_320),
        unit="mm",
        source=source,
    )


def same_length(
    subject: str, message: str, found_mm: float, wanted_320: int, source: Source
) -> Iterator[Flaw]:
    """Yield a flaw unless a length of the plan is exactly what it ought to be."""
    found = ticks(found_mm)
    if found != wanted_320:
        yield off_by(subject, message, found, wanted_320, source)


def same_half(
    subject: str, message: str, found_mm: float, wanted_640: int, source: Source
) -> Iterator[Flaw]:
    """Yield a flaw unless a length is what it ought to be, told in halves of 1/320 mm.

    Half an odd number of 1/320 mm cannot be written: either neighbour will do.
    """
    found = ticks(found_mm)
    if abs(2 * found - wanted_640) > 1:
        yield off_by(subject, message, found, wanted_640 / 2, source)


def same_count(
    subject: str, message: str, found: int, wanted: int, source: Source
) -> Iterator[Flaw]:
    """Yield a flaw unless a count of the plan is what it ought to be."""
    if found != wanted:
        yield Flaw(
            subject=subject,
            message=message,
            measured=found,
            limit=wanted,
            unit="count",
            source=source,
        )


def same_money(
    subject: str, message: str, found: Decimal, wanted: Decimal, source: Source
) -> Iterator[Flaw]:
    """Yield a flaw unless an amount of the plan is exactly what it ought to be."""
    if found != wanted:
        yield Flaw(
            subject=subject,
            message=message,
            measured=float(found),
            limit=float(wanted),
            unit="money",
            source=source,
        )


def same_text(
    subject: str, message: str, found: str, wanted: str, source: Source
) -> Iterator[Flaw]:
    """Yield a flaw unless a text of the plan is what it ought to be."""
    if found != wanted:
        yield Flaw(
            subject=subject,
            message=f"{message}: found {found!r}, wanted {wanted!r}",
            source=source,
        )
