"""In words: where the deck stands: levels, wall gap, hollow."""

from drylay.plan.model import Plan


def site_told(plan: Plan) -> list[str]:
    """Return where the deck stands: levels, wall gap, hollow, a line each."""
    return []
