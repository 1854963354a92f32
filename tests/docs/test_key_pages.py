"""The pages on the brief and the stock file name every key, with the code's own bounds."""

import json
import re
import tomllib
from pathlib import Path
from typing import Any

import attrs
import pytest

import drylay
from drylay.brief.keys import INSIDE, OVERRIDABLE, OVERRIDE, SECTIONS, TOP
from drylay.brief.model import Brief
from drylay.intake.keys import Key, bare_name
from drylay.materials import articles, mapping_keys
from drylay.materials import keys as stock_keys
from drylay.materials.model import NO_RECORD, PLAIN, QUESTIONS, RULE_BOUNDS
from drylay.planner.governed import GOVERNED

RECORDED = [rule for rule in QUESTIONS if rule not in NO_RECORD]
ROOT = Path(__file__).parents[2]
BRIEF = (ROOT / "docs/brief.md").read_text(encoding="utf-8")
STOCK = (ROOT / "docs/stock.md").read_text(encoding="utf-8")
SHEET = (ROOT / "docs/stock-csv.md").read_text(encoding="utf-8")
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
TILE_YARD = drylay.load_catalogue(ROOT / "catalogs/sallowby.toml")

#: Decimals of the demo currency, which the keys of a price depend on. Source: ISO 4217.
PENCE = 2
HEAD = ["key", "what it is", "what may be written", "left out"]

BRIEF_TABLES = {
    "Top-level keys": TOP,
    **SECTIONS,
    **{f"`[[{section}.{key}]]`": keys for (section, key), keys in INSIDE.items()},
    "overrides": OVERRIDE,
}
STOCK_TABLES = {
    "Top-level keys": stock_keys.TOP,
    "catalogue": stock_keys.CATALOGUE,
    **{kind: stock_keys.article_keys(kind, PENCE) for kind in stock_keys.ARTICLES},
    "What a list may tell of any article": stock_keys.RECORD,
    "lengths": stock_keys.stock_length_keys("boards", PENCE),
    "packs": stock_keys.pack_keys("screws", PENCE),
    "The merchant's own rules": stock_keys.RULE,
}
SHEET_TABLES = {
    "Top-level keys": mapping_keys.TOP,
    "file": mapping_keys.FILE,
    "rows": mapping_keys.ROWS,
    "A column": mapping_keys.COLUMN,
    "a column of rules": mapping_keys.RULE,
}
#: What the page says where a key's bounds depend on something else than the key.
SAID_APART = {
    "currency": "a code of ISO 4217 in capitals, such as `GBP`",
    "path": "one of the paths below",
    "unit": "`mm`, `count` or `ratio`, as the path has it",
    "lengths": "list of lengths, see below",
    "packs": "list of packs, see below",
    "rules": "list of rules, see below",
    "rule": "one of the names below",
}
MEASURES = {
    "overrides": "a number within the path's bounds; a length may be a text with its unit",
    "The merchant's own rules": "within the rule's bounds below",
    "file": "list of texts",
}
#: Keys of a mapping that are told like others, though keys of their name elsewhere are not.
PLAINLY = {("A column", "unit"), ("a column of rules", "unit"), ("a column of rules", "rule")}
#: Words in code letters that look like keys and are names in Python.
NO_KEYS = {"overrides[0].value", "section.key"}


def tables(text: str) -> list[tuple[str, list[list[str]]]]:
    """Return every table of a page with the name of its heading, its head row first."""
    found, name = [], ""
    for block in re.split(r"\n\n+", text):
        lines = block.strip().split("\n")
        heading = re.fullmatch(r"#+ (?:`\[*(\w+)\]*`|(.+?))(?:: .*)?", lines[0])
        name = (heading[1] or heading[2]) if heading else name
        if lines[0].startswith("| "):
            rows = [row.strip("| ").split(" | ") for row in lines if not row.startswith("|--")]
            found.append((name, rows))
    return found


def rows_of(text: str, head: list[str]) -> dict[str, dict[str, list[str]]]:
    """Return the rows of all tables with this head: heading to first column to the rest."""
    return {
        name: {row[0].strip("`"): row[1:] for row in rows[1:]}
        for name, rows in reversed(tables(text))  # the first table under a heading counts
        if rows[0] == head
    }


def may_be_written(key: Key, table: str) -> str:
    """Return a key's bounds as the pages say them."""
    low, high = f"{key.least:.0f}", f"{key.most:.0f}"
    words = [f"`{word}`" for word in key.choices]
    by_kind = {
        "length": f"{low} to {high} mm",
        "lengths": f"list of lengths, {low} to {high} mm",
        "count": f"whole number, {low} to {high}",
        "money": f"money, {low} to {high}, at most {key.digits} decimals",
        "text": f"text of {'1' if key.least else 'up'} to {high} characters",
        "choice": " or ".join([", ".join(words[:-1]), *words[-1:]]),
        "choices": f"list of {f'at least {low} of ' if key.least else ''}{', '.join(words)}",
        "number": f"{key.least:g} to {key.most:g}",
        "flag": "`true` or `false`",
        "day": "day",
        "gtin": "GTIN",
        "table": "section",
        "tables": "list of sections",
        "measure": MEASURES.get(table, ""),
    }
    if (table, key.name) in PLAINLY:
        return by_kind[key.kind]
    return SAID_APART.get(key.name, by_kind[key.kind])


def wrong_rows(text: str, known: dict[str, tuple[Key, ...]]) -> list[str]:
    """Return what a page says otherwise than the keys do."""
    told = rows_of(text, HEAD)
    wrong = [f"tables {sorted(told)}"] if set(known) != set(told) else []
    for table, keys in known.items():
        said = told.get(table, {})
        if list(said) != [key.name for key in keys]:
            wrong.append(f"{table}: {list(said)}")
        for key in keys:
            _, written, left_out = said.get(key.name, ["", "", ""])
            if written != may_be_written(key, table):
                wrong.append(f"{table}.{key.name}: {written}")
            if (left_out == "needed") != key.required:
                wrong.append(f"{table}.{key.name} left out: {left_out}")
    return wrong


def price_as_told(text: str) -> str:
    """Return the stock page with a price's bounds as the keys have them in pence."""
    finer = PENCE + stock_keys.FINER
    coin = "one smallest coin to 1000000"
    assert text.count(f"money, {coin}") == 2 + len(stock_keys.BY_METRE + stock_keys.BY_PIECE)
    text = text.replace(f"{coin}, 2 decimals finer", f"0 to 1000000, at most {finer} decimals")
    return text.replace(coin, f"0 to 1000000, at most {PENCE} decimals")


def test_every_key_of_a_brief_is_told_with_its_bounds() -> None:
    assert wrong_rows(BRIEF, BRIEF_TABLES) == []


def test_every_key_of_a_stock_file_is_told_with_its_bounds() -> None:
    assert wrong_rows(price_as_told(STOCK), STOCK_TABLES) == []


def test_every_key_of_a_mapping_is_told_with_its_bounds() -> None:
    told = SHEET.replace("### `[[rows.rules]]`: a column of rules", "### a column of rules")
    told = told.replace("`\\|`", "`|`")  # a bar would end the cell of a table
    assert wrong_rows(told, SHEET_TABLES) == []
    assert wrong_rows(told.replace("0 to 100 |", "0 to 10 |"), SHEET_TABLES)


def test_a_key_or_bound_that_a_page_has_wrong_is_seen() -> None:
    row = next(line for line in BRIEF.split("\n") if line.startswith("| `kerf_mm`"))
    assert wrong_rows(BRIEF.replace(row + "\n", ""), BRIEF_TABLES)
    assert wrong_rows(BRIEF.replace(row, row.replace("10 mm", "20 mm")), BRIEF_TABLES)
    assert wrong_rows(BRIEF.replace(row, f"{row}\n{row.replace('kerf', 'saw')}"), BRIEF_TABLES)
    assert wrong_rows(BRIEF.replace(row, row.replace("`4`", "needed")), BRIEF_TABLES)


def test_the_source_of_a_rule_is_told_with_its_bounds() -> None:
    (source,) = (rows for name, rows in tables(STOCK) if rows[1][0] == "`kind`")
    told = {row[0].strip("`"): row[2:] for row in source[1:]}
    assert told == {
        key.name: [may_be_written(key, "source"), "needed" if key.required else "empty"]
        for key in articles._SOURCE
    }


def test_every_override_path_is_told_with_unit_bounds_and_rule() -> None:
    ((_, rows),) = (table for table in tables(BRIEF) if table[1][0][0] == "path")
    rule = {governed.path: governed.rule for governed in GOVERNED}
    assert rows[1:] == [
        [f"`{path}`", f"{what.unit}, {what.least:.0f} to {what.most:.0f}", QUESTIONS[rule[path]][1]]
        for path, what in OVERRIDABLE.items()
    ]


def first_toml(text: str) -> dict[str, Any]:
    return tomllib.loads(blocks(text, "toml")[0])


def blocks(text: str, language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", text, re.MULTILINE | re.DOTALL)


def with_rule(rule: str, value: object) -> dict[str, Any]:
    """Return the stock file of the page with one record, that of this rule."""
    stock = first_toml(STOCK)
    source = {"kind": "merchant record", "title": "a sheet"}
    stock["boards"][0]["rules"] = [{"rule": rule, "value": value, "source": source}]
    return stock


def told_rules() -> dict[str, list[str]]:
    ((_, rows),) = (table for table in tables(STOCK) if table[1][0][0] == "rule")
    return {row[0].strip("`"): row[1:] for row in rows[1:]}


def test_every_rule_is_told_as_families_are_asked_it() -> None:
    assert {name: says for name, (says, _) in told_rules().items()} == {
        name: QUESTIONS[name][1] for name in RECORDED
    }


@pytest.mark.parametrize("rule", RECORDED)
def test_a_rule_is_read_up_to_its_bounds_and_no_further(rule: str) -> None:
    bounds = told_rules()[rule][1]
    number = r"(?<![\w/])\d+(?:\.\d+)?"  # the 3 of kg/m3 is none
    low, high = map(json.loads, re.findall(number, bounds))
    assert re.sub(number, "", bounds).replace(" or ", " to ").strip(" ,") in {
        {
            "mm": "to  mm",
            "count": "count,  to",
            "ratio": "ratio,  to",
            "yes/no": "to",
        }.get(QUESTIONS[rule][0], f"{QUESTIONS[rule][0]},  to")
    }
    assert [drylay.check_catalogue(with_rule(rule, value)) for value in (low, high)] == [(), ()]
    assert all(drylay.check_catalogue(with_rule(rule, value)) for value in (low - 1, high + 1))
    assert RULE_BOUNDS[rule] == (low, high)


def default_told(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(f"`{word}`" for word in value) or "`[]`"
    if value == "":
        return "empty"
    return f"`{str(value).lower() if isinstance(value, bool) else value}`"


@pytest.mark.parametrize("section", SECTIONS)
def test_what_holds_when_a_key_is_left_out_is_what_the_model_says(section: str) -> None:
    told = rows_of(BRIEF, HEAD)[section]
    wish = getattr(drylay.read_brief(first_toml(BRIEF)), section)
    for field in attrs.fields(type(wish)):
        if field.default not in (attrs.NOTHING, None):
            left_out = int(field.default) if type(field.default) is float else field.default
            assert told[field.name][2] == default_told(left_out), field.name


@pytest.mark.parametrize("key", ["use", "units"])
def test_what_holds_when_a_word_at_the_top_is_left_out(key: str) -> None:
    assert rows_of(BRIEF, HEAD)["Top-level keys"][key][2] == default_told(
        getattr(attrs.fields(Brief), key).default
    )


def test_what_a_rule_answers_when_a_wish_is_left_out_is_what_a_plan_says() -> None:
    coated = {**first_toml(BRIEF), "finish": {"article": "DO-NATURAL"}}
    plan = drylay.design(drylay.read_brief(coated), stock=YARD)
    told = rows_of(BRIEF, HEAD)
    wished = [governed for governed in GOVERNED if governed.wished_at]
    ruled: dict[str, list[str]] = {}
    for governed in wished:
        answer = plan.why(governed.path).value
        says = f"rule `{governed.rule}` ({float(str(answer)):g})"
        if says not in ruled.setdefault(governed.wished_at, []):
            ruled[governed.wished_at].append(says)
    for wished_at, says in ruled.items():
        section, key = wished_at.split(".")
        assert told[section][key][2] == ", ".join(says)
    said = re.findall(r"rule `\w+` \([\d.]+\)", BRIEF)
    assert len(said) == sum(map(len, ruled.values()))


def names_known() -> set[str]:
    """Return every name a page may use for a key, a rule or a path."""
    known = {**BRIEF_TABLES, **STOCK_TABLES, "source": articles._SOURCE}
    keys = [(table, key) for table, found in known.items() for key in found]
    names = {key.name for _, key in keys} | {bare_name(key) for _, key in keys}
    words = {word for _, key in keys for word in key.choices}
    paths = {f"{table}.{key.name}" for table, key in keys}
    return names | paths | words | set(OVERRIDABLE) | set(QUESTIONS) | set(drylay.__all__)


@pytest.mark.parametrize("text", [BRIEF, STOCK], ids=["brief", "stock"])
def test_no_key_is_named_that_does_not_exist(text: str) -> None:
    prose = re.sub(r"^```.*?^```", "", text, flags=re.MULTILINE | re.DOTALL)
    coded = re.findall(r"`([^`\n]+)`", prose)
    like_keys = {word for word in coded if re.fullmatch(r"[a-z]+(?:[._\[][a-z0-9_.\]]+)+", word)}
    assert like_keys - names_known() - NO_KEYS == set()


def whole(block: str) -> str:
    """Return a block of the brief page as a whole brief: a part goes behind the first one."""
    return block if "title =" in block else f"{blocks(BRIEF, 'toml')[0]}\n{block}"


def refused(block: str) -> bool:
    return block.startswith("# refused")


@pytest.mark.parametrize("block", [b for b in blocks(BRIEF, "toml") if not refused(b)])
def test_a_brief_on_the_page_is_read_and_designs_a_plan(block: str) -> None:
    brief = drylay.read_brief(tomllib.loads(whole(block)))
    tiled = brief.board.support is not None
    assert drylay.design(brief, stock=TILE_YARD if tiled else YARD).buildable


def test_the_plan_of_the_first_brief_is_as_the_page_says() -> None:
    plan = drylay.design(drylay.read_brief(first_toml(BRIEF)), stock=YARD)
    # by hand: 16 x 145 + 15 x 5 = 2395
    assert (len(plan.surface.rows), plan.surface.gap_preferred_mm) == (16, 5)
    assert (plan.supports.most_centres_mm, plan.edges.faces) == (400, ())
    assert "16 rows at a gap of 5 mm, joists no\nfurther apart than 400 mm, no fascia" in BRIEF


def test_the_stock_file_on_the_page_is_read_and_designs_a_plan() -> None:
    (block,) = blocks(STOCK, "toml")
    stock = drylay.load_catalogue(tomllib.loads(block))
    brief = drylay.read_brief(first_toml(BRIEF))
    plan = drylay.design(brief, stock=stock)
    assert plan.buildable
    assert plan.why("supports.most_centres_mm").source.title in block
    faced = brief.replace("fascia", {"sides": ["front"], "article": "FA-28-145"})
    assert drylay.design(faced, stock=stock).buildable


def console(text: str) -> list[str]:
    """Return the answer to the one command a page shows."""
    (shown,) = blocks(text, "console")
    return shown.splitlines()[1:]


def test_the_faults_shown_are_those_of_the_brief_shown(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (block,) = filter(refused, blocks(BRIEF, "toml"))
    monkeypatch.chdir(tmp_path)
    Path("deck.toml").write_text(block, encoding="utf-8")
    assert [str(fault) for fault in drylay.check_brief("deck.toml")] == console(BRIEF)


def test_the_fault_shown_is_that_of_the_price_without_quotes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    block = blocks(STOCK, "toml")[0].replace('"9.80"', "9.8", 1)
    monkeypatch.chdir(tmp_path)
    Path("stock.toml").write_text(block, encoding="utf-8")
    assert [str(fault) for fault in drylay.check_catalogue("stock.toml")] == console(STOCK)


#: A sensible record of each rule for the page's board; trade values, common practice, no source.
RECORDS: dict[str, float] = {
    **PLAIN,
    "most_centres_mm": 380, "gap_preferred_mm": 6, "gap_least_mm": 4.5, "gap_most_mm": 7.5,
    "end_gap_mm": 3, "end_bearing_least_mm": 20, "least_supports": 4, "stagger_bays": 3,
    "sliver_mm": 70, "may_rip": 0, "least_rip_mm": 80, "screws_per_crossing": 2,
    "screw_length_least_mm": 65, "screw_edge_least_mm": 25, "screw_end_least_mm": 18,
    "screw_pilot_ratio": 0.6, "coach_screws_per_joist_end": 2,
    "coach_screw_length_least_mm": 110, "coach_screw_sink_mm": 10,
    "coach_screw_pilot_ratio": 0.6,
    "frame_screws_per_noggin_end": 3, "frame_screws_per_splice_side": 6,
    "frame_screw_length_least_mm": 100, "fascia_screws_per_place": 2,
    "fascia_screw_spacing_most_mm": 500, "fascia_screw_end_least_mm": 50,
    "fascia_screw_length_least_mm": 60, "board_use_class_least": 3, "frame_use_class_least": 4,
    "noggin_spacing_most_mm": 1500, "spare_ratio": 0.1,
    "movement_per_pct": 0.0025, "growth_per_k": 5e-6, "wet_slip_least": 36, "hottest_board_c": 60,
    "wettest_board_pct": 24, "driest_board_pct": 14,
    "upkeep_h_m2_year": 0.1, "life_least_years": 10, "life_most_years": 15,
    "frame_life_least_years": 15, "frame_life_most_years": 30,
    "preserver_coats": 3, "finish_coats": 1, "groove_ratio": 0.4,
    "density_most_kg_m3": 650,
}  # fmt: skip


@pytest.mark.parametrize("rule", RECORDED)
def test_a_sensible_record_of_any_rule_designs_a_plan(rule: str) -> None:
    brief = drylay.read_brief(first_toml(BRIEF))
    stock = drylay.load_catalogue(with_rule(rule, RECORDS[rule]))
    assert drylay.design(brief, stock=stock).buildable
