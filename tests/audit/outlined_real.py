"""Real plans of decks on an outline, planned once each: an L with all there is, S10 and S12."""

import tomllib
from functools import cache

import drylay
from audit.real import stock
from drylay.plan.model import Plan
from end_to_end.outlined import reference_plan
from outlined_gardens import planned

GARDEN = """
title = "L round a post"

[outline]
points = [
 { along_mm = 0, across_mm = 0, side = "house" },
 { along_mm = 4700, across_mm = 0, faced = true },
 { along_mm = 4700, across_mm = 2400, faced = true },
 { along_mm = 3500, across_mm = 2400, faced = true },
 { along_mm = 3500, across_mm = 3000, faced = true },
 { along_mm = 3000, across_mm = 3500 },
 { along_mm = 0, across_mm = 3500 },
]
openings = [
 { kind = "post", along_mm = 1500, across_mm = 1200, size_along_mm = 110, size_across_mm = 110 },
 { kind = "hatch", along_mm = 3900, across_mm = 1300, size_along_mm = 450, size_across_mm = 450 },
]

[board]
article = "DB-28-145"

[gap]
preferred_mm = 5
least_mm = 4
most_mm = 8

[frame]
article = "FT-45-145"

[fascia]
article = "FA-28-145"

[cutting]
kerf_mm = 3

[fixings]
screw = "DS-45-70"
coach_screw = "CS-8-120"
frame_screw = "FS-60-90"
fascia_screw = "WS-50-60"
"""


WEDGE = """
[outline]
points = [
 { along_mm = 0, across_mm = 0, side = "house" },
 { along_mm = 3060, across_mm = 0, faced = true },
 { along_mm = 2860, across_mm = 2900, faced = true },
 { along_mm = 0, across_mm = 2900 },
]

[laying]
angle_deg = 90
"""


@cache
def wedge() -> Plan:
    """Return a deck whose boards end in long tips, sawn along a faced side that leans."""
    asked = tomllib.loads(GARDEN)
    brief = drylay.read_brief({**asked, "title": "Wedge", **tomllib.loads(WEDGE)})
    return drylay.design(brief, stock=stock("hobbleden"))


@cache
def leaning() -> Plan:
    """Return a deck with a joist sawn at 76 degrees, along a side that leans 1 in 4."""
    corners = ((0, 0, "house"), (2400, 0, "open"), (2800, 1600, "open"), (0, 1600, "open"))
    return planned(outline={"points": [{"along_mm": x, "across_mm": y, "side": side}
                                       for x, y, side in corners]})  # fmt: skip


@cache
def garden() -> Plan:
    """Return an L with a splay, a post, a hatch and fascia on three sides."""
    brief = drylay.read_brief(tomllib.loads(GARDEN))
    return drylay.design(brief, stock=stock("hobbleden"))


@cache
def long_joists() -> Plan:
    """Return a deck of twelve metres, its joists in two lengths and in three by turns."""
    corners = ((0, 0), (2400, 0), (2400, 12_000), (0, 12_000))
    brief = drylay.read_brief(
        {
            "title": "Long joists",
            "outline": {"points": [{"along_mm": x, "across_mm": y} for x, y in corners]},
            "board": {"article": "DB-28-145"},
            "frame": {"article": "FT-45-145"},
            "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
        }
    )
    return drylay.design(brief, stock=stock("hobbleden"))


@cache
def reference(name: str) -> Plan:
    """Return the plan of a reference brief."""
    return reference_plan(name)
