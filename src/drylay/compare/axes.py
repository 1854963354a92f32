"""What varies in a study: each path with its values, or alternatives of several paths by name."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import islice
from typing import Any

from attrs import evolve, frozen

from drylay.brief.codec import brief_to_dict, put_at
from drylay.brief.model import Brief
from drylay.compare.alternatives import read_alternatives
from drylay.compare.plain import column_of, plain_value
from drylay.compare.shelf import STOCK, stock_path_fault, stock_value_fault
from drylay.compare.study_row import own_columns
from drylay.errors import Fault, UnknownPathError
from drylay.intake.document import Document
from drylay.intake.keys import text
from drylay.intake.shown import shown, shown_text
from drylay.intake.values import read_text, unfit

#: So long is the name of a column at most.
MOST_NAME = 80
Changes = tuple[tuple[str, object], ...]
Named = tuple[tuple[str, str], ...]
A_LIST = "a list of values, or a range"
#: More values than these of one path are a slip. Assumption.
MOST_VALUES = 10_000_000


@frozen(kw_only=True)
class Axis:
    """One thing that varies: a path with its values, or a name with alternatives by theirs."""

    name: str
    values: Sequence[object]
    alternatives: tuple[Changes, ...] = ()

    @property
    def paths(self) -> tuple[str, ...]:
        """Return the paths that change along it, each once."""
        if not self.alternatives:
            return (self.name,)
        return tuple(dict.fromkeys(path for changes in self.alternatives for path, _ in changes))


def level_at(axis: Axis, at: int) -> tuple[Changes, Named]:
    """Return what an axis changes at one of its levels, and the words it puts into the row."""
    if axis.alternatives:
        changes = tuple((path, plain_value(value)) for path, value in axis.alternatives[at])
        return changes, ((axis.name, str(axis.values[at])),)
    return ((axis.name, plain_value(axis.values[at])),), ()


def axes_of(brief: Brief, values: Mapping[str, object], wrong: list[Fault]) -> tuple[Axis, ...]:
    """Return what varies, in the order told; what cannot be used goes on the list."""
    if not isinstance(values, Mapping) or not values:
        wrong.append(Fault(path="values", found=shown(values), wanted="paths with their values"))
        return ()
    plain = brief_to_dict(brief)
    read = (_axis(plain, name, given, wrong) for name, given in values.items())
    axes = tuple(axis for axis in read if axis is not None)
    wrong += _twice(axes)
    wrong += _hidden(axes)
    wrong += _column_faults(axes)
    return axes


def _axis(plain: dict[str, Any], name: object, given: object, wrong: list[Fault]) -> Axis | None:
    if not isinstance(name, str):
        wrong.append(evolve(unfit(name, "a path of a brief"), path="values"))
        return None
    if isinstance(given, Mapping):
        return _alternatives(plain, name, given, wrong)
    path_fault = _path_fault(plain, name)
    if path_fault is not None:
        wrong.append(path_fault)
    # a set has another order each time it is made
    if isinstance(given, str | bytes | set | frozenset) or not isinstance(given, Iterable):
        near = f"[{shown(given)}]" if isinstance(given, str | int | float) else ""
        wrong.append(evolve(unfit(given, A_LIST, near[:80]), path=name))
        return None
    held = given if isinstance(given, range) else tuple(islice(given, MOST_VALUES + 1))
    if not held:
        wrong.append(Fault(path=name, found="no values", wanted=A_LIST))
    if held[MOST_VALUES : MOST_VALUES + 1]:
        wrong.append(Fault(path=name, found="more values", wanted=f"{MOST_VALUES} at most"))
        return None
    wrong += _value_faults(name, held if isinstance(held, tuple) else (*held[:1], *held[-1:]))
    return Axis(name=name, values=held)


def _alternatives(
    plain: dict[str, Any], name: str, given: Mapping[Any, Any], wrong: list[Fault]
) -> Axis | None:
    """Return alternatives under the name of their column."""
    if _path_fault(plain, name) is None:
        wrong.append(evolve(unfit(given, A_LIST), path=name))
        return None
    read_name = read_text(text(name, MOST_NAME), name)
    if isinstance(read_name, Fault):
        wrong.append(evolve(read_name, path=f"values[{shown_text(name)}]"))
        return None
    if name in own_columns():
        wanted = "a name that no column of a row has, such as made_of"
        wrong.append(Fault(path=name, found="a column of every row", wanted=wanted))
    known = len(wrong)
    read = read_alternatives(Document(tables=given), wrong)
    for each in read:
        for path, value in each.changes:
            fault = _path_fault(plain, path)
            wrong += [fault] if fault else _value_faults(path, (value,))
    wrong[known:] = [evolve(each, path=f"{name}.{each.path}"[:200]) for each in wrong[known:]]
    return Axis(
        name=name,
        values=tuple(each.name for each in read),
        alternatives=tuple(each.changes for each in read),
    )


def _path_fault(plain: dict[str, Any], path: str) -> Fault | None:
    if path.startswith(STOCK):
        return stock_path_fault(path)
    try:
        put_at({**plain, "overrides": [dict(o) for o in plain.get("overrides", ())]}, path, None)
    except UnknownPathError as error:
        found = f"an unknown path {path[:80]!r}"
        wanted = "a path of a brief, or stock.price_ratio or stock.without with a code"
        return Fault(path=path[:80], found=found, wanted=wanted, nearest=", ".join(error.nearest))
    return None


def _twice(axes: tuple[Axis, ...]) -> Iterator[Fault]:
    """Yield a fault for each path that two axes change, or one alternative under both its names.

    One would hide the other. Two alternatives may each name a length as they like.
    """
    seen: dict[str, str] = {}
    for axis in axes:
        for path, name in sorted(_seen_twice(axis, seen).items()):
            wanted = "each path changed by one of them"
            yield Fault(path=path, found=f"also changed by {name}", wanted=wanted)
        seen |= {path.removesuffix("_mm"): axis.name for path in axis.paths}


def _seen_twice(axis: Axis, seen: Mapping[str, str]) -> dict[str, str]:
    """Return the paths of an axis that are changed already, each with the axis that does."""
    found: dict[str, str] = {}
    for changes in axis.alternatives or (((axis.name, None),),):
        own = dict(seen)
        for path in dict.fromkeys(path for path, _ in changes):
            bare = path.removesuffix("_mm")
            if bare in own:
                found[path] = own[bare]
            own[bare] = axis.name
    return found


def _column_faults(axes: tuple[Axis, ...]) -> Iterator[Fault]:
    """Yield a fault for each name of alternatives that is also the column of a path."""
    columns = {column_of(path) for axis in axes for path in axis.paths}
    for axis in axes:
        if axis.alternatives and axis.name in columns:
            wanted = "a name that no column of a row has, such as made_of"
            yield Fault(path=axis.name, found="the column of a path", wanted=wanted)


def _hidden(axes: tuple[Axis, ...]) -> Iterator[Fault]:
    """Yield a fault for each key told before its whole section: rows would tell what is not so."""
    for key, section in hidden_in([path for axis in axes for path in axis.paths]):
        found = f"{shown_text(section)}, which is told later, in its place"
        yield Fault(path=key[:200], found=found, wanted="a section first, then keys of it")


def hidden_in(paths: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield each path that a later one replaces with all around it, and that one."""
    before: dict[str, list[str]] = {}
    for path in paths:
        yield from ((key, path) for key in before.get(path, ()))
        section = re.split(r"[.\[]", path)[0]
        if section != path:
            before.setdefault(section, []).append(path)


def _value_faults(path: str, values: Iterable[object]) -> Iterator[Fault]:
    for at, value in enumerate(values):
        try:
            plain_value(value)
        except TypeError:
            wanted = "a number, a text, true or false, a day, None, or a list or table of them"
            yield evolve(unfit(value, wanted), path=f"{path}[{at}]"[:200])
            continue
        if path.startswith(STOCK) and (fault := stock_value_fault(path, plain_value(value))):
            yield evolve(fault, path=f"{path}[{at}]"[:200])
