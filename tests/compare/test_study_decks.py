"""Questions of a study file about decks themselves: as their calls answer, checked beforehand."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

import drylay
from compare.sheds import STOCK
from drylay.compare import study_decks, study_run
from drylay.compare.study_file import read_study
from drylay.compare.study_run import run_study
from drylay.errors import Cancelled, InputError
from drylay.plugins.model import FamilySet

#: Two rows, none jointed.
STEP = {
    "title": "Step",
    "cover": {"along_mm": 2450, "across_mm": 295},
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145"},
    "joints": {"most_per_row": 0},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}
FILE = """title = "Steps"
brief = "step.toml"
stock = "stock.toml"
[vary]
cover.along_mm = [2350, 2950]
board.run = ["along"]
[[ask]]
what = "lengths_to_keep"
article = "DB-28-145"
keep = 2
counts = [3, 1]
[[ask]]
what = "price_breaks"
article = "DB-28-145"
length_mm = 3000
least = "10.00"
most = "14.00"
where.cover.along_mm = 2350
[[ask]]
what = "holding_prices"
articles = ["DB-28-145"]
[[ask]]
what = "uncertainty"
samples = 3
[ask.spreads]
life.boards = "family"
stock.price_ratio.DB-28-145 = [0.9, 1.1]
"""
BRIEF = """title = "Step"
cover.along_mm = 2450
cover.across_mm = 295
board.article = "DB-28-145"
frame.article = "FT-45-145"
joints.most_per_row = 0
fixings.screw = "DS-45-70"
fixings.coach_screw = "CS-8-120"
"""


def step(along_mm: float) -> drylay.Brief:
    return drylay.read_brief({**STEP, "cover": {"along_mm": along_mm, "across_mm": 295}})


def told(vary: dict[str, object], *ask: dict[str, object]) -> list[Any]:
    varied = {"vary": vary} if vary else {}
    study = {"title": "x", "brief": STEP, "stock": STOCK, "mode": "quick", "ask": ask, **varied}
    return [answer for _, answer in run_study(read_study(study)).answers]


def test_lengths_are_those_of_the_mix() -> None:
    """By hand: six rows of 2350 mm and two of 2950: 8 x 11.85, or 6 x 9.60 and 2 x 11.85."""
    ask = {"what": "lengths_to_keep", "article": "DB-28-145", "keep": 2, "counts": [3, 1]}
    (kept,) = told({"cover.along_mm": [2350, 2950]}, ask)
    assert [each.cost for each in kept.choices] == [Decimal("94.80"), Decimal("81.30")]
    assert kept.decks == (("case 0: along 2350 mm", 3), ("case 1: along 2950 mm", 1))


def test_a_deck_as_it_stands_needs_nothing_that_varies() -> None:
    """By hand: two rows of 2450 mm are two of 3000, or one of 5400 at 24.30: 2 x 12.15."""
    prices = {"article": "DB-28-145", "length_mm": 3000, "least": "12.10", "most": "12.20"}
    (found,) = told({}, {"what": "price_breaks", **prices})
    assert [(span.name, span.first, span.last, span.bought) for span in found.spans] == [
        ("Step", Decimal("12.10"), Decimal("12.15"), ((3000.0, 3),)),
        ("Step", Decimal("12.16"), Decimal("12.20"), ((5400.0, 2),)),
    ]


def test_calls_are_handed_what_the_file_tells(monkeypatch: pytest.MonkeyPatch) -> None:
    heard: list[tuple[Any, dict[str, Any]]] = []

    def call(decks: Any, **named: Any) -> Any:
        heard.append((decks, named))
        raise InputError(()) if len(heard) > 3 else Cancelled("checked")

    for what in ("holding_prices", "uncertainty"):
        monkeypatch.setitem(study_decks.VERBS, what, call)
    holding = {"what": "holding_prices", "articles": ["DB-28-145"],
               "where": {"cover.along_mm": 2350}}  # fmt: skip
    life = {"what": "uncertainty", "samples": 3, "seed": 5, "spreads": {"life.boards": "family"}}
    assert told({"cover.along_mm": [2350, 2950]}, holding, life) == []
    *_, (decks, named), (brief, of) = heard
    assert decks == {"case 0: along 2350 mm": step(2350)}
    assert (named["articles"], named["stock"]) == (["DB-28-145"], STOCK)
    assert brief == step(2450)
    wanted = {"stock": STOCK, "mode": "quick", "samples": 3, "seed": 5,
              "spreads": {"life.boards": None}, "journal": None, "rate_ratio": 0.0}  # fmt: skip
    assert wanted.items() <= of.items()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    (tmp_path / "step.toml").write_text(BRIEF)
    stock = Path(__file__).parents[2] / "catalogs/hobbleden.toml"
    (tmp_path / "stock.toml").write_bytes(stock.read_bytes())
    return tmp_path / "study.toml"


def test_they_are_read_from_a_file(file: Path) -> None:
    file.write_text(FILE)
    asked = read_study(file).questions
    assert [(each.name, len(each.decks)) for each in asked] == [
        ("lengths-to-keep-1", 2), ("price-breaks-2", 1), ("holding-prices-3", 2),
        ("uncertainty-4", 1),
    ]  # fmt: skip
    assert dict(asked[3].named)["spreads"] == {
        "life.boards": None, "stock.price_ratio.DB-28-145": [0.9, 1.1],
    }  # fmt: skip


WRONG = [
    ('article = "DB-28-145"', 'article = "DB-28-154"', 9, "ask[0].article"),
    ("keep = 2", "keep = 0", 10, "ask[0].keep"),
    ("keep = 2", "kept = 2", 10, "ask[0].kept"),
    ("[3, 1]", "[3]", 11, "ask[0].counts"),
    ("[3, 1]", "[3, true]", 11, "ask[0].counts"),
    ("= 3000", "= 3001", 15, "ask[1].length_mm"),
    ('"10.00"', "10.0", 16, "ask[1].least"),
    ('"10.00"', '"15"', 16, "ask[1].least"),
    ('most = "14.00"\n', "", 12, "ask[1].most"),
    ("where.cover.along_mm = 2350", "where.cover.along_mm = 2351", 18,
     "ask[1].where.cover.along_mm"),
    ("where.cover.along_mm = 2350", "where.total = 2351", 18, "ask[1].where.total"),
    ('["DB-28-145"]', '["DS-45-70"]', 21, "ask[2].articles[0]"),
    ("samples = 3", "samples = 1", 24, "ask[3].samples"),
    ("samples = 3", "where.board.run = 3", 24, "ask[3].where.board.run"),
    ("samples = 3", 'where.board.run = "along"', 24, "ask[3].where"),
    ("samples = 3", "ratio = [3]", 24, "ask[3].ratio"),
    ('life.boards = "family"', "life.boards = 3", 26, "ask[3].spreads.life.boards"),
    ('life.boards = "family"', "life.board = 3", 26, "ask[3].spreads.life.board"),
    ("[0.9, 1.1]", "[0.9, 1.1, 1.0]", 27, "ask[3].spreads.stock.price_ratio.DB-28-145"),
    ("[2350, 2950]", "[2350, 0]", 7, "ask[0].where, case 1, cover.along_mm"),
    ('board.run = ["along"]', "stock.price_ratio = [1.1]", 8, "ask[0].what"),
]  # fmt: skip


@pytest.mark.parametrize(("was", "edit", "line", "path"), WRONG)
def test_what_cannot_be_asked_is_told_with_its_place(
    file: Path, was: str, edit: str, line: int, path: str
) -> None:
    assert was in FILE
    file.write_text(FILE.replace(was, edit, 1))
    with pytest.raises(InputError) as found:
        read_study(file)
    assert (line, path) in [(each.line, each.path) for each in found.value.faults]


def test_all_that_is_wrong_with_a_question_is_told_at_once(file: Path) -> None:
    edits = {'article = "DB-28-145"\nkeep = 2': 'article = "DB-28-154"\nkeep = 0',
             "[3, 1]": "[3, 1]\nwhere.cover.along_mm = 3", "samples = 3": "samples = 1",
             'life.boards = "family"': "life.boards = 3"}  # fmt: skip
    text = FILE
    for was, edit in edits.items():
        assert was in text
        text = text.replace(was, edit, 1)
    file.write_text(text)
    with pytest.raises(InputError) as found:
        read_study(file)
    assert [(each.line, each.path) for each in found.value.faults] == [
        (9, "ask[0].article"), (10, "ask[0].keep"), (12, "ask[0].where.cover.along_mm"),
        (25, "ask[3].samples"), (27, "ask[3].spreads.life.boards"),
    ]  # fmt: skip


def test_what_hangs_on_families_is_told_before_the_first_deck(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(study_run, "compare", None)
    ask = {"what": "uncertainty", "spreads": {"life.boards": "family"}}
    study = read_study({"title": "x", "brief": STEP, "stock": STOCK, "ask": [ask]})
    with pytest.raises(InputError, match=r"uncertainty-1\."):
        run_study(study, families=FamilySet())


def test_too_many_decks_for_a_question_are_told() -> None:
    ask = {"what": "holding_prices"}
    with pytest.raises(InputError, match="wanted 1 to 500 decks"):
        told({"cover.along_mm": range(2000, 2501)}, ask)
    with pytest.raises(InputError, match="10000 cases at most"):
        told({"cover.along_mm": range(1, 10_002)}, ask)
