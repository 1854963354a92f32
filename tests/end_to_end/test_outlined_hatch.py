"""A deck over an inspection cover, boards along the house and at 45 degrees: what carries the lid.

Figures worked by hand beside each; timber 45 thick, boards 145, cover 450 x 450 at 2100, 1500.
"""

from functools import lru_cache
from math import ceil, dist, sqrt

import pytest

import drylay
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.subframe.model import Member, Subframe
from outlined_gardens import STOCK

CORNERS = ((0, 0, "house"), (4200, 0, "open"), (4200, 3000, "open"), (0, 3000, "open"))
COVER = {"kind": "hatch", "along_mm": 2100, "across_mm": 1500, "size_along_mm": 450,
         "size_across_mm": 450, "name": "inspection cover"}  # fmt: skip


@lru_cache
def deck(angle_deg: float) -> Plan:
    """Return the deck with boards at an angle from the house."""
    return drylay.design(
        drylay.read_brief({
            "title": "over an inspection cover",
            "outline": {
                "points": [{"along_mm": x, "across_mm": y, "side": s} for x, y, s in CORNERS],
                "openings": [COVER],
            },
            "board": {"article": "DB-28-145"},
            "frame": {"article": "FT-45-145"},
            "laying": {"angle_deg": angle_deg},
            "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90"},
        }),
        stock=drylay.load_catalogue(STOCK),
    )  # fmt: skip


def frame_of(plan: Plan) -> Subframe:
    assert plan.subframe is not None
    return plan.subframe


def members(plan: Plan) -> dict[str, Member]:
    return {member.mark: member for member in frame_of(plan).members}


@pytest.mark.parametrize("angle", [0.0, 45.0, 90.0])
def test_nothing_stops_it_its_audit_included(angle: float) -> None:
    plan = deck(angle)
    assert not [each for each in plan.findings if each.severity is Severity.STOP]


def test_along_the_house_two_ledges_stand_40_off_the_cover() -> None:
    plan = deck(0.0)
    assert plan.outline is not None
    (lid,) = plan.outline.openings
    # along: 2100 - 225 - 40 - 45 = 1790, and 2100 + 225 + 40 + 45 = 2410
    alongs = {spot.along_mm for spot in lid.corners}
    assert (min(alongs), max(alongs), lid.clear_mm) == (1790, 2410, 40)
    told = {
        (min(s.along_mm for s in one.corners), max(s.along_mm for s in one.corners)): one
        for one in frame_of(plan).members
        if one.side == "O1"
    }
    for low, high in ((1790, 1835), (2365, 2410)):
        ledge = told[low, high]
        acrosses = {spot.across_mm for spot in lid.corners}
        # from trimmer to trimmer: four rows and the halves of the gaps beside them
        assert ledge.length_mm == max(acrosses) - min(acrosses)
        assert {members(plan)[mark].kind for mark in (ledge.start_on, ledge.end_on)} == {"trimmer"}
    # each touches the trimmer outside: 1745 to 1790, 2410 to 2455
    assert {(1745, 1790), (2410, 2455)} <= set(told)


def test_along_the_house_panel_ends_bear_by_a_timber_less_half_the_gap() -> None:
    plan = deck(0.0)
    assert plan.laying is not None
    panel = [piece for piece in plan.laying.pieces if piece.kind == "hatch"]
    half = plan.laying.end_gap_mm / 2
    for piece in panel:
        alongs = [spot.along_mm for spot in piece.corners]
        assert (min(alongs), max(alongs)) == (1790 + half, 2410 - half)
        assert 1835 - min(alongs) == 45 - half
    # 40 over the cover's 450 all round, 530, is wants four rows of 150
    assert len(panel) == 4


def test_at_45_degrees_ledges_stand_square_between_the_trimmers_beside_the_boards() -> None:
    plan = deck(45.0)
    assert plan.outline is not None
    (lid,) = plan.outline.openings
    # the cover's diagonal is 450 x root 2 = 636.4; with 2 x (40 + 45): 806.4, outwards to marks
    long = dist(*((spot.along_mm, spot.across_mm) for spot in lid.corners[:2]))
    assert 806.4 <= long <= 806.4 + 1 + 0.02
    assert lid.clear_mm >= 40
    # trimmers stand along the hole's sides at either end of the ledges: between them is its width
    wide = dist(*((spot.along_mm, spot.across_mm) for spot in lid.corners[1:3]))
    ledges = [
        one for one in frame_of(plan).members
        if one.kind == "trimmer" and one.length_mm == pytest.approx(wide, abs=0.02)
    ]  # fmt: skip
    assert len(ledges) == 2
    for ledge in ledges:
        assert (round(ledge.start_deg), round(ledge.end_deg)) == (0, 0)
        assert ledge.start_on
        assert ledge.end_on
    assert sqrt(2) * 450 == pytest.approx(636.4, abs=0.01)


@pytest.mark.parametrize("angle", [0.0, 45.0])
def test_the_task_tells_what_carries_the_panel(angle: float) -> None:
    plan = deck(angle)
    assert plan.work is not None
    (task,) = [each for each in plan.work.tasks if each.kind == "hatches"]
    assert any("on the ledges" in step for step in task.steps)


def test_along_the_house_three_battens_tie_the_panel() -> None:
    """Ledges end at 1835 and 2365: battens from 1845 and up to 2355, their middles 465 apart.

    More than 400: a third stands at 2100. From trimmer to trimmer are 4 rows of 145 and four gaps;
    10 off either side, down to half a mm, is theirs.
    """
    plan = deck(0.0)
    frame = frame_of(plan)
    assert plan.outline is not None
    acrosses = [spot.across_mm for spot in plan.outline.openings[0].corners]
    low, high = min(acrosses), max(acrosses)
    assert [batten.mark for batten in frame.battens] == ["Q1", "Q2", "Q3"]
    assert [batten.start.along_mm for batten in frame.battens] == [1867.5, 2100, 2332.5]
    for batten in frame.battens:
        assert (batten.opening, batten.depth_mm) == ("O1", 145)
        assert batten.start.across_mm == low + 10
        assert 0 <= high - 10 - batten.end.across_mm < 0.5
        assert batten.length_mm == (high - low - 20) // 0.5 * 0.5
    assert (frame.batten_count, frame.batten_play_mm) == (3, 10)


def test_battens_are_bought_screwed_and_weighed() -> None:
    """Four boards of 616 x 145 x 28 and three battens of 45 x 145, at 700 kg/m3 at most.

    Boards: 2.464 m x 2.842 kg/m; battens: 4.5675 kg/m.
    """
    plan = deck(0.0)
    frame = frame_of(plan)
    assert plan.buying is not None
    assert plan.fixings is not None
    assert plan.outline is not None
    assert plan.buying.delivery is not None
    (bought,) = [each for each in plan.buying.purchases if each.what == "frame"]
    sawn = [mark for length in bought.lengths for mark in length.pieces]
    assert sorted(mark for mark in sawn if mark.startswith("Q")) == ["Q1", "Q2", "Q3"]
    boards, timber = plan.buying.delivery.density_kg_m3, plan.buying.delivery.frame_density_kg_m3
    assert boards is not None
    assert timber is not None
    kg = 2.464 * 0.145 * 0.028 * boards
    kg += 3 * frame.battens[0].length_mm / 1000 * 0.045 * 0.145 * timber
    (lid,) = plan.outline.openings
    assert lid.panel_kg == pytest.approx(ceil(kg * 10) / 10)


def test_at_45_degrees_battens_are_ripped() -> None:
    """Whole they come to 25.8 kg: 145 less a kerf of 4, halved, is 70.5, and 20 is not passed."""
    plan = deck(45.0)
    assert plan.outline is not None
    assert {batten.depth_mm for batten in frame_of(plan).battens} == {70.5}
    assert 19 < (plan.outline.openings[0].panel_kg or 0) <= 20
    assert plan.work is not None
    (task,) = [each for each in plan.work.tasks if each.kind == "cut_frame"]
    assert any("Rip the battens Q1, Q2, Q3" in step for step in task.steps)


@pytest.mark.parametrize("angle", [0.0, 45.0])
def test_papers_show_the_battens(angle: float) -> None:
    plan = deck(angle)
    papers = drylay.papers(plan)
    drawing = papers["frame-2.svg"].decode()
    for batten in frame_of(plan).battens:
        assert f">{batten.mark}<" in drawing
    assert 'id="frame2-detail-battens"' in drawing
    assert "O1 on frame-2.svg" in papers["frame.svg"].decode()
    assert "Battens of panels" in papers["jobsheet.html"].decode()
    told = " ".join(papers["summary.txt"].decode().split())
    assert "battens of O1's panel" in told
    assert ("ripped to 70.5 mm" in told) == (angle == 45.0)
