"""Where the hand-made deck stands: 4085 x 595 mm, board 28, timber 120 deep. Datum: damp course.

Highest: 0 - 150 = -150 (damp course), the air brick's -75, 120 - 15 = 105 (door). Lowest:
150 - 2 x 220 = -290. The top is the highest allowed, -150; the underside -150 - 28 - 120 = -298.
"""

from audit.sample_deck import PRACTICE
from drylay.brief.model import AirBrick, GroundPoint, HouseWish, LevelsWish
from drylay.site.model import HeightTrigger, LevelLimit, LevelMark, Levels, Site


def house() -> HouseWish:
    return HouseWish(
        wall_gap_mm=12.0, dpc_mm=0.0, floor_mm=150.0, steps_down=2, door_opens="outward",
        door_leaf_mm=120.0, air_bricks=(AirBrick(along_mm=1200.0, under_mm=-75.0),),
    )  # fmt: skip


def levels_wish() -> LevelsWish:
    corners = ((0, 0, -300), (4085, 0, -302), (4085, 595, -310), (0, 595, -306))
    return LevelsWish(
        datum="damp course", lowest_mm=-320.0,
        points=tuple(
            GroundPoint(along_mm=float(x), across_mm=float(y), level_mm=float(z))
            for x, y, z in corners
        ),
    )  # fmt: skip


def _mark(name: str, level: float, down: float) -> LevelMark:
    return LevelMark(name=name, level_mm=level, down_mm=down)


def _limit(name: str, bound: str, mark: str, off: float, level: float) -> LevelLimit:
    return LevelLimit(name=name, bound=bound, mark=mark, off_mm=off, level_mm=level, rule="a rule",
                      source=PRACTICE)  # fmt: skip


def _trigger(name: str, limit: float) -> HeightTrigger:
    return HeightTrigger(name=name, limit_mm=limit, reached=False, rule="a rule", source=PRACTICE)


def site() -> Site:
    levels = Levels(
        datum="damp course",
        marks=(
            _mark("datum", 0.0, 150.0), _mark("damp course", 0.0, 150.0),
            _mark("floor", 150.0, 300.0), _mark("door leaf", 120.0, 270.0),
            _mark("air brick 1", -75.0, 75.0),
        ),
        limits=(
            _limit("below the damp course", "most", "damp course", 150.0, -150.0),
            _limit("underside of air brick 1", "most", "air brick 1", 0.0, -75.0),
            _limit("under the door leaf", "most", "door leaf", 15.0, 105.0),
            _limit("steps down from the floor", "least", "floor", 440.0, -290.0),
        ),
        highest_mm=-150.0, lowest_mm=-290.0,
        highest_by="below the damp course", lowest_by="steps down from the floor",
        deck_top_mm=-150.0, underside_mm=-298.0, steps_down=2,
        rise_mm=150.0,  # (150 + 150) / 2
        ground_most_mm=-300.0, ground_least_mm=-310.0, edge_least_mm=-310.0,
        drop_mm=160.0,  # -150 + 310
        under_most_mm=12.0, under_least_mm=2.0,  # -298 + 310, -298 + 300
        fall_to_house_mm=-6.0,  # left: -306 + 300; right: -310 + 302 = -8
        garden_lowest_mm=-320.0, hollow="elsewhere",
        triggers=(
            _trigger("permission, England", 300.0), _trigger("guard, England", 600.0),
            _trigger("guard, North America", 762.0),
            _trigger("guard, Australia and New Zealand", 1000.0),
        ),
    )  # fmt: skip
    return Site(exposure="inland", beside_house=True, wall_gap_mm=12.0, levels=levels)
