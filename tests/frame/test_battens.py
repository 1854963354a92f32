"""Battens: under every joint, off the rims, merged where they touch; noggins stay clear of them."""

from decimal import Decimal
from itertools import pairwise

from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.edges.fascia import lay_out_edges
from drylay.edges.model import Edges
from drylay.frame.battens import Battens, place_battens
from drylay.frame.members import Section, place_members
from drylay.marks import exact
from drylay.pieces.joints import JointRules, board_line, joint_rows, on_battens
from drylay.pieces.model import Pieces
from drylay.supports.lines import place_joists
from drylay.supports.model import Supports
from drylay.surface.model import Row, Surface
from pieces.test_joints import surface as surface_of

RULES = JointRules(
    end_gap_mm=4.0, end_bearing_least_mm=20.0, least_supports=3, stagger_bays=2,
    most_joints_per_row=None, joint_price=Decimal("0.50"),
)  # fmt: skip
SECTION = Section(article="FT", thickness_mm=45.0, depth_mm=145.0)


def edges_of(surface: Surface, sides: tuple[str, ...] = ()) -> Edges:
    return lay_out_edges(
        run="along", row_length_mm=surface.row_length_mm, rows_depth_mm=surface.rows_depth_mm,
        sides=sides, article="FA", thickness_mm=28.0, depth_mm=145.0, longest_mm=20_000.0,
    )  # fmt: skip


def laid(
    stations: tuple[tuple[int, ...], ...], *, off_mm: float = 0.0, sides: tuple[str, ...] = ()
) -> tuple[Surface, Edges, Supports, Pieces, Battens]:
    surface = surface_of(6000.0, len(stations))
    edges = edges_of(surface, sides)
    placed = place_joists(
        length_mm=edges.frame_length_mm, joist_mm=45.0, most_centres_mm=400.0,
        start_mm=edges.frame_start_mm,
    )  # fmt: skip
    supports = evolve(placed, joists_under_joint=1, battens_per_joint=1)
    pieces = joint_rows(surface, supports, RULES, stations)
    battens = place_battens(pieces, surface, edges, supports, off_rims_mm=off_mm)
    return surface, edges, supports, on_battens(pieces, battens.under), battens


#: Rows jointed turn about on some lines, as the cutter would: neighbours two bays apart.
patterns = st.lists(st.sampled_from([(4,), (7,), (10,)]), min_size=3, max_size=12).map(tuple)


@given(patterns, st.sampled_from([0.0, 45.0]), st.sampled_from([(), ("front", "left")]))
def test_every_joint_has_its_batten_beneath_the_whole_row(
    stations: tuple[tuple[int, ...], ...], off_mm: float, sides: tuple[str, ...]
) -> None:
    surface, edges, supports, pieces, found = laid(stations, off_mm=off_mm, sides=sides)
    battens = {batten.mark: batten for batten in found.battens}
    rows = {row.mark: row for row in surface.rows}
    inner = edges.frame_near_mm + 45.0 + off_mm
    outer = edges.frame_near_mm + edges.frame_depth_mm - 45.0 - off_mm
    assert [batten.mark for batten in found.battens] == [f"Q{n + 1}" for n in range(len(battens))]
    for joint in pieces.joints:
        batten, row = battens[joint.beside], rows[joint.row]
        far_mm = batten.near_mm + batten.length_mm
        assert batten.joist == joint.joist
        assert inner <= batten.near_mm
        assert far_mm <= outer
        assert batten.near_mm <= max(row.near_mm - 50, inner)
        assert far_mm >= min(row.near_mm + row.width_mm + 50, outer)
        line = supports.lines[int(joint.joist[1:]) - 1].offset_mm
        assert (joint.centre_mm, batten.offset_mm) == (line + 22.5, line + 45.0)


@given(patterns)
def test_no_two_battens_of_a_joist_touch(stations: tuple[tuple[int, ...], ...]) -> None:
    *_, found = laid(stations)
    by_joist: dict[str, list[tuple[float, float]]] = {}
    for batten in found.battens:
        by_joist.setdefault(batten.joist, []).append(
            (batten.near_mm, batten.near_mm + batten.length_mm)
        )
    for stretches in by_joist.values():
        assert all(far < near for (_, far), (near, _) in pairwise(stretches))


#: Neighbours apart, as a stagger keeps them: battens leave 55 between them, room for a noggin.
staggered = st.lists(st.sampled_from([4, 7, 10]), min_size=4, max_size=14).map(
    lambda lines: tuple(
        (line if not at or line != lines[at - 1] else 13 if at % 2 else 15,)
        for at, line in enumerate(lines)
    )
)


@given(staggered, st.sampled_from([300.0, 600.0, 1800.0]))
def test_noggins_stand_clear_of_the_battens_of_their_bay(
    stations: tuple[tuple[int, ...], ...], spacing_mm: float
) -> None:
    surface, edges, supports, _, found = laid(stations)
    bare = place_members(edges, supports, SECTION, noggin_spacing_most_mm=spacing_mm)
    frame = place_members(
        edges, supports, SECTION, noggin_spacing_most_mm=spacing_mm, battens=found.battens
    )
    assert frame.batten_count == len(found.battens)
    for noggin, before in zip(frame.noggins, bare.noggins, strict=True):
        beside = [batten for batten in found.battens if batten.joist == noggin.left]
        clear = [
            noggin.across_mm + 22.5 <= batten.near_mm
            or noggin.across_mm - 22.5 >= batten.near_mm + batten.length_mm
            for batten in beside
        ]
        stood_clear = [
            before.across_mm + 22.5 <= batten.near_mm
            or before.across_mm - 22.5 >= batten.near_mm + batten.length_mm
            for batten in beside
        ]
        assert all(clear)
        if all(stood_clear):
            assert noggin == before
    assert surface.rows


def test_a_batten_by_hand() -> None:
    """Row B2 lies from 150 to 295: the batten from 100 to 345. Row B1's begins at the rim's 45."""
    _, _, _, pieces, found = laid(((4,), (7,), (4,)))
    assert [(b.mark, b.joist, b.near_mm, b.length_mm) for b in found.battens] == [
        ("Q1", "J5", 45.0, 150.0),
        ("Q2", "J5", 250.0, 150.0),
        ("Q3", "J8", 100.0, 245.0),
    ]
    assert [(j.row, j.joist, j.beside) for j in pieces.joints] == [
        ("B1", "J5", "Q1"), ("B2", "J8", "Q3"), ("B3", "J5", "Q2"),
    ]  # fmt: skip
    second = next(piece for piece in pieces.pieces if piece.mark == "B2.2")
    assert (second.from_joist, second.to_joist) == ("Q3", "")


def test_rows_side_by_side_on_one_joist_share_a_batten() -> None:
    *_, found = laid(((4,), (4,), (4,)))
    (batten,) = found.battens
    assert (batten.near_mm, batten.length_mm) == (45.0, 355.0)
    assert set(found.under.values()) == {"Q1"}


def test_a_row_over_the_rim_still_has_a_batten_of_100() -> None:
    """A ripped first row of 60, fascia 28, rim 45, another 45 kept free: from 118, 100 long."""
    surface = surface_of(6000.0, 2)
    narrow = Row(mark="B1", near_mm=0.0, width_mm=60.0, gap_mm=0.0, ripped=True)
    surface = evolve(surface, rows=(narrow, *surface.rows[1:]))
    edges = edges_of(surface, ("house", "front", "left", "right"))
    placed = place_joists(
        length_mm=edges.frame_length_mm, joist_mm=45.0, most_centres_mm=400.0, start_mm=28.0
    )
    supports = evolve(placed, joists_under_joint=1, battens_per_joint=1)
    pieces = joint_rows(surface, supports, RULES, ((4,), ()))
    found = place_battens(pieces, surface, edges, supports, off_rims_mm=45.0)
    assert [(b.near_mm, b.length_mm) for b in found.battens] == [(118.0, 100.0)]


def test_stations_over_battens_are_the_joists_far_faces() -> None:
    surface, _, supports, pieces, _ = laid(((4,), (7,)))
    line = board_line(surface, supports, RULES)
    assert line.stations[4] == exact(supports.lines[4].offset_mm + 22.5)
    assert (line.least_bays, line.stagger) == (2, 2)
    assert pieces.end_bearing_mm == 43.0  # (2 x 45 - 4) / 2
