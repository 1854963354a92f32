"""How a plan is walked: nouns by field, tuples by index or by the name of an element."""

from collections.abc import Iterator
from decimal import Decimal
from enum import Enum
from typing import Any

import attrs
from attrs import frozen

#: What names an element of a tuple; the first line whose fields the noun has is used.
NAMED_BY = (
    ("mark",),
    ("what",),
    ("path",),
    ("kind", "run", "rows"),
    ("rule",),
    ("code", "subject"),
    ("row", "joist"),
    ("row", "member"),
    ("left", "right"),
    ("article", "length_mm", "pack"),
    ("side",),
    ("pack",),
    ("id",),
    ("kind", "subject"),
    ("name",),
    ("subject",),
    ("edge",),
    ("run",),
    ("ply", "post"),
)
UNIT_BY_SUFFIX = {
    "_kg_m2": "kg/m2", "_kn_m2": "kN/m2", "_mm": "mm", "_m2": "m2", "_kg_m3": "kg/m3",
    "_m3": "m3", "_kg": "kg", "_deg": "deg", "_ratio": "ratio", "_h": "h", "_m2_per_l": "m2/l",
    "_kn": "kN",
}  # fmt: skip


@frozen(kw_only=True)
class Leaf:
    """One value at the end of a path, and the path of the decision that governs it."""

    path: str
    value: Any
    governed_by: str


def name_of(element: object) -> str:
    """Return what names an element of a tuple, such as its mark; "" where nothing does."""
    for names in NAMED_BY:
        if all(hasattr(element, name) for name in names):
            parts = (getattr(element, name) for name in names)
            return " ".join(str(part) for part in parts if part is not None)
    return ""


def names_of(elements: tuple[object, ...]) -> tuple[str, ...]:
    """Return the names of a tuple's elements; their indices where names are not unique."""
    names = tuple(name_of(element) for element in elements)
    clear = all(names) and len(set(names)) == len(names)
    bare = all("[" not in name and "]" not in name and not name.isdigit() for name in names)
    return names if clear and bare else tuple(str(index) for index in range(len(elements)))


def joined(path: str, name: str) -> str:
    """Return the path of a field of what stands at `path`."""
    return f"{path}.{name}" if path else name


def fields_of(value: object) -> tuple["attrs.Attribute[Any]", ...]:
    """Return a noun's fields, none for anything else."""
    noun = type(value)
    return attrs.fields(noun) if attrs.has(noun) else ()


def governor(field: "attrs.Attribute[Any]", governed_by: str) -> str:
    """Return the path of the decision that governs a field: its own, else the one above."""
    return str(field.metadata.get("why") or governed_by)


def leaves(value: object, *, path: str = "", governed_by: str = "") -> Iterator[Leaf]:
    """Yield every value at the end of a path, tuples by index."""
    if attrs.has(type(value)):
        for field in fields_of(value):
            yield from leaves(
                getattr(value, field.name),
                path=joined(path, field.name),
                governed_by=governor(field, governed_by),
            )
    elif isinstance(value, tuple):
        for index, element in enumerate(value):
            yield from leaves(element, path=f"{path}[{index}]", governed_by=governed_by)
    else:
        yield Leaf(path=path, value=value, governed_by=governed_by)


def plain(value: object) -> object:
    """Return a noun as plain data for JSON: money and enums as text, no negative zero."""
    if attrs.has(type(value)):
        return {field.name: plain(getattr(value, field.name)) for field in fields_of(value)}
    if isinstance(value, tuple):
        return [plain(element) for element in value]
    if isinstance(value, Decimal):
        return format(value, "f")
    if isinstance(value, Enum):
        return value.value
    return value + 0.0 if isinstance(value, float) else value


def unit_of(noun: object, name: str, currency: str) -> str:
    """Return the unit of a noun's field: from its name, or from the `unit` beside it."""
    for suffix, unit in UNIT_BY_SUFFIX.items():
        if name.endswith(suffix):
            return unit
    value = getattr(noun, name)
    if isinstance(value, Decimal):
        return currency
    return str(getattr(noun, "unit", "")) if isinstance(value, float) else ""
