"""What the commands say to people, and the same as plain data."""

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from enum import Enum

import attrs

from drylay.audit.model import AuditReport
from drylay.compare.model import Comparison
from drylay.materials.model import RULES
from drylay.materials.nearest_model import Substitute
from drylay.planner.review_model import Review
from drylay.plugins.model import FamilySet, InstalledPlugin, PluginFault
from drylay.reasons import Decision, Scalar, Source

SUMMARY = "summary.txt"
#: How many of the values taken on trust are shown to people.
FEW = 10
#: What a plugin can supply, as its noun calls it.
SUPPLIED = ("families", "catalogues", "local_rules", "papers", "design_bases")


def plain(noun: attrs.AttrsInstance) -> object:
    """Return a noun as data that JSON can hold; money stays exact, as text."""
    return attrs.asdict(noun, value_serializer=_plain_value)


def decision_text(decision: Decision) -> str:
    """Return a decision as lines: value, rule, who says so, from what, and what was not taken."""
    lines = [
        f"{decision.path} = {_valued(decision.value, decision.unit)}",
        f"  rule    {decision.rule}",
        f"  source  {_source_text(decision.source)}",
    ]
    lines += [f"  from    {name} = {_shown(value)}" for name, value in decision.inputs]
    lines += [
        f"  not     {_valued(other.value, decision.unit)}: {other.because}"
        for other in decision.turned_down
    ]
    return "\n".join(lines)


def report_text(report: AuditReport) -> str:
    """Return an audit's report as lines, its findings first."""
    lines = [str(finding) for finding in report.findings]
    given = f" with {', '.join(report.witnesses)}" if report.witnesses else ""
    lines.append(f"{report.audit} audit{given}; checks run: {len(report.checks)}")
    lines += [f"  not run: {check.code}, {check.because}" for check in report.not_run]
    if report.trusted:
        lines.append(f"  taken on trust, {len(report.trusted)} in all:")
        lines += [f"    {item.path} = {item.value}" for item in report.trusted[:FEW]]
    if len(report.trusted) > FEW:
        lines.append("    and so on; --json lists them all")
    lines.append("within the screened limits" if report.sound else "stopped")
    return "\n".join(lines)


def review_text(found: Review, path: str) -> str:
    """Return a review as lines: what is wrong, what it was looked at as, what stops the deck."""
    lines = [str(fault) for fault in found.faults]
    if found.supposed:
        lines.append("asked, and not taken as meant; what follows holds only if these were meant:")
        lines += [f"  {put.path}: {put.as_if}, where {put.found} stands" for put in found.supposed]
    elif found.faults and not found.looked:
        lines.append("the deck was not looked at: mend these first")
    lines += [str(finding) for finding in found.findings]
    if found.looked and not found.stops and not found.faults:
        lines.append(f"{path}: nothing wrong, and nothing stops the deck")
    return "\n".join(lines)


def review_plain(found: Review) -> object:
    """Return a review as plain data."""
    return {
        "faults": [fault.to_dict() for fault in found.faults],
        "supposed": [plain(each) for each in found.supposed],
        "findings": [plain(each) for each in found.findings],
        "looked": found.looked,
    }


def comparison_plain(comparison: Comparison) -> object:
    """Return a comparison as plain data: a row for each alternative, its remarks and reasons."""
    price = comparison.hour_price
    return {
        "title": comparison.title,
        "currency": comparison.currency,
        "vat": comparison.vat,
        "rate_ratio": comparison.rate_ratio,
        "hour_price": None if price is None else str(price),
        "rows": list(map(plain_figures, comparison.measures())),
        "remarks": {deck.name: list(map(plain, deck.remarks)) for deck in comparison.decks},
        "reasons": {
            deck.name: list(map(plain, deck.reasons.decisions)) for deck in comparison.decks
        },
    }


def plain_figures(row: Mapping[str, object]) -> dict[str, object]:
    """Return a flat row as plain data."""
    return {name: _plain_value(None, None, figure) for name, figure in row.items()}


def families_text(found: FamilySet) -> str:
    """Return the families as lines, the failed plugins after them."""
    lines = [
        f"{each.family.id}: {each.family.title},"
        f" {len(RULES.keys() & each.family.rules.keys())} of {len(RULES)} rules"
        f" ({each.origin.package} {each.origin.version})"
        for each in found.families
    ]
    lines = lines or ["no family is installed"]
    return "\n".join([*lines, *(line for fault in found.faults for line in not_used(fault))])


def not_used(fault: PluginFault) -> list[str]:
    """Return a plugin that is not used as lines: one for each thing that is wrong with it."""
    if not fault.wrongs:
        return [f"not used: {fault}"]
    head = attrs.evolve(fault, wrong=f"{len(fault.wrongs)} faults:", wrongs=())
    return [f"not used: {head}", *(f"  {wrong}" for wrong in fault.wrongs)]


def families_plain(found: FamilySet) -> object:
    """Return the families and failed plugins as plain data."""
    return {
        "families": [
            {
                "id": each.family.id,
                "title": each.family.title,
                "rules": sorted(each.family.rules),
                "cautions": list(each.family.cautions),
                **attrs.asdict(each.origin),
            }
            for each in found.families
        ],
        "faults": [{**attrs.asdict(fault.origin), **_fault_plain(fault)} for fault in found.faults],
    }


def _fault_plain(fault: PluginFault) -> dict[str, object]:
    return {"kind": fault.kind, "wrong": fault.wrong, "wrongs": list(fault.wrongs)}


def plugins_text(found: Iterable[InstalledPlugin]) -> str:
    """Return the plugins as lines: what each supplies, and what is wrong with it."""
    lines = [line for plugin in found for line in _plugin_lines(plugin)]
    return "\n".join(lines or ["no plugin is installed"])


def _plugin_lines(plugin: InstalledPlugin) -> list[str]:
    package = f" ({plugin.origin.package} {plugin.origin.version})" if plugin.origin.package else ""
    lines = [f"{plugin.origin.plugin}{package}"]
    lines += [
        f"  {kind.replace('_', ' ')}: {', '.join(getattr(plugin, kind))}"
        for kind in SUPPLIED
        if getattr(plugin, kind)
    ]
    for fault in plugin.faults:
        several = f"{len(fault.wrongs)} faults:" if fault.wrongs else fault.wrong
        lines += [f"  not used: {fault.kind}: {several}"]
        lines += [f"    {wrong}" for wrong in fault.wrongs]
    return lines if len(lines) > 1 else [f"{lines[0]}: supplies nothing"]


def plugins_plain(found: Iterable[InstalledPlugin]) -> object:
    """Return the plugins as plain data."""
    return {
        "plugins": [
            {
                **attrs.asdict(plugin.origin),
                **{kind: list(getattr(plugin, kind)) for kind in SUPPLIED},
                "faults": list(map(_fault_plain, plugin.faults)),
            }
            for plugin in found
        ]
    }


def substitute_plain(found: Substitute) -> object:
    """Return a substitute as plain data; of the article its code and title."""
    article = found.article
    prices = {"old": found.price_old, "new": found.price_new}
    return {
        "code": article.code,
        "title": article.title,
        "changes": [plain(change) for change in found.changes],
        "unit": found.unit,
        "price": {name: None if price is None else str(price) for name, price in prices.items()},
    }


def _plain_value(_: object, __: object, value: object) -> object:
    if isinstance(value, Decimal | date):
        return str(value)
    return value.value if isinstance(value, Enum) else value


def _source_text(source: Source) -> str:
    return f"{source.kind}: {source.title}" + (f", {source.clause}" if source.clause else "")


def _valued(value: Scalar, unit: str) -> str:
    bare = unit in ("", "count", "yes/no", "ratio", "text")
    return _shown(value) if bare else f"{_shown(value)} {unit}"


def _shown(value: Scalar) -> str:
    # repr is exact and short; whole floats lose only their ".0"
    return repr(value).removesuffix(".0") if isinstance(value, float) else str(value)
