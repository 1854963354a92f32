"""What is brushed on: preserver on sawn ends, finish on boards and fascia."""

from typing import Any

from drylay.buying.model import Purchase
from drylay.findings import Finding
from drylay.fixings.model import Fixings
from drylay.planner.built import Built, Wanted
from drylay.planner.buy import Shape
from drylay.planner.job import Job
from drylay.planner.rows import Row


def coated(job: Job, shaped: Shape, purchases: tuple[Purchase, ...]) -> dict[str, Any]:
    """Return the preserver and the finish, as fields of the fixings."""
    return {}


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return what of them is to be bought."""
    return ()


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    return []


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about them."""
    return []
