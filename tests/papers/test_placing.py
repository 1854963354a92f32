"""Where texts stand: laws of the places they take, and shapes by hand."""

from math import cos, radians, sin

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.papers.lettering import quad, width_mm
from drylay.papers.model import Lettering
from drylay.papers.outlined_view import angle
from drylay.papers.placing import (
    beyond,
    first_clear,
    inside,
    is_clear,
    line_place,
    place_of,
    sloped,
    touch,
)
from drylay.papers.windows import clipped

numbers = st.floats(-50, 50).map(lambda value: round(value, 2))
slopes = st.floats(-89, 90).map(lambda value: round(value, 1))
lettering = st.builds(
    lambda x, y, slope: Lettering(layer="t", x_mm=x, y_mm=y, text="B12.3", slope_deg=slope),
    numbers, numbers, slopes,
)  # fmt: skip
SQUARE = [(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)]


@settings(max_examples=80, deadline=None)
@given(st.lists(lettering, max_size=8))
def test_no_two_texts_that_were_placed_touch(candidates: list[Lettering]) -> None:
    taken: list = []
    placed = [text for each in candidates for text in first_clear([each], taken)]
    places = [place_of(quad(text)) for text in placed]
    for index, one in enumerate(places):
        assert not any(touch(one, other) for other in places[index + 1 :])


@settings(max_examples=80, deadline=None)
@given(lettering, lettering)
def test_touching_is_mutual_and_a_text_touches_itself(one: Lettering, other: Lettering) -> None:
    a, b = place_of(quad(one)), place_of(quad(other))
    assert touch(a, b) == touch(b, a)
    assert touch(a, a)


@settings(max_examples=60, deadline=None)
@given(lettering)
def test_a_sloped_text_is_as_long_and_as_high_as_a_level_one(text: Lettering) -> None:
    corners = quad(text)
    long = ((corners[1][0] - corners[0][0]) ** 2 + (corners[1][1] - corners[0][1]) ** 2) ** 0.5
    high = ((corners[3][0] - corners[0][0]) ** 2 + (corners[3][1] - corners[0][1]) ** 2) ** 0.5
    assert abs(long - width_mm(text.text, text.size_mm)) < 1e-9
    assert abs(high - text.size_mm) < 1e-9


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 359))
def test_texts_along_a_line_are_read_from_below_or_from_the_right(turn: int) -> None:
    end = (cos(radians(turn)), sin(radians(turn)))
    text = sloped(Lettering(layer="t", x_mm=0, y_mm=0, text="B1"), (0.0, 0.0), end)
    assert text.turned or -90 < text.slope_deg < 90
    assert text.turned == (turn % 180 == 90)


def test_a_line_is_kept_off() -> None:
    text = Lettering(layer="t", x_mm=0, y_mm=0, text="B1")
    assert not is_clear(text, [line_place((-9.0, -9.0), (9.0, 9.0))])
    assert is_clear(text, [line_place((-9.0, 3.0), (9.0, 3.0))])


def test_a_turned_box_in_the_corner_of_another_ones_upright_box_is_clear() -> None:
    # two slanted texts side by side: their upright boxes overlap, they do not
    one = Lettering(layer="t", x_mm=0, y_mm=0, text="a long text", slope_deg=45.0)
    other = evolve(one, x_mm=4.0)
    assert not touch(place_of(quad(one)), place_of(quad(other)))
    assert touch(place_of(quad(one)), place_of(quad(evolve(one, x_mm=3.0))))


def test_a_text_is_inside_a_shape_beyond_it_or_on_its_edge() -> None:
    def text(x: float) -> Lettering:
        return Lettering(layer="t", x_mm=x, y_mm=10.0, text="B1")

    assert inside(text(10.0), SQUARE)
    assert not beyond(text(10.0), SQUARE)
    assert not inside(text(20.0), SQUARE)
    assert not beyond(text(20.0), SQUARE)
    assert beyond(text(30.0), SQUARE)
    assert not inside(text(30.0), SQUARE)


def test_a_notch_is_outside_of_the_shape_that_has_it() -> None:
    notched = [(0.0, 0.0), (20.0, 0.0), (20.0, 8.0), (8.0, 8.0), (8.0, 20.0), (0.0, 20.0)]
    text = Lettering(layer="t", x_mm=15.0, y_mm=15.0, text="B1")
    assert beyond(text, notched)


def test_a_shape_is_cut_off_at_a_window() -> None:
    # a triangle over the right edge of the window: by hand, its side crosses x = 10 at y = 5
    triangle = [(0.0, 0.0), (20.0, 0.0), (0.0, 10.0)]
    found = clipped(triangle, (-1.0, -1.0, 10.0, 20.0))
    assert sorted(found) == [(0.0, 0.0), (0.0, 10.0), (10.0, 0.0), (10.0, 5.0)]
    assert clipped(triangle, (30.0, 30.0, 40.0, 40.0)) == []


def test_an_angle_says_where_it_is_rounded() -> None:
    assert angle(45.0) == "45\u00b0"
    assert angle(33.690068) == "~33.7\u00b0"
    assert angle(22.5) == "22.5\u00b0"
