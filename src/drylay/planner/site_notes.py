"""What is worth telling about where the deck stands, with the nearest change that helps."""

from collections.abc import Callable, Iterator

from attrs import frozen

from drylay.brief.model import LevelsWish
from drylay.findings import Finding, Severity
from drylay.marks import MARK_320, ceil_mark, exact, floor_mark, to_mm
from drylay.planner.built import Standing
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE
from drylay.planner.stood import stands
from drylay.reasons import Source
from drylay.site.limits import (
    BRICK_BESIDE_MM,
    BRICK_SOURCE,
    VENT_SOURCE,
    bricks_beside,
    highest,
    lowest,
    settled_below,
    steps_for,
)
from drylay.site.model import LevelLimit, Levels, Site
from drylay.site.terrain import CORNERS, NEAR_MM, nearest_mm
from drylay.units import length_text

#: Least gap to the house wall; least air under low joists; highest that ground-level framing
#: lies above the ground; what two levels may differ by measuring alone. Common practice.
WALL_GAP_LEAST_MM, CLEAR_MM, REACH_MM, SLACK_MM = 10.0, 50.0, 150.0, 10.0

#: What the rises of one flight may differ by. Common practice, no source.
UNEQUAL_MM = 5.0

STOP, CAUTION, NOTE = Severity.STOP, Severity.CAUTION, Severity.NOTE
FOUR = "give at least four ground heights in [[levels.points]], one near each corner"


@frozen(kw_only=True)
class Beside:
    """Where a cover lies along the house, and its corners by name, for what is told of either.

    `nearest` answers which corner a level was measured nearest to, and how far off.
    """

    along_mm: tuple[float, float]
    corner_count: int
    nearest: Callable[[], tuple[str, float]]


def remarks(job: Job, built: Standing) -> list[Finding]:
    """Return everything worth telling about wall, levels and ground."""
    cover, points = built.surface, job.brief.levels.points
    along_mm, across_mm = cover.cover_along_mm, cover.cover_across_mm
    beside = Beside(
        along_mm=(0.0, along_mm),
        corner_count=len(CORNERS),
        nearest=lambda: nearest_mm(points, along_mm, across_mm),
    )
    return remarks_beside(job, built.site, beside)


def remarks_beside(job: Job, site: Site, beside: Beside) -> list[Finding]:
    """Return everything worth telling about wall, levels and ground of a cover of any shape."""
    levels = site.levels
    found = [*_wall(job, site, beside), *_door(job)]
    if levels is None:
        return [*found, *_no_levels(job, site)]
    return [
        *found,
        *_conflict(job, levels),
        *_limits_broken(job, levels),
        *_above_floor(job, levels),
        *_rises(levels),
        *_beyond(job, beside, levels),
        *_ground(job, site, levels),
    ]


def _told(  # noqa: PLR0917 - read as the row of a table
    code: str,
    severity: Severity,
    subject: str,
    message: str,
    measured: float | None = None,
    limit: float | None = None,
    source: Source = PRACTICE,
) -> Finding:
    unit = "mm" if measured is not None else ""
    return Finding(code=code, severity=severity, subject=subject, message=message,
                   measured=measured, limit=limit, unit=unit, source=source)  # fmt: skip


def _wall(job: Job, site: Site, beside: Beside) -> Iterator[Finding]:
    least_mm = site.wall_gap_least_mm or 0.0
    if site.beside_house and site.wall_gap_mm < least_mm:
        yield _told("LVL-025", CAUTION, "gap to the wall",
                    "narrower than these boards want beside a wall or post: leave more",
                    site.wall_gap_mm, least_mm,
                    job.rules.source("site.wall_gap_least_mm"))  # fmt: skip
    elif site.beside_house and site.wall_gap_mm < WALL_GAP_LEAST_MM:
        yield _told("LVL-016", CAUTION, "gap to the wall",
                    "too narrow to stay clear of leaves and to dry: leave more",
                    site.wall_gap_mm, WALL_GAP_LEAST_MM)  # fmt: skip
    start_mm, end_mm = beside.along_mm
    bricks = dict(bricks_beside(job.brief.house, end_mm, start_mm=start_mm))
    for number, brick in enumerate(job.brief.house.air_bricks, 1):
        if f"air brick {number}" not in bricks:
            yield _told("LVL-024", NOTE, f"air brick {number}",
                        f"its middle, {_size(job, brick.along_mm)} along the wall from the datum "
                        f"corner, lies more than {_size(job, BRICK_BESIDE_MM)} beyond the cover: "
                        "not beside the deck, not reckoned", source=BRICK_SOURCE)  # fmt: skip
    if bricks:
        yield _told("LVL-017", CAUTION, "air bricks",
                    "1500 mm2 of vent to each metre of wall must stay free: leave the way for "
                    "air open from under or beside the deck to every air brick",
                    source=VENT_SOURCE)  # fmt: skip


def _door(job: Job) -> Iterator[Finding]:
    house = job.brief.house
    if house.door_leaf_mm is not None and house.door_opens is None:
        yield _told("LVL-005", CAUTION, "door",
                    "which way does it open? Say house.door_opens; until then the deck stays "
                    "under its leaf as if it opened outwards")  # fmt: skip
    if house.door_opens == "outward" and house.door_leaf_mm is None:
        yield _told("LVL-023", CAUTION, "door",
                    "it opens outwards over the deck, and nothing says how low its leaf is: give "
                    "house.door_leaf")  # fmt: skip


def _no_levels(job: Job, site: Site) -> Iterator[Finding]:
    if site.beside_house or job.brief.levels != LevelsWish():
        yield _told("LVL-004", NOTE, "levels",
                    "nothing sets the deck's top: give levels.deck_top, or house.dpc and "
                    f"house.floor, and {FOUR}")  # fmt: skip


def _size(job: Job, length_mm: float) -> str:
    return length_text(length_mm, job.brief.units)


def _down(job: Job, level_mm: float) -> float:
    """Return the pencil mark at or below a level."""
    return to_mm(floor_mark(exact(level_mm), MARK_320[job.brief.units]))


def _up(job: Job, level_mm: float) -> float:
    """Return the pencil mark at or above a level."""
    return to_mm(ceil_mark(exact(level_mm), MARK_320[job.brief.units]))


def _apart(one_mm: float, other_mm: float) -> float:
    """Return how far apart two levels are."""
    return to_mm(abs(exact(one_mm) - exact(other_mm)))


def _conflict(job: Job, levels: Levels) -> Iterator[Finding]:
    """Yield the stop where one limit asks for a higher top than another allows."""
    most, least, floor_mm = highest(levels.limits), lowest(levels.limits), job.brief.house.floor_mm
    if most is None or least is None or floor_mm is None or least.level_mm <= most.level_mm:
        return
    short, top_mm = _apart(least.level_mm, most.level_mm), _down(job, most.level_mm)
    steps = steps_for(floor_mm, top_mm)
    yield _told(
        "LVL-001", STOP, "deck top",
        f"the limit {least.name} ({_size(job, least.level_mm)}) lies above the limit {most.name} "
        f"({_size(job, most.level_mm)}), {_size(job, short)} short of room; nearest change: "
        f"steps_down = {steps} instead of {job.brief.house.steps_down}, with the top at "
        f"{_size(job, top_mm)} or lower",
        least.level_mm, most.level_mm, least.source,
    )  # fmt: skip


def _limits_broken(job: Job, levels: Levels) -> Iterator[Finding]:
    """Yield a stop for each limit that the deck's top breaks."""
    conflict = bool([*_conflict(job, levels)])
    top_mm = levels.deck_top_mm
    for limit in levels.limits:
        over = top_mm > limit.level_mm if limit.bound == "most" else top_mm < limit.level_mm
        chosen = job.brief.levels.deck_top_mm is None
        if over and not (conflict and chosen):
            yield _broken(job, levels, limit)


def _broken(job: Job, levels: Levels, limit: LevelLimit) -> Finding:
    top_mm, by_mm = levels.deck_top_mm, _apart(levels.deck_top_mm, limit.level_mm)
    if limit.bound == "most":
        mark = next(mark for mark in levels.marks if mark.name == limit.mark)
        side = "below" if mark.down_mm >= 0 else "above"
        message = (
            f"the deck's top stands {_size(job, by_mm)} too high for the limit {limit.name}: it "
            f"lies {_size(job, abs(mark.down_mm))} {side} the {limit.mark}; {_lower(job, levels)}"
        )
        return _told("LVL-002", STOP, "deck top", message, top_mm, limit.level_mm, limit.source)
    message = (
        f"the deck's top lies {_size(job, by_mm)} too low for the limit {limit.name}; nearest "
        f"change: {_smaller_rises(job, levels, limit)}"
    )
    return _told("LVL-003", STOP, "deck top", message, top_mm, limit.level_mm, limit.source)


def _smaller_rises(job: Job, levels: Levels, limit: LevelLimit) -> str:
    """Return what would make the rises from the floor no higher than they may be."""
    house = job.brief.house
    floor_mm, rises = house.floor_mm or 0.0, house.rises_to_ground
    if rises is not None:
        wanted = steps_for(floor_mm, levels.edge_least_mm or 0.0)
        return f"rises_to_ground = {wanted} instead of {rises}"
    return (
        f"steps_down = {steps_for(floor_mm, levels.deck_top_mm)} instead of {house.steps_down}, "
        f"or a top of {_size(job, _up(job, limit.level_mm))}"
    )


def _lower(job: Job, levels: Levels) -> str:
    """Return the nearest top that is low enough, with the steps that it takes."""
    floor_mm, highest_mm = job.brief.house.floor_mm, settled_below(levels.limits, job.brief.units)
    assert highest_mm is not None
    told = f"nearest change: a top of {_size(job, highest_mm)}"
    steps = 0 if floor_mm is None else steps_for(floor_mm, highest_mm)
    return f"{told}, with steps_down = {steps}" if steps > job.brief.house.steps_down else told


def _above_floor(job: Job, levels: Levels) -> Iterator[Finding]:
    floor_mm = job.brief.house.floor_mm
    if floor_mm is not None and levels.deck_top_mm > floor_mm:
        yield _told("LVL-022", CAUTION, "deck top",
                    "it stands above the house floor: water can run in at the door",
                    levels.deck_top_mm, floor_mm)  # fmt: skip


def _rises(levels: Levels) -> Iterator[Finding]:
    """Yield that the first and the last rise are equal, where the brief asks for such rises."""
    rises, first_mm, last_mm = levels.rises_to_ground, levels.rise_mm, levels.last_rise_mm
    if rises is None or first_mm is None or last_mm is None:
        return
    if _apart(first_mm, last_mm) <= UNEQUAL_MM:
        yield _told("LVL-025", NOTE, "rises",
                    f"first and last rise equal: {rises} rises from the floor to the lowest ground "
                    "at the deck's edges; make the ground up to it where people step down",
                    first_mm, last_mm)  # fmt: skip
    else:
        yield _told("LVL-026", CAUTION, "rises",
                    f"first and last rise differ, and people stumble: {rises} are equal where "
                    "levels.deck_top is left out", first_mm, last_mm)  # fmt: skip


def _ground(job: Job, site: Site, levels: Levels) -> Iterator[Finding]:
    if levels.ground_least_mm is None:
        yield _told("LVL-006", NOTE, "ground",
                    "its levels are not known, nor the drop from the deck: reckon that a guard is "
                    f"needed until they are; {FOUR}")  # fmt: skip
        return
    if not stands(job.brief):
        yield from _frame_and_ground(job, levels)
    yield from _hollow(job, levels)
    yield from _fall(job, site, levels)
    for trigger in levels.triggers if job.brief.site.region is None else ():
        if trigger.reached:
            code, severity = TOLD_AT[trigger.limit_mm]
            yield _told(code, severity, "height above the ground", trigger.rule, levels.drop_mm,
                        trigger.limit_mm, trigger.source)  # fmt: skip


#: The finding for each height that a rule names. A deck that needs a guard is not planned whole.
TOLD_AT = {
    300.0: ("LVL-018", CAUTION),
    600.0: ("LVL-019", STOP),
    762.0: ("LVL-020", CAUTION),
    1000.0: ("LVL-021", CAUTION),
}


def _beyond(job: Job, beside: Beside, levels: Levels) -> Iterator[Finding]:
    """Yield corners that nothing was measured near; with all of them nothing is known at all."""
    if len(levels.beyond) == beside.corner_count:
        corner, off_mm = beside.nearest()
        yield _told("LVL-007", STOP, "ground",
                    "nothing was measured out to any corner of the cover, so nothing is known of "
                    f"the ground there: the nearest point lies {_size(job, off_mm)} from the "
                    f"corner {corner}; measure a point at or beyond each corner",
                    off_mm, NEAR_MM)  # fmt: skip
    elif levels.beyond:
        yield _told("LVL-007", CAUTION, "ground",
                    f"nothing was measured out to the corner {', '.join(levels.beyond)}: the "
                    "nearest point's level stands in; measure a point at or beyond it")  # fmt: skip


def _frame_and_ground(job: Job, levels: Levels) -> Iterator[Finding]:
    """Yield what is wrong between the frame's underside and the ground."""
    over_mm, under_mm = levels.under_most_mm or 0.0, levels.under_least_mm or 0.0
    dug_mm, named = job.brief.groundwork.strip_mm or 0.0, job.articles
    if -under_mm > dug_mm:
        yield _told("LVL-008", CAUTION, "ground",
                    f"it stands {_size(job, -under_mm)} above the frame's underside: dig it away "
                    "there, or raise the deck's top", under_mm, 0.0, ARITHMETIC)  # fmt: skip
    elif under_mm < CLEAR_MM and named.gravel is None and named.packer is None:
        yield _told("LVL-009", NOTE, "ground",
                    "little air under the joists: lay the frame on gravel, or leave more",
                    under_mm, CLEAR_MM)  # fmt: skip
    if over_mm > REACH_MM and named.packer is None:
        yield _told("LVL-010", STOP, "frame",
                    "its underside stands so high above the lowest ground that it needs legs or "
                    f"bearers, which are not planned here; {_reach(job, levels)}",
                    over_mm, REACH_MM)  # fmt: skip


def _reach(job: Job, levels: Levels) -> str:
    """Return what would bring the frame within reach of the ground."""
    less_mm = _apart(levels.under_most_mm or 0.0, REACH_MM)
    top_mm = _down(job, to_mm(exact(levels.deck_top_mm) - exact(less_mm)))
    less_mm = _apart(levels.deck_top_mm, top_mm)
    told = f"nearest change: a top of {_size(job, top_mm)} ({_size(job, less_mm)} lower)"
    floor_mm = job.brief.house.floor_mm
    if floor_mm is not None and levels.lowest_mm is not None and top_mm < levels.lowest_mm:
        told += f", with steps_down = {steps_for(floor_mm, top_mm)}"
    return f"{told}, ground made up by as much, or packers that reach"


def _hollow(job: Job, levels: Levels) -> Iterator[Finding]:
    """Yield what is wrong where water gathers under the deck."""
    least_mm, garden_mm = levels.ground_least_mm or 0.0, levels.garden_lowest_mm
    edge_mm, outfall = levels.edge_least_mm or 0.0, job.brief.levels.outfall
    lower = _size(job, _apart(least_mm, garden_mm or 0.0))
    if levels.hollow == "no outfall":
        yield _told("LVL-011", STOP, "ground",
                    f"the deck stands in the garden's lowest spot, {lower} below all else, with "
                    f"no outfall: make the ground under it up by {lower}, lead the water away, or "
                    "stand the deck elsewhere", least_mm, garden_mm)  # fmt: skip
    if levels.hollow == "outfall not known":
        yield _told("LVL-012", CAUTION, "ground",
                    f"the deck stands in the garden's lowest spot, {lower} below all else: can "
                    "water run away from there? Say levels.outfall",
                    least_mm, garden_mm)  # fmt: skip
    if levels.hollow == "not known":
        yield _told("LVL-013", NOTE, "ground",
                    "whether the deck stands in the garden's lowest spot is not known: give "
                    "levels.lowest, the lowest ground outside it")  # fmt: skip
    if least_mm < edge_mm and outfall is not True:
        yield _told("LVL-014", CAUTION, "ground",
                    f"a hollow under the deck, {_size(job, _apart(least_mm, edge_mm))} below the "
                    "lowest of its edges: fill it, or lead the water away",
                    least_mm, edge_mm)  # fmt: skip


def _fall(job: Job, site: Site, levels: Levels) -> Iterator[Finding]:
    """Yield the ground that falls towards the house: water has to run away from it."""
    fall_mm = levels.fall_to_house_mm or 0.0
    if fall_mm <= 0:
        return
    severity = STOP if job.brief.levels.outfall is not True else CAUTION
    if fall_mm <= SLACK_MM or not site.beside_house:
        severity = CAUTION
    told = (
        f"it falls {_size(job, fall_mm)} towards the house, and water must run away from the "
        "house: regrade it"
    )
    if severity is STOP:
        told += ", or lead the water away and say levels.outfall = true"
    yield _told("LVL-015", severity, "ground", told, fall_mm, SLACK_MM)
