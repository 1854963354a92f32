"""Whole lines by diving: the linear optimum rounded a line at a time, and found again.

Which stations lanes may joint on is settled before; boards are made whole afterwards.
"""

from collections.abc import Sequence
from math import floor

from attrs import frozen

from drylay.cutting.master import Master, Prices

EDGE = 1e-6


@frozen(kw_only=True)
class Path:
    """A way through a lane: its arcs by number, and how many lines the optimum lays so."""

    lane: int
    arcs: tuple[int, ...]
    lines: float


def lay(master: Master, barred: frozenset[int], most: float) -> list[int] | None:
    """Return how often each arc is laid by whole lines, in a plan for `most` at most.

    None if the dive leads nowhere. The arcs are left held at what is returned, or free.
    """
    held, left = [0] * len(master.arcs), [lane.count for lane in master.ready.lanes]
    while True:
        master.hold_arcs(barred, held, fast=not any(left))
        prices = master.solve()
        if prices is None or prices.unmet > EDGE or prices.objective > most + 0.5:
            master.hold_arcs(frozenset(), None)
            return None
        if not any(left):
            return held
        for path, lines in _picked(paths(master, prices, held)):
            left[path.lane] -= lines
            for arc in path.arcs:
                held[arc] += lines


def _picked(found: Sequence[Path]) -> list[tuple[Path, int]]:
    """Return the paths to lay: whole parts of the optimum, else the largest part of one."""
    whole = [(path, floor(path.lines + EDGE)) for path in found if path.lines > 1 - EDGE]
    if whole:
        return whole
    best = max(found, key=lambda path: (round(path.lines, 6), [-arc for arc in path.arcs]))
    return [(best, 1)]


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
