"""Pads under tiles on an outline: at corners, shared where they meet; along sides; at middles."""

import math
from collections.abc import Iterator, Sequence

from attrs import frozen

from drylay.geometry import Place, Region, grown, region, within
from drylay.tiling.outlined_places import Part
from drylay.tiling.pads import PadRules

#: One pad's head bears all corners of tiles that lie so near one another. Assumption.
SHARED_MM = 30.0
#: A place on the deck's edge lies on the deck, whatever rounding makes of it.
EDGE_MM = 0.01


@frozen(kw_only=True)
class PadPlace:
    """Where a pad stands, in the grid's axes, and under what."""

    kind: str
    at: Place


def pads_under(area: Region, parts: Sequence[Part], rules: PadRules) -> tuple[PadPlace, ...]:
    """Return the pads under all tiles: corners, then edges, then middles, row by row.

    Source: common practice, no source; what one pad bears together is an assumption.
    """
    deck = grown(area, EDGE_MM)
    borne = [(corner, True) for part in parts for corner in part.ring]
    borne += [(at, False) for part in parts for at in _along(part.ring, rules.at_edges_most_mm)]
    found: list[PadPlace] = []
    for lot in _near_together(borne):
        kind = "corner" if any(is_corner for _, is_corner in lot) else "edge"
        found += [PadPlace(kind=kind, at=at) for at in _serving([at for at, _ in lot], deck)]
    grid = _by_cell([place.at for place in found])
    for part in parts:
        found += [
            PadPlace(kind="centre", at=at)
            for at in _middles(part, rules.at_centre)
            if not any(math.dist(at, other) < SHARED_MM for other in _around(grid, at))
        ]
    order = {"corner": 0, "edge": 1, "centre": 2}
    return tuple(sorted(found, key=lambda p: (order[p.kind], round(p.at[1], 2), round(p.at[0], 2))))


def _along(ring: Sequence[Place], most_mm: float) -> Iterator[Place]:
    """Yield where more pads stand under a tile's sides, between their corners."""
    for one, other in zip(ring, (*ring[1:], ring[0]), strict=True):
        parts = math.ceil(math.dist(one, other) / most_mm - 1e-6)
        for part in range(1, parts):
            share = part / parts
            yield one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


def _middles(part: Part, each: int) -> Iterator[Place]:
    """Yield where pads stand under a tile's middle: those that lie in it."""
    if not each:
        return
    us, vs = zip(*part.ring, strict=True)
    inside = region(part.ring)
    for number in range(1, each + 1):
        at = (
            min(us) + (max(us) - min(us)) * number / (each + 1),
            (min(vs) + max(vs)) / 2,
        )
        if within(at, inside):
            yield at


def _serving(places: Sequence[Place], deck: Region) -> list[Place]:
    """Return where pads stand that bear some places: one, but where it would not reach them all."""
    us, vs = zip(*places, strict=True)
    middle = ((min(us) + max(us)) / 2, (min(vs) + max(vs)) / 2)
    if not within(middle, deck):
        middle = min(places, key=lambda at: (round(math.dist(at, middle), 3), at))
    if all(math.dist(at, middle) <= SHARED_MM for at in places):
        return [middle]
    return sorted(set(places))


Borne = tuple[Place, bool]
Cell = tuple[int, int]


def _cell(place: Place) -> Cell:
    return math.floor(place[0] / SHARED_MM), math.floor(place[1] / SHARED_MM)


def _by_cell(places: Sequence[Place]) -> dict[Cell, list[Place]]:
    found: dict[Cell, list[Place]] = {}
    for place in places:
        found.setdefault(_cell(place), []).append(place)
    return found


def _around(grid: dict[Cell, list[Place]], place: Place) -> Iterator[Place]:
    x, y = _cell(place)
    for i in (x - 1, x, x + 1):
        for j in (y - 1, y, y + 1):
            yield from grid.get((i, j), ())


def _near_together(borne: Sequence[Borne]) -> list[list[Borne]]:
    """Return what is to be borne in lots, each place near another of its lot."""
    corners: dict[Place, bool] = {}
    for at, is_corner in borne:
        corners[at] = corners.get(at, False) or is_corner
    grid = _by_cell(list(corners))
    left, lots = dict.fromkeys(corners), []
    for first in corners:
        if first not in left:
            continue
        del left[first]
        lot, waiting = [first], [first]
        while waiting:
            here = waiting.pop()
            near = [at for at in _around(grid, here)
                    if at in left and math.dist(at, here) <= SHARED_MM]  # fmt: skip
            for at in near:
                del left[at]
            lot += near
            waiting += near
        lots.append([(at, corners[at]) for at in lot])
    return lots
