"""What becomes of the gap between board ends as boards get hot and cold."""

from fractions import Fraction
from itertools import pairwise

from drylay.marks import PER_MM, exact
from drylay.pieces.model import Movement, Piece, Pieces


def movement_of(
    pieces: Pieces,
    *,
    growth_per_k: float,
    laying_c: float,
    hottest_c: float | None,
    coldest_c: float | None,
    board_mm: float,
) -> Movement:
    """Return the growth of the longest board, and the gap at joints when hottest and coldest.

    Each board is fixed at its own middle, so that either neighbour of a joint sends half of its
    growth there. The gaps told are those of the joint that moves most; without joints there are
    none.

    Source: physics; boards fixed at their middle by common practice, no source.
    """
    between = _longest_between(pieces)
    per_k, gap = Fraction(repr(growth_per_k)), Fraction(exact(pieces.end_gap_mm), PER_MM)

    def grown(length_mm: Fraction, to_c: float | None) -> Fraction | None:
        if to_c is None:
            return None
        return length_mm * per_k * (Fraction(repr(to_c)) - Fraction(repr(laying_c)))

    growth = grown(Fraction(exact(board_mm), PER_MM), hottest_c)
    hot, cold = (
        None if between is None else grown(between, to_c) for to_c in (hottest_c, coldest_c)
    )
    return Movement(
        growth_per_k=growth_per_k,
        laying_c=laying_c,
        hottest_c=hottest_c,
        coldest_c=coldest_c,
        board_mm=board_mm,
        growth_mm=None if growth is None else float(growth),
        narrowest_mm=None if hot is None else float(gap - hot),
        widest_mm=None if cold is None else float(gap - cold),
    )


def _longest_between(pieces: Pieces) -> Fraction | None:
    """Return the most that lies between the middles of two boards that meet, their gap left out."""
    rows: dict[str, list[Piece]] = {}
    for piece in pieces.pieces:
        rows.setdefault(piece.row, []).append(piece)
    meeting = [
        exact(one.length_mm) + exact(other.length_mm)
        for row in rows.values()
        for one, other in pairwise(row)
    ]
    return Fraction(max(meeting), 2 * PER_MM) if meeting else None
