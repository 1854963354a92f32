"""Where a fascia is screwed: laws of the spread, and places worked out by hand."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from audit.sample_deck import edges, fixings, frame
from drylay.fixings.fascia import (
    Behind,
    FasciaRules,
    clear_of_heads_mm,
    place_fascia_screws,
    spread,
)

MM = 320
MARK = 160  # 0.5 mm

holes = st.lists(
    st.tuples(st.integers(0, 4000 * MM), st.integers(0, 40 * MM)).map(
        lambda hole: (hole[0] - hole[1], hole[0] + hole[1])
    ),
    max_size=12,
)


@given(
    st.integers(0, 300 * MM),
    st.integers(0, 4000 * MM),
    holes,
    st.integers(200 * MM, 900 * MM),
    st.sampled_from([160, 508]),
)
def test_places_lie_on_marks_in_the_open_and_never_too_far_apart(
    start: int, length: int, shut: list[tuple[int, int]], most: int, mark: int
) -> None:
    room = (start, start + length)
    spots = spread(room, shut, spacing_most=most, mark=mark)
    for spot in spots:
        assert room[0] <= spot <= room[1]
        assert spot % mark == 0
        assert not any(a < spot < b for a, b in shut)
    assert all(0 < b - a <= most for a, b in pairwise(spots))
    open_marks = [
        at for at in range(-(-room[0] // mark) * mark, room[1] + 1, mark)
        if not any(a < at < b for a, b in shut)
    ]  # fmt: skip
    if spots:  # every mark looked at: none lies further out
        assert (spots[0], spots[-1]) == (open_marks[0], open_marks[-1])
        assert len(spots) - 1 >= (spots[-1] - spots[0]) / most
    if not shut and open_marks:
        assert spots


@pytest.mark.parametrize(
    ("room_mm", "shut_mm", "wanted_mm", "by_hand"),
    [
        ((40, 1960), [], (40, 520, 1000, 1480, 1960), "1920 / 600 = 3.2, so four of 480"),
        ((40, 1960), [(985.5, 1014.5)], (40, 520, 985.5, 1480, 1960), "14.5 either way: the lower"),
        ((40, 1960), [(995, 1014.5)], (40, 520, 995, 1480, 1960), "5 below, 14.5 above"),
        ((0, 1200), [(590, 610)], (0, 400, 800, 1200), "0, 590, 1200 leaves 610: one more"),
        ((40, 60), [(30, 45)], (45, 60), "the first open mark is 45"),
        ((40, 40), [], (40,), "room for one"),
        ((40, 39), [], (), "no room"),
        ((40, 60), [(30, 70)], (), "all of it shut"),
        ((0, 1000), [(100, 900)], (), "100 and 900 are 800 apart"),
    ],
)
def test_places_by_hand(
    room_mm: tuple[float, float],
    shut_mm: list[tuple[float, float]],
    wanted_mm: tuple[float, ...],
    by_hand: str,
) -> None:
    room = (int(room_mm[0] * MM), int(room_mm[1] * MM))
    shut = [(int(a * MM), int(b * MM)) for a, b in shut_mm]
    spots = spread(room, shut, spacing_most=600 * MM, mark=MARK)
    assert tuple(spot / MM for spot in spots) == wanted_mm, by_hand


def test_the_hand_made_deck() -> None:
    """Every place of it stands worked out in tests/audit/sample_deck.py."""
    ought = fixings().fascia_screws
    assert ought is not None
    behind = Behind(
        run="along", edges=edges(), frame=frame(), coach=fixings().coach_screws, on_hangers=True
    )
    rules = FasciaRules(spacing_most_mm=600.0, end_least_mm=40.0, clear_mm=14.5, shank_mm=5.0)
    assert place_fascia_screws(behind, rules) == ought.places


def test_without_hangers_every_joist_has_its_heads() -> None:
    """J4 of the hand-made deck stands at 1242.5, so 1228 to 1257 is shut on F-front.1.

    The limit 485 asks for five of 388.5 on 1942.5: 448.5, 837, 1225.5 and 1614. J2 (442.5) keeps
    428 to 457 shut: 448.5 goes to 457. J3 (842.5) keeps 828 to 857 shut: 837 goes to 828. 1225.5
    and 1614 are open (J5 keeps 1628 to 1657 shut).
    """
    behind = Behind(run="along", edges=edges(), frame=frame(), coach=fixings().coach_screws)
    rules = FasciaRules(spacing_most_mm=485.0, end_least_mm=40.0, clear_mm=14.5, shank_mm=5.0)
    places = place_fascia_screws(behind, rules)
    front = [place.offset_mm for place in places if place.fascia == "F-front.1"]
    assert front == [60.0, 457.0, 828.0, 1225.5, 1614.0, 2002.5]
    for place in front:
        assert all(abs(place - joist.offset_mm) >= 14.5 for joist in frame().joists)


def test_clear_of_a_head() -> None:
    """By hand: a washer of 3 x 8 and a screw of 5 across: 12 + 2.5."""
    assert clear_of_heads_mm(8.0, 5.0) == 14.5
