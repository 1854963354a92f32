"""In words: how the deck is built."""

from drylay.papers.amounts import filled, hours, told_at
from drylay.papers.wording import clean, many, size, tight
from drylay.plan.model import Plan
from drylay.work.model import HoldPoint, Lighting, Task, Tool, Upkeep, Work

RECKONED = "for a careful amateur with power tools; nobody's promise"
SIGN = "sign"


def work_told(plan: Plan) -> list[str]:
    """Return how the deck is built, a line each: tasks in order, tools, lights."""
    work = plan.work
    if work is None:
        return []
    return [
        crew_told(work),
        *(_task_told(task, plan) for task in work.tasks),
        *_sized_told(work, plan),
        *([lights_told(work.lighting, plan.units)] if work.lighting else []),
        *([upkeep_told(work)] if work.upkeep else []),
    ]


#: A family's tasks of upkeep in words; others are told by the family's own.
TASKS = {
    "sweep": "sweep, and clear the gaps",
    "wash": "wash, without solvent",
    "brush": "brush the strips up",
    "leaves": "take leaves off, and clear the gaps",
    "moss": "treat moss, with what is safe for the pile",
    "screws": "drive screws home",
    "strip": "replace the strips",
    "oil": "oil or stain",
    "post feet": "probe posts at their feet: soft deeper than 5 mm (1/4 in) is rot",
    "ledger fixings": "try the ledger's fixings, and look for a gap at the wall",
    "braces": "try the braces' bolts",
    "guard posts": "push hard at every guard post",
    "drain": "lift a tile to see the drain, and level pads",
}
OFTEN = {1: "once", 2: "twice"}


def upkeep_told(work: Work) -> str:
    """Return the year's upkeep in one line, with who says so."""
    tasks = "; ".join(f"{TASKS.get(t.what, clean(t.what, 40))}, {_often(t)}" for t in work.upkeep)
    sources = dict.fromkeys(f"{t.source.kind}: {clean(t.source.clause, 120)}" for t in work.upkeep)
    return f"Upkeep: {tasks} ({'; '.join(sources)})."


def _often(task: Upkeep) -> str:
    times = OFTEN.get(task.times, f"{task.times} times")
    return f"{times} a year" if task.in_years == 1 else f"{times} in {task.in_years} years"


def _sized_told(work: Work, plan: Plan) -> list[str]:
    """Return bits and spacers, four to a line: a longer one would be cut off."""
    sized = [tool_told(tool, plan) for tool in work.tools if tool.size_at]
    lines = [sized[at : at + 4] for at in range(0, len(sized), 4)]
    return [f"Bits and spacers: {'; '.join(line)}" for line in lines]


def crew_told(work: Work) -> str:
    """Return how many build, and how long it may take."""
    crew = many(work.people, "person", "people")
    return f"{crew}: {hours(work.least_h, work.most_h)} by the clock, {RECKONED}."


def _task_told(task: Task, plan: Plan) -> str:
    holds = "; ".join(hold_told(hold, plan) for hold in task.holds)
    after = f" (after {' '.join(task.after)})" if task.after else ""
    time = hours(task.least_h, task.most_h)
    return f"{task.mark} {clean(task.title)}{after}, {time}." + (
        f" Hold: {holds}." if holds else ""
    )


def hold_told(hold: HoldPoint, plan: Plan) -> str:
    """Return a hold point: what is checked, how far off at most."""
    most = limit_told(hold, plan.units)
    return filled(hold.check, plan) + (f": {most} at most" if most else "")


def limit_told(hold: HoldPoint, units: str) -> str:
    """Return a hold point's limit; "" where there is nothing to measure."""
    if hold.limit is None:
        return ""
    if hold.unit == "mm":
        return tight(hold.limit, units)
    return f"{hold.limit:g} {clean(hold.unit)}"


def tool_told(tool: Tool, plan: Plan) -> str:
    """Return a tool with the size that matters."""
    at = f" {told_at(plan, tool.size_at)}" if tool.size_at else ""
    return f"{clean(tool.what)}{at}"


def lights_told(lighting: Lighting, units: str) -> str:
    """Return the lights and their cable in one line."""
    places = "; ".join(
        f"{light.mark} in {light.row} at {size(light.along_mm, units)}" for light in lighting.lights
    )
    return (
        f"Lights along the {lighting.side} side, holes of {size(lighting.hole_mm, units)}: "
        f"{places}, measured along the row from the datum end. "
        f"Cable {size(lighting.cable_mm, units)}."
    )
