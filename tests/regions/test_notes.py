"""Notes of a region: told as its sources have them, never decided."""

import pytest

from drylay.errors import InputError
from drylay.findings import Severity
from drylay.regions.model import NOTE_FACTS, NOTE_FIGURES, STANDINGS
from drylay.regions.notes import region_notes
from drylay.regions.packs import PACKS, region_pack

#: Shares and areas as seen outside: the planning guidance of England, and the model code's R105.2
#: as towns quote it, 200 square feet of 0.3048 m.
OUTSIDE = [
    ("united-kingdom", "garden_ratio", 0.5),
    ("north-america", "area_m2", 200 * 0.3048**2),
]


@pytest.mark.parametrize(("region", "about", "value"), OUTSIDE)
def test_a_figure_is_that_of_its_source(region: str, about: str, value: float) -> None:
    (note,) = (note for note in region_pack(region).notes if note.about == about)
    assert note.limit is not None
    assert note.limit.value == pytest.approx(value)


@pytest.mark.parametrize("region", PACKS)
def test_every_note_asks_the_local_authority_and_says_how_it_is_known(region: str) -> None:
    pack = region_pack(region)
    assert pack.notes
    for note in pack.notes:
        assert note.about in (*NOTE_FIGURES, *NOTE_FACTS)
        assert (note.limit is not None) == (note.about in NOTE_FIGURES)
        assert "ask the local authority" in note.asks
        assert note.standing in STANDINGS
        assert note.source.title
    told = region_notes(region, height_mm=2000, area_m2=20.0)
    assert len(told) == len(pack.heights) + len(pack.notes)
    assert Severity.STOP not in {found.severity for found in told}


def test_half_of_the_garden_is_a_note_and_more_a_caution() -> None:
    """20 of 40 m2 are half; with a shed of 1 m2 they are more."""

    def share(covered: float) -> Severity:
        told = region_notes(
            "united-kingdom", height_mm=200, area_m2=20.0, garden_m2=40.0, covered_m2=covered
        )
        return next(found.severity for found in told if found.code == "RGN-002")

    assert (share(0.0), share(1.0)) == (Severity.NOTE, Severity.CAUTION)


def test_facts_are_told_as_they_are() -> None:
    told = region_notes(
        "united-kingdom", height_mm=300, area_m2=20.0, facts={"forward": True, "listed": False}
    )
    by = {found.subject: found for found in told}
    assert by["forward of the front, England"].severity is Severity.CAUTION
    assert by["listed building, England"].message.startswith("not so here")
    assert by["flat or converted house, England"].message.startswith("nobody told")
    assert by["permission, England"].severity is Severity.NOTE  # no more than 300
    assert "not covered" in by["Scotland and Northern Ireland"].message


def test_all_that_is_wrong_is_told_at_once() -> None:
    with pytest.raises(InputError) as caught:
        region_notes(
            "united-kingdom", height_mm=1, area_m2=0.0, garden_m2=-1.0, covered_m2=-1.0,
            facts={"anywhere": True},
        )  # fmt: skip
    assert {fault.path for fault in caught.value.faults} == {
        "facts.anywhere", "area_m2", "garden_m2", "covered_m2",
    }  # fmt: skip
    with pytest.raises(InputError, match="united-kingdom"):
        region_notes("england", height_mm=1, area_m2=1.0)
