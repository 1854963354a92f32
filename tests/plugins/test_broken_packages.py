"""Every kind of broken plugin, as a real package: it spoils only itself, and is named.

Each has a site of its own beside the real softwood, asked by one interpreter after the other.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from broken_packages import BROKEN, hook, module
from drylay.plugins.model import PLUGIN_FAULTS
from real_packages import drylay, install, run

#: Goes from site to site and tells what plugins are there.
TOUR = """
import importlib, json, sys
from drylay.cli.texts import plugins_plain
from drylay.planner.plugged import installed_plugins
for site in sys.argv[1:]:
    sys.path.insert(0, site)
    importlib.invalidate_caches()
    print(json.dumps(plugins_plain(installed_plugins())))
    sys.path.remove(site)
    for name in [name for name in sys.modules if name.startswith("drylay_bad")]:
        del sys.modules[name]
"""


@pytest.fixture(scope="module")
def toured(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """Return what plugins there are in the site of each broken one, by kind and package."""
    sites = []
    for kind, (files, more, _, _) in BROKEN.items():
        sites.append(tmp_path_factory.mktemp(kind.replace(" ", "-")))
        install(sites[-1], "drylay-bad", files, **{"plugin": "bad", **more})
    done = run(None, ["-c", TOUR, *map(str, sites)])
    assert done.returncode == 0, done.stderr
    told = [json.loads(line)["plugins"] for line in done.stdout.splitlines()]
    named = [{plugin["package"]: plugin for plugin in plugins} for plugins in told]
    return dict(zip(BROKEN, named, strict=True))


@pytest.mark.parametrize("kind", BROKEN)
def test_a_broken_package_spoils_only_itself_and_is_named(
    kind: str, toured: dict[str, Any]
) -> None:
    _, _, fault, says = BROKEN[kind]
    plugins = toured[kind]
    assert plugins["drylay-softwood"]["families"] == ["softwood"]
    assert plugins["drylay-softwood"]["faults"] == []
    bad = plugins["drylay-bad"]
    assert bad["families"] == bad["catalogues"] == bad["papers"] == []
    told = {each["kind"]: each["wrong"] for each in bad["faults"]}
    assert says in told[fault], told
    assert fault in PLUGIN_FAULTS


def test_the_keyboard_interrupts_even_in_a_plugin(tmp_path: Path) -> None:
    install(tmp_path, "drylay-bad", module("raise KeyboardInterrupt"), plugin="bad")
    done = drylay(tmp_path, "families")
    assert (done.returncode, done.stderr) == (130, "interrupted\n")


def test_what_a_plugin_prints_is_no_part_of_the_answer(tmp_path: Path) -> None:
    install(tmp_path, "drylay-loud", hook("print('hello'); return [oak()]"), plugin="loud")
    done = drylay(tmp_path, "families", "--json")
    assert done.returncode == 0
    ids = [family["id"] for family in json.loads(done.stdout)["families"]]
    assert {"bogoak", "softwood"} <= set(ids)
    assert done.stderr == "hello\n"


def test_a_package_for_two_releases_is_none_for_another(tmp_path: Path) -> None:
    points = "[drylay.v1]\nbogoak = drylay_oak\n[drylay.v2]\nbogoak = drylay_oak.two\n"
    install(tmp_path, "drylay-oak", hook("return [oak()]"), points=points)
    done = drylay(tmp_path, "families")
    assert done.returncode == 0
    assert "bogoak: bogoak" in done.stdout
