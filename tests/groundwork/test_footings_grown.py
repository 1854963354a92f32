"""Footings grow by as many steps at once as carry nothing between, as if by single ones."""

from math import ceil, sqrt

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.findings import Finding
from drylay.groundwork.footings import footing_for, footing_rules
from drylay.groundwork.model import Footing
from drylay.regions.packs import region_pack, soil_named

UK = region_pack("united-kingdom")
CLAY = soil_named(UK, "firm clay")
RULES = footing_rules(UK)
POST_MM, CONCRETE = 100.0, 24e-3  # of it, kN/m2 a mm


def made(**asked: object) -> Footing | tuple[Finding, ...]:
    return footing_for(**{
        "kind": "pad", "shape": "square", "load_kn": 12.0, "soil": CLAY, "soil_named": True,
        "post_mm": POST_MM, "rules": RULES, "bag": UK.bags[0], **asked,
    })  # fmt: skip


def stepped(load_kn: float, bearing_kn_m2: float, step_mm: int, frost_mm: int, pier: bool) -> int:
    """Return a square pad's size, grown one step at a time; 0 where the ground never bears it."""
    buried = max(frost_mm, RULES.depth_least.value or 0.0, RULES.frost.value or 0.0)
    broad = ceil((POST_MM + 100) / step_mm) * step_mm  # of a pier, 50 past its post on every side
    size = ceil(max(RULES.square_least.value or 0.0, POST_MM) / step_mm) * step_mm
    while True:
        thick = max(ceil((size - POST_MM) / 2 / step_mm) * step_mm, RULES.thick_least.value or 0.0)
        deep = max(buried, thick)
        share = min(1.0, broad / size) ** 2 if pier else 0.0
        own = CONCRETE * (thick + (deep - thick) * share)
        if CONCRETE * thick >= bearing_kn_m2 or (not pier and own >= bearing_kn_m2):
            return 0
        left = bearing_kn_m2 - own
        if left > 0 and (size / 1e3) ** 2 * left >= load_kn * (1 - 1e-9):
            return size
        size += step_mm


@given(
    load=st.floats(0.5, 400.0),
    bearing=st.floats(8.0, 200.0),
    step=st.sampled_from([5, 10, 25, 50]),
    frost=st.integers(0, 1800),
    pier=st.booleans(),
)
def test_long_strides_end_where_single_steps_do(
    load: float, bearing: float, step: int, frost: int, pier: bool
) -> None:
    soil = evolve(CLAY, bearing=evolve(CLAY.bearing, value=bearing))
    found = made(load_kn=load, soil=soil, step_mm=float(step), frost_mm=float(frost), pier=pier)
    size = found.size_mm if isinstance(found, Footing) else 0
    assert size == stepped(load, bearing, step, frost, pier)


@pytest.mark.parametrize("load", [12.0, 60.0])
def test_millionths_of_a_millimetre_by_the_pads_own_equation(load: float) -> None:
    """A pad that spreads at 45 degrees carries s^2 (q - 24 (s - 100) / 2), and little less not."""

    def carries(size_mm: float) -> float:
        bears = CLAY.bearing.value or 0.0
        thick = max((size_mm - POST_MM) / 2, RULES.thick_least.value or 0.0)
        return size_mm**2 / 1e6 * (bears - CONCRETE * thick)

    pad = made(load_kn=load, step_mm=1e-6)
    assert isinstance(pad, Footing)
    assert carries(pad.size_mm) >= load * (1 - 2e-9)
    assert carries(pad.size_mm - 1e-4) < load
    assert pad.size_mm >= sqrt(load / (CLAY.bearing.value or 0.0)) * 1e3


def test_every_fault_of_a_footing_is_told_at_once() -> None:
    nan = float("nan")
    poured = evolve(UK.bags[0], made_m3=evolve(UK.bags[0].made_m3, value=None))
    with pytest.raises(InputError) as told:
        made(kind="pile", shape="oblong", load_kn=-1.0, post_mm=nan, step_mm=0.0, frost_mm=-1.0,
             post_depth_mm=float("inf"), bag=poured)  # fmt: skip
    assert {fault.path for fault in told.value.faults} == {
        "kind", "shape", "load_kn", "post_mm", "step_mm", "frost_mm", "post_depth_mm",
        "bag.made_m3.value",
    }  # fmt: skip
