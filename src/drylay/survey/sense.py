"""Measures that look like a slip of sign or unit: asked, with every place, and never guessed.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Callable, Iterator, Sequence

from attrs import frozen

from drylay.errors import Fault
from drylay.survey.model import FieldBook, Tape

#: A level below this beside one of at least that: metres beside millimetres.
METRES_BELOW_MM, BESIDE_MM = 10.0, 100.0
#: So many times as far from the datum as all others, and at least so far, is another unit.
SLIP, SLIP_FROM_MM = 50.0, 1000.0
#: All levels so near to the datum, or all places, look like metres.
ALL_WITHIN_MM, PLACES_WITHIN_MM = 5.0, 100.0
#: So many levels of one sign, all at least so far from the datum, make one of the other sign odd
#: where it would lie among them with its sign turned.
SIGN_FROM, SIGN_LEAST_MM = 3, 20.0
#: Tapes so many times shorter or longer than all others.
TAPE_SLIP = 9.0
Levels = Sequence[tuple[str, float]]


@frozen
class Question:
    """A number that looks like a slip: where, beside what, and by what it would be mended."""

    path: str
    value: float
    beside: str
    wanted: str
    factor: float
    meant: str = "that is meant"


def makes_sense(book: FieldBook, said: Callable[[str], float | None]) -> Iterator[Fault]:
    """Yield everything in a field book that looks like a slip, with the fix that would mend it.

    `said` tells the number that stands at a path, as written: what was read is only near it.
    """
    for question in _questions(book):
        value = said(question.path) or question.value
        yield Fault(
            path=question.path,
            found=f"{value:.10g}, {question.beside}",
            wanted=question.wanted,
            nearest=f"{question.path.rpartition('.')[2]} = {value * question.factor:.10g}, "
            f"if {question.meant}",
        )


def _questions(book: FieldBook) -> Iterator[Question]:
    levels = [(f"survey.points[{at}].level_mm", p.level_mm) for at, p in enumerate(book.points)]
    metres = list(_all_in_metres(levels))
    yield from metres
    if not metres:
        yield from _units(levels)
        yield from _signs(levels)
    yield from _places(book)
    yield from _tapes(book.tapes)


def _all_in_metres(levels: Levels) -> Iterator[Question]:
    far = max((abs(level) for _, level in levels), default=0.0)
    if len(levels) > 2 and 0 < far <= ALL_WITHIN_MM:
        for path, level in levels:
            if level:
                yield Question(
                    path,
                    level,
                    f"all levels within {ALL_WITHIN_MM:g} mm of the datum",
                    "levels in mm: they look like metres",
                    1000.0,
                    "metres are meant; if not, tell all levels from a datum further off",
                )


def _units(levels: Levels) -> Iterator[Question]:
    far = sorted((abs(level) for _, level in levels), reverse=True)
    wanted = "all levels from one datum in mm: which unit is meant?"
    for path, level in levels:
        others = [abs(other) for place, other in levels if place != path and other]
        whole = level == int(level)
        if 0 < abs(level) < METRES_BELOW_MM and not whole and far[0] >= BESIDE_MM:
            yield Question(path, level, f"beside levels up to {far[0]:g}", wanted, 1000.0)
        elif len(others) > 1 and abs(level) >= max(SLIP_FROM_MM, SLIP * max(others)):
            yield Question(path, level, f"beside levels up to {max(others):g}", wanted, 0.1)


def _signs(levels: Levels) -> Iterator[Question]:
    for sign in (1, -1):
        odd = [(path, level) for path, level in levels if level * sign < 0]
        rest = [abs(level) for _, level in levels if level * sign > 0]
        if len(odd) != 1 or len(rest) < SIGN_FROM or len(rest) + 1 < len(levels):
            continue
        ((path, level),) = odd
        if min(rest) >= SIGN_LEAST_MM and min(rest) * 0.8 <= abs(level) <= max(rest) * 1.25:
            low, high = sorted((sign * min(rest), sign * max(rest)))
            yield Question(path, level, f"beside levels of {low:g} to {high:g}",
                         "levels of one sign: above the datum or below it?", -1.0,
                         "that is meant; if not, tell all levels from a lower datum")  # fmt: skip


def _places(book: FieldBook) -> Iterator[Question]:
    every = [abs(way) for p in book.points for way in (p.along_mm, p.across_mm)]
    if len(book.points) < 3 or not 0 < max(every) <= PLACES_WITHIN_MM:
        return
    for at, point in enumerate(book.points):
        for key in ("along_mm", "across_mm"):
            value = getattr(point, key)
            if value:
                yield Question(f"survey.points[{at}].{key}", value,
                             f"all points within {PLACES_WITHIN_MM:g} mm",
                             "points spread over the garden, in mm: they look like metres",
                             1000.0)  # fmt: skip


def _tapes(tapes: Sequence[Tape]) -> Iterator[Question]:
    """Yield tapes that no shape can have beside the others: they look like another unit."""
    long = [tape.length_mm for tape in tapes]
    for at, tape in enumerate(tapes):
        others = long[:at] + long[at + 1 :]
        if len(others) < 3:
            continue
        if tape.length_mm >= TAPE_SLIP * max(others):
            yield Question(f"survey.tapes[{at}].length_mm", tape.length_mm,
                         f"beside tapes up to {max(others):g}",
                         "all tapes in one unit: which is meant?", 0.1)  # fmt: skip
        elif tape.length_mm * TAPE_SLIP <= min(others):
            yield Question(f"survey.tapes[{at}].length_mm", tape.length_mm,
                         f"beside tapes down to {min(others):g}",
                         "all tapes in one unit: which is meant?", 10.0)  # fmt: skip
