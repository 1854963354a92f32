"""Joists hung between bearers: laws of their parts, of what closes the frame, of noggins."""

from hypothesis import given
from hypothesis import strategies as st

from drylay.frame.between import Band
from drylay.frame.members import place_members
from drylay.frame.model import Frame
from drylay.marks import exact
from frame.test_members import SECTION, lay

THICK = SECTION.thickness_mm


def hung(bays: list[int], broad: int, *, ledger: bool, most_mm: float = 1800.0) -> Frame:
    """Return a frame whose joists hang in these bays, on a ledger or free of the house."""
    start = THICK if ledger else float(broad)
    at, bands = start, [] if ledger else [0.0]
    for bay in bays:
        bands.append(at + bay)
        at += bay + broad
    edges, supports = lay(3000.0, at, ())
    return place_members(
        edges, supports, SECTION, noggin_spacing_most_mm=most_mm,
        bands=tuple(Band(mark=f"BR{n}", near_mm=near, broad_mm=float(broad))
                    for n, near in enumerate(bands, 1)),
    )  # fmt: skip


some = given(
    bays=st.lists(st.integers(300, 2500), min_size=1, max_size=4),
    broad=st.integers(38, 150),
    ledger=st.booleans(),
)


@some
def test_parts_are_as_long_as_their_bays_and_lie_in_line(
    bays: list[int], broad: int, ledger: bool
) -> None:
    frame = hung(bays, broad, ledger=ledger)
    for joist in frame.joists:
        assert [part.length_mm for part in joist.parts] == bays
        assert joist.near_mm == joist.parts[0].near_mm
        for one, other in zip(joist.parts, joist.parts[1:], strict=False):
            ends = exact(one.near_mm) + exact(one.length_mm)
            assert exact(other.near_mm) - ends == exact(float(broad))
    assert len(frame.joists_sawn) == len(bays) * len(frame.joists)


@some
def test_outer_bearers_close_the_frame_in_the_place_of_rims(
    bays: list[int], broad: int, ledger: bool
) -> None:
    frame = hung(bays, broad, ledger=ledger)
    count = len(bays) + (0 if ledger else 1)
    first = "RA" if ledger else "BR1"
    assert [rim.mark for rim in frame.rims] == [first, f"BR{count}"]
    assert [bool(rim.pieces) for rim in frame.rims] == [ledger, False]
    assert frame.hung_on == (*(["RA"] if ledger else []), *(f"BR{n}" for n in range(1, count + 1)))


@some
def test_noggins_stand_clear_of_every_bearer_and_near_enough(
    bays: list[int], broad: int, ledger: bool
) -> None:
    frame = hung(bays, broad, ledger=ledger, most_mm=700.0)
    parts = frame.joists[0].parts
    for noggin in frame.noggins:
        half = THICK / 2
        assert any(part.near_mm <= noggin.across_mm - half
                   and noggin.across_mm + half <= part.near_mm + part.length_mm
                   for part in parts)  # fmt: skip
    rows = sum(max(0, -(-bay // 700) - 1) for bay in bays)
    assert frame.noggin_rows == rows


def test_over_bearers_a_joist_is_one_piece() -> None:
    edges, supports = lay(3000.0, 2400.0, ())
    frame = place_members(edges, supports, SECTION, noggin_spacing_most_mm=1800.0)
    assert not frame.hung
    assert frame.hung_on == ()
    assert frame.joists_sawn[0] == ("J1", frame.joists[0].length_mm)
