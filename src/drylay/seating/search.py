"""The search: every way to set things beside one another, cut off where no better deck comes of it.

A node knows, along and across, which place lies how far beyond which at least. All things then
stand at their least places; where two of them clash one of them is set before or behind the other,
along or across, which makes four nodes that share no layout. Where none clash a layout is found,
and no other of that node is smaller either way. Hence nothing is lost, and no step of the grid is
tried for itself.
"""

from collections.abc import Callable, Iterator

from attrs import field, frozen

from drylay.seating.spans import (
    NEAR,
    Table,
    contradicts,
    follows,
    nothing_known,
    size,
    size_with,
    told,
)
from drylay.seating.things import Apart

Size = tuple[int, int]
#: One thing lies so far beyond another at least: axis, the one, the other, how far.
Set = tuple[int, int, int, int]


@frozen(kw_only=True)
class Clash:
    """Two things and one rectangle of differences that they may not have; four ways out of it."""

    ways: tuple[Set, Set, Set, Set]


@frozen(kw_only=True)
class Start:
    """All things in one stance each: where they are bound, and what keeps them apart.

    `name` is handed back with what is found.
    """

    name: tuple[int, ...]
    places: int
    bounds: tuple[Set, ...]
    clashes: tuple[Clash, ...]


@frozen(kw_only=True)
class Node:
    """What is settled so far."""

    name: tuple[int, ...]
    along: Table
    across: Table
    open_clashes: tuple[Clash, ...]


@frozen(kw_only=True)
class Spot:
    """A layout found: its size, and every thing's least place along and across."""

    size: Size
    name: tuple[int, ...]
    along: tuple[int, ...]
    across: tuple[int, ...]


@frozen(kw_only=True)
class Searched:
    """What a search found; `open_sizes`: least sizes of nodes that were left where it was cut."""

    spots: tuple[Spot, ...]
    nodes: int
    open_sizes: tuple[Size, ...]


@frozen(kw_only=True)
class Hunt:
    """A search under way: what was found, and whether a size is worth going after."""

    worth: Callable[[Size, list[Spot]], bool]
    found: list[Spot] = field(factory=list)


def clash_of(one: int, other: int, forbidden: Apart) -> Clash:
    """Return the clash of two places with a rectangle of differences."""
    low, high, near, far = forbidden
    return Clash(
        ways=(
            (0, one, other, high),
            (0, other, one, -low),
            (1, one, other, far),
            (1, other, one, -near),
        )
    )


def search(
    starts: list[Start],
    *,
    worth: Callable[[Size, list[Spot]], bool],
    most_nodes: int,
    known: tuple[Spot, ...] = (),
) -> Searched:
    """Return every layout that is worth it, and what is left where the nodes run out.

    What is `known` counts as found.

    `worth` is asked of a size and what was found so far; it must refuse every larger size too. The
    same starts give the same answer.
    """
    hunt = Hunt(worth=worth, found=list(known))
    roots = [node for start in starts if (node := _root(start)) is not None]
    roots.sort(key=lambda node: _rank(_size(node)), reverse=True)
    stack, nodes = roots, 0
    while stack and nodes < most_nodes:
        node = stack.pop()
        nodes += 1
        stack.extend(_opened(node, hunt))
    left = tuple(s for node in stack if worth(s := _size(node), hunt.found))
    return Searched(spots=tuple(hunt.found), nodes=nodes, open_sizes=left)


def _rank(found: Size) -> tuple[int, int, int]:
    return found[0] * found[1], found[0] + found[1], found[0]


def _size(node: Node) -> Size:
    return size(node.along), size(node.across)


def _root(start: Start) -> Node | None:
    """Return the node of all bounds, None where they contradict one another."""
    tables = [nothing_known(start.places), nothing_known(start.places)]
    for axis, one, other, least in start.bounds:
        if contradicts(tables[axis], one, other, least):
            return None
        tables[axis] = told(tables[axis], one, other, least)
    return Node(name=start.name, along=tables[0], across=tables[1], open_clashes=start.clashes)


def _opened(node: Node, hunt: Hunt) -> list[Node]:
    """Return the nodes that come of one, the best last; put down what is found."""
    if not hunt.worth(_size(node), hunt.found):
        return []
    forced = _forced(node, hunt)
    if forced is None:
        return []
    node, chosen = forced
    if not hunt.worth(_size(node), hunt.found):
        return []
    if chosen is None:
        _put_down(node, hunt)
        return []
    children = []
    for way in chosen:
        child = _with(node, way)
        children.append(child)
        denied = _with(node, _denied(way))
        node = denied
    children.sort(key=lambda child: _rank(_size(child)), reverse=True)
    return children


Ways = tuple[Set, ...]


def _forced(node: Node, hunt: Hunt) -> tuple[Node, Ways | None] | None:
    """Return the node with all that follows, and the ways out of its tightest clash.

    None where a clash has no way out; no ways where nothing clashes.
    """
    while True:
        still: list[Clash] = []
        best: Ways | None = None
        tightest: tuple[int, int] | None = None
        changed = False
        for clash in node.open_clashes:
            if _settled(node, clash):
                continue
            ways = tuple(_ways(node, clash, hunt))
            if not ways:
                return None
            if len(ways) == 1:
                node, changed = _with(node, ways[0]), True
                continue
            still.append(clash)
            if _clashes(node, clash):
                rank = (len(ways), -_least_rank(node, ways))
                if tightest is None or rank < tightest:
                    best, tightest = ways, rank
        node = Node(name=node.name, along=node.along, across=node.across, open_clashes=tuple(still))
        if not changed:
            return node, best


def _table(node: Node, axis: int) -> Table:
    return node.across if axis else node.along


def _settled(node: Node, clash: Clash) -> bool:
    return any(follows(_table(node, axis), a, b, least) for axis, a, b, least in clash.ways)


def _clashes(node: Node, clash: Clash) -> bool:
    """Return whether two things clash while all stand at their least places."""
    for axis, one, other, least in clash.ways:
        at = _table(node, axis)[NEAR]
        if at[other] - at[one] >= least:
            return False
    return True


def _ways(node: Node, clash: Clash, hunt: Hunt) -> Iterator[Set]:
    """Yield the ways out of a clash that are open and worth going."""
    for way in clash.ways:
        axis, one, other, least = way
        if contradicts(_table(node, axis), one, other, least):
            continue
        if hunt.worth(_size_with(node, way), hunt.found):
            yield way


def _size_with(node: Node, way: Set) -> Size:
    axis, one, other, least = way
    if axis:
        return size(node.along), size_with(node.across, one, other, least)
    return size_with(node.along, one, other, least), size(node.across)


def _least_rank(node: Node, ways: Ways) -> int:
    return min(_rank(_size_with(node, way))[0] for way in ways)


def _with(node: Node, way: Set) -> Node:
    axis, one, other, least = way
    table = told(_table(node, axis), one, other, least)
    along, across = (node.along, table) if axis else (table, node.across)
    return Node(name=node.name, along=along, across=across, open_clashes=node.open_clashes)


def _denied(way: Set) -> Set:
    """Return that a way is not gone: the other place lies less far beyond."""
    axis, one, other, least = way
    return axis, other, one, 1 - least


def _put_down(node: Node, hunt: Hunt) -> None:
    spot = Spot(
        size=_size(node),
        name=node.name,
        along=tuple(node.along[NEAR]),
        across=tuple(node.across[NEAR]),
    )
    hunt.found.append(spot)
