"""The summary: what a builder reads first, as plain text."""

from drylay.findings import Finding, Severity
from drylay.papers.cover_text import cover_lines
from drylay.papers.frame_text import frame_lines, screw_lines
from drylay.papers.joints_text import joint_lines
from drylay.papers.layout import heading, para, points
from drylay.papers.purchase import cut_lines, order_lines, proof_lines
from drylay.papers.wording import clean, many, said_by, size
from drylay.plan.model import Plan
from drylay.reasons import Decision, Scalar

#: Kinds of sources that somebody should check before money is spent.
UNSURE = ("assumption", "from memory")
PERSON = "named person's override"


def summary(plan: Plan) -> str:
    """Return the summary of a plan; a blocked plan has findings and no cut list, no order."""
    built = [*cover_lines(plan), *frame_lines(plan), *joint_lines(plan), *screw_lines(plan)]
    if plan.buildable:
        lines = [*_head(plan), *_trust(plan), *built]
        if plan.buying:
            lines += cut_lines(plan, plan.buying)
            lines += [*order_lines(plan.buying, plan.units), *proof_lines(plan.buying)]
        lines += _findings(plan)
    else:
        lines = [*_head(plan), *_findings(plan), *_trust(plan), *built]
    lines += _section("CAUTIONS", plan.cautions)
    not_checked = "WITHIN THE SCREENED LIMITS; NOT CHECKED"
    lines += _section(not_checked, plan.not_checked or ("anything that is not named above",))
    return "\n".join(lines).strip("\n") + "\n"


def _section(title: str, texts: tuple[str, ...]) -> list[str]:
    if not texts:
        return []
    return [*heading(title), *points(clean(text, 400) for text in texts)]


def _head(plan: Plan) -> list[str]:
    title = clean(plan.title, 78)
    if not plan.buildable:
        state = "BLOCKED. Do not buy or saw anything from this plan: see the findings."
    elif plan.buying is None:
        state = "INCOMPLETE. This is no whole plan: audit it. Do not buy or saw anything from it."
    elif count := len(_by_person(plan)):
        places = many(count, "limit that a named person", "limits that named persons")
        state = (
            f"Nothing stops this plan within the screened limits BUT FOR {places} overrode: "
            "see below. Local rules come first."
        )
    else:
        state = "Nothing stops this plan within the screened limits. Local rules come first."
    return [*heading(title, "="), *para(state)]


def _by_person(plan: Plan) -> list[Decision]:
    return [d for d in plan.reasons.decisions if d.source.kind == PERSON]


def _trust(plan: Plan) -> list[str]:
    """Return what rests on a named person, on memory or on an assumption."""
    unsure = [d for d in plan.reasons.decisions if d.source.kind in UNSURE and _told(plan, d)]
    texts = [_overridden(decision, plan.units) for decision in _by_person(plan)]
    texts += [_taken(decision, plan.units) for decision in unsure]
    return [*heading("TAKEN ON TRUST: CHECK BEFORE YOU BUY"), *points(texts)] if texts else []


def _told(plan: Plan, decision: Decision) -> bool:
    """Whether a decision bears on this plan: a joint's price does not where none is made."""
    return decision.path != "pieces.joint_price" or bool(plan.pieces and plan.pieces.joints)


def _overridden(decision: Decision, units: str) -> str:
    """Return a named person's override, with what it replaces and who says that."""
    inputs = dict(decision.inputs)
    text = f"{decision.path}: {_figure(decision.value, decision.unit, units)}"
    if inputs.get("otherwise") is not None:
        replaced = _figure(inputs["otherwise"], decision.unit, units)
        text += f" instead of {replaced} ({clean(str(inputs.get('otherwise_by', '')))})"
    elif "otherwise" in inputs:
        text += f" instead of {clean(str(inputs.get('otherwise_by', '')))}"
    reason = clean(decision.rule.removeprefix("override: "))
    return f"{text}: {reason} ({said_by(decision)})"


def _taken(decision: Decision, units: str) -> str:
    value = _figure(decision.value, decision.unit, units)
    return f"{clean(decision.rule)}: {value} ({said_by(decision)})"


def _figure(value: Scalar, unit: str, units: str) -> str:
    if unit == "mm" and isinstance(value, float):
        return size(value, units)
    return clean(f"{value:g} {unit}".strip() if isinstance(value, float) else f"{value} {unit}")


def _findings(plan: Plan) -> list[str]:
    order = (Severity.STOP, Severity.CAUTION, Severity.NOTE)
    found = sorted(plan.findings, key=lambda finding: order.index(finding.severity))
    return _section("FINDINGS", tuple(_finding(finding, plan.units) for finding in found))


def _finding(finding: Finding, units: str) -> str:
    """Return a finding with its figures in the plan's own units."""
    if finding.unit != "mm" or finding.measured is None:
        return str(finding)
    figures = size(finding.measured, units)
    if finding.limit is not None:
        figures += f" against {size(finding.limit, units)}"
    return (
        f"{finding.severity.value} {finding.code} {finding.subject}: {finding.message} ({figures})"
    )
