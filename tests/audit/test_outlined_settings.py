"""Saw settings of boards in no row: where their way is not to be told they are left to others."""

from audit.outlined_planting import board
from audit.outlined_real_faults import bordered
from audit.outlined_sample import box, outlined_plan, spot
from audit.planting import both, to
from drylay.audit.outlined_settings import set_beside_rows


def test_mitres_of_a_border_are_set_as_they_lie() -> None:
    assert list(set_beside_rows(bordered())) == []


def test_a_side_without_a_way_has_no_settings() -> None:
    plan = to("outline.sides[1].start", spot((0.0, 0.0)))(bordered())
    assert all(flaw.subject != "K1.1" for flaw in set_beside_rows(plan))


def test_breaker_boards_are_set_as_they_lie() -> None:
    """Across boards along the house: square ends, or one that leans by 52 over its 100."""
    across = box(500.0, 0.0, 600.0, 520.0)
    breaker = board("B1.1", kind="breaker", row="", mark="X1", corners=across, shaped=False,
                    start_deg=0.0, end_deg=0.0)  # fmt: skip
    assert list(set_beside_rows(breaker(outlined_plan()))) == []
    leaning = both(breaker, board("X1", end_deg=27.5))
    (flaw,) = set_beside_rows(leaning(outlined_plan()))
    assert (flaw.subject, flaw.measured, flaw.limit) == ("X1", 27.5, 0.0)


def test_a_breaker_board_cut_off_along_its_length_is_left_out() -> None:
    narrow = box(500.0, 0.0, 560.0, 520.0)
    edit = board("B1.1", kind="breaker", row="", mark="X1", corners=narrow, end_deg=30.0)
    assert list(set_beside_rows(edit(outlined_plan()))) == []
