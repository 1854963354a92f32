"""Laws of a sum shared over gaps: steps, limits and changes kept, and no sum nearer within them."""

from itertools import pairwise, product

from hypothesis import given
from hypothesis import strategies as some

from drylay.correcting.share import reach, share

STEP = 160
gap_limits = some.tuples(some.integers(0, 1200), some.integers(0, 1600)).map(
    lambda pair: (pair[0], pair[0] + pair[1])
)


@given(
    total=some.integers(-2000, 40_000),
    limits=gap_limits,
    count=some.integers(1, 30),
    before=some.integers(0, 2500),
    change=some.integers(1, 4),
)
def test_gaps_keep_steps_limits_and_changes(
    total: int, limits: tuple[int, int], count: int, before: int, change: int
) -> None:
    least, most = limits
    gaps = share(
        total, [limits] * count, before_320=before, change_320=change * STEP, step_320=STEP
    )
    assert len(gaps) == count
    assert all(least <= gap <= most for gap in gaps)
    if most // STEP * STEP >= least:
        assert all(gap % STEP == 0 for gap in gaps)
        inside = least <= before <= most
        pairs = list(zip((before, *gaps), gaps, strict=False))[0 if inside else 1 :]
        assert all(abs(one - other) <= change * STEP for one, other in pairs)


@given(
    total=some.integers(0, 6000),
    least=some.integers(0, 6),
    room=some.integers(0, 6),
    count=some.integers(1, 4),
    moved=some.tuples(some.integers(0, 8), some.integers(1, 2)),
)
def test_no_gaps_come_nearer_to_the_sum(
    total: int, least: int, room: int, count: int, moved: tuple[int, int]
) -> None:
    """Held against every row of gaps there is; `moved` is the gap before, and how far one may."""
    (before, change), most = moved, least + room
    limits = [(least * STEP, most * STEP)] * count
    gaps = share(total, limits, before_320=before * STEP, change_320=change * STEP, step_320=STEP)
    start = min(max(before, least), most)

    def fits(row: tuple[int, ...]) -> bool:
        first = abs(row[0] - before) <= change or row[0] == start
        return first and all(abs(one - other) <= change for one, other in pairwise(row))

    rows = [row for row in product(range(least, most + 1), repeat=count) if fits(row)]
    nearest = min(abs(sum(row) * STEP - total) for row in rows)
    assert abs(sum(gaps) - total) == nearest


def test_what_is_over_is_spread_evenly() -> None:
    """7 steps over 3 gaps, cumulatively: 7 div 3 = 2, 14 div 3 - 2 = 2, 7 - 4 = 3."""
    gaps = share(7 * STEP, [(0, 1600)] * 3, before_320=2 * STEP, change_320=480, step_320=STEP)
    assert [gap // STEP for gap in gaps] == [2, 2, 3]


def test_gaps_outside_their_limits_come_back_and_fixed_ones_stay() -> None:
    assert reach([(960, 960)], before_320=0, change_320=160, step_320=STEP) == [(960, 960)]
    gaps = share(9999, [(2000, 2000)] * 2, before_320=1900, change_320=160, step_320=STEP)
    assert gaps == (2000, 2000)  # 6.25 mm by clips lies on no step
