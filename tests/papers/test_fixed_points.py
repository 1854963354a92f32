"""Fixed points of boards in clips, as the papers tell and mark them."""

import re

import pytest

from audit.paired import deck
from drylay.papers.boards_drawing import boards_svg
from drylay.papers.fixed_points import fixed_lines
from drylay.papers.rod import rod_svg
from drylay.papers.support_text import clips_told
from drylay.plan.model import Plan
from papers import measured


@pytest.fixture(scope="module")
def plan() -> Plan:
    return deck("pairs")


def test_every_fixed_point_is_crossed_on_the_boards_drawing(plan: Plan) -> None:
    """Two strokes to a cross."""
    strokes = re.search(rb'<g id="boards-fixed-points"[^>]*>(.*?)</g>', boards_svg(plan), re.DOTALL)
    assert strokes is not None
    assert strokes[1].count(b"<line") == 2 * len(plan.pieces.pieces)


def test_the_rod_has_them_row_by_row(plan: Plan) -> None:
    told = {}
    for point in plan.fixings.clips.fixed_points:
        told.setdefault(point.piece.partition(".")[0], []).append(point.joist)
    lines = measured.cells(rod_svg(plan), "rows")
    assert {line[0]: line[-1] for line in lines} == {k: " ".join(v) for k, v in told.items()}


def test_words_say_where_with_what_and_how_the_last_row_slides(plan: Plan) -> None:
    clips, said = plan.fixings.clips, " ".join(clips_told(plan))
    assert fixed_lines(clips) in said
    assert f"{clips.fixed_screws} in all besides the last row's" in said
    assert f"{clips.slot_mm:g} mm long" in said
