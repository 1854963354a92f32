"""Hidden clips: counted from gaps, joists and battens; where each board is fixed; end caps."""

import math
from collections.abc import Iterable
from fractions import Fraction

from attrs import frozen

from drylay.fixings.model import Clips, EndCaps, FixedPoint
from drylay.marks import PER_MM, exact
from drylay.pieces.model import Joint, Piece, Pieces
from drylay.supports.model import JoistLine

#: How much wider a slot is than its screw's shank: assumption, so that the shank does not bind.
SLOT_WIDER_MM = 1.0
#: Slots are told up to the next half millimetre (assumption): nobody makes one finer.
HALVES = 2


@frozen(kw_only=True)
class ClipRules:
    """What governs clips: how many where, and the screws of the last row."""

    per_crossing: int
    starter_per_joist: int
    end_row_screws_per_joist: int


@frozen(kw_only=True)
class OnBattens:
    """Where joints on battens want clips, starters and screws of their own."""

    gaps: int = 0
    first_row: int = 0
    last_row: int = 0


def count_on_battens(rows: tuple[str, ...], joints: Iterable[Joint], *, paired: bool) -> OnBattens:
    """Return how many gaps, first and last rows cross a batten that carries a board's end.

    A batten beside a joint is crossed by the gap on either side of its row. In a pair the second
    joist is counted as a joist.

    Source: counting; the end on a batten is held like any other, by common practice.
    """
    on = [] if paired else [joint for joint in joints if joint.beside]
    place = {row: at for at, row in enumerate(rows)}
    last = len(rows) - 1
    gaps = {
        (joint.joist, gap)
        for joint in on
        for gap in (place[joint.row], place[joint.row] + 1)
        if 0 < gap <= last
    }
    return OnBattens(
        gaps=len(gaps),
        first_row=sum(place[joint.row] == 0 for joint in on),
        last_row=sum(place[joint.row] == last for joint in on),
    )


def count_clips(
    *,
    rows: int,
    joists: int,
    rules: ClipRules,
    on_battens: OnBattens,
    pieces: Pieces,
    lines: tuple[JoistLine, ...],
    article: str,
    gap_mm: float,
    starter: str = "",
    shank_mm: float = 0.0,
) -> Clips:
    """Return the clips: so many where a gap between rows crosses a joist or a batten's end.

    Source: counting; (rows - 1) x joists, a starter row and an end row, by common practice.
    """
    crossings = (rows - 1) * joists + on_battens.gaps
    fixed = fixed_points(pieces, lines)
    screwed = rules.end_row_screws_per_joist > 0
    slot_mm = _slot_mm(pieces, fixed_at(fixed, lines), shank_mm) if screwed else None
    return Clips(
        article=article,
        gap_mm=gap_mm,
        per_crossing=rules.per_crossing,
        crossings=crossings,
        count=rules.per_crossing * crossings,
        starter_article=starter,
        starter_per_joist=rules.starter_per_joist,
        starter_count=rules.starter_per_joist * (joists + on_battens.first_row),
        end_row_screws_per_joist=rules.end_row_screws_per_joist,
        fixed_points=fixed,
        fixed_screws=_fixed_screws(pieces, screwed=screwed),
        slot_mm=slot_mm,
        slot_width_mm=None if slot_mm is None else shank_mm + SLOT_WIDER_MM,
    )


def fixed_points(pieces: Pieces, lines: tuple[JoistLine, ...]) -> tuple[FixedPoint, ...]:
    """Return where each board is fixed. Source: its middle, by common practice, no source."""
    return tuple(_fixed(piece, lines) for piece in pieces.pieces)


def fixed_at(points: tuple[FixedPoint, ...], lines: tuple[JoistLine, ...]) -> dict[str, float]:
    """Return the joist's centre that each piece is fixed at, by the piece's mark."""
    centres = {f"J{number}": line.offset_mm for number, line in enumerate(lines, start=1)}
    return {point.piece: centres[point.joist] for point in points}


def _fixed_screws(pieces: Pieces, *, screwed: bool) -> int:
    """Return the screws at fixed points: one for each board that the last row's do not fix.

    Source: assumption, one screw holds a board against sliding.
    """
    last = pieces.pieces[-1].row if pieces.pieces and screwed else ""
    return sum(piece.row != last for piece in pieces.pieces)


def _slot_mm(pieces: Pieces, fixed_mm: dict[str, float], shank_mm: float) -> float | None:
    """Return how long the last row's slots are: a screw in its middle, room to move either way.

    Reckoned for the end that is furthest from its board's fixed point, in the greater of heat and
    cold. Source: physics; one size for all, by our own choice.
    """
    movement = pieces.movement
    if movement is None or movement.hottest_c is None:
        return None
    last = [piece for piece in pieces.pieces if piece.row == pieces.pieces[-1].row]
    reach = max(
        max(abs(exact(fixed_mm[piece.mark]) - end)
            for end in (exact(piece.start_mm), exact(piece.start_mm) + exact(piece.length_mm)))
        for piece in last
    )  # fmt: skip
    laying, hottest, coldest = (
        Fraction(repr(each))
        for each in (movement.laying_c, movement.hottest_c,
                     movement.laying_c if movement.coldest_c is None else movement.coldest_c)
    )  # fmt: skip
    kelvins = max(hottest - laying, laying - coldest)
    moved_mm = Fraction(reach, PER_MM) * Fraction(repr(movement.growth_per_k)) * kelvins
    return math.ceil((Fraction(repr(shank_mm)) + 2 * moved_mm) * HALVES) / HALVES


def _fixed(piece: Piece, lines: tuple[JoistLine, ...]) -> FixedPoint:
    """Return where a board is fixed: the joist nearest its middle, of two the nearer the datum."""
    middle = 2 * exact(piece.start_mm) + exact(piece.length_mm)
    off = [abs(2 * exact(line.offset_mm) - middle) for line in lines]
    return FixedPoint(piece=piece.mark, joist=f"J{off.index(min(off)) + 1}")


def count_end_caps(pieces: int, *, per_end: int, article: str) -> EndCaps:
    """Return the caps for both ends of every piece of a hollow board.

    Source: counting; every open end capped, by common practice, no source.
    """
    return EndCaps(article=article, per_end=per_end, ends=2 * pieces, count=2 * pieces * per_end)
