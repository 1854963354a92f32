"""The parts of the job sheet on the delivery, and on the ground under the deck."""

from drylay.papers.delivery_text import delivery_told
from drylay.papers.ground_text import ground_told
from drylay.papers.html import Html, points
from drylay.papers.sheet_parts import part
from drylay.plan.model import Plan


def ground_part(plan: Plan) -> Html:
    """Return the ground under the deck, in the order of the work."""
    return part("ground", "The ground under the deck", [points(ground_told(plan))])


def delivery_part(plan: Plan) -> Html:
    """Return what comes with the lorry, and what is lifted from it."""
    return part("delivery", "What comes, and what it weighs", [points(delivery_told(plan))])
