"""Cases of a study: one brief with values put in place of what stands there, many times over."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import prod
from typing import overload

from attrs import evolve, field, frozen

from drylay.brief.model import Brief
from drylay.compare.axes import Axis, axes_of, hidden_in, level_at
from drylay.compare.plain import column_of, plain_value
from drylay.compare.sampling import (
    MOST_SAMPLES,
    latin_hypercube,
    level_of,
    scipy_faults,
    seed_faults,
)
from drylay.compare.study_model import Case
from drylay.compare.study_row import own_columns
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.intake.keys import count as count_key
from drylay.intake.shown import shown
from drylay.intake.values import read_count

HOWS = ("product", "zip", "sample")
#: More cases than these are a slip. Assumption.
MOST_CASES = 10_000_000


@frozen(kw_only=True)
class Cases:
    """Cases in their order, each made when it is asked for: a sequence of any length is light.

    `draws` are the levels drawn of each axis, case by case, where cases are samples.
    """

    brief: Brief = field(repr=lambda brief: repr(brief.title))
    axes: tuple[Axis, ...] = field(
        repr=lambda axes: f"({', '.join(f'{each.name}: {len(each.values)}' for each in axes)})"
    )
    how: str
    draws: tuple[tuple[int, ...], ...] = field(default=(), repr=False)

    @property
    def columns(self) -> tuple[str, ...]:
        """Return what rows of these cases begin with: names of alternatives, then paths."""
        names = (axis.name for axis in self.axes if axis.alternatives)
        paths = (column_of(path) for axis in self.axes for path in axis.paths)
        return tuple(dict.fromkeys((*names, *paths)))

    def __len__(self) -> int:
        if self.how == "product":
            return prod(len(axis.values) for axis in self.axes)
        return len(self.draws) if self.how == "sample" else len(self.axes[0].values)

    @overload
    def __getitem__(self, number: int) -> Case: ...

    @overload
    def __getitem__(self, number: slice) -> tuple[Case, ...]: ...

    def __getitem__(self, number: int | slice) -> Case | tuple[Case, ...]:
        if isinstance(number, slice):
            return tuple(self[each] for each in range(*number.indices(len(self))))
        count = len(self)
        if not -count <= number < count:
            raise IndexError(f"case {number} of {count}")
        return _case(self, number % count)

    def __iter__(self) -> Iterator[Case]:
        return (_case(self, number) for number in range(len(self)))


@counted
def vary(
    brief: Brief,
    values: Mapping[str, object],
    *,
    how: str = "product",
    count: int | None = None,
    seed: int | None = None,
) -> Cases:
    """Return the cases of a brief with other values at its paths: a sequence, made as it is read.

    Args:
        brief: What every case begins with.
        values: For each path of the brief ("cover.across_mm") the values it takes, as a list or a
            range; None leaves a wish out. "stock.price_ratio.CODE", "stock.price_ratio" and
            "stock.without.CODE" change the stock (docs/studies.md). Any other name with a mapping
            of alternatives, each a mapping of paths as in docs/compare.md, changes several at once.
        how: "product" takes every value with every other, the last path's fastest; "zip" the first
            of each, then the second; "sample" draws `count` cases by a Latin hypercube.
        count: How many samples.
        seed: What the draw begins with; the same seed draws the same cases.

    Raises:
        InputError: A path, a value or the way to take them cannot be used; lists every fault.
            Whether a value makes sense in a brief is told by its row.
    """
    wrong: list[Fault] = []
    if isinstance(brief, Brief):
        axes = axes_of(brief, values, wrong)
    else:
        wrong.append(Fault(path="brief", found=shown(brief), wanted="a brief, from read_brief()"))
        axes = ()
    wrong += _how_faults(how, count, seed, axes)
    if wrong:
        raise InputError(tuple(wrong))
    draws = _draws(axes, count, seed) if how == "sample" else ()
    return Cases(brief=brief, axes=axes, how=how, draws=draws)


def _draws(
    axes: tuple[Axis, ...], count: int | None, seed: int | None
) -> tuple[tuple[int, ...], ...]:
    assert count is not None
    assert seed is not None
    return tuple(
        tuple(level_of(ratio, len(axis.values)) for ratio, axis in zip(drawn, axes, strict=True))
        for drawn in latin_hypercube(count, len(axes), seed)
    )


def _case(cases: Cases, number: int) -> Case:
    levels = [
        level_at(axis, at) for axis, at in zip(cases.axes, _picks(cases, number), strict=True)
    ]
    return Case(
        brief=cases.brief,
        changes=tuple(change for changes, _ in levels for change in changes),
        named=tuple(word for _, named in levels for word in named),
    )


def _picks(cases: Cases, number: int) -> tuple[int, ...]:
    """Return which value of each axis a case takes."""
    if cases.how == "sample":
        return cases.draws[number]
    if cases.how == "zip":
        return (number,) * len(cases.axes)
    picks = []
    for axis in reversed(cases.axes):
        number, at = divmod(number, len(axis.values))
        picks.append(at)
    return tuple(reversed(picks))


def _how_faults(
    how: str, count: int | None, seed: int | None, axes: tuple[Axis, ...]
) -> Iterator[Fault]:
    if not isinstance(how, str) or how not in HOWS:
        yield Fault(path="how", found=shown(how), wanted=f"one of {', '.join(HOWS)}")
        how = ""
    if how == "sample":
        yield from _sample_faults(count, seed)
        return
    for name, given in (("count", count), ("seed", seed)):
        if given is not None:
            yield Fault(path=name, found=shown(given), wanted="nothing, unless how is 'sample'")
    sizes = {axis.name: len(axis.values) for axis in axes}
    if how == "zip" and any(one != other for one, other in pairwise(sizes.values())):
        told = ", ".join(f"{name}: {size}" for name, size in sizes.items())
        yield Fault(path="values", found=told[:200], wanted="as many values of each, to zip them")
    if how == "product" and prod(sizes.values()) > MOST_CASES:
        found = f"{prod(sizes.values())} cases"
        yield Fault(path="values", found=found, wanted=f"{MOST_CASES} at most")


def _sample_faults(count: object, seed: object) -> Iterator[Fault]:
    read = read_count(count_key("count", 1, MOST_SAMPLES), count)
    if isinstance(read, Fault):
        yield evolve(read, path="count")
    yield from seed_faults(seed)
    yield from scipy_faults()


def case_faults(case: Case, number: int) -> Iterator[Fault]:
    """Yield what is wrong with a case that somebody made by hand, but for what its row tells."""
    at = f"cases[{number}]"
    if not isinstance(case.brief, Brief):
        yield Fault(path=f"{at}.brief", found=shown(case.brief), wanted="a brief")
    for name, given in (("changes", case.changes), ("named", case.named)):
        wanted = "pairs, of a path and its value" if name == "changes" else "pairs of two texts"
        for pair in given if isinstance(given, list | tuple) else (given,):
            if not _is_pair(pair) or not _fits(name, pair):
                yield Fault(path=f"{at}.{name}", found=shown(pair), wanted=wanted)
            elif name == "named" and pair[0] in own_columns():
                wanted = "a name that no column of a row has, such as made_of"
                yield Fault(path=f"{at}.named", found=shown(pair[0]), wanted=wanted)
    changes = case.changes if isinstance(case.changes, list | tuple) else ()
    for key, section in hidden_in([pair[0] for pair in changes if _is_pair(pair)]):
        found = f"{shown(section)} after {shown(key)}"
        yield Fault(path=f"{at}.changes", found=found, wanted="a section first, then keys of it")
    yield from _hidden(case, at)


def _hidden(case: Case, at: str) -> Iterator[Fault]:
    """Yield a fault for each name that would take the place of another column of the case."""
    if not all(isinstance(given, list | tuple) for given in (case.changes, case.named)):
        return  # told already
    seen = {column_of(pair[0]) for pair in case.changes if _is_pair(pair)}
    for name in (pair[0] for pair in case.named if _is_pair(pair)):
        if name in seen:
            yield Fault(path=f"{at}.named", found=shown(name), wanted="a name of its own")
        seen.add(name)


def _is_pair(pair: object) -> bool:
    return isinstance(pair, list | tuple) and len(pair) == 2 and isinstance(pair[0], str)


def _fits(name: str, pair: Sequence[object]) -> bool:
    if name == "named":
        return isinstance(pair[1], str)
    try:
        plain_value(pair[1])
    except TypeError:
        return False
    return True


def as_cases(cases: object) -> tuple[Sequence[Case] | Cases | Iterator[Case], int | None]:
    """Return cases as they come, and how many they are where that is known.

    Briefs stand for themselves; one brief is a study of one.

    Raises:
        InputError: There is nothing to go through.
    """
    if isinstance(cases, Brief | Case):
        cases = (cases,)
    unordered = isinstance(cases, set | frozenset)  # its rows would stand otherwise each time
    if unordered or not hasattr(cases, "__iter__") or isinstance(cases, str | bytes | Mapping):
        wanted = "cases in an order, as in a list" if unordered else "what vary() returns, or cases"
        raise InputError((Fault(path="cases", found=type(cases).__name__, wanted=wanted),))
    count = len(cases) if hasattr(cases, "__len__") else None
    return cases, count  # type: ignore[return-value]
