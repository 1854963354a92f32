"""Random briefs for tiles, by seed: on pads or on a frame, whole or cut, level or not."""

from random import Random
from typing import Any

from drylay.brief.model import Brief
from tile_family import FRAME, tile_brief


def some_tiles(seed: int) -> Brief:
    """Return a brief for a deck of some tiles; the same for the same seed."""
    dice = Random(seed)
    along, across = _size(dice, 4_000), _size(dice, 3_000)
    sections: dict[str, Any] = {"cover": _changes(dice, along, across), "board": _board(dice)}
    if dice.random() < 0.5:
        sections |= _on_a_frame(dice)
    if dice.random() < 0.3:
        sections["groundwork"] = {"strip_mm": 60, "gravel": "GR-20", "fabric": "GF-2"}
    if dice.random() < 0.4:
        sections["levels"] = _levels(dice, along, across)
    sections["cutting"] = {"kerf_mm": dice.choice([0, 2, 3])}
    return tile_brief(along, across, **sections)


def _size(dice: Random, most: int) -> float:
    whole = 604 * dice.randint(1, most // 604) - 4
    return float(dice.choice([whole, dice.randint(300, most), dice.randint(3000, 10 * most) / 10]))


def _changes(dice: Random, along: float, across: float) -> dict[str, Any]:
    found: dict[str, Any] = {"along_mm": along, "across_mm": across}
    for way, size in (("along", along), ("across", across)):
        if dice.random() < 0.4:
            found[f"grow_{way}_mm"] = min(dice.choice([60, 200, 400]), size)
        if dice.random() < 0.4:
            found[f"shrink_{way}_mm"] = min(dice.choice([60, 200, 400]), size - 100)
    return found


def _board(dice: Random) -> dict[str, Any]:
    return {
        "article": dice.choice(["TT-600", "TT-900", "TT-WOOD"]),
        "run": dice.choice(["along", "across"]),
        "may_turn": dice.random() < 0.5,
    }


def _on_a_frame(dice: Random) -> dict[str, Any]:
    sections: dict[str, Any] = {"frame": FRAME}
    if dice.random() < 0.5:
        sides = [side for side in ("house", "right", "front", "left") if dice.random() < 0.5]
        sections["fascia"] = {"sides": sides, "article": "FA-28-145"}
    if dice.random() < 0.5:
        sections["finish"] = {"preserver": "EP-CLEAR"}
    if dice.random() < 0.3:
        sections["fixings"] = {"hanger": "JH-45-108"}
    return sections


def _levels(dice: Random, along: float, across: float) -> dict[str, Any]:
    low = dice.choice([-50, -60, -200])
    points = [
        {"along_mm": x, "across_mm": y, "level_mm": low - dice.choice([0, 5, 9])}
        for x in (0, along)
        for y in (0, across)
    ]
    return {"deck_top_mm": 0, "points": points}
