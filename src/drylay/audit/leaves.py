"""Reading a plan by path, and walking all its values, the way the plan file spells them."""

import re
from collections.abc import Iterator
from decimal import Decimal
from math import isfinite
from typing import Any

_STEP = re.compile(r"([A-Za-z_][A-Za-z0-9_]*)|\[(\d+)\]|\.")


class NoSuchPath(Exception):  # noqa: N818 - only ever caught within the audit
    """A path names nothing in this plan."""


def _fields(noun: object) -> tuple[Any, ...]:
    """Return the fields of a noun, none for a value that is no noun."""
    return getattr(type(noun), "__attrs_attrs__", ())


def at(noun: object, path: str) -> Any:
    """Return what a path such as "frame.joists[3].offset_mm" names.

    Raises:
        NoSuchPath: It names nothing.
    """
    found, end = noun, 0
    for match in _STEP.finditer(path):
        if match.start() != end:
            raise NoSuchPath(path)
        end = match.end()
        found = _step(found, match.group(1), match.group(2), path)
    if end != len(path) or not path:
        raise NoSuchPath(path)
    return found


def _step(found: object, name: str | None, index: str | None, path: str) -> object:
    if name is not None:
        if name not in {field.name for field in _fields(found)}:
            raise NoSuchPath(path)
        return getattr(found, name)
    if index is not None:
        if not isinstance(found, tuple) or int(index) >= len(found):
            raise NoSuchPath(path)
        return found[int(index)]
    return found


def leaves(noun: object, path: str = "") -> Iterator[tuple[str, object]]:
    """Yield every value that holds no other, with its path."""
    if isinstance(noun, tuple):
        for index, item in enumerate(noun):
            yield from leaves(item, f"{path}[{index}]")
        return
    fields = _fields(noun)
    for field in fields:
        yield from leaves(getattr(noun, field.name), f"{path}.{field.name}".lstrip("."))
    if not fields:
        yield path, noun


def values(*nouns: object) -> Iterator[object]:
    """Yield every value that holds no other, in no order: quicker than a walk by path."""
    names: dict[type, tuple[str, ...]] = {}  # of each kind of noun, looked up once
    todo = list(nouns)
    while todo:
        noun = todo.pop()
        kind = type(noun)
        if kind not in names:
            names[kind] = tuple(field.name for field in _fields(noun))
        if isinstance(noun, tuple):
            todo.extend(noun)
        elif names[kind]:
            todo.extend(getattr(noun, name) for name in names[kind])
        else:
            yield noun


def all_finite(noun: object) -> bool:
    """Return whether every number within is finite."""
    for value in values(noun):
        if isinstance(value, float) and not isfinite(value):
            return False
        if isinstance(value, Decimal) and not value.is_finite():
            return False
    return True


def governing(*nouns: object) -> set[str]:
    """Return the paths of all decisions that govern a value of these nouns."""
    named: dict[type, tuple[tuple[str, str], ...]] = {}  # of each kind of noun, looked up once
    found: set[str] = set()
    todo = list(nouns)
    while todo:
        noun = todo.pop()
        kind = type(noun)
        if kind not in named:
            named[kind] = tuple((f.name, f.metadata.get("why", "")) for f in _fields(noun))
        if isinstance(noun, tuple):
            todo.extend(noun)
        for name, why in named[kind]:
            value = getattr(noun, name)
            if value is not None:
                found.add(why)
                todo.append(value)
    return found - {""}
