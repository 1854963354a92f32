"""Checks of decks that stand on outlines: sound as planned, and each has been seen to fail."""

import pytest
from attrs import evolve

from audit.edits import change, drop, put
from drylay.audit.closed import audit_plan
from drylay.audit.outlined_stands import CHECKS
from drylay.plan.model import Plan
from standing_outlines import planned

OURS = {code for code, *_ in CHECKS}
BEARER, POST = "raised.frame.bearers[0]", "raised.frame.posts[0]"


def codes(plan: Plan) -> set[str]:
    report = audit_plan(plan)
    troubled = [f.message for f in report.findings if f.code == "AUD-000" and f.subject in OURS]
    assert not troubled
    return {finding.code for finding in report.findings} & OURS


@pytest.mark.parametrize("name", ["L", "hatch", "free", "across"])
def test_decks_that_stand_on_outlines_are_sound(name: str) -> None:
    plan = planned(name)
    assert not codes(plan)
    assert not OURS & {check.code for check in audit_plan(plan).not_run}


def joists_alone(plan: Plan) -> Plan:
    """Return a plan whose joists were all asked about as shorter than they span."""
    assert plan.strength is not None
    for number, beam in enumerate(plan.strength.beams):
        if beam.kind == "joist":
            plan = put(plan, f"strength.beams[{number}].supports_mm", (0.0, 100.0))
            plan = put(plan, f"strength.beams[{number}].length_mm", 100.0)
    return plan


def with_way(plan: Plan, start: float, end: float) -> Plan:
    """Return a plan whose way through guards lies so on its edge."""
    assert plan.guards is not None
    at = next(n for n, edge in enumerate(plan.guards.edges) if edge.passages)
    plan = put(plan, f"guards.edges[{at}].passages[0].from_mm", start)
    return put(plan, f"guards.edges[{at}].passages[0].to_mm", end)


def test_a_bearer_out_of_the_outline() -> None:
    assert "AUD-370" in codes(put(planned("L"), f"{BEARER}.start_mm", -100.0))


def test_a_post_in_an_opening() -> None:
    """The hatch's middle is at 1300, 1500."""
    plan = put(planned("hatch"), f"{POST}.place.along_mm", 1300.0)
    assert "AUD-370" in codes(put(plan, f"{POST}.place.across_mm", 1500.0))


def test_a_bearer_taken_away() -> None:
    """Where no house holds them joists are left on one bearer, or reach too far."""
    plan = planned("free")
    assert plan.raised is not None
    while len(plan.raised.frame.bearers) > 1:
        plan = drop(plan, "raised.frame.bearers", 0)
        assert plan.raised is not None
        assert "AUD-371" in codes(plan)


def test_spans_told_too_narrow() -> None:
    assert "AUD-371" in codes(put(planned("L"), "raised.joist_span_mm", 100.0))


def test_joists_screened_shorter_than_they_span() -> None:
    assert "AUD-371" in codes(joists_alone(planned("L")))


def test_a_bearer_that_tells_less_than_it_carries() -> None:
    assert "AUD-372" in codes(put(planned("across"), f"{BEARER}.carried_mm", 100.0))


@pytest.mark.parametrize(
    ("path", "value"),
    [("mark", "E9"), ("start.along_mm", 5.0), ("kind", "open"), ("top_mm", 0.0)],
)
def test_an_edge_that_is_not_its_side(path: str, value: object) -> None:
    assert "AUD-373" in codes(put(planned("L"), f"guards.edges[0].{path}", value))


def test_an_edge_left_out() -> None:
    assert "AUD-373" in codes(drop(planned("L"), "guards.edges", 5))


def test_edges_of_a_deck_without_levels() -> None:
    """Nothing says how high they are: their tops are not looked at."""
    plan = change(planned("L"), "guards.edges[0].top_mm", lambda _old: 0.0)
    assert "AUD-373" not in codes(evolve(plan, site=None))


def test_ways_through_without_steps() -> None:
    assert "AUD-374" in codes(evolve(planned("L"), steps=None))


def test_ways_through_that_are_wider_or_off_their_side() -> None:
    assert "AUD-374" in codes(with_way(planned("L"), 100.0, 2300.0))
    assert "AUD-374" in codes(with_way(planned("L"), 2000.0, 3200.0))
