"""Random furniture against every placing on a coarse grid, and how long larger searches take.

    python tests/campaigns/furniture.py --count 300
    python tests/campaigns/furniture.py --count 0 --times

Seeds are fixed: the same count gives the same cases. Each case is two or three pieces with chairs,
passages and fires at random, on sides at random; all sizes on the frontier must be those that
trying every place finds, and no layout may have anything in anything's way.
"""

import argparse
import random
import sys
import time
from pathlib import Path

from attrs import evolve

sys.path.insert(0, str(Path(__file__).parents[1]))

from drylay.reasons import Source
from drylay.seating.least import least_deck
from drylay.seating.model import SIDE_KINDS, SIDES, DeckSides, Door, FurniturePiece, StepsHead
from drylay.seating.pieces import allowances, usual_piece
from seating.own_check import every_size, wrongs

TOLD = Source(kind="assumption", title="a campaign")
SIX = ("dining table", "lounger", "barbecue", "planter", "sofa", "small table")


def piece(chance: random.Random, mark: str, most: int) -> FurniturePiece:
    return FurniturePiece(
        mark=mark,
        kind="piece",
        along_mm=float(chance.randrange(100, most, 50)),
        across_mm=float(chance.randrange(100, most, 50)),
        chairs=tuple(side for side in SIDES if chance.random() < 0.3),
        passages=tuple(side for side in SIDES if chance.random() < 0.2),
        hot=chance.random() < 0.15,
        may_turn=chance.random() < 0.6,
        group=chance.choice(["", "g"]),
        source=TOLD,
    )


def case(seed: int) -> bool:
    """Return whether a random case is as trying every place says."""
    chance = random.Random(seed)
    count = 2 if chance.random() < 0.7 else 3
    pieces = tuple(piece(chance, "ABC"[at], 1500 if count == 2 else 900) for at in range(count))
    if count == 3:
        pieces = (pieces[0], *(evolve(each, may_turn=False) for each in pieces[1:]))
    sides = DeckSides(**{side: chance.choice(SIDE_KINDS) for side in SIDES})
    grid_mm, steps = (400.0, 8) if count == 2 else (500.0, 5)
    room, most = allowances(), grid_mm * steps
    found = least_deck(
        pieces, sides=sides, grid_mm=grid_mm, most_along_mm=most, most_across_mm=most
    ).least
    sizes = {(round(e.along_mm / grid_mm), round(e.across_mm / grid_mm)) for e in found.layouts}
    right = sizes == every_size(pieces, sides, room, grid_mm, steps)
    return right and not any(wrongs(layout, pieces, sides, room) for layout in found.layouts)


def times() -> None:
    open_sides = DeckSides()
    busy = DeckSides(
        doors=(Door(wide_mm=900, opens="outward"),), steps=(StepsHead(side="front", wide_mm=1000),)
    )
    for sides, told in ((open_sides, "three open sides"), (busy, "with a door and steps")):
        for count in (4, 5, 6):
            pieces = [
                usual_piece(kind, kind, count=1 + (kind == "lounger")) for kind in SIX[:count]
            ]
            start = time.perf_counter()
            found = least_deck(pieces, sides=sides, most_nodes=100_000)
            spent = time.perf_counter() - start
            for sized in (found.least, found.comfortable):
                best = sized.best
                print(
                    f"{count} pieces {told}, {sized.level}: {best and best.area_m2} m2, "
                    f"{sized.nodes} nodes, proven {sized.proven}, all seen {sized.all_seen}, "
                    f"gap {sized.gap_m2} m2"
                )
            print(f"  {spent:.1f} s for both")


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=300)
    asked.add_argument("--times", action="store_true")
    told = asked.parse_args()
    wrong = [seed for seed in range(told.count) if not case(seed)]
    print(f"{told.count} cases, wrong: {wrong or 'none'}")
    if told.times:
        times()
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
