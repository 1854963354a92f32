"""Which decks no other beats: as good in every figure asked for, and better in one."""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from drylay.compare.row_reading import figures_in, has_column, one_currency, read_rows
from drylay.compare.rows_seen import seen_in
from drylay.compare.study_model import ParetoSet, Row
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.intake.shown import shown, shown_word

AIMS = ("least", "most")
#: What an aim is called elsewhere. Assumption.
MEANT = {"min": "least", "minimum": "least", "lowest": "least", "smallest": "least",
         "max": "most", "maximum": "most", "highest": "most", "largest": "most"}  # fmt: skip
#: So few points are held against one another one by one.
FEW = 24

_Point = tuple[int, ...]


@counted
def pareto(rows: Iterable[Row], aims: Mapping[str, str]) -> ParetoSet:
    """Return the rows that no other row beats in one aim without being worse in another.

    Figures are compared exactly, a float as the decimal number that it is written as. Rows that
    are equal in all aims stay or go together. The best in the first aim stands first, of equals the
    best in the next; of equals in all aims the one that came first.

    Args:
        rows: Flat rows, read once. Those without a figure of some aim, and decks that cannot be
            built, are counted in `without` and beat nobody.
        aims: Two or more columns of numbers, each with "least" or "most".

    Raises:
        InputError: No rows, unknown columns or words, figures that are no numbers, several
            currencies; lists every fault.

    Source: maxima of a set of vectors, H. T. Kung, F. Luccio, F. P. Preparata, "On finding the
        maxima of a set of vectors", Journal of the ACM 22 (1975): from memory.
    """
    wrong: list[Fault] = []
    read = read_rows(rows, wrong)
    asked = _aims_of(aims, wrong)
    known = [aim for aim in asked if has_column(read, "aims", aim[0], wrong)]
    columns = [figures_in(read, name, wrong) for name, _ in known]
    currency = one_currency(read, wrong)
    if wrong:
        raise InputError(tuple(wrong))
    points = _points(columns, [want for _, want in asked])
    stand = set(_unbeaten(sorted(set(points.values()))))
    order = sorted(points, key=points.__getitem__)
    return ParetoSet(
        aims=asked,
        rows=tuple(read[at] for at in order if points[at] in stand),
        beaten=tuple(read[at] for at in order if points[at] not in stand),
        among=len(read),
        without=len(read) - len(points),
        currency=currency,
        seen=seen_in(read),
    )


def _aims_of(aims: object, wrong: list[Fault]) -> tuple[tuple[str, str], ...]:
    """Return the aims as pairs; what is wrong with them goes on the list."""
    if not isinstance(aims, Mapping) or len(aims) < 2:
        nearest = '{"total": "least", "least_h": "least"}'
        wrong.append(
            Fault(path="aims", found=shown(aims), wanted="two aims at least", nearest=nearest)
        )
        return ()
    for name, want in aims.items():
        if want not in AIMS:
            nearest = MEANT.get(want.lower(), "") if isinstance(want, str) else ""
            path = f"aims.{shown_word(str(name))}"
            wrong.append(
                Fault(path=path, found=shown(want), wanted="least or most", nearest=nearest)
            )
    return tuple(aims.items())


def _points(columns: Sequence[list[Decimal | None]], wants: Sequence[str]) -> dict[int, _Point]:
    """Return, by its row, each point that has all its figures: their places, the best at 0."""
    ranks = [_ranks(*each) for each in zip(columns, wants, strict=True)]
    return {at: point for at, point in enumerate(zip(*ranks, strict=True)) if None not in point}


def _ranks(figures: Sequence[Decimal | None], want: str) -> list[int | None]:
    """Return each figure's place among the unlike ones, the best at 0: quicker to compare."""
    unlike = sorted({figure for figure in figures if figure is not None}, reverse=want == "most")
    rank = {figure: place for place, figure in enumerate(unlike)}
    return [None if figure is None else rank[figure] for figure in figures]


def _unbeaten(points: list[_Point]) -> list[_Point]:
    """Return those of points, in rising order and no two alike, that no other one beats.

    No later point beats an earlier one, so halves are taken apart: the second gives way to the
    first.
    """
    if len(points) <= 1:
        return points
    if len(points[0]) == 2:
        return _falling(points)
    half = len(points) // 2
    first, second = _unbeaten(points[:half]), _unbeaten(points[half:])
    return first + _left_by(first, second, 1)


def _falling(points: list[_Point]) -> list[_Point]:
    """Return, of points in two figures and in rising order, those better in the second than before.

    So few aims are what most people ask for: one pass, where halves would take several.
    """
    kept = points[:1]
    for point in points:
        if point[1] < kept[-1][1]:
            kept.append(point)
    return kept


def _left_by(above: list[_Point], below: list[_Point], at: int) -> list[_Point]:
    """Return the points of `below` that no point of `above` is as good as, from place `at` on."""
    if len(above) * len(below) <= FEW:
        return [point for point in below if not any(_as_good(a, point, at) for a in above)]
    if at == len(above[0]) - 1:
        best = min(a[at] for a in above)
        return [point for point in below if point[at] < best]
    if max(a[at] for a in above) <= min(point[at] for point in below):
        return _left_by(above, below, at + 1)
    middle = _middle(above, below, at)
    left = [point for point in below if point[at] < middle]
    right = [point for point in below if point[at] >= middle]
    better = [a for a in above if a[at] < middle]
    kept = _left_by([a for a in above if a[at] >= middle], right, at)
    return _left_by(better, left, at) + _left_by(better, kept, at + 1)


def _middle(above: list[_Point], below: list[_Point], at: int) -> int:
    """Return a value that parts the points in two: of all at this place the middle one."""
    values = sorted({point[at] for point in above} | {point[at] for point in below})
    return values[len(values) // 2]


def _as_good(one: _Point, other: _Point, at: int) -> bool:
    return all(a <= b for a, b in zip(one[at:], other[at:], strict=True))
