"""The programme over ways of filling boards and one way of jointing for each lane.

A lane's lines are all alike, so a piece of a lane takes as many of its length as the lane has
lines. The linear optimum is that of free lines; whole numbers choose one way for each lane.
"""

from collections import Counter
from collections.abc import Callable, Iterable
from math import gcd
from typing import Any

from drylay.cutting.fill import fullest, rich_fillings
from drylay.cutting.model import Cut, Task, WorkLimits
from drylay.cutting.patterns import END, START, Choice, Lane, apart
from drylay.cutting.solver import (
    INF,
    Answer,
    Column,
    add_columns,
    open_model,
    solve_lp,
    solve_whole,
)
from drylay.cutting.verify import legal_pieces, longest_usable, room

Arc = tuple[int, int, int, int]  # lane, from station, to station, length


class RepeatMaster:
    """The programme while it grows: its columns, its linear optimum."""

    def __init__(self, task: Task, lanes: tuple[Lane, ...], limits: WorkLimits) -> None:
        self.task, self.lanes, self.limits = task, lanes, limits
        longest = longest_usable(task)
        self.arcs: list[Arc] = [
            (n, *arc) for n, lane in enumerate(lanes) for arc in legal_pieces(lane.line, longest)
        ]
        fixed = {piece.length for piece in task.pieces if piece.count}
        self.lengths = sorted(fixed | {arc[3] for arc in self.arcs}, reverse=True)
        self.boards = [s for s in task.stock if s.limit != 0 and room(s, task.kerf) > task.kerf]
        self.unit = gcd(*(length + task.kerf for length in self.lengths)) or 1
        self.sizes = [(length + task.kerf) // self.unit for length in self.lengths]
        self.low: list[float] = []
        self.high: list[float] = []
        self.columns = self._arc_columns(self._rows())
        self.fixed = len(self.columns)
        self.known: set[tuple[int, tuple[tuple[int, int], ...]]] = set()
        self.optimum: Answer | None = None
        self.model: Any = None

    # -- building ------------------------------------------------------------------------

    def _row(self, low: float, high: float) -> int:
        self.low.append(low)
        self.high.append(high)
        return len(self.low) - 1

    def _rows(self) -> dict[tuple[int, int], int]:
        """Lay down lengths, boards, the nodes of every lane; return the nodes' rows."""
        wanted = dict.fromkeys(self.lengths, 0)
        for piece in self.task.pieces:
            if piece.count:
                wanted[piece.length] += piece.count
        for length in self.lengths:
            self._row(float(wanted[length]), INF)
        for board in self.boards:
            self._row(0.0, INF if board.limit is None else float(board.limit))
        nodes = {}
        for n, lane in enumerate(self.lanes):
            nodes[n, START] = self._row(1.0, 1.0)
            nodes[n, END] = self._row(1.0, 1.0)
            for station in range(len(lane.line.stations)):
                nodes[n, station] = self._row(0.0, 0.0)
        return nodes

    def _arc_columns(self, nodes: dict[tuple[int, int], int]) -> list[Column]:
        index = {length: row for row, length in enumerate(self.lengths)}
        clashes, caps = self._clashes(), self._caps()
        columns: list[Column] = []
        for n, tail, head, length in self.arcs:
            count = self.lanes[n].count
            joints = count * self.task.joint_price if head >= 0 else 0
            leaves = 1.0
            rows, values = [index[length], nodes[n, tail]], [-float(count), leaves]
            rows.append(nodes[n, head])
            values.append(1.0 if head == END else -1.0)
            extra = [*clashes.get((n, head), ()), *(caps.get(n, ()) if head >= 0 else ())]
            rows += extra
            values += [1.0] * len(extra)
            columns.append((float(joints), 1.0, tuple(rows), tuple(values)))
        return columns

    def _caps(self) -> dict[int, tuple[int, ...]]:
        return {
            n: (self._row(0.0, float(lane.line.most_joints)),)
            for n, lane in enumerate(self.lanes)
            if lane.line.most_joints is not None
        }

    def _clashes(self) -> dict[tuple[int, int], list[int]]:
        """Lay down that neighbours keep apart; return the rows of each lane and station."""
        found: dict[tuple[int, int], list[int]] = {}
        for (one, other), stagger in apart(self.task, self.lanes).items():
            line, its = self.lanes[one].line, self.lanes[other].line
            bays = max(1, its.least_bays)
            for station in range(len(line.stations)):
                at = station + line.first_station - its.first_station
                near = [
                    s for s in range(at - stagger + 1, at + stagger) if 0 <= s < len(its.stations)
                ]
                for first in range(0, len(near), bays):  # a line has one joint in so many
                    row = self._row(0.0, 1.0)
                    for key in ((one, station), *((other, s) for s in near[first : first + bays])):
                        found.setdefault(key, []).append(row)
        return found

    # -- solving -------------------------------------------------------------------------

    def _filling(self, board: int, pieces: dict[int, int]) -> Column | None:
        key = (board, tuple(sorted(pieces.items())))
        if not pieces or key in self.known:
            return None
        self.known.add(key)
        rows = (*(length for length, _ in key[1]), len(self.lengths) + board)
        values = (*(float(count) for _, count in key[1]), 1.0)
        return float(self.boards[board].price), INF, rows, values

    def solve(self, tick: Callable[[], None]) -> bool:
        """Bring in every filling the linear optimum asks for; False if there is none."""
        self.model = open_model(self.low, self.high)
        add_columns(self.model, self.columns)
        self._add(
            self._filling(b, {i: space // size})
            for i, size in enumerate(self.sizes)
            for b, space in enumerate(self._spaces())
            if size <= space
        )
        for _ in range(self.limits.rounds):
            tick()
            self.optimum = solve_lp(self.model)
            if self.optimum is None:
                return False
            if not self._add(self._best(b, space) for b, space in enumerate(self._spaces())):
                return True
        return False

    def _spaces(self) -> list[int]:
        return [room(board, self.task.kerf) // self.unit for board in self.boards]

    def _add(self, columns: Iterable[Column | None]) -> int:
        new = [column for column in columns if column is not None]
        self.columns += new
        if new:
            add_columns(self.model, new)
        return len(new)

    def _worths(self) -> list[float]:
        assert self.optimum is not None
        return [max(0.0, price) for price in self.optimum.prices[: len(self.lengths)]]

    def _charged(self, board: int) -> float:
        """Return what a board costs, with what its limit makes it dearer."""
        assert self.optimum is not None
        price = self.optimum.prices[len(self.lengths) + board]
        return self.boards[board].price - min(0.0, price)

    def _best(self, board: int, space: int) -> Column | None:
        least, nodes = self._charged(board) + 1e-6, self.limits.fill_nodes
        _, pieces = fullest(self._worths(), self.sizes, space, least=least, nodes=nodes)
        return self._filling(board, pieces)

    def enrich(self, below: float) -> None:
        """Bring in the fillings a choice that costs less than `below` may need, or the best of them."""
        assert self.optimum is not None
        spare = below - self.optimum.objective
        for part in (1, 2, 4, 8, 16):
            rich = self._rich(spare / part)
            if rich is not None:
                self._add(self._filling(board, pieces) for board, pieces in rich)
                self.optimum = solve_lp(self.model) or self.optimum
                return

    def _rich(self, spare: float) -> list[tuple[int, dict[int, int]]] | None:
        most = max((lane.count * len(lane.line.stations) for lane in self.lanes), default=0)
        items = [
            (w, s, int(self.low[i]) + most)
            for i, (w, s) in enumerate(zip(self._worths(), self.sizes, strict=True))
        ]
        found = []
        for board, space in enumerate(self._spaces()):
            least = self._charged(board) - spare - 1e-6
            rich = rich_fillings(items, space, least=least, most=self.limits.fillings)
            if rich is None:
                return None
            found += [(board, dict(pieces)) for pieces in rich]
        return found

    def learn(self, cuts: Iterable[Cut]) -> None:
        """Bring in the fillings of a plan."""
        index = {length: i for i, length in enumerate(self.lengths)}
        number = {board.name: b for b, board in enumerate(self.boards)}
        self._add(
            self._filling(number[cut.stock], Counter(index[length] for length in cut.pieces))
            for cut in cuts
        )
        self.optimum = solve_lp(self.model) or self.optimum

    def choice(self, below: float, stopped: Callable[[], bool] | None) -> Choice | None:
        """Return the best choice the solver finds that costs less than `below`."""
        assert self.optimum is not None
        spare = below - self.optimum.objective + 1e-6
        kept = [c for c, dear in enumerate(self.optimum.reduced) if dear < spare]
        row = len(self.low)
        columns = [self.columns[c] for c in kept]
        columns = [(c, most, (*rows, row), (*values, c)) for c, most, rows, values in columns]
        rows = [*self.low, -INF], [*self.high, below - 0.5]
        answer = solve_whole(rows, columns, nodes=self.limits.nodes, stopped=stopped)
        if answer is None:
            return None
        joints: list[list[int]] = [[] for _ in self.lanes]
        for column, value in zip(kept, answer.values, strict=True):
            if column < self.fixed and value > 0.5 and self.arcs[column][2] >= 0:
                joints[self.arcs[column][0]].append(self.arcs[column][2])
        return tuple(tuple(sorted(its)) for its in joints)
