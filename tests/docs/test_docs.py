"""What the documents show is run, and what they list is compared with the code."""

import doctest
import importlib
import re
import tomllib
import types
from pathlib import Path

import pytest
from attrs import asdict, evolve

import drylay
from basis_liars import BEAM
from drylay.cli.codes import MEANINGS
from drylay.cli.parser import parser
from drylay.cutting.closing import aim
from drylay.cutting.model import WorkLimits
from drylay.materials.model import PLAIN, QUESTIONS, TRAITS
from drylay.papers.tables import CUTS, LABELS, ORDER
from drylay.planner.folder import LEFT_OUT, MAKERS
from drylay.planner.local import local_findings
from drylay.plugins.basis_guard import loads_by, screened_by
from drylay.plugins.guard import ask
from drylay.plugins.loading import installed_families
from drylay.plugins.model import PLUGIN_FAULTS, RuleFault
from drylay.plugins.table_keys import FAMILY, conditions, entry_keys
from drylay.plugins.table_reader import read_family_table
from drylay.reasons import Ruling
from drylay.testing import BASIS_LAWS, FAMILY_LAWS, STOCK_LAWS
from liars import PRACTICE, QUERY, entry
from plan.sample import sample_plan
from strength.asked import post

ROOT = Path(__file__).parents[2]
PAGES = sorted([ROOT / "README.md", ROOT / "DEVELOPERS.md", *ROOT.glob("docs/**/*.md")])


def page(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def blocks(text: str, language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", text, re.MULTILINE | re.DOTALL)


def examples_fail(text: str, name: str) -> list[str]:
    """Return what is wrong with the examples in a page, each page a session of its own."""
    shown = "\n\n".join(block for block in blocks(text, "(?:python|pycon)") if ">>>" in block)
    session = doctest.DocTestParser().get_doctest(shown, {}, name, name, 0)
    told: list[str] = []
    doctest.DocTestRunner(optionflags=doctest.ELLIPSIS).run(session, out=told.append)
    return told


@pytest.mark.parametrize("path", PAGES, ids=lambda path: str(path.relative_to(ROOT)))
def test_examples_in_a_page_run_as_shown(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    assert not examples_fail(path.read_text(encoding="utf-8"), path.name)


def test_an_example_that_is_wrong_is_seen() -> None:
    assert examples_fail("```python\n>>> 1 + 1\n3\n```\n", "wrong")
    assert not examples_fail("```python\n>>> 1 + 1\n2\n```\n", "right")


def test_the_readme_begins_with_two_commands_and_then_shows_python() -> None:
    fences = re.findall(r"^```(\w+)$", page("README.md"), re.MULTILINE)
    assert fences[:3] == ["sh", "sh", "python"]


def test_the_plugin_shown_whole_works() -> None:
    text = page("docs/plugins.md")
    shown = types.ModuleType("drylay_oak")
    exec(blocks(text, "python")[0], vars(shown))
    (told,) = tomllib.loads(blocks(text, "toml")[0])["project"]["entry-points"].values()
    assert told == {"oak": "drylay_oak"}
    families = installed_families(entry_points=[entry("oak", shown)])
    assert families.faults == ()
    assert isinstance(ask(families, "oak", "end_gap_mm", QUERY), Ruling)
    assert isinstance(ask(families, "oak", "gap_most_mm", QUERY), RuleFault)


def test_the_paper_shown_works() -> None:
    shown = types.ModuleType("drylay_joists")
    exec(blocks(page("docs/plugins.md"), "python")[1], vars(shown))
    papers = drylay.installed_papers(entry_points=[entry("joists", shown)])
    assert papers.faults == ()
    made = drylay.papers(sample_plan(), only="joists.txt", plugins=papers)["joists.txt"]
    assert made.startswith(b"J1 483.0 mm\n")


def test_the_local_rule_shown_works() -> None:
    shown = types.ModuleType("drylay_quarl")
    exec(blocks(page("docs/plugins.md"), "python")[2], vars(shown))
    rules = drylay.installed_local_rules(entry_points=[entry("quarl", shown)])
    assert rules.faults == ()
    large = evolve(sample_plan(), surface=evolve(sample_plan().surface, cover_along_mm=2e4))
    (finding,) = local_findings(large, rules)
    assert finding.code == "upper-quarl/7"
    assert local_findings(sample_plan(), rules) == ()


def test_the_design_basis_shown_works() -> None:
    shown = types.ModuleType("drylay_quarl")
    exec(blocks(page("docs/plugins.md"), "python")[3], vars(shown))
    (quarl,) = drylay.installed_design_bases(entry_points=[entry("quarl", shown)]).bases
    found = screened_by(quarl, BEAM, "dwelling")
    assert [each.utilisation_ratio for each in found.checks] == [2500 / (18 * 150)]
    for answer in (screened_by(quarl, BEAM, "crowd"), screened_by(quarl, post(), "dwelling")):
        assert "not covered" in answer.stops[0]
    assert loads_by(quarl, "dwelling").imposed_kn_m2 == 2.0


def test_the_table_with_code_shown_works(monkeypatch: pytest.MonkeyPatch) -> None:
    shown = types.ModuleType("drylay_oak")
    exec(blocks(page("docs/plugin-package.md"), "python")[0], vars(shown))
    head = {"id": "oak", "title": "oak", "source": asdict(PRACTICE)}
    told = read_family_table({"family": head, "numbers": [{"name": "end_gap_mm", "value": 3}]})
    monkeypatch.setattr("drylay.plugins.table.read_packaged", lambda *_: told)
    families = installed_families(entry_points=[entry("oak", shown)])
    inland, coast = (
        ask(families, "oak", "end_gap_mm", evolve(QUERY, exposure=exposure))
        for exposure in ("inland", "coast")
    )
    assert isinstance(inland, Ruling)
    assert isinstance(coast, Ruling)
    assert (inland.value, coast.value) == (3.0, 4.0)


def test_the_tables_of_laws_are_the_laws() -> None:
    text = page("docs/plugin-package.md").split("## The contract kits")[1]
    families, others = text.split("| law of catalogues |")
    stocks, bases = others.split("| law of design bases |")
    row = r"^\| `([a-z ]+)` \| (.+?) \|$"
    assert re.findall(row, families, re.MULTILINE) == [(n, s) for n, (s, _) in FAMILY_LAWS.items()]
    told = [(name, law.says) for name, law in STOCK_LAWS.items()]
    assert re.findall(row, stocks, re.MULTILINE) == told
    assert re.findall(row, bases, re.MULTILINE) == [(n, s) for n, (s, _) in BASIS_LAWS.items()]


def test_the_kinds_of_faults_are_those_there_are() -> None:
    text = page("docs/plugins.md").split("| kind of fault |")[1].split("With `strict")[0]
    assert tuple(re.findall(r"^\| `([a-z ]+)` \|", text, re.MULTILINE)) == PLUGIN_FAULTS


def test_every_key_of_a_familys_table_is_told() -> None:
    text = page("docs/plugin-package.md").split("## The table")[1].split("## Stock")[0]
    told = set(re.findall(r"`(\w+)`", text))
    names = {key.name for key in (*FAMILY, *entry_keys("rule"), *entry_keys("name"))}
    conditions_told = {condition.key.name for condition in conditions()}
    assert names - conditions_told <= told


def test_every_paper_and_column_stands_on_the_python_page() -> None:
    told = set(re.findall(r"`([\w.-]+)`", page("docs/python.md").split("## Papers")[1]))
    assert set(MAKERS) | {LEFT_OUT} | {*CUTS, *LABELS, *ORDER} <= told


def test_the_table_of_rules_is_the_rules() -> None:
    row = r"^\| `(\w+)` \| (.+?) \| (.+?) \|(?: ([\d.]+) \|)?$"
    rows = re.findall(row, page("docs/plugins.md"), re.MULTILINE)
    assert {name: (unit, says) for name, unit, says, _ in rows} == QUESTIONS
    assert {name: float(plain) for name, _, _, plain in rows if plain} == PLAIN
    assert set(PLAIN) == set(TRAITS)


def test_the_table_of_work_limits_is_the_limits() -> None:
    rows = re.findall(r"^\| `(\w+)` \| (\d+) \| .+ \|$", page("docs/cutting.md"), re.MULTILINE)
    assert {name: int(most) for name, most in rows} == asdict(WorkLimits())


def test_the_limits_of_quick_mode_are_told() -> None:
    quick = aim("quick", WorkLimits())
    row = r"^\| `(\w+)` .*?(\d+)[^|\d]* in quick mode \|$"
    rows = re.findall(row, page("docs/cutting.md"), re.MULTILINE)
    told = {name: int(most) for name, most in rows}
    assert told == {name: most for name, most in asdict(quick).items() if name != "gap"}
    assert quick.gap == 0.002  # "two thousandths"


def test_every_room_and_every_file_of_cutting_stands_on_the_developers_page() -> None:
    tables = page("DEVELOPERS.md").split("## The house")[1].split("## What is held")[0]
    first = re.findall(r"^\| (`.+?`) \|", tables, re.MULTILINE)
    told = [name for cell in first for name in re.findall(r"`(\w+)`", cell)]
    house = ROOT / "src" / "drylay"
    rooms = {
        path.stem for path in house.iterdir() if path.stem[0] != "_" and path.suffix != ".typed"
    }
    files = {path.stem for path in (house / "cutting").glob("[!_]*.py")}
    assert sorted(told) == sorted([*rooms, *files])


def test_every_command_and_exit_code_is_documented() -> None:
    text = page("docs/command-line.md")
    commands = re.findall(r"^    ([a-z-]+)(?: |$)", parser().format_help(), re.MULTILINE)
    assert len(commands) >= 8
    for command in commands:
        assert f"`drylay {command}" in text
    codes = re.findall(r"^\| (\d+) \| (.+?) \|$", text, re.MULTILINE)
    assert {int(code): says for code, says in codes} == MEANINGS


#: What plugins are written with is imported from where it lies, beside what only plugins need.
OF_PLUGINS = {"plugins.md", "plugin-package.md", "cutting.md"}


@pytest.mark.parametrize("path", [path for path in PAGES if path.name not in OF_PLUGINS],
                         ids=lambda path: str(path.relative_to(ROOT)))  # fmt: skip
def test_what_is_public_is_imported_from_drylay_itself(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    for module, names in re.findall(r"from (drylay\.[\w.]+) import ([\w, ]+)", text):
        inner = importlib.import_module(module)
        for name in set(names.split(", ")) & set(drylay.__all__):
            assert getattr(inner, name) is not getattr(drylay, name), f"{module}.{name}"


def test_every_public_name_stands_on_the_python_page() -> None:
    text = page("docs/python.md")
    told = set(re.findall(r"`(\w+)", text)) | set(re.findall(r"`[\w.]+\(", text))
    assert {name for name in drylay.__all__ if name not in told} == {"__version__"}


def test_every_measure_stands_on_the_python_page() -> None:
    brief = drylay.read_brief(ROOT / "docs/examples/garden.toml")
    stock = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
    table = page("docs/python.md").split("## One row for a table")[1].split("## Papers")[0]
    told = [name for row in re.findall(r"^\| (`.+?`) \|", table, re.MULTILINE)
            for name in re.findall(r"`(\w+)`", row)]  # fmt: skip
    assert sorted(told) == sorted(drylay.design(brief, stock=stock).measures())


def test_every_error_stands_in_the_table_of_errors() -> None:
    table = page("docs/python.md").split("## What may be raised")[1]
    errors = [name for name in drylay.__all__ if isinstance(getattr(drylay, name), type)
              and issubclass(getattr(drylay, name), drylay.DrylayError)]  # fmt: skip
    assert {name for name in errors if f"`{name}`" not in table} == set()
