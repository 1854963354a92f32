"""Every kind of broken plugin, as a real package: it spoils only itself, and is named.

Each has a site of its own beside the real softwood, asked by one interpreter after the other;
then all of them at once, with a deck planned in their midst.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from drylay.brief.reader import read_brief
from drylay.materials.loader import load_catalogue
from drylay.plan.codec import plan_to_json
from drylay.planner.design import design
from drylay.plugins.model import PLUGIN_FAULTS
from real_packages import BRIEF, STOCK, drylay, install, run

HEAD = """
from drylay.materials.model import Family, RuleQuery
from drylay.plugins.hooks import hookimpl
from drylay.reasons import Ruling, Source

def rule(query):
    return Ruling(value=4.0, unit="mm", rule="r", source=Source(kind="assumption", title="t"))

def oak(name="bogoak", **rules):
    return Family(id=name, title=name, rules=rules or {"end_gap_mm": rule})
"""


def module(text: str) -> dict[str, str]:
    return {"__init__.py": HEAD + text}


def hook(answer: str, name: str = "drylay_families") -> dict[str, str]:
    return module(f"\n@hookimpl\ndef {name}():\n    {answer}\n")


#: Each kind: its files, more about how it is installed, the kind of fault, and its words.
BROKEN: dict[str, tuple[dict[str, str], dict[str, str], str, str]] = {
    "import error": (module("import no_such_thing"), {}, "import", "ModuleNotFoundError"),
    "syntax error": ({"__init__.py": "def"}, {}, "import", "SyntaxError"),
    "raises at import": (module("1 / 0"), {}, "import", "ZeroDivisionError"),
    "exits at import": (module("raise SystemExit(3)"), {}, "import", "SystemExit: 3"),
    "endless import": (module("def f(): f()\nf()"), {}, "import", "RecursionError"),
    "no module": ({}, {"points": "[drylay.v1]\nbad = drylay_gone\n"}, "import", "drylay_gone"),
    "no object": (
        module(""),
        {"points": "[drylay.v1]\nbad = drylay_bad:plugin\n"},
        "import",
        "has no attribute 'plugin'",
    ),
    "spoilt entry points": (
        hook("return [oak()]"),
        {"points": "[drylay.v1]\nbad drylay_bad\n"},
        "import",
        "its list of entry points cannot be read",
    ),
    "raises": (hook("raise ValueError('bad day')"), {}, "failed", "ValueError: bad day"),
    "exits": (hook("raise SystemExit"), {}, "failed", "drylay_families failed: SystemExit"),
    "no end": (hook("return drylay_families()"), {}, "failed", "RecursionError"),
    "stops the loop": (hook("raise GeneratorExit"), {}, "failed", "GeneratorExit"),
    "misspelt hook": (
        hook("return [oak()]", "drylay_familys"),
        {},
        "hooks",
        "misspelt hook: unknown hook 'drylay_familys'",
    ),
    "unmarked hook": (
        module("def drylay_families(): return [oak()]"),
        {},
        "hooks",
        "drylay_families does not carry hookimpl",
    ),
    "wrong arguments": (
        module("@hookimpl\ndef drylay_families(rules): return [oak()]"),
        {},
        "hooks",
        "PluginValidationError",
    ),
    "no hook": (module(""), {}, "hooks", "offers no hook"),
    "no list": (hook("return oak()"), {}, "bad answer", "answered Family, wanted a list"),
    "nothing": (hook("return None"), {}, "bad answer", "answered None"),
    "no family": (hook("return ['oak']"), {}, "bad answer", "found str, wanted Family"),
    "unknown rule": (
        hook("return [oak(most_centers_mm=rule)]"),
        {},
        "bad answer",
        "unknown rule 'most_centers_mm'",
    ),
    "an id of another": (hook("return [oak('softwood')]"), {}, "clash", "claims softwood"),
    "an id twice": (hook("return [oak(), oak()]"), {}, "bad answer", "supplies bogoak twice"),
    "a later release": (
        hook("return [oak()]"),
        {"group": "drylay.v2"},
        "another release",
        "written for the hooks drylay.v2, and this drylay has drylay.v1",
    ),
    "an older release": (
        hook("return [oak()]"),
        {"group": "drylay.v0"},
        "another release",
        "written for the hooks drylay.v0",
    ),
    "a group misspelt": (hook("return [oak()]"), {"group": "drylay-v1"}, "another release", "-v1"),
    "a price of nan": (
        {
            "__init__.py": "",
            "stock.toml": '[catalogue]\nname = "Y"\ncurrency = "GBP"\nvat = "included"\n'
            '[[screws]]\ncode = "S"\ntitle = "S"\nshank_mm = 5\nlength_mm = 50\n'
            'metal = "stainless A2"\npacks = [{ count = 100, price = nan }]\n',
        },
        {},
        "failed",
        "drylay_bad/stock.toml:11:33: screws[0].packs[0].price: found nan",
    ),
    "a table of nan": (
        {
            "__init__.py": "",
            "oak.toml": '[family]\nid = "bogoak"\ntitle = "oak"\n[[rules]]\nrule = "end_gap_mm"\n'
            'value = nan\nsource = { kind = "assumption", title = "t" }\n',
        },
        {},
        "failed",
        "drylay_bad/oak.toml:6:9: rules[0].value: found nan",
    ),
    "files of nothing": (
        {"__init__.py": "", "notes.toml": 'title = "x"\n'},
        {},
        "failed",
        "drylay_bad/notes.toml: neither a [catalogue] nor a [family]",
    ),
}  # fmt: skip


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


#: A family of softwood's rules, but for five that do each their own wrong.
LYING_RULES = """
from attrs import evolve
from drylay.plugins.hooks import hookimpl
from drylay_softwood.family import softwood

def nan(query):
    return evolve(softwood().rules["end_gap_mm"](query), value=float("nan"))

def bare(query):
    return 4.0

def exits(query):
    raise SystemExit(2)

def endless(query):
    return endless(query)

def unsourced(query):
    return evolve(softwood().rules["screw_end_least_mm"](query), source=None)

@hookimpl
def drylay_families():
    lies = {"end_gap_mm": nan, "least_supports": bare, "stagger_bays": exits, "may_rip": endless,
            "screw_end_least_mm": unsourced}
    return [evolve(softwood(), id="bogoak", rules={**softwood().rules, **lies})]
"""


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
