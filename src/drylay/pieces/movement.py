"""What becomes of the gap between board ends as boards get hot and cold."""

import math
from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise

from drylay.marks import PER_MM, exact, to_mm
from drylay.pieces.model import Movement, OtherDay, Piece, Pieces

#: Temperatures on laying day for which end gaps are told.
DAYS_C = (0, 5, 10, 15, 20, 25, 30)


def movement_of(
    pieces: Pieces,
    *,
    growth_per_k: float,
    laying_c: float,
    hottest_c: float | None,
    coldest_c: float | None,
    board_mm: float,
    fixed_mm: Mapping[str, float],
) -> Movement:
    """Return the growth of the longest board, and the gap at joints when hottest and coldest.

    A board moves away from where it is fixed: `fixed_mm` tells that of a piece by its mark, along
    the boards; a piece it does not tell is fixed at its own middle. The gaps told are those of the
    joint that moves most; without joints there are none.

    Source: physics; one fixed point for a board by common practice, no source.
    """
    per_k, gap = Fraction(repr(growth_per_k)), Fraction(exact(pieces.end_gap_mm), PER_MM)
    between, outer = _between(pieces, fixed_mm), _outer(pieces, fixed_mm)

    def grown(length_640: int | None, to_c: float | None) -> Fraction | None:
        if length_640 is None or to_c is None:
            return None
        kelvins = Fraction(repr(to_c)) - Fraction(repr(laying_c))
        return Fraction(length_640, 2 * PER_MM) * per_k * kelvins

    growth = grown(2 * exact(board_mm), hottest_c)
    hot, cold = grown(between, hottest_c), grown(between, coldest_c)
    return Movement(
        growth_per_k=growth_per_k,
        laying_c=laying_c,
        hottest_c=hottest_c,
        coldest_c=coldest_c,
        board_mm=board_mm,
        growth_mm=_told(growth),
        narrowest_mm=None if hot is None else float(gap - hot),
        widest_mm=None if cold is None else float(gap - cold),
        between_mm=None if between is None else to_mm(between) / 2,
        outer_mm=_told(grown(outer, hottest_c)),
        other_days=()
        if between is None or hottest_c is None
        else _other_days(max(between, 2 * exact(board_mm)), per_k, hottest_c),
    )


def _other_days(length_640: int, per_k: Fraction, hottest_c: float) -> tuple[OtherDay, ...]:
    """Return the end gaps for other temperatures on laying day, none as hot as the hottest."""
    length_mm, hottest = Fraction(length_640, 2 * PER_MM), Fraction(repr(hottest_c))
    return tuple(
        OtherDay(
            laying_c=float(day_c),
            end_gap_mm=float(math.ceil(length_mm * per_k * (hottest - day_c))),
        )
        for day_c in DAYS_C
        if day_c < hottest
    )


def _told(length_mm: Fraction | None) -> float | None:
    return None if length_mm is None else float(length_mm)


def _by_row(pieces: Pieces) -> list[list[Piece]]:
    rows: dict[str, list[Piece]] = {}
    for piece in pieces.pieces:
        rows.setdefault(piece.row, []).append(piece)
    return list(rows.values())


def _reach_640(piece: Piece, fixed_mm: Mapping[str, float]) -> tuple[int, int]:
    """Return how far a piece's near and far end lie from where it is fixed."""
    start, length = 2 * exact(piece.start_mm), 2 * exact(piece.length_mm)
    told = fixed_mm.get(piece.mark)
    fixed = start + length // 2 if told is None else 2 * exact(told)
    return fixed - start, start + length - fixed


def _between(pieces: Pieces, fixed_mm: Mapping[str, float]) -> int | None:
    """Return the most board between the fixed points of two that meet, in 1/640 mm."""
    meeting = [
        _reach_640(one, fixed_mm)[1] + _reach_640(other, fixed_mm)[0]
        for row in _by_row(pieces)
        for one, other in pairwise(row)
    ]
    return max(meeting, default=None)


def _outer(pieces: Pieces, fixed_mm: Mapping[str, float]) -> int | None:
    """Return the most board between a fixed point and an end at the deck's edge, in 1/640 mm."""
    ends = [
        reach
        for row in _by_row(pieces)
        for reach in (_reach_640(row[0], fixed_mm)[0], _reach_640(row[-1], fixed_mm)[1])
    ]
    return max(ends, default=None)
