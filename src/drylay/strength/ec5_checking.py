"""A check put together: what is there over what may be, with its clause; and a member's checks."""

from collections.abc import Iterable

from drylay.errors import Fault, InputError
from drylay.reasons import Inputs, Source
from drylay.strength.ec5_values import source_of
from drylay.strength.model import Check, Screened

BASIS = "EN 1995-1-1 with EN 338:2016 classes and the choices of the UK annexes"
#: Utilisations that differ by less than this are told as alike: the first named governs.
_ALIKE = 1e-9


def ec5(clause: str) -> Source:
    """Return EN 1995-1-1 as the source at this clause: formulas are from memory."""
    return source_of("ec5-memory", clause)


def check(
    name: str,
    subject: str,
    *,
    measured: float,
    limit: float,
    unit: str,
    case: str,
    formula: str,
    source: Source,
    inputs: Inputs = (),
) -> Check:
    """Return the check of `measured` against `limit`, both in `unit`; the limit is above 0."""
    return Check(
        name=name,
        subject=subject,
        measured=measured,
        limit=limit,
        unit=unit,
        utilisation_ratio=measured / limit,
        case=case,
        formula=formula,
        source=source,
        inputs=inputs,
    )


def worst(checks: Iterable[Check]) -> Check:
    """Return the check that is used most, the first of those alike."""
    found = tuple(checks)
    most = max(each.utilisation_ratio for each in found)
    return next(each for each in found if each.utilisation_ratio >= most - _ALIKE)


def ranked(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Return each kind of check once, by its governing case, the most used first."""
    kinds: dict[str, list[Check]] = {}
    for each in checks:
        kinds.setdefault(each.name, []).append(each)
    governing = [worst(alike) for alike in kinds.values()]
    return tuple(sorted(governing, key=lambda each: -each.utilisation_ratio))


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


def passes(found: Screened) -> bool:
    """Return whether every check is within its limit and nothing stops the member."""
    return not found.stops and all(each.utilisation_ratio <= 1.0 for each in found.checks)


def refuse_unless_positive(**numbers: float) -> None:
    """Return nothing where every number is finite and above 0.

    Raises:
        InputError: Any is not; all of them are told.
    """
    wanted = "a finite number above 0"
    faults = tuple(
        Fault(path=name, found=repr(value), wanted=wanted)
        for name, value in numbers.items()
        if not 0.0 < value < float("inf")
    )
    if faults:
        raise InputError(faults)
