"""Where screening ends somebody else is named, with the figure and the limit."""

import pytest

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.regions.hard_stops import WHO, hard_stops, heights_told, uncovered
from drylay.regions.packs import limit_of, region_pack, soil_named

NA = region_pack("north-america")
NZ = region_pack("new-zealand")


def codes(found: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in found]


def test_a_plain_deck_has_no_stop() -> None:
    assert hard_stops(use="dwelling", height_mm=1800.0, soil=soil_named(NA, "")) == ()
    assert hard_stops(use="balcony", height_mm=300.0, slope_ratio=0.25) == ()


@pytest.mark.parametrize(
    ("asked", "code", "measured", "limit"),
    [
        ({"use": "crowd"}, "ENG-001", None, None),
        ({"use": "hot tub"}, "ENG-002", None, None),
        ({"on_roof": True}, "ENG-003", None, None),
        ({"height_mm": 1800.1}, "ENG-004", 1800.1, 1800.0),  # common practice, no source
        ({"soil": soil_named(NA, "Ontario: soft clay")}, "ENG-005", 40.0, None),
        ({"soil": soil_named(NA, "organic soil, peat")}, "ENG-005", None, None),
        ({"retained_mm": 601.0}, "ENG-006", 601.0, 600.0),  # common practice, no source
        ({"slope_ratio": 0.26}, "ENG-007", 0.26, 0.25),  # common practice, no source
        ({"height_mm": None}, "ENG-009", None, None),
    ],
)
def test_what_is_not_screened_stops(
    asked: dict, code: str, measured: float | None, limit: float | None
) -> None:
    (found,) = hard_stops(**{"use": "dwelling", "height_mm": 500.0, **asked})
    assert (found.code, found.severity) == (code, Severity.STOP)
    assert (found.measured, found.limit) == (measured, limit)
    assert WHO in found.message
    assert found.source.title


def test_little_earth_held_up_is_a_caution() -> None:
    (found,) = hard_stops(use="dwelling", height_mm=500.0, retained_mm=300.0)
    assert (found.code, found.severity) == ("ENG-010", Severity.CAUTION)


def test_an_unknown_use_is_refused() -> None:
    with pytest.raises(InputError, match="hot tub"):
        hard_stops(use="party", height_mm=100.0)


def test_what_a_pack_does_not_cover_stops() -> None:
    frost, rise = limit_of(NA, "frost_depth_mm"), limit_of(NA, "rise_least_mm")
    (found,) = uncovered(NA, (frost, rise))  # "no limit" is an answer
    assert (found.code, found.subject) == ("ENG-008", "frost_depth_mm")


def test_heights_are_told_and_left_to_the_local_authority() -> None:
    """34 in is 863.6: over the model code's 30 in and Wisconsin's 24 in."""
    told = heights_told(NA, 863.6)
    assert codes(told) == ["RGN-001", "RGN-001"]
    assert [finding.severity for finding in told] == [Severity.CAUTION] * 2
    assert [finding.limit for finding in told] == pytest.approx([762.0, 609.6])
    assert all("ask the local authority" in finding.message for finding in told)
    assert heights_told(NA, 762.0)[0].severity is Severity.NOTE


def test_a_fall_of_a_metre_is_enough_in_new_zealand() -> None:
    """F4.3.1: 1 metre or more."""
    barrier, consent = heights_told(NZ, 1000.0)
    assert (barrier.severity, consent.severity) == (Severity.CAUTION, Severity.NOTE)
