"""Which cut tiles come out of the same tile: the fewest tiles there can be, and why no fewer.

A cut tile keeps its way round: its pattern is not turned. Out of one tile come p cut lengths side
by side, (p - 1) kerfs between them, or q cut widths; so p q corner pieces, which are cut both ways.
Weigh a cut length q, a cut width p, a corner piece 1: no tile yields more than p q of weight, and
none yields both a cut length and a cut width, for each of them runs from edge to edge.
docs/conventions.md says why.
"""

from collections.abc import Iterator

from attrs import frozen

from drylay.marks import exact
from drylay.tiling.model import CutTile, SawnTile


@frozen(kw_only=True)
class Sawing:
    """The tiles to saw, and the least number there could be."""

    along_each: int
    across_each: int
    sawn: tuple[SawnTile, ...]
    least: int


@frozen(kw_only=True)
class Kinds:
    """Cut tiles by kind: cut to length alone, to width alone, or both ways."""

    lengths: tuple[str, ...]
    widths: tuple[str, ...]
    corners: tuple[str, ...]


def saw(
    cut: tuple[CutTile, ...], *, tile_length_mm: float, tile_width_mm: float, kerf_mm: float
) -> Sawing:
    """Return the fewest tiles that all cut tiles come out of.

    Pieces of one kind may differ by 1/320 mm; they are reckoned as the largest of them.

    Source: arithmetic, see docs/conventions.md.
    """
    along = _each(cut, "length_mm", tile_length_mm, kerf_mm)
    across = _each(cut, "width_mm", tile_width_mm, kerf_mm)
    kinds = _kinds(cut, tile_length_mm, tile_width_mm)
    tiles = tuple(_sawn(kinds, along, across))
    return Sawing(
        along_each=along,
        across_each=across,
        sawn=tuple(
            SawnTile(mark=f"TC{number}", pieces=pieces) for number, pieces in enumerate(tiles, 1)
        ),
        least=least_tiles(
            len(kinds.lengths), len(kinds.widths), len(kinds.corners), along, across
        ),
    )  # fmt: skip


def least_tiles(lengths: int, widths: int, corners: int, along: int, across: int) -> int:
    """Return how few tiles so many cut lengths, cut widths and corner pieces come out of at least.

    Source: arithmetic, see docs/conventions.md.
    """
    edges = -(-lengths // along) + -(-widths // across)
    spare = -lengths % along * across + -widths % across * along
    return edges + -(-max(0, corners - spare) // (along * across))


def _each(cut: tuple[CutTile, ...], name: str, side_mm: float, kerf_mm: float) -> int:
    """Return how many of the cut sizes lie side by side in a tile; 1 where nothing is cut so."""
    side, kerf = exact(side_mm), exact(kerf_mm)
    sizes = [size for piece in cut if (size := exact(getattr(piece, name))) < side]
    return (side + kerf) // (max(sizes) + kerf) if sizes else 1


def _kinds(cut: tuple[CutTile, ...], tile_length_mm: float, tile_width_mm: float) -> Kinds:
    found: dict[tuple[bool, bool], list[str]] = {}
    for piece in cut:
        short = exact(piece.length_mm) < exact(tile_length_mm)
        narrow = exact(piece.width_mm) < exact(tile_width_mm)
        found.setdefault((short, narrow), []).append(piece.mark)
    return Kinds(
        lengths=tuple(found.get((True, False), ())),
        widths=tuple(found.get((False, True), ())),
        corners=tuple(found.get((True, True), ())),
    )


def _sawn(kinds: Kinds, along: int, across: int) -> Iterator[tuple[str, ...]]:
    """Yield the pieces of each tile: edge pieces first, corner pieces in what these leave."""
    corners = list(kinds.corners)
    for marks, each, room in ((kinds.lengths, along, across), (kinds.widths, across, along)):
        for first in range(0, len(marks), each):
            pieces = marks[first : first + each]
            spare = (each - len(pieces)) * room
            yield (*pieces, *corners[:spare])
            del corners[:spare]
    for first in range(0, len(corners), along * across):
        yield tuple(corners[first : first + along * across])
