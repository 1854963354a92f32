"""Worked examples and single values, each known by what its row is called."""

import re
from collections.abc import Callable, Iterable, Mapping

from attrs import frozen

from drylay.testing.model import Cell
from drylay.testing.timber_rows import Column, Row, Rows, cell_of, share_of

TABLE = "check-values.toml"


@frozen(kw_only=True)
class Example:
    """How rows whose name fits a pattern are worked out, from what the pattern finds in it.

    `share` is how near an answer must come where the row itself tells no `tol`.
    """

    named: re.Pattern[str]
    find: Callable[[Mapping[str, str]], float]
    share: float = 0.0
    tolerance: float = 0.0


def example(named: str, find: Callable[[Mapping[str, str]], float], **near: float) -> Example:
    """Return an example for rows whose whole name fits a regular expression."""
    return Example(named=re.compile(named), find=find, **near)


def constant(named: str, value: float) -> Example:
    """Return an example whose value is one of this library's own, held against the row's."""
    return example(re.escape(named), lambda _: value)


def worked_examples(rows: Rows, examples: Iterable[Example]) -> tuple[Cell, ...]:
    """Return a cell for each row that an example knows, named by the row's id."""
    known = tuple(examples)
    cells = (_cell(row, one, place) for place, row in enumerate(rows, 1) for one in known)
    return tuple(cell for cell in cells if cell is not None)


def _cell(row: Row, one: Example, place: int) -> Cell | None:
    found = one.named.fullmatch((row.get("name") or "").strip())
    if found is None:
        return None
    told = found.groupdict()
    column = Column(
        name="value",
        unit=row.get("unit") or "",
        tolerance=one.tolerance,
        share=share_of(row, one.share),
        find=lambda _: one.find(told),
    )
    return cell_of(TABLE, row.get("id") or f"value {place}", row, column)
