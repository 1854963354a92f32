"""The sweep over lines, against every set of places there is."""

from fractions import Fraction
from itertools import combinations, pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.raised.limits import Limits
from drylay.raised.sweeping import Run, Sweep, fewest_lines, serves


@st.composite
def sweeps(draw: st.DrawFn) -> Sweep:
    """Return a few runs over up to nine places, all of a run's places carried."""
    places = tuple(sorted(draw(st.sets(st.integers(1, 59), min_size=2, max_size=9))))
    half = draw(st.sampled_from([1, 2]))
    clear = draw(st.booleans())
    limits = Limits(
        half=half, inset=half, span=draw(st.integers(10, 40)), span_less=2 * half * clear,
        end=draw(st.integers(2, 16)), end_less=half * clear,
        back=draw(st.sampled_from([None, Fraction(1, 4), Fraction(1, 2)])),
    )  # fmt: skip
    runs = []
    for _ in range(draw(st.integers(1, 3))):
        start, end = sorted(draw(st.lists(st.integers(0, 60), min_size=2, max_size=2, unique=True)))
        at = frozenset(n for n, y in enumerate(places) if start + half <= y <= end - half)
        runs.append(Run(start=start, end=end, start_held=draw(st.booleans()),
                        end_held=draw(st.booleans()), at=at))  # fmt: skip
    return Sweep(places=places, bearers=(1,) * len(places), runs=tuple(runs), limits=limits)


def works(sweep: Sweep, lines: tuple[int, ...]) -> bool:
    """Whether lines, by number, carry every run: written anew, span by span and end by end."""
    limits = sweep.limits
    if any(sweep.places[b] - sweep.places[a] <= 2 * limits.half for a, b in pairwise(lines)):
        return False
    return all(_carried(run, [sweep.places[n] for n in lines if n in run.at], limits)
               for run in sweep.runs)  # fmt: skip


def _carried(run: Run, own: list[int], limits: Limits) -> bool:
    reach = limits.half if limits.span_less else 0
    held = [run.start - reach] if run.start_held else []
    far = [run.end + reach] if run.end_held else []
    supports = [*held, *own, *far]
    if len(supports) < 2:
        return False
    spans = [b - a - limits.span_less for a, b in pairwise(supports)]
    free = [] if run.start_held else [(own[0] - run.start, spans[0])]
    free += [] if run.end_held else [(run.end - own[-1], spans[-1])]
    return max(spans) <= limits.span - limits.span_less and all(
        end <= limits.half
        or (end <= max(limits.end or 0, limits.half)
            and (limits.back is None or end - limits.end_less <= limits.back * back))
        for end, back in free
    )  # fmt: skip


@settings(max_examples=200)
@given(sweeps())
def test_the_sweep_finds_the_fewest_of_every_set_of_places(sweep: Sweep) -> None:
    count = len(sweep.places)
    every = [lines for size in range(1, count + 1) for lines in combinations(range(count), size)
             if works(sweep, lines)]  # fmt: skip
    found = fewest_lines(sweep)
    assert (found is None) == (not every)
    if found is not None:
        numbers = tuple(sweep.places.index(at) for at in found[0])
        assert works(sweep, numbers)
        assert len(numbers) == min(map(len, every))
        assert all(serves(run, numbers, sweep) for run in sweep.runs)
