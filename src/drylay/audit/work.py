"""Work: pegs at the corners, tasks in order, hours, hold points, tools: measured again."""

import re
from collections.abc import Iterator

from drylay.audit.between import hung
from drylay.audit.days import day_holds
from drylay.audit.edges import edges_of
from drylay.audit.exact import mm, ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import conventions, need, same_count, same_length, same_text
from drylay.audit.leaves import NoSuchPath, at
from drylay.audit.legs_out import CHECKS as LEGS
from drylay.audit.legs_tasks import (
    LEGS_HOLDS,
    LEGS_LIMITS,
    LEGS_TWO_HANDED,
    legs_holds,
    legs_kinds,
    legs_waits,
)
from drylay.audit.lights import CHECKS as LIGHTS
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined_steps import (
    OUTLINED_HOLDS,
    OUTLINED_WAITS,
    barred_holds,
    outlined_gaps,
    outlined_kinds,
)
from drylay.audit.pieces import pieces_of
from drylay.audit.rows import surface_of
from drylay.audit.tile_tasks import (
    TILE_HOLDS,
    TILE_LIMITS,
    TILE_WAITS,
    tile_hands,
    tile_holds,
    tile_kinds,
    tile_sizes,
)
from drylay.audit.wanted import buying_of
from drylay.audit.work_hours import finish_of, hours_follow_the_rates
from drylay.fixings.model import Fixings
from drylay.plan.model import Plan
from drylay.work.model import SettingOut, Task, Work

WORK = conventions("Work")
_NAMED = re.compile(r"\{([^{}]*)\}")
#: What 3, 4 and 5 are whole multiples of: 100 mm, or a foot (304.8 mm).
UNITS = {"metric": 32_000, "imperial": 97_536}
#: Limits of the hold points that have one.
LIMITS = {
    "square": (5.0, "mm"), "dig_depth": (10.0, "mm"), "gravel_depth": (10.0, "mm"),
    "pack_level": (3.0, "mm"), "lengths": (1.0, "mm"), "frame_level": (3.0, "mm"),
    "first_row": (2.0, "mm"), "fifth_row": (2.0, "mm"), "last_rows": (2.0, "mm"),
    "board_width": (0.5, "mm"), "board_moisture": (1.0, "%"), "dry": (20.0, "%"), **TILE_LIMITS,
    **LEGS_LIMITS,
}  # fmt: skip
#: Hold points of each kind of task; "ends" only where the plan has preserver.
HOLDS = {
    "check": {"rules"}, "delivery": {"delivered", "board_width"}, "set_out": {"square"},
    "dig": {"dig_depth"}, "fabric": {"laps"}, "gravel": {"gravel_depth"},
    "packing": {"pack_level"}, "cut_frame": {"lengths"}, "frame": {"square", "frame_level"},
    "cable": {"cable"}, "boards": {"first_row", "fifth_row", "last_rows"}, "lights": {"lit"},
    "finish": {"dry"}, "hand_over": {"hand_over"}, **TILE_HOLDS, **OUTLINED_HOLDS,
    **LEGS_HOLDS,
}  # fmt: skip
#: What each kind of task waits for, where the plan has it.
WAITS = {
    "delivery": ("check",), "set_out": ("check",), "dig": ("set_out",), "fabric": ("dig",),
    "gravel": ("fabric", "dig"), "packing": ("gravel", "fabric", "dig", "set_out"),
    "cut_frame": ("delivery",), "frame": ("cut_frame", "packing", "gravel", "set_out"),
    "cable": ("frame",), "boards": ("frame", "cable"), "trim": ("boards",),
    "fascia": ("frame",), "lights": ("boards", "cable"),
    "finish": ("boards", "trim", "fascia", "lights"),
    "hand_over": ("boards", "trim", "fascia", "lights", "finish", "tiles", "cut_tiles", "hatches"),
    **TILE_WAITS, **OUTLINED_WAITS,
}  # fmt: skip
#: Kinds of task that two people do together.
TWO_HANDED = {"set_out", "fabric", "frame", "fascia", *LEGS_TWO_HANDED}


def work_of(plan: Plan) -> Work:
    """Return the plan's work, if it has any."""
    return need(plan.work, "work")


def pegs_at_the_corners(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each corner of the frame without its peg."""
    pegs, corners = work_of(plan).setting_out.pegs, _corners(plan)
    told = tuple(peg.mark for peg in pegs)
    if told != ("P1", "P2", "P3", "P4"):
        yield Flaw(subject="work.setting_out.pegs", message=f"pegs are {told}", source=WORK)
        return
    for peg, (along, across) in zip(pegs, corners, strict=True):
        message = "not at the frame's corner"
        yield from same_length(f"{peg.mark}.along_mm", message, peg.along_mm, along, WORK)
        yield from same_length(f"{peg.mark}.across_mm", message, peg.across_mm, across, WORK)


def _sides(plan: Plan) -> tuple[int, int, int, int]:
    """Return where the frame begins, along the house and away from it, and its two sides."""
    edges = edges_of(plan)
    start, near = ticks(edges.frame_start_mm), ticks(edges.frame_near_mm)
    length, depth = ticks(edges.frame_length_mm), ticks(edges.frame_depth_mm)
    if surface_of(plan).run == "along":
        return start, near, length, depth
    return near, start, depth, length


def _corners(plan: Plan) -> tuple[tuple[int, int], ...]:
    left, house, along, across = _sides(plan)
    right, front = left + along, house + across
    return ((left, house), (right, house), (right, front), (left, front))


def triangle_is_the_largest(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the 3-4-5 is the largest that the frame's sides carry."""
    out, (_, _, along, across) = work_of(plan).setting_out, _sides(plan)
    unit = UNITS.get(plan.units, UNITS["metric"])
    times = 0
    while 3 * (times + 1) * unit <= min(along, across) and (
        4 * (times + 1) * unit <= max(along, across)
    ):
        times += 1
    legs = (4, 3, 5) if along >= across else (3, 4, 5)
    for name, part in zip(("leg_along_mm", "leg_across_mm", "slant_mm"), legs, strict=True):
        told, wanted = _leg(out, name), part * times * unit
        if (told is None) != (times == 0):
            message = "a 3-4-5 where none fits, or none where one does"
            yield Flaw(subject=f"work.setting_out.{name}", message=message, source=WORK)
        elif told is not None:
            message = "not the largest 3-4-5"
            yield from same_length(f"work.setting_out.{name}", message, told, wanted, WORK)
    message = "not what diagonals may differ by"
    yield from same_length(
        "work.setting_out.accepted_mm", message, out.accepted_mm, ticks(5.0), WORK
    )


def _leg(out: SettingOut, name: str) -> float | None:
    leg: float | None = getattr(out, name)
    return leg


def wanted_kinds(plan: Plan) -> set[str]:
    """Return the kinds of task that this plan needs."""
    if plan.outline is not None:
        return outlined_kinds(plan) | legs_kinds(plan)
    kinds = tile_kinds(plan) if plan.tiling is not None else {"cut_frame", "frame", "boards"}
    kinds |= {"check", "delivery", "set_out", "hand_over"}
    under = plan.groundwork
    parts = {
        "dig": under and under.dig, "fabric": under and under.fabric,
        "gravel": under and under.gravel, "packing": under and under.packing,
        "fascia": edges_of(plan).faces, "finish": finish_of(plan),
        "cable": work_of(plan).lighting, "lights": work_of(plan).lighting,
        "trim": None if plan.tiling is not None else pieces_of(plan).trim_allowance_mm,
    }  # fmt: skip
    return kinds | {kind for kind, part in parts.items() if part} | legs_kinds(plan)


def tasks_are_all_there(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each kind of task that is missing, there twice, or not of this plan."""
    kinds, wanted = [task.kind for task in work_of(plan).tasks], wanted_kinds(plan)
    for kind in sorted(wanted | set(kinds)):
        if kinds.count(kind) != (kind in wanted):
            message = f"{kinds.count(kind)} such tasks"
            yield Flaw(subject=f"work.tasks: {kind}", message=message, source=WORK)


def tasks_are_in_order(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each task out of its number, empty, or before what it waits for."""
    before: list[str] = []
    for number, task in enumerate(work_of(plan).tasks, start=1):
        yield from same_text(f"work.tasks[{number - 1}].mark", "out of order", task.mark,
                             f"W{number}", WORK)  # fmt: skip
        for mark in task.after:
            if mark not in before:
                message = f"waits for {mark}, which is not before it"
                yield Flaw(subject=task.mark, message=message, source=WORK)
        if not task.steps or not task.title:
            yield Flaw(subject=task.mark, message="no steps or no title", source=WORK)
        message = "not so many hands"
        yield from same_count(task.mark, message, task.people, _hands(plan, task.kind), WORK)
        for kind in sorted(_unwaited(plan, task)):
            yield Flaw(subject=task.mark, message=f"does not wait for {kind}", source=WORK)
        before.append(task.mark)


def _unwaited(plan: Plan, task: Task) -> set[str]:
    """Return the kinds of task in this plan that a task has to wait for, and does not."""
    kinds = {other.mark: other.kind for other in work_of(plan).tasks}
    wanted = {*WAITS.get(task.kind, ()), *legs_waits(plan, task.kind)} & set(kinds.values())
    return wanted - {kinds.get(mark, "") for mark in task.after}


def _hands(plan: Plan, kind: str) -> int:
    """Return how many people a task takes."""
    delivery = buying_of(plan).delivery
    heavy = delivery is not None and delivery.lift_kg > delivery.lift_most_kg
    heavy = (heavy and kind == "delivery") or tile_hands(plan, kind) > 1
    return 2 if kind in TWO_HANDED or heavy else 1


def named_figures_are_there(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each path in a text of a task, or of a tool, that leads to nothing."""
    work = work_of(plan)
    texts = [(task.mark, text) for task in work.tasks for text in _texts(task)]
    named = [(mark, path) for mark, text in texts for path in _NAMED.findall(text)]
    for subject, path in [*named, *((t.mark, t.size_at) for t in work.tools if t.size_at)]:
        if _value(plan, path) is None:
            yield Flaw(subject=subject, message=f"{path} leads to nothing", source=WORK)


def _texts(task: Task) -> tuple[str, ...]:
    return (*task.steps, *(hold.check for hold in task.holds))


def _value(plan: Plan, path: str) -> object:
    try:
        found: object = at(plan, path)
    except NoSuchPath:
        return None
    return found


def holds_are_kept(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each task without its hold points, and each limit that is not theirs."""
    count = sum(len(task.holds) for task in work_of(plan).tasks)
    yield from same_count("work.holds", "not so many", work_of(plan).holds, count, WORK)
    services = plan.groundwork is not None and plan.groundwork.dig is not None
    coated = plan.fixings is not None and plan.fixings.preserver is not None
    for task in work_of(plan).tasks:
        wanted = tile_holds(plan, task.kind) or set(HOLDS.get(task.kind, set()))
        wanted |= {"services"} if task.kind == "check" and services else set()
        wanted |= day_holds(plan) if task.kind == "boards" else set()
        wanted |= {"ends"} if task.kind == "fascia" or (task.kind == "cut_frame" and coated) else (
            set()
        )  # fmt: skip
        wanted |= {"fall"} if task.kind == "frame" and _falls(plan) else set()
        wanted |= barred_holds(plan, task.kind) | legs_holds(plan, task.kind)
        missing = wanted - {hold.mark for hold in task.holds}
        if missing:
            message = f"hold points missing: {', '.join(sorted(missing))}"
            yield Flaw(subject=task.mark, message=message, source=WORK)
        for hold in task.holds:
            limit = LIMITS.get(hold.mark, (None, ""))
            if (hold.limit, hold.unit) != limit or not hold.check or not hold.signed_by:
                message = f"limit {hold.limit} {hold.unit}, wanted {limit[0]} {limit[1]}"
                yield Flaw(subject=f"{task.mark}: {hold.mark}", message=message, source=WORK)


def _falls(plan: Plan) -> bool:
    """Whether boards are laid falling; on an outline they never are."""
    return plan.outline is None and bool(surface_of(plan).fall_mm)


def tools_are_listed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each tool of a task that is not listed, and for each bit left out."""
    work = work_of(plan)
    listed = {tool.mark for tool in work.tools}
    for task in work.tasks:
        for mark in task.tools:
            if mark not in listed:
                yield Flaw(subject=task.mark, message=f"no such tool: {mark}", source=WORK)
        masks = {tool.mark for tool in work.tools if "P3" in tool.what}
        if any("P3" in text for text in task.cautions) and not masks & set(task.tools):
            message = "a P3 mask is asked for, and is none of its tools"
            yield Flaw(subject=task.mark, message=message, source=WORK)
    sized = {tool.size_at for tool in work.tools}
    for path in sorted(_sizes_wanted(plan) - sized):
        yield Flaw(subject="work.tools", message=f"no tool of the size at {path}", source=WORK)
    if plan.tiling is not None:
        return  # one spacer for every joint, which is among the sizes wanted
    clipped, outlined = fixings_of(plan).clips is not None, plan.outline is not None
    rows = () if clipped or outlined else surface_of(plan).rows[1:]
    gaps = {ticks(row.gap_mm) for row in rows}
    gaps |= outlined_gaps(plan) if outlined and not clipped else set()
    at = ("surface.rows[", "laying.zones[")
    spacers = {_value(plan, path) for path in sized if path.startswith(at)}
    laid = {ticks(gap) for gap in spacers if isinstance(gap, float)}
    for gap in sorted(g for g in gaps if all(abs(g - each) > 32 for each in laid)):
        yield Flaw(subject="work.tools", message=f"no spacer of {mm(gap):g} mm", source=WORK)


def _bits_for_doubles(fixings: Fixings) -> set[str]:
    """Return where the size of the doubles' bit stands, unless the frame screws' is as wide."""
    screws, frame = fixings.double_screws, fixings.frame_screws
    alike = frame is not None and screws is not None and frame.pilot_mm == screws.pilot_mm
    return set() if screws is None or alike else {"fixings.double_screws.pilot_mm"}


def _sizes_wanted(plan: Plan) -> set[str]:
    """Return where the sizes of tools stand that this plan cannot do without."""
    if plan.tiling is not None and plan.tiling.pads is not None:
        return tile_sizes(plan)
    fixings = fixings_of(plan)
    wanted = {"buying.kerf_mm"} | (set() if hung(plan) else {"fixings.coach_screws.pilot_mm"})
    for path, screws in (
        ("fixings.deck_screws", fixings.deck_screws),
        ("fixings.border_screws", fixings.border_screws),
    ):
        wanted |= {f"{path}.pilot_mm"} if screws else set()
        wanted |= {f"{path}.shank_mm"} if screws and screws.predrill_all else set()
    clips = fixings.clips
    wanted |= {"fixings.deck_screws.shank_mm"} if clips and clips.fixed_screws else set()
    wanted |= {"fixings.clips.slot_width_mm"} if clips and clips.slot_width_mm else set()
    wanted |= {"fixings.frame_screws.pilot_mm"} if fixings.frame_screws else set()
    wanted |= _bits_for_doubles(fixings)
    wanted |= {"fixings.fascia_screws.pilot_mm"} if fixings.fascia_screws else set()
    return wanted | (tile_sizes(plan) if plan.tiling is not None else set())


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-911", "pegs stand at the frame's corners", pegs_at_the_corners),
    ("AUD-912", "the 3-4-5 is the largest the frame carries", triangle_is_the_largest),
    ("AUD-913", "the plan has the tasks it needs, each once", tasks_are_all_there),
    ("AUD-914", "each task comes after all it waits for", tasks_are_in_order),
    ("AUD-915", "figures named in tasks and tools are in the plan", named_figures_are_there),
    ("AUD-916", "tasks have their hold points, with their limits", holds_are_kept),
    ("AUD-917", "every tool of a task is listed, bits and spacers too", tools_are_listed),
    ("AUD-918", "hours follow their rates and add up", hours_follow_the_rates),
    *LIGHTS,
    *LEGS,
)
