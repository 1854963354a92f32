"""Plans that no planner would make: every list emptied, every value put beyond belief."""

import re
from collections.abc import Iterator
from decimal import Decimal

import attrs

from audit.edits import put
from drylay.plan.model import Plan


def places(noun: object, path: str = "") -> Iterator[tuple[str, object]]:
    """Yield every value of a plan, lists and parts among them, with its path."""
    if path:
        yield path, noun
    if isinstance(noun, tuple):
        for index, item in enumerate(noun):
            yield from places(item, f"{path}[{index}]")
    elif attrs.has(type(noun)):
        for field in attrs.fields(type(noun)):
            yield from places(getattr(noun, field.name), f"{path}.{field.name}".lstrip("."))


def beyond_belief(value: object) -> tuple[object, ...]:
    """Return values of the same type that no deck has."""
    if isinstance(value, bool):
        return (not value,)
    if isinstance(value, Decimal):
        return (Decimal(0), Decimal(-7), Decimal("1e20"), Decimal("0.0000001"))
    if isinstance(value, int):
        return (0, -1, -(10**9), 10**15)
    if isinstance(value, float):
        return (0.0, -1.0, 1e-7, 1e14, -1e300)
    if isinstance(value, str):
        return ("", "J99", "\N{SNOWMAN}")
    if isinstance(value, tuple):
        return ((), value + value, value[::-1], value[:1])
    return ()


PARTS = (
    "surface",
    "edges",
    "supports",
    "pieces",
    "frame",
    "fixings",
    "buying",
    "site",
    "groundwork",
    "work",
)


def wrecks(plan: Plan) -> Iterator[tuple[str, object, Plan]]:
    """Yield the plan with one value wrecked, for every value and every way."""
    for part in PARTS:
        yield part, None, put(plan, part, None)
    for path, value in places(plan):
        ill_typed = re.search(r"\.inputs\[\d+\]$", path)  # an input is a pair
        for wreck in () if ill_typed else beyond_belief(value):
            yield path, wreck, put(plan, path, wreck)
