"""Packers under any frame: none too far apart, every end carried, rectangles as ever."""

import math
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from drylay.geometry import Place
from drylay.groundwork.outlined_packing import Carried, carrying, packer_places
from drylay.groundwork.packing import packers_under

THICK = 45.0


def line(start: Place, end: Place) -> Carried:
    return Carried(start_mm=start, end_mm=end)


def ladder(along: float, across: float, count: int) -> list[Carried]:
    """Return a frame as rectangles have: joists between two rims, the outer two its other sides."""
    step = (along - THICK) / (count - 1)
    joists = [
        line((THICK / 2 + n * step, THICK), (THICK / 2 + n * step, across - THICK))
        for n in range(count)
    ]
    rims = [line((0.0, y), (along, y)) for y in (THICK / 2, across - THICK / 2)]
    return [*joists, *rims]


def test_a_rectangles_packers_are_those_under_its_joists() -> None:
    """Joists of 2900 less two rims, 600 at most: ceil(2810 / 600) + 1 = 6 each, 8 joists: 48."""
    places = packer_places(ladder(2845.0, 2900.0, 8), spacing_most_mm=600.0, thickness_mm=THICK)
    assert packers_under(2810.0, 600.0) == 6
    assert len(places) == 48


def test_two_that_touch_share() -> None:
    pair = [line((0.0, 0.0), (0.0, 3000.0)), line((THICK, 0.0), (THICK, 3000.0))]
    assert len(packer_places(pair, spacing_most_mm=600.0, thickness_mm=THICK)) == 6


def test_two_apart_do_not() -> None:
    two = [line((0.0, 0.0), (0.0, 3000.0)), line((200.0, 0.0), (200.0, 3000.0))]
    assert len(packer_places(two, spacing_most_mm=600.0, thickness_mm=THICK)) == 12


PLACES = st.tuples(st.integers(0, 6000), st.integers(0, 6000)).map(
    lambda p: (float(p[0]), float(p[1]))
)
LINES = st.lists(
    st.tuples(PLACES, PLACES).filter(lambda ends: math.dist(*ends) > 200), min_size=1, max_size=8
)


@given(LINES, st.sampled_from([450.0, 600.0, 900.0]))
def test_every_timber_is_carried(ends: list[tuple[Place, Place]], spacing: float) -> None:
    timbers = [line(*pair) for pair in ends]
    places = packer_places(timbers, spacing_most_mm=spacing, thickness_mm=THICK)
    for timber in timbers:
        reaches = carrying(timber, places, THICK)
        long = math.dist(timber.start_mm, timber.end_mm)
        assert reaches[0] <= 2 * THICK + 0.01
        assert reaches[-1] >= long - 2 * THICK - 0.01
        assert all(b - a <= spacing + 0.02 for a, b in pairwise(reaches))
