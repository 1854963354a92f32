"""Pages on studies: scripts run, the notebook draws what its page shows, tables are the code's."""

import ast
import contextlib
import io
import re
import runpy
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest

import drylay
from drylay.compare import merchant_model, study_model
from drylay.compare.study_asked import KEYS as ASKED
from drylay.compare.study_asked import MAY, WHATS
from drylay.compare.study_decks import HELD
from drylay.compare.study_decks import KEYS as OF_DECKS
from drylay.compare.study_file import KEYS, OTHERS
from drylay.compare.study_model import OUTCOMES
from drylay.compare.study_row import own_columns

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PAGE = (DOCS / "studies.md").read_text(encoding="utf-8")
QUESTIONS = (DOCS / "study-questions.md").read_text(encoding="utf-8")
SCRIPTS = sorted((DOCS / "examples" / "scripts").glob("*.py"))
NOTEBOOK = DOCS / "examples" / "study_notebook.py"
#: What each script says, as far as it can be told without planning: by hand, or by its shape.
SAYS = {
    "builder": [r"WHAT cover.across_mm COSTS", r"SIDE BY SIDE: boards", r"least yearly_most"],
    "embedder": [r"2400: \d+\.\d\d GBP", r"3600: \d+\.\d\d GBP", r"19 ft: no: BUY-001"],
    "merchant": [r"DB-28-145", r"small", r"middle", r"wide"],
    "researcher": [r"DECKS THAT NO OTHER BEATS", r"Wanted: least total, most cover_m2"],
}


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.stem)
def test_a_script_for_each_kind_of_user_runs(
    script: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    text = script.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= 15
    assert f"`docs/examples/scripts/{script.name}`" in PAGE
    assert f"```py\n{text}```" in PAGE
    for folder in ("docs", "catalogs"):
        (tmp_path / folder).symlink_to(ROOT / folder)
    monkeypatch.chdir(tmp_path)
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        runpy.run_path(str(script), run_name="__main__")
    for each in SAYS[script.stem]:
        assert re.search(each, said.getvalue()), each
    if script.stem == "researcher":
        assert len((tmp_path / "decks.csv").read_text().splitlines()) == 13


def test_there_is_a_script_for_each_kind_of_user() -> None:
    assert [script.stem for script in SCRIPTS] == sorted(SAYS)


def cells(text: str) -> list[tuple[str, str]]:
    """The title and the code of each cell."""
    parts = re.split(r"^# %% (.*)\n", text, flags=re.MULTILINE)[1:]
    return list(zip(parts[::2], parts[1::2], strict=True))


def shown(code: str, names: dict[str, Any]) -> object:
    """What a cell shows: its last expression, after all before it was run."""
    tree = ast.parse(code)
    *before, last = tree.body
    assert isinstance(last, ast.Expr)
    exec(compile(ast.Module(body=before, type_ignores=[]), "cell", "exec"), names)
    return eval(compile(ast.Expression(last.value), "cell", "eval"), names)


def test_the_notebook_draws_what_its_page_shows(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    page = (DOCS / "notebook.md").read_text(encoding="utf-8")
    names: dict[str, Any] = {}
    drawn = []
    for title, code in cells(NOTEBOOK.read_text(encoding="utf-8")):
        assert f"## {title}" in page
        assert code.strip() in page
        answer = shown(code, names)
        if hasattr(answer, "_repr_svg_"):
            drawn.append(answer._repr_svg_())
    files = re.findall(r"!\[.+?\]\((notebook/\S+\.svg)\)", page)
    assert len(files) == len(drawn) == 4
    for file, svg in zip(files, drawn, strict=True):
        assert ET.fromstring(svg).tag.endswith("svg")
        assert (DOCS / file).read_text(encoding="utf-8") == svg, file


def test_every_outcome_and_column_stands_on_the_page() -> None:
    assert re.findall(r"^\| `(\w+)` \| [tab]h?", PAGE, re.MULTILINE)
    for outcome in OUTCOMES:
        assert f"| `{outcome}` |" in PAGE
    for column in ("cover_m2", "surface_outlay", "frame_outlay", "case_digest", "mode", "told"):
        assert column in own_columns()
        assert f"`{column}`" in PAGE


def test_every_key_of_a_study_file_stands_on_the_page() -> None:
    part = PAGE.split("\n## Study files\n")[1].split("\n## ")[0]
    keys = {key.name for key in (*KEYS, *ASKED)} | set(OTHERS)
    keys |= {key for may, _ in MAY.values() for key in may} | {"where", "what", "name"}
    keys |= {key.name for of_one in OF_DECKS.values() for key in of_one} | set(WHATS)
    keys |= {key for held in HELD.values() for key in held} - {"spreads"} | {"[ask.spreads]"}
    keys = {f"[{key}]" if key == "vary" else f"[[{key}]]" if key == "ask" else key for key in keys}
    assert {key for key in keys if f"`{key}`" not in part} == set()
    shown_file = re.findall(r"^```toml\n(.*?)^```", part, re.MULTILINE | re.DOTALL)[0]
    file = (DOCS / "examples" / "studies" / "depth.toml").read_text(encoding="utf-8")
    assert shown_file == file


def test_every_question_has_its_call_its_part_and_its_picture() -> None:
    """As many as there are answers; each call by its public name and linked to its part."""
    verbs = re.findall(r"^###? .+: `(\w+)`$", QUESTIONS, re.MULTILINE)
    nouns = "".join(Path(str(each.__file__)).read_text() for each in (study_model, merchant_model))
    pictures = re.findall(r'answer_papers\(\s*"([\w-]+)"', nouns)
    assert set(verbs) <= set(drylay.__all__)
    assert len(verbs) == len(pictures) == 7
    assert {verb for verb in verbs if f"| [`{verb}`](study-questions.md#" not in PAGE} == set()
    assert re.findall(r"^\| `([\w-]+)\.svg` \|", QUESTIONS, re.MULTILINE) == pictures


@pytest.mark.parametrize("name", ["studies", "study-questions", "notebook", "executors"])
def test_pages_on_studies_call_what_is_public(name: str) -> None:
    text = (DOCS / f"{name}.md").read_text(encoding="utf-8")
    assert "from drylay." not in text
    assert set(re.findall(r"\bdrylay\.([a-z]\w+)\(", text)) <= set(drylay.__all__)
