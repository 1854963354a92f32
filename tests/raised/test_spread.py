"""Supports spread along a length: laws, and brute force over every mark on small lengths."""

from fractions import Fraction
from itertools import combinations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from drylay.raised.limits import Limits, end_alone, keeps, shares
from drylay.raised.spread import Length, spread


@st.composite
def sums(draw: st.DrawFn) -> tuple[Length, Limits]:
    """Return a small sum in coarse marks, so that every set of places can be looked at."""
    mark = draw(st.sampled_from([2, 4, 5]))
    thick = draw(st.sampled_from([2, 4, 6]))
    measured = draw(st.sampled_from(["clear", "centres"]))
    hung = draw(st.booleans())
    span = draw(st.integers(8, 30))
    held = draw(st.sampled_from([None, 0, 3]))
    limits = Limits(
        half=thick // 2,
        inset=thick // 2,
        span=span,
        span_less=thick if measured == "clear" or hung else 0,
        end=None if hung else draw(st.integers(0, 16)),
        end_less=thick // 2 if measured == "clear" and not hung else 0,
        back=None if hung else draw(st.sampled_from([None, Fraction(1, 4), Fraction(1, 2)])),
    )
    length = draw(st.integers(2 * thick + 5, 40))
    return Length(length=length, held=held, mark=mark), limits


def every(of: Length, limits: Limits, count: int) -> list[tuple[int, ...]]:
    """Return every set of places that keeps all limits: marks and flush ends, mirrored if free."""
    if of.held is not None:
        marks = [*range(0, of.length, of.mark), of.length - limits.half]
        found = [tuple(sorted(set(c))) for c in combinations(sorted(set(marks)), count)]
        inner = [c for c in found if all(p % of.mark == 0 for p in c[:-1])]
        return [c for c in inner if keeps(c, of.length, limits, of.held)]
    half = sorted({*range(0, of.length // 2 + 1, of.mark), limits.half})
    middle = [of.length // 2] if count % 2 else []
    tried = [
        (*c, *middle, *(of.length - p for p in reversed(c))) for c in combinations(half, count // 2)
        if all(p % of.mark == 0 for p in c[1:])
    ]  # fmt: skip
    return [c for c in tried if keeps(c, of.length, limits)]


#: Held, on marks that the span is no multiple of; and one whose last span must be the longest.
HARD = (
    (
        Length(length=35, held=3, mark=7),
        Limits(half=1, inset=1, span=12, span_less=2, end=15, end_less=1, back=Fraction(1, 4)),
    ),
    (
        Length(length=24, held=0, mark=4),
        Limits(half=3, inset=3, span=9, span_less=0, end=6, end_less=0, back=Fraction(1, 2)),
    ),
)


@settings(max_examples=60)
@example(HARD[0])
@example(HARD[1])
@given(sums())
def test_no_fewer_supports_keep_the_limits_brute_force_over_every_mark(
    case: tuple[Length, Limits],
) -> None:
    of, limits = case
    found = spread(of, limits)
    least = 1 if of.held is not None else 2
    most = min(len(found) - 1 if found else 5, 5)
    for count in range(least, most + 1):
        assert not every(of, limits, count), count
    if found:
        assert keeps(found, of.length, limits, of.held)


@settings(max_examples=60)
@given(sums())
def test_the_largest_share_is_the_least_there_is_to_within_a_mark(
    case: tuple[Length, Limits],
) -> None:
    of, limits = case
    found = spread(of, limits)
    if found is None or len(found) > 5:
        return
    best = min(max(shares(p, of.length, limits, of.held)) for p in every(of, limits, len(found)))
    mine = max(shares(found, of.length, limits, of.held))
    smallest = min(Fraction(limits.span - limits.span_less), end_alone(limits) or Fraction(1))
    assert mine <= best + 2 * of.mark / smallest


def test_outer_supports_kept_in_from_the_ends_take_long_spans_behind_them() -> None:
    # 2580 with centres 240 in at the least: 240 is a quarter of 960, so that the outer spans are
    # 960 or more, and 2100 between is more than two spans of 1000. Four: 1000, 100, 1000
    of = Length(length=2580, held=None, mark=10)
    limits = Limits(half=20, inset=240, span=1000, span_less=0, end=250, end_less=0,
                    back=Fraction(1, 4))  # fmt: skip
    assert spread(of, limits) == (240, 1240, 1340, 2340)


def test_no_number_of_supports_that_stand_side_by_side_is_tried() -> None:
    # between faces 0 is never enough, however many there are
    of = Length(length=1000, held=None, mark=10)
    limits = Limits(half=20, inset=400, span=100, span_less=40, end=60, end_less=20, back=None)
    assert spread(of, limits) is None
