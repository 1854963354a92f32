"""What every answer tells of its rows: how far orders may be from the cheapest, what stops."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import drylay
from compare.sheds import SHED, STOCK
from drylay.compare import study_run
from drylay.compare.rows_seen import codes_told, seen_in
from drylay.compare.study_file import read_study
from drylay.compare.study_model import RowsSeen
from drylay.compare.study_run import run_study


def deck(case: int, gap: object, codes: str = "") -> dict[str, object]:
    return {
        "case": case, "cover.along_mm": 2000 + case, "outcome": "blocked" if codes else "planned",
        "codes": codes, "stop_codes": "", "buildable": not codes,
        "total": None if codes else Decimal(100 + case), "cover_m2": 2.0 + case, "gap": gap,
        "currency": "GBP", "units": "metric",
    }  # fmt: skip


ROWS = [deck(0, Decimal("0.00")), deck(1, Decimal("3.50")), deck(2, Decimal("13.5")),
        deck(3, None, "MAT-002 PLC-010"), deck(4, None, "MAT-002")]  # fmt: skip


@pytest.mark.parametrize("ask", [
    lambda rows: drylay.pareto(rows, {"total": "least", "cover_m2": "most"}),
    lambda rows: drylay.side_by_side(rows, by="currency", of=["total"]),
    lambda rows: drylay.cost_by_size(rows, "cover.along_mm"),
], ids=["pareto", "side_by_side", "cost_by_size"])  # fmt: skip
def test_every_answer_tells_gaps_and_codes(ask: Any) -> None:
    text = " ".join(str(ask(ROWS)).split())
    dearer = "may be dearer than the cheapest, by 13.5 GBP at most"
    # of packs, which follow the joints, the gap tells nothing: a whole order may be dearer by more
    assert f"order of 2 of 3 decks, joints reckoned in, {dearer}" in text
    assert "MAT-002 (2), PLC-010 (1)" in text
    proven = " ".join(str(ask([deck(at, Decimal(0)) for at in range(3)])).split())
    assert "may be dearer" not in proven
    assert "annot be built:" not in proven


@given(st.lists(st.decimals(0, 9, places=2) | st.none()), st.integers(0, 3))
def test_gaps_are_those_of_decks_that_can_be_built(gaps: list[Decimal | None], stops: int) -> None:
    rows = [deck(at, gap) for at, gap in enumerate(gaps)] + [deck(9, 99, "X")] * stops
    above = [gap for gap in gaps if gap]
    assert seen_in(rows) == RowsSeen(
        buildable=len(gaps), gaps=len(above), most_gap=max(above, default=Decimal(0)),
        stop_codes=(("X", stops),) if stops else (),
    )  # fmt: skip


def test_gaps_of_cells_that_are_text_are_not_passed_over() -> None:
    """Once rows of a CSV file, of which only what was asked for was made a number, had none."""
    texts: list[dict[str, object]] = [deck(0, "0.00"), deck(1, "3.50"), deck(2, ""), deck(3, "x")]
    seen = seen_in([*texts, deck(4, "9" * 500), deck(5, "NaN")])
    assert (seen.gaps, seen.most_gap) == (1, Decimal("3.50"))


def test_more_codes_than_anybody_reads_are_counted() -> None:
    assert codes_told([(f"C-{at}", 9 - at) for at in range(8)]).endswith(
        "C-5 (4), and 2 more codes"
    )


def test_a_study_tells_it_of_all_its_decks(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(study_run, "compare", lambda *_, **__: iter(ROWS))
    study = {"title": "x", "brief": SHED, "stock": STOCK, "vary": {"cover.along_mm": [1800]}}
    text = str(run_study(read_study(study)))
    assert text.startswith(
        "x\n\n5 decks: 3 planned, 2 blocked\n  MAT-002: 2\n  PLC-010: 1\nThe order"
    )
