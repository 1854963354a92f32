"""Which pegs to move, in words: so far left or right, so far away from the house or towards it."""

from drylay.papers.model import Table
from drylay.papers.sheets import held
from drylay.papers.wording import bare, size, size_least, size_most
from drylay.work.model import PegMove, PegMoves


def move_told(move: PegMove, units: str) -> str:
    """Return a move in words: "P4: 11 mm left, 3 mm towards the house"."""
    ways = (
        (move.along_mm, "right", "left"),
        (move.across_mm, "away from the house", "towards the house"),
    )
    told = [
        f"{held(size(abs(by), units))} {more if by > 0 else less}" for by, more, less in ways if by
    ]
    return f"{move.mark}: {', '.join(told)}"


def move_table(found: PegMoves, units: str) -> Table:
    """Return every peg to move: how far to the right, away from the house, straight."""
    return Table(
        layer="moves", title="Pegs to move", aligned="<>>>",
        heads=(("", "peg"), ("to the", "right"), ("away from", "the house"), ("", "straight")),
        rows=tuple(
            (move.mark, bare(move.along_mm, units), bare(move.across_mm, units),
             bare(move.by_mm, units))
            for move in found.moves
        ),
    )  # fmt: skip


def moves_texts(found: PegMoves, units: str) -> tuple[str, ...]:
    """Return what to do with the pegs, and what it rests on."""
    return (
        *(f"{move_told(move, units)}." for move in found.moves),
        *(f"{each.message[:1].upper()}{each.message[1:]}." for each in found.findings),
        *_diagonals_told(found, units),
        f"Accepted: {held(size_most(found.accepted_mm, units))}, common practice, no source. The "
        f"tapes are off from one figure by {held(size_least(found.misfit_mm, units))} as a rule.",
        "P1 and the line from P1 to P2 stay.",
    )  # fmt: skip


def _diagonals_told(found: PegMoves, units: str) -> tuple[str, ...]:
    if found.difference_mm is None or found.slid_mm is None or not found.difference_mm:
        return ()
    way = "right" if found.slid_mm > 0 else "left"
    slid = held(size(abs(found.slid_mm), units))
    return (
        f"Check: the diagonals differ by {held(size(abs(found.difference_mm), units))}. With its "
        f"sides as planned the front has slid {slid} to the {way}: difference x diagonal / (2 x "
        "side).",
    )  # fmt: skip
