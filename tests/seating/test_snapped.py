"""Whole rows and whole lengths, against sums by hand and laws."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.seating.snapped import snapped_sizes

BOARD = {"board_mm": 145, "gap_mm": 5}


def test_rows_and_lengths_by_hand() -> None:
    """20 rows of 145 with gaps of 5 are 2995: 21 make 3145, 22 make 3295."""
    found = snapped_sizes(along_mm=3000, across_mm=3000, lengths_mm=[2400, 3600], **BOARD)
    assert [(s.snap, s.along_mm, s.across_mm, s.rows, s.lengths_mm) for s in found] == [
        ("as found", 3000, 3000, None, ()),
        ("whole rows", 3000, 3145, 21, ()),
        ("next row", 3000, 3295, 22, ()),
        ("whole length", 3600, 3000, None, (3600.0,)),
        ("rows and length", 3600, 3145, 21, (3600.0,)),
    ]
    assert [(s.spare_along_mm, s.spare_across_mm) for s in found][-1] == (600, 145)


def test_boards_away_from_the_house() -> None:
    found = snapped_sizes(along_mm=3000, across_mm=2500, run="across", lengths_mm=[3000], **BOARD)
    assert (found[-1].along_mm, found[-1].across_mm) == (3145, 3000)


def test_lengths_end_to_end_where_none_is_long_enough() -> None:
    """2400 + 3600 + 4 of gap, each trimmed by 2 x 10: 5964."""
    found = snapped_sizes(
        along_mm=5000, across_mm=3000, lengths_mm=[2400, 3600], end_gap_mm=4, end_trim_mm=10,
        **BOARD,
    )  # fmt: skip
    assert (found[-1].along_mm, found[-1].lengths_mm) == (5964, (2380, 3580))


def test_a_size_that_is_there_already_is_told_once() -> None:
    found = snapped_sizes(along_mm=3600, across_mm=2995, lengths_mm=[3600], **BOARD)
    assert [each.snap for each in found] == ["rows and length", "next row"]


def test_far_too_long_for_all_lengths_is_not_snapped() -> None:
    found = snapped_sizes(along_mm=9000, across_mm=2995, lengths_mm=[2400], **BOARD)
    assert [each.snap for each in found] == ["whole rows", "next row"]


@given(
    st.integers(100, 90_000), st.integers(100, 90_000), st.integers(40, 300), st.integers(0, 20),
    st.lists(st.integers(500, 7000), max_size=4),
)  # fmt: skip
def test_no_snap_is_smaller_and_rows_are_the_fewest(
    along: int, across: int, board: int, gap: int, lengths: list[int]
) -> None:
    for size in snapped_sizes(
        along_mm=along, across_mm=across, board_mm=board, gap_mm=gap, lengths_mm=lengths
    ):
        assert size.along_mm == along + size.spare_along_mm >= along
        assert size.across_mm == across + size.spare_across_mm >= across
        if size.rows is not None:
            assert size.across_mm == size.rows * board + (size.rows - 1) * gap
            fewer = size.rows - 1 - (size.snap == "next row")
            assert fewer == 0 or fewer * board + (fewer - 1) * gap < across


def test_what_cannot_be_meant_is_refused_at_once() -> None:
    with pytest.raises(InputError) as told:
        snapped_sizes(
            along_mm=0, across_mm=3000, board_mm=1.45, gap_mm=-1, lengths_mm=[10], end_trim_mm=5,
            run="askew",
        )  # fmt: skip
    paths = [fault.path for fault in told.value.faults]
    assert paths == ["along_mm", "board_mm", "gap_mm", "lengths_mm", "run"]
