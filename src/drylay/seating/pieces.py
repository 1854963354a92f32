"""Usual pieces of furniture and the room their use takes, out of the table in this package."""

import tomllib
from functools import cache
from importlib import resources
from typing import Any

from attrs import evolve

from drylay.errors import Fault, InputError
from drylay.reasons import Ruling, Source
from drylay.seating.model import LEVELS, Allowances, FurniturePiece
from drylay.seating.refused import near_to, refuse

GIVEN = Source(kind="brief", title="the garden file", clause="seating.pieces")


@cache
def _table() -> dict[str, Any]:
    text = resources.files("drylay.seating").joinpath("pieces.toml").read_text("utf-8")
    return tomllib.loads(text)


def kinds() -> tuple[str, ...]:
    """Return the names of all usual pieces, in the order of the table."""
    return tuple(_table()["kinds"])


def usual_piece(kind: str, mark: str, *, count: int = 1) -> FurniturePiece:
    """Return a usual piece of this kind under a mark of its own, `count` of them side by side.

    Raises:
        InputError: There is no such kind; the nearest are told.

    Source: common practice, no source; another size is `evolve(piece, along_mm=...)`.
    """
    if kind not in kinds():
        wanted = "one of " + ", ".join(kinds())
        nearest = near_to(kind, kinds())
        raise InputError((Fault(path="kind", found=repr(kind), wanted=wanted, nearest=nearest),))
    row = _table()["kinds"][kind]
    piece = FurniturePiece(
        mark=mark,
        kind=kind,
        along_mm=float(row["along_mm"]),
        across_mm=float(row["across_mm"]),
        count=count,
        chairs=tuple(row.get("chairs", ())),
        passages=tuple(row.get("passages", ())),
        hot=row.get("hot", False),
        source=_source(f"pieces.toml, {kind}"),
    )
    refuse((piece,))
    return piece


def sized(piece: FurniturePiece, along_mm: float | None, across_mm: float | None) -> FurniturePiece:
    """Return a piece with the sizes that its owner tells, where any are told."""
    if along_mm is None and across_mm is None:
        return piece
    return evolve(
        piece,
        along_mm=piece.along_mm if along_mm is None else along_mm,
        across_mm=piece.across_mm if across_mm is None else across_mm,
        source=GIVEN,
    )


def allowances(level: str = "least") -> Allowances:
    """Return the room that use takes, at least or in comfort, each figure with its ruling.

    Raises:
        InputError: The level is neither "least" nor "comfortable".

    Source: common practice, no source.
    """
    if level not in LEVELS:
        fault = Fault(path="level", found=repr(level), wanted=" or ".join(LEVELS))
        raise InputError((fault,))
    rows = _table()["allowances"]
    values = {name: float(row[LEVELS.index(level)]) for name, row in rows.items()}
    rulings = tuple(
        Ruling(value=values[name], unit="mm", rule=row[2], source=_source(f"pieces.toml, {name}"))
        for name, row in rows.items()
    )
    return Allowances(level=level, rulings=rulings, **values)


def _source(clause: str) -> Source:
    return Source(**_table()["source"], clause=clause)
