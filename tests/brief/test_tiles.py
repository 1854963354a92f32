"""Briefs for tiles: what they may leave out, what contradicts them, and how they travel."""

from typing import Any

import pytest

from drylay.brief.codec import brief_to_dict
from drylay.brief.reader import check_brief, read_brief
from drylay.errors import BriefError
from drylay.materials.loader import load_catalogue
from drylay.planner.design import design
from tile_family import FRAME, tile_families, yard

COVER = {"along_mm": 3016, "across_mm": 1808}
PADS = {
    "title": "Tiles", "cover": COVER, "board": {"article": "TT-600", "support": "pads"},
    "groundwork": {"packer": "PD-28"},
}  # fmt: skip
ON_FRAME = {
    "title": "Tiles", "cover": COVER, "board": {"article": "TT-600", "support": "frame"},
    "frame": FRAME, "fixings": {"coach_screw": "CS-8-120"},
}  # fmt: skip
BOARDS = {
    "title": "Boards", "cover": COVER, "board": {"article": "DB-28-145"}, "frame": FRAME,
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}  # fmt: skip


def changed(plain: dict[str, Any], path: str, value: object) -> dict[str, Any]:
    section, key = path.split(".")
    return {**plain, section: {**plain.get(section, {}), key: value}}


def without(plain: dict[str, Any], path: str) -> dict[str, Any]:
    section, _, key = path.partition(".")
    if not key:
        return {name: keys for name, keys in plain.items() if name != section}
    return {**plain, section: {k: v for k, v in plain[section].items() if k != key}}


@pytest.mark.parametrize("plain", [PADS, ON_FRAME], ids=["pads", "frame"])
def test_the_least_that_can_be_planned_of_tiles(plain: dict[str, Any]) -> None:
    brief = read_brief(plain)
    assert design(brief, stock=yard(), families=tile_families()).buildable
    assert read_brief(brief_to_dict(brief)) == brief
    assert brief.fixings.screw is None


@pytest.mark.parametrize(
    ("plain", "path"),
    [
        (ON_FRAME, "frame"), (ON_FRAME, "frame.article"), (ON_FRAME, "fixings.coach_screw"),
        (PADS, "groundwork.packer"), (PADS, "board.article"), (BOARDS, "fixings.screw"),
        (BOARDS, "fixings"), (BOARDS, "frame"),
    ],
)  # fmt: skip
def test_what_may_not_be_left_out(plain: dict[str, Any], path: str) -> None:
    assert path in {fault.path for fault in check_brief(without(plain, path))}


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("frame.article", "FT-45-145"), ("frame.most_centres_mm", 400),
        ("fixings.coach_screw", "CS-8-120"), ("fixings.screw", "DS-45-70"),
        ("fixings.hanger", "JH-45-108"), ("groundwork.packer_spacing_mm", 500),
        ("finish.preserver", "EP-CLEAR"), ("finish.end_wax", "EW"), ("lights.count", 4),
        ("board.face_up", "smooth"), ("board.measured_width_mm", 600),
        ("joints.most_per_row", 1), ("joints.price_each", "1.50"), ("joints.support", "pair"),
        ("joints.lines_mm", [1500]), ("fixings.clip", "CL"), ("climate.laying_c", 10),
    ],
)  # fmt: skip
def test_what_means_nothing_on_pads_is_a_fault(path: str, value: object) -> None:
    faults = {fault.path: fault for fault in check_brief(changed(PADS, path, value))}
    assert path in faults
    assert "board.support = pads" in faults[path].found
    assert faults[path].nearest.startswith("leave ")


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("fixings.screw", "DS-45-70"), ("frame.lines", "cheapest"), ("board.face_up", "smooth"),
        ("joints.end_gap_mm", 4), ("finish.article", "DO-NATURAL"),
    ],
)  # fmt: skip
def test_what_speaks_of_boards_is_a_fault_on_a_frame(path: str, value: object) -> None:
    faults = {fault.path for fault in check_brief(changed(ON_FRAME, path, value))}
    assert path in faults


def test_all_faults_are_told_at_once() -> None:
    plain = changed(changed(PADS, "frame.article", "FT-45-145"), "board.face_up", "smooth")
    paths = [fault.path for fault in check_brief(without(plain, "groundwork.packer"))]
    assert {"frame.article", "board.face_up", "groundwork.packer"} <= {*paths}


def test_what_holds_anyway_may_be_written_out() -> None:
    plain = changed(changed(PADS, "board.ends", "cut_first"), "lights.count", 0)
    assert check_brief(plain) == ()


@pytest.mark.parametrize(
    ("plain", "path"),
    [
        (changed(BOARDS, "board.support", "frame"), "board.support"),
        (without(ON_FRAME, "board.support"), "board.support"),
        (changed(PADS, "board.article", "TT-NONE"), "board.article"),
    ],
    ids=["a board with a support", "a tile without", "no such tile"],
)
def test_articles_and_support_agree(plain: dict[str, Any], path: str) -> None:
    """What an article is the stock tells, so this is found when the plan is made."""
    if path == "board.support" and "support" not in plain["board"]:
        plain = changed(plain, "fixings.screw", "DS-45-70")  # a whole brief for boards
    elif plain["board"]["article"] == "DB-28-145":
        plain = without(plain, "fixings.screw")
    brief = read_brief(plain)
    with pytest.raises(BriefError) as caught:
        design(brief, stock=yard(), families=tile_families())
    assert path in {fault.path for fault in caught.value.faults}


def test_another_support_is_refused_with_its_choices() -> None:
    """And nothing is asked for that only the right word would tell whether it is needed."""
    (fault,) = check_brief(changed(PADS, "board.support", "posts"))
    assert (fault.path, fault.wanted) == ("board.support", "one of frame, pads")


def test_tiles_are_sold_by_both_demo_yards() -> None:
    """Every tile of the merchant that the examples buy from is planned on pads."""
    stock = load_catalogue("catalogs/sallowby.toml")
    assert len(stock.tiles) >= 5
    for tile in stock.tiles:
        plain = changed(changed(PADS, "board.article", tile.code), "groundwork.packer", "SPD-28-45")
        plan = design(read_brief(plain), stock=stock, families=tile_families())
        assert plan.tiling is not None, (tile.code, plan.findings)
