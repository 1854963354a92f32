"""No long files, no long functions, and most functions short."""

import ast
import statistics
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted([*ROOT.glob("src/**/*.py"), *ROOT.glob("plugins/*/src/**/*.py")])


def functions(source: str) -> dict[str, int]:
    """Return the length of every function's body, docstring not counted."""
    found = {}
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            has_doc = ast.get_docstring(node, clean=False) is not None
            body = node.body[1:] if has_doc else node.body
            lines = body[-1].end_lineno - body[0].lineno + 1 if body else 0
            found[f"{node.name}:{node.lineno}"] = lines
    return found


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_file_is_not_long(path: Path) -> None:
    source = path.read_text(encoding="utf-8")
    assert len(source.splitlines()) <= 400
    too_long = {name: lines for name, lines in functions(source).items() if lines > 40}
    assert not too_long


def test_half_of_all_functions_are_under_ten_lines() -> None:
    lengths = [
        lines for path in FILES for lines in functions(path.read_text(encoding="utf-8")).values()
    ]
    assert statistics.median(lengths) < 10


def test_a_docstring_is_no_length_and_a_body_is() -> None:
    source = 'def f():\n    """One.\n\n    Two.\n    """\n    a = 1\n\n    return a\n'
    assert functions(source) == {"f:1": 3}
