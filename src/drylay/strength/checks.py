"""A check put together, whichever basis asks: what is there over what may be; which governs."""

from collections.abc import Iterable
from math import isfinite

from drylay.errors import Fault, InputError
from drylay.reasons import Inputs, Source
from drylay.strength.meant import positive, refuse
from drylay.strength.model import Check, Screened

#: Utilisations that differ by less than this are told as alike: the first named governs.
_ALIKE = 1e-9


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
    """Return the check of `measured` against `limit`, both in `unit`; the limit is above 0.

    Raises:
        InputError: What is there, what may be or how much of it is used is no finite number.
    """
    ratio = measured / limit if limit > 0 else float("inf")
    if not isfinite(ratio + measured + limit):
        found, wanted = f"{measured!r} of {limit!r} {unit}", "finite numbers, of a limit above 0"
        raise InputError((Fault(path=name, found=found, wanted=wanted),))
    return Check(
        name=name,
        subject=subject,
        measured=measured,
        limit=limit,
        unit=unit,
        utilisation_ratio=ratio,
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


def passes(found: Screened) -> bool:
    """Return whether every check is within its limit and nothing stops the member."""
    return not found.stops and all(each.utilisation_ratio <= 1.0 for each in found.checks)


def refuse_unless_positive(**numbers: float) -> None:
    """Return nothing where every number is finite and above 0.

    Raises:
        InputError: Any is not; all of them are told.
    """
    refuse(positive(**numbers))
