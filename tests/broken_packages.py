"""Every kind of broken plugin, as files of a package that can be installed."""

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
        "misspelt hook: found drylay_familys, wanted drylay_families",
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
        "drylay_bad/stock.toml:11:33: screws[0].packs[0].price (S): found nan",
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
