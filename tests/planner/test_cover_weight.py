"""Boards heavier than a design basis takes: every member is screened with what lies on it."""

from functools import cache
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[2]
STOCK = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
#: The joists' own weight on a bearer is the same whatever boards weigh.
FIXED = {"bearer": "BT-47-220", "plies": 2, "lines_mm": [1700.0, 3300.0],
         "posts_mm": [300.0, 1700.0, 3100.0, 4500.0]}  # fmt: skip


@cache
def planned(kg_m: float | None) -> Plan:
    """Return the example of a slope with boards that weigh so much as sold."""
    boards = tuple(
        evolve(each, mass_kg_m=kg_m) if each.code == "DB-28-145" else each for each in STOCK.boards
    )
    plain = drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml").to_dict()
    plain["raised"] = {**plain["raised"], **FIXED, "hold_down_kn": 4.0}
    brief = drylay.read_brief(plain)
    plan = drylay.design(brief, stock=evolve(STOCK, boards=boards))
    told = drylay.audit(plan, brief=brief, stock=evolve(STOCK, boards=boards)).findings
    assert not [each for each in told if each.severity.value == "stop"]
    return plan


def test_light_boards_weigh_no_more_than_is_taken() -> None:
    """28 of 700 kg/m3 are 0.192 kN/m2; Eurocode 5 takes 0.3 here."""
    strength = planned(None).strength
    assert strength is not None
    assert strength.heavier_kn_m2 == 0.0
    assert dict(planned(None).why("strength.heavier_kn_m2").inputs)["cover_kn_m2"] == (
        pytest.approx(28e-3 * 700 * 9.81 / 1000)
    )


def test_what_heavy_boards_weigh_more_lies_on_every_member() -> None:
    """9 kg a metre, 145 wide: 9 / 0.145 x 9.81 / 1000 = 0.6089 kN/m2, 0.3089 over 0.3.

    Each post bears its own area of it besides: 0.3089 times as many square metres.
    """
    light, heavy = planned(None).strength, planned(9.0).strength
    assert light is not None
    assert heavy is not None
    more = 9 / 0.145 * 9.81 / 1000 - 0.3
    assert heavy.heavier_kn_m2 == pytest.approx(more)
    for one, other in zip(light.beams, heavy.beams, strict=True):
        assert other.more_dead_kn_m2 - one.more_dead_kn_m2 == pytest.approx(more)
    assert [each.more_dead_kn_m2 for each in heavy.ledgers] == pytest.approx([more])
    for one, other in zip(light.posts, heavy.posts, strict=True):
        area_m2 = one.live_kn / light.imposed_kn_m2
        if one.live_kn > light.point_kn:  # else that is the point load
            assert other.dead_kn - one.dead_kn == pytest.approx(more * area_m2)
        assert other.dead_kn > one.dead_kn
    used = [max(check.utilisation_ratio for one in each.screened if one.subject.startswith("BR")
                for check in one.checks) for each in (light, heavy)]  # fmt: skip
    assert used[1] > used[0]


def test_the_us_dead_load_holds_members_too() -> None:
    """10 psf are 0.4788 kN/m2, 0.2 of them joists' and bearers': 0.2788 is left for boards.

    N2X6 of 38.1 as sold at 4.5 kg a metre: 4.5 / 0.1397 x 9.81 / 1000 = 0.3160, 0.0372 more.
    """
    stock = drylay.load_catalogue(ROOT / "tests" / "reference" / "S15-stock.toml")
    boards = tuple(evolve(each, mass_kg_m=4.5) for each in stock.boards)
    brief = drylay.read_brief(ROOT / "tests" / "reference" / "S15.toml")
    strength = drylay.design(brief, stock=evolve(stock, boards=boards)).strength
    assert strength is not None
    wide_mm = stock.boards[0].width_mm
    dead = 10 * 4.4482216152605 / 0.3048**2 / 1000
    left = 4.5 / wide_mm * 9.81 - (dead - 0.2)
    assert strength.heavier_kn_m2 == pytest.approx(left, abs=1e-6)
