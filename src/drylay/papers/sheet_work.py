"""The part of the job sheet on how the deck is built: tasks with hold points, tools, lights."""

from drylay.papers.amounts import filled, hours
from drylay.papers.html import (
    BLANK,
    FIGURE,
    TEXT,
    Html,
    block,
    joined,
    para,
    points,
    table,
    tag,
    words,
)
from drylay.papers.sheet_parts import below, part
from drylay.papers.wording import many, size
from drylay.papers.work_text import crew_told, limit_told, tool_told, upkeep_told
from drylay.plan.model import Plan
from drylay.work.model import Lighting, Task, Work

HOLD = "Go on only when every check of a task holds. Write what you measured; who signs has looked."
LICENSED = (
    "Supply, protection, connection and test of the lights are a licensed electrician's work."
)


def work_part(plan: Plan) -> Html:
    """Return how the deck is built."""
    work = plan.work
    if work is None:
        return Html("")
    return part("work", "The work, task by task", [
        para(crew_told(work)),
        para(HOLD),
        *(_task(task, work, plan) for task in work.tasks),
        below("Tools", table("What to have at hand", (("Tool", TEXT), ("For", TEXT)),
                             [(tool_told(tool, plan), tool.purpose) for tool in work.tools])),
        _lights(work.lighting, plan.units),
        below("Upkeep", para(upkeep_told(work))) if work.upkeep else Html(""),
    ])  # fmt: skip


def _task(task: Task, work: Work, plan: Plan) -> Html:
    after = f"After {', '.join(task.after)}. " if task.after else ""
    hands = f"Takes {many(task.people, 'person', 'people')}. " if task.people > 1 else ""
    when = f"{after}{hands}{hours(task.least_h, task.most_h)}."
    return block("section", [
        tag("h3", words(f"{task.mark} {task.title}")),
        para(when),
        points(filled(step, plan) for step in task.steps),
        _holds(task, plan),
        _tools(task, work, plan),
        _care(task),
    ], class_="task")  # fmt: skip


def _holds(task: Task, plan: Plan) -> Html:
    if not task.holds:
        return Html("")
    columns = (("Hold: check before going on", TEXT), ("Off by at most", FIGURE),
               ("Measured", BLANK), ("Signed", BLANK))  # fmt: skip
    rows = [
        (
            filled(hold.check, plan),
            limit_told(hold, plan.units) or "yes or no",
            "",
            f"{hold.signed_by}:",
        )
        for hold in task.holds
    ]
    return table("", columns, rows)


def _tools(task: Task, work: Work, plan: Plan) -> Html:
    named = [tool_told(tool, plan) for tool in work.tools if tool.mark in task.tools]
    return para(f"Tools: {'; '.join(named)}.") if named else Html("")


def _care(task: Task) -> Html:
    if not task.cautions:
        return Html("")
    inside = [para("Take care here:"), points(task.cautions)]
    return block("div", inside, class_="care", role="note")


def _lights(lighting: Lighting | None, units: str) -> Html:
    if lighting is None:
        return Html("")
    columns = (("Light", TEXT), ("Row", TEXT), ("Along the row, from the datum end", FIGURE),
               ("From the datum edge", FIGURE))  # fmt: skip
    rows = [
        (light.mark, light.row, size(light.along_mm, units), size(light.across_mm, units))
        for light in lighting.lights
    ]
    hole, deep = size(lighting.hole_mm, units), size(lighting.depth_mm, units)
    told = f"Centres of the lights, holes of {hole}, fittings {deep} deep"
    return below("Lights", joined([para(LICENSED), table(told, columns, rows)]))
