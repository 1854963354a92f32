"""What briefs wish of frames on an outline, where boards lie at an angle to the joists."""

import pytest

from drylay.findings import Severity
from outlined_gardens import planned

POINTS = [
    {"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
    for n, (x, y) in enumerate(((0, 0), (2400, 0), (2400, 2000), (0, 2000)))
]


@pytest.mark.parametrize("angle_deg", [20, 30, 45, 60])
def test_centres_wished_as_the_family_has_them_are_not_wider(angle_deg: int) -> None:
    """400 x the sine, 346.41 at 60 degrees, was held against 346.4 and stopped the plan."""
    plan = planned(
        outline={"points": POINTS}, groundwork={}, laying={"angle_deg": angle_deg},
        frame={"article": "FT-45-145", "most_centres_mm": 400},
    )  # fmt: skip
    assert [str(each) for each in plan.findings if each.severity is Severity.STOP] == []
