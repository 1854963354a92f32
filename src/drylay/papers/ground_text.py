"""In words: the ground under the deck."""

from drylay.plan.model import Plan


def ground_told(plan: Plan) -> list[str]:
    """Return the ground under the deck, a line each."""
    return []
