"""What the command line's tests share: a way to call it, a bad brief, a designed folder."""

from collections.abc import Callable
from pathlib import Path

import pytest

from drylay.cli import codes, main

ROOT = Path(__file__).parents[2]
BRIEF = str(ROOT / "docs" / "examples" / "garden.toml")
STOCK = str(ROOT / "catalogs" / "hobbleden.toml")

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    def command(*argv: str) -> tuple[int, str, str]:
        code = main(argv)
        said = capsys.readouterr()
        return code, said.out, said.err

    return command


@pytest.fixture
def bad_brief(tmp_path: Path) -> str:
    path = tmp_path / "bad.toml"
    path.write_text('title = "x"\n[cover]\nalong_mm = -3\nacros_mm = 2400\n', encoding="utf-8")
    return str(path)


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A deck designed once by the command line, for everything that reads plans."""
    made = tmp_path_factory.mktemp("deck") / "deck"
    assert main(["design", BRIEF, "--stock", STOCK, "--out", str(made)]) == codes.FINE
    return made
