"""Campaign: random decks on an outline designed, and audited with all witnesses.

    python tests/campaigns/outlines.py --count 5000 --seed 0 [--turns] [--tiles] [--most-mm 4500]

Nothing may be raised, no audit may find a stop, every order must hold as the proof slip counts it,
and boards, gaps and openings must make up the cover, counted by sampling. With `--turns` each deck
is designed turned by a quarter, mirrored and askew too: its rows, pieces and joist lines must stay,
and askew by any angle its money as well. With `--tiles` the decks are of tiles on pads. Decks are
up to 7 m long, or as `--most-mm` says: smaller ones are three times as quick.
Prints one line for each kind of outcome with its first seeds, so that each kind of refusal can be
looked at; exit code 1 if anything went wrong.
"""

import argparse
import sys
import time
import traceback
from collections import defaultdict
from collections.abc import Callable
from functools import partial
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))

from attrs import frozen

import drylay
from campaigns.decks import slip_faults
from drylay.plan.model import Plan
from drylay.plugins.model import FamilySet
from some_five import sold
from some_outline_tiles import tile_sections
from some_outlines import inside, outline_sections
from tile_family import tile_families
from tile_family import yard as tile_yard
from turned_outlines import askew, design, mirrored, quarter_turned, unchanged

WRONG = ("raised", "audit stop", "proof slip", "cover", "turned", "mirrored", "askew")
SAMPLES = 4_000


@frozen
class Yard:
    """Whose decks are drawn: briefs by seed, what is sold, whose rules."""

    sections: Callable[[int], dict]
    stock: drylay.Catalogue
    families: FamilySet


def yard_of(*, tiles: bool, most_mm: int | None = None) -> Yard:
    drawn = tile_sections if tiles else outline_sections
    sections = drawn if most_mm is None else partial(drawn, most_mm=most_mm)
    if tiles:
        return Yard(sections, tile_yard(), tile_families())
    return Yard(sections, sold(), drylay.installed_families())


def outcome(seed: int, yard: Yard, *, turns: bool) -> tuple[str, str]:
    """What came of one case: a word for the count, a longer word if it went wrong."""
    try:
        return _outcome(seed, yard, turns=turns)
    except drylay.errors.PlannerFault as missed:
        return "audit stop", "\n".join(str(each) for each in missed.findings)
    except Exception:
        return "raised", traceback.format_exc()


def _outcome(seed: int, yard: Yard, *, turns: bool) -> tuple[str, str]:
    sections, stock, families = yard.sections(seed), yard.stock, yard.families
    try:
        brief = drylay.read_brief(sections)
    except drylay.BriefError as refused:
        return f"refused brief: {refused.faults[0].path}", str(refused)
    plan = drylay.design(brief, stock=stock, families=families)
    if not plan.buildable:
        codes = {f.code for f in plan.findings if f.severity is drylay.Severity.STOP}
        return "blocked " + " ".join(sorted(codes)), ""
    report = drylay.audit(plan, brief=brief, stock=stock, families=families)
    stops = [str(f) for f in report.findings if f.severity is drylay.Severity.STOP]
    if stops:
        return "audit stop", "\n".join(stops)
    if wrong := slip_faults(plan):
        return "proof slip", "\n".join(wrong)
    if wrong := cover_missed(plan, seed):
        return "cover", wrong
    if turns and plan.tiles is not None:
        return _tiles_askew(plan, sections, yard, seed)
    if turns:
        return _turned(plan, sections, stock, families, seed)
    return _proven(plan), ""


def _proven(plan: Plan) -> str:
    gap = any(bought.gap for bought in plan.buying.purchases)
    return "planned with a gap" if gap else "proven"


def cover_missed(plan: Plan, seed: int) -> str:
    """Return how far boards, gaps and openings are off the outline's area, by sampling; else "".

    Points are thrown over the box around the deck: those inside the outline must lie on a board, in
    an opening, or nearer to a board than gaps are wide.
    """
    dice = Random(seed)
    ring = [(s.start.along_mm, s.start.across_mm) for s in plan.outline.sides]
    laid = plan.tiles.tiles if plan.laying is None else plan.laying.pieces
    boards = [[(c.along_mm, c.across_mm) for c in piece.corners] for piece in laid]
    boxes = [(*map(min, *board), *map(max, *board), board) for board in boards]
    holes = [[(c.along_mm, c.across_mm) for c in o.corners] for o in plan.outline.openings
             if o.kind != "hatch"]  # fmt: skip
    low = [min(place[at] for place in ring) for at in (0, 1)]
    high = [max(place[at] for place in ring) for at in (0, 1)]
    reach = 3.0 + (
        plan.tiles.joint_mm if plan.laying is None
        else max(plan.laying.gap_most_mm, plan.laying.end_gap_mm)
    )  # fmt: skip
    bare = 0
    for _ in range(SAMPLES):
        at = (dice.uniform(low[0], high[0]), dice.uniform(low[1], high[1]))
        if not inside(at, ring) or any(inside(at, hole) for hole in holes):
            continue
        x, y = at
        near = [(x + dx, y + dy) for dx in (-reach, 0, reach) for dy in (-reach, 0, reach)]
        # only boards within reach: looking at all took more than a third of a campaign's time
        about = [
            board
            for x1, y1, x2, y2, board in boxes
            if x1 - reach <= x <= x2 + reach and y1 - reach <= y <= y2 + reach
        ]
        if not any(inside(place, board) for board in about for place in near):
            bare += 1
    return f"{bare} of {SAMPLES} places lie further from any board than gaps are" if bare else ""


def _turned(
    plan: Plan, sections: dict, stock: object, families: object, seed: int
) -> tuple[str, str]:
    wrong = _askew(plan, sections, stock, families, Random(seed).uniform(-44.0, 44.0))
    if wrong:
        return "askew", wrong
    if "fields" in sections["laying"]:
        return _proven(plan), ""
    first = plan.laying.zones[0].first_row
    for name, change in (("turned", quarter_turned), ("mirrored", mirrored)):
        other = design(change(sections, first), stock, families)
        if not other.buildable:
            return name, f"blocked: {[str(f) for f in other.findings][:1]}"
        if unchanged(other) != unchanged(plan):
            return name, f"{unchanged(plan)} became {unchanged(other)}"
    return _proven(plan), ""


def _askew(plan: Plan, sections: dict, stock: object, families: object, deg: float) -> str:
    """Return what changed in a deck measured from a line turned by so much; else ""."""
    other = design(askew(sections, deg), stock, families)
    if not other.buildable:
        return f"blocked at {deg} degrees: {[str(f) for f in other.findings][:1]}"
    told = [{**unchanged(each), "money": each.buying.order_total} for each in (plan, other)]
    return "" if told[0] == told[1] else f"{told[0]} became {told[1]} at {deg} degrees"


def _tiles_askew(plan: Plan, sections: dict, yard: Yard, seed: int) -> tuple[str, str]:
    deg = Random(seed).uniform(-44.0, 44.0)
    other = design(askew(sections, deg), yard.stock, yard.families)
    if not other.buildable:
        return "askew", f"blocked at {deg} degrees: {[str(f) for f in other.findings][:1]}"
    told = [
        (each.tiles.tile_count, each.tiles.cut, len(each.tiles.pads.pads), each.buying.order_total)
        for each in (plan, other)
    ]
    return (_proven(plan), "") if told[0] == told[1] else ("askew", f"{told} at {deg} degrees")


def main() -> int:
    """Run the campaign as asked."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--count", type=int, default=5_000)
    asked.add_argument("--seed", type=int, default=0)
    asked.add_argument("--turns", action="store_true")
    asked.add_argument("--tiles", action="store_true")
    asked.add_argument("--most-mm", type=int)
    args = asked.parse_args()
    yard = yard_of(tiles=args.tiles, most_mm=args.most_mm)
    seen: dict[str, list[int]] = defaultdict(list)
    slowest = (0.0, 0)
    for number, seed in enumerate(range(args.seed, args.seed + args.count), start=1):
        began = time.perf_counter()
        word, why = outcome(seed, yard, turns=args.turns)
        slowest = max(slowest, (time.perf_counter() - began, seed))
        seen[word].append(seed)
        if word in WRONG:
            print(f"seed {seed}: {word}\n{why}", flush=True)
        if number % 50 == 0:
            print(f"{number} of {args.count}", file=sys.stderr, flush=True)
    for word, seeds in sorted(seen.items(), key=lambda pair: -len(pair[1])):
        print(f"{len(seeds):6d}  {word}  {seeds[:5]}")
    print(f"slowest: seed {slowest[1]}, {slowest[0]:.1f} s")
    return int(any(word in WRONG for word in seen))


if __name__ == "__main__":
    sys.exit(main())
