"""Rows laid anew keep their phase; gaps they get are worked by hand."""

import pytest
from attrs import evolve
from hypothesis import example, given
from hypothesis import strategies as st

from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.surface.model import Moisture
from drylay.upkeep.parts import UpkeepError
from drylay.upkeep.repair import repair, turning
from upkeep.decks import plan_of


def codes(found: object) -> list[str]:
    return [finding.code for finding in found.findings]  # type: ignore[attr-defined]


@example(2, 1, 1500)
@given(st.integers(2, 16), st.integers(1, 4), st.integers(1380, 1520))
def test_new_rows_lie_whole_pitches_from_the_old_ones(first: int, count: int, tenths: int) -> None:
    """S03: boards of 145 at gaps of 5: every near edge is a whole number of 150 from the datum."""
    rows = [f"B{n}" for n in range(first, min(first + count, 20))]
    found = repair(plan_of("S03"), rows=rows, new_width_mm=tenths / 10)
    edges = [row.near_mm for row in found.rows]
    shift = edges[0] % 150
    shift = shift - 150 if shift > 75 else shift
    assert all(abs((edge - shift) % 150) < 0.01 or abs((edge - shift) % 150 - 150) < 0.01
               for edge in edges)  # fmt: skip
    if found.way == "near edges":
        assert shift == 0
    # what the new boards and their gaps take is what the old ones took
    taken = sum(row.width_mm for row in found.rows) + sum(row.after_mm or 0 for row in found.rows)
    assert abs(taken + (found.rows[0].before_mm or 0) - (150 * len(rows) + 5)) < 0.02
    gaps = [gap for row in found.rows for gap in (row.before_mm, row.after_mm) if gap is not None]
    legal = all(4 <= gap <= 8 for gap in gaps)
    assert legal == (found.way != "")
    assert legal == (not codes(found))


def test_gaps_worked_by_hand() -> None:
    """Boards of 143 for 145: near edges in place leave 5 before and 5 + 2 after each."""
    found = repair(plan_of("S03"), rows=["B5", "B6"], new_width_mm=143)
    assert found.way == "near edges"
    laid = [(r.near_mm, r.before_mm, r.after_mm) for r in found.rows]
    assert laid == [(600.0, 5.0, 7.0), (750.0, 7.0, 7.0)]


def test_a_wider_board_is_laid_on_the_old_ones_middle() -> None:
    """146.5 for 145: 3.5 after would break the least gap of 4; on its middle 4.25 is left twice."""
    found = repair(plan_of("S03"), rows=["B5"], new_width_mm=146.5)
    assert found.way == "middles"
    assert [(r.near_mm, r.before_mm, r.after_mm) for r in found.rows] == [(599.25, 4.25, 4.25)]
    assert codes(found) == []


def test_a_gap_beyond_the_limits_is_told_with_its_source() -> None:
    wide = repair(plan_of("S03"), rows=["B5"], new_width_mm=150)
    assert codes(wide) == ["UPK-010"]
    assert (wide.findings[0].measured, wide.findings[0].limit) == (0.0, 4.0)
    assert wide.findings[0].source.kind == "brief"  # the reference brief sets its gaps itself
    narrow = repair(plan_of("S03"), rows=["B5"], new_width_mm=120)
    assert set(codes(narrow)) == {"UPK-011"}
    assert narrow.way == ""


def test_old_boards_that_have_swollen_leave_less() -> None:
    """All boards now 147: the neighbours reach 1 nearer on either side, 4 are left where 5 was."""
    found = repair(plan_of("S03"), rows=["B5"], new_width_mm=145, old_width_mm=147)
    assert [(r.before_mm, r.after_mm) for r in found.rows] == [(4.0, 4.0)]


def damp(plan: Plan) -> Plan:
    assert plan.surface is not None
    moisture = Moisture(movement_per_pct=0.0025, laying_pct=18.0, wettest_pct=24.0,
                        driest_pct=14.0, narrowest_mm=3.0, widest_mm=6.0)  # fmt: skip
    return evolve(plan, surface=evolve(plan.surface, moisture=moisture))


def test_new_boards_settle_to_the_moisture_of_the_old_ones() -> None:
    """145 x 0.0025 x (20 - 12) is 2.9 wider: 147.9; a gap to an old board takes half, 5 - 1.45."""
    found = repair(
        damp(plan_of("S03")), rows=["B5", "B6"], new_width_mm=145, new_pct=12, old_pct=20
    )
    assert found.settled_mm == 147.9
    assert [(r.before_settled_mm, r.after_settled_mm) for r in found.rows] == [
        (3.5, 2.1),
        (2.1, 3.5),
    ]
    wet = repair(damp(plan_of("S03")), rows=["B5", "B6"], new_width_mm=146, new_pct=8, old_pct=28)
    assert "UPK-012" in codes(wet)


def test_at_the_decks_edge_there_is_no_gap() -> None:
    found = repair(plan_of("S03"), rows=["B1"], new_width_mm=144)
    assert (found.rows[0].before_mm, found.rows[0].after_mm) == (None, 6.0)
    assert repair(plan_of("S03"), rows=["B20"], new_width_mm=144).rows[0].after_mm is None


def test_clips_fix_the_gap() -> None:
    found = repair(plan_of("S08"), rows=["B4"], new_width_mm=139)
    assert ("UPK-013", Severity.STOP) in {(f.code, f.severity) for f in found.findings}


@pytest.mark.parametrize(
    ("more", "wanted"),
    [({"rows": ["B99"]}, "found B99"), ({"rows": []}, "found none"),
     ({"rows": ["B2", "B5"]}, "side by side"), ({"new_width_mm": 5}, "new_width_mm"),
     ({"new_pct": -1}, "new_pct"), ({"old_width_mm": 900}, "old_width_mm")],
)  # fmt: skip
def test_what_makes_no_sense_is_refused(more: dict[str, object], wanted: str) -> None:
    asked: dict[str, object] = {"rows": ["B4"], "new_width_mm": 145}
    with pytest.raises(UpkeepError, match=wanted):
        repair(plan_of("S03"), **{**asked, **more})  # type: ignore[arg-type]


def test_only_rows_of_the_field_on_a_rectangle_are_mended_by_rule() -> None:
    with pytest.raises(UpkeepError, match="a deck of boards on a rectangle"):
        repair(plan_of("S12"), rows=["B4"], new_width_mm=145)
    plan = plan_of("S03")
    assert plan.surface is not None
    first, *rest = plan.surface.rows
    edged = evolve(plan, surface=evolve(plan.surface, rows=(evolve(first, border=True), *rest)))
    with pytest.raises(UpkeepError, match="rows of the field"):
        repair(edged, rows=["B1"], new_width_mm=145)
    with pytest.raises(UpkeepError, match="rows of one width"):
        repair(plan_of("S15"), rows=["B25", "B26"], new_width_mm=139)


def test_which_boards_may_be_turned() -> None:
    plan = plan_of("S03")
    assert plan.surface is not None
    assert plan.work is not None
    asked = turning(plan, "B4.1")
    assert (asked.may, codes(asked)) == (None, ["UPK-015"])
    smooth = evolve(plan, work=evolve(plan.work, face_up="grooved"))
    assert turning(smooth, "B4.1").may is True
    insert = evolve(plan, surface=evolve(plan.surface, groove_mm=8.0))
    assert (turning(insert, "B4.1").may, codes(turning(insert, "B4.1"))) == (False, ["UPK-014"])
    hollow = turning(plan_of("S08"), "B4.1")
    assert (hollow.may, "hollow" in hollow.why) == (False, True)
    with pytest.raises(UpkeepError, match="B99"):
        turning(plan, "B99.1")
    assert turning(plan_of("S12"), "B4.1").may is None
    fixings = plan_of("S08").fixings
    assert fixings is not None
    solid = evolve(plan_of("S08"), fixings=evolve(fixings, end_caps=None))
    assert "clips" in turning(solid, "B4.1").why
