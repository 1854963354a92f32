"""The nouns of the audit: what it is given, what one check finds, what it reports."""

from collections.abc import Callable, Iterator
from decimal import Decimal

from attrs import field, frozen

from drylay.brief.model import Brief
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.reasons import Ruling, Source

Trustable = float | int | str | Decimal | None


@frozen(kw_only=True)
class Witness:
    """What a plan was made from, fetched afresh. What is None is taken on trust.

    `rulings` are the families' own answers by decision path, for the plan's board and frame.
    `cautions` are those of the board's family, `not_checked` what every plan says it did not
    check, `local_findings` what local rules find in the plan now. The digests are worked out
    again from `brief` and `stock` by the caller.
    """

    brief: Brief | None = None
    stock: Catalogue | None = None
    rulings: tuple[tuple[str, Ruling], ...] | None = None
    brief_digest: str | None = None
    stock_digest: str | None = None
    cautions: tuple[str, ...] | None = None
    not_checked: tuple[str, ...] | None = None
    local_findings: tuple[Finding, ...] | None = None


@frozen(kw_only=True)
class Flaw:
    """What one check found, before the check's own code is put on it."""

    subject: str
    message: str
    measured: float | None = None
    limit: float | None = None
    unit: str = ""
    source: Source
    severity: Severity = Severity.STOP


ClosedCheck = Callable[[Plan], Iterator[Flaw]]
WitnessedCheck = Callable[[Plan, Witness], Iterator[Flaw]]


@frozen(kw_only=True)
class Trusted:
    """A value that the audit could not measure again: it stands on the plan's own word."""

    path: str
    value: Trustable


@frozen(kw_only=True)
class NotRun:
    """A check that had nothing to measure, and why."""

    code: str
    because: str


@frozen(kw_only=True)
class AuditReport:
    """What the audit saw: which audit ran, with which witnesses, which checks, what it found.

    `audit` is "closed" (from the plan alone) or "witnessed". `checks` are the codes of the
    checks that ran, `trusted` the values nobody has vouched for but the plan itself.
    """

    audit: str
    witnesses: tuple[str, ...] = ()
    checks: tuple[str, ...]
    not_run: tuple[NotRun, ...] = ()
    findings: tuple[Finding, ...] = ()
    trusted: tuple[Trusted, ...] = field(default=())

    @property
    def sound(self) -> bool:
        """Whether nothing stops the plan."""
        return all(finding.severity is not Severity.STOP for finding in self.findings)
