"""Rows that lie: sound decks corrected while laying, and a planted fault for every check."""

from decimal import Decimal
from functools import cache

import pytest
from attrs import evolve

from audit.planting import Edit, both, by, to, without
from audit.planting import twice as again
from audit.real import example, stock
from drylay.audit import laid
from drylay.audit.closed import audit_plan
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.model import ClosedCheck, Flaw
from drylay.correcting.model import EdgeReading, WayBack
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.planner.corrected import correct_plan
from drylay.planner.design import design

OF_LAID = {code for code, *_ in laid.CHECKS}


@cache
def designed(ripped: bool = False, along_mm: float = 5000.0) -> Plan:
    """Six rows of 145 mm on 5 m; with a ripped last row where that is asked for."""
    brief = example("garden")
    cover = evolve(brief.cover, along_mm=along_mm, across_mm=1000.0 if ripped else 900.0)
    rows = evolve(brief.rows, prefer=("rip_last",) if ripped else ("gaps", "shrink"))
    board = evolve(brief.board, may_turn=False)
    whole = evolve(brief.joints, most_per_row=0)
    return design(
        evolve(
            brief, cover=cover, rows=rows, board=board, joints=whole, finish=type(brief.finish)()
        ),
        stock=stock("hobbleden"),
    )


def edge(plan: Plan, rows: int, off_mm: float) -> float:
    row = plan.surface.rows[rows - 1]
    return row.near_mm + row.width_mm + off_mm


def read(
    plan: Plan, rows: int, left_mm: float = 1.0, right_mm: float = -1.0, **told: object
) -> Plan:
    reading = EdgeReading(
        rows_laid=rows, left_mm=edge(plan, rows, left_mm), right_mm=edge(plan, rows, right_mm),
        **told,
    )  # fmt: skip
    return correct_plan(plan, reading)


@cache
def twice() -> Plan:
    """Measured after two rows and again after three, with rows and fascia to be longer."""
    first = read(designed(), 2, widths_mm=(145.25,) * 10)
    cut = tuple(piece.mark for piece in first.pieces.pieces if piece.row == "B5")
    longer = first.surface.row_length_mm + 6.0
    return read(first, 3, 1.5, 0.5, row_length_mm=longer, cut=cut)


def report(plan: Plan) -> set[str]:
    """Return the codes of the checks of rows that lie which find a flaw; the others cost time."""
    return {code for code, _, check in laid.CHECKS if _flaws(check, plan)}


def _flaws(check: ClosedCheck, plan: Plan) -> list[Flaw]:
    try:
        return list(check(plan))
    except NothingToMeasure:
        return []


TOLD = {
    "plan": {"rows": 2},
    "rows laid": {"rows": 5},
    "boards measured": {"rows": 2, "widths_mm": (145.5,) * 10},
    "boards laid tight": {"rows": 2, "together_mm": 4 * 145.5},
    "shorter": {"rows": 2, "row_length_mm": 4990.0, "cut": ("B5.1", "B6.1", "F-front.1")},
    "far": {"rows": 5, "left_mm": 12.0, "right_mm": -12.0},
}


@pytest.mark.parametrize("name", TOLD)
def test_a_corrected_deck_is_sound(name: str) -> None:
    plan = read(designed(), **TOLD[name])
    assert report(plan) == set()
    assert name not in {"plan", "rows laid", "boards measured", "boards laid tight"} or (
        plan.laid.board_takes == name
    )


def test_rows_longer_than_any_board_are_told_and_sound() -> None:
    """Boards are sold up to 5400 mm, and these rows are of one piece: 5380 and 90 more."""
    plan = designed(along_mm=5380.0)
    after = read(plan, 2, row_length_mm=plan.surface.row_length_mm + 90.0)
    assert "boards" in {f.subject for f in after.findings if f.code == "COR-010"}
    assert report(after) == set()


def test_a_deck_measured_twice_is_sound_and_one_with_a_rip() -> None:
    found = audit_plan(twice())
    assert found.findings == ()
    assert set(found.checks) >= OF_LAID
    plan = read(designed(ripped=True), 3, 2.0, -2.0)
    assert plan.laid.rows[-1].ripped
    assert report(plan) == set()


def test_a_plan_that_nobody_measured_has_nothing_to_hold() -> None:
    assert {idle.code for idle in audit_plan(designed()).not_run} >= OF_LAID


def _doubled(plan: Plan) -> Plan:
    board = plan.laid.recut[0].boards[0]
    more = evolve(board, pieces=board.pieces * 2, pieces_mm=board.pieces_mm * 2)
    return to("laid.recut[0].boards", (more, *plan.laid.recut[0].boards[1:]))(plan)


def _bound(plan: Plan) -> Plan:
    path = "laid.recut[0].purchase"
    return both(by(f"{path}.bound", 1), by(f"{path}.proof.certificate.bound", 100))(plan)


def _unsawn(plan: Plan) -> Plan:
    path = "laid.recut[0]"
    nothing = to(f"{path}.boards", ()), to(f"{path}.purchase", None)
    return both(*nothing, to(f"{path}.cost", Decimal(0)))(plan)


def _for_nothing(plan: Plan) -> Plan:
    path, free = "laid.recut[0]", Decimal(0)
    return both(to(f"{path}.cost", free), to(f"{path}.purchase.cost", free))(plan)


def _unproven(plan: Plan) -> Plan:
    path = "laid.recut[0]"
    return both(to(f"{path}.cost", Decimal(0)), to(f"{path}.purchase", None))(plan)


def _out_of_strip(board: int) -> Edit:
    """Return the ripped last row's piece as what a board's pieces come out of."""
    return to(f"laid.recut[0].boards[{board}].stock", "B7.1")


def _kept(plan: Plan) -> Plan:
    """Return a plan whose strips cut to 100 mm are left as they are, though 102 are wanted."""
    rows = len(plan.laid.rows) - 1
    wider = [to(f"laid.rows[{rows}].width_{end}_mm", 102.0) for end in ("left", "right")]
    pieces = range(len(plan.laid.recut[0].pieces))
    told = [
        to(f"laid.recut[0].pieces[{at}].width_{end}_mm", 102.0)
        for at in pieces
        for end in ("left", "right")
    ]
    return both(*wider, *told)(plan)


def _shed(plan: Plan) -> Plan:
    return to("laid.recut[0].pieces[0].do", "shed")(plan)


def _told(code: str, severity: Severity | None) -> Edit:
    """Return an edit that tells a finding so severely, None for one that drops it."""

    def run(plan: Plan) -> Plan:
        found = (
            evolve(f, severity=severity) if severity and f.code == code else f
            for f in plan.findings
            if severity or f.code != code
        )
        return evolve(plan, findings=tuple(found))

    return run


A_WAY = WayBack(kind="move_fascia", left_mm=0.0, right_mm=0.0, honest=True, told="leave it")
#: Decks corrected once: rows of the ripped deck longer by 90 mm, and with all cut; its rip 2 mm
#: narrower than 100 mm planned, and where it is cut; both ends far out; a row more than is told.
OTHERS: dict[str, tuple[bool, dict[str, object]]] = {
    "longer": (True, {"rows": 3, "row_length_mm": 5090.0}),
    "to buy": (
        True,
        {"rows": 3, "row_length_mm": 5090.0, "cut": ("B4.1", "B5.1", "B6.1", "B7.1")},
    ),
    "rip": (True, {"rows": 3, "left_mm": 6.0, "right_mm": 6.0}),
    "wider": (True, {"rows": 3, "left_mm": 6.0, "right_mm": 6.0, "cut": ("B7.1",)}),
    "far": (False, {"rows": 5, "left_mm": 12.0, "right_mm": -12.0}),
    "miscounted": (
        False,
        {"rows": 3, "left_mm": 90.0, "right_mm": 90.0, "widths_mm": (175.0,) * 10},
    ),
}


@cache
def other(name: str) -> Plan:
    ripped, told = OTHERS[name]
    return read(designed(ripped), **told)


PART = "laid.readings[1]"
FAULTS: tuple[tuple[str, str, Edit], ...] = (
    ("AUD-132", "a reading of another number", to(f"{PART}.number", 3)),
    ("AUD-132", "a reading after fewer rows", to(f"{PART}.reading.rows_laid", 2)),
    ("AUD-132", "more rows told to lie", by("laid.rows_laid", 1)),
    ("AUD-132", "a row left out", without("laid.rows", 2)),
    ("AUD-132", "no reading", to("laid.readings", ())),
    ("AUD-133", "a gap that lies made another", by("laid.readings[0].gaps_left_mm[0]", 0.5)),
    ("AUD-133", "a gap decided made another", by(f"{PART}.to_set_right_mm[0]", 0.5)),
    ("AUD-134", "a row out of its place", by("laid.rows[1].near_left_mm", 0.5)),
    ("AUD-134", "another edge measured", by(f"{PART}.reading.right_mm", 1.0)),
    ("AUD-134", "a row with another mark", to("laid.rows[1].mark", "B9")),
    ("AUD-135", "a gap too wide", by("laid.rows[1].gap_left_mm", 9.0)),
    ("AUD-135", "a gap too narrow", to("laid.rows[1].gap_left_mm", 0.5)),
    ("AUD-135", "a gap off the steps", by("laid.rows[1].gap_right_mm", 0.1)),
    ("AUD-135", "another step", to("laid.step_mm", 1.0)),
    ("AUD-136", "a gap that leaps", by("laid.rows[1].gap_left_mm", 2.0)),
    ("AUD-136", "another change allowed", to("laid.most_change_mm", 3.0)),
    ("AUD-137", "a row too wide", by("laid.rows[0].width_left_mm", 1.0)),
    ("AUD-137", "boards that take more", by(f"{PART}.left.more_mm", 1.0)),
    ("AUD-137", "a row ripped unasked", to("laid.rows[2].ripped", True)),
    ("AUD-138", "an edge nearer than it is", by(f"{PART}.left.off_mm", 1.0)),
    ("AUD-138", "an sd too small", by(f"{PART}.left.by_rule.sd_mm", -0.1)),
    ("AUD-138", "a chance too good", by(f"{PART}.right.as_set.within_2_ratio", 0.1)),
    ("AUD-138", "limits that hold for sure", by(f"{PART}.left.limits_ratio", 0.1)),
    ("AUD-138", "another gap needed", by(f"{PART}.left.needed_gap_mm", 0.01)),
    ("AUD-117", "a row to be longer", by("laid.row_length_mm", 1.0)),
    ("AUD-117", "another target", by("laid.target_mm", 1.0)),
    ("AUD-117", "an end nobody told", by("laid.readings[0].target_left_mm", 1.0)),
    ("AUD-117", "a frame told to end elsewhere", to(f"{PART}.reading.target_left_mm", 903.0)),
    ("AUD-118", "a piece sawn twice", _doubled),
    ("AUD-118", "a board too short", to("laid.recut[0].boards[0].length_mm", 10.0)),
    ("AUD-118", "a board that is longer", by("laid.recut[0].boards[0].length_mm", 10.0)),
    ("AUD-118", "a board that nobody has", to("laid.recut[0].boards[0].stock", "DB99")),
    ("AUD-118", "a piece forgotten", without("laid.recut[0].boards", 0)),
    ("AUD-118", "a piece too long", by("laid.recut[0].boards[0].pieces_mm[0]", 1.0)),
    ("AUD-118", "boards of another article", to("laid.recut[0].what", "frames")),
    ("AUD-120", "no last check", to("laid.checks", (4,))),
    ("AUD-120", "a check after the last row", to("laid.checks", (4, 5, 6))),
    ("AUD-120", "a check of rows that lie", to("laid.checks", (3, 4, 5))),
    ("AUD-140", "another length now", by("laid.recut[0].pieces[0].now_mm", 1.0)),
    ("AUD-140", "a piece that nobody cuts again", without("laid.recut[0].pieces", 0)),
    ("AUD-140", "another length before", by("laid.recut[0].pieces[0].was_mm", 1.0)),
    ("AUD-140", "a piece cut though it is", to("laid.recut[0].pieces[1].do", "cut")),
    ("AUD-140", "a piece that lies", to("laid.recut[0].pieces[0].mark", "B1.1")),
    ("AUD-140", "more trimmed off", by("laid.recut[0].pieces[0].trim_mm", 1.0)),
    ("AUD-119", "another cost", by("laid.recut[0].cost", 1)),
    ("AUD-119", "another bound", _bound),
    ("AUD-118", "a longer piece out of nothing", _unsawn),
    ("AUD-153", "boards out of no purchase", to("laid.recut[0].purchase", None)),
    ("AUD-153", "a purchase without its boards", to("laid.recut[0].boards", ())),
)
#: Faults of decks corrected otherwise than `twice`, by their names in `OTHERS`.
MORE_FAULTS: tuple[tuple[str, str, str, Edit], ...] = (
    ("AUD-118", "longer", "longer rows out of nothing", _unsawn),
    ("AUD-153", "to buy", "a board to buy for nothing", _for_nothing),
    ("AUD-153", "to buy", "a board to buy out of no purchase", _unproven),
    ("AUD-154", "longer", "wider pieces out of a strip", _out_of_strip(0)),
    ("AUD-140", "wider", "a strip to be wider that is kept", _kept),
    ("AUD-140", "longer", "a piece in the shed that nobody cut", _shed),
    ("AUD-140", "rip", "another rip that nobody tells", to("laid.recut", ())),
    ("AUD-155", "rip", "another width", by("laid.recut[0].pieces[0].width_left_mm", 1.0)),
    ("AUD-155", "rip", "no width", to("laid.recut[0].pieces[0].width_right_mm", None)),
    ("AUD-155", "longer", "a width of its own", to("laid.recut[0].pieces[0].width_left_mm", 98.0)),
    ("AUD-156", "far", "no way back", to("laid.ways_back", ())),
    ("AUD-156", "far", "a way back told twice", again("laid.ways_back", 1)),
    ("AUD-156", "far", "no way back for one end", without("laid.ways_back", 2)),
    ("AUD-156", "far", "a way that nobody knows", to("laid.ways_back[0].kind", "shrink")),
    ("AUD-156", "far", "a rip too wide", by("laid.ways_back[0].left_mm", 1.0)),
    ("AUD-156", "far", "a fascia out by less", by("laid.ways_back[1].left_mm", -1.0)),
    ("AUD-156", "far", "an end less short", by("laid.ways_back[2].right_mm", -1.0)),
    ("AUD-156", "far", "other gaps of a row more", by("laid.ways_back[3].right_mm", 60.0)),
    ("AUD-156", "far", "a row less than the last", to("laid.ways_back[3].kind", "fewer_rows")),
    ("AUD-156", "miscounted", "other gaps of a row less", by("laid.ways_back[2].left_mm", 1.0)),
    ("AUD-156", "rip", "a way back for nothing", to("laid.ways_back", (A_WAY,))),
    ("AUD-139", "far", "an end far out for a note", _told("COR-001", Severity.NOTE)),
    ("AUD-139", "far", "an end far out that nobody tells", _told("COR-001", None)),
    ("AUD-157", "miscounted", "a wrong count that nobody tells", _told("COR-002", None)),
    ("AUD-157", "miscounted", "a wrong count for a note", _told("COR-002", Severity.NOTE)),
    ("AUD-157", "miscounted", "wide boards that nobody tells", _told("COR-005", None)),
    ("AUD-157", "miscounted", "wide boards for a note", _told("COR-005", Severity.NOTE)),
)


@pytest.mark.parametrize(
    ("code", "name", "edit"), FAULTS, ids=lambda its: its if isinstance(its, str) else "edit"
)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    found = report(edit(twice()))
    assert code in found, f"{name}: {sorted(found)}"


@pytest.mark.parametrize(("code", "deck", "name", "edit"), MORE_FAULTS)
def test_a_fault_planted_in_another_deck_is_caught(
    code: str, deck: str, name: str, edit: Edit
) -> None:
    found = report(edit(other(deck)))
    assert code in found, f"{name}: {sorted(found)}"


@pytest.mark.parametrize("name", OTHERS)
def test_the_other_decks_are_sound(name: str) -> None:
    assert report(other(name)) == set()


def test_a_strip_may_hold_what_is_no_wider() -> None:
    """The last board has a piece of the ripped row alone, which is as wide as the strip."""
    plan = other("longer")
    assert plan.laid.recut[0].boards[3].pieces == ("B7.1",)
    assert "AUD-154" not in report(_out_of_strip(3)(plan))


def test_a_rip_too_narrow_is_caught() -> None:
    plan = read(designed(ripped=True), 3, 2.0, -2.0)
    assert "AUD-137" in report(
        to("laid.rows[-1].width_left_mm".replace("-1", str(len(plan.laid.rows) - 1)), 20.0)(plan)
    )


def test_a_rip_is_held_against_the_one_told_before() -> None:
    """Row 7 was to be 98 mm wide after the first reading; 6 mm further out leave less."""
    first = other("rip")
    assert report(read(first, 5, 6.0, 6.0, cut=("B7.1",))) == set()
    assert report(read(first, 5, -9.0, 3.0, cut=("B7.1",))) == set()


def test_every_check_has_its_fault() -> None:
    assert {code for code, *_ in (*FAULTS, *MORE_FAULTS)} == OF_LAID
