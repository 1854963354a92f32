"""Lights: in the middle of rows and bays, clear of all timber below, with cable enough."""

from collections.abc import Iterator

from drylay.audit.edged import thickest
from drylay.audit.exact import mark_of, mm, ticks
from drylay.audit.flaws import (
    conventions,
    need,
    off_by,
    same_count,
    same_length,
    same_text,
)
from drylay.audit.frame import frame_of, open_bays
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.plan.model import Plan
from drylay.work.model import Light, Lighting

WORK = conventions("Work")
LOOP, CLEAR = 300 * 320, 20 * 320
#: Sides by the boards' run: along the rows near and far, then where rows begin and end.
SIDES = {
    "along": ("house", "front", "left", "right"),
    "across": ("left", "right", "house", "front"),
}
Zone = tuple[int, int, int, int]


def lighting_of(plan: Plan) -> Lighting:
    """Return the plan's lights, if it has any."""
    return need(need(plan.work, "work").lighting, "lights")


def _zones(plan: Plan) -> Iterator[tuple[str, Zone]]:
    """Yield every timber below the boards: from where to where along, and across."""
    frame, thick = frame_of(plan), ticks(frame_of(plan).timber_thickness_mm)
    for joist in frame.joists:
        middle, near = ticks(joist.offset_mm), ticks(joist.near_mm)
        start = middle - thick // 2
        yield joist.mark, (start, start + thick, near, near + ticks(joist.length_mm))
    for rim in frame.rims:
        start, near = ticks(rim.start_mm), ticks(rim.near_mm)
        yield rim.mark, (start, start + ticks(rim.length_mm), near, near + thick)
    middles = {joist.mark: ticks(joist.offset_mm) for joist in frame.joists}
    for noggin in frame.noggins:
        low, high = middles.get(noggin.left, 0), middles.get(noggin.right, 0)
        across = ticks(noggin.across_mm)
        yield noggin.mark, (low, high, across - thick // 2, across + thick - thick // 2)
    for batten in frame.battens:
        middle, near = ticks(batten.offset_mm), ticks(batten.near_mm)
        start = middle - thick // 2
        yield batten.mark, (start, start + thick, near, near + ticks(batten.length_mm))
    yield from _splice_zones(plan, thick)


def _splice_zones(plan: Plan, thick: int) -> Iterator[tuple[str, Zone]]:
    """Yield the plates: on the inner face of their rims, in the middle between joints."""
    frame = frame_of(plan)
    for splice in frame.splices:
        number = next((n for n, rim in enumerate(frame.rims) if rim.mark == splice.rim), 0)
        near = ticks(frame.rims[number].near_mm)
        inner = near + thick if number == 0 else near - thick
        half = ticks(splice.length_mm) // 2 + 1
        middle = ticks(splice.offset_mm)
        yield splice.mark, (middle - half, middle + half, inner, inner + thick)


def lights_are_clear(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each timber nearer to a light than half a hole and what stays clear."""
    lighting = lighting_of(plan)
    reach = -(-ticks(lighting.hole_mm) // 2) + CLEAR
    zones = list(_zones(plan))
    for light in lighting.lights:
        along, across = ticks(light.along_mm), ticks(light.across_mm)
        for mark, (left, right, near, far) in zones:
            off = max(left - along, along - right, near - across, across - far)
            if off < reach:
                message = f"too near to {mark}"
                yield off_by(light.mark, message, off, reach, WORK)


def lights_are_in_their_rows(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each light off the mark nearest the middle of its row or of a bay."""
    lighting, mark = lighting_of(plan), mark_of(plan)
    rows = {row.mark: row for row in surface_of(plan).rows}
    bays = [a + b for _, a, b in open_bays(plan)]
    for light in lighting.lights:
        row = rows.get(light.row)
        if row is None:
            yield Flaw(subject=light.mark, message=f"no such row: {light.row}", source=WORK)
            continue
        twice = 2 * ticks(row.near_mm) + ticks(row.width_mm)
        yield from _on_the_mark(light.mark, "across_mm", light.across_mm, [twice], mark)
        yield from _on_the_mark(light.mark, "along_mm", light.along_mm, bays, mark)
        if ticks(row.width_mm) < 2 * (-(-ticks(lighting.hole_mm) // 2) + CLEAR):
            message = "the row is too narrow for the hole"
            yield off_by(light.mark, message, ticks(row.width_mm), ticks(lighting.hole_mm), WORK)


def _on_the_mark(
    subject: str, name: str, found_mm: float, twice: list[int], mark: int
) -> Iterator[Flaw]:
    """Yield a flaw unless a place is a mark within half a mark of one of the middles."""
    found = ticks(found_mm)
    off = min((abs(2 * found - wanted) for wanted in twice), default=0)
    if found % mark or off > mark + 2:
        yield Flaw(
            subject=f"{subject}.{name}", message="not the mark nearest the middle",
            measured=mm(found), limit=None, unit="mm", source=WORK,
        )  # fmt: skip


def lights_are_along_their_side(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the lights are counted, each elsewhere, and lie along their side."""
    lighting, lights = lighting_of(plan), lighting_of(plan).lights
    message = "not so many lights"
    yield from same_count("work.lighting.count", message, lighting.count, len(lights), WORK)
    for number, light in enumerate(lights, start=1):
        subject = f"work.lighting.lights[{number - 1}].mark"
        yield from same_text(subject, "out of order", light.mark, f"L{number}", WORK)
    places = {(light.along_mm, light.across_mm) for light in lights}
    message = "lights at one place"
    yield from same_count("work.lighting.lights", message, len(places), len(lights), WORK)
    sides = SIDES.get(surface_of(plan).run, SIDES["along"])
    if lighting.side not in sides:
        yield Flaw(subject="work.lighting.side", message="no such side", source=WORK)
    elif len({_lined(light, lighting.side in sides[:2]) for light in lights}) > 1:
        yield Flaw(subject="work.lighting.lights", message="not in one line", source=WORK)
    message = "not what a hole stays clear by"
    yield from same_length(
        "work.lighting.clear_least_mm", message, lighting.clear_least_mm, CLEAR, WORK
    )
    below = thickest(surface_of(plan)) + ticks(frame_of(plan).timber_depth_mm)
    if not 0 < ticks(lighting.depth_mm) <= below or ticks(lighting.hole_mm) <= 0:
        message = "the fittings reach below the frame, or have no size"
        yield off_by("work.lighting.depth_mm", message, ticks(lighting.depth_mm), below, WORK)


def _lined(light: Light, rows_run_along: bool) -> object:
    return light.row if rows_run_along else light.along_mm


def cable_is_long_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless trunk and cable are those of the way the cable runs."""
    lighting, joist = lighting_of(plan), need(frame_of(plan).joists or None, "joists")[0]
    sides = SIDES.get(surface_of(plan).run, SIDES["along"])
    along = [ticks(light.along_mm) for light in lighting.lights]
    across = [ticks(light.across_mm) for light in lighting.lights]
    loops = LOOP * len(lighting.lights)
    if lighting.side == sides[2]:
        if lighting.trunk_mm is not None:
            yield Flaw(subject="work.lighting.trunk_mm", message="need not cross", source=WORK)
        wanted = max(across, default=0) + max(along, default=0) + loops
    else:
        near, length = ticks(joist.near_mm), ticks(joist.length_mm)
        quarter = -(-length // 4)
        trunk = near + length - quarter if lighting.side == sides[1] else near + quarter
        message = "not a quarter of the joists in"
        told = need(lighting.trunk_mm, "trunk of the cable")
        yield from same_length("work.lighting.trunk_mm", message, told, trunk, WORK)
        branches = sum(2 * abs(trunk - place) for place in across)
        wanted = trunk + max(along, default=0) + branches + loops
    message = "not the way it runs"
    yield from same_length("work.lighting.cable_mm", message, lighting.cable_mm, wanted, WORK)


def upkeep_is_told_once(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each task of upkeep told twice, never done, or by nobody."""
    work = need(plan.work, "work")
    upkeep, told = work.upkeep, work.upkeep_count or 0
    yield from same_count("work.upkeep_count", "not so many tasks", told, len(upkeep), WORK)
    decisions = {each.path: dict(each.inputs) for each in plan.reasons.decisions}
    ruled = decisions.get("work.upkeep_count", {})
    for task in upkeep:
        if task.in_years > 0 and ruled.get(task.what) != task.times / task.in_years:
            message = "done more or less often than the reason tells"
            yield Flaw(subject=f"work.upkeep: {task.what}", message=message, source=WORK)
        often = task.times >= 1 and task.in_years >= 1
        if not often or not task.what or not task.source.clause:
            message = "a task of upkeep that is never done, or that nobody asks for"
            yield Flaw(subject=f"work.upkeep: {task.what}", message=message, source=WORK)
        count = sum(other.what == task.what for other in upkeep)
        yield from same_count(f"work.upkeep: {task.what}", "such tasks", count, 1, WORK)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-919", "lights stay clear of all timber below", lights_are_clear),
    ("AUD-920", "lights are in the middle of rows and bays", lights_are_in_their_rows),
    ("AUD-921", "lights are counted and lie along their side", lights_are_along_their_side),
    ("AUD-923", "tasks of upkeep are told once, with how often", upkeep_is_told_once),
    ("AUD-922", "the cable is as long as its way", cable_is_long_enough),
)
