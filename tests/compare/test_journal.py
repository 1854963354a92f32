"""A study's journal: goes on after any kill, is never mixed up, says which line is none of its."""

from collections.abc import Callable
from concurrent.futures import Executor
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from compare.sheds import SHED, STOCK, study
from drylay.compare.compared import compare
from drylay.compare.journal import held_row, opened_journal, write_row
from drylay.errors import InputError

values = (
    st.none() | st.booleans() | st.integers() | st.decimals(allow_nan=False, allow_infinity=False)
)
values |= st.floats(allow_nan=False, allow_infinity=False) | st.text()
BRIEF = drylay.read_brief(SHED)


@settings(max_examples=40)
@given(row=st.dictionaries(st.text(), values))
def test_a_row_comes_back_as_it_was(
    row: dict[str, object], tmp_path_factory: pytest.TempPathFactory
) -> None:
    row = {**row, "outcome": "planned"}
    case = "ab" * 32
    path = tmp_path_factory.mktemp("run") / "run.jsonl"
    with opened_journal(path) as journal:
        assert journal is not None
        write_row(journal, case, row)
    with opened_journal(path) as journal:
        assert journal is not None
        held = held_row(journal, case)
        assert held == row
        assert held is not None
        assert [(name, type(value)) for name, value in held.items()] == [
            (name, type(value)) for name, value in row.items()
        ]


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[dict[str, object]], bytes]:
    path = tmp_path_factory.mktemp("whole") / "run.jsonl"
    return list(study(journal=path)), path.read_bytes()


@pytest.mark.parametrize("share", [0.0, 0.003, 0.3, 0.61, 0.999])
def test_a_journal_cut_anywhere_goes_on(
    whole: tuple[list[dict[str, object]], bytes], share: float, tmp_path: Path
) -> None:
    rows, written = whole
    path = tmp_path / "run.jsonl"
    path.write_bytes(written[: int(len(written) * share)])
    assert list(study(journal=path)) == rows
    assert sorted(path.read_bytes().splitlines()) == sorted(written.splitlines())


def test_other_terms_are_planned_anew_beside_the_old(tmp_path: Path) -> None:
    path = tmp_path / "run.jsonl"
    for mode, lines in (("quick", 1), ("proven", 2), ("quick", 2)):
        (row,) = compare(BRIEF, stock=STOCK, mode=mode, journal=path)
        assert row["mode"] == mode
        assert len(path.read_bytes().splitlines()) == lines
    (dearer,) = compare(BRIEF, stock=STOCK, mode="quick", journal=path, rate_ratio=0.04)
    assert dearer["capital_most"] > row["capital_most"]  # type: ignore[operator]


def test_lines_that_are_none_are_told_with_their_places(tmp_path: Path) -> None:
    path = tmp_path / "run.jsonl"
    path.write_text('{"case": "00", "money": [], "row": {}}\nnonsense\n{"case": 1}\nhalf a li')
    with pytest.raises(InputError) as told:
        list(compare(BRIEF, stock=STOCK, journal=path))
    assert [(fault.file, fault.line) for fault in told.value.faults] == [
        ("run.jsonl", each) for each in (1, 2, 3, 4)
    ]  # fmt: skip
    assert path.read_text().endswith('{"case": 1}\nhalf a li')  # nothing is lost


@pytest.mark.parametrize("edit", [
    lambda line: line.replace(b'"total": "', b'"total": "9', 1),
    lambda line: line.replace(b'"buildable": true', b'"buildable": false', 1),
    lambda line: line.replace(b'{"case": "', b'{"case":  "', 1),
    lambda line: line[:-3] + (b"0" if line[-3:-2] != b"0" else b"1") + line[-2:],
], ids=["dearer", "no deck", "a space", "its sum"])  # fmt: skip
def test_a_line_that_was_edited_is_not_believed(
    whole: tuple[list[dict[str, object]], bytes],
    edit: Callable[[bytes], bytes],
    tmp_path: Path,
) -> None:
    first, second, *others = whole[1].splitlines()
    assert edit(second) != second
    written = b"\n".join([first, edit(second), *others, b""])
    path = tmp_path / "run.jsonl"
    path.write_bytes(written)
    with pytest.raises(InputError, match="a line that was changed since") as told:
        next(study(journal=path))
    assert [(fault.file, fault.line) for fault in told.value.faults] == [("run.jsonl", 2)]
    assert path.read_bytes() == written


def test_no_other_file_is_cut(tmp_path: Path) -> None:
    path = tmp_path / "garden.toml"
    path.write_text('title = "no line end"')
    with pytest.raises(InputError, match="a line that a study wrote"):
        list(compare(BRIEF, stock=STOCK, journal=path))
    assert path.read_text() == 'title = "no line end"'


def test_two_studies_do_not_write_one_journal(tmp_path: Path) -> None:
    path = tmp_path / "run.jsonl"
    first = study(journal=path)
    next(first)
    with pytest.raises(InputError, match="another study writes it"):
        next(study(journal=path))
    first.close()  # type: ignore[attr-defined]
    assert next(study(journal=path))["case"] == 0


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="a file that can be written"):
        list(study(journal=tmp_path / "none" / "run.jsonl"))
    with pytest.raises(InputError, match="a file that can be written"):
        list(study(journal=tmp_path))


def test_rows_that_a_journal_holds_wait_for_no_worker(
    whole: tuple[list[dict[str, object]], bytes], tmp_path: Path
) -> None:
    """Once all of them stood in a queue until the first new row was planned."""
    rows, written = whole
    path = tmp_path / "run.jsonl"
    path.write_bytes(b"".join(written.splitlines(keepends=True)[:-1]))

    def no_executor() -> Executor:
        raise AssertionError("nothing is to be planned yet")

    told = study(journal=path, executor=no_executor, workers=2)
    assert [next(told) for _ in rows[1:]] == rows[:-1]
    with pytest.raises(AssertionError, match="nothing is to be planned yet"):
        next(told)
