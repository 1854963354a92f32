"""How long the example deck takes beside `import numpy`: same machine, turn by turn.

    python tests/benchmarks/design_time.py [--pairs 9]

Each turn is a fresh process that imports numpy, reads the example, then designs it twice:
the first time with everything drylay loads on its way (families, solver, audit), the second
time warm. Both are told as ratios to `import numpy` in that same process, medians of all
turns. Bytecode is cached beforehand, as it is once a package has been used. Proof and audit
are part of every design.
"""

import argparse
import json
import statistics
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
TURN = """
import json, time
began = time.perf_counter(); import numpy; numpy_s = time.perf_counter() - began
import drylay
brief = drylay.read_brief("docs/examples/garden.toml")
stock = drylay.load_catalogue("catalogs/hobbleden.toml")
took = []
for _ in range(2):
    began = time.perf_counter(); plan = drylay.design(brief, stock=stock)
    took.append(time.perf_counter() - began)
began = time.perf_counter(); report = drylay.audit(plan); took.append(time.perf_counter() - began)
assert plan.buildable and not report.findings
print(json.dumps([numpy_s, *took]))
"""


def turn() -> list[float]:
    told = subprocess.run(
        [sys.executable, "-c", TURN], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return json.loads(told.stdout)


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("--pairs", type=int, default=9)
    given = asked.parse_args()
    turn()  # fills the bytecode cache
    turns = [turn() for _ in range(given.pairs)]
    numpy_s = statistics.median(row[0] for row in turns)
    print(f"import numpy            {numpy_s * 1000:7.1f} ms")
    for at, name in ((1, "first design"), (2, "next design"), (3, "audit alone")):
        own_s = statistics.median(row[at] for row in turns)
        ratio = statistics.median(row[at] / row[0] for row in turns)
        print(f"{name:23} {own_s * 1000:7.1f} ms   {ratio:5.2f} times import numpy")


if __name__ == "__main__":
    main()
