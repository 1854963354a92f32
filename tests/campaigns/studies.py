"""Campaign: rows of studies held against whole designs of the same random decks.

    python tests/campaigns/studies.py --count 300 --seed 1 [--kind whole | five]

Each deck is planned three times, at five lengths side by side at one desk, so that what is kept
from one deck to the next is there to do harm: proven, which must come to every figure of `design`;
quick, in which what is sawn differs from that by no more than the gaps of both rows;
and quick once more in another order, which must give the same rows. Blocked and refused decks must
be so either way, with the same codes. Prints the seeds of whatever differs; exit code 1 if any did.
"""

import argparse
import sys
import traceback
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import drylay
from campaigns.decks import case_of
from drylay.errors import InputError

Row = dict[str, object]
#: Lengths beside the deck's own, in mm.
BESIDE_MM = (0, 40, 135, 300, 610)
KEYS = ("outcome", "codes", "told", "total", "gap")


def faults_of(seed: int, most_mm: int, kind: str) -> Iterator[str]:
    """What differs of one random deck."""
    brief, stock, families = case_of(seed, most_mm, kind)
    lengths = [brief.cover.along_mm + beside for beside in BESIDE_MM]
    cases = drylay.vary(brief, {"cover.along_mm": lengths})
    named = {"stock": stock, "families": families}
    proven = list(drylay.compare(cases, **named))  # type: ignore[arg-type]
    quick = list(drylay.compare(cases, mode="quick", **named))  # type: ignore[arg-type]
    back = list(drylay.compare(cases[::-1], mode="quick", **named))[::-1]  # type: ignore[arg-type]
    for row, rough, again, long_mm in zip(proven, quick, back, lengths, strict=True):
        where = f"{long_mm:g} mm"
        if {**rough, "case": 0} != {**again, "case": 0}:
            yield f"{where}: another row in another order"
        yield from (f"{where}: {fault}" for fault in differences(row, rough))
        yield from (f"{where}: {fault}" for fault in against_design(brief, long_mm, row, named))


def differences(row: Row, rough: Row) -> Iterator[str]:
    """What the quick mode may not do."""
    if row["outcome"] in ("failed", "lost"):
        yield f"{row['outcome']}: {row['told']}"
    if (row["outcome"], row["codes"]) != (rough["outcome"], rough["codes"]):
        yield f"{row['outcome']} {row['codes']}, quick {rough['outcome']} {rough['codes']}"
        return
    if (row["way_out"], row["joists"]) != (rough["way_out"], rough["joists"]):
        return
    # screws follow the joints, so that only what is sawn can be held against what is sawn
    gap = money(rough, "gap")
    for names in (("boards_cost", "joint_cost"), ("frame_cost",), ("fascia_cost",)):
        proven, dearer = (sum(money(each, name) for name in names) for each in (row, rough))
        if not dearer - gap <= proven <= dearer + money(row, "gap"):
            yield f"{names[0]} {proven} proven; quick {dearer}, gap {gap}"


def money(row: Row, name: str) -> Decimal:
    """A sum of money, 0 where nothing is bought."""
    held = row[name]
    return held if isinstance(held, Decimal) else Decimal(0)


def against_design(
    brief: drylay.Brief, long_mm: float, row: Row, named: dict[str, object]
) -> Iterator[str]:
    """What a proven row has otherwise than the whole design."""
    try:
        plan = drylay.design(brief.replace("cover.along_mm", long_mm), **named)  # type: ignore[arg-type]
    except InputError:
        if row["outcome"] != "refused":
            yield f"{row['outcome']}, and the design is refused"
        return
    told = plan.measures()
    unlike = {name: (row[name], figure) for name, figure in told.items() if row[name] != figure}
    if unlike:
        yield f"unlike the design: {unlike}"


def main() -> int:
    asked = argparse.ArgumentParser()
    asked.add_argument("--count", type=int, default=300)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--most-mm", type=int, default=5_000)
    asked.add_argument("--kind", choices=("", "whole", "five"), default="")
    given = asked.parse_args()
    counts: Counter[str] = Counter()
    for seed in range(given.seed, given.seed + given.count):
        try:
            wrong = list(faults_of(seed, given.most_mm, given.kind))
        except Exception:
            wrong = [traceback.format_exc()]
        counts["differ" if wrong else "the same"] += 1
        for fault in wrong:
            print(f"seed {seed}: {fault}", flush=True)
    print(dict(counts))
    return 1 if counts["differ"] else 0


if __name__ == "__main__":
    sys.exit(main())
