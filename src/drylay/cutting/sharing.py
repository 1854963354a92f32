"""Which piece of a cut plan is for what, and in which order its boards are best opened.

The line on hand is the first that is not finished. The board to open next has a piece for it
and begins the fewest new lines; of several such, the one with most pieces for lines already
begun, then the one with the earliest piece, then the first of the plan. A piece goes to the
line on hand if that lacks its length, else to the first line begun that does, else to a single
piece, else to the first new line.
"""

from collections import Counter
from collections.abc import Iterator, Sequence

from drylay.cutting.errors import CutTaskError
from drylay.cutting.model import CutPlan, Line
from drylay.cutting.uses_model import Job, Place, SharedBoard
from drylay.errors import Fault


def whole_job(plan: CutPlan) -> Job:
    """Return the only job of a plan that is not of several."""
    task = plan.proof.task
    sizes = {"lines": len(task.lines), "pieces": len(task.pieces)}
    return Job(name="", first_lines=0, first_pieces=0, alone=None, **sizes)


def line_pieces(line: Line, joints: Sequence[int]) -> tuple[int, ...]:
    """Return the pieces of a line with these joints, from its start to its end."""
    left, right = line.joint_gap // 2, line.joint_gap - line.joint_gap // 2
    places = [line.stations[joint] for joint in joints]
    starts = [line.start, *(place + right for place in places)]
    ends = [*(place - left for place in places), line.end]
    return tuple(end - start for start, end in zip(starts, ends, strict=True))


def share_out(plan: CutPlan, jobs: Sequence[Job]) -> tuple[tuple[SharedBoard, ...], int]:
    """Return every board in the order to open them, each piece with its place.

    Beside them how many lines are begun and not finished between two boards, at most.

    Raises:
        CutTaskError: the boards do not make just the pieces that are wanted.
    """
    wants = [want for job in jobs for want in _wants_of(plan, job)]
    _check(plan, wants)
    bench, left, boards = _Bench(wants), [cut.boards for cut in plan.cuts], []
    while any(left):
        ranks = [(bench.rank(plan.cuts[k].pieces), k) for k, count in enumerate(left) if count]
        (_, k) = min(ranks)
        left[k] -= 1
        pieces = plan.cuts[k].pieces
        places = bench.take(pieces)
        boards.append(SharedBoard(stock=plan.cuts[k].stock, pieces=pieces, places=places))
    return tuple(boards), bench.most_open


class _Want:
    """A line, or a single piece: what it still lacks, the place each such piece goes to."""

    def __init__(self, pieces: Sequence[tuple[int, Place]]) -> None:
        self.single = pieces[0][1].line is None
        self.begun, self.left = False, len(pieces)
        self.places: dict[int, list[Place]] = {}
        for length, place in pieces:
            self.places.setdefault(length, []).append(place)

    def lacks(self, length: int) -> int:
        return len(self.places.get(length, ()))


def _wants_of(plan: CutPlan, job: Job) -> Iterator[_Want]:
    task = plan.proof.task
    for n in range(job.lines):
        line = task.lines[job.first_lines + n]
        for at, joints in enumerate(plan.joints[job.first_lines + n], 1):
            yield _Want(
                [
                    (length, Place(job=job.name, lines=n + 1, line=at, piece=piece))
                    for piece, length in enumerate(line_pieces(line, joints), 1)
                ]
            )
    single = 0
    for wanted in task.pieces[job.first_pieces : job.first_pieces + job.pieces]:
        for _ in range(wanted.count):
            single += 1
            place = Place(job=job.name, lines=None, line=None, piece=single)
            yield _Want([(wanted.length, place)])


def _check(plan: CutPlan, wants: Sequence[_Want]) -> None:
    sawn: Counter[int] = Counter()
    for cut in plan.cuts:
        for length in cut.pieces:
            sawn[length] += cut.boards
    wanted = Counter(dict.fromkeys(sawn, 0))
    for want in wants:
        wanted.update({length: len(places) for length, places in want.places.items()})
    faults = [
        Fault(path="plan.cuts", found=f"{sawn[length]} of {length}", wanted=f"{count}")
        for length, count in sorted(wanted.items())
        if sawn[length] != count
    ]
    if faults:
        raise CutTaskError(tuple(faults))


Rank = tuple[bool, int, int, int]


class _Bench:
    """What lies on the bench while boards are opened one by one."""

    def __init__(self, wants: list[_Want]) -> None:
        self.wants, self.hand, self.most_open = wants, 0, 0
        self.begun: list[int] = []  # lines begun and not finished
        self.singles: dict[int, list[int]] = {}
        self.fresh: dict[int, list[int]] = {}  # lines that may not have been begun
        for number, want in reversed(list(enumerate(wants))):  # the first ones at the end
            for length in want.places:
                pile = self.singles if want.single else self.fresh
                pile.setdefault(length, []).append(number)
        self._settle()

    def rank(self, pieces: Sequence[int]) -> Rank:
        """Return how good a board is to open next, the least being best."""
        takers = self._takers(pieces)
        new = {t for t in takers if not self.wants[t].begun and not self.wants[t].single}
        going = sum(self.wants[taker].begun for taker in takers)
        return self.hand not in takers, len(new), -going, min(takers, default=0)

    def take(self, pieces: Sequence[int]) -> tuple[Place, ...]:
        """Return the places that the pieces of a board go to, and let them go there."""
        places = []
        for length, taker in zip(pieces, self._takers(pieces), strict=True):
            want = self.wants[taker]
            places.append(want.places[length].pop(0))
            want.left -= 1
            if not want.begun and not want.single:
                want.begun = True
                self.begun.append(taker)
        self._settle()
        self.most_open = max(self.most_open, len(self.begun))
        return tuple(places)

    def _settle(self) -> None:
        """Put finished lines away and take the next one in hand."""
        self.begun = sorted(number for number in self.begun if self.wants[number].left)
        while self.hand < len(self.wants) and not self._is_hand(self.wants[self.hand]):
            self.hand += 1
        for pile in (self.singles, self.fresh):
            for numbers in pile.values():
                while numbers and (
                    self.wants[numbers[-1]].begun or not self.wants[numbers[-1]].left
                ):
                    numbers.pop()

    def _is_hand(self, want: _Want) -> bool:
        return want.left > 0 and not want.single

    def _takers(self, pieces: Sequence[int]) -> list[int]:
        """Return which line or single piece each piece of a board goes to."""
        takers: list[int] = []
        taken: Counter[tuple[int, int]] = Counter()
        for length in pieces:
            offers = self._offers(length, takers)
            taker = next(t for t in offers if self.wants[t].lacks(length) > taken[t, length])
            taken[taker, length] += 1
            takers.append(taker)
        return takers

    def _offers(self, length: int, takers: list[int]) -> Iterator[int]:
        if self.hand < len(self.wants):
            yield self.hand
        yield from sorted({*self.begun, *(t for t in takers if not self.wants[t].single)})
        yield from reversed(self.singles.get(length, ()))
        yield from reversed(self.fresh.get(length, ()))
