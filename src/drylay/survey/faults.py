"""What cannot be meant is refused, with every fault at once."""

from collections.abc import Iterable, Sequence

from drylay.errors import Fault, InputError
from drylay.marks import exact, is_number
from drylay.rings import clashing_sides, twice_area
from drylay.survey.model import Place, Tape

MOST_CORNERS, MOST_TAPES, MOST_POINTS = 12, 40, 300
MOST_MM = 1e6


class SurveyError(InputError):
    """Measures of a garden cannot be used."""

    noun = "survey"


def refuse(faults: Iterable[Fault]) -> None:
    """Raise one error with all faults, if there are any."""
    found = tuple(faults)
    if found:
        raise SurveyError(found)


def tapes_fit(
    corners: Sequence[str], tapes: Sequence[Tape], accuracy_mm: float, outline: Sequence[str]
) -> Iterable[Fault]:
    """Yield everything that keeps tapes from being used."""
    if not 3 <= len(corners) <= MOST_CORNERS:
        yield Fault(path="corners", found=f"{len(corners)}", wanted=f"3 to {MOST_CORNERS} corners")
    if not 3 <= len(tapes) <= MOST_TAPES:
        yield Fault(path="tapes", found=f"{len(tapes)}", wanted=f"3 to {MOST_TAPES} tapes")
    if len(set(corners)) < len(corners):
        yield Fault(path="corners", found="a name twice", wanted="each corner once")
    if len(outline) < 3 or len(set(outline)) < len(outline) or not set(outline) <= set(corners):
        yield Fault(path="outline", found=", ".join(outline) or "nothing",
                    wanted="three corners or more, each once, in order round")  # fmt: skip
    yield from _accuracy("accuracy_mm", accuracy_mm)
    for at, tape in enumerate(tapes):
        yield from _tape(f"tapes[{at}]", tape, corners)
    if corners and not any(corners[0] in (tape.start, tape.end) for tape in tapes):
        yield Fault(path="tapes", found=f"none at {corners[0]}",
                    wanted="a tape from the first corner, along which all is told",
                    nearest="begin with another corner")  # fmt: skip


def outline_fits(area: Sequence[Place], path: str = "area") -> Iterable[Fault]:
    """Yield what keeps places from being an outline: too few, no numbers, sides that cross."""
    if len(area) < 3 or not all(is_number(n) and abs(n) <= MOST_MM for at in area for n in at):
        yield Fault(path=path, found=f"{len(area)} places",
                    wanted="three places or more, in order round")  # fmt: skip
        return
    ring = tuple((exact(x), exact(y)) for x, y in area)
    clashes = clashing_sides(ring)
    if clashes or not twice_area(ring):
        which = " and ".join(str(side + 1) for side in clashes[0]) if clashes else "all"
        yield Fault(path=path, found=f"sides that cross or lie on each other: {which}",
                    wanted="an outline told in order round")  # fmt: skip


def _tape(path: str, tape: Tape, corners: Sequence[str]) -> Iterable[Fault]:
    for key in ("start", "end"):
        name = getattr(tape, key)
        if name not in corners:
            yield Fault(path=f"{path}.{key}", found=str(name),
                        wanted=f"one of {', '.join(corners)}")  # fmt: skip
    if tape.start == tape.end:
        yield Fault(path=path, found=f"from {tape.start} to itself", wanted="two corners")
    if not is_number(tape.length_mm) or not 0 < tape.length_mm <= MOST_MM:
        yield Fault(path=f"{path}.length_mm", found=str(tape.length_mm),
                    wanted="a length of more than 0, not over 1 km")  # fmt: skip
    if tape.accuracy_mm is not None:
        yield from _accuracy(f"{path}.accuracy_mm", tape.accuracy_mm)


def _accuracy(path: str, accuracy_mm: object) -> Iterable[Fault]:
    if not is_number(accuracy_mm) or not 0.01 <= accuracy_mm <= 1000:
        yield Fault(path=path, found=str(accuracy_mm), wanted="0.01 to 1000 mm")
