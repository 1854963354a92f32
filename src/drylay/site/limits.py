"""What keeps the deck's top down or up beside the house, and which of it governs."""

from collections.abc import Iterator

from drylay.brief.model import HouseWish
from drylay.marks import MARK_320, ceil_mark, exact, floor_mark, nearest_mark, to_mm
from drylay.reasons import Source
from drylay.site.model import LevelLimit, LevelMark

#: The top of the deck stays so far below the damp course.
BELOW_DPC_MM = 150.0
#: The highest rise of a private stair.
RISE_MOST_MM = 220.0
#: Air under the leaf of a door that opens outwards.
UNDER_LEAF_MM = 15.0
#: An air brick with its middle so far beyond an end of the cover is beside the deck all the same:
#: half a brick, and room for the air to get to it.
BRICK_BESIDE_MM = 150.0

#: The top of the deck stays so far below a door's sill. Assumption.
BELOW_SILL_MM = 15.0

DPC_SOURCE = Source(
    kind="standard",
    title="Approved Document C (England)",
    clause="ground beside a wall; decks alike by common practice",
)
STAIR_SOURCE = Source(
    kind="standard", title="Approved Document K (England)", clause="private stair, rise"
)
PRACTICE = Source(kind="common practice", title="common practice, no source")
BRICK_SOURCE = Source(
    kind="assumption", title="docs/conventions.md", clause="Levels and ground (site)"
)
SILL_SOURCE = Source(
    kind="assumption", title="docs/conventions.md", clause="Levels and ground (site)"
)
VENT_SOURCE = Source(
    kind="from memory", title="Approved Document C (England)", clause="ventilation under floors"
)


def bricks_beside(
    house: HouseWish, end_mm: float, *, start_mm: float = 0.0
) -> Iterator[tuple[str, float]]:
    """Yield name and underside of each air brick that the cover lies along, or as good as.

    It lies along the house from `start_mm` to `end_mm`.
    """
    beyond = exact(BRICK_BESIDE_MM)
    low, high = exact(start_mm) - beyond, exact(end_mm) + beyond
    for number, brick in enumerate(house.air_bricks, 1):
        if low <= exact(brick.along_mm) <= high:
            yield f"air brick {number}", brick.under_mm


def marks_at(
    house: HouseWish, end_mm: float, *, start_mm: float = 0.0
) -> tuple[tuple[str, float], ...]:
    """Return everything at the house that the brief gives a level of, the datum first."""
    given = (
        ("damp course", house.dpc_mm),
        ("floor", house.floor_mm),
        ("door leaf", house.door_leaf_mm),
        ("sill", house.sill_mm),
    )
    known = tuple((name, level) for name, level in given if level is not None)
    return (("datum", 0.0), *known, *bricks_beside(house, end_mm, start_mm=start_mm))


def marks_from(marks: tuple[tuple[str, float], ...], top_mm: float) -> tuple[LevelMark, ...]:
    """Return the marks with how far the deck's top lies below each."""
    return tuple(
        LevelMark(name=name, level_mm=level, down_mm=to_mm(exact(level) - exact(top_mm)))
        for name, level in marks
    )


def limits_of(house: HouseWish, end_mm: float, *, start_mm: float = 0.0) -> tuple[LevelLimit, ...]:
    """Return every limit of the deck's top that the house sets."""
    found: list[LevelLimit] = []
    if house.dpc_mm is not None:
        rule = "the deck's top stays well below the damp course"
        found.append(_most("damp course", house.dpc_mm, BELOW_DPC_MM, rule, DPC_SOURCE))
    for name, under_mm in bricks_beside(house, end_mm, start_mm=start_mm):
        rule = "an air brick stays open: the deck's top no higher than its underside"
        found.append(_most(name, under_mm, 0.0, rule, PRACTICE))
    if house.door_leaf_mm is not None and house.door_opens in {None, "outward"}:
        rule = "a leaf that opens outwards swings over the deck"
        found.append(_most("door leaf", house.door_leaf_mm, UNDER_LEAF_MM, rule, PRACTICE))
    if house.sill_mm is not None:
        rule = "rain that stands or splashes on the deck must not run over the sill"
        found.append(_most("sill", house.sill_mm, BELOW_SILL_MM, rule, SILL_SOURCE))
    if house.floor_mm is not None:
        down_mm = house.steps_down * RISE_MOST_MM
        rule = "equal rises from the floor, none higher than a private stair may have"
        found.append(_limit("floor", "least", house.floor_mm, down_mm, rule, STAIR_SOURCE))
    return tuple(found)


def _most(mark: str, level_mm: float, off_mm: float, rule: str, source: Source) -> LevelLimit:
    return _limit(mark, "most", level_mm, off_mm, rule, source)


def _limit(  # noqa: PLR0917 - read as the row of a table
    mark: str, bound: str, level_mm: float, off_mm: float, rule: str, source: Source
) -> LevelLimit:
    names = {
        "damp course": "below the damp course",
        "door leaf": "under the door leaf",
        "sill": "below the door sill",
        "floor": "steps down from the floor",
    }
    return LevelLimit(
        name=names.get(mark, f"underside of {mark}"),
        bound=bound,
        level_mm=to_mm(exact(level_mm) - exact(off_mm)),
        mark=mark,
        off_mm=off_mm,
        rule=rule,
        source=source,
    )


def highest(limits: tuple[LevelLimit, ...]) -> LevelLimit | None:
    """Return the limit that keeps the top down furthest, the first of equal ones."""
    most = [limit for limit in limits if limit.bound == "most"]
    return min(most, key=lambda limit: limit.level_mm, default=None)


def lowest(limits: tuple[LevelLimit, ...]) -> LevelLimit | None:
    """Return the limit that keeps the top up most, the first of equal ones."""
    least = [limit for limit in limits if limit.bound == "least"]
    return max(least, key=lambda limit: limit.level_mm, default=None)


def settled_below(limits: tuple[LevelLimit, ...], units: str) -> float | None:
    """Return the highest top allowed that a pencil can mark; None where nothing limits it.

    The limit itself, where the mark below it would be lower than the lowest allowed.
    """
    most, least = highest(limits), lowest(limits)
    if most is None:
        return None
    marked = to_mm(floor_mark(exact(most.level_mm), MARK_320[units]))
    return most.level_mm if least is not None and marked < least.level_mm else marked


def settled_above(level_mm: float, units: str) -> float:
    """Return the first pencil mark at or above a level."""
    return to_mm(ceil_mark(exact(level_mm), MARK_320[units]))


def top_of_equal_rises(
    floor_mm: float, ground_mm: float, *, steps: int, rises: int, units: str
) -> float:
    """Return the top that lies `steps` of `rises` equal rises below the floor, on a pencil mark.

    Source: arithmetic; rises of one flight all equal by common practice.
    """
    down = (exact(floor_mm) - exact(ground_mm)) * steps // rises
    return to_mm(nearest_mark(exact(floor_mm) - down, MARK_320[units]))


def steps_for(floor_mm: float, top_mm: float) -> int:
    """Return the fewest equal rises from a floor down to a top, one at least."""
    down_320, rise_320 = exact(floor_mm) - exact(top_mm), exact(RISE_MOST_MM)
    return max(1, -(-down_320 // rise_320))


def rise_of(floor_mm: float, top_mm: float, steps: int) -> float:
    """Return how high each of so many equal rises is, up to the next 1/320 mm."""
    return to_mm(-((exact(top_mm) - exact(floor_mm)) // steps))
