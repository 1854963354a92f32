"""The plan file: the same plan the same bytes, and nothing read that does not stand there."""

import json
import math
from decimal import Decimal

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.errors import PlanFileError
from drylay.plan.codec import LONGEST, digest, plan_from_json, plan_to_json
from drylay.plan.model import SCHEMA_VERSION, Plan
from drylay.plan.upgrade import upgraded, version_fault
from plan.made import plans
from plan.sample import blocked_plan, sample_plan
from plan.standing_sample import standing_plan

PLAN = sample_plan()
TEXT = plan_to_json(PLAN)

some_plans = st.builds(
    sample_plan,
    row_length_mm=st.integers(600, 14_000).map(float),
    rows=st.integers(1, 12),
    run=st.sampled_from(["along", "across"]),
    units=st.sampled_from(["metric", "imperial"]),
    sides=st.sets(st.sampled_from(["house", "right", "front", "left"])).map(sorted).map(tuple),
    title=st.text(st.characters(exclude_categories=["Cs"]), max_size=40),
    noggin_rows=st.integers(0, 3),
)


def faults_of(text: str) -> dict[str, str]:
    with pytest.raises(PlanFileError) as caught:
        plan_from_json(text)
    return {fault.path: fault.found for fault in caught.value.faults}


def changed(path: str, value: object) -> str:
    """The sample's file with one value changed; a path such as surface.rows.0.near_mm."""
    document = json.loads(TEXT)
    *above, last = path.split(".")
    place = document
    for name in above:
        place = place[int(name)] if isinstance(place, list) else place[name]
    place[int(last) if isinstance(place, list) else last] = value
    return json.dumps(document)


@settings(deadline=None)
@given(some_plans)
def test_a_plan_comes_back_and_is_written_the_same(plan: Plan) -> None:
    text = plan_to_json(plan)
    assert plan_from_json(text) == plan
    assert plan_to_json(plan_from_json(text)) == text


def test_designed_plans_come_back_too() -> None:
    for plan in plans():
        assert plan_from_json(plan_to_json(plan)) == plan


def test_the_plan_of_a_deck_that_stands_comes_back() -> None:
    plan = standing_plan()
    assert plan_from_json(plan_to_json(plan)) == plan


@pytest.mark.parametrize(
    ("room", "word", "wanted"),
    [
        ("footings", "kind", "pad, concreted hole, ground screw"),
        ("raised", "sharing", "levered, halved"),
        ("steps", "side", "house, right, front, left"),
    ],
)
def test_a_word_of_a_deck_that_stands_is_one_of_its_words(
    room: str, word: str, wanted: str
) -> None:
    document = json.loads(plan_to_json(standing_plan()))
    document[room][word] = "some"
    with pytest.raises(PlanFileError) as caught:
        plan_from_json(json.dumps(document))
    (fault,) = caught.value.faults
    assert (fault.path, fault.wanted) == (f"{room}.{word}", f"one of {wanted}")


def test_a_blocked_plan_comes_back() -> None:
    plan = blocked_plan()
    assert plan_from_json(plan_to_json(plan)) == plan
    assert not plan.buildable


def test_the_file_is_plain_sorted_text() -> None:
    assert TEXT.isascii()
    assert TEXT.endswith("}\n")
    assert list(json.loads(TEXT)) == sorted(json.loads(TEXT))
    assert json.loads(TEXT)["buying"]["order_total"] == f"{PLAN.buying.order_total:f}"
    assert json.loads(TEXT)["findings"][0]["severity"] == "note"


def test_equal_plans_give_equal_bytes_however_they_were_put_together() -> None:
    surface = evolve(PLAN.surface, cover_along_mm=int(PLAN.surface.cover_along_mm))
    surface = evolve(surface, remainder_mm=-0.0)
    assert plan_to_json(evolve(PLAN, surface=surface)) == TEXT


def test_the_digest_is_that_of_the_bytes_and_moves_with_them() -> None:
    assert digest(PLAN) == digest(plan_from_json(TEXT))
    assert len(digest(PLAN)) == 64
    assert digest(PLAN) != digest(evolve(PLAN, title="Another"))


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_plan_with_nan_is_not_written(value: float) -> None:
    plan = evolve(PLAN, surface=evolve(PLAN.surface, cover_along_mm=value))
    with pytest.raises(PlanFileError, match=r"surface\.cover_along_mm"):
        plan_to_json(plan)


def test_money_that_is_no_amount_is_not_written() -> None:
    plan = evolve(PLAN, buying=evolve(PLAN.buying, total=Decimal("NaN")))
    with pytest.raises(PlanFileError, match=r"buying\.total"):
        plan_to_json(plan)


@pytest.mark.parametrize(
    ("path", "value", "found"),
    [
        ("surface.cover_along_mm", "12.5", "'12.5'"),
        ("surface.cover_along_mm", True, "true"),
        ("surface.cover_along_mm", None, "null"),
        ("surface.cover_along_mm", [1.0], "a list"),
        ("surface.cover_along_mm", 2**60, str(2**60)),
        ("surface.whole_rows", 4.0, "4.0"),
        ("surface.whole_rows", False, "false"),
        ("surface.ways_out.0.honest", 1, "1"),
        ("surface.run", "sideways", "'sideways'"),
        ("units", "metrics", "'metrics'"),
        ("buying.total", 14.4, "14.4"),
        ("buying.total", "1e3", "'1e3'"),
        ("buying.total", "14,40", "'14,40'"),
        ("buying.total", "NaN", "'NaN'"),
        ("findings.0.severity", "fatal", "'fatal'"),
        ("findings.0.measured", "1", "'1'"),
        ("surface.rows", {}, "an object"),
        ("surface.rows", "abc", "'abc'"),
        ("surface.rows.1", 7, "7"),
        ("surface", [], "a list"),
        ("title", 3, "3"),
        ("title", "half \ud800", "'half \\ud800'"),
        ("title", None, "null"),
        ("reasons.decisions.0.value", True, "true"),
        ("reasons.decisions.0.value", {}, "an object"),
        ("reasons.decisions.0.inputs.0", ["a"], "a list of 1"),
        ("title", ["x" * 500], "a list"),
    ],
)
def test_what_is_not_exactly_right_is_refused_with_its_place(
    path: str, value: object, found: str
) -> None:
    parts = path.split(".")
    place = "".join(f"[{part}]" if part.isdigit() else f".{part}" for part in parts)[1:]
    assert faults_of(changed(path, value)) == {place: found}


def test_a_long_value_is_cut_short_in_the_fault() -> None:
    assert len(faults_of(changed("surface.whole_rows", "x" * 500))["surface.whole_rows"]) < 80


def test_a_whole_number_is_a_length_too() -> None:
    assert plan_from_json(changed("surface.cover_along_mm", 3600)) == PLAN


def test_every_fault_is_listed_at_once() -> None:
    document = json.loads(TEXT)
    document["colour"] = "red"
    document["buying"]["currrency"] = "EUR"
    del document["buying"]["vat"]
    document["surface"]["rows"][2]["near_mm"] = "300"
    document["supports"]["line_count"] = 10.5
    with pytest.raises(PlanFileError) as caught:
        plan_from_json(json.dumps(document))
    faults = {fault.path: fault for fault in caught.value.faults}
    assert set(faults) == {
        "colour",
        "buying.currrency",
        "buying.vat",
        "surface.rows[2].near_mm",
        "supports.line_count",
    }
    assert faults["buying.currrency"].nearest == "currency"
    assert faults["buying.vat"].found == "nothing"
    assert "5 faults" in str(caught.value)


@pytest.mark.parametrize("constant", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_nan_and_infinity_are_no_lengths(constant: str) -> None:
    text = changed("surface.cover_along_mm", 123456.5).replace("123456.5", constant)
    assert list(faults_of(text)) == ["surface.cover_along_mm"]


def test_a_key_given_twice_is_refused() -> None:
    text = TEXT.replace('"title": "Sample deck"', '"title": "A", "title": "B"')
    assert faults_of(text) == {"title": "the key twice"}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", "Expecting value at line 1, column 1"),
        ("{", "Expecting property name enclosed in double quotes at line 1, column 2"),
        ("[" * 200_000, "brackets nested too deep"),
        ('{"a":' * 200_000, "brackets nested too deep"),
        ('{"a": ' + "9" * 5_000 + "}", "a whole number of thousands of digits"),
        ("[]", "a list"),
        ("null", "null"),
    ],
)
def test_what_is_no_plan_at_all(text: str, found: str) -> None:
    assert faults_of(text) == {"(whole file)": found}


def test_a_file_beyond_all_measure_is_not_parsed() -> None:
    assert list(faults_of(" " * (LONGEST + 1))) == ["(whole file)"]


@pytest.mark.parametrize(
    ("version", "word"),
    [(SCHEMA_VERSION + 1, "later"), (0, "wrote it"), ("1", ""), (True, ""), (None, "")],
)
def test_other_versions_are_refused_clearly(version: object, word: str) -> None:
    with pytest.raises(PlanFileError) as caught:
        plan_from_json(changed("schema_version", version))
    (fault,) = caught.value.faults
    assert fault.path == "schema_version"
    assert fault.wanted == f"1 to {SCHEMA_VERSION}"
    assert word in fault.nearest


def test_old_files_go_up_one_step_at_a_time() -> None:
    steps = {
        1: lambda document: {**document, "second": 2},
        2: lambda document: {**document, "third": document["second"]},
    }
    up = upgraded({"schema_version": 1}, steps=steps, newest=3)
    assert up == {"schema_version": 3, "second": 2, "third": 2}
    assert version_fault(1, steps=steps, newest=3) is None
    fault = version_fault(0, steps=steps, newest=3)
    assert fault is not None
    assert fault.wanted == "1 to 3"
