"""What a design is asked, and the jobs it makes of that: as wished, and with boards turned."""

from attrs import evolve, frozen

from drylay.brief.model import Brief
from drylay.materials.stock_model import Catalogue
from drylay.planner.border_rules import with_border
from drylay.planner.job import Articles, CancelToken, Governance, Job, Progress
from drylay.planner.metals import with_metals
from drylay.planner.outlined_rules import with_square
from drylay.planner.own_line import on_own_line
from drylay.planner.rules import govern
from drylay.planner.standing_asked import basis_named
from drylay.planner.tile_rules import paths_of
from drylay.planner.upkeep import upkeep_asked
from drylay.planner.used import cautions_of, families_of
from drylay.plugins.model import BasisSet, FamilySet


@frozen(kw_only=True)
class Ask:
    """One brief, with what it is to be planned from and by."""

    brief: Brief
    stock: Catalogue
    articles: Articles
    families: FamilySet
    bases: BasisSet
    progress: Progress | None
    cancel: CancelToken | None


def jobs_of(ask: Ask) -> list[Job]:
    """Return the job as wished, and with the boards turned where the brief allows that."""
    return [job_of(ask, run) for run in runs_of(ask.brief)]


def runs_of(brief: Brief) -> tuple[str, ...]:
    """Return which ways boards may run, the wished one first."""
    run = brief.board.run
    return (run, "across" if run == "along" else "along") if brief.board.may_turn else (run,)


def job_of(ask: Ask, run: str) -> Job:
    """Return the job with its boards running one way."""
    own = on_own_line(ask.brief)
    facing = evolve(own, board=evolve(own.board, run=run))
    return Job(
        asked=ask.brief,
        brief=facing,
        stock=ask.stock,
        articles=ask.articles,
        rules=_rules(ask, facing),
        cautions=cautions_of(families_of(ask.articles, ask.families)),
        upkeep=upkeep_asked(facing, ask.articles, ask.families),
        cautions_by={
            family.family.id: family.family.cautions
            for family in families_of(ask.articles, ask.families)
        },
        basis=basis_named(facing, ask.bases),
        progress=ask.progress,
        cancel=ask.cancel,
    )


def _rules(ask: Ask, facing: Brief) -> Governance:
    """Return the ruling that governs each path of this job."""
    articles, families = ask.articles, ask.families
    rules = govern(facing, articles, families, paths_of(facing))
    rules = with_metals(rules, facing, articles, families)
    rules = with_border(rules, facing, articles, families)
    return with_square(rules, facing, articles, families)
