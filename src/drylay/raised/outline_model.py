"""The nouns of bearers under an outline: joists' runs, trimmers, lines and their stretches."""

from attrs import frozen

from drylay.reasons import because


@frozen(kw_only=True)
class JoistRun:
    """One unbroken length of joist, seen from above: `held` ends hang on a ledger or a trimmer."""

    along_mm: float
    start_mm: float = because("raised.line_count")
    end_mm: float = because("raised.line_count")
    start_held: bool = False
    end_held: bool = False


@frozen(kw_only=True)
class Trimmer:
    """What carries the joists that an opening cuts, at one edge of it, between two whole joists.

    `from_mm` and `to_mm` are the places along of the joists that carry it.
    """

    opening: int
    across_mm: float = because("raised.line_count")
    from_mm: float = because("raised.line_count")
    to_mm: float = because("raised.line_count")


@frozen(kw_only=True)
class Stretch:
    """One bearer's run along a line: what of the line lies on the deck and off its openings."""

    line: int
    across_mm: float = because("raised.line_count")
    start_mm: float = because("raised.line_count")
    end_mm: float = because("raised.line_count")


@frozen(kw_only=True)
class OutlinedLines:
    """Bearers under an outline: lines, their stretches, the joists' runs, trimmers.

    `least_count` is the most lines that any one run of joist needs by itself: no fewer do. The
    lines are the fewest among the places tried; where `line_count` is `least_count` none are
    fewer at all.
    """

    line_count: int = because("raised.line_count")
    least_count: int = because("raised.line_count")
    lines_mm: tuple[float, ...] = because("raised.line_count")
    stretches: tuple[Stretch, ...]
    runs: tuple[JoistRun, ...]
    trimmers: tuple[Trimmer, ...]
    most_ratio: float = because("raised.line_count")
    places_tried: int = because("raised.line_count")
