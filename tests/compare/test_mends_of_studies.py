"""Mends of study files, journals and what varies under attack."""

from errno import ENOSPC
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import drylay
from compare.sheds import SHED, STOCK
from drylay.compare import journal as journal_file
from drylay.compare.cases import vary
from drylay.compare.journal import Journal, opened_journal, write_row
from drylay.compare.study_file import read_study
from drylay.errors import InputError

BRIEF = drylay.read_brief(SHED)
ALONG = "cover.along_mm"


@pytest.mark.parametrize("values", [
    {"stock.price_ratio": [1.1], "stock.price_ratio.DB-28-145": [0.9]},
    {"made_of": {"a": {ALONG: 1800}, "b": {"cover.along": "2 m"}}},
    {"made_of": {"a": {"without": ["finish"], "finish.article": "X"}}},
])  # fmt: skip
def test_what_hides_nothing_varies(values: dict[str, Any]) -> None:
    """Once two alternatives could not name one length, the one in mm and the other as a text."""
    assert len(vary(BRIEF, values))


def test_alternatives_do_not_take_the_column_of_a_path() -> None:
    with pytest.raises(InputError, match=r"brief\.title: found the column of a path"):
        vary(BRIEF, {"brief.title": {"a": {}, "b": {}}, "title": ["A"]})


class Full(BytesIO):
    """A file on a full disk."""

    def flush(self) -> None:
        raise OSError(ENOSPC, "No space left on device")

    def close(self) -> None:
        self.flush()


def test_a_full_disk_is_told_of_the_journal() -> None:
    """Once it was told as a fault of drylay's own; when the file is closed it is full again."""
    journal = Journal(name="run.jsonl", stream=Full())
    with pytest.raises(InputError, match=r"run\.jsonl: journal: found No space .*, wanted room"):
        write_row(journal, "ab" * 32, {"outcome": "planned"})


def test_a_full_disk_does_not_hide_what_ended_a_study(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("builtins.open", lambda *_: Full())
    monkeypatch.setattr(journal_file, "_lock", lambda *_: None)

    def written() -> None:
        with opened_journal(tmp_path / "run.jsonl") as journal:
            assert journal is not None
            write_row(journal, "ab" * 32, {"outcome": "planned"})

    with pytest.raises(InputError):
        written()


def asked(*ask: dict[str, object], **more: object) -> dict[str, object]:
    return {"title": "A study", "brief": SHED, "stock": STOCK, "mode": "quick",
            "vary": {ALONG: [1800, 2000]}, "ask": list(ask), **more}  # fmt: skip


@pytest.mark.parametrize("ask", [
    {"what": "side_by_side", "by": ALONG, "of": []}, {"what": "pareto", "aims": {}},
    {"what": "cost_by_size", "size": "total"}, {"what": "side_by_side", "by": ALONG, "of": ["run"]},
    {"what": "pareto", "aims": {"total": "least", "codes": "most"}},
    {"what": "cost_by_size", "size": ALONG, "cost": "cuts"},
])  # fmt: skip
def test_a_question_without_an_answer_is_told_before_anything_is_planned(
    ask: dict[str, object],
) -> None:
    with pytest.raises(InputError, match=r"ask\[0\]\.(of|aims|size|cost)[.\w]*: found"):
        read_study(asked(ask))


def test_a_key_that_is_no_text_is_a_fault() -> None:
    with pytest.raises(InputError, match="the key '3'"):
        read_study(asked({"what": "side_by_side", "by": ALONG, 3: 4}))  # type: ignore[dict-item]


def test_a_path_told_twice_is_a_fault() -> None:
    """Once the values told first were left out without a word."""
    twice = {"cover": {"along_mm": [1800]}, ALONG: [2000]}
    with pytest.raises(InputError, match="twice, dotted and whole"):
        read_study(asked(vary=twice))


def test_a_set_may_hold_figures_of_numpy() -> None:
    rows = [{"case": 1, "a": np.float64(0.123456), "b": 1}, {"case": 2, "a": 0.2, "b": 2}]
    assert "0.1235" in str(drylay.pareto(rows, {"a": "least", "b": "most"}))
