"""The corruption campaign: every number of ten real plans changed, one at a time.

Run it from the checkout: `python tests/campaigns/corrupt.py` (some twenty minutes on one
core; `--sample 300` takes that many changes of each plan, `--plans garden S03` names plans).
It prints how many changes the witnessed audit catches, digest checks off and reasons changed
to agree, and names every number that got through. Exit code 1 if the plan's own numbers are
caught in less than 99 of 100 changes.
"""

import argparse
import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from audit.corrupt import SEED, Miss, campaign, why_missed
from audit.real import planned, ten_decks


def main() -> int:
    """Return 0 if enough was caught."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sample", type=int)
    parser.add_argument("--plans", nargs="*", default=[])
    options = parser.parse_args()
    total, missed = 0, []
    for name, (brief, stock) in ten_decks().items():
        if options.plans and name not in options.plans:
            continue
        tally = campaign(*planned(brief, stock), sample=options.sample, seed=SEED)
        total += tally.changes
        missed += tally.missed
        print(f"{name}: {tally.changes} changes, {len(tally.missed)} missed", flush=True)
    return report(total, missed)


def report(total: int, missed: list[Miss]) -> int:
    """Print what was caught and what was not; return the exit code."""
    patterns = Counter(miss.pattern for miss in missed)
    for pattern, count in patterns.most_common():
        print(f"{count:6} {pattern}: {why_missed(pattern)}")
    own = [miss for miss in missed if not miss.of_a_certificate]
    print(f"{total} changes, {len(missed)} missed, {len(own)} of them outside certificates")
    caught = 1 - len(own) / total
    print(f"caught {caught:.2%}, certificates' own worths left aside; all: {1 - len(missed) / total:.2%}")
    return 0 if caught >= 0.99 else 1


if __name__ == "__main__":
    sys.exit(main())
