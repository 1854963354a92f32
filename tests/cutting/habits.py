"""What people do without an engine: first fit, and rows jointed by habit. Baselines, no more."""

from collections.abc import Iterator

from attrs import evolve, frozen

from cutting.rules import pieces_of
from drylay.cutting.model import Line, Task

Rows = list[list[tuple[int, ...]]]  # the joints of each line of each set


@frozen(kw_only=True)
class Board:
    """A stock as first fit sees it: the space it has (a kerf more than its length)."""

    space: int
    price: int
    limit: int | None


def boards_of(task: Task) -> list[Board]:
    """Return the boards that can be used, shortest first."""
    boards = [
        Board(space=s.length - 2 * s.trim + task.kerf, price=s.price, limit=s.limit)
        for s in task.stock
        if s.limit != 0 and s.length > 2 * s.trim
    ]
    return sorted(boards, key=lambda board: (board.space, board.price))


def fixed_pieces(task: Task) -> list[int]:
    """Return the fixed pieces of a task one by one."""
    return [piece.length for piece in task.pieces for _ in range(piece.count)]


# -- first fit ---------------------------------------------------------------------------


def first_fit(pieces: list[int], board: Board, kerf: int) -> int | None:
    """Return the cost of first-fit decreasing with one kind of board."""
    left: list[int] = []
    for piece in sorted(pieces, reverse=True):
        size = piece + kerf
        place = next((i for i, room in enumerate(left) if room >= size), None)
        if size > board.space:
            return None
        if place is None:
            left.append(board.space - size)
        else:
            left[place] -= size
    return board.price * len(left) if board.limit is None or len(left) <= board.limit else None


def longest_only(task: Task, pieces: list[int]) -> int | None:
    """Return the cost of first-fit decreasing with the longest board that is not limited."""
    unlimited = [board for board in boards_of(task) if board.limit is None]
    return first_fit(pieces, unlimited[-1], task.kerf) if unlimited else None


def best_multi(task: Task, pieces: list[int]) -> int | None:
    """Return the least cost of several first fits over all lengths, boards downsized after."""
    boards = boards_of(task)
    costs = [
        _packed(_Packing(boards, shed=shed), pieces, task.kerf, opening, tight=tight)
        for opening in [*range(len(boards)), None]
        for tight in (False, True)
        for shed in (False, True)
    ]
    costs.append(_filled(boards, pieces, task.kerf))
    return min((cost for cost in costs if cost is not None), default=None)


class _Packing:
    """Boards opened so far: which kind, and how much of each is used.

    With `shed`, what costs nothing is opened first.
    """

    def __init__(self, boards: list[Board], *, shed: bool = False) -> None:
        self.boards = boards
        self.left = [float("inf") if b.limit is None else b.limit for b in boards]
        self.kinds: list[int] = []
        self.used: list[int] = []
        for kind, board in enumerate(boards):
            for _ in range((board.limit or 0) if shed and board.price == 0 else 0):
                self.open(kind)

    def open(self, kind: int) -> None:
        self.left[kind] -= 1
        self.kinds.append(kind)
        self.used.append(0)

    def room(self, place: int) -> int:
        return self.boards[self.kinds[place]].space - self.used[place]

    def cost(self) -> int:
        """Return what the boards cost, each changed for the cheapest that holds its pieces."""
        for place in sorted(range(len(self.used)), key=lambda place: self.used[place]):
            kind = self.kinds[place]
            fits = [
                k
                for k, board in enumerate(self.boards)
                if board.space >= self.used[place] and (k == kind or self.left[k] > 0)
            ]
            best = min(fits, key=lambda k: self.boards[k].price)
            self.left[kind] += 1
            self.left[best] -= 1
            self.kinds[place] = best
        used = [kind for kind, used in zip(self.kinds, self.used, strict=True) if used]
        return sum(self.boards[kind].price for kind in used)


def _packed(
    packing: _Packing, pieces: list[int], kerf: int, opening: int | None, *, tight: bool
) -> int | None:
    """Return the cost of first fit (or, if `tight`, best fit) that opens one kind by choice.

    Without an `opening` the cheapest board that holds the piece is taken.
    """
    for piece in sorted(pieces, reverse=True):
        size = piece + kerf
        places = [place for place in range(len(packing.used)) if packing.room(place) >= size]
        if not places:
            kind = _kind_to_open(packing, size, opening)
            if kind is None:
                return None
            packing.open(kind)
            places = [len(packing.used) - 1]
        packing.used[min(places, key=packing.room) if tight else places[0]] += size
    return packing.cost()


def _kind_to_open(packing: _Packing, size: int, opening: int | None) -> int | None:
    fits = [k for k, b in enumerate(packing.boards) if b.space >= size and packing.left[k] > 0]
    if opening in fits:
        return opening
    return min(fits, key=lambda k: packing.boards[k].price, default=None)


def _filled(boards: list[Board], pieces: list[int], kerf: int) -> int | None:
    """Return the cost of filling board after board, each time the one cheapest for its filling."""
    packing, rest = _Packing(boards), sorted(pieces, reverse=True)
    while rest:
        fillings = [
            (kind, _greedy(rest, board.space, kerf))
            for kind, board in enumerate(boards)
            if packing.left[kind] > 0
        ]
        fillings = [(kind, filling) for kind, filling in fillings if filling]
        if not fillings:
            return None
        kind, filling = min(fillings, key=lambda item: boards[item[0]].price / sum(item[1]))
        packing.open(kind)
        packing.used[-1] = sum(filling) + kerf * len(filling)
        for piece in filling:
            rest.remove(piece)
    return packing.cost()


def _greedy(pieces: list[int], space: int, kerf: int) -> list[int]:
    filling = []
    for piece in pieces:
        if piece + kerf <= space:
            filling.append(piece)
            space -= piece + kerf
    return filling


# -- rows --------------------------------------------------------------------------------


def rows_by_habit(task: Task, longest: int, *, turned: bool) -> Rows | None:
    """Return lines laid one by one, each with the longest pieces its neighbours leave room for.

    If `turned`, every other line is laid from its end.
    """
    laid: Rows = []
    for index, line in enumerate(task.lines):
        laid.append([])
        for place in range(line.count):
            back = turned and (sum(map(len, laid)) % 2 == 1)
            joints = _laid(line, longest, _taken(task, laid, index, place), back=back)
            if joints is None:
                return None
            laid[index].append(joints)
    return laid


def _taken(task: Task, laid: Rows, index: int, place: int) -> set[int]:
    """Return the stations of a set that are too near a joint of a neighbour laid before."""
    line, taken = task.lines[index], set()
    if place:
        taken |= _near(laid[index][place - 1], line.stagger, 0)
    for beside in task.beside:
        pairs = [(beside.other, beside.one, 0, -1), (beside.one, beside.other, line.count - 1, 0)]
        for own, other, when, which in pairs:
            if own == index and place == when and other < index and laid[other]:
                its = task.lines[other]
                shift = its.first_station - line.first_station
                taken |= _near(laid[other][which], max(line.stagger, its.stagger), shift)
    return taken


def _near(joints: tuple[int, ...], stagger: int, shift: int) -> set[int]:
    return {joint + shift + step for joint in joints for step in range(1 - stagger, stagger)}


def _laid(line: Line, longest: int, taken: set[int], *, back: bool) -> tuple[int, ...] | None:
    """Return the joints of a line laid longest first, from its end if `back`."""
    if not back:
        return _longest_first(line, longest, taken)
    bays = len(line.stations) - 1
    stations = tuple(line.start + line.end - s for s in reversed(line.stations))
    turned = _longest_first(evolve(line, stations=stations), longest, {bays - j for j in taken})
    joints = None if turned is None else tuple(bays - j for j in reversed(turned))
    if joints is None or max(pieces_of(line, joints)) > longest:  # an odd gap is no mirror image
        return None
    return joints


def _longest_first(line: Line, longest: int, taken: set[int]) -> tuple[int, ...] | None:
    """Return the first legal joints found, trying the farthest station first."""
    bays, most = len(line.stations) - 1, line.most_joints
    dead: set[tuple[int, int]] = set()
    stack: list[tuple[int, ...]] = [()]
    while stack:
        joints = stack.pop()
        state = (joints[-1] if joints else -1, len(joints) if most is not None else 0)
        if state in dead:
            continue
        dead.add(state)
        if pieces_of(line, joints)[-1] <= longest:
            return joints
        if most is None or len(joints) < most:
            steps = _steps(line, joints, longest, bays)
            stack += [(*joints, j) for j in steps if j not in taken]
    return None


def _steps(line: Line, joints: tuple[int, ...], longest: int, bays: int) -> Iterator[int]:
    """Yield the stations the next piece may end at, nearest first."""
    last = joints[-1] if joints else 0
    for station in range(last + max(1, line.least_bays), bays - line.least_bays + 1):
        piece = pieces_of(line, (*joints, station))[-2]
        if 0 < piece <= longest and pieces_of(line, (*joints, station))[-1] > 0:
            yield station


def pieces_and_joints(task: Task, rows: Rows) -> tuple[list[int], int]:
    """Return all pieces of a task with its lines laid so, and the number of joints."""
    pieces = fixed_pieces(task)
    for line, lines in zip(task.lines, rows, strict=True):
        pieces += [piece for joints in lines for piece in pieces_of(line, joints)]
    return pieces, sum(len(joints) for lines in rows for joints in lines)


def habits(task: Task, longest: int) -> list[tuple[list[int], int]]:
    """Return the pieces and joints of lines laid by habit, one way and the other."""
    laid = [rows_by_habit(task, longest, turned=turned) for turned in (False, True)]
    return [pieces_and_joints(task, rows) for rows in laid if rows is not None]


def habit_with(task: Task, board: Board) -> int | None:
    """Return the objective of lines laid by habit from one kind of board, bought by first fit."""
    costs = [
        (first_fit(pieces, board, task.kerf), joints)
        for pieces, joints in habits(task, board.space - task.kerf)
    ]
    return min(
        (cost + task.joint_price * joints for cost, joints in costs if cost is not None),
        default=None,
    )
