"""A comparison of two plans as text."""

from decimal import Decimal

from drylay.plan.diff_model import Change, PlanDiff, ReasonChange, Value
from drylay.reasons import Decision

#: So many values governed by one decision are shown; the rest are counted.
SHOWN = 4


def diff_text(found: PlanDiff) -> str:
    """Return a comparison as lines: cost, findings, decisions, then what follows from them."""
    if found.empty:
        return "no difference"
    lines = [_cost(found)]
    lines += [f"new finding: {finding}" for finding in found.findings_added]
    lines += [f"gone finding: {finding}" for finding in found.findings_removed]
    both = [change for change in found.reasons if change.old and change.new]
    lines += [line for change in both for line in _reason_lines(change)]
    same = tuple(change.path for change in both if _same_answer(change))
    lines += _listed("same answer from other figures", same)
    lines += _listed("newly decided", _paths(found.reasons, "old"))
    lines += _listed("not decided any more", _paths(found.reasons, "new"))
    lines += _listed("added", found.added) + _listed("removed", found.removed)
    lines += [line for group in _groups(found) for line in _group_lines(group)]
    return "\n".join(lines)


def _cost(found: PlanDiff) -> str:
    if found.cost_change is None:
        return f"total: {_money(found.cost_old)} to {_money(found.cost_new)} {found.currency}"
    change = f"{found.cost_change:+f}" if found.cost_change else "no change"
    return f"total: {found.cost_old:f} to {found.cost_new:f} {found.currency} ({change})"


def _money(cost: Decimal | None) -> str:
    return "none" if cost is None else f"{cost:f}"


def _paths(changes: tuple[ReasonChange, ...], missing: str) -> tuple[str, ...]:
    """Return the decisions that one side ("old" or "new") has not taken."""
    return tuple(change.path for change in changes if getattr(change, missing) is None)


def _same_answer(change: ReasonChange) -> bool:
    """Whether both sides decided alike by the same rule: only what they were given differs."""
    return (
        change.old is not None and change.new is not None and _said(change.old) == _said(change.new)
    )


def _said(decision: Decision) -> tuple[object, ...]:
    return decision.value, decision.unit, decision.rule, decision.source


def _reason_lines(change: ReasonChange) -> list[str]:
    old, new = change.old, change.new
    if old is None or new is None or _same_answer(change):
        return []
    if (old.rule, old.source) == (new.rule, new.source):
        return [f"{change.path}: {old.value} to {_answer(new)}, {_why(new)}"]
    return [
        f"{change.path}:",
        f"  was {_answer(old)}, {_why(old)}",
        f"  now {_answer(new)}, {_why(new)}",
    ]


def _answer(decision: Decision) -> str:
    unit = "" if decision.unit in ("", "count") else f" {decision.unit}"
    return f"{decision.value}{unit}"


def _why(decision: Decision) -> str:
    source = decision.source
    place = ", ".join(part for part in (source.title, source.clause) if part)
    return f"{decision.rule} ({source.kind}: {place})"


def _listed(word: str, paths: tuple[str, ...]) -> list[str]:
    if not paths:
        return []
    more = f" and {len(paths) - SHOWN} more" if len(paths) > SHOWN else ""
    return [f"{word}: {', '.join(paths[:SHOWN])}{more}"]


def _groups(found: PlanDiff) -> list[list[Change]]:
    """Return the changes, those of one decision together."""
    groups: dict[str, list[Change]] = {}
    for change in found.changes:
        reason = change.new_reason or change.old_reason
        groups.setdefault(reason.path if reason else "", []).append(change)
    return list(groups.values())


def _group_lines(group: list[Change]) -> list[str]:
    reason = group[0].new_reason or group[0].old_reason
    lines = [f"because of {reason.path}:" if reason else "without a decision of its own:"]
    lines += [f"  {_line(change)}" for change in group[:SHOWN]]
    if len(group) > SHOWN:
        lines.append(f"  and {len(group) - SHOWN} more")
    return lines


def _line(change: Change) -> str:
    unit = f" {change.unit}" if change.unit else ""
    return f"{change.path}: {_shown(change.old)} to {_shown(change.new)}{unit}"


def _shown(value: Value) -> str:
    if value is None:
        return "none"
    return f"{value:f}" if isinstance(value, Decimal) else str(value)
