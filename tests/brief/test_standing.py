"""Decks that stand, in a brief: what contradicts itself, what is asked for, how such briefs travel.

The two sections of a whole brief, its codes and levels are made up.
"""

from typing import Any

import pytest

import drylay
from brief.test_levels import DECK, SQUARE
from drylay.brief.codec import brief_to_dict
from drylay.brief.raised_model import GuardsWish, RaisedWish, StepsWish, StrengthWish
from drylay.errors import Fault
from drylay.regions.packs import PACKS

RAISED: dict[str, Any] = {
    **DECK,
    "site": {"region": "united-kingdom", "soil": "firm clay"},
    "levels": {"points": SQUARE},
    "strength": {"basis": "eurocode-5"},
    "raised": {"post": "FP-100"},
    "guards": {"infill": "balusters"},
    "steps": {"side": "front"},
}
#: What is left of it without what stands.
LYING = {key: value for key, value in RAISED.items() if key in {*DECK, "levels"}}


def changed(plain: dict[str, Any], **values: Any) -> dict[str, Any]:
    """Return a brief with keys changed, named as section__key; None leaves one out."""
    for name, value in values.items():
        section, key = name.split("__")
        plain = {**plain, section: {**plain.get(section, {}), key: value}}
    return plain


def faults(plain: dict[str, Any], **values: Any) -> list[Fault]:
    return list(drylay.check_brief(changed(plain, **values)))


def test_a_deck_that_stands_is_read_and_goes_round() -> None:
    brief = drylay.read_brief(RAISED)
    assert brief.raised.post == "FP-100"
    assert drylay.read_brief(brief_to_dict(brief)) == brief


@pytest.mark.parametrize(
    ("values", "path", "found", "nearest"),
    [
        ({"raised__embed_mm": 600},
         "raised.embed_mm", "600 with raised.foot = metal foot",
         'foot = "in concrete", or leave embed out'),
        ({"raised__stand_off_mm": 20, "raised__foot": "in concrete"},
         "raised.stand_off_mm", "20 with raised.foot = in concrete",
         'foot = "metal foot", or leave stand_off out'),
        ({"raised__foot": "in concrete", "raised__footing": "ground screw"},
         "raised.foot", "in concrete with raised.footing = ground screw",
         'foot = "metal foot"'),
        ({"raised__screw_kn": 9},
         "raised.screw_kn", "9 with raised.footing = pad",
         'footing = "ground screw", or leave screw_kn out'),
        ({"raised__screw_kn": 9, "raised__footing": "concreted hole"},
         "raised.screw_kn", "9 with raised.footing = concreted hole",
         'footing = "ground screw", or leave screw_kn out'),
        ({"raised__ledger": False, "raised__ledger_fixing": "bolt"},
         "raised.ledger_fixing", "one with raised.ledger = false", "leave ledger_fixing out"),
        ({"raised__ledger": False, "raised__ledger_spacing_mm": 400},
         "raised.ledger_spacing_mm", "one with raised.ledger = false", "leave ledger_spacing out"),
        ({"raised__lines_mm": [300, 2100, 2100]},
         "raised.lines_mm[2]", "2100 after 2100", "each line once"),
        ({"raised__posts_mm": [300, 2100, 1200]},
         "raised.posts_mm[2]", "1200 after 2100", "2100 after 1200"),
        ({"groundwork__packer": "PK-10"},
         "groundwork.packer", "PK-10 with raised.post = FP-100", "leave packer out"),
        ({"levels__points": None},
         "levels.points", "nothing with raised.post",
         "give at least four ground heights, one near each corner"),
        ({"strength__basis": None},
         "strength.basis", "nothing with raised.post",
         "leave post out, if the deck lies on the ground"),
        ({"strength__basis": None, "strength__sharing": "one joist"},
         "strength.basis", "nothing with strength.sharing",
         "leave sharing out, if none is wanted"),
        ({"site__region": None},
         "site.region", "nothing with guards.infill, steps.side, site.soil",
         "leave infill, side, soil out, if none is wanted"),
        ({"steps__side": None, "steps__risers": 3, "steps__going_mm": 250},
         "steps.side", "nothing with steps.going_mm, steps.risers",
         "leave going, risers out, if none is wanted"),
        ({"steps__side": "house"}, "steps.side", "house", 'side = "front"'),
        # the cover is 2400 along and 2395 across
        ({"steps__width_mm": 2401},
         "steps.width_mm", "2401 with cover.along_mm = 2400", "width_mm = 2400"),
        ({"steps__width_mm": 2400, "steps__side": "left"},
         "steps.width_mm", "2400 with cover.across_mm = 2395", "width_mm = 2395"),
        ({"steps__width_mm": 900, "steps__from_mm": 1501},
         "steps.from_mm", "1501 with cover.along_mm = 2400 and steps.width_mm = 900",
         "from_mm = 1500"),
        ({"steps__from_mm": 2401}, "steps.from_mm", "2401 with cover.along_mm = 2400",
         "from_mm = 0"),
    ],
)  # fmt: skip
def test_one_contradiction_is_one_fault(
    values: dict[str, Any], path: str, found: str, nearest: str
) -> None:
    (fault,) = faults(RAISED, **values)
    assert (fault.path, fault.found, fault.nearest) == (path, found, nearest)
    assert fault.wanted


def test_the_design_basis_is_asked_for_and_never_guessed() -> None:
    (fault,) = faults(RAISED, strength__basis=None)
    assert fault.wanted == "the design basis: eurocode-5 or us-allowable-stress"


def test_the_region_is_one_of_the_packs_and_never_guessed() -> None:
    (fault,) = faults(LYING, site__soil="firm clay")
    assert fault.path == "site.region"
    assert fault.wanted == f"whose rules hold: one of {', '.join(PACKS)}"


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("bearer", "FT-45-195"), ("plies", 2), ("lines_mm", [900]), ("posts_mm", [900]),
        ("ledger", False), ("ledger_fixing", "bolt"), ("ledger_spacing_mm", 400),
        ("foot", "in concrete"), ("stand_off_mm", 20), ("brace_over_mm", 1200),
        ("footing", "pad"), ("shape", "round"),
    ],
)  # fmt: skip
def test_no_key_of_what_stands_means_anything_without_posts(key: str, value: object) -> None:
    (fault,) = faults(LYING, **{f"raised__{key}": value})
    assert (fault.path, fault.found) == ("raised.post", f"nothing with raised.{key}")
    assert fault.wanted == "which timber the posts are of"
    assert fault.nearest == f"leave {key.removesuffix('_mm')} out, if none is wanted"


def test_keys_of_one_section_are_told_at_once() -> None:
    (fault,) = faults(LYING, raised__bearer="FT-45-195", raised__plies=2)
    assert fault.found == "nothing with raised.bearer, raised.plies"


def test_what_holds_anyway_may_be_written_out() -> None:
    told = {"ledger": True, "foot": "metal foot", "footing": "concreted hole", "shape": "square"}
    brief = drylay.read_brief({**LYING, "raised": told})
    assert (brief.raised, brief.strength) == (RaisedWish(), StrengthWish())
    assert (brief.guards, brief.steps) == (GuardsWish(), StepsWish())
    assert not {"raised", "strength", "guards", "steps"} & {*brief_to_dict(brief)}


@pytest.mark.parametrize(
    "values",
    [
        {"raised__embed_mm": 600, "raised__foot": "in concrete"},
        {"raised__embed_mm": 0, "raised__stand_off_mm": 20},
        {"raised__stand_off_mm": 0, "raised__foot": "in concrete"},
        {"raised__screw_kn": 9, "raised__footing": "ground screw"},
        {"raised__footing": "ground screw"},  # that it carries nothing the planner tells
        {"raised__ledger": True, "raised__ledger_fixing": "bolt"},
        {"steps__width_mm": 2400, "steps__from_mm": 0},
        {"steps__width_mm": 900, "steps__from_mm": 1500},
        {"house__wall": "veneer"},
    ],
)
def test_what_goes_together_is_no_fault(values: dict[str, Any]) -> None:
    assert faults(RAISED, **values) == []


def test_a_deck_on_packers_may_be_screened_too() -> None:
    assert faults(LYING, strength__basis="eurocode-5", groundwork__packer="PK-10") == []


def test_a_wall_is_a_fact_and_needs_nothing_beside_it() -> None:
    assert faults(LYING, house__wall="veneer") == []


def test_tiles_on_pads_stand_on_no_posts() -> None:
    """And are not asked for ground, basis or another packer: the one fault says it all."""
    pads = {
        "title": "Tiles", "cover": DECK["cover"], "groundwork": {"packer": "PD-28"},
        "board": {"article": "TT-600", "support": "pads"}, "raised": {"post": "FP-100"},
    }  # fmt: skip
    (fault,) = faults(pads)
    assert (fault.path, fault.found) == ("raised.post", "FP-100 with board.support = pads")


def test_what_cannot_be_read_is_not_judged_twice() -> None:
    found = faults(
        RAISED, raised__foot="on stones", raised__embed_mm=600, raised__lines_mm="no",
        raised__footing="none", raised__screw_kn=9, steps__side="back", steps__width_mm=9000,
    )  # fmt: skip
    assert {fault.path for fault in found} == {
        "raised.foot", "raised.lines_mm", "raised.footing", "steps.side",
    }  # fmt: skip


def test_the_fault_of_a_post_told_by_no_text_is_its_own() -> None:
    paths = [fault.path for fault in faults(RAISED, raised__post=3, groundwork__packer="PK-10")]
    assert paths == ["raised.post", "groundwork.packer"]


@pytest.mark.parametrize(("given", "fix"), [
    (["1600 mm", "1850 mm"], '["1600 mm", ...]'), (["1600 mm"], '["1600 mm"]')])  # fmt: skip
def test_texts_in_a_list_of_mm_are_told_how_a_list_of_texts_is_written(
    given: list[str], fix: str
) -> None:
    (told,) = faults(RAISED, raised__lines_mm=given)[:1]
    assert told.nearest == f"lines = {fix}"
    assert not [each for each in faults(RAISED, raised__lines=given) if "lines" in each.path]
