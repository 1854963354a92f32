"""Slips in briefs of decks that stand: each is told with its figures, none is a fault of drylay.

Source of figures: arithmetic on the brief of `standing_decks`, a deck 4200 by 3300 with its top at
-150, on posts 100 broad. That timber set in concrete is of use class 4: EN 335, from memory.
"""

import tomllib
from collections.abc import Mapping
from typing import Any

import attrs
import pytest

import drylay
from basis_liars import plain
from drylay.errors import BriefError
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Catalogue
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import BeamAsked, Screened
from standing_decks import BRIEF, plan_of

YARD = "catalogs/hobbleden.toml"
Wishes = Mapping[str, Mapping[str, Any]]


def ground(*levels_mm: float) -> list[dict[str, float]]:
    """Return four points round the deck: beside the house left and right, then beyond it."""
    places = ((-1000, 0), (5200, 0), (5200, 6000), (-1000, 6000))
    return [
        {"along_mm": along, "across_mm": across, "level_mm": level}
        for (along, across), level in zip(places, levels_mm, strict=True)
    ]


def wished(changes: Wishes) -> dict[str, Any]:
    read = tomllib.loads(BRIEF)
    for part, keys in changes.items():
        read[part] = {key: value for key, value in {**read.get(part, {}), **keys}.items()
                      if value is not None}  # fmt: skip
    return read


def stops(changes: Wishes, stock: Catalogue | None = None) -> list[Finding]:
    brief = drylay.read_brief(wished(changes))
    plan = drylay.design(brief, stock=stock or drylay.load_catalogue(YARD))
    assert plan.buildable is not any(each.severity is Severity.STOP for each in plan.findings)
    return [each for each in plan.findings if each.severity is Severity.STOP]


def yard_with(code: str, **changes: Any) -> Catalogue:
    with open(YARD, "rb") as file:
        stock = tomllib.load(file)
    for timber in stock["timbers"]:
        if timber["code"] == code:
            timber.update(changes)
    return drylay.load_catalogue(stock)


@pytest.mark.parametrize("at_mm", [[0, 2100, 4150], [50, 2100, 4160], [50, 2100, 2190, 4150]])
def test_posts_that_find_no_room_under_their_bearer_stop_the_plan(at_mm: list[float]) -> None:
    """Half a post, 50, at either end; two posts are 100 apart or more, middle to middle."""
    (stop,) = stops({"raised": {"posts_mm": at_mm}})
    assert stop.code == "STR-005"
    assert "no room for posts 100 broad" in stop.message


def test_bearers_that_reach_past_the_frame_stop_the_plan() -> None:
    """Every bearer on sale is 45 broad at the least: its middle is 22.5 inside the frame."""
    (stop,) = stops({"raised": {"lines_mm": [1500, 3290]}})
    assert stop.code == "STR-005"
    assert "past the frame" in stop.message


def test_steps_that_reach_past_their_side_stop_the_plan() -> None:
    """A flight whose width nobody wishes is 900 broad: from 3400 on it ends at 4300."""
    (stop,) = stops({"steps": {"from_mm": 3400, "width_mm": None}})
    assert (stop.code, stop.measured, stop.limit) == ("STP-015", 4300, 4200)


def test_steps_into_ground_that_is_higher_than_the_deck_are_told() -> None:
    told = {each.code: each for each in stops({
        "levels": {"points": ground(-100, -100, -100, -100), "lowest_mm": None},
    })}  # fmt: skip
    assert (told["STP-016"].measured, told["STP-016"].limit) == (-50, 0)


def test_steps_onto_ground_too_steep_for_a_flight_are_told() -> None:
    """It falls by 2200 over 6000 beyond the house: 0.366667, and a quarter is what is screened."""
    told = {each.code: each for each in stops({
        "levels": {"points": ground(-300, -300, -2500, -2500), "lowest_mm": None},
    })}  # fmt: skip
    stop = told["STP-017"]
    assert stop.measured == pytest.approx(2200 / 6000, abs=1e-5)
    assert stop.limit == 0.25


@pytest.mark.parametrize(("foot", "sold"), [("in concrete", 3), ("metal foot", 2)])
def test_posts_treated_too_little_for_where_they_stand_stop_the_plan(foot: str, sold: int) -> None:
    stock = yard_with("PT-100-C24", use_class=sold, treatment=f"use class {sold}")
    post_foot = None if foot == "in concrete" else "PF-100-50"
    (stop,) = stops({"raised": {"foot": foot, "post_foot": post_foot}}, stock)
    assert (stop.code, stop.subject, stop.measured) == ("MAT-005", "posts", sold)
    assert stop.limit == 4 if foot == "in concrete" else stop.limit is not None


def test_a_bearer_that_the_brief_names_is_treated_as_well_as_the_frame() -> None:
    stock = yard_with("BT-47-195", use_class=1, treatment="use class 1")
    (stop,) = stops({"raised": {"bearer": "BT-47-195"}}, stock)
    assert (stop.code, stop.subject, stop.measured) == ("MAT-005", "bearers", 1)


def test_what_fails_for_want_of_an_answer_tells_no_share_that_looks_well_used() -> None:
    """Nothing holds the lifted end down: a use of 0.5 of 1 would say that it passes."""
    (stop,) = stops({"raised": {"hold_down_kn": None}})
    assert (stop.code, stop.measured, stop.limit) == ("STR-005", None, None)


def test_wood_that_a_basis_does_not_know_is_used_by_no_share() -> None:
    (stop,) = stops({"strength": {"basis": "us-allowable-stress"}})
    assert (stop.code, stop.measured, stop.limit) == ("STR-005", None, None)


def test_plies_broader_than_the_post_are_told_by_their_breadth() -> None:
    """Three plies of 45 are 135."""
    (stop,) = stops({"raised": {"bearer": "FT-45-145", "plies": 3}})
    assert (stop.code, stop.measured, stop.limit) == ("STR-006", 135, 100)


def test_a_ledger_whose_fixing_nobody_knows_is_told_once() -> None:
    """Nothing is said of its room beside the joists: no spacing holds it."""
    assert [each.code for each in stops({"raised": {"ledger_fixing": "9**9 kN"}})] == ["STR-002"]


def test_a_metal_foot_of_posts_in_concrete_is_refused() -> None:
    with pytest.raises(BriefError) as caught:
        drylay.read_brief(wished({"raised": {"foot": "in concrete"}}))
    (fault,) = caught.value.faults
    assert fault.path == "raised.post_foot"


def test_no_slip_in_a_word_makes_a_wall_sound() -> None:
    """A cavity wall's leaf is no wall by itself: "cavity masonry" is not solid masonry."""
    with pytest.raises(BriefError) as caught:
        drylay.read_brief(wished({"house": {"wall": "cavity masonry"}}))
    (fault,) = caught.value.faults
    assert "solid" not in fault.nearest


def quiet(asked: BeamAsked, use: str) -> Screened:
    """Answer as Eurocode 5 does, but for every check that fails and all of shear."""
    found = eurocode_5().beam(asked, use)
    kept = tuple(each for each in found.checks
                 if each.utilisation_ratio <= 1 and each.name != "shear")  # fmt: skip
    return attrs.evolve(found, checks=kept or found.checks, stops=())


def test_a_basis_that_says_nothing_of_shear_is_cautioned_of() -> None:
    """What is not told cannot be measured again: nobody else looks whether it passes."""
    bases = drylay.installed_design_bases(extra=[plain("quiet", beam=quiet)])
    brief = drylay.read_brief(wished({"strength": {"basis": "quiet"}}))
    plan = drylay.design(brief, stock=drylay.load_catalogue(YARD), bases=bases)
    told = {each.subject: each for each in plan.findings if each.code == "STR-012"}
    assert {"joists", "BR1"} <= set(told)
    assert all(each.severity is Severity.CAUTION for each in told.values())
    assert all("quiet nothing is told of" in each.message for each in told.values())
    assert all("shear" in each.message for each in told.values())


def test_the_two_own_bases_tell_of_bending_and_of_shear() -> None:
    assert not [each for each in plan_of("held").findings if each.code == "STR-012"]


def test_fixings_of_a_ledger_that_is_none_are_told() -> None:
    """Boards that run away from the house lie on joists along it: none of them ends at its wall."""
    brief = drylay.read_brief(wished({"board": {"run": "across"}}))
    plan = drylay.design(brief, stock=drylay.load_catalogue(YARD))
    assert plan.raised is not None
    assert plan.raised.frame.ledger is None
    (told,) = [each for each in plan.findings if each.code == "RSD-017"]
    assert (told.severity, told.subject) == (Severity.CAUTION, "ledger")
