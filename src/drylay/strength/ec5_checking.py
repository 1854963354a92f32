"""A member's checks by the Eurocode 5 basis, and the refusal of sizes that cannot be meant."""

from collections.abc import Iterable

from drylay.reasons import Source
from drylay.strength.checks import ranked
from drylay.strength.ec5_values import source_of
from drylay.strength.model import Check, Screened

BASIS = "EN 1995-1-1 with EN 338:2016 classes and the choices of the UK annexes"


def ec5(clause: str) -> Source:
    """Return EN 1995-1-1 as the source at this clause: formulas are from memory."""
    return source_of("ec5-memory", clause)


def screened(
    subject: str,
    checks: Iterable[Check],
    assumed: tuple[str, ...] = (),
    stops: tuple[str, ...] = (),
) -> Screened:
    """Return a member's checks by this basis, each kind by its governing case."""
    return Screened(
        basis=BASIS, subject=subject, checks=ranked(checks), assumed=assumed, stops=stops
    )


def stopped(subject: str, stops: tuple[str, ...]) -> Screened:
    """Return what is told of a member that the basis does not cover: stops and no check."""
    return Screened(basis=BASIS, subject=subject, checks=(), stops=stops)
