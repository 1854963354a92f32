"""Decks planned for a merchant: from one shelf after another, what was cut once kept."""

from attrs import Factory, frozen

from drylay.brief.model import Brief
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Task
from drylay.errors import BriefError, PlannerFault
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.design import design
from drylay.planner.glance import Glances, glance
from drylay.planner.job import CancelToken
from drylay.plugins.guard import asked_once
from drylay.plugins.loading import installed_families, installed_local_rules
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet
from drylay.reasons import Source

DESIGNED = Source(kind="arithmetic", title="docs/study-questions.md", clause="designed and audited")


@frozen(kw_only=True)
class Planning:
    """Whose rules decks are planned by, and answers to cutting tasks, which hold for any shelf."""

    families: FamilySet
    local_rules: LocalRuleSet
    bases: BasisSet | None = None
    cancel: CancelToken | None = None
    known: dict[Task, CutPlan | NoPlan] = Factory(dict)
    rough: dict[Task, CutPlan | NoPlan] = Factory(dict)
    floors: dict[Task, int | None] = Factory(dict)


def planning(
    families: FamilySet | None,
    local_rules: LocalRuleSet | None,
    bases: BasisSet | None,
    cancel: CancelToken | None,
) -> Planning:
    """Return what decks are planned by: what is installed where nothing is handed in."""
    return Planning(
        families=asked_once(installed_families() if families is None else families),
        local_rules=installed_local_rules() if local_rules is None else local_rules,
        bases=bases,
        cancel=cancel,
    )


def shelf(by: Planning, stock: Catalogue) -> Glances:
    """Return what decks are planned from: one stock, with all that was cut from others."""
    return Glances(
        stock=stock,
        families=by.families,
        local_rules=by.local_rules,
        bases=by.bases,
        cancel=by.cancel,
        known=by.known,
        rough=by.rough,
        floors=by.floors,
    )


def plan_or_why(look: Glances, brief: Brief) -> Plan | str:
    """Return the plan of a deck with its order, or why it has none.

    Raises:
        Cancelled: The cancel token was set.
    """
    try:
        plan = glance(look, brief)
    except BriefError as error:
        return "; ".join(map(str, error.faults))
    stops = [f for f in plan.findings if f.severity is Severity.STOP]
    if plan.buying is not None and not stops:
        return plan
    return "; ".join(f"{stop.code} {stop.message}" for stop in stops) or "nothing is bought for it"


def audited(look: Glances, brief: Brief, seen: Plan | None = None) -> Plan:
    """Return the whole plan of a deck, audited.

    Raises:
        BriefError: The stock does not hold an article the brief names.
        PlannerFault: The audit stopped a plan the planner thought sound, or the design buys
            something else than was `seen`.
        Cancelled: The cancel token was set.
    """
    plan = design(
        brief,
        stock=look.stock,
        families=look.families,
        local_rules=look.local_rules,
        bases=look.bases,
        cancel=look.cancel,
    )
    if seen is not None and plan.buying != seen.buying:
        raise unsound(brief.title, "designed, it buys something else than at a glance")
    return plan


def unsound(subject: str, why: str) -> PlannerFault:
    """Return the fault of ours that a figure is not what it was taken for."""
    return PlannerFault(
        (
            Finding(
                code="MRC-001",
                severity=Severity.STOP,
                subject=subject,
                message=why,
                source=DESIGNED,
            ),
        )
    )
