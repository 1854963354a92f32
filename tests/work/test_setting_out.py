"""Setting out: pegs at the frame's corners, and the largest 3-4-5 its sides carry."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.edges.model import Edges
from drylay.work.setting_out import set_out, three_four_five

sides = st.integers(300 * 320, 20_000 * 320).map(lambda length_320: length_320 / 320)


def edges(length_mm: float, depth_mm: float) -> Edges:
    return Edges(
        frame_start_mm=28.0, frame_near_mm=0.0, frame_length_mm=length_mm, frame_depth_mm=depth_mm
    )


@pytest.mark.parametrize(
    ("along_mm", "across_mm", "units", "legs_mm"),
    [
        (2500.0, 1850.0, "metric", (2400.0, 1800.0, 3000.0)),  # 1850 / 3 = 616, 2500 / 4 = 625
        (1850.0, 2500.0, "metric", (1800.0, 2400.0, 3000.0)),
        (400.0, 300.0, "metric", (400.0, 300.0, 500.0)),
        (399.9, 300.0, "metric", None),
        (1219.2, 914.4, "imperial", (1219.2, 914.4, 1524.0)),  # 4 ft, 3 ft, 5 ft
        (1219.2, 914.0, "imperial", None),
    ],
)
def test_three_four_five_by_hand(
    along_mm: float, across_mm: float, units: str, legs_mm: tuple[float, float, float] | None
) -> None:
    assert three_four_five(along_mm, across_mm, units) == legs_mm


@given(sides, sides, st.sampled_from(["metric", "imperial"]))
def test_three_four_five_is_square_fits_and_none_larger_does(
    along_mm: float, across_mm: float, units: str
) -> None:
    """Square by Euclid I.48: a triangle whose squares add up has a right angle."""
    unit = {"metric": 100.0, "imperial": 304.8}[units]
    found = three_four_five(along_mm, across_mm, units)
    times = 0
    if found is not None:
        along, across, slant = found
        assert along**2 + across**2 == pytest.approx(slant**2)
        assert along <= along_mm
        assert across <= across_mm
        times = round(slant / unit / 5)
        assert slant == pytest.approx(5 * times * unit)
    for one, other in ((3, 4), (4, 3)):
        larger = (one * (times + 1) * unit, other * (times + 1) * unit)
        assert larger[0] > along_mm + 1e-6 or larger[1] > across_mm + 1e-6


def test_pegs_by_hand() -> None:
    """A frame of 5989 by 2944, 28 in from the left edge and none from the house."""
    out = set_out(edges(5989.0, 2944.0), run="along", units="metric")
    assert [(peg.mark, peg.along_mm, peg.across_mm) for peg in out.pegs] == [
        ("P1", 28.0, 0.0), ("P2", 6017.0, 0.0), ("P3", 6017.0, 2944.0), ("P4", 28.0, 2944.0),
    ]  # fmt: skip
    assert out.accepted_mm == 5.0  # common practice, no source


def test_pegs_stand_in_the_houses_axes_when_boards_run_across() -> None:
    """Boards away from the house: the frame's length runs that way too."""
    out = set_out(edges(2944.0, 5989.0), run="across", units="metric")
    assert [(peg.along_mm, peg.across_mm) for peg in out.pegs] == [
        (0.0, 28.0), (5989.0, 28.0), (5989.0, 2972.0), (0.0, 2972.0),
    ]  # fmt: skip


@given(sides, sides, st.sampled_from(["along", "across"]))
def test_pegs_are_a_rectangle_of_the_frames_sides(
    length_mm: float, depth_mm: float, run: str
) -> None:
    pegs = set_out(edges(length_mm, depth_mm), run=run, units="metric").pegs
    first, along, far, across = ((peg.along_mm, peg.across_mm) for peg in pegs)
    sides = sorted((along[0] - first[0], across[1] - first[1]))
    assert sides == pytest.approx(sorted((length_mm, depth_mm)))
    assert far == (along[0], across[1])
