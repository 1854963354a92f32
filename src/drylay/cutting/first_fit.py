"""Packs the pieces of a plan by first fit and best fit, lest a dive should end dearer than they."""

from collections.abc import Iterator
from itertools import product

from drylay.cutting.ready import Ready
from drylay.cutting.rounding import Draft, redrafted, trimmed

Packed = list[tuple[int, list[int]]]  # board, pieces by length index


def packed(ready: Ready, draft: Draft) -> Draft:
    """Return the plan, or one with its pieces packed more cheaply.

    The longest piece first, on the first or the fullest board that has room, or else on a new
    board of one kind, or of the cheapest that holds it; the boards at no price are opened first,
    or like all others. Or board by board, each the cheapest for what the longest pieces fill of
    it. Every board is then as cheap as will do.
    """
    wanted = [0] * len(ready.lengths)
    for _, pieces in draft.boards:
        for piece in pieces:
            wanted[piece] += 1
    best = draft
    for boards in _packings(ready, wanted):
        bought = [
            (b, tuple((p, pieces.count(p)) for p in sorted(set(pieces)))) for b, pieces in boards
        ]
        sawn = trimmed(ready, bought, wanted)
        if sawn is not None:
            best = min(best, redrafted(ready, sawn, draft.joints), key=lambda one: one.rank)
    return best


def _packings(ready: Ready, wanted: list[int]) -> Iterator[Packed]:
    kinds: list[int | None] = [*range(len(ready.boards)), None]
    for opening, tight, shed in product(kinds, (False, True), (False, True)):
        boards = _fitted(ready, wanted, opening, tight=tight, shed=shed)
        if boards is not None:
            yield boards
    boards = _filled(ready, list(wanted))
    if boards is not None:
        yield boards


def _fitted(
    ready: Ready, wanted: list[int], opening: int | None, *, tight: bool, shed: bool
) -> Packed | None:
    """Return the pieces fitted one after the other, None if a piece finds no board."""
    left = [float("inf") if b.limit is None else b.limit for b in ready.boards]
    boards: Packed = []
    rooms: list[int] = []

    def opened(kind: int) -> None:
        left[kind] -= 1
        boards.append((kind, []))
        rooms.append(ready.boards[kind].space)

    if shed:
        for kind, board in enumerate(ready.boards):
            for _ in range((board.limit or 0) if board.price == 0 else 0):
                opened(kind)
    for piece, size in enumerate(ready.sizes):
        for _ in range(wanted[piece]):
            fits = [place for place, room in enumerate(rooms) if room >= size]
            if not fits:
                kinds = [k for k, b in enumerate(ready.boards) if b.space >= size and left[k] > 0]
                if not kinds:
                    return None
                cheapest = min(kinds, key=lambda kind: ready.boards[kind].price)
                opened(opening if opening in kinds and opening is not None else cheapest)
                fits = [len(rooms) - 1]
            place = min(fits, key=rooms.__getitem__) if tight else fits[0]
            boards[place][1].append(piece)
            rooms[place] -= size
    return boards


def _filled(ready: Ready, wanted: list[int]) -> Packed | None:
    """Return boards filled one after the other, each the cheapest for what it holds."""
    left = [float("inf") if b.limit is None else b.limit for b in ready.boards]
    boards: Packed = []
    while any(wanted):
        fillings = []
        for kind, board in enumerate(ready.boards):
            filling = _greedy(ready, wanted, board.space) if left[kind] > 0 else []
            held = sum(ready.lengths[piece] for piece in filling)
            if filling:
                fillings.append((board.price / held, kind, filling))
        if not fillings:
            return None
        _, kind, filling = min(fillings)
        left[kind] -= 1
        boards.append((kind, filling))
        for piece in filling:
            wanted[piece] -= 1
    return boards


def _greedy(ready: Ready, wanted: list[int], space: int) -> list[int]:
    filling: list[int] = []
    for piece, size in enumerate(ready.sizes):
        count = min(wanted[piece], space // size)
        filling += [piece] * count
        space -= count * size
    return filling
