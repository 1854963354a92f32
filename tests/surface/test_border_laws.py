"""Laws of a border: border, field and border fill the cover exactly, every gap in its own range."""

import itertools

from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.marks import PER_MM, exact
from drylay.surface.border import BorderLimits, field_depth_320, gap_beside, lay_bordered
from drylay.surface.limits import RowLimits
from drylay.surface.rows import fit, lay
from drylay.surface.settle import Laying, settle_rows

gaps = st.tuples(st.integers(0, 8 * PER_MM), st.integers(0, 4 * PER_MM),
                 st.integers(0, 4 * PER_MM)).map(
                     lambda three: (three[0], three[0] + three[1], sum(three)))  # fmt: skip


@st.composite
def bordered(draw: st.DrawFn) -> tuple[RowLimits, BorderLimits, int]:
    """A field and a border whose gaps suit each other, and the whole cover's depth."""
    own, field = draw(gaps), draw(gaps)
    beside = gap_beside(own, field)
    if beside is None:
        own = field
        beside = gap_beside(own, field)
    assert beside is not None
    border = BorderLimits(
        rows=draw(st.integers(1, 3)), width_320=draw(st.integers(70, 200)) * PER_MM,
        gap_320=own, beside_320=beside,
    )  # fmt: skip
    depth = 2 * border.part_320 + draw(st.integers(200, 5_000)) * PER_MM
    width = draw(st.integers(70, 200)) * PER_MM
    limits = RowLimits(
        depth_320=field_depth_320(depth, border), board_320=width,
        least_320=field[0], preferred_320=field[1], most_320=field[2],
        grow_320=200 * PER_MM, shrink_320=50 * PER_MM,
        sliver_320=60 * PER_MM, least_rip_320=60 * PER_MM, least_off_320=4 * PER_MM,
    )  # fmt: skip
    return limits, border, depth


@given(bordered())
def test_rows_and_gaps_fill_the_cover_exactly(case: tuple[RowLimits, BorderLimits, int]) -> None:
    limits, border, depth = case
    for way in (way for way in fit(limits).ways_out if way.honest):
        rows = lay_bordered(limits, way, border)
        whole = depth + exact(way.cover_change_mm)
        assert sum(exact(row.width_mm) + exact(row.gap_mm) for row in rows) == whole
        assert [row.mark for row in rows] == [f"B{n + 1}" for n in range(len(rows))]
        edge = 0
        for row in rows:
            assert exact(row.near_mm) == edge + exact(row.gap_mm)
            edge = exact(row.near_mm) + exact(row.width_mm)
        assert edge == whole


@given(bordered())
def test_every_gap_is_in_the_range_of_both_its_boards(
    case: tuple[RowLimits, BorderLimits, int],
) -> None:
    limits, border, _ = case
    field = (limits.least_320, limits.most_320)
    own = (border.gap_320[0], border.gap_320[2])
    for way in (way for way in fit(limits).ways_out if way.honest):
        rows = lay_bordered(limits, way, border)
        for before, row in itertools.pairwise(rows):
            for least, most in {own if each.border else field for each in (before, row)}:
                assert least <= exact(row.gap_mm) <= most


@given(bordered())
def test_the_border_is_whole_and_lies_outside(case: tuple[RowLimits, BorderLimits, int]) -> None:
    limits, border, _ = case
    for way in (way for way in fit(limits).ways_out if way.honest):
        rows = lay_bordered(limits, way, border)
        edged = [row.border for row in rows]
        assert edged == [True] * border.rows + [False] * way.rows + [True] * border.rows
        assert {exact(row.width_mm) for row in rows if row.border} == {border.width_320}
        assert not any(row.ripped for row in rows if row.border)
        assert [row.ripped for row in rows if not row.border] == [
            row.ripped for row in lay(limits, way)
        ]


@given(st.integers(3, 30), st.integers(70, 200), gaps)
def test_a_border_of_the_fields_own_kind_changes_nothing(
    count: int, width_mm: int, three: tuple[int, int, int]
) -> None:
    """An exact fit of n rows laid as n - 2 between a border of the same width and gaps."""
    width = width_mm * PER_MM
    plain = RowLimits(
        depth_320=count * width + (count - 1) * three[1], board_320=width, least_320=three[0],
        preferred_320=three[1], most_320=three[2], sliver_320=0, least_rip_320=0, least_off_320=1,
    )  # fmt: skip
    beside = gap_beside(three, three)
    assert beside == three
    border = BorderLimits(rows=1, width_320=width, gap_320=three, beside_320=beside)
    field = evolve(plain, depth_320=field_depth_320(plain.depth_320, border))
    (whole,) = [way for way in fit(plain).ways_out if way.kind == "as_wished"]
    (inner,) = [way for way in fit(field).ways_out if way.kind == "as_wished"]
    bordered = lay_bordered(field, inner, border)
    assert [row.near_mm for row in bordered] == [row.near_mm for row in lay(plain, whole)]


@given(gaps, gaps)
def test_a_gap_beside_suits_both_or_there_is_none(
    own: tuple[int, int, int], field: tuple[int, int, int]
) -> None:
    beside = gap_beside(own, field)
    if beside is None:
        assert own[2] < field[0] or field[2] < own[0]
        return
    least, preferred, most = beside
    assert max(own[0], field[0]) == least <= preferred <= most == min(own[2], field[2])
    assert preferred == field[1] or preferred in (least, most)


def test_a_row_far_from_its_ideal_lies_on_a_mark_all_the_same() -> None:
    """Boards of 100; the first gap from 6.2 to 8, the second from 4 to 8: the second row may begin
    from 106.2 to 108. Where it would lie best at 104, the nearest mark of 0.5 within is 106.5.
    """
    laying = Laying(
        widths_320=(exact(100),) * 3,
        ideal_320=(0, exact(104), exact(212)),
        least_320=(0, exact(6.2), exact(4)),
        most_320=(0, exact(8), exact(8)),
        depth_320=exact(312),
        mark_320=exact(0.5),
    )
    assert settle_rows(laying) == (0, exact(106.5), exact(212))
    beyond = evolve(laying, ideal_320=(0, exact(111), exact(212)))
    assert settle_rows(beyond) == (0, exact(108), exact(212))


def test_a_border_by_hand() -> None:
    """595 mm: 120 + 5 + 345 + 5 + 120; 345 is two boards of 145 and a gap of 55, so ripped.

    Two rows of 120 with 3 between take 243 + 5 at either edge: 595 - 496 = 99 is left.
    """
    border = BorderLimits(rows=1, width_320=120 * PER_MM, gap_320=(960, 960, 960),
                          beside_320=(1600, 1600, 1600))  # fmt: skip
    assert field_depth_320(595 * PER_MM, border) == 345 * PER_MM
    double = evolve(border, rows=2)
    assert field_depth_320(595 * PER_MM, double) == 99 * PER_MM
