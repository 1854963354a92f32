"""The examples of tiles on the brief's page, planned by the family that comes with drylay."""

from functools import cache
from pathlib import Path

import pytest

import drylay
from drylay.plan.model import Plan
from drylay_softwood.family import softwood
from drylay_tiles.family import tiles

ROOT = Path(__file__).parents[2]
FAMILIES = drylay.installed_families(entry_points=(), extra=(tiles(), softwood()))
STOCK = drylay.load_catalogue(ROOT / "catalogs" / "sallowby.toml")


@cache
def example(name: str) -> Plan:
    brief = drylay.read_brief(ROOT / "docs" / "examples" / f"{name}.toml")
    plan = drylay.design(brief, stock=STOCK, families=FAMILIES)
    assert plan.buildable, plan.findings
    assert drylay.audit(plan, brief=brief, stock=STOCK, families=FAMILIES).findings == ()
    return plan


def test_tiles_on_pads_as_the_file_says() -> None:
    """Eight by four of 600 at 4: 8 x 604 - 4 = 4828 by 4 x 604 - 4 = 2412; 9 x 5 + 8 x 4 pads."""
    plan = example("tiles-on-pads")
    assert (plan.surface.cover_along_mm, plan.surface.cover_across_mm) == (4828.0, 2412.0)
    assert (plan.tiling.places, plan.tiling.cut, plan.tiling.pads.count) == (32, 0, 77)
    # the top at -150, tiles of 20: from -170 down to -237 where the slab is highest
    assert plan.tiling.pads.height_least_mm == 67.0
    assert 98.5 <= plan.tiling.pads.height_most_mm <= 99.0  # and to its lowest corner, -269
    # 31 mm over 2420: 1 in 78, as the file says, and nothing to caution
    assert plan.tiling.pads.base_measured_ratio == pytest.approx(31 / 2420, rel=1e-3)
    assert not any(finding.code == "TIL-021" for finding in plan.findings)
    assert not any("silica" in text for text in plan.cautions)


def test_tiles_on_a_frame_as_the_file_says() -> None:
    """Cut alike at both ends: 4400 - 3 x 900 - 4 x 4 = 1684, two of 842; 5 x 604 - 4 = 3016."""
    plan = example("tiles-on-frame")
    columns = [column.length_mm for column in plan.tiling.columns]
    assert columns == [842.0, 900.0, 900.0, 900.0, 842.0]
    assert (plan.surface.rows_depth_mm, plan.tiling.cut, plan.tiling.need) == (3016.0, 10, 25)
    # a joist under each joint, the first in the middle of 842 to 846, then 904 further; between
    offsets = [line.offset_mm for line in plan.supports.lines]
    assert offsets[2:9:2] == [844.0, 1748.0, 2652.0, 3556.0]
    assert plan.supports.centres_mm == 452.0  # (900 + 4) / 2
    assert any("silica" in text for text in plan.cautions)


@pytest.mark.parametrize("name", ["tiles-on-pads", "tiles-on-frame"])
def test_porcelain_weighs_what_the_trade_says(name: str) -> None:
    """46 to 48 kg/m2 at 20 thick. Source: trade figures, from memory."""
    assert 46.0 <= example(name).tiling.mass_kg_m2 <= 48.0
