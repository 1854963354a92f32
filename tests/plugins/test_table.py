"""A family's table: which entry holds, what is reckoned with it, and every fault of a file."""

import math
import pickle
from collections.abc import Callable
from pathlib import Path

import pytest
from attrs import asdict, evolve, fields
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import FamilyError
from drylay.materials.model import RULES, Family, RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.table import CodedRule, family_of
from drylay.plugins.table_keys import conditions
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_reader import read_family_table
from drylay.plugins.table_rules import number_for
from drylay.reasons import Ruling, Source
from liars import PRACTICE, QUERY, family, ruling

BOOK = {"kind": "handbook", "title": "a book", "clause": "table 1"}


def table(*rules: dict[str, object], **more: object) -> FamilyTable:
    head = {"id": "larch", "title": "larch", "source": BOOK}
    return read_family_table({"family": head, "rules": list(rules), **more})


def answer(rule: str, *rules: dict[str, object], **changes: object) -> Ruling:
    told = [{"rule": rule, **each} for each in rules]
    return family_of(table(*told)).rules[rule](evolve(QUERY, **changes))


def value(rule: str, *rules: dict[str, object], **changes: object) -> object:
    return answer(rule, *rules, **changes).value


# ----- which entry holds ---------------------------------------------------------------

THICKNESSES = ({"value": 400, "thickness_from_mm": 20}, {"value": 500, "thickness_from_mm": 32})


@pytest.mark.parametrize(
    ("thick_mm", "centres_mm"), [(20.0, 400), (31.9, 400), (32.0, 500), (90.0, 500)]
)
def test_between_two_numbers_the_one_that_begins_below_holds(
    thick_mm: float, centres_mm: float
) -> None:
    for entries in (THICKNESSES, THICKNESSES[::-1]):
        found = value("most_centres_mm", *entries, board_thickness_mm=thick_mm)
        assert found == centres_mm


@given(st.floats(1, 200), st.floats(1, 200))
def test_what_begins_from_a_thickness_never_falls_with_it_here(one: float, other: float) -> None:
    thin, thick = sorted((max(one, 20.0), max(other, 20.0)))
    first = value("most_centres_mm", *THICKNESSES, board_thickness_mm=thin)
    second = value("most_centres_mm", *THICKNESSES, board_thickness_mm=thick)
    assert isinstance(first, float)
    assert isinstance(second, float)
    assert first <= second


@pytest.mark.parametrize("thick_mm", [19.9, math.nan, -1.0])
def test_below_the_table_nothing_is_covered(thick_mm: float) -> None:
    with pytest.raises(NotCoveredError, match="mm thick; the table has no such entry"):
        answer("most_centres_mm", *THICKNESSES, board_thickness_mm=thick_mm)


def test_of_two_widths_the_nearest_above_holds_and_both_ends_count() -> None:
    widths = ({"value": 4, "width_to_mm": 120}, {"value": 5, "width_to_mm": 150})
    told = [value("end_gap_mm", *widths, board_width_mm=w) for w in (90.0, 120.0, 120.1, 150.0)]
    assert told == [4, 4, 5, 5]
    with pytest.raises(NotCoveredError, match=r"a board 150\.1 mm wide"):
        answer("end_gap_mm", *widths, board_width_mm=150.1)


def test_a_word_outranks_every_length() -> None:
    entries = (*THICKNESSES, {"value": 300, "thickness_from_mm": 20, "use": "public"})
    assert value("most_centres_mm", *entries, board_thickness_mm=40.0, use="public") == 300
    assert value("most_centres_mm", *entries, board_thickness_mm=40.0) == 500


def test_words_in_a_list_and_all_others() -> None:
    metals = (
        {"value": 1, "metal": ["stainless A4"], "exposure": ["coast", "pool"]},
        {"value": 0, "exposure": ["coast", "pool"]},
        {"value": 1, "metal": ["stainless A2", "stainless A4"], "exposure": "inland"},
    )
    for metal, exposure, allowed in [
        ("stainless A4", "pool", 1),
        ("stainless A2", "coast", 0),
        ("stainless A2", "inland", 1),
    ]:
        assert value("metal_allowed", *metals, metal=metal, exposure=exposure) == allowed
    with pytest.raises(NotCoveredError, match="fixings of 'aluminium'"):
        answer("metal_allowed", *metals, metal="aluminium")
    both = ({"value": 1, "metal": "aluminium", "exposure": "pool"}, *metals[2:])
    with pytest.raises(NotCoveredError, match="fixings of 'aluminium', exposure 'inland'"):
        answer("metal_allowed", *both, metal="aluminium")


def test_a_species_holds_where_the_word_is_in_it() -> None:
    woods = ({"value": 0, "species": ["oak", "larch"]}, {"value": 1})
    told = [
        value("may_rip", *woods, species=s)
        for s in ("White Oak", "larch, Siberian", "soaked ipe", "")
    ]
    assert told == [0, 0, 1, 1]


def test_what_is_not_told_is_not_covered_and_what_is_may_be_reckoned_with() -> None:
    clip = {"value": 1, "times": "clip_gap_mm", "clip_gap_from_mm": 3, "clip_gap_to_mm": 6}
    assert value("gap_most_mm", clip, clip_gap_mm=5.0) == 5
    with pytest.raises(NotCoveredError, match="gap fixed by clips, of which none is named"):
        answer("gap_most_mm", clip)


def test_inputs_are_numbers_and_words_whatever_was_asked() -> None:
    entries = ({"value": 0, "turnable": [True]}, {"value": 1, "laying_from_c": 5}, {"value": 1})
    told = answer("handed", *entries, turnable=True)
    assert told.inputs == (("laying_c", "not told"), ("turnable", "true"))


def test_every_part_of_a_question_can_be_a_condition() -> None:
    told = {condition.part for condition in conditions()}
    assert told == {field.name for field in fields(RuleQuery)}
    names = {condition.key.name for condition in conditions()}
    assert {"thickness_from_mm", "width_to_mm", "angle_from_deg", "use", "metal"} <= names
    assert {"laying_from_c", "growth_from_per_k", "wettest_to_pct"} <= names


# ----- what is reckoned ----------------------------------------------------------------

SCREW = {"value": 2.5, "times": "board_thickness_mm"}
SLIVER = {"value": 0.5, "times": "board_width_mm", "at_least": 60}
COACH = {"value": 60, "plus": "joist_thickness_mm", "minus": "head_sunk_mm"}


@pytest.mark.parametrize(
    ("rule", "entry", "changes", "expected", "by_hand"),
    [
        ("screw_length_least_mm", SCREW, {}, 70, "2.5 x 28"),
        ("sliver_mm", SLIVER, {}, 72.5, "145 / 2"),
        (
            "sliver_mm",
            SLIVER,
            {"board_width_mm": 90.0},
            60,
            "45 is less than 60",
        ),
        ("most_centres_mm", {"value": 400, "sine": True}, {}, 400, "square: sin 90 is 1"),
        (
            "most_centres_mm",
            {"value": 400, "sine": True},
            {"board_to_joist_deg": 45.0},
            282.8,
            "400 x 0.70711 = 282.84, down",
        ),
        (
            "most_centres_mm",
            {"value": 400, "sine": True},
            {"board_to_joist_deg": 30.0},
            200,
            "400 x 0.5 exactly",
        ),
        ("coach_screw_length_least_mm", COACH, {"head_sunk_mm": 12.0}, 93, "45 - 12 + 60"),
        ("coach_screw_length_least_mm", COACH, {}, 105, "45 + 60"),
    ],
)  # fmt: skip
def test_what_is_reckoned(
    rule: str, entry: dict[str, object], changes: dict[str, object], expected: float, by_hand: str
) -> None:
    assert value(rule, entry, **changes) == expected, by_hand


def test_what_nobody_told_is_not_reckoned_with() -> None:
    entry = {"value": 2, "times": "laying_pct"}
    assert value("end_gap_mm", entry, laying_pct=3.0) == 6
    with pytest.raises(NotCoveredError, match="laying_pct, which nobody told"):
        answer("end_gap_mm", entry)


@pytest.mark.parametrize("sunk_mm", [45.0, 60.0, -1.0, math.nan])
def test_where_nothing_is_left_nothing_is_covered(sunk_mm: float) -> None:
    with pytest.raises(NotCoveredError, match="head_sunk_mm"):
        answer("coach_screw_length_least_mm", COACH, head_sunk_mm=sunk_mm)


def test_a_ruling_says_unit_source_and_what_it_hangs_on() -> None:
    own = Source(kind="standard", title="a code", clause="7")
    entry = {"value": 2, "times": "board_thickness_mm", "thickness_to_mm": 40,
             "says": "twice the board", "source": asdict(own)}  # fmt: skip
    told = answer("screw_length_least_mm", entry)
    assert told == Ruling(
        value=56.0,
        unit="mm",
        rule="twice the board",
        source=own,
        inputs=(("board_thickness_mm", 28.0), ("table_value", 2.0)),
    )


def test_an_entry_without_words_of_its_own_has_those_of_the_rule_and_of_the_family() -> None:
    told = answer("least_supports", {"value": 3, "clause": "page 4"})
    assert told.rule == RULES["least_supports"][1]
    assert told.source == Source(kind="handbook", title="a book", clause="page 4")
    assert answer("least_supports", {"value": 3}).source.clause == "table 1"
    assert type(told.value) is int


# ----- code, numbers, a base -----------------------------------------------------------


def twice_the_margin(of: FamilyTable, query: RuleQuery) -> Ruling:
    margin = number_for(of, "margin_mm", query)
    return evolve(ruling("end_gap_mm", 2 * margin.value), source=margin.source)


def test_code_finds_its_numbers_in_the_table() -> None:
    numbers = [
        {"name": "margin_mm", "value": 2, "thickness_to_mm": 30},
        {"name": "margin_mm", "value": 3, "thickness_from_mm": 31},
    ]
    coded: dict[str, CodedRule] = {"end_gap_mm": twice_the_margin}
    made = family_of(table(numbers=numbers), coded=coded)
    assert made.rules["end_gap_mm"](QUERY).value == 4
    assert made.rules["end_gap_mm"](evolve(QUERY, board_thickness_mm=40.0)).value == 6
    with pytest.raises(NotCoveredError, match="no such number"):
        number_for(table(), "margin_mm", QUERY)


def test_a_rule_with_an_entry_and_code_is_refused() -> None:
    told = table({"rule": "end_gap_mm", "value": 4})
    with pytest.raises(FamilyError, match="end_gap_mm: found an entry in the table and code"):
        family_of(told, coded={"end_gap_mm": twice_the_margin})


def test_a_base_answers_what_is_left_out_and_says_that_it_is_the_base() -> None:
    base = family(
        "oak",
        end_gap_mm=lambda _: ruling("end_gap_mm", 3.0),
        may_rip=lambda _: ruling("may_rip", 0),
    )
    told = table({"rule": "end_gap_mm", "value": 5, "thickness_from_mm": 30})
    made = family_of(told, base=evolve(base, cautions=("mind the oak",)))
    assert made.cautions == ("mind the oak",)
    borrowed = made.rules["may_rip"](QUERY)
    assert borrowed.rule == "as oak of a test: may_rip of a test"
    assert borrowed.source == PRACTICE
    with pytest.raises(NotCoveredError):  # what the table speaks of is the table's alone
        made.rules["end_gap_mm"](QUERY)
    assert set(family_of(told, base=base, borrow=()).rules) == {"end_gap_mm"}


def test_a_family_out_of_a_table_can_be_sent_to_another_process() -> None:
    made = family_of(table({"rule": "end_gap_mm", "value": 5}))
    sent: Family = pickle.loads(pickle.dumps(made))
    assert sent.rules["end_gap_mm"](QUERY) == made.rules["end_gap_mm"](QUERY)


# ----- every fault of a file -----------------------------------------------------------

HEAD = '[family]\nid = "larch"\ntitle = "larch"\nsource = { kind = "handbook", title = "a book" }\n'
ENTRY = '[[rules]]\nrule = "end_gap_mm"\n'
Faults = Callable[[str], list[str]]


@pytest.fixture
def faults(tmp_path: Path) -> Faults:
    def told(text: str) -> list[str]:
        path = tmp_path / "larch.toml"
        path.write_text(text, encoding="utf-8")
        with pytest.raises(FamilyError) as caught:
            read_family_table(path)
        return [str(fault).removeprefix(f"{path}:") for fault in caught.value.faults]

    return told


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[family", "1:8: file: found TOML that does not parse"),
        ("", "1:1: family: found nothing, wanted a section [family]"),
        (HEAD.replace('id = "larch"\n', ""), "1:1: family.id: found nothing"),
        (HEAD.replace('"larch"', '"Larch!"', 1), '2:6: family.id: found "Larch!"'),
        (HEAD + 'cautions = "mind"\n', '5:12: family.cautions: found "mind", wanted a list'),
        (HEAD + "cautions = [3]\n", "5:13: family.cautions[0]: found 3, wanted one line of text"),
        (HEAD + ENTRY, "5:1: rules[0].value: found nothing, wanted a value"),
        (HEAD + "[[rules]]\nvalue = 3\n", "5:1: rules[0].rule: found nothing"),
        (HEAD + '[[rules]]\nrule = "end_gap"\nvalue = 3\n', 'nearest fix: rule = "end_gap_mm"'),
        (HEAD + ENTRY + "value = 30\n", "7:9: rules[0].value: found 30, wanted 0 to 20 mm"),
        (HEAD + ENTRY + "value = 30\nsine = true\n", "7:9: rules[0].value: found 30, wanted 0 to"),
        (HEAD + ENTRY + "value = nan\n", "7:9: rules[0].value: found nan"),
        (HEAD + ENTRY + 'value = "3"\n', '7:9: rules[0].value: found "3"'),
        (HEAD + ENTRY + "value = 3\ntick_from_mm = 3\n", "8:1: rules[0].tick_from_mm: found an un"),
        (HEAD + ENTRY + 'value = 3\nuse = "home"\n', '8:7: rules[0].use: found "home", wanted one'),
        (HEAD + ENTRY + "value = 3\nuse = []\n", "8:7: rules[0].use: found an empty list"),
        (HEAD + ENTRY + "value = 3\nuse = [3]\n", "8:7: rules[0].use: found 3, wanted one of"),
        (HEAD + ENTRY + 'value = 3\ntimes = "width"\n', '8:9: rules[0].times: found "width"'),
        (
            HEAD + ENTRY + 'value = 3\nminus = "head_sunk_mm"\n',
            "8:9: rules[0].minus: found minus without plus",
        ),
        (
            HEAD + ENTRY + 'value = "x"\ntimes = "board_width_mm"\n',
            '7:9: rules[0].value: found "x", wanted a number',
        ),
        (
            HEAD + ENTRY + "value = 3\nwidth_from_mm = 9\nwidth_to_mm = 8\n",
            "5:1: rules[0]: found board_width_mm from 9 to 8",
        ),
        (HEAD + 2 * (ENTRY + "value = 3\n"), "8:1: rules[1]: found end_gap_mm for boards that ru"),
        (
            HEAD + ENTRY + 'value = 3\nuse = "public"\n' + ENTRY + 'value = 4\nexposure = "pool"\n',
            "9:1: rules[1]: found end_gap_mm for boards that rules[0] answers for",
        ),
        (
            f"{HEAD}{ENTRY}value = 3\nwidth_to_mm = 9\n{ENTRY}value = 4\nthickness_to_mm = 9\n",
            "9:1: rules[1]: found end_gap_mm for boards that rules[0] answers for",
        ),
        (
            f'{HEAD}{ENTRY}value = 3\nspecies = "oak"\n{ENTRY}value = 4\nspecies = "white oak"\n',
            "9:1: rules[1]: found end_gap_mm for boards that rules[0] answers for",
        ),
        (
            HEAD + ENTRY + 'value = 3\nsource = { kind = "hearsay", title = "a friend" }\n',
            '8:19: rules[0].source.kind: found "hearsay", wanted one of standard,',
        ),
        (
            '[family]\nid = "larch"\ntitle = "larch"\n' + ENTRY + "value = 3\n",
            "4:1: rules[0]: found a number without a source",
        ),
        (HEAD + "rules = 3\n", "5:1: family.rules: found an unknown key"),
        ("rules = [3]\n" + HEAD, "1:10: rules[0]: found 3, wanted a table"),
        (HEAD + "[[rows]]\nvalue = 3\n", "5:1: rows: found an unknown key"),
    ],
)  # fmt: skip
def test_a_fault_is_told_with_its_place(faults: Faults, text: str, says: str) -> None:
    told = faults(text)
    assert any(says in fault for fault in told), told


def test_all_faults_come_at_once(faults: Faults) -> None:
    text = HEAD + ENTRY + "value = 30\n" + ENTRY + 'value = 3\nuse = "home"\n'
    assert [fault.split(":")[0] for fault in faults(text)] == ["7", "11"]


def test_what_is_no_file_is_told_too(tmp_path: Path) -> None:
    with pytest.raises(FamilyError, match="no such file"):
        read_family_table(tmp_path / "none.toml")
