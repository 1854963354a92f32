"""Which cut tiles of an outline come out of the same tile, and how few tiles there could be.

Cut tiles are reckoned by the boxes about them, not turned. Boxes across a whole tile are sawn off
one after the other, likewise those along it; the rest come out of what these leave, in slices.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from math import ceil, floor

from attrs import define, field, frozen

from drylay.marks import exact, to_mm
from drylay.tiling.outline_model import BoxSawn, TileSawn

#: What rounding may take off a box that is as large as the tile, in 1/320 mm.
HAIR = 2
#: So many ways of rounding sizes are tried for the bound.
WAYS = 9

Size = tuple[int, int]


@frozen(kw_only=True)
class Box:
    """The box about a cut tile, in 1/320 mm."""

    mark: str
    length: int
    width: int


@frozen(kw_only=True)
class BoxSawing:
    """The tiles to saw, and the least number there could be."""

    sawn: tuple[TileSawn, ...]
    least: int


@define
class _Slice:
    """A slice across a tile: where it begins, how deep it is, how much of it is taken."""

    begin: int
    deep: int
    taken: int = 0


@define
class _Opened:
    """A tile being sawn, in slices along it, or across where `turned`."""

    turned: bool
    slices: list[_Slice] = field(factory=list)
    pieces: list[BoxSawn] = field(factory=list)

    def end(self, kerf: int) -> int:
        """Return where the next slice would begin."""
        return self.slices[-1].begin + self.slices[-1].deep + kerf if self.slices else 0


def box_of(mark: str, length_mm: float, width_mm: float, tile: Size) -> Box:
    """Return the box about a cut tile; as large as the tile where a hair is missing."""
    length, width = exact(length_mm), exact(width_mm)
    return Box(
        mark=mark,
        length=tile[0] if length >= tile[0] - HAIR else length,
        width=tile[1] if width >= tile[1] - HAIR else width,
    )


def saw_boxes(boxes: Iterable[Box], *, tile: Size, kerf: int) -> BoxSawing:
    """Return tiles that all boxes are sawn out of, and how few there are at least.

    Source: arithmetic, see docs/outline-conventions.md.
    """
    every = sorted(boxes, key=lambda box: (-box.length * box.width, -box.length))
    wide = [box for box in every if box.width == tile[1]]
    long = [box for box in every if box.length == tile[0] and box.width < tile[1]]
    rest = [box for box in every if box.length < tile[0] and box.width < tile[1]]
    opened: list[_Opened] = []
    for lot, turned in ((wide, False), (long, True), (rest, False)):
        for box in lot:
            _put(opened, box, tile, kerf, turned=turned)
    return BoxSawing(
        sawn=tuple(
            TileSawn(mark=f"TC{number}", pieces=tuple(each.pieces))
            for number, each in enumerate(opened, start=1)
        ),
        least=least_sawn(every, tile=tile, kerf=kerf),
    )


def _put(opened: list[_Opened], box: Box, tile: Size, kerf: int, *, turned: bool) -> None:
    """Saw a box out of the first tile with room for it, or out of another."""
    if not any(_fits_in(each, box, tile, kerf) for each in opened):
        opened.append(_Opened(turned=turned))
        _fits_in(opened[-1], box, tile, kerf)


def _fits_in(one: _Opened, box: Box, tile: Size, kerf: int) -> bool:
    deep, wide = (box.width, box.length) if one.turned else (box.length, box.width)
    room = (tile[1], tile[0]) if one.turned else tile
    for each in one.slices:
        if deep <= each.deep and each.taken + wide <= room[1]:
            _take(one, each, box, wide, kerf)
            return True
    begin = one.end(kerf)
    if begin + deep > room[0]:
        return False
    one.slices.append(_Slice(begin=begin, deep=deep))
    _take(one, one.slices[-1], box, wide, kerf)
    return True


def _take(one: _Opened, each: _Slice, box: Box, wide: int, kerf: int) -> None:
    at = (each.taken, each.begin) if one.turned else (each.begin, each.taken)
    one.pieces.append(BoxSawn(mark=box.mark, along_mm=to_mm(at[0]), across_mm=to_mm(at[1])))
    each.taken += wide + kerf


def least_sawn(boxes: Sequence[Box], *, tile: Size, kerf: int) -> int:
    """Return how few tiles so many boxes come out of at least, whichever way they are sawn.

    Source: arithmetic (Fekete and Schepers, dual feasible functions), see
    docs/outline-conventions.md.
    """
    shares = Counter(
        (Fraction(box.length + kerf, tile[0] + kerf), Fraction(box.width + kerf, tile[1] + kerf))
        for box in boxes
    )
    together = max(
        (_sum(shares, lambda x, y, k=k, m=m: rounded(x, k) * rounded(y, m))  # type: ignore[misc]
         for k in range(WAYS) for m in range(WAYS)),
        default=Fraction(0),
    )  # fmt: skip
    whole = shares[Fraction(1), Fraction(1)]
    wide = Counter({x: n for (x, y), n in shares.items() if y == 1 and x < 1})
    long = Counter({y: n for (x, y), n in shares.items() if x == 1 and y < 1})
    return max(ceil(together), whole + _one_way(wide) + _one_way(long))


def _sum(
    shares: "Counter[tuple[Fraction, Fraction]]", weight: Callable[[Fraction, Fraction], Fraction]
) -> Fraction:
    return sum((weight(x, y) * count for (x, y), count in shares.items()), Fraction(0))


def _one_way(shares: "Counter[Fraction]") -> int:
    sums = (sum(rounded(x, k) * n for x, n in shares.items()) for k in range(WAYS))
    return ceil(max(sums, default=0))


def rounded(share: Fraction, ways: int) -> Fraction:
    """Return a share rounded so that shares which fit into 1 never add up to more than 1."""
    if ways == 0 or ((ways + 1) * share).denominator == 1:
        return share
    return Fraction(floor((ways + 1) * share), ways)
