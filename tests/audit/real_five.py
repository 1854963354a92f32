"""Real plans of all five families, with witnesses as the public audit fetches them."""

from audit.real import example, stock
from drylay.audit.model import Witness
from drylay.brief.codec import brief_digest
from drylay.brief.model import Brief
from drylay.materials.lookup import catalogue_digest
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.audited import _cautions, _rulings
from drylay.planner.design import design
from drylay.planner.left_out import not_checked
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet

#: The examples of the documents that no softwood alone is built of.
EXAMPLES = ("hardwood", "composite", "composite-hollow", "insertboard", "border",
            "tiles-on-pads", "tiles-on-frame")  # fmt: skip


def witness_to(plan: Plan, brief: Brief, catalogue: Catalogue, families: FamilySet) -> Witness:
    """Return the witness that the public audit would hand over."""
    return Witness(
        brief=brief,
        stock=catalogue,
        rulings=_rulings(plan, brief, catalogue, families),
        brief_digest=brief_digest(brief),
        stock_digest=catalogue_digest(catalogue),
        cautions=_cautions(brief, catalogue, families),
        not_checked=not_checked(brief),
    )


def planned_of_five(name: str) -> tuple[Plan, Witness]:
    """Return an example's plan and its witness."""
    brief, catalogue, families = example(name), stock("sallowby"), installed_families()
    plan = design(brief, stock=catalogue, families=families)
    return plan, witness_to(plan, brief, catalogue, families)
