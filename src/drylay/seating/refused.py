"""What is no furniture and no deck: every fault of it at once."""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches

from drylay.errors import Fault, InputError
from drylay.marks import is_number
from drylay.seating.model import (
    DOORS,
    SIDE_KINDS,
    SIDES,
    DeckSides,
    Door,
    FurniturePiece,
    Passage,
    StepsHead,
)

#: Lengths beyond these are slips. Assumption.
LEAST_MM, MOST_MM, MOST_DECK_MM = 50.0, 10_000.0, 100_000.0
#: More pieces are never placed in one search. Assumption.
MOST_PIECES, MOST_COUNT = 12, 20
LEAST_GRID_MM, MOST_GRID_MM = 1.0, 500.0


def refuse(
    pieces: Iterable[FurniturePiece] = (),
    sides: DeckSides | None = None,
    passages: Iterable[Passage] = (),
    lengths_mm: Mapping[str, object] | None = None,
) -> None:
    """Raise everything that is wrong with pieces, sides, passages and lengths of a deck.

    Raises:
        InputError: Something of it cannot be meant.
    """
    pieces = tuple(pieces)
    wrong = [*_pieces(pieces), *_passages(tuple(passages), pieces)]
    wrong += _sides(sides) if sides is not None else ()
    for name, value in (lengths_mm or {}).items():
        low, high = (LEAST_GRID_MM, MOST_GRID_MM) if name == "grid_mm" else (1.0, MOST_DECK_MM)
        wrong += _length(name, value, low, high)
    if wrong:
        raise InputError(tuple(wrong))


def near_to(word: object, words: Iterable[str]) -> str:
    """Return the words that may be meant."""
    near = get_close_matches(word, list(words), n=2, cutoff=0.5) if isinstance(word, str) else []
    return " or ".join(near)


def _length(path: str, value: object, low: float, high: float) -> Iterator[Fault]:
    if not is_number(value) or not math.isfinite(value) or not low <= value <= high:
        yield Fault(path=path, found=repr(value)[:60], wanted=f"{low:g} to {high:g} mm")


def _word(path: str, value: object, words: tuple[str, ...]) -> Iterator[Fault]:
    if value not in words:
        wanted = f"one of {', '.join(words)}"
        nearest = near_to(value, words)
        yield Fault(path=path, found=repr(value)[:60], wanted=wanted, nearest=nearest)


def _pieces(pieces: tuple[FurniturePiece, ...]) -> Iterator[Fault]:
    if len(pieces) > MOST_PIECES:
        yield Fault(path="pieces", found=f"{len(pieces)} pieces", wanted=f"{MOST_PIECES} at most")
    for mark, times in Counter(piece.mark for piece in pieces).items():
        if times > 1:
            yield Fault(path="pieces", found=f"{times} pieces {mark}", wanted="a mark for each")
    for at, piece in enumerate(pieces):
        yield from _piece(f"pieces[{at}]", piece)


def _piece(path: str, piece: FurniturePiece) -> Iterator[Fault]:
    yield from _length(f"{path}.along_mm", piece.along_mm, LEAST_MM, MOST_MM)
    yield from _length(f"{path}.across_mm", piece.across_mm, LEAST_MM, MOST_MM)
    if not isinstance(piece.count, int) or not 1 <= piece.count <= MOST_COUNT:
        found, wanted = repr(piece.count)[:60], f"a whole number, 1 to {MOST_COUNT}"
        yield Fault(path=f"{path}.count", found=found, wanted=wanted)
    for name, sides in (("chairs", piece.chairs), ("passages", piece.passages)):
        for side in sides:
            yield from _word(f"{path}.{name}", side, SIDES)


def _passages(passages: tuple[Passage, ...], pieces: tuple[FurniturePiece, ...]) -> Iterator[Fault]:
    marks = tuple(piece.mark for piece in pieces)
    for at, passage in enumerate(passages):
        yield from _word(f"passages[{at}].piece", passage.piece, marks)
        yield from _word(f"passages[{at}].side", passage.side, SIDES)


def _sides(sides: DeckSides) -> Iterator[Fault]:
    for side in SIDES:
        yield from _word(f"sides.{side}", getattr(sides, side), SIDE_KINDS)
    stood: dict[str, tuple[Door | StepsHead, ...]] = {"doors": sides.doors, "steps": sides.steps}
    for name, all_of_it in stood.items():
        for at, each in enumerate(all_of_it):
            path = f"sides.{name}[{at}]"
            yield from _word(f"{path}.side", each.side, SIDES)
            yield from _length(f"{path}.wide_mm", each.wide_mm, LEAST_MM, MOST_MM)
            if each.from_mm is not None:
                yield from _length(f"{path}.from_mm", each.from_mm, 0.0, MOST_DECK_MM)
    for at, door in enumerate(sides.doors):
        yield from _word(f"sides.doors[{at}].opens", door.opens, DOORS)
        if door.side in SIDES and getattr(sides, door.side) != "wall":
            found = f"{door.side}, which is {getattr(sides, door.side)}"
            yield Fault(path=f"sides.doors[{at}].side", found=found, wanted="a side with a wall")
