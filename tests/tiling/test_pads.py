"""Pads: how many, where, none outside, and alike from either corner."""

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.marks import exact, to_mm
from drylay.surface.model import Row
from drylay.tiling.model import Pad, TileColumn
from drylay.tiling.pads import PadRules, place_pads


def courses(widths: list[float], joint_mm: float) -> list[tuple[float, float]]:
    found, near = [], 0
    for width in widths:
        found.append((to_mm(near), width))
        near += exact(width) + exact(joint_mm)
    return found


def pads_of(
    lengths: list[float], widths: list[float], *, joint_mm: float = 4.0, most_mm: float = 600.0,
    centre: int = 1,
) -> tuple[Pad, ...]:  # fmt: skip
    columns = tuple(
        TileColumn(mark=f"C{n}", start_mm=at, length_mm=long, gap_mm=joint_mm, cut=False)
        for n, (at, long) in enumerate(courses(lengths, joint_mm), start=1)
    )
    rows = tuple(
        Row(mark=f"B{n}", near_mm=at, width_mm=wide, gap_mm=joint_mm, ripped=False)
        for n, (at, wide) in enumerate(courses(widths, joint_mm), start=1)
    )
    return place_pads(rows, columns, PadRules(at_edges_most_mm=most_mm, at_centre=centre))


sides = st.sampled_from([300.0, 400.0, 600.0, 900.0, 1200.0])
lots = st.integers(1, 12)


@given(lots, lots, st.sampled_from([300.0, 400.0, 500.0, 600.0]))
def test_the_plain_case(columns: int, rows: int, side: float) -> None:
    """A pad at each corner and each middle: (nx + 1)(ny + 1) + nx ny.

    Source: common practice, as the project's notes on the trade tell it.
    """
    pads = pads_of([side] * columns, [side] * rows)
    assert len(pads) == (columns + 1) * (rows + 1) + columns * rows


@given(lots, lots, sides, sides, st.integers(0, 2))
def test_longer_edges_have_pads_between(
    columns: int, rows: int, long: float, wide: float, centre: int
) -> None:
    """Every edge is held each 600: 900 and 1200 have one more, all others none."""
    more = {side: int(side > 600.0) for side in (long, wide)}
    kinds = Counter(pad.kind for pad in pads_of([long] * columns, [wide] * rows, centre=centre))
    assert kinds["corner"] == (columns + 1) * (rows + 1)
    assert kinds["edge"] == (
        more[long] * columns * (rows + 1) + more[wide] * rows * (columns + 1)
    )  # fmt: skip
    assert kinds["centre"] == centre * columns * rows


@given(
    st.lists(st.integers(100, 1200), min_size=1, max_size=8),
    st.lists(st.integers(100, 1200), min_size=1, max_size=8),
    st.integers(2, 5), st.integers(0, 3),
)  # fmt: skip
def test_no_pad_stands_outside_and_no_two_on_one_place(
    lengths: list[int], widths: list[int], joint: int, centre: int
) -> None:
    pads = pads_of([*map(float, lengths)], [*map(float, widths)], joint_mm=joint, centre=centre)
    long, deep = sum(lengths) + joint * (len(lengths) - 1), sum(widths) + joint * (len(widths) - 1)
    assert all(0 <= pad.start_mm <= long and 0 <= pad.across_mm <= deep for pad in pads)
    assert len({(pad.start_mm, pad.across_mm) for pad in pads}) == len(pads)
    at = {(pad.start_mm, pad.across_mm) for pad in pads if pad.kind == "corner"}
    assert {(0, 0), (long, 0), (0, deep), (long, deep)} <= at


@given(
    st.lists(st.integers(100, 1200), min_size=1, max_size=8), st.integers(200, 700),
)  # fmt: skip
def test_no_edge_is_longer_between_pads_than_the_rule(lengths: list[int], most: int) -> None:
    pads = pads_of([*map(float, lengths)], [300.0], most_mm=float(most), centre=0)
    line = sorted(exact(pad.start_mm) for pad in pads if pad.across_mm == 0)
    clear = max(far - near for near, far in pairwise(line))
    assert clear <= exact(most) + exact(4.0)  # with the half joints at either end of a tile


@pytest.mark.parametrize(
    ("lengths", "at"),
    [
        ([600.0, 600.0], {0.0, 602.0, 1204.0}),  # in the middle of the joint of 4
        ([900.0], {0.0, 450.0, 900.0}),
        ([1300.0], {0.0, 433.33125, 866.665625, 1300.0}),  # thirds, down to 1/320 mm
    ],
)
def test_where_pads_stand_by_hand(lengths: list[float], at: set[float]) -> None:
    pads = pads_of(lengths, [300.0], centre=0)
    told = {pad.start_mm for pad in pads}
    assert told == at


def test_a_middle_by_hand() -> None:
    middles = [pad for pad in pads_of([600.0], [400.0]) if pad.kind == "centre"]
    assert [(pad.start_mm, pad.across_mm) for pad in middles] == [(300.0, 200.0)]
