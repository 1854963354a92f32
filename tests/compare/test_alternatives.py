"""Alternatives as files and mappings: what they change, and everything that can be wrong."""

from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

import drylay
from compare.small import brief, families, stock
from drylay.compare.alternatives import brief_of, open_alternatives, read_alternatives
from drylay.compare.families import across_families
from drylay.errors import Fault


def faults_of(alternatives: object, **more: Any) -> list[Fault]:
    asked = {"stock": stock(), "families": families(), **more}
    with pytest.raises(drylay.InputError) as caught:
        across_families(brief(), alternatives, **asked)  # type: ignore[arg-type]
    return list(caught.value.faults)


def written(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "alternatives.toml"
    path.write_text(text, encoding="utf-8")
    return path


def briefs(source: Any) -> dict[str, drylay.Brief | None]:
    wrong: list[Fault] = []
    document = open_alternatives(source, wrong)
    assert document is not None
    read = read_alternatives(document, wrong)
    found = {each.name: brief_of(document, wrong_free(), each, wrong) for each in read}
    assert wrong == []
    return found


def wrong_free() -> drylay.Brief:
    return brief().replace("gap.preferred_mm", 5).replace("gap.least_mm", 4)


def test_a_file_and_a_mapping_say_the_same(tmp_path: Path) -> None:
    text = '[a]\nboard.article = "LB-28-145"\nwithout = ["gap"]\n\n["b c"]\n"title" = "Other"\n'
    plain = {
        "a": {"board": {"article": "LB-28-145"}, "without": ["gap"]},
        "b c": {"title": "Other"},
    }
    dotted = {"a": {"board.article": "LB-28-145", "gap": None}, "b c": {"title": "Other"}}
    assert briefs(written(tmp_path, text)) == briefs(plain) == briefs(dotted)


def test_what_is_left_out_goes_first_and_only_named_keys_change() -> None:
    found = briefs({"a": {"gap.preferred_mm": 6, "without": ["gap"]}, "b": {"gap.most": "8 mm"}})
    assert found["a"] is not None
    assert found["b"] is not None
    assert (found["a"].gap.preferred_mm, found["a"].gap.least_mm) == (6, None)
    assert (found["b"].gap.preferred_mm, found["b"].gap.most_mm) == (5, 8)


def test_a_brief_may_be_wrong_halfway_if_it_is_right_in_the_end() -> None:
    """A coating of the other use, a gap above its most: changed one by one they would be faults."""
    found = briefs({"a": {"gap.least_mm": 9, "gap.most_mm": 12, "gap.preferred_mm": 10}})
    assert found["a"] is not None
    assert found["a"].gap.least_mm == 9


@pytest.mark.parametrize(
    ("alternatives", "path", "says"),
    [
        ({}, "alternatives", "0 tables"),
        ({"a": 5}, "a", "a table of a brief's paths"),
        ({"a": {"board.artcle": "X"}}, "a.board.artcle", "board.article"),
        ({"a": {"board": {"artcle": "X"}}}, "a.board.artcle", "board.article"),
        ({"a": {"article": "X"}}, "a.article", "board.article"),
        ({"a": {"gap": 5}}, "a.gap", "a table, or gap listed in without"),
        ({"a": {"without": "gap"}}, "a.without", "a list of a brief's paths"),
        ({"a": {"without": ["gaps"]}}, "a.gaps", "an unknown path"),
        ({"a": {"without": ["board"]}}, "a.board", "wanted"),
        ({"a": {"gap.least_mm": -3}}, "a.gap.least_mm", "-3"),
        ({"a": {"board.article": "DB-28-146"}}, "a.board.article", "DB-28-145"),
        ({"a": {5: 6}}, "a", "a path of a brief"),
        ({" a ": {}}, " a ", "neither begins nor ends"),
        ({"a" * 41: {}}, "a" * 41, "1 to 40 characters"),
        (7, "alternatives", "a value of type int"),
        ("no-such.toml", "alternatives", "no such file"),
    ],
)
def test_a_fault_is_told_with_its_path(alternatives: object, path: str, says: str) -> None:
    (found,) = faults_of(alternatives)
    assert found.path == path
    assert says in str(found)


def test_faults_of_a_file_have_their_lines(tmp_path: Path) -> None:
    text = (
        "[a]\n"
        'board.article = "DB-28-146"\n'
        "[b]\n"
        '"gap.least_mm" = -3\n'
        "[c]\n"
        'board.artcle = "X"\n'
        "gap.preferred_mm = 30\n"
    )
    found = faults_of(written(tmp_path, text), rate_ratio=-1, hour_price=1.5)
    assert [fault.path for fault in found[:2]] == ["rate_ratio", "hour_price"]
    assert {(fault.line, fault.path) for fault in found[2:]} == {
        (2, "a.board.article"),
        (4, "b.gap.least_mm"),
        (6, "c.board.artcle"),
        (7, "c.gap.preferred_mm"),
    }
    assert {fault.file for fault in found[2:]} == {str(tmp_path / "alternatives.toml")}


def test_toml_that_does_not_parse_is_a_fault(tmp_path: Path) -> None:
    (found,) = faults_of(written(tmp_path, "[a\n"))
    assert (found.line, found.path) == (1, "file")


def test_prices_that_cannot_be_held_together_are_faults() -> None:
    yard = stock()
    other = evolve(yard, currency="EUR", vat="excluded")
    found = faults_of({"a": {}, "b": {}, "c": {}}, stock={"a": yard, "b": other})
    assert [fault.path for fault in found] == ["stock.c", "stock.b.currency", "stock.b.vat"]
    assert "GBP, as in the stock of a" in found[1].wanted


def test_more_alternatives_than_an_eye_compares_are_refused() -> None:
    (found,) = faults_of({f"a{n}": {} for n in range(51)})
    assert "1 to 50 tables" in str(found)
