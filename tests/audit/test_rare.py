"""Checks of rectangular decks where few plans lead them: plants, and cases worked by hand."""

import pytest
from attrs import evolve

import drylay
from audit.edits import put
from audit.ground_faults import FABRIC, _across
from audit.paired import deck
from audit.planting import Edit, both, by, finding, to
from audit.sample import sample_plan, sample_witness
from audit.site_faults import in_reason
from audit.tile_decks import LEVEL
from drylay.audit.closed import audit_plan
from drylay.audit.model import Witness
from drylay.audit.ranking import AS_GIVEN, MOST, each_below
from drylay.brief.model import AirBrick, HouseWish, Override
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.planner.design import design
from drylay.reasons import Ruling, Source, TurnedDown
from planner.test_board_asks import as_it_stands, asked
from planner.test_border_moves import planned, sold, wish
from tile_family import tile_brief, tile_families, yard


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
    """Tiles 200 over a bed of gravel lie on pads, which reach it or do not: not a frame's 150."""
    levels, bed = {**LEVEL, "deck_top_mm": -10}, {"gravel": "GR-20", "strip_mm": 120}
    asking = tile_brief(3014, 2410, levels=levels, groundwork=bed)
    plan = design(asking, stock=yard(), families=tile_families())
    assert plan.buildable
    assert codes(plan) == set()
    assert "AUD-850" not in codes(by("site.levels.underside_mm", 200.0)(plan))
    assert "AUD-850" in codes(by("site.levels.underside_mm", -200.0)(plan))


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


def test_an_air_brick_far_beside_the_deck_binds_nothing() -> None:
    """The deck is 4085 wide; the plan's limits are those of the bricks behind it."""
    assert "AUD-W51" in seen(sample_plan(), ("brief.house.air_bricks[0].along_mm", 9000.0))
    far = AirBrick(along_mm=9000.0, under_mm=-200.0)
    bricks = (*sample_witness().brief.house.air_bricks, far)  # type: ignore[union-attr]
    assert "AUD-W51" not in seen(sample_plan(), ("brief.house.air_bricks", bricks))


def test_ground_that_nobody_measured_and_nobody_tells() -> None:
    nobody = ("brief.levels.points", ())
    assert "AUD-W53" in seen(sample_plan(), nobody)
    assert "AUD-W53" not in seen(put(sample_plan(), "site.levels.ground_least_mm", None), nobody)


def test_a_top_that_only_the_ground_sets() -> None:
    """The ground at -300, a bed 10 under it, packers of 10, a frame of 120, boards of 28: -152."""
    no_limits = (
        ("brief.house", HouseWish()), ("brief.levels.deck_top_mm", None),
    )  # fmt: skip
    for top_mm, told in ((-150.0, True), (-152.0, False)):
        plan = put(sample_plan(), "site.levels.deck_top_mm", top_mm)
        assert ("AUD-W54" in seen(plan, *no_limits)) == told


def test_groundwork_of_a_deck_without_a_house_and_without_packers() -> None:
    alone = put(sample_plan(), "groundwork.packing", None)
    assert not {"AUD-W42", "AUD-W44"} & seen(alone)
    # no wall: the dig has its margin there too
    none = ("brief.house", HouseWish())
    assert "AUD-W43" in seen(sample_plan(), none)
    assert "AUD-W43" not in seen(put(sample_plan(), "groundwork.dig.house_margin_mm", 100.0), none)


def test_more_joist_lines_than_needed_are_fair_where_fewer_were_turned_down() -> None:
    """4045 less 45 is 4000 from first to last: eleven lines at 400, nine at 500."""
    wide = to("supports.most_centres_mm", 500.0)
    nine = in_reason("supports.line_count", "turned_down", (TurnedDown(value=9, because="dearer"),))
    assert "AUD-302" in codes(wide(sample_plan()))
    assert "AUD-302" not in codes(both(wide, nine)(sample_plan()))


def test_an_older_plan_tells_no_pilot_of_coach_screws_and_no_heights_of_them() -> None:
    at = "fixings.coach_screws"
    bare = both(to(f"{at}.pilot_ratio", None), to(f"{at}.pilot_mm", None))
    older = both(
        bare, to("fixings.metals", ()), to("fixings.use_classes", ()),
        to("fixings.board_use_class_least", None), to("fixings.frame_use_class_least", None),
    )  # fmt: skip
    assert "AUD-606" in codes(bare(sample_plan()))
    assert "AUD-606" not in codes(older(sample_plan()))
    no_heights = both(to(f"{at}.edge_least_mm", None), to(f"{at}.top_least_mm", None))
    idle = audit_plan(no_heights(sample_plan())).not_run
    assert "AUD-618" in {check.code for check in idle}


def test_one_course_of_tiles_has_no_joint_to_keep() -> None:
    """Tiles of 600 in a strip 600 deep, 1812 = 3 x 600 + 3 x 4 along it."""
    plan = design(tile_brief(1808, 600), stock=yard(), families=tile_families())
    assert plan.buildable
    assert codes(plan) == set()
    (way,) = (each for each in plan.tiling.ways_out if each.chosen)  # type: ignore[union-attr]
    assert way.rows


def test_centres_of_a_record_are_brought_down_as_the_familys_are() -> None:
    """A record of 400 for a dwelling; the family gives 300 there and 240 here: 400 x 240 / 300."""
    brief, stock = asked("composite", use="public")
    own = Source(kind="assumption", title="a sample")

    def of(here: float) -> list[float]:
        figures = ((AS_GIVEN, 300.0), (MOST, here))
        told = tuple(
            (path, Ruling(value=value, unit="mm", rule="a rule", source=own))
            for path, value in figures
        )
        plan = as_it_stands("composite")
        return each_below(plan, MOST, Witness(brief=brief, stock=stock, rulings=told))

    assert of(300.0)[0] == 400.0
    assert of(240.0)[0] == 320.0
