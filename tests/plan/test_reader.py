"""Reading by cattrs: what the library would let pass by itself is refused at every place."""

import json
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.errors import Fault, PlanFileError
from drylay.findings import Severity
from drylay.plan import reader
from drylay.plan.codec import plan_from_json, plan_to_json
from drylay.plan.model import Plan
from drylay.plan.reader import read_plan
from drylay.plan.walk import plain
from plan.sample import sample_plan

PLAN = sample_plan()
TEXT = plan_to_json(PLAN)

Path = tuple[str | int, ...]


def places(value: object, path: Path = ()) -> list[Path]:
    """Every place below `value`, first elements only where a list's are alike."""
    below = list(value.items()) if isinstance(value, dict) else []
    if isinstance(value, list):
        below = list(enumerate(value[:2]))
    return [found for key, part in below
            for found in ((*path, key), *places(part, (*path, key)))]  # fmt: skip


PLACES = places(json.loads(TEXT))
KEYS = [path for path in PLACES if isinstance(path[-1], str)]
VALUES = (None, True, 3, 2.5, "12.5", "14.40", "sideways", [], ["a", "b", "c"], {}, {"a": 1})


def written(path: Path) -> str:
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in path)
    return text.removeprefix(".")


def holder(document: object, path: Path) -> object:
    for part in path[:-1]:
        document = document[part]
    return document


def faults_of(document: object) -> list[tuple[str, str]]:
    with pytest.raises(PlanFileError) as caught:
        read_plan(document)
    return [(fault.path, fault.found) for fault in caught.value.faults]


@pytest.mark.parametrize("path", KEYS, ids=written)
def test_every_key_is_wanted_also_where_the_noun_has_a_default(path: Path) -> None:
    document = json.loads(TEXT)
    del holder(document, path)[path[-1]]
    assert faults_of(document) == [(written(path), "nothing")]


def outcome(document: object) -> Plan | tuple[Fault, ...]:
    try:
        return read_plan(document)
    except PlanFileError as error:
        return error.faults


@settings(deadline=None)
@given(st.sampled_from(PLACES), st.sampled_from(VALUES))
def test_whatever_is_put_anywhere_is_kept_as_it_stands_or_told_with_its_place(
    path: Path, value: object
) -> None:
    document = json.loads(TEXT)
    holder(document, path)[path[-1]] = value
    found = outcome(document)
    if isinstance(found, Plan):
        kept = holder(plain(found), path)[path[-1]]
        assert kept == value
        assert (type(value), type(kept)) in [(int, float), (type(kept), type(value))]
    else:
        assert all(fault.path.startswith(written(path)) for fault in found)


def test_a_word_of_a_finding_comes_back_as_the_enum_and_not_as_its_text() -> None:
    assert plan_from_json(TEXT).findings[0].severity is Severity.NOTE


@pytest.mark.parametrize("value", [3, 3.0, "3", "14.40", None])
def test_where_several_kinds_may_stand_each_stays_what_it_is(value: object) -> None:
    document = json.loads(TEXT)
    document["reasons"]["decisions"][0]["value"] = value
    kept = read_plan(document).reasons.decisions[0].value
    assert (kept, type(kept)) == (value, type(value))


def test_each_value_of_a_row_is_told_by_its_own_place() -> None:
    document = json.loads(TEXT)
    document["reasons"]["decisions"][0]["inputs"][0] = [1, True]
    assert faults_of(document) == [
        ("reasons.decisions[0].inputs[0][0]", "1"),
        ("reasons.decisions[0].inputs[0][1]", "true"),
    ]


def test_faults_come_in_the_order_of_the_nouns_unknown_keys_first() -> None:
    document = json.loads(TEXT)
    document["zinc"] = document["brass"] = document["title"] = document["units"] = 1
    assert [path for path, _ in faults_of(document)] == ["brass", "zinc", "title", "units"]


def test_what_is_no_object_is_told_of_the_whole_file() -> None:
    assert faults_of([]) == [("(whole file)", "a list")]


def test_a_fault_of_our_own_is_not_laid_to_the_file(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(value: object, _: object) -> object:
        raise ZeroDivisionError(value)

    monkeypatch.setattr(reader, "as_it_stands", broken)
    reader._converter.cache_clear()
    try:
        with pytest.raises(ZeroDivisionError):
            read_plan(json.loads(TEXT))
    finally:
        reader._converter.cache_clear()


def test_many_threads_may_read_the_first_plans_at_once() -> None:
    reader._converter.cache_clear()
    together = Barrier(8)

    def work(_: int) -> str:
        together.wait()
        return plan_to_json(plan_from_json(TEXT))

    with ThreadPoolExecutor(8) as pool:
        assert set(pool.map(work, range(8))) == {TEXT}


def test_a_hosts_own_hooks_change_nothing() -> None:
    code = """if True:
        import cattrs, sys
        cattrs.register_structure_hook(str, lambda value, _: "theirs")
        from drylay.plan.codec import plan_from_json, plan_to_json
        text = sys.stdin.read()
        assert plan_to_json(plan_from_json(text)) == text
    """
    subprocess.run([sys.executable, "-c", code], input=TEXT, text=True, check=True)
