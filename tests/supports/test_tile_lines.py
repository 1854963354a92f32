"""Joist lines under tiles: one under each joint, the bays between within their limits."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.marks import exact, to_mm
from drylay.supports.model import Supports
from drylay.supports.tile_lines import TileBays, place_under_tiles
from drylay.tiling.model import TileColumn

JOIST_MM = 45.0


def columns_of(lengths: list[float], joint_mm: float) -> tuple[TileColumn, ...]:
    found, near = [], 0
    for number, length in enumerate(lengths, start=1):
        found.append(
            TileColumn(mark=f"C{number}", start_mm=to_mm(near), length_mm=length, gap_mm=joint_mm,
                       cut=False)
        )  # fmt: skip
        near += exact(length) + exact(joint_mm)
    return tuple(found)


def lines_under(
    lengths: list[float], *, joint_mm: float = 4.0, bays: int = 2, most_mm: float = 400.0,
    units: str = "metric",
) -> Supports:  # fmt: skip
    columns = columns_of(lengths, joint_mm)
    return place_under_tiles(
        columns,
        frame_start_mm=0.0,
        frame_length_mm=columns[-1].start_mm + columns[-1].length_mm,
        joist_mm=JOIST_MM,
        bays=TileBays(
            most_centres_mm=most_mm, bays_per_tile=bays, module_mm=max(lengths) + joint_mm
        ),
        units=units,
    )


def test_tiles_of_600_with_joints_of_4_want_joists_every_302() -> None:
    """A joist under each joint and midway: (600 + 4) / 2. Source: common practice; arithmetic."""
    supports = lines_under([600.0] * 5)
    offsets = [line.offset_mm for line in supports.lines]
    inner = [after - before for before, after in pairwise(offsets)]
    assert inner[2:-2] == [302.0] * len(inner[2:-2])
    assert supports.centres_mm == 302.0
    assert offsets[2:-1:2] == [602.0, 1206.0, 1810.0, 2414.0]
    assert (offsets[0], offsets[-1]) == (22.5, 3016.0 - 22.5)


cases = st.tuples(
    st.lists(st.integers(300, 1200), min_size=1, max_size=10), st.integers(2, 5),
    st.integers(1, 3), st.integers(250, 600), st.sampled_from(["metric", "imperial"]),
)  # fmt: skip
Case = tuple[list[int], int, int, int, str]


def placed(case: Case) -> Supports:
    lengths, joint, bays, most, units = case
    return lines_under(
        [*map(float, lengths)], joint_mm=float(joint), bays=bays, most_mm=float(most), units=units
    )


@given(cases)
def test_a_joist_is_centred_under_every_joint(case: Case) -> None:
    lines = {exact(line.offset_mm) for line in placed(case).lines}
    columns = columns_of([*map(float, case[0])], float(case[1]))
    for one, other in pairwise(columns):
        assert (exact(one.start_mm + one.length_mm) + exact(other.start_mm)) // 2 in lines


@given(cases)
def test_bays_keep_the_joists_limit_and_the_tiles(case: Case) -> None:
    supports = placed(case)
    offsets = [exact(line.offset_mm) for line in supports.lines]
    bays = [after - before for before, after in pairwise(offsets)]
    assert min(bays) > 0
    assert max(bays) <= exact(float(case[3]))
    assert max(bays) * case[2] <= exact(max(case[0]) + float(case[1])) + case[2]
    assert to_mm(max(bays)) == supports.centres_mm
    assert len(offsets) == supports.line_count


@pytest.mark.parametrize(("bays", "count"), [(1, 4), (2, 7), (3, 10)])
def test_so_many_bays_to_a_tile(bays: int, count: int) -> None:
    """Three tiles of 600: two joints and two edges, and a joist or two between each."""
    assert lines_under([600.0] * 3, bays=bays, most_mm=700.0).line_count == count
