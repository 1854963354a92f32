"""Cases: all of them, each once, in order, light; every fault of a study told at once."""

import itertools
from collections import Counter
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import drylay
from compare.sheds import SHED, STOCK
from drylay.compare.cases import vary
from drylay.compare.compared import compare
from drylay.compare.study_model import Case
from drylay.errors import InputError

BRIEF = drylay.read_brief(SHED)
ALONG, ACROSS, GAP = "cover.along_mm", "cover.across_mm", "gap.preferred_mm"
few = st.lists(st.integers(1, 9_000), min_size=1, max_size=5)


@given(along=few, across=few, gap=few)
def test_a_product_is_that_of_itertools(
    along: list[int], across: list[int], gap: list[int]
) -> None:
    cases = vary(BRIEF, {ALONG: along, ACROSS: across, GAP: gap})
    wanted = list(itertools.product(along, across, gap))
    assert len(cases) == len(wanted)
    assert [tuple(value for _, value in case.changes) for case in cases] == wanted
    assert [cases[at] for at in range(-len(cases), 0)] == list(cases) == list(cases[:])


@given(
    pairs=st.lists(st.tuples(st.integers(1, 9000), st.integers(1, 9000)), min_size=1, max_size=9)
)
def test_zipped_cases_are_those_of_zip(pairs: list[tuple[int, int]]) -> None:
    along, across = zip(*pairs, strict=True)
    cases = vary(BRIEF, {ALONG: along, ACROSS: across}, how="zip")
    assert [tuple(value for _, value in case.changes) for case in cases] == pairs


@given(seed=st.integers(0, 2**31), parts=st.integers(1, 6), levels=st.integers(1, 5))
def test_samples_take_every_value_as_often(seed: int, parts: int, levels: int) -> None:
    """By what Latin means: of as many samples as values times n each value is drawn n times."""
    values = {ALONG: range(1000, 1000 + levels), "board.run": ["along", "across"] * levels}
    cases = vary(BRIEF, values, how="sample", count=2 * parts * levels, seed=seed)
    drawn = Counter(dict(case.changes)[ALONG] for case in cases)
    assert drawn == dict.fromkeys(values[ALONG], 2 * parts)
    assert list(cases) == list(
        vary(BRIEF, values, how="sample", count=2 * parts * levels, seed=seed)
    )


def test_millions_of_cases_are_light() -> None:
    cases = vary(BRIEF, {ALONG: range(1000, 4000), ACROSS: range(1000, 4000)})
    assert len(cases) == 9_000_000
    assert cases[-1].changes == ((ALONG, 3999), (ACROSS, 3999))
    with pytest.raises(IndexError, match="case 9000000 of 9000000"):
        cases[9_000_000]


def test_alternatives_change_several_paths_under_one_name() -> None:
    made_of = {"thin": {"board.article": "DB-28-145"}, "oak": {"board": {"run": "across"},
               "without": ["joints"]}}  # fmt: skip
    cases = vary(BRIEF, {"made_of": made_of, ALONG: [2000, 2100]})
    assert [(case.named, case.changes) for case in cases[2:]] == [
        ((("made_of", "oak"),), (("joints", None), ("board.run", "across"), (ALONG, along)))
        for along in (2000, 2100)
    ]


def test_values_are_taken_as_a_brief_reads_them() -> None:
    values = [np.int64(3), np.float64(2.5), Decimal("1.50"), "9 ft", None, float("nan")]
    cases = vary(BRIEF, {GAP: values})
    assert [case.changes[0][1] for case in cases] == [3, 2.5, "1.50", "9 ft", None, "nan"]


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(InputError) as told:
        vary(
            BRIEF,
            {
                "cover.alon_mm": [1],
                ALONG: 2450,
                ACROSS: [],
                "cover.across": ["2 m"],
                GAP: [object()],
                "mode": {"one": {}},
                "stock.prices": [1.0],
                "made_of": {"oak": {"board.artikel": "X", GAP: 3}},
            },
            how="sampel",
            count=3,
        )
    assert [(fault.path, fault.nearest) for fault in told.value.faults] == [
        ("cover.alon_mm", "cover.along_mm"),
        (ALONG, "[2450]"),
        (ACROSS, ""),
        ("gap.preferred_mm[0]", ""),
        ("mode", ""),
        ("stock.prices", ""),
        ("made_of.board.artikel", "board.article"),
        ("cover.across", ""),
        (GAP, ""),
        ("how", ""),
        ("count", ""),
    ]


@pytest.mark.parametrize(
    ("named", "paths"),
    [
        ({"how": "sample"}, ["count", "seed"]),
        ({"how": "sample", "count": 0, "seed": -1}, ["count", "seed"]),
        ({"how": "sample", "count": True, "seed": 1.5}, ["count", "seed"]),
        ({"how": "zip"}, ["values"]),
        ({"seed": 4}, ["seed"]),
    ],
)
def test_how_cases_are_taken_must_be_told_whole(named: dict[str, object], paths: list[str]) -> None:
    with pytest.raises(InputError) as told:
        vary(BRIEF, {ALONG: [1, 2], ACROSS: [1, 2, 3]}, **named)  # type: ignore[arg-type]
    assert [fault.path for fault in told.value.faults] == paths


SECTION: dict[str, object] = {"board": [{"article": "DB-28-145"}]}


@pytest.mark.parametrize("key", [{"board.run": ["along"]}, {"k": {"a": {"board.run": "along"}}}])
def test_a_key_is_not_hidden_by_its_section_told_later(key: dict[str, object]) -> None:
    """Its column would tell a value that no deck was planned with."""
    first = vary(BRIEF, {**SECTION, **key})[0]
    assert dict(first.changes)["board.run"] == "along"
    with pytest.raises(
        InputError, match=r"board\.run: found \"board\", which is told later"
    ) as told:
        vary(BRIEF, {**key, **SECTION})
    assert len(told.value.faults) == 1
    with pytest.raises(InputError, match=r"a section first, then keys of it"):
        next(compare(Case(brief=BRIEF, changes=first.changes[::-1]), stock=STOCK))


@pytest.mark.parametrize(("path", "value"), [
    ("stock.price_ratio", "1.1"), ("stock.price_ratio", [1.1]), ("stock.without.DB-28-145", "3 m"),
    ("stock.without.DB-28-145", [3000, "3 m"]),
])  # fmt: skip
def test_what_no_stock_can_be_is_told_at_once(path: str, value: object) -> None:
    with pytest.raises(InputError) as told:
        vary(BRIEF, {path: [None, value]})
    assert [fault.path for fault in told.value.faults] == [f"{path}[1]"]


def test_cases_are_told_in_short_where_they_stand_by_themselves() -> None:
    """A notebook shows them so: once they filled its screen with the brief."""
    cases = vary(BRIEF, {ALONG: range(1800, 90_000), "k": {"a": {}}})
    assert repr(cases) == (
        f"Cases(brief={BRIEF.title!r}, axes=(cover.along_mm: 88200, k: 1), how='product')"
    )
    assert len(repr(cases[0])) < 200


def test_more_cases_than_anybody_plans_are_a_slip() -> None:
    with pytest.raises(InputError, match="16000000 cases"):
        vary(BRIEF, {ALONG: range(4000), ACROSS: range(4000)})
