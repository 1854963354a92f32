"""What every plan begins with, whatever kind of deck it holds."""

from drylay.brief.codec import brief_digest
from drylay.findings import Finding, Severity
from drylay.materials.lookup import catalogue_digest
from drylay.plan.model import Digests, Plan
from drylay.planner.job import Job
from drylay.planner.left_out import not_checked
from drylay.planner.used import families_of, families_used, own_version
from drylay.plugins.model import FamilySet
from drylay.reasons import Reasons


def is_stopped(findings: tuple[Finding, ...]) -> bool:
    """Return whether a plan with these findings may carry no cut list and no order."""
    return any(finding.severity is Severity.STOP for finding in findings)


def empty_plan(
    job: Job, families: FamilySet, findings: tuple[Finding, ...], cautions: tuple[str, ...]
) -> Plan:
    """Return a plan with its head and findings, and no part of a deck."""
    return Plan(
        drylay_version=own_version(),
        title=job.brief.title,
        units=job.brief.units,
        use=job.brief.use,
        digests=Digests(brief=brief_digest(job.asked), stock=catalogue_digest(job.stock)),
        families=families_used(families_of(job.articles, families)),
        surface=None,
        edges=None,
        supports=None,
        pieces=None,
        frame=None,
        fixings=None,
        buying=None,
        site=None,
        groundwork=None,
        work=None,
        reasons=Reasons(),
        findings=findings,
        cautions=cautions,
        not_checked=not_checked(job.asked),
    )
