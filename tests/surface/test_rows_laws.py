"""Laws of the dry lay: rows and gaps fill the cover exactly, on marks, within range."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.errors import InputError
from drylay.marks import PER_MM, exact
from drylay.surface.limits import RowLimits
from drylay.surface.rows import fit, in_order, lay


@st.composite
def limits(draw: st.DrawFn) -> RowLimits:
    """Decks as people build them, sizes to 0.1 mm or 1/64 in."""
    imperial = draw(st.booleans())
    unit = 127 if imperial else 32
    least = draw(st.integers(0, 100)) * unit // 2
    width = draw(st.integers(700, 2000)) * unit
    return RowLimits(
        depth_320=draw(st.integers(3_000, 60_000)) * unit,
        board_320=width,
        least_320=least,
        preferred_320=least + draw(st.integers(0, 20)) * unit,
        most_320=least + draw(st.integers(20, 60)) * unit,
        grow_320=draw(st.integers(0, 2_000)) * unit,
        shrink_320=draw(st.integers(0, 2_000)) * unit,
        sliver_320=max(60 * PER_MM, width // 2),
        least_rip_320=max(60 * PER_MM, width // 2),
        least_off_320=4 * PER_MM,
        mark_320=508 if imperial else 160,
    )


@given(limits())
def test_rows_and_gaps_fill_the_cover_exactly_and_every_gap_is_in_range(case: RowLimits) -> None:
    for way in (way for way in fit(case).ways_out if way.honest):
        rows = lay(case, way)
        depth = case.depth_320 + exact(way.cover_change_mm)
        assert len(rows) == way.rows
        assert sum(exact(row.width_mm) + exact(row.gap_mm) for row in rows) == depth
        edge = 0
        for row in rows:
            assert exact(row.near_mm) - edge == exact(row.gap_mm)
            if edge:
                assert case.least_320 <= exact(row.gap_mm) <= case.most_320
            edge = exact(row.near_mm) + exact(row.width_mm)
        assert edge == depth


@given(limits())
def test_row_edges_stand_on_pencil_marks_but_for_the_last(case: RowLimits) -> None:
    room = case.most_320 - case.least_320 >= 2 * case.mark_320
    for way in (way for way in fit(case).ways_out if way.honest and room):
        off = [row for row in lay(case, way)[:-1] if exact(row.near_mm) % case.mark_320]
        # an extreme gap leaves the pencil no choice
        tight = way.gap_mm * PER_MM - case.least_320 < case.mark_320
        wide = case.most_320 - way.gap_mm * PER_MM < case.mark_320
        assert not off or tight or wide


@given(limits())
def test_a_naive_strip_is_told_as_a_sliver_exactly_when_it_is_under_the_limit(
    case: RowLimits,
) -> None:
    found = fit(case)
    under = 0 < found.strip_mm < found.sliver_limit_mm
    assert (found.sliver_mm > 0) == under
    assert found.sliver_mm in (0.0, found.strip_mm)


@given(limits())
def test_an_honest_way_out_breaks_no_rule_and_leaves_no_sliver(case: RowLimits) -> None:
    for way in fit(case).ways_out:
        assert way.honest == all(rule.met for rule in way.rules)
        if way.honest:
            assert min(way.first_row_mm, way.last_row_mm) >= case.sliver_320 / PER_MM
            assert -case.shrink_320 <= exact(way.cover_change_mm) <= case.grow_320


@given(limits(), st.permutations(["as_wished", "gaps", "shrink", "grow", "rip_both", "rip_last"]))
def test_the_stated_order_decides(case: RowLimits, prefer: list[str]) -> None:
    ways = in_order(fit(case).ways_out, tuple(prefer), case.preferred_320 / PER_MM)
    ranks = [prefer.index(way.kind) for way in ways]
    assert ranks == sorted(ranks)


@pytest.mark.parametrize(
    ("depth_mm", "rows", "strip_mm", "where"),
    [
        (2995.0, 20, 0.0, "20 x 145 + 19 x 5 = 2995, by hand"),
        (3012.0, 20, 12.0, "3012 - 2995 - 5, by hand"),
        (2998.0, 20, 0.0, "3 left over is less than one gap"),
        (295.0, 2, 0.0, "2 x 145 + 5, by hand"),
        (145.0, 1, 0.0, "one board"),
        (100.0, 0, 100.0, "narrower than a board: the strip is all there is"),
    ],
)
def test_naive_count_by_hand(depth_mm: float, rows: int, strip_mm: float, where: str) -> None:
    found = drylay.fit_rows(depth_mm=depth_mm, board_mm=145, gap_mm=(4, 5, 8))
    assert (found.whole_rows, found.strip_mm) == (rows, strip_mm), where


def test_equal_edge_rips_of_a_twelve_foot_deck() -> None:
    """144 in, boards 5 1/2 in, gaps 1/8 in: 26 rows, both edges 4 7/16 in.

    Worked separately from the library: (144 - 24 x 5.5 - 25/8) / 2 = 4.4375; 25 whole rows
    would need gaps of 6.5/24 = 0.2708 in, 26 of 1/25 = 0.04 in.
    """
    inch = 25.4
    found = drylay.fit_rows(
        depth_mm=144 * inch,
        board_mm=5.5 * inch,
        gap_mm=(inch / 8, inch / 8, inch / 4),
        least_rip_mm=3 * inch,
        units="imperial",
    )
    assert found.whole_rows == 25
    assert found.strip_mm / inch == pytest.approx(3.375, abs=1e-9)
    gaps = {way.rows: way for way in found.ways_out if way.kind == "gaps"}
    assert gaps[25].gap_mm / inch == pytest.approx(6.5 / 24)
    assert gaps[26].gap_mm / inch == pytest.approx(1 / 25)
    assert not gaps[25].honest
    assert not gaps[26].honest
    (both,) = [way for way in found.ways_out if way.kind == "rip_both"]
    assert both.honest
    assert both.rows == 26
    assert both.first_row_mm / inch == pytest.approx(4.4375)
    assert both.last_row_mm == both.first_row_mm


def test_fixed_gaps_change_the_cover_instead() -> None:
    """3000 deep, 140 boards, a gap fixed at 5, 60 either way: 21 rows, 3040.

    Worked separately from the library: 20 rows are 2895, 21 are 3040.
    """
    found = drylay.fit_rows(
        depth_mm=3000, board_mm=140, gap_mm=(5, 5, 5), grow_mm=60, shrink_mm=60, may_rip=False
    )
    (way,) = [way for way in found.ways_out if way.honest]
    assert (way.kind, way.rows, way.cover_change_mm) == ("grow", 21, 40.0)


def test_bad_numbers_are_refused_together() -> None:
    with pytest.raises(InputError) as caught:
        drylay.fit_rows(
            depth_mm=float("nan"), board_mm=0, gap_mm=(5, 4, 8), grow_mm=-1, units="cubits"
        )
    assert {fault.path for fault in caught.value.faults} == {
        "depth_mm", "board_mm", "gap_mm", "grow_mm", "units",
    }  # fmt: skip


def test_a_single_row_is_laid() -> None:
    one = RowLimits(
        depth_320=145 * PER_MM,
        board_320=145 * PER_MM,
        least_320=0,
        preferred_320=5 * PER_MM,
        most_320=8 * PER_MM,
        sliver_320=60 * PER_MM,
        least_rip_320=60 * PER_MM,
        least_off_320=4 * PER_MM,
    )
    (way,) = in_order(fit(one).ways_out, ("as_wished",), 5.0)
    (row,) = lay(one, way)
    assert (row.near_mm, row.width_mm, row.gap_mm, row.ripped) == (0.0, 145.0, 0.0, False)


@pytest.mark.parametrize(
    "change",
    [{"depth_mm": "3 m"}, {"board_mm": True}, {"gap_mm": (4, 5)}, {"gap_mm": (4, "5", 8)},
     {"gap_mm": 5}, {"sliver_mm": -1}, {"least_rip_mm": "x"}],
)  # fmt: skip
def test_what_is_no_number_is_refused_like_any_other_fault(change: dict) -> None:
    given = {"depth_mm": 3012, "board_mm": 145, "gap_mm": (4, 5, 8), **change}
    with pytest.raises(InputError) as caught:
        drylay.fit_rows(**given)
    assert [fault.path for fault in caught.value.faults] == list(change)


def test_numbers_of_other_libraries_are_numbers() -> None:
    import numpy

    ours = drylay.fit_rows(depth_mm=3012, board_mm=145, gap_mm=(4, 5, 8))
    theirs = drylay.fit_rows(
        depth_mm=numpy.float64(3012), board_mm=numpy.int64(145), gap_mm=(4, numpy.float32(5), 8)
    )
    assert ours == theirs


@pytest.mark.parametrize(
    "wrong",
    [{"units": []}, {"may_rip": 3}, {"board_mm": 0.001}, {"depth_mm": 1e6, "board_mm": 3}],
)
def test_arguments_that_nobody_can_mean_are_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(InputError):
        drylay.fit_rows(**{"depth_mm": 3_012, "board_mm": 145, "gap_mm": (4, 5, 8), **wrong})
