"""What a rule answers is looked at before a plan stands on it."""

import math
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

import pytest
from attrs import evolve

from drylay.materials.model import RULES, RuleQuery
from drylay.plugins.guard import ask, find_family, suspects
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.loading import installed_families
from drylay.plugins.model import RULE_FAULTS, FamilySet, RuleFault
from drylay.reasons import Ruling, Source
from liars import PRACTICE, QUERY, Unsayable, entry, entry_raising, family, ruling

GOOD = ruling("end_gap_mm", 4.0)


class SlyRuling(Ruling):
    """An answer that could change after it was looked at."""


def raiser(error: BaseException) -> Callable[[RuleQuery], Ruling]:
    def rule(_: RuleQuery) -> Ruling:
        raise error

    return rule


def endless(query: RuleQuery) -> Ruling:
    return endless(query)


def with_rule(rule: object, name: str = "end_gap_mm") -> FamilySet:
    return installed_families(entry_points=(), extra=[family("oak", **{name: rule})])


def fault_of(rule: object, name: str = "end_gap_mm") -> RuleFault:
    answer = ask(with_rule(rule, name), "oak", name, QUERY)
    assert isinstance(answer, RuleFault), answer
    assert (answer.family, answer.rule) == ("oak", name)
    assert answer.origin is not None
    assert answer.kind in RULE_FAULTS
    return answer


def test_a_good_ruling_comes_through_unchanged() -> None:
    assert ask(with_rule(lambda _: GOOD), "oak", "end_gap_mm", QUERY) == GOOD


@pytest.mark.parametrize(
    ("rule", "value", "held"),
    [
        # 1/320 mm is 0.003125: a most is rounded down to it, a least up, so neither is loosened
        ("most_centres_mm", 400.001, 400.0),
        ("gap_most_mm", 7.999, 7.996875),
        ("end_bearing_least_mm", 20.001, 20.003125),
        ("sliver_mm", 69.6515625, 69.653125),
        ("end_gap_mm", 3.0, 3.0),
    ],
)
def test_a_length_is_held_in_whole_ticks_never_looser(rule: str, value: float, held: float) -> None:
    families = with_rule(lambda _: evolve(GOOD, value=value), rule)
    answer = ask(families, "oak", rule, QUERY)
    assert isinstance(answer, Ruling)
    assert answer.value == held


def test_the_rule_is_asked_about_the_board_as_it_lies() -> None:
    heard: list[RuleQuery] = []

    def rule(query: RuleQuery) -> Ruling:
        heard.append(query)
        return GOOD

    ask(with_rule(rule), "oak", "end_gap_mm", QUERY)
    assert heard == [QUERY]


@pytest.mark.parametrize(
    ("error", "says"),
    [
        (ValueError("bad\n  day"), "ValueError: bad day"),
        (SystemExit(2), "SystemExit: 2"),
        (GeneratorExit("gone"), "GeneratorExit: gone"),
        (KeyError("thickness"), "KeyError: 'thickness'"),
        (Unsayable(), "Unsayable: (its message cannot be read)"),
        (AssertionError(), "AssertionError"),
    ],
)
def test_a_rule_that_raises_or_exits(error: BaseException, says: str) -> None:
    fault = fault_of(raiser(error))
    assert (fault.kind, fault.wrong) == ("failed", says)


def test_a_rule_that_never_ends() -> None:
    assert "RecursionError" in fault_of(endless).wrong
    assert sys.getrecursionlimit() < 100_000


def test_a_rule_that_does_not_cover_the_board_says_so() -> None:
    fault = fault_of(raiser(NotCoveredError("boards under 19 mm")))
    assert (fault.kind, fault.wrong) == ("not covered", "boards under 19 mm")
    assert str(fault) == "oak end_gap_mm: not covered: boards under 19 mm"


def test_the_keyboard_still_interrupts() -> None:
    with pytest.raises(KeyboardInterrupt):
        ask(with_rule(raiser(KeyboardInterrupt())), "oak", "end_gap_mm", QUERY)


LIES = {
    "None": (None, "found NoneType, wanted Ruling"),
    "bare number": (4.0, "found float, wanted Ruling"),
    "subclass": (
        SlyRuling(value=4.0, unit="mm", rule="r", source=PRACTICE),
        "found SlyRuling, wanted Ruling",
    ),
    "nan": (evolve(GOOD, value=math.nan), "value nan is not finite"),
    "inf": (evolve(GOOD, value=math.inf), "value inf is not finite"),
    "minus inf": (evolve(GOOD, value=-math.inf), "value -inf is not finite"),
    "huge": (evolve(GOOD, value=10**400), "is not finite"),
    "negative": (evolve(GOOD, value=-1.0), "value -1.0 cannot be a mm here"),
    "text number": (evolve(GOOD, value="4.0"), "value is str, wanted int or float"),
    "yes": (evolve(GOOD, value=True), "value is bool, wanted int or float"),
    "wrong unit": (evolve(GOOD, unit="in"), "unit 'in', wanted 'mm'"),
    "no unit": (evolve(GOOD, unit=""), "unit '', wanted 'mm'"),
    "no source": (evolve(GOOD, source=None), "source is NoneType, wanted Source"),
    "source text": (evolve(GOOD, source="a book"), "source is str, wanted Source"),
    "source kind": (
        evolve(GOOD, source=Source(kind="hearsay", title="a friend")),
        "source kind 'hearsay' is none of standard,",
    ),
    "no title": (
        evolve(GOOD, source=Source(kind="standard", title=" ")),
        "the source has no title",
    ),
    "clause": (
        evolve(GOOD, source=Source(kind="standard", title="a book", clause=7)),  # type: ignore[arg-type]
        "source clause is int, wanted text on one line",
    ),
    "nameless rule": (evolve(GOOD, rule=""), "the rule does not say its name"),
    "inputs list": (evolve(GOOD, inputs=[("a", 1.0)]), "inputs, wanted a tuple of pairs"),
    "inputs names": (evolve(GOOD, inputs=(("", 1.0),)), "inputs, wanted a tuple of pairs"),
    "inputs pairs": (evolve(GOOD, inputs=(("a", 1.0, 2.0),)), "inputs, wanted a tuple of pairs"),
    "inputs flat": (evolve(GOOD, inputs=("ab",)), "inputs, wanted a tuple of pairs"),
    "inputs nan": (evolve(GOOD, inputs=(("a", math.nan),)), "inputs, wanted a tuple of pairs"),
}


@pytest.mark.parametrize("lie", LIES)
def test_a_lie_is_named(lie: str) -> None:
    answer, says = LIES[lie]
    fault = fault_of(lambda _: answer)
    assert fault.kind == "bad answer"
    assert says in fault.wrong


@pytest.mark.parametrize(
    ("rule", "value"),
    [
        ("least_supports", 2.5),
        ("least_supports", -1),
        ("may_rip", 2),
        ("may_rip", 0.5),
        ("spare_ratio", 1.5),
        ("spare_ratio", -0.1),
    ],
)
def test_a_value_that_its_unit_cannot_have(rule: str, value: float) -> None:
    assert "cannot be a" in fault_of(lambda _: ruling(rule, value), rule).wrong


@pytest.mark.parametrize(
    ("rule", "value"),
    [("least_supports", 3), ("least_supports", 3.0), ("may_rip", 0), ("spare_ratio", 0.0)],
)
def test_a_value_that_its_unit_can_have(rule: str, value: float) -> None:
    told = ruling(rule, value)
    assert ask(with_rule(lambda _: told, rule), "oak", rule, QUERY) == told


def test_inputs_of_every_kind_pass() -> None:
    told = evolve(GOOD, inputs=(("use", "public"), ("rows", 3), ("width_mm", 145.0)))
    assert ask(with_rule(lambda _: told), "oak", "end_gap_mm", QUERY) == told


# ----- what is missing -----------------------------------------------------------------


def test_a_rule_left_out_is_not_covered() -> None:
    answer = ask(with_rule(lambda _: GOOD), "oak", "sliver_mm", QUERY)
    assert isinstance(answer, RuleFault)
    assert (answer.kind, answer.wrong) == ("not covered", "the family has no such rule")


def test_a_rule_that_is_none() -> None:
    answer = ask(with_rule(lambda _: GOOD), "oak", "colour", QUERY)
    assert isinstance(answer, RuleFault)
    assert answer.kind == "not covered"


def test_no_family_steps_in_for_another() -> None:
    answer = ask(with_rule(lambda _: GOOD), "ash", "end_gap_mm", QUERY)
    assert isinstance(answer, RuleFault)
    assert answer.wrong == "no plugin supplies this family"
    assert answer.plugins == ()
    assert answer.origin is None


def test_the_plugin_that_should_have_supplied_the_family_is_named() -> None:
    lost = entry_raising("oak", ImportError("no oak_rules"))
    other = entry_raising("other", ImportError("no other"))
    families = installed_families(entry_points=[other, lost])
    answer = ask(families, "oak", "end_gap_mm", QUERY)
    assert isinstance(answer, RuleFault)
    assert [fault.origin.plugin for fault in answer.plugins] == ["oak"]
    assert str(answer) == (
        "oak end_gap_mm: not covered: no plugin supplies this family; "
        "plugin oak: import failed: ImportError: no oak_rules"
    )


def test_a_package_named_for_the_family_is_suspected_too() -> None:
    lost = entry("rules", object(), "drylay-oak")
    families = installed_families(entry_points=[entry_raising("x", ImportError()), lost])
    assert [fault.origin.plugin for fault in suspects(families, "oak")] == ["rules"]


def test_where_no_failed_plugin_has_the_name_all_are_suspected() -> None:
    families = installed_families(entry_points=[entry_raising("x", ImportError("no x"))])
    assert suspects(families, "oak") == families.faults


# ----- the real family, and many at once -----------------------------------------------


def test_softwood_answers_every_rule() -> None:
    families = installed_families()
    assert find_family(families, "softwood") is not None
    for rule in RULES:
        assert isinstance(
            ask(families, "softwood", rule, evolve(QUERY, metal="stainless A2")), Ruling
        )


def test_threads_do_not_disturb_each_other() -> None:
    families = installed_families()
    queries = [evolve(QUERY, board_width_mm=60.0 + n) for n in range(60)]

    def sliver(query: RuleQuery) -> Ruling | RuleFault:
        return ask(families, "softwood", "sliver_mm", query)

    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(sliver, queries)) == [sliver(query) for query in queries]
