"""The starter brief: reads back, explains every key, names what the demo yards sell."""

import re
import tomllib
from pathlib import Path

import pytest

from drylay.brief.keys import OVERRIDE, SECTIONS
from drylay.brief.model import UNITS
from drylay.brief.reader import read_brief
from drylay.brief.starter import starter_brief
from drylay.errors import BriefError
from drylay.intake.keys import bare_name
from drylay.materials.loader import load_catalogue
from drylay.materials.lookup import (
    find_board,
    find_coach_screw,
    find_fascia,
    find_screw,
    find_timber,
)

#: Of tiles alone, so that no brief for boards can say it.
OF_TILES = '# support = "pads"'
#: The starter is a rectangle's: an outline takes its cover's place.
STARTED = {name: keys for name, keys in SECTIONS.items() if name not in {"outline", "laying"}}
CATALOGS = Path(__file__).parents[2] / "catalogs"


@pytest.mark.parametrize("units", UNITS)
def test_the_starter_reads_back(units: str) -> None:
    assert read_brief(tomllib.loads(starter_brief(units))).units == units


@pytest.mark.parametrize("units", UNITS)
def test_the_starter_reads_back_with_every_wish_taken_up(units: str) -> None:
    starter = starter_brief(units).replace(OF_TILES, f"#{OF_TILES}")
    text = re.sub(r"^# (?=(\w+ = |\[\[))", "", starter, flags=re.MULTILINE)
    text = text.replace('by = ""', 'by = "a person"').replace('reason = ""', 'reason = "a reason"')
    brief = read_brief(tomllib.loads(text.replace('"cut_first"', '"trim_in_line"')))
    for section, keys in STARTED.items():
        for key in keys:
            told = getattr(getattr(brief, section), key.name)
            assert (told is None) == (f"{section}.{key.name}" == "board.support")
    assert len(brief.overrides) == 1


@pytest.mark.parametrize("units", UNITS)
def test_the_starter_explains_every_key_once(units: str) -> None:
    text = starter_brief(units)
    for section, keys in STARTED.items():
        part = text[text.index(f"[{section}]") :].split("\n[", 1)[0]
        for key in keys:
            found = re.findall(rf"^(?:# )?{bare_name(key)} = .*$", part, flags=re.MULTILINE)
            assert len(found) == 1, key.name
            assert "  # " in found[0] or key.name == "prefer"
    for key in OVERRIDE:
        assert f"\n# {key.name} = " in text


@pytest.mark.parametrize(("units", "stock"), [("metric", "hobbleden"), ("imperial", "marrowick")])
def test_the_starter_names_what_the_demo_yard_sells(units: str, stock: str) -> None:
    brief = read_brief(tomllib.loads(starter_brief(units)))
    yard = load_catalogue(CATALOGS / f"{stock}.toml")
    assert find_board(yard, brief.board.article)
    assert find_timber(yard, brief.frame.article)
    assert find_fascia(yard, brief.fascia.article or "")
    assert find_screw(yard, brief.fixings.screw)
    assert find_coach_screw(yard, brief.fixings.coach_screw)


def test_a_starter_in_other_units_is_refused() -> None:
    with pytest.raises(BriefError) as caught:
        starter_brief("metrc")
    (fault,) = caught.value.faults
    assert (fault.path, fault.nearest) == ("units", 'units = "metric"')
