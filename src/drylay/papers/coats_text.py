"""In words: what is brushed on."""

from drylay.plan.model import Plan


def coats_told(plan: Plan) -> list[str]:
    """Return what is brushed on, a line each."""
    return []
