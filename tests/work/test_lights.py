"""Lights over random decks: clear of every timber, in the rows, and as many as wished."""

from itertools import combinations

from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import drylay
from drylay.brief.model import SIDES, LightsWish
from drylay.plan.model import Plan
from drylay.work.lighting import place_lights
from some_decks import some_case

FAMILIES = drylay.installed_families()
seeds = st.integers(1, 10**6)
few = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def lit(seed: int, side: str, count: int, hole_mm: float) -> Plan:
    brief, stock = some_case(seed, most_mm=3_600)
    wish = LightsWish(count=count, side=side, hole_mm=hole_mm, depth_mm=40.0)
    return drylay.design(evolve(brief, lights=wish), stock=stock, families=FAMILIES)


def timber(plan: Plan) -> list[tuple[float, float, float, float]]:
    """Every piece of timber below the boards as a box, splices as wide as their bay."""
    frame, thick = plan.frame, plan.frame.timber_thickness_mm
    centres = {joist.mark: joist.offset_mm for joist in frame.joists}
    boxes = [
        (j.offset_mm - thick / 2, j.offset_mm + thick / 2, j.near_mm, j.near_mm + j.length_mm)
        for j in frame.joists
    ]
    boxes += [
        (rim.start_mm, rim.start_mm + rim.length_mm, rim.near_mm, rim.near_mm + thick)
        for rim in frame.rims
    ]
    boxes += [
        (centres[n.left], centres[n.right], n.across_mm - thick / 2, n.across_mm + thick / 2)
        for n in frame.noggins
    ]
    first, last = (rim.near_mm for rim in frame.rims)
    boxes += [
        (s.offset_mm - s.length_mm / 2, s.offset_mm + s.length_mm / 2,
         first + thick if s.rim == "RA" else last - thick,
         first + 2 * thick if s.rim == "RA" else last)
        for s in frame.splices
    ]  # fmt: skip
    return boxes


def distance_mm(box: tuple[float, float, float, float], along: float, across: float) -> float:
    left, right, near, far = box
    return max(
        max(left - along, along - right, 0.0) ** 2 + max(near - across, across - far, 0.0) ** 2, 0.0
    ) ** 0.5  # fmt: skip


@few
@given(
    st.integers(1, 10**6), st.sampled_from(SIDES), st.integers(1, 5), st.sampled_from([20.0, 55.0])
)
def test_every_hole_is_clear_of_all_timber_and_inside_its_row(
    seed: int, side: str, count: int, hole_mm: float
) -> None:
    plan = lit(seed, side, count, hole_mm)
    lighting = plan.work.lighting if plan.work else None
    if lighting is None:
        assert not plan.buildable
        return
    rows = {row.mark: row for row in plan.surface.rows}
    assert len(lighting.lights) == count
    for light in lighting.lights:
        row = rows[light.row]
        assert row.near_mm + hole_mm / 2 <= light.across_mm
        assert light.across_mm <= row.near_mm + row.width_mm - hole_mm / 2
        for box in timber(plan):
            assert distance_mm(box, light.along_mm, light.across_mm) >= hole_mm / 2 + 20.0
        joints = [j.centre_mm for j in plan.pieces.joints if j.row == light.row]
        assert all(abs(joint - light.along_mm) > hole_mm / 2 for joint in joints)
    assert drylay.audit(plan).sound


@few
@given(st.integers(1, 10**6))
def test_fewer_lights_fit_where_more_do(seed: int) -> None:
    plan = lit(seed, "front", 3, 20.0)
    if not plan.buildable or plan.work is None or plan.work.lighting is None:
        return
    for count in (1, 2):
        found = place_lights(
            plan.surface, plan.frame, side="front", count=count, hole_mm=20.0, depth_mm=40.0,
            units=plan.units,
        )  # fmt: skip
        assert found is not None


@few
@given(st.integers(1, 10**6), st.sampled_from(SIDES))
def test_the_cable_reaches_every_light_by_its_way(seed: int, side: str) -> None:
    """However it runs, it is no shorter than the way straight there."""
    plan = lit(seed, side, 3, 20.0)
    if plan.work is None or plan.work.lighting is None:
        return
    lighting = plan.work.lighting
    for light in lighting.lights:
        assert lighting.cable_mm >= light.along_mm + light.across_mm
    for one, other in combinations(lighting.lights, 2):
        apart = abs(one.along_mm - other.along_mm) + abs(one.across_mm - other.across_mm)
        assert lighting.cable_mm >= apart


def test_lights_that_do_not_fit_stop_the_plan_and_say_so() -> None:
    brief = drylay.read_brief("docs/examples/garden.toml")
    stock = drylay.load_catalogue("catalogs/hobbleden.toml")
    wish = LightsWish(count=3, side="front", hole_mm=120.0, depth_mm=40.0)  # boards of 145: no room
    plan = drylay.design(evolve(brief, lights=wish), stock=stock)
    (stop,) = [finding for finding in plan.findings if finding.severity.value == "stop"]
    assert (stop.code, stop.measured, plan.buying) == ("LIT-001", 3.0, None)


def test_lights_deeper_than_the_frame_stop_the_plan() -> None:
    """28 of board and 145 of timber: 173 and no more."""
    brief = drylay.read_brief("docs/examples/garden.toml")
    stock = drylay.load_catalogue("catalogs/hobbleden.toml")
    wish = LightsWish(count=3, side="front", hole_mm=55.0, depth_mm=180.0)
    plan = drylay.design(evolve(brief, lights=wish), stock=stock)
    (stop,) = [finding for finding in plan.findings if finding.severity.value == "stop"]
    assert (stop.code, stop.measured, stop.limit) == ("LIT-002", 180.0, 173.0)
