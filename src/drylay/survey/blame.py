"""Which tape is wrong, as far as the others can tell, and what more to measure otherwise."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import dist

from attrs import frozen

from drylay.survey.chances import chi_square_most
from drylay.survey.model import NextMeasure, TapeCheck, Verdict, WouldBe
from drylay.survey.network import Net, Solved
from drylay.survey.rounding import tenth
from drylay.survey.settled import LIKELY
from drylay.survey.sources import COVERAGE, MISFIT_MM, SNOOP
from drylay.survey.start import line_told

Place = tuple[float, float]
#: Marks on a side are set at a whole number of these from its corner.
ROUND_MM = 100.0
#: Readings further apart than this are told apart, and no better by more. Assumption.
TELLING_MM = 30.0
#: How a network is solved without each of its tapes in turn.
Alone = Sequence[Solved | None]
Beyond = tuple[int, float, tuple[int, ...]]


@frozen(kw_only=True)
class Judged:
    """The tapes of which one is wrong, or `several`, and which was left out of the fit.

    `suspects` are all that one more measure is to tell apart, also where a slip names one of them.
    """

    wrong: tuple[int, ...] = ()
    suspects: tuple[int, ...] = ()
    left_out: int | None = None
    several: bool = False


def judged(
    net: Net,
    alone: Alone,
    checks: Sequence[TapeCheck],
    verdict: Verdict,
    beyond: Beyond | None,
) -> Judged:
    """Return which tape is wrong; none where they agree or nothing is to spare."""
    if verdict.agrees or verdict.agrees is None:
        return Judged()
    if verdict.spare <= 1:
        return _by_slips(checks, _suspects(alone, beyond))
    left = {at: rest.chi for at, rest in enumerate(alone) if rest and _holds(net, rest)}
    likely = tuple(at for at, chi in left.items() if chi <= min(left.values()) + LIKELY)
    if len(likely) == 1:
        return Judged(wrong=likely, left_out=likely[0])
    worst = likely or _worst(checks, beyond)
    return Judged(wrong=worst, suspects=likely, several=not likely)


def _suspects(alone: Alone, beyond: Beyond | None) -> list[int]:
    """Return the tapes that may be wrong: without them the others make a shape."""
    found = [at for at, rest in enumerate(alone) if rest is not None]
    return found or ([beyond[0], *beyond[2]] if beyond else [])


def _by_slips(checks: Sequence[TapeCheck], suspects: Sequence[int]) -> Judged:
    """Return the one tape that a usual slip explains; else all, those explained first."""
    explained = [at for at in suspects if checks[at].slips]
    if len(explained) == 1:
        return Judged(wrong=tuple(explained), suspects=tuple(suspects))
    rest = [at for at in suspects if at not in explained]
    return Judged(wrong=(*explained, *rest), suspects=(*explained, *rest))


def _holds(net: Net, rest: Solved) -> bool:
    """Return whether the tapes agree once one is left out."""
    spare = len(rest.residuals) - 2 * net.count + 3
    if rest.chi > chi_square_most(spare, COVERAGE):
        return False
    return all(
        abs(off) <= MISFIT_MM and abs(off) <= SNOOP * sigma * max(share, 1e-9) ** 0.5 + 1e-6
        for off, sigma, share in zip(rest.residuals, _sigmas(net, rest), rest.spare, strict=True)
    )


def _sigmas(net: Net, rest: Solved) -> tuple[float, ...]:
    """Return the standard deviations of the tapes kept, the largest for all: never too strict."""
    return (max(net.sigma),) * len(rest.residuals)


def _worst(checks: Sequence[TapeCheck], beyond: Beyond | None) -> tuple[int, ...]:
    """Return the tapes that fit worst where more than one is wrong."""
    worse = [abs(check.standardised_ratio or 0.0) for check in checks]
    order = sorted(range(len(checks)), key=lambda at: (-worse[at], at))
    far = [at for at in order if worse[at] > SNOOP]
    return tuple(far) or ((beyond[0], *beyond[2]) if beyond else tuple(order[:2]))


def named_by_slip(checks: Sequence[TapeCheck], found: Judged) -> bool:
    """Return whether it is a slip that tells the wrong tape from the others."""
    return found.left_out is None and len(found.wrong) == 1 and bool(checks[found.wrong[0]].slips)


def tells_apart(
    net: Net, names: tuple[str, ...], alone: Alone, wrong: Sequence[int]
) -> NextMeasure | None:
    """Return the one more measure that tells most of the tapes suspected from each other."""
    shapes = {at: rest for at in wrong if (rest := alone[at]) is not None}
    if len(shapes) < 2:
        return None
    best, most = None, -1.0
    for told, one, other in _measures(net, names):
        readings = {at: dist(_at(rest, one), _at(rest, other)) for at, rest in shapes.items()}
        gaps = [abs(a - b) for a, b in combinations(readings.values(), 2)]
        telling = sum(min(gap, TELLING_MM) for gap in gaps)
        if telling > most + 0.05:
            would = tuple(
                WouldBe(wrong=line_told(net.lines[at], names), length_mm=tenth(long))
                for at, long in readings.items()
            )
            best, most = NextMeasure(told=told, readings=would, apart_mm=tenth(min(gaps))), telling
    return best


#: A corner, or a mark so far from a corner towards another.
Spot = tuple[int, int, float]


def _measures(net: Net, names: tuple[str, ...]) -> Iterator[tuple[str, Spot, Spot]]:
    """Yield measures that were not taken: diagonals, ties from a mark on a side, two marks."""
    taped = {frozenset(line) for line in net.lines}
    corners: list[tuple[str, Spot]] = [(names[at], (at, at, 0.0)) for at in range(net.count)]
    sides = [(a, b) for a, b in zip(net.ring, (*net.ring[1:], net.ring[0]), strict=True)
             if frozenset((a, b)) in taped]  # fmt: skip
    marks = [_mark(net, names, side) for side in sides]
    for (one, a), (other, b) in combinations([*corners, *marks], 2):
        ends = {a[0], a[1]}, {b[0], b[1]}
        plain = a[0] == a[1] and b[0] == b[1]
        if plain and frozenset((a[0], b[0])) in taped:
            continue
        if not plain and (ends[0] <= ends[1] or ends[1] <= ends[0]):
            continue
        yield f"from {one} to {other}", a, b


def _mark(net: Net, names: tuple[str, ...], side: tuple[int, int]) -> tuple[str, Spot]:
    long = next(
        long for line, long in zip(net.lines, net.long, strict=True) if set(line) == set(side)
    )
    off = max(ROUND_MM, round(long / 2 / ROUND_MM) * ROUND_MM)
    start, end = side
    return f"a mark on {names[start]}-{names[end]}, {off:g} from {names[start]}", (start, end, off)


def _at(rest: Solved, spot: Spot) -> Place:
    """Return where a corner or a mark lies in a shape."""
    (x1, y1), (x2, y2) = (tuple(map(float, rest.places[at])) for at in spot[:2])
    share = spot[2] / (dist((x1, y1), (x2, y2)) or 1.0)
    return (x1 + (x2 - x1) * share, y1 + (y2 - y1) * share)
