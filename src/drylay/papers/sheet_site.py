"""The part of the job sheet on where the deck stands: levels, wall gap, hollow."""

from drylay.papers.html import Html
from drylay.plan.model import Plan


def site_part(plan: Plan) -> Html:
    """Return where the deck stands: levels, wall gap, hollow."""
    return Html("")
