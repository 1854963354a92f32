"""Puts the lines of a set in an order in which neighbours' joints are far enough apart."""

from collections import Counter
from collections.abc import Iterator

from drylay.cutting.lanes import bays_apart
from drylay.cutting.ready import Ready

Way = tuple[int, ...]  # the joint stations of a line
Key = tuple[Way, ...]  # how many lines of each way are left, the last line laid
NODES = 5000  # of the search for an order


def ordered(ready: Ready, lines: list[list[Way]]) -> tuple[list[list[Way]], set[int]]:
    """Return the lines of each lane in an order that keeps neighbours' joints apart.

    And the sets of lines for which there is no such order, or none was found.
    """
    found: list[list[Way]] = [[] for _ in lines]
    rows: list[list[Way]] = []
    without: set[int] = set()
    for index, line in enumerate(ready.task.lines):
        owners = _owners(ready, index)
        row = _Search(owners, lines, line.stagger).order()
        if row is None:
            without.add(index)
        rows.append(row or [])
        for lane, way in zip(owners, row or [], strict=False):
            found[lane].append(way)
    return found, without or _too_near(ready, rows)


def _owners(ready: Ready, index: int) -> list[int]:
    """Return the lane of each line of a set, in order."""
    owner = {
        place: number
        for number, lane in enumerate(ready.lanes)
        if lane.line == index
        for place in lane.places
    }
    return [owner[place] for place in range(ready.task.lines[index].count)]


def _too_near(ready: Ready, rows: list[list[Way]]) -> set[int]:
    """Return the sets whose last or first line joints too near the one beside it."""
    lines, near = ready.task.lines, set[int]()
    for pair in ready.task.beside:
        if rows[pair.one] and rows[pair.other]:
            ahead = lines[pair.one].first_station - lines[pair.other].first_station
            shifted = tuple(station + ahead for station in rows[pair.one][-1])
            bays = bays_apart(ready.task, pair.one, pair.other)
            if not _apart(shifted, rows[pair.other][0], bays):
                near |= {pair.one, pair.other}
    return near


def _apart(one: Way, other: Way, bays: int) -> bool:
    return all(abs(a - b) >= bays for a in one for b in other)


class _Search:
    """A depth-first search that goes on with what lay two lines before as long as it can."""

    def __init__(self, owners: list[int], lines: list[list[Way]], bays: int) -> None:
        self.owners, self.bays, self.nodes = owners, bays, NODES
        self.left = {lane: Counter(lines[lane]) for lane in set(owners)}
        self.row: list[Way] = []
        self.failed: set[Key] = set()

    def order(self) -> list[Way] | None:
        """Return an order, None if none was found."""
        todo: list[Iterator[Way]] = []  # what may lie in each place: deeper than calls may go
        while len(self.row) < len(self.owners):
            if len(todo) == len(self.row):
                todo.append(self._ways())
            way = next(todo[-1], None)
            if way is not None:
                self.left[self.owners[len(self.row)]][way] -= 1
                self.row.append(way)
                continue
            self.failed.add(self._key())
            todo.pop()
            if not self.row:
                return None
            way = self.row.pop()
            self.left[self.owners[len(self.row)]][way] += 1
        return self.row

    def _key(self) -> Key:
        return (tuple(n for ways in self.left.values() for n in ways.values()), *self.row[-1:])

    def _ways(self) -> Iterator[Way]:
        """Return what may lie next, the likeliest first: nothing where that is known to fail."""
        self.nodes -= 1
        if self.nodes < 0 or self._key() in self.failed:
            return iter(())
        left = self.left[self.owners[len(self.row)]]
        ways = [way for way, count in left.items() if count]
        if self.row:
            ways = [way for way in ways if _apart(self.row[-1], way, self.bays)]
        return iter(sorted(ways, key=lambda way: self._liking(way, left)))

    def _liking(self, way: Way, left: Counter[Way]) -> tuple[bool, int, Way]:
        """Return what the next line is chosen by, least first."""
        return len(self.row) < 2 or way != self.row[-2], -left[way], way
