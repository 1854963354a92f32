"""Joists hung between bearers: real decks are sound, and each check of theirs has been seen red."""

from collections.abc import Callable
from functools import cache

import pytest
from attrs import evolve

from audit.edits import put
from audit.planting import Edit, both, by, finding, to, without
from audit.real import stock, witness_of
from drylay.audit.closed import CLOSED, audit_plan
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.model import Witness
from drylay.audit.standing_seen import CHECKS as SEEN
from drylay.findings import Severity
from drylay.plan.codec import plan_from_json, plan_to_json
from drylay.plan.model import Plan
from drylay.raised.model import PlyJoint
from standing_decks import brief_of, plan_of

HUNG = ("hung", "hung free", "tall hung", "hung faced")


def jointed(at_mm: float) -> Edit:
    """Return an edit that joints the second bearer's first ply there."""
    return to("raised.frame.bearers[1].joints", (PlyJoint(ply=1, post=3, at_mm=at_mm),))


#: Plan, code, what is wrong, edit.
FAULTS: tuple[tuple[str, str, str, Edit], ...] = (
    ("hung", "AUD-502", "a joist short of the bearer", by("frame.joists[2].length_mm", -1.0)),
    ("hung", "AUD-504", "a bearer told a rim", to("frame.rims[1].mark", "RB")),
    ("hung free", "AUD-504", "no bearer at the edge", by("raised.frame.bearers[0].across_mm", 5.0)),
    ("hung free", "AUD-504", "a rim before the frame", by("frame.rims[0].near_mm", -5.0)),
    ("hung", "AUD-505", "a bearer in pieces of a rim", lambda plan: put(
        plan, "frame.rims[1].pieces", plan.frame.rims[0].pieces)),  # type: ignore[union-attr]
    ("hung", "AUD-517", "a part sawn short", by("frame.joists[3].parts[1].length_mm", -1.0)),
    ("hung", "AUD-517", "a part in the bearer", by("frame.joists[3].parts[1].near_mm", -1.0)),
    ("hung", "AUD-517", "a part left out", without("frame.joists[3].parts", 1)),
    ("hung", "AUD-517", "another mark", to("frame.joists[3].parts[0].mark", "J9.1")),
    ("held", "AUD-517", "joists over bearers in parts", lambda plan: put(
        plan, "frame.joists[0].parts", plan_of("hung").frame.joists[0].parts)),  # type: ignore[union-attr]
    ("hung", "AUD-607", "coach screws beside hangers", by("fixings.coach_screws.joist_ends", 4)),
    ("hung", "AUD-628", "no hangers at the outer two", by("fixings.hangers.count", -8)),
    ("hung", "AUD-311", "joists over the bearers", to("raised.frame.heights.joist_over_mm", 145.0)),
    ("hung", "AUD-318", "spans told centre to centre", by("raised.joist_span_mm", 45.0)),
    ("hung", "AUD-319", "as if joists ran on", by("raised.frame.bearers[0].carried_mm", 300.0)),
    ("hung", "AUD-319", "less than its bays bring", by("raised.frame.bearers[1].carried_mm", -1.0)),
    ("hung", "AUD-331", "asked as if they ran on", to("strength.beams[0].supports_mm",
                                                     (0.0, 1605.0, 3232.5))),
    ("tall hung", "AUD-324", "a brace through the bearer before it",
     by("raised.frame.bracing.braces[14].hand", 2)),
    ("hung", "AUD-369", "neither over nor between", to("raised.joists", "beside")),
    ("held", "AUD-369", "hangers where joists lie over", to("raised.hanger_kn", 1.0)),
    ("hung", "AUD-369", "a bearer shallower than its joists",
     by("raised.frame.bearers[1].section.depth_mm", -25.0)),
    ("hung", "AUD-375", "half of what comes down", by("raised.hanger_kn", -1.0)),
    ("hung", "AUD-375", "told by no finding", to("findings", ())),
    ("hung", "AUD-379", "a post in another", to("raised.frame.posts[1].place.along_mm", 350.0)),
    ("hung", "AUD-379", "a bearer's posts in the next one's", to(
        "raised.frame.posts[4].place.across_mm", 1700.0)),
    ("hung", "AUD-380", "no room for hangers", to("raised.frame.bearers[0].across_mm", 3200.0)),
    ("hung", "AUD-381", "a hanger over the only ply's joint", jointed(2290.0)),
    ("hung", "AUD-381", "two plies jointed under a hanger, untold", both(
        to("raised.frame.bearers[1].section.plies", 2), jointed(2230.0))),
    ("hung", "AUD-381", "told of joints there are none of", to(
        "findings", (finding(code="RSD-022", measured=1.0, unit="mm"),))),
    ("hung", "AUD-382", "a pad in the next one", to(
        "footings.under[1].footing.size_mm", 9000.0)),
    ("hung", "AUD-382", "round ones that meet", both(
        to("footings.under[0].footing.shape", "round"), both(
            to("footings.under[1].footing.shape", "round"),
            to("footings.under[1].footing.size_mm", 9000.0)))),
    ("hung", "AUD-382", "stopped for nothing", to("findings", (
        finding(code="FTG-011", severity=Severity.STOP),))),
    ("tall hung", "AUD-624", "a fascia screw at a ply's joint", lambda plan: put(
        plan, "raised.frame.bearers[2].joints", tuple(
            PlyJoint(ply=1, post=1, at_mm=float(at)) for at in range(100, 4100, 50)))),
)  # fmt: skip


def codes(plan: Plan) -> set[str]:
    found = set()
    for code, _, check in CLOSED:
        try:
            found |= {code for _ in check(plan)}
        except NothingToMeasure:
            continue
    return found


@cache
def witness(name: str) -> Witness:
    return witness_of(plan_of(name), brief_of(name), stock("hobbleden"))


def stops(plan: Plan, by_whom: Witness) -> list[str]:
    found = audit_plan(plan, witness=by_whom).findings
    return [str(each) for each in found if each.severity is Severity.STOP]


def seen(plan: Plan, by_whom: Witness) -> set[str]:
    found = set()
    for code, _, check in SEEN:
        try:
            found |= {code for _ in check(plan, by_whom)}
        except NothingToMeasure:
            continue
    return found


@pytest.mark.parametrize("name", HUNG)
def test_hung_decks_are_sound_and_read_back(name: str) -> None:
    plan = plan_of(name)
    assert plan.buildable
    assert not [each for each in audit_plan(plan).findings if each.severity is Severity.STOP]
    assert stops(plan, witness(name)) == []
    assert plan_from_json(plan_to_json(plan)) == plan


@pytest.mark.parametrize(("name", "code", "told", "edit"), FAULTS)
def test_each_fault_is_found(name: str, code: str, told: str, edit: Callable[[Plan], Plan]) -> None:
    assert code in codes(edit(plan_of(name))), told


def test_what_is_told_of_joints_under_hangers_is_sound() -> None:
    """J7 stands at 2288.5; a joint at 2230 is 58.5 off, under 22.5 + 40; at 2350.5 it is clear."""
    two = to("raised.frame.bearers[1].section.plies", 2)
    note = finding(code="RSD-022", measured=58.5, limit=62.5, unit="mm")
    told = both(two, jointed(2230.0), to("findings", (note,)))(plan_of("hung"))
    assert "AUD-381" not in codes(told)
    clear = both(two, jointed(2351.0))(plan_of("hung"))
    assert "AUD-381" not in codes(clear)
    three = to("raised.frame.bearers[1].section.plies", 3)
    inner = to("raised.frame.bearers[1].joints", (PlyJoint(ply=2, post=3, at_mm=2290.0),))
    assert "AUD-381" not in codes(both(three, inner)(plan_of("hung")))
    assert "AUD-381" in codes(both(three, jointed(2290.0))(plan_of("hung")))


def test_no_bearers_leave_nothing_to_measure_the_frame_by() -> None:
    plan = put(plan_of("hung free"), "raised.frame.bearers", ())
    told = {each.code for each in audit_plan(plan).findings}
    assert {"AUD-321", "AUD-517"} <= told | {each.code for each in audit_plan(plan).not_run}


def test_the_wish_is_kept() -> None:
    assert "AUD-W46" in seen(to("raised.joists", "over")(plan_of("hung")), witness("hung"))
    assert "AUD-W46" in seen(plan_of("hung free"), witness("held"))


def test_no_heads_are_sunk_where_no_coach_screws_are() -> None:
    sunk = to("fixings.coach_screws.sink_mm", 12.0)(plan_of("hung faced"))
    assert any("AUD-W09 fixings.coach_screws.sink_mm" in told
               for told in stops(sunk, witness("hung faced")))  # fmt: skip


def declared(capacity_kn: float) -> Witness:
    """Return the witness of the hung deck, its hanger declared for a load."""
    sold = stock("hobbleden")
    hangers = tuple(evolve(each, capacity_kn=capacity_kn) for each in sold.hangers)
    return evolve(witness("hung"), stock=evolve(sold, hangers=hangers))


def test_what_is_declared_for_hangers_is_held_against_their_load() -> None:
    plan = plan_of("hung")
    assert "AUD-W99" in seen(plan, declared(5.0))  # its finding has no limit
    found = next(each for each in plan.findings if each.code == "RSD-018")
    limited = evolve(plan, findings=(evolve(found, limit=2.0),))
    assert "AUD-W99" in seen(limited, declared(2.0))  # 2.13 kN come down, and nothing stops it
    stopped = both(to("findings", (finding(severity=Severity.STOP), evolve(found, limit=2.0))))
    assert "AUD-W99" not in seen(stopped(plan), declared(2.0))
