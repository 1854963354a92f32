"""Joist centres that a brief wishes speak of boards square to the joists, at any angle."""

import pytest

import drylay
from outlined_gardens import STOCK, garden


@pytest.mark.parametrize("angle_deg", [0, 45, 60])
@pytest.mark.parametrize("wished_mm", [350, 400, 430])
def test_a_wish_at_an_angle_is_looser_where_it_is_for_square_boards(
    angle_deg: int, wished_mm: int
) -> None:
    """The rule is 400 for square boards of 28: a wish of 400 is as strict at any angle."""
    laying = {"angle_deg": angle_deg}
    brief = drylay.read_brief(
        garden(laying=laying, frame={"article": "FT-45-145", "most_centres_mm": wished_mm})
    )
    stock = drylay.load_catalogue(STOCK)
    plan = drylay.design(brief, stock=stock)
    assert ("MAT-002" in {each.code for each in plan.findings}) == (wished_mm > 400)
    if plan.buildable:
        report = drylay.audit(
            plan, brief=brief, stock=stock, families=drylay.installed_families()
        )  # fmt: skip
        assert [each for each in report.findings if each.severity.name == "STOP"] == []
