"""The dig under an outline: trapezoids by hand, rectangles as ever, and areas by throwing darts."""

import math
import random

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from audit.sample import sample_plan
from drylay.audit import outlined_ground
from drylay.audit.slabs import area, trapezoids
from drylay.geometry import Place, Region
from drylay.groundwork.dig import lay_dig
from drylay.groundwork.gravel import lay_gravel
from drylay.groundwork.model import RootZone
from drylay.groundwork.outlined_dig import (
    DigSide,
    area_m2,
    dug_of,
    grown_by_margins,
    lay_outlined_dig,
)
from drylay.groundwork.outlined_strips import both_ways_over
from drylay.groundwork.strips import both_ways
from drylay.outline.model import Outline, Side, Spot

L_SHAPE = ((0, 0), (4000, 0), (4000, 2000), (2000, 2000), (2000, 5000), (0, 5000))
SPLAY = ((0, 0), (4000, 0), (4000, 2000), (2500, 3500), (0, 3500))


def sides(ring: tuple[Place, ...], margins: float | tuple[float, ...] = 100.0) -> list[DigSide]:
    each = margins if isinstance(margins, tuple) else (margins,) * len(ring)
    ends = zip(ring, (*ring[1:], ring[0]), each, strict=True)
    return [DigSide(start_mm=a, end_mm=b, margin_mm=m) for a, b, m in ends]


def zone(along: float, across: float, trunk: float) -> RootZone:
    middle = Spot(along_mm=along, across_mm=across)
    return RootZone(
        opening="O1", middle=middle, trunk_mm=trunk, radius_mm=12 * trunk
    )  # fmt: skip


def box(along: float, across: float) -> tuple[Place, ...]:
    return ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))


SIZES = st.integers(320 * 500, 320 * 15_000).map(lambda count: count / 320)
MARGINS = st.integers(0, 320 * 300).map(lambda count: count / 320)


@given(SIZES, SIZES, MARGINS, MARGINS)
def test_the_dig_of_a_rectangle_is_that_of_any_deck(
    along: float, across: float, margin: float, house: float
) -> None:
    dug = dug_of(sides(box(along, across), (house, margin, margin, margin)))
    wanted = {"margin_mm": margin, "house_margin_mm": house, "depth_mm": 50.0, "spoil": "skip"}
    laid = lay_outlined_dig(dug, **wanted)
    old = lay_dig(cover_along_mm=along, cover_across_mm=across, **wanted)
    assert laid is not None
    assert (laid.along_mm, laid.across_mm) == (old.along_mm, old.across_mm)
    # the area is told up to the next mm2: never less earth, and never a litre more
    assert 0 <= laid.solid_m3 - old.solid_m3 <= 0.0011
    assert abs(laid.area_m2 - old.along_mm * old.across_mm / 1e6) <= 1.01e-6
    for ours, theirs in zip(
        both_ways_over(dug.grown, roll_mm=2000.0, lap_mm=100.0),
        both_ways(old, roll_mm=2000.0, lap_mm=100.0),
        strict=True,
    ):
        assert ours == theirs


@pytest.mark.parametrize(
    ("along", "across"), [(6045.0, 2995.0), (3600.0, 4200.0), (5400.5, 2700.5)]
)
def test_earth_and_gravel_of_a_rectangle_are_the_same(along: float, across: float) -> None:
    wanted = {"margin_mm": 100.0, "house_margin_mm": 10.0, "depth_mm": 50.0, "spoil": "skip"}
    laid = lay_outlined_dig(
        dug_of(sides(box(along, across), (10.0, 100.0, 100.0, 100.0))), **wanted
    )
    old = lay_dig(cover_along_mm=along, cover_across_mm=across, **wanted)
    assert laid is not None
    for name in ("solid_m3", "loose_m3", "bags", "skips"):
        assert getattr(laid, name) == getattr(old, name)
    beds = [
        lay_gravel(dig, article="g", below_lawn_mm=10.0, density_kg_m3=1600.0)
        for dig in (laid, old)
    ]
    assert beds[0] == beds[1]


def test_an_l_by_hand() -> None:
    """Six trapezoids as rectangles: 4.2 x 2.2 + 2.2 x 3.0 = 15.84, the inner corner square."""
    assert area_m2(grown_by_margins(sides(L_SHAPE))) == 15.84


def test_a_splay_by_hand() -> None:
    """The outline: 4 x 3.5 less half of 1.5 x 1.5 = 12.875.

    Margins of 100 beside each side, 4 + 2 + sqrt(4.5) + 2.5 + 3.5 = 14.12132 m: 1.412132; squares
    of 0.01 at three corners; two kites at 135 degrees of 0.1^2 x tan(22.5) = 0.0041421 each.
    """
    by_hand = 12.875 + 0.1 * (12 + math.sqrt(4.5)) + 3 * 0.01 + 2 * 0.01 * math.tan(math.pi / 8)
    assert area_m2(grown_by_margins(sides(SPLAY))) == pytest.approx(by_hand, abs=5e-6)


def test_no_dig_past_a_pool_or_a_boundary() -> None:
    """4 x 2 with margins on three sides only: 4.2 x 2.1 = 8.82 (margin 0 where the pool is)."""
    assert area_m2(grown_by_margins(sides(box(4000, 2000), (0.0, 100.0, 100.0, 100.0)))) == 8.82


def test_nearly_straight_corners_make_no_spike() -> None:
    """A wall that turns by 1 in 100: the outer lines of 10 and 100 would meet 9 m away."""
    ring = ((0, 0), (4000, -40), (8000, 0), (8000, 3000), (0, 3000))
    grown = grown_by_margins(sides(ring, (10.0, 100.0, 100.0, 100.0, 100.0)))
    u1, v1, u2, _ = grown.bounds
    assert (u1, u2) == (-100, 8100)
    assert v1 > -150


def test_a_root_zone_by_hand() -> None:
    """12 x 100 = 1200 round the middle of 6 x 6: 36 less pi x 1.44 x (64 / pi x tan(pi / 64))."""
    dug = dug_of(sides(box(6000, 6000), 0.0), roots=[zone(3000, 3000, 100)])
    kept = 64 * math.tan(math.pi / 64) * 1.44
    assert math.pi * 1.44 < kept < math.pi * 1.44 * 1.001
    assert area_m2(dug.area) == pytest.approx(36 - kept, abs=1e-4)
    laid = lay_outlined_dig(
        dug, margin_mm=0.0, house_margin_mm=0.0, depth_mm=50.0, spoil="skip"
    )  # fmt: skip
    assert laid.roots_m2 == pytest.approx(kept, abs=1e-4)


def test_a_deck_within_roots_is_not_dug() -> None:
    dug = dug_of(sides(box(2000, 2000)), roots=[zone(1000, 1000, 400)])
    assert lay_outlined_dig(
        dug, margin_mm=100.0, house_margin_mm=100.0, depth_mm=50.0, spoil="skip"
    ) is None  # fmt: skip


STARS = st.lists(st.integers(1500, 6000), min_size=3, max_size=9)
KINDS = st.lists(st.sampled_from(["open", "open", "house", "boundary", "pool"]), min_size=9)


def outline_of(reaches: list[int], kinds: list[str]) -> Outline:
    """Return a simple outline, most with re-entrant corners: so far from a middle all round."""
    step = 2 * math.pi / len(reaches)
    ring = [
        Spot(along_mm=round(r * math.cos(n * step)) / 1.0, across_mm=round(r * math.sin(n * step)))
        for n, r in enumerate(reaches)
    ]
    return Outline(
        sides=tuple(
            Side(mark=f"E{n + 1}", kind=kinds[n], start=a, end=ring[(n + 1) % len(ring)],
                 length_mm=1.0, corner_deg=1.0, facing_mm=0.0)
            for n, a in enumerate(ring)
        ),
        opening_count=0, gross_m2=1.0, net_m2=1.0, perimeter_mm=40_000.0,
    )  # fmt: skip


@settings(deadline=None, max_examples=60)
@given(STARS, KINDS, st.sampled_from([0.0, 50.0, 100.0, 250.0]))
def test_the_auditor_measures_the_same_dig(
    reaches: list[int], kinds: list[str], margin: float
) -> None:
    """By slabs of trapezoids, in code of its own, for any outline and any kinds of sides."""
    outline, at_house = outline_of(reaches, kinds), min(margin, 10.0)
    beyond = {"house": at_house, "open": margin, "boundary": 0.0, "pool": 0.0}
    told = [
        DigSide(start_mm=(s.start.along_mm, s.start.across_mm),
                end_mm=(s.end.along_mm, s.end.across_mm), margin_mm=beyond[s.kind])
        for s in outline.sides
    ]  # fmt: skip
    dug = dug_of(told, roots=[zone(300, 200, 60)])
    dig = lay_outlined_dig(
        dug, margin_mm=margin, house_margin_mm=at_house, depth_mm=50.0, spoil="skip"
    )
    plan = evolve(sample_plan(), outline=outline)
    shapes = outlined_ground.grown(plan, dig)
    found = area(trapezoids(shapes, [outlined_ground.round_it(dig.roots[0])])) / 320**2 / 1e6
    assert dig.area_m2 == pytest.approx(found, abs=1e-3)
    bands = both_ways_over(dug.grown, roll_mm=1000.0, lap_mm=100.0)
    for way in bands:
        assert sum(way.lengths_mm) * 1000.0 / 1e6 >= area_m2(dug.grown) - 1e-3


def darts(box_of: Region, inside, count: int = 20_000) -> float:  # type: ignore[no-untyped-def]
    """Return the share of darts, thrown with a fixed seed, that hit what the test says is dug."""
    u1, v1, u2, v2 = box_of.bounds
    throw = random.Random(6)
    hits = sum(
        inside(throw.uniform(u1, u2), throw.uniform(v1, v2)) for _ in range(count)
    )  # fmt: skip
    return hits / count * (u2 - u1) * (v2 - v1) / 1e6


def near_ring(ring: tuple[Place, ...], x: float, y: float, margin: float) -> bool:
    """Whether a dart lies in a ring, or beyond a side by no more than a margin (mitred)."""
    low = max(
        ((by - ay) * (x - ax) - (bx - ax) * (y - ay)) / math.dist((ax, ay), (bx, by))
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
    )
    return low <= margin


@pytest.mark.parametrize("ring", [SPLAY, ((0, 0), (5000, 0), (3000, 4000))])
def test_areas_against_darts(ring: tuple[Place, ...]) -> None:
    """Convex outlines: a place is dug where it lies within the margin of every side's line."""
    dug = dug_of(sides(ring), roots=[zone(1500, 1500, 60)])

    def inside(x: float, y: float) -> bool:
        return near_ring(ring, x, y, 100.0) and math.dist((x, y), (1500, 1500)) > 720

    found, wanted = area_m2(dug.area), darts(dug.area, inside)
    # three standard deviations of 20 000 darts are 1.1 % of the box at most
    assert abs(found - wanted) < 0.011 * 4.2 * 5.2
