"""Pads: one under every corner of the grid, more under long edges, and under tiles' middles."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import frozen

from drylay.marks import exact, to_mm
from drylay.surface.model import Row
from drylay.tiling.model import Pad, TileColumn

#: How slab or membrane falls below tiles, which may lie level themselves. Common practice.
BASE_FALL_RATIO = 0.0125


@frozen(kw_only=True)
class BaseFall:
    """How far the base falls from the house edge to the front, and that over the depth."""

    fall_mm: float
    ratio: float


def base_fall(fall_to_house_mm: float | None, cover_across_mm: float) -> BaseFall | None:
    """Return how the base falls away from the house at its flatter end; None without levels."""
    if fall_to_house_mm is None:
        return None
    return BaseFall(fall_mm=0.0 - fall_to_house_mm, ratio=-fall_to_house_mm / cover_across_mm + 0.0)


@frozen(kw_only=True)
class PadRules:
    """How far apart pads may be along an edge, and how many stand under a tile's middle."""

    at_edges_most_mm: float
    at_centre: int


def place_pads(
    rows: tuple[Row, ...], columns: tuple[TileColumn, ...], rules: PadRules
) -> tuple[Pad, ...]:
    """Return every pad: corners first, then edges along the rows and across them, then middles.

    Pads stand in the middle of joints, those of the outer edges at the cover's edge. An edge longer
    than the rule has pads between its corners, evenly, the fewest that keep it; several under one
    middle share the tile's length evenly.

    Source: common practice, no source.
    """
    along = [(exact(column.start_mm), exact(column.length_mm)) for column in columns]
    across = [(exact(row.near_mm), exact(row.width_mm)) for row in rows]
    starts, nears = _lines(along), _lines(across)
    most = exact(rules.at_edges_most_mm)
    found = [("corner", start, near) for near in nears for start in starts]
    found += [("edge", start, near) for near in nears for start in _between(along, most)]
    found += [("edge", start, near) for near in _between(across, most) for start in starts]
    found += _middles(along, across, rules.at_centre)
    return tuple(
        Pad(kind=kind, start_mm=to_mm(start), across_mm=to_mm(near)) for kind, start, near in found
    )


def _lines(courses: Sequence[tuple[int, int]]) -> list[int]:
    """Return the lines of a grid in one direction: both edges, and the middle of every joint."""
    inner = [(near + width + after) // 2 for (near, width), (after, _) in pairwise(courses)]
    last, width = courses[-1]
    return [courses[0][0], *inner, last + width]


def _between(courses: Sequence[tuple[int, int]], most: int) -> list[int]:
    """Return where pads stand under an edge between its corners, course by course."""
    return [near + at for near, width in courses for at in _shares(width, -(-width // most))]


def _shares(width: int, parts: int) -> Iterator[int]:
    """Yield where a width is divided into so many equal parts."""
    yield from (width * part // parts for part in range(1, parts))


def _middles(
    along: Sequence[tuple[int, int]], across: Sequence[tuple[int, int]], each: int
) -> list[tuple[str, int, int]]:
    return [
        ("centre", start + at, near + width // 2)
        for near, width in across
        for start, length in along
        for at in (_shares(length, each + 1) if each else ())
    ]
