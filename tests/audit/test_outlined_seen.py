"""The witnessed audit of decks on an outline, and branches that few plans reach."""

import tomllib
from functools import cache

import pytest
from attrs import evolve

import drylay
from audit.edits import at, put
from audit.outlined_planting import board, member, members_too
from audit.outlined_real import GARDEN, garden, reference
from audit.outlined_sample import box, level, outlined_plan, spot, upright
from audit.planting import Edit, both, by, to
from audit.real import stock
from audit.sample_deck import PRACTICE
from drylay.audit import outlined_witnessed
from drylay.audit.closed import CLOSED
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.model import Witness
from drylay.audit.outlined_witnessed import CENTRES, RULED_AS
from drylay.audit.trust import trusted
from drylay.brief.model import Brief
from drylay.brief.outline_model import WallReading
from drylay.plan.model import Plan
from drylay.reasons import Ruling
from drylay.subframe.model import Seam

CHECK = {code: check for code, _title, check in CLOSED}
SEEN = {code: check for code, _title, check in outlined_witnessed.CHECKS}
#: Of screws that the garden has none of: tests/planner/test_outlined_doubles.py has its faults.
DOUBLES = "AUD-W96"


@cache
def brief() -> Brief:
    return drylay.read_brief(tomllib.loads(GARDEN))


@cache
def witness() -> Witness:
    rulings = tuple(
        (older, Ruling(value=at(garden(), path), unit="", rule="a rule", source=PRACTICE))  # type: ignore[arg-type]
        for path, older in (*RULED_AS.items(), ("subframe.most_centres_mm", CENTRES))
    )
    return Witness(brief=brief(), stock=stock("hobbleden"), rulings=rulings)


def wished(**more: object) -> Witness:
    return evolve(witness(), brief=evolve(brief(), **more))


@pytest.mark.parametrize("code", SEEN)
def test_the_garden_is_sound_before_its_witnesses(code: str) -> None:
    if code == DOUBLES:
        with pytest.raises(NothingToMeasure):
            list(SEEN[code](garden(), witness()))
        return
    assert list(SEEN[code](garden(), witness())) == []


FAULTS: tuple[tuple[str, Edit], ...] = (
    ("AUD-W62", to("laying.gap_least_mm", 3.0)),
    ("AUD-W62", to("laying.gap_preferred_mm", 6.0)),
    ("AUD-W62", to("subframe.most_centres_mm", 900.0)),
    ("AUD-W63", to("outline.sides[0].kind", "open")),
    ("AUD-W63", to("outline.moved_mm", 1.0)),
    ("AUD-W64", to("outline.openings[0].kind", "tree")),
    ("AUD-W64", to("outline.openings[0].name", "gate")),
    ("AUD-W64", to("outline.openings[0].within", box(0.0, 0.0, 110.0, 110.0))),
    ("AUD-W64", to("outline.openings", ())),
    ("AUD-W97", to("laying.zones[0].angle_deg", 30.0)),
    ("AUD-W65", to("laying.angle_deg", 90.0)),
    ("AUD-W65", to("laying.border_courses", 1)),
    ("AUD-W65", to("laying.breaker_count", 1)),
    ("AUD-W65", to("laying.board_article", "DB-1")),
    ("AUD-W66", to("laying.board_thickness_mm", 27.0)),
    ("AUD-W66", to("laying.board_width_mm", 140.0)),
    ("AUD-W66", to("subframe.timber_depth_mm", 140.0)),
    ("AUD-W66", to("subframe.facing_depth_mm", 140.0)),
)


@pytest.mark.parametrize(("code", "edit"), FAULTS)
def test_a_planted_fault_is_seen(code: str, edit: Edit) -> None:
    assert list(SEEN[code](edit(garden()), witness()))


def test_every_witnessed_check_has_its_fault() -> None:
    assert {code for code, _ in FAULTS} == set(SEEN) - {DOUBLES}


def test_limits_are_trusted_where_nobody_tells_them() -> None:
    closed = {each.path for each in trusted(garden(), None)}
    assert {"laying.gap_least_mm", "subframe.most_centres_mm"} <= closed
    seen = {each.path for each in trusted(garden(), witness())}
    assert "laying.gap_least_mm" not in seen


def test_other_wishes_are_seen() -> None:
    joints = evolve(brief().joints, price_each=brief().joints.price_each or 9)
    wide = evolve(brief().board, measured_width_mm=143.0, run="across")
    laying = evolve(brief().laying, breakers_mm=(1000.0,))
    for code, more in (
        ("AUD-W65", {"joints": joints}), ("AUD-W66", {"board": wide}),
        ("AUD-W65", {"board": wide}), ("AUD-W65", {"laying": laying}),
    ):  # fmt: skip
        assert list(SEEN[code](garden(), wished(**more)))
    asked = evolve(brief().laying, breakers="as_needed")
    assert not list(SEEN["AUD-W65"](garden(), wished(laying=asked)))


def test_points_told_the_other_way_round_are_the_same_outline() -> None:
    outline = brief().outline
    points = outline.points
    turned = tuple(
        evolve(point, side=points[index - 1].side, faced=points[index - 1].faced)
        for index, point in enumerate(points)
    )[::-1]
    seen = wished(outline=evolve(outline, points=turned))
    assert list(SEEN["AUD-W63"](garden(), seen)) == []


def test_a_wall_that_was_read_is_not_the_points() -> None:
    wall = (WallReading(along_mm=0.0, off_mm=2.0),)
    with pytest.raises(NothingToMeasure):
        list(SEEN["AUD-W63"](garden(), wished(outline=evolve(brief().outline, wall=wall))))


def test_a_named_person_overrides_a_limit() -> None:
    from drylay.brief.model import Override

    override = Override(
        path="laying.gap_least_mm", value=3.0, unit="mm", by="A. Nobody", reason="a sample"
    )
    plan = put(garden(), "laying.gap_least_mm", 3.0)
    assert list(SEEN["AUD-W62"](plan, wished(overrides=(override,)))) == []


def found(code: str, plan: Plan) -> bool:
    return bool(list(CHECK[code](plan)))


def edged() -> Plan:
    """Return the L with its second row told as a course of a border, joint and all."""
    return both(
        board("B2.1", kind="border", mark="K1.1", row=""),
        board("B2.2", kind="border", mark="K1.2", row=""),
        to("laying.joints[0].row", "K1"),
    )(outlined_plan())


def test_joints_of_a_border_are_found_by_its_courses() -> None:
    assert not found("AUD-780", edged())
    assert not found("AUD-783", edged())
    assert found("AUD-780", put(edged(), "laying.joints[0].at", spot((977.5, 500.0))))


def test_joints_over_seams_are_on_them() -> None:
    seam = Seam(left="R4", right="J7", start=spot((977.5, 45.0)), end=spot((977.5, 1000.0)))
    plan = both(to("subframe.seams", (seam,)), to("laying.joints[0].beside", "J7"))(outlined_plan())
    plan = members_too(upright("J7", "pair", 1022.5, 45.0, 455.0, "R1-R3"))(plan)
    assert not found("AUD-780", plan)


def test_doubled_trimmers_want_doubled_joists() -> None:
    tails = members_too(
        upright("J9.1", "joist", 450.0, 545.0, 667.5, "N2-U4"),
        upright("J9.2", "joist", 500.0, 545.0, 667.5, "N2-U4"),
        level("U4", "double", 667.5, 363.5, 636.5, "J2-J3"),
    )
    messages = [flaw.message for flaw in CHECK["AUD-799"](tails(outlined_plan()))]
    assert len(messages) == 2
    assert all("carries the doubled U1" in message for message in messages)


def test_hangers_hold_square_ends_of_inner_joists() -> None:
    from audit.sample_deck import fixings

    hangers = evolve(fixings().hangers, count=99)
    plan = put(garden(), "fixings.hangers", hangers)
    assert any("inner joists" in flaw.message for flaw in CHECK["AUD-981"](plan))


def test_a_deck_held_by_clips_is_not_counted_by_crossings() -> None:
    plan = put(garden(), "fixings.clips", object())
    with pytest.raises(NothingToMeasure):
        list(CHECK["AUD-980"](plan))


def test_square_corners_of_equal_sides_lap_either_way() -> None:
    plan = by("outline.sides[1].length_mm", 480.0)(outlined_plan())
    assert not any("not one of" in flaw.message for flaw in CHECK["AUD-933"](plan))


def test_other_branches() -> None:
    plan = outlined_plan()
    assert found("AUD-756", to("outline.sides[5].facing_mm", 400.0)(plan))
    assert found("AUD-790", to("outline.sides[0].end", spot((0.0, 0.0)))(plan)) in {True, False}
    assert found("AUD-792", member("R3", end_on="R6")(plan))
    assert found("AUD-798", member("U3", kind="noggin")(plan))
    assert reference("S12").laying is not None
