"""The public audit: fetches the witnesses afresh, then lets the auditor measure."""

from collections.abc import Iterator

from attrs import evolve

from drylay.audit.closed import audit_plan
from drylay.audit.local import is_local
from drylay.audit.model import AuditReport, Witness
from drylay.audit.ranking import AS_GIVEN
from drylay.brief.codec import brief_digest
from drylay.brief.model import Brief
from drylay.counting import counted
from drylay.errors import BriefError
from drylay.findings import Finding
from drylay.materials.lookup import catalogue_digest
from drylay.materials.stock_model import Board, Catalogue, Tile
from drylay.plan.model import Plan
from drylay.planner.asking import asking
from drylay.planner.border_rules import of_the_border
from drylay.planner.brought_down import RULE as CENTRES
from drylay.planner.brought_down import given_for
from drylay.planner.governed import DAILY, MOIST, SLIP
from drylay.planner.job import Articles, find_articles
from drylay.planner.left_out import not_checked
from drylay.planner.local import local_findings
from drylay.planner.metals import ask_metals
from drylay.planner.own_line import on_own_line
from drylay.planner.rules import ask_family
from drylay.planner.tile_rules import paths_of
from drylay.plugins.guard import asked_once, find_family
from drylay.plugins.model import FamilySet, LocalRuleSet, RuleFault
from drylay.reasons import Ruling


@counted
def audit(
    plan: Plan,
    *,
    brief: Brief | None = None,
    stock: Catalogue | None = None,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
) -> AuditReport:
    """Return what the auditor finds in a plan, and what it had to take on trust.

    Closed when only the plan is given: everything is measured again from the plan alone.
    Witnessed by whatever else is handed over: quoted limits, prices and wishes are compared
    with the brief, the stock and the families' own answers (which need all three).

    Args:
        plan: Any plan, ours or not.
        brief: The brief it was made from.
        stock: The stock it was made from.
        families: The families whose rules it claims to keep.
        local_rules: Those that it was held against are asked again, if all are among these.
    """
    if brief is None and stock is None and local_rules is None:
        return audit_plan(plan)
    families = None if families is None else asked_once(families)
    return audit_plan(
        plan,
        witness=Witness(
            brief=brief,
            stock=stock,
            rulings=_rulings(plan, brief, stock, families),
            brief_digest=None if brief is None else brief_digest(brief),
            stock_digest=None if stock is None else catalogue_digest(stock),
            cautions=_cautions(brief, stock, families),
            not_checked=None if brief is None else not_checked(brief),
            local_findings=_found_locally(plan, local_rules),
        ),
    )


def _found_locally(plan: Plan, local_rules: LocalRuleSet | None) -> tuple[Finding, ...] | None:
    """Return what local rules find in a plan as it was when they were first asked."""
    asked = {rule.name for rule in plan.local_rules}
    known = () if local_rules is None else local_rules.rules
    if local_rules is None or not plan.buildable or not asked <= {r.name for r in known}:
        return None
    rules = evolve(local_rules, rules=tuple(r for r in known if r.name in asked))
    before = tuple(finding for finding in plan.findings if not is_local(finding))
    found = local_findings(evolve(plan, local_rules=(), findings=before), rules)
    return tuple(finding for finding in found if is_local(finding))


def _cautions(
    brief: Brief | None, stock: Catalogue | None, families: FamilySet | None
) -> tuple[str, ...] | None:
    """Return the cautions of the families that the brief's boards belong to."""
    if brief is None or stock is None or families is None:
        return None
    codes = {brief.board.article, brief.border.article}
    sold: tuple[Board | Tile, ...] = (*stock.boards, *stock.tiles)
    boards = [board for board in sold if board.code in codes]
    found = [find_family(families, board.family) for board in boards]
    texts = [text for family in found if family is not None for text in family.family.cautions]
    return tuple(dict.fromkeys(texts)) if any(found) else None


def _rulings(
    plan: Plan, brief: Brief | None, stock: Catalogue | None, families: FamilySet | None
) -> tuple[tuple[str, Ruling], ...] | None:
    """Return the families' own answers by path, for the boards as this plan runs them."""
    if brief is None or stock is None or families is None:
        return None
    run = brief.board.run if plan.surface is None else plan.surface.run
    facing = on_own_line(evolve(brief, board=evolve(brief.board, run=run)))
    try:
        articles = find_articles(brief, stock)
    except BriefError:
        return None  # the stock handed over is another one: the audit says so itself
    answers = list(_answers(facing, articles, families, ""))
    if articles.border is not None:
        answers += _answers(*of_the_border(facing, articles), families, "border ")
    return tuple((path, answer) for path, answer in answers if isinstance(answer, Ruling))


def _answers(
    brief: Brief, articles: Articles, families: FamilySet, of: str
) -> Iterator[tuple[str, Ruling | RuleFault]]:
    """Yield what the family of a board answers, by path and by metal; `of`: before the path."""
    asked = asking(brief, articles, families)
    boards = (*DAILY, *MOIST) if articles.tile is None else ()
    for governed in (*paths_of(brief), *boards, SLIP):
        yield f"{of}{governed.path}", ask_family(asked, governed.rule)
    as_given = evolve(asked, query=given_for(asked.query))
    yield f"{of}{AS_GIVEN}", ask_family(as_given, CENTRES)
    for (into, metal), answer in ask_metals(brief, articles, families).items():
        yield f"{of}metal in {into}: {metal}", answer
