"""The starter brief: reads back, explains every key, names what the demo yards sell."""

import re
import tomllib
from pathlib import Path

import pytest

from drylay.brief.keys import OVERRIDE, SECTIONS
from drylay.brief.model import UNITS
from drylay.brief.raised_model import RaisedWish
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
OF_TILES = {"board.support"}
PACKERS = {"groundwork.packer", "groundwork.packer_spacing_mm"}
ON_POSTS = {f"raised.{key.name}" for key in SECTIONS["raised"]}
#: Ways to take up wishes that do not go together: words put in place of others, keys left out.
WAYS: dict[str, tuple[dict[str, str], set[str]]] = {
    "metal feet": ({}, PACKERS | {"raised.embed_mm", "raised.screw_kn"}),
    "in concrete": ({'foot = "metal foot"': 'foot = "in concrete"'},
                    PACKERS | {"raised.stand_off_mm", "raised.screw_kn", "raised.post_foot"}),
    "ground screws": ({'footing = "concreted hole"': 'footing = "ground screw"'},
                      PACKERS | {"raised.embed_mm"}),
    "packers": ({}, ON_POSTS),
}  # fmt: skip
#: The starter is a rectangle's: an outline takes its cover's place.
STARTED = {name: keys for name, keys in SECTIONS.items() if name not in {"outline", "laying"}}
CATALOGS = Path(__file__).parents[2] / "catalogs"


@pytest.mark.parametrize("units", UNITS)
def test_the_starter_reads_back(units: str) -> None:
    assert read_brief(tomllib.loads(starter_brief(units))).units == units


def without(text: str, path: str) -> str:
    """Return the starter without the line of a commented key of a section."""
    section, key = path.split(".")
    at = text.index(f"[{section}]")
    found = re.compile(rf"^# {key.removesuffix('_mm')} = .*$", re.MULTILINE).search(text, at)
    assert found, path
    return text[: found.start()] + text[found.end() :]


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("way", WAYS)
def test_the_starter_reads_back_with_every_wish_taken_up(units: str, way: str) -> None:
    text = starter_brief(units)
    words, left_out = WAYS[way]
    for path in sorted(left_out | OF_TILES):
        text = without(text, path)
    text = re.sub(r"^# (?=(\w+ = |\[\[))", "", text, flags=re.MULTILINE)
    for word, other in {**words, 'use = "dwelling"': 'use = "hot tub"',
                        '"cut_first"': '"trim_in_line"', 'by = ""': 'by = "a person"',
                        'reason = ""': 'reason = "a reason"'}.items():  # fmt: skip
        text = text.replace(word, other)
    brief = read_brief(tomllib.loads(text))
    plain = RaisedWish()
    for section, keys in STARTED.items():
        for key in keys:
            path = f"{section}.{key.name}"
            told = getattr(getattr(brief, section), key.name)
            unsaid = getattr(plain, key.name) if section == "raised" else None
            assert path not in left_out | OF_TILES or told == unsaid, path
            assert path in left_out | OF_TILES or told is not None, path
    assert len(brief.overrides) == 1


def test_every_wish_of_the_starter_is_taken_up_in_some_way() -> None:
    assert set.intersection(*(left_out for _, left_out in WAYS.values())) == set()


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
