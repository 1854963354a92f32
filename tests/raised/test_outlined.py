"""Bearers under outlines: every point of every joist looked at, from the places alone."""

from itertools import pairwise
from math import ceil, cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.raised.fitting import Rules, outlined_bearers, stretch_carried_mm
from drylay.raised.outline_model import OutlinedLines
from drylay.raised.outlined import farthest_mm, outlined_lines
from drylay.strength.model import Section
from raised.limits import limit

Corners = list[tuple[float, float]]
BROAD, THICK = 90.0, 45.0
L_SHAPE: Corners = [(0, 0), (6000, 0), (6000, 3000), (3000, 3000), (3000, 5400), (0, 5400)]
RECTANGLE: Corners = [(0, 0), (6000, 0), (6000, 4200), (0, 4200)]
LEDGER = (0.0, 6000.0, 45.0)


def joists(wide: float, first: float = 0.0) -> list[float]:
    """Return joists' centres at most 400 mm apart, the outer ones flush."""
    bays = ceil((wide - THICK) / 400)
    return [first + THICK / 2 + (wide - THICK) * n / bays for n in range(bays + 1)]


def about(along: float, across: float, radius: float) -> Corners:
    """Return a ring of 24 corners about a round opening."""
    reach = radius / cos(pi / 24)
    turns = [2 * pi * n / 24 for n in range(24)]
    return [(along + reach * cos(t), across + reach * sin(t)) for t in turns]


def laid(outline: Corners, openings: list[Corners] | None = None, **more: object) -> OutlinedLines:
    told = {"outline_mm": outline, "openings_mm": openings or [], "joist_mm": THICK,
            "joists_mm": joists(max(x for x, _ in outline)), "bearer_mm": BROAD, "post_mm": 100.0,
            "span": limit(2400.0), "end": limit(500.0), "back_ratio": 0.25, "trimmer_mm": 45.0,
            **more}  # fmt: skip
    return outlined_lines(**told)  # type: ignore[arg-type]


def inside(ring: Corners, x: float, y: float) -> bool:
    odd = False
    for (ax, ay), (bx, by) in pairwise([*ring, ring[0]]):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def unsupported(
    found: OutlinedLines, outline: Corners, joist: float, ledger: bool, step: float = 7.0
) -> tuple[float, float]:
    """Return the widest gap between supports and the longest free end on one joist line.

    The joist is walked in steps along its middle; what bears it are stretches that lie under it
    and the wall where there is a ledger.
    """
    top = max(y for _, y in outline)
    bears = [at.across_mm for at in found.stretches if at.start_mm <= joist <= at.end_mm]
    gap = free = 0.0
    run: list[float] = []
    walk = [n * step + 0.37 for n in range(int(top / step) + 2)]
    for y in walk:
        if inside(outline, joist, y):
            run.append(y)
        elif run:
            gap, free = (
                max(gap, _gaps(run, bears, ledger)[0]),
                max(free, _gaps(run, bears, ledger)[1]),
            )
            run = []
    return gap, free


def _gaps(run: list[float], bears: list[float], ledger: bool) -> tuple[float, float]:
    held = ledger and run[0] < 10.0
    faces = [(45.0, 45.0)] if held else []
    faces += [(at - BROAD / 2, at + BROAD / 2) for at in sorted(bears) if run[0] < at < run[-1]]
    assert len(faces) > 1, "a joist on one support"
    gap = max(b[0] - a[1] for a, b in pairwise(faces))
    ends = [run[-1] - faces[-1][1], *([] if held else [faces[0][0] - run[0]])]
    return gap, max(ends)


def test_an_l_on_a_ledger_worked_by_hand() -> None:
    # one line carries the body (3000 deep) and the leg (5400): it lies 2455 to 2535 out, 500 before
    # the body's end; the leg then spans once more and reaches past by what is left
    found = laid(L_SHAPE, ledger_mm=LEDGER)
    assert found.line_count == found.least_count == 2
    first, second = found.lines_mm
    assert 3000 - 500 - 45 <= first <= 45 + 2400 + 45
    assert [(s.start_mm, s.end_mm) for s in found.stretches] == [(0.0, 6000.0), (0.0, 3000.0)]
    assert 5400 - 500 - 45 <= second <= first + 2400 + 90


@settings(max_examples=12)
@given(
    st.tuples(st.integers(2500, 6000), st.integers(1500, 3500)),
    st.tuples(st.integers(20, 80), st.integers(500, 2500)),
    st.booleans(), st.booleans(),
)  # fmt: skip
def test_every_point_of_every_joist_of_an_l_is_within_a_span_of_a_bearer(
    body: tuple[int, int], leg: tuple[int, int], mirrored: bool, ledger: bool
) -> None:
    wide, deep = body
    split = round(wide * leg[0] / 100)
    ring: Corners = [(0, 0), (wide, 0), (wide, deep), (split, deep), (split, deep + leg[1]),
                     (0, deep + leg[1])]  # fmt: skip
    if mirrored:
        ring = [(wide - x, y) for x, y in reversed(ring)]
    found = laid(ring, ledger_mm=(0.0, float(wide), 45.0) if ledger else None)
    for joist in joists(wide):
        if abs(joist - (wide - split if mirrored else split)) < THICK:
            continue  # astride the corner: its middle does not tell where both its edges lie
        gap, free = unsupported(found, ring, joist, ledger)
        assert gap <= 2400 + 1e-6
        assert free <= 500 + 1e-6


@settings(max_examples=8)
@given(st.integers(25, 75), st.integers(500, 2500), st.booleans())
def test_a_mirrored_l_has_the_mirrored_bearers(share: int, leg: int, ledger: bool) -> None:
    split = 60 * share
    ring: Corners = [(0, 0), (6000, 0), (6000, 3000), (split, 3000), (split, 3000 + leg),
                     (0, 3000 + leg)]  # fmt: skip
    on = LEDGER if ledger else None
    one = laid(ring, ledger_mm=on)
    other = laid([(6000 - x, y) for x, y in reversed(ring)], ledger_mm=on)
    assert one.lines_mm == other.lines_mm
    turned = {(s.line, 6000 - s.end_mm, 6000 - s.start_mm) for s in other.stretches}
    assert {(s.line, s.start_mm, s.end_mm) for s in one.stretches} == turned


def test_a_rectangle_has_the_lines_that_its_own_verb_gives_it() -> None:
    assert laid(RECTANGLE).lines_mm == (383.5, 2100.0, 3816.5)
    assert laid(RECTANGLE, ledger_mm=LEDGER).lines_mm == (1890.0, 3780.0)


@pytest.mark.parametrize("middle", [(3000.0, 2100.0), (1500.0, 1000.0), (3100.0, 1900.0)])
def test_bearers_and_posts_stay_out_of_a_round_opening(middle: tuple[float, float]) -> None:
    found = laid(RECTANGLE, [about(*middle, 400.0)], ledger_mm=LEDGER, trimmed_most_mm=1700.0)
    rules = Rules(
        section=Section(breadth_mm=45.0, depth_mm=195.0, plies=2), post_mm=100.0,
        spans=lambda _: limit(1800.0), end=limit(400.0), back_ratio=0.25, longest_mm=4800.0,
    )  # fmt: skip
    fitted, told = outlined_bearers(found, rules)
    assert [finding.code for finding in told] == ["RSD-008"]
    for each in fitted:
        for at in each.posts.places_mm:
            corners = [(each.bearer.start_mm + at + i * 50, each.bearer.across_mm + j * 50)
                       for i in (-1, 1) for j in (-1, 1)]  # fmt: skip
            for x, y in corners:
                assert (x - middle[0]) ** 2 + (y - middle[1]) ** 2 >= 400.0**2


@pytest.mark.parametrize("trimmed", [0.0, 1700.0])
@pytest.mark.parametrize(
    "opening",
    [
        [(2800, 1960), (3400, 1960), (3400, 2300), (2800, 2300)],  # 25 beside where a line would be
        [(2800, 600), (3400, 600), (3400, 3600), (2800, 3600)],  # a slot that lines must cross
    ],
)
def test_no_bearer_as_broad_as_its_posts_touches_an_opening(
    opening: Corners, trimmed: float
) -> None:
    found = laid(RECTANGLE, [opening], ledger_mm=LEDGER, trimmed_most_mm=trimmed, post_mm=200.0)
    (left, near), (right, far) = opening[0], opening[2]
    for each in found.stretches:
        beside = each.end_mm <= left or each.start_mm >= right
        assert beside or each.across_mm + 100 <= near or each.across_mm - 100 >= far
    if near == 600 and not trimmed:
        assert len(found.stretches) > found.line_count


def test_a_narrow_bay_between_two_joists_is_asked_for_at_its_corners() -> None:
    # 250 wide, between joists at 2796 and 3193 or so: only joists beside its corners lie in it
    ring: Corners = [(0, 0), (6000, 0), (6000, 3000), (3120, 3000), (3120, 4400), (2870, 4400),
                     (2870, 3000), (0, 3000)]  # fmt: skip
    found = laid(ring, ledger_mm=LEDGER)
    long = [run for run in found.runs if run.end_mm == 4400.0]
    assert {run.along_mm for run in long} >= {2870 + THICK / 2, 3120 - THICK / 2}
    for run in long:
        assert farthest_mm(run, found.lines_mm) <= 2400 + BROAD
        assert run.end_mm - max(found.lines_mm) - BROAD / 2 <= 500


def test_a_trimmed_opening_is_carried_by_whole_joists_beside_it() -> None:
    found = laid(RECTANGLE, [about(3000, 2100, 400)], trimmed_most_mm=1700.0)
    near, far = found.trimmers
    # the ring about the circle reaches 400 / cos(7.5 deg) = 403.5 from its middle
    assert near.across_mm == pytest.approx(2100 - 403.5 - 45, abs=1)
    assert far.across_mm == pytest.approx(2100 + 403.5 + 45, abs=1)
    assert near.from_mm < 2600
    assert near.to_mm > 3400
    hung = [run for run in found.runs if run.start_held or run.end_held]
    assert all(near.from_mm < run.along_mm < near.to_mm for run in hung)
    assert {run.end_mm for run in hung if run.end_held} == {near.across_mm}


def test_an_opening_too_wide_to_trim_leaves_joists_that_carry_themselves() -> None:
    found = laid(RECTANGLE, [about(3000, 2100, 400)], trimmed_most_mm=500.0)
    assert found.trimmers == ()
    assert not any(run.start_held or run.end_held for run in found.runs)
    cut = [run for run in found.runs if 2650 < run.along_mm < 3350]
    for run in cut:
        assert sum(run.start_mm < at < run.end_mm for at in found.lines_mm) >= 2


def test_what_a_bearer_carries_under_an_l_worked_by_hand() -> None:
    found = laid(L_SHAPE, ledger_mm=LEDGER)
    first, second = found.stretches
    # the second, in the leg alone: span and free end by statics, or more where the joist runs on
    span, free = second.across_mm - first.across_mm, 5400 - second.across_mm
    jointed = (span + free) ** 2 / (2 * span)
    assert jointed - 1 <= stretch_carried_mm(found, second) <= 1.2 * jointed
    assert stretch_carried_mm(found, first) >= (first.across_mm + span) / 2


def test_joists_that_nothing_can_carry_are_told() -> None:
    # a strip 60 mm deep takes no bearer 90 mm broad
    ring: Corners = [(0, 0), (3000, 0), (3000, 60), (1500, 60), (1500, 2000), (0, 2000)]
    with pytest.raises(InputError, match="meets no bearer"):
        laid(ring)


@pytest.mark.parametrize(
    "changed",
    [{"joists_mm": []}, {"joist_mm": 0.0}, {"units": "?"}, {"outline_mm": [(0, 0), (1, 1)]},
     {"outline_mm": [(0, 0), (900, 900), (900, 0), (0, 900)]}],
)  # fmt: skip
def test_what_cannot_be_used_is_refused(changed: dict[str, object]) -> None:
    with pytest.raises(InputError):
        laid(RECTANGLE, **changed)
