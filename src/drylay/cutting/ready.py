"""A cutting task made ready for the engine: distinct lengths, spaces, the pieces of lines."""

from itertools import pairwise
from math import gcd

from attrs import frozen

from drylay.cutting.errors import CutTaskError, NoPlan, Shortfall
from drylay.cutting.model import Line, Stock, Task
from drylay.cutting.verify import fewest_joints, legal_pieces, room
from drylay.errors import Fault


@frozen(kw_only=True)
class Board:
    """A stock that can be used: its place in the task, the space it has, its price."""

    stock: int
    space: int
    price: int
    limit: int | None


@frozen(kw_only=True)
class Arc:
    """A piece a line may hold: from node, to node, which length, the joint at its end (or -1)."""

    tail: int
    head: int
    length: int
    station: int


@frozen(kw_only=True)
class Lane:
    """Every other line of a set (or all, where neighbours do not mind each other).

    `weight` is what a joint counts for in a window. Node 0 is the start of a line, node 1
    its end.
    """

    line: int
    odd: bool
    count: int
    weight: int
    nodes: int
    arcs: tuple[Arc, ...]


@frozen(kw_only=True)
class Ready:
    """A task made ready: `lengths` longest first, `sizes` and spaces counted in `unit`.

    Of each length so many are `wanted` in any case, and no plan has more than the `most`.
    """

    task: Task
    unit: int
    lengths: tuple[int, ...]
    sizes: tuple[int, ...]
    wanted: tuple[int, ...]
    most: tuple[int, ...]
    boards: tuple[Board, ...]
    lanes: tuple[Lane, ...]
    fewest_joints: int


def make_ready(task: Task) -> Ready:
    """Return a task made ready.

    Raises:
        CutTaskError: the task makes no sense; every reason is listed.
        NoPlan: a piece is longer than every board, or a line cannot be made.
    """
    _check(task)
    usable = [s for s in task.stock if s.limit != 0 and s.length > 2 * s.trim]
    longest = max((s.length - 2 * s.trim for s in usable), default=0)
    fewest = [fewest_joints(line, longest) if line.count else 0 for line in task.lines]
    _refuse(task, longest, fewest)
    lengths = _lengths(task, longest)
    unit = gcd(*(length + task.kerf for length in lengths)) or 1
    index = {length: i for i, length in enumerate(lengths)}
    wanted = _wanted(task, index)
    lanes = [lane for i in range(len(task.lines)) for lane in _lanes(task, i, longest, index)]
    return Ready(
        task=task,
        unit=unit,
        lengths=lengths,
        sizes=tuple((length + task.kerf) // unit for length in lengths),
        wanted=wanted,
        most=_most(task, wanted, lengths, lanes),
        boards=tuple(
            Board(stock=i, space=room(s, task.kerf) // unit, price=s.price, limit=s.limit)
            for i, s in sorted(enumerate(task.stock), key=lambda item: _rank(item[1]))
            if s in usable
        ),
        lanes=tuple(lanes),
        fewest_joints=sum(
            line.count * (joints or 0) for line, joints in zip(task.lines, fewest, strict=True)
        ),
    )


def _wanted(task: Task, index: dict[int, int]) -> tuple[int, ...]:
    """Return how many fixed pieces there are of each length."""
    wanted = [0] * len(index)
    for piece in task.pieces:
        if piece.count:
            wanted[index[piece.length]] += piece.count
    return tuple(wanted)


def _most(
    task: Task, wanted: tuple[int, ...], lengths: tuple[int, ...], lanes: list[Lane]
) -> tuple[int, ...]:
    """Return how many pieces of each length a plan can have: as many as lines can hold."""
    most = list(wanted)
    for lane in lanes:
        line = task.lines[lane.line]
        for length in {arc.length for arc in lane.arcs}:
            most[length] += lane.count * ((line.end - line.start) // lengths[length])
    return tuple(most)


def _rank(stock: Stock) -> tuple[int, int, int, str]:
    """Return what boards are put in order by, so that their order in the task does not count."""
    return stock.length, stock.trim, stock.price, stock.name


def _lengths(task: Task, longest: int) -> tuple[int, ...]:
    found = {piece.length for piece in task.pieces if piece.count}
    for line in task.lines:
        if line.count:
            found |= {length for _, _, length in _useful(line, longest)}
    return tuple(sorted(found, reverse=True))


def _useful(line: Line, longest: int) -> list[tuple[int, int, int]]:
    """Return the legal pieces that some legal line really holds."""
    arcs = legal_pieces(line, longest)
    ahead, behind = _reached(arcs, -1, 0, 1), _reached(arcs, -2, 1, 0)
    return [arc for arc in arcs if arc[0] in ahead and arc[1] in behind]


def _reached(arcs: list[tuple[int, int, int]], start: int, tail: int, head: int) -> set[int]:
    seen, layer = {start}, {start}
    while layer:
        layer = {arc[head] for arc in arcs if arc[tail] in layer} - seen
        seen |= layer
    return seen


def _lanes(task: Task, index: int, longest: int, lengths: dict[int, int]) -> list[Lane]:
    line = task.lines[index]
    odd, even = (line.count + 1) // 2, line.count // 2
    if line.count == 0:
        return []
    nodes, arcs = _graph(line, _useful(line, longest), lengths)
    if even == 0 or line.stagger == 0:
        return [Lane(line=index, odd=True, count=line.count, weight=1, nodes=nodes, arcs=arcs)]
    share = gcd(odd, even)
    return [
        Lane(line=index, odd=True, count=odd, weight=even // share, nodes=nodes, arcs=arcs),
        Lane(line=index, odd=False, count=even, weight=odd // share, nodes=nodes, arcs=arcs),
    ]


def _graph(
    line: Line, pieces: list[tuple[int, int, int]], lengths: dict[int, int]
) -> tuple[int, tuple[Arc, ...]]:
    """Return the nodes and arcs of a line; a cap on joints takes a layer of nodes for each."""
    inner = {h for _, h, _ in pieces if h >= 0}
    bays = max(1, line.least_bays)
    natural = len(line.stations) // bays + 1
    capped = line.most_joints is not None and line.most_joints < natural
    layers = line.most_joints if capped and line.most_joints is not None else 1
    number = {
        (layer, j): 2 + layer * len(inner) + i
        for layer in range(layers)
        for i, j in enumerate(sorted(inner))
    }
    arcs = []
    for tail, head, length in pieces:
        piece = lengths[length]
        if tail < 0:
            node = 1 if head < 0 else number[0, head]
            arcs.append(Arc(tail=0, head=node, length=piece, station=max(head, -1)))
            continue
        for layer in range(layers):
            following = min(layer + 1, layers - 1) if not capped else layer + 1
            if head < 0:
                arcs.append(Arc(tail=number[layer, tail], head=1, length=piece, station=-1))
            elif following < layers:
                node = number[following, head]
                arcs.append(Arc(tail=number[layer, tail], head=node, length=piece, station=head))
    return 2 + layers * len(inner), tuple(arcs)


def _refuse(task: Task, longest: int, fewest: list[int | None]) -> None:
    shortfalls = [
        Shortfall(kind="piece too long", length=length, longest=longest)
        for length in sorted({p.length for p in task.pieces if p.count and p.length > longest})
    ]
    shortfalls += [
        Shortfall(kind="line cannot be made", line=i, longest=longest)
        for i, joints in enumerate(fewest)
        if joints is None
    ]
    if shortfalls:
        raise NoPlan(tuple(shortfalls), proven=True)


def _check(task: Task) -> None:
    faults = []
    for where, value, least in _figures(task):
        if value < least:
            faults.append(Fault(path=where, found=str(value), wanted=f"{least} or more"))
    names = [stock.name for stock in task.stock]
    if len(set(names)) != len(names):
        faults.append(Fault(path="stock", found="a name used twice", wanted="unlike names"))
    for i, line in enumerate(task.lines):
        order = (line.start, *line.stations, line.end)
        if any(a > b for a, b in pairwise(order)):
            faults.append(
                Fault(path=f"lines[{i}]", found="stations out of order", wanted="start to end")
            )
    if faults:
        raise CutTaskError(tuple(faults))


def _figures(task: Task) -> list[tuple[str, int, int]]:
    """Return every figure of a task with its place and the least it may be."""
    figures = [("kerf", task.kerf, 0), ("joint_price", task.joint_price, 0)]
    for i, stock in enumerate(task.stock):
        place = f"stock[{i}]"
        figures += [(f"{place}.length", stock.length, 1), (f"{place}.price", stock.price, 0)]
        figures += [(f"{place}.trim", stock.trim, 0), (f"{place}.limit", stock.limit or 0, 0)]
    for i, piece in enumerate(task.pieces):
        figures += [(f"pieces[{i}].length", piece.length, 1)]
        figures += [(f"pieces[{i}].count", piece.count, 0)]
    for i, line in enumerate(task.lines):
        place = f"lines[{i}]"
        figures += [(f"{place}.count", line.count, 0)]
        figures += [(f"{place}.length", line.end - line.start, 1)]
        figures += [(f"{place}.joint_gap", line.joint_gap, 0)]
        figures += [(f"{place}.least_bays", line.least_bays, 0)]
        figures += [(f"{place}.stagger", line.stagger, 0)]
        figures += [(f"{place}.most_joints", line.most_joints or 0, 0)]
    return figures
