"""Design: brief in, checked buildable plan out. The one place where rooms meet."""

from collections.abc import Iterable
from decimal import Decimal

from attrs import evolve, frozen

from drylay.audit.closed import audit_plan
from drylay.brief.model import WAYS_OUT, Brief
from drylay.errors import PlannerFault
from drylay.findings import Finding, Severity
from drylay.marks import to_mm
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner import board_notes
from drylay.planner.angles import is_outlined
from drylay.planner.border_rules import with_border
from drylay.planner.build import Candidate, build, with_ways
from drylay.planner.built import Built
from drylay.planner.buy import Blocked
from drylay.planner.candidates import (
    border_stops,
    candidates_of,
    not_ripped,
    row_limits,
    rows_ruled,
    ruled,
    turned_candidates,
)
from drylay.planner.clips import hollow_boards
from drylay.planner.closer import closer_lines
from drylay.planner.cuts import Cutter
from drylay.planner.explain import explain
from drylay.planner.head import empty_plan, is_stopped
from drylay.planner.job import (
    Articles,
    CancelToken,
    Governance,
    Job,
    Progress,
    find_articles,
    step,
    tell,
)
from drylay.planner.local import with_local_rules
from drylay.planner.metals import with_metals
from drylay.planner.no_way_out import Courses, no_way_out
from drylay.planner.notes import remarks, stops_of
from drylay.planner.outlined import STEPS as OUTLINED_STEPS
from drylay.planner.outlined import plan_outlined
from drylay.planner.outlined_rules import with_square
from drylay.planner.own_line import on_own_line
from drylay.planner.rules import govern
from drylay.planner.seams import settle_seams
from drylay.planner.standing_asked import bases_for, basis_named, standing_faults
from drylay.planner.strong_lines import strong_lines
from drylay.planner.tile_rules import paths_of
from drylay.planner.unlaid import told_without_rows
from drylay.planner.upkeep import upkeep_asked
from drylay.planner.used import cautions_of, families_of
from drylay.plugins.guard import asked_once
from drylay.plugins.loading import installed_families, installed_local_rules
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet
from drylay.reasons import Reasons, TurnedDown
from drylay.surface.model import WayOut
from drylay.surface.rows import in_order


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
    ask = _Ask(
        brief=brief,
        stock=stock,
        articles=articles,
        families=families,
        bases=bases,
        progress=progress,
        cancel=cancel,
    )
    main, *turned = _jobs(ask)
    plan, steps = _plan_of(main, turned[0] if turned else None, families)
    plan = with_local_rules(plan, local_rules)
    step(main, "audit", steps - 1, steps)
    report = audit_plan(plan)
    missed = tuple(f for f in report.findings if f.severity is Severity.STOP)
    if missed and plan.buildable:
        raise PlannerFault(missed)
    tell(main, "done", steps, steps)
    return plan


def _plan_of(main: Job, turned: Job | None, families: FamilySet) -> tuple[Plan, int]:
    """Return the plan of boards or of tiles, and how many steps are told with the audit."""
    if main.articles.tile is not None:
        return _tiles(main, turned, families)
    if is_outlined(main.brief):
        return plan_outlined(main, families), len(OUTLINED_STEPS) + 2
    laid = _lay(main, turned)
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


@frozen(kw_only=True)
class Attempt:
    """A way out with what came of building it, and what stops that though it was built.

    `tried`: the sets of joint lines turned down; `closer`: numbers of joists too few for strength.
    """

    job: Job
    candidate: Candidate
    result: Built | Blocked
    stops: tuple[Finding, ...] = ()
    tried: tuple[TurnedDown, ...] = ()
    closer: tuple[TurnedDown, ...] = ()


@frozen(kw_only=True)
class _Ask:
    brief: Brief
    stock: Catalogue
    articles: Articles
    families: FamilySet
    bases: BasisSet
    progress: Progress | None
    cancel: CancelToken | None


def _jobs(ask: _Ask) -> list[Job]:
    """Return the job as wished, and with the boards turned where the brief allows that."""
    runs = [ask.brief.board.run]
    if ask.brief.board.may_turn:
        runs.append("across" if runs[0] == "along" else "along")
    return [_job(ask, run) for run in runs]


def _job(ask: _Ask, run: str) -> Job:
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


def _rules(ask: _Ask, facing: Brief) -> Governance:
    """Return the ruling that governs each path of this job."""
    articles, families = ask.articles, ask.families
    rules = govern(facing, articles, families, paths_of(facing))
    rules = with_metals(rules, facing, articles, families)
    rules = with_border(rules, facing, articles, families)
    return with_square(rules, facing, articles, families)


@frozen(kw_only=True)
class Laid:
    """A job laid out dry: every way out, and those to be built through, the best first.

    `best` is empty where rules are missing, or where no way out that is asked for is honest;
    `stops` say why nothing could be laid at all.
    """

    main: Job
    candidates: tuple[tuple[Job, Candidate], ...] = ()
    ways: tuple[WayOut, ...] = ()
    best: tuple[WayOut, ...] = ()
    stops: tuple[Finding, ...] = ()


def _lay(main: Job, turned: Job | None) -> Laid:
    if not ruled(main):
        return Laid(main=main, stops=_of_the_rows(main) if turned is None else ())
    if stops := border_stops(main):
        return Laid(main=main, stops=stops)
    candidates = [(main, c) for c in candidates_of(main)]
    candidates += [(turned, c) for c in turned_candidates(turned) if turned is not None]
    ways = tuple(candidate.way for _, candidate in candidates)
    prefer, gap_mm = main.brief.rows.prefer, main.rules.value("surface.gap_preferred_mm")
    unasked = tuple(kind for kind in WAYS_OUT if kind not in prefer)
    asked = in_order(ways, prefer, gap_mm)
    best = in_order(ways, (*prefer, *unasked), gap_mm) if asked else ()
    return Laid(main=main, candidates=tuple(candidates), ways=ways, best=best)


def _of_the_rows(job: Job) -> tuple[Finding, ...]:
    """Return what stops the rows where another rule is missing: one stop is not to hide another."""
    if not rows_ruled(job):
        return ()
    if stops := border_stops(job):
        return stops
    ways = tuple(candidate.way for candidate in candidates_of(job))
    asked = any(way.honest and way.kind in job.brief.rows.prefer for way in ways)
    return () if asked else _no_way_out(job, ways)


def _planned(laid: Laid, families: FamilySet, steps: int) -> Plan:
    main = laid.main
    if not laid.best:
        blocked = _no_way_out(main, laid.ways) if laid.ways else laid.stops
        return _plan(main, families, blocked=blocked)
    attempts = _attempts(laid, steps)
    prefer = main.brief.rows.prefer
    eligible = [attempt for attempt in attempts if _may_be_chosen(attempt, prefer)]
    chosen = next((a for a in eligible if not a.stops), next(iter(eligible), None))
    if chosen is None:
        stops = attempts[0].result
        return _plan(main, families, blocked=stops.findings if isinstance(stops, Blocked) else ())
    return _finish(chosen, laid.ways, attempts, families)


def _may_be_chosen(attempt: Attempt, prefer: tuple[str, ...]) -> bool:
    """Whether a way out was built and is of a kind the brief asks for; others are only priced."""
    return isinstance(attempt.result, Built) and attempt.candidate.way.kind in prefer


def _attempts(laid: Laid, steps: int) -> list[Attempt]:
    """Return every honest way out built through: the first that can be is proven."""
    known: dict[str, Cutter] = {}
    attempts: list[Attempt] = []
    for number, way in enumerate(laid.best, start=1):
        job, candidate = next(pair for pair in laid.candidates if pair[1].way == way)
        step(job, f"way out: {way.kind}", number, steps)
        cutter = known.setdefault(job.brief.board.run, Cutter(job=job))
        if any(isinstance(a.result, Built) and not a.stops for a in attempts):
            cutter = evolve(cutter, mode="quick")
        attempts.append(_attempt(cutter, candidate))
    return attempts


def _attempt(cutter: Cutter, candidate: Candidate) -> Attempt:
    """Return a way out built through, its joint lines settled first."""
    candidate, closer = strong_lines(cutter.job, candidate)
    job, seamed = cutter.job, settle_seams(cutter, candidate)
    if isinstance(seamed, Blocked):
        return Attempt(job=job, candidate=candidate, result=seamed)
    result = build(cutter, seamed.candidate)
    stops = stops_of(job, result) if isinstance(result, Built) else ()
    return Attempt(
        job=job,
        candidate=seamed.candidate,
        result=result,
        stops=stops,
        tried=seamed.tried,
        closer=closer,
    )


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
    return _plan(job, families, built=finished, reasons=reasons)


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


def _no_way_out(job: Job, ways: Iterable[WayOut]) -> tuple[Finding, ...]:
    """Return why nothing fills the cover, and what of the boards themselves stands in the way."""
    limits = row_limits(job)
    courses = Courses(
        name="rows",
        side="across" if job.brief.board.run == "along" else "along",
        ways=tuple(ways),
        cut=not_ripped(job),
        left_mm=to_mm(limits.remainder_320),
    )
    stop = no_way_out(job.brief, (courses,), subject="rows")
    return (stop, *hollow_boards(job), *board_notes.not_through_inserts(job))


def _plan(
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
