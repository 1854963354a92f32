"""What a brief comes to in counts before anything is cut: quick, for looking far."""

from attrs import frozen

from drylay.brief.model import Brief
from drylay.planner.angles import is_outlined
from drylay.planner.asking import could_be_whole
from drylay.planner.build import Candidate, fascia_reach_mm, shape
from drylay.planner.buy import Blocked, Shape, place_frame
from drylay.planner.dry_lay import lay_dry
from drylay.planner.glance import Glances, jobs_asked
from drylay.planner.job import Job
from drylay.planner.pairs import on_pairs
from drylay.planner.stood import stands
from drylay.planner.strong_lines import strong_lines


@frozen(kw_only=True)
class DryCounts:
    """Rows and those of them ripped, rows that have to be jointed, joist lines, noggins."""

    rows: int
    rips: int
    jointed: int
    joists: int
    noggins: int


def not_counted(look: Glances, brief: Brief) -> str:
    """Return why a brief's counts are not known before anything is cut, "" where they are.

    Raises:
        BriefError: The brief cannot be planned from.
    """
    job, *_ = jobs_asked(look, brief)
    if job.articles.tile is not None:
        return "tiles are counted by planning them"
    if is_outlined(brief):
        return "an outline is counted by planning it"
    if stands(brief):
        return "how a deck stands is found by trying: there is no count before it"
    if "supports.joists_under_joint" in job.rules.rulings and on_pairs(job):
        return "joists under joints stand in pairs, and where is found by what boards cost"
    if brief.frame.lines == "cheapest":
        return "the number of joists is that which costs least (frame.lines)"
    return ""


def dry_counts(look: Glances, brief: Brief) -> DryCounts | None:
    """Return the counts of the first way out; None where none is to be built, or has no room.

    Of a brief that `not_counted` has nothing against. Whether it can be bought is not looked at.

    Raises:
        BriefError: The brief cannot be planned from.
    """
    main, *turned = jobs_asked(look, brief)
    laid = lay_dry(main, turned[0] if turned else None)
    if not laid.best:
        return None
    job, candidate = next(pair for pair in laid.candidates if pair[1].way == laid.best[0])
    shaped = _shape(job, candidate)
    return None if isinstance(shaped, Blocked) else _counted(job, shaped)


def _shape(job: Job, candidate: Candidate) -> Shape | Blocked:
    closer, _ = strong_lines(job, candidate)
    return shape(job, closer, fascia_mm=(fascia_reach_mm(job) or [0.0])[0])


def _counted(job: Job, shaped: Shape) -> DryCounts:
    rows = shaped.surface.rows
    bare = place_frame(job, shaped, ((), ()), None)
    return DryCounts(
        rows=len(rows),
        rips=sum(row.ripped for row in rows),
        jointed=0 if could_be_whole(job.brief, job.articles) else len(rows),
        joists=shaped.supports.line_count,
        noggins=len(bare.noggins),
    )
