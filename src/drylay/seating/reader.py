"""The garden file's `[seating]` is read here: its table in, the wish out, or every fault told."""

from collections.abc import Mapping
from typing import Any

from attrs import evolve

from drylay.errors import Fault, InputError
from drylay.intake.document import keys_of
from drylay.intake.keys import Key
from drylay.intake.tables import UNREADABLE, Reading, read_table, read_tables, report
from drylay.intake.values import fault
from drylay.seating.keys import COVER, DOOR, MOST, ON_SIDES, PASSAGE, STEPS, WISH, piece_keys
from drylay.seating.model import (
    DeckSides,
    Door,
    FurniturePiece,
    Passage,
    SeatingWish,
    StepsHead,
)
from drylay.seating.pieces import sized, usual_piece
from drylay.seating.refused import refuse

SECTION = "seating"
Answers = dict[str, Any]


def read_seating(reading: Reading) -> SeatingWish | None:
    """Return what the garden file wishes for seating, None where it has no such table or faults.

    Every fault goes on the reading's list, with its place.
    """
    table = reading.document.tables.get(SECTION)
    if table is None:
        return None
    before = len(reading.faults)
    top = read_table(reading, (SECTION,), table, WISH)
    inside = table if isinstance(table, Mapping) else {}
    wish = _wish(reading, top, inside)
    _pieces_there(reading, inside)
    _one_of_two(reading, inside)
    if wish is not None and len(reading.faults) == before:
        _meaning(reading, wish)
    return wish if len(reading.faults) == before else None


def _wish(reading: Reading, top: Answers, inside: Mapping[Any, Any]) -> SeatingWish | None:
    before = len(reading.faults)
    cover = _table(reading, inside, "cover", COVER)
    most = _table(reading, inside, "most", MOST)
    sides = _table(reading, inside, "sides", ON_SIDES)
    doors = _tables(reading, inside, "doors", DOOR)
    steps = _tables(reading, inside, "steps", STEPS)
    passages = _tables(reading, inside, "passages", PASSAGE)
    pieces = _tables(reading, inside, "pieces", piece_keys())
    if len(reading.faults) > before or UNREADABLE in top.values():
        return None
    return SeatingWish(
        pieces=tuple(map(_piece, pieces)),
        sides=DeckSides(
            **sides,
            doors=tuple(Door(**door) for door in doors),
            steps=tuple(StepsHead(**head) for head in steps),
        ),
        passages=tuple(Passage(**passage) for passage in passages),
        **top,
        **cover,
        **{f"most_{name}": value for name, value in most.items()},
    )


def _table(
    reading: Reading, inside: Mapping[Any, Any], name: str, known: tuple[Key, ...]
) -> Answers:
    given = inside.get(name)
    return {} if given is None else read_table(reading, (SECTION, name), given, known)


def _tables(
    reading: Reading, inside: Mapping[Any, Any], name: str, known: tuple[Key, ...]
) -> list[Answers]:
    return read_tables(reading, (SECTION, name), inside.get(name), known)


def _piece(told: Answers) -> FurniturePiece:
    """Return a usual piece with what its owner tells of it instead."""
    piece = usual_piece(told["kind"], told["mark"], count=told.get("count", 1))
    piece = sized(piece, told.get("along_mm"), told.get("across_mm"))
    own = {n: told[n] for n in ("chairs", "passages", "may_turn", "group") if n in told}
    return evolve(piece, **own)


def _pieces_there(reading: Reading, inside: Mapping[Any, Any]) -> None:
    if not inside.get("pieces"):
        wanted = "at least one [[seating.pieces]]"
        found = evolve(fault("no pieces", wanted), path="seating.pieces")
        report(reading, (SECTION,), found, at_key=True)


def _one_of_two(reading: Reading, inside: Mapping[Any, Any]) -> None:
    if inside.get("cover") is not None and inside.get("most") is not None:
        wanted = "a cover that is fixed, or bounds of the search"
        found = fault("both cover and most", wanted, "leave out most")
        report(reading, (SECTION, "most"), found, at_key=True)


def _meaning(reading: Reading, wish: SeatingWish) -> None:
    """Report what each key by itself could not tell: marks twice, a piece that is not there."""
    try:
        refuse(wish.pieces, wish.sides, wish.passages)
    except InputError as error:
        for wrong in error.faults:
            told = _place(wrong)
            report(reading, keys_of(told.path), told)


def _place(wrong: Fault) -> Fault:
    """Return a fault with its path as the garden file has it."""
    return evolve(wrong, path=f"{SECTION}.{wrong.path.replace('sides.doors', 'doors')}")
