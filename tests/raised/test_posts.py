"""Posts along a bearer, what they and bearers carry, plies over posts."""

from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.raised.carried import carried_mm
from drylay.raised.model import PostPlaces
from drylay.raised.plies import ply_joints
from drylay.raised.posts import post_places, span_for
from raised.limits import limit

ROWS = ((1500.0, limit(2200.0)), (2500.0, limit(1800.0)))


def posts(**changed: object) -> PostPlaces:
    told = {"length_mm": 6000.0, "post_mm": 100.0, "carried_mm": 2000.0, "spans": ROWS,
            "end": limit(400.0), "back_ratio": 0.25, **changed}  # fmt: skip
    return post_places(**told)  # type: ignore[arg-type]


def test_posts_worked_by_hand() -> None:
    # 6000 = 2 (a + 50) + 3 (s + 100): 5600 = u (2 x 400 + 3 x 1800), u = 0.9032; a = 361.3, so that
    # the first centre is 411.3: 411 on a mark; s = (6000 - 822) / 3 - 100 = 1626
    found = posts()
    assert found.places_mm == (411.0, 2137.0, 3863.0, 5589.0)
    assert (found.spans_mm, found.ends_mm) == ((1626.0,) * 3, (361.0, 361.0))


def test_a_bearer_that_carries_less_stands_on_fewer_posts() -> None:
    # 3 posts: 6000 - 100 - 200 = 5700 = u (800 + 2 x 2200), u = 1.096 > 1; 3 do not do. 2800 does:
    # u = 5700 / 6400
    assert posts(carried_mm=1500.0).post_count == 4
    assert posts(spans=lambda carried: limit(2800.0 if carried < 2100 else 100.0)).post_count == 3


def test_a_table_is_read_at_the_next_wider_row_and_not_beyond() -> None:
    assert span_for(ROWS, 1500.0).most_mm == 2200.0
    assert span_for(ROWS, 1500.1).most_mm == 1800.0
    with pytest.raises(InputError, match="2500 mm or less"):
        span_for(ROWS, 2500.1)


@settings(max_examples=60)
@given(st.floats(700, 12000), st.floats(500, 3000), st.floats(0, 700))
def test_spans_and_ends_of_a_bearer_are_within_their_limits_and_mirrored(
    long: float, span: float, end: float
) -> None:
    found = posts(length_mm=long, spans=lambda _: limit(span), end=limit(end))
    near = 1 / 160
    spans = [b - a - 100 for a, b in pairwise(found.places_mm)]
    free = found.places_mm[0] - 50
    assert max(spans) <= span + near
    assert free <= min(end, spans[0] / 4) + near
    mirrored = [long - at for at in reversed(found.places_mm)]
    assert found.places_mm == pytest.approx(mirrored, abs=near)


@pytest.mark.parametrize(
    "changed",
    [{"length_mm": 150.0}, {"carried_mm": 0.0}, {"more_posts": -1}, {"carried_mm": 3000.0},
     {"units": ""}, {"inset_mm": 500.0}],
)  # fmt: skip
def test_what_cannot_be_used_is_refused(changed: dict[str, object]) -> None:
    with pytest.raises(InputError):
        posts(**changed)


@pytest.mark.parametrize(
    ("length", "supports", "sharing", "wanted", "where"),
    [
        (5000, (0, 4000), "levered", (2000, 3125), "by hand: (4 + 1)^2 / (2 x 4) = 3.125"),
        (5000, (0, 4000), "halved", (2000, 3000), "by hand: half of 4, and all of 1"),
        (4000, (0, 2000, 4000), "levered", (1000, 2500, 1000), "two spans, 10/8 (from memory)"),
        (4000, (0, 2000, 4000), "halved", (1000, 2000, 1000), "by hand"),
        (6000, (0, 2000, 4000, 6000), "levered", (1000, 2400, 2400, 1000),
         "three spans, two of them loaded: 1.20 (beam tables, from memory)"),
        (6000, (1000, 5000), "levered", (3125, 3125), "by hand: 2 + 1 + 1 / 8 on either side"),
        (12, (0, 10), "levered", (5, 7.2), "12 x 12 / 20; the feet of a twelve-foot deck"),
    ],
)  # fmt: skip
def test_what_a_support_carries(
    length: float, supports: tuple[float, ...], sharing: str, wanted: tuple[float, ...], where: str
) -> None:
    found = carried_mm(length_mm=length, supports_mm=supports, sharing=sharing)
    assert found == pytest.approx(wanted, abs=1 / 320), where


@settings(max_examples=60)
@given(st.lists(st.integers(300, 4000), min_size=1, max_size=5), st.integers(0, 900),
       st.integers(0, 900))  # fmt: skip
def test_supports_carry_all_of_it_between_them_and_its_mirror_alike(
    spans: list[int], first: int, last: int
) -> None:
    places = [float(first)]
    for span in spans:
        places.append(places[-1] + span)
    length = places[-1] + last
    found = carried_mm(length_mm=length, supports_mm=places)
    halves = carried_mm(length_mm=length, supports_mm=places, sharing="halved")
    assert sum(found) >= length - 1e-6
    assert sum(halves) == pytest.approx(length, abs=0.1)
    mirrored = carried_mm(length_mm=length, supports_mm=[length - at for at in reversed(places)])
    assert found == pytest.approx(tuple(reversed(mirrored)))


@pytest.mark.parametrize("supports", [(0.0,), (0.0, 0.0), (10.0, 5.0), (0.0, 2000.0), (-1.0, 5.0)])
def test_supports_out_of_order_or_off_the_beam_are_refused(supports: tuple[float, ...]) -> None:
    with pytest.raises(InputError):
        carried_mm(length_mm=1000.0, supports_mm=supports)


def test_no_such_sharing() -> None:
    with pytest.raises(InputError, match="levered or halved"):
        carried_mm(length_mm=1000.0, supports_mm=(0.0, 1000.0), sharing="even")


def test_joints_worked_by_hand() -> None:
    # 6000 out of 3600: each ply one joint at 2400 to 3600: 3000 for one; the other takes two,
    # since no other post lies there
    found = ply_joints(
        length_mm=6000.0, posts_mm=(300.0, 1650.0, 3000.0, 4350.0, 5700.0), plies=2,
        longest_mm=3600.0,
    )  # fmt: skip
    assert found is not None
    assert [(joint.ply, joint.post, joint.at_mm) for joint in found] == [
        (1, 2, 1650.0), (2, 3, 3000.0), (1, 4, 4350.0),
    ]  # fmt: skip


def every(length: int, posts_mm: list[int], plies: int, longest: int) -> int | None:
    """Return the fewest joints by looking at every ply (or none) over every inner post."""
    best = None
    for put in product(range(plies + 1), repeat=len(posts_mm) - 2):
        ends = [[0] for _ in range(plies)]
        for at, ply in zip(posts_mm[1:-1], put, strict=True):
            if ply:
                ends[ply - 1].append(at)
        kept = all(b - a <= longest for own in ends for a, b in pairwise([*own, length]))
        count = sum(1 for ply in put if ply)
        if kept and (best is None or count < best):
            best = count
    return best


@settings(max_examples=60)
@given(st.lists(st.integers(300, 2000), min_size=1, max_size=6), st.integers(1, 3),
       st.integers(1000, 6000))  # fmt: skip
def test_joints_are_the_fewest_and_lie_over_posts_one_ply_at_each(
    bays: list[int], plies: int, longest: int
) -> None:
    places = [200]
    for bay in bays:
        places.append(places[-1] + bay)
    length = places[-1] + 200
    found = ply_joints(length_mm=length, posts_mm=places, plies=plies, longest_mm=longest)
    least = every(length, places, plies, longest)
    assert (None if found is None else len(found)) == least
    if found is not None:
        assert len({joint.post for joint in found}) == len(found)
        assert all(joint.at_mm == places[joint.post - 1] for joint in found)


def test_no_plies_are_refused() -> None:
    with pytest.raises(InputError):
        ply_joints(length_mm=1000.0, posts_mm=(100.0, 900.0), plies=0, longest_mm=3000.0)


def test_the_middle_post_of_a_sixteen_foot_beam_ten_feet_out() -> None:
    # 8 ft of beam x (10 / 2 + 2) ft of deck x 50 lb/sq ft = 2800 lb: the residential reckoning
    (_, deck) = carried_mm(length_mm=12.0, supports_mm=(0.0, 10.0), sharing="halved")
    (_, middle, _) = carried_mm(length_mm=16.0, supports_mm=(0.0, 8.0, 16.0), sharing="halved")
    assert deck * middle * 50 == 2800
