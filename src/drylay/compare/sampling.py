"""Seeded draws that fill their range evenly: Latin hypercubes."""

import inspect
from collections.abc import Iterator, Sequence
from fractions import Fraction
from importlib.util import find_spec
from math import nextafter
from typing import Any

from attrs import evolve

from drylay.errors import Fault, InputError
from drylay.intake.keys import count as count_key
from drylay.intake.values import read_count
from drylay.reasons import Source

#: Beyond these a number is a slip. Source: assumption.
MOST_SAMPLES, MOST_ACROSS = 100_000, 1_000
#: The largest whole number that every reader of JSON takes as it stands. Source: RFC 8259.
MOST_SEED = 2**53 - 1
LATIN = Source(
    kind="from memory",
    title="McKay, Beckman & Conover 1979, Technometrics 21",
    clause="Latin hypercube sampling: each column has one value in each of as many even steps",
)
EXTRA = 'pip install "drylay[studies]"'


def latin_hypercube(count: int, across: int, seed: int) -> tuple[tuple[float, ...], ...]:
    """Return `count` samples of `across` ratios each, at least 0 and below 1.

    Each column has one ratio in each of `count` even steps, to the last bit, in an order of its
    own. The same seed draws the same ratios, whatever else was drawn before.

    Raises:
        InputError: A number cannot be used, or scipy is not installed; lists every fault.

    Source: `LATIN`, drawn by scipy.
    """
    wrong = [*_number_faults(count, across, seed), *scipy_faults()]
    if wrong:
        raise InputError(tuple(wrong))
    drawn = _engine(across, seed).random(count).tolist()
    columns = [_in_own_steps(column) for column in zip(*drawn, strict=True)]
    return tuple(zip(*columns, strict=True))


def level_of(ratio: float, count: int) -> int:
    """Return which of `count` levels, 0 the first, a ratio from 0 to below 1 picks: exactly."""
    return int(Fraction(ratio) * count)


def scipy_faults() -> Iterator[Fault]:
    """Yield what is wrong where nothing can be drawn: scipy is in an extra."""
    if find_spec("scipy") is None:
        wanted = "scipy, which the extra `studies` installs"
        yield Fault(path="samples", found="no scipy installed", wanted=wanted, nearest=EXTRA)


def seed_faults(seed: object) -> Iterator[Fault]:
    """Yield what is wrong with a seed."""
    read = read_count(count_key("seed", 0, MOST_SEED), seed)
    if isinstance(read, Fault):
        yield evolve(read, path="seed")


def _number_faults(count: object, across: object, seed: object) -> Iterator[Fault]:
    for name, most, given in (("count", MOST_SAMPLES, count), ("across", MOST_ACROSS, across)):
        read = read_count(count_key(name, 1, most), given)
        if isinstance(read, Fault):
            yield evolve(read, path=name)
    yield from seed_faults(seed)


def _engine(across: int, seed: int) -> Any:
    """Return what draws, by a generator named here: no release of numpy or scipy picks another.

    Releases of scipy call its argument `seed` or `rng`, and make different generators of a bare
    number; of a generator all of them draw the same.
    """
    from numpy.random import PCG64, Generator
    from scipy.stats.qmc import LatinHypercube

    name = "rng" if "rng" in inspect.signature(LatinHypercube).parameters else "seed"
    return LatinHypercube(across, scramble=True, **{name: Generator(PCG64(seed))})


def _in_own_steps(column: Sequence[float]) -> list[float]:
    """Return a column with each ratio held in its step, which rounding may have pushed it out of.

    Which step is its own its place among the others tells.
    """
    held = list(column)
    places = sorted(range(len(column)), key=column.__getitem__)
    for step, place in enumerate(places):
        held[place] = _held(column[place], step, len(column))
    return held


def _held(ratio: float, step: int, count: int) -> float:
    while Fraction(ratio) * count < step:
        ratio = nextafter(ratio, 1.0)
    while Fraction(ratio) * count >= step + 1:
        ratio = nextafter(ratio, 0.0)
    return ratio
