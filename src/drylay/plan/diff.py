"""Two plans compared: what differs, and the reasons on either side."""

import hashlib
import re
from collections import Counter
from decimal import Decimal
from enum import Enum
from typing import Any, cast

import attrs
from attrs import field, frozen

from drylay.counting import counted
from drylay.cutting.model import Proof
from drylay.findings import Finding
from drylay.plan.diff_model import Change, PlanDiff, ReasonChange, Value
from drylay.plan.model import Plan
from drylay.plan.walk import fields_of, governor, joined, names_of, unit_of
from drylay.reasons import Decision

#: Compared on their own, not value by value.
APART = ("reasons", "findings")

Decisions = dict[str, tuple[Decision, ...]]


@frozen(kw_only=True)
class Place:
    """Where a comparison stands: path, unit, and the path of the governing decision."""

    path: str
    unit: str
    governed_by: str


@frozen(kw_only=True)
class Found:
    """What a comparison has found so far, and the decisions of both sides."""

    old: Decisions
    new: Decisions
    currency: str
    changes: list[Change] = field(factory=list)
    added: list[str] = field(factory=list)
    removed: list[str] = field(factory=list)


@counted
def diff(old: Plan, new: Plan) -> PlanDiff:
    """Return what differs from one plan to another, with the reasons on either side.

    Parts are matched by mark, not by place in a list. A part that only one plan has is
    named once, without its values. A changed proof is one change.
    """
    found = Found(old=_decisions(old), new=_decisions(new), currency=_currency(old, new))
    _compare(old, new, Place(path="", unit="", governed_by=""), found)
    cost_old, cost_new = _cost(old), _cost(new)
    known = cost_old is not None and cost_new is not None
    return PlanDiff(
        changes=tuple(sorted(found.changes, key=lambda change: _order(change.path))),
        added=tuple(sorted(found.added, key=_order)),
        removed=tuple(sorted(found.removed, key=_order)),
        reasons=_reason_changes(found),
        findings_added=_left_over(new.findings, old.findings),
        findings_removed=_left_over(old.findings, new.findings),
        currency=found.currency,
        cost_old=cost_old,
        cost_new=cost_new,
        cost_change=cast(Decimal, cost_new) - cast(Decimal, cost_old) if known else None,
    )


def _decisions(plan: Plan) -> Decisions:
    taken: Decisions = {}
    for decision in plan.reasons.decisions:
        taken[decision.path] = (*taken.get(decision.path, ()), decision)
    return taken


def _currency(old: Plan, new: Plan) -> str:
    known = {plan.buying.currency for plan in (old, new) if plan.buying}
    return "/".join(sorted(known))


def _cost(plan: Plan) -> Decimal | None:
    return plan.buying.total if plan.buying else None


def _compare(old: Any, new: Any, place: Place, found: Found) -> None:
    if old == new:
        return
    if isinstance(old, tuple) and any(attrs.has(type(part)) for part in (*old, *new)):
        _compare_parts(old, new, place, found)
    elif type(old) is type(new) and fields_of(old) and not isinstance(old, Proof):
        _compare_fields(old, new, place, found)
    elif fields_of(old) and new is None:
        found.removed.append(place.path)
    elif fields_of(new) and old is None:
        found.added.append(place.path)
    else:
        found.changes.append(_change(_value(old), _value(new), place, found))


def _compare_fields(old: object, new: object, place: Place, found: Found) -> None:
    for part in fields_of(old):
        if place.path or part.name not in APART:
            unit = _unit(old, new, part.name, found.currency)
            below = Place(
                path=joined(place.path, part.name),
                unit=unit,
                governed_by=governor(part, place.governed_by),
            )
            _compare(getattr(old, part.name), getattr(new, part.name), below, found)


def _unit(old: object, new: object, name: str, currency: str) -> str:
    """Return a field's unit from the side that tells it: None on one side tells none."""
    return unit_of(old, name, currency) or unit_of(new, name, currency)


def _compare_parts(
    old: tuple[object, ...], new: tuple[object, ...], place: Place, found: Found
) -> None:
    old_parts, new_parts = _named(old, new)
    for name, part in old_parts.items():
        below = attrs.evolve(place, path=f"{place.path}[{name}]", unit="")
        if name in new_parts:
            _compare(part, new_parts[name], below, found)
        else:
            found.removed.append(below.path)
    found.added.extend(f"{place.path}[{name}]" for name in new_parts if name not in old_parts)
    old_order = [name for name in old_parts if name in new_parts]
    new_order = [name for name in new_parts if name in old_parts]
    if old_order != new_order:
        below = attrs.evolve(place, unit="order")
        change = _change(", ".join(old_order), ", ".join(new_order), below, found)
        found.changes.append(change)


def _named(
    old: tuple[object, ...], new: tuple[object, ...]
) -> tuple[dict[str, object], dict[str, object]]:
    """Return both tuples by name, or both by index where one has no clear names."""
    old_names, new_names = names_of(old), names_of(new)
    if any(name.isdigit() for name in (*old_names, *new_names)):
        old_names = tuple(str(index) for index in range(len(old)))
        new_names = tuple(str(index) for index in range(len(new)))
    return dict(zip(old_names, old, strict=True)), dict(zip(new_names, new, strict=True))


def _change(old: Value, new: Value, place: Place, found: Found) -> Change:
    return Change(
        path=place.path,
        unit=place.unit,
        old=old,
        new=new,
        old_reason=_last(found.old, place.governed_by),
        new_reason=_last(found.new, place.governed_by),
    )


def _last(decisions: Decisions, path: str) -> Decision | None:
    return decisions[path][-1] if path in decisions else None


def _value(value: Any) -> Value:
    """Return what stands for a value in a comparison: lists as one text, proofs as a digest."""
    if isinstance(value, tuple):
        return ", ".join(str(part) for part in value)
    if isinstance(value, Proof):
        return f"proof {hashlib.sha256(repr(value).encode()).hexdigest()[:12]}"
    return cast(Value, value.value if isinstance(value, Enum) else value)


def _reason_changes(found: Found) -> tuple[ReasonChange, ...]:
    paths = sorted({*found.old, *found.new}, key=_order)
    return tuple(
        ReasonChange(path=path, old=_last(found.old, path), new=_last(found.new, path))
        for path in paths
        if found.old.get(path) != found.new.get(path)
    )


def _left_over(findings: tuple[Finding, ...], without: tuple[Finding, ...]) -> tuple[Finding, ...]:
    left = Counter(findings) - Counter(without)
    return tuple(sorted(left.elements(), key=lambda finding: (finding.code, str(finding))))


def _order(path: str) -> list[tuple[str, int]]:
    """Return a key that sorts B2 before B10."""
    parts = re.findall(r"([^0-9]*)([0-9]{0,9})", path)
    return [(text, int(number or -1)) for text, number in parts]
