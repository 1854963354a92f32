"""Checks of rectangular decks where few plans lead them: plants, and cases worked by hand."""

import pytest
from attrs import evolve

import drylay
from audit.edits import put
from audit.ground_faults import FABRIC, _across
from audit.paired import deck
from audit.planting import Edit, both, by, finding, to
from audit.sample import sample_plan, sample_witness
from audit.tile_decks import deck as tiles
from drylay.audit.closed import audit_plan
from drylay.brief.model import Override
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.reasons import TurnedDown
from planner.test_board_asks import as_it_stands, asked
from planner.test_border_moves import planned, sold, wish


def codes(plan: Plan) -> set[str]:
    return {each.code for each in audit_plan(plan).findings}


def seen(plan: Plan, *changes: tuple[str, object]) -> set[str]:
    """Return what is found before the hand-made deck's witness, changed so."""
    witness = sample_witness()
    for path, value in changes:
        witness = put(witness, path, value)
    return {each.code for each in audit_plan(plan, witness=witness).findings}


def test_a_board_with_an_insert_that_is_ripped() -> None:
    plan = as_it_stands("insertboard")
    assert "AUD-151" not in codes(plan)
    assert "AUD-151" in codes(put(plan, "surface.rows[0].ripped", True))


def test_boards_that_grow_more_than_they_may_untold() -> None:
    plan = as_it_stands("composite")
    assert "AUD-152" in codes(put(plan, "pieces.movement.growth_per_k", 51e-6))
    told = (*plan.findings, finding(code="MOV-106", subject="deck boards"))
    assert "AUD-152" in codes(put(plan, "findings", told))


def test_centres_that_a_named_person_sets_stand_in_for_nothing() -> None:
    plan, (brief, stock) = as_it_stands("composite"), asked("composite")
    silent = evolve(stock, boards=tuple(
        evolve(each, rules=tuple(own for own in each.rules if own.rule != "most_centres_mm"))
        for each in stock.boards
    ))  # fmt: skip
    person = Override(
        path="supports.most_centres_mm", value=350.0, unit="mm", by="A. Nobody", reason="a sample"
    )
    for overrides, told in (((), True), ((person,), False)):
        asking = evolve(brief, overrides=overrides)
        report = drylay.audit(
            plan, brief=asking, stock=silent, families=drylay.installed_families()
        )
        assert ("AUD-W94" in {each.code for each in report.findings}) == told


CLIPPED: tuple[tuple[str, str, Edit], ...] = (
    ("AUD-613", "battens", to("pieces.joints[0].beside", "")),
    ("AUD-617", "pairs", to("surface.rows[0].ripped", True)),
)


@pytest.mark.parametrize(("code", "name", "edit"), CLIPPED)
def test_a_fault_in_clips_is_caught(code: str, name: str, edit: Edit) -> None:
    assert code not in codes(deck(name))
    assert code in codes(edit(deck(name)))


MOVES = "pieces.border.movement"


@pytest.mark.parametrize(
    "edit", [by(f"{MOVES}.growth_mm", 1.0), by(f"{MOVES}.laying_c", 3.0)], ids=["growth", "day"]
)
def test_a_border_that_moves_otherwise_than_told_is_caught(edit: Edit) -> None:
    plan = planned(wish(), sold())
    assert "AUD-417" not in codes(plan)
    assert "AUD-417" in codes(edit(plan))


def test_a_finish_that_boards_do_not_want_and_nobody_tells_of() -> None:
    bare = both(
        to("fixings.board_finish_coats", 0), to("fixings.finish", None),
    )(sample_plan())  # fmt: skip
    assert "AUD-W36" in seen(bare)
    told = put(bare, "findings", (*bare.findings, finding(code="COT-006")))
    assert "AUD-W36" not in seen(told)


@pytest.mark.parametrize(
    ("durability", "refused"), [(None, True), (2, True), (1, False)], ids=str
)  # fmt: skip
def test_bare_timber_lasts_in_use_class_4_if_very_durable(
    durability: int | None, refused: bool
) -> None:
    """EN 460, table 1, from memory: use class 4 takes durability class 1 alone."""
    plan = put(sample_plan(), "fixings.frame_use_class_least", 4)
    bare = ("stock.timbers[0].treatment", "untreated")
    assert "AUD-W39" not in seen(plan)
    lasting = ("stock.timbers[0].durability_class", durability)
    assert ("AUD-W39" in seen(plan, bare, lasting)) == refused


def test_a_frame_of_spruce_is_told_of_and_of_nothing_else() -> None:
    plan = sample_plan()
    told = put(plan, "findings", (*plan.findings, finding(code="MAT-008")))
    spruce = ("stock.timbers[0].species", "Norway spruce")
    incised = ("stock.timbers[0].treatment", "incised, brown")
    assert "AUD-W95" not in seen(plan)
    assert "AUD-W95" in seen(plan, spruce)
    assert "AUD-W95" not in seen(told, spruce)
    assert "AUD-W95" not in seen(plan, spruce, incised)
    assert "AUD-W95" in seen(told, spruce, incised)


def test_nothing_is_said_of_the_cheaper_way_where_rolls_are_few_or_too_short() -> None:
    """Strips the other way would take a part of the one roll as dear: as many as five."""
    plan = _across(sample_plan())
    assert "AUD-846" in codes(plan)
    at = next(
        index for index, each in enumerate(plan.buying.purchases)  # type: ignore[union-attr]
        if each.what == "fabric"
    )  # fmt: skip
    few = put(plan, f"buying.purchases[{at}].proof.task.stock[0].limit", 3)
    assert "AUD-846" not in codes(few)
    # no roll of 10 m holds a strip of 10.5
    assert "AUD-846" not in codes(put(plan, f"{FABRIC}.other_length_mm", 10_500.0))


def test_pads_have_their_own_reach_and_a_frame_has_not() -> None:
    """Tiles 200 over the base lie on pads, which reach it or do not (AUD-966 and the like)."""
    high = by("site.levels.underside_mm", 200.0)(tiles("pads"))
    assert "AUD-850" not in codes(high)


def test_unlike_falls_of_field_and_border_are_told() -> None:
    """The reasons hold the smaller fall, a border's: the larger stands, and both are told."""

    def turned(plan: Plan) -> Plan:
        smaller = (TurnedDown(value=0.01, because="the border's, smaller"),)
        return evolve(plan, reasons=evolve(plan.reasons, decisions=tuple(
            evolve(each, turned_down=smaller) if each.path == "surface.fall_least_ratio" else each
            for each in plan.reasons.decisions
        )))  # fmt: skip

    plan = turned(sample_plan())
    assert "AUD-113" in codes(plan)
    ratio = plan.surface.fall_least_ratio or 0.0  # type: ignore[union-attr]
    unlike = finding(code="BDR-015", severity=Severity.CAUTION, measured=0.01, limit=ratio)
    assert "AUD-113" not in codes(put(plan, "findings", (*plan.findings, unlike)))
