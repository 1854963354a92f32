"""Changing a frozen plan by path, for planted faults and for the corruption campaign."""

import re
from collections.abc import Callable
from typing import TypeVar

from attrs import evolve

Noun = TypeVar("Noun")
STEPS = re.compile(r"\w+")


def steps(path: str) -> list[str]:
    return STEPS.findall(path)


def at(noun: object, path: str) -> object:
    """Return the value at a path."""
    for step in steps(path):
        noun = noun[int(step)] if isinstance(noun, tuple) else getattr(noun, step)
    return noun


def change(noun: Noun, path: str, how: Callable[[object], object]) -> Noun:
    """Return the noun with the value at a path put through a function."""
    return _change(noun, steps(path), how)  # type: ignore[return-value]


def _change(noun: object, path: list[str], how: Callable[[object], object]) -> object:
    if not path:
        return how(noun)
    step, *rest = path
    if isinstance(noun, tuple):
        items = list(noun)
        items[int(step)] = _change(items[int(step)], rest, how)
        return tuple(items)
    return evolve(noun, **{step: _change(getattr(noun, step), rest, how)})  # type: ignore[misc]


def put(noun: Noun, path: str, value: object) -> Noun:
    """Return the noun with another value at a path."""
    return change(noun, path, lambda _old: value)


def drop(noun: Noun, path: str, index: int) -> Noun:
    """Return the noun without one item of the list at a path."""
    return change(noun, path, lambda old: (*old[:index], *old[index + 1 :]))  # type: ignore[index]


def double(noun: Noun, path: str, index: int) -> Noun:
    """Return the noun with one item of the list at a path twice."""
    return change(noun, path, lambda old: (*old, old[index]))  # type: ignore[misc, index]


def swap(noun: Noun, path: str, first: int, second: int) -> Noun:
    """Return the noun with two items of the list at a path changed over."""

    def turned(old: object) -> object:
        items = list(old)  # type: ignore[call-overload]
        items[first], items[second] = items[second], items[first]
        return tuple(items)

    return change(noun, path, turned)
