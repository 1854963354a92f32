"""Random briefs of decks on an outline, by seed: buildable shapes, up to four openings.

Convex, clipped, L, T, U, round a bay, splayed and wedge-shaped outlines, boards at any angle the
family knows, borders, breaker boards, fields; of all families whose boards are laid in rows. Some
ask for what does not go together: these are to be blocked.
"""

import math
from random import Random
from typing import Any

import drylay
from drylay.brief.model import Brief
from some_five import BOARDS

Corner = tuple[int, int]
Sections = dict[str, Any]
SHAPES = ("rectangle", "clipped", "L", "T", "U", "bay", "splay", "wedge", "steps", "convex")
#: Boards and gaps of clipped composite: sides are put where whole rows end.
CLIP_MM, PITCH_MM = 5, 145
FAMILIES = ("softwood", "softwood", "hardwood", "insertboard", "solid", "hollow")


def some_outline(seed: int, *, most_mm: int = 7_000) -> Brief:
    """Return a brief of some deck on an outline; the same for the same seed."""
    return drylay.read_brief(outline_sections(seed, most_mm=most_mm))


def outline_sections(seed: int, *, most_mm: int = 7_000) -> Sections:
    """Return such a brief as plain data."""
    dice = Random(seed)
    shape, family = SHAPES[seed % len(SHAPES)], dice.choice(FAMILIES)
    corners = shape_of(dice, shape, most_mm)
    if family in ("solid", "hollow") and shape != "bay":  # one gap, and no board ripped
        corners = [(x, max(0, round(y / PITCH_MM) * PITCH_MM - CLIP_MM)) for x, y in corners]
    faced = dice.random() < 0.4
    outline: Sections = {"points": _points(dice, corners, faced=faced)}
    openings = _openings(dice, corners)
    if openings:
        outline["openings"] = openings
    sections: Sections = {
        "title": f"{shape} {family} {seed}",
        "outline": outline,
        "laying": _laying(dice, family, bare=not openings),
        **_boards(dice, family, faced=faced),
    }
    if dice.random() < 0.15:
        sections["units"] = "imperial"
    return sections


def shape_of(dice: Random, shape: str, most_mm: int) -> list[Corner]:
    """Return the corners of a shape of a kind, the house along across 0."""
    wide, deep = dice.randint(2_400, most_mm), dice.randint(2_000, max(2_100, most_mm * 6 // 10))
    cut_x, cut_y = dice.randint(900, wide - 1_000), dice.randint(800, deep - 900)
    match shape:
        case "clipped":
            clip = min(wide, deep) // dice.randint(3, 5)
            return [(0, 0), (wide, 0), (wide, deep - clip), (wide - clip, deep), (0, deep)]
        case "L":
            return [(0, 0), (wide, 0), (wide, deep), (cut_x, deep), (cut_x, cut_y), (0, cut_y)]
        case "T":
            x1, x2 = sorted((wide // 4 + dice.randint(0, 200), wide * 3 // 4))
            return [(0, 0), (wide, 0), (wide, cut_y), (x2, cut_y), (x2, deep), (x1, deep),
                    (x1, cut_y), (0, cut_y)]  # fmt: skip
        case "U":
            x1, x2 = wide * 3 // 10, wide * 7 // 10
            return [(0, 0), (wide, 0), (wide, deep), (x2, deep), (x2, cut_y), (x1, cut_y),
                    (x1, deep), (0, deep)]  # fmt: skip
        case "bay":
            x1, bay = wide // 4, min(dice.randint(300, 600), deep // 3)
            return [(0, 0), (x1, 0), (x1 + bay, bay), (wide - x1 - bay // 2, bay),
                    (wide - x1, 0), (wide, 0), (wide, deep), (0, deep)]  # fmt: skip
        case "splay":
            return [(0, 0), (wide, 0), (wide - dice.randint(200, 900), deep), (0, deep)]
        case "wedge":
            return [(0, 0), (wide, 0), (wide, deep), (0, deep - dice.randint(5, deep // 2))]
        case "steps":
            return [(0, 0), (wide, 0), (wide, deep // 2), (wide * 2 // 3, deep // 2),
                    (wide * 2 // 3, deep * 3 // 4), (wide // 3, deep * 3 // 4),
                    (wide // 3, deep), (0, deep)]  # fmt: skip
        case "convex":
            return _round(dice, wide, deep)
    return [(0, 0), (wide, 0), (wide, deep), (0, deep)]


def _round(dice: Random, wide: int, deep: int) -> list[Corner]:
    """Return a half-round deck out from the house, in some chords."""
    sides = dice.randint(4, 7)
    arc = [
        (
            round(wide / 2 + wide / 2 * math.cos(math.pi * at / sides)),
            round(deep * math.sin(math.pi * at / sides)),
        )
        for at in range(sides + 1)
    ]
    return [(0, 0), (wide, 0), *arc[1:-1]]


def _points(dice: Random, corners: list[Corner], *, faced: bool) -> list[Sections]:
    points = []
    for at, (x, y) in enumerate(corners):
        after = corners[(at + 1) % len(corners)]
        house = y <= 600 and after[1] <= 600 and at < len(corners) - 1
        side = "house" if house else dice.choice(["open", "open", "open", "boundary", "pool"])
        points.append({"along_mm": x, "across_mm": y, "side": side, "faced": faced and not house})
    return points


def _openings(dice: Random, corners: list[Corner]) -> list[Sections]:
    count = dice.choice([0, 0, 0, 1, 1, 2, 3, 4])
    found = [_opening(dice, corners) for _ in range(count)]
    return [opening for opening in found if opening is not None]


def _opening(dice: Random, corners: list[Corner]) -> Sections | None:
    """Return an opening well inside the outline; None where no place for it was drawn."""
    kind = dice.choice(["hatch", "tree", "post", "post", "pool"])
    least, most = {"hatch": (300, 500), "post": (70, 140), "pool": (400, 900), "tree": (80, 350)}[
        kind
    ]
    along, across = dice.randint(least, most), dice.randint(least, most)
    reach = max(along, across) // 2 + 260
    wide, deep = max(x for x, _ in corners), max(y for _, y in corners)
    for _ in range(12):
        x, y = dice.randint(0, wide), dice.randint(0, deep)
        if all(inside((x + dx, y + dy), corners) for dx in (-reach, 0, reach)
               for dy in (-reach, 0, reach)):  # fmt: skip
            at: Sections = {"kind": kind, "along_mm": x, "across_mm": y}
            if kind == "tree":
                return at | {"trunk_mm": along, "years": dice.randint(5, 15)}
            return at | {"size_along_mm": along, "size_across_mm": across}
    return None


def inside(place: Corner, corners: list[Corner]) -> bool:
    """Return whether a place lies inside a shape: how often a ray to the right leaves it."""
    x, y = place
    crossed = False
    for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            crossed = not crossed
    return crossed


def _laying(dice: Random, family: str, *, bare: bool) -> Sections:
    angles = [0.0, 0.0, 0.0, 90.0, 90.0, 45.0, 135.0]
    if family == "softwood":
        angles += [30.0, 60.0, dice.randint(31, 89) * 1.0]
    laying: Sections = {"angle_deg": dice.choice(angles)}
    laying["first_row"] = dice.choice(["near", "near", "far"])
    if dice.random() < 0.25:
        laying["border_courses"] = dice.choice([1, 1, 2])
    if dice.random() < 0.2:
        laying["breakers"] = "as_needed"
    elif bare and "border_courses" not in laying and dice.random() < 0.1:
        laying["fields"] = [
            {"from_along_mm": 0, "from_across_mm": 0, "along_mm": 1_500, "across_mm": 9_000,
             "angle_deg": (laying["angle_deg"] + 45) % 180}
        ]  # fmt: skip
    return laying


def _boards(dice: Random, family: str, *, faced: bool) -> Sections:
    article, long_mm = dice.choice(BOARDS[family])
    deck = "DX-55-90" if long_mm == 90 else f"DX-50-{long_mm}"
    fixings: Sections = {"screw": f"{deck}-A2", "coach_screw": "CX-8-120-A2"}
    if dice.random() < 0.8:
        fixings |= {"frame_screw": "FX-60-100-A2", "fascia_screw": "WX-50-60-A2"}
    if dice.random() < 0.2:
        fixings["hanger"] = "HH-45-108-A2"
    if family in ("solid", "hollow"):
        fixings |= {"clip": "CL-ROW-5", "starter_clip": "CL-START"}
    if family == "hollow":
        fixings["end_cap"] = "CL-CAP-23"
    sections: Sections = {
        "board": {"article": article},
        "frame": {"article": "UT-45-145"},
        "fixings": fixings,
        "joints": {"price_each": dice.choice(["0.00", "1.50", "12.00"])},
        "finish": {"preserver": "EP-SALLOW"} if dice.random() < 0.7 else {},
    }
    if family in ("solid", "hollow"):
        sections["climate"] = {"laying_c": 12, "hottest_board_c": 60, "coldest_board_c": -15}
    elif dice.random() < 0.5:
        sections["climate"] = {"laying_pct": dice.choice([14, 16, 19]), "driest_pct": 10}
    if faced:
        sections["fascia"] = {"article": "HF-21-145" if family == "hardwood" else "UF-28-145"}
    return sections
