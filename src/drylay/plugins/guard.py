"""Every call of a plugin's rules and papers: a plugin's fault stays a plugin's fault."""

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from attrs import evolve

from drylay.marks import PER_MM, to_mm
from drylay.materials.model import PLAIN, QUESTIONS, TRAITS, Family, RuleQuery
from drylay.plan.model import Plan
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.model import (
    FamilySet,
    InstalledFamily,
    InstalledPaper,
    PluginFault,
    RuleFault,
)
from drylay.plugins.shapes import kind_of, ruling_wrongs, told
from drylay.reasons import Ruling, Source


def find_family(families: FamilySet, family_id: str) -> InstalledFamily | None:
    """Return the family with this id, None where no plugin supplies it."""
    for installed in families.families:
        if installed.family.id == family_id:
            return installed
    return None


def suspects(families: FamilySet, family_id: str) -> tuple[PluginFault, ...]:
    """Return the plugin faults that may be why a family is missing.

    Those whose entry point or package carries the family's name; if none does, all of them.
    """
    named = tuple(
        fault
        for fault in families.faults
        if family_id == fault.origin.plugin or family_id in fault.origin.package.split("-", 1)[1:]
    )
    return named or families.faults


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
        ruling = family.rules[rule](query)
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


def make_paper(paper: InstalledPaper, plan: Plan) -> bytes | PluginFault:
    """Return the bytes of a plugin's paper, or what went wrong where it made none."""
    try:
        made: object = paper.make(plan)
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # as above
        wrong = f"{paper.name} failed: {told(error)}"
    else:
        if type(made) is bytes:
            return made
        wrong = f"{paper.name} answered {kind_of(made)}, wanted bytes"
    return PluginFault(origin=paper.origin, wrong=wrong)
