"""A mapping held against a file's first row: where each key is found, and how it is read."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from operator import itemgetter
from typing import NamedTuple

from attrs import field, frozen

from drylay.errors import Fault
from drylay.intake.cells import Cell, CellForm, cell_reader
from drylay.intake.document import placed
from drylay.intake.keys import Key
from drylay.intake.places import Keys
from drylay.intake.shown import shown_text, shown_word
from drylay.intake.values import fault
from drylay.intake.words import nearest_of
from drylay.materials.keys import BY_LENGTH, PACK_SIZES
from drylay.materials.mapping_keys import shared_keys
from drylay.materials.mapping_model import ColumnOf, RowsOf, SheetMapping
from drylay.materials.stock_model import ArticleRule
from drylay.materials.swaps import pair_of
from drylay.reasons import Source

#: Keys whose cells are all unlike.
_OWN = ("code", "title", "note")


class Common(NamedTuple):
    """Facts that many articles have alike, read and checked once; faults wait for their rows."""

    facts: Mapping[str, object]
    rules: tuple[ArticleRule, ...]
    wrong: Sequence[tuple[str, Fault]]


class CellOf(NamedTuple):
    """One cell of a row: which it is, its key, its reader, and what it has read, if kept.

    A tuple, because every cell of every row is taken apart by it.
    """

    at: int
    name: str
    read: Cell
    required: bool
    known: dict[str, object] | None
    column: str
    source: Source | None = None


class Swap(NamedTuple):
    """Two cells whose sizes may stand in each other's place, each with the other's reader."""

    pair: tuple[Key, Key]
    at: tuple[int, int]
    read: tuple[Cell, Cell]


@frozen(kw_only=True)
class Reckoning:
    """How the rows of one kind are read: what an article has once, and what each row sells.

    `there` is their place in the mapping; `dated` whether anything tells days for them. What an
    article has is its `own` cells, and `common` ones that other articles may have alike.
    """

    kind: str
    there: Keys
    size: str
    dated: bool
    own: tuple[CellOf, ...]
    common: tuple[CellOf, ...]
    rules: tuple[CellOf, ...]
    sold: tuple[CellOf, ...]
    constants: Mapping[str, object]
    sold_constants: Mapping[str, object]
    pick: Callable[[list[str]], tuple[str, ...]]
    swap: Swap | None = None
    known: dict[tuple[str, ...], Common] = field(factory=dict, eq=False)


@frozen(kw_only=True)
class Columns:
    """Every kind's rows by what the kind column says; `kind_at` is that column, if there is one."""

    kind_at: int | None
    width: int
    by_word: Mapping[str, Reckoning]


def find_columns(mapping: SheetMapping, header: list[str]) -> tuple[Columns | None, list[Fault]]:
    """Return where everything stands in a file with this first row, or what is not to be found."""
    faults = list(_missing(mapping, header))
    if faults:
        return None, faults
    kind_at = header.index(mapping.kind_column) if mapping.kind_column else None
    by_word = {rows.says: _reckoning(mapping, rows, header) for rows in mapping.rows}
    return Columns(kind_at=kind_at, width=len(header), by_word=by_word), []


def names_wanted(mapping: SheetMapping) -> set[str]:
    """Return the names of all columns that a mapping speaks of."""
    named = {column.column for column in _all_columns(mapping)}
    return named | ({mapping.kind_column} if mapping.kind_column else set())


def _missing(mapping: SheetMapping, header: list[str]) -> Iterator[Fault]:
    """Yield each column that the first row does not name, or names twice."""
    wanted: list[tuple[Keys, str]] = []
    if mapping.kind_column:
        wanted.append((("file", "kind_column"), mapping.kind_column))
    wanted += [(column.there, column.column) for column in _all_columns(mapping)]
    for there, name in dict.fromkeys(wanted):
        if header.count(name) == 1:
            continue
        told = "a column that is not in the first row" if name not in header else "two columns"
        near = nearest_of(name, tuple(header)) or _nearest_case(name, header)
        names = ", ".join(shown_word(cell) for cell in header[:30] if cell)
        nearest = shown_text(near) if near and name not in header else ""
        found = fault(f"{shown_text(name)}, {told}", f"one column of {names}", nearest)
        yield placed(mapping.document, there, found)


def _nearest_case(name: str, header: list[str]) -> str:
    lower = {cell.lower(): cell for cell in header}
    return lower.get(nearest_of(name, tuple(lower)), "")


def _all_columns(mapping: SheetMapping) -> Iterator[ColumnOf]:
    for rows in mapping.rows:
        yield from rows.columns
        yield from (rule.column for rule in rows.rules)


def _reckoning(mapping: SheetMapping, rows: RowsOf, header: list[str]) -> Reckoning:
    shared = {key.name for key in shared_keys(rows.kind, 0)}
    cells = [
        _cell(column, mapping.cells, header, shared=column.key.name in shared)
        for column in rows.columns
    ]
    rules = tuple(
        _cell(rule.column, mapping.cells, header, source=rule.source) for rule in rows.rules
    )
    own = tuple(cell for cell in cells if cell.name in _OWN)
    common = tuple(cell for cell in cells if cell.name in shared and cell not in own)
    return Reckoning(
        kind=rows.kind,
        there=rows.there,
        dated=_dated(mapping, rows),
        size="length_mm" if rows.kind in BY_LENGTH else PACK_SIZES.get(rows.kind, "count"),
        own=own,
        common=common,
        rules=rules,
        sold=tuple(cell for cell in cells if cell.name not in shared),
        constants={name: told for name, told in rows.constants.items() if name in shared},
        sold_constants={name: told for name, told in rows.constants.items() if name not in shared},
        pick=_picker([cell.at for cell in (*own, *common, *rules)]),
        swap=_swap(mapping, rows, header),
    )


def _swap(mapping: SheetMapping, rows: RowsOf, header: list[str]) -> Swap | None:
    """Return the two columns whose sizes may stand in each other's place, if a list has both."""
    pair = pair_of(rows.kind)
    columns = {column.key.name: column for column in rows.columns}
    if pair is None or not {key.name for key in pair} <= set(columns):
        return None
    first, second = (columns[key.name] for key in pair)
    return Swap(
        pair=pair,
        at=(header.index(first.column), header.index(second.column)),
        read=(
            cell_reader(pair[1], mapping.cells, unit=first.unit),
            cell_reader(pair[0], mapping.cells, unit=second.unit),
        ),
    )


def _dated(mapping: SheetMapping, rows: RowsOf) -> bool:
    told = {*mapping.head, *rows.constants, *(column.key.name for column in rows.columns)}
    return bool(told & {"valid_from", "valid_until", "sold_from", "sold_until"})


def _cell(
    column: ColumnOf,
    form: CellForm,
    header: list[str],
    *,
    shared: bool = False,
    source: Source | None = None,
) -> CellOf:
    return CellOf(
        at=header.index(column.column),
        name=column.key.name,
        column=column.column,
        read=cell_reader(column.key, form, unit=column.unit, words=column.words),
        # what a row sells may be told in several ways: what it lacks is seen when all is read
        required=column.key.required and shared,
        source=source,
        known=None if column.key.name in (*_OWN, "gtin") else {},
    )


def _picker(places: list[int]) -> Callable[[list[str]], tuple[str, ...]]:
    """Return what picks cells out of a row, always as a tuple."""
    if len(places) > 1:
        return itemgetter(*places)
    return lambda cells: tuple(cells[at] for at in places)
