"""Edges of fields beside sides of an outline, worked by hand: a gap of 8, half of it 4."""

import pytest

from drylay.laying.field_edges import EdgeMoved, FieldBox, edges_laid

#: 1500 of a leg 800 deep, then a wing from 1500 to 3000, 2000 deep.
ELL = ((0, 0), (3000, 0), (3000, 2000), (1500, 2000), (1500, 800), (0, 800))
#: Two legs that meet along 1500 from 800 to 1200: each ends there in line with the other's side.
ZED = ((0, 0), (1500, 0), (1500, 800), (3000, 800), (3000, 2000), (1500, 2000), (1500, 1200),
       (0, 1200))  # fmt: skip


def field(along_mm: float, *, from_mm: float = 0.0, deep_mm: float = 9_000.0) -> FieldBox:
    return FieldBox(corner=(from_mm, 0.0), size=(along_mm - from_mm, deep_mm))


@pytest.mark.parametrize("edge_mm", [1492.5, 1495, 1500, 1501, 1507.5])
def test_boards_of_the_wing_end_in_line_with_its_side(edge_mm: float) -> None:
    """The gap runs from 1492 to 1500, its middle is 1496."""
    laid = edges_laid(ELL, field(edge_mm), gap_mm=8.0)
    assert laid.moved == (EdgeMoved(axis=0, wished_mm=edge_mm, laid_mm=1496.0),)
    assert laid.box == field(1496.0)
    assert not laid.clashes


@pytest.mark.parametrize("edge_mm", [1496, 1492, 1508, 1200, 3000])
def test_an_edge_a_gap_off_or_on_the_decks_own_end_stays(edge_mm: float) -> None:
    laid = edges_laid(ELL, field(edge_mm), gap_mm=8.0)
    assert (laid.box, laid.moved, laid.clashes) == (field(edge_mm), (), ())


def test_a_field_that_takes_the_wing_keeps_its_side() -> None:
    """The field begins at 1503: it ends on the wing's side, the gap lies towards the leg."""
    laid = edges_laid(ELL, field(3_200, from_mm=1503.0), gap_mm=8.0)
    assert [edge.laid_mm for edge in laid.moved] == [1496.0]


def test_a_mirrored_deck_has_its_edge_mirrored() -> None:
    mirrored = tuple((3000 - along, across) for along, across in reversed(ELL))
    laid = edges_laid(mirrored, field(3_200, from_mm=1499.0), gap_mm=8.0)
    assert [edge.laid_mm for edge in laid.moved] == [1504.0]


def test_an_edge_across_is_treated_alike() -> None:
    turned = tuple((across, 3000 - along) for along, across in ELL)
    wished = FieldBox(corner=(0.0, 1502.0), size=(9_000.0, 2_000.0))
    laid = edges_laid(turned, wished, gap_mm=8.0)
    assert laid.moved == (EdgeMoved(axis=1, wished_mm=1502.0, laid_mm=1504.0),)


def test_sides_that_continue_an_edge_from_both_ways_clash() -> None:
    laid = edges_laid(ZED, field(1_497), gap_mm=8.0)
    assert not laid.moved
    assert [(c.axis, c.wished_mm, c.off_mm, c.sides) for c in laid.clashes] == [
        (0, 1_497.0, 3.0, (1, 5))
    ]
