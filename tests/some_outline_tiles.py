"""Random briefs of tiles on pads over an outline, by seed: shapes, angles, openings, levels.

Shapes are those of `some_outlines`, boards left out. Some ask for what does not go together: a
hatch whose tiles are cut, an opening off the deck; these are to be blocked.
"""

from random import Random
from typing import Any

import drylay
from drylay.brief.model import Brief
from some_outlines import SHAPES, Corner, Sections, shape_of

TILES = ("TT-600", "TT-600", "TT-900", "TT-WOOD")


def some_outline_tiles(seed: int, *, most_mm: int = 6_000) -> Brief:
    """Return a brief of some deck of tiles on an outline; the same for the same seed."""
    return drylay.read_brief(tile_sections(seed, most_mm=most_mm))


def tile_sections(seed: int, *, most_mm: int = 6_000) -> Sections:
    """Return such a brief as plain data."""
    dice = Random(seed)
    shape = SHAPES[seed % len(SHAPES)]
    corners = shape_of(dice, shape, most_mm)
    if dice.random() < 0.3:  # sides that whole tiles and joints come to
        corners = [(round(x / 604) * 604 - 4 * (x > 0), y) for x, y in corners]
    outline: Sections = {"points": _points(dice, corners)}
    openings = _openings(dice, corners)
    if openings:
        outline["openings"] = openings
    sections: Sections = {
        "title": f"{shape} tiles {seed}",
        "outline": outline,
        "board": {
            "article": dice.choice(TILES),
            "support": "pads",
            "run": dice.choice(["along", "across"]),
        },
        "groundwork": {"packer": dice.choice(["PD-28", "PD-40"])},
        "cutting": {"kerf_mm": dice.choice([0, 2, 3])},
    }
    if dice.random() < 0.25:
        sections["laying"] = {"angle_deg": dice.choice([45, 30, 12.5, 135])}
        sections["board"].pop("run")
    if dice.random() < 0.3:
        sections["levels"] = _levels(dice, corners)
    if dice.random() < 0.2:
        sections["groundwork"] |= {"strip_mm": 60, "gravel": "GR-20", "fabric": "GF-2"}
    return sections


def _points(dice: Random, corners: list[Corner]) -> list[Sections]:
    points = []
    for at, (x, y) in enumerate(corners):
        after = corners[(at + 1) % len(corners)]
        house = y == 0 and after[1] == 0 and at == 0
        side = "house" if house else dice.choice(["open", "open", "boundary", "pool"])
        points.append({"along_mm": x, "across_mm": y, "side": side})
    return points


def _openings(dice: Random, corners: list[Corner]) -> list[Sections]:
    found: list[Sections] = []
    wide, deep = max(x for x, _ in corners), max(y for _, y in corners)
    for _ in range(dice.choice([0, 0, 1, 1, 2])):
        kind = dice.choice(["post", "post", "tree", "hatch", "pool"])
        each: Sections = {
            "kind": kind,
            "along_mm": dice.randint(wide // 4, wide * 3 // 4),
            "across_mm": dice.randint(deep // 5, deep * 2 // 5),
        }
        if kind == "tree":
            each |= {"trunk_mm": dice.randint(80, 250), "years": dice.randint(5, 20)}
        else:
            least, most = {"post": (70, 140), "hatch": (300, 600), "pool": (400, 900)}[kind]
            each |= {
                "size_along_mm": dice.randint(least, most),
                "size_across_mm": dice.randint(least, most),
            }
        found.append(each)
    return found


def _levels(dice: Random, corners: list[Corner]) -> dict[str, Any]:
    wide, deep = max(x for x, _ in corners), max(y for _, y in corners)
    points = [
        {"along_mm": x, "across_mm": y, "level_mm": -62 - dice.choice([0, 3, 6])}
        for x in (0, wide)
        for y in (0, deep)
    ]
    return {"deck_top_mm": 0, "points": points}
