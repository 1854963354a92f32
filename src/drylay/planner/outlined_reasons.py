"""The reasons of a plan of a deck on an outline, in building order."""

from drylay.planner.job import Job
from drylay.planner.outlined_build import BuiltOutlined
from drylay.reasons import Reasons


def explain_outlined(job: Job, built: BuiltOutlined) -> Reasons:
    """Return all decisions of a built plan."""
    return Reasons()
