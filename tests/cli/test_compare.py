"""`drylay compare` by `main(argv)`: what it says, where, and with which exit code."""

import csv
import io
import json
from pathlib import Path

import pytest

from cli.conftest import BRIEF, STOCK, Run
from drylay.cli import codes

BOTH = """
[as-drawn]

["narrow boards"]
board.article = "DB-28-120"
"""


@pytest.fixture
def alternatives(tmp_path: Path) -> str:
    path = tmp_path / "with.toml"
    path.write_text(BOTH, encoding="utf-8")
    return str(path)


@pytest.fixture
def small(tmp_path: Path) -> str:
    """A deck that is planned in a moment."""
    path = tmp_path / "small.toml"
    path.write_text(
        'title = "Small deck"\ncover = { along_mm = 2400, across_mm = 1195 }\n'
        'board.article = "DB-28-145"\nframe.article = "FT-45-145"\n'
        'fixings = { screw = "DS-45-70", coach_screw = "CS-8-120" }\n',
        encoding="utf-8",
    )
    return str(path)


def test_it_answers_with_a_table(run: Run, small: str, alternatives: str) -> None:
    code, out, err = run("compare", small, "--stock", STOCK, "--with", alternatives)
    assert (code, err) == (codes.FINE, "")
    assert out.startswith("Small deck\n==========\n")
    assert "as-drawn" in out
    assert "narrow boards" in out


def test_json_is_the_rows_and_nothing_else(run: Run, small: str, alternatives: str) -> None:
    code, out, err = run("compare", small, "--stock", STOCK, "--with", alternatives,
                         "--rate", "0.04", "--hour-price", "25.50", "--json")  # fmt: skip
    assert (code, err) == (codes.FINE, "")
    told = json.loads(out)
    assert [row["name"] for row in told["rows"]] == ["as-drawn", "narrow boards"]
    assert (told["rate_ratio"], told["hour_price"], told["currency"]) == (0.04, "25.50", "GBP")
    assert set(told["remarks"]) == set(told["reasons"]) == {"as-drawn", "narrow boards"}


def test_csv_is_a_table(run: Run, small: str, alternatives: str) -> None:
    code, out, _ = run("compare", small, "--stock", STOCK, "--with", alternatives, "--csv")
    assert code == codes.FINE
    assert [row["name"] for row in csv.DictReader(io.StringIO(out))] == [
        "as-drawn",
        "narrow boards",
    ]


def test_json_and_csv_at_once_is_wrong_use(run: Run, small: str, alternatives: str) -> None:
    argv = ("compare", small, "--stock", STOCK, "--with", alternatives, "--csv", "--json")
    code, out, err = run(*argv)
    assert (code, out) == (codes.UNUSABLE, "")
    assert "not allowed with" in err


@pytest.mark.parametrize("argv", [["compare", BRIEF], ["compare", BRIEF, "--stock", STOCK],
                                  ["compare", BRIEF, "--stock", STOCK, "--with", "x",
                                   "--rate", "dear"]])  # fmt: skip
def test_wrong_use(run: Run, argv: list[str]) -> None:
    code, out, err = run(*argv)
    assert (code, out) == (codes.UNUSABLE, "")
    assert "usage: drylay compare" in err


def test_a_blocked_alternative_is_told_by_the_exit_code(
    run: Run, small: str, tmp_path: Path
) -> None:
    wide = tmp_path / "wide.toml"
    wide.write_text("[a]\n[b]\nframe.most_centres_mm = 600\n", encoding="utf-8")
    code, out, _ = run("compare", small, "--stock", STOCK, "--with", str(wide), "--json")
    assert code == codes.STOPPED
    assert [row["stop_codes"] for row in json.loads(out)["rows"]] == ["", "MAT-002"]


def test_faults_of_all_files_come_together(run: Run, bad_brief: str, tmp_path: Path) -> None:
    bad = tmp_path / "bad-with.toml"
    bad.write_text("a = 5\n", encoding="utf-8")
    code, out, err = run("compare", bad_brief, "--stock", "no-such.toml", "--with", str(bad))
    assert (code, out) == (codes.UNUSABLE, "")
    assert "cover.along_mm: found -3" in err
    assert "no-such.toml: catalogue" in err
    assert f"{bad}:1:5: a: found 5" in err


def test_faults_of_rate_price_and_alternatives_come_together(
    run: Run, small: str, tmp_path: Path
) -> None:
    bad = tmp_path / "bad-with.toml"
    bad.write_text('[a]\nboard.article = "none"\n', encoding="utf-8")
    code, out, _ = run("compare", small, "--stock", STOCK, "--with", str(bad),
                       "--rate", "4", "--hour-price", "-1", "--json")  # fmt: skip
    assert code == codes.UNUSABLE
    faults = json.loads(out)["faults"]
    assert [fault["path"] for fault in faults] == ["rate_ratio", "hour_price", "a.board.article"]
    assert (faults[2]["file"], faults[2]["line"]) == (str(bad), 2)


def test_papers_are_written_whole(run: Run, small: str, alternatives: str, tmp_path: Path) -> None:
    folder = tmp_path / "compared"
    argv = ("compare", small, "--stock", STOCK, "--with", alternatives, "--out", str(folder))
    code, out, _ = run(*argv)
    assert code == codes.FINE
    assert {path.name for path in folder.iterdir()} == {
        "compare.txt", "compare.csv", "compare.svg", "contents.sha256",
    }  # fmt: skip
    assert out.startswith((folder / "compare.txt").read_text(encoding="utf-8"))
    (folder / "mine.txt").write_text("mine", encoding="utf-8")
    assert run(*argv)[0] == codes.UNUSABLE


def test_progress_is_shown_where_it_is_asked_for(run: Run, small: str, alternatives: str) -> None:
    argv = ("compare", small, "--stock", STOCK, "--with", alternatives, "--json", "--progress")
    code, out, err = run(*argv)
    assert code == codes.FINE
    assert json.loads(out)
    assert err.splitlines()[0].startswith("as-drawn: ")
    assert err.splitlines()[-1] == "done 2/2"
