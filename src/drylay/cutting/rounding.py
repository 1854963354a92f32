"""Whole boards and whole lines out of the linear programme's columns."""

from collections import Counter
from collections.abc import Sequence

from attrs import frozen

from drylay.cutting.lanes import Lane, places_clashing
from drylay.cutting.master import Master, Prices
from drylay.cutting.model import Cut
from drylay.cutting.pricing import Filling
from drylay.cutting.ready import Ready
from drylay.cutting.solver import INF, Column, add_columns, best_whole, open_whole
from drylay.cutting.verify import price_step

Joints = tuple[tuple[int, ...], ...]  # the joint stations of each line of a set


@frozen(kw_only=True)
class Draft:
    """A whole plan: (board, pieces by length index) of every board, joints of every line."""

    boards: tuple[tuple[int, tuple[int, ...]], ...]
    joints: tuple[Joints, ...]
    cost: int
    joint_count: int
    objective: int

    @property
    def rank(self) -> tuple[int, int, int, int]:
        """Objective, then fewer boards, then fewer different cuts, then fewer joints."""
        return self.objective, len(self.boards), len(set(self.boards)), self.joint_count


@frozen(kw_only=True)
class Choice:
    """The columns a whole plan may use: arcs and fillings by number, the `most` it may cost."""

    arcs: list[int]
    fillings: list[int]
    most: float


def choice_within(
    master: Master, prices: Prices, barred: frozenset[int], most: float, columns: float = INF
) -> Choice:
    """Return the columns a plan that costs `most` at most may use.

    A column whose reduced cost is more than lies between the linear optimum and `most` is in
    no such plan. Of fillings so many `columns` are left in all, those that cost least so.
    """
    spare, first = most - prices.objective, len(master.fixed)
    useful = [column for column, dear in enumerate(prices.reduced) if dear < spare + 1e-6]
    arcs = [c for c in useful if c < len(master.arcs) and c not in barred]
    fillings = [c for c in useful if c >= first]
    if len(arcs) + len(fillings) > columns:
        fillings.sort(key=lambda c: (round(prices.reduced[c], 6), c))
        fillings = sorted(fillings[: max(0, int(columns) - len(arcs))])
    return Choice(arcs=arcs, fillings=[c - first for c in fillings], most=most)


def whole_plan(
    master: Master,
    choice: Choice,
    caps: Sequence[float],
    *,
    free_sides: bool,
    nodes: int,
    enough: float = -INF,
) -> Draft | None:
    """Return the best plan of whole boards the solver finds among the chosen columns.

    No more boards of each stock are bought than the `caps`. With `free_sides` it also chooses
    which stations each lane joints on; else the arcs leave no choice. At a cost of `enough` the
    search may end. None if it finds none.
    """
    fillings = [master.fillings[number] for number in choice.fillings]
    columns = [_dearer(master, master.fixed[arc], arc) for arc in choice.arcs]
    columns += [_dearer(master, master.filling_column(filling), -1) for filling in fillings]
    low, high = list(master.rows[0]), list(master.rows[1])
    high[master.board_row : master.board_row + len(caps)] = caps
    half = price_step(master.ready.task) / 2
    if choice.most < INF:
        columns = [(c, most, (*r, len(low)), (*v, c)) for c, most, r, v in columns]
        low.append(-INF)
        high.append(choice.most + half)
    sided = _with_sides if free_sides else _sets_apart
    columns = sided(master, choice.arcs, columns, low, high)
    model = open_whole(low, high, nodes=nodes, enough=enough + half, inner=False)
    add_columns(model, columns, whole=True)
    values, _ = best_whole(model, master.stopped)
    master.tick()
    return None if values is None else _draft(master, choice, values)


def _dearer(master: Master, column: Column, arc: int) -> Column:
    """Return a column that costs a trifle more, so that ties go to fewer joints and boards."""
    ready = master.ready
    joints = 1 + sum(lane.count * lane.nodes for lane in ready.lanes)
    boards = 1 + sum(ready.wanted) + joints
    trifle = 0.4 * price_step(ready.task) / joints
    cost, most, rows, values = column
    if arc < 0:
        return cost + trifle / (2 * boards), most, rows, values
    return cost + (trifle if master.arcs[arc][1].station >= 0 else 0.0), most, rows, values


def _with_sides(
    master: Master, arcs: list[int], columns: list[Column], low: list[float], high: list[float]
) -> list[Column]:
    """Add a yes or no for each lane and station, and the rows that keep lanes apart."""
    taken: dict[tuple[int, int], int] = {}
    minding = {lane for pair in master.ready.near for lane in pair}
    for place, arc in enumerate(arcs):
        lane, piece = master.arcs[arc]
        if piece.station >= 0 and lane in minding:
            row = taken.setdefault((lane, piece.station), len(low))
            if row == len(low):
                low.append(-INF)
                high.append(0.0)
            cost, most, rows, values = columns[place]
            columns[place] = cost, most, (*rows, row), (*values, 1.0)
    choices: dict[tuple[int, int], Column] = {
        key: (0.0, 1.0, (row,), (-float(master.ready.lanes[key[0]].count),))
        for key, row in taken.items()
    }
    for one, other in places_clashing(master.ready.lanes, master.ready.near, taken):
        for key in (one, other):
            cost, most, rows, values = choices[key]
            choices[key] = cost, most, (*rows, len(low)), (*values, 1.0)
        low.append(-INF)
        high.append(1.0)
    return [*columns, *choices.values()]


def _sets_apart(
    master: Master, arcs: list[int], columns: list[Column], low: list[float], high: list[float]
) -> list[Column]:
    """Add the rows that keep lines of unlike sets apart, of which settled sides know nothing."""
    lanes, places = master.ready.lanes, dict[tuple[int, int], list[int]]()
    for place, arc in enumerate(arcs):
        lane, piece = master.arcs[arc]
        if piece.station >= 0:
            places.setdefault((lane, piece.station), []).append(place)
    for one, other in places_clashing(lanes, master.ready.near, places):
        if lanes[one[0]].line == lanes[other[0]].line:
            continue
        for place in (*places[one], *places[other]):
            cost, most, rows, values = columns[place]
            columns[place] = cost, most, (*rows, len(low)), (*values, 1.0)
        low.append(-INF)
        high.append(1.0)
    return columns


def _draft(master: Master, choice: Choice, values: list[float]) -> Draft | None:
    counts = [round(value) for value in values]
    flows = dict(zip(choice.arcs, counts, strict=False))
    lines = [lines_of(master, lane, flows) for lane in range(len(master.ready.lanes))]
    wanted = list(master.ready.wanted)
    for arc, count in flows.items():
        wanted[master.arcs[arc][1].length] += count
    bought = [
        master.fillings[filling]
        for filling, count in zip(choice.fillings, counts[len(choice.arcs) :], strict=False)
        for _ in range(count)
    ]
    boards = trimmed(master.ready, bought, wanted)
    return None if boards is None else make_draft(master.ready, boards, lines)


def lines_of(master: Master, lane: int, flows: dict[int, int]) -> list[tuple[int, ...]]:
    """Return the joints of every line of a lane, taken one by one out of its flow."""
    leaving: dict[int, list[int]] = {}
    for column, (number, arc) in enumerate(master.arcs):
        if number == lane and flows.get(column, 0) > 0:
            leaving.setdefault(arc.tail, []).append(column)
    left, lines = dict(flows), []
    for _ in range(master.ready.lanes[lane].count):
        node, joints = 0, []
        while node != 1:
            column = next(c for c in leaving[node] if left[c] > 0)
            left[column] -= 1
            arc = master.arcs[column][1]
            node = arc.head
            joints += [arc.station] if arc.station >= 0 else []
        lines.append(tuple(joints))
    return sorted(lines)


def trimmed(
    ready: Ready, bought: list[Filling], wanted: list[int]
) -> list[tuple[int, tuple[int, ...]]] | None:
    """Return the boards with surplus pieces left out, each then as cheap as will do.

    None if the boards do not hold what is wanted.
    """
    boards = []
    surplus = [-count for count in wanted]
    for _, pieces in bought:
        for length, count in pieces:
            surplus[length] += count
    if any(count < 0 for count in surplus):
        return None
    for board, pieces in bought:
        kept: list[int] = []
        for length, count in pieces:
            drop = min(count, surplus[length])
            surplus[length] -= drop
            kept += [length] * (count - drop)
        if kept:
            boards.append((board, tuple(kept)))
    return _downsized(ready, boards)


def _downsized(
    ready: Ready, boards: list[tuple[int, tuple[int, ...]]]
) -> list[tuple[int, tuple[int, ...]]]:
    """Return the boards, each changed for a cheaper stock that still holds its pieces."""
    left = [b.limit for b in ready.boards]
    for board, _ in boards:
        left[board] = _less(left[board], 1)
    smaller = []
    for board, pieces in boards:
        need = sum(ready.sizes[length] for length in pieces)
        fits = [
            b
            for b, its in enumerate(ready.boards)
            if its.space >= need and (b == board or left[b] is None or left[b])
        ]
        choice = min(fits, key=lambda b: (ready.boards[b].price, b != board, b))
        left[board] = _less(left[board], -1)
        left[choice] = _less(left[choice], 1)
        smaller.append((choice, pieces))
    return smaller


def _less(count: int | None, taken: int) -> int | None:
    return None if count is None else count - taken


def make_draft(
    ready: Ready, boards: list[tuple[int, tuple[int, ...]]], lines: list[list[tuple[int, ...]]]
) -> Draft:
    """Return a plan of boards and lines, counted in integers."""
    joints: list[Joints] = []
    for index, line in enumerate(ready.task.lines):
        lanes = [(lane, lines[n]) for n, lane in enumerate(ready.lanes) if lane.line == index]
        joints.append(_laid(lanes, line.count))
    return redrafted(ready, boards, tuple(joints))


def redrafted(
    ready: Ready, boards: list[tuple[int, tuple[int, ...]]], joints: tuple[Joints, ...]
) -> Draft:
    """Return a plan of boards and of lines in order, counted in integers."""
    cost = sum(ready.boards[board].price for board, _ in boards)
    count = sum(len(line) for of_set in joints for line in of_set)
    return Draft(
        boards=tuple(sorted((board, tuple(sorted(pieces))) for board, pieces in boards)),
        joints=joints,
        cost=cost,
        joint_count=count,
        objective=cost + ready.task.joint_price * count,
    )


def cuts_of(ready: Ready, boards: Sequence[tuple[int, tuple[int, ...]]]) -> tuple[Cut, ...]:
    """Return the boards of a plan as cuts, those alike together."""
    return tuple(
        Cut(
            stock=ready.task.stock[ready.boards[board].stock].name,
            pieces=tuple(ready.lengths[piece] for piece in pieces),
            boards=count,
        )
        for (board, pieces), count in sorted(Counter(boards).items())
    )


def _laid(lanes: list[tuple[Lane, list[tuple[int, ...]]]], count: int) -> Joints:
    """Return the lines of a set in order, each lane's in their places."""
    laid: dict[int, tuple[int, ...]] = {}
    for lane, lines in lanes:
        laid.update(zip(lane.places, lines, strict=True))
    return tuple(laid[place] for place in range(count))
