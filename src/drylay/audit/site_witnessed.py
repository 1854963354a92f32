"""The site against its witnesses: are limits, ground and top those that the brief gives?"""

from collections.abc import Iterator

from drylay.audit.edged import thickest
from drylay.audit.exact import MARKS, ceil_div, ticks
from drylay.audit.flaws import (
    NothingToMeasure,
    conventions,
    need,
    off_by,
    on_pads,
    same_count,
    same_length,
    same_text,
)
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.outlined_terrain import beside_mm, terrain_within
from drylay.audit.own_line import levels_on_line
from drylay.audit.rows import surface_of
from drylay.audit.site import OFF, RISE, site_of
from drylay.audit.terrain import Terrain, terrain
from drylay.brief.model import Brief, GroundworkWish, HouseWish
from drylay.plan.model import Plan
from drylay.site.model import Levels

BRIEF = conventions("Levels and ground (site); the brief's own wish")
WALL_GAP = 10
#: How far beyond the cover's ends an air brick counts as beside the deck, in mm.
BESIDE = 150
#: What two levels may differ by measuring alone, in mm.
SLACK = 10

#: A mark's level, by name, in 1/320 mm.
Marks = dict[str, int]
#: Name, bound, mark and level of a limit.
Limit = tuple[str, str, str, int]


def _brief(witness: Witness) -> Brief:
    return need(witness.brief, "brief as witness")


def _levels(plan: Plan) -> Levels:
    return need(site_of(plan).levels, "levels")


def _beside(plan: Plan) -> tuple[float, float]:
    """Return from where to where the deck lies along the house."""
    return beside_mm(plan.outline) if plan.outline else (0.0, surface_of(plan).cover_along_mm)


def marks_given(brief: Brief, along_mm: tuple[float, float]) -> Marks:
    """Return everything at the house that the brief gives a level of."""
    house = brief.house
    told = {"datum": 0.0, "damp course": house.dpc_mm, "floor": house.floor_mm,
            "door leaf": house.door_leaf_mm, "sill": house.sill_mm}  # fmt: skip
    for index, brick in enumerate(house.air_bricks):
        low, high = along_mm
        if ticks(low) - ticks(BESIDE) <= ticks(brick.along_mm) <= ticks(high) + ticks(BESIDE):
            told[f"air brick {index + 1}"] = brick.under_mm
    return {name: ticks(level) for name, level in told.items() if level is not None}


def limits_given(brief: Brief, along_mm: tuple[float, float]) -> list[Limit]:
    """Return every limit of the deck's top that follows from the brief."""
    marks = marks_given(brief, along_mm)
    found = []
    for name, level in marks.items():
        if name == "damp course":
            found.append(("below the damp course", "most", name, level - ticks(OFF[name])))
        elif name == "door leaf" and brief.house.door_opens not in {"inward", "sliding"}:
            found.append(("under the door leaf", "most", name, level - ticks(OFF[name])))
        elif name == "sill":
            found.append(("below the door sill", "most", name, level - ticks(OFF[name])))
        elif name == "floor":
            down = ticks(brief.house.steps_down * RISE)
            found.append(("steps down from the floor", "least", name, level - down))
        elif name.startswith("air brick"):
            found.append((f"underside of {name}", "most", name, level))
    return sorted(found)


def limits_follow_from_the_brief(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless marks and limits are those of the brief's house."""
    levels, brief = _levels(plan), _brief(witness)
    along_mm = _beside(plan)
    marks = {mark.name: ticks(mark.level_mm) for mark in levels.marks}
    if marks != marks_given(brief, along_mm):
        message = "not the levels that the brief gives at the house"
        yield Flaw(subject="site.levels.marks", message=message, source=BRIEF)
    told = sorted((x.name, x.bound, x.mark, ticks(x.level_mm)) for x in levels.limits)
    if told != limits_given(brief, along_mm):
        message = "not the limits that follow from the brief"
        yield Flaw(subject="site.levels.limits", message=message, source=BRIEF)
    if brief.house.floor_mm is not None:
        steps, wanted = levels.steps_down or 0, brief.house.steps_down
        yield from same_count("site.levels.steps_down", "not the brief's", steps, wanted, BRIEF)
    told_rises, wanted_rises = levels.rises_to_ground or 0, brief.house.rises_to_ground or 0
    at = "site.levels.rises_to_ground"
    yield from same_count(at, "not the brief's", told_rises, wanted_rises, BRIEF)


def the_site_is_the_briefs(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless exposure, house and gap to the wall are the brief's."""
    site, brief = site_of(plan), _brief(witness)
    yield from same_text("site.exposure", "not the brief's", site.exposure, brief.site.exposure,
                         BRIEF)  # fmt: skip
    if site.beside_house != has_house(plan, brief):
        message = "told to stand beside a house, or not, against the brief"
        yield Flaw(subject="site.beside_house", message=message, source=BRIEF)
    gap_mm = brief.house.wall_gap_mm
    if gap_mm is None:
        gap_mm = max(WALL_GAP, site.wall_gap_least_mm or 0.0)
    message = "not the brief's gap to the wall"
    yield from same_length("site.wall_gap_mm", message, site.wall_gap_mm, ticks(gap_mm), BRIEF)
    if site.levels is not None:
        datum = site.levels.datum
        message = "not the brief's"
        yield from same_text("site.levels.datum", message, datum, brief.levels.datum, BRIEF)


def has_house(plan: Plan, brief: Brief) -> bool:
    """Return whether a house stands beside the deck: told of, or at a side of its outline."""
    sides = plan.outline.sides if plan.outline else ()
    return brief.house != HouseWish() or any(side.kind == "house" for side in sides)


def _terrain(plan: Plan, brief: Brief) -> Terrain | None:
    if plan.outline is not None:
        return terrain_within(levels_on_line(brief.levels.points, plan.outline), plan.outline)
    surface = surface_of(plan)
    return terrain(brief.levels.points, surface.cover_along_mm, surface.cover_across_mm)


def the_ground_lies_as_measured(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the ground is that between the brief's points."""
    levels, brief = _levels(plan), _brief(witness)
    ground = _terrain(plan, brief)
    if ground is None or levels.ground_least_mm is None:
        if (ground is None) != (levels.ground_least_mm is None):
            message = "ground told without points, or points without ground"
            yield Flaw(subject="site.levels.ground_least_mm", message=message, source=BRIEF)
        return
    told = (
        ("ground_most_mm", ground.most), ("ground_least_mm", ground.least),
        ("edge_least_mm", ground.edge_least), ("fall_to_house_mm", ground.fall_to_house),
    )  # fmt: skip
    for name, wanted in told:
        found_mm = need(getattr(levels, name), name)
        message = "not the ground between the brief's points"
        yield from same_length(f"site.levels.{name}", message, found_mm, wanted, BRIEF)
    if levels.beyond != ground.beyond:
        message = "not the corners that lie beyond the brief's points"
        yield Flaw(subject="site.levels.beyond", message=message, source=BRIEF)
    yield from _points_told(plan, brief)
    yield from _hollow(levels, brief, ground)
    towards = ground.fall_to_house > ticks(SLACK) and has_house(plan, brief)
    if towards and brief.levels.outfall is not True:
        message = "the ground falls towards the house, and nothing leads the water away"
        yield off_by("site.levels.fall_to_house_mm", message, ground.fall_to_house, ticks(SLACK),
                     BRIEF)  # fmt: skip


def _points_told(plan: Plan, brief: Brief) -> Iterator[Flaw]:
    """Yield a flaw unless the ground's reason counts the brief's points."""
    for decision in plan.reasons.decisions:
        told = dict(decision.inputs).get("points")
        if decision.path == "site.levels.ground_least_mm" and isinstance(told, int):
            count = len(brief.levels.points)
            yield from same_count(decision.path, "not the brief's points", told, count, BRIEF)


def _hollow(levels: Levels, brief: Brief, ground: Terrain) -> Iterator[Flaw]:
    garden_mm = brief.levels.lowest_mm
    if levels.garden_lowest_mm != garden_mm:
        message = "not the garden's lowest ground that the brief gives"
        yield Flaw(subject="site.levels.garden_lowest_mm", message=message, source=BRIEF)
    wanted = "not known"
    if garden_mm is not None:
        drained = {True: "with outfall", False: "no outfall", None: "outfall not known"}
        lowest = ground.least < ticks(garden_mm)
        wanted = drained[brief.levels.outfall] if lowest else "elsewhere"
    yield from same_text("site.levels.hollow", "not by the brief", levels.hollow, wanted, BRIEF)


def the_top_is_as_ruled(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the top is the brief's, else the highest allowed, else on the ground."""
    site, brief = site_of(plan), _brief(witness)
    wanted = _top(plan, witness)
    if (site.levels is None) != (wanted is None):
        message = "levels told and not to be known, or known and not told"
        yield Flaw(subject="site.levels", message=message, source=BRIEF)
    if site.levels is not None and wanted is not None:
        given = brief.levels.deck_top_mm is not None
        message = "not the brief's" if given else "not where the rule puts it"
        top_mm = site.levels.deck_top_mm
        yield from same_length("site.levels.deck_top_mm", message, top_mm, wanted, BRIEF)


def _top(plan: Plan, witness: Witness) -> int | None:
    """Return where the deck's top has to be, None where nothing sets it."""
    brief = _brief(witness)
    if brief.levels.deck_top_mm is not None:
        return ticks(brief.levels.deck_top_mm)
    if brief.house.rises_to_ground is not None:
        return _by_equal_rises(plan, brief, brief.house.rises_to_ground)
    limits = limits_given(brief, _beside(plan))
    most = [level for _, bound, _, level in limits if bound == "most"]
    mark = MARKS[brief.units]
    if most:
        marked = min(most) // mark * mark
        least = [level for _, bound, _, level in limits if bound == "least"]
        return min(most) if least and marked < max(least) else marked
    ground = _terrain(plan, brief)
    if ground is None:
        return None
    sunk = ticks(_bed_sunk_mm(brief.groundwork))
    return ceil_div(ground.most - sunk + _packed(witness, brief) + _thick(plan), mark) * mark


def _thick(plan: Plan) -> int:
    """Return how high boards and frame are together."""
    if plan.laying is not None and plan.subframe is not None:
        return ticks(plan.laying.board_thickness_mm) + ticks(plan.subframe.timber_depth_mm)
    thick = thickest(surface_of(plan))
    if not on_pads(plan):
        thick += ticks(need(plan.frame, "frame").timber_depth_mm)
    return thick


def _by_equal_rises(plan: Plan, brief: Brief, rises: int) -> int:
    """Return the pencil mark nearest to the share of the way down that the steps make."""
    floor, ground = need(brief.house.floor_mm, "floor"), need(_terrain(plan, brief), "ground")
    down = (ticks(floor) - ground.edge_least) * brief.house.steps_down // rises
    top, mark = ticks(floor) - down, MARKS[brief.units]
    over = top % mark
    return top - over if 2 * over <= mark else top - over + mark


def _bed_sunk_mm(wish: GroundworkWish) -> float:
    """Return how far the bed lies under the lawn: 10 to the gravel's top unless told, else 50."""
    if wish.gravel is not None:
        return 10.0 if wish.below_lawn_mm is None else wish.below_lawn_mm
    said = (wish.margin_mm, wish.strip_mm, wish.below_lawn_mm, wish.lap_mm, wish.spoil, wish.fabric)
    if all(each is None for each in said):
        return 0.0
    return 50.0 if wish.strip_mm is None else wish.strip_mm


def _packed(witness: Witness, brief: Brief) -> int:
    if brief.groundwork.packer is None:
        return 0
    stock = need(witness.stock, "stock as witness")
    found = [p for p in stock.packers if p.code == brief.groundwork.packer]
    if not found:
        raise NothingToMeasure("the stock does not sell the packer")
    return ticks(found[0].least_mm)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W51", "limits of the deck's top follow from the brief", limits_follow_from_the_brief),
    ("AUD-W52", "exposure, house and wall gap are the brief's", the_site_is_the_briefs),
    ("AUD-W53", "the ground lies as the brief's points were measured",
     the_ground_lies_as_measured),
    ("AUD-W54", "the deck's top is the brief's, or where the rules put it", the_top_is_as_ruled),
)  # fmt: skip
