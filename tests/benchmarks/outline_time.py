"""How long a deck of 120 m2 on an outline takes beside `import numpy`: same machine, turn by turn.

    python tests/benchmarks/outline_time.py [--pairs 5]

The deck is an L of 24 x 6 m with three openings: a tree, a hatch, a post. Each turn is a fresh
process that imports numpy, reads brief and stock, designs the deck (proof and audit are part of
that, and all that drylay loads on its way) and audits it once more. Told are the least of all
turns, in the processor's time and by the clock, and their ratios to the least `import numpy`; of
the boards also what their proof leaves open. Bytecode is cached beforehand.
"""

import argparse
import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
TURN = """
import json, time

def timed(work):
    began = time.process_time(), time.perf_counter()
    done = work()
    return done, (time.process_time() - began[0], time.perf_counter() - began[1])

_, numpy_s = timed(lambda: __import__("numpy"))
import drylay
L = (0, 0), (24000, 0), (24000, 4000), (12000, 4000), (12000, 6000), (0, 6000)
brief = drylay.read_brief({
    "title": "120 m2 on an L",
    "outline": {
        "points": [
            {"along_mm": x, "across_mm": y, "side": "open" if (x, y) != (0, 0) else "house"}
            for x, y in L
        ],
        "openings": [
            {"kind": "tree", "along_mm": 4000, "across_mm": 3000, "trunk_mm": 200, "years": 10},
            {"kind": "hatch", "along_mm": 9000, "across_mm": 2500,
             "size_along_mm": 450, "size_across_mm": 450},
            {"kind": "post", "along_mm": 3000, "across_mm": 4500,
             "size_along_mm": 100, "size_across_mm": 100},
        ],
    },
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90",
                "fascia_screw": "WS-50-60"},
})
stock = drylay.load_catalogue("catalogs/hobbleden.toml")
plan, design_s = timed(lambda: drylay.design(brief, stock=stock))
report, audit_s = timed(lambda: drylay.audit(plan))
assert plan.buildable and not report.findings
gap = max(float(each.gap / each.objective) for each in plan.buying.purchases if each.objective)
print(json.dumps([gap, numpy_s, design_s, audit_s]))
"""


def turn() -> list:
    told = subprocess.run(
        [sys.executable, "-c", TURN], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return json.loads(told.stdout)


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--pairs", type=int, default=5)
    given = asked.parse_args()
    turn()  # fills the bytecode cache
    turns = [turn() for _ in range(given.pairs)]
    for clock, title in enumerate(("processor", "clock")):
        numpy_s = min(row[1][clock] for row in turns)
        print(f"{title:10} import numpy {numpy_s * 1000:7.1f} ms")
        for at, name in ((2, "design"), (3, "audit")):
            own_s = min(row[at][clock] for row in turns)
            print(f"{title:10} {name:12} {own_s * 1000:7.1f} ms   {own_s / numpy_s:6.1f} times")
    print(f"the proofs leave {max(row[0] for row in turns):.3%} open at most")


if __name__ == "__main__":
    main()
