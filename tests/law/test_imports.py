"""The law of imports (DEVELOPERS.md): which file may see which, read with `ast`."""

import ast
import sys
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

SRC = Path(__file__).parents[2] / "src" / "drylay"

BASE = {"counting", "errors", "findings", "reasons", "units", "marks"}
ROOMS = (
    "brief materials movement regions site survey siting seating outline edges surface tiling "
    "supports pieces frame subframe laying strength raised flights guards fixings groundwork "
    "buying work correcting plan upkeep"
).split()
#: Rooms whose verbs read files that people write.
READERS = {"brief", "materials", "site", "survey", "siting", "seating", "correcting", "upkeep"}
#: Plane geometry, for rooms that lay out what is no rectangle.
PLANE = {"geometry", "own_line", "rings", "shapes", "spaces"}
OUTER = {
    "audit",
    "papers",
    "planner",
    "compare",
    "plugins",
    "testing",
    "cli",
    "__init__",
    "__main__",
}

#: Third-party packages and the places that may see them.
KEEPERS = {
    "pint": {"units"},
    "cattrs": {"plan.reader"},
    "pluggy": {"plugins"},
    "gmpy2": {"audit.exact"},
    "highspy": {"cutting"},
    "shapely": {"geometry"},
    "numpy": {"cutting", "survey", "compare.sampling"},
    "scipy": {"compare.sampling"},
}


def modules() -> list[str]:
    found = []
    for path in sorted(SRC.rglob("*.py")):
        parts = path.relative_to(SRC).with_suffix("").parts
        found.append(".".join(parts))
    return found


def imports(source: str) -> set[str]:
    names = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "full-path imports only"
            names.add(node.module or "")
    return names


def room_of(module: str) -> str:
    return module.split(".")[0]


def is_noun(module: str) -> bool:
    return module.split(".")[-1] in {"model", "stock_model", "outline_model", "raised_model"}


def earlier(room: str) -> set[str]:
    return set(ROOMS[: ROOMS.index(room)])


def noun_sees(seen: str, room: str) -> bool:
    """Rule 1: a room's nouns see base files and nouns of earlier rooms."""
    if seen in BASE or (seen == "cutting.model" and room in {"buying", "plan"}):
        return True
    return is_noun(seen) and room_of(seen) in earlier(room) | {room}


def verb_sees(seen: str, room: str) -> bool:
    """Rule 2: base, own room, nouns of earlier rooms, and cutting where they joint or buy."""
    if seen in BASE or room_of(seen) == room:
        return True
    if seen in PLANE:
        return room in {
            "brief", "outline", "laying", "tiling", "subframe", "groundwork", "site", "raised",
            "survey", "siting", "seating",
        }  # fmt: skip
    if room_of(seen) == "intake":
        return room in READERS
    if room_of(seen) == "cutting":
        return (
            room in {"pieces", "frame", "laying", "subframe", "buying"} or seen == "cutting.model"
        )
    return is_noun(seen) and room_of(seen) in earlier(room)


def drylay_imports(module: str) -> set[str]:
    source = (SRC / Path(*module.split("."))).with_suffix(".py").read_text(encoding="utf-8")
    ours = {name.removeprefix("drylay.") for name in imports(source) if name.startswith("drylay.")}
    return {seen for seen in ours if not lazy_noun_verbs(module, seen)}


def circle(graph: dict[str, set[str]]) -> list[str]:
    """Return a circle of imports, empty where there is none."""
    try:
        list(TopologicalSorter(graph).static_order())
    except CycleError as error:
        return list(error.args[1])
    return []


def allowed(module: str, seen: str) -> bool:
    """Whether `module` may import `seen` (both without the leading `drylay.`)."""
    room = room_of(module)
    if room in BASE:
        return seen in BASE
    if room in PLANE:
        return seen in BASE | PLANE or seen == "brief.outline_model"
    if room == "intake":  # how files get in: knows TOML and keys, no noun of any room
        return seen in BASE or room_of(seen) == "intake"
    if room == "cutting":
        return room_of(seen) == "cutting" or seen == "errors"
    if room in ROOMS:
        return noun_sees(seen, room) if is_noun(module) else verb_sees(seen, room)
    if room == "audit":  # nouns only: nothing that computes
        base = {"errors", "findings", "reasons"}
        nouns = is_noun(seen) and room_of(seen) in ROOMS
        return seen in base or nouns or room_of(seen) == "audit"
    if room == "papers":  # formats: nouns, and its own files
        nouns = is_noun(seen) and room_of(seen) in ROOMS
        return seen in BASE or nouns or room_of(seen) == "papers"
    if room == "plugins":  # reads the tables and stock files that lie in plugins' packages
        nouns = is_noun(seen) and room_of(seen) in ROOMS
        files = room_of(seen) == "intake" or seen == "materials.loader"
        return seen in BASE or nouns or files or room_of(seen) == "plugins"
    if room == "planner":  # the only caller of other rooms' verbs
        return room_of(seen) not in {"cli", "compare", "testing"}
    return room in OUTER  # compare, testing, cli and the root see everything


def lazy_noun_verbs(module: str, seen: str) -> bool:
    """Methods the design names on nouns hand over to a verb of the same room, lazily."""
    if module in {"compare.study_model", "compare.merchant_model"}:
        return seen == "compare.study_papers" or seen.endswith(("_told", "_chart"))
    return (module, seen) in {
        ("brief.model", "brief.codec"),
        ("materials.stock_model", "materials.lookup"),
        ("materials.stock_model", "materials.nearest"),
        ("materials.stock_model", "materials.union"),
        ("plan.model", "plan.why"),
        ("plan.model", "plan.measures"),
        ("plan.model", "plan.sizes"),
        ("plan.diff_model", "plan.diff_text"),
        ("compare.model", "compare.row"),
        ("compare.model", "compare.papers"),
        ("compare.model", "compare.table"),
        ("compare.study_plan", "compare.study_text"),
    } or _answers_papers(module, seen)


def _answers_papers(module: str, seen: str) -> bool:
    """Answers about many decks hand over to their text, rows, picture and papers."""
    ends = ("_told", "_chart", "compare.study_papers")
    return module in ("compare.study_model", "compare.merchant_model") and seen.endswith(ends)


@pytest.mark.parametrize("module", modules())
def test_a_module_imports_only_what_the_law_allows(module: str) -> None:
    source = (SRC / Path(*module.split("."))).with_suffix(".py").read_text(encoding="utf-8")
    for name in imports(source):
        if name.split(".")[0] == "drylay" and name != "drylay":
            seen = name.removeprefix("drylay.")
            assert allowed(module, seen) or lazy_noun_verbs(module, seen), f"{module} sees {seen}"
        keepers = KEEPERS.get(name.split(".")[0])
        if keepers is not None:
            assert module in keepers or room_of(module) in keepers, f"{module} sees {name}"


@pytest.mark.parametrize("module", [m for m in modules() if is_noun(m)])
def test_nouns_hide_no_imports(module: str) -> None:
    source = (SRC / Path(*module.split("."))).with_suffix(".py").read_text(encoding="utf-8")
    assert "TYPE_CHECKING" not in source


def test_no_imports_run_in_a_circle() -> None:
    assert circle({module: drylay_imports(module) for module in modules()}) == []


def test_a_circle_is_seen() -> None:
    assert set(circle({"a": {"b"}, "b": {"c"}, "c": {"a"}})) == {"a", "b", "c"}


def test_the_proof_slip_needs_nothing_but_python() -> None:
    source = (SRC / "cutting" / "check_proof.py").read_text(encoding="utf-8")
    assert {name.split(".")[0] for name in imports(source)} <= sys.stdlib_module_names


def test_the_checker_of_proofs_sees_nothing_of_the_engine() -> None:
    own = {"verify", "counting", "weighing", "sound", "model"}
    for checker in own:
        seen = drylay_imports(f"cutting.{checker}")
        assert seen <= {f"cutting.{name}" for name in own - {"verify"}}, checker


@pytest.mark.parametrize(
    ("module", "seen"),
    [
        ("surface.rows", "supports.lines"),  # a later room
        ("supports.lines", "surface.rows"),  # another room's verbs
        ("audit.rows", "marks"),
        ("audit.rows", "cutting.verify"),
        ("cutting.engine", "pieces.model"),
        ("surface.model", "surface.rows"),
        ("brief.model", "intake.keys"),
        ("intake.values", "brief.model"),
        ("papers.text", "buying.order"),
        ("plugins.guard", "planner.design"),
        ("surface.rows", "intake.values"),
        ("papers.text", "plan.codec"),
    ],
)
def test_the_law_refuses(module: str, seen: str) -> None:
    assert not allowed(module, seen)
