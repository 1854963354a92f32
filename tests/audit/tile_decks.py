"""Decks of tiles to plant faults in: on pads and on a frame, oblong, of timber, at rest.

Worked by hand, tiles of 600 with joints of 4 and a kerf of 3: 3014 = 4 x 600 + 2 x 297 + 5 x 4, and
2410 = 3 x 600 + 2 x 297 + 4 x 4; larger cuts, beside one tile less, would be of 599, which leaves
the saw no kerf. 2 x 297 + 3 = 597, so that two come out of a tile either way.
"""

from functools import cache
from typing import Any

from drylay.audit.model import Witness
from drylay.brief.codec import brief_digest
from drylay.brief.model import Brief
from drylay.materials.lookup import catalogue_digest
from drylay.plan.model import Plan
from drylay.planner.audited import _cautions, _rulings
from drylay.planner.design import design
from drylay.planner.left_out import not_checked
from tile_family import FRAME, tile_brief, tile_families, yard

LEVEL: dict[str, Any] = {
    "deck_top_mm": 0,
    "points": [
        {"along_mm": x, "across_mm": y, "level_mm": z}
        for x, y, z in ((0, 0, -50), (3014, 0, -50), (3014, 2410, -60), (0, 2410, -60))
    ],
}


def pads_brief() -> Brief:
    return tile_brief(3014, 2410, levels=LEVEL)


def frame_brief() -> Brief:
    return tile_brief(
        3014, 2410, frame=FRAME, finish={"preserver": "EP-CLEAR"},
        fascia={"sides": ["front"], "article": "FA-28-145"},
    )  # fmt: skip


def oblong_brief() -> Brief:
    """Tiles of 900 x 600 that may lie either way."""
    board = {"article": "TT-900", "may_turn": True}
    return tile_brief(3012, 1804, board=board, cover={"grow_along_mm": 700, "grow_across_mm": 400})


def timber_brief() -> Brief:
    """Squares of timber, of which the merchant tells no mass."""
    return tile_brief(2012, 1508, board={"article": "TT-WOOD"})


def resting_brief() -> Brief:
    """A top that follows from the ground, as nobody says where it is to lie."""
    return tile_brief(2412, 1204, levels={"points": LEVEL["points"]})


BRIEFS = {
    "pads": pads_brief,
    "frame": frame_brief,
    "oblong": oblong_brief,
    "timber": timber_brief,
    "resting": resting_brief,
}


@cache
def deck(support: str) -> Plan:
    return design(BRIEFS[support](), stock=yard(), families=tile_families())


def witness(support: str) -> Witness:
    brief, stock, families, plan = BRIEFS[support](), yard(), tile_families(), deck(support)
    return Witness(
        brief=brief,
        stock=stock,
        rulings=_rulings(plan, brief, stock, families),
        brief_digest=brief_digest(brief),
        stock_digest=catalogue_digest(stock),
        cautions=_cautions(brief, stock, families),
        not_checked=not_checked(brief),
    )
