"""How the deck is built: setting out, tasks with hold points, tools, lights."""

from drylay.findings import Finding
from drylay.planner.built import Built
from drylay.planner.job import Job
from drylay.planner.rows import Row
from drylay.work.model import Work


def plan_work(job: Job, built: Built) -> Work | None:
    """Return how the deck is built."""
    return None


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    return []


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about them."""
    return []
