"""A plan at a glance: what a design comes to, without what is only told beside it.

For whoever looks at many briefs that differ by little: the same deck, the same order and the same
findings as `design` has, but no price of the ways out that are not taken, no reasons and no audit.
What was cut once is not cut again: answers to tasks are kept from one brief to the next.
"""

from attrs import Factory, evolve, frozen

from drylay.brief.model import Brief, CoverWish
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Task
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.angles import is_outlined
from drylay.planner.asking import could_be_whole, longest_board_mm
from drylay.planner.attempts import Attempt, attempt_of, chosen_among
from drylay.planner.build import with_ways
from drylay.planner.built import Built
from drylay.planner.closer import closer_lines
from drylay.planner.cuts import Cutter
from drylay.planner.design import none_built, none_laid, plan_of, plan_with
from drylay.planner.dry_lay import Laid, lay_dry
from drylay.planner.explain import explain
from drylay.planner.job import Articles, CancelToken, Job, find_articles, step
from drylay.planner.jobs import Ask, job_of, runs_of
from drylay.planner.local import with_local_rules
from drylay.planner.standing_asked import bases_for, standing_faults
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet
from drylay.reasons import TurnedDown

NOT_PRICED = "not priced: another way out is taken"
#: What stands for the size of a brief where nothing hangs on that.
NO_SIZE = CoverWish(along_mm=0.0, across_mm=0.0)


@frozen(kw_only=True)
class Glances:
    """What many briefs are planned from and by, and what was cut so far.

    `mode` is how what is chosen is cut, "proven" or "quick", which leaves a wider gap in its proof;
    `reasoned` plans carry their reasons, as an audit wants them. `known` are proven answers,
    `rough` those of the quick mode, `floors` what tasks cost at least. An answer hangs on its task
    alone, so that it holds for every brief with that task. `ruled` are jobs by all that rules hang
    on: briefs whose sizes alone differ are mostly ruled alike.
    """

    stock: Catalogue
    families: FamilySet
    local_rules: LocalRuleSet
    bases: BasisSet | None = None
    cancel: CancelToken | None = None
    mode: str = "proven"
    reasoned: bool = False
    known: dict[Task, CutPlan | NoPlan] = Factory(dict)
    rough: dict[Task, CutPlan | NoPlan] = Factory(dict)
    floors: dict[Task, int | None] = Factory(dict)
    ruled: dict[tuple[object, ...], Job] = Factory(dict)


def glance(look: Glances, brief: Brief) -> Plan:
    """Return the plan for a brief, its figures and findings as `design` makes them.

    In the quick mode its purchases may be dearer than there, by no more than their gap.

    A message that tells of other ways out may be shorter than there.

    Raises:
        BriefError: The stock does not hold an article the brief names, or nothing supplies its
            design basis, region or soil.
        Cancelled: The cancel token was set.
    """
    main, *turned = jobs_asked(look, brief)
    other = turned[0] if turned else None
    # a local rule may read whatever a plan holds: it is shown all of it
    if look.local_rules.rules or main.articles.tile is not None or is_outlined(brief):
        plan, _ = plan_of(main, other, look.families)
    else:
        plan = _seen(look, lay_dry(main, other))
    return with_local_rules(plan, look.local_rules)


def jobs_asked(look: Glances, brief: Brief) -> list[Job]:
    """Return the job of a brief, and that with the boards turned where they may be.

    Raises:
        BriefError: As `glance` does.
    """
    bases = bases_for(brief, look.bases)
    articles = find_articles(brief, look.stock, standing_faults(brief, bases))
    ask = Ask(
        brief=brief,
        stock=look.stock,
        articles=articles,
        families=look.families,
        bases=bases,
        progress=None,
        cancel=look.cancel,
    )
    return [_job(ask, look.ruled, run) for run in runs_of(brief)]


def _job(ask: Ask, known: dict[tuple[object, ...], Job], run: str) -> Job:
    """Return the job with its boards running one way; ruled as another of the same rules was."""
    if is_outlined(ask.brief):
        return job_of(ask, run)
    facing = evolve(ask.brief, board=evolve(ask.brief.board, run=run))
    key = _ruled_by(ask.brief, facing, ask.articles)
    if key not in known:
        known[key] = job_of(ask, run)
    return evolve(known[key], asked=ask.brief, brief=facing, memory={})


def _ruled_by(asked: Brief, facing: Brief, articles: Articles) -> tuple[object, ...]:
    """Return all that the rules of a deck that is no outline hang on.

    That is the brief without its size, and how long a piece of board may be: rules are asked of
    nothing else that has to do with the size (`asking.rule_query`).
    """
    longest_mm, whole = longest_board_mm(facing, articles), could_be_whole(facing, articles)
    return evolve(asked, cover=NO_SIZE), facing.board.run, longest_mm, whole


def _seen(look: Glances, laid: Laid) -> Plan:
    if not laid.best:
        return none_laid(laid, look.families)
    attempts = _until_one_stands(look, laid)
    chosen = chosen_among(attempts, laid.main.brief.rows.prefer)
    if chosen is None or not isinstance(chosen.result, Built):
        return none_built(laid.main, attempts, look.families)
    built, tried = closer_lines(chosen.job, chosen.candidate, chosen.result)
    if not look.reasoned:
        return plan_with(chosen.job, look.families, built=built)
    return _reasoned(look, laid, chosen, built, tried)


def _reasoned(
    look: Glances, laid: Laid, chosen: Attempt, built: Built, tried: tuple[TurnedDown, ...]
) -> Plan:
    """Return the plan with its reasons; of the ways out only the one that is taken is priced."""
    job, way = chosen.job, chosen.candidate.way
    cost = built.buying.order_total
    ways = tuple(
        evolve(each, chosen=True, cost=cost) if each == way else evolve(each, cost_note=NOT_PRICED)
        for each in laid.ways
    )
    finished = with_ways(built, ways)
    reasons = explain(job, finished, ways, (*chosen.closer, *tried), chosen.tried)
    return plan_with(job, look.families, built=finished, reasons=reasons)


def _until_one_stands(look: Glances, laid: Laid) -> list[Attempt]:
    """Return ways out built through up to the first that nothing stops: that one is chosen.

    Those after it are only priced, and no plan is of them.
    """
    attempts: list[Attempt] = []
    for number, way in enumerate(laid.best, start=1):
        job, candidate = next(pair for pair in laid.candidates if pair[1].way == way)
        step(job, f"way out: {way.kind}", number, len(laid.best))
        cutter = _cutter(look, job)
        attempts.append(attempt_of(cutter, candidate))
        if isinstance(attempts[-1].result, Built) and not attempts[-1].stops:
            break
    return attempts


def _cutter(look: Glances, job: Job) -> Cutter:
    known = look.rough if look.mode == "quick" else look.known
    return Cutter(job=job, mode=look.mode, known=known, rough=look.rough, floors=look.floors)
