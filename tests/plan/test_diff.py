"""Two plans compared."""

import re
from decimal import Decimal
from itertools import pairwise

import pytest
from attrs import evolve, fields
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from audit.outlined_tile_decks import outlined_tiles
from drylay.correcting.model import Laid, Tolerances
from drylay.groundwork.model import Groundwork
from drylay.plan.diff import diff
from drylay.plan.diff_model import PlanDiff
from drylay.plan.model import LocalRuleUsed, Plan
from drylay.plan.walk import names_of
from drylay.reasons import Reasons
from drylay.site.model import Site
from drylay.tiling.model import Tiling
from drylay.work.model import SettingOut, Work
from papers.outlined_sample import POST, RECTANGLE, outlined_plan
from plan.made import example, plans
from plan.sample import blocked_plan, sample_plan
from plan.standing_sample import standing_plan

A = sample_plan()
CASES = [
    A,
    sample_plan(row_length_mm=6000.0, rows=5),
    sample_plan(run="across", sides=()),
    sample_plan(row_length_mm=4000.0, most_mm=350.0, noggin_rows=2),
    sample_plan(title="Another"),
    blocked_plan(),
    standing_plan(),
]
some = st.sampled_from(CASES)


def mirrored(found: PlanDiff) -> PlanDiff:
    return evolve(
        found,
        changes=tuple(
            evolve(c, old=c.new, new=c.old, old_reason=c.new_reason, new_reason=c.old_reason)
            for c in found.changes
        ),
        added=found.removed,
        removed=found.added,
        reasons=tuple(evolve(c, old=c.new, new=c.old) for c in found.reasons),
        findings_added=found.findings_removed,
        findings_removed=found.findings_added,
        cost_old=found.cost_new,
        cost_new=found.cost_old,
        cost_change=None if found.cost_change is None else -found.cost_change,
    )


@settings(deadline=None)
@given(some)
def test_a_plan_does_not_differ_from_itself(plan: Plan) -> None:
    assert diff(plan, plan).empty
    assert str(diff(plan, plan)) == "no difference"


@settings(deadline=None)
@given(some, some)
def test_the_other_way_round_is_the_mirror(one: Plan, other: Plan) -> None:
    assert diff(other, one) == mirrored(diff(one, other))


@settings(deadline=None)
@given(some, some)
def test_nothing_differs_only_where_the_plans_are_equal(one: Plan, other: Plan) -> None:
    assert diff(one, other).empty == (one == other)


def test_designed_plans_obey_the_same_laws() -> None:
    made = plans()
    for one, other in pairwise(made):
        assert diff(one, one).empty
        assert diff(other, one) == mirrored(diff(one, other))
        assert str(diff(one, other))


def test_parts_are_matched_by_mark_not_by_place() -> None:
    joists = A.frame.joists
    fewer = evolve(A, frame=evolve(A.frame, joists=joists[1:]))
    assert diff(A, fewer).removed == ("frame.joists[J1]",)
    assert diff(A, fewer).changes == ()
    assert diff(fewer, A).added == ("frame.joists[J1]",)


def test_the_same_parts_in_another_order_are_a_change() -> None:
    turned = evolve(A, frame=evolve(A.frame, rims=A.frame.rims[::-1]))
    (change,) = diff(A, turned).changes
    assert (change.path, change.unit) == ("frame.rims", "order")
    assert (change.old, change.new) == ("RA, RB", "RB, RA")


def test_parts_without_clear_marks_are_matched_by_place() -> None:
    lines = A.supports.lines
    moved = evolve(
        A, supports=evolve(A.supports, lines=(*lines[:-1], evolve(lines[-1], offset_mm=9.0)))
    )
    (change,) = diff(A, moved).changes
    assert change.path == f"supports.lines[{len(lines) - 1}].offset_mm"
    assert change.unit == "mm"
    assert change.new == 9.0
    assert change.new_reason is not None
    assert change.new_reason.path == "supports.line_count"


def test_a_change_carries_unit_and_reasons_of_both_sides() -> None:
    loose = evolve(A, buying=evolve(A.buying, kerf_mm=3.0, total=Decimal("1.00")))
    kerf, total = diff(A, loose).changes
    assert (kerf.path, kerf.unit, kerf.old, kerf.new) == ("buying.kerf_mm", "mm", 4.0, 3.0)
    assert kerf.old_reason == A.why("buying.kerf_mm")
    assert (total.unit, total.new) == ("EUR", Decimal("1.00"))
    assert diff(A, loose).cost_change == Decimal("1.00") - A.buying.total


def test_a_rule_that_met_another_limit_tells_the_unit_beside_it() -> None:
    way = A.surface.ways_out[0]
    rule = evolve(way.rules[0], limit=9.0)
    ways = (evolve(way, rules=(rule,)), A.surface.ways_out[1])
    (change,) = diff(A, evolve(A, surface=evolve(A.surface, ways_out=ways))).changes
    assert change.path == "surface.ways_out[gaps along 4].rules[gap_most_mm].limit"
    assert change.unit == "mm"


def test_a_changed_proof_is_one_change() -> None:
    first, *rest = A.buying.purchases
    proof = evolve(first.proof, objective=7)
    purchases = (evolve(first, proof=proof), *rest)
    (change,) = diff(A, evolve(A, buying=evolve(A.buying, purchases=purchases))).changes
    assert change.path == "buying.purchases[boards].proof"
    assert str(change.old).startswith("proof ")


def test_findings_are_told_apart() -> None:
    found = diff(A, blocked_plan())
    assert [f.code for f in found.findings_added] == ["FAM-001"]
    assert [f.code for f in found.findings_removed] == ["ROW-001"]
    assert found.cost_new is None
    assert found.cost_change is None
    assert "buying" in found.removed
    assert "total: 4" in str(found)
    assert "to none EUR" in str(found)
    assert "not decided any more: buying.end_trim_mm" in str(found)


def test_a_rule_that_changed_without_its_number_is_told() -> None:
    first, *rest = A.reasons.decisions
    source = evolve(first.source, title="second edition")
    other = evolve(A, reasons=Reasons(decisions=(evolve(first, source=source), *rest)))
    found = diff(A, other)
    assert found.changes == ()
    (change,) = found.reasons
    assert change.path == first.path
    text = str(found)
    assert "(no change)" in text
    assert "now 5.0 mm" in text
    assert "second edition" in text


def test_the_text_names_what_is_new_and_counts_what_it_leaves_out() -> None:
    text = str(diff(A, CASES[1]))
    assert text.startswith(f"total: {A.buying.total:f} to ")
    assert "because of supports.line_count:" in text
    assert "more" in text
    assert "added: " in text
    assert "without a decision of its own:" in text
    assert "newly decided" in str(diff(blocked_plan(), A))


def test_a_value_that_is_none_is_told_as_none() -> None:
    capped = evolve(A, pieces=evolve(A.pieces, most_joints_per_row=1))
    assert "pieces.most_joints_per_row: none to 1" in str(diff(A, capped))


SITE = Site(exposure="coast", wall_gap_mm=10.0, levels=None)
LOCAL = (LocalRuleUsed(name="quarl", package="drylay-quarl", version="1"),)
WORK = Work(
    face_up="smooth", people=1, tasks=(), tools=(), holds=0, lighting=None, least_h=1.0, most_h=2.0,
    setting_out=SettingOut(pegs=(), leg_along_mm=3.0, leg_across_mm=4.0, slant_mm=5.0,
                           accepted_mm=5.0),
)  # fmt: skip
TILING = Tiling(
    support="pads", run="along", tile_length_mm=600.0, least_cut_mm=200.0, cover_change_mm=0.0,
    diagonal_mm=848.6, whole_columns=1, remainder_mm=0.0, strip_mm=0.0, way_out="as_wished",
    columns=(), ways_out=(), other=None, places=1, whole=1, cut=0, cut_tiles=(), along_each=1,
    across_each=1, sawn=(), need=1, least=1, density_kg_m3=2350.0, tile_mass_kg=17.0,
    mass_kg_m2=47.3, dead_load_kn_m2=0.47, bedding=None, pads=None,
)  # fmt: skip

LAID = Laid(
    target_mm=900.0, row_length_mm=5000.0, most_change_mm=1.5, step_mm=0.5, board_takes="plan",
    rows_laid=2, readings=(), rows=(), checks=(3,),
    tolerances=Tolerances(width_mm=0.6, batch_mm=0.6, gap_mm=0.1, spacer_mm=0.0, tape_mm=0.3),
)  # fmt: skip

OUTLINED = outlined_plan(RECTANGLE, holes=(POST,))
STANDING = standing_plan()
#: The rooms of a deck that stands.
STOOD = ("raised", "strength", "footings", "guards", "steps")


@pytest.mark.parametrize("name", [field.name for field in fields(Plan)])
def test_no_part_of_a_plan_is_overlooked(name: str) -> None:
    other = sample_plan(row_length_mm=5000.0, rows=7, run="across", units="imperial", sides=())
    other = evolve(other, schema_version=99, drylay_version="9", title="B", use="public",
                   digests=evolve(A.digests, brief="c" * 64), families=(), findings=(),
                   cautions=(), not_checked=(), local_rules=LOCAL, site=SITE, work=WORK,
                   groundwork=Groundwork(dig=None, fabric=None, gravel=None, packing=None),
                   tiling=TILING, outline=OUTLINED.outline, laying=OUTLINED.laying,
                   subframe=OUTLINED.subframe, tiles=outlined_tiles().tiles, laid=LAID,
                   **{room: getattr(STANDING, room) for room in STOOD})  # fmt: skip
    assert not diff(A, evolve(A, **{name: getattr(other, name)})).empty


@pytest.mark.parametrize(
    ("room", "parts", "mark", "value"),
    [
        ("outline", "sides", "E2", "kind"),
        ("outline", "openings", "O1", "name"),
        ("laying", "zones", "Z1", "way_out"),
        ("laying", "rows", "B3", "zone"),
        ("laying", "pieces", "B3.1", "row"),
        ("subframe", "members", "R2", "side"),
        ("subframe", "facings", "F2", "start_end"),
    ],
)
def test_parts_of_a_deck_on_an_outline_are_told_by_their_marks(
    room: str, parts: str, mark: str, value: str
) -> None:
    held = getattr(OUTLINED, room)
    changed = tuple(
        evolve(part, **{value: "other"}) if part.mark == mark else part
        for part in getattr(held, parts)
    )
    fewer = tuple(part for part in getattr(held, parts) if part.mark != mark)
    (change,) = diff(OUTLINED, evolve(OUTLINED, **{room: evolve(held, **{parts: changed})})).changes
    assert change.path == f"{room}.{parts}[{mark}].{value}"
    gone = evolve(OUTLINED, **{room: evolve(held, **{parts: fewer})})
    assert diff(OUTLINED, gone).removed == (f"{room}.{parts}[{mark}]",)


@pytest.mark.parametrize(
    ("path", "value", "unit"),
    [
        ("raised.frame.posts[PO2].length_mm", 9.0, "mm"),
        ("raised.frame.bearers[BR1].carried_mm", 9.0, "mm"),
        ("raised.frame.bearers[BR1].joints[1 2].at_mm", 9.0, "mm"),
        ("raised.frame.bracing.braces[KT1].hand", 1, ""),
        ("raised.frame.schedule[PO1].ground_mm", 9.0, "mm"),
        ("raised.frame.ledger.wall", "concrete", ""),
        ("footings.under[FT2].dead_kn", 9.0, "kN"),
        ("footings.under[FT1].footing.own_kn_m2", 9.0, "kN/m2"),
        ("guards.edges[E1].top_mm", 9.0, "mm"),
        ("guards.edges[E1].passages[steps].to_mm", 9.0, "mm"),
        ("guards.runs[G2].stretches[E1].drop_mm", 9.0, "mm"),
        ("guards.built[G2].pieces", 9, ""),
        ("strength.beams[bearer BR1].length_mm", 9.0, "mm"),
        ("strength.posts[PO2].live_kn", 9.0, "kN"),
        ("strength.boards[boards].bays", 9, ""),
        ("strength.ledgers[LG1].spacing_mm", 9.0, "mm"),
        ("strength.screened[BR1].basis", "another", ""),
        ("strength.screened[joists].checks[bending].measured", 9.0, "N/mm2"),
        ("steps.flight.riser_mm", 9.0, "mm"),
    ],
)
def test_parts_of_a_deck_that_stands_are_told_by_what_names_them(
    path: str, value: object, unit: str
) -> None:
    room, *parts = re.findall(r"\w+|\[[^\]]+\]", path)
    changed = evolve(STANDING, **{room: put(getattr(STANDING, room), parts, value)})
    (change,) = diff(STANDING, changed).changes
    assert (change.path, change.unit, change.new) == (path, unit, value)


def put(held: object, parts: list[str], value: object) -> object:
    """Return a noun with the value changed that a path's parts lead to."""
    if not parts:
        return value
    first, *rest = parts
    if first.startswith("["):
        at = names_of(held).index(first[1:-1])  # type: ignore[arg-type]
        return (*held[:at], put(held[at], rest, value), *held[at + 1 :])  # type: ignore[index]
    return evolve(held, **{first: put(getattr(held, first), rest, value)})  # type: ignore[type-var]


def test_a_deck_that_comes_to_stand_adds_its_rooms_whole() -> None:
    assert diff(A, STANDING).added == tuple(sorted(STOOD))
    assert diff(STANDING, A).removed == tuple(sorted(STOOD))


def test_another_corner_is_told_where_it_moved() -> None:
    first, *others = OUTLINED.laying.pieces
    corners = (evolve(first.corners[0], along_mm=7.0), *first.corners[1:])
    pieces = (evolve(first, corners=corners), *others)
    (change,) = diff(
        OUTLINED, evolve(OUTLINED, laying=evolve(OUTLINED.laying, pieces=pieces))
    ).changes
    assert change.path == "laying.pieces[B1.1].corners[0].along_mm"
    assert (change.unit, change.new) == ("mm", 7.0)


def test_the_public_verb_compares_a_change_of_mind() -> None:
    plan = example("garden")
    assert drylay.diff(plan, plan).empty


def test_a_decision_is_told_once_where_only_its_value_or_its_figures_differ() -> None:
    """Two joint prices: the same rule, another value; and a decision with other inputs only."""
    path = A.reasons.decisions[0].path
    dearer = _decided(A, path, value="2.50")
    told = str(diff(_decided(A, path, value="1.50"), dearer)).splitlines()
    assert [line for line in told if line.startswith(f"{path}: 1.50 to 2.50")]
    assert not [line for line in told if line.startswith("  was ")]
    other = _decided(A, path, value="1.50", inputs=(("rows", 7),))
    told = str(diff(_decided(A, path, value="1.50"), other)).splitlines()
    assert f"same answer from other figures: {path}" in told


def test_a_decision_by_another_rule_is_told_on_both_sides() -> None:
    path = A.reasons.decisions[0].path
    told = str(diff(A, _decided(A, path, rule="another rule"))).splitlines()
    assert f"{path}:" in told
    assert [line for line in told if line.startswith("  now ") and "another rule" in line]


def _decided(plan: Plan, path: str, **changed: object) -> Plan:
    decisions = tuple(
        evolve(decision, **changed) if decision.path == path else decision
        for decision in plan.reasons.decisions
    )
    return evolve(plan, reasons=evolve(plan.reasons, decisions=decisions))
