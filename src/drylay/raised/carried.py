"""What each support of a beam carries, as a width of what lies evenly on it.

A joist's support (a bearer) carries a width of deck; a bearer's support (a post) a length of
bearer, which times that width is its area.
"""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import ceil

from drylay.errors import Fault, InputError
from drylay.marks import exact, to_mm
from drylay.raised.model import SHARINGS


def carried_mm(
    *, length_mm: float, supports_mm: Sequence[float], sharing: str = "levered"
) -> tuple[float, ...]:
    """Return the width of evenly spread load that each support carries at the most, in mm.

    "levered": statics of one beam of one section over all its supports, with those spans and free
    ends loaded that press on the support asked for, and no others; never less than if the beam
    were jointed over every inner support. "halved": half of each span beside it and all of a free
    end, as residential tables do; less than statics where an end is free.

    Supports are at places from the beam's start; a ledger's face is a support. Up to 1/320 mm.

    Raises:
        InputError: There are fewer than two supports, out of order or off the beam, or no such
            sharing.

    Source: three-moment equation (Clapeyron), from memory; halves are common practice.
    """
    places, length = [exact(at) for at in supports_mm], exact(length_mm)
    _refuse(places, length, sharing)
    if sharing == "halved":
        return tuple(to_mm(ceil(half)) for half in _halves(places, length))
    whole = _pressing(places, length)
    jointed = _jointed(places, length)
    return tuple(to_mm(ceil(max(pair))) for pair in zip(whole, jointed, strict=True))


def _refuse(places: list[int], length: int, sharing: str) -> None:
    if sharing not in SHARINGS:
        wanted = " or ".join(SHARINGS)
        raise InputError((Fault(path="sharing", found=repr(sharing), wanted=wanted),))
    off = len(places) < 2 or places[0] < 0 or places[-1] > length
    if off or any(b <= a for a, b in pairwise(places)):
        wanted = "two supports or more, in order, on the beam"
        told = ", ".join(f"{to_mm(place):g}" for place in places)
        raise InputError((Fault(path="supports_mm", found=told, wanted=wanted),))


def _halves(places: list[int], length: int) -> list[Fraction]:
    spans = [b - a for a, b in pairwise(places)]
    beside = [Fraction(2 * places[0]), *map(Fraction, spans), Fraction(2 * (length - places[-1]))]
    return [(a + b) / 2 for a, b in pairwise(beside)]


def _jointed(places: list[int], length: int) -> list[Fraction]:
    """Return what each carries where the beam is jointed over every inner support."""
    spans = [b - a for a, b in pairwise(places)]
    found = [Fraction(0)] * len(places)
    for at, span in enumerate(spans):
        before = places[0] if at == 0 else 0
        beyond = length - places[-1] if at == len(spans) - 1 else 0
        found[at] += Fraction(span, 2) + before + Fraction(before**2, 2 * span)
        found[at + 1] += Fraction(span, 2) + beyond + Fraction(beyond**2, 2 * span)
    return found


def _pressing(places: list[int], length: int) -> list[Fraction]:
    """Return the sum, for each support, of what presses on it from each part loaded alone."""
    spans = [b - a for a, b in pairwise(places)]
    ends = (places[0], length - places[-1])
    total = [Fraction(0)] * len(places)
    for part in range(-1, len(spans) + 1):
        for at, reaction in enumerate(_reactions(spans, ends, part)):
            total[at] += max(reaction, Fraction(0))
    return total


def _reactions(spans: list[int], ends: tuple[int, int], part: int) -> list[Fraction]:
    """Return the reactions from one part loaded with 1 a length: -1 and len(spans) are the ends."""
    count = len(spans)
    before = Fraction(ends[0]) if part == -1 else Fraction(0)
    beyond = Fraction(ends[1]) if part == count else Fraction(0)
    moments = _moments(spans, -(before**2) / 2, -(beyond**2) / 2, part)
    found = [Fraction(0)] * (count + 1)
    found[0] += before
    found[-1] += beyond
    for at, span in enumerate(spans):
        load = Fraction(span, 2) if at == part else Fraction(0)
        turned = (moments[at + 1] - moments[at]) / span
        found[at] += load + turned
        found[at + 1] += load - turned
    return found


def _moments(spans: list[int], first: Fraction, last: Fraction, part: int) -> list[Fraction]:
    """Return the moments over all supports: three-moment equations, solved from left to right."""
    inner = len(spans) - 1
    rights = [
        -sum((Fraction(span**3, 4) for at, span in ((n, spans[n]), (n + 1, spans[n + 1]))
              if at == part), Fraction(0))
        for n in range(inner)
    ]  # fmt: skip
    diagonals = [Fraction(2 * (spans[n] + spans[n + 1])) for n in range(inner)]
    if inner:
        rights[0] -= spans[0] * first
        rights[-1] -= spans[-1] * last
    for n in range(1, inner):
        share = spans[n] / diagonals[n - 1]
        diagonals[n] -= share * spans[n]
        rights[n] -= share * rights[n - 1]
    solved: list[Fraction] = []
    for n in reversed(range(inner)):
        over = spans[n + 1] * solved[-1] if solved else 0
        solved.append((rights[n] - over) / diagonals[n])
    return [first, *reversed(solved), last]


def hung_carried_mm(
    *, lines_mm: Sequence[float], bearer_mm: float, ledger_mm: float | None
) -> tuple[float, ...]:
    """Return the width that each bearer carries of joists that hang between bearers, face to face.

    Half of each bay beside it, which hangs on its face, and its own breadth, over which the boards
    lie on it; up to 1/320 mm. What hangs on the ledger is half the first bay.

    Args:
        lines_mm: Centres of bearers from the house's end of the frame, in order.
        bearer_mm: How broad a bearer is, all plies together.
        ledger_mm: How thick the ledger at that end is, None where there is none.

    Source: statics of a beam of one span.
    """
    broad, half = exact(bearer_mm), -(-exact(bearer_mm) // 2)
    faces = [(exact(line) - half, exact(line) - half + broad) for line in lines_mm]
    held = None if ledger_mm is None else exact(ledger_mm)
    before = [0 if held is None else faces[0][0] - held]
    before += [other[0] - one[1] for one, other in pairwise(faces)]
    bays = zip(before, [*before[1:], 0], strict=True)
    return tuple(to_mm(broad - (-(near + far) // 2)) for near, far in bays)
