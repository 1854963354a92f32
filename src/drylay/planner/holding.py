"""How the frame, the fascia and the joists are held, beyond deck and coach screws."""

from typing import Any

from drylay.findings import Finding
from drylay.fixings.model import Fixings
from drylay.frame.model import Frame
from drylay.planner.built import Built, Wanted
from drylay.planner.buy import Shape
from drylay.planner.job import Job
from drylay.planner.rows import Row


def held(job: Job, shaped: Shape, frame: Frame) -> dict[str, Any]:
    """Return the fields of the fixings that are counted here."""
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
