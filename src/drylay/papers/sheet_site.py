"""The part of the job sheet on where the deck stands: levels, wall gap, hollow."""

from drylay.papers.html import TEXT, Html, para, points, table
from drylay.papers.sheet_parts import part
from drylay.papers.site_text import (
    TRANSFER,
    between_told,
    ground_told,
    limit_name,
    limit_told,
    lowest_part,
    mark_name,
    marks_of,
    rises_told,
    top_from,
    top_told,
    triggers_told,
    underside_told,
    wall_told,
)
from drylay.plan.model import Plan


def site_part(plan: Plan) -> Html:
    """Return where the deck stands: levels, wall gap, hollow."""
    wall = para(wall_told(plan))
    levels = plan.site.levels if plan.site else None
    if levels is None:
        return part("site", "Site", [wall])
    units, what = plan.units, "boards" if plan.tiling is None and plan.tiles is None else "tiles"
    limits = [(limit_name(limit), limit_told(limit, levels, units)) for limit in levels.limits]
    marks = [
        (
            f"From {mark_name(mark.name, levels.datum)}",
            f"the top is {top_from(levels, mark, units)}",
        )
        for mark in marks_of(levels)
    ]
    return part("site", "Site", [
        wall,
        para(top_told(plan, levels)),
        table(f"What limits the top of the {what}", (("Limit", TEXT), ("What it asks", TEXT)),
              limits),
        para(between_told(levels, units)),
        table("The top from each mark", (("Mark", TEXT), (f"Top of the {what}", TEXT)), marks),
        para(TRANSFER),
        points([underside_told(levels, units, lowest_part(plan)), *rises_told(levels, units),
                *ground_told(levels, units, lowest_part(plan))]),
        table("Heights above the ground at which a rule asks for more",
              (("Height", TEXT), ("Reached or not", TEXT)), triggers_told(levels, units)),
    ])  # fmt: skip
