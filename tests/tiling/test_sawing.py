"""Cut tiles out of tiles: as few as any sawing needs, and every piece where it fits."""

from collections import Counter
from functools import cache
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.cutting.engine import solve
from drylay.cutting.model import Piece, Stock, Task
from drylay.marks import PER_MM, exact
from drylay.tiling.model import CutTile
from drylay.tiling.sawing import Sawing, least_tiles, saw

SIDE_MM, KERF_MM = 600.0, 3.0
Counts = tuple[int, int, int]


def cut_list(
    lengths: int, widths: int, corners: int, long_mm: float, wide_mm: float
) -> list[CutTile]:
    """So many cut to length, to width, and both ways, of tiles of 600."""
    sizes = [*[(long_mm, SIDE_MM)] * lengths, *[(SIDE_MM, wide_mm)] * widths,
             *[(long_mm, wide_mm)] * corners]  # fmt: skip
    return [
        CutTile(mark=f"B{number}.1", length_mm=size[0], width_mm=size[1])
        for number, size in enumerate(sizes, start=1)
    ]


def sawing_of(cut: list[CutTile], kerf_mm: float = KERF_MM) -> Sawing:
    return saw(tuple(cut), tile_length_mm=SIDE_MM, tile_width_mm=SIDE_MM, kerf_mm=kerf_mm)


def patterns(side: tuple[int, int], cut: tuple[int, int], kerf: int) -> set[Counts]:
    """Count what every sawing from edge to edge leaves of a tile, tile and pieces in whole units.

    Pieces keep their way round: the pattern on a tile has one.
    """
    (long, wide), (length, width) = side, cut
    pieces = {(length, wide): (1, 0, 0), (long, width): (0, 1, 0), (length, width): (0, 0, 1)}

    @cache
    def left(x: int, y: int) -> frozenset[Counts]:
        found = {(0, 0, 0)}
        found |= {one for (a, b), one in pieces.items() if a <= x and b <= y}
        for at in range(1, x - kerf):
            found |= {_both(*two) for two in product(left(at, y), left(x - at - kerf, y))}
        for at in range(1, y - kerf):
            found |= {_both(*two) for two in product(left(x, at), left(x, y - at - kerf))}
        return frozenset(found)

    return set(left(long, wide))


def _both(one: Counts, other: Counts) -> Counts:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def fewest(wanted: Counts, tile: set[Counts]) -> int:
    """Count the fewest tiles by trying every pattern on each."""
    most = [p for p in tile if not any(p != q and all(map(int.__le__, p, q)) for q in tile)]
    left, tiles = {wanted}, 0
    while (0, 0, 0) not in left:
        tiles += 1
        left = {
            (max(0, a - p), max(0, b - q), max(0, c - r))
            for (a, b, c), (p, q, r) in product(left, most)
        }
    return tiles


@settings(max_examples=60)
@given(
    st.integers(5, 9), st.integers(5, 9), st.integers(0, 1), st.integers(0, 5), st.integers(0, 5),
    st.integers(0, 7), st.randoms(use_true_random=False),
)  # fmt: skip
def test_the_least_is_the_fewest_of_all_sawings(  # noqa: PLR0917 - one deck
    long: int, wide: int, kerf: int, lengths: int, widths: int, corners: int, dice: object
) -> None:
    length = dice.randint(2, long - 1 - kerf)  # type: ignore[attr-defined]
    width = dice.randint(2, wide - 1 - kerf)  # type: ignore[attr-defined]
    along, across = (long + kerf) // (length + kerf), (wide + kerf) // (width + kerf)
    brute = fewest((lengths, widths, corners), patterns((long, wide), (length, width), kerf))
    assert least_tiles(lengths, widths, corners, along, across) == brute


some_cuts = st.tuples(
    st.integers(0, 9), st.integers(0, 9), st.integers(0, 4),
    st.integers(100, 590), st.integers(100, 590),
)  # fmt: skip


@given(some_cuts)
def test_no_fewer_tiles_and_no_less_than_their_area(case: tuple[int, int, int, int, int]) -> None:
    cut = cut_list(*case)
    found = sawing_of(cut)
    assert len(found.sawn) == found.least
    area = sum(exact(piece.length_mm) * exact(piece.width_mm) for piece in cut)
    assert len(found.sawn) * exact(SIDE_MM) ** 2 >= area


@given(some_cuts)
def test_every_cut_tile_comes_out_of_one_tile_that_holds_it(
    case: tuple[int, int, int, int, int],
) -> None:
    cut = {piece.mark: piece for piece in cut_list(*case)}
    found = sawing_of([*cut.values()])
    assert Counter(mark for tile in found.sawn for mark in tile.pieces) == Counter([*cut])
    for tile in found.sawn:
        pieces = [cut[mark] for mark in tile.pieces]
        edges = [piece for piece in pieces if SIDE_MM in {piece.length_mm, piece.width_mm}]
        assert len({(piece.length_mm, piece.width_mm) for piece in edges}) <= 1
        assert held(pieces, edges)


def held(pieces: list[CutTile], edges: list[CutTile]) -> bool:
    """Whether edge pieces side by side leave the corner pieces room, in strips of their own."""
    corners = [piece for piece in pieces if piece not in edges]
    kerf = exact(KERF_MM)
    room = {"length_mm": exact(SIDE_MM) + kerf, "width_mm": exact(SIDE_MM) + kerf}
    for edge in edges:
        name = "length_mm" if edge.length_mm < SIDE_MM else "width_mm"
        room[name] -= exact(getattr(edge, name)) + kerf
    if not corners:
        return min(room.values()) >= 0
    fits = [room[name] // (exact(getattr(corners[0], name)) + kerf) for name in room]
    return fits[0] * fits[1] >= len(corners)


@given(st.integers(1, 40), st.integers(100, 590), st.integers(0, 5))
def test_strips_are_as_few_as_the_cutter_finds(count: int, wide_mm: int, kerf_mm: int) -> None:
    """Strips out of tiles are lengths out of bars: the proven cutter knows how few."""
    task = Task(
        stock=(Stock(name="tile", length=600 * PER_MM, price=1),), kerf=kerf_mm * PER_MM,
        pieces=(Piece(length=wide_mm * PER_MM, count=count),),
    )  # fmt: skip
    found = sawing_of(cut_list(0, count, 0, SIDE_MM, float(wide_mm)), float(kerf_mm))
    bars = solve(task)
    assert len(found.sawn) == sum(cut.boards for cut in bars.cuts)


@pytest.mark.parametrize(
    ("wide_mm", "kerf_mm", "each"),
    [
        (298.5, 3.0, 2),  # 2 x 298.5 + 3 = 600
        (298.6, 3.0, 1),
        (300.0, 0.0, 2),
        (198.0, 3.0, 3),  # 3 x 198 + 2 x 3 = 600
        (599.0, 3.0, 1),
    ],
)
def test_how_many_lie_side_by_side(wide_mm: float, kerf_mm: float, each: int) -> None:
    assert sawing_of(cut_list(0, 6, 0, SIDE_MM, wide_mm), kerf_mm).across_each == each


def test_by_hand() -> None:
    """3014 x 2410: 6 cut lengths, 8 cut widths and 4 corners of 297, two out of a tile each way.

    3 tiles for the lengths, 4 for the widths, and one that is all corners.
    """
    found = sawing_of(cut_list(6, 8, 4, 297.0, 297.0))
    assert (found.along_each, found.across_each, found.least) == (2, 2, 8)
    assert [len(tile.pieces) for tile in found.sawn] == [2, 2, 2, 2, 2, 2, 2, 4]


def test_corner_pieces_come_out_of_what_edge_pieces_leave() -> None:
    """One cut length of 297 leaves 300 beside the kerf: two corners of 297, with 3 between."""
    found = sawing_of(cut_list(1, 0, 2, 297.0, 297.0))
    assert [tile.pieces for tile in found.sawn] == [("B1.1", "B2.1", "B3.1")]


def test_nothing_cut_saws_nothing() -> None:
    found = sawing_of([])
    assert (found.sawn, found.least) == ((), 0)
