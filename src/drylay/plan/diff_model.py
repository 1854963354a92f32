"""The nouns of a comparison of two plans."""

from decimal import Decimal

from attrs import frozen

from drylay.counting import counted
from drylay.findings import Finding
from drylay.reasons import Decision

Value = float | int | str | bool | Decimal | None


@frozen(kw_only=True)
class Change:
    """One value that differs, with the decision that governs it on each side."""

    path: str
    unit: str
    old: Value
    new: Value
    old_reason: Decision | None
    new_reason: Decision | None


@frozen(kw_only=True)
class ReasonChange:
    """A decision that differs, in its value or in what it rests on; None where not taken."""

    path: str
    old: Decision | None
    new: Decision | None


@frozen(kw_only=True)
class PlanDiff:
    """What differs between two plans; empty where nothing does.

    `added` and `removed` are paths of whole parts that only the new, only the old plan has,
    such as `frame.joists[J9]`. `cost_change` is new less old, None unless both have a cost.
    """

    changes: tuple[Change, ...]
    added: tuple[str, ...]
    removed: tuple[str, ...]
    reasons: tuple[ReasonChange, ...]
    findings_added: tuple[Finding, ...]
    findings_removed: tuple[Finding, ...]
    currency: str
    cost_old: Decimal | None
    cost_new: Decimal | None
    cost_change: Decimal | None

    @property
    def empty(self) -> bool:
        """Whether nothing differs."""
        parts = (self.changes, self.added, self.removed, self.reasons)
        return not any((*parts, self.findings_added, self.findings_removed))

    @counted
    def __str__(self) -> str:
        """Return the comparison as lines of text."""
        from drylay.plan.diff_text import diff_text

        return diff_text(self)
