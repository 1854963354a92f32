"""Where the deck stands: levels beside the house, the ground under it, the hollow."""

from typing import Any

from attrs import frozen

from drylay.brief.model import Brief, GroundworkWish, HouseWish
from drylay.findings import Finding
from drylay.groundwork.gravel import BELOW_LAWN_MM
from drylay.marks import exact, to_mm
from drylay.planner import air_notes, site_notes
from drylay.planner.built import Covered, Sited, Standing
from drylay.planner.ground import STRIP_MM, dig_is_wished
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, row
from drylay.reasons import Source, TurnedDown
from drylay.site.heights import triggers_at
from drylay.site.limits import (
    highest,
    limits_of,
    lowest,
    marks_at,
    marks_from,
    rise_of,
    settled_above,
    settled_below,
    top_of_equal_rises,
)
from drylay.site.model import LevelLimit, Levels, Site
from drylay.site.terrain import Ground, ground_under, levels_at
from drylay.surface.model import Surface
from drylay.tiling.model import Pad

#: Left between house wall and cover where the brief says nothing.
WALL_GAP_MM = 10.0
WALL_GAP_LEAST = "site.wall_gap_least_mm"
#: What levels hold of the ground: nothing where it is not known.
OF_GROUND = (
    "ground_most_mm", "ground_least_mm", "edge_least_mm", "drop_mm", "under_most_mm",
    "under_least_mm", "fall_to_house_mm", "garden_lowest_mm",
)  # fmt: skip


@frozen(kw_only=True)
class Top:
    """The deck's top, by what rule, and who says so."""

    level_mm: float
    rule: str
    source: Source


def site_of(job: Job, shaped: Covered) -> Site:
    """Return where the deck stands."""
    brief, surface = job.brief, shaped.surface
    along_mm = surface.cover_along_mm
    ground = ground_under(brief.levels.points, along_mm, surface.cover_across_mm)
    return placed(job, ground, along_mm=(0.0, along_mm), beside_house=brief.house != HouseWish())


def placed(
    job: Job, ground: Ground | None, *, along_mm: tuple[float, float], beside_house: bool
) -> Site:
    """Return where a deck stands that lies along the house from one place to another."""
    brief, gap_mm = job.brief, job.brief.house.wall_gap_mm
    least_mm = job.rules.known(WALL_GAP_LEAST)
    return Site(
        exposure=brief.site.exposure,
        beside_house=beside_house,
        wall_gap_mm=max(WALL_GAP_MM, least_mm or 0.0) if gap_mm is None else gap_mm,
        wall_gap_least_mm=least_mm,
        air_below_least_mm=job.rules.known(air_notes.PATH),
        levels=_levels(job, ground, along_mm),
    )


def _levels(job: Job, ground: Ground | None, along_mm: tuple[float, float]) -> Levels | None:
    """Return the deck's heights; None where nothing sets its top."""
    brief, (start_mm, end_mm) = job.brief, along_mm
    limits = limits_of(brief.house, end_mm, start_mm=start_mm)
    top = top_of(job, limits, ground)
    if top is None:
        return None
    most, least = highest(limits), lowest(limits)
    floor_mm, steps = brief.house.floor_mm, brief.house.steps_down
    return Levels(
        datum=brief.levels.datum,
        marks=marks_from(marks_at(brief.house, end_mm, start_mm=start_mm), top.level_mm),
        limits=limits,
        highest_mm=most.level_mm if most else None,
        lowest_mm=least.level_mm if least else None,
        highest_by=most.name if most else "",
        lowest_by=least.name if least else "",
        deck_top_mm=top.level_mm,
        underside_mm=_underside_mm(job, top),
        steps_down=None if floor_mm is None else steps,
        rise_mm=None if floor_mm is None else rise_of(floor_mm, top.level_mm, steps),
        rises_to_ground=brief.house.rises_to_ground,
        last_rise_mm=_last_rise_mm(brief, top, ground),
        **_grounded(brief, top, ground, _underside_mm(job, top)),
    )


def _last_rise_mm(brief: Brief, top: Top, ground: Ground | None) -> float | None:
    """Return how high each rise below the deck is; None where no equal ones are asked for."""
    rises = brief.house.rises_to_ground
    if rises is None or ground is None:
        return None
    return rise_of(top.level_mm, ground.edge_least_mm, rises - brief.house.steps_down)


def _underside_mm(job: Job, top: Top) -> float:
    return to_mm(exact(top.level_mm) - exact(_thick_mm(job)))


def _thick_mm(job: Job) -> float:
    """Return the height of boards and frame together; on pads that of the tiles alone.

    The thinner of two boards is packed up.
    """
    border = job.articles.border
    boards_mm = [job.articles.board.thickness_mm, border.thickness_mm if border else 0.0]
    return max(boards_mm) + job.articles.timber.depth_mm


def _grounded(brief: Brief, top: Top, ground: Ground | None, underside_mm: float) -> dict[str, Any]:
    """Return the fields of the levels that tell of the ground."""
    if ground is None:
        return dict.fromkeys(OF_GROUND)
    drop_mm = to_mm(exact(top.level_mm) - exact(ground.edge_least_mm))
    return {
        "ground_most_mm": ground.most_mm,
        "ground_least_mm": ground.least_mm,
        "edge_least_mm": ground.edge_least_mm,
        "drop_mm": drop_mm,
        "under_most_mm": to_mm(exact(underside_mm) - exact(ground.least_mm)),
        "under_least_mm": to_mm(exact(underside_mm) - exact(ground.most_mm)),
        "fall_to_house_mm": ground.fall_to_house_mm,
        "garden_lowest_mm": brief.levels.lowest_mm,
        "beyond": ground.beyond,
        "hollow": _hollow(brief, ground),
        "triggers": triggers_at(drop_mm),
    }


def _hollow(brief: Brief, ground: Ground) -> str:
    """Return whether the deck stands over the garden's lowest spot, and whether that drains."""
    garden_mm = brief.levels.lowest_mm
    if garden_mm is None:
        return "not known"
    if ground.least_mm >= garden_mm:
        return "elsewhere"
    drained = {True: "with outfall", False: "no outfall", None: "outfall not known"}
    return drained[brief.levels.outfall]


def top_of(job: Job, limits: tuple[LevelLimit, ...], ground: Ground | None) -> Top | None:
    """Return the deck's top: the brief's, else the highest allowed, else lying on the ground.

    What is not the brief's own lies on a pencil mark, so that papers can tell it as it is.
    """
    given, units, house = job.brief.levels.deck_top_mm, job.brief.units, job.brief.house
    most, settled_mm = highest(limits), settled_below(limits, units)
    if given is not None:
        return Top(level_mm=given, rule="as the brief gives it",
                   source=brief_says("levels.deck_top_mm"))  # fmt: skip
    if house.rises_to_ground is not None and house.floor_mm is not None and ground is not None:
        level_mm = top_of_equal_rises(
            house.floor_mm,
            ground.edge_least_mm,
            units=units,
            steps=house.steps_down,
            rises=house.rises_to_ground,
        )
        return Top(level_mm=level_mm, source=brief_says("house.rises_to_ground"),
                   rule=f"equal rises from floor to ground: {house.steps_down} of "
                   f"{house.rises_to_ground} down")  # fmt: skip
    if most is not None and settled_mm is not None:
        return Top(level_mm=settled_mm, rule=f"the highest allowed: {most.name}",
                   source=most.source)  # fmt: skip
    if ground is None:
        return None
    packer, sunk_mm = job.articles.packer, bed_sunk_mm(job.brief.groundwork)
    packed_mm = packer.least_mm if packer else 0.0
    top_320 = exact(ground.most_mm) - exact(sunk_mm) + exact(packed_mm) + exact(_thick_mm(job))
    rule = "the frame lies on its bed at the highest ground under the cover"
    return Top(level_mm=settled_above(to_mm(top_320), units), rule=rule, source=PRACTICE)


def bed_sunk_mm(wish: GroundworkWish) -> float:
    """Return how far under the lawn the bed will lie: the gravel's top, else the dig's bottom."""
    if wish.gravel is not None:
        return BELOW_LAWN_MM if wish.below_lawn_mm is None else wish.below_lawn_mm
    if not dig_is_wished(wish):
        return 0.0
    return STRIP_MM if wish.strip_mm is None else wish.strip_mm


def rows(job: Job, built: Sited) -> list[Row]:
    """Return the decisions taken here."""
    gap_mm, levels = built.site.wall_gap_mm, built.site.levels
    given = job.brief.house.wall_gap_mm is not None
    told = [
        row("site.wall_gap_mm", gap_mm, "mm", "left between house wall and cover",
            brief_says("house.wall_gap_mm") if given else PRACTICE,
            (("least_mm", site_notes.WALL_GAP_LEAST_MM),
             ("wall_gap_least_mm", built.site.wall_gap_least_mm))),
    ]  # fmt: skip
    return told if levels is None else [*told, *_level_rows(job, levels)]


def _level_rows(job: Job, levels: Levels) -> list[Row]:
    ground = _ground_again(levels)
    top = top_of(job, levels.limits, ground)
    assert top is not None
    timber_mm = job.articles.timber.depth_mm
    framed = (("timber_depth_mm", timber_mm),) if timber_mm else ()  # there is none on pads
    inputs = (("highest_mm", levels.highest_mm), ("lowest_mm", levels.lowest_mm),
              ("board_thickness_mm", job.articles.board.thickness_mm), *framed,
              ("clear_least_mm", site_notes.CLEAR_MM))  # fmt: skip
    found = [row("site.levels.deck_top_mm", levels.deck_top_mm, "mm", top.rule, top.source,
                 inputs, _turned_down(job, levels))]  # fmt: skip
    if levels.ground_least_mm is not None:
        found.append(row("site.levels.ground_least_mm", levels.ground_least_mm, "mm",
                         "straight between the points measured; of two ways to fold it the "
                         "lower", ARITHMETIC,
                         (("points", len(job.brief.levels.points)),
                          ("level_slack_mm", site_notes.SLACK_MM))))  # fmt: skip
    return found


def pad_heights_mm(
    job: Job, surface: Surface, pads: tuple[Pad, ...], levels: Levels | None, bed_mm: float
) -> tuple[float | None, ...]:
    """Return what lies between base and tiles at every pad; None where levels are not known."""
    along = surface.run == "along"
    spots = tuple(
        (pad.start_mm, pad.across_mm) if along else (pad.across_mm, pad.start_mm) for pad in pads
    )
    return heights_mm(job, spots, levels, bed_mm)


def heights_mm(
    job: Job, spots: tuple[tuple[float, float], ...], levels: Levels | None, bed_mm: float
) -> tuple[float | None, ...]:
    """Return what lies between base and tiles at places along the house and away from it."""
    ground = _ground_again(levels) if levels is not None else None
    if levels is None or ground is None:
        return tuple(None for _ in spots)
    over = exact(levels.underside_mm) + exact(bed_mm)
    found = levels_at(job.brief.levels.points, spots, ground)
    return tuple(to_mm(over - exact(level_mm)) for level_mm in found)


def _ground_again(levels: Levels) -> Ground | None:
    """Return the ground as the levels hold it."""
    if levels.ground_most_mm is None or levels.ground_least_mm is None:
        return None
    return Ground(
        most_mm=levels.ground_most_mm,
        least_mm=levels.ground_least_mm,
        edge_least_mm=levels.edge_least_mm or 0.0,
        fall_to_house_mm=levels.fall_to_house_mm or 0.0,
        beyond=levels.beyond,
    )


def _turned_down(job: Job, levels: Levels) -> list[TurnedDown]:
    """Return every other limit, and why the top is not there."""
    because = {
        "most": "higher than the top: does not govern",
        "least": "lower than the top: rises are smaller than they may be",
    }
    chosen = settled_below(levels.limits, job.brief.units) == levels.deck_top_mm

    def why(limit: LevelLimit) -> str:
        if chosen and limit.name == levels.highest_by:
            return "governs: the top is the first pencil mark below it"
        return because[limit.bound]

    return [
        TurnedDown(value=limit.level_mm, because=f"{limit.name}: {why(limit)}")
        for limit in levels.limits
        if limit.level_mm != levels.deck_top_mm
    ]


def remarks(job: Job, built: Standing) -> list[Finding]:
    """Return what is worth telling about them."""
    return site_notes.remarks(job, built)
