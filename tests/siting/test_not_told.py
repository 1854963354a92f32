"""What is told by half, or cannot be: it is asked about, and never taken for good."""

from math import inf, nan
from typing import Any

import pytest
from attrs import evolve

from drylay.errors import InputError
from drylay.findings import Severity
from drylay.siting.around import ask_boundary
from drylay.siting.ground import ask_firmness
from drylay.siting.model import DeckPlace, Garden, Standing, Tree
from drylay.siting.near import shifted
from drylay.siting.standing import ask_standing, standing_of
from drylay.siting.verdict import best_places
from drylay.siting.view import ask_view, needed_fence_mm, seen_seated_mm
from siting.gardens import PLOT, fence, place, whole_garden
from siting.test_reader import DECK, faults


def test_a_soil_that_no_pack_tells_of_has_something_against_it() -> None:
    (answer,) = ask_firmness(Garden(soil="peat"), place())
    assert not answer.good
    tree = Tree(name="oak", at_mm=(6000, 2000), stem_mm=300, height_mm=9000)
    found = ask_firmness(Garden(soil="Heavy CLAY", trees=(tree,)), place())[0].findings
    assert "PLC-035" in [each.code for each in found]


def test_a_tree_of_no_height_is_not_passed_over() -> None:
    tree = Tree(name="oak", at_mm=(6000, 2000), stem_mm=300)
    for soil, severity in (("", Severity.NOTE), ("clay", Severity.CAUTION)):
        (answer,) = ask_firmness(Garden(trees=(tree,), soil=soil), place())
        (told,) = [each for each in answer.findings if each.code == "PLC-036"]
        assert (told.severity, told.subject) == (severity, "oak")


def stands(deck: DeckPlace) -> tuple[Standing, list[tuple[str, str, float | None]]]:
    found = standing_of(deck)
    told = ask_standing(deck, found).findings
    return found, [(each.code, each.severity.value, each.measured) for each in told]


def test_a_deck_does_not_lie_in_the_ground() -> None:
    """Highest ground 50. Top 20: 30 below it. Top 60, build 175: the frame 165 deep, 150 dug."""
    for way in ("ground", "legs", None):
        found, told = stands(place(top_mm=20.0, stands=way))
        assert ("PLC-079", "stop", 30.0) in told
        assert found.stands != "ground"
        found, told = stands(place(top_mm=60.0, stands=way))
        assert ("PLC-079", "caution", 165.0) in told
        assert found.stands != "ground"
        found, told = stands(place(top_mm=60.0, stands=way, dig_mm=165.0))
        assert "PLC-079" not in [code for code, _, _ in told]
    found, told = stands(place(top_mm=60.0, dig_mm=None))
    assert ("PLC-079", "caution", 165.0) in told
    assert stands(place(top_mm=225.0, dig_mm=0.0))[0].stands == "ground"


def test_no_packers_are_told_of_where_the_frame_lies_below_all_ground() -> None:
    """Top 100, build 175: underside at -75, lowest ground at -60, 150 dug from 50 on."""
    said = [each.message for each in standing_of(place(top_mm=100.0)).reasons]
    assert not any("packers reach from" in each for each in said)
    assert any("below the lowest ground" in each for each in said)


def test_a_sunk_deck_is_raised_as_far_as_needed() -> None:
    """The frame may lie as deep as is dug: 50 + 175 - 150 = 75 from 20 is 55."""
    deck = place(top_mm=20.0)
    answer = ask_standing(deck, standing_of(deck))
    assert answer.changes[0].by_mm == 55.0
    up = evolve(deck, top_mm=75.0)
    assert ask_standing(up, standing_of(up)).good


def test_where_all_beyond_matters_a_seated_head_is_seen_from_afar() -> None:
    """Head at 600 + 1200 = 1800: seen from far enough over any lower fence."""
    deck, line = place(top_mm=600.0), fence(private_mm=None, height_mm=1700.0)
    assert seen_seated_mm(line, deck) == 1800
    codes = [each.code for each in ask_view(Garden(fences=(line,)), deck)[0].findings]
    assert "PLC-012" in codes
    # the eye that stands on the deck is higher yet: 600 + 1600
    assert needed_fence_mm(line, deck) == 2200


def test_no_view_is_mended_through_the_house_or_off_the_plot() -> None:
    """Eye 5100 over 1700: 8000 x 3400 / 1700 = 16 m off the fence, and the plot is 15 m deep."""
    garden = evolve(whole_garden(), fences=(fence(height_mm=1700.0),), plot_mm=PLOT)
    deck = place(across_mm=11_000.0, top_mm=3500.0)
    for change in ask_view(garden, deck)[0].changes:
        if change.kind == "move":
            there = shifted(deck, change.along_mm, change.across_mm)
            assert -1000 <= there.along_mm <= 8000, change
            assert 0 <= there.across_mm <= 12_000, change


@pytest.mark.parametrize("off_mm", [20_000.0, 240_000.0, 500_000.0, -500_000.0])
def test_however_far_off_the_plot_it_is_not_on_it(off_mm: float) -> None:
    for far in (place(along_mm=off_mm), place(across_mm=off_mm)):
        codes = [each.code for each in ask_boundary(whole_garden(), far)[0].findings]
        assert codes == ["PLC-040"]


def test_no_view_is_mended_below_the_ground() -> None:
    """Eyes 1600 over the boards are behind a fence of 1700 from 100 on, and the ground has 150."""
    deck = place(ground_most_mm=150.0)
    low = fence(height_mm=1700.0, private_mm=None)
    changes = ask_view(Garden(fences=(low,)), deck)[0].changes
    assert all(deck.top_mm + each.by_mm >= 150 for each in changes if each.kind == "level")


@pytest.mark.parametrize("hole", [(-1, 0), (4001, 0), (0, 3001), (9000, 9000)])
def test_a_hole_lies_within_its_deck(hole: tuple[float, float]) -> None:
    good = {"along_mm": 4000, "across_mm": 3000}
    row: dict[str, Any] = {**DECK, "holes": [good, {"along_mm": hole[0], "across_mm": hole[1]}]}
    (found,) = faults(places=[row])
    assert found.path == "siting.places[0].holes[1]"


@pytest.mark.parametrize("step", [inf, nan, "2 m", True, None, 0, -5.0])
def test_a_step_is_a_length(step: Any) -> None:
    with pytest.raises(InputError) as refused:
        best_places(whole_garden(), place(), step_mm=step)
    assert "above 0" in str(refused.value)


def test_a_step_too_fine_is_called_so() -> None:
    with pytest.raises(InputError) as refused:
        best_places(whole_garden(), place(), step_mm=1.0)
    assert " 0 places" not in str(refused.value)
    assert "larger step" in str(refused.value)
