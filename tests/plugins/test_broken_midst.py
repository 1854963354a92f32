"""All broken plugins at once, and one whose rules lie: decks are planned in their midst."""

import json
from pathlib import Path

import pytest

from broken_packages import BROKEN, LYING_RULES
from drylay.brief.reader import read_brief
from drylay.materials.loader import load_catalogue
from drylay.plan.codec import plan_to_json
from drylay.planner.design import design
from real_packages import BRIEF, STOCK, drylay, install


@pytest.fixture(scope="module")
def crowd(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a site with all broken packages but the one that claims softwood's own id."""
    site = tmp_path_factory.mktemp("crowd")
    for number, kind in enumerate(BROKEN):
        files, more, _, _ = BROKEN[kind]
        name = f"drylay-bad{number}"
        points = more.get("points", "").replace("drylay_bad", f"drylay_bad{number}")
        install(site, name, files, **{"plugin": f"bad{number}", **more, "points": points})
    return site


def test_softwood_still_plans_in_the_midst_of_them_all(crowd: Path) -> None:
    done = drylay(crowd, "design", BRIEF, "--stock", str(STOCK), "--json")
    assert done.returncode == 0, done.stderr
    alone = design(read_brief(BRIEF), stock=load_catalogue(STOCK))
    assert done.stdout == plan_to_json(alone)  # not a byte of the plan is another
    assert done.stderr.count("not used: plugin") == len(BROKEN) - 1  # one is faulty as stock only


def test_who_asks_for_a_family_that_is_lost_is_told_of_the_plugin(tmp_path: Path) -> None:
    files, _, _, says = BROKEN["raises at import"]
    install(tmp_path, "drylay-bogoak", files, plugin="bogoak")
    stock = tmp_path / "stock.toml"
    text = STOCK.read_text(encoding="utf-8")
    stock.write_text(text.replace('family = "softwood"', 'family = "bogoak"'), encoding="utf-8")
    done = drylay(tmp_path, "design", BRIEF, "--stock", str(stock), "--json")
    assert done.returncode == 1
    stops = [f["message"] for f in json.loads(done.stdout)["findings"] if f["severity"] == "stop"]
    assert any(f"plugin bogoak of package drylay-bogoak: import failed: {says}" in s for s in stops)


def test_each_lying_rule_of_a_real_package_stops_the_plan_by_its_own_name(tmp_path: Path) -> None:
    install(tmp_path, "drylay-bogoak", {"__init__.py": LYING_RULES}, plugin="bogoak")
    stock = tmp_path / "stock.toml"
    text = STOCK.read_text(encoding="utf-8")
    stock.write_text(text.replace('family = "softwood"', 'family = "bogoak"'), encoding="utf-8")
    done = drylay(tmp_path, "design", BRIEF, "--stock", str(stock), "--json")
    assert done.returncode == 1, done.stderr
    told = json.loads(done.stdout)
    stops = {f["subject"]: f["message"] for f in told["findings"] if f["severity"] == "stop"}
    assert {path: message.split(": ", 2)[2] for path, message in stops.items()} == {
        "pieces.end_gap_mm": "bad answer: value nan is not finite",
        "pieces.least_supports": "bad answer: found float, wanted Ruling",
        "pieces.stagger_bays": "failed: SystemExit: 2",
        "surface.may_rip": "failed: RecursionError: maximum recursion depth exceeded",
        "fixings.deck_screws.end_least_mm": "bad answer: source is NoneType, wanted Source",
    }
    assert told["buying"] is None


def test_strict_does_nothing_and_lists_every_fault(crowd: Path) -> None:
    done = drylay(crowd, "plugins", "--strict", "--json")
    assert done.returncode == 2
    told = json.loads(done.stdout)
    assert told["error"] == "set of plugins"
    assert len({fault["path"] for fault in told["faults"]}) == len(BROKEN)
