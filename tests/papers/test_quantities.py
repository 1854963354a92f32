"""Litres, kg, areas and packs as papers put them: expected values by hand."""

import math

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.papers.purchase import order_lines, packs_told
from drylay.papers.quantities import area, kilos, litres, pack_told
from drylay.papers.summary import summary
from drylay.papers.tables import order_csv
from plan.made import example


@pytest.mark.parametrize(
    ("ml", "units", "told"),
    [
        (2500, "metric", "2.5 l"),
        (1000, "metric", "1 l"),
        (156, "metric", "0.156 l"),
        (0, "metric", "0 l"),
        (2500, "imperial", "2.5 l (~0.66 US gal)"),  # 2.5 / 3.785411784 = 0.6604
        (3785, "imperial", "3.785 l (~1.00 US gal)"),  # a gallon, less 0.4 ml
    ],
)
def test_litres(ml: int, units: str, told: str) -> None:
    assert litres(ml, units) == told


@pytest.mark.parametrize(
    ("kg", "units", "told"),
    [
        (25, "metric", "25 kg"),
        (25, "imperial", "25 kg (~55.1 lb)"),  # 25 / 0.45359237 = 55.1156
        (850, "imperial", "850 kg (~1873.9 lb)"),  # 850 / 0.45359237 = 1873.929
    ],
)
def test_kilos(kg: int, units: str, told: str) -> None:
    assert kilos(kg, units) == told


@pytest.mark.parametrize(
    ("m2", "units", "told"),
    [
        (17.4, "metric", "17.4 m2"),
        (0.598995, "metric", "~0.60 m2"),
        (0.0401, "metric", "~0.05 m2"),  # up, never smaller than it is
        (9.290304, "imperial", "~9.30 m2 (100 sq ft)"),
        (1.0, "imperial", "1 m2 (~10.77 sq ft)"),  # 1 / 0.09290304 = 10.7639
    ],
)
def test_areas(m2: float, units: str, told: str) -> None:
    assert area(m2, units) == told


@pytest.mark.parametrize(
    ("count", "unit", "units", "told"),
    [
        (250, "pieces", "metric", "pack of 250"),
        (250, "pieces", "imperial", "pack of 250"),
        (2500, "ml", "metric", "tin of 2.5 l"),
        (25, "kg", "metric", "bag of 25 kg"),
        (850, "kg", "metric", "bulk bag of 850 kg"),
        (850, "kg", "imperial", "bulk bag of 850 kg (~1873.9 lb)"),
    ],
)
def test_packs(count: int, unit: str, units: str, told: str) -> None:
    assert pack_told(count, unit, units) == told


@given(st.floats(0, 1e9))
def test_an_area_is_never_told_smaller(m2: float) -> None:
    told = float(area(m2, "metric").removeprefix("~").removesuffix(" m2"))
    assert told >= m2 or math.isclose(told, m2, rel_tol=1e-15)
    assert told - m2 <= 0.01 + 1e-6


@pytest.mark.parametrize("m2", [1e300, 0.0, 5e-324])
def test_whatever_an_edited_plan_holds_is_told(m2: float) -> None:
    assert area(m2, "imperial").endswith(" sq ft)")


def test_packs_of_every_unit_are_told_in_it() -> None:
    buying = example("garden").buying
    screws, coach, *_ = buying.packs
    (preserver,) = [pack for pack in buying.packs if pack.what == "end-grain preserver"]
    uses = evolve(screws, what="deck screws, fascia screws", need=704, spare=36)
    gravel = evolve(
        preserver, what="gravel", unit="kg", need=1200,
        packs=(evolve(preserver.packs[0], pack=850, packs=1),
               evolve(preserver.packs[0], pack=25, packs=14)),
    )  # fmt: skip
    told = packs_told(evolve(buying, packs=(uses, coach, preserver, gravel)), "metric")
    assert told[0].startswith("deck screws, fascia screws: 704 needed, 36 wanted spare, ")
    assert told[2] == "end-grain preserver: 0.3 l needed, 0.5 l in the tins above"
    assert told[3] == "gravel: 1200 kg needed, 1200 kg in the bags above"  # 850 + 14 x 25


def test_tins_stand_in_order_and_table() -> None:
    plan = example("garden")
    lines = "\n".join(order_lines(plan.buying, plan.units))
    assert "1 x  tin of 0.5 l" in lines
    assert b",500,ml,tin of 0.5 l,7.40,7.40,GBP,included" in order_csv(plan)
    assert b",250,pieces,pack of 250," in order_csv(plan)
    assert "tin of 0.946 l (~0.25 US gal)" in summary(example("imperial"))
