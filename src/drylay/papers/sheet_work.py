"""The part of the job sheet on how the deck is built."""

from drylay.papers.html import Html
from drylay.plan.model import Plan


def work_part(plan: Plan) -> Html:
    """Return how the deck is built."""
    return Html("")
