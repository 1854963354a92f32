"""Latin hypercubes: laws of even steps, and what is told where nothing can be drawn."""

from collections import Counter
from fractions import Fraction

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.compare import sampling
from drylay.compare.sampling import latin_hypercube, level_of
from drylay.errors import InputError


@settings(max_examples=20, deadline=None)
@given(
    steps=st.integers(1, 12),
    levels=st.integers(1, 9),
    across=st.integers(1, 4),
    seed=st.integers(0, 2**53 - 1),
)
def test_every_step_and_every_level_is_drawn_equally_often(
    steps: int, levels: int, across: int, seed: int
) -> None:
    count = steps * levels
    samples = latin_hypercube(count, across, seed)
    assert samples == latin_hypercube(count, across, seed)
    assert [len(sample) for sample in samples] == [across] * count
    for column in zip(*samples, strict=True):
        assert sorted(level_of(ratio, count) for ratio in column) == list(range(count))
        assert Counter(level_of(ratio, levels) for ratio in column) == dict.fromkeys(
            range(levels), steps
        )


def test_a_seed_draws_what_numpys_own_generator_gives() -> None:
    """One column by hand: a shuffle of 1 ... n less a ratio each, over n.

    scipy draws it from a child of the generator it is given.
    """
    source = numpy.random.Generator(numpy.random.PCG64(7)).spawn(1)[0]
    ratios = source.uniform(size=(6, 1))[:, 0]
    order = numpy.arange(1, 7)
    source.shuffle(order)
    expected = ((order - ratios) / 6).tolist()
    assert [ratio for (ratio,) in latin_hypercube(6, 1, 7)] == expected
    assert latin_hypercube(6, 1, 8) != latin_hypercube(6, 1, 7)


@settings(max_examples=50, deadline=None)
@given(count=st.integers(1, 100_000), data=st.data())
def test_a_ratio_at_the_end_of_its_step_is_held_within_it(count: int, data: st.DataObject) -> None:
    """Where the draw within a step is 0, (k - 0) / n lies at the next step, or is 1."""
    step = data.draw(st.integers(0, count - 1))
    for ratio in ((step + 1) / count, step / count):
        held = sampling._held(ratio, step, count)
        assert step <= Fraction(held) * count < step + 1
        assert 0 <= held < 1
        assert held == pytest.approx(ratio, abs=1e-15)


def test_the_last_of_a_whole_is_the_last_level() -> None:
    assert level_of(0.0, 3) == 0
    assert level_of(1 - 2**-53, 3) == 2
    # 1/3 as a float is less than a third: still the first level, which a product of floats is not
    assert (level_of(1 / 3, 3), int(1 / 3 * 3)) == (0, 1)


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(InputError) as told:
        latin_hypercube(0, 1.5, -1)  # type: ignore[arg-type]
    assert [fault.path for fault in told.value.faults] == ["count", "across", "seed"]
    with pytest.raises(
        InputError, match="seed: found true, wanted a whole number, 0 to 9007199254740991"
    ):
        latin_hypercube(2, 1, True)
    with pytest.raises(InputError, match="count: found 100001"):
        latin_hypercube(100_001, 1, 1)


def test_without_scipy_the_extra_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sampling, "find_spec", lambda _name: None)
    with pytest.raises(InputError, match=r"extra `studies`.*drylay\[studies\]"):
        latin_hypercube(2, 1, 1)


def test_an_older_scipy_is_handed_its_generator_by_the_other_name(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    from scipy.stats import qmc

    real = qmc.LatinHypercube

    def older(d: int, *, scramble: bool, seed: object) -> object:
        return real(d, scramble=scramble, rng=seed)

    expected = latin_hypercube(4, 2, 3)
    monkeypatch.setattr(qmc, "LatinHypercube", older)
    assert latin_hypercube(4, 2, 3) == expected
