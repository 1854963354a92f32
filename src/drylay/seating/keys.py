"""Every key of the garden file's `[seating]`, with its bounds.

The bounds keep slips out, metres taken for millimetres. Source: assumption.
"""

from drylay.intake.keys import (
    Key,
    choice,
    choices,
    count,
    flag,
    length,
    table,
    tables,
    text,
)
from drylay.seating.model import DOORS, SIDE_KINDS, SIDES
from drylay.seating.pieces import kinds
from drylay.seating.refused import (
    LEAST_GRID_MM,
    LEAST_MM,
    MOST_COUNT,
    MOST_DECK_MM,
    MOST_GRID_MM,
    MOST_MM,
)


def _size(name: str) -> Key:
    return length(name, 100, MOST_DECK_MM)


def _at_side() -> tuple[Key, ...]:
    return (
        length("wide_mm", LEAST_MM, MOST_MM, required=True),
        length("from_mm", 0, MOST_DECK_MM),
    )


WISH = (
    length("grid_mm", LEAST_GRID_MM, MOST_GRID_MM),
    table("cover"),
    table("most"),
    table("sides"),
    tables("pieces"),
    tables("doors"),
    tables("steps"),
    tables("passages"),
)
COVER = tuple(length(n, 100, MOST_DECK_MM, required=True) for n in ("along_mm", "across_mm"))
MOST = (_size("along_mm"), _size("across_mm"))
ON_SIDES = tuple(choice(side, SIDE_KINDS) for side in SIDES)
DOOR = (choice("side", SIDES), *_at_side(), choice("opens", DOORS, required=True))
STEPS = (choice("side", SIDES, required=True), *_at_side())
PASSAGE = (text("piece", required=True), choice("side", SIDES, required=True))


def piece_keys() -> tuple[Key, ...]:
    """Return the keys of one piece; its kinds are those of the table of usual pieces."""
    return (
        text("mark", 20, required=True),
        choice("kind", kinds(), required=True),
        length("along_mm", LEAST_MM, MOST_MM),
        length("across_mm", LEAST_MM, MOST_MM),
        count("count", 1, MOST_COUNT),
        choices("chairs", SIDES),
        choices("passages", SIDES),
        flag("may_turn"),
        text("group", 20),
    )
