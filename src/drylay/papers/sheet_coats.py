"""The part of the job sheet on what is brushed on."""

from drylay.papers.html import Html
from drylay.plan.model import Plan


def coats_part(plan: Plan) -> Html:
    """Return what is brushed on."""
    return Html("")
