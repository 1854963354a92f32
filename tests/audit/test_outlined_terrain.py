"""The audit's own ground within an outline, by hand, where no deck of other tests lies on it."""

from attrs import evolve

from audit.outlined_sample import outline, spot
from drylay.audit.exact import PER_MM
from drylay.audit.outlined_terrain import terrain_within
from drylay.brief.model import GroundPoint
from drylay.outline.model import Outline

Corners = tuple[tuple[float, float, str], ...]


def points(*places: tuple[float, float, float]) -> tuple[GroundPoint, ...]:
    return tuple(GroundPoint(along_mm=x, across_mm=y, level_mm=z) for x, y, z in places)


def deck(*corners: tuple[float, float, str]) -> Outline:
    """Return an outline of these corners, each with the kind of the side that begins there."""
    plain = outline()
    ends = zip(corners, (*corners[1:], corners[0]), strict=True)
    return evolve(plain, sides=tuple(
        evolve(plain.sides[0], mark=f"E{n}", kind=kind, start=spot((x, y)), end=spot(end[:2]))
        for n, ((x, y, kind), end) in enumerate(ends, 1)
    ))  # fmt: skip


SQUARE: Corners = tuple((x, y, "open") for x, y in ((0, 0), (2000, 0), (2000, 2000), (0, 2000)))
#: 0.01 x (along + 2 across), measured well beyond the decks.
SLOPE = points(*(
    (x, y, (x + 2 * y) / 100)
    for x, y in ((-1000, -1000), (5000, -1000), (5000, 5000), (-1000, 5000))
))  # fmt: skip


def test_a_deck_in_an_inner_corner_falls_from_the_middle_of_its_open_side() -> None:
    """No corner of the triangle is off the walls. The middle of its open side lies at 30.

    It is 1000 off either wall, over 10 and over 20: the lower of the two says the fall.
    """
    corner = deck((0, 0, "house"), (2000, 0, "open"), (0, 2000, "house"))
    lies = terrain_within(SLOPE, corner)
    assert lies is not None
    assert lies.fall_to_house == 20 * PER_MM
    assert (lies.least, lies.most) == (0, 40 * PER_MM)


def test_without_a_house_nothing_falls_to_it() -> None:
    lies = terrain_within(SLOPE, deck(*SQUARE))
    assert lies is not None
    assert lies.fall_to_house == 0
    assert lies.most == 60 * PER_MM


def test_ground_is_never_drawn_on_beyond_its_points() -> None:
    """A slope of 10 in 1000, measured within the deck: its edges lie no lower than its points."""
    within = points((500, 500, 0), (1500, 500, 10), (500, 1500, 10), (1500, 1500, 20))
    lies = terrain_within(within, deck(*SQUARE))
    assert lies is not None
    assert (lies.least, lies.edge_least, lies.most) == (0, 0, 20 * PER_MM)


def test_points_in_line_tell_of_no_ground() -> None:
    line = points((0, 0, 0), (1000, 1000, 10), (2000, 2000, 20))
    assert terrain_within(line, deck(*SQUARE)) is None
