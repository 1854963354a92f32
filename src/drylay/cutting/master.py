"""The linear programme over ways of filling boards and ways of jointing lines.

Columns: the arcs of every lane, then elastic columns (a length left unmet, a line left
unmade), then fillings, generated as their prices ask for them. Rows: every length covered;
the flow of every lane through its nodes; every window of the stagger; the boards of every
stock. The prices of the rows are the worths of the certificates.
"""

from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from math import gcd
from typing import Any

from attrs import frozen

from drylay.cutting.fill import rich_fillings
from drylay.cutting.lanes import Arc, Place, places_clashing
from drylay.cutting.model import Task, WindowPrice, WorkLimits
from drylay.cutting.pricing import Filling, better_fillings
from drylay.cutting.ready import Ready
from drylay.cutting.solver import INF, Answer, Column, add_columns, open_model, solve_lp
from drylay.cutting.weighing import most_joints
from drylay.cutting.windows import Group, groups_beside, too_full


@frozen(kw_only=True)
class Prices:
    """What a linear optimum says: objective, worths, window prices, how much is unmet."""

    objective: float
    worths: list[float]
    windows: list[float]
    boards: list[float]
    unmet: float
    values: list[float]
    reduced: list[float]


class Master:
    """The programme while it grows: its model, its fillings, the work done on it."""

    def __init__(
        self,
        ready: Ready,
        limits: WorkLimits,
        tick: Callable[[], None],
        stopped: Callable[[], bool] | None = None,
    ) -> None:
        self.ready, self.limits, self.tick, self.stopped = ready, limits, tick, stopped
        self.windows: list[WindowPrice] = []
        self.rows = _rows(ready)
        self.arcs = [
            (lane, arc) for lane in range(len(ready.lanes)) for arc in ready.lanes[lane].arcs
        ]
        self.starts = _lane_starts(ready)
        self.pairs = list(groups_beside(ready.task, ready.lanes, ready.each))
        self.jointed = _jointed(self.arcs)
        self.clashes = _clashes(ready, self.jointed)
        self.penalty = _penalty(ready)
        self.fixed = [*self._arc_columns(), *self._elastic_columns()]
        self.fillings: list[Filling] = []
        self.known: set[Filling] = set()
        self.lp_solves, self.pivots, self.sunk, self.trifle = 0, 0, False, 0.0
        self.model: Any = open_model(*self.rows)
        add_columns(self.model, self.fixed)
        self.add([*_first_fillings(ready), *_by_turns(ready)])

    # -- building ------------------------------------------------------------------------

    def _arc_columns(self) -> list[Column]:
        ready, columns = self.ready, []
        price = float(ready.task.joint_price)
        for number, arc in self.arcs:
            rows, values = [arc.length], [-1.0]
            rows.append(self._node_row(number, arc.tail))
            values.append(1.0)
            if arc.head != 1:
                rows.append(self._node_row(number, arc.head))
                values.append(-1.0)
            cost = price if arc.station >= 0 else 0.0
            columns.append((cost, INF, tuple(rows), tuple(values)))
        return columns

    def _node_row(self, lane: int, node: int) -> int:
        return self.starts[lane] + (node if node == 0 else node - 1)

    @property
    def board_row(self) -> int:
        """Row of the first stock."""
        return self.starts[-1]

    @property
    def window_row(self) -> int:
        """Row of the first window."""
        return self.starts[-1] + len(self.ready.boards)

    @property
    def tired(self) -> bool:
        """Whether so much work has gone into plans that no other is tried."""
        return self.pivots > self.limits.pivots

    @property
    def staggered(self) -> bool:
        """Whether some set has lines that mind their neighbours."""
        return bool(self.ready.near)

    def _elastic_columns(self) -> list[Column]:
        rows = [*range(len(self.ready.lengths)), *self.starts[:-1]]
        return [(self.penalty, INF, (row,), (1.0,)) for row in rows]

    def filling_column(self, filling: Filling) -> Column:
        """Return the column of a filling."""
        board, pieces = filling
        rows = (*(length for length, _ in pieces), self.board_row + board)
        values = (*(float(count) for _, count in pieces), 1.0)
        return self._board_cost(board), INF, rows, values

    def add(self, fillings: Sequence[Filling]) -> int:
        """Add the fillings not yet known; return how many there were."""
        new = [f for f in dict.fromkeys(fillings) if f not in self.known]
        self.known.update(new)
        self.fillings += new
        if new:
            add_columns(self.model, [self.filling_column(filling) for filling in new])
        return len(new)

    def add_windows(self, found: Sequence[tuple[int, WindowPrice]]) -> int:
        """Add window rows, each with the number of its pair; return how many there were."""
        for pair, window in found:
            one, other, _ = self.pairs[pair]
            together = window.line == window.beside and one.count + other.count > 2
            columns: list[int] = []
            weights: list[float] = []
            for group, first, width in (
                (one, window.first, window.width),
                (other, window.beside_first, window.beside_width),
            ):
                for number in group.lanes:
                    weight = float(self.ready.lanes[number].weight) if together else 1.0
                    for station in range(first, first + width):
                        here = self.jointed.get((number, station), ())
                        columns += here
                        weights += [weight] * len(here)
            most = float(_window_most(self.ready.task, window)) if together else 1.0
            self.model.addRow(0.0, most, len(columns), columns, weights)
        self.windows += [window for _, window in found]
        return len(found)

    def shares(self, prices: Prices) -> list[list[float]]:
        """Return, lane by lane, what share of its lines joint at each station."""
        lanes, lines = self.ready.lanes, self.ready.task.lines
        shares = [[0.0] * len(lines[lane.line].stations) for lane in lanes]
        for (number, arc), value in zip(self.arcs, prices.values, strict=False):
            if value > 1e-9 and arc.station >= 0:
                shares[number][arc.station] += value / lanes[number].count
        return shares

    def too_full(self, prices: Prices) -> list[tuple[int, WindowPrice]]:
        """Return the windows with more joints in the optimum than neighbours leave room for.

        Each with the number of its pair of groups.
        """
        if not self.pairs:
            return []
        shares, task = self.shares(prices), self.ready.task
        found: list[tuple[int, WindowPrice]] = []
        for number, pair in enumerate(self.pairs):
            both = (self._together(group, shares) for group in pair[:2])
            found += [(number, window) for window in too_full(task, pair, *both)]
        return found

    def _together(self, group: Group, shares: list[list[float]]) -> list[float]:
        """Return the share of a group's lines that joint at each station."""
        lanes = self.ready.lanes
        parts = [(shares[number], lanes[number].count / group.count) for number in group.lanes]
        if len(parts) == 1:
            return parts[0][0]
        stations = range(len(parts[0][0]))
        return [sum(share[j] * part for share, part in parts) for j in stations]

    def add_rich(self, prices: Prices, spare: float) -> bool:
        """Add every filling whose reduced cost is at most `spare`; False if there are too many."""
        items = list(zip(prices.worths, self.ready.sizes, self.ready.most, strict=True))
        found: list[Filling] = []
        for b, board in enumerate(self.ready.boards):
            rich = rich_fillings(
                items,
                board.space,
                least=board.price + prices.boards[b] - spare - 1e-6,
                most=self.limits.fillings,
            )
            if rich is None:
                return False
            found += [(b, tuple(sorted(filling.items()))) for filling in rich]
        self.add(found)
        return True

    # -- solving -------------------------------------------------------------------------

    def solve(self) -> Prices | None:
        """Return the linear optimum over all fillings there are, None at the work limit."""
        grown = False
        for _ in range(self.limits.rounds):
            prices = self.solve_once(grown=grown)
            if prices is None:
                return None
            windows = self.add_windows(self.too_full(prices))
            if self.add(self.better(prices)) + windows == 0:
                return prices
            grown = windows == 0
        return None

    def solve_once(self, *, grown: bool = False) -> Prices | None:
        """Return the linear optimum over the fillings known, None if there is none.

        Has the programme only `grown` by fillings since the last time, it goes on from there.
        """
        self.tick()
        self.lp_solves += 1
        answer = solve_lp(self.model, grown=grown)
        if answer is None:
            return None
        self.pivots += answer.pivots
        return self._prices(answer)

    def bar_fillings(self, left: Sequence[int] | None) -> None:
        """Bar the fillings that hold more of a piece than is left; none, if left is None."""
        first, count = len(self.fixed), len(self.fillings)
        if not count:
            return
        most = [
            INF if left is None or all(n <= left[i] for i, n in pieces) else 0.0
            for _, pieces in self.fillings
        ]
        columns = list(range(first, first + count))
        self.model.changeColsBounds(count, columns, [0.0] * count, most)

    def _prices(self, answer: Answer) -> Prices:
        lengths, first = len(self.ready.lengths), len(self.arcs)
        board, window = self.board_row, self.window_row
        elastic = answer.values[first : first + lengths + len(self.ready.lanes)]
        return Prices(
            objective=answer.objective,
            worths=[max(0.0, price) for price in answer.prices[:lengths]],
            windows=[max(0.0, -price) for price in answer.prices[window:]],
            boards=[max(0.0, -price) for price in answer.prices[board:window]],
            unmet=sum(elastic),
            values=answer.values,
            reduced=answer.reduced,
        )

    def better(self, prices: Prices) -> list[Filling]:
        """Return good fillings of each board, the best among them, worth more than the board."""
        leasts = [self._board_cost(b) + more + 1e-6 for b, more in enumerate(prices.boards)]
        return better_fillings(self.ready, prices.worths, leasts, self.limits.fill_nodes)

    def sink_costs(self, sunk: bool) -> None:
        """Take the boards as paid for, or not: then only joints cost."""
        self.sunk = sunk
        first = len(self.fixed)
        for column, (board, _) in enumerate(self.fillings, first):
            self.model.changeColCost(column, self._board_cost(board))

    def _board_cost(self, board: int) -> float:
        return self.trifle + (0.0 if self.sunk else float(self.ready.boards[board].price))

    def cap_boards(self, counts: Sequence[float]) -> None:
        """Let no more than so many boards of each stock be bought."""
        for board, count in enumerate(counts):
            self.model.changeRowBounds(self.board_row + board, 0.0, count)

    def lean(self, lean: int | None) -> None:
        """Let joints and boards cost a trifle more than they do, so that ties go to fewer.

        And all arcs and fillings another trifle, otherwise for each lean but 0. None: as they are.
        """
        ready, first = self.ready, len(self.fixed)
        many = 1 + sum(ready.wanted) + sum(lane.count * lane.nodes for lane in ready.lanes)
        self.trifle = 0.0 if lean is None else 0.1 / many
        costs = [
            cost[0] + self.trifle * (arc.station >= 0)
            for cost, (_, arc) in zip(self.fixed, self.arcs, strict=False)
        ]
        costs += [self._board_cost(board) for board, _ in self.fillings]
        columns = [*range(len(self.arcs)), *range(first, first + len(self.fillings))]
        for column, cost in zip(columns, costs, strict=True):
            share = (column * (lean or 0) * 0.6180339887498949) % 1.0
            self.model.changeColCost(column, cost + 0.3 * share / many)

    def hold_arcs(
        self, barred: AbstractSet[int], held: Sequence[int] | None = None, *, fast: bool = False
    ) -> None:
        """Bar these arcs and no others; hold each at least as often as told, or just so often."""
        count = len(self.arcs)
        low = [0.0] * count if held is None else [float(lines) for lines in held]
        most = [low[arc] if fast or arc in barred else INF for arc in range(count)]
        self.model.changeColsBounds(count, list(range(count)), low, most)


def _penalty(ready: Ready) -> float:
    """Return what a piece or line that is left out costs: more than any way to make it."""
    joints = max((most_joints(line) for line in ready.task.lines if line.count), default=0)
    dearest = max((board.price for board in ready.boards), default=0)
    return max(20.0, joints + 2.0) * (dearest + 1) + ready.task.joint_price * max(1, joints)


def _lane_starts(ready: Ready) -> list[int]:
    starts = [len(ready.lengths)]
    for lane in ready.lanes:
        starts.append(starts[-1] + lane.nodes - 1)
    return starts


def _rows(ready: Ready) -> tuple[list[float], list[float]]:
    low = [float(count) for count in ready.wanted]
    high = [INF] * len(low)
    for lane in ready.lanes:
        flow = [float(lane.count), *([0.0] * (lane.nodes - 2))]
        low += flow
        high += flow
    low += [0.0] * len(ready.boards)
    high += [INF if b.limit is None else float(b.limit) for b in ready.boards]
    return low, high


def _first_fillings(ready: Ready) -> list[Filling]:
    """Return fillings with one length each, so that every length is covered."""
    return [
        (b, ((i, board.space // size),))
        for i, size in enumerate(ready.sizes)
        for b, board in enumerate(ready.boards)
        if size <= board.space
    ]


def _by_turns(ready: Ready) -> list[Filling]:
    """Return the fillings of boards filled one after the other, longest pieces first."""
    found = []
    for b, board in enumerate(ready.boards):
        left = list(ready.wanted)
        while any(n and size <= board.space for n, size in zip(left, ready.sizes, strict=True)):
            space, pieces = board.space, []
            for i, size in enumerate(ready.sizes):
                count = min(left[i], space // size)
                if count:
                    pieces.append((i, count))
                    space -= count * size
            copies = min(left[i] // count for i, count in pieces)
            for i, count in pieces:
                left[i] -= copies * count
            found.append((b, tuple(pieces)))
    return found


def _jointed(arcs: Sequence[tuple[int, Arc]]) -> dict[tuple[int, int], list[int]]:
    """Return the columns that joint at each station of each lane."""
    jointed: dict[tuple[int, int], list[int]] = {}
    for column, (lane, arc) in enumerate(arcs):
        if arc.station >= 0:
            jointed.setdefault((lane, arc.station), []).append(column)
    return jointed


def _clashes(ready: Ready, jointed: Mapping[Place, object]) -> dict[Place, tuple[Place, ...]]:
    """Return, for each place that may be jointed on, those of its set too near beside it.

    Lines of unlike sets are alone in their lanes: windows alone keep them apart.
    """
    found: dict[Place, list[Place]] = {place: [] for place in jointed}
    for one, other in places_clashing(ready.lanes, ready.near, jointed):
        if ready.lanes[one[0]].line == ready.lanes[other[0]].line:
            found[one].append(other)
            found[other].append(one)
    return {place: tuple(others) for place, others in found.items()}


def _window_most(task: Task, window: WindowPrice) -> int:
    if window.line != window.beside:
        return 1
    lines = task.lines[window.line].count
    odd, even = (lines + 1) // 2, lines // 2
    return odd * even // gcd(odd, even)
