"""Campaign: spoilt briefs, stock files, CSV lists and mappings, out of which only faults come.

    python tests/campaigns/mutated_files.py --count 100000 --seed 0

Each file is spoilt at one level (bytes, tokens, lines, values). Nothing may be raised but
BriefError and CatalogueError, with the faults that the check tells, each with file, place, found
and wanted; what is read whole has to be itself when written or joined again. Prints how many of
each kind and level were refused, the slowest, and the seeds of whatever went wrong; exit code 1 if
anything did.
"""

import argparse
import sys
import tempfile
import time
import traceback
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from mutants import LEVELS, Sources, mutant
from spoilt_files import outcome


def main() -> int:
    """Run the campaign; return 1 if anything went wrong."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--count", type=int, default=100_000)
    asked.add_argument("--seed", type=int, default=0)
    arguments = asked.parse_args()
    sources, counts, wrong, slow = Sources(), Counter[tuple[str, str, str]](), [], (0.0, 0)
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(arguments.seed, arguments.seed + arguments.count):
            made, began = mutant(seed, sources), time.process_time()
            try:
                word, why = outcome(made, Path(folder))
            except Exception:
                word, why = "raised", traceback.format_exc()
            slow = max(slow, (time.process_time() - began, seed))
            counts[made.kind, made.level, word] += 1
            if why:
                wrong.append(seed)
                print(f"seed {seed} ({made.kind}, {made.level}): {why}", flush=True)
    for kind in ("brief", "stock", "sheet", "mapping"):
        for level in LEVELS:
            words = {
                word: n for (a, b, word), n in sorted(counts.items()) if (a, b) == (kind, level)
            }
            print(f"{kind:8} {level:6}", *(f"{word} {n}" for word, n in words.items()))
    print(f"slowest: seed {slow[1]}, {slow[0]:.2f} s of the processor's")
    print(f"{sum(counts.values())} files, wrong: {len(wrong)} {wrong[:20]}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
