"""What can be meant: numbers within reach, words that are known; all faults of a call at once."""

from collections.abc import Callable, Collection, Iterable

from drylay.errors import Fault, InputError, UncoveredError

#: No figure of a deck, in mm, kN, kN/m2, N/mm2, N or inches, is less or more; beyond them the
#: powers that formulas take have no room in a float. Assumption.
LEAST, MOST = 1e-9, 1e12


def positive(**numbers: float) -> list[Fault]:
    """Return a fault of each number that is not finite and above 0, or beyond all reach."""
    return [
        Fault(path=path, found=repr(value), wanted=_wanted(value, "a finite number above 0"))
        for path, value in numbers.items()
        if not lies(value, LEAST, MOST)
    ]


def from_nothing(**numbers: float) -> list[Fault]:
    """Return a fault of each number that is below 0 or not finite, or beyond all reach.

    However little is none or next to none, as sums of floats leave it.
    """
    return [
        Fault(path=path, found=repr(value), wanted=_wanted(value, "0 or above, finite", 0))
        for path, value in numbers.items()
        if not lies(value, 0, MOST)
    ]


def finite(**numbers: float) -> list[Fault]:
    """Return a fault of each number that is not finite, of either sign, within reach."""
    return [
        Fault(path=path, found=repr(value), wanted=_wanted(value, "a finite number", -MOST))
        for path, value in numbers.items()
        if not lies(value, -MOST, MOST)
    ]


def between(low: float, most: float, **numbers: float) -> list[Fault]:
    """Return a fault of each number that is not within two others, ends included."""
    return [
        Fault(path=path, found=repr(value), wanted=f"from {low:g} to {most:g}")
        for path, value in numbers.items()
        if not lies(value, low, most)
    ]


def one_of(known: Collection[str], **words: str) -> list[Fault]:
    """Return a fault of each word that is not among those known."""
    return [
        Fault(path=path, found=repr(word), wanted=f"one of {', '.join(known)}")
        for path, word in words.items()
        if not (isinstance(word, str) and word in known)
    ]


def lies(value: float, low: float, most: float) -> bool:
    """Return whether a number is within two others; nan and what is no number are within none."""
    try:
        return low <= value <= most
    except TypeError:
        return False


def refuse(nonsense: Iterable[Fault], uncovered: Iterable[Fault] = ()) -> None:
    """Return nothing where there is no fault.

    Raises:
        InputError: Any is of what cannot be meant; all others are told with it.
        UncoveredError: All are of what the basis does not cover.
    """
    cannot, beyond = tuple(nonsense), tuple(uncovered)
    if cannot:
        raise InputError((*cannot, *beyond))
    if beyond:
        raise UncoveredError(beyond)


def together(*asked: Callable[[], object]) -> None:
    """Ask each of several, so that what all of them refuse is told at once, each fault once.

    Raises:
        InputError: Any refuses.
        UncoveredError: All that refuse do because the basis does not cover it.
    """
    cannot: dict[Fault, None] = {}
    beyond: dict[Fault, None] = {}
    for ask in asked:
        try:
            ask()
        except UncoveredError as error:
            beyond |= dict.fromkeys(error.faults)
        except InputError as error:
            cannot |= dict.fromkeys(error.faults)
    refuse(cannot, [fault for fault in beyond if fault not in cannot])


def _wanted(value: float, plain: str, low: float = LEAST) -> str:
    """Return what is wanted; of a number that is that but beyond all reach, how far that goes."""
    try:
        reaches = abs(value) < float("inf") and (value > 0 or low < 0)
    except TypeError:
        return plain
    return f"from {low:g} to {MOST:g}" if reaches else plain
