"""The ground and the delivery in words: the plan's figures in its units, none rounded down."""

from pathlib import Path

import pytest
from attrs import evolve

import drylay
from audit.sample import sample_plan
from drylay.papers.delivery_text import delivery_told
from drylay.papers.ground_text import ground_told
from drylay.papers.jobsheet import jobsheet
from drylay.papers.summary import summary
from drylay.units import density_text, mass_most_text, mass_text, volume_held_text, volume_text

ROOT = Path(__file__).parents[2]


def test_the_ground_of_the_hand_made_deck() -> None:
    told = " ".join(ground_told(sample_plan()))
    for words in (
        "4285 mm along the house and 707 mm away from it, 60 mm deep",
        "0.182 m3 in the ground, 0.228 m3 as a heap",
        "1 bulk bag of 0.7 m3, or 1 skip of 6 cubic yards (4.587 m3)",
        "1 strip of 4285 mm, laid along the house, G1",
        "it would take 5 strips of 707 mm",
        "50 mm deep, up to 10 mm under the lawn: 0.152 m3, 242.4 kg; bought: 1 x 300 kg",
        "33, 3 under each joist",
        "12 mm to 22 mm high",
    ):
        assert words in told


def test_the_delivery_of_the_hand_made_deck() -> None:
    told = " ".join(delivery_told(sample_plan()))
    assert "up to 443.8 kg, spares with it: boards 59.7 kg, frame 68.1 kg" in told
    assert "QT-45-120 of 3000 mm, 11.4 kg; one person lifts 25 kg at most" in told
    assert "1 pack too heavy to lift" in told


def test_what_two_carry_is_said() -> None:
    plan = sample_plan()
    assert plan.buying is not None
    assert plan.buying.delivery is not None
    heavy = evolve(plan.buying.delivery, lift_kg=27.5)
    told = delivery_told(evolve(plan, buying=evolve(plan.buying, delivery=heavy)))
    assert "27.5 kg: two people" in told[1]


def test_a_plan_without_groundwork_says_nothing_of_it() -> None:
    plan = evolve(sample_plan(), groundwork=None)
    assert ground_told(plan) == []
    assert "The ground under the deck" not in jobsheet(plan).decode("utf-8")


def test_summary_and_job_sheet_tell_both() -> None:
    plan = sample_plan()
    assert "GROUND" in summary(plan)
    assert "DELIVERY" in summary(plan)
    sheet = jobsheet(plan).decode("utf-8")
    assert sheet.index("What comes, and what it weighs") < sheet.index("The ground under the deck")
    assert sheet.index("The ground under the deck") < sheet.index(">Setting out<")
    assert "bulk bag of 300 kg" in sheet
    assert "243 kg needed" in sheet


@pytest.mark.parametrize(
    ("m3", "yards"),
    [
        (1.0, "1.31 cubic yards"),  # 1 / 0.764554857984 = 1.30795
        (0.764554857984, "1 cubic yards"),
        (0.765, "1.01 cubic yards"),  # 1.00058, up
    ],
)
def test_volumes_in_cubic_yards_are_rounded_up(m3: float, yards: str) -> None:
    assert volume_text(m3, "imperial") == yards
    assert volume_text(0.998, "metric") == "0.998 m3"


def test_what_a_bag_holds_is_rounded_down() -> None:
    assert volume_held_text(0.7, "imperial") == "0.91 cubic yards"  # 0.91557
    assert volume_held_text(0.7, "metric") == "0.7 m3"


@pytest.mark.parametrize(
    ("kg", "metric", "imperial"),
    [
        (365.0, "365 kg", "805 lb"),  # 365 / 0.45359237 = 804.69
        (2409.4, "2409.4 kg (2.41 t)", "5312 lb"),  # 5311.82
        (1000.0, "1000 kg (1 t)", "2205 lb"),  # 2204.62
        (1325.9, "1325.9 kg (1.33 t)", "2924 lb"),  # 2923.11
    ],
)
def test_masses_are_rounded_up(kg: float, metric: str, imperial: str) -> None:
    assert (mass_text(kg, "metric"), mass_text(kg, "imperial")) == (metric, imperial)


def test_a_limit_is_rounded_down_and_a_density_up() -> None:
    assert mass_most_text(25.0, "imperial") == "55 lb"  # 55.12
    assert density_text(700.0, "imperial") == "44 lb a cubic foot"  # 43.70
    assert density_text(700.0, "metric") == "700 kg/m3"


def test_an_imperial_plan_tells_no_metres() -> None:
    yard = drylay.load_catalogue(ROOT / "catalogs/marrowick.toml")
    brief = drylay.read_brief(ROOT / "docs/examples/imperial.toml")
    ground = {"fabric": "NGF4", "gravel": "NGR34", "packer": "NPK12"}
    brief = evolve(brief, house=type(brief.house)(), levels=type(brief.levels)())
    plan = drylay.design(brief.replace("groundwork", ground), stock=yard)
    told = " ".join([*ground_told(plan), *delivery_told(plan)])
    assert " m3" not in told
    assert " mm" not in told
    assert "cubic yards" in told
