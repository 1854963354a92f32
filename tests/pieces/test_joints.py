"""Joints and pieces: pieces and gaps fill the row, every joint on its joist."""

from decimal import Decimal

from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.marks import exact
from drylay.pieces.joints import JointRules, board_line, joint_rows
from drylay.pieces.model import Pieces
from drylay.supports.lines import place_joists
from drylay.surface.model import Row, Surface

RULES = JointRules(
    end_gap_mm=4.0,
    end_bearing_least_mm=20.0,
    least_supports=3,
    stagger_bays=2,
    most_joints_per_row=None,
    joint_price=Decimal("0.50"),
)


def surface(length_mm: float, rows: int) -> Surface:
    return Surface(
        run="along",
        cover_along_mm=length_mm,
        cover_across_mm=rows * 150.0 - 5,
        cover_change_mm=0.0,
        row_length_mm=length_mm,
        rows_depth_mm=rows * 150.0 - 5,
        board_article="DB",
        board_width_mm=145.0,
        board_thickness_mm=28.0,
        gap_preferred_mm=5.0,
        gap_least_mm=4.0,
        gap_most_mm=8.0,
        sliver_limit_mm=72.5,
        least_rip_mm=72.5,
        whole_rows=rows,
        remainder_mm=0.0,
        strip_mm=0.0,
        way_out="as_wished",
        rows=tuple(
            Row(mark=f"B{n + 1}", near_mm=150.0 * n, width_mm=145.0, gap_mm=5.0 * (n > 0),
                ripped=False)
            for n in range(rows)
        ),
        ways_out=(),
    )  # fmt: skip


def jointed(length_mm: float, stations: tuple[tuple[int, ...], ...], rules: JointRules) -> Pieces:
    supports = place_joists(length_mm=length_mm, joist_mm=45.0, most_centres_mm=400.0)
    return joint_rows(surface(length_mm, len(stations)), supports, rules, stations)


@given(
    st.integers(30_000, 120_000).map(lambda tenths: tenths / 10),
    st.integers(0, 80).map(lambda tenths: tenths / 10),
    st.integers(0, 200).map(lambda tenths: tenths / 10),
    st.data(),
)
def test_pieces_and_gaps_fill_the_row(
    length_mm: float, gap_mm: float, allowance_mm: float, data: st.DataObject
) -> None:
    supports = place_joists(length_mm=length_mm, joist_mm=45.0, most_centres_mm=400.0)
    inner = st.integers(1, supports.line_count - 2)
    at = tuple(sorted(data.draw(st.sets(inner, max_size=3))))
    rules = evolve(RULES, end_gap_mm=gap_mm, trim_allowance_mm=allowance_mm)
    found = jointed(length_mm, (at,), rules)
    lengths = sum(exact(piece.length_mm) for piece in found.pieces)
    assert lengths + exact(gap_mm) * len(at) == exact(length_mm)
    sawn = sum(exact(piece.cut_mm) for piece in found.pieces)
    assert sawn - lengths == 2 * exact(allowance_mm)
    assert [joint.centre_mm for joint in found.joints] == [
        supports.lines[station].offset_mm for station in at
    ]


def test_an_end_piece_and_a_middle_piece_by_hand() -> None:
    """End piece 400 x 4 + 22.5 - 2 = 1620.5; middle piece 400 x 7 - 4 = 2796, by hand."""
    found = jointed(6_045.0, ((4, 11),), RULES)
    assert [piece.length_mm for piece in found.pieces] == [1_620.5, 2_796.0, 1_620.5]
    assert [piece.start_mm for piece in found.pieces] == [0.0, 1_624.5, 4_424.5]
    assert [(p.mark, p.from_joist, p.to_joist) for p in found.pieces] == [
        ("B1.1", "", "J5"), ("B1.2", "J5", "J12"), ("B1.3", "J12", ""),
    ]  # fmt: skip
    assert found.end_bearing_mm == 20.5


def test_trimmed_in_line_pieces_are_sawn_longer_at_the_deck_edge_only() -> None:
    found = jointed(6_045.0, ((4, 11),), evolve(RULES, trim_allowance_mm=15.0))
    extra = [piece.cut_mm - piece.length_mm for piece in found.pieces]
    assert extra == [15.0, 0.0, 15.0]
    whole = jointed(3_045.0, ((),), evolve(RULES, trim_allowance_mm=15.0))
    assert [piece.cut_mm - piece.length_mm for piece in whole.pieces] == [30.0]


def test_the_line_the_cutter_gets() -> None:
    supports = place_joists(length_mm=1_245.0, joist_mm=45.0, most_centres_mm=400.0)
    line = board_line(surface(1_245.0, 3), supports, evolve(RULES, trim_allowance_mm=10.0))
    assert (line.start, line.end) == (-3_200, 1_255 * 320)
    assert line.stations == tuple(exact(at) for at in (22.5, 422.5, 822.5, 1_222.5))
    assert (line.count, line.joint_gap, line.least_bays, line.stagger) == (3, 1_280, 2, 2)
