"""A local rule as a real package: asked by the command line, and asked again by the audit."""

import json
from pathlib import Path

import pytest

from real_packages import BRIEF, ROOT, STOCK, drylay, install


def rule_shown() -> str:
    """Return the local rule of docs/plugins.md."""
    text = (ROOT / "docs" / "plugins.md").read_text(encoding="utf-8").split("## Local rules")[1]
    return text.split("```python\n")[1].split("```")[0]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("quarl")
    install(made, "drylay-quarl", {"__init__.py": rule_shown()}, plugin="quarl")
    return made


@pytest.fixture(scope="module")
def deck(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("deck") / "deck"
    done = drylay(site, "design", BRIEF, "--stock", str(STOCK), "--out", str(folder))
    assert done.returncode == 0, done.stderr
    assert "drylay-quarl 1.0" in done.stdout
    return folder


def test_the_plan_tells_what_was_found_and_by_whom(deck: Path) -> None:
    plan = json.loads((deck / "plan.json").read_text(encoding="utf-8"))
    assert plan["local_rules"] == [
        {"name": "upper-quarl", "package": "drylay-quarl", "version": "1.0"}
    ]
    (found,) = [each for each in plan["findings"] if "/" in each["code"]]
    # the brief's 6 m by 3.04 m, with the gaps opened: by hand 6 x 3.04 = 18.24
    assert (found["code"], found["measured"]) == ("upper-quarl/7", pytest.approx(18.24, abs=0.01))


def test_the_audit_asks_again_where_the_rule_is_there(site: Path, deck: Path) -> None:
    given = ("audit", str(deck), "--brief", BRIEF, "--stock", str(STOCK), "--json")
    there = json.loads(drylay(site, *given).stdout)
    assert (there["findings"], "local rules" in there["witnesses"]) == ([], True)
    assert "AUD-W19" in there["checks"]
    gone = json.loads(drylay(None, *given).stdout)
    assert gone["findings"] == []
    assert "AUD-W19" in {check["code"] for check in gone["not_run"]}
