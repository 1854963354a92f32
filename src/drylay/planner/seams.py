"""Chooses the joint lines that pairs of joists stand under: boards and joists priced together."""

from itertools import pairwise

from attrs import evolve, frozen

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.pieces.joints import sections_mm
from drylay.planner.build import Candidate, build, fascia_reach_mm, shape
from drylay.planner.buy import Blocked, Shape, joint_rules
from drylay.planner.cuts import Cutter, roughly
from drylay.planner.job import Job
from drylay.planner.pairs import on_pairs, seams_told
from drylay.planner.tries import cheapest, try_all, turned_down
from drylay.reasons import Source, TurnedDown
from drylay.supports.model import Supports
from drylay.supports.seam_sets import MOST_SETS, Rows, seam_sets

Lines = tuple[float, ...]
FIXED = Source(kind="brief", title="the brief", clause="joints.lines_mm")


@frozen(kw_only=True)
class Seamed:
    """A candidate with its joint lines settled, and the sets of lines turned down."""

    candidate: Candidate
    tried: tuple[TurnedDown, ...] = ()


def settle_seams(cutter: Cutter, candidate: Candidate) -> Seamed | Blocked:
    """Return the candidate with the joint lines that pairs stand under, where there are any.

    The brief's lines, where it fixes them. Else the cheapest of a bounded list of sets, built in
    the quick mode; whoever builds it proves it. Sets that leave too few bays between two lines
    are not built, nor are those that cost more at the least than one that was.
    """
    job = cutter.job
    fixed = job.brief.joints.lines_mm
    if not on_pairs(job):
        return Seamed(candidate=candidate) if fixed is None else _blocked(_no_pairs())
    if fixed is not None and job.brief.board.run == job.asked.board.run:
        return _on_fixed_lines(job, evolve(candidate, seams_mm=fixed))
    return _cheapest(roughly(cutter), candidate)


def _blocked(*stops: Finding) -> Blocked:
    return Blocked(findings=stops)


def _no_pairs() -> Finding:
    return Finding(
        code="SUP-004",
        severity=Severity.STOP,
        subject="joints.lines_mm",
        message="joint lines are fixed, and joints do not lie over pairs of joists here: leave the "
        "lines out, or ask for pairs with joints.support",
        source=FIXED,
    )


def _on_fixed_lines(job: Job, candidate: Candidate) -> Seamed | Blocked:
    shaped = _shape(job, candidate)
    if isinstance(shaped, Blocked):
        return shaped
    least = _least_bays(job)
    fewest = min(_bays(shaped.supports))
    short = short_section(job, shaped)
    if short is not None:
        return _blocked(short)
    if not candidate.seams_mm or fewest >= least:
        return Seamed(candidate=candidate)
    return _blocked(
        Finding(
            code="SUP-003",
            severity=Severity.STOP,
            subject="joints.lines_mm",
            message="too few bays between two joint lines, or a line and the frame's end, for the "
            "supports under a piece and the stagger of rows: set the lines further apart",
            measured=float(fewest),
            limit=float(least),
            unit="bays",
            source=job.rules.source("pieces.least_supports"),
        )
    )


def _shape(job: Job, candidate: Candidate) -> Shape | Blocked:
    reach_mm = (fascia_reach_mm(job) or [0.0])[0]
    try:
        return shape(job, candidate, fascia_mm=reach_mm)
    except InputError as error:
        return _blocked(
            Finding(
                code="SUP-005",
                severity=Severity.STOP,
                subject="joints.lines_mm",
                message=f"no pairs can stand under these lines: {error.faults[0].found}, wanted "
                f"{error.faults[0].wanted}",
                source=FIXED,
            )
        )


def _least_bays(job: Job) -> int:
    """Return the fewest bays a section needs: for the supports of a piece, and the stagger."""
    rules, parts = job.rules, ["pieces", *(["pieces.border"] if job.articles.border else [])]
    return max(
        max(rules.count(f"{part}.least_supports") - 1, rules.count(f"{part}.stagger_bays"))
        for part in parts
    )


def short_section(job: Job, shaped: Shape) -> Finding | None:
    """Return the stop for lines that leave a section shorter than a piece may be, if any do."""
    seams_mm = [seam.offset_mm for seam in shaped.supports.seams]
    for part in ["pieces", *(["pieces.border"] if job.articles.border else [])] if seams_mm else []:
        least_mm = job.rules.value(f"{part}.least_piece_mm")
        gap_mm = job.rules.value(f"{part}.end_gap_mm")
        shortest_mm = min(sections_mm(shaped.surface.row_length_mm, seams_mm, gap_mm))
        if shortest_mm < least_mm:
            return Finding(
                code="SUP-006",
                severity=Severity.STOP,
                subject="joints.lines_mm",
                message="a piece between two joint lines, or a line and the deck's edge, is "
                "shorter than one may be: set the lines further apart",
                measured=shortest_mm,
                limit=least_mm,
                unit="mm",
                source=job.rules.source(f"{part}.least_piece_mm"),
            )
    return None


def _bays(supports: Supports) -> list[int]:
    """Return how many bays each section between frame faces and seams has."""
    ends = [0, *(int(seam.left[1:]) for seam in supports.seams), supports.line_count]
    return [far - near - 1 for near, far in pairwise(ends)]


def _sets(job: Job, shaped: Shape) -> tuple[Lines, ...]:
    limits, brief = joint_rules(job, job.articles.board), job.brief
    on_sale = [entry.length_mm for entry in job.articles.board.lengths if entry.limit != 0]
    return seam_sets(
        Rows(
            length_mm=shaped.surface.row_length_mm,
            lengths_mm=tuple(mm - 2 * brief.cutting.end_trim_mm for mm in on_sale),
            end_gap_mm=limits.end_gap_mm,
            allowance_mm=limits.trim_allowance_mm,
            staggered=limits.stagger_bays > 0 and len(shaped.surface.rows) > 1,
            units=brief.units,
        )
    )


def _cheapest(cutter: Cutter, candidate: Candidate) -> Seamed | Blocked:
    job = cutter.job
    whole = _shape(job, candidate)
    if isinstance(whole, Blocked):
        return whole
    least, sets = _least_bays(job), _sets(job, whole)
    near: list[TurnedDown] = []
    fit: list[Candidate] = []
    shorts: list[Finding] = []
    for lines in sets:
        one = evolve(candidate, seams_mm=lines)
        shaped = _shape(job, one)
        if isinstance(shaped, Blocked) or (lines and min(_bays(shaped.supports)) < least):
            near.append(TurnedDown(value=seams_told(lines), because=_too_near(least)))
        elif (short := short_section(job, shaped)) is not None:
            shorts.append(short)
            near.append(TurnedDown(value=seams_told(lines), because=short.message))
        else:
            fit.append(one)
    tried = try_all(cutter, fit)
    best = cheapest(tried)
    if best is None and shorts and not fit:
        return _blocked(shorts[0])
    if best is None:  # none can be built; through the first of them, so that all its stops are told
        stopped = build(cutter, next(iter(fit), candidate))
        assert isinstance(stopped, Blocked)
        return stopped
    left = [one for one in tried if one is not best]
    return Seamed(
        candidate=best.candidate, tried=(*near, *map(turned_down, left), _untried(len(sets)))
    )


def _too_near(least: int) -> str:
    return f"leaves fewer than {least} bays between two lines or beside an end"


def _untried(sets: int) -> TurnedDown:
    full = f": the list ends at {MOST_SETS} sets" if sets == MOST_SETS else ""
    return TurnedDown(
        value="any other lines",
        because=f"not tried: lines are drawn from whole lengths and equal parts{full}",
    )
