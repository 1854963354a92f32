"""Whole lines by diving: the linear optimum rounded a line at a time, and found again.

Which stations lanes may joint on is settled before; boards are made whole afterwards.
"""

from collections.abc import Sequence
from math import floor

from attrs import frozen

from drylay.cutting.master import Master, Prices

EDGE = 1e-6
WAYS = 3  # on from a linear optimum


@frozen(kw_only=True)
class Path:
    """A way through a lane: its arcs by number, and how many lines the optimum lays so."""

    lane: int
    arcs: tuple[int, ...]
    lines: float


Laid = list[tuple[Path, int]]  # paths, and how many lines of each


def lay(master: Master, barred: frozenset[int], most: float) -> list[int] | None:
    """Return how often each arc is laid by whole lines, in a plan for `most` at most.

    Where what was laid last makes it dearer, something else is laid instead, a few times. None
    if the dive leads nowhere. The arcs are left held at what is returned, or free.
    """
    held, left = [0] * len(master.arcs), [lane.count for lane in master.ready.lanes]
    others: list[tuple[list[int], list[int], Laid]] = []
    retries = master.limits.retries
    while True:
        master.hold_arcs(barred, held, fast=not any(left))
        prices = master.solve()
        if prices is not None and prices.unmet <= EDGE and prices.objective <= most + 0.5:
            if not any(left):
                return held
            ways = _ways_on(paths(master, prices, held))
            others += [(held, left, way) for way in reversed(ways)]
        elif retries == 0 or not others:
            break
        else:
            retries -= 1
        held, left, way = others.pop()
        held, left = _laid(held, left, way)
    master.hold_arcs(frozenset())
    return None


def _laid(held: list[int], left: list[int], way: Laid) -> tuple[list[int], list[int]]:
    held, left = list(held), list(left)
    for path, lines in way:
        left[path.lane] -= lines
        for arc in path.arcs:
            held[arc] += lines
    return held, left


def _ways_on(found: Sequence[Path]) -> list[Laid]:
    """Return what may be laid next, the likeliest first: whole parts, else parts of one line."""
    whole = [(path, floor(path.lines + EDGE)) for path in found if path.lines > 1 - EDGE]
    parts = sorted(found, key=lambda path: (round(-path.lines, 6), path.arcs))
    ways: list[Laid] = [whole] if whole else []
    return [*ways, *([(path, 1)] for path in parts)][:WAYS]


def paths(master: Master, prices: Prices, held: Sequence[int]) -> list[Path]:
    """Return the optimum's flow beyond what is held, as paths through its lanes."""
    flow = [value - count for value, count in zip(prices.values, held, strict=False)]
    leaving: dict[tuple[int, int], list[int]] = {}
    for number, (lane, arc) in enumerate(master.arcs):
        if flow[number] > EDGE:
            leaving.setdefault((lane, arc.tail), []).append(number)
    found = []
    for lane in range(len(master.ready.lanes)):
        while path := _widest(master, leaving, flow, lane):
            found.append(path)
            for number in path.arcs:
                flow[number] -= path.lines
    return found


def _widest(
    master: Master, leaving: dict[tuple[int, int], list[int]], flow: list[float], lane: int
) -> Path | None:
    """Return a path along the arcs that most is left of, None if nothing is left."""
    node, arcs = 0, []
    while node != 1:
        here = leaving.get((lane, node), ())
        arc = max(here, key=lambda number: (round(flow[number], 9), -number), default=-1)
        if arc < 0 or flow[arc] <= EDGE:
            return None
        arcs.append(arc)
        node = master.arcs[arc][1].head
    return Path(lane=lane, arcs=tuple(arcs), lines=min(flow[arc] for arc in arcs))
