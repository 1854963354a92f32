"""What is wrong with tapes: told all at once, each with the nearest thing that may be meant."""

import math
from collections.abc import Iterator, Sequence

from drylay.errors import Fault
from drylay.marks import is_number
from drylay.survey.model import Tape
from drylay.work.model import Peg

#: A figure has so many pegs at the least.
FEWEST = 3
#: No tape and no pencil is finer than half a millimetre. Common practice, no source.
FINEST_MM = 0.5
#: A tape this part off its planned length is a slip of the reading, or a peg not set yet.
#: Assumption.
FAR_RATIO = 0.25


def faults_of(
    pegs: Sequence[Peg], tapes: Sequence[Tape], *, accepted_mm: float, tape_mm: float
) -> tuple[Fault, ...]:
    """Return every fault of what is asked, in its order; () where it can be answered."""
    found = list(_limits(accepted_mm=accepted_mm, tape_mm=tape_mm))
    if len(pegs) < FEWEST:
        found.append(Fault(path="pegs", found=f"{len(pegs)}", wanted=f"{FEWEST} pegs or more"))
    if not tapes:
        found.append(Fault(path="tapes", found="none", wanted="a length from peg to peg"))
    seen: dict[frozenset[str], int] = {}
    for number, tape in enumerate(tapes):
        found += _of_tape(pegs, tape, f"tapes[{number}]", seen)
        seen.setdefault(frozenset((tape.start, tape.end)), number)
    return tuple(found)


def _limits(**limits: float) -> Iterator[Fault]:
    for name, limit in limits.items():
        if not is_number(limit) or not math.isfinite(limit) or limit < FINEST_MM:
            yield Fault(path=name, found=f"{limit}", wanted=f"a number of mm, {FINEST_MM} or more")


def _of_tape(
    pegs: Sequence[Peg], tape: Tape, path: str, seen: dict[frozenset[str], int]
) -> Iterator[Fault]:
    places = {peg.mark: (peg.along_mm, peg.across_mm) for peg in pegs}
    strange = [mark for mark in (tape.start, tape.end) if mark not in places]
    for mark in strange:
        yield Fault(path=path, found=f'peg "{mark}"', wanted=f"one of {', '.join(places)}")
    if tape.start == tape.end:
        yield Fault(path=path, found=f"{tape.start} to itself", wanted="two pegs")
    twice = seen.get(frozenset((tape.start, tape.end)))
    if twice is not None:
        yield Fault(path=path, found=f"{tape.start} to {tape.end} once more",
                    wanted="each length once", nearest=f"tapes[{twice}] or their mean")  # fmt: skip
    length = tape.length_mm
    if not is_number(length) or not math.isfinite(length) or length <= 0:
        yield Fault(path=f"{path}.length_mm", found=f"{length}", wanted="a length above 0 mm")
    elif not strange and tape.start != tape.end:
        planned = math.dist(places[tape.start], places[tape.end])
        if abs(length - planned) > FAR_RATIO * planned:
            yield Fault(path=f"{path}.length_mm", found=f"{length:g} mm",
                        wanted=f"within {FAR_RATIO * planned:.0f} mm of the planned length",
                        nearest=f"{planned:.1f} mm")  # fmt: skip
