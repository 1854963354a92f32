"""A deck of tiles on an outline to plant faults in: an L with a splay, a post and a hatch."""

from functools import cache
from typing import Any

from drylay.audit.model import Witness
from drylay.brief.codec import brief_digest
from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.materials.lookup import catalogue_digest
from drylay.plan.model import Plan
from drylay.planner.audited import _cautions, _rulings
from drylay.planner.design import design
from drylay.planner.left_out import not_checked
from tile_family import tile_families, yard

CORNERS = ((0, 0), (6000, 0), (6000, 2600), (5200, 4000), (3000, 4000), (3000, 2500), (0, 2500))
OPENINGS: tuple[dict[str, Any], ...] = (
    {"kind": "post", "along_mm": 1500, "across_mm": 1200, "size_along_mm": 100,
     "size_across_mm": 100},
    {"kind": "hatch", "name": "drain", "along_mm": 4500, "across_mm": 1200, "size_along_mm": 450,
     "size_across_mm": 600},
)  # fmt: skip
LEVELS: dict[str, Any] = {
    "deck_top_mm": 0,
    "points": [
        {"along_mm": x, "across_mm": y, "level_mm": z}
        for x, y, z in ((0, 0, -50), (6000, 0, -50), (6000, 4000, -58), (0, 4000, -58))
    ],
}


def outlined_tile_brief(
    corners: tuple[tuple[float, float], ...] = CORNERS,
    openings: tuple[dict[str, Any], ...] = (),
    **sections: Any,
) -> Brief:
    """Return a brief for tiles on pads over an outline, the first side the house's."""
    points = [
        {"along_mm": x, "across_mm": y, "side": "open" if at else "house"}
        for at, (x, y) in enumerate(corners)
    ]
    outline: dict[str, Any] = {"points": points}
    if openings:
        outline["openings"] = list(openings)
    plain: dict[str, Any] = {
        "title": "Tiles on an outline",
        "outline": outline,
        "board": {"article": "TT-600", "support": "pads"},
        "groundwork": {"packer": "PD-28"},
        "cutting": {"kerf_mm": 3},
    }
    for name, keys in sections.items():
        plain[name] = {**plain.get(name, {}), **keys}
    return read_brief(plain)


def whole_brief() -> Brief:
    return outlined_tile_brief(openings=OPENINGS, levels=LEVELS)


@cache
def outlined_tiles() -> Plan:
    return design(whole_brief(), stock=yard(), families=tile_families())


def outlined_tile_witness() -> Witness:
    brief, stock, families, plan = whole_brief(), yard(), tile_families(), outlined_tiles()
    return Witness(
        brief=brief,
        stock=stock,
        rulings=_rulings(plan, brief, stock, families),
        brief_digest=brief_digest(brief),
        stock_digest=catalogue_digest(stock),
        cautions=_cautions(brief, stock, families),
        not_checked=not_checked(brief),
    )
