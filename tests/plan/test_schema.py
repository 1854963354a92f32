"""The schemas under docs/schema: current, and met by what is real."""

import json
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

import drylay
from drylay.plan.codec import plan_to_json
from drylay.plan.model import SCHEMA_VERSION
from drylay.plan.schema import schemas, write
from materials.test_records import GOOD as RECORDS
from plan.made import EXAMPLES, plans
from plan.sample import blocked_plan, sample_plan
from plan.standing_sample import standing_plan

ROOT = Path(__file__).parents[2]
SCHEMAS = ROOT / "docs" / "schema"


@cache
def validator(name: str) -> Draft202012Validator:
    schema = json.loads((SCHEMAS / f"{name}.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def test_the_committed_schemas_are_current(tmp_path: Path) -> None:
    write(tmp_path)
    for name, text in schemas().items():
        committed = (SCHEMAS / name).read_text(encoding="utf-8")
        assert committed == text, "run python -m drylay.plan.schema docs/schema"
        assert (tmp_path / name).read_text(encoding="utf-8") == text


def test_plan_files_meet_the_schema() -> None:
    made = [sample_plan(), sample_plan(row_length_mm=9000.0), blocked_plan(), standing_plan()]
    for plan in [*plans(), *made]:
        validator("plan").validate(json.loads(plan_to_json(plan)))


@pytest.mark.parametrize(
    ("above", "key", "value"),
    [
        ((), "colour", "red"),
        ((), "schema_version", SCHEMA_VERSION + 1),
        ((), "units", "metrics"),
        (("surface",), "cover_along_mm", "3600"),
        (("surface", "rows", 0), "near_mm", None),
        (("buying",), "total", 14.4),
        (("buying",), "total", "1e9"),
        (("findings", 0), "severity", "fatal"),
        (("reasons", "decisions", 0), "inputs", [["a", 1, 2]]),
    ],
)
def test_a_broken_plan_file_does_not(above: tuple[Any, ...], key: str, value: object) -> None:
    document = json.loads(plan_to_json(sample_plan()))
    place = document
    for part in above:
        place = place[part]
    place[key] = value
    assert not validator("plan").is_valid(document)


def test_a_key_left_out_of_a_plan_file_is_seen() -> None:
    document = json.loads(plan_to_json(sample_plan()))
    del document["surface"]["rows"][0]["ripped"]
    assert not validator("plan").is_valid(document)


@pytest.mark.parametrize("name", EXAMPLES)
def test_briefs_meet_the_schema_typed_and_as_plain_data(name: str) -> None:
    path = ROOT / "docs" / "examples" / f"{name}.toml"
    validator("brief").validate(tomllib.loads(path.read_text(encoding="utf-8")))
    validator("brief").validate(drylay.read_brief(path).to_dict())


BRIEF: dict[str, Any] = {
    "title": "A deck",
    "cover": {"along": "6 m", "across_mm": 3000},
    "board": {"article": "B"},
    "frame": {"article": "T"},
    "fixings": {"screw": "S", "coach_screw": "C"},
}


def test_a_length_is_a_number_of_mm_or_a_text_with_a_unit() -> None:
    assert validator("brief").is_valid(BRIEF)


@pytest.mark.parametrize(
    ("section", "change"),
    [
        ("cover", {"along": "6 m", "along_mm": 6000, "across_mm": 3000}),
        ("cover", {"across_mm": 3000}),
        ("cover", {"along_mm": "6 m", "across_mm": 3000}),
        ("cover", {"along": 6, "across_mm": 3000}),
        ("board", {"article": "B", "colour": "red"}),
        ("board", {"article": "B", "run": "askew"}),
        ("fascia", {"sides": ["back"]}),
        ("gap", {"least": "4 mm", "least_mm": 4}),
        ("joints", {"price_each": 1.5}),
        ("overrides", [{"path": "surface.gap_least_mm", "value": 4, "unit": "mm"}]),
    ],
)
def test_a_broken_brief_does_not_meet_it(section: str, change: object) -> None:
    assert not validator("brief").is_valid({**BRIEF, section: change})


def test_a_brief_on_an_outline_meets_the_schema_without_a_cover() -> None:
    path = ROOT / "tests" / "outline" / "corner-and-bay.toml"
    typed = tomllib.loads(path.read_text(encoding="utf-8"))
    validator("brief").validate(typed)
    validator("brief").validate(drylay.read_brief(path).to_dict())
    bare = {name: table for name, table in typed.items() if name != "outline"}
    assert not validator("brief").is_valid(bare)
    for breakers, valid in (("none", True), (["1.8 m"], True), ("some", False), ([1800], False)):
        document = {**typed, "laying": {"breakers": breakers}}
        assert validator("brief").is_valid(document) == valid


@pytest.mark.parametrize("name", sorted(set(EXAMPLES.values())))
def test_stock_files_meet_the_schema(name: str) -> None:
    text = (ROOT / "catalogs" / f"{name}.toml").read_text(encoding="utf-8")
    document = tomllib.loads(text)
    validator("catalogue").validate(document)
    document["boards"][0]["lengths"][0]["price"] = 9.6
    assert not validator("catalogue").is_valid(document)
    del document["boards"], document["catalogue"]["currency"]
    assert not validator("catalogue").is_valid(document)


@pytest.mark.parametrize(
    "path",
    sorted(p for p in (ROOT / "catalogs").glob("*.toml") if ".map" not in p.name),
    ids=lambda path: path.stem,
)
def test_every_stock_file_we_ship_meets_the_schema(path: Path) -> None:
    validator("catalogue").validate(tomllib.loads(path.read_text(encoding="utf-8")))


def test_records_prices_and_packs_meet_the_schema_and_their_slips_do_not() -> None:
    document = json.loads(json.dumps(tomllib.loads(RECORDS), default=str))
    validator("catalogue").validate(document)
    board, tile = document["boards"][0], document["tiles"][0]
    for article, change in (
        (board, {"lengths": [{"length_mm": 3600, "price": "9.00"}]}),  # beside a price for a metre
        (board, {"gtin": 6291041500213}),
        (board, {"record": {"batch": "L7"}}),
        (tile, {"each": 17.9}),
        (tile, {"packs": [{"price": "1"}]}),
    ):
        kind = "boards" if article is board else "tiles"
        assert not validator("catalogue").is_valid({**document, kind: [{**article, **change}]})
    for article, needed in ((board, "price_per_m"), (tile, "each")):
        bare = {key: value for key, value in article.items() if key not in (needed, "packs")}
        kind = "boards" if article is board else "tiles"
        assert not validator("catalogue").is_valid({**document, kind: [bare]})
