"""What is worth telling of a deck on an outline."""

from drylay.findings import Finding, Severity
from drylay.planner.job import Job
from drylay.planner.outlined_build import BuiltOutlined


def outlined_remarks(job: Job, built: BuiltOutlined) -> tuple[Finding, ...]:
    """Return everything worth telling about a built deck, worst first."""
    found = [*built.stops]
    order = (Severity.STOP, Severity.CAUTION, Severity.NOTE)
    return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))
