"""Planned decks that stand are sound before their witnesses; each witnessed check has failed."""

import pytest
from attrs import evolve

from audit.planting import Edit, Fault, both, by, finding, to
from audit.standing_real import free, on_ledger
from audit.standing_sample import standing_plan
from drylay.audit.closed import audit_plan
from drylay.audit.flaws import need
from drylay.audit.model import Witness
from drylay.audit.standing_seen import CHECKS
from drylay.brief.raised_model import GuardsWish
from drylay.findings import Severity
from drylay.guards.model import GuardFoot
from drylay.strength.model import BoardAsked, Section

CODES = {code for code, *_ in CHECKS}
F, ST = "raised.frame", "steps"
BOARD = BoardAsked(
    subject="boards", wood="C24", section=Section(breadth_mm=145.0, depth_mm=28.0),
    bay_mm=393.5, bays=2,
)  # fmt: skip

FOOT = GuardFoot(
    article="PT-100-C24", breadth_mm=80.0, depth_mm=100.0, bolt="M12 4.6", washer_mm=60.0,
    upper_bolt_mm=60.0, bolts_apart_mm=80.0, edge_top_mm=28.0, edge_depth_mm=145.0,
    line_kn_m=0.74, point_kn=None,
)  # fmt: skip

LEDGER: tuple[Fault, ...] = (
    ("AUD-W59", "no deck that stands, against the brief", to("raised", None)),
    ("AUD-W46", "posts of another timber", to("raised.post_article", "PT-100-C16")),
    ("AUD-W46", "a bearer of another timber", to("raised.bearer_article", "BT-47-220")),
    ("AUD-W46", "another wall", to(f"{F}.ledger.wall", "solid masonry")),
    ("AUD-W46", "another fixing", to("raised.ledger_fixing", "nail")),
    ("AUD-W46", "fixings further apart than wished", to(f"{F}.ledger.spacing_most_mm", 600.0)),
    ("AUD-W46", "braces over another height", to("raised.brace_over_mm", 1500.0)),
    ("AUD-W46", "posts on another foot", to(f"{F}.heights.stand_off_mm", 50.0)),
    ("AUD-W46", "feet of another article", to("raised.foot_article", "PF-9")),
    ("AUD-W48", "a bearer broader than sold", to(f"{F}.bearers[0].section.breadth_mm", 60.0)),
    ("AUD-W48", "a post deeper than sold", to(f"{F}.posts[0].section.depth_mm", 120.0)),
    ("AUD-W49", "joists of a better class", to("strength.beams[0].wood", "C30")),
    ("AUD-W49", "a post of a better class", to("strength.posts[0].wood", "C30")),
    ("AUD-W49", "a ledger of a better class", to("strength.ledgers[0].wood", "C30")),
    ("AUD-W49", "boards of a class nobody told", to("strength.boards", (BOARD,))),
    ("AUD-W49", "held down by more than is told", to("strength.beams[1].hold_down_kn", 50.0)),
    ("AUD-W50", "another basis", to("strength.basis", "us-allowable-stress")),
    ("AUD-W50", "another use", to("strength.use", "balcony")),
    ("AUD-W59", "nothing screened", to("strength", None)),
    ("AUD-W50", "a point load shared", to("strength.beams[0].sharing", "stated 0.4 by nobody")),
    ("AUD-W55", "a post on higher ground", by(f"{F}.posts[3].ground_mm", 10.0)),
    ("AUD-W56", "footings of another kind", to("footings.kind", "pad")),
    ("AUD-W56", "footings on another soil", to("footings.soil", "gravel")),
    ("AUD-W56", "a soil assumed that was named", to("footings.soil_named", False)),
    ("AUD-W56", "footings above the frost", to("footings.frost_mm", 300.0)),
    ("AUD-W57", "another region", to("guards.region", "australia")),
    ("AUD-W57", "a lower guard", to("guards.height_mm", 1100.0)),
    ("AUD-W57", "posts further apart than wished", to("guards.post_spacing_most_mm", 1500.0)),
    ("AUD-W57", "posts as far apart as anybody likes", to("guards.post_spacing_most_mm", None)),
    ("AUD-W57", "other posts", to("guards.built[0].post_mm", 90.0)),
    ("AUD-W57", "other balusters", to("guards.built[0].bays[0].thickness_mm", 40.0)),
    ("AUD-W57", "rails nobody wished", to("guards.built[0].bays[0].kind", "rails")),
    ("AUD-W57", "higher ground beside the deck", by("guards.facets[0].corners[0].level_mm", 100.0)),
    ("AUD-W58", "steps down another side", to(f"{ST}.side", "left")),
    ("AUD-W58", "steps of another region", to(f"{ST}.region", "australia")),
    ("AUD-W58", "steps elsewhere", by(f"{ST}.from_mm", 10.0)),
    ("AUD-W58", "narrower steps", by(f"{ST}.width_mm", -10.0)),
    ("AUD-W58", "thinner treads", by(f"{ST}.tread_mm", -10.0)),
    ("AUD-W58", "another going", by(f"{ST}.flight.going_mm", -10.0)),
    ("AUD-W58", "a riser more", by(f"{ST}.risers", 1)),
    ("AUD-W59", "no steps, against the brief", to("steps", None)),
    ("AUD-W98", "posts of guards held by what no brief tells", to("guards.foot", FOOT)),
)  # fmt: skip

FREE: tuple[Fault, ...] = (
    ("AUD-W46", "fewer plies", to(f"{F}.bearers[0].section.plies", 1)),
    ("AUD-W46", "posts less deep in concrete", to(f"{F}.heights.embed_mm", 200.0)),
    ("AUD-W47", "a line elsewhere", by(f"{F}.bearers[1].across_mm", 10.0)),
    ("AUD-W56", "another mix", to("footings.mix_article", "CO-POST")),
    ("AUD-W56", "square holes", to("footings.shape", "square")),
)


def seen(edit: Edit | None, *, ledger: bool, witness: Witness | None = None) -> set[str]:
    plan, own = on_ledger() if ledger else free()
    report = audit_plan(edit(plan) if edit else plan, witness=witness or own)
    troubled = {f.subject for f in report.findings if f.code == "AUD-000"} & CODES
    assert not troubled, [f.message for f in report.findings if f.subject in troubled]
    return {f.code for f in report.findings}


@pytest.mark.parametrize("ledger", [True, False])
def test_planned_decks_that_stand_are_sound(ledger: bool) -> None:
    plan, _ = on_ledger() if ledger else free()
    assert plan.buildable
    assert plan.raised is not None
    assert (plan.raised.frame.ledger is not None) is ledger
    assert seen(None, ledger=ledger) == set()
    assert audit_plan(plan).findings == ()


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "edit"), LEDGER, ids=ids)
def test_a_fault_on_a_ledger_is_caught_before_witnesses(code: str, name: str, edit: Edit) -> None:
    assert code in seen(edit, ledger=True), name


@pytest.mark.parametrize(("code", "name", "edit"), FREE, ids=ids)
def test_a_fault_of_a_free_deck_is_caught_before_witnesses(
    code: str, name: str, edit: Edit
) -> None:
    assert code in seen(edit, ledger=False), name


def test_every_witnessed_check_has_its_fault() -> None:
    between = {"AUD-W99"}  # joists hung between bearers: test_standing_hung.py
    assert {code for code, *_ in (*LEDGER, *FREE)} | between == CODES


def wishing(ledger: bool, path: str, value: object) -> Witness:
    _, witness = on_ledger() if ledger else free()
    assert witness.brief is not None
    return evolve(witness, brief=witness.brief.replace(path, value))


def test_posts_stand_where_the_brief_puts_them() -> None:
    witness = wishing(False, "raised.posts_mm", [300.0, 3000.0, 5600.0])
    assert "AUD-W47" in seen(None, ledger=False, witness=witness)


def test_a_ledger_that_nobody_wishes_is_told() -> None:
    _, witness = on_ledger()
    assert witness.brief is not None
    raised = evolve(witness.brief.raised, ledger=False)
    against = evolve(witness, brief=evolve(witness.brief, raised=raised))
    assert "AUD-W46" in seen(None, ledger=True, witness=against)


def test_a_sharing_wished_is_held_to() -> None:
    witness = wishing(False, "strength.sharing", "stated 0.5 by A. Nobody")
    assert "AUD-W50" in seen(None, ledger=False, witness=witness)


def test_a_stopped_plan_may_lack_what_was_wished() -> None:
    gone = (to("raised", None), to("strength", None), to("steps", None))
    blocked = both(to("findings", (finding(severity=Severity.STOP),)), *gone)
    assert not seen(blocked, ledger=True) & CODES


def test_ground_screws_stand_for_footings_where_their_capacity_is_told() -> None:
    plan = evolve(standing_plan(), footings=None)
    told = finding(subject="ground screw", measured=20.0, limit=25.0, unit="kN")
    codes = {f.code for f in audit_plan(plan).findings}
    assert "AUD-328" in codes
    borne = evolve(plan, findings=(*plan.findings, told))
    assert "AUD-328" not in {f.code for f in audit_plan(borne).findings}


def test_what_a_brief_leaves_open_is_held_to_nothing() -> None:
    """Only the soil is: the plan says that the brief named one."""
    _, own = on_ledger()
    brief = need(own.brief, "brief")
    open_brief = evolve(
        brief,
        raised=evolve(brief.raised, bearer=None, ledger_fixing=None, ledger_spacing_mm=None),
        site=evolve(brief.site, soil=None),
        guards=GuardsWish(infill=brief.guards.infill),
        steps=evolve(brief.steps, going_mm=None, risers=None),
    )
    found = seen(None, ledger=True, witness=evolve(own, brief=open_brief))
    assert found & CODES == {"AUD-W56"}


def test_places_of_boards_that_run_across_are_turned() -> None:
    """The ground under posts is another where the axes are taken the other way round."""
    assert "AUD-W55" in seen(to("surface.run", "across"), ledger=True)
