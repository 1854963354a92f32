"""Sets of joint lines: bounded, on marks, inside the row, and boards that reach them."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from drylay.marks import MARK_320, exact
from drylay.supports.seam_sets import MOST_SETS, Rows, seam_sets

stocks = st.lists(st.sampled_from([2400.0, 3000.0, 3600.0, 4200.0, 4800.0, 5400.0]), min_size=1,
                  max_size=6, unique=True).map(tuple)  # fmt: skip


@given(
    st.integers(1_000, 15_000).map(float),
    stocks,
    st.sampled_from([0.0, 4.0, 6.0]),
    st.sampled_from([0.0, 20.0]),
    st.booleans(),
    st.sampled_from(["metric", "imperial"]),
)
def test_sets_are_few_different_and_lie_on_marks_inside_the_row(  # noqa: PLR0917 - one of each
    length_mm: float,
    lengths_mm: tuple[float, ...],
    gap_mm: float,
    allowance_mm: float,
    staggered: bool,
    units: str,
) -> None:
    rows = Rows(
        length_mm=length_mm,
        lengths_mm=lengths_mm,
        end_gap_mm=gap_mm,
        allowance_mm=allowance_mm,
        staggered=staggered,
        units=units,
    )
    found = seam_sets(rows)
    assert len(found) == len(set(found)) <= MOST_SETS
    for lines in found:
        assert all(0 < line < length_mm for line in lines)
        assert all(near < far for near, far in pairwise(lines))
        assert all(exact(line) % MARK_320[units] == 0 for line in lines)
        assert len(lines) != 1 or not staggered
    whole = length_mm + 2 * allowance_mm <= max(lengths_mm)
    assert (() in found) == whole
    mirrored = Rows(length_mm=length_mm, lengths_mm=lengths_mm[::-1], end_gap_mm=gap_mm,
                    allowance_mm=allowance_mm, staggered=staggered, units=units)  # fmt: skip
    assert seam_sets(mirrored) == found


def test_the_sets_of_a_row_of_5400_by_hand() -> None:
    """Boards of 3600, ends 6 apart: a whole length ends its joint's middle at 3603, 1797 mirrored.

    Then thirds, quarters, fifths and sixths; halves would be one line that rows may not share, and
    half a length first gives the whole length's line alone.
    """
    found = seam_sets(Rows(length_mm=5400.0, lengths_mm=(3600.0,), end_gap_mm=6.0))
    assert found == (
        (1797.0, 3603.0),
        (1800.0, 3600.0),
        (1350.0, 2700.0, 4050.0),
        (1080.0, 2160.0, 3240.0, 4320.0),
        (900.0, 1800.0, 2700.0, 3600.0, 4500.0),
    )


def test_nothing_comes_of_boards_no_longer_than_their_gap() -> None:
    assert seam_sets(Rows(length_mm=5400.0, lengths_mm=(), end_gap_mm=6.0)) == ()
    assert seam_sets(Rows(length_mm=5400.0, lengths_mm=(5.0,), end_gap_mm=6.0)) == ()
