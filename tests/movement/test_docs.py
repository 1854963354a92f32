"""docs/movement.md lists every finding of the room."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "movement.md").read_text(encoding="utf-8")
ROOM = sorted((ROOT / "src" / "drylay" / "movement").glob("*.py"))


def test_every_finding_is_documented_and_no_other() -> None:
    code = "".join(path.read_text(encoding="utf-8") for path in ROOM)
    emitted = set(re.findall(r'"(MOV-\d+)"', code))
    assert sorted(emitted) == re.findall(r"^\| (MOV-\d+) \|", PAGE, re.MULTILINE)
