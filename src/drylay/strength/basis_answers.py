"""How a design basis answers: never by raising; a refusal says what was found and wanted."""

from collections.abc import Callable
from difflib import get_close_matches
from math import isfinite

from attrs import evolve

from drylay.errors import Fault, InputError, UncoveredError
from drylay.strength.model import BeamAsked, LedgerAsked, PostAsked, Screened, Section

#: Kinds of beam that a basis is asked for.
BEAMS = ("joist", "bearer")


def answered(basis: str, subject: str, screen: Callable[[], Screened]) -> Screened:
    """Return what a screening answers, under the basis's id; a refusal of it as stops.

    What it refuses, because the basis does not cover it or because it cannot be meant, comes back
    with what was found and what was wanted, and without checks.
    """
    try:
        return evolve(screen(), basis=basis, subject=subject)
    except InputError as error:
        stops = tuple(f"not covered: {fault}" for fault in error.faults)
        return Screened(basis=basis, subject=subject, checks=(), stops=stops)


def uncovered(path: str, found: object, wanted: str, nearest: str = "") -> UncoveredError:
    """Return the error that says that a basis does not cover what is asked."""
    fault = Fault(path=path, found=str(found), wanted=wanted, nearest=nearest)
    return UncoveredError((fault,))


def near(word: str, known: tuple[str, ...]) -> str:
    """Return the known word that is most like this one, "" where none is."""
    folded = {each.casefold(): each for each in known}
    found = get_close_matches(word.casefold(), list(folded), n=1)
    return folded[found[0]] if found else ""


def refuse_beam(asked: BeamAsked) -> None:
    """Return nothing where a beam asked for can be one.

    Raises:
        InputError: A number is not what a beam's can be, or it is no such kind; all at once.
    """
    above = {"length_mm": asked.length_mm, "carried_mm": asked.carried_mm}
    above |= {"bearing_mm": asked.bearing_mm, "alike": asked.alike, **_sizes(asked.section)}
    least = {"held_each_mm": asked.held_each_mm, "hold_down_kn": asked.hold_down_kn}
    faults = _faults(above, least)
    if asked.kind not in BEAMS:
        wanted = f"one of {', '.join(BEAMS)}"
        faults.append(Fault(path="kind", found=repr(asked.kind), wanted=wanted))
    if faults:
        raise InputError(tuple(faults))


def refuse_post(asked: PostAsked) -> None:
    """Return nothing where a post asked for can be one.

    Raises:
        InputError: A size is not above 0, or a load below 0; all at once.
    """
    least = {"dead_kn": asked.dead_kn, "live_kn": asked.live_kn}
    faults = _faults({"length_mm": asked.length_mm, **_sizes(asked.section)}, least)
    if faults:
        raise InputError(tuple(faults))


def refuse_ledger(asked: LedgerAsked) -> None:
    """Return nothing where a ledger asked for can be one.

    Raises:
        InputError: A size is not above 0; all at once.
    """
    above = {"span_mm": asked.span_mm, "spacing_mm": asked.spacing_mm, **_sizes(asked.section)}
    faults = _faults(above, {})
    if faults:
        raise InputError(tuple(faults))


def _sizes(section: Section) -> dict[str, float]:
    return {
        "section.breadth_mm": section.breadth_mm,
        "section.depth_mm": section.depth_mm,
        "section.plies": section.plies,
    }


def _faults(above: dict[str, float], least: dict[str, float]) -> list[Fault]:
    faults = [
        Fault(path=path, found=repr(value), wanted="a finite number above 0")
        for path, value in above.items()
        if not (isfinite(value) and value > 0)
    ]
    return faults + [
        Fault(path=path, found=repr(value), wanted="a finite number, 0 or above")
        for path, value in least.items()
        if not (isfinite(value) and value >= 0)
    ]
