"""Planted faults in the work: pegs, tasks, holds, tools, hours, lights."""

from audit.edits import put
from audit.legs_faults import ON_THE_GROUND
from audit.planting import Edit, Fault, both, by, to, turned, twice, without
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.work.model import Upkeep

OUT, TASKS, LIGHTS = "work.setting_out", "work.tasks", "work.lighting"


def small(plan: Plan) -> Plan:
    """Return the plan with a frame too shallow for any 3-4-5, pegs at its corners."""
    plan = put(plan, "edges.frame_depth_mm", 275.0)
    for peg in (2, 3):
        plan = put(plan, f"{OUT}.pegs[{peg}].across_mm", 275.0)
    return plan


def numbered(edit: Edit) -> Edit:
    """Return an edit of the tasks with their marks put in order again."""

    def run(plan: Plan) -> Plan:
        plan = edit(plan)
        for at in range(len(plan.work.tasks) if plan.work else 0):
            plan = put(plan, f"{TASKS}[{at}].mark", f"W{at + 1}")
        return plan

    return run


WORK: tuple[Fault, ...] = (
    *ON_THE_GROUND,
    ("AUD-911", "a peg beside its corner", by(f"{OUT}.pegs[1].along_mm", 10.0)),
    ("AUD-911", "pegs changed over", turned(f"{OUT}.pegs", 0, 1)),
    ("AUD-911", "pegs in the boards' axes", to("surface.run", "across")),
    ("AUD-912", "a 3-4-5 that is none", by(f"{OUT}.slant_mm", 1.0)),
    ("AUD-912", "a 3-4-5 larger than the frame", to(f"{OUT}.leg_across_mm", 600.0)),
    ("AUD-912", "a 3-4-5 where none fits", small),
    ("AUD-912", "no 3-4-5 where one fits", to(f"{OUT}.slant_mm", None)),
    ("AUD-912", "diagonals let go", to(f"{OUT}.accepted_mm", 50.0)),
    ("AUD-913", "a task left out", numbered(without(TASKS, 8))),
    ("AUD-913", "a task twice", numbered(twice(TASKS, 8))),
    ("AUD-913", "a finish that nobody brushes on", to(f"{TASKS}[13].kind", "trim")),
    ("AUD-913", "a task of no kind", to(f"{TASKS}[8].kind", "tea")),
    ("AUD-914", "a task out of its number", to(f"{TASKS}[3].mark", "W9")),
    ("AUD-914", "a frame before it is cut", to(f"{TASKS}[8].after", ("W12",))),
    ("AUD-914", "boards that wait for nothing", to(f"{TASKS}[10].after", ())),
    ("AUD-914", "boards before the cable is tested", to(f"{TASKS}[10].after", ("W9",))),
    ("AUD-914", "a task of no steps", to(f"{TASKS}[10].steps", ())),
    ("AUD-914", "a task for a dozen", to(f"{TASKS}[10].people", 12)),
    ("AUD-915", "a figure that is nowhere", to(f"{TASKS}[0].steps", ("Dig {the.dig_mm}.",))),
    ("AUD-915", "a tool of no size", to("work.tools[0].size_at", "site.levels.snow_mm")),
    ("AUD-916", "a hold point left out", to(f"{TASKS}[8].holds", ())),
    ("AUD-916", "a falling frame without its hold", to("surface.fall_mm", 30.0)),
    ("AUD-916", "a hold that lets anything pass", to(f"{TASKS}[2].holds[0].limit", 500.0)),
    ("AUD-916", "a hold that nobody signs", to(f"{TASKS}[2].holds[0].signed_by", "")),
    ("AUD-917", "a tool that is not listed", to(f"{TASKS}[0].tools", ("magnet",))),
    ("AUD-917", "no bit for the pilots", without("work.tools", 1)),
    ("AUD-917", "a P3 mask asked for, and none among the tools",
     to(f"{TASKS}[0].cautions", ("Saw with extraction, and wear a P3 mask.",))),
    ("AUD-923", "upkeep that is never done", to("work.upkeep", (
        Upkeep(what="wash", times=0, in_years=1, source=Source(kind="assumption", title="a",
                                                               clause="b")),))),
    ("AUD-917", "no spacer for the gap", without("work.tools", 5)),
    ("AUD-918", "hours told too few", to(f"{TASKS}[10].most_h", 0.5)),
    ("AUD-918", "a whole that is not the sum", by("work.least_h", 1.0)),
    ("AUD-918", "a larger crew, no quicker", to("work.people", 1)),
    ("AUD-919", "a hole over a joist", to(f"{LIGHTS}.lights[0].along_mm", 842.5)),
    ("AUD-919", "a hole over a noggin", to(f"{LIGHTS}.lights[0].across_mm", 287.5)),
    ("AUD-919", "a hole too wide", to(f"{LIGHTS}.hole_mm", 60.0)),
    ("AUD-920", "a light beside its row's middle", by(f"{LIGHTS}.lights[0].across_mm", 10.0)),
    ("AUD-920", "a light beside its bay's middle", by(f"{LIGHTS}.lights[0].along_mm", 20.0)),
    ("AUD-920", "a light in no row", to(f"{LIGHTS}.lights[0].row", "B99")),
    ("AUD-921", "lights miscounted", to(f"{LIGHTS}.count", 3)),
    ("AUD-921", "two lights in one hole", both(
        to(f"{LIGHTS}.lights[1].along_mm", 1042.5), to(f"{LIGHTS}.lights[1].mark", "L2"))),
    ("AUD-921", "two lights of one mark", to(f"{LIGHTS}.lights[1].mark", "L1")),
    ("AUD-921", "lights in two rows", to(f"{LIGHTS}.lights[1].row", "B2")),
    ("AUD-921", "a side there is not", to(f"{LIGHTS}.side", "top")),
    ("AUD-921", "a fitting as deep as a well", to(f"{LIGHTS}.depth_mm", 500.0)),
    ("AUD-921", "less clear than it says", to(f"{LIGHTS}.clear_least_mm", 5.0)),
    ("AUD-922", "a cable too short", by(f"{LIGHTS}.cable_mm", -500.0)),
    ("AUD-922", "a trunk through the joists' ends", to(f"{LIGHTS}.trunk_mm", 60.0)),
)  # fmt: skip
