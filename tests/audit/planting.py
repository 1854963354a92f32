"""What a planted fault is made of: small edits of a plan."""

from collections.abc import Callable
from decimal import Decimal

from audit.edits import change, double, drop, put, swap
from audit.sample_deck import SUM
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.reasons import Decision, Source

Edit = Callable[[Plan], Plan]
Fault = tuple[str, str, Edit]


def to(path: str, value: object) -> Edit:
    return lambda plan: put(plan, path, value)


def by(path: str, step: float | Decimal) -> Edit:
    return lambda plan: change(plan, path, lambda old: old + step)  # type: ignore[operator]


def without(path: str, index: int) -> Edit:
    return lambda plan: drop(plan, path, index)


def twice(path: str, index: int) -> Edit:
    return lambda plan: double(plan, path, index)


def turned(path: str, first: int, second: int) -> Edit:
    return lambda plan: swap(plan, path, first, second)


def both(*edits: Edit) -> Edit:
    def run(plan: Plan) -> Plan:
        for edit in edits:
            plan = edit(plan)
        return plan

    return run


def finding(**more: object) -> Finding:
    known = {
        "code": "X-1", "severity": Severity.NOTE, "subject": "deck", "message": "a note",
        "source": SUM,
    }  # fmt: skip
    return Finding(**{**known, **more})  # type: ignore[arg-type]


NO_KIND = Source(kind="hearsay", title="a bar")
EXTRA = Decision(path="surface.colour", value=1, unit="", rule="none", source=SUM)
