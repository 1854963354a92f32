"""Decks of tiles that stand: what they weigh, what loose tiles do not do, what is told of them."""

from math import sqrt

import pytest
from attrs import evolve

import drylay
import tile_legs
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.strength.model import Strength
from tile_legs import LEGS, deck, on_packers, on_posts, plain, yards

#: 25.5 kg of 0.9 x 0.6 m at 9.81 m/s2, in kN/m2, and what Eurocode 5 takes of it here.
COVER = 25.5 / (0.9 * 0.6) * 9.81 / 1000
MORE = COVER - 0.3


def designed(brief: drylay.Brief) -> Plan:
    plan = drylay.design(brief, stock=yards())
    told = drylay.audit(plan, brief=brief, stock=yards()).findings
    assert [each for each in told if each.severity is Severity.STOP] == []
    return plan


def strong(plan: Plan) -> Strength:
    assert plan.strength is not None
    return plan.strength


def told(plan: Plan, code: str) -> list[Finding]:
    return [each for each in plan.findings if each.code == code]


@pytest.mark.parametrize("name", tile_legs.BRIEFS)
def test_tiles_on_a_frame_stand_and_are_audited(name: str) -> None:
    plan = designed(tile_legs.BRIEFS[name]())
    assert plan.buildable
    assert not told(plan, "STR-009")
    assert (plan.raised is not None) == (name != "packers")


def test_what_tiles_weigh_more_lies_on_every_member() -> None:
    """47.22 kg/m2 are 0.46325 kN/m2: 0.16325 over 0.3; joists bring a bearer 8 kN/m3 besides."""
    for name in tile_legs.BRIEFS:
        strength = strong(deck(name))
        assert strength.heavier_kn_m2 == pytest.approx(MORE)
        assert deck(name).why("strength.heavier_kn_m2").inputs[0] == (
            "cover_kn_m2",
            pytest.approx(COVER),
        )
        assert [ledger.more_dead_kn_m2 for ledger in strength.ledgers] == pytest.approx(
            [MORE] * len(strength.ledgers)
        )
        joists = 8 * 0.045 * 0.145 / 0.452
        for beam in strength.beams:
            own = joists if beam.kind == "bearer" else 0.0
            assert beam.more_dead_kn_m2 == pytest.approx(MORE + own)


def test_one_joist_bends_as_the_formulas_say() -> None:
    """45 x 145 C24 each 452 over 2176 with ends of 420, worked by hand.

    Own weight 45 x 145 mm x 420 kg/m3 (EN 338, mean). M = 1.35 g (L2/8 - e2/2) + 1.5 P L/4 with
    2 kN; W = b h2/6. Limit: 24 x 0.65 x (150/145)^0.2 / 1.3, no k_sys; held each 1800 alone:
    l_ef = 1800 + 2 h, sigma = 0.78 b2 7400 / (h l_ef), k_crit = 1.56 - 0.75 sqrt(24 / sigma).
    """
    load = COVER * 0.452 + 0.045 * 0.145 * 420 * 9.81 / 1000
    moment = 1.35 * load * (2.176**2 / 8 - 0.42**2 / 2) + 1.5 * 2.0 * 2.176 / 4
    slender = sqrt(24 / (0.78 * 45**2 * 7400 / (145 * (1800 + 290))))
    limit = 24 * 0.65 * (150 / 145) ** 0.2 / 1.3 * (1.56 - 0.75 * slender)
    bent = next(c for c in strong(deck("posts")).screened[0].checks if c.name == "bending")
    assert bent.measured == pytest.approx(moment * 1e6 / (45 * 145**2 / 6), rel=1e-6)
    assert bent.limit == pytest.approx(limit, rel=1e-6)


def test_one_post_bears_its_tiles() -> None:
    """A support bears (L + e)2 / 2L of a beam with ends e past two, loaded to the other one.

    Joists: 2596^2 / (2 x 2176) = 1548.53; bearer: 3916^2 / (2 x 3316) = 2312.27: 3.5806 m2. Joists
    weigh 8 kN/m3 and 45 x 145 each 452; the bearer 94 x 220 is as long as what it brings.
    """
    area = 2596**2 / (2 * 2176) * 3916**2 / (2 * 3316) / 1e6
    joists, bearer = 8 * 0.045 * 0.145 / 0.452, 8 * 0.094 * 0.220 * 3.916**2 / (2 * 3.316)
    post = strong(deck("posts")).posts[0]
    assert post.dead_kn == pytest.approx((COVER + joists) * area + bearer, rel=1e-5)
    assert post.live_kn == pytest.approx(1.5 * area, rel=1e-5)


def test_levels_count_the_tile() -> None:
    """-150 - 20 - 145 - 220 = -535; down to a foot 50 over -800: 215."""
    plan = deck("posts")
    assert plan.raised is not None
    assert plan.raised.post_top_mm == -535.0
    assert {post.length_mm for post in plan.raised.frame.posts} == {215.0}
    assert plan.raised.frame.heights.board_mm == 20.0


@pytest.mark.parametrize("name", tile_legs.BRIEFS)
def test_loose_tiles_neither_share_load_nor_hold_joists(name: str) -> None:
    joists = strong(deck(name)).beams[0]
    assert (joists.alike, joists.held_each_mm) == (1, 1800.0)
    said = [each.message for each in told(deck(name), "STR-003")]
    assert not [text for text in said if "boards hold" in text or "k_sys 1.1" in text]


def test_boards_of_no_deck_share_a_point_load() -> None:
    sharing = {"basis": "eurocode-5", "sharing": "board over three joists 145 x 28 C24"}
    plan = designed(on_posts(strength=sharing))
    assert not plan.buildable
    assert any("three joists alike" in each.message for each in plan.findings)


def test_a_ledger_holds_no_posts_through_loose_tiles() -> None:
    """990 high: 990 - 20 - 145 - 145 - 50 = 630, over 600 and under the 1200 of boards."""
    plan = deck("ledger")
    assert plan.raised is not None
    frame = plan.raised.frame
    assert frame.ledger is not None
    assert plan.raised.brace_over_mm == 600.0
    assert {post.length_mm for post in frame.posts} == {630.0}
    assert {brace.post for brace in frame.bracing.braces} == {post.mark for post in frame.posts}
    (note,) = told(plan, "STR-008")
    assert "loose tiles hand nothing on to" in note.message


@pytest.mark.parametrize("name", tile_legs.BRIEFS)
def test_what_nobody_screens_of_tiles_is_told(name: str) -> None:
    (tiles,) = told(deck(name), "STR-004")
    assert (tiles.severity, tiles.subject) == (Severity.CAUTION, "tiles")
    assert "their maker" in tiles.message
    (load,) = told(deck(name), "TIL-013")
    assert "is in what their frame is screened with" in load.message
    for each in told(deck(name), "STR-003"):
        assert "tiles" not in each.message


def test_sag_is_held_beside_a_five_hundredth_and_cautioned_over_it() -> None:
    """Joists of 2176 may sag 4.352 by that; bearers over 3716 may sag 7.43, and do more."""
    (note,) = told(deck("posts"), "TIL-014")
    assert note.severity is Severity.NOTE
    assert note.measured == pytest.approx(4.19, abs=0.01)
    wide = designed(on_posts(raised={**LEGS, "posts_mm": [400.0, 4116.0]}))
    assert wide.buildable
    (sag,) = told(wide, "TIL-014")
    assert sag.severity is Severity.CAUTION
    assert sag.measured is not None
    assert 3716 / 500 < sag.measured <= 3716 / 300


def test_guards_steps_and_footings_are_planned() -> None:
    plan = deck("posts")
    assert plan.guards is not None
    assert plan.guards.runs
    assert plan.steps is not None
    assert plan.steps.tread_mm == 28.0
    assert plan.footings is not None
    assert len(plan.footings.under) == 4
    bought = {line.article for line in plan.buying.order} if plan.buying else set()
    assert bought >= {"PT-900-600-20", "UT-45-145", "BT-47-220", "PT-100-C24", "PF-100-50"}
    assert plan.work is not None
    kinds = [task.kind for task in plan.work.tasks]
    assert kinds.index("bearers") < kinds.index("frame") < kinds.index("tiles")
    assert kinds.index("tiles") < kinds.index("guards") < kinds.index("steps")
    assert {each.what for each in plan.work.upkeep} >= {"post feet", "guard posts"}


def test_joists_on_packers_span_from_one_to_the_next() -> None:
    joists = strong(deck("packers")).beams[0]
    assert joists.supports_mm == (0.0, 1200.0)


def test_ungraded_joists_on_packers_stop_where_a_basis_is_named() -> None:
    timbers = tuple(evolve(each, strength_class="") for each in yards().timbers)
    plan = drylay.design(on_packers(), stock=evolve(yards(), timbers=timbers))
    assert [each.subject for each in told(plan, "STR-002")] == ["UT-45-145"]


def test_a_frame_that_lies_all_along_spans_nothing_and_says_so() -> None:
    tables = plain(raised={}, guards={}, steps={}, house={}, levels={}, site={})
    plan = designed(drylay.read_brief(tables))
    assert plan.buildable
    assert plan.strength is None
    assert [each.severity for each in told(plan, "STR-013")] == [Severity.NOTE]


def test_joists_brought_closer_are_told_where_that_carries() -> None:
    """By US rules spread load decides: 452 apart they bend too much, 904 / 3 carries."""
    timbers = tuple(evolve(each, strength_class="Southern Pine No.2") for each in yards().timbers)
    stock = evolve(yards(), timbers=timbers)
    raised = {**LEGS, "lines_mm": [150.0, 2866.0], "posts_mm": [300.0, 1600.0, 2900.0, 4216.0]}
    basis = {"basis": "us-allowable-stress"}
    plan = drylay.design(on_posts(raised=raised, strength=basis), stock=stock)
    assert [each.severity for each in told(plan, "STR-005")] == [Severity.STOP]
    (nearest,) = told(plan, "STR-014")
    assert "frame.most_centres of 301.5 mm puts 3 bays" in nearest.message
    frame = {"article": "UT-45-145", "most_centres_mm": 301.5}
    closer = drylay.design(on_posts(raised=raised, strength=basis, frame=frame), stock=stock)
    assert closer.buildable
    assert closer.supports is not None
    assert closer.supports.centres_mm < 302


def test_no_closer_joists_are_told_where_they_do_not_help() -> None:
    """A point load that nothing shares bends a joist the same however close its neighbours."""
    plan = designed(on_posts(raised={**LEGS, "lines_mm": [200.0, 2816.0]}))
    assert told(plan, "STR-005")
    assert not told(plan, "STR-014")


def test_the_us_dead_load_leaves_less_for_tiles() -> None:
    """10 psf are 0.4788 kN/m2 and hold members' 0.2: tiles of 0.46325 weigh 0.1845 more.

    Alone a joist gets no Cr: its bending quotes 1.0.
    """
    timbers = tuple(evolve(each, strength_class="Southern Pine No.2") for each in yards().timbers)
    raised = {**LEGS, "posts_mm": [300.0, 1600.0, 2900.0, 4216.0]}
    brief = on_posts(raised=raised, strength={"basis": "us-allowable-stress"})
    strength = strong(drylay.design(brief, stock=evolve(yards(), timbers=timbers)))
    dead = 10 * 4.4482216152605 / 0.3048**2 / 1000
    assert strength.heavier_kn_m2 == pytest.approx(COVER - (dead - 0.2), abs=1e-6)
    assert not [said for one in strength.screened for said in one.assumed if "Cr 1.15" in said]
    assert any("of a heavier cover" in said for said in strength.screened[0].assumed)
