"""Every call of a plugin's functions: a plugin's fault stays a plugin's fault."""

from copy import deepcopy
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal, localcontext

from attrs import evolve

from drylay.findings import Finding
from drylay.marks import PER_MM, to_mm
from drylay.materials.model import PLAIN, QUESTIONS, TRAITS, Family, Rule, RuleQuery
from drylay.plan.model import Plan
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.model import (
    BasisSet,
    FamilySet,
    InstalledFamily,
    InstalledLocalRule,
    InstalledPaper,
    PluginFault,
    RuleFault,
)
from drylay.plugins.shapes import findings_wrongs, kind_of, ruling_wrongs, told
from drylay.reasons import Ruling, Source


def find_family(families: FamilySet, family_id: str) -> InstalledFamily | None:
    """Return the family with this id, None where no plugin supplies it."""
    for installed in families.families:
        if installed.family.id == family_id:
            return installed
    return None


def suspects(found: FamilySet | BasisSet, wanted_id: str) -> tuple[PluginFault, ...]:
    """Return the plugin faults that may be why a family, or a design basis, is missing.

    Those whose entry point or package carries its id; if none does, all of them.
    """
    named = tuple(
        fault
        for fault in found.faults
        if wanted_id == fault.origin.plugin or wanted_id in fault.origin.package.split("-", 1)[1:]
    )
    return named or found.faults


def ask(families: FamilySet, family_id: str, rule: str, query: RuleQuery) -> Ruling | RuleFault:
    """Return a family's ruling, or what went wrong where there is none to be believed.

    Args:
        families: The families to plan with.
        family_id: The family asked.
        rule: One of `drylay.materials.model.QUESTIONS`; a trait that the family leaves out has its
            plain value.
        query: The board as it lies and what it is fixed to.
    """
    installed = find_family(families, family_id)
    if installed is None:
        return RuleFault(
            family=family_id,
            rule=rule,
            kind="not covered",
            wrong="no plugin supplies this family",
            plugins=suspects(families, family_id),
        )
    answer = _answer(installed.family, rule, query)
    if isinstance(answer, Ruling):
        return _on_the_grid(answer, rule)
    kind, wrong = answer
    return RuleFault(family=family_id, rule=rule, kind=kind, wrong=wrong, origin=installed.origin)


def _on_the_grid(ruling: Ruling, rule: str) -> Ruling:
    """Return a length in whole 1/320 mm: a most rounded down, any other limit rounded up."""
    if ruling.unit != "mm":
        return ruling
    finest = Decimal(repr(float(ruling.value or 0))) * PER_MM
    most = rule.endswith("most_mm") or rule.startswith("most_")
    rounding = ROUND_FLOOR if most else ROUND_CEILING
    return evolve(ruling, value=to_mm(int(finest.to_integral_value(rounding=rounding))))


def _answer(family: Family, rule: str, query: RuleQuery) -> Ruling | tuple[str, str]:
    """Return the ruling, or the kind of fault and its words."""
    if rule in TRAITS and rule not in family.rules:
        return _plain(family, rule)
    if rule not in QUESTIONS or rule not in family.rules:
        return "not covered", "the family has no such rule"
    try:
        with localcontext():  # what a plugin sets for its own decimals is not ours
            ruling = family.rules[rule](evolve(query))  # a copy: it stays as it was asked
        wrongs = "; ".join(ruling_wrongs(ruling, QUESTIONS[rule][0]))
    except NotCoveredError as error:
        return "not covered", str(error)
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # a plugin may raise what it likes: it spoils only itself
        return "failed", told(error)
    return ("bad answer", wrongs) if wrongs else ruling


def _plain(family: Family, rule: str) -> Ruling:
    """Return the ruling on a trait that a family leaves out: its plain value, said to be that."""
    return Ruling(
        value=PLAIN[rule],
        unit=QUESTIONS[rule][0],
        rule=f"{rule} at its plain value",
        source=Source(
            kind="assumption", title="a trait left out has its plain value", clause=family.id
        ),
    )


def asked_once(families: FamilySet) -> FamilySet:
    """Return the families with a memory: whoever asks the same again hears the same.

    For one design or audit, which asks much of the same twice; thrown away with it.
    """
    return evolve(
        families,
        families=tuple(
            evolve(each, family=evolve(each.family, rules=_remembering(each.family.rules)))
            for each in families.families
        ),
    )


def _remembering(rules: dict[str, Rule]) -> dict[str, Rule]:
    return {name: _memory(rule) for name, rule in rules.items()}


def _memory(rule: Rule) -> Rule:
    heard: dict[RuleQuery, Ruling | Exception] = {}

    def remembered(query: RuleQuery) -> Ruling:
        if query not in heard:
            heard[query] = _heard(rule, query)
        answer = heard[query]
        if isinstance(answer, Exception):
            raise answer
        return answer

    return remembered


def _heard(rule: Rule, query: RuleQuery) -> Ruling | Exception:
    try:
        return rule(evolve(query))
    except Exception as error:  # told by whoever asked, each time anew
        return error


def hear(rule: InstalledLocalRule, plan: Plan) -> tuple[Finding, ...] | PluginFault:
    """Return what a local rule finds in a plan, under its name; or what went wrong with it.

    It is shown a copy: what it does to that does nothing to the plan.
    """
    try:
        with localcontext():
            answer: object = rule.look(deepcopy(plan))
        found = tuple(answer) if type(answer) in (list, tuple) else answer  # type: ignore[arg-type]
        wrongs = "; ".join(findings_wrongs(found))
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # as above
        wrong = f"local rule {rule.name} failed: {told(error)}"
        return PluginFault(origin=rule.origin, kind="failed", wrong=wrong)
    if wrongs or not isinstance(found, tuple):
        wrong = f"local rule {rule.name} answered badly: {wrongs}"
        return PluginFault(origin=rule.origin, kind="bad answer", wrong=wrong)
    return tuple(_spoken(rule.name, finding) for finding in found)


def _spoken(name: str, finding: Finding) -> Finding:
    """Return a finding with its speaker's name before the code, so that it claims no other's."""
    measured, limit = (
        None if figure is None else float(figure) for figure in (finding.measured, finding.limit)
    )
    return evolve(finding, code=f"{name}/{finding.code}", measured=measured, limit=limit)


def make_paper(paper: InstalledPaper, plan: Plan) -> bytes | PluginFault:
    """Return the bytes of a plugin's paper, or what went wrong where it made none."""
    try:
        with localcontext():
            made: object = paper.make(plan)
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # as above
        wrong = f"{paper.name} failed: {told(error)}"
        return PluginFault(origin=paper.origin, kind="failed", wrong=wrong)
    if type(made) is bytes:
        return made
    wrong = f"{paper.name} answered {kind_of(made)}, wanted bytes"
    return PluginFault(origin=paper.origin, kind="bad answer", wrong=wrong)
