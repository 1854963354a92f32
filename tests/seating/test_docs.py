"""docs/seating.md lists every finding, every allowance and every key of the room."""

import re
from pathlib import Path

from drylay.seating.keys import WISH, piece_keys
from drylay.seating.pieces import allowances

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "seating.md").read_text(encoding="utf-8")
ROOM = sorted((ROOT / "src" / "drylay" / "seating").glob("*.py"))


def test_every_finding_is_documented_and_no_other() -> None:
    code = "".join(path.read_text(encoding="utf-8") for path in ROOM)
    emitted = set(re.findall(r'"(SEA-\d+)"', code))
    assert sorted(emitted) == re.findall(r"^\| (SEA-\d+) \|", PAGE, re.MULTILINE)


def test_the_room_that_use_takes_is_that_of_the_table() -> None:
    part = PAGE.split("| least | in comfort |")[1].split("A door that opens outward")[0]
    shown = [tuple(map(float, row)) for row in re.findall(r"\| (\d+) \| (\d+) \|$", part, re.M)]
    least, comfortable = allowances(), allowances("comfortable")
    pairs = zip(least.rulings, comfortable.rulings, strict=True)
    assert shown == [(one.value, other.value) for one, other in pairs]


def test_every_key_stands_on_the_page() -> None:
    part = PAGE.split("## In the garden file")[1].split("## The plan")[0]
    for key in (*WISH, *piece_keys()):
        assert re.search(rf"\b{key.name.removesuffix('_mm')}\b", part), key.name
