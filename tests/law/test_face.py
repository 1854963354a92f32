"""The public face: every name resolves, says what it is, and costs nothing to import."""

import ast
import importlib
import inspect
import subprocess
import sys
from pathlib import Path

import pytest

import drylay

HEAVY = (
    "pint",
    "numpy",
    "gmpy2",
    "highspy",
    "cattrs",
    "pluggy",
    "attrs",
    "typing",
    "shapely",
    "importlib.metadata",
)
NAMES = [name for name in drylay.__all__ if name != "__version__"]


def loaded_by(code: str) -> set[str]:
    done = subprocess.run(
        [sys.executable, "-c", f"import sys\n{code}\nprint(*sys.modules, sep='\\n')"],
        check=True,
        capture_output=True,
        text=True,
    )
    return set(done.stdout.split())


@pytest.mark.parametrize("name", NAMES)
def test_a_public_name_resolves_and_says_what_it_is(name: str) -> None:
    thing = getattr(drylay, name)
    assert inspect.isclass(thing) or callable(thing)
    assert inspect.getdoc(thing), f"{name} has no docstring"
    assert thing.__name__ == name


def test_the_names_are_few_and_listed_once() -> None:
    # the plan's own forty or so, a verb or two for each question before it and after it, and one
    # for each question of many decks
    assert len(drylay.__all__) == len(set(drylay.__all__)) <= 116
    assert dir(drylay) == sorted(drylay.__all__)


def test_an_unknown_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="no attribute 'desing'"):
        _ = drylay.desing  # type: ignore[attr-defined]


def test_what_type_checkers_read_is_what_is_loaded() -> None:
    source = Path(inspect.getfile(drylay)).read_text(encoding="utf-8")
    told = {
        alias.name: node.module
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.ImportFrom) and str(node.module).startswith("drylay.")
        for alias in node.names
        if alias.asname == alias.name
    }
    assert told == drylay._HOME


@pytest.mark.parametrize("name", ["audit", "compare", "papers"])
def test_a_room_does_not_hide_the_verb_of_its_name(name: str) -> None:
    importlib.import_module(drylay._HOME[name])
    assert f"drylay.{name}" in sys.modules
    assert inspect.isfunction(getattr(drylay, name))
    assert getattr(drylay, name) is getattr(drylay, name)


def test_importing_drylay_pulls_in_nothing_heavy() -> None:
    loaded = loaded_by("import drylay") - loaded_by("")
    assert not loaded & set(HEAVY)
    ours = {name for name in loaded if name.split(".")[0] == "drylay"}
    assert ours == {"drylay"}


def test_that_check_sees_a_heavy_import() -> None:
    assert "pluggy" in loaded_by("import drylay\ndrylay.installed_families")


def test_the_command_line_starts_without_what_it_does_not_need() -> None:
    loaded = loaded_by("from drylay.cli import main\nmain(['--version'])")
    assert not loaded & {"pint", "numpy", "highspy", "cattrs"}
