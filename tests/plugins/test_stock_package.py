"""Stock as a package with nothing in it but data, and as one with a single line of code."""

import json
import sys
from importlib.metadata import EntryPoint
from pathlib import Path

import pytest

from drylay.brief.reader import read_brief
from drylay.materials.loader import load_catalogue
from drylay.plan.codec import plan_to_json
from drylay.planner.design import design
from drylay.plugins.loading import installed_catalogues, installed_families
from real_packages import BRIEF, ROOT, STOCK, drylay, install

TEXT = STOCK.read_text(encoding="utf-8")
LINE = """
from drylay.plugins.hooks import hookimpl
from drylay.plugins.packaged import catalogue_from_package

drylay_catalogues = hookimpl(lambda: [catalogue_from_package(__name__, "stock.toml")])
"""
BRANCH = '[catalogue]\nname = "Branch"\ncurrency = "GBP"\nvat = "included"\n\n[[screws]]\n' + (
    'code = "BR-1"\ntitle = "Screw"\nshank_mm = 5\nlength_mm = 50\nmetal = "stainless A2"\n'
    'packs = [{ count = 100, price = "9.90" }]\n'
)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a site with a yard that is data alone, one with a branch, and one with a line."""
    made = tmp_path_factory.mktemp("yards")
    install(made, "drylay-hobbleden", {"__init__.py": "", "stock.toml": TEXT}, plugin="hobbleden")
    both = {"__init__.py": "", "branch.toml": BRANCH, "yard.toml": TEXT, "readme.txt": "hello"}
    install(made, "drylay-branches", both, plugin="branches")
    other = TEXT.replace('name = "Hobbleden', 'name = "Other')
    install(made, "drylay-line", {"__init__.py": LINE, "stock.toml": other}, plugin="line")
    return made


def test_what_each_supplies_is_told(site: Path) -> None:
    done = drylay(site, "plugins", "--json", "--without-plugin", "drylay-branches")
    assert done.returncode == 0, done.stdout
    plugins = {each["plugin"]: each for each in json.loads(done.stdout)["plugins"]}
    assert plugins["hobbleden"]["catalogues"] == ["Hobbleden Timber Yard, Upper Quarl"]
    assert plugins["line"]["catalogues"] == ["Other Timber Yard, Upper Quarl"]
    assert [fault["kind"] for fault in plugins["branches"]["faults"]] == ["blocked"]


def test_a_sheet_with_its_mapping_beside_it_is_stock_too(tmp_path: Path) -> None:
    files = {
        name: (ROOT / "catalogs" / name).read_text(encoding="utf-8")
        for name in ("tarnbeck.csv", "tarnbeck.map.toml")
    }
    install(tmp_path, "drylay-tarnbeck", {"__init__.py": "", **files}, plugin="tarnbeck")
    done = drylay(tmp_path, "plugins", "--json")
    assert done.returncode == 0, done.stdout
    plugins = {each["plugin"]: each for each in json.loads(done.stdout)["plugins"]}
    assert plugins["tarnbeck"]["catalogues"] == ["Tarnbeck Sawmill, Low Quarl"]


@pytest.mark.parametrize(
    ("left_out", "says"),
    [
        ("tarnbeck.map.toml", "drylay_tarnbeck/tarnbeck.csv without tarnbeck.map.toml"),
        ("tarnbeck.csv", "drylay_tarnbeck/tarnbeck.map.toml without its CSV file"),
    ],
)
def test_half_of_a_sheet_is_told(
    left_out: str, says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "drylay_tarnbeck"
    folder.mkdir()
    for name in {"tarnbeck.csv", "tarnbeck.map.toml"} - {left_out}:
        (folder / name).write_bytes((ROOT / "catalogs" / name).read_bytes())
    monkeypatch.syspath_prepend(tmp_path)
    point = EntryPoint(name="tarnbeck", value="drylay_tarnbeck", group="drylay.v1")
    for found in (installed_catalogues, installed_families):
        (fault,) = found(entry_points=[point]).faults
        assert says in fault.wrong
    monkeypatch.delitem(sys.modules, "drylay_tarnbeck")


def test_two_plugins_with_stock_of_one_name_lose_it_both(site: Path) -> None:
    done = drylay(site, "plugins")
    assert done.returncode == 1
    claims = "claims Hobbleden Timber Yard, Upper Quarl, which plugin"
    assert f"{claims} branches of package drylay-branches supplies too" in done.stdout
    assert f"{claims} hobbleden of package drylay-hobbleden supplies too" in done.stdout


def test_a_deck_is_planned_from_the_stock_of_a_package(site: Path) -> None:
    """The plan is that of the file itself, to the last byte."""
    without = ("--without-plugin", "branches")
    done = drylay(site, "design", BRIEF, "--stock-of", "drylay-hobbleden", "--json", *without)
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout == plan_to_json(design(read_brief(BRIEF), stock=load_catalogue(STOCK)))


def test_a_plugin_without_stock_is_told_with_what_is_wrong_with_it(site: Path) -> None:
    asked = ("--stock-of", "branches", "--stock-of", "softwood", "--stock-of", "lines")
    done = drylay(site, "design", BRIEF, *asked)
    assert (done.returncode, done.stdout) == (2, "")
    first, second, third = done.stderr.splitlines()
    assert first.startswith("--stock-of: found 'branches'; plugin branches of package drylay-br")
    assert "claims Hobbleden" in first
    wanted = "wanted a plugin that brings stock along: line"
    assert second == f"--stock-of: found 'softwood', {wanted}"
    assert third == f"--stock-of: found 'lines', {wanted}; nearest fix: line"


def test_every_fault_of_a_stock_file_in_a_package_has_a_line_of_its_own(tmp_path: Path) -> None:
    bad = BRANCH.replace("length_mm = 50", "length_mm = true").replace('"9.90"', "9.9")
    install(tmp_path, "drylay-bad", {"__init__.py": "", "stock.toml": bad}, plugin="bad")
    told = drylay(tmp_path, "plugins").stdout.split("bad (", 1)[1].splitlines()
    assert told[1] == "  not used: failed: 2 faults:"
    places = [line.split(": found")[0] for line in told[2:4]]
    assert places == [
        "    drylay_bad/stock.toml:10:13: screws[0].length_mm (BR-1)",
        "    drylay_bad/stock.toml:12:33: screws[0].packs[0].price (BR-1)",
    ]
    done = drylay(tmp_path, "design", BRIEF, "--stock-of", "bad")
    assert [line.count("found") for line in done.stderr.splitlines()] == [2, 2]
    done = drylay(tmp_path, "families")
    assert "not used: plugin bad" not in done.stdout
    plain = json.loads(drylay(tmp_path, "plugins", "--json").stdout)["plugins"]
    (fault,) = next(each["faults"] for each in plain if each["plugin"] == "bad")
    assert len(fault["wrongs"]) == 2


def test_two_files_of_one_name_are_told_by_their_names(tmp_path: Path) -> None:
    files = {"__init__.py": "", "east.toml": BRANCH, "west.toml": BRANCH}
    install(tmp_path, "drylay-two", files, plugin="two")
    told = drylay(tmp_path, "plugins").stdout
    assert "Branch is in drylay_two/east.toml and in drylay_two/west.toml" in told
