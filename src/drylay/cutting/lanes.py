"""Lanes: the lines of a set that the engine may treat alike, and the pieces they may hold."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from math import gcd

from attrs import frozen

from drylay.cutting.model import Line, Task
from drylay.cutting.verify import legal_pieces

EACH = -1  # parted so that every line is in a lane of its own


@frozen(kw_only=True)
class Arc:
    """A piece a line may hold: from node, to node, which length, the joint at its end (or -1)."""

    tail: int
    head: int
    length: int
    station: int


@frozen(kw_only=True)
class Lane:
    """Some lines of a set that have the same neighbours: their `places` counted from 0.

    The odd lines of a set (its first, third ...) and the even ones are apart, and so are the
    first and the last line where another set lies beside them. `weight` is what a joint counts
    for in a window of the set. Node 0 is the start of a line, node 1 its end.
    """

    line: int
    places: tuple[int, ...]
    weight: int
    first_station: int
    nodes: int
    arcs: tuple[Arc, ...]

    @property
    def odd(self) -> bool:
        """Whether its lines are the first, third ... of their set."""
        return self.places[0] % 2 == 0

    @property
    def count(self) -> int:
        """How many lines it has."""
        return len(self.places)


Place = tuple[int, int]  # lane, station
Near = dict[tuple[int, int], int]  # lanes beside one another, the smaller first: bays apart


def lanes_of(
    task: Task, index: int, longest: int, lengths: dict[int, int], parted: int = 0
) -> list[Lane]:
    """Return the lanes of one set of a task; `lengths` tells each length's place.

    Where it is `parted`, the lines from that place on, and the one before them, are apart; at
    `EACH` all lines are.
    """
    line = task.lines[index]
    if line.count == 0:
        return []
    nodes, arcs = _graph(line, useful_pieces(line, longest), lengths)
    odd, even = (line.count + 1) // 2, line.count // 2
    share = gcd(odd, even)
    return [
        Lane(
            line=index,
            places=places,
            weight=(odd if places[0] % 2 else even) // share,
            first_station=line.first_station,
            nodes=nodes,
            arcs=arcs,
        )
        for places in _places(task, index, parted)
    ]


def _places(task: Task, index: int, parted: int) -> list[tuple[int, ...]]:
    """Return which lines of a set go together, those with the same neighbours."""
    line = task.lines[index]
    if parted == EACH:
        return [(k,) for k in range(line.count)]
    alone = {parted - 1} if parted else set()
    if any(bays_apart(task, pair.one, pair.other) for pair in task.beside if pair.other == index):
        alone.add(0)
    if any(bays_apart(task, pair.one, pair.other) for pair in task.beside if pair.one == index):
        alone.add(line.count - 1)
    steps = 1 if line.stagger == 0 else 2
    groups = [
        tuple(k for k in range(line.count) if k not in alone and (k % steps, k < parted) == which)
        for which in product(range(steps), (True, False))
    ]
    return sorted([*(group for group in groups if group), *((k,) for k in alone)])


def bays_apart(task: Task, one: int, other: int) -> int:
    """Return how many bays apart the joints of two sets beside one another are at least."""
    return max(task.lines[one].stagger, task.lines[other].stagger)


def lanes_near(task: Task, lanes: tuple[Lane, ...]) -> Near:
    """Return which lanes have lines beside one another, and how far apart their joints are."""
    owner = {
        (lane.line, place): number for number, lane in enumerate(lanes) for place in lane.places
    }
    near: Near = {}
    for one, other, bays in _lines_beside(task):
        if bays and one in owner and other in owner:
            pair = sorted((owner[one], owner[other]))
            near[pair[0], pair[1]] = bays
    return near


def _lines_beside(task: Task) -> Iterator[tuple[tuple[int, int], tuple[int, int], int]]:
    for index, line in enumerate(task.lines):
        for place in range(line.count - 1):
            yield (index, place), (index, place + 1), line.stagger
    for pair in task.beside:
        last = task.lines[pair.one].count - 1
        yield (pair.one, last), (pair.other, 0), bays_apart(task, pair.one, pair.other)


def places_clashing(
    lanes: Sequence[Lane], near: Near, places: Iterable[Place]
) -> list[tuple[Place, Place]]:
    """Return which of these places are too near one another for lanes side by side."""
    by_lane: dict[int, list[int]] = {}
    for lane, station in places:
        by_lane.setdefault(lane, []).append(station)
    return [
        ((one, station), (other, beside))
        for (one, other), bays in near.items()
        for station in by_lane.get(one, ())
        for beside in by_lane.get(other, ())
        if abs(station + lanes[one].first_station - beside - lanes[other].first_station) < bays
    ]


def useful_pieces(line: Line, longest: int) -> list[tuple[int, int, int]]:
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
