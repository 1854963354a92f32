"""In words: how the deck is built."""

from drylay.plan.model import Plan


def work_told(plan: Plan) -> list[str]:
    """Return how the deck is built, a line each."""
    return []
