"""What is to be measured on laying day, and what other days want: oak by moisture, by hand."""

from fractions import Fraction
from functools import cache

import drylay
from drylay.papers.cover_text import moisture_told
from drylay.plan.model import Plan


@cache
def oak() -> Plan:
    brief = drylay.read_brief("docs/examples/hardwood.toml")
    return drylay.design(brief, stock=drylay.load_catalogue("catalogs/sallowby.toml"))


def test_gaps_of_drier_and_wetter_oak_by_hand() -> None:
    """Width 145, 0.0037 a per cent (Wood Handbook 13-5, white oak), 22 % at the wettest, 2 open.

    At 14 %: 2 + 145 x 0.0037 x 8 = 6.292; at 16: 5.219; at 20: 3.073; at 22 and more: 2.
    """
    moist = oak().surface.gaps_by_moisture
    assert (moist.laying_pct, moist.wettest_pct, moist.open_least_mm) == (16.0, 22.0, 2.0)
    assert Fraction(repr(moist.movement_per_pct)) == Fraction("0.0037")
    told = {day.laying_pct: day.gap_least_mm for day in moist.others}
    assert (told[14.0], told[16.0], told[20.0], told[22.0], told[24.0]) == (6.3, 5.3, 3.1, 2.0, 2.0)


def test_the_boards_are_held_to_that_moisture_with_a_meter() -> None:
    (task,) = [task for task in oak().work.tasks if task.kind == "boards"]
    assert next(hold.mark for hold in task.holds) == "board_moisture"
    assert "meter" in task.tools
    assert "laid at 16 % moisture" in moisture_told(oak().surface, "metric")


def test_boards_from_the_kiln_never_shrink_after_they_are_laid() -> None:
    """Laid at 12 %, the year's driest 14: the widest gap is the widest as laid; at 22 less 5.365.

    145 x 0.0037 x 10 = 5.365 by the Wood Handbook's coefficient of white oak.
    """
    brief = drylay.read_brief("docs/examples/hardwood.toml")
    dry = brief.replace("climate.driest_pct", 14).replace("climate.laying_pct", 12)
    plan = drylay.design(dry, stock=drylay.load_catalogue("catalogs/sallowby.toml"))
    gaps = [row.gap_mm for row in plan.surface.rows[1:]]
    moisture = plan.surface.moisture
    assert moisture.widest_mm == max(gaps)
    assert min(gaps) - 5.365 - 1 / 320 <= moisture.narrowest_mm <= min(gaps) - 5.365
    assert drylay.audit(plan).findings == ()
