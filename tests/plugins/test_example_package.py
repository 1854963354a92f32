"""The packages to copy in docs/examples: built, installed, and decks planned with them."""

import json
import shutil
from pathlib import Path

import pytest

from real_packages import BRIEF, ROOT, STOCK, drylay, run

EXAMPLE = ROOT / "docs" / "examples" / "plugin-larch"
YARD = ROOT / "docs" / "examples" / "plugin-yard"
FILES = sorted(path for path in EXAMPLE.rglob("*") if path.suffix in {".py", ".toml"})
PIP = ("-m", "pip", "--disable-pip-version-check", "--no-input")
#: Neither a registry nor anything that is not here already is asked for.
APART = ("--no-index", "--no-deps", "--quiet")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder that the example is installed in, out of a wheel built from it."""
    return installed(EXAMPLE, tmp_path_factory.mktemp("larch"))


def installed(example: Path, here: Path) -> Path:
    """Return a folder below here that a package is installed in, out of a wheel built from it."""
    source, wheels = here / "source", here / "wheels"
    shutil.copytree(example, source, ignore=shutil.ignore_patterns("__pycache__"))
    into = ("--no-build-isolation", "--wheel-dir", str(wheels))
    built = run(None, [*PIP, "wheel", *APART, *into, str(source)])
    assert built.returncode == 0, built.stderr + "\nflit_core is wanted: pip install -e '.[test]'"
    (wheel,) = wheels.glob("*.whl")
    done = run(None, [*PIP, "install", *APART, "--target", str(here / "site"), str(wheel)])
    assert done.returncode == 0, done.stderr
    return here / "site"


def test_it_is_under_sixty_lines_all_files_counted() -> None:
    assert {path.name for path in FILES} == {
        "__init__.py", "larch.toml", "pyproject.toml", "test_larch.py"
    }  # fmt: skip
    assert sum(len(path.read_text(encoding="utf-8").splitlines()) for path in FILES) < 60


def test_the_wheel_is_found_by_its_entry_point(site: Path) -> None:
    assert (site / "drylay_larch" / "larch.toml").is_file()
    done = drylay(site, "plugins", "--json")
    assert done.returncode == 0, done.stderr
    larch = {plugin["plugin"]: plugin for plugin in json.loads(done.stdout)["plugins"]}["larch"]
    assert (larch["package"], larch["families"]) == ("drylay-larch", ["larch"])


def test_a_deck_is_planned_with_it(site: Path, tmp_path: Path) -> None:
    """Its yard sells the boards of hobbleden.toml as larch, and fixings of stainless alone."""
    text = STOCK.read_text(encoding="utf-8").replace('family = "softwood"', 'family = "larch"')
    for metal in ("hot-dip galvanised", "coated for treated timber"):
        text = text.replace(f'metal = "{metal}"', 'metal = "stainless A2"')
    stock = tmp_path / "larch.toml"
    stock.write_text(text, encoding="utf-8")
    done = drylay(site, "design", BRIEF, "--stock", str(stock), "--json")
    assert done.returncode == 0, done.stdout[-2000:] + done.stderr
    plan = json.loads(done.stdout)
    assert [(family["id"], family["package"]) for family in plan["families"]] == [
        ("larch", "drylay-larch")
    ]
    told = {decision["path"]: decision for decision in plan["reasons"]["decisions"]}
    gap = told["surface.gap_preferred_mm"]  # the brief wishes 5, larch would have 6
    assert (gap["value"], dict(gap["inputs"])["otherwise"]) == (5.0, 6.0)
    bearing = told["pieces.end_bearing_least_mm"]
    assert bearing["rule"].startswith("as treated softwood: ")


def test_a_package_of_nothing_but_stock_is_found_and_sold_from(tmp_path: Path) -> None:
    site = installed(YARD, tmp_path)
    assert {path.name for path in (site / "drylay_yard").iterdir()} >= {"stock.toml", "__init__.py"}
    done = drylay(site, "plugins", "--json")
    assert done.returncode == 0, done.stderr
    yard = {plugin["plugin"]: plugin for plugin in json.loads(done.stdout)["plugins"]}["yard"]
    assert yard["catalogues"] == ["Pellgrove Timber Stores (invented)"]
    done = drylay(site, "nearest", "DS-45-70", "--stock-of", "yard")
    assert (done.returncode, done.stdout) == (
        0, "nothing in this stock stands in for DS-45-70\n"
    )  # fmt: skip


def test_its_own_test_keeps_the_contract(site: Path) -> None:
    test = EXAMPLE / "tests" / "test_larch.py"
    quiet = ("-q", "-p", "no:cacheprovider", "-c", str(EXAMPLE / "pyproject.toml"))
    done = run(site, ["-m", "pytest", *quiet, str(test)])
    assert done.returncode == 0, done.stdout + done.stderr
