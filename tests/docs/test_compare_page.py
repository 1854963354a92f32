"""The page on comparing: its tables are those of the code."""

import re
from pathlib import Path

from compare.small import brief, families, stock
from drylay.compare.families import across_families

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "compare.md").read_text(encoding="utf-8")


def test_the_table_of_rows_is_the_rows() -> None:
    part = PAGE.split("## What a row holds")[1].split("## What a year costs")[0]
    first = re.findall(r"^\| (`.+?`) \|", part, re.MULTILINE)
    told = [name for cell in first for name in re.findall(r"`(\w+)`", cell)]
    (row,) = across_families(brief(), {"a": {}}, stock=stock(), families=families()).measures()
    assert sorted(told) == sorted(row)


def test_every_remark_stands_on_the_page() -> None:
    files = (ROOT / "src" / "drylay" / "compare").glob("*.py")
    code = {
        found for path in files for found in re.findall(r'"(LIF-\d+)"', path.read_text("utf-8"))
    }
    assert set(re.findall(r"^\| (LIF-\d+) \|", PAGE, re.MULTILINE)) == code


def test_the_example_shown_is_the_file() -> None:
    shown = re.findall(r"^```toml\n(.*?)^```", PAGE, re.MULTILINE | re.DOTALL)[0]
    file = (ROOT / "docs" / "examples" / "alternatives.toml").read_text(encoding="utf-8")
    assert file.endswith(shown)
