"""Linear equations, few and dense, in plain Python."""

from collections.abc import Sequence

from drylay.errors import Fault, InputError

#: A pivot smaller than this beside its row: the equations do not tell.
SMALLEST = 1e-13


def solved(rows: Sequence[Sequence[float]], sides: Sequence[float]) -> tuple[float, ...]:
    """Return the unknowns of as many linear equations, by elimination with row pivots.

    Raises:
        InputError: The equations have no single answer.
    """
    table = [_scaled([*row, side]) for row, side in zip(rows, sides, strict=True)]
    for at in range(len(table)):
        best = max(range(at, len(table)), key=lambda row: abs(table[row][at]))
        table[at], table[best] = table[best], table[at]
        if abs(table[at][at]) < SMALLEST:
            raise InputError((Fault(path="beam", found="no single answer", wanted="a stiff beam"),))
        for row in range(at + 1, len(table)):
            _take_off(table[row], table[at], at)
    return _put_back(table)


def _scaled(row: list[float]) -> list[float]:
    largest = max(map(abs, row[:-1])) or 1.0
    return [value / largest for value in row]


def _take_off(row: list[float], pivot: list[float], at: int) -> None:
    share = row[at] / pivot[at]
    for column in range(at, len(row)):
        row[column] -= share * pivot[column]


def _put_back(table: list[list[float]]) -> tuple[float, ...]:
    found = [0.0] * len(table)
    for at in reversed(range(len(table))):
        known = sum(table[at][other] * found[other] for other in range(at + 1, len(table)))
        found[at] = (table[at][-1] - known) / table[at][at]
    return tuple(found)
