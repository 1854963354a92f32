"""Why nothing fills a cover as the brief asks: what each way out breaks, and what would help."""

from collections.abc import Iterable

from attrs import frozen

from drylay.brief.model import Brief
from drylay.findings import Finding, Severity
from drylay.planner.rows import ARITHMETIC
from drylay.surface.model import RuleMet, WayOut
from drylay.units import length_at_least, length_text

CHANGES = {"cover may shrink": "shrink", "cover may grow": "grow"}
MAY_RIP = "boards may be ripped"
#: A rule broken, with figure and limit, in words that nobody reads as leave to break it.
BROKEN = {
    "gap not over the most": "gaps would be {measured}, and may be {limit} at most",
    "gap not under the least": "gaps would be {measured}, and have to be {limit} at least",
    "cover may shrink": "the cover would have to shrink by {measured}, and may by {limit}",
    "cover may grow": "the cover would have to grow by {measured}, and may by {limit}",
    "no sliver": "a row of {measured} would be a sliver, which anything below {limit} is",
    "rip not under the least": "a cut row would be {measured}, and has to be {limit} at least",
    "the saw takes off a whole kerf": "a cut row would be {measured}, and the saw leaves {limit}",
    "rows fill the cover": "whole rows do not fill it",
}
NO_GAP = "no gap would be left, and {limit} have to be"


@frozen(kw_only=True)
class Courses:
    """Rows or columns that fill no cover: what they are called, every way out, which may be cut.

    `side` is how the brief's cover is called across them; `cut` says why they may not be cut, ""
    where they may; `left_mm` is what whole ones leave at the preferred gap.
    """

    name: str
    side: str
    ways: tuple[WayOut, ...]
    cut: str
    left_mm: float


def no_way_out(brief: Brief, told: Iterable[Courses], *, subject: str) -> Finding:
    """Return the stop for a cover that nothing fills as the brief asks.

    Its figures are those of the way out that is nearest to keeping its rules.
    """
    courses = tuple(told)
    nearest = _nearest(courses[-1])
    rule = next((rule for rule in nearest.rules if not rule.met), None) if nearest else None
    return Finding(
        code="ROW-001",
        severity=Severity.STOP,
        subject=subject,
        message="; ".join(_told(brief, each) for each in courses),
        measured=rule.measured if rule else courses[-1].left_mm,
        limit=rule.limit if rule else 0.0,
        unit=rule.unit if rule else "mm",
        source=rule.source if rule else ARITHMETIC,
    )


def _nearest(courses: Courses) -> WayOut | None:
    """Return the way out that breaks fewest rules, of equals by the least change of the cover."""
    broken = [way for way in courses.ways if not way.honest]

    def far(way: WayOut) -> tuple[int, bool, float]:
        rules = [rule for rule in way.rules if not rule.met]
        return len(rules), rules[0].rule not in CHANGES, abs(way.cover_change_mm)

    return min(broken, key=far, default=None)


def _told(brief: Brief, courses: Courses) -> str:
    text = f"no {courses.name} fill the cover as the brief asks"
    unasked = sorted({way.kind for way in courses.ways if way.honest})
    if unasked:
        text += f"; these would, if added to rows.prefer: {', '.join(unasked)}"
    helps = [_change_told(brief, courses, way) for way in _by_change(courses.ways)]
    text += f"; it would come out if {', or if '.join(helps)}" if helps else ""
    broken = dict.fromkeys(_broken_told(brief, courses, way) for way in courses.ways)
    left = "; ".join(told for told in broken if told)
    return f"{text}; the other ways do not do: {left}" if left else text


def _by_change(ways: Iterable[WayOut]) -> list[WayOut]:
    """Return the ways out that nothing but the cover's size forbids, the least change first."""
    found = [
        way for way in ways
        if [rule.rule for rule in way.rules if not rule.met] in (["cover may shrink"],
                                                               ["cover may grow"])
    ]  # fmt: skip
    return sorted(found, key=lambda way: (way.kind != "shrink", abs(way.cover_change_mm)))


def _change_told(brief: Brief, courses: Courses, way: WayOut) -> str:
    verb = "shrink" if way.cover_change_mm < 0 else "grow"
    by = length_at_least(abs(way.cover_change_mm), brief.units)
    may = length_text(getattr(brief.cover, f"{verb}_{courses.side}_mm"), brief.units)
    gap = f", gaps {length_text(way.gap_mm, brief.units)}" if way.rows > 1 else ""
    added = "" if way.kind in brief.rows.prefer else f", with {way.kind} in rows.prefer"
    return (
        f"the cover may {verb} by {by} (cover.{verb}_{courses.side}, now {may}{added}): "
        f"{way.rows} {courses.name}{gap}"
    )


def _broken_told(brief: Brief, courses: Courses, way: WayOut) -> str:
    """Return what a way out breaks besides the cover's size, "" where it breaks nothing else."""
    broken = [rule for rule in way.rules if not rule.met]
    if not broken or (len(broken) == 1 and broken[0].rule in CHANGES):
        return ""
    if any(rule.rule == MAY_RIP for rule in broken):
        return courses.cut
    each = ", ".join(_rule_told(brief, rule) for rule in broken)
    return f"with {way.rows} {courses.name} {each}"


def _rule_told(brief: Brief, rule: RuleMet) -> str:
    if rule.rule == "gap not under the least" and rule.measured <= 0:
        return NO_GAP.format(limit=length_text(rule.limit, brief.units))
    figures = [length_text(size_mm, brief.units) for size_mm in (rule.measured, rule.limit)]
    if figures[0].removeprefix("~") == figures[1].removeprefix("~"):
        figures = [f"{size_mm:.5g} mm" for size_mm in (rule.measured, rule.limit)]
    told = BROKEN.get(rule.rule, f"{rule.rule} is not kept")
    return told.format(measured=figures[0], limit=figures[1])
