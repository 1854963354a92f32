"""Battens of panels on random decks with hatches, measured by shapely; what they come to."""

from functools import lru_cache

import pytest
from shapely.geometry import LineString, Polygon

import drylay
from drylay.outline.model import Opening, Spot
from drylay.plan.model import Plan
from drylay.subframe.model import PanelBatten
from some_five import sold
from some_outlines import some_outline

#: Two hatches in one deck, boards along the house and away from it, clips, inches.
SEEDS = (23025, 23041, 23103, 23188)
#: Places are rounded to 1/320 mm.
OFF_MM = 0.02


@lru_cache
def plan_of(seed: int) -> Plan:
    plan = drylay.design(some_outline(seed), stock=sold(), families=drylay.installed_families())
    assert plan.buildable
    return plan


def shape(corners: tuple[Spot, ...]) -> Polygon:
    return Polygon([(spot.along_mm, spot.across_mm) for spot in corners])


def seen(plan: Plan, batten: PanelBatten) -> Polygon:
    """Return a batten from above: as thick as the timber about its middle line."""
    assert plan.subframe is not None
    line = LineString([(s.along_mm, s.across_mm) for s in (batten.start, batten.end)])
    return line.buffer(plan.subframe.timber_thickness_mm / 2, cap_style="flat")


def hatches(plan: Plan) -> list[tuple[Opening, list[PanelBatten]]]:
    assert plan.outline is not None
    assert plan.subframe is not None
    return [
        (opening, [each for each in plan.subframe.battens if each.opening == opening.mark])
        for opening in plan.outline.openings
        if opening.kind == "hatch"
    ]


@pytest.mark.parametrize("seed", SEEDS)
def test_battens_keep_the_play_off_all_timber_and_lie_in_their_hole(seed: int) -> None:
    plan = plan_of(seed)
    assert plan.subframe is not None
    timbers = [shape(member.corners) for member in plan.subframe.members]
    for opening, battens in hatches(plan):
        assert len(battens) >= 2
        for batten in battens:
            area = seen(plan, batten)
            assert shape(opening.corners).buffer(-10 + OFF_MM).contains(area)
            assert min(area.distance(timber) for timber in timbers) >= 10 - OFF_MM


@pytest.mark.parametrize("seed", SEEDS)
def test_every_board_of_a_panel_lies_over_every_batten(seed: int) -> None:
    plan = plan_of(seed)
    assert plan.laying is not None
    boards = [shape(piece.corners) for piece in plan.laying.pieces if piece.kind == "hatch"]
    for opening, battens in hatches(plan):
        own = [board for board in boards if shape(opening.corners).contains(board.centroid)]
        assert own
        thick = plan.subframe.timber_thickness_mm  # type: ignore[union-attr]
        for batten in battens:
            # all but what reaches past its end, 10 less half a gap, by its thickness
            wide = [board.intersection(seen(plan, batten)).area / thick for board in own]
            assert min(wide) >= plan.laying.board_width_mm - 10


@pytest.mark.parametrize("seed", SEEDS)
def test_battens_are_sawn_from_the_frames_timber(seed: int) -> None:
    plan = plan_of(seed)
    assert plan.buying is not None
    (bought,) = [each for each in plan.buying.purchases if each.what == "frame"]
    sawn = [mark for length in bought.lengths for mark in length.pieces]
    told = [batten.mark for _, battens in hatches(plan) for batten in battens]
    assert told == [f"Q{number}" for number in range(1, len(told) + 1)]
    assert all(sawn.count(mark) == 1 for mark in told)


def test_clips_fix_no_board_of_a_panel_and_its_screws_are_counted() -> None:
    """Clipped boards: each of a panel is screwed once over each batten, and fixed nowhere else."""
    plan = plan_of(23041)
    assert plan.fixings is not None
    assert plan.fixings.clips is not None
    assert not [p for p in plan.fixings.clips.fixed_points if p.piece.startswith("H")]
    assert plan.laying is not None
    boards = sum(piece.kind == "hatch" for piece in plan.laying.pieces)
    ((_, battens),) = hatches(plan)
    screws = plan.fixings.deck_screws
    assert screws is not None
    assert screws.crossings > boards * len(battens)
    assert screws.count == screws.per_crossing * screws.crossings


def test_without_hatches_there_are_none() -> None:
    plan = plan_of(23000)
    assert plan.subframe is not None
    assert (plan.subframe.battens, plan.subframe.batten_count) == ((), None)
    assert plan.subframe.batten_play_mm is None
    assert not [each for each in plan.reasons.decisions if "batten" in each.path]
