"""Ways to joint all odd lines of a set alike and all even ones alike, cheapest first.

What is cheap is told by a worth vector: each way is worth at least so much, whatever boards it
is cut from. Ways come in that order, so once one is worth more than a plan at hand, all later
ones are too.
"""

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from itertools import count
from math import gcd

from attrs import evolve, frozen

from drylay.cutting.model import Line, Task, WorthVector
from drylay.cutting.sharing import line_pieces
from drylay.cutting.verify import legal_pieces, longest_usable

Joints = tuple[int, ...]
Choice = tuple[Joints, ...]  # the joints of each lane's lines

START, END = -1, -2


@frozen(kw_only=True)
class Lane:
    """The odd or the even lines of a set, all jointed alike: how many there are."""

    index: int
    odd: bool
    line: Line
    count: int


def lanes_of(task: Task) -> tuple[Lane, ...]:
    """Return the lanes of a task, the odd one of each set before the even one."""
    found = []
    for index, line in enumerate(task.lines):
        for odd, lines in ((True, (line.count + 1) // 2), (False, line.count // 2)):
            if lines:
                found.append(Lane(index=index, odd=odd, line=line, count=lines))
    return tuple(found)


def laid(task: Task, lanes: Sequence[Lane], choice: Choice) -> tuple[tuple[Joints, ...], ...]:
    """Return the joints of every line of every set, its lanes taking turns."""
    by_lane = {(lane.index, lane.odd): joints for lane, joints in zip(lanes, choice, strict=True)}
    return tuple(
        tuple(by_lane[index, at % 2 == 0] for at in range(line.count))
        for index, line in enumerate(task.lines)
    )


def ranked(task: Task, vector: WorthVector) -> Iterator[tuple[int, Choice]]:
    """Return every lawful choice with what it is worth at least, the least first.

    Worth in money x scale: pieces and joints of all lines, nothing of single pieces.
    """
    lanes = lanes_of(task)
    return _Ranking(task, lanes, vector).ways() if lanes else iter([(0, ())])


def apart(task: Task, lanes: Sequence[Lane]) -> dict[tuple[int, int], int]:
    """Return how many bays apart the joints of two lanes have to be, where they have to."""
    number = {(lane.index, lane.odd): n for n, lane in enumerate(lanes)}
    found: dict[tuple[int, int], int] = {}
    pairs = [
        ((n, number[lane.index, False]), lane.line.stagger)
        for n, lane in enumerate(lanes)
        if lane.odd and (lane.index, False) in number
    ]
    for beside in task.beside:
        one, other = task.lines[beside.one], task.lines[beside.other]
        if one.count and other.count:
            last = number[beside.one, one.count % 2 == 1]
            stagger = max(one.stagger, other.stagger)
            pairs.append(((last, number[beside.other, True]), stagger))
    for (one_lane, other_lane), stagger in pairs:
        for key in ((one_lane, other_lane), (other_lane, one_lane)):
            found[key] = max(stagger, found.get(key, 0))
    return found


class _Ranking:
    """The lanes with what their pieces and joints cost at the worths of a vector."""

    def __init__(self, task: Task, lanes: tuple[Lane, ...], vector: WorthVector) -> None:
        self.lanes, self.apart = lanes, apart(task, lanes)
        self.joint = task.joint_price * vector.scale
        self.worth = dict(zip(vector.lengths, vector.worths, strict=True))
        self.longest = longest_usable(task)
        self.refund, charges = _charges(task, lanes, vector)
        self.graphs = [
            self._graph(lane, charge) for lane, charge in zip(lanes, charges, strict=True)
        ]

    def _graph(self, lane: Lane, charges: list[int]) -> "_Graph":
        arcs = []
        for tail, head, length in legal_pieces(lane.line, self.longest):
            cost = lane.count * self.worth.get(length, 0)
            if head >= 0:
                cost += lane.count * self.joint + charges[head]
            arcs.append((tail, head, cost))
        return _Graph(lane.line, arcs)

    def ways(self) -> Iterator[tuple[int, Choice]]:
        """Return the choices in order: lane by lane, the most promising beginning first."""
        ticket = count()
        heap: list[tuple[int, int, int, _Way]] = []

        def push(way: _Way | None) -> None:
            if way is not None:
                heappush(heap, (way.rank, -len(way.chosen), next(ticket), way))

        push(self._first((), -self.refund))
        while heap:
            way = heappop(heap)[3]
            if way.others is None:
                yield way.rank, way.chosen
                continue
            push(_next(way.others, way.before, way.spent, way.rest))
            if len(way.chosen) < len(self.lanes):
                push(self._first(way.chosen, way.rank - way.rest))
            else:
                worth = max(way.rank, self._worth(way.chosen))
                push(evolve(way, rank=worth, others=None))

    def _first(self, chosen: Choice, spent: int) -> "_Way | None":
        """Return the best way for the next lane, beside what is chosen for those before it."""
        at, rest = len(chosen), 0
        for later in range(at + 1, len(self.lanes)):
            least = self.graphs[later].least(self._barred(chosen, later))
            if least is None:
                return None
            rest += least
        return _next(self.graphs[at].paths(self._barred(chosen, at)), chosen, spent, rest)

    def _barred(self, chosen: Choice, lane: int) -> frozenset[int]:
        """Return the stations of a lane that are too near to joints chosen for others."""
        line, barred = self.lanes[lane].line, set()
        for other, joints in enumerate(chosen):
            stagger = self.apart.get((other, lane), 0)
            shift = self.lanes[other].line.first_station - line.first_station
            for joint in joints:
                barred |= set(range(joint + shift - stagger + 1, joint + shift + stagger))
        return frozenset(barred)

    def _worth(self, chosen: Choice) -> int:
        """Return what the pieces and joints of a choice are worth, nothing charged."""
        total = 0
        for lane, joints in zip(self.lanes, chosen, strict=True):
            pieces = sum(self.worth.get(length, 0) for length in line_pieces(lane.line, joints))
            total += lane.count * (pieces + len(joints) * self.joint)
        return total


@frozen(kw_only=True)
class _Way:
    """Lanes chosen so far and what all lanes are worth at least: `spent` before the last one.

    `others` are further ways for the last lane; a choice that is done has none.
    """

    rank: int
    chosen: Choice
    before: Choice
    spent: int
    rest: int
    others: Iterator[tuple[int, Joints]] | None


def _next(
    paths: Iterator[tuple[int, Joints]], before: Choice, spent: int, rest: int
) -> _Way | None:
    found = next(paths, None)
    if found is None:
        return None
    cost, joints = found
    rank, chosen = spent + cost + rest, (*before, joints)
    return _Way(rank=rank, chosen=chosen, before=before, spent=spent, rest=rest, others=paths)


def _charges(task: Task, lanes: Sequence[Lane], vector: WorthVector) -> tuple[int, list[list[int]]]:
    """Return what the windows refund, and what they charge all lines of each lane a station."""
    charges = [[0] * len(lane.line.stations) for lane in lanes]
    number = {(lane.index, lane.odd): n for n, lane in enumerate(lanes)}
    refund = 0
    for window in vector.windows:
        one, other = task.lines[window.line].count, task.lines[window.beside].count
        if window.line == window.beside:
            odd, even = (one + 1) // 2, one // 2
            most = odd * even // gcd(odd, even)  # one charge of either lane, all its lines
            first, second = number[window.line, True], number[window.line, False]
        else:
            most = 1
            first, second = number[window.line, one % 2 == 1], number[window.beside, True]
            assert other
        refund += window.price * most
        for station in range(window.first, window.first + window.width):
            charges[first][station] += window.price * most
        for station in range(window.beside_first, window.beside_first + window.beside_width):
            charges[second][station] += window.price * most
    return refund, charges


class _Graph:
    """The pieces of a lane's line, each with what it costs, joints as nodes."""

    def __init__(self, line: Line, arcs: list[tuple[int, int, int]]) -> None:
        self.line = line
        self.layers = len(line.stations) if line.most_joints is None else line.most_joints
        self.onward: dict[int, list[tuple[int, int]]] = {}
        for tail, head, cost in arcs:
            self.onward.setdefault(tail, []).append((head, cost))
        bays = max(1, line.least_bays)
        self.capped = self.layers < len(line.stations) // bays + 1
        self.known: dict[frozenset[int], dict[tuple[int, int], int]] = {}

    def least(self, barred: frozenset[int]) -> int | None:
        """Return what the cheapest line costs without these joints, None if there is none."""
        return self._ahead(barred).get((START, self._top))

    @property
    def _top(self) -> int:
        return self.layers if self.capped else 0

    def _after(self, left: int) -> int:
        return left - 1 if self.capped else 0

    def _ahead(self, barred: frozenset[int]) -> dict[tuple[int, int], int]:
        """Return the least cost from each (node, joints left) to the end."""
        if barred in self.known:
            return self.known[barred]
        ahead: dict[tuple[int, int], int] = {}
        for left in range(self._top + 1):
            for tail in sorted(self.onward, reverse=True):  # the start, -1, comes last
                costs = [
                    cost + onward
                    for head, cost in self.onward[tail]
                    if (onward := self._onward(ahead, head, left, barred)) is not None
                ]
                if costs:
                    ahead[tail, left] = min(costs)
        self.known[barred] = ahead
        return ahead

    def _onward(
        self, ahead: dict[tuple[int, int], int], head: int, left: int, barred: frozenset[int]
    ) -> int | None:
        if head == END:
            return 0
        if head in barred or (self.capped and left == 0):
            return None
        return ahead.get((head, self._after(left)))

    def paths(self, barred: frozenset[int]) -> Iterator[tuple[int, Joints]]:
        """Return (cost, joints) of the lines without these joints, the cheapest first."""
        ahead = self._ahead(barred)
        least = self.least(barred)
        heap: list[tuple[int, Joints, int, int]] = []
        if least is not None:
            heap.append((least, (), START, self._top))
        while heap:
            cost, joints, node, left = heappop(heap)
            if node == END:
                yield cost, joints
                continue
            spent = cost - ahead[node, left]
            for head, more in self.onward[node]:
                onward = self._onward(ahead, head, left, barred)
                if onward is not None:
                    longer = joints if head == END else (*joints, head)
                    following = left if head == END else self._after(left)
                    heappush(heap, (spent + more + onward, longer, head, following))
