"""Turns: the lines of a set that repeat one another, and the programme that lays them alike.

A turn's lines are all jointed alike, so one yes or no says whether they hold a piece, for as
many pieces as the turn has lines. A choice of turns is a choice of free lines: what the linear
programme of those says of a piece or a filling (`master`), it says of the turns too.
"""

from collections import Counter
from collections.abc import Iterator

from attrs import frozen

from drylay.cutting.lanes import bays_apart
from drylay.cutting.master import Master, Prices
from drylay.cutting.model import Task
from drylay.cutting.pricing import Filling
from drylay.cutting.solver import INF, Column
from drylay.cutting.verify import price_step
from drylay.cutting.windows import stretches

Laid = tuple[tuple[tuple[int, ...], ...], ...]  # the joints of each line of each set
Rows = tuple[list[float], list[float]]  # least and most of each row
Cell = tuple[int, int]  # turn, station


@frozen(kw_only=True)
class Turn:
    """The lines of set `line` at `places` (from 0), all jointed alike.

    `lanes` tells how many of them are in each lane of the engine.
    """

    line: int
    places: tuple[int, ...]
    lanes: tuple[tuple[int, int], ...]


def turns_of(master: Master, period: int) -> tuple[Turn, ...]:
    """Return the turns of all sets: every `period`th line of a set is in the same."""
    lanes = master.ready.lanes
    owner = {(lane.line, place): n for n, lane in enumerate(lanes) for place in lane.places}
    found = []
    for index, line in enumerate(master.ready.task.lines):
        for first in range(min(period, line.count)):
            places = tuple(range(first, line.count, period))
            counts = Counter(owner[index, place] for place in places)
            found.append(Turn(line=index, places=places, lanes=tuple(sorted(counts.items()))))
    return tuple(found)


def turns_beside(task: Task, turns: tuple[Turn, ...]) -> dict[tuple[int, int], int]:
    """Return which turns have lines beside one another, and how far apart their joints are.

    A turn is beside itself where lines that lie side by side are in the same.
    """
    owner = {(turn.line, place): n for n, turn in enumerate(turns) for place in turn.places}
    found: dict[tuple[int, int], int] = {}
    pairs = [
        ((index, place), (index, place + 1), line.stagger)
        for index, line in enumerate(task.lines)
        for place in range(line.count - 1)
    ]
    pairs += [
        ((p.one, task.lines[p.one].count - 1), (p.other, 0), bays_apart(task, p.one, p.other))
        for p in task.beside
        if task.lines[p.one].count and task.lines[p.other].count
    ]
    for one, other, bays in pairs:
        key = min(owner[one], owner[other]), max(owner[one], owner[other])
        if bays:
            found[key] = max(bays, found.get(key, 0))
    return found


class TurnProgramme:
    """The rows and columns of a choice of turns: lengths, boards, turns, stretches."""

    def __init__(self, master: Master, turns: tuple[Turn, ...]) -> None:
        self.master, self.turns = master, turns
        self.firsts = [
            next(c for c, (lane, _) in enumerate(master.arcs) if lane == number)
            for number in range(len(master.ready.lanes))
        ]
        self.low, self.high = self._first_rows()
        self.boards = len(master.ready.lengths)
        self.first_turn = self.boards + len(master.ready.boards)
        self.shut = self._keep_apart()
        self.arcs = [
            (turn, arc)
            for turn, its in enumerate(turns)
            for arc in range(len(master.ready.lanes[its.lanes[0][0]].arcs))
        ]
        self.columns = [self._column(turn, arc) for turn, arc in self.arcs]

    def _first_rows(self) -> Rows:
        ready = self.master.ready
        low = [float(count) for count in ready.wanted] + [0.0] * len(ready.boards)
        high = [INF] * len(ready.wanted)
        high += [INF if board.limit is None else float(board.limit) for board in ready.boards]
        self.starts = []
        for turn in self.turns:
            self.starts.append(len(low))
            inner = [0.0] * (ready.lanes[turn.lanes[0][0]].nodes - 2)
            low += [1.0, *inner]
            high += [1.0, *inner]
        return low, high

    def _keep_apart(self) -> dict[Cell, list[tuple[int, float]]]:
        """Lay down the stretches that hold one joint; return the rows of each turn's stations.

        Every two stations too near one another are in two such stretches, so whole numbers
        that keep to these rows keep to the stagger.
        """
        found: dict[Cell, list[tuple[int, float]]] = {}
        for pair, bays in turns_beside(self.master.ready.task, self.turns).items():
            for cells in self._stretches(pair, bays):
                for cell, times in Counter(cells).items():
                    found.setdefault(cell, []).append((len(self.low), float(times)))
                self.low.append(-INF)
                self.high.append(1.0)
        return found

    def _stretches(self, pair: tuple[int, int], bays: int) -> Iterator[tuple[Cell, ...]]:
        lines = self.master.ready.task.lines
        one, other = (lines[self.turns[turn].line] for turn in pair)
        ahead = other.first_station - one.first_station
        seen = set()
        for width, beside, shift in stretches(one.least_bays, other.least_bays, bays):
            for start in range(1 - width, len(one.stations)):
                first = range(max(0, start), min(len(one.stations), start + width))
                there = start + shift - ahead
                second = range(max(0, there), min(len(other.stations), there + beside))
                cells = (*((pair[0], j) for j in first), *((pair[1], j) for j in second))
                if first and second and cells not in seen:
                    seen.add(cells)
                    yield cells

    def _column(self, turn: int, arc: int) -> Column:
        its, ready = self.turns[turn], self.master.ready
        piece = ready.lanes[its.lanes[0][0]].arcs[arc]
        rows, values = [piece.length], [-float(len(its.places))]
        rows.append(self._node(turn, piece.tail))
        values.append(1.0)
        if piece.head != 1:
            rows.append(self._node(turn, piece.head))
            values.append(-1.0)
        for row, times in self.shut.get((turn, piece.station), ()):
            rows.append(row)
            values.append(times)
        cost = (self._trifle + ready.task.joint_price) if piece.station >= 0 else 0.0
        return cost * len(its.places), 1.0, tuple(rows), tuple(values)

    def _node(self, turn: int, node: int) -> int:
        return self.starts[turn] + (node if node == 0 else node - 1)

    @property
    def _trifle(self) -> float:
        """What a joint costs more, so that ties go to fewer of them: all together no money."""
        ready = self.master.ready
        joints = 1 + sum(lane.count * lane.nodes for lane in ready.lanes)
        return 0.4 * price_step(ready.task) / joints

    def filling(self, filling: Filling) -> Column:
        """Return the column of a filling."""
        board, pieces = filling
        rows = (*(length for length, _ in pieces), self.boards + board)
        values = (*(float(count) for _, count in pieces), 1.0)
        return float(self.master.ready.boards[board].price), INF, rows, values

    def reduced(self, prices: Prices) -> list[float]:
        """Return what each column of a turn costs more than the optimum of free lines allows."""
        return [
            sum(n * prices.reduced[self.firsts[lane] + arc] for lane, n in self.turns[turn].lanes)
            for turn, arc in self.arcs
        ]

    def joints(self, chosen: list[tuple[int, int]]) -> Laid:
        """Return the joints of every line of every set, from the (turn, arc) chosen."""
        ready = self.master.ready
        stations: list[list[int]] = [[] for _ in self.turns]
        for turn, arc in chosen:
            piece = ready.lanes[self.turns[turn].lanes[0][0]].arcs[arc]
            stations[turn] += [piece.station] if piece.station >= 0 else []
        laid = {
            (turn.line, place): tuple(sorted(its))
            for turn, its in zip(self.turns, stations, strict=True)
            for place in turn.places
        }
        return tuple(
            tuple(laid[index, place] for place in range(line.count))
            for index, line in enumerate(ready.task.lines)
        )
