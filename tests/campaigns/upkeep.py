"""Random decks put to the verbs of upkeep, each held against something worked out apart.

    .venv/bin/python tests/campaigns/upkeep.py --count 200

Screws piece by piece against the plan's sum; masses against the delivery's; what is lifted against
boxes; extensions in phase, their briefs read back; calendars with a source for every item. Decks
that are blocked are counted and left. Seeds are fixed.
"""

import argparse
import random
import sys
from collections import Counter
from datetime import date
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import drylay
from drylay.plan.model import Plan
from drylay.upkeep.calendar import inspection_calendar
from drylay.upkeep.extension import extension
from drylay.upkeep.ics import calendar_ics
from drylay.upkeep.lift import boards_to_lift
from drylay.upkeep.locate import locate
from drylay.upkeep.model import Below, Top
from drylay.upkeep.parts import tops
from drylay.upkeep.screwed import is_clipped, screws_of
from drylay.upkeep.waste import waste
from some_decks import some_case
from some_five import sold, some_five
from some_outlines import some_outline

GRAMS = 0.005


def decks(seed: int) -> Plan:
    """Return a rectangle of softwood, one of any family, or an outline, by turns."""
    if seed % 3 == 0:
        brief, stock = some_case(seed, most_mm=5_000)
        return drylay.design(brief, stock=stock)
    if seed % 3 == 1:
        return drylay.design(some_five(seed, most_mm=4_000), stock=sold())
    return drylay.design(some_outline(seed, most_mm=4_000), stock=sold())


def box_of(top: Top) -> tuple[float, float, float, float]:
    along, across = [c.along_mm for c in top.corners], [c.across_mm for c in top.corners]
    return min(along), min(across), max(along), max(across)


def wrong(plan: Plan, dice: random.Random) -> list[str]:
    """Return what does not agree."""
    return [*_screws(plan), *_masses(plan), *_lifts(plan, dice), *_extended(plan), *_days(plan)]


def _screws(plan: Plan) -> list[str]:
    fixings = plan.fixings
    if plan.pieces is None or fixings is None or fixings.deck_screws is None:
        return []
    wanted = fixings.deck_screws.count
    wanted += fixings.border_screws.count if fixings.border_screws else 0
    wanted += (fixings.clips.fixed_screws or 0) if fixings.clips else 0
    found = sum(screws_of(plan, top) or 0 for top in tops(plan))
    return [] if found == wanted else [f"screws {found} against {wanted}"]


def _masses(plan: Plan) -> list[str]:
    brought: dict[str, float] = {}
    for part in plan.buying.delivery.parts if plan.buying and plan.buying.delivery else ():
        brought[part.article] = brought.get(part.article, 0.0) + part.mass_kg
    found: dict[str, float] = {}
    told = []
    for its in waste(plan).weighed:
        found[its.article] = found.get(its.article, 0.0) + its.bought_kg + its.spares_kg
        left = its.bought_kg - its.built_kg - its.offcuts_kg - its.dust_kg
        if abs(left) > GRAMS or its.offcuts_kg < 0:
            told.append(f"{its.what}: {its}")
    for article, kg in found.items():
        if not -GRAMS * 4 <= brought.get(article, kg) - kg <= 0.1 + GRAMS * 4:
            told.append(f"{article}: {kg} against {brought[article]}")
    return told


def _lifts(plan: Plan, dice: random.Random) -> list[str]:
    told, on_top = [], tops(plan)
    for _ in range(5):
        at = box_of(dice.choice(on_top))
        x, y = dice.uniform(at[0], at[2]), dice.uniform(at[1], at[3])
        reach = Below(from_along_mm=x, to_along_mm=x + dice.uniform(5, 600), from_across_mm=y,
                      to_across_mm=y + dice.uniform(5, 400))  # fmt: skip
        lift, spot = boards_to_lift(plan, reach=reach), locate(plan, x, y)
        lifted = {step.piece for way in lift.ways[:1] for step in way.steps}
        if spot.what == "piece" and not set(spot.pieces) & {top.mark for top in on_top}:
            told.append(f"no such piece {spot.pieces}")
        if not set(lift.over) <= lifted:
            told.append("what lies over it stays down")
        if plan.laying is None and plan.tiles is None:
            over = {top.mark for top in on_top if _over(top, reach)}
            if over != set(lift.over) or (not is_clipped(plan) and lifted != over):
                told.append(f"{sorted(lifted)} against {sorted(over)}")
    return told


def _over(top: Top, reach: Below) -> bool:
    x1, y1, x2, y2 = box_of(top)
    wide = min(x2, reach.to_along_mm) - max(x1, reach.from_along_mm)
    deep = min(y2, reach.to_across_mm) - max(y1, reach.from_across_mm)
    return wide > 0.02 and deep > 0.02


def _extended(plan: Plan) -> list[str]:
    told = []
    for side in ("front", "right", "left"):
        more = extension(plan, side, 900)
        if more.brief is not None and drylay.read_brief(more.brief.to_dict()) != more.brief:
            told.append(f"{side}: the brief is not read back")
        if more.way == "rows" and more.rows:
            pitches = (more.first_near_mm - more.phase_mm) / more.pitch_mm
            if abs(pitches - round(pitches)) > 1e-9:
                told.append(f"{side}: out of phase")
            if abs(more.starts_mm + more.depth_mm + more.remainder_mm - 900) > 0.01:
                told.append(f"{side}: does not add up")
    return told


def _days(plan: Plan) -> list[str]:
    calendar = inspection_calendar(plan, handed_over=date(2026, 6, 20), years=6)
    bare = [i.what for v in calendar.visits for i in v.items if not (i.source.title and i.where)]
    long = [line for line in calendar_ics(calendar).split(b"\r\n") if len(line) > 75]
    return [*bare, *(f"a line of {len(line)}" for line in long)]


def main() -> None:
    """Run the campaign and tell what was found."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--first", type=int, default=0)
    asked = parser.parse_args()
    tally: Counter[str] = Counter()
    for seed in range(asked.first, asked.first + asked.count):
        plan = decks(seed)
        tally["decks" if plan.buildable else "blocked"] += 1
        for told in wrong(plan, random.Random(seed)) if plan.buildable else ():
            tally["faults"] += 1
            print(f"seed {seed}, {plan.title}: {told}")
    print(dict(tally))
    sys.exit(1 if tally["faults"] else 0)


if __name__ == "__main__":
    main()
