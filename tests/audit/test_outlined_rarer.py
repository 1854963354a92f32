"""More of what few plans lead checks on outlines to: lines that pass by, rows without a way."""

from audit.edits import at
from audit.outlined_planting import board
from audit.outlined_real_faults import bordered
from audit.outlined_sample import outlined_plan
from audit.planting import to
from drylay.audit.outlined_joints import jointed_pieces_hold
from drylay.audit.outlined_rows import CHECKS
from drylay.audit.outlined_seams import stretches_under
from drylay.audit.outlined_strips import _met

SQUARE = ((0, 0), (32_000, 0), (32_000, 32_000), (0, 32_000))


def test_a_line_past_a_corner_is_under_nothing() -> None:
    """It begins left of the square and ends below it, 50 mm off the corner all the way."""
    assert list(stretches_under((-32_000, 16_000), (16_000, -32_000), SQUARE)) == []
    assert list(stretches_under((-32_000, 16_000), (64_000, 16_000), SQUARE)) != []


def test_a_hole_beyond_a_sides_end_does_not_meet_it() -> None:
    hole = ((48_000, -3_200), (51_200, 3_200), (44_800, 3_200))
    assert list(_met(((0, 0), (32_000, 0)), hole)) == []
    assert len(list(_met(((0, 0), (64_000, 0)), hole))) == 2


def test_a_whole_border_board_at_a_joint_lies_in_no_mitre() -> None:
    plan = board("K1.1", from_member="R1")(bordered())
    assert not [each for each in jointed_pieces_hold(plan) if "mitre" in each.message]


def test_a_row_without_a_way_is_as_wide_as_told() -> None:
    plan = outlined_plan()
    rows = {code: check for code, _, check in CHECKS}
    lost = to("laying.rows[0].end", at(plan, "laying.rows[0].start"))(plan)
    assert not [each for each in rows["AUD-765"](lost) if "first_row_mm" in each.message]
