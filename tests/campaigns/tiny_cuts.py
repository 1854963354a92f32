"""Campaign: tiny decks against every sequence of their lines and every way of cutting.

    python tests/campaigns/tiny_cuts.py --count 1000 --seed 0

A deck has sets of lines, also beside one another, at times a fixed piece, limited lengths and
leftovers, caps of joints, staggers larger than the least bays. The plan in proven mode costs
what brute force finds, in quick mode no less; both keep the rules, both bounds verify and hold.
Prints what the decks were like and whatever went wrong; exit code 1 if anything did.
"""

import argparse
import sys
import traceback
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from cutting.tiny import tiny_decks, traits, wrong_with
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Task


def plan_of(task: Task) -> CutPlan | None:
    try:
        return solve(task)
    except NoPlan:
        return None


def outcome(task: Task) -> tuple[list[str], str]:
    """Return what a deck was like and what is wrong with what the cutter made of it."""
    try:
        return list(traits(task, plan_of(task))), wrong_with(task)
    except Exception:
        return [], traceback.format_exc()


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--count", type=int, default=1000)
    asked.add_argument("--seed", type=int, default=0)
    given = asked.parse_args()
    counts: Counter[str] = Counter()
    wrong_count = 0
    for done, (seed, task) in enumerate(tiny_decks(given.count, given.seed), 1):
        told, wrong = outcome(task)
        counts.update(told)
        if wrong:
            wrong_count += 1
            print(f"seed {seed}: {wrong}", flush=True)
        if done % 50 == 0:
            print(f"... {done}", file=sys.stderr, flush=True)
    print(f"{given.count:6d}  decks")
    for word, count in counts.most_common():
        print(f"{count:6d}  {word}")
    print(f"{wrong_count:6d}  wrong")
    return 1 if wrong_count else 0


if __name__ == "__main__":
    sys.exit(main())
