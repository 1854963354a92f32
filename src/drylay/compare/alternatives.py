"""Alternatives are read here: what each puts into a brief in place of what stands there."""

import os
from collections.abc import Iterator, Mapping
from typing import Any

from attrs import evolve

from drylay.brief.codec import brief_to_dict, put_at
from drylay.brief.keys import SECTIONS
from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.compare.model import Alternative
from drylay.errors import BriefError, Fault, UnknownPathError
from drylay.intake.document import Document, keys_of, open_document, placed
from drylay.intake.keys import text
from drylay.intake.values import fault, read_text, unfit

#: The key that lists what an alternative leaves out of the brief.
WITHOUT = "without"
MOST_BYTES = 200_000
#: Nobody compares more than so many by eye.
MOST_ALTERNATIVES = 50
MOST_NAME = 40

Source = str | os.PathLike[str] | Mapping[str, object]


def check_alternatives(source: Source) -> tuple[Fault, ...]:
    """Return what is wrong with alternatives whatever brief they are for."""
    wrong: list[Fault] = []
    document = open_alternatives(source, wrong)
    if document is not None:
        read_alternatives(document, wrong)
    return tuple(wrong)


def open_alternatives(source: Source, wrong: list[Fault]) -> Document | None:
    """Return the document with the alternatives, None where there is none to read."""
    document, faults = open_document(source, what="alternatives", most_bytes=MOST_BYTES)
    wrong += faults
    return document


def read_alternatives(document: Document, wrong: list[Fault]) -> tuple[Alternative, ...]:
    """Return every alternative that can be read; what is wrong goes on the list."""
    count = len(document.tables)
    if not 1 <= count <= MOST_ALTERNATIVES:
        wanted = f"1 to {MOST_ALTERNATIVES} tables, one for each alternative"
        wrong.append(placed(document, (), _at("alternatives", fault(f"{count} tables", wanted))))
        return ()
    read = []
    for name, table in document.tables.items():
        faults = [*_name_faults(name), *_table_faults(name, table)]
        wrong += [_placed_in(document, name, each) for each in faults]
        if not faults and isinstance(table, Mapping):
            read.append(Alternative(name=name, changes=tuple(_changes(table))))
    return tuple(read)


def brief_of(
    document: Document, brief: Brief, alternative: Alternative, wrong: list[Fault]
) -> Brief | None:
    """Return the brief as an alternative has it, None where that is no brief."""
    plain: dict[str, Any] = brief_to_dict(brief)
    known = len(wrong)
    for path, value in alternative.changes:
        try:
            put_at(plain, path, value)
        except UnknownPathError as error:
            unknown = fault(f"an unknown path {path!r}", "a path of a brief", _first(error))
            wrong.append(_placed_in(document, alternative.name, _at(path, unknown)))
    try:
        changed = read_brief(plain)
    except BriefError as error:
        wrong += faults_in(document, alternative.name, error)
    return changed if len(wrong) == known else None


def faults_in(document: Document, name: str, error: BriefError) -> list[Fault]:
    """Return the faults of a brief as faults of the alternative that it comes from."""
    return [_placed_in(document, name, each) for each in error.faults]


def _first(error: UnknownPathError) -> str:
    return ", ".join(error.nearest)


def _at(path: str, found: Fault) -> Fault:
    return evolve(found, path=path)


def _placed_in(document: Document, name: object, found: Fault) -> Fault:
    """Return a fault with its place in the alternative: the key itself, else its table."""
    inside = found.path
    told = f"{name}.{inside}" if inside else str(name)
    keys = (str(name), *keys_of(inside)) if inside else (str(name),)
    as_one_key = (str(name), inside)
    if as_one_key in document.places:  # "board.article" = ... instead of board.article = ...
        keys = as_one_key
    return placed(document, keys, evolve(found, path=told[:200]))


def _name_faults(name: object) -> Iterator[Fault]:
    read = read_text(text("name", MOST_NAME), name)
    if isinstance(read, Fault):
        yield read


def _table_faults(name: object, table: object) -> Iterator[Fault]:
    if not isinstance(table, Mapping):
        yield unfit(table, f"a table of a brief's paths, such as [{name}]")
        return
    for path, value in table.items():
        if not isinstance(path, str):
            yield unfit(path, "a path of a brief")
        elif path in SECTIONS and not isinstance(value, Mapping | None):
            yield _at(path, unfit(value, f"a table, or {path} listed in {WITHOUT}"))
    left_out = table.get(WITHOUT, [])
    if not isinstance(left_out, list | tuple) or not all(isinstance(p, str) for p in left_out):
        yield _at(WITHOUT, unfit(left_out, "a list of a brief's paths", f'{WITHOUT} = ["finish"]'))


def _changes(table: Mapping[Any, Any]) -> Iterator[tuple[str, object]]:
    """Yield what a table changes, path by path: first what it leaves out."""
    yield from ((path, None) for path in table.get(WITHOUT, ()))
    for path, value in table.items():
        if path in SECTIONS and isinstance(value, Mapping):
            yield from ((f"{path}.{key}", inside) for key, inside in value.items())
        elif path != WITHOUT:
            yield path, value
