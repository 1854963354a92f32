"""A review tells all that stands in a brief's way at once, and takes nothing as meant."""

from pathlib import Path
from typing import Any

import pytest

import drylay
from drylay.brief.reader import check_brief

ROOT = Path(__file__).parents[2]
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
DECK: dict[str, Any] = {
    "title": "Level deck",
    "cover": {"along_mm": 2400, "across_mm": 2395},
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}


def reviewed(**more: Any) -> drylay.Review:
    return drylay.review({**DECK, **more}, stock=YARD)


def codes(found: drylay.Review) -> set[str]:
    return {each.code for each in found.findings}


def test_a_sound_brief_is_told_what_its_plan_tells() -> None:
    found = reviewed()
    plan = drylay.design(drylay.read_brief(DECK), stock=YARD)
    assert (found.faults, found.supposed, found.looked) == ((), (), True)
    assert found.findings == plan.findings
    assert found.stops == ()


def test_a_length_without_its_unit_is_asked_about_and_looked_at_as_if() -> None:
    found = reviewed(cover={"along": "2.4", "across_mm": 2395})
    assert [each.as_if for each in found.supposed] == ['along = "2.4 m"']
    assert found.faults == check_brief({**DECK, "cover": {"along": "2.4", "across_mm": 2395}})
    assert found.looked


@pytest.mark.parametrize(
    "cover",
    [
        {"along_mm": 2400},  # nothing to suppose
        {"along_mm": "wide", "across_mm": 2395},
        {"along": "12", "across_mm": 2395},  # metres, inches, centimetres?
        {"along_mm": 2400, "across_mm": 2395, "depth": 3},
    ],
)
def test_what_no_fault_can_name_is_not_made_up(cover: dict[str, Any]) -> None:
    found = reviewed(cover=cover)
    assert found.faults
    assert (found.supposed, found.findings, found.looked) == ((), (), False)


def test_what_the_mapping_says_is_left_as_it_is() -> None:
    cover = {"along": "2.4", "across_mm": 2395}
    reviewed(cover=cover)
    assert cover == {"along": "2.4", "across_mm": 2395}


def test_an_article_that_nobody_sells_is_one_fault_among_all() -> None:
    found = reviewed(board={"article": "NOT-THERE"}, cover={"along": "2.4", "across_mm": 2395})
    assert {fault.path for fault in found.faults} == {"cover.along", "board.article"}
    assert not found.looked


def test_files_that_are_none_are_faults() -> None:
    found = drylay.review(ROOT / "no-such-brief.toml", stock=YARD)
    assert len(found.faults) == 1
    assert not found.looked


def test_rows_that_cannot_be_laid_hide_nothing_of_place_and_articles() -> None:
    """One stop more and all others told: levels, fabric, metals, use, guards."""
    odd = {
        "levels": {
            "deck_top_mm": 0,
            "points": [
                {"along_mm": x, "across_mm": y, "level_mm": -1900}
                for x, y in ((0, 0), (2400, 0), (2400, 2395), (0, 2395))
            ],
        },
        "site": {"region": "united-kingdom"},
        "groundwork": {"fabric": "GS-4"},
        "use": "crowd",
    }
    tight = {"cover": {"along_mm": 2400, "across_mm": 2400}, "rows": {"prefer": ["as_wished"]}}
    whole, unlaid = reviewed(**odd), reviewed(**odd, **tight)
    assert "ROW-001" in codes(unlaid) - codes(whole)
    beside = {"ENG-001", "ENG-004", "GRD-009", "GND-001", "LVL-010"}
    assert beside <= codes(whole)
    assert beside <= codes(unlaid)


@pytest.mark.parametrize(
    ("wish", "code", "stops"),
    [
        ({"frame": {"article": "FT-45-145", "run": "along"}}, "FRM-005", True),
        ({"frame": {"article": "FT-45-145", "run": "across"}}, "FRM-005", None),
        ({"fascia": {"skirting": "solid"}}, "AIR-003", True),
        ({"fascia": {"skirting": "slotted"}}, "AIR-004", False),
        ({"fascia": {"skirting": "none"}}, "AIR-003", None),
        ({"house": {"floor_mm": 300}, "levels": {"falls": "to the house"}}, "LVL-027", True),
        ({"house": {"floor_mm": 300}, "levels": {"falls": "from the house"}}, "LVL-028", False),
        # nothing is told of the house, but the wish itself names one
        ({"levels": {"falls": "to the house"}}, "LVL-027", True),
        ({"levels": {"falls": "level"}}, "LVL-028", None),
    ],
)
def test_wishes_that_no_deck_should_have(
    wish: dict[str, Any], code: str, stops: bool | None
) -> None:
    found = reviewed(**wish)
    assert not found.faults
    assert (code in codes(found)) is (stops is not None)
    assert any(each.code == code for each in found.stops) is bool(stops)


def test_a_solid_skirting_shuts_off_only_bricks_that_are_there() -> None:
    def shut(**more: Any) -> list[str]:
        found = reviewed(fascia={"skirting": "solid"}, **more)
        return [each.subject for each in found.findings if each.code == "AIR-003"]

    bricks = {"air_bricks": [{"along_mm": 900, "under_mm": 100}]}
    assert shut() == ["skirting"]
    assert shut(house=bricks) == ["skirting", "air bricks"]


def test_a_tub_larger_than_its_deck_is_told() -> None:
    """DECK is smaller than 9 m either way: such a foot has nothing to stand on."""
    tub = {"foot_along_mm": 9000, "foot_across_mm": 500, "filled_kg": 1500}
    found = [each.message for each in reviewed(tub=tub).stops if each.code == "ENG-011"]
    assert any("larger than the deck" in each for each in found)


def cover_at(along_mm: float, across_mm: float, whose: str) -> dict[str, Any]:
    return {"from_along_mm": along_mm, "from_across_mm": across_mm, "along_mm": 600,
            "across_mm": 450, "whose": whose}  # fmt: skip


def drains(found: drylay.Review) -> list[tuple[str, float | None]]:
    return [(f.code, f.measured) for f in found.findings if f.code.startswith("DRN")]


@pytest.mark.parametrize(
    ("at", "whose", "told"),
    [
        ((1000, 1000), "own", [("DRN-001", None)]),
        ((1000, 1000), "shared", [("DRN-001", None), ("DRN-002", 0.0)]),
        ((2400, 0), "own", []),  # beside it
        ((2400, 0), "unknown", [("DRN-002", 0.0)]),
        ((2400 + 2999, 0), "public", [("DRN-002", 2999.0)]),
        ((2400 + 3000, 0), "public", []),
        # 3, 4, 5: 1800 along from the corner and 2400 on from it make 3000; 1 mm nearer is near
        ((2400 + 1800, 2395 + 2400), "public", []),
        ((2400 + 1799, 2395 + 2400), "public", [("DRN-002", 2999.4)]),
    ],
)
def test_inspection_covers(
    at: tuple[float, float], whose: str, told: list[tuple[str, float | None]]
) -> None:
    """1799^2 + 2400^2 = 8,996,401, whose root is 2999.4001: rounded down 2999.4."""
    found = reviewed(drains={"covers": [cover_at(*at, whose)]})
    assert drains(found) == told


@pytest.mark.parametrize(("size_mm", "told"), [(450, []), (449, ["DRN-001"])])
def test_a_hatch_over_all_of_a_cover_opens_it(size_mm: float, told: list[str]) -> None:
    outline = {
        "rectangles": [{"from_along_mm": 0, "from_across_mm": 0, "along_mm": 4000,
                        "across_mm": 3000}],
        "openings": [{"kind": "hatch", "along_mm": 1300, "across_mm": 1225, "size_along_mm": 600,
                      "size_across_mm": size_mm}],
    }  # fmt: skip
    deck = {key: value for key, value in DECK.items() if key != "cover"}
    wish = {**deck, "outline": outline, "drains": {"covers": [cover_at(1000, 1000, "own")]}}
    found = drylay.review(wish, stock=YARD)
    assert not found.faults
    assert [each.code for each in found.findings if each.code.startswith("DRN")] == told


@pytest.mark.parametrize(
    ("tub", "use", "paths"),
    [
        ({"foot_along_mm": 2000}, "hot tub", {"tub.foot_across_mm", "tub.filled_kg"}),
        ({"foot_along_mm": 2000, "foot_across_mm": 2000, "filled_kg": 900}, "dwelling", {"use"}),
        ({"foot_along_mm": 2000, "foot_across_mm": 2000, "filled_kg": 900}, "hot tub", set()),
    ],
)
def test_a_tub_is_told_whole_and_by_the_decks_use(
    tub: dict[str, float], use: str, paths: set[str]
) -> None:
    found = reviewed(tub=tub, use=use)
    assert {fault.path for fault in found.faults} == paths


def test_what_a_tub_presses_with() -> None:
    """900 kg x 9.80665 / (1.5 x 2) m2 = 2941.995 N/m2, rounded up to 2.942 kN/m2."""
    found = reviewed(tub={"foot_along_mm": 1500, "foot_across_mm": 2000, "filled_kg": 900},
                     use="hot tub")  # fmt: skip
    assert [f.measured for f in found.stops if f.code == "ENG-011"] == [2.942]
