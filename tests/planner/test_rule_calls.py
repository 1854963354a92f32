"""How often a design asks its family: counted, and few."""

from collections import Counter
from collections.abc import Callable

from attrs import evolve

import drylay
from drylay.materials.model import Rule, RuleQuery
from drylay.plugins.guard import ask, asked_once
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Ruling
from liars import QUERY, family
from plan.made import ROOT

#: Issue 5 asks for no more of the example deck; room for rules to come.
MOST_CALLS = 200


def counting(families: FamilySet, calls: Counter[str]) -> FamilySet:
    """Return the families with every call of a rule counted."""

    def counted(name: str, rule: Rule) -> Rule:
        def call(query: RuleQuery) -> Ruling:
            calls[name] += 1
            return rule(query)

        return call

    return evolve(
        families,
        families=tuple(
            evolve(each, family=evolve(each.family, rules={
                name: counted(name, rule) for name, rule in each.family.rules.items()
            }))
            for each in families.families
        ),
    )  # fmt: skip


def test_the_example_deck_asks_its_family_at_most_two_hundred_times() -> None:
    calls: Counter[str] = Counter()
    brief = drylay.read_brief(ROOT / "docs/examples/garden.toml")
    stock = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
    families = counting(installed_families(), calls)
    plan = drylay.design(brief, stock=stock, families=families)
    assert plan.buildable
    assert 30 < sum(calls.values()) <= MOST_CALLS
    again = Counter(calls)
    drylay.design(brief, stock=stock, families=families)
    assert calls == again + again  # nothing is remembered from one design to the next


def test_a_deck_in_clips_over_pairs_asks_its_family_no_more_often() -> None:
    calls: Counter[str] = Counter()
    brief = drylay.read_brief(ROOT / "docs/examples/composite.toml")
    stock = drylay.load_catalogue(ROOT / "catalogs/sallowby.toml")
    families = counting(installed_families(), calls)
    plan = drylay.design(brief, stock=stock, families=families)
    assert plan.buildable
    assert 30 < sum(calls.values()) <= MOST_CALLS
    assert drylay.audit(plan, brief=brief, stock=stock, families=families).findings == ()


def asking(rule: Callable[[RuleQuery], Ruling]) -> tuple[FamilySet, Counter[str]]:
    calls: Counter[str] = Counter()
    handed = installed_families(entry_points=(), extra=[family("oak", end_gap_mm=rule)])
    return asked_once(counting(handed, calls)), calls


def test_the_same_question_is_asked_once_and_another_again() -> None:
    good = family("oak").rules["end_gap_mm"]
    families, calls = asking(good)
    first = ask(families, "oak", "end_gap_mm", QUERY)
    assert first == ask(families, "oak", "end_gap_mm", evolve(QUERY))
    assert calls["end_gap_mm"] == 1
    ask(families, "oak", "end_gap_mm", evolve(QUERY, use="public"))
    assert calls["end_gap_mm"] == 2


def test_a_refusal_is_remembered_too() -> None:
    def refuse(_: RuleQuery) -> Ruling:
        raise NotCoveredError("no oak today")

    families, calls = asking(refuse)
    faults = [ask(families, "oak", "end_gap_mm", QUERY) for _ in range(3)]
    assert calls["end_gap_mm"] == 1
    assert {str(fault) for fault in faults} == {"oak end_gap_mm: not covered: no oak today"}
    assert all(isinstance(fault, RuleFault) for fault in faults)
