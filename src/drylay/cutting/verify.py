"""Checks a proof of least cost from its integers alone: no solver, nothing of the engine.

**What a worth vector says.** It puts a worth on each wanted length, in money x `scale`; a
length it leaves out is worth nothing. Two integers follow, and anyone can recompute them:

- `carries[s]`: the most worth one board of stock s can carry. n pieces fit a board when
  `sum(piece + kerf) <= length - 2 trim + kerf`.
- `demand`: the least worth any legal plan must make. A fixed piece adds its worth. A line
  adds at least the cheapest legal line, where each piece costs its worth and each joint
  `joint_price x scale`.

Add up any plan: with z boards bought and J joints made,

    sum(carries[s] z[s]) + joint_price x scale x J >= demand                          (1)

since boards carry all pieces, and each line's pieces and joints cost at least the cheapest
line. Nothing is assumed about the order of the lines, so (1) holds for every sequence.

**Window prices** bring the stagger in. A window is `width` stations in a row. Because
`width <= least_bays` a line has at most one joint in it; because `width <= stagger` two
lines side by side have at most one between them. Let a be how many lines are odd (the 1st,
3rd, ...) and b how many are even: a = b or a = b + 1. The lines that joint in the window
are no two neighbours, so if k of the even lines do, each of these blocks the odd lines
beside it, at least k of them for a = b and k + 1 for a = b + 1 (k > 0). Either way
`odd joints / a + even joints / b <= 1`, that is, with g = gcd(a, b),

    (b/g) x odd joints + (a/g) x even joints <= a b / g.                               (2)

A window price p charges p b/g for a joint in it on an odd line, p a/g on an even line, and
gives back p a b / g: by (2) never less than was charged. So (1) holds with the charges put
into the lines' joints and the refund taken off the demand. Windows may overlap, as each
inequality (2) holds by itself. A single line has no neighbour (b = 0) and no windows. A
stagger wider than `least_bays` only makes (2) weaker than it could be, never wrong.

**From (1) to a bound.** *One worth vector*: if `carries[s] <= price[s] x scale` for every
stock without a limit, (1) bounds the cost: `scale x cost >= demand - sum(limit[s] x
max(0, carries[s] - price[s] x scale))`; for a limited stock the excess can be had at most
limit times. The cost is a sum of prices, so it is rounded up to a multiple of their gcd.
*Worth vectors and integer search*: no whole board counts z (within the limits) and joint
count J (no fewer than the lines' fewest) cost less than the bound and satisfy (1) for every
vector. `search` tries them all, dropping a branch only where the money left cannot buy the
worth still missing.
"""

from collections.abc import Callable, Sequence
from math import gcd

from attrs import frozen

from drylay.cutting.model import GRADES, Line, Proof, Stock, Task, Verdict, WorthVector
from drylay.cutting.sound import task_fault

#: So many nodes of the search are gone through between two ticks.
TICK_NODES = 10_000

Weighed = tuple[tuple[int, ...], int, int]  # carries of each stock, demand, scale
Arc = tuple[int, int, int]  # from station (-1 the start), to station (-2 the end), length


def verify(proof: Proof) -> Verdict:
    """Return whether the worth vectors of a proof support its bound, recomputed from scratch."""
    why = _fault(proof)
    if why:
        return Verdict(holds=False, bound=0, why=why)
    weighed = [weigh(proof.task, vector) for vector in proof.certificate.vectors]
    claimed, direct = proof.certificate.bound, direct_bound(proof.task, weighed)
    if proof.certificate.grade == GRADES[0] or direct >= claimed:
        why = f"one worth vector supports {direct}"
        return Verdict(holds=direct >= claimed, bound=direct, why=why)
    found = search(proof.task, weighed, claimed - 1, proof.certificate.nodes)
    if found.finished and found.boards is None:
        why = f"no board counts under {claimed} satisfy the worth vectors, {found.nodes} nodes"
        return Verdict(holds=True, bound=claimed, why=why)
    why = "the search needs more nodes than the certificate says"
    if found.finished:
        why = f"board counts under {claimed} satisfy every worth vector"
    return Verdict(holds=False, bound=direct, why=why)


def _fault(proof: Proof) -> str:
    """Return what makes a proof unfit to be checked, "" if nothing."""
    if wrong := task_fault(proof.task):
        return wrong
    if proof.certificate.grade not in GRADES:
        return f"no such grade: {proof.certificate.grade}"
    if proof.certificate.bound > proof.objective:
        return "the bound is above the objective"
    longest = longest_usable(proof.task)
    if any(line.count and fewest_joints(line, longest) is None for line in proof.task.lines):
        return "a line of the task cannot be made from this stock"
    faults = (_vector_fault(proof.task, vector) for vector in proof.certificate.vectors)
    return next((fault for fault in faults if fault), "")


def _vector_fault(task: Task, vector: WorthVector) -> str:
    if vector.scale <= 0:
        return "a worth vector's scale is not positive"
    if len(vector.lengths) != len(vector.worths):
        return "a worth vector's lengths and worths do not run in step"
    if len(set(vector.lengths)) != len(vector.lengths):
        return "a worth vector names a length twice"
    if any(worth < 0 for worth in vector.worths):
        return "a worth is negative"
    if any(length <= 0 for length in vector.lengths):
        return "a worth vector names a length that is not positive"
    for window in vector.windows:
        if not 0 <= window.line < len(task.lines) or window.price < 0:
            return "a window price is negative or on no line"
        line = task.lines[window.line]
        inside = 0 <= window.first <= len(line.stations) - window.width
        if not inside:
            return "a window is wider than stagger or least bays allow, or out of range"
    return ""


def widest_window(line: Line) -> int:
    """Return how many stations a window may span: at most one joint of two neighbours in it."""
    return min(line.stagger, max(1, line.least_bays))


def weigh(task: Task, vector: WorthVector) -> Weighed:
    """Return what a worth vector says of a task: what each board carries, and the demand."""
    worth = dict(zip(vector.lengths, vector.worths, strict=True))
    carries = carried(task, worth)
    demand = sum(piece.count * worth.get(piece.length, 0) for piece in task.pieces)
    return carries, demand + lines_worth(task, vector, worth), vector.scale


def lines_worth(task: Task, vector: WorthVector, worth: dict[int, int]) -> int:
    """Return the least worth of all lines of a task, refunds of the windows taken off."""
    sets = [index for index, line in enumerate(task.lines) if line.count]
    return sum(_lines_worth(task, vector, index, worth) for index in sets)


def carried(task: Task, worth: dict[int, int]) -> tuple[int, ...]:
    """Return the most worth one board of each stock can carry.

    A table of (space used, worth) grows length by length; an entry that uses more space
    for no more worth is dropped.
    """
    rooms = [room(stock, task.kerf) for stock in task.stock]
    most = max(rooms, default=0)
    table = [(0, 0)]
    for length, value in sorted(worth.items(), reverse=True):
        if value > 0 and length + task.kerf <= most:
            table = _with_length(table, length + task.kerf, value, most)
    return tuple(max((v for used, v in table if used <= space), default=0) for space in rooms)


def _with_length(
    table: list[tuple[int, int]], size: int, value: int, most: int
) -> list[tuple[int, int]]:
    best = dict(table)
    layer = table
    while layer:
        layer = [
            (used + size, total + value)
            for used, total in layer
            if used + size <= most and best.get(used + size, -1) < total + value
        ]
        best.update(layer)
    kept, top = [], -1
    for used, total in sorted(best.items()):
        if total > top:
            kept.append((used, total))
            top = total
    return kept


def room(stock: Stock, kerf: int) -> int:
    """Return the space of a board, where each piece takes its length and one kerf."""
    return stock.length - 2 * stock.trim + kerf


def longest_usable(task: Task) -> int:
    """Return the longest piece any board on sale can give."""
    usable = [s.length - 2 * s.trim for s in task.stock if s.limit is None or s.limit > 0]
    return max(usable, default=0)


def _lines_worth(task: Task, vector: WorthVector, index: int, worth: dict[int, int]) -> int:
    """Return the least worth of the lines of one set, refunds of its windows taken off."""
    line = task.lines[index]
    odd, even = (line.count + 1) // 2, line.count // 2
    share = gcd(odd, even) or 1
    n = len(line.stations)
    charges = {"odd": [0] * n, "even": [0] * n, "first": [0] * n, "last": [0] * n}
    total = 0
    for w in vector.windows:
        if w.line == w.beside == index:
            total -= w.price * odd * even // share
            _add(charges["odd"], w.first, w.width, w.price * (even // share))
            _add(charges["even"], w.beside_first, w.beside_width, w.price * (odd // share))
        elif w.line == index:
            total -= w.price
            _add(charges["last"], w.first, w.width, w.price)
        elif w.beside == index:
            _add(charges["first"], w.beside_first, w.beside_width, w.price)
    arcs = legal_pieces(line, longest_usable(task))
    kinds = {}
    for k in range(line.count):
        kind = (k % 2, k == 0 and any(charges["first"]), k == line.count - 1 and any(charges["last"]))
        kinds[kind] = kinds.get(kind, 0) + 1
    for (parity, first, last), count in kinds.items():
        charge = list(charges["even" if parity else "odd"])
        for flag, name in ((first, "first"), (last, "last")):
            if flag:
                charge = [c + x for c, x in zip(charge, charges[name], strict=True)]
        joint = [task.joint_price * vector.scale + c for c in charge]
        total += count * _cheapest_line(line, arcs, worth, joint)
    return total


def _add(charges, first, width, price):
    for j in range(first, first + width):
        charges[j] += price


def legal_pieces(line: Line, longest: int) -> list[Arc]:
    """Return every piece a line may hold, as (from station, to station, length)."""
    left, right, last = line.joint_gap // 2, line.joint_gap - line.joint_gap // 2, -2
    stations, bays, joints = line.stations, len(line.stations) - 1, line.most_joints
    arcs = [(-1, last, line.end - line.start)]
    if joints != 0:
        for j, at in enumerate(stations):
            if j >= line.least_bays:
                arcs.append((-1, j, at - left - line.start))
            if bays - j >= line.least_bays:
                arcs.append((j, last, line.end - at - right))
            arcs += [
                (i, j, at - left - stations[i] - right)
                for i in range(j)
                if j - i >= line.least_bays
            ]
    return [arc for arc in arcs if 0 < arc[2] <= longest]


def _layers(line: Line) -> int:
    most = len(line.stations)
    return most if line.most_joints is None else min(most, line.most_joints)


def _cheapest_line(line: Line, arcs: list[Arc], worth: dict[int, int], joint: list[int]) -> int:
    """Return the least cost of one legal line, joint by joint up to the most allowed."""
    first = {head: worth.get(length, 0) for tail, head, length in arcs if tail == -1}
    inner = [(t, h, worth.get(n, 0) + joint[h]) for t, h, n in arcs if t >= 0 and h >= 0]
    final = {tail: worth.get(length, 0) for tail, head, length in arcs if tail >= 0 > head}
    ends = [first[-2]] if -2 in first else []
    at = {station: cost + joint[station] for station, cost in first.items() if station >= 0}
    for _ in range(_layers(line)):
        ends += [at[station] + final[station] for station in at if station in final]
        following: dict[int, int] = {}
        for tail, head, cost in inner:
            if tail in at and at[tail] + cost < following.get(head, at[tail] + cost + 1):
                following[head] = at[tail] + cost
        at = following
    return min(ends)


def fewest_joints(line: Line, longest: int) -> int | None:
    """Return the fewest joints one line can be made with, None if it cannot be made."""
    arcs = legal_pieces(line, longest)
    at, ends = {-1}, {tail for tail, head, _ in arcs if head == -2}
    for joints in range(_layers(line) + 1):
        if at & ends:
            return joints
        at = {head for tail, head, _ in arcs if tail in at and head >= 0}
    return None


def direct_bound(task: Task, weighed: Sequence[Weighed]) -> int:
    """Return the best bound one worth vector gives by itself, rounded to the prices' gcd."""
    return max([0, *(_direct(task, *vector) for vector in weighed)])


def _direct(task: Task, carries: tuple[int, ...], demand: int, scale: int) -> int:
    for stock, most in zip(task.stock, carries, strict=True):
        excess = most - stock.price * scale
        if excess > 0 and stock.limit is None:
            return 0
        if excess > 0:
            demand -= stock.limit * excess if stock.limit else 0
    step = price_step(task)
    return -(-demand // (scale * step)) * step


def price_step(task: Task) -> int:
    """Return the gcd of all prices: every cost is a multiple of it."""
    joints = task.joint_price if any(line.count for line in task.lines) else 0
    return gcd(joints, *(stock.price for stock in task.stock)) or 1


@frozen(kw_only=True)
class Searched:
    """What a search over counts found: boards of each stock and joints, or None.

    Not `finished`: it stopped at its most nodes.
    """

    finished: bool
    boards: tuple[int, ...] | None
    joints: int
    nodes: int


def search(
    task: Task,
    weighed: Sequence[Weighed],
    money: int,
    most_nodes: int,
    tick: Callable[[], None] | None = None,
) -> Searched:
    """Return counts within `money` that satisfy every vector, if any; `tick` may end it."""
    fewest = sum(
        line.count * (fewest_joints(line, longest_usable(task)) or 0) for line in task.lines
    )
    left = money - fewest * task.joint_price
    if left < 0:
        return Searched(finished=True, boards=None, joints=0, nodes=1)
    kinds = _kinds(task, weighed)
    counting = _Counting([kind for _, kind in kinds], most_nodes, tick)
    needs = [demand - fewest * task.joint_price * scale for _, demand, scale in weighed]
    try:
        found = counting.enough(0, left, needs)
    except OverflowError:
        return Searched(finished=False, boards=None, joints=0, nodes=counting.nodes)
    if not found:
        return Searched(finished=True, boards=None, joints=0, nodes=counting.nodes)
    counts = dict(zip((s for s, _ in kinds), reversed(counting.chosen), strict=False))
    return Searched(
        finished=True,
        boards=tuple(counts.get(s, 0) for s in range(len(task.stock))),
        joints=fewest + counts.get(-1, 0),
        nodes=counting.nodes,
    )


Kind = tuple[int, int | None, tuple[int, ...]]  # price, limit, worth in each vector


def _kinds(task: Task, weighed: Sequence[Weighed]) -> list[tuple[int, Kind]]:
    """Return what money buys: boards, those the first vector likes least first, then joints.

    Each with the place of its stock in the task, -1 for joints.
    """
    kinds = [
        (s, (stock.price, stock.limit, tuple(carries[s] for carries, _, _ in weighed)))
        for s, stock in enumerate(task.stock)
    ]
    scale = weighed[0][2] if weighed else 1
    kinds.sort(key=lambda k: -(k[1][0] * scale - sum(k[1][2][:1])) * 1000 // max(1, k[1][0]))
    if task.joint_price and any(line.count for line in task.lines):
        price = task.joint_price
        kinds.append((-1, (price, None, tuple(price * scale for _, _, scale in weighed))))
    return kinds


class _Counting:
    """The counts tried so far, and what the kinds still to come can bring at best."""

    def __init__(self, kinds: list[Kind], most_nodes: int, tick: Callable[[], None] | None) -> None:
        self.kinds, self.most_nodes, self.nodes, self.tick = kinds, most_nodes, 0, tick
        self.chosen: list[int] = []  # once enough: how many of each kind, last kind first
        vectors = range(len(kinds[0][2])) if kinds else range(0)
        self.best = [[_best(kinds[k:], v) for v in vectors] for k in range(len(kinds) + 1)]

    def enough(self, k: int, money: int, needs: list[int]) -> bool:
        """Return whether `money` spent on kinds k, k+1, ... can meet the needs."""
        self.nodes += 1
        if self.nodes > self.most_nodes:
            raise OverflowError
        if self.tick is not None and self.nodes % TICK_NODES == 0:
            self.tick()
        if all(need <= 0 for need in needs):
            return True
        if k == len(self.kinds):
            return False
        price, _, worths = self.kinds[k]
        low, high = self._range(k, money, needs)
        for count in range(low, high + 1):
            rest = [need - count * worth for need, worth in zip(needs, worths, strict=True)]
            if self.enough(k + 1, money - count * price, rest):
                self.chosen.append(count)
                return True
        return False

    def _range(self, k: int, money: int, needs: list[int]) -> tuple[int, int]:
        """Return which counts of kind k leave the later kinds a chance."""
        price, limit, worths = self.kinds[k]
        useful = [-(-n // w) for n, w in zip(needs, worths, strict=True) if n > 0 and w > 0]
        low, high = 0, max(useful, default=0)
        high = high if limit is None else min(high, limit)
        high = min(high, money // price) if price else high
        for need, worth, best in zip(needs, worths, self.best[k + 1], strict=True):
            free, most, cost = best
            if need <= 0 or free is None:
                continue
            # count x worth + free + (money - count x price) x most / cost >= need
            slope, short = worth * cost - price * most, (need - free) * cost - money * most
            if slope > 0:
                low = max(low, -(-short // slope))
            elif slope < 0:
                high = min(high, short // slope)
            elif short > 0:
                return 1, 0
        return low, high


def _best(kinds: list[Kind], vector: int) -> tuple[int | None, int, int]:
    """Return the worth to be had for nothing (None: no end), and the best worth per price."""
    free: int | None = 0
    most, cost = 0, 1
    for price, limit, worths in kinds:
        worth = worths[vector]
        if price == 0 and worth > 0:
            free = None if limit is None or free is None else free + limit * worth
        elif price and worth * cost > most * price:
            most, cost = worth, price
    return free, most, cost
