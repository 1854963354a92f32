"""Air below a deck on an outline, and its fascia over the ground: measured and told again."""

from collections.abc import Iterator

from drylay.audit.board_asks import told_just_where
from drylay.audit.exact import PER_MM, ceil_div, ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import need, off_by
from drylay.audit.ground import room_under_the_frame
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import outline_of, outlines, subframe_of
from drylay.plan.model import Plan

AIR = outlines("Ground, site and work: air and fascia")
#: How far a fascia stays clear of the ground.
CLEAR = 10 * PER_MM


def _room(plan: Plan) -> int | None:
    """Return the least between frame and bed by levels, else by packers; None if unknown."""
    room = room_under_the_frame(plan)
    if room is not None:
        return room[0]
    packing = plan.groundwork.packing if plan.groundwork is not None else None
    return None if packing is None else ticks(packing.height_least_mm)


def fascia_clears_the_ground(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where an outline's fascia reaches into a ground that is known."""
    frame = subframe_of(plan)
    room = need(_room(plan) if frame.facings else 0, "levels nor packers")
    depth, most = ticks(frame.facing_depth_mm), ticks(frame.timber_depth_mm) + room
    if frame.facings and depth > most:
        yield off_by("subframe.facing_depth_mm", "in the ground", depth, most, AIR)


def depth_of_the_fascia_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each caution on the depth of an outline's fascia that is left out."""
    frame, coach = subframe_of(plan), fixings_of(plan).coach_screws
    depth, faced = ticks(frame.facing_depth_mm), bool(frame.facings)
    # below the first centre: to each next, then half of a washer of three shanks
    apart = (coach.per_joist_end - 1) * ticks(coach.edge_least_mm or 0.0)
    heads = ticks(coach.top_least_mm or 0.0) + apart + ceil_div(3 * ticks(coach.shank_mm), 2)
    near = depth > ticks(frame.timber_depth_mm) + (_room(plan) or 0) - CLEAR
    wanted = {"FAS-001": faced and near, "FAS-003": faced and depth < heads}
    yield from told_just_where(plan, wanted, AIR)


def air_under_an_outline_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where boards on an outline lack the air they want, and nothing says so."""
    sides, site = outline_of(plan).sides, need(plan.site, "site")
    need(plan.subframe, "frame")
    least, room = ticks(site.air_below_least_mm or 0.0), _room(plan)
    short = bool(least) and (room is None or room < least)
    shut = bool(least) and all(side.facing_mm > 0 for side in sides)
    yield from told_just_where(plan, {"AIR-001": short, "AIR-002": shut}, AIR)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-891", "an outline's fascia stays out of the ground", fascia_clears_the_ground),
    ("AUD-892", "cautions on the depth of an outline's fascia are told",
     depth_of_the_fascia_is_told),
    ("AUD-893", "air that boards on an outline lack is told", air_under_an_outline_is_told),
)  # fmt: skip
