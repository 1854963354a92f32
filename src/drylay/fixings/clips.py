"""Hidden clips: counted from gaps, joists and battens; where each board is fixed; end caps."""

from collections.abc import Iterable

from attrs import frozen

from drylay.fixings.model import Clips, EndCaps, FixedPoint
from drylay.marks import exact
from drylay.pieces.model import Joint, Piece, Pieces
from drylay.supports.model import JoistLine


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
) -> Clips:
    """Return the clips: so many where a gap between rows crosses a joist or a batten's end.

    Source: counting; (rows - 1) x joists, a starter row and an end row, by common practice.
    """
    crossings = (rows - 1) * joists + on_battens.gaps
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
        fixed_points=tuple(_fixed(piece, lines) for piece in pieces.pieces),
    )


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
