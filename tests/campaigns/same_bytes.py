"""Campaign: the same jobs again and again must give the same bytes.

    python tests/campaigns/same_bytes.py --repeats 20 [--set few]

Each repeat is a fresh process with its own seed of hashes; as many again run in threads, in
another order each, all beside threads that keep busy. What is compared is everything the cutter
tells: plan, bound, certificate, effort. Prints the jobs that differ; exit code 1 if any does.
"""

import argparse
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from cutting.repeats import SETS, differences, in_a_fresh_process, in_threads


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--repeats", type=int, default=20)
    asked.add_argument("--set", choices=SETS, default="many")
    given = asked.parse_args()
    runs = []
    for turn in range(given.repeats):
        runs.append(in_a_fresh_process(given.set, turn))
        so_far = "" if runs[-1] == runs[0] else f", not alike: {differences(runs)}"
        print(f"... process {turn + 1}{so_far}", file=sys.stderr, flush=True)
    runs += in_threads(SETS[given.set](), given.repeats)
    differing = differences(runs)
    size = sum(map(len, runs[0]))
    print(f"{len(runs)} runs of {len(runs[0])} jobs, {size} bytes each")
    print(f"not alike: {', '.join(map(str, differing)) or 'none'}")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main())
