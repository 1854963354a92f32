"""Campaign: random valid briefs designed, and audited with all witnesses.

    python tests/campaigns/decks.py --count 2000 --seed 1 [--whole | --tiles | --five]

With `--whole` briefs ask for ground, levels, coatings, hangers and lights too, with `--tiles` for
tiles on pads or on a frame; with `--five` they are for boards and tiles of all five families out of
one merchant's stock, with clips, pairs, battens, climate and borders.

Nothing may be raised, no audit may find a stop, and every order must hold as the proof slip
counts it. Prints one line for each kind of outcome
and the seeds of whatever went wrong; exit code 1 if anything did.
"""

import argparse
import json
import sys
import time
import traceback
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import drylay
from drylay.brief.model import Brief
from drylay.cutting.check_proof import check_order
from drylay.materials.stock_model import Catalogue
from drylay.plugins.model import FamilySet
from some_decks import some_case
from some_five import sold, some_five
from some_tiles import some_tiles
from tile_family import tile_families, yard
from whole_decks import whole_case

WRONG = ("raised", "audit stop", "proof slip")


def case_of(seed: int, most_mm: int, kind: str) -> tuple[Brief, Catalogue, FamilySet]:
    """A brief, what to buy it from, and by whose rules."""
    if kind == "tiles":
        return some_tiles(seed), yard(), tile_families()
    if kind == "five":
        return some_five(seed, most_mm=most_mm), sold(), drylay.installed_families()
    brief, stock = (whole_case if kind == "whole" else some_case)(seed, most_mm=most_mm)
    return brief, stock, drylay.installed_families()


def outcome(seed: int, most_mm: int, kind: str = "") -> tuple[str, str, float]:
    """What came of one case: a word for the count, a longer word if it went wrong."""
    brief, stock, families = case_of(seed, most_mm, kind)
    began = time.perf_counter()
    try:
        plan = drylay.design(brief, stock=stock, families=families)
    except Exception:
        return "raised", traceback.format_exc(), time.perf_counter() - began
    took = time.perf_counter() - began
    report = drylay.audit(plan, brief=brief, stock=stock, families=families)
    stops = [str(f) for f in report.findings if f.severity is drylay.Severity.STOP]
    if plan.buildable and stops:
        return "audit stop", "\n".join(stops), took
    if plan.buildable and (wrong := slip_faults(plan)):
        return "proof slip", "\n".join(wrong), took
    if not plan.buildable:
        codes = {f.code for f in plan.findings if f.severity is drylay.Severity.STOP}
        return "blocked " + " ".join(sorted(codes)), "", took
    proven = all(bought.gap == 0 for bought in plan.buying.purchases)
    return ("proven" if proven else "planned with a gap"), "", took


def slip_faults(plan: drylay.Plan) -> list[str]:
    """What the plan's own proof slip has against its orders."""
    if not plan.buying.purchases:
        return []  # nothing is sawn: tiles on pads
    orders = json.loads(drylay.papers(plan, only="proof.json")["proof.json"])["orders"]
    return [why for holds, why in map(check_order, orders) if not holds]


def main() -> int:
    asked = argparse.ArgumentParser()
    asked.add_argument("--count", type=int, default=2_000)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--most-mm", type=int, default=9_000)
    asked.add_argument("--whole", dest="kind", action="store_const", const="whole", default="")
    asked.add_argument("--tiles", dest="kind", action="store_const", const="tiles")
    asked.add_argument("--five", dest="kind", action="store_const", const="five")
    given = asked.parse_args()
    counts: Counter[str] = Counter()
    times: list[float] = []
    for seed in range(given.seed, given.seed + given.count):
        word, wrong, took = outcome(seed, given.most_mm, given.kind)
        counts[word] += 1
        times.append(took)
        if wrong:
            print(f"seed {seed}: {word}\n{wrong}", flush=True)
        if seed % 50 == 0:
            print(f"... {seed}", file=sys.stderr, flush=True)
    for word, count in counts.most_common():
        print(f"{count:6d}  {word}")
    times.sort()
    print(f"seconds a design: median {times[len(times) // 2]:.3f}, "
          f"95 in 100 under {times[int(len(times) * 0.95)]:.3f}, most {times[-1]:.3f}")  # fmt: skip
    return 1 if sum(counts[word] for word in WRONG) else 0


if __name__ == "__main__":
    sys.exit(main())
