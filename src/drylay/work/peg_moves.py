"""From what was taped between pegs as they stand: which of them to move, and by how much."""

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from attrs import evolve, frozen

from drylay.counting import counted
from drylay.errors import SettingOutError
from drylay.survey.model import Tape
from drylay.work.model import Peg, PegMove, PegMoves, PegTie, SettingOut
from drylay.work.peg_faults import faults_of
from drylay.work.peg_figure import Figure, Place, Way, figure_of, held, rows_of, ways_of
from drylay.work.peg_told import findings_of

#: What an honest tape is off by, as a rule, on rough ground. Common practice, no source.
TAPE_MM = 2.0
#: Pegs stay where all tapes are met within this without moving them: no pencil sets it finer.
FINE_MM = 0.3
#: A tape read to whole mm is right to half of one, and the figure of least squares need not be the
#: one that keeps every tape within that: half as much again. Assumption, tried on 3000 figures.
WHOLE_MM = 0.75
#: So much further off than the best figure a simpler one may be, where the best is further off.
MORE_MM = 0.1
#: All choices of up to so many pegs are tried; of more, those are dropped that need not move.
TRIED = 2
#: A rectangle's corners are square to this part of their sides.
SQUARE_RATIO = 1e-6


@frozen(kw_only=True)
class _Asked:
    """Where pegs belong, what was taped, and the sides nobody taped, taken as planned."""

    pegs: tuple[Peg, ...]
    places: Mapping[str, Place]
    tapes: tuple[Tape, ...]
    taken: tuple[Tape, ...]

    @property
    def base(self) -> tuple[str, str]:
        return self.pegs[0].mark, self.pegs[1].mark

    @property
    def every(self) -> tuple[Tape, ...]:
        return (*self.tapes, *self.taken)

    def ways(self, marks: Sequence[str]) -> list[Way]:
        return ways_of(marks, self.base, self.places)

    def free(self) -> tuple[str, ...]:
        """Return the pegs that may move: the base line's far one only where that line was taped."""
        taped = any({each.start, each.end} == set(self.base) for each in self.tapes)
        return tuple(peg.mark for peg in self.pegs[1 if taped else 2 :])

    def planned_mm(self, tape: Tape) -> float:
        return math.dist(self.places[tape.start], self.places[tape.end])


@counted
def move_pegs(
    out: SettingOut,
    tapes: Sequence[Tape],
    *,
    accepted_mm: float | None = None,
    tape_mm: float = TAPE_MM,
) -> PegMoves:
    """Return which pegs to move so that every tape reads as planned, as few as can be.

    P1 stays, and so does the line from P1 to P2: P2 moves along it, and only where that side was
    taped. Sides that nobody taped are taken as planned, unless the tapes fix the figure without
    them and gainsay them. Where the pegs stand follows from the tapes by least squares. Of one peg,
    or two, all choices are tried, and of those that meet the tapes the one that moves least; of
    more, those that need not move stay. Moves are told to 0.1 mm.

    Nothing moves where every tape, and the difference of a rectangle's diagonals, is within
    `accepted_mm` (the plan's own unless told: 5 mm, common practice, no source), nor where the
    tapes contradict each other: where they are off from the best figure by more than `tape_mm`,
    as a rule. All tapes weigh alike: their own `accuracy_mm` is not asked.

    Raises:
        SettingOutError: A tape's peg is not among the pegs, a tape is told twice, or is no length
            or one far from the plan's; lists every fault.
    """
    accepted = out.accepted_mm if accepted_mm is None else accepted_mm
    faults = faults_of(out.pegs, tapes, accepted_mm=accepted, tape_mm=tape_mm)
    if faults:
        raise SettingOutError(faults)
    found = _answer(_trusting(_asked_of(out, tapes), tape_mm), accepted, tape_mm)
    return evolve(found, findings=findings_of(found, tape_mm))


def _asked_of(out: SettingOut, tapes: Sequence[Tape]) -> _Asked:
    places = {peg.mark: (peg.along_mm, peg.across_mm) for peg in out.pegs}
    marks = list(places)
    taped = {frozenset((each.start, each.end)) for each in tapes}
    taken = tuple(
        Tape(start=one, end=other, length_mm=math.dist(places[one], places[other]))
        for one, other in zip(marks, [*marks[1:], marks[0]], strict=True)
        if frozenset((one, other)) not in taped and {one, other} != set(marks[:2])
    )
    return _Asked(pegs=out.pegs, places=places, tapes=tuple(tapes), taken=taken)


def _trusting(asked: _Asked, tape_mm: float) -> _Asked:
    """Return what is asked without sides taken as planned, where the tapes gainsay these.

    They must then fix the figure alone.
    """
    alone = evolve(asked, taken=())
    if held(_rows(alone)) < len(alone.ways(alone.free())):
        return asked
    best = figure_of(asked.places, asked.ways(asked.free()), asked.every)
    return alone if _misfit(asked, best) > tape_mm else asked


def _answer(asked: _Asked, accepted_mm: float, tape_mm: float) -> PegMoves:
    free = asked.free()
    best = figure_of(asked.places, asked.ways(free), asked.every)
    off = [abs(tape.length_mm - asked.planned_mm(tape)) for tape in asked.tapes]
    difference, slid = _slide(asked)
    told = PegMoves(
        verdict="true", moves=(), stood=(), worst_mm=_tenth(max(off)), accepted_mm=accepted_mm,
        misfit_mm=_tenth(_misfit(asked, best)), taken=_ties(asked.taken),
        tape_too=_ties(_wanting(asked, free)), difference_mm=difference, slid_mm=slid,
    )  # fmt: skip
    if told.misfit_mm > tape_mm:
        return evolve(told, verdict="tape again", suspect=_suspect(asked, tape_mm))
    true = max(*off, abs(difference or 0.0)) <= accepted_mm
    stands = _fewest(asked, free, best, least=0 if true else 1)
    told = evolve(told, stood=_stood(stands))
    return told if true else evolve(told, verdict="move", moves=tuple(_moves(asked, stands)))


def _misfit(asked: _Asked, best: Figure) -> float:
    """Return what a tape is off from a figure, as a rule: over the tapes that are to spare.

    Source: the standard error of unit weight of a least-squares figure, arithmetic.
    """
    spare = len(asked.every) - held(_rows(asked))
    square = sum(left * left for left in best.left_mm)
    return math.sqrt(square / spare) if spare > 0 else 0.0


def _rows(asked: _Asked, more: Sequence[Tape] = ()) -> list[list[float]]:
    return rows_of(asked.places, asked.ways(asked.free()), (*asked.every, *more))


def _suspect(asked: _Asked, tape_mm: float) -> Tape | None:
    """Return the one tape without which the others agree, as it should read; None if not one."""
    found = []
    for tape in asked.tapes:
        less = evolve(asked, tapes=tuple(each for each in asked.tapes if each is not tape))
        if len(less.every) == held(_rows(less)):
            continue  # nothing is to spare: any figure agrees
        best = figure_of(less.places, less.ways(less.free()), less.every)
        if _misfit(less, best) <= tape_mm:
            reads = math.dist(best.places[tape.start], best.places[tape.end])
            found.append(evolve(tape, length_mm=_tenth(reads)))
    return found[0] if len(found) == 1 else None


def _fewest(asked: _Asked, free: Sequence[str], best: Figure, *, least: int) -> Figure:
    """Return the figure in which the fewest pegs stand off their places, and those by the least."""
    whole = all(float(tape.length_mm).is_integer() for tape in asked.tapes)
    most = max(best.most_mm() + MORE_MM, WHOLE_MM if whole else FINE_MM)
    for count in range(least, min(TRIED, len(free) - 1) + 1):
        met = list(_that_meet(asked, combinations(free, count), most))
        if met:
            return min(met, key=lambda figure: round(_moved_mm(asked, figure), 3))
    return _dropped(asked, list(free), best, most)


def _that_meet(
    asked: _Asked, choices: Iterator[tuple[str, ...]], most_mm: float
) -> Iterator[Figure]:
    """Yield the figures of such pegs moved that meet all tapes, those on no such peg too."""
    for marks in choices:
        idle = [each for each in asked.every if not {each.start, each.end} & set(marks)]
        if all(abs(each.length_mm - asked.planned_mm(each)) <= most_mm for each in idle):
            figure = figure_of(asked.places, asked.ways(marks), asked.every)
            if figure.most_mm() <= most_mm:
                yield figure


def _dropped(asked: _Asked, marks: list[str], best: Figure, most_mm: float) -> Figure:
    """Return the figure without pegs that need not move, those that move least tried first."""
    for mark in sorted(marks, key=lambda each: _off(asked, best, each)):
        fewer = [each for each in marks if each != mark]
        for figure in _that_meet(asked, iter([tuple(fewer)]), most_mm):
            marks, best = fewer, figure
    return best


def _off(asked: _Asked, figure: Figure, mark: str) -> float:
    return math.dist(asked.places[mark], figure.places[mark])


def _moved_mm(asked: _Asked, figure: Figure) -> float:
    return sum(_off(asked, figure, mark) for mark in asked.places)


def _stood(figure: Figure) -> tuple[Peg, ...]:
    return tuple(
        Peg(mark=mark, along_mm=_tenth(along), across_mm=_tenth(across))
        for mark, (along, across) in figure.places.items()
    )


def _moves(asked: _Asked, figure: Figure) -> Iterator[PegMove]:
    for mark, (along, across) in figure.places.items():
        wanted = asked.places[mark]
        by = (_tenth(wanted[0] - along), _tenth(wanted[1] - across))
        if any(by):
            yield PegMove(mark=mark, along_mm=by[0], across_mm=by[1], by_mm=_tenth(math.hypot(*by)))


def _slide(asked: _Asked) -> tuple[float | None, float | None]:
    """Return how far a rectangle's diagonals differ, P1's less P2's, and the slide that it means.

    A side of length a slid along itself by e makes diagonals of length d differ by 2 a e / d.
    Source: geometry, Pythagoras; see `papers.setting_out.off_square_mm`.
    """
    pegs = [peg.mark for peg in asked.pegs]
    if len(pegs) != 4 or not _is_rectangle([asked.places[mark] for mark in pegs]):
        return None, None
    read = {frozenset((each.start, each.end)): each.length_mm for each in asked.tapes}
    pairs = [read.get(frozenset(pair)) for pair in ((pegs[0], pegs[2]), (pegs[1], pegs[3]))]
    if pairs[0] is None or pairs[1] is None:
        return None, None
    side = math.dist(asked.places[pegs[0]], asked.places[pegs[1]])
    diagonal = math.dist(asked.places[pegs[0]], asked.places[pegs[2]])
    difference = pairs[0] - pairs[1]
    return _tenth(difference), _tenth(difference * diagonal / (2 * side))


def _is_rectangle(ring: Sequence[Place]) -> bool:
    for before, at, after in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
        (x1, y1), (x2, y2) = ((p[0] - at[0], p[1] - at[1]) for p in (before, after))
        if abs(x1 * x2 + y1 * y2) > SQUARE_RATIO * math.hypot(x1, y1) * math.hypot(x2, y2):
            return False
    return True


def _wanting(asked: _Asked, free: Sequence[str]) -> tuple[Tape, ...]:
    """Return ties, the longest first, that would fix the figure where what was taped does not."""
    seen = {frozenset((each.start, each.end)) for each in asked.every}
    others = [
        Tape(start=one, end=other, length_mm=math.dist(asked.places[one], asked.places[other]))
        for one, other in combinations(asked.places, 2)
        if frozenset((one, other)) not in seen | {frozenset(asked.base)}
    ]
    found: list[Tape] = []
    known, all_ways = held(_rows(asked)), len(asked.ways(free))
    for tie in sorted(others, key=lambda each: (-round(each.length_mm, 3), each.start, each.end)):
        more = held(_rows(asked, [*found, tie]))
        if known < more <= all_ways:
            found.append(tie)
            known = more
    return tuple(found)


def _ties(tapes: Sequence[Tape]) -> tuple[PegTie, ...]:
    return tuple(PegTie(start=each.start, end=each.end, length_mm=each.length_mm) for each in tapes)


def _tenth(length_mm: float) -> float:
    return round(length_mm, 1) + 0.0  # no -0.0
