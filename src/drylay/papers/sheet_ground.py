"""The part of the job sheet on the ground under the deck."""

from drylay.papers.html import Html
from drylay.plan.model import Plan


def ground_part(plan: Plan) -> Html:
    """Return the ground under the deck."""
    return Html("")
