"""Checks of guards' posts: planned ones are sound, and each check has been seen to fail."""

from functools import cache

import pytest
from attrs import evolve

from audit.edits import at, put
from audit.planting import Edit, Fault, both, by, finding, to, twice, without
from audit.real import stock, witness_of
from audit.strength_faults import checked, limited, quoting, scaled
from drylay.audit import guard_posts_asked, guard_posts_checks
from drylay.audit.closed import audit_plan
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.guard_posts_checks import couple_of, diameter_mm
from drylay.audit.model import Witness
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.strength.model import Check, GuardPostAsked, Section
from drylay.strength.nds_basis import us_allowable_stress
from drylay.strength.nds_values import dressed
from guard_posts import brief_with, designed, footed, footed_outline, outline_brief, us_footed
from standing_decks import plan_of

ROOMS = (*guard_posts_asked.CHECKS, *guard_posts_checks.CHECKS)
ASKED, FOOT = "strength.guard_posts[0]", "guards.foot"
NAME = "guard posts G1"


def found(plan: Plan) -> set[str]:
    """Return the codes of these rooms that find something."""
    codes = set()
    for code, _, check in ROOMS:
        try:
            codes |= {code for _ in check(plan)}
        except NothingToMeasure:
            continue
    return codes


@cache
def in_the_us() -> Plan:
    """Return the same plan, its guards' posts put to the US basis under 200 lb."""
    plan, basis = footed(), us_allowable_stress()
    assert plan.strength is not None
    assert basis.guard_post is not None
    assert plan.guards is not None
    assert plan.guards.foot is not None
    foot = evolve(plan.guards.foot, line_kn_m=None, point_kn=0.8896444, bolt="1/2 in A307")
    plan = evolve(plan, guards=evolve(plan.guards, region="north-america", foot=foot))
    assert plan.strength is not None
    asked = tuple(
        evolve(each, wood="SP No.2", edge_wood="HF No.2", bolt="1/2 in A307", line_kn_m=0.0,
               point_kn=0.8896444)
        for each in plan.strength.guard_posts
    )  # fmt: skip
    kept = plan.strength.screened[: -len(asked)]
    answers = tuple(basis.guard_post(each, "dwelling") for each in asked)
    strength = evolve(plan.strength, guard_posts=asked, screened=(*kept, *answers))
    return evolve(plan, strength=strength)


def unsaid(name: str) -> Edit:
    """Return an edit that leaves a kind of check of the first guard's posts out."""

    def run(plan: Plan) -> Plan:
        assert plan.strength is not None
        screened = tuple(
            evolve(one, checks=tuple(c for c in one.checks if c.name != name))
            if one.subject == NAME else one
            for one in plan.strength.screened
        )  # fmt: skip
        return evolve(plan, strength=evolve(plan.strength, screened=screened))

    return run


def asks_nobody(plan: Plan) -> Plan:
    return put(plan, "strength.guard_posts", ())


def with_finding(code: str, subject: str = "guard posts") -> Edit:
    return lambda plan: evolve(
        plan, findings=(*plan.findings, finding(code=code, subject=subject, severity=Severity.STOP))
    )


def less(check: Check, share: float) -> Check:
    """Return a check of a pull that is a share of what it was."""
    return evolve(check, measured=check.measured * share,
                  utilisation_ratio=check.utilisation_ratio * share)  # fmt: skip


FAULTS: tuple[Fault, ...] = (
    ("AUD-362", "nobody asked, nobody told", asks_nobody),
    ("AUD-362", "told as not screened, and screened", with_finding("GRD-011")),
    ("AUD-362", "a guard's posts never asked about", without("strength.guard_posts", 0)),
    ("AUD-362", "a guard's posts asked about twice", twice("strength.guard_posts", 0)),
    ("AUD-362", "posts of no guard", to(f"{ASKED}.subject", "guard posts G9")),
    ("AUD-363", "asked about, held by nothing", to(FOOT, None)),
    ("AUD-363", "a thicker post", to(f"{ASKED}.section.depth_mm", 150.0)),
    ("AUD-363", "a post of two plies", to(f"{ASKED}.section.plies", 2)),
    ("AUD-363", "a thicker edge", to(f"{ASKED}.edge.breadth_mm", 75.0)),
    ("AUD-363", "another bolt", to(f"{ASKED}.bolt", "M20 8.8")),
    ("AUD-363", "posts closer together than built", by(f"{ASKED}.centres_mm", -50.0)),
    ("AUD-363", "a lower push", by(f"{ASKED}.rail_mm", -60.0)),
    ("AUD-363", "bolts further apart than told", by(f"{ASKED}.bolts_mm", 40.0)),
    ("AUD-363", "a larger washer", by(f"{ASKED}.washer_mm", 10.0)),
    ("AUD-363", "an article broader than the guard's posts", by("guards.built[0].post_mm", -10.0)),
    ("AUD-364", "a lesser load in the foot", to(f"{FOOT}.line_kn_m", 0.36)),
    ("AUD-364", "no load in the foot", to(f"{FOOT}.line_kn_m", None)),
    ("AUD-364", "a lesser load asked", to(f"{ASKED}.line_kn_m", 0.36)),
    ("AUD-365", "an edge that lies higher", by(f"{FOOT}.edge_top_mm", -10.0)),
    ("AUD-365", "a deeper edge", by(f"{FOOT}.edge_depth_mm", 50.0)),
    ("AUD-365", "a washer over the boards", by(f"{FOOT}.upper_bolt_mm", -20.0)),
    ("AUD-365", "a washer below the edge", by(f"{FOOT}.bolts_apart_mm", 20.0)),
    ("AUD-365", "washers on one another", both(
        by(f"{FOOT}.washer_mm", -30.0), by(f"{FOOT}.bolts_apart_mm", -60.0))),
    ("AUD-366", "a moment made smaller", checked(
        NAME, "bending", lambda c: scaled(c, 0.5, "moment_kn_m"))),
    ("AUD-366", "a shear made smaller", checked(
        NAME, "shear", lambda c: scaled(c, 0.9, "shear_kn"))),
    ("AUD-366", "a washer pulled less", checked(
        NAME, "washer bearing", lambda c: less(c, 0.7))),
    ("AUD-366", "a bolt pulled less", checked(NAME, "bolt in tension", lambda c: less(c, 0.7))),
    ("AUD-366", "the hole forgotten", checked(
        NAME, "bending", lambda c: quoting(c, breadth_mm=100.0))),
    ("AUD-366", "a stress that no moment makes", checked(
        NAME, "bending", lambda c: less(c, 0.5))),
    ("AUD-366", "a shear stress that no force makes", checked(
        NAME, "shear", lambda c: less(c, 0.5))),
    ("AUD-366", "washers not looked at", unsaid("washer bearing")),
    ("AUD-367", "a washer that bears double", checked(
        NAME, "washer bearing", lambda c: limited(c, 2.0))),
    ("AUD-367", "a bolt of better steel", checked(
        NAME, "bolt in tension", lambda c: limited(c, 2.0))),
)  # fmt: skip

US_FAULTS: tuple[Fault, ...] = (
    ("AUD-364", "a lesser push in the foot", to(f"{FOOT}.point_kn", 0.5)),
    ("AUD-364", "a lesser push", to(f"{ASKED}.point_kn", 0.5)),
    ("AUD-366", "a lesser moment", checked(
        NAME, "bending", lambda c: scaled(c, 0.9, "moment_kn_m"))),
    ("AUD-366", "the hole forgotten", checked(
        NAME, "bending", lambda c: quoting(c, breadth_less_hole_mm=100.0))),
    ("AUD-366", "a bolt pulled less", checked(NAME, "bolt in tension", lambda c: less(c, 0.7))),
    ("AUD-367", "steel of no A307", checked(
        NAME, "bolt in tension", lambda c: limited(c, 1.5))),
    ("AUD-367", "wood harder than any", checked(
        NAME, "washer bearing", lambda c: limited(c, 3.0))),
)  # fmt: skip


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize("plan", [footed, footed_outline, in_the_us, us_footed])
def test_planned_guard_posts_are_sound(plan: object) -> None:
    assert callable(plan)
    assert found(plan()) == set()


def test_those_told_as_not_screened_are_sound_too() -> None:
    assert found(plan_of("held")) == set()


@pytest.mark.parametrize(("code", "name", "edit"), FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    assert code in found(edit(footed())), name


@pytest.mark.parametrize(("code", "name", "edit"), US_FAULTS, ids=ids)
def test_a_planted_fault_by_the_us_basis_is_caught(code: str, name: str, edit: Edit) -> None:
    assert code in found(edit(in_the_us())), name


def test_every_check_has_its_fault() -> None:
    assert {code for code, *_ in FAULTS} == {code for code, *_ in ROOMS}


def test_a_foot_on_an_outline_is_held_to_its_frame() -> None:
    edit = by(f"{FOOT}.edge_depth_mm", 50.0)
    assert "AUD-365" in found(edit(footed_outline()))


def test_an_answer_of_another_kind_that_is_cautioned_is_let_be() -> None:
    """A basis that says nothing of washers, and a finding that tells it."""
    plan = with_finding("STR-012", NAME)(unsaid("washer bearing")(footed()))
    assert "AUD-366" not in found(plan)


def test_a_washer_off_the_edge_that_stops_is_let_be() -> None:
    plan = with_finding("GRD-012")(by(f"{FOOT}.bolts_apart_mm", 20.0)(footed()))
    assert "AUD-365" not in found(plan)


def test_a_foot_that_nobody_is_asked_about_may_lie_anywhere() -> None:
    plan = asks_nobody(by(f"{FOOT}.bolts_apart_mm", 20.0)(footed()))
    assert "AUD-365" not in found(plan)


def test_a_region_that_is_not_known_here_asks_nothing() -> None:
    plan = to("guards.region", "elsewhere")(to(f"{FOOT}.line_kn_m", 0.1)(footed()))
    assert "AUD-364" not in found(plan)


def test_bolts_and_woods_not_known_here_are_held_to_nothing() -> None:
    doubled = checked(NAME, "bolt in tension", lambda c: limited(c, 2.0))
    assert "AUD-367" not in found(doubled(to(f"{ASKED}.bolt", "a peg")(footed())))
    assert "AUD-367" not in found(doubled(to(f"{ASKED}.bolt", "M12 9.9")(footed())))
    assert "AUD-367" not in found(doubled(to(f"{ASKED}.bolt", "M7 4.6")(footed())))
    softer = checked(NAME, "washer bearing", lambda c: limited(c, 2.0))
    hard = both(to(f"{ASKED}.wood", "D30"), to(f"{ASKED}.edge_wood", "D30"))
    assert "AUD-367" not in found(hard(softer(footed())))


def test_bolts_that_lie_together_are_no_couple_and_no_trouble() -> None:
    """AUD-363 tells that they are not those built; nothing is divided by 0."""
    assert found(to(f"{ASKED}.bolts_mm", 0.0)(footed())) == {"AUD-363"}


def test_diameters_by_what_bolts_are_called() -> None:
    assert [diameter_mm(bolt) for bolt in ("M12 4.6", " m16  A4-70", "5/8 in A307", "peg")] == [
        12.0, 16.0, 15.875, None,
    ]  # fmt: skip
    assert diameter_mm("1/0 in A307") == 25.4


def test_a_couple_by_hand() -> None:
    """1.5 x 0.74 x 0.5 = 0.555 kN at 1.16 m; over 0.08 m 8.0475 kN below and 8.6025 above."""
    asked = GuardPostAsked(
        subject=NAME, wood="C24", section=Section(breadth_mm=100.0, depth_mm=100.0),
        edge_wood="C24", edge=dressed("2x8"), centres_mm=500.0, rail_mm=1160.0, bolts_mm=80.0,
        bolt="M12 4.6", washer_mm=60.0, line_kn_m=0.74, point_kn=0.3,
    )  # fmt: skip
    own = couple_of(asked, 1.5)
    assert (own.moment_kn_m, own.shear_kn, own.upper_kn) == pytest.approx((0.6438, 8.0475, 8.6025))
    assert couple_of(evolve(asked, point_kn=1.0), 1.0).moment_kn_m == pytest.approx(1.16)


SEEN: tuple[Fault, ...] = (
    ("AUD-W98", "another bolt", to(f"{FOOT}.bolt", "M16 4.6")),
    ("AUD-W98", "another washer", to(f"{FOOT}.washer_mm", 50.0)),
    ("AUD-W98", "the upper bolt elsewhere", by(f"{FOOT}.upper_bolt_mm", 2.0)),
    ("AUD-W98", "bolts further apart", by(f"{FOOT}.bolts_apart_mm", 2.0)),
    ("AUD-W98", "posts of another article", to(f"{FOOT}.article", "PT-100-C16")),
    ("AUD-W98", "posts thicker than sold", to(f"{FOOT}.depth_mm", 125.0)),
    ("AUD-W98", "posts of a better class", to(f"{ASKED}.wood", "C30")),
    ("AUD-W98", "an edge of a better class", to(f"{ASKED}.edge_wood", "C30")),
    ("AUD-W98", "nothing told of what the brief tells", to(FOOT, None)),
)


def seen(plan: Plan, witness: Witness) -> set[str]:
    return {each.code for each in audit_plan(plan, witness=witness).findings}


def witness() -> Witness:
    return witness_of(footed(), brief_with(), stock("hobbleden"))


def test_planned_guard_posts_are_sound_before_their_witnesses() -> None:
    assert seen(footed(), witness()) == set()
    own = Witness(brief=outline_brief(), stock=stock("hobbleden"))
    told = seen(footed_outline(), own)
    assert "AUD-W98" not in told
    assert "AUD-W98" in seen(to(f"{FOOT}.bolt", "M16 4.6")(footed_outline()), own)


def test_where_no_guard_is_built_there_is_nothing_to_measure() -> None:
    assert found(to("guards.built", ())(plan_of("held"))) == set()


@pytest.mark.parametrize(("code", "name", "edit"), SEEN, ids=ids)
def test_a_fault_is_caught_before_witnesses(code: str, name: str, edit: Edit) -> None:
    assert code in seen(edit(footed()), witness()), name


def test_a_foot_that_no_brief_tells_of_is_caught() -> None:
    other = witness_of(footed(), brief_with(bolt=None), stock("hobbleden"))
    assert "AUD-W98" in seen(footed(), other)


def test_the_edits_edit_what_they_say() -> None:
    assert at(by(f"{ASKED}.rail_mm", -60.0)(footed()), f"{ASKED}.rail_mm") == 1100.0


def test_bearers_of_another_wood_at_the_edge_are_found() -> None:
    """Where joists hang, bearers close the frame: posts asked with a better wood are found."""
    brief = brief_with()
    plan = designed(evolve(brief, raised=evolve(brief.raised, joists="between")))
    assert plan.buildable
    assert found(plan) == set()
    assert "AUD-363" in found(to("strength.beams[1].wood", "C14")(plan))
