"""Design: brief in, checked buildable plan out. The one place where rooms meet."""

from decimal import Decimal

from attrs import evolve

from drylay.audit.closed import audit_plan
from drylay.brief.model import Brief
from drylay.counting import counted
from drylay.errors import PlannerFault
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.angles import is_outlined
from drylay.planner.attempts import Attempt, attempts_of, chosen_among
from drylay.planner.build import with_ways
from drylay.planner.built import Built
from drylay.planner.buy import Blocked
from drylay.planner.closer import closer_lines
from drylay.planner.dry_lay import Laid, lay_dry, why_no_way_out
from drylay.planner.explain import explain
from drylay.planner.head import empty_plan, is_stopped
from drylay.planner.job import CancelToken, Job, Progress, find_articles, step, tell
from drylay.planner.jobs import Ask, jobs_of
from drylay.planner.local import with_local_rules
from drylay.planner.notes import remarks
from drylay.planner.outlined import STEPS as OUTLINED_STEPS
from drylay.planner.outlined import plan_outlined
from drylay.planner.standing_asked import bases_for, standing_faults
from drylay.planner.unlaid import told_without_rows
from drylay.plugins.guard import asked_once
from drylay.plugins.loading import installed_families, installed_local_rules
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet
from drylay.reasons import Reasons
from drylay.surface.model import WayOut


@counted
def design(
    brief: Brief,
    *,
    stock: Catalogue,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
) -> Plan:
    """Return the plan for a brief: audited, and buildable or blocked with its findings.

    Args:
        brief: What is wanted.
        stock: The merchant's stock; the brief names its articles.
        families: Whose rules to use; by default those of the installed plugins.
        local_rules: What the finished plan is held against besides; by default the local rules
            of the installed plugins.
        bases: Among which the design basis is looked for that the brief names; by default those
            of the installed plugins and drylay's own.
        progress: Called as `progress(step, done, total)`; `total` stays the same, `done` rises
            to it.
        cancel: Asked `is_set()` between steps and while cutting; a finished plan is kept.

    Raises:
        BriefError: The stock does not hold an article the brief names, or nothing supplies its
            design basis, region or soil.
        Cancelled: The cancel token was set.
        PlannerFault: The audit stopped a plan the planner thought sound.
    """
    families = asked_once(installed_families() if families is None else families)
    local_rules = installed_local_rules() if local_rules is None else local_rules
    bases = bases_for(brief, bases)
    articles = find_articles(brief, stock, standing_faults(brief, bases))
    ask = Ask(
        brief=brief,
        stock=stock,
        articles=articles,
        families=families,
        bases=bases,
        progress=progress,
        cancel=cancel,
    )
    main, *turned = jobs_of(ask)
    plan, steps = plan_of(main, turned[0] if turned else None, families)
    plan = with_local_rules(plan, local_rules)
    step(main, "audit", steps - 1, steps)
    report = audit_plan(plan)
    missed = tuple(f for f in report.findings if f.severity is Severity.STOP)
    if missed and plan.buildable:
        raise PlannerFault(missed)
    tell(main, "done", steps, steps)
    return plan


def plan_of(main: Job, turned: Job | None, families: FamilySet) -> tuple[Plan, int]:
    """Return the plan of boards or of tiles, and how many steps are told with the audit."""
    if main.articles.tile is not None:
        return _tiles(main, turned, families)
    if is_outlined(main.brief):
        return plan_outlined(main, families), len(OUTLINED_STEPS) + 2
    laid = lay_dry(main, turned)
    steps = len(laid.best) + 3
    step(main, "dry lay", 1, steps)
    return _planned(laid, families, steps), steps


def _tiles(main: Job, turned: Job | None, families: FamilySet) -> tuple[Plan, int]:
    """Return the plan of tiles; what plans them is loaded by decks of tiles alone."""
    if is_outlined(main.brief):
        from drylay.planner.outlined_tiles import STEPS as TILE_STEPS
        from drylay.planner.outlined_tiles import plan_outlined_tiles

        return plan_outlined_tiles(main, families), len(TILE_STEPS) + 2
    from drylay.planner.tiled import STEPS, plan_tiles

    return plan_tiles(main, turned, families), len(STEPS) + 2


def _planned(laid: Laid, families: FamilySet, steps: int) -> Plan:
    main = laid.main
    if not laid.best:
        return none_laid(laid, families)
    attempts = attempts_of(laid, steps)
    chosen = chosen_among(attempts, main.brief.rows.prefer)
    if chosen is None:
        return none_built(main, attempts, families)
    return _finish(chosen, laid.ways, attempts, families)


def none_laid(laid: Laid, families: FamilySet) -> Plan:
    """Return the blocked plan of a job of which no way out is to be built."""
    blocked = why_no_way_out(laid.main, laid.ways) if laid.ways else laid.stops
    return plan_with(laid.main, families, blocked=blocked)


def none_built(main: Job, attempts: list[Attempt], families: FamilySet) -> Plan:
    """Return the blocked plan of a job none of whose ways out could be built."""
    first = attempts[0].result
    return plan_with(main, families, blocked=first.findings if isinstance(first, Blocked) else ())


def _finish(
    chosen: Attempt,
    ways: tuple[WayOut, ...],
    attempts: list[Attempt],
    families: FamilySet,
) -> Plan:
    assert isinstance(chosen.result, Built)
    built, tried = closer_lines(chosen.job, chosen.candidate, chosen.result)
    priced = tuple(_priced(way, attempts, chosen, built) for way in ways)
    finished = with_ways(built, priced)
    job = chosen.job
    reasons = explain(job, finished, priced, (*chosen.closer, *tried), chosen.tried)
    return plan_with(job, families, built=finished, reasons=reasons)


def _gap(built: Built) -> Decimal:
    return sum((bought.gap for bought in built.buying.purchases), Decimal(0))


def _priced(way: WayOut, attempts: list[Attempt], chosen: Attempt, built: Built) -> WayOut:
    if way == chosen.candidate.way:
        return evolve(way, chosen=True, cost=built.buying.order_total)
    attempt = next((a for a in attempts if a.candidate.way == way), None)
    if attempt is None:
        return evolve(way, cost_note="not priced: a rule is not met")
    if isinstance(attempt.result, Blocked):
        return _cannot(way, attempt.result.findings)
    if attempt.stops:
        return _cannot(way, attempt.stops)
    return evolve(way, cost=attempt.result.buying.order_total, cost_note=_loosely(attempt.result))


def _cannot(way: WayOut, stops: tuple[Finding, ...]) -> WayOut:
    why = "; ".join(finding.message for finding in stops)
    return evolve(way, cost_note=f"cannot be built: {why}")


def _loosely(built: Built) -> str:
    """Return how far a priced way out may be from the cheapest, "" if it is proven."""
    gap = _gap(built)
    return f"could be up to {gap} cheaper" if gap else ""


def plan_with(
    job: Job,
    families: FamilySet,
    *,
    built: Built | None = None,
    reasons: Reasons | None = None,
    blocked: tuple[Finding, ...] = (),
) -> Plan:
    """Return the plan; one with a stop in it carries no cut list and no order."""
    found = remarks(job, built) if built else told_without_rows(job)
    told = (*job.rules.findings, *blocked, *found)
    plan = empty_plan(job, families, told, job.cautions)
    if built is None or is_stopped(told):
        return plan
    return evolve(
        plan,
        surface=built.surface,
        edges=built.edges,
        supports=built.supports,
        pieces=built.pieces,
        frame=built.frame,
        fixings=built.fixings,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        work=built.work,
        raised=built.stood.raised,
        strength=built.stood.strength,
        footings=built.stood.footings,
        guards=built.stood.guards,
        steps=built.stood.steps,
        reasons=reasons or Reasons(),
    )
