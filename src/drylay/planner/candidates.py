"""Ways out as candidates: what limits a job's rows, every way to fill them, boards turned too."""

from attrs import evolve

from drylay.brief.model import WAYS_OUT
from drylay.findings import Finding
from drylay.marks import MARK_320, exact
from drylay.planner.border import border_limits, no_field
from drylay.planner.border_rules import OWN
from drylay.planner.build import Candidate
from drylay.planner.governed import GOVERNED
from drylay.planner.job import Job
from drylay.surface.border import BorderLimits
from drylay.surface.limits import RowLimits
from drylay.surface.rows import fit, in_order

#: How a turned deck may be filled where the brief prefers nothing but turning.
NO_TURN = tuple(kind for kind in WAYS_OUT if kind != "turn")


def ruled(job: Job) -> bool:
    """Return whether every rule that a plan needs has its ruling, the border's own too."""
    paths = [governed.path for governed in GOVERNED]
    if job.articles.border:  # a rule that a plan can do without, such as on heat, needs no answer
        paths += [own for path, own in OWN.items() if path in paths]
    return all(path in job.rules.rulings for path in paths)


def rows_ruled(job: Job) -> bool:
    """Return whether rows could be laid out dry by the rules there are."""
    names = [*(f"gap_{which}_mm" for which in ("least", "preferred", "most"))]
    paths = [f"surface.{name}" for name in (*names, "sliver_limit_mm", "least_rip_mm", "may_rip")]
    paths += [f"surface.border.{name}" for name in names] if job.articles.border else []
    return all(path in job.rules.rulings for path in paths)


def row_limits(job: Job) -> RowLimits:
    """Return what limits the rows of a job, in exact units; with a border those of the field."""
    brief, rules = job.brief, job.rules
    cover, along = brief.cover, brief.board.run == "along"
    border = border_limits(job)
    taken = 2 * border.part_320 if isinstance(border, BorderLimits) else 0
    board = job.articles.board
    whole = board.hollow or bool(board.groove_mm)  # a rip would lay open its chambers, its strip
    return RowLimits(
        run=brief.board.run,
        depth_320=exact(cover.across_mm if along else cover.along_mm) - taken,
        board_320=exact(brief.board.measured_width_mm or job.articles.board.width_mm),
        least_320=exact(rules.value("surface.gap_least_mm")),
        preferred_320=exact(rules.value("surface.gap_preferred_mm")),
        most_320=exact(rules.value("surface.gap_most_mm")),
        grow_320=exact(cover.grow_across_mm if along else cover.grow_along_mm),
        shrink_320=exact(cover.shrink_across_mm if along else cover.shrink_along_mm),
        sliver_320=exact(rules.value("surface.sliver_limit_mm")),
        least_rip_320=exact(rules.value("surface.least_rip_mm")),
        least_off_320=exact(brief.cutting.kerf_mm),
        may_rip=brief.rows.may_rip and bool(rules.value("surface.may_rip")) and not whole,
        mark_320=MARK_320[brief.units],
        gap_least_source=rules.source("surface.gap_least_mm"),
        gap_most_source=rules.source("surface.gap_most_mm"),
        sliver_source=rules.source("surface.sliver_limit_mm"),
        rip_source=rules.source("surface.least_rip_mm"),
    )


def not_ripped(job: Job) -> str:
    """Return why boards may not be ripped, "" where they may."""
    if job.articles.board.hollow:
        return "hollow boards may not be ripped, it lays their chambers open"
    if job.articles.board.groove_mm and job.rules.value("surface.may_rip"):
        return (
            "boards with inserts may not be ripped, whatever their record says: it does not tell "
            "where the strip lies, and no rip goes through it or near it"
        )
    if not job.rules.value("surface.may_rip"):
        return f"{job.articles.board.code} may not be ripped, by the rules of its make"
    return "" if job.brief.rows.may_rip else "boards may not be ripped, by the brief (rows.may_rip)"


def candidates_of(job: Job) -> list[Candidate]:
    """Return every way out of a job's rows, honest or not; a border has been found to fit."""
    limits, border = row_limits(job), border_limits(job)
    assert not isinstance(border, Finding)  # told before any way out is looked for
    fitted = fit(limits)
    return [Candidate(way=way, fit=fitted, limits=limits, border=border) for way in fitted.ways_out]


def border_stops(job: Job) -> tuple[Finding, ...]:
    """Return the stop for a border that no gap suits, or that leaves no field."""
    border = border_limits(job)
    if border is None or isinstance(border, Finding):
        return () if border is None else (border,)
    cover = job.brief.cover
    depth_mm = cover.across_mm if job.brief.board.run == "along" else cover.along_mm
    stop = no_field(border, exact(depth_mm))
    return () if stop is None else (stop,)


def turned_candidates(job: Job | None) -> list[Candidate]:
    """Return the best honest way out with the boards turned, if there is one."""
    if job is None or not ruled(job) or border_stops(job):
        return []
    found = candidates_of(job)
    order = tuple(kind for kind in job.brief.rows.prefer if kind != "turn") or NO_TURN
    best = in_order(tuple(c.way for c in found), order, found[0].fit.gap_preferred_mm)
    if not best:
        return []
    way = next(c for c in found if c.way == best[0])
    return [evolve(way, way=evolve(best[0], kind="turn"))]
