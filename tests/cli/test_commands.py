"""The commands by `main(argv)`: what they say, where, and with which exit code."""

import json
from pathlib import Path

import pytest

import drylay
from cli.conftest import BRIEF, STOCK, Run
from drylay.brief.reader import read_brief
from drylay.cli import codes
from drylay.materials.model import RULES

# ----- usage ---------------------------------------------------------------------------


def test_nothing_typed_shows_what_can_be_typed(run: Run) -> None:
    code, out, err = run()
    assert (code, out) == (codes.UNUSABLE, "")
    assert "check-brief" in err
    assert "exit codes:" in err


def test_version(run: Run) -> None:
    assert run("--version") == (codes.FINE, f"drylay {drylay.__version__}\n", "")


@pytest.mark.parametrize(
    "argv", [["build"], ["design"], ["design", BRIEF], ["families", "--jsn"], ["why", "x"]]
)
def test_wrong_use(run: Run, argv: list[str]) -> None:
    code, out, err = run(*argv)
    assert (code, out) == (codes.UNUSABLE, "")
    assert "usage: drylay" in err


@pytest.mark.parametrize("argv", [["--help"], ["design", "--help"]])
def test_help_is_fine(run: Run, argv: list[str]) -> None:
    code, out, err = run(*argv)
    assert (code, err) == (codes.FINE, "")
    assert "usage: drylay" in out


# ----- design --------------------------------------------------------------------------


def test_design_shows_the_summary_and_writes_the_folder(run: Run, tmp_path: Path) -> None:
    code, out, err = run("design", BRIEF, "--stock", STOCK, "--out", str(tmp_path / "deck"))
    assert (code, err) == (codes.FINE, "")
    assert "Deck behind the house" in out
    assert out.endswith(f"written to {tmp_path / 'deck'}\n")
    names = {path.name for path in (tmp_path / "deck").iterdir()}
    assert names >= {"plan.json", "summary.txt", "check_proof.py", "proof.json"}


def test_design_in_json_is_the_plan_file_and_nothing_else(run: Run, folder: Path) -> None:
    code, out, err = run("design", BRIEF, "--stock", STOCK, "--json")
    assert (code, err) == (codes.FINE, "")
    assert out == (folder / "plan.json").read_text(encoding="utf-8")


def test_a_blocked_plan_is_told_by_the_exit_code(run: Run, tmp_path: Path) -> None:
    """Joists wished further apart than the family allows: a stop, not a fault."""
    text = Path(BRIEF).read_text(encoding="utf-8")
    wide = tmp_path / "wide.toml"
    wide.write_text(text.replace("most_centres_mm = 400", "most_centres_mm = 450"), "utf-8")
    assert read_brief(wide).frame.most_centres_mm == 450
    code, out, _ = run("design", str(wide), "--stock", STOCK, "--json")
    assert code == codes.STOPPED
    plan = json.loads(out)
    assert plan["buying"] is None
    assert any(finding["severity"] == "stop" for finding in plan["findings"])


def test_progress_is_shown_where_it_is_asked_for(run: Run) -> None:
    code, out, err = run("design", BRIEF, "--stock", STOCK, "--json", "--progress")
    assert code == codes.FINE
    assert json.loads(out)
    assert len(err.splitlines()) > 2


def test_faults_of_brief_and_stock_come_together(run: Run, bad_brief: str) -> None:
    code, out, err = run("design", bad_brief, "--stock", "no-such-stock.toml")
    assert (code, out) == (codes.UNUSABLE, "")
    lines = err.splitlines()
    assert lines[0].startswith(f"{bad_brief}:")
    assert lines[-1] == (
        "no-such-stock.toml: catalogue: found no such file or directory, wanted a catalogue file"
    )
    assert any("cover.along_mm: found -3" in line for line in lines)
    assert all(": found " in line and ", wanted " in line for line in lines)


def test_faults_of_two_stock_files_come_together(run: Run, bad_brief: str) -> None:
    code, out, _ = run("design", BRIEF, "--stock", bad_brief, "--stock", "no-such.toml", "--json")
    assert code == codes.UNUSABLE
    assert {fault["file"] for fault in json.loads(out)["faults"]} == {bad_brief, "no-such.toml"}


def test_an_article_the_stock_does_not_hold(run: Run, tmp_path: Path) -> None:
    text = Path(BRIEF).read_text(encoding="utf-8").replace("DB-28-145", "DB-28-146")
    other = tmp_path / "other.toml"
    other.write_text(text, encoding="utf-8")
    code, _, err = run("design", str(other), "--stock", STOCK)
    assert code == codes.UNUSABLE
    assert "board.article" in err
    assert "DB-28-145" in err  # the nearest


def test_stock_files_that_contradict_each_other(run: Run, tmp_path: Path) -> None:
    text = Path(STOCK).read_text(encoding="utf-8")
    other = tmp_path / "other.toml"
    other.write_text(text.replace('currency = "', 'currency = "X', 1), encoding="utf-8")
    code, _, err = run("design", BRIEF, "--stock", STOCK, "--stock", str(other))
    assert code == codes.UNUSABLE
    assert "currency" in err


def test_the_same_stock_twice_is_one_stock(run: Run, folder: Path) -> None:
    code, out, _ = run("design", BRIEF, "--stock", STOCK, "--stock", STOCK, "--json")
    assert code == codes.FINE
    assert out == (folder / "plan.json").read_text(encoding="utf-8")


def test_a_folder_that_cannot_be_written(run: Run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    target = str(tmp_path / "file" / "deck")
    code, out, err = run("design", BRIEF, "--stock", STOCK, "--out", target)
    assert (code, out) == (codes.UNUSABLE, "")
    assert err.startswith(f"{target}: found ")
    assert "wanted a folder that can be written" in err


def test_a_folder_with_something_of_somebody_elses_is_kept(run: Run, tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    code, out, err = run("design", BRIEF, "--stock", STOCK, "--out", str(tmp_path))
    assert (code, out) == (codes.UNUSABLE, "")
    assert "notes.txt: found not ours" in err
    assert (tmp_path / "notes.txt").read_text(encoding="utf-8") == "mine"


# ----- audit ---------------------------------------------------------------------------


def test_audit_from_the_plan_alone(run: Run, folder: Path) -> None:
    code, out, err = run("audit", str(folder / "plan.json"))
    assert (code, err) == (codes.FINE, "")
    assert "closed audit; checks run: " in out
    assert "taken on trust, " in out
    assert "--json lists them all" in out
    assert out.endswith("within the screened limits\n")


def test_audit_with_witnesses(run: Run, folder: Path) -> None:
    plan = str(folder / "plan.json")
    code, out, _ = run("audit", plan, "--brief", BRIEF, "--stock", STOCK, "--json")
    assert code == codes.FINE
    report = json.loads(out)
    assert report["audit"] == "witnessed"
    assert {"brief", "stock"} <= set(report["witnesses"])


def test_audit_stops_a_plan_edited_by_hand(run: Run, folder: Path, tmp_path: Path) -> None:
    plan = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
    plan["frame"]["joists"][3]["offset_mm"] += 40.0
    edited = tmp_path / "edited.json"
    edited.write_text(json.dumps(plan), encoding="utf-8")
    code, out, _ = run("audit", str(edited))
    assert code == codes.STOPPED
    assert "stop AUD-" in out
    assert out.endswith("stopped\n")


def test_audit_against_another_stock_stops(run: Run, folder: Path, tmp_path: Path) -> None:
    dearer = tmp_path / "dearer.toml"
    text = Path(STOCK).read_text(encoding="utf-8")
    dearer.write_text(text.replace('price = "1', 'price = "2'), encoding="utf-8")
    code, _, _ = run("audit", str(folder / "plan.json"), "--stock", str(dearer))
    assert code == codes.STOPPED


# ----- why -----------------------------------------------------------------------------


def test_why_names_value_rule_source_and_inputs(run: Run, folder: Path) -> None:
    plan = str(folder / "plan.json")
    code, out, err = run("why", plan, "fixings.deck_screws.length_least_mm")
    assert (code, err) == (codes.FINE, "")
    assert out.splitlines() == [
        "fixings.deck_screws.length_least_mm = 70 mm",
        "  rule    screw length 2.5 times the board",
        "  source  common practice: common practice, no source, screw length 2.5 times the board"
        " or more",
        "  from    board_thickness_mm = 28",
        "  from    table_value = 2.5",
    ]


def test_why_tells_what_was_turned_down(run: Run, folder: Path) -> None:
    code, out, _ = run("why", str(folder / "plan.json"), "surface.way_out")
    assert code == codes.FINE
    assert "\n  not     " in out


def test_why_in_json(run: Run, folder: Path) -> None:
    code, out, _ = run("why", str(folder / "plan.json"), "frame.joists[3].offset_mm", "--json")
    assert code == codes.FINE
    assert json.loads(out)["path"] == "supports.line_count"


@pytest.mark.parametrize("as_json", [False, True])
def test_why_of_nothing_names_what_may_be_meant(run: Run, folder: Path, as_json: bool) -> None:
    more = ["--json"] if as_json else []
    code, out, err = run("why", str(folder / "plan.json"), "suports.centres_mm", *more)
    assert code == codes.UNUSABLE
    assert "supports.centres_mm" in (out if as_json else err)
    assert (json.loads(out)["error"] == "path") if as_json else out == ""


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"\xff\xfe{}", "bytes that are not UTF-8 (at byte 0)"),
        (b"{", "found "),
        (b'{"schema_version": 99}', "99"),
    ],
)
def test_what_is_no_plan_file(run: Run, tmp_path: Path, content: bytes, says: str) -> None:
    path = tmp_path / "plan.json"
    path.write_bytes(content)
    code, out, err = run("why", str(path), "title")
    assert (code, out) == (codes.UNUSABLE, "")
    assert says in err
    assert err.startswith(f"{path}: ")


# ----- checks, families, start ---------------------------------------------------------


def test_a_good_brief_and_a_good_stock_file(run: Run) -> None:
    assert run("check-brief", BRIEF) == (codes.FINE, f"{BRIEF}: nothing wrong\n", "")
    assert run("check-stock", STOCK, "--json") == (
        codes.FINE, '{\n "faults": [],\n "notes": []\n}\n', ""
    )  # fmt: skip


def test_a_family_that_no_plugin_supplies_is_told_of_a_good_stock_file(
    run: Run, tmp_path: Path
) -> None:
    text = Path(STOCK).read_text(encoding="utf-8")
    file = tmp_path / "stock.toml"
    file.write_text(text.replace('family = "softwood"', 'family = "bogoak"'), encoding="utf-8")
    code, out, err = run("check-stock", str(file))
    assert (code, err) == (codes.FINE, "")
    assert "DB-28-145: no plugin here supplies the family 'bogoak'" in out
    assert "did you mean" not in out
    misspelt = text.replace('family = "softwood"', 'family = "sofwood"')
    file.write_text(misspelt, encoding="utf-8")
    _, out, _ = run("check-stock", str(file))
    assert "until one is installed; did you mean 'softwood'?" in out


def test_brief_and_stock_the_wrong_way_round_are_told_in_one_line_each(run: Run) -> None:
    code, out, err = run("design", STOCK, "--stock", BRIEF)
    assert (code, out) == (codes.UNUSABLE, "")
    first, second = err.splitlines()
    assert first.startswith(f"{STOCK}:")
    assert "found a stock file" in first
    assert second.startswith(f"{BRIEF}:")
    assert "found a brief" in second


def test_an_article_that_is_not_in_stock_is_told_with_its_line(run: Run, tmp_path: Path) -> None:
    text = Path(BRIEF).read_text(encoding="utf-8")
    file = tmp_path / "deck.toml"
    file.write_text(text.replace('"DB-28-145"', '"DB-28-144"'), encoding="utf-8")
    line = text[: text.index('"DB-28-145"')].count("\n") + 1
    code, out, err = run("design", str(file), "--stock", STOCK)
    assert (code, out) == (codes.UNUSABLE, "")
    assert err.startswith(f"{file}:{line}:")
    assert "nearest fix: DB-28-145" in err


def test_a_folder_of_papers_stands_for_its_plan(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "deck"
    assert run("design", BRIEF, "--stock", STOCK, "--out", str(folder))[0] == codes.FINE
    assert run("audit", str(folder)) == run("audit", str(folder / "plan.json"))
    code, _, err = run("audit", str(tmp_path))
    assert code == codes.UNUSABLE
    assert "plan.json" in err


def test_a_bad_brief_is_listed_whole(run: Run, bad_brief: str) -> None:
    code, out, err = run("check-brief", bad_brief)
    assert (code, err) == (codes.UNUSABLE, "")
    assert f"{bad_brief}:3:" in out
    assert f"{bad_brief}:4:" in out
    code, out, _ = run("check-brief", bad_brief, "--json")
    assert code == codes.UNUSABLE
    assert {fault["line"] for fault in json.loads(out)["faults"]} >= {3, 4}


def test_a_bad_stock_file_is_listed(run: Run, bad_brief: str) -> None:
    code, out, _ = run("check-stock", bad_brief)
    assert code == codes.UNUSABLE
    assert ": found " in out


@pytest.mark.parametrize("command", [["check-brief"], ["check-stock"], ["why"], ["audit"]])
@pytest.mark.parametrize("path", ["no-such.toml", "."])
def test_a_file_that_cannot_be_read(run: Run, command: list[str], path: str) -> None:
    argv = [*command, path, *(["title"] if command == ["why"] else [])]
    code, out, err = run(*argv)
    assert code == codes.UNUSABLE
    assert path in out + err
    code, out, err = run(*argv, "--json")
    assert (code, err) == (codes.UNUSABLE, "")
    assert json.loads(out)["faults"]


def test_families(run: Run) -> None:
    code, out, err = run("families")
    assert (code, err) == (codes.FINE, "")
    all_of_them = f"{len(RULES)} of {len(RULES)} rules"
    softwood = f"softwood: treated softwood, {all_of_them} (drylay-softwood "
    assert any(line.startswith(softwood) for line in out.splitlines())
    code, out, _ = run("families", "--json")
    assert "softwood" in {each["id"] for each in json.loads(out)["families"]}


@pytest.mark.parametrize("units", [[], ["--imperial"]])
def test_a_brief_to_begin_with_can_be_designed(run: Run, tmp_path: Path, units: list[str]) -> None:
    path = tmp_path / "deck.toml"
    code, out, _ = run("start", *units, "--out", str(path))
    assert (code, out) == (codes.FINE, f"written to {path}\n")
    assert run("check-brief", str(path))[0] == codes.FINE
    code, out, _ = run("start", *units)
    assert out == path.read_text(encoding="utf-8")
    code, out, _ = run("start", *units, "--json")
    assert json.loads(out)["brief"] == path.read_text(encoding="utf-8")


def test_an_existing_file_is_kept(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "deck.toml"
    path.write_text("mine", encoding="utf-8")
    code, _, err = run("start", "--out", str(path))
    assert code == codes.UNUSABLE
    assert "found file exists, wanted a new file" in err
    assert path.read_text(encoding="utf-8") == "mine"
