"""The public audit: fetches the witnesses afresh, then lets the auditor measure."""

from collections.abc import Iterator

from attrs import evolve

from drylay.audit.closed import audit_plan
from drylay.audit.model import AuditReport, Witness
from drylay.brief.codec import brief_digest
from drylay.brief.model import Brief
from drylay.errors import BriefError
from drylay.materials.lookup import catalogue_digest
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.border_rules import of_the_border
from drylay.planner.governed import GOVERNED
from drylay.planner.job import Articles, find_articles
from drylay.planner.metals import ask_metals
from drylay.planner.notes import not_checked
from drylay.planner.rules import ask_family
from drylay.plugins.guard import find_family
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Ruling


def audit(
    plan: Plan,
    *,
    brief: Brief | None = None,
    stock: Catalogue | None = None,
    families: FamilySet | None = None,
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
    """
    if brief is None and stock is None:
        return audit_plan(plan)
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
        ),
    )


def _cautions(
    brief: Brief | None, stock: Catalogue | None, families: FamilySet | None
) -> tuple[str, ...] | None:
    """Return the cautions of the families that the brief's boards belong to."""
    if brief is None or stock is None or families is None:
        return None
    codes = {brief.board.article, brief.border.article}
    boards = [board for board in stock.boards if board.code in codes]
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
    facing = evolve(brief, board=evolve(brief.board, run=run))
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
    for governed in GOVERNED:
        yield f"{of}{governed.path}", ask_family(brief, articles, families, governed.rule)
    for metal, answer in ask_metals(brief, articles, families).items():
        yield f"{of}metal: {metal}", answer
