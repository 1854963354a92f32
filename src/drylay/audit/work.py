"""Work: pegs at the corners, tasks in order, hours, hold points, tools: measured again."""

import re
from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from drylay.audit.days import day_holds
from drylay.audit.edged import border_marks
from drylay.audit.edges import edges_of
from drylay.audit.exact import mm, ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import conventions, need, same_count, same_length, same_text
from drylay.audit.frame import frame_of
from drylay.audit.leaves import NoSuchPath, at
from drylay.audit.lights import CHECKS as LIGHTS
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.pieces import pieces_of
from drylay.audit.rows import surface_of
from drylay.audit.tile_tasks import (
    TILE_FIXED,
    TILE_HOLDS,
    TILE_LIMITS,
    TILE_WAITS,
    tile_hands,
    tile_holds,
    tile_kinds,
    tile_quantities,
    tile_sizes,
)
from drylay.audit.wanted import buying_of
from drylay.fixings.model import Finish
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
}  # fmt: skip
#: Hold points of each kind of task; "ends" only where the plan has preserver.
HOLDS = {
    "check": {"rules"}, "delivery": {"delivered", "board_width"}, "set_out": {"square"},
    "dig": {"dig_depth"}, "fabric": {"laps"}, "gravel": {"gravel_depth"},
    "packing": {"pack_level"}, "cut_frame": {"lengths"}, "frame": {"square", "frame_level"},
    "cable": {"cable"}, "boards": {"first_row", "fifth_row", "last_rows"}, "lights": {"lit"},
    "finish": {"dry"}, "hand_over": {"hand_over"}, **TILE_HOLDS,
}  # fmt: skip
#: What each kind of task waits for, where the plan has it.
WAITS = {
    "delivery": ("check",), "set_out": ("check",), "dig": ("set_out",), "fabric": ("dig",),
    "gravel": ("fabric", "dig"), "packing": ("gravel", "fabric", "dig", "set_out"),
    "cut_frame": ("delivery",), "frame": ("cut_frame", "packing", "gravel", "set_out"),
    "cable": ("frame",), "boards": ("frame", "cable"), "trim": ("boards",),
    "fascia": ("frame",), "lights": ("boards", "cable"),
    "finish": ("boards", "trim", "fascia", "lights"),
    "hand_over": ("boards", "trim", "fascia", "lights", "finish", "tiles", "cut_tiles"),
    **TILE_WAITS,
}  # fmt: skip
#: Kinds of task that two people do together.
TWO_HANDED = {"set_out", "fabric", "frame", "fascia"}
#: Hours of one person, in hundredths: whatever the deck, least and most.
FIXED = {
    "check": (100, 300), "delivery": (50, 100), "set_out": (100, 200), "dig": (0, 0),
    "fabric": (25, 50), "gravel": (25, 50), "packing": (25, 50), "cut_frame": (50, 100),
    "frame": (50, 100), "cable": (50, 100), "boards": (50, 100), "trim": (50, 100),
    "fascia": (25, 50), "lights": (25, 50), "finish": (25, 50), "hand_over": (50, 100),
    **TILE_FIXED,
}  # fmt: skip


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
    kinds = tile_kinds(plan) if plan.tiling is not None else {"cut_frame", "frame", "boards"}
    kinds |= {"check", "delivery", "set_out", "hand_over"}
    under = plan.groundwork
    parts = {
        "dig": under and under.dig, "fabric": under and under.fabric,
        "gravel": under and under.gravel, "packing": under and under.packing,
        "fascia": edges_of(plan).faces, "finish": _finish(plan),
        "cable": work_of(plan).lighting, "lights": work_of(plan).lighting,
        "trim": None if plan.tiling is not None else pieces_of(plan).trim_allowance_mm,
    }  # fmt: skip
    return kinds | {kind for kind, part in parts.items() if part}


def _finish(plan: Plan) -> Finish | None:
    """Return what is brushed on boards; tiles have none."""
    return None if plan.tiling is not None else fixings_of(plan).finish


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
        for kind in sorted(_unwaited(work_of(plan), task)):
            yield Flaw(subject=task.mark, message=f"does not wait for {kind}", source=WORK)
        before.append(task.mark)


def _unwaited(work: Work, task: Task) -> set[str]:
    """Return the kinds of task in this plan that a task has to wait for, and does not."""
    kinds = {other.mark: other.kind for other in work.tasks}
    wanted = set(WAITS.get(task.kind, ())) & set(kinds.values())
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
        wanted |= {"fall"} if task.kind == "frame" and surface_of(plan).fall_mm else set()
        missing = wanted - {hold.mark for hold in task.holds}
        if missing:
            message = f"hold points missing: {', '.join(sorted(missing))}"
            yield Flaw(subject=task.mark, message=message, source=WORK)
        for hold in task.holds:
            limit = LIMITS.get(hold.mark, (None, ""))
            if (hold.limit, hold.unit) != limit or not hold.check or not hold.signed_by:
                message = f"limit {hold.limit} {hold.unit}, wanted {limit[0]} {limit[1]}"
                yield Flaw(subject=f"{task.mark}: {hold.mark}", message=message, source=WORK)


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
    clipped = fixings_of(plan).clips is not None
    gaps = {ticks(row.gap_mm) for row in surface_of(plan).rows[1:] if not clipped}
    spacers = {_value(plan, path) for path in sized if path.startswith("surface.rows[")}
    laid = {ticks(gap) for gap in spacers if isinstance(gap, float)}
    for gap in sorted(g for g in gaps if all(abs(g - each) > 32 for each in laid)):
        yield Flaw(subject="work.tools", message=f"no spacer of {mm(gap):g} mm", source=WORK)


def _sizes_wanted(plan: Plan) -> set[str]:
    """Return where the sizes of tools stand that this plan cannot do without."""
    if plan.tiling is not None and plan.tiling.pads is not None:
        return tile_sizes(plan)
    fixings = fixings_of(plan)
    wanted = {"buying.kerf_mm", "fixings.coach_screws.pilot_mm"}
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
    wanted |= {"fixings.fascia_screws.pilot_mm"} if fixings.fascia_screws else set()
    return wanted | (tile_sizes(plan) if plan.tiling is not None else set())


def hours_follow_the_rates(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each task whose hours are not those of its rates, and for the sums."""
    work = work_of(plan)
    people = need(work.people if work.people > 0 else None, "people")
    for task in work.tasks:
        if task.kind in FIXED:
            least, most = (_person_hours(plan, task.kind, end) / people for end in (0, 1))
            told, wanted = (task.least_h, task.most_h), (floor(least * 4) / 4, ceil(most * 4) / 4)
            yield from _same_hours(task.mark, told, wanted)
    sums = (sum(task.least_h for task in work.tasks), sum(task.most_h for task in work.tasks))
    yield from _same_hours("work", (work.least_h, work.most_h), sums)


def _same_hours(
    subject: str, told: tuple[float, float], wanted: tuple[float, float]
) -> Iterator[Flaw]:
    for name, found, limit in zip(("least_h", "most_h"), told, wanted, strict=True):
        if found != limit:
            yield Flaw(subject=f"{subject}.{name}", message="not those of the rates",
                       measured=found, limit=limit, unit="h", source=WORK)  # fmt: skip


def _person_hours(plan: Plan, kind: str, end: int) -> Fraction:
    each = sum(rates[end] * count for rates, count in _quantities(plan, kind))
    return (FIXED[kind][end] + Fraction(each)) / 100


def _quantities(plan: Plan, kind: str) -> list[tuple[tuple[int, int], Fraction]]:
    """Return what a task is made of: hundredths of an hour for each, and how many."""
    if plan.tiling is not None and kind in TILE_FIXED:
        return tile_quantities(plan, kind)
    under, lights, finish = plan.groundwork, work_of(plan).lighting, _finish(plan)
    counts: dict[str, list[tuple[tuple[int, int], object]]] = {
        "delivery": [((2, 5), _bought(plan))],
        "dig": [((200, 400), under.dig.solid_m3 if under and under.dig else 0)],
        "fabric": [((10, 25), len(under.fabric.strips) if under and under.fabric else 0)],
        "gravel": [((50, 100), _tonnes(plan))],
        "packing": [((3, 8), under.packing.count if under and under.packing else 0)],
        "cable": [((20, 40), len(lights.lights) if lights else 0)],
        "fascia": [((30, 60), sum(len(face.pieces) for face in edges_of(plan).faces))],
        "lights": [((25, 50), len(lights.lights) if lights else 0)],
        "finish": [((6, 15), Fraction(str(finish.area_m2)) * finish.coats if finish else 0)],
    }  # fmt: skip
    found = _on_the_frame(plan, kind) if kind in {"cut_frame", "frame", "boards"} else []
    return [(rates, Fraction(str(count))) for rates, count in [*counts.get(kind, []), *found]]


def _on_the_frame(plan: Plan, kind: str) -> list[tuple[tuple[int, int], object]]:
    """Return what tasks on a frame are made of."""
    frame = frame_of(plan)
    if kind == "cut_frame":
        return [((5, 10), _members(plan))]
    if kind == "frame":
        return [((10, 25), 2 * len(frame.joists)), ((8, 15), len(frame.noggins)),
                ((15, 30), len(frame.splices)), ((10, 20), len(frame.battens))]  # fmt: skip
    crossings = len(surface_of(plan).rows) * len(frame.joists)
    return [((10, 20), len(pieces_of(plan).pieces)), ((2, 5), crossings), *_of_the_boards(plan)]


def _of_the_boards(plan: Plan) -> list[tuple[tuple[int, int], object]]:
    """Return what the boards' own make adds: holes for every screw, waxed ends, strips."""
    fixings, pieces = fixings_of(plan), pieces_of(plan)
    kinds = [held for held in (fixings.deck_screws, fixings.border_screws) if held is not None]
    surface, edged = surface_of(plan), border_marks(plan)
    border = surface.border.groove_mm if surface.border is not None else None
    grooves = {False: surface.groove_mm, True: border}
    return [
        ((1, 2), sum(held.count for held in kinds if held.predrill_all)),
        ((2, 5), fixings.wax.ends if fixings.wax else 0),
        ((10, 20), sum(grooves[p.row in edged] is not None for p in pieces.pieces)),
    ]


def _tonnes(plan: Plan) -> Fraction:
    gravel = plan.groundwork.gravel if plan.groundwork else None
    return Fraction(str(gravel.mass_kg)) / 1000 if gravel else Fraction(0)


def _members(plan: Plan) -> int:
    frame = frame_of(plan)
    rims = sum(len(rim.pieces) for rim in frame.rims)
    battens = len(frame.battens)
    return rims + len(frame.joists) + len(frame.noggins) + len(frame.splices) + battens


def _bought(plan: Plan) -> int:
    buying = buying_of(plan)
    lengths = sum(len(purchase.lengths) for purchase in buying.purchases)
    return lengths + sum(box.packs for pack in buying.packs for box in pack.packs)


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
)
