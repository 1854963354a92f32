"""The corruption campaign: every number of ten real plans changed, one at a time.

Run it from the checkout: `python tests/campaigns/corrupt.py` (some twenty minutes on one
core; `--sample 300` takes that many changes of each plan, `--plans garden S03` names plans;
`--five` takes seven plans of the other families and of a border instead).
It prints how many changes the witnessed audit catches, digest checks off and reasons changed
to agree, and names every number that got through. Exit code 1 if the plan's own numbers are
caught in less than 99 of 100 changes.
"""

import argparse
import sys
from collections import Counter
from collections.abc import Callable
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from audit.corrupt import SEED, Tally, campaign, of_a_certificate, why_missed
from audit.real import planned, ten_decks
from audit.real_five import EXAMPLES, planned_of_five
from drylay.audit.model import Witness
from drylay.plan.model import Plan


def main() -> int:
    """Return 0 if enough was caught."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sample", type=int)
    parser.add_argument("--plans", nargs="*", default=[])
    parser.add_argument("--five", action="store_true")
    options = parser.parse_args()
    tallies = []
    for name, made in (five_decks() if options.five else softwood_decks()).items():
        if not options.plans or name in options.plans:
            tally = campaign(*made(), sample=options.sample, seed=SEED)
            print(f"{name}: {tally.changes} changes, {len(tally.missed)} missed", flush=True)
            tallies.append(tally)
    return report(tallies)


Made = Callable[[], tuple[Plan, Witness]]


def softwood_decks() -> dict[str, Made]:
    return {name: partial(planned, *deck) for name, deck in ten_decks().items()}


def five_decks() -> dict[str, Made]:
    return {name: partial(planned_of_five, name) for name in EXAMPLES}


def report(tallies: list[Tally]) -> int:
    """Print what was caught and what was not; return the exit code."""
    missed = [miss for tally in tallies for miss in tally.missed]
    for pattern, count in Counter(miss.pattern for miss in missed).most_common():
        print(f"{count:6} {pattern}: {why_missed(pattern)}")
    total = sum(tally.changes for tally in tallies)
    own = total - sum(tally.of_certificates for tally in tallies)
    through = sum(not of_a_certificate(miss.path) for miss in missed)
    print(
        f"the plans' own numbers: {own} changes, {through} missed, {1 - through / own:.2%} caught"
    )
    print(f"with certificates' worths: {total} changes, {len(missed)} missed")
    return 0 if through <= 0.01 * own else 1


if __name__ == "__main__":
    sys.exit(main())
