"""Rows that fill a field, measured again from their edges: nothing here asks the fit how it is."""

from itertools import pairwise

from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.laying.fit import Depth, FitRules, RowFit, Step, best_of, fits, whole_depths

METRIC, IMPERIAL = 160, 508
PREFER = ("as_wished", "gaps", "rip_both", "rip_last")


@st.composite
def rules(draw: st.DrawFn) -> FitRules:
    least = draw(st.integers(2, 6)) * 320
    most = least + draw(st.integers(1, 5)) * 320
    return FitRules(
        board_320=draw(st.integers(60, 200)) * 320,
        gap_least_320=least,
        gap_preferred_320=draw(st.integers(least // 160, most // 160)) * 160,
        gap_most_320=most,
        sliver_320=draw(st.integers(20, 50)) * 320,
        least_rip_320=draw(st.integers(10, 40)) * 320,
        may_rip=draw(st.booleans()),
        mark_320=draw(st.sampled_from((METRIC, IMPERIAL))),
    )


@st.composite
def depths(draw: st.DrawFn) -> Depth:
    deep = draw(st.integers(300 * 320, 4_000 * 320))
    steps = draw(st.lists(st.integers(10 * 320, deep - 10 * 320), max_size=2, unique=True))
    return Depth(
        depth_320=deep,
        far_flat=draw(st.booleans()),
        gap_before=draw(st.booleans()),
        gap_after=draw(st.booleans()),
        steps=tuple(Step(at_320=at, beyond=draw(st.booleans())) for at in sorted(steps)),
    )


def strips(depth: Depth, way: RowFit) -> list[int]:
    """Return the width of whatever a side between leaves of a row, and of every row itself."""
    found = [row.width_320 for row in way.rows]
    for step in depth.steps:
        for row in way.rows:
            low, high = row.edge_320, row.edge_320 + row.width_320
            if low < step.at_320 < high:
                found.append(high - step.at_320 if step.beyond else step.at_320 - low)
    if way.rows and not depth.far_flat:
        found.append(depth.depth_320 - way.rows[-1].edge_320)
    return found


@given(depths(), rules())
def test_rows_lie_one_after_another_within_their_gaps(depth: Depth, rules: FitRules) -> None:
    for way in fits(depth, rules):
        for one, other in pairwise(way.rows):
            gap = other.edge_320 - one.edge_320 - one.width_320
            assert way.broken or rules.gap_least_320 <= gap <= rules.gap_most_320


@given(depths(), rules())
def test_outer_rows_lie_a_gap_within_its_range_off_what_is_beside(
    depth: Depth, rules: FitRules
) -> None:
    """A gap of 7 and a least of 6.8 in imperial: the mark nearest to 7 is 6.35."""
    for way in fits(depth, rules):
        if not way.broken and depth.gap_before:
            assert rules.gap_least_320 <= way.rows[0].edge_320 <= rules.gap_most_320


@given(depths(), rules())
def test_rows_lie_on_marks_all_of_them_or_evenly(depth: Depth, rules: FitRules) -> None:
    for way in fits(depth, rules):
        inner = [row.edge_320 for row in way.rows[:-1]]
        gaps = [b.edge_320 - a.edge_320 - a.width_320 for a, b in pairwise(way.rows[:-1])]
        on_marks = all(edge % rules.mark_320 == 0 for edge in inner)
        assert on_marks or all(abs(gap - way.gap_320) <= 1 for gap in gaps)


@given(depths(), rules())
def test_an_honest_way_fills_a_flat_field_exactly(depth: Depth, rules: FitRules) -> None:
    for way in fits(depth, rules):
        if not way.broken and depth.far_flat:
            reach = way.rows[-1].edge_320 + way.rows[-1].width_320
            left = depth.depth_320 - reach
            assert left == (round(way.gap_320) if depth.gap_after else 0)


@given(depths(), rules())
def test_no_row_is_wider_than_a_board_or_narrower_than_may_be(
    depth: Depth, rules: FitRules
) -> None:
    for way in fits(depth, rules):
        if way.broken:
            continue
        for row in way.rows:
            assert 0 < row.width_320 <= rules.board_320
            if row.width_320 < rules.board_320:
                assert rules.may_rip
                assert row.width_320 >= rules.least_rip_320


@given(depths(), rules())
def test_nothing_honest_leaves_a_sliver(depth: Depth, rules: FitRules) -> None:
    for way in fits(depth, rules):
        narrow = [each for each in strips(depth, way) if each < rules.sliver_320]
        assert len(way.slivers) == len(narrow)
        assert sorted(strip.width_320 for strip in way.slivers) == sorted(narrow)
        assert way.honest == (not narrow and not way.broken)


@given(depths(), rules())
def test_the_best_is_honest_where_any_is_and_comes_first(depth: Depth, rules: FitRules) -> None:
    ways = fits(depth, rules)
    best = best_of(ways, PREFER, rules.gap_preferred_320)
    honest = [way for way in ways if way.honest]
    if honest:
        assert best is not None
        assert best.honest
        assert PREFER.index(best.kind) == min(PREFER.index(way.kind) for way in honest)
    elif best is not None:
        assert not best.broken


@given(depths(), rules())
def test_the_depths_told_are_filled_by_whole_rows(depth: Depth, rules: FitRules) -> None:
    plain = evolve(depth, far_flat=True, steps=())
    less, more = whole_depths(plain, rules)
    ends = rules.gap_preferred_320 * (int(plain.gap_before) + int(plain.gap_after) - 1)
    pitch = rules.board_320 + rules.gap_preferred_320
    for deep in {plain.depth_320 - less, plain.depth_320 + more}:
        assert (deep - ends) % pitch == 0
        if deep - ends >= pitch:
            ways = fits(evolve(plain, depth_320=deep), rules)
            wished = next(way for way in ways if way.kind == "as_wished")
            assert "rows do not fill the field" not in wished.broken


def test_sixteen_rows_by_hand() -> None:
    """16 x 145 and 15 x 5: 2395."""
    plain = FitRules(board_320=145 * 320, gap_least_320=4 * 320, gap_preferred_320=5 * 320,
                     gap_most_320=8 * 320, sliver_320=50 * 320, least_rip_320=30 * 320,
                     may_rip=False, mark_320=METRIC)  # fmt: skip
    depth = Depth(depth_320=2395 * 320, far_flat=True)
    best = best_of(fits(depth, plain), PREFER, plain.gap_preferred_320)
    assert best is not None
    assert (best.kind, len(best.rows), best.gap_320) == ("as_wished", 16, 5 * 320)
    assert [row.edge_320 for row in best.rows] == [at * 150 * 320 for at in range(16)]


@given(depths(), rules(), st.integers(-40, 40))
def test_gaps_that_fan_keep_their_range_at_the_end_of_the_run_too(
    depth: Depth, rules: FitRules, marks: int
) -> None:
    """Each row's edge is told on the mark nearest to its share of the fan, or to 1/320 mm."""
    fan = marks * rules.mark_320
    for way in fits(depth, evolve(rules, fan_320=fan)):
        gaps = len(way.rows) - 1
        if way.broken or not gaps:
            continue
        told = [
            row.edge_320 + round(fan * at / gaps / way.mark_320) * way.mark_320
            for at, row in enumerate(way.rows)
        ]
        ends = [
            b - a - row.width_320 for (a, b), row in zip(pairwise(told), way.rows, strict=False)
        ]
        assert all(rules.gap_least_320 - 2 <= gap <= rules.gap_most_320 + 2 for gap in ends)


def test_ten_rows_whose_fan_leaves_the_marks_by_hand() -> None:
    """Ten of 90 and nine gaps of 3.4 are 930.6; fanned they end at 3.01, on marks at 2.5."""
    narrow = FitRules(board_320=90 * 320, gap_least_320=3 * 320, gap_preferred_320=4 * 320,
                      gap_most_320=5 * 320, sliver_320=50 * 320, least_rip_320=30 * 320,
                      may_rip=False, mark_320=METRIC, fan_320=-1120)  # fmt: skip
    depth = Depth(depth_320=297792, far_flat=True)
    (way,) = (way for way in fits(depth, narrow) if way.kind == "gaps" and not way.broken)
    assert way.mark_320 == 1
    edges = [row.edge_320 for row in way.rows]
    assert all(abs(b - a - 93.4 * 320) <= 1 for a, b in pairwise(edges))
    even = next(way for way in fits(depth, evolve(narrow, fan_320=0)) if way.kind == "gaps")
    assert even.mark_320 == METRIC
