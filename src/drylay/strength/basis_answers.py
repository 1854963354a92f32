"""How a design basis answers: never by raising; a refusal says what was found and wanted."""

from collections.abc import Callable
from difflib import get_close_matches
from itertools import pairwise

from attrs import evolve

from drylay.errors import Fault, InputError, UncoveredError
from drylay.strength.model import (
    BeamAsked,
    BoardAsked,
    GuardPostAsked,
    LedgerAsked,
    PostAsked,
    Screened,
    Section,
)

#: Kinds of beam that a basis is asked for.
BEAMS = ("joist", "bearer")
#: Larger than any size in mm or load in kN of a deck: what is beyond cannot be meant.
MOST = 1e5
MOST_SUPPORTS = 100
#: A number above 0 of a size that can be meant.
FIGURE = r"((?=[\d.]*[1-9])\d{1,5}(?:\.\d{1,6})?)"


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
    sizes = {"length_mm": asked.length_mm, "carried_mm": asked.carried_mm}
    sizes |= {"bearing_mm": asked.bearing_mm, "alike": asked.alike, **_sizes(asked.section)}
    gaps = [b - a for a, b in pairwise(asked.supports_mm)]
    sizes |= {f"supports_mm[{at + 1}] after the last": gap for at, gap in enumerate(gaps)}
    least = {"held_each_mm": asked.held_each_mm, "hold_down_kn": asked.hold_down_kn}
    least |= {"more_dead_kn_m2": asked.more_dead_kn_m2}
    least |= {f"supports_mm[{at}]": place for at, place in enumerate(asked.supports_mm[:1])}
    faults = _faults(sizes, least)
    if asked.kind not in BEAMS:
        wanted = f"one of {', '.join(BEAMS)}"
        faults.append(Fault(path="kind", found=repr(asked.kind), wanted=wanted))
    if len(asked.supports_mm) > MOST_SUPPORTS:
        found, wanted = f"{len(asked.supports_mm)}", f"at most {MOST_SUPPORTS}"
        faults.append(Fault(path="supports_mm", found=found, wanted=wanted))
    _refuse(faults)


def refuse_post(asked: PostAsked) -> None:
    """Return nothing where a post asked for can be one.

    Raises:
        InputError: A size or a load is none that a post can have; all at once.
    """
    least = {"dead_kn": asked.dead_kn, "live_kn": asked.live_kn}
    _refuse(_faults({"length_mm": asked.length_mm, **_sizes(asked.section)}, least))


def refuse_board(asked: BoardAsked) -> None:
    """Return nothing where a board asked for can be one.

    Raises:
        InputError: A size is none that a board can have; all at once.
    """
    _refuse(_faults({"bay_mm": asked.bay_mm, "bays": asked.bays, **_sizes(asked.section)}, {}))


def refuse_ledger(asked: LedgerAsked) -> None:
    """Return nothing where a ledger asked for can be one.

    Raises:
        InputError: A size is none that a ledger can have; all at once.
    """
    sizes = {"span_mm": asked.span_mm, "spacing_mm": asked.spacing_mm, **_sizes(asked.section)}
    _refuse(_faults(sizes, {"more_dead_kn_m2": asked.more_dead_kn_m2}))


def refuse_guard_post(asked: GuardPostAsked) -> None:
    """Return nothing where a guard's post asked for can be one.

    Raises:
        InputError: A size or a load is none that it can have, or nothing pushes it; all at once.
    """
    sizes = {"centres_mm": asked.centres_mm, "rail_mm": asked.rail_mm, "bolts_mm": asked.bolts_mm}
    sizes |= {"washer_mm": asked.washer_mm, **_sizes(asked.section)}
    sizes |= {f"edge: {path}": size for path, size in _sizes(asked.edge).items()}
    faults = _faults(sizes, {"line_kn_m": asked.line_kn_m, "point_kn": asked.point_kn})
    if asked.section.plies != 1:
        found = f"{asked.section.plies:g}"
        faults.append(Fault(path="section.plies", found=found, wanted="a post of one piece"))
    if not faults and not asked.line_kn_m + asked.point_kn > 0:
        wanted = "a load along the guard's top or at one place of it"
        faults.append(Fault(path="line_kn_m, point_kn", found="0 and 0", wanted=wanted))
    _refuse(faults)


def _sizes(section: Section) -> dict[str, float]:
    return {
        "section.breadth_mm": section.breadth_mm,
        "section.depth_mm": section.depth_mm,
        "section.plies": section.plies,
    }


def _refuse(faults: list[Fault]) -> None:
    if faults:
        raise InputError(tuple(faults))


def _faults(sizes: dict[str, float], least: dict[str, float]) -> list[Fault]:
    """Return what is wrong with sizes and counts, from 1 on, and with loads and lengths from 0."""
    return [
        Fault(path=path, found=repr(value), wanted=f"a number from {low:g} to {MOST:g}")
        for low, numbers in ((1.0, sizes), (0.0, least))
        for path, value in numbers.items()
        if not low <= value <= MOST  # nan is within nothing
    ]
