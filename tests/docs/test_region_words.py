"""The page on the brief has the words of every region's own pack."""

import re
from pathlib import Path

import pytest

from drylay.brief.model import USES
from drylay.planner.asking import FAMILY_USE
from drylay.regions.packs import PACKS, region_pack

PAGE = (Path(__file__).parents[2] / "docs/brief.md").read_text(encoding="utf-8")


def rows_under(head: str) -> dict[str, list[str]]:
    """Return the rows of the one table with this head, by their first cell."""
    (table,) = re.findall(rf"^{re.escape(head)}\n\|[-|]+\n((?:\|.*\n)+)", PAGE, re.MULTILINE)
    rows = [line.strip("| ").split(" | ") for line in table.splitlines()]
    return {row[0].strip("`"): row[1:] for row in rows}


@pytest.mark.parametrize("region", PACKS)
def test_the_soils_of_a_region_are_told_as_its_pack_has_them(region: str) -> None:
    pack = region_pack(region)
    (told,) = rows_under("| region | words for `soil` |")[region]
    assert told.split("; ") == [
        f"{soil.name} (assumed)" if soil.name == pack.assumed_soil else soil.name
        for soil in pack.soils
    ]


def test_every_region_is_told() -> None:
    assert tuple(rows_under("| region | words for `soil` |")) == PACKS
    assert PAGE.count(", ".join(f"`{pack}`" for pack in PACKS[:-1]) + f" or `{PACKS[-1]}`") == 1


def test_every_use_is_told_with_what_its_joists_are_asked_for() -> None:
    told = rows_under(
        "| `use` | who it is for | joists of the boards' family | loads of a design basis |"
    )
    assert tuple(told) == USES
    for use, (_, joists, _) in told.items():
        assert joists.startswith(
            {"dwelling": "for a dwelling", "public": "for public use"}[FAMILY_USE[use]]
        )
