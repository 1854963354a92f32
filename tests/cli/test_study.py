"""The command for studies: a bar, stopped and resumed, what it answers."""

import io
import json
from pathlib import Path

import pytest

from cli.conftest import Run
from compare.test_study_file import BRIEF, ROOT, STUDY
from drylay.cli import codes
from drylay.cli.screen import Screen
from drylay.cli.study import bar_of, left_text


@pytest.fixture
def file(tmp_path: Path) -> str:
    (tmp_path / "shed.toml").write_text(BRIEF)
    (tmp_path / "hobbleden.toml").write_bytes((ROOT / "catalogs/hobbleden.toml").read_bytes())
    (tmp_path / "study.toml").write_text(STUDY)
    return str(tmp_path / "study.toml")


def test_a_study_is_told_and_written(run: Run, file: str, tmp_path: Path) -> None:
    out = str(tmp_path / "out")
    code, said, err = run("study", file, "--out", out)
    assert (code, err) == (codes.FINE, "")
    assert "18 decks: 12 planned, 6 refused" in said
    assert len(Path(f"{out}.journal.jsonl").read_text().splitlines()) == 18
    code, said, _ = run("study", file, "--out", out, "--json")
    told = json.loads(said)
    assert (told["decks"], told["outcomes"]) == (18, {"planned": 12, "refused": 6})
    assert set(told["answers"]) == {"area-for-money", "side-by-side-2", "cost-by-size-3"}


def test_a_study_stopped_at_the_keyboard_goes_on(
    run: Run, file: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from drylay.compare import worker

    whole, met = worker.glance, []

    def interrupted(look: object, brief: object) -> object:
        met.append(brief)
        if len(met) == 4:
            raise KeyboardInterrupt
        return whole(look, brief)  # type: ignore[arg-type]

    monkeypatch.setattr(worker, "glance", interrupted)
    out = tmp_path / "out"
    code, _, err = run("study", file, "--out", str(out))
    assert code == codes.INTERRUPTED
    assert "rows so far are in" in err
    assert "the same command goes on from there" in err
    before = Path(f"{out}.journal.jsonl").read_text().splitlines()
    assert not (out / "rows.csv").exists()
    code, said, _ = run("study", file, "--out", str(out))
    assert code == codes.FINE
    assert "18 decks: 12 planned, 6 refused" in said
    assert len(met) == 12 + 1  # none was planned twice but the one that was stopped
    assert Path(f"{out}.journal.jsonl").read_text().splitlines()[: len(before)] == before


def test_a_time_limit_goes_with_a_study(run: Run, file: str) -> None:
    code, _, err = run("study", file, "--most-seconds", "1")
    assert code == 2
    assert "most_s: found 1.0, wanted seconds, 10 to 604800" in err


def test_a_study_that_cannot_be_read_makes_nothing(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "study.toml"
    path.write_text('title = "x"\n')
    code, _, err = run("study", str(path), "--out", str(tmp_path / "out"))
    assert code == codes.UNUSABLE
    assert "brief" in err
    assert "vary" in err
    assert not (tmp_path / "out").exists()


class Terminal(io.StringIO):
    """A stream that is a terminal."""

    def isatty(self) -> bool:
        return True


def test_a_bar_fills_and_is_wiped() -> None:
    ticks = iter([0.0, 10.0, 100.0])
    stream = Terminal()
    show = bar_of(Screen(out=stream, err=stream, as_json=False, progress=True), lambda: next(ticks))
    assert show is not None
    show("planned", 1, 100)
    show("planned", 50, 100)
    show("planned", 100, 100)
    first, middle, *_ = (part for part in stream.getvalue().split("\r") if part.strip())
    assert first.rstrip() == "planned [..............................] 1/100 about 17 minutes left"
    assert middle.rstrip() == "planned [###############...............] 50/100 about 2 minutes left"
    assert stream.getvalue().endswith("\r" + " " * 78 + "\r")


@pytest.mark.parametrize(
    ("seconds", "text"), [(0.1, "1 minute or less left"), (60.1, "about 2 minutes left")]
)
def test_what_is_left_is_told_up_to_the_next_minute(seconds: float, text: str) -> None:
    assert left_text(seconds) == text
