"""Rows that lie and rows left: do they start where the edge was measured, and end as told?"""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.edged import ranges
from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, off_by, practice, same_count, same_length
from drylay.audit.laid_again import CHECKS as AGAIN
from drylay.audit.laid_more import CHECKS as MORE
from drylay.audit.laid_rests import CHECKS as RESTS
from drylay.audit.laid_rests import expected_more, laid_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.correcting.model import RowToLay
from drylay.plan.model import Plan

LAID = conventions("Rows while laying (laid)")
CHANGE = practice("no gap differs from the one before it by more than 1.5 mm (1/16 in)")
#: What gaps are set in, and how far one may differ from the one before, in 1/320 mm.
STEPS, CHANGES = {"metric": 160, "imperial": 508}, {"metric": 480, "imperial": 508}
RULE = practice("measure every 5 to 10 rows, and before each of the last four")
ENDS, MOST_BETWEEN, LAST = ("left", "right"), 10, 4


def readings_in_order(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless readings are numbered and each is of more rows than the one before."""
    laid, rows = need(plan.laid, "rows that lie"), len(surface_of(plan).rows)
    before = 0
    for number, entry in enumerate(laid.readings, 1):
        message = "number of a reading"
        yield from same_count("laid.readings", message, entry.number, number, LAID)
        told = entry.reading.rows_laid
        if not before < told < rows:
            message = "a reading after no more rows than the one before, or after the last"
            yield Flaw(subject=f"laid.readings[{number - 1}]", message=message, measured=told,
                       limit=before, unit="count", source=LAID)  # fmt: skip
        before = told
    yield from same_count("laid.rows_laid", "rows that lie", laid.rows_laid, before, LAID)
    message = "rows left, for those that lie"
    yield from same_count("laid.rows", message, len(laid.rows), rows - before, LAID)


def gaps_stay_as_set(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each gap of rows that lie which is not as the plan or a reading set it."""
    laid, surface = laid_of(plan), surface_of(plan)
    for end in ENDS:
        ahead = [ticks(row.gap_mm) for row in surface.rows[1:]]
        for entry in laid.readings:
            lie = entry.reading.rows_laid - 1
            told = [ticks(gap) for gap in getattr(entry, f"gaps_{end}_mm")]
            if told != ahead[:lie]:
                message = f"gaps set so far at the {end} end are not those decided before"
                yield Flaw(subject=f"laid.readings[{entry.number - 1}]", message=message,
                           source=LAID)  # fmt: skip
            ahead[lie:] = [ticks(gap) for gap in getattr(entry, f"to_set_{end}_mm")]
        last = [ticks(getattr(row, f"gap_{end}_mm")) for row in laid.rows]
        if last != ahead[laid.rows_laid - 1 :]:
            message = f"gaps to set at the {end} end are not those of the last reading"
            yield Flaw(subject="laid.rows", message=message, source=LAID)


def rows_left_follow(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row left that is not one gap beyond the row before, at either end."""
    laid, last = laid_of(plan), laid_of(plan).readings[-1].reading
    for end in ENDS:
        edge = ticks(getattr(last, f"{end}_mm"))
        for number, row in enumerate(laid.rows, laid.rows_laid + 1):
            near, gap = getattr(row, f"near_{end}_mm"), getattr(row, f"gap_{end}_mm")
            message = f"its near edge at the {end} end is not one gap beyond the row before it"
            yield from same_length(row.mark, message, near, edge + ticks(gap), LAID)
            edge = ticks(near) + ticks(getattr(row, f"width_{end}_mm"))
            if row.mark != f"B{number}":
                yield Flaw(subject=row.mark, message=f"wrong mark: wanted B{number}", source=LAID)


def gaps_left_in_range(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each gap left outside its range, at either end, or off the steps."""
    laid, step = laid_of(plan), STEPS.get(plan.units, STEPS["metric"])
    yield from same_length("laid.step_mm", "not what a gap is set in", laid.step_mm, step, LAID)
    limits = ranges(surface_of(plan))[laid.rows_laid - 1 :]
    for row, (least, most) in zip(laid.rows, limits, strict=False):
        for end in ENDS:
            gap = ticks(getattr(row, f"gap_{end}_mm"))
            if not least <= gap <= most:
                message = f"the gap before its {end} end lies outside the range"
                yield off_by(row.mark, message, gap, least if gap < least else most, LAID)
            if gap % step and most // step * step >= least:
                message = f"the gap before its {end} end is no whole number of steps"
                yield off_by(row.mark, message, gap, gap // step * step, LAID)


def gaps_change_slowly(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each gap that differs too much from the one before it, at either end.

    A gap may, where the one before lay outside this one's range.
    """
    laid, surface = laid_of(plan), surface_of(plan)
    change = CHANGES.get(plan.units, CHANGES["metric"])
    message = "not how far a gap may differ"
    yield from same_length("laid.most_change_mm", message, laid.most_change_mm, change, CHANGE)
    limits = ranges(surface)[laid.rows_laid - 1 :]
    for end in ENDS:
        set_before = getattr(laid.readings[-1], f"gaps_{end}_mm")
        before = ticks(set_before[-1] if set_before else surface.rows[1].gap_mm)
        gaps = [before, *(ticks(getattr(row, f"gap_{end}_mm")) for row in laid.rows)]
        for row, (one, gap), (least, most) in zip(laid.rows, pairwise(gaps), limits, strict=False):
            if least <= one <= most and abs(gap - one) > change:
                message = f"the gap before its {end} end differs too much from the one before"
                yield off_by(row.mark, message, abs(gap - one), change, CHANGE)


def rows_left_are_as_boards_take(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row left that is not as wide as planned and what boards take more."""
    laid, surface = laid_of(plan), surface_of(plan)
    planned = surface.rows[laid.rows_laid :]
    for end in ENDS:
        more = expected_more(plan, laid, end)
        told = getattr(laid.readings[-1], end).more_mm
        if abs(ticks(told) - more) > 1:
            message = f"not what boards take more at the {end} end"
            yield off_by("laid.readings", message, ticks(told), more, LAID)
        for row, by_plan in zip(laid.rows, planned, strict=False):
            width = ticks(getattr(row, f"width_{end}_mm"))
            if row.ripped != by_plan.ripped:
                message = "ripped against the plan, or whole against it"
                yield Flaw(subject=row.mark, message=message, source=LAID)
            elif row.ripped:
                yield from _rip(plan, row, width)
            elif width != (wanted := ticks(by_plan.width_mm) + ticks(told)):
                message = f"not as wide as boards are at its {end} end"
                yield off_by(row.mark, message, width, wanted, LAID)


def _rip(plan: Plan, row: RowToLay, width: int) -> Iterator[Flaw]:
    surface = surface_of(plan)
    least, most = ticks(surface.least_rip_mm), ticks(surface.board_width_mm)
    if not least <= width < most:
        yield off_by(row.mark, "ripped too narrow, or not at all", width, least, LAID)


def checks_keep_the_rule(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless checks come within ten rows of one another, and at each last row."""
    laid, rows = laid_of(plan), len(surface_of(plan).rows)
    at = [laid.rows_laid, *laid.checks]
    last = set(range(max(laid.rows_laid + 1, rows - LAST), rows))
    apart = all(0 < after - before <= MOST_BETWEEN for before, after in pairwise(at))
    if not apart or not last <= set(laid.checks) or at[-1] >= rows:
        message = "checks more than ten rows apart, or not before each of the last four"
        yield Flaw(subject="laid.checks", message=message, measured=len(laid.checks),
                   unit="count", source=RULE)  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-132", "readings are in order, each of more rows", readings_in_order),
    ("AUD-133", "gaps of rows that lie are those that were decided", gaps_stay_as_set),
    ("AUD-134", "rows left follow from the edge measured, at both ends", rows_left_follow),
    ("AUD-135", "gaps left lie within the range at both ends, in steps", gaps_left_in_range),
    ("AUD-136", "no gap left differs too much from the one before", gaps_change_slowly),
    ("AUD-137", "rows left are as wide as boards take", rows_left_are_as_boards_take),
    ("AUD-120", "when to measure next keeps the rule", checks_keep_the_rule),
    *RESTS,
    *AGAIN,
    *MORE,
)
