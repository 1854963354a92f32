"""Stock on the command line: CSV lists with their mappings, days, substitutes."""

import json
from pathlib import Path

import pytest

from cli.conftest import BRIEF, ROOT, STOCK, Run
from drylay.cli import codes

SHEET = str(ROOT / "catalogs" / "tarnbeck.csv")
MAPPING = str(ROOT / "catalogs" / "tarnbeck.map.toml")


def test_a_sound_list_has_nothing_wrong(run: Run) -> None:
    assert run("check-stock", SHEET, "--mapping", MAPPING) == (
        codes.FINE, f"{SHEET}: nothing wrong\n", ""
    )  # fmt: skip


def test_a_list_without_its_mapping_is_asked_for_one(run: Run) -> None:
    code, out, _ = run("check-stock", SHEET)
    assert (code, out.splitlines()) == (
        codes.UNUSABLE,
        [f"{SHEET}: catalogue: found a CSV file alone, wanted a mapping that says what its columns "
         "mean; nearest fix: mapping=..., --mapping MAP on the command line"],
    )  # fmt: skip


def test_every_fault_of_a_list_is_shown_and_counted(run: Run, tmp_path: Path) -> None:
    header, *rows = Path(SHEET).read_text(encoding="utf-8").splitlines()
    many = [f"X{n};Deck board;Decking;28;145;3.6;;14,60;;;;;;;" for n in range(30)]
    sheet = tmp_path / "spring.csv"
    sheet.write_text("\n".join([header, *rows, *many]), encoding="utf-8")
    code, out, err = run("check-stock", str(sheet), "--mapping", MAPPING)
    assert (code, err) == (codes.UNUSABLE, "")
    *faults, last = out.splitlines()
    # the columns, counted by hand: X0;Deck board;Decking;28;145; are 29 characters
    assert faults[0].startswith(f'{sheet}:{len(rows) + 2}:30: length_mm (Length m): found "3.6"')
    assert (len(faults), last) == (30, f"{sheet}: 30 faults")
    code, out, _ = run("check-stock", str(sheet), "--mapping", MAPPING, "--json")
    assert (code, len(json.loads(out)["faults"])) == (codes.UNUSABLE, 30)


def test_prices_rounded_up_are_told_of_a_sound_file(run: Run, tmp_path: Path) -> None:
    sheet = tmp_path / "spring.csv"
    text = Path(SHEET).read_text(encoding="utf-8").replace("5,1250", "5,1255")
    sheet.write_text(text, encoding="utf-8")
    code, out, _ = run("check-stock", str(sheet), "--mapping", MAPPING)
    assert code == codes.FINE
    # by hand: 2.4, 3.6 and 4.8 m come to 12.3012, 18.4518 and 24.6024
    assert "TB-2814: at so much a metre the prices of 3 lengths come to no whole coin" in out


def test_a_deck_is_designed_from_a_list_and_a_stock_file(run: Run, tmp_path: Path) -> None:
    brief = tmp_path / "deck.toml"
    text = Path(BRIEF).read_text(encoding="utf-8").replace('"DB-28-145"', '"TB-2814"')
    brief.write_text(text, encoding="utf-8")
    mapping = tmp_path / "map.toml"
    pounds = Path(MAPPING).read_text(encoding="utf-8").replace('"EUR"', '"GBP"')
    mapping.write_text(pounds, encoding="utf-8")
    stocks = ["--stock", STOCK, "--stock", SHEET, "--mapping", str(mapping)]
    code, out, err = run("design", str(brief), *stocks, "--on", "2027-05-01")
    assert (code, err) == (codes.FINE, "")
    assert "Deck board, larch, 28 x 145" in out
    code, _, err = run("design", str(brief), *stocks, "--on", "2027-12-01")
    assert code == codes.UNUSABLE
    # the list's own days, as its mapping has them
    assert err.splitlines() == [
        f"{brief}:18:11: board.article: found 'TB-2814', which is on sale from 2027-03-01 until "
        "2027-11-30, wanted an article that is on sale on 2027-12-01; nearest fix: "
        "DB-28-145, DB-28-120"
    ]
    code, _, err = run("design", str(brief), *stocks, "--on", "1.12.2027")
    assert code == codes.UNUSABLE
    assert "ISO 8601" in err


def test_a_day_on_which_no_price_holds_is_one_fault(run: Run) -> None:
    asked = ["--stock", SHEET, "--mapping", MAPPING, "--on", "2028-01-01"]
    for command in (["design", BRIEF], ["nearest", "TB-2814"]):
        code, _, err = run(*command, *asked)
        assert code == codes.UNUSABLE
        assert err.splitlines() == [
            "--on: found 2028-01-01, wanted a day on which prices of Tarnbeck Sawmill, Low Quarl "
            "hold: from 2027-03-01 until 2027-11-30"
        ]


@pytest.mark.parametrize("mappings", [[MAPPING, MAPPING], [MAPPING, MAPPING, MAPPING]])
def test_mappings_that_nothing_goes_with_are_told(run: Run, mappings: list[str]) -> None:
    told = [part for mapping in mappings for part in ("--mapping", mapping)]
    code, _, err = run("design", BRIEF, "--stock", SHEET, *told)
    assert code == codes.UNUSABLE
    assert f"{len(mappings)} mappings for 1 CSV files" in err


def test_substitutes_are_listed_with_all_that_changes(run: Run) -> None:
    code, out, err = run("nearest", "DB-28-145", "--stock", STOCK)
    assert (code, err) == (codes.FINE, "")
    assert [line.split(":")[0] for line in out.splitlines()] == ["DB-33-145", "DB-28-120"]
    code, out, _ = run("nearest", "DB-28-145", "--stock", STOCK, "--json")
    first = json.loads(out)[0]
    assert (first["code"], first["unit"], first["price"]["new"]) == ("DB-33-145", "m", "4.9000")
    assert {"fact": "thickness_mm", "old": 28.0, "new": 33.0, "worse": False} in first["changes"]
    code, _, err = run("nearest", "DB-28-14", "--stock", STOCK)
    assert code == codes.UNUSABLE
    assert "did you mean DB-28-145" in err
    code, out, _ = run("nearest", "GR-20", "--stock", STOCK)
    assert (code, out) == (codes.FINE, "nothing in this stock stands in for GR-20\n")
