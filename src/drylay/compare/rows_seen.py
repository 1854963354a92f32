"""What is to be known of rows whatever is asked of them: gaps of orders, what stops decks."""

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal

from drylay.compare.row_reading import OUTCOME, can_be_built, exact_of, told_value
from drylay.compare.study_model import Row, RowsSeen
from drylay.compare.table import MOST_NAME
from drylay.papers.wording import clean, many

#: So many codes are told in words.
MOST_CODES = 6
#: Stands for a code where a row has none.
BLOCKED = "blocked"


def seen_in(rows: Sequence[Row]) -> RowsSeen:
    """Return how many orders may be cheaper, and what stops decks that cannot be built."""
    built = [row for row in rows if can_be_built(row)]
    known = [_gap_of(row) for row in built]
    gaps = [gap for gap in known if gap is not None and gap > 0]
    return RowsSeen(
        buildable=len(built),
        gaps=len(gaps),
        most_gap=max(gaps, default=Decimal(0)),
        stop_codes=stop_codes_of([row for row in rows if not can_be_built(row)]),
    )


def _gap_of(row: Row) -> Decimal | None:
    """Return a row's gap: a cell of CSV is text, and not to be passed over for that."""
    gap = row.get("gap")
    if not isinstance(gap, str):
        return exact_of(gap)
    try:
        return exact_of(Decimal(gap))
    except ArithmeticError:  # no number
        return None


def stop_codes_of(rows: Sequence[Row]) -> tuple[tuple[str, int], ...]:
    """Return how many of these decks each code stops, those met most before others."""
    codes = Counter(code for row in rows for code in _codes(row))
    return tuple(sorted(codes.items(), key=lambda each: (-each[1], each[0])))


def _codes(row: Row) -> Iterator[str]:
    """Yield what stops a deck, each code once; what became of it where it has no code."""
    told = " ".join(told_value(row[name]) for name in ("codes", "stop_codes") if row.get(name))
    yield from dict.fromkeys(told.split()) or (str(row.get(OUTCOME) or BLOCKED),)


def gaps_told(seen: RowsSeen, currency: str) -> str:
    """Return how far orders may be from the cheapest, "" where no row tells of a gap."""
    if not seen.gaps:
        return ""
    decks = "1 deck" if seen.buildable == 1 else f"{seen.gaps} of {seen.buildable} decks"
    most = f"{told_value(seen.most_gap)} {clean(currency, 8)}".strip()
    return (
        f"The order of {decks}, joints reckoned in, may be dearer than the cheapest, by {most} at "
        "most (`gap`): what differs by less may differ by how it was cut."
    )


def codes_told(codes: Sequence[tuple[str, int]]) -> str:
    """Return codes with how many decks each stops, those met most."""
    told = [f"{clean(code, MOST_NAME)} ({count})" for code, count in codes[:MOST_CODES]]
    left = len(codes) - MOST_CODES
    return ", ".join(told) + (f", and {many(left, 'more code')}" if left > 0 else "")


def stops_told(seen: RowsSeen) -> str:
    """Return what stops the decks that cannot be built, "" where nothing tells it."""
    told = tuple(each for each in seen.stop_codes if each[0] != BLOCKED)
    return f"Cannot be built: {codes_told(told)}." if told else ""
