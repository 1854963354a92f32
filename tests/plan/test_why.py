"""Every number of a plan answers for itself."""

from decimal import Decimal

import pytest
from attrs import evolve

import drylay
from drylay.errors import UnknownPathError
from drylay.plan.model import Plan
from drylay.plan.walk import leaves, names_of
from drylay.plan.why import find
from drylay.reasons import Decision, Reasons
from plan.made import plans
from plan.sample import blocked_plan, sample_plan

PLAN = sample_plan(row_length_mm=6000.0, rows=4)

#: Numbers that nobody decides: the file's own version, and what reasons and findings quote. Use
#: classes answer each for itself: the decision stands under its own path.
UNDECIDED = ("schema_version", "reasons", "findings", "fixings.use_classes")


def test_a_decision_answers_for_its_own_path() -> None:
    decision = PLAN.why("supports.centres_mm")
    assert decision.path == "supports.centres_mm"
    assert decision.value == PLAN.supports.centres_mm


@pytest.mark.parametrize(
    ("path", "governed_by"),
    [
        ("frame.joists[3].offset_mm", "supports.line_count"),
        ("frame.joists[J4].offset_mm", "supports.line_count"),
        ("surface.rows[B2].near_mm", "surface.way_out"),
        ("surface.ways_out[gaps along 4].gap_mm", "surface.way_out"),
        ("buying.purchases[boards].lengths[DB3].offcut_mm", "buying.kerf_mm"),
        ("buying.purchases[0].proof", "buying.order_total"),
        ("buying.purchases[0].proof.certificate.bound", "buying.order_total"),
        ("buying.purchases[0].proof.task.stock[0].length", "buying.order_total"),
        ("pieces.joints[B1 J9].centre_mm", "pieces.joint_count"),
    ],
)
def test_a_derived_number_answers_with_its_governor(path: str, governed_by: str) -> None:
    assert PLAN.why(path).path == governed_by


@pytest.mark.parametrize(
    ("path", "nearest"),
    [
        ("supports.centers_mm", "supports.centres_mm"),
        ("frame.joist[3].offset_mm", "frame.joists[3].offset_mm"),
        ("frame.joists[J4].ofset_mm", "frame.joists[J4].offset_mm"),
        ("frame.joists[99].offset_mm", "frame.joists[0].offset_mm"),
        ("surface.rows[2]", "surface.rows[2].near_mm"),
        ("surface.board_article", "surface.board_width_mm"),
        ("frame.joists[3]offset_mm.x", "frame.joists[3].offset_mm"),
    ],
)
def test_an_unknown_path_names_the_nearest(path: str, nearest: str) -> None:
    with pytest.raises(UnknownPathError) as caught:
        PLAN.why(path)
    assert nearest in caught.value.nearest
    assert path in str(caught.value)


@pytest.mark.parametrize("path", ["", "title", ".", "[]", "a[", "frame..joists", "frame.joists."])
def test_nonsense_is_refused_without_more(path: str) -> None:
    with pytest.raises(UnknownPathError):
        PLAN.why(path)


@pytest.mark.parametrize("path", ["title.x", "title[0]", "frame[0]", "frame.joists.mark"])
def test_a_path_through_what_has_no_such_part(path: str) -> None:
    assert find(PLAN, path) is None


def test_a_blocked_plan_has_no_such_path() -> None:
    with pytest.raises(UnknownPathError):
        blocked_plan().why("frame.joists[0].offset_mm")


def test_a_decision_taken_again_answers_as_last_taken() -> None:
    first = PLAN.reasons.decisions[0]
    again = evolve(first, value=99.0)
    plan = evolve(PLAN, reasons=Reasons(decisions=(*PLAN.reasons.decisions, again)))
    assert plan.why(first.path).value == 99.0


def test_names_that_are_not_clear_give_way_to_indices() -> None:
    rows = PLAN.surface.rows
    assert names_of(rows[:2]) == ("B1", "B2")
    assert names_of((rows[0], rows[0])) == ("0", "1")
    assert names_of((evolve(rows[0], mark="[x]"),)) == ("0",)
    assert names_of((evolve(rows[0], mark="7"),)) == ("0",)
    assert names_of(("plain",)) == ("0",)


def held(plan: Plan, decision: Decision) -> object:
    place = find(plan, decision.path)
    assert place is not None, decision.path
    return f"{place.value:f}" if isinstance(place.value, Decimal) else place.value


def test_reasons_and_plan_agree() -> None:
    for plan in plans():
        for decision in plan.reasons.decisions:
            assert held(plan, decision) == decision.value, decision.path


def ungoverned(plan: Plan) -> list[str]:
    taken = {decision.path for decision in plan.reasons.decisions}
    return [
        leaf.path
        for leaf in leaves(plan)
        if isinstance(leaf.value, int | float | Decimal)
        and not isinstance(leaf.value, bool)
        and not leaf.path.startswith(UNDECIDED)
        and leaf.governed_by not in taken
    ]


def test_every_number_of_a_plan_is_governed_by_a_decision_taken() -> None:
    for plan in plans():
        if plan.buildable:
            assert ungoverned(plan) == []


def test_that_check_sees_a_decision_left_out() -> None:
    kept = tuple(d for d in PLAN.reasons.decisions if d.path != "supports.line_count")
    plan = evolve(PLAN, reasons=Reasons(decisions=kept))
    assert "frame.joists[0].offset_mm" in ungoverned(plan)
    assert ungoverned(PLAN) == []


def test_a_plan_is_asked_through_its_own_method() -> None:
    assert isinstance(PLAN.why("surface.way_out"), drylay.Decision)
