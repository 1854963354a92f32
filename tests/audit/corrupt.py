"""Every number of a plan changed in turn, reasons changed to agree: what does the audit see?"""

import random
import re
from collections.abc import Iterator
from decimal import Decimal

import attrs
from attrs import evolve, frozen

from audit.edits import put
from drylay.audit.closed import audit_plan
from drylay.audit.model import AuditReport, Witness
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.reasons import Decision

Number = float | int | Decimal
SEED = 20261125

#: Numbers that get through, and why.
BLIND = {
    r"buying.purchases\[\].proof.certificate.(vectors.*|splits.*|nodes)": (
        "any worths and splits that bear out the bound are as good; nodes tell how many there are"
    ),
    r"(surface|tiling).ways_out\[\].cost|tiling.other.cost": (
        "to know another way's cost, it would have to be planned"
    ),
    r"reasons.decisions\[\].turned_down\[\].value": (
        "to know what was turned down, it would have to be planned"
    ),
    r"findings\[\].(measured|limit)": "the changed figure stands elsewhere in the plan",
}


def why_missed(pattern: str) -> str:
    """Return why numbers of this pattern may get through, "unexplained" if nobody knows."""
    known = (why for names, why in BLIND.items() if re.fullmatch(names, pattern))
    return next(known, "unexplained")


@frozen(kw_only=True)
class Miss:
    """A changed number that the audit took for a good one."""

    path: str
    old: Number
    new: Number

    @property
    def pattern(self) -> str:
        return re.sub(r"\[\d+\]", "[]", self.path)


@frozen(kw_only=True)
class Tally:
    """What a campaign came to: changes made, and those not caught."""

    changes: int
    of_certificates: int
    missed: tuple[Miss, ...]


def numbers(noun: object, path: str = "") -> Iterator[tuple[str, Number]]:
    """Yield every number of a plan with its path; yes and no are not numbers."""
    if isinstance(noun, tuple):
        for index, item in enumerate(noun):
            yield from numbers(item, f"{path}[{index}]")
    elif attrs.has(type(noun)):
        for field in attrs.fields(type(noun)):
            yield from numbers(getattr(noun, field.name), f"{path}.{field.name}".lstrip("."))
    elif isinstance(noun, int | float | Decimal) and not isinstance(noun, bool):
        yield path, noun


def of_a_certificate(path: str) -> bool:
    """Return whether a number is one of the worths that bear out a bound, not of the deck."""
    parts = (".proof.certificate.vectors", ".proof.certificate.splits")
    return any(part in path for part in parts) or path.endswith(".proof.certificate.nodes")


def changes(value: Number) -> tuple[Number, ...]:
    """Return what a number is changed to: by one unit either way, and by about a tenth."""
    if isinstance(value, Decimal):
        return (
            value + Decimal("0.01"),
            value + 1,
            (value * Decimal("1.1")).quantize(Decimal("0.1")),
        )
    if isinstance(value, int):
        return (value + 1, value - 1)
    return (value + 1.0, value - 1.0, round(value * 1.1 * 2) / 2)


def corrupted(plan: Plan, path: str, old: Number, new: Number) -> Plan:
    """Return the plan with one number changed and all reasons changed to agree with it."""
    changed = put(plan, path, new)
    if path.startswith("reasons"):
        return changed
    name = path.rpartition(".")[2]

    def agreeing(decision: Decision) -> Decision:
        inputs = tuple(
            (key, new_as(value, new) if key == name and same(value, old) else value)
            for key, value in decision.inputs
        )
        decision = evolve(decision, inputs=inputs)
        if decision.path == path:
            return evolve(decision, value=new_as(decision.value, new))
        return decision

    decisions = tuple(agreeing(decision) for decision in changed.reasons.decisions)
    return evolve(changed, reasons=evolve(changed.reasons, decisions=decisions))


def new_as(told: object, new: Number) -> float | int | str:
    """Return the new number as the reason spells it: money as text."""
    return str(new) if isinstance(told, str) or isinstance(new, Decimal) else new


def same(told: object, old: Number) -> bool:
    return str(told) == str(old) or (isinstance(told, int | float) and told == old)


def said(report: AuditReport) -> set[tuple[str, str, str]]:
    """Return what a report holds against a plan."""
    return {
        (finding.code, finding.subject, finding.message)
        for finding in report.findings
        if finding.severity is not Severity.NOTE
    }


def campaign(plan: Plan, witness: Witness, *, sample: int | None = None, seed: int = 0) -> Tally:
    """Return how many changed numbers a witnessed audit misses, digest checks off."""
    blind = evolve(witness, brief_digest=None, stock_digest=None)
    clean = said(audit_plan(plan, witness=blind))
    todo = [(path, old, new) for path, old in numbers(plan) for new in changes(old) if new != old]
    if sample is not None:
        todo = random.Random(seed).sample(todo, min(sample, len(todo)))
    missed = [
        Miss(path=path, old=old, new=new)
        for path, old, new in todo
        if said(audit_plan(corrupted(plan, path, old, new), witness=blind)) <= clean
    ]
    return Tally(
        changes=len(todo),
        of_certificates=sum(of_a_certificate(path) for path, _old, _new in todo),
        missed=tuple(missed),
    )
