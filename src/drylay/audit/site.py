"""The site: do limits, top, underside, ground and heights agree with each other?"""

from collections.abc import Iterator

from drylay.audit.edged import thickest
from drylay.audit.exact import ceil_div, mm, ticks
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
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.plan.model import Plan
from drylay.reasons import Decision
from drylay.site.model import HOLLOWS, LevelLimit, LevelMark, Levels, Site

LEVELS = conventions("Levels and ground (site)")

#: How far below its mark a limit lies, in mm; a step of the floor's limit.
OFF = {"damp course": 150, "door leaf": 15, "sill": 15}
RISE = 220
#: Name of each height that a rule names, in mm, and whether reaching it is enough.
HEIGHTS = {
    "permission, England": (300, False),
    "guard, England": (600, False),
    "guard, North America": (762, False),
    "guard, Australia and New Zealand": (1000, True),
}
GUARD = 600
#: Highest that ground-level framing lies above the ground without packers, in mm.
REACH = 150


def site_of(plan: Plan) -> Site:
    """Return where the plan's deck stands."""
    return need(plan.site, "site")


def levels_of(plan: Plan) -> Levels:
    """Return the plan's levels, if it has them."""
    return need(site_of(plan).levels, "levels")


def _mark(levels: Levels, name: str) -> LevelMark | None:
    return next((mark for mark in levels.marks if mark.name == name), None)


def off_320(limit: LevelLimit, steps: int) -> int:
    """Return how far below its mark a limit has to lie."""
    if limit.bound == "least":
        return ticks(steps * RISE)
    return ticks(OFF.get(limit.mark, 0))


def limits_lie_by_their_marks(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each limit that is not its mark's level less what its rule asks."""
    levels = levels_of(plan)
    for limit in levels.limits:
        mark = _mark(levels, limit.mark)
        if mark is None or limit.bound not in {"most", "least"}:
            message = f"no such mark or bound: {limit.mark!r}, {limit.bound!r}"
            yield Flaw(subject=limit.name, message=message, source=LEVELS)
            continue
        off = off_320(limit, levels.steps_down or 0)
        yield from same_length(limit.name, "not what the rule asks", limit.off_mm, off, LEVELS)
        level = ticks(mark.level_mm) - off
        yield from same_length(limit.name, "not below its mark", limit.level_mm, level, LEVELS)


def the_governing_limits_govern(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the highest top is the lowest `most`, the lowest the highest `least`."""
    levels = levels_of(plan)
    told = (
        ("most", min, levels.highest_mm, levels.highest_by),
        ("least", max, levels.lowest_mm, levels.lowest_by),
    )
    for bound, pick, found_mm, name in told:
        limits = [limit for limit in levels.limits if limit.bound == bound]
        wanted = pick((ticks(limit.level_mm) for limit in limits), default=None)
        subject = "site.levels.highest_mm" if bound == "most" else "site.levels.lowest_mm"
        if wanted is None or found_mm is None:
            if (wanted is None) != (found_mm is None) or (wanted is None and name):
                message = "told without a limit, or a limit without being told"
                yield Flaw(subject=subject, message=message, source=LEVELS)
            continue
        yield from same_length(subject, "not the limit that governs", found_mm, wanted, LEVELS)
        governing = [limit.name for limit in limits if ticks(limit.level_mm) == wanted]
        if name not in governing:
            yield from same_text(subject, "not what governs", name, governing[0], LEVELS)


def the_top_is_within_its_limits(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the top breaks a limit: such a plan is stopped, and has no site."""
    levels = levels_of(plan)
    top = ticks(levels.deck_top_mm)
    for limit in levels.limits:
        level = ticks(limit.level_mm)
        if top > level if limit.bound == "most" else top < level:
            message = f"the deck's top breaks the limit {limit.name}"
            yield off_by("site.levels.deck_top_mm", message, top, level, LEVELS)


def the_underside_is_below_the_top(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the frame's underside is the top less board and timber."""
    levels, surface = levels_of(plan), surface_of(plan)
    wanted = ticks(levels.deck_top_mm) - thickest(surface)
    if not on_pads(plan):
        wanted -= ticks(need(plan.frame, "frame").timber_depth_mm)
    message = "not the top less board and timber"
    yield from same_length("site.levels.underside_mm", message, levels.underside_mm, wanted, LEVELS)


def marks_tell_the_top(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the top is told from every mark once, the datum among them."""
    levels = levels_of(plan)
    names = [mark.name for mark in levels.marks]
    if len(names) != len(set(names)) or "datum" not in names:
        message = "a mark told twice, or no datum"
        yield Flaw(subject="site.levels.marks", message=message, source=LEVELS)
    for mark in levels.marks:
        if mark.name == "datum":
            yield from same_length("datum", "not at nothing", mark.level_mm, 0, LEVELS)
        down = ticks(mark.level_mm) - ticks(levels.deck_top_mm)
        yield from same_length(mark.name, "not so far above the top", mark.down_mm, down, LEVELS)


def rises_are_equal(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless so many equal rises lead down from the floor."""
    levels = levels_of(plan)
    floor = _mark(levels, "floor")
    told = (levels.steps_down, levels.rise_mm)
    if floor is None or None in told:
        if floor is not None or told != (None, None):
            message = "steps without a floor, or a floor without steps"
            yield Flaw(subject="site.levels.steps_down", message=message, source=LEVELS)
        return
    steps = levels.steps_down or 0
    if steps < 1:
        yield from same_count("site.levels.steps_down", "no step down", steps, 1, LEVELS)
        return
    rise = ceil_div(ticks(floor.level_mm) - ticks(levels.deck_top_mm), steps)
    message = "not an equal part of the way down"
    yield from same_length("site.levels.rise_mm", message, levels.rise_mm or 0.0, rise, LEVELS)


#: By how much the rises of one flight may differ, in mm: common practice.
UNEQUAL = 5


def rises_reach_the_ground(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless rises told to the ground are equal, those below the deck among them."""
    levels, at = levels_of(plan), "site.levels.last_rise_mm"
    rises, told = levels.rises_to_ground, levels.last_rise_mm
    known = (levels.rise_mm, levels.edge_least_mm, levels.steps_down)
    if rises is None or told is None or None in known:
        if (rises, told) != (None, None):
            yield Flaw(subject=at, message="rises without floor or ground", source=LEVELS)
        return
    left = rises - (levels.steps_down or 0)
    if left < 1:
        message = "no rise is left below the deck"
        yield from same_count("site.levels.rises_to_ground", message, left, 1, LEVELS)
        return
    down = ticks(levels.deck_top_mm) - ticks(levels.edge_least_mm or 0.0)
    message = "not an equal part of the way to the ground"
    yield from same_length(at, message, told, ceil_div(down, left), LEVELS)
    first = ticks(levels.rise_mm or 0.0)
    if abs(first - ticks(told)) > ticks(UNEQUAL) and "LVL-026" not in _codes(plan):
        message = "first and last rise are not equal, and no finding tells it"
        yield off_by(at, message, ticks(told), first, LEVELS)


def _codes(plan: Plan) -> set[str]:
    return {finding.code for finding in plan.findings}


GROUND = (
    "ground_most_mm", "ground_least_mm", "edge_least_mm", "drop_mm", "under_most_mm",
    "under_least_mm", "fall_to_house_mm",
)  # fmt: skip


def _ground(levels: Levels) -> dict[str, int]:
    """Return what is told of the ground, in 1/320 mm.

    Raises:
        NothingToMeasure: The ground is not known.
    """
    told = {name: getattr(levels, name) for name in GROUND}
    if None in told.values():
        raise NothingToMeasure("the plan does not know the ground")
    return {name: ticks(value) for name, value in told.items()}


def ground_is_known_or_not(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where half of the ground is told, or all of it beyond what was measured."""
    levels = levels_of(plan)
    told = {name: getattr(levels, name) is not None for name in GROUND}
    if len(set(told.values())) > 1:
        message = "half of what is to be told of the ground is told"
        yield Flaw(subject="site.levels.ground_least_mm", message=message, source=LEVELS)
    if len(set(levels.beyond)) > 3:
        message = "no corner of the cover was measured near: nothing is known of the ground"
        yield Flaw(subject="site.levels.beyond", message=message, source=LEVELS)
    more = levels.triggers or levels.beyond or levels.garden_lowest_mm is not None
    if not any(told.values()) and (more or levels.hollow != "not known"):
        message = "told of the ground, and no ground is known"
        yield Flaw(subject="site.levels.hollow", message=message, source=LEVELS)


def heights_above_the_ground(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless drop and the frame's height above the ground are differences."""
    levels = levels_of(plan)
    ground = _ground(levels)
    top, under = ticks(levels.deck_top_mm), ticks(levels.underside_mm)
    wanted = {
        "drop_mm": top - ground["edge_least_mm"],
        "under_most_mm": under - ground["ground_least_mm"],
        "under_least_mm": under - ground["ground_most_mm"],
    }
    for name, level in wanted.items():
        message = "not the difference of its levels"
        yield from same_length(f"site.levels.{name}", message, mm(ground[name]), level, LEVELS)
    low, edge, high = (ground[f"{n}_mm"] for n in ("ground_least", "edge_least", "ground_most"))
    if not low <= edge <= high:
        message = "the edge's lowest ground is not between the lowest and the highest"
        yield off_by("site.levels.edge_least_mm", message, edge, low, LEVELS)
    if abs(ground["fall_to_house_mm"]) > high - low:
        message = "falls further than from the highest ground to the lowest"
        fall = abs(ground["fall_to_house_mm"])
        yield off_by("site.levels.fall_to_house_mm", message, fall, high - low, LEVELS)


def heights_are_judged(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every height that a rule names is told, and reached when it is."""
    levels = levels_of(plan)
    ground = _ground(levels)
    named = {trigger.name: trigger for trigger in levels.triggers}
    if list(named) != list(HEIGHTS) or len(levels.triggers) != len(HEIGHTS):
        message = "not every height that a rule names, or one twice"
        yield Flaw(subject="site.levels.triggers", message=message, source=LEVELS)
    for name, trigger in named.items():
        limit, ends = HEIGHTS.get(name, (0, False))
        message = "not the height that its rule names"
        yield from same_length(name, message, trigger.limit_mm, ticks(limit), LEVELS)
        drop = ground["drop_mm"]
        reached = drop >= ticks(limit) if ends else drop > ticks(limit)
        if reached != trigger.reached:
            message = "reached, and not told" if reached else "told, and not reached"
            yield off_by(name, message, drop, ticks(limit), LEVELS)


def no_deck_needs_more(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a deck that needs a guard, or stands higher than packers are named for.

    Where the plan tells of guards, or of posts, these have checks of their own.
    """
    levels = levels_of(plan)
    ground = _ground(levels)
    if ground["drop_mm"] > ticks(GUARD) and plan.guards is None:
        message = "so high a deck needs a guard, and none is planned"
        yield off_by("site.levels.drop_mm", message, ground["drop_mm"], ticks(GUARD), LEVELS)
    packed = plan.groundwork is not None and plan.groundwork.packing is not None
    packed = packed or on_pads(plan) or plan.raised is not None
    if ground["under_most_mm"] > ticks(REACH) and not packed:
        message = "so high a frame needs legs or packers, and none are planned"
        under = ground["under_most_mm"]
        yield off_by("site.levels.under_most_mm", message, under, ticks(REACH), LEVELS)


def the_hollow_is_judged(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the verdict on the garden's lowest spot follows from its levels."""
    levels = levels_of(plan)
    garden_mm, least_mm = levels.garden_lowest_mm, levels.ground_least_mm
    if levels.hollow not in HOLLOWS or levels.hollow == "no outfall":
        message = f"no deck is built with the verdict {levels.hollow!r}"
        yield Flaw(subject="site.levels.hollow", message=message, source=LEVELS)
    if garden_mm is None or least_mm is None:
        if levels.hollow != "not known":
            yield from same_text("site.levels.hollow", "not to be known", levels.hollow,
                                 "not known", LEVELS)  # fmt: skip
        return
    lowest = ticks(least_mm) < ticks(garden_mm)
    if lowest != (levels.hollow in {"with outfall", "outfall not known"}):
        message = "the verdict on the garden's lowest spot is not that of its levels"
        yield off_by("site.levels.hollow", message, ticks(least_mm), ticks(garden_mm), LEVELS)


#: Figures of common practice that the site's reasons quote, in mm.
QUOTED = {"least_mm": 10, "clear_least_mm": 50, "level_slack_mm": 10}


def reasons_tell_the_limits(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a reason of the site quotes another practice, or another limit."""
    site_of(plan)
    for decision in plan.reasons.decisions:
        if decision.path.startswith("site."):
            for name, value in decision.inputs:
                if name in QUOTED and isinstance(value, int | float):
                    message = f"not the figure of common practice: {name}"
                    wanted = ticks(QUOTED[name])
                    yield from same_length(decision.path, message, value, wanted, LEVELS)
        if decision.path == "site.levels.deck_top_mm":
            yield from _turned_down(levels_of(plan), decision)


def _turned_down(levels: Levels, decision: Decision) -> Iterator[Flaw]:
    """Yield a flaw unless what was turned down is every limit at which the top is not."""
    told = [other.value for other in decision.turned_down]
    wanted = [x.level_mm for x in levels.limits if x.level_mm != levels.deck_top_mm]
    if told != wanted:
        message = "what was turned down is not the limits at which the top is not"
        yield Flaw(subject=decision.path, message=message, source=LEVELS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-871", "limits of the deck's top lie where their marks put them",
     limits_lie_by_their_marks),
    ("AUD-872", "the governing limits are the tightest", the_governing_limits_govern),
    ("AUD-873", "the deck's top is within its limits", the_top_is_within_its_limits),
    ("AUD-874", "the frame's underside is the top less board and timber",
     the_underside_is_below_the_top),
    ("AUD-875", "the top is told from every mark", marks_tell_the_top),
    ("AUD-876", "steps down from the floor are equal rises", rises_are_equal),
    ("AUD-877", "the ground is known whole or not at all", ground_is_known_or_not),
    ("AUD-878", "heights above the ground are differences of levels", heights_above_the_ground),
    ("AUD-879", "heights that rules name are judged", heights_are_judged),
    ("AUD-880", "no deck is planned that needs a guard or legs", no_deck_needs_more),
    ("AUD-881", "the verdict on the hollow follows from the levels", the_hollow_is_judged),
    ("AUD-883", "rises to the ground are equal", rises_reach_the_ground),
    ("AUD-882", "reasons of the site tell its limits", reasons_tell_the_limits),
)  # fmt: skip
