"""Fascia: off the cover first, long faces over short ones, pieces that add up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.edges.fascia import lay_out_edges
from drylay.edges.model import Edges
from drylay.marks import exact

SIDES = ("house", "right", "front", "left")
sides = st.sets(st.sampled_from(SIDES)).map(lambda found: tuple(sorted(found)))
sizes = st.integers(600, 9_000).map(float)


def lay(run: str, length_mm: float, depth_mm: float, faced: tuple[str, ...]) -> Edges:
    return lay_out_edges(
        run=run,
        row_length_mm=length_mm,
        rows_depth_mm=depth_mm,
        sides=faced,
        article="FA",
        thickness_mm=28.0,
        depth_mm=145.0,
        longest_mm=3_600.0,
    )


@given(st.sampled_from(["along", "across"]), sizes, sizes, sides)
def test_cover_is_frame_and_fascia(
    run: str, length_mm: float, depth_mm: float, faced: tuple[str, ...]
) -> None:
    edges = lay(run, length_mm, depth_mm, faced)
    ends = ("left", "right") if run == "along" else ("house", "front")
    at_ends = sum(side in faced for side in ends)
    at_edges = len(faced) - at_ends
    assert edges.frame_length_mm + 28 * at_ends == length_mm
    assert edges.frame_depth_mm + 28 * at_edges == depth_mm
    assert edges.frame_start_mm == 28 * (ends[0] in faced)


@given(st.sampled_from(["along", "across"]), sizes, sizes, sides)
def test_faces_meet_at_the_corners_without_overlap(
    run: str, length_mm: float, depth_mm: float, faced: tuple[str, ...]
) -> None:
    """The fascia's own plan area is the cover's less the frame's: nothing twice, no hole."""
    edges = lay(run, length_mm, depth_mm, faced)
    ring = length_mm * depth_mm - edges.frame_length_mm * edges.frame_depth_mm
    assert sum(face.length_mm * 28 for face in edges.faces) == pytest.approx(ring)


@given(sizes, sizes, sides)
def test_pieces_add_up_and_fit_the_longest_on_sale(
    length_mm: float, depth_mm: float, faced: tuple[str, ...]
) -> None:
    for face in lay("along", length_mm, depth_mm, faced).faces:
        lengths = [exact(piece.length_mm) for piece in face.pieces]
        assert sum(lengths) == exact(face.length_mm)
        assert min(lengths) > 0
        assert max(lengths) <= exact(3_600)
        assert (len(lengths) - 1) * exact(3_600) < exact(face.length_mm)


@given(sizes, sizes)
def test_turning_the_boards_turns_nothing_on_the_ground(x_mm: float, y_mm: float) -> None:
    along = lay("along", x_mm, y_mm, SIDES)
    across = lay("across", y_mm, x_mm, SIDES)
    assert {(f.side, f.length_mm, f.long_face) for f in along.faces} == {
        (f.side, f.length_mm, f.long_face) for f in across.faces
    }


def test_a_six_metre_front_by_hand() -> None:
    """6000 x 3000, front and both ends faced with 28: frame 5944 x 2972, by hand."""
    edges = lay("along", 6_000.0, 3_000.0, ("front", "left", "right"))
    assert (edges.frame_length_mm, edges.frame_depth_mm) == (5_944.0, 2_972.0)
    by_side = {face.side: face for face in edges.faces}
    assert by_side["front"].length_mm == 6_000.0
    assert by_side["left"].length_mm == 2_972.0
    assert [piece.length_mm for piece in by_side["front"].pieces] == [3_000.0, 3_000.0]
    assert [piece.mark for piece in by_side["front"].pieces] == ["F-front.1", "F-front.2"]


def test_parts_on_marks_where_they_can_be() -> None:
    edges = lay("along", 7_201.0, 600.0, ("front",))
    assert [p.length_mm for p in edges.faces[0].pieces] == [2_400.5, 2_400.0, 2_400.5]
    five = lay("along", 17_002.0, 600.0, ("front",))  # 3400.4 each: no part is a mark off it
    assert all(abs(p.length_mm - 3_400.4) < 0.5 for p in five.faces[0].pieces)


def test_parts_that_only_just_fit_are_exact() -> None:
    """7200 in two parts of 3600 fits; 7199.8 must not round a part up past 3600."""
    edges = lay_out_edges(
        run="along",
        row_length_mm=7_199.9,
        rows_depth_mm=600.0,
        sides=("front",),
        article="FA",
        thickness_mm=28.0,
        depth_mm=145.0,
        longest_mm=3_599.97,
    )
    lengths = [exact(piece.length_mm) for piece in edges.faces[0].pieces]
    assert max(lengths) <= exact(3_599.97)
    assert sum(lengths) == exact(7_199.9)


def test_no_fascia_leaves_the_cover_alone() -> None:
    edges = lay("along", 6_045.0, 2_995.0, ())
    assert (edges.frame_length_mm, edges.frame_depth_mm) == (6_045.0, 2_995.0)
    assert edges.faces == ()
    assert edges.fascia_article == ""
