"""Joist lines under tiles: one under every joint, and so many bays to each tile between them."""

from itertools import pairwise

from attrs import frozen

from drylay.marks import MARK_320, exact, nearest_mark, to_mm
from drylay.supports.model import JoistLine, Supports
from drylay.tiling.model import TileColumn


@frozen(kw_only=True)
class TileBays:
    """How wide a bay under tiles may be: the joists' limit, and the tile with a joint in parts."""

    most_centres_mm: float
    bays_per_tile: int
    module_mm: float


def place_under_tiles(
    columns: tuple[TileColumn, ...],
    *,
    frame_start_mm: float,
    frame_length_mm: float,
    joist_mm: float,
    bays: TileBays,
    units: str = "metric",
) -> Supports:
    """Return the joist lines under columns of tiles.

    The outer centres are half a joist from the frame's faces, one lies in the middle of every
    joint. Between these stand the fewest more that keep each bay within the limit and within a
    tile and a joint over `bays_per_tile`, evenly, on marks where these limits leave one.

    Source: common practice, no source: a joist under each joint and midway.
    """
    start, half = exact(frame_start_mm), exact(joist_mm) // 2
    first = start + half
    last = start + exact(frame_length_mm) - exact(joist_mm) + half
    inner = [
        (exact(one.start_mm) + exact(one.length_mm) + exact(other.start_mm)) // 2
        for one, other in pairwise(columns)
    ]
    fixed = [first, *(centre for centre in inner if first < centre < last), last]
    lines = [first]
    for near, far in pairwise(fixed):
        lines += [*_between(near, far, bays, MARK_320[units]), far]
    widest = max(after - before for before, after in pairwise(lines))
    return Supports(
        most_centres_mm=bays.most_centres_mm,
        centres_mm=to_mm(widest),
        line_count=len(lines),
        joist_thickness_mm=joist_mm,
        lines=tuple(JoistLine(offset_mm=to_mm(line)) for line in lines),
    )


def bays_between(apart_320: int, bays: TileBays) -> int:
    """Return the fewest bays between two fixed lines that keep the limits."""
    by_limit = -(-apart_320 // exact(bays.most_centres_mm))
    by_tile = -(-apart_320 * bays.bays_per_tile // exact(bays.module_mm))
    return max(1, by_limit, by_tile)


def _between(near: int, far: int, bays: TileBays, mark: int) -> list[int]:
    """Return the lines between two fixed ones."""
    count = bays_between(far - near, bays)
    even = [near + (far - near) * part // count for part in range(1, count)]
    marked = [nearest_mark(line, mark) for line in even]
    return marked if _kept([near, *marked, far], bays) else even


def _kept(lines: list[int], bays: TileBays) -> bool:
    """Whether bays on marks keep both limits, and stay in order."""
    widths = [after - before for before, after in pairwise(lines)]
    widest = max(widths)
    within = widest * bays.bays_per_tile <= exact(bays.module_mm)
    return min(widths) > 0 and widest <= exact(bays.most_centres_mm) and within
