"""Campaign: decks nobody would build, to find where planner and audit part.

    python tests/campaigns/wild.py --count 500 --seed 1 [--five]

Sizes, rules, saws and stock are drawn far outside what is usual; with `--five` decks are of all
five families, out of a merchant's stock gone wild. A brief or stock may be refused and a plan may
be blocked, but nothing else may be raised: a `PlannerFault` means that the audit saw a stop which
the planner did not. Exit code 1 if anything else was raised.
"""

import argparse
import random
import sys
import traceback
from collections import Counter
from decimal import Decimal
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from attrs import evolve

import drylay
from drylay.brief.codec import brief_to_dict
from drylay.brief.model import Brief
from drylay.materials.stock_model import Catalogue
from some_decks import some_brief, some_stock
from wild_five import some_overrides, wild_five, wild_yard


def wild_stock(dice: random.Random) -> Catalogue:
    stock = some_stock(dice)
    (board,), (timber,), (fascia,) = stock.boards, stock.timbers, stock.fascias
    (screw,), (coach,) = stock.screws, stock.coach_screws
    kept = tuple(length for length in board.lengths if dice.random() < 0.8) or board.lengths
    short = tuple(evolve(length, limit=dice.choice([None, None, 0, 1, 9, 40])) for length in kept)
    return evolve(
        stock,
        boards=(
            evolve(
                board,
                lengths=short,
                width_mm=dice.choice([40.0, 190.0, *[63.5, 90.0, 119.4, 145.0, 150.0] * 3]),
                thickness_mm=dice.choice([19.0, 21.0, 25.4, 28.0, 38.0, 45.0]),
            ),
        ),
        timbers=(
            evolve(
                timber,
                thickness_mm=dice.choice([30.0, *[38.1, 45.0, 47.0, 60.0] * 3, 75.0]),
                depth_mm=dice.choice([70.0, 145.0, 220.0]),
                lengths=timber.lengths[dice.randint(0, 1) :],
            ),
        ),
        fascias=(evolve(fascia, thickness_mm=dice.choice([12.0, 28.0, 60.0])),),
        screws=(evolve(screw, length_mm=dice.choice([60.0, 90.0, *[115.0] * 8])),),
        coach_screws=(
            evolve(
                coach,
                length_mm=dice.choice([90.0, *[140.0] * 9]),
                head_mm=dice.choice([14.0, *[5.0] * 9]),
            ),
        ),
    )


def wild_brief(dice: random.Random, stock: Catalogue) -> Brief:
    brief = some_brief(dice, stock, most_mm=dice.choice([1_300, 3_000, 9_000]))
    return evolve(
        brief,
        use=dice.choice(["dwelling", "public"]),
        units=dice.choice(["metric", "imperial"]),
        board=evolve(brief.board, may_turn=dice.random() < 0.5, measured_width_mm=None),
        frame=evolve(brief.frame, lines=dice.choice(["fewest", "fewest", "cheapest"])),
        joints=evolve(
            brief.joints,
            most_per_row=dice.choice([None, 0, 1, 2]),
            price_each=dice.choice([None, Decimal("0"), Decimal("25")]),
        ),
        cutting=evolve(
            brief.cutting,
            kerf_mm=dice.choice([0.0, 3.2, 10.0]),
            end_trim_mm=dice.choice([0.0, 25.0, 150.0]),
        ),
        overrides=some_overrides(dice),
    )  # fmt: skip


def outcome(seed: int, *, five: bool = False) -> tuple[str, str]:
    dice = random.Random(seed)
    stock = wild_yard(dice) if five else wild_stock(dice)
    try:
        brief = wild_five(dice, seed) if five else wild_brief(dice, stock)
        brief = drylay.read_brief(brief_to_dict(brief))
    except drylay.BriefError:
        return "brief refused", ""
    try:
        plan = drylay.design(brief, stock=stock)
        report = drylay.audit(plan, brief=brief, stock=stock, families=drylay.installed_families())
        drylay.papers(plan)
    except drylay.BriefError:
        return "brief refused", ""
    except Exception:
        return "raised", traceback.format_exc(limit=-2)
    stops = [str(f) for f in report.findings if f.severity is drylay.Severity.STOP]
    if plan.buildable and stops:
        return "audit stop", "\n".join(stops)
    codes = {f.code for f in plan.findings if f.severity is drylay.Severity.STOP}
    return ("planned" if plan.buildable else "blocked " + " ".join(sorted(codes))), ""


def main() -> int:
    asked = argparse.ArgumentParser()
    asked.add_argument("--count", type=int, default=500)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--five", action="store_true")
    given = asked.parse_args()
    counts: Counter[str] = Counter()
    for seed in range(given.seed, given.seed + given.count):
        word, wrong = outcome(seed, five=given.five)
        counts[word] += 1
        if wrong:
            print(f"seed {seed}: {word}\n{wrong}", flush=True)
    for word, count in counts.most_common():
        print(f"{count:6d}  {word}")
    return 1 if counts["raised"] or counts["audit stop"] else 0


if __name__ == "__main__":
    sys.exit(main())
