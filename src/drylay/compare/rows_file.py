"""Rows to files that any data-frame library reads: CSV and JSON lines, written as they come."""

import json
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from decimal import Decimal
from pathlib import Path
from typing import IO

from drylay.compare.row_reading import exact_of
from drylay.compare.study_model import Row
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.intake.shown import shown
from drylay.papers.spreadsheet import Cell, table_file

KINDS = (".csv", ".jsonl")


@counted
def write_rows(rows: Iterable[Row], path: str | os.PathLike[str]) -> int:
    """Return how many rows were written to a file, by its ending CSV or JSON lines.

    Rows are written as they come, beside the file, which takes its place with the last one: a file
    that is there is whole. One writes it at a time (where the system can lock files). Money stands
    digit for digit. In CSV what is not known is an empty cell, and text that a spreadsheet would
    run begins with an apostrophe.

    Raises:
        InputError: The ending is another one, the file cannot be written or somebody else writes
            it, there is no row to name the columns of a CSV file, or a row has other columns than
            the first. What `rows` themselves raise comes through as it is.
    """
    target = _target(path)
    if not isinstance(rows, Iterable):
        raise InputError((Fault(path="rows", found=shown(rows), wanted="rows"),))
    if target.suffix not in KINDS:
        wanted = f"a name that ends in {' or '.join(KINDS)}"
        raise InputError((Fault(path="path", found=repr(target.name), wanted=wanted),))
    own: list[OSError] = []
    try:
        with _beside(target) as stream:
            told = _csv if target.suffix == ".csv" else _json_lines
            count = _written(_coming(rows, own), stream, told)
            if not count and target.suffix == ".csv":
                raise InputError((Fault(path="rows", found="none", wanted="rows"),))
    except OSError as error:
        if error in own:
            raise
        raise _no_place(target, error.strerror or str(error)) from None
    return count


@contextmanager
def _beside(target: Path) -> Iterator[IO[bytes]]:
    """Open a file beside another, for one writer at a time; once written it takes its place.

    Raises:
        InputError: Somebody else is writing it.
    """
    path = target.with_name(f".{target.name}.part")
    with path.open("ab") as stream:
        locked = _lock(stream, path, target)
        try:
            stream.truncate(0)
            yield stream
            stream.flush()
            if not locked:  # where nothing is locked, nothing open is moved either
                stream.close()
            path.replace(target)
        except BaseException:
            with suppress(OSError):
                path.unlink()
            raise


def _lock(stream: IO[bytes], path: Path, target: Path) -> bool:
    """Keep others off a file until it is closed, and return whether that can be done here.

    Raises:
        InputError: Somebody else has it, or had until now: then it is no longer the file of
            this name.
    """
    try:
        import fcntl
    except ImportError:
        return False
    try:
        fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
        ours = os.path.samestat(os.fstat(stream.fileno()), path.stat())
    except (BlockingIOError, FileNotFoundError):
        ours = False
    except OSError:  # a file system that locks nothing
        return False
    if not ours:
        raise _no_place(target, "another that writes it")
    return True


def _no_place(target: Path, found: str) -> InputError:
    wanted = "a file that can be written, in a folder that is there"
    return InputError((Fault(path="path", found=found, wanted=wanted, file=target.name),))


def _target(path: object) -> Path:
    if isinstance(path, str | os.PathLike) and "\0" not in os.fspath(path):
        return Path(path)
    raise InputError((Fault(path="path", found=shown(path), wanted="a file's name"),))


def _coming(rows: Iterable[Row], own: list[OSError]) -> Iterator[Row]:
    """Yield rows as they come; an error of the system's that they raise is their own."""
    try:
        yield from rows
    except OSError as error:
        own.append(error)
        raise


def _written(rows: Iterable[Row], stream: IO[bytes], told: Callable[[Row, bool], bytes]) -> int:
    count, names = 0, None
    for row in rows:
        if not isinstance(row, Mapping):
            raise _unfit(f"rows[{count}]", row, "a row, its figures by the names of columns")
        names = tuple(row) if names is None else names
        if not names and told is _csv:
            raise InputError((Fault(path="rows", found="no column", wanted="rows with columns"),))
        if tuple(row) != names:
            raise _unlike(count, names, row)
        stream.write(told({name: _flat(row, name, count) for name in names}, not count))
        count += 1
    return count


def _flat(row: Row, name: object, number: int) -> object:
    """Return a figure of a row, if a file may hold it.

    Raises:
        InputError: It is of another kind, or a number that is none or has no end.
    """
    figure = row[name]  # type: ignore[index]
    plain = figure is None or isinstance(figure, str | bool) or exact_of(figure) is not None
    if isinstance(name, str) and plain:
        return figure
    raise _unfit(f"rows[{number}].{name}"[:200], figure, "a number, a text, true, false or None")


def _unfit(path: str, found: object, wanted: str) -> InputError:
    return InputError((Fault(path=path, found=shown(found), wanted=wanted),))


def _unlike(number: int, names: tuple[str, ...], row: Row) -> InputError:
    more = [name for name in row if name not in names]
    less = [name for name in names if name not in row]
    found = f"columns more: {', '.join(more) or 'none'}; less: {', '.join(less) or 'none'}"
    if not more and not less:
        found = "the same columns in another order"
    return InputError((Fault(path=f"rows[{number}]", found=found[:300],
                             wanted="the columns of the first row"),))  # fmt: skip


def _csv(row: Row, first: bool) -> bytes:
    table = table_file(tuple(row), [{name: _cell(each) for name, each in row.items()}], "metric")
    head = b"" if first else table_file(tuple(row), [], "metric")
    return table[len(head) :]


def _cell(figure: object) -> Cell:
    if isinstance(figure, bool):
        return "true" if figure else "false"
    return figure if isinstance(figure, Cell) else str(figure)


def _json_lines(row: Row, first: bool) -> bytes:
    del first
    pairs = (f"{json.dumps(name)}: {_json(figure)}" for name, figure in row.items())
    return f"{{{', '.join(pairs)}}}\n".encode("ascii")


def _json(figure: object) -> str:
    return f"{figure:f}" if isinstance(figure, Decimal) else json.dumps(figure, allow_nan=False)
