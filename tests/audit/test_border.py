"""A real plan with a border: each check that looks at field and border apart sees faults there.

The example's deck is redwood edged with oak: boards of two thicknesses, over pairs of joists, with
wax for the one and preserver for the other.
"""

from decimal import Decimal

import pytest
from attrs import evolve

import drylay
from audit.planting import Edit, both, by, to, without
from audit.real import example, stock
from border_decks import board_of, of_two
from drylay.audit.closed import audit_plan
from drylay.audit.model import AuditReport
from drylay.brief.model import BorderWish, CoverWish, JointsWish
from drylay.plan.model import Plan
from drylay.plugins.loading import installed_families
from drylay.reasons import Scalar

YARD = stock("sallowby")
BRIEF = evolve(
    example("border"),
    cover=CoverWish(along_mm=5400.0, across_mm=1500.0, grow_across_mm=40.0, shrink_across_mm=40.0),
    joints=JointsWish(lines_mm=(1800.0, 3600.0), most_per_row=1),
)
AT, ROWS, JOINTS = "surface.border", "surface.rows", "pieces.border"
PACKERS = "fixings.board_packers"
SCREWS, LORRY = "fixings.border_screws", "buying.delivery"
#: The border's purchase, after the field's.
EDGE = "buying.purchases[1]"

CLOSED: tuple[tuple[str, str, Edit], ...] = (
    ("AUD-103", "a gap of the border below its least", both(
        by(f"{ROWS}[0].width_mm", 2.0), by(f"{ROWS}[1].gap_mm", -2.0))),
    ("AUD-141", "a border of three rows", to(f"{AT}.rows", 3)),
    ("AUD-142", "a gap beside it that is not both's", by(f"{AT}.beside_mm", 1.0)),
    ("AUD-143", "a shallower field", by(f"{AT}.field_depth_mm", -5.0)),
    ("AUD-144", "no packers under the thinner", to(f"{AT}.packing_mm", 0.0)),
    ("AUD-145", "no screws of the border", to(SCREWS, None)),
    ("AUD-146", "a packer too few", by(f"{PACKERS}.count", -1)),
    ("AUD-146", "packers not as high as it takes", by(f"{PACKERS}.height_mm", 2.0)),
    ("AUD-146", "packers that nobody named, and nobody told of", to(f"{PACKERS}.article", "")),
    ("AUD-741", "packers that nobody buys", by(f"{PACKERS}.count", 60)),
    ("AUD-402", "a stagger of the border not kept", to(f"{JOINTS}.stagger_bays", 9)),
    ("AUD-403", "more supports under the border than there are",
     to(f"{JOINTS}.least_supports", 12)),
    ("AUD-405", "another end gap in the border", by(f"{JOINTS}.end_gap_mm", 2.0)),
    ("AUD-411", "a joint of the border too many", by(f"{JOINTS}.joint_count", 1)),
    ("AUD-413", "more bearing than a joist has", by(f"{JOINTS}.end_bearing_mm", 5.0)),
    ("AUD-414", "a limit below nothing", to(f"{JOINTS}.stagger_bays", -1)),
    ("AUD-419", "border pieces too short", to(f"{JOINTS}.least_piece_mm", 4500.0)),
    ("AUD-415", "a handed border without arrows", to(f"{JOINTS}.handed", True)),
    ("AUD-722", "a joint of the border at another price", to(f"{JOINTS}.joint_price", Decimal(9))),
    ("AUD-601", "a crossing of the border forgotten", by(f"{SCREWS}.crossings", -1)),
    ("AUD-602", "a screw that forgets the packers", to(f"{SCREWS}.length_least_mm", 68.0)),
    ("AUD-603", "a screw through the joist", to(f"{SCREWS}.length_mm", 180.0)),
    ("AUD-604", "no room in the border's rows", to(f"{SCREWS}.edge_least_mm", 80.0)),
    ("AUD-605", "a screw beside the joist", to(f"{SCREWS}.end_least_mm", 60.0)),
    ("AUD-606", "another pilot", by(f"{SCREWS}.pilot_mm", 1.0)),
    ("AUD-610", "a screw of no size", to(f"{SCREWS}.shank_mm", 0.0)),
    ("AUD-610", "border boards held by nothing", to(f"{SCREWS}.per_crossing", 0)),
    ("AUD-631", "a border treated for less", both(
        to("fixings.border_use_class_least", 5), to("fixings.use_classes[1].use_class", 3))),
    ("AUD-632", "an untold class that no finding tells",
     to("fixings.border_use_class_least", 3)),
    ("AUD-655", "a border left out of the finish", to("fixings.finish.border_m2", 0.0)),
    ("AUD-659", "ends of the border not waxed", without("fixings.wax.parts", 0)),
    ("AUD-804", "rows of the border as one set", without(f"{EDGE}.proof.task.lines", 1)),
    ("AUD-861", "another mass of the border", by(f"{LORRY}.border_density_kg_m3", 100.0)),
    ("AUD-917", "no bit for its screws", lambda plan: evolve(plan, work=evolve(
        plan.work, tools=tuple(tool for tool in plan.work.tools if tool.mark != "border_bit")))),
)  # fmt: skip

WITNESSED: tuple[tuple[str, str, Edit], ...] = (
    ("AUD-W85", "one row where two are wished", to(f"{AT}.rows", 1)),
    ("AUD-W85", "another board", to(f"{AT}.article", "HI-21-145")),
    ("AUD-W85", "another screw", to(f"{SCREWS}.article", "DX-55-90-A2")),
    ("AUD-W86", "a wider board", by(f"{AT}.width_mm", 1.0)),
    ("AUD-W86", "another mass", to(f"{LORRY}.border_kg_m", 3.0)),
    ("AUD-W87", "a joint that costs more", to(f"{JOINTS}.joint_price", Decimal(9))),
    ("AUD-W88", "a face it has not", to("fixings.finish.border_face_up", "grooved")),
    ("AUD-W89", "packers of another height", to(f"{PACKERS}.article", "SP-5")),
    ("AUD-W89", "pedestals under boards", to(f"{PACKERS}.article", "SPD-17-30")),
    ("AUD-W09", "looser joists than the border allows", to("supports.most_centres_mm", 600.0)),
    ("AUD-W09", "a smaller gap of its own", to(f"{AT}.gap_least_mm", 2.0)),
    ("AUD-W09", "one joist where the border wants two", to("supports.joists_under_joint", 1)),
)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return drylay.design(BRIEF, stock=YARD)


def codes_of(report: AuditReport) -> set[str]:
    return {finding.code for finding in report.findings}


def test_the_deck_with_a_border_is_sound(plan: Plan) -> None:
    assert plan.pieces.border.joint_count
    assert plan.surface.border.packed == "border"
    report = drylay.audit(plan, brief=BRIEF, stock=YARD, families=installed_families())
    assert report.findings == ()


@pytest.mark.parametrize(("code", "name", "edit"), CLOSED, ids=lambda told: told if isinstance(
    told, str) else "")  # fmt: skip
def test_a_fault_of_the_border_is_caught(plan: Plan, code: str, name: str, edit: Edit) -> None:
    found = codes_of(audit_plan(edit(plan)))
    assert code in found, f"{name}: {sorted(found)}"


def test_faults_before_witnesses_are_caught(plan: Plan) -> None:
    for code, name, edit in WITNESSED:
        report = drylay.audit(edit(plan), brief=BRIEF, stock=YARD, families=installed_families())
        assert code in codes_of(report), f"{name}: {sorted(codes_of(report))}"


def test_joints_of_the_border_cost_what_the_brief_says(plan: Plan) -> None:
    priced = evolve(BRIEF, joints=evolve(BRIEF.joints, price_each=Decimal(9)))
    assert "AUD-W87" in codes_of(drylay.audit(plan, brief=priced, stock=YARD))
    dear = to(f"{JOINTS}.joint_price", Decimal(9))(plan)
    assert "AUD-W87" not in codes_of(drylay.audit(dear, brief=priced, stock=YARD))


def test_without_families_limits_of_both_boards_are_left_alone(plan: Plan) -> None:
    """Neither board's record tells any, and a brief and a stock alone do not know the families."""
    report = drylay.audit(plan, brief=BRIEF, stock=YARD)
    assert report.findings == ()
    looser = drylay.audit(to("supports.most_centres_mm", 600.0)(plan), brief=BRIEF, stock=YARD)
    assert "AUD-W09" not in codes_of(looser)


def test_a_plan_without_the_wished_border_is_caught() -> None:
    alone = evolve(BRIEF, border=BorderWish(), joints=JointsWish())
    bare = drylay.design(alone, stock=YARD)
    assert "AUD-W85" in codes_of(drylay.audit(bare, brief=BRIEF, stock=YARD))


def test_a_border_that_governs_is_held_to_its_own_board() -> None:
    """A border of 21 on a field of 33: the centres are the border's, and so are their inputs."""
    thick, thin = (145.0, 33.0, ("softwood", "redwood")), (120.0, 21.0, ("hardwood", "iroko"))
    asked, sold = of_two(board_of("FIELD", *thick), board_of("EDGED", *thin))
    witnesses = {"brief": asked, "stock": sold, "families": installed_families()}
    edged = drylay.design(asked, stock=sold)
    assert drylay.audit(edged, **witnesses).findings == ()
    for name, value in (("border_thickness_mm", 33.0), ("board_thickness_mm", 21.0)):
        told = codes_of(audit_plan(_told(edged, "supports.most_centres_mm", name, value)))
        assert told == {"AUD-902"}, name
    lied = _told(edged, "supports.most_centres_mm", "border_thickness_mm", 33.0)
    assert codes_of(drylay.audit(lied, **witnesses)) == {"AUD-902", "AUD-W12"}


def _told(plan: Plan, path: str, name: str, value: Scalar) -> Plan:
    """A plan whose decision on a path tells of one input only."""
    decisions = tuple(
        evolve(each, inputs=((name, value),)) if each.path == path else each
        for each in plan.reasons.decisions
    )
    return evolve(plan, reasons=evolve(plan.reasons, decisions=decisions))
