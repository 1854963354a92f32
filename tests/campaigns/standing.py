"""Campaign: random decks that stand, designed and audited with all witnesses.

    python tests/campaigns/standing.py --count 500 --seed 0

Rectangles from 2 to 8 m on slopes, by both design bases, with and without a ledger,
boards either way, every kind of foot and footing, guards, steps and fascia. Nothing may be raised,
no audit may find a stop, in plans that are blocked neither. Prints one line for each kind of
outcome with its first seeds; exit code 1 if anything went wrong.
"""

import argparse
import sys
import traceback
from collections import defaultdict
from pathlib import Path
from random import Random

import drylay
from drylay.audit.model import AuditReport
from drylay.errors import PlannerFault

ROOT = Path(__file__).parents[2]
FAMILIES = drylay.installed_families()
WRONG = ("raised", "audit stop")


def sections_of(seed: int) -> dict:
    """Return a brief for a seed, as plain data."""
    drawn = Random(seed)
    imperial = drawn.random() < 0.35
    along, across = drawn.randrange(2000, 8001, 50), drawn.randrange(1800, 4401, 50)
    top = drawn.randrange(-300, -99, 10)
    near = top - drawn.randrange(420, 900, 10)
    falls = [drawn.choice([0, drawn.randrange(-60, 500, 10)]) for _ in range(3)]
    corners = ((-1500, -100), (along + 1500, -100), (along + 1500, across + 3000),
               (-1500, across + 3000))  # fmt: skip
    levels = (near, near - falls[0] // 3, near - falls[1], near - falls[2])
    run = drawn.choice(["along", "along", "across"])
    brief: dict = {
        "title": f"standing {seed}",
        "units": "imperial" if imperial else "metric",
        "cover": {"along_mm": along, "across_mm": across, "shrink_along_mm": 60,
                  "shrink_across_mm": 60, "grow_across_mm": 60},
        "board": {"article": "N54X6" if imperial else "DB-28-145", "run": run},
        "frame": {"article": "N2X8" if imperial else "FT-45-145"},
        "fixings": _fixings(imperial),
        "house": {"wall": drawn.choice(["solid masonry", "concrete", "veneer", "framed"]),
                  "wall_gap_mm": 10},
        "levels": {"deck_top_mm": top, "lowest_mm": min(levels) - 50, "outfall": True,
                   "points": [{"along_mm": x, "across_mm": y, "level_mm": z}
                              for (x, y), z in zip(corners, levels, strict=True)]},
        "site": {"region": "north-america" if imperial else drawn.choice(
            ["united-kingdom", "united-kingdom", "new-zealand"]), "frost_mm": 450},
        "strength": {"basis": "us-allowable-stress" if imperial else "eurocode-5"},
        "raised": _raised(drawn, imperial=imperial),
        "guards": {"infill": "balusters"},
    }  # fmt: skip
    if Random(f"joists {seed}").random() < 0.4:  # drawn apart: older seeds stay what they were
        brief["raised"]["joists"] = "between"
    if drawn.random() < 0.3:
        brief["strength"]["board_class"] = "SP No.2" if imperial else "C16"
    if drawn.random() < 0.5:
        brief["steps"] = {"side": drawn.choice(["front", "left", "right"]), "width_mm": 900}
    brief["guards"] |= _feet(Random(-seed - 1), imperial=imperial)
    _faced(brief, Random(f"fascia {seed}"), imperial=imperial)
    if drawn.random() < 0.1:
        brief["use"] = drawn.choice(["balcony", "crowd", "hot tub", "public"])
    return brief


def _fixings(imperial: bool) -> dict:
    if imperial:
        return {"screw": "NS10-3", "coach_screw": "NC516-5", "frame_screw": "NF14-3",
                "hanger": "NJH-28"}  # fmt: skip
    return {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90",
            "hanger": "JH-45-108"}  # fmt: skip


def _faced(brief: dict, drawn: Random, *, imperial: bool) -> None:
    """Give one brief in three fascia on some sides, and mostly screws for it."""
    if drawn.random() < 0.67:
        return
    sides = [side for side in ("house", "right", "front", "left") if drawn.random() < 0.6]
    brief["fascia"] = {"sides": sides, "article": "N1X8F" if imperial else "FA-28-145"}
    if drawn.random() < 0.8:
        brief["fixings"]["fascia_screw"] = "NT8-2" if imperial else "WS-50-60"


def _feet(drawn: Random, *, imperial: bool) -> dict:
    """Return what holds guards' posts, of two in three briefs; a key left out of some."""
    if drawn.random() < 0.33:
        return {}
    posts = ("N4X4", "N6X6") if imperial else ("PT-100-C16", "PT-100-C24")
    bolts = ("1/2 in A307", "5/8 in A307") if imperial else ("M12 4.6", "M16 8.8")
    foot: dict = {
        "post_article": drawn.choice(posts),
        "bolt": drawn.choice(bolts),
        "washer_mm": drawn.choice([50, 60, 70, 76.2]),
        "upper_bolt_mm": drawn.choice([60, 65, 70]),
        "bolts_apart_mm": drawn.choice([60, 76.2, 80, 100]),
    }
    if drawn.random() < 0.2:
        foot["post_spacing_mm"] = drawn.choice([300, 600, 1200])
    if drawn.random() < 0.1:
        del foot[drawn.choice(sorted(foot))]
    return foot


def _raised(drawn: Random, *, imperial: bool) -> dict:
    metal = drawn.random() < 0.7
    wish: dict = {
        "post": ("N4X4" if imperial else drawn.choice(["PT-100-C16", "PT-100-C24"])),
        "foot": "metal foot" if metal else "in concrete",
        "footing": drawn.choice(["pad", "concreted hole", "concreted hole"]),
        "shape": drawn.choice(["square", "round"]),
        "ledger_fixing": f"anchor {drawn.choice([4, 6, 9])} kN",
        "hold_down_kn": drawn.choice([0, 1, 2.5, 2.5]),
        "concrete": "NCM" if imperial else "CO-POST",
    }
    if not metal:
        wish["embed_mm"] = 400
    if metal and drawn.random() < 0.7:
        wish["post_foot"] = "NPF4" if imperial else "PF-100-50"
    if drawn.random() < 0.4:
        wish["bearer"] = "N2X10" if imperial else drawn.choice(["BT-47-195", "BT-47-220"])
    if drawn.random() < 0.2:
        wish["ledger"] = False
        del wish["ledger_fixing"]
    return wish


def stock_of(brief: dict) -> drylay.Catalogue:
    name = "marrowick" if brief["units"] == "imperial" else "hobbleden"
    return drylay.load_catalogue(ROOT / "catalogs" / f"{name}.toml")


def outcome(seed: int) -> tuple[str, str]:
    """Return what came of a seed, and what is to be said of it."""
    sections = sections_of(seed)
    try:
        stock = stock_of(sections)
        brief = drylay.read_brief(sections)
        plan = drylay.design(brief, stock=stock)
        if not plan.buildable:
            return blocked(plan, drylay.audit(plan, brief=brief, stock=stock, families=FAMILIES))
        report = drylay.audit(plan, brief=brief, stock=stock, families=FAMILIES)
    except PlannerFault as fault:
        return "audit stop", str(fault)
    except drylay.BriefError as error:
        return "refused", str(error)
    except Exception:
        return "raised", traceback.format_exc()
    stops = [str(f) for f in report.findings if f.severity.value == "stop"]
    return ("audit stop", "\n".join(stops)) if stops else ("planned", "")


def blocked(plan: drylay.Plan, report: AuditReport) -> tuple[str, str]:
    """Return what a plan is blocked by, or what the audit has against it beside."""
    codes = " ".join(sorted({f.code for f in plan.findings if f.severity.value == "stop"}))
    ours = [str(f) for f in report.findings if f.severity.value == "stop"
            and f.code.startswith("AUD-")]  # fmt: skip
    return ("audit stop", f"blocked {codes}\n" + "\n".join(ours)) if ours else (
        f"blocked {codes}", "")  # fmt: skip


def main() -> int:
    asked = argparse.ArgumentParser()
    asked.add_argument("--count", type=int, default=100)
    asked.add_argument("--seed", type=int, default=0)
    chosen = asked.parse_args()
    found: dict[str, list[int]] = defaultdict(list)
    for seed in range(chosen.seed, chosen.seed + chosen.count):
        kind, told = outcome(seed)
        found[kind].append(seed)
        if kind in WRONG:
            print(f"seed {seed}: {kind}\n{told}", flush=True)
    for kind, seeds in sorted(found.items(), key=lambda each: -len(each[1])):
        print(f"{len(seeds):6d} {kind}: {', '.join(map(str, seeds[:12]))}")
    return int(any(kind in WRONG for kind in found))


if __name__ == "__main__":
    sys.exit(main())
