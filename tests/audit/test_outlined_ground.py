"""Checks of the ground under an outline, and of its ties: each has been seen to fail."""

import math
import random

import pytest

from audit.edits import at, put
from audit.outlined_ground_faults import DIG, GROUND_FAULTS, OF_GROUND
from audit.outlined_ground_sample import plan_on_the_ground
from audit.outlined_sample import spot
from audit.planting import Edit, Fault, by, to, without
from audit.sample import sample_plan
from drylay.audit.closed import CLOSED, WITNESSED, audit_plan
from drylay.audit.slabs import area, reaches, trapezoids
from drylay.plan.model import Plan
from outlined_gardens import levelled, levelled_witness, plain


def found(edit: Edit | None = None) -> set[str]:
    plan = plan_on_the_ground()
    report = audit_plan(edit(plan) if edit else plan)
    codes = {finding.code for finding in report.findings}
    assert "AUD-000" not in codes, report.findings
    return codes & OF_GROUND


def without_tool(mark: str) -> Edit:
    """Return an edit that leaves a tool out."""

    def run(plan: Plan) -> Plan:
        tools = at(plan, "work.tools")
        return put(plan, "work.tools", tuple(tool for tool in tools if tool.mark != mark))  # type: ignore[attr-defined]

    return run


def test_the_ground_of_the_l_is_sound() -> None:
    assert found() == set()
    assert {check.code for check in audit_plan(plan_on_the_ground()).not_run}.isdisjoint(OF_GROUND)


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "edit"), GROUND_FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    assert code in found(edit), name


def test_every_check_has_its_fault() -> None:
    assert {code for code, *_ in GROUND_FAULTS} == OF_GROUND


def test_checks_of_outlines_are_not_run_on_a_rectangle() -> None:
    assert {check.code for check in audit_plan(sample_plan()).not_run} >= OF_GROUND


HATCHES = "work.tasks[10]"
WORK_FAULTS: tuple[Fault, ...] = (
    ("AUD-913", "no task for the hatch", without("work.tasks", 10)),
    ("AUD-914", "a hand-over before the hatch is made", to("work.tasks[11].after", ("W10",))),
    ("AUD-916", "no hold for its panel", to(f"{HATCHES}.holds", ())),
    ("AUD-917", "no spacer for the rows", without_tool("gap_spacer")),
    ("AUD-918", "pegs set in no time", by("work.tasks[2].least_h", -0.25)),
    ("AUD-918", "panels made in no time", by(f"{HATCHES}.most_h", -0.25)),
    ("AUD-918", "shaped boards as quick as others", by("work.tasks[9].most_h", -0.25)),
)


@pytest.mark.parametrize(("code", "name", "edit"), WORK_FAULTS, ids=ids)
def test_a_fault_in_the_work_of_an_outline_is_caught(code: str, name: str, edit: Edit) -> None:
    check = {known: run for known, _title, run in CLOSED}[code]
    assert not [*check(plain())]
    assert [*check(edit(plain()))], name


SEEN_FAULTS: tuple[Fault, ...] = (
    ("AUD-W43", "a dig up to the house as if it were none", to(f"{DIG}.house_margin_mm", 100.0)),
    ("AUD-W45", "another tree", to(f"{DIG}.roots[0].middle", spot((950.0, 1300.0)))),
    ("AUD-W45", "a thinner trunk", to(f"{DIG}.roots[0].trunk_mm", 50.0)),
    ("AUD-W52", "no house beside it", to("site.beside_house", False)),
    ("AUD-W53", "ground of the whole box", to("site.levels.ground_most_mm", 13.0)),
    ("AUD-W53", "a fall out of the air", by("site.levels.fall_to_house_mm", 1.0)),
    ("AUD-W54", "a top out of the air", by("site.levels.deck_top_mm", 1.0)),
)


@pytest.mark.parametrize(("code", "name", "edit"), SEEN_FAULTS, ids=ids)
def test_a_fault_is_seen_by_the_brief(code: str, name: str, edit: Edit) -> None:
    witness, check = levelled_witness(), {known: run for known, _title, run in WITNESSED}[code]
    assert not [*check(levelled(), witness)]
    assert [*check(edit(levelled()), witness)], name


@pytest.mark.parametrize("bare", [False, True])
def test_how_far_roots_reach_is_told_as_it_is_without_groundwork_too(bare: bool) -> None:
    """BS 5837: 12 stem diameters of 60."""
    checks = {known: run for known, _title, run in (*CLOSED, *WITNESSED)}
    plan = put(levelled(), "groundwork", None) if bare else levelled()
    at = [each.code for each in plan.findings].index("OUT-020")
    assert plan.findings[at].limit == 720
    assert not [flaw for flaw in checks["AUD-009"](plan) if f"findings[{at}]" in flaw.subject]
    assert not [*checks["AUD-W45"](plan, levelled_witness())]
    for limit in (719.0, None):
        wrong = put(plan, f"findings[{at}].limit", limit)
        assert [*checks["AUD-W45"](wrong, levelled_witness())]


def test_nothing_is_dug_where_all_corners_lie_within_roots() -> None:
    """BS 5837: roots reach 12 stem diameters, 14.4 m at a trunk of 1.2 m; the deck is 4.2 wide."""
    bare = levelled()
    for part in ("dig", "fabric", "gravel"):
        bare = put(bare, f"groundwork.{part}", None)
    check = {known: run for known, _title, run in WITNESSED}["AUD-W41"]
    told = levelled_witness()
    assert [flaw.subject for flaw in check(bare, told)] == [
        "groundwork.dig", "groundwork.fabric", "groundwork.gravel",
    ]  # fmt: skip
    assert [*check(bare, put(told, "brief.outline.openings", ()))]
    assert not [*check(bare, put(told, "brief.outline.openings[0].trunk_mm", 1200.0))]


def test_two_squares_that_overlap_by_hand() -> None:
    """2 x 2 and 2 x 2 from (1, 1): 7; less 1 x 1 at the corner they share: 6."""
    one = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    two = ((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0))
    shared = ((1.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0))
    assert area(trapezoids([one, two])) == 7
    assert area(trapezoids([one, two], [shared])) == 6
    assert reaches(trapezoids([one, two])) == [(0.0, 3.0)]


@pytest.mark.parametrize("seed", range(6))
def test_slabs_against_darts(seed: int) -> None:
    """Three triangles less a fourth, 20 000 darts: 1.1 % of the box is three deviations."""
    dice = random.Random(seed)
    shapes = [
        tuple((dice.uniform(0, 100), dice.uniform(0, 100)) for _ in range(3)) for _ in range(4)
    ]

    def inside(x: float, y: float, shape: tuple[tuple[float, float], ...]) -> bool:
        turns = [
            (bx - ax) * (y - ay) - (by - ay) * (x - ax)
            for (ax, ay), (bx, by) in zip(shape, (*shape[1:], shape[0]), strict=True)
        ]
        return min(turns) > 0 or max(turns) < 0

    hits = 0
    for _ in range(20_000):
        x, y = dice.uniform(0, 100), dice.uniform(0, 100)
        hits += any(inside(x, y, s) for s in shapes[:3]) and not inside(x, y, shapes[3])
    wanted = area(trapezoids(shapes[:3], shapes[3:]))
    assert math.isclose(hits / 20_000 * 10_000, wanted, abs_tol=110)
