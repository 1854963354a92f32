"""The linear programme over ways of filling boards and ways of jointing lines.

Columns: the arcs of every lane, then elastic columns (a length left unmet, a line left
unmade), then fillings, generated as their prices ask for them. Rows: every length covered;
the flow of every lane through its nodes; every window of the stagger; the boards of every
stock. The prices of the rows are the worths of the certificates.
"""

from collections.abc import Callable, Sequence
from itertools import accumulate, pairwise
from typing import Any

from attrs import frozen

from drylay.cutting.fill import fullest, rich_fillings
from drylay.cutting.model import Line, WindowPrice, WorkLimits
from drylay.cutting.ready import Lane, Ready
from drylay.cutting.solver import INF, Answer, Column, add_columns, open_model, solve_lp
from drylay.cutting.verify import widest_window

Filling = tuple[int, tuple[tuple[int, int], ...]]  # board, (length, how many) ...


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
        self.penalty = 20.0 * (max((b.price for b in ready.boards), default=0) + 1)
        self.penalty += ready.task.joint_price
        self.fixed = [*self._arc_columns(), *self._elastic_columns()]
        self.fillings: list[Filling] = []
        self.known: set[Filling] = set()
        self.lp_solves, self.sunk = 0, False
        self.model: Any = open_model(*self.rows)
        add_columns(self.model, self.fixed)
        self.add(_first_fillings(ready))

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
    def staggered(self) -> bool:
        """Whether some set has lines that mind their neighbours."""
        return any(not lane.odd for lane in self.ready.lanes)

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

    def add_windows(self, windows: Sequence[WindowPrice]) -> int:
        """Add window rows; return how many there were."""
        for window in windows:
            columns, weights = [], []
            for column, (number, arc) in enumerate(self.arcs):
                lane = self.ready.lanes[number]
                last = window.first + window.width
                if lane.line == window.line and window.first <= arc.station < last:
                    columns.append(column)
                    weights.append(float(lane.weight))
            most = _window_most(self.ready.lanes, window.line)
            self.model.addRow(0.0, most, len(columns), columns, weights)
        self.windows += windows
        return len(windows)

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
        for _ in range(self.limits.rounds):
            self.tick()
            self.lp_solves += 1
            answer = solve_lp(self.model)
            if answer is None:
                return None
            prices = self._prices(answer)
            fillings, windows = self._better(prices), too_full(self, prices)
            if self.add(fillings) + self.add_windows(windows) == 0:
                return prices
        return None

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

    def _better(self, prices: Prices) -> list[Filling]:
        """Return the best filling of each board, where it is worth more than the board."""
        found = []
        for b, board in enumerate(self.ready.boards):
            least = self._board_cost(b) + prices.boards[b] + 1e-6
            _, pieces = fullest(
                prices.worths,
                self.ready.sizes,
                board.space,
                least=least,
                nodes=self.limits.fill_nodes,
            )
            if pieces:
                found.append((b, tuple(sorted(pieces.items()))))
        return found

    def sink_costs(self, sunk: bool) -> None:
        """Take the boards as paid for, or not: then only joints cost."""
        self.sunk = sunk
        first = len(self.fixed)
        for column, (board, _) in enumerate(self.fillings, first):
            self.model.changeColCost(column, self._board_cost(board))

    def _board_cost(self, board: int) -> float:
        return 0.0 if self.sunk else float(self.ready.boards[board].price)

    def cap_boards(self, counts: Sequence[float]) -> None:
        """Let no more than so many boards of each stock be bought."""
        for board, count in enumerate(counts):
            self.model.changeRowBounds(self.board_row + board, 0.0, count)

    def limit_arcs(self, barred: set[int]) -> None:
        """Bar these arcs and no others."""
        for column in range(len(self.arcs)):
            self.model.changeColBounds(column, 0.0, 0.0 if column in barred else INF)


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


def _window_most(lanes: Sequence[Lane], line: int) -> float:
    first = next(lane for lane in lanes if lane.line == line)
    return float(first.count * first.weight)


def _first_fillings(ready: Ready) -> list[Filling]:
    """Return fillings with one length each, so that every length is covered."""
    return [
        (b, ((i, board.space // size),))
        for i, size in enumerate(ready.sizes)
        for b, board in enumerate(ready.boards)
        if size <= board.space
    ]


def too_full(master: Master, prices: Prices) -> list[WindowPrice]:
    """Return the windows with more joints in the optimum than neighbours leave room for."""
    found = []
    lanes = master.ready.lanes
    for odd, (lane, beside) in enumerate(pairwise(lanes)):
        if lane.line == beside.line:
            line = master.ready.task.lines[lane.line]
            shares = [_shares(master, prices, number) for number in (odd, odd + 1)]
            found += _too_full(line, lane.line, shares)
    return found


def _shares(master: Master, prices: Prices, number: int) -> list[float]:
    """Return, for each station, the share of a lane's lines with a joint before it."""
    lane = master.ready.lanes[number]
    shares = [0.0] * (len(master.ready.task.lines[lane.line].stations) + 1)
    for column, (its, arc) in enumerate(master.arcs):
        if its == number and arc.station >= 0:
            shares[arc.station + 1] += prices.values[column] / lane.count
    return list(accumulate(shares))


def _too_full(line: Line, index: int, shares: list[list[float]]) -> list[WindowPrice]:
    width = min(widest_window(line), len(line.stations))
    return [
        WindowPrice(
            line=index,
            first=first,
            width=width,
            beside=index,
            beside_first=first,
            beside_width=width,
            price=0,
        )
        for first in range(len(line.stations) - width + 1)
        if sum(share[first + width] - share[first] for share in shares) > 1 + 1e-6
    ]
