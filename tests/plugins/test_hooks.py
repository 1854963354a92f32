"""Each hook is documented with its arguments (docs/plugins.md), and each is asked for."""

import inspect
from pathlib import Path

import pytest

from drylay.plugins import hooks

DOCS = Path(__file__).parents[2] / "docs" / "plugins.md"
HOOKS = sorted(
    name for name, thing in vars(hooks).items() if hasattr(thing, f"{hooks.PROJECT}_spec")
)


def test_there_are_hooks() -> None:
    assert HOOKS == [
        "drylay_catalogues",
        "drylay_design_bases",
        "drylay_families",
        "drylay_local_rules",
        "drylay_papers",
    ]


@pytest.mark.parametrize("hook", HOOKS)
def test_a_hook_is_documented_with_its_arguments(hook: str) -> None:
    arguments = ", ".join(inspect.signature(getattr(hooks, hook)).parameters)
    assert f"`{hook}({arguments})`" in DOCS.read_text(encoding="utf-8")


@pytest.mark.parametrize("hook", HOOKS)
def test_a_hook_itself_answers_nothing(hook: str) -> None:
    assert getattr(hooks, hook).__doc__
    assert getattr(hooks, hook)() == ()


def test_rules_and_the_group_are_documented() -> None:
    text = DOCS.read_text(encoding="utf-8")
    assert hooks.GROUP in text
