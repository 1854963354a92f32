"""Families that lie, each caught by the law it breaks; and a good one that breaks none."""

import math
from collections.abc import Callable, Iterator

import pytest
from attrs import evolve

from drylay.materials.model import RULES, Family, Rule, RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.reasons import Ruling, Scalar, Source
from drylay.testing import BOARDS, FAMILY_LAWS, FamilyContract, check_family
from drylay_softwood.family import softwood

WHOLE = softwood()
#: The rules that the liars lie about: asking all of them all takes time.
SOME = (
    "most_centres_mm gap_least_mm gap_preferred_mm gap_most_mm end_gap_mm may_rip sliver_mm "
    "screws_per_crossing screw_end_least_mm metal_allowed"
).split()
REST = frozenset(RULES) - set(SOME)
GOOD = evolve(WHOLE, rules={name: WHOLE.rules[name] for name in SOME})
FEW = BOARDS[::4]
Change = Callable[[Ruling, RuleQuery], object]


def lying(rule: str, change: Change) -> Family:
    """Return softwood with one rule that answers otherwise."""
    honest = GOOD.rules[rule]

    def lie(query: RuleQuery) -> Ruling:
        return change(honest(query), query)  # type: ignore[return-value]

    return evolve(GOOD, rules={**GOOD.rules, rule: lie})


def valued(rule: str, value: Scalar) -> Family:
    return lying(rule, lambda ruling, _: evolve(ruling, value=value))


def raising(rule: str, error: BaseException) -> Family:
    def lie(_: RuleQuery) -> Ruling:
        raise error

    return evolve(GOOD, rules={**GOOD.rules, rule: lie})


def changing() -> Family:
    """Return a family that answers a little less each time."""
    heard: list[RuleQuery] = []

    def lie(ruling: Ruling, query: RuleQuery) -> Ruling:
        heard.append(query)
        return evolve(ruling, value=18.0 + 1 / len(heard))

    return lying("screw_end_least_mm", lie)


def by_order() -> Family:
    """Return a family whose answer hangs on what it was asked before."""
    last: list[float] = [0.0]

    def lie(ruling: Ruling, query: RuleQuery) -> Ruling:
        before, last[0] = last[0], query.board_thickness_mm
        return evolve(ruling, value=15.0 if before < query.board_thickness_mm else 16.0)

    return lying("screw_end_least_mm", lie)


def meddling() -> Family:
    def lie(ruling: Ruling, query: RuleQuery) -> Ruling:
        object.__setattr__(query, "board_width_mm", 1.0)
        return ruling

    return lying("end_gap_mm", lie)


def talking() -> Family:
    def lie(ruling: Ruling, _: RuleQuery) -> Ruling:
        print("hello")  # noqa: T201
        return ruling

    return lying("end_gap_mm", lie)


def sly() -> Iterator[float]:
    yield 4.0


def thin_is_strong(ruling: Ruling, query: RuleQuery) -> Ruling:
    return evolve(ruling, value=900.0 - 10 * query.board_thickness_mm)


def turned_is_strong(ruling: Ruling, query: RuleQuery) -> Ruling:
    return evolve(ruling, value=400.0 if query.board_to_joist_deg >= 90 else 500.0)


def public_is_strong(ruling: Ruling, query: RuleQuery) -> Ruling:
    return evolve(ruling, value=700.0) if query.use == "public" else ruling


def only_inland(ruling: Ruling, query: RuleQuery) -> Ruling:
    return evolve(ruling, value=0) if query.exposure == "pool" else ruling


def only_boards(ruling: Ruling, query: RuleQuery) -> Ruling:
    return evolve(ruling, value=0) if query.driven_into == "frame" else ruling


def without(*rules: str) -> Family:
    return evolve(GOOD, rules={name: r for name, r in GOOD.rules.items() if name not in rules})


def source_of(source: object) -> Change:
    return lambda ruling, _: evolve(ruling, source=source)


GAP = "gap_most_mm"


class Rude(str):
    __slots__ = ()

    def __repr__(self) -> str:
        raise RuntimeError("do not look")


LIARS: dict[str, tuple[str, Family]] = {
    "an id that cannot be told": ("shape", evolve(GOOD, id=Rude("OAK"))),
    "an id in capitals": ("shape", evolve(GOOD, id="Softwood")),
    "a rule nobody knows": ("shape", evolve(GOOD, rules={**GOOD.rules, "most_centers_mm": sly})),  # type: ignore[dict-item]
    "a rule that is a number": ("shape", evolve(GOOD, rules={**GOOD.rules, GAP: 8.0})),  # type: ignore[dict-item]
    "a rule that fails": ("raises", raising("end_gap_mm", ZeroDivisionError("by nothing"))),
    "a rule that exits": ("raises", raising("end_gap_mm", SystemExit(2))),
    "a key that is missing": ("raises", raising("end_gap_mm", KeyError("oak"))),
    "a bare number": ("answer", lying("end_gap_mm", lambda *_: 4.0)),
    "nothing": ("answer", lying("end_gap_mm", lambda *_: None)),
    "a nameless rule": ("answer", lying("end_gap_mm", lambda r, _: evolve(r, rule=" "))),
    "inputs in a list": ("answer", lying("end_gap_mm", lambda r, _: evolve(r, inputs=[("a", 1)]))),
    "no source": ("source", lying("end_gap_mm", source_of(None))),
    "hearsay": ("source", lying("end_gap_mm", source_of(Source(kind="hearsay", title="a friend")))),
    "in the brief's name": ("source", lying(GAP, source_of(Source(kind="brief", title="brief")))),
    "inches": ("unit", lying("end_gap_mm", lambda r, _: evolve(r, unit="in"))),
    "nan": ("finite", valued("end_gap_mm", math.nan)),
    "no end": ("finite", valued("most_centres_mm", math.inf)),
    "yes": ("finite", valued("may_rip", True)),
    "text": ("finite", valued("end_gap_mm", "4")),
    "metres for mm": ("bounds", valued("most_centres_mm", 0.4)),
    "a gap to fall through": ("bounds", valued(GAP, 80.0)),
    "half a screw": ("whole", valued("screws_per_crossing", 1.5)),
    "gaps the wrong way round": ("gaps", valued("gap_preferred_mm", 9.0)),
    "thin boards stronger": ("centres by thickness", lying("most_centres_mm", thin_is_strong)),
    "turned boards stronger": ("centres by angle", lying("most_centres_mm", turned_is_strong)),
    "public decks stronger": ("centres by use", lying("most_centres_mm", public_is_strong)),
    "another answer each time": ("same answer", changing()),
    "an answer by what came before": ("same answer", by_order()),
    "a question changed": ("question", meddling()),
    "talk": ("quiet", talking()),
    "a rule forgotten": ("covered", without("sliver_mm")),
    "a rule that covers no board": ("covered", raising("sliver_mm", NotCoveredError("none"))),
    "no metal in the frame": ("metals", lying("metal_allowed", only_boards)),
    "no metal at a pool": ("metals", lying("metal_allowed", only_inland)),
}  # fmt: skip


def laws(family: Family) -> set[str]:
    return {broken.law for broken in check_family(family, boards=FEW, not_covered=REST)}


@pytest.mark.parametrize("liar", LIARS)
def test_a_lying_family_is_caught_by_the_law_it_breaks(liar: str) -> None:
    law, family = LIARS[liar]
    assert law in laws(family)


@pytest.mark.parametrize("liar", sorted(LIARS.keys() - {"no end", "nan", "yes", "text"}))
def test_a_lie_breaks_its_own_law_and_no_other(liar: str) -> None:
    law, family = LIARS[liar]
    assert laws(family) - {"round trip"} == {law}  # what is no ruling is lost in JSON too


def test_every_law_has_its_liar() -> None:
    untold = set(FAMILY_LAWS) - {law for law, _ in LIARS.values()}
    assert untold == {"lives", "round trip"}  # below


def years(value: float) -> Rule:
    source = Source(kind="from memory", title="a book")
    return lambda _: Ruling(value=value, unit="years", rule="life", source=source)


def test_a_life_longer_than_the_longest() -> None:
    lives = {"life_least_years": years(30), "life_most_years": years(15)}
    assert laws(evolve(GOOD, rules={**GOOD.rules, **lives})) == {"lives"}


def test_a_number_that_json_turns_into_another() -> None:
    """A whole number that is in truth a float would come back as one: 3 is 3.0, so none is lost.

    What JSON cannot hold at all is left over: a clause that is half of a pair of surrogates.
    """
    lie = lying("end_gap_mm", lambda r, _: evolve(r, inputs=(("depth", b"4"),)))  # type: ignore[arg-type]
    assert laws(lie) == {"answer", "round trip"}


def test_the_good_family_breaks_no_law() -> None:
    assert check_family(WHOLE, boards=FEW) == ()
    assert laws(GOOD) == set()


def test_a_slip_is_told_once_for_a_rule_with_board_and_figures() -> None:
    (broken,) = check_family(valued(GAP, 80.0), boards=FEW, not_covered=REST)
    assert str(broken) == (
        "bounds: gap_most_mm, 90 x 20 board: found 80, and 0 to 20 makes sense, "
        "wanted a figure that somebody builds to"
    )


def test_what_is_meant_to_be_left_out_is_said() -> None:
    family = without("sliver_mm", "may_rip")
    assert check_family(family, boards=FEW, not_covered=REST | {"sliver_mm", "may_rip"}) == ()
    told = check_family(GOOD, boards=FEW, not_covered=REST | {"sliver_mm", "colour"})
    assert [(each.subject, each.found) for each in told] == [
        ("sliver_mm", "an answer"),
        ("colour", "no such rule"),
    ]
    no_metals = without("metal_allowed")
    assert check_family(no_metals, boards=FEW, not_covered=REST | {"metal_allowed"}) == ()


def test_boards_that_no_rule_covers_leave_it_without_an_answer() -> None:
    thin = tuple(evolve(board, board_thickness_mm=12.0) for board in FEW)
    (broken,) = check_family(GOOD, boards=thin, not_covered=REST)
    assert (broken.law, broken.subject) == ("covered", "most_centres_mm")


def test_the_keyboard_still_interrupts() -> None:
    with pytest.raises(KeyboardInterrupt):
        check_family(raising("end_gap_mm", KeyboardInterrupt()), boards=FEW)


# ----- as pytest runs it ---------------------------------------------------------------


class Liar(FamilyContract):
    family = valued(GAP, 80.0)
    boards = FEW
    not_covered = REST


def test_the_class_has_a_test_for_each_law_and_the_right_one_fails() -> None:
    names = {f"test_{law.replace(' ', '_')}" for law in FAMILY_LAWS}
    assert names == {name for name in dir(FamilyContract) if name.startswith("test_")}
    failing = set()
    for name in names:
        try:
            getattr(Liar(), name)()
        except AssertionError as error:
            failing.add((name, str(error).split(":")[0]))
    assert failing == {("test_bounds", "bounds")}
    assert "_broken" not in vars(FamilyContract)


def test_a_family_that_no_plugin_supplies_is_named() -> None:
    class Missing(FamilyContract):
        family = "bogoak"

    with pytest.raises(AssertionError, match="supplies the family 'bogoak'"):
        Missing.broken_laws()
