"""In words: the frame under an outline, its members, seams and fascia."""

from drylay.outline.model import Outline
from drylay.papers.layout import heading, para, points
from drylay.papers.outlined_ends import facing_ends
from drylay.papers.outlined_first_peg import first_peg, from_peg, minus_told
from drylay.papers.outlined_ledges import kind_told
from drylay.papers.outlined_panels import battens_told, bench_told
from drylay.papers.outlined_ways import across_told, along_told
from drylay.papers.wording import RUNS, bare, clean, many, marks_told, size, size_most
from drylay.plan.model import Plan
from drylay.subframe.model import Facing, Member, Subframe

#: What members of each kind are called where they are listed.
ENDS = {"mitre": "mitred", "lap": "laps over the next", "butt": "butts against the next",
        "free": "free"}  # fmt: skip


def outlined_frame_lines(plan: Plan) -> list[str]:
    """Return what the summary says of a frame under an outline; nothing of other frames."""
    frame, units = plan.subframe, plan.units
    if frame is None:
        return []
    return [
        *heading("FRAME"),
        *para(frame_told(frame, units)),
        *para(lines_told(plan, frame)),
        *points(f"{kind} {size(length_mm, units)}: {marks_told(marks)}"
                for kind, length_mm, marks in member_groups(frame, plan.outline)),
        *points([*battens_told(frame, units), *bench_told(plan, frame)]),
        *points([*doubled_told(plan), *seams_told(frame, units), *facings_told(frame, units)]),
    ]  # fmt: skip


def frame_told(frame: Subframe, units: str) -> str:
    """Return the frame's timber, how its joists run, how far apart they are at most."""
    thick, deep = size(frame.timber_thickness_mm, units), size(frame.timber_depth_mm, units)
    return (
        f"{many(frame.member_count, 'member')} of {clean(frame.timber_article, 40)} ({thick} x "
        f"{deep}, on edge); joists run {RUNS.get(frame.joist_run, frame.joist_run)}, at most "
        f"{size(frame.centres_mm, units)} centre to centre (limit "
        f"{size_most(frame.most_centres_mm, units)}). No board end is further than "
        f"{size_most(frame.end_support_most_mm, units)} from a member under it."
    )


def lines_told(plan: Plan, frame: Subframe) -> str:
    """Return the joist lines from the datum corner, and from P1 where the deck stands askew."""
    where = (along_told if frame.joist_run == "across" else across_told)(plan.outline)
    lines = ", ".join(bare(line, plan.units) for line in frame.lines_mm)
    told = f"Joist lines, centres {where} from the datum corner: {lines}."
    peg = first_peg(plan)
    if peg is None:
        return told
    start_mm = from_peg(peg, frame.joist_run)
    lines = ", ".join(bare(line - start_mm, plan.units) for line in frame.lines_mm)
    return f"{told} From peg P1, as the frame drawing has them: {lines}.{minus_told(frame, peg)}"


def member_groups(frame: Subframe, outline: Outline | None) -> list[tuple[str, float, list[str]]]:
    """Return what members are called, their length and marks, equal ones together."""
    groups: dict[tuple[str, float], list[str]] = {}
    for member in frame.members:
        kind = kind_told(member, outline)
        groups.setdefault((kind, member.length_mm), []).append(member.mark)
    return [(kind, length_mm, marks) for (kind, length_mm), marks in groups.items()]


def carried_told(member: Member) -> str:
    """Return what carries a member's ends."""
    on = tuple(dict.fromkeys(mark for mark in (member.start_on, member.end_on) if mark))
    told = " and ".join(on) or "mitred or free"
    return f"{told}, for {member.side}" if member.side else told


def doubled_told(plan: Plan) -> list[str]:
    """Return which members are screwed into one timber, in one line; nothing without any."""
    screws = plan.fixings.double_screws if plan.fixings is not None else None
    if screws is None:
        return []
    pairs = ", ".join(f"{each.member} to {each.to}" for each in screws.stretches)
    return [f"Screwed into one timber, as the fixings tell: {pairs}"]


def seams_told(frame: Subframe, units: str) -> list[str]:
    """Return the pairs of members that board ends meet over, each with its seam."""
    return [
        f"{seam.left} and {seam.right} touch: board ends meet over their seam, from "
        f"{_place(seam.start.along_mm, seam.start.across_mm, units)} to "
        f"{_place(seam.end.along_mm, seam.end.across_mm, units)}"
        for seam in frame.seams
    ]


def _place(along_mm: float, across_mm: float, units: str) -> str:
    return f"{bare(along_mm, units)} along, {bare(across_mm, units)} across"


def facings_told(frame: Subframe, units: str) -> list[str]:
    """Return the fascia, piece by piece; nothing without any."""
    if not frame.facings:
        return ["No fascia."]
    thick, deep = size(frame.facing_thickness_mm, units), size(frame.facing_depth_mm, units)
    head = (
        f"Fascia {clean(frame.facing_article, 40)} ({thick} x {deep}), "
        f"{size(frame.facing_run_mm, units)} in all; its thickness is off the frame already, and "
        "boards lie over it. Left and right as you face it from outside."
    )
    return [head, *(facing_told(facing, units) for facing in frame.facings)]


def facing_told(facing: Facing, units: str) -> str:
    """Return one length of fascia: its side, its length, its ends."""
    right, left = facing_ends(facing)
    kinds = (ENDS.get(facing.start_end, facing.start_end), ENDS.get(facing.end_end, facing.end_end))
    return (
        f"{facing.mark} on {facing.side}, {size(facing.length_mm, units)}: {left} ({kinds[1]}), "
        f"{right} ({kinds[0]})"
    )
