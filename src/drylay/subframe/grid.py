"""Which shapes lie near a place: a grid of squares, so that not all are looked at."""

from collections.abc import Iterator, Sequence
from itertools import product

from attrs import frozen

from drylay.subframe.plane import Place

#: How wide a square of the grid is, in mm: about a bay.
SQUARE_MM = 400.0


@frozen
class Grid:
    """Numbers of shapes by the squares of the grid they may reach into."""

    squares: dict[tuple[int, int], list[int]]


def grid_of(shapes: Sequence[Sequence[Place]]) -> Grid:
    """Return the grid of some shapes, told by their numbers."""
    squares: dict[tuple[int, int], list[int]] = {}
    for number, shape in enumerate(shapes):
        for square in _squares(shape):
            squares.setdefault(square, []).append(number)
    return Grid(squares)


def near(grid: Grid, places: Sequence[Place]) -> list[int]:
    """Return the numbers of the shapes that may reach to what lies between some places."""
    return sorted({one for square in _squares(places) for one in grid.squares.get(square, ())})


def _squares(places: Sequence[Place]) -> Iterator[tuple[int, int]]:
    spans = []
    for numbers in zip(*places, strict=True):
        low, high = int((min(numbers) - 1) // SQUARE_MM), int((max(numbers) + 1) // SQUARE_MM)
        spans.append(range(low, high + 1))
    yield from product(*spans)
