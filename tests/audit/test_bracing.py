"""Braces that face each other in one bay: sound as planned, and each fault seen to be told."""

from functools import cache

import pytest

import drylay
from audit.edits import at, put
from drylay.audit.closed import audit_plan
from drylay.audit.raised_held import high_posts_are_braced
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.raised.model import Brace
from standing_decks import plan_of
from standing_outlines import BEARER, YARD, L, sections

BRACES = "raised.frame.bracing.braces"


@cache
def tall_l(*, ledger: bool) -> Plan:
    """Return an L whose posts are all high: PO2 stands on joists that end where the L steps back.

    Those reach to 2100 over a bearer at 1798.5, or 1831.5 where the deck stands free: less than a
    leg of 300 beyond its post, whereas joists reach to 3600 under the rest.
    """
    wish = {} if ledger else {"ledger": False}
    data = sections(L, ground=(-1130.0, 0.0, 0.0), bearer=BEARER, plies=2, brace_over_mm=300,
                    **wish)  # fmt: skip
    return drylay.design(drylay.read_brief(data), stock=YARD)


def told(plan: Plan) -> set[str]:
    """Return the posts that AUD-324 speaks of."""
    return {flaw.subject for flaw in high_posts_are_braced(plan)}


def with_brace(plan: Plan, post: str, way: str, hand: int) -> Plan:
    braces: tuple[Brace, ...] = at(plan, BRACES)  # type: ignore[assignment]
    leg = braces[0].leg_mm
    more = Brace(mark="K99", post=post, way=way, hand=hand, leg_mm=leg,
                 length_mm=braces[0].length_mm)  # fmt: skip
    return put(plan, BRACES, (*braces, more))


def without_brace(plan: Plan, post: str, way: str, hand: int) -> Plan:
    braces: tuple[Brace, ...] = at(plan, BRACES)  # type: ignore[assignment]
    left = tuple(b for b in braces if (b.post, b.way, b.hand) != (post, way, hand))
    assert len(left) == len(braces) - 1
    return put(plan, BRACES, left)


def test_one_brace_in_a_bay_with_no_room_for_two_is_sound() -> None:
    plan = plan_of("close")
    assert plan.buildable
    assert audit_plan(plan).sound


def test_braces_that_cross_in_one_bay() -> None:
    # 700 between the faces of PO1 and PO3: less than twice 500
    assert told(with_brace(plan_of("close"), "PO3", "across", -1)) == {"PO1", "PO3"}


def test_a_bay_left_empty() -> None:
    # both posts have room now, and PO1 has no brace across at all
    assert told(without_brace(plan_of("close"), "PO1", "across", 1)) == {"PO1", "PO3"}


def test_a_bay_given_to_the_post_that_has_one() -> None:
    plan = without_brace(plan_of("close"), "PO1", "across", 1)
    assert told(with_brace(plan, "PO3", "across", -1)) == {"PO1"}


@pytest.mark.parametrize("ledger", [True, False])
def test_high_posts_on_an_outline_are_sound_where_joists_end_before_others(ledger: bool) -> None:
    plan = tall_l(ledger=ledger)
    assert plan.raised is not None
    braces = plan.raised.frame.bracing.braces
    assert braces
    assert plan.buildable
    assert not told(plan)


def test_a_brace_on_an_outline_to_a_joist_that_ends() -> None:
    assert told(with_brace(tall_l(ledger=True), "PO2", "across", 1)) == {"PO2"}


def test_a_brace_on_an_outline_left_out() -> None:
    assert told(without_brace(tall_l(ledger=True), "PO1", "across", 1)) == {"PO1"}


def test_braces_on_an_outline_that_cross() -> None:
    # PO3 put beside PO1, 400 from face to face: less than twice 300
    spot = Spot(along_mm=700.0, across_mm=2298.5)
    assert {"PO1", "PO3"} <= told(put(tall_l(ledger=True), "raised.frame.posts[2].place", spot))


def test_no_joist_on_a_bearer_is_no_room() -> None:
    plan = put(tall_l(ledger=True), "raised.frame.bearers[0].across_mm", 100000.0)
    assert {"PO1", "PO2"} <= told(plan)
