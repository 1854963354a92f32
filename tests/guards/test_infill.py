"""Infill and posts: laws that hold for any bay, then bays and guards worked by hand."""

from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.findings import Severity
from drylay.guards.infill import fill, guard_findings, guard_of, rails_findings, set_posts
from drylay.guards.model import GuardRun, Infill, Stretch
from drylay.marks import MARK_320, exact
from drylay.regions.packs import PACKS, limit_of, region_pack
from guards.grounds import trigger

INCH = 25.4
openings = st.integers(8_000, 800_000).map(lambda length: length / 320)
pieces = st.integers(16 * 320, 120 * 320).map(lambda length: length / 320)
balls = st.sampled_from([100.0, 4 * INCH, 4.375 * INCH, 125.0])
marks = st.sampled_from(sorted(MARK_320.values()))


def balusters(opening: float, thickness: float, ball: float, mark: int = 160) -> Infill:
    return fill(
        kind="balusters",
        opening_mm=opening,
        thickness_mm=thickness,
        ball_mm=ball,
        mark_320=mark,
    )


def clear_gaps(bay: Infill) -> list[int]:
    """Return the clear gaps of a bay by what its places say, in 1/320 mm."""
    piece = exact(bay.thickness_mm)
    starts = [exact(start) for start in bay.starts_mm]
    nears, fars = [*starts, exact(bay.opening_mm)], [0, *(start + piece for start in starts)]
    return [near - far for near, far in zip(nears, fars, strict=True)]


@given(opening=openings, thickness=pieces, ball=balls, mark=marks)
def test_every_gap_is_under_the_ball_and_nothing_overlaps(
    opening: float, thickness: float, ball: float, mark: int
) -> None:
    try:
        bay = balusters(opening, thickness, ball, mark)
    except InputError:
        assert thickness + 2 * (ball - 1) > opening  # too tight for one more piece
        return
    gaps = clear_gaps(bay)
    assert max(gaps) <= exact(ball) - exact(1.0)
    assert min(gaps) >= 0
    assert (max(gaps), min(gaps)) == (exact(bay.gap_most_mm), exact(bay.gap_least_mm))
    assert sum(gaps) + bay.count * exact(thickness) == exact(opening)
    assert len(bay.starts_mm) == bay.count


@given(opening=openings, thickness=pieces, ball=balls, mark=marks)
def test_gaps_are_even_on_marks_and_none_could_be_spared(
    opening: float, thickness: float, ball: float, mark: int
) -> None:
    try:
        bay = balusters(opening, thickness, ball, mark)
    except InputError:
        return
    gaps = clear_gaps(bay)
    assert max(gaps) - min(gaps) < 2 * mark
    assert all(gap % mark == 0 for gap in gaps[:-1])
    if bay.count:  # one fewer leaves more than so many widest gaps can take
        widest = (exact(ball) - exact(1.0)) // mark * mark
        spared = exact(opening) - (bay.count - 1) * exact(thickness)
        assert spared > bay.count * widest


@pytest.mark.parametrize(
    ("opening", "thickness", "ball", "count"),
    [
        # ceil((clear - 99) / (b + 99)), by hand
        (1400.0, 40.0, 100.0, 10),  # 1301 / 139 = 9.36
        (1000.0, 40.0, 100.0, 7),  # 901 / 139 = 6.48
        (933.0, 40.0, 100.0, 6),  # 834 / 139 = 6: just so
        (933.5, 40.0, 100.0, 7),
        (99.0, 40.0, 100.0, 0),
        (99.5, 40.0, 100.0, 1),
        (237.9, 40.0, 100.0, 1),  # 99 before it and 98.9 after
    ],
)
def test_balusters_by_hand(opening: float, thickness: float, ball: float, count: int) -> None:
    assert balusters(opening, thickness, ball).count == count


def test_a_bay_in_inches_by_hand() -> None:
    """68 1/2 in clear, 1 1/2 in balusters, a ball of 4 in: no gap over 3 15/16 in.

    (68.5 - 3.9375) / 5.4375 = 11.87, so 12; 68.5 - 18 = 50.5 over 13 gaps is 3.8846, between 3 7/8
    and 3 15/16.
    """
    bay = balusters(68.5 * INCH, 1.5 * INCH, 4 * INCH, MARK_320["imperial"])
    assert bay.count == 12
    assert bay.gap_most_mm == pytest.approx(3.9375 * INCH)
    assert bay.gap_least_mm == pytest.approx(3.875 * INCH)


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"kind": "glass"}, "balusters or rails"),
        ({"opening_mm": 0.0}, "above 0"),
        ({"thickness_mm": -1.0}, "above 0"),
        ({"ball_mm": 10.0}, "above 10"),
        ({"opening_mm": float("nan")}, "above 0"),
        ({"opening_mm": 120.0, "thickness_mm": 121.0}, "room"),
    ],
)
def test_what_cannot_be_filled_is_refused(changed: dict, told: str) -> None:
    asked = {"kind": "rails", "opening_mm": 900.0, "thickness_mm": 40.0, "ball_mm": 100.0}
    with pytest.raises(InputError, match=told):
        fill(**{**asked, **changed})


@given(
    length=st.integers(320, 12_000 * 320).map(lambda length: length / 320),
    most=st.integers(400, 2000).map(float),
    mark=marks,
)
def test_posts_are_even_and_never_too_far_apart(length: float, most: float, mark: int) -> None:
    line = set_posts(length, most_mm=most, mark_320=mark)
    centres = [exact(centre) for centre in line.centres_mm]
    steps = [other - one for one, other in pairwise(centres)]
    assert (centres[0], centres[-1]) == (0, exact(length))
    assert max(steps) <= exact(most)
    assert exact(line.spacing_most_mm) == max(steps)
    assert max(steps) - min(steps) <= 2 * mark
    assert all(centre % mark == 0 for centre in centres[:-1])
    assert (len(steps) - 1) * (exact(most) // mark * mark) < exact(length)  # one bay less: too far


def test_posts_by_hand() -> None:
    """4000 at 1500 most: 3 bays of 1333.33, marks at 1333.5 and 2667."""
    line = set_posts(4000.0, most_mm=1500.0)
    assert line.centres_mm == (0.0, 1333.5, 2667.0, 4000.0)
    assert set_posts(3000.0, most_mm=1500.0).centres_mm == (0.0, 1500.0, 3000.0)
    # two bays of 1500 would be 1500.2 and 1499.8 on marks of 1/16 in
    assert len(set_posts(3000.0, most_mm=1500.0, mark_320=MARK_320["imperial"]).centres_mm) == 4


@pytest.mark.parametrize("figures", [(0.0, 1500.0), (1000.0, 10.0), (float("nan"), 1500.0)])
def test_posts_of_no_length_are_refused(figures: tuple[float, float]) -> None:
    with pytest.raises(InputError, match="above"):
        set_posts(figures[0], most_mm=figures[1])


def run_of(*lengths: float, drop: float | None = 900.0, closed: bool = False) -> GuardRun:
    stretches = tuple(
        Stretch(edge=f"E{at}", from_mm=0.0, to_mm=length, drop_mm=drop)
        for at, length in enumerate(lengths, start=1)
    )
    return GuardRun(
        mark="G1",
        stretches=stretches,
        length_mm=sum(lengths),
        drop_mm=drop,
        bends=len(lengths) - 1 + closed,
        closed=closed,
    )


SPACING = trigger(1500.0, name="guard_post_spacing_mm")


def guard(run: GuardRun, height: float = 1100.0):
    return guard_of(
        run, height_mm=height, post_mm=90.0, baluster_mm=40.0, ball_mm=100.0, spacing=SPACING
    )


def test_a_guard_round_a_corner_by_hand() -> None:
    """3000 and 2000, posts of 90.

    Centres half a post in at both ends: 2955 in 2 bays of 1477.5, 1955 in 2 of 977.5; 5 posts, the
    corner's one of them. Clear 1387.5 and 887.5 (less 90): (1387.5 - 99) / 139 = 9.27, so 10 in
    each; (887.5 - 99) / 139 = 5.67, so 6 in each: 32 balusters.
    """
    made = guard(run_of(3000.0, 2000.0))
    assert [line.centres_mm for line in made.lines] == [(0.0, 1477.5, 2955.0), (0.0, 977.5, 1955.0)]
    assert (made.posts, made.pieces, made.handrail_mm) == (5, 32, 5000.0)


def test_a_closed_guard_has_as_many_posts_as_bays() -> None:
    """Four sides of 2800, each in 2 bays of 1400."""
    made = guard(run_of(2800.0, 2800.0, 2800.0, 2800.0, closed=True))
    assert (len(made.bays), made.posts) == (8, 8)


def test_a_stretch_shorter_than_its_posts_is_refused() -> None:
    with pytest.raises(InputError):
        guard(run_of(120.0))


@pytest.mark.parametrize("pack", PACKS)
def test_a_guard_as_high_as_the_region_wants(pack: str) -> None:
    height = limit_of(region_pack(pack), "guard_height_deck_mm")
    climb = limit_of(region_pack(pack), "rails_climb_mm")
    run = run_of(3000.0)
    enough, low = guard(run, height.value), guard(run, height.value - 0.5)
    assert guard_findings(enough, run, height=height, climb=climb) == ()
    (found,) = guard_findings(low, run, height=height, climb=climb)
    assert (found.code, found.severity, found.limit) == ("GRD-005", Severity.STOP, height.value)


def test_a_region_that_names_no_height_stops() -> None:
    height = evolve(trigger(1.0), value=None, standing="not covered")
    run = run_of(3000.0)
    (found,) = guard_findings(guard(run), run, height=height, climb=height)
    assert (found.code, found.limit) == ("GRD-005", None)


def rails() -> Infill:
    return fill(kind="rails", opening_mm=1000.0, thickness_mm=40.0, ball_mm=100.0)


def test_level_rails_are_flagged_as_climbed() -> None:
    """7 rails in 1000: ceil(901 / 139). North America sets no limit, the UK rules them out."""
    assert rails().count == 7
    told = [
        rails_findings(rails(), run_of(3000.0), limit_of(region_pack(pack), "rails_climb_mm"))
        for pack in ("north-america", "united-kingdom", "australia")
    ]
    assert [f.code for (f,) in told] == ["GRD-006"] * 3
    severities = [f.severity for (f,) in told]
    assert severities == [Severity.CAUTION, Severity.STOP, Severity.CAUTION]


def test_rails_over_a_drop_that_just_reaches_or_that_nobody_knows() -> None:
    reached, over = trigger(900.0, reached=True), trigger(900.0)
    told = [
        rails_findings(rails(), run, limit)[0].severity
        for run, limit in (
            (run_of(3000.0), reached),
            (run_of(3000.0), over),
            (run_of(3000.0, drop=None), over),
        )
    ]
    assert told == [Severity.STOP, Severity.CAUTION, Severity.STOP]


@pytest.mark.parametrize("drop", [1000.5, None])
def test_a_deep_drop_is_for_somebody_licensed(drop: float | None) -> None:
    """Over 1 m a stop, common practice, no source: of balusters and of rails alike."""
    run, height = run_of(3000.0, drop=drop), trigger(1000.0)
    (found,) = guard_findings(guard(run), run, height=height, climb=trigger(2000.0))
    assert (found.code, found.severity, found.measured) == ("GRD-007", Severity.STOP, drop)
    assert "licensed" in found.message
    assert rails_findings(rails(), run, trigger(2000.0))[1] == found


def test_a_drop_of_a_metre_just_so_does_not_stop() -> None:
    run = run_of(3000.0, drop=1000.0)
    assert not guard_findings(guard(run), run, height=trigger(1000.0), climb=trigger(2000.0))
