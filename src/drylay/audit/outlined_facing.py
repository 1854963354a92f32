"""Fascia on an outline: all of each faced side, its ends as corners ask."""

from collections.abc import Iterator
from itertools import pairwise
from math import hypot, radians, tan

from drylay.audit.exact import ticks
from drylay.audit.flaws import off_by, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    SLACK,
    fault,
    near,
    outline_of,
    outlines,
    place,
    subframe_of,
)
from drylay.audit.plane import UNIT, run_of, size
from drylay.outline.model import Side
from drylay.plan.model import Plan
from drylay.subframe.model import FACING_ENDS, Facing

FACING = outlines("Frame: facings")
#: A corner is square within this many degrees, and goes straight on nowhere.
SQUARE = 0.05


def facings_of(plan: Plan, side: Side) -> list[Facing]:
    """Return the lengths of fascia on a side, in their order along it."""
    start = place(side.start)
    found = [each for each in subframe_of(plan).facings if each.side == side.mark]
    return sorted(found, key=lambda each: hypot(
        place(each.start)[0] - start[0], place(each.start)[1] - start[1]
    ))  # fmt: skip


def faced_sides_are_faced(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the fascia covers each faced side from end to end, and no other."""
    sides = outline_of(plan).sides
    thick = ticks(subframe_of(plan).facing_thickness_mm)
    for index, side in enumerate(sides):
        lengths = facings_of(plan, side)
        if bool(lengths) != (side.facing_mm > 0):
            yield fault(side.mark, "it is faced, or not, against what it tells", FACING)
        run = run_of(place(side.start), place(side.end))
        if not lengths or run is None:
            continue
        level = run.told(place(side.start))[1]
        for each in lengths:
            for end in (each.start, each.end):
                off = float(size(run.told(place(end))[1] - level)) / UNIT
                if off > SLACK:
                    yield off_by(each.mark, "its face is not on its side", off, 0, FACING)
        for one, other in pairwise(lengths):
            far = hypot(place(one.end)[0] - place(other.start)[0],
                        place(one.end)[1] - place(other.start)[1])  # fmt: skip
            if far > SLACK:
                yield off_by(one.mark, f"it does not meet {other.mark}", far, 0, FACING)
        after = sides[(index + 1) % len(sides)]
        ends = (
            (lengths[0], "start", side.start, _rule(sides[index - 1], side, side.corner_deg)),
            (lengths[-1], "end", side.end, _rule(after, side, after.corner_deg)),
        )
        for facing, name, corner, (wanted, back) in ends:
            re_entrant = name == "end" and after.corner_deg > 180
            kind = facing.start_end if name == "start" else facing.end_end
            at = place(facing.start if name == "start" else facing.end)
            off = hypot(at[0] - place(corner)[0], at[1] - place(corner)[1])
            if kind not in wanted:
                message = f"its {name} is a {kind}, not one of {sorted(wanted)}"
                yield fault(facing.mark, message, FACING)
            stands_back = thick if back and kind == "butt" else 0
            # at a re-entrant corner the earlier runs on behind the corner, for the later to butt
            if re_entrant and abs(off - thick) <= SLACK:
                stands_back = thick
            if abs(off - stands_back) > SLACK:
                message = f"its {name} is not where the corner asks for it"
                yield off_by(facing.mark, message, off, stands_back, FACING)


def _rule(other: Side, side: Side, corner_deg: float) -> tuple[set[str], bool]:
    """Return how a fascia may end beside another side, and whether a butt stands back there."""
    if other.facing_mm <= 0:
        return {"free"}, False
    if corner_deg > 180:
        return {"butt", "free", "lap"}, False
    if abs(corner_deg - 90) > SQUARE:
        return {"mitre"}, False
    if abs(ticks(other.length_mm) - ticks(side.length_mm)) <= LONG_OFF:
        return {"lap", "butt"}, True
    return ({"butt"} if other.length_mm > side.length_mm else {"lap"}), True


def facings_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless facings are marked, as long as they lie, and their run is added up."""
    subframe = subframe_of(plan)
    for side in outline_of(plan).sides:
        lengths = facings_of(plan, side)
        base = f"F{side.mark.removeprefix('E')}"
        for index, facing in enumerate(lengths, 1):
            wanted = base if len(lengths) == 1 else f"{base}.{index}"
            yield from same_text(facing.mark, "wrong mark", facing.mark, wanted, FACING)
    marks = {side.mark for side in outline_of(plan).sides}
    for facing in subframe.facings:
        if facing.side not in marks:
            yield fault(facing.mark, f"no side is {facing.side!r}", FACING)
        (ax, ay), (bx, by) = place(facing.start), place(facing.end)
        long, found = hypot(bx - ax, by - ay), ticks(facing.length_mm)
        # its inner face is longer where the saw leans outwards
        thick = ticks(subframe.facing_thickness_mm)
        long += max(0.0, thick * tan(radians(facing.end_deg)))
        long -= min(0.0, thick * tan(radians(facing.start_deg)))
        if abs(found - long) > LONG_OFF:
            yield off_by(facing.mark, "not as long as from tip to tip", found, long, FACING)
        for end in (facing.start_end, facing.end_end):
            if end not in FACING_ENDS:
                yield fault(facing.mark, f"no end is {end!r}", FACING)
        for end, told in (
            (facing.start_end, facing.start_deg), (facing.end_end, facing.end_deg),
        ):  # fmt: skip
            if (end == "mitre" and abs(told) < SQUARE) or (end == "lap" and abs(told) > SQUARE):
                yield fault(facing.mark, "its saw setting is none of its end", FACING)
    run = sum(ticks(side.length_mm) for side in outline_of(plan).sides if side.facing_mm > 0)
    message = "not the length of all faced sides"
    yield from near(
        "subframe.facing_run_mm", message, ticks(subframe.facing_run_mm), run,
        slack=LONG_OFF, unit="1/320 mm", source=FACING,
    )  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-933", "the fascia covers its sides, its ends as corners ask", faced_sides_are_faced),
    ("AUD-934", "facings are marked, as long as they lie, and added up", facings_are_told),
)
