"""An extension runs on from the old deck, and its brief can be planned from."""

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from drylay.edges.model import FasciaFace
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.site.model import Site
from drylay.upkeep.extension import extension
from drylay.upkeep.model import Extension
from drylay.upkeep.parts import UpkeepError
from reference_deck import REFERENCE
from upkeep.decks import RECTANGLES, across, plan_of


def codes(found: Extension) -> set[str]:
    return {finding.code for finding in found.findings}


@settings(max_examples=20)
@given(st.sampled_from(RECTANGLES), st.sampled_from(["front", "right", "left"]),
       st.integers(120, 4000))  # fmt: skip
def test_rows_follow_in_phase_and_the_brief_is_read_back(name: str, side: str, by: int) -> None:
    plan = plan_of(name)
    found = extension(plan, side, by)
    assert found.brief is None or drylay.read_brief(found.brief.to_dict()) == found.brief
    if found.way == "rows":
        # near edges are whole pitches from the old row that is counted from
        rows = (found.first_near_mm - found.phase_mm) / found.pitch_mm
        assert abs(rows - round(rows)) < 1e-9
        # what is wished is where the new part starts, its depth and what is left
        if found.rows:
            told = found.starts_mm + found.depth_mm + found.remainder_mm
            assert abs(told - by) < 0.01
        assert 0 <= found.remainder_mm < max(found.pitch_mm, by)
        assert found.depth_mm == max(0, found.rows * found.pitch_mm - found.gap_mm)


@settings(max_examples=15)
@given(st.integers(14700, 15500))
def test_ten_rows_measured_give_the_gap(tenths: int) -> None:
    """Ten pitches of boards and gaps are ten boards and ten gaps: 1480 over boards of 145 is 3."""
    found = extension(plan_of("S03"), "front", 1000, ten_rows_mm=tenths / 10, width_mm=145)
    assert abs(found.gap_mm - (tenths / 100 - 145)) <= 1 / 640 + 1e-9
    assert "UPK-024" not in codes(found)
    assert found.questions == ()


def test_figures_worked_by_hand() -> None:
    """S03 is 2995 deep, rows of 145 at 150; the last begins at 2850, so the next at 3000, 5 beyond.

    Of 1000 wished 6 rows at 150 take 900, the first gap with them: 100 are left, 50 short of one.
    """
    found = extension(plan_of("S03"), "front", 1000)
    assert (found.starts_mm, found.first_near_mm, found.rows) == (5.0, 3000.0, 6)
    assert (found.depth_mm, found.remainder_mm, found.more_mm) == (895.0, 100.0, 50.0)
    assert {"UPK-024", "UPK-025"} <= codes(found)
    assert "tenth row" in found.questions[0]


def test_a_row_wants_its_gap_to_the_old_deck_too() -> None:
    """896 have room for 6 boards and 5 gaps (895), but not for the gap to the old deck as well."""
    found = extension(plan_of("S03"), "front", 896)
    assert (found.rows, found.remainder_mm, found.more_mm) == (5, 146.0, 4.0)


def test_from_a_ripped_row_a_whole_board_is_counted() -> None:
    """S15 ends in a ripped row that begins at 3544.8875: a whole 139.7 ends at 3684.5875.

    The cover ends at 3657.6, 26.9875 before that; with the gap of 3.175 rows start 30.1625 beyond.
    """
    found = extension(plan_of("S15"), "front", 1000)
    assert found.starts_mm == 30.1625
    assert "UPK-026" in codes(found)


def test_the_extension_of_a_step_is_designed_in_phase() -> None:
    plan = plan_of("S01")
    stock = drylay.load_catalogue(REFERENCE / "S01-stock.toml")
    for side, near in (("front", (0.0, 150.0, 300.0)), ("right", (0.0, 150.0))):
        found = extension(plan, side, 1000)
        assert found.brief is not None
        new = drylay.design(found.brief, stock=stock)
        assert new.buildable
        assert new.surface is not None
        assert tuple(row.near_mm for row in new.surface.rows)[: len(near)] == near
        assert {row.gap_mm for row in new.surface.rows[1:]} == {5.0}


def test_boards_that_run_on_lie_in_line_with_the_old_rows() -> None:
    """S15's two outer rows are ripped: beside it the same rows come of the same brief."""
    plan = plan_of("S15")
    assert plan.surface is not None
    found = extension(plan, "right", 900)
    assert (found.way, found.rows, found.starts_mm) == ("boards", 26, 4.0)
    assert found.brief is not None
    stock = drylay.load_catalogue(REFERENCE / "S15-stock.toml")
    new = drylay.design(found.brief, stock=stock)
    assert new.surface is not None
    assert [r.near_mm for r in new.surface.rows] == [r.near_mm for r in plan.surface.rows]
    assert "UPK-028" in codes(found)


@pytest.mark.parametrize(
    ("more", "code"),
    [({"tied": True, "old_frame": "soft"}, "UPK-022"), ({"tied": True}, "UPK-023"),
     ({"side": "house"}, "UPK-020")],
)  # fmt: skip
def test_what_must_not_be_built_stops(more: dict[str, object], code: str) -> None:
    asked: dict[str, object] = {"side": "front", "by_mm": 900} | more
    found = extension(plan_of("S03"), **asked)  # type: ignore[arg-type]
    assert (code, Severity.STOP) in {(f.code, f.severity) for f in found.findings}
    assert found.brief is None


def test_a_sound_old_frame_may_be_tied_to() -> None:
    found = extension(plan_of("S03"), "front", 900, tied=True, old_frame="sound")
    assert found.brief is not None


def test_no_outline_is_extended_by_rule() -> None:
    found = extension(plan_of("S12"), "front", 900)
    assert (codes(found), found.brief) == ({"UPK-021"}, None)


def test_fascia_where_old_and_new_meet_comes_off_and_levels_are_asked_for() -> None:
    plan: Plan = plan_of("S03")
    assert plan.edges is not None
    face = FasciaFace(mark="F-front", side="front", length_mm=6045.0, long_face=True, pieces=())
    left = evolve(face, mark="F-left", side="left")
    faced = evolve(plan, edges=evolve(plan.edges, faces=(face, left), fascia_article="F",
                                      fascia_thickness_mm=22.0))  # fmt: skip
    found = extension(faced, "front", 900)
    assert {"UPK-027", "UPK-029"} <= codes(found)
    assert found.brief is not None
    assert found.brief.fascia.sides == ("front", "left")
    right = extension(faced, "right", 900)
    assert right.brief is not None
    assert right.brief.fascia.sides == ("front",)
    assert "UPK-027" not in codes(right)
    assert isinstance(plan_of("S01").site, Site)
    assert "UPK-029" not in codes(extension(plan_of("S01"), "front", 900))


def test_a_border_stays_as_a_band() -> None:
    plan = plan_of("S03")
    assert plan.surface is not None
    *rows, last = plan.surface.rows
    edged = evolve(plan, surface=evolve(plan.surface, rows=(*rows, evolve(last, border=True))))
    found = extension(edged, "front", 900)
    assert "UPK-026" in codes(found)
    assert found.first_near_mm == 3000.0


def test_too_little_for_a_row_has_no_brief() -> None:
    found = extension(plan_of("S03"), "front", 120)
    assert (found.rows, found.brief, found.remainder_mm) == (0, None, 120.0)


@pytest.mark.parametrize(
    ("more", "wanted"),
    [({"side": "top"}, "side: found top"), ({"by_mm": 5}, "by_mm"), ({"width_mm": 0.5}, "width_mm"),
     ({"ten_rows_mm": 1400, "width_mm": 145}, "more than ten boards"),
     ({"ten_rows_mm": 1400}, "more than ten boards"), ({"old_frame": "fine"}, "old_frame")],
)  # fmt: skip
def test_what_makes_no_sense_is_refused(more: dict[str, object], wanted: str) -> None:
    asked: dict[str, object] = {"side": "front", "by_mm": 900} | more
    with pytest.raises(UpkeepError, match=wanted):
        extension(plan_of("S03"), **asked)  # type: ignore[arg-type]


def test_boards_away_from_the_house_are_extended_the_other_way_round() -> None:
    rows, boards = extension(across(), "right", 1000), extension(across(), "front", 1000)
    assert (rows.way, rows.rows, boards.way) == ("rows", 6, "boards")
    left = extension(across(), "left", 1000)
    assert (left.way, left.first_near_mm) == ("rows", -900.0)
    assert rows.brief is not None
    assert boards.brief is not None
    assert (rows.brief.cover.along_mm, rows.brief.cover.across_mm) == (895.0, 1150.0)
    assert boards.brief.cover.across_mm == 996.0


def test_a_gap_beyond_the_plans_limits_is_told() -> None:
    """S03 allows gaps of 4 to 8: 1480 over boards of 145 is 3 each, 1550 is 10."""
    for ten_mm, code, gap, limit in ((1480, "UPK-010", 3, 4), (1550, "UPK-011", 10, 8)):
        found = extension(plan_of("S03"), "front", 1000, ten_rows_mm=ten_mm, width_mm=145)
        (told,) = [each for each in found.findings if each.code in {"UPK-010", "UPK-011"}]
        assert (told.code, told.severity) == (code, Severity.CAUTION)
        assert (told.measured, told.limit, told.source.kind) == (gap, limit, "brief")
    within = extension(plan_of("S03"), "front", 1000, ten_rows_mm=1507, width_mm=145)
    assert not {"UPK-010", "UPK-011"} & codes(within)


@pytest.mark.parametrize("ten_mm", [5000, 1951, 1449])
@pytest.mark.parametrize("width_mm", [145, None])
def test_ten_rows_that_no_gap_fits_are_refused(ten_mm: float, width_mm: float | None) -> None:
    """Of 5000 each gap would be 355: a gap of deck boards is 0 to 50 mm."""
    with pytest.raises(UpkeepError, match="ten_rows_mm"):
        extension(plan_of("S03"), "front", 1000, ten_rows_mm=ten_mm, width_mm=width_mm)
