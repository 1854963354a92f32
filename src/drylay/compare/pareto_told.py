"""A Pareto set in words, and as flat rows."""

from collections.abc import Callable, Iterator, Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from drylay.compare.row_reading import columns_of, exact_of, put_in, told_value
from drylay.compare.rows_seen import gaps_told, stops_told
from drylay.compare.study_model import ParetoSet, Row
from drylay.compare.table import NOTHING
from drylay.papers.layout import COLUMNS, heading, para, points, table
from drylay.papers.wording import clean, many

#: So many decks are told in words: the rest stands in the table.
MOST_TOLD = 60
MOST_COLUMN = 32
#: No name of an alternative is longer: each is told whole.
MOST_WORDS = 80
#: Floats are told to so many decimals.
DECIMALS = Decimal("0.0001")
ROUNDED = (
    "Figures of more than four decimals are rounded: up where the least is wanted, down where the "
    "most is."
)

_Told = Callable[[Row], str]


def rows_of(answer: ParetoSet) -> tuple[Row, ...]:
    """Return the set as flat rows: every column that any of them has, None where one has none."""
    names = columns_of(answer.rows)
    return tuple({name: row.get(name) for name in names} for row in answer.rows)


def text_of(answer: ParetoSet) -> str:
    """Return the set as text of 78 columns: what was asked for, and the decks that stand."""
    lines = [*heading("DECKS THAT NO OTHER BEATS", "="), *para(_asked(answer)), ""]
    lines += [*para(_counted(answer)), ""]
    lines += _seen(answer)
    told = answer.rows[:MOST_TOLD]
    lines += _decks(told, _columns(answer)) if told else []
    left = len(answer.rows) - len(told)
    if left:
        lines += ["", f"{many(left, 'more deck')} in the table."]
    if any(_is_rounded(row.get(name)) for row in told for name, _ in answer.aims):
        lines += ["", *para(ROUNDED)]
    return "\n".join(lines).strip("\n") + "\n"


def _seen(answer: ParetoSet) -> list[str]:
    """Return what stops decks, and how far orders may be from the cheapest, if there is any."""
    told = (stops_told(answer.seen), gaps_told(answer.seen, answer.currency))
    lines = [line for text in told if text for line in para(text)]
    return [*lines, ""] if lines else []


def _asked(answer: ParetoSet) -> str:
    aims = ", ".join(f"{want} {clean(name, MOST_COLUMN)}" for name, want in answer.aims)
    money = f" All money in {clean(answer.currency, 8)}." if answer.currency else ""
    return f"Wanted: {aims}.{money}"


def _counted(answer: ParetoSet) -> str:
    stand, beaten = len(answer.rows), len(answer.beaten)
    told = f"{many(stand, 'deck')} of {answer.among} {'stands' if stand == 1 else 'stand'} here."
    if beaten:
        told += (
            f" {many(beaten, 'other is', 'others are')} beaten: a deck here is as good in all that "
            "is wanted, and better in one."
        )
    if answer.without:
        told += (
            f" {many(answer.without, 'deck')} without one of these figures, or that cannot be "
            f"built, {'is' if answer.without == 1 else 'are'} left out."
        )
    return told


def _columns(answer: ParetoSet) -> list[tuple[str, _Told]]:
    """Return what is told of each deck: what was put in where decks differ in it, and the aims."""
    everyone = (*answer.rows, *answer.beaten)
    aims = dict(answer.aims)
    names = [name for name in columns_of(_put_in_rows(answer.rows)) if name not in aims]
    varied = [name for name in names if name == "case" or _differ(everyone, name)]
    plain: list[tuple[str, _Told]] = [(name, _cell(name)) for name in varied]
    return plain + [(name, _figure(name, want)) for name, want in answer.aims]


def _put_in_rows(rows: Sequence[Row]) -> Iterator[Row]:
    """Yield of each row what was put into its case."""
    return ({name: row[name] for name in put_in(row)} for row in rows)


def _differ(rows: Sequence[Row], name: str) -> bool:
    first = told_value(rows[0].get(name))
    return any(told_value(row.get(name)) != first for row in rows)


def _cell(name: str) -> _Told:
    """Return how a column is told of what was put in; where nothing was, a dash."""

    def told(row: Row) -> str:
        value = row.get(name)
        return NOTHING if value is None else clean(told_value(value), MOST_WORDS)

    return told


def _figure(name: str, want: str) -> _Told:
    """Return how a figure is told: money to the last digit, others never better than they are."""
    rounding = ROUND_CEILING if want == "least" else ROUND_FLOOR

    def told(row: Row) -> str:
        value = row[name]
        exact = exact_of(value)
        if _is_rounded(value) and exact is not None:
            value = exact.quantize(DECIMALS, rounding)
        return told_value(value)

    return told


def _is_rounded(value: object) -> bool:
    """Return whether a figure has more decimals than are told."""
    if not isinstance(value, float):
        return False
    exponent = Decimal(repr(float(value))).as_tuple().exponent  # numpy's repr is no number
    return isinstance(exponent, int) and exponent < -4


def _decks(rows: Sequence[Row], columns: Sequence[tuple[str, _Told]]) -> list[str]:
    """Return a table with a line for each deck; where it would be too wide, a point for each."""
    names = [name for name, _ in columns]
    cells = [tuple(told(row) for _, told in columns) for row in rows]
    aligned = "".join("<" if _is_text(rows, name) else ">" for name in names)
    lines = table([*_heads(names), *cells], aligned)
    if max(map(len, lines)) <= COLUMNS:
        return lines
    called = [clean(name, MOST_COLUMN) for name in names]
    return points(
        ", ".join(f"{name} {cell}" for name, cell in zip(called, own, strict=True)
                  if cell != NOTHING)
        for own in cells
    )  # fmt: skip


def _heads(names: Sequence[str]) -> list[tuple[str, ...]]:
    """Return a table's head: a path in two lines, "cover." above "along_mm", not to be wide."""
    parted = [name.rpartition(".") for name in names]
    above = tuple(clean(path + dot, MOST_COLUMN) for path, dot, _ in parted)
    last = tuple(clean(name, MOST_COLUMN) for *_, name in parted)
    return [above, last] if any(above) else [last]


def _is_text(rows: Sequence[Row], name: str) -> bool:
    return any(isinstance(row.get(name), str) for row in rows)
