"""Random briefs of all five families from one merchant's stock, by seed.

Each draws among the options its family knows: supports of joints, clips, climate, border, groove,
tiles on pads or on a frame. Some ask for what does not go together: these are to be blocked.
"""

import re
from pathlib import Path
from random import Random
from typing import Any

import drylay
from drylay.brief.model import WAYS_OUT, Brief
from drylay.materials.stock_model import Catalogue
from some_decks import SIDES

STOCK = Path(__file__).parents[1] / "catalogs" / "sallowby.toml"
#: Boards of each family and the deck screw that suits their thickness.
BOARDS = {
    "hardwood": (("HI-21-120", 60), ("HI-21-145", 60), ("HO-25-145", 70), ("HP-21-90", 60)),
    "solid": (("CS-23-140", 60),),
    "hollow": (("CH-23-140", 60),),
    "insertboard": (("TB-28-145", 70), ("TB-33-145", 90)),
    "softwood": (("SB-28-145", 70),),
}
TILES = ("PT-600-600-20", "PT-900-600-20", "PT-1200-300-20", "ST-600-400-30", "ST-500-500-40",
         "WT-500-500-32", "WT-300-300-30")  # fmt: skip
KINDS = (*BOARDS, "pads", "tiles on a frame")
#: How low and how high packers and pedestals reach.
REACH = {"SP-10": (10, 10), "SPD-17-30": (17, 30), "SPD-28-45": (28, 45), "SPD-40-70": (40, 70),
         "SPD-65-120": (65, 120)}  # fmt: skip
Sections = dict[str, Any]


def sold() -> Catalogue:
    """Return what all these decks are bought from."""
    return drylay.load_catalogue(STOCK)


def some_five(seed: int, *, most_mm: int = 9_000) -> Brief:
    """Return a brief of some family; the same for the same seed. Seven seeds draw all kinds."""
    dice = Random(seed)
    kind = KINDS[seed % len(KINDS)]
    cover = _cover(dice, most_mm if kind in BOARDS else min(most_mm, 4_000), kind)
    sections: Sections = {
        "title": f"{kind} {seed}",
        "cover": cover,
        "use": dice.choice(["dwelling", "dwelling", "public"]),
        "units": dice.choice(["metric", "metric", "imperial"]),
        "cutting": {"kerf_mm": dice.choice([0, 2, 3, 4]), "end_trim_mm": dice.choice([0, 0, 5])},
    }
    sections |= _boards(dice, kind) if kind in BOARDS else _tiles(dice, kind)
    if dice.random() < 0.4:
        sections |= _ground(dice, sections)
    return drylay.read_brief(sections)


def _cover(dice: Random, most_mm: int, kind: str) -> Sections:
    small = dice.random() < 0.1
    along = dice.randint(200, 1_200) if small else dice.randint(1_200, most_mm)
    across = dice.randint(200, 700) if small else dice.randint(700, 3_600)
    if dice.random() < 0.3:
        along, across = across, along
    cover: Sections = {"along_mm": along, "across_mm": across}
    if not small:
        whole = kind in ("solid", "hollow", "insertboard")  # fixed gaps, or no board ripped
        for key in ("grow_along", "shrink_along", "grow_across", "shrink_across"):
            cover[f"{key}_mm"] = dice.choice([50, 80, 150] if whole else [0, 40, 90])
    return cover


def _boards(dice: Random, kind: str) -> Sections:
    article, long_mm = dice.choice(BOARDS[kind])
    in_a4 = kind in ("hardwood", "softwood", "insertboard")  # no clip is sold in it
    exposure = "coast" if dice.random() < (0.25 if in_a4 else 0.02) else "inland"
    sections: Sections = {
        "board": {"article": article, "run": dice.choice(["along", "along", "across"]),
                  "may_turn": dice.random() < 0.2},
        "rows": _rows(dice),
        "frame": {"article": "UT-45-145", "lines": dice.choice(["fewest", "fewest", "cheapest"])},
        "joints": _joints(dice),
        "fixings": _fixings(dice, kind, long_mm, "A4" if exposure == "coast" else "A2"),
        "climate": _climate(dice, kind),
        "finish": _finish(dice, kind),
        "site": {"exposure": exposure},
    }  # fmt: skip
    if dice.random() < 0.2:
        sections["board"] |= {"ends": "trim_in_line", "trim_allowance_mm": 15}
    if dice.random() < 0.3:
        sections["frame"]["most_centres_mm"] = dice.choice([280, 320, 350])
    if dice.random() < 0.4:
        sides = [side for side in SIDES if dice.random() < 0.5]
        fascia = "HF-21-145" if kind == "hardwood" else "UF-28-145"
        sections["fascia"] = {"sides": sides, "article": fascia} if sides else {}
    if dice.random() < (0.35 if in_a4 else 0.03):
        sections["border"] = _border(dice, article)
    if dice.random() < 0.2:
        sections["lights"] = {"count": dice.randint(1, 5), "side": dice.choice(SIDES),
                              "hole_mm": 45, "depth_mm": 60}  # fmt: skip
    return sections


def _rows(dice: Random) -> Sections:
    prefer = list(WAYS_OUT)
    dice.shuffle(prefer)
    rows: Sections = {"prefer": prefer} if dice.random() < 0.3 else {}
    return rows | ({"may_rip": False} if dice.random() < 0.2 else {})


def _joints(dice: Random) -> Sections:
    drawn: Sections = {
        "support": dice.choice(["single", "batten", "pair", "pair"]),
        "end_gap_mm": dice.choice([3, 5, 8]),
        "least_supports": dice.choice([2, 3, 4]),
        "stagger_bays": dice.choice([0, 1, 2, 3]),
        "most_per_row": dice.choice([0, 1, 3]),
        "price_each": dice.choice(["0.00", "1.50", "12.00"]),
    }
    return {key: value for key, value in drawn.items() if dice.random() < 0.35}


def _fixings(dice: Random, kind: str, long_mm: int, metal: str) -> Sections:
    deck = f"DX-{'55' if long_mm == 90 else '50'}-{long_mm}"
    fixings = {
        "screw": f"{deck}-{'A2' if long_mm == 90 else metal}",  # the longest comes in A2 alone
        "coach_screw": f"CX-8-120-{metal}",
    }
    if dice.random() < 0.8:
        fixings["frame_screw"] = f"FX-60-100-{metal}"
    if dice.random() < (0.6 if metal == "A2" else 0.05):
        fixings["fascia_screw"] = "WX-50-60-A2"
    if dice.random() < (0.25 if metal == "A2" else 0.02):
        fixings["hanger"] = "HH-45-108-A2"
    clipped = {"solid": 0.95, "hollow": 0.97}.get(kind, 0.03)
    if dice.random() < clipped:
        fixings["clip"] = "CL-ROW-5"
        fixings |= {"starter_clip": "CL-START"} if dice.random() < 0.8 else {}
    if kind == "hollow" and dice.random() < 0.8:
        fixings["end_cap"] = "CL-CAP-23"
    return fixings


def _climate(dice: Random, kind: str) -> Sections:
    if kind in ("solid", "hollow"):
        drawn = {"laying_c": dice.choice([2, 12, 25]), "hottest_board_c": dice.choice([45, 60]),
                 "coldest_board_c": dice.choice([-15, 0])}  # fmt: skip
        told = 0.6 if dice.random() < 0.1 else 1.0  # without a laying day no end gap is known
    else:
        drawn = {"laying_pct": dice.choice([14, 16, 19]), "wettest_pct": dice.choice([20, 24]),
                 "driest_pct": dice.choice([9, 12])}  # fmt: skip
        if dice.random() < 0.2:  # neither says anything without the other
            return {"laying_c": 18, "laying_humidity_ratio": dice.choice([0.65, 0.8])}
        told = 0.5
    return {key: value for key, value in drawn.items() if dice.random() < told}


def _finish(dice: Random, kind: str) -> Sections:
    finish: Sections = {"preserver": "EP-SALLOW"} if dice.random() < 0.7 else {}
    if kind == "hardwood":
        finish |= {"end_wax": "EW-SALLOW"} if dice.random() < 0.7 else {}
    if kind in ("hardwood", "softwood") and dice.random() < 0.5:
        finish |= {"article": "HW-OIL"}
    return finish


def _border(dice: Random, article: str) -> Sections:
    kinds = ["hardwood", "insertboard", "softwood"] * 6 + ["solid", "hollow"]
    border: Sections = {"article": dice.choice([
        code for kind in kinds for code, _ in BOARDS[kind] if code != article
    ])}  # fmt: skip
    border |= {"rows": 2} if dice.random() < 0.3 else {}
    return border | ({"screw": "DX-55-90-A2"} if dice.random() < 0.5 else {})


def _tiles(dice: Random, kind: str) -> Sections:
    support = "pads" if kind == "pads" else "frame"
    board = {"article": dice.choice(TILES), "support": support, "may_turn": dice.random() < 0.5,
             "run": dice.choice(["along", "across"])}  # fmt: skip
    sections: Sections = {"board": board, "rows": {"prefer": dice.sample(
        ["as_wished", "shrink", "grow", "rip_both", "rip_last", "turn"], 6)}}  # fmt: skip
    if support == "pads":
        pad = dice.choice(["SPD-17-30", "SPD-28-45", "SPD-40-70", "SPD-65-120"])
        return {**sections, "groundwork": {"packer": pad}}
    sections["frame"] = {"article": dice.choice(["UT-45-145", "UT-45-95"])}
    sections["fixings"] = {"coach_screw": "CX-8-120-A2", "frame_screw": "FX-60-100-A2"}
    sections["finish"] = {"preserver": "EP-SALLOW"} if dice.random() < 0.7 else {}
    sides = [side for side in SIDES if dice.random() < 0.3]
    return {**sections, **({"fascia": {"sides": sides, "article": "UF-28-145"}} if sides else {})}


def _ground(dice: Random, sections: Sections) -> Sections:
    """Return levels and ground work: ground mostly within reach of the packers or pads named."""
    cover, board = sections["cover"], sections["board"]
    packing = sections.get("groundwork", {}).get("packer") or dice.choice(["", *REACH])
    low, high = REACH.get(packing, (0, 0))
    *_, thick_mm = (int(part) for part in re.findall(r"\d+", board["article"]))
    thick_mm = thick_mm if "support" in board else int(board["article"].split("-")[1])
    frame_mm = int(sections["frame"]["article"][-3:].strip("-")) if "frame" in sections else 0
    ground_mm = -(thick_mm + frame_mm + dice.choice([low, (low + high) // 2, high]))
    falls = [0, 2, 5] if packing else [0, 0, 0, 5]
    points = [
        {"along_mm": x, "across_mm": y, "level_mm": ground_mm - dice.choice(falls)}
        for x in (0, max(cover["along_mm"], 600)) for y in (0, max(cover["across_mm"], 600))
    ]  # fmt: skip
    levels: Sections = {"deck_top_mm": 0, "points": points, "outfall": dice.random() < 0.9}
    drawn: Sections = {"fabric": "SF-2", "strip_mm": dice.choice([60, 100])}
    often = 0.6 if frame_mm else 0.15  # pads mostly stand on a slab
    ground = {key: value for key, value in drawn.items() if dice.random() < often}
    ground |= {"packer": packing} if packing else {}
    return {"levels": levels, "groundwork": ground | (
        {"gravel": "SG-20"} if dice.random() < 0.2 else {})}  # fmt: skip
