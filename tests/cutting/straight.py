"""The programme of fillings and joints as it stands, given to HiGHS whole: a baseline.

Fillings are all full ones where they are few, else those that column generation finds. Lines
of a set take turns, odd and even, each on their own stations.
"""

from collections.abc import Iterator
from typing import Any

from attrs import define, frozen

from cutting.habits import Board, boards_of
from drylay.cutting.model import Line, Task

INF = float("inf")
ROUNDS, FILL_NODES = 300, 20_000
Filling = tuple[int, tuple[tuple[int, int], ...]]  # board, (length by index, how many)
Arc = tuple[int, int, int, int]  # from node, to node, length, station (-1: the end)


@frozen(kw_only=True)
class Straight:
    """What HiGHS made of it: objective (None: no plan), fillings given, whether these are all.

    `stopped` where the clock, not the nodes, ended it.
    """

    objective: int | None
    fillings: int
    all_fillings: bool
    stopped: bool


@frozen(kw_only=True)
class Lane:
    """The odd or the even lines of a set: arcs over nodes, 0 the start and 1 the end."""

    line: int
    odd: bool
    count: int
    arcs: tuple[Arc, ...]


def straight(task: Task, *, nodes: int, seconds: float, most_fillings: int = 3000) -> Straight:
    """Return what HiGHS makes of a task in so many nodes (and seconds, lest it never ends)."""
    programme = _Programme(task)
    fillings = _all_fillings(programme, most_fillings)
    if fillings is None:
        programme.generate()
    else:
        programme.add(fillings)
    objective = programme.whole(nodes, seconds)
    return Straight(
        objective=objective,
        fillings=len(programme.fillings),
        all_fillings=fillings is not None,
        stopped=programme.stopped,
    )


@define
class _Rows:
    low: list[float]
    high: list[float]

    def add(self, low: float, high: float) -> int:
        self.low.append(low)
        self.high.append(high)
        return len(self.low) - 1


class _Programme:
    """The model while it is made: arcs, choices of stations, elastic columns, fillings."""

    def __init__(self, task: Task) -> None:
        self.task, self.boards = task, boards_of(task)
        longest = max((board.space - task.kerf for board in self.boards), default=0)
        arcs = [list(_arcs(line, longest)) for line in task.lines]
        found = {length for of_set in arcs for _, _, length, _ in of_set}
        found |= {piece.length for piece in task.pieces if piece.count}
        self.lengths = sorted(found, reverse=True)
        self.lanes = [lane for i in range(len(arcs)) for lane in _lanes(task, i, arcs[i])]
        wanted = dict.fromkeys(self.lengths, 0)
        for piece in task.pieces:
            if piece.count:
                wanted[piece.length] += piece.count
        self.wanted = [wanted[length] for length in self.lengths]
        self.fillings: list[Filling] = []
        self.stopped = False
        self.columns: list[tuple[float, float, list[int], list[float]]] = []
        self._build()

    # -- building ------------------------------------------------------------------------

    def _build(self) -> None:
        rows = _Rows(low=[float(n) for n in self.wanted], high=[INF] * len(self.wanted))
        self.first_board = len(rows.low)
        for board in self.boards:
            rows.add(0.0, INF if board.limit is None else float(board.limit))
        index = {length: i for i, length in enumerate(self.lengths)}
        into: dict[tuple[int, int], int] = {}
        for number, lane in enumerate(self.lanes):
            self._add_lane(rows, number, lane, index, into)
        self.arc_count = len(self.columns)
        for (number, _), row in into.items():
            self.columns.append((0.0, 1.0, [row], [-float(self.lanes[number].count)]))
        self._keep_apart(rows, into)
        self.first_elastic = len(self.columns)
        penalty = 20.0 * (1 + max((board.price for board in self.boards), default=0))
        self.columns += [(penalty, INF, [i], [1.0]) for i in range(len(self.lengths))]
        self.first_filling = len(self.columns)
        self.model = _model(rows)
        _add(self.model, self.columns)

    def _add_lane(
        self,
        rows: _Rows,
        number: int,
        lane: Lane,
        index: dict[int, int],
        into: dict[tuple[int, int], int],
    ) -> None:
        flow: dict[int, int] = {0: rows.add(float(lane.count), float(lane.count))}
        for tail, head, length, station in lane.arcs:
            columns_rows, values = [index[length]], [-1.0]
            for node, value in ((tail, 1.0), (head, -1.0)):
                if node != 1:
                    if node not in flow:
                        flow[node] = rows.add(0.0, 0.0)
                    columns_rows.append(flow[node])
                    values.append(value)
            if station >= 0:
                if (number, station) not in into:
                    into[number, station] = rows.add(-INF, 0.0)
                columns_rows.append(into[number, station])
                values.append(1.0)
            cost = float(self.task.joint_price) if station >= 0 else 0.0
            self.columns.append((cost, INF, columns_rows, values))

    def _keep_apart(self, rows: _Rows, into: dict[tuple[int, int], int]) -> None:
        places = list(into)
        for a, (one, station) in enumerate(places):
            for b, (other, its) in enumerate(places):
                apart = _stagger(self.task, self.lanes[one], self.lanes[other])
                first = self.task.lines[self.lanes[one].line].first_station
                second = self.task.lines[self.lanes[other].line].first_station
                if one < other and abs(first + station - second - its) < apart:
                    row = rows.add(-INF, 1.0)
                    for place in (a, b):
                        self.columns[self.arc_count + place][2].append(row)
                        self.columns[self.arc_count + place][3].append(1.0)

    def add(self, fillings: list[Filling]) -> int:
        """Add the fillings not yet there; return how many those were."""
        known = set(self.fillings)
        new = [filling for filling in dict.fromkeys(fillings) if filling not in known]
        self.fillings += new
        columns = []
        for board, pieces in new:
            rows = [*(i for i, _ in pieces), self.first_board + board]
            values = [*(float(count) for _, count in pieces), 1.0]
            columns.append((float(self.boards[board].price), INF, rows, values))
        if columns:
            _add(self.model, columns)
        self.columns += columns
        return len(new)

    # -- solving -------------------------------------------------------------------------

    def generate(self) -> None:
        """Add the fillings that the linear optimum asks for, until it asks for no more."""
        for _ in range(ROUNDS):
            self.model.run()
            duals = list(self.model.getSolution().row_dual)
            found = []
            for b, board in enumerate(self.boards):
                least = board.price - duals[self.first_board + b] + 1e-6
                filling = _fullest(self, duals[: len(self.lengths)], board, least)
                if filling:
                    found.append((b, filling))
            if not self.add(found):
                return

    def whole(self, nodes: int, seconds: float) -> int | None:
        """Return the objective of the best whole-number plan found."""
        import highspy

        model, count = self.model, len(self.columns)
        for column in range(self.first_elastic, self.first_filling):
            model.changeColBounds(column, 0.0, 0.0)
        whole = [highspy.HighsVarType.kInteger] * count
        model.changeColsIntegrality(count, list(range(count)), whole)
        for option, value in (
            ("mip_max_nodes", nodes),
            ("mip_rel_gap", 0.0),
            ("time_limit", float(seconds)),
        ):
            model.setOptionValue(option, value)
        model.run()
        self.stopped = model.getModelStatus() == highspy.HighsModelStatus.kTimeLimit
        if model.getInfo().primal_solution_status != 2:
            return None
        return self._objective([round(value) for value in model.getSolution().col_value])

    def _objective(self, values: list[int]) -> int | None:
        """Return what a plan costs in whole money; None if it does not hold in whole numbers."""
        need = list(self.wanted)
        index = {length: i for i, length in enumerate(self.lengths)}
        arcs = [arc for lane in self.lanes for arc in lane.arcs]
        joints = 0
        for (_, _, length, station), count in zip(arcs, values, strict=False):
            need[index[length]] += count
            joints += count if station >= 0 else 0
        cost = 0
        for (board, pieces), count in zip(self.fillings, values[self.first_filling :], strict=True):
            cost += count * self.boards[board].price
            for i, each in pieces:
                need[i] -= count * each
        return cost + self.task.joint_price * joints if max(need, default=0) <= 0 else None


def _model(rows: _Rows) -> Any:
    import highspy

    model = highspy.Highs()
    for option, value in (("output_flag", False), ("threads", 1), ("parallel", "off")):
        model.setOptionValue(option, value)
    model.addRows(len(rows.low), rows.low, rows.high, 0, [], [], [])
    return model


def _add(model: Any, columns: list[tuple[float, float, list[int], list[float]]]) -> None:
    starts, where, what = [], [], []
    for _, _, rows, values in columns:
        starts.append(len(where))
        where += rows
        what += values
    count = len(columns)
    costs, most = [c[0] for c in columns], [c[1] for c in columns]
    model.addCols(count, costs, [0.0] * count, most, len(where), starts, where, what)


# -- lines -------------------------------------------------------------------------------


def _arcs(line: Line, longest: int) -> Iterator[Arc]:
    """Yield the pieces a line may hold: nodes are (joints so far, station) under a cap."""
    bays, least = len(line.stations) - 1, max(1, line.least_bays)
    left, right = line.joint_gap // 2, line.joint_gap - line.joint_gap // 2
    layers = 1 if line.most_joints is None else line.most_joints
    inner = range(line.least_bays, bays - line.least_bays + 1) if layers else range(0)

    def node(layer: int, station: int) -> int:
        return 2 + layer * (bays + 1) + station

    if 0 < line.end - line.start <= longest:
        yield 0, 1, line.end - line.start, -1
    for j in inner:
        if 0 < (length := line.stations[j] - left - line.start) <= longest:
            yield 0, node(0, j), length, j
        for layer in range(layers):
            if 0 < (length := line.end - line.stations[j] - right) <= longest:
                yield node(layer, j), 1, length, -1
            following = layer if line.most_joints is None else layer + 1
            for k in range(j + least, inner[-1] + 1) if following < layers else ():
                length = line.stations[k] - left - line.stations[j] - right
                if 0 < length <= longest:
                    yield node(layer, j), node(following, k), length, k


def _lanes(task: Task, index: int, arcs: list[Arc]) -> Iterator[Lane]:
    line = task.lines[index]
    both = ((True, (line.count + 1) // 2), (False, line.count // 2))
    if not line.stagger:
        both = ((True, line.count),)
    for odd, count in both:
        if count:
            yield Lane(line=index, odd=odd, count=count, arcs=tuple(arcs))


def _stagger(task: Task, one: Lane, other: Lane) -> int:
    """Return how many bays the joints of two lanes stay apart, 0 if they do not meet."""
    line, its = task.lines[one.line], task.lines[other.line]
    if one.line == other.line:
        return line.stagger if one.odd != other.odd else 0
    for a, b in ((one, other), (other, one)):
        pair = any((p.one, p.other) == (a.line, b.line) for p in task.beside)
        last_is_odd = task.lines[a.line].count % 2 == 1 or not task.lines[a.line].stagger
        if pair and b.odd and a.odd == last_is_odd:
            return max(line.stagger, its.stagger)
    return 0


# -- fillings ----------------------------------------------------------------------------


def _all_fillings(programme: _Programme, most: int) -> list[Filling] | None:
    """Return every filling that no further piece fits into; None if there are too many."""
    kerf = programme.task.kerf
    sizes = [length + kerf for length in programme.lengths]
    found: list[Filling] = []
    budget = 50 * most
    for b, board in enumerate(programme.boards):
        todo: list[tuple[int, int, tuple[tuple[int, int], ...]]] = [(0, board.space, ())]
        while todo:
            i, left, pieces = todo.pop()
            budget -= 1
            if budget < 0 or len(found) > most:
                return None
            if i == len(sizes):
                if pieces and left < sizes[-1]:
                    found.append((b, pieces))
                continue
            for count in range(left // sizes[i] + 1):
                more = (*pieces, (i, count)) if count else pieces
                todo.append((i + 1, left - count * sizes[i], more))
    return found


def _fullest(
    programme: _Programme, worths: list[float], board: Board, least: float
) -> tuple[tuple[int, int], ...]:
    """Return a filling worth more than `least`, the best found; none if there is none."""
    sizes = [length + programme.task.kerf for length in programme.lengths]
    order = [i for i in range(len(sizes)) if worths[i] > 1e-9 and sizes[i] <= board.space]
    order.sort(key=lambda i: (-worths[i] / sizes[i], i))
    best: tuple[float, tuple[tuple[int, int], ...]] = (least, ())
    todo: list[tuple[int, int, float, tuple[tuple[int, int], ...]]] = [(0, board.space, 0.0, ())]
    for _ in range(FILL_NODES):
        if not todo:
            break
        k, left, total, pieces = todo.pop()
        if total > best[0]:
            best = total, pieces
        if k == len(order):
            continue
        i = order[k]
        if total + left * worths[i] / sizes[i] <= best[0]:
            continue
        for count in range(left // sizes[i] + 1):
            more = (*pieces, (i, count)) if count else pieces
            todo.append((k + 1, left - count * sizes[i], total + count * worths[i], more))
    return tuple(sorted(best[1]))
