"""Pads under tiles on an outline: near every corner, along every long side, under middles."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator

from drylay.audit.exact import Fraction, ticks
from drylay.audit.flaws import need, off_by, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import SLACK, cover, fault, outlines, place, shape
from drylay.audit.outlined_tiles import Lattice, lattice_of, tiles_of
from drylay.audit.plane import (
    Number,
    Place,
    box,
    inside,
    root,
    sides_of,
    squared_to_edge,
)
from drylay.plan.model import Plan
from drylay.tiling.outline_model import OUTLINE_PAD_KINDS

PADS = outlines("Tiles on an outline: pads")
SHARED_MM = 30.0

Cell = tuple[int, int]


def _near(lots: dict[Cell, list[Place]], at: Place, reach: int) -> Iterator[Place]:
    """Yield what lies in the cells about a place, a reach wide each."""
    x, y = int(at[0] // reach), int(at[1] // reach)
    for i in (x - 1, x, x + 1):
        for j in (y - 1, y, y + 1):
            yield from lots.get((i, j), ())


def _in_cells(places: Iterable[Place], reach: int) -> dict[Cell, list[Place]]:
    lots: dict[Cell, list[Place]] = defaultdict(list)
    for at in places:
        lots[int(at[0] // reach), int(at[1] // reach)].append(at)
    return lots


def _squared(one: Place, other: Place) -> Number:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2


def corners_are_borne(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each corner of a tile without a pad near it, and each long side without."""
    tiles, pads = tiles_of(plan), tiles_of(plan).pads
    reach = ticks(SHARED_MM) + SLACK
    lots = _in_cells((place(pad.at) for pad in pads.pads if pad.kind != "centre"), reach)
    most = need(ticks(pads.at_edges_most_mm) or None, "distance of pads")
    for tile in tiles.tiles:
        for start, end in sides_of(shape(tile.corners)):
            long = root(_squared(start, end))
            parts = -(-(long - SLACK) // most)
            for part in range(int(max(parts, 1))):
                share = Fraction(part, int(max(parts, 1)))
                at = (start[0] + (end[0] - start[0]) * share,
                      start[1] + (end[1] - start[1]) * share)  # fmt: skip
                if not any(_squared(at, pad) <= reach**2 for pad in _near(lots, at, reach)):
                    what = "along a side of it" if part else "under a corner of it"
                    yield fault(tile.mark, f"no pad {what}", PADS)


def pads_bear_something(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a pad off the deck, far from every tile's edge, or there twice."""
    tiles, deck, reach = tiles_of(plan), cover(plan), ticks(SHARED_MM) + SLACK
    borne = _in_cells(_borne(plan), reach)
    seen = Counter((pad.kind, place(pad.at)) for pad in tiles.pads.pads)
    for index, pad in enumerate(tiles.pads.pads):
        path, at = f"tiles.pads.pads[{index}]", place(pad.at)
        if pad.kind not in OUTLINE_PAD_KINDS or seen[pad.kind, at] > 1:
            yield fault(path, "of no kind, or there twice", PADS)
        if inside(at, deck) < 0 and squared_to_edge(at, deck) > (4 * SLACK) ** 2:
            yield fault(path, "off the deck", PADS)
        if pad.kind != "centre" and not any(
            _squared(at, other) <= reach**2 for other in _near(borne, at, reach)
        ):
            yield fault(path, "bears no corner, nor any place along a side", PADS)


def _borne(plan: Plan) -> Iterator[Place]:
    """Yield all corners of tiles, and the places along their long sides."""
    most = ticks(tiles_of(plan).pads.at_edges_most_mm)
    for tile in tiles_of(plan).tiles:
        for start, end in sides_of(shape(tile.corners)):
            long = root(_squared(start, end))
            # a side as long as the rule, but for its rounding, may have a pad more
            ways = {int(max(-(-(long + off) // most), 1)) for off in (-SLACK, 0, SLACK)}
            for share in sorted({Fraction(n, parts) for parts in ways for n in range(parts)}):
                yield (start[0] + (end[0] - start[0]) * share,
                       start[1] + (end[1] - start[1]) * share)  # fmt: skip


def middles_are_borne(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless tiles have pads under their middles, as many as told, and no others."""
    tiles, pads, grid = tiles_of(plan), tiles_of(plan).pads, lattice_of(plan)
    reach = ticks(SHARED_MM)
    others = _in_cells((place(p.at) for p in pads.pads if p.kind != "centre"), reach)
    middles = _in_cells((place(p.at) for p in pads.pads if p.kind == "centre"), reach)
    wanted = sure = 0
    for tile in tiles.tiles:
        corners = shape(tile.corners)
        for at in _middles(grid, corners, pads.at_centre):
            there = any(_squared(at, pad) <= (2 * SLACK) ** 2 for pad in _near(middles, at, reach))
            far = all(_squared(at, pad) > (reach + SLACK) ** 2 for pad in _near(others, at, reach))
            lies = inside(at, corners) > 0 and squared_to_edge(at, corners) > SLACK**2
            wanted += there
            sure += lies and far
            if lies and far and not there:
                yield fault(tile.mark, "no pad under its middle", PADS)
    found = sum(pad.kind == "centre" for pad in pads.pads)
    yield from same_count("tiles.pads.centres", "pads under no tile's middle", found, wanted, PADS)


def _middles(grid: Lattice, corners: tuple[Place, ...], each: int) -> Iterator[Place]:
    u1, v1, u2, v2 = box(grid.run.all_told(corners))
    for number in range(1, each + 1):
        yield grid.run.place((u1 + Fraction((u2 - u1) * number, each + 1), Fraction(v1 + v2) / 2))


def pads_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pads are counted by kind, and shared no further than agreed."""
    pads = tiles_of(plan).pads
    kinds = Counter(pad.kind for pad in pads.pads)
    for name, kind in (("corners", "corner"), ("edges", "edge"), ("centres", "centre")):
        found = getattr(pads, name)
        yield from same_count(f"tiles.pads.{name}", "not so many", found, kinds[kind], PADS)
    yield from same_count("tiles.pads.count", "not so many", pads.count, len(pads.pads), PADS)
    if ticks(pads.shared_mm) > ticks(SHARED_MM):
        yield off_by("tiles.pads.shared_mm", "too far for one pad", ticks(pads.shared_mm),
                     ticks(SHARED_MM), PADS)  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-967", "every corner of a tile stands on a pad, long sides too", corners_are_borne),
    ("AUD-968", "every pad bears something, on the deck", pads_bear_something),
    ("AUD-969", "tiles' middles are borne", middles_are_borne),
    ("AUD-970", "pads are counted by kind", pads_are_counted),
)
