"""S15, a deck in feet and inches on one dropped beam: every answer, worked separately.

The answers and their origin are in tests/reference/S15-answers.toml.
"""

import pytest

import drylay
from drylay.materials.model import RuleQuery
from drylay.plan.model import Plan
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_posts import footing_diameter_mm
from drylay.strength.nds_spans import REPEATED_RATIO, joist_span
from drylay.strength.us_units import inches_of_mm, lb_of_kn, mm_of_inches, table_inches
from drylay.units import length_text
from drylay_softwood.family import softwood
from end_to_end.outlined import reference_answers, reference_plan, said

ANSWERS = reference_answers("S15")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return reference_plan("S15")


def close(key: str) -> object:
    return pytest.approx(ANSWERS[key]["value"], abs=ANSWERS[key]["tol"])


def inches(length_mm: float) -> float:
    return inches_of_mm(length_mm)


def test_rows(plan: Plan) -> None:
    surface = plan.surface
    assert plan.buildable
    assert surface.whole_rows == ANSWERS["whole_rows_that_fit"]["value"]
    assert inches(surface.strip_mm) == close("last_row_if_naive")
    ways = {(way.kind, way.rows): way for way in surface.ways_out}
    assert inches(ways["gaps", 25].gap_mm) == close("gap_if_25_rows")
    assert inches(ways["gaps", 26].gap_mm) == close("gap_if_26_rows")
    assert not ways["gaps", 25].honest
    assert not ways["gaps", 26].honest
    assert len(surface.rows) == ANSWERS["rows_with_equal_edge_rips"]["value"]
    edge = surface.rows[0].width_mm
    assert inches(edge) == close("edge_rip_width")
    assert length_text(edge, "imperial") == f"{ANSWERS['edge_rip_width_text']['value']} in"
    assert [surface.cover_along_mm, surface.cover_across_mm] == close("cover_metric")


def test_what_is_bought(plan: Plan) -> None:
    boards = plan.buying.purchases[0]
    assert len(boards.lengths) == ANSWERS["boards_to_buy"]["value"]
    assert boards.gap == 0
    assert drylay.verify(boards.proof).holds
    assert plan.fixings.deck_screws.count == ANSWERS["board_screws"]["value"]
    boxes = [line for line in plan.buying.order if line.article == "S15-screw"]
    assert sum(line.quantity for line in boxes) == ANSWERS["screw_boxes"]["value"]


def test_the_frame(plan: Plan) -> None:
    assert plan.supports.line_count == ANSWERS["joist_count"]["value"]
    assert inches(plan.frame.diagonal_mm) == close("frame_diagonal")


def test_spans_as_the_published_table_has_them(plan: Plan) -> None:
    (joists, *_) = plan.strength.screened
    by_name = {check.name: check for check in joists.checks}
    assert inches(by_name["span, deck table"].limit) == close("joist_span_allowed")
    assert inches(by_name["free end, deck table"].limit) == close("cantilever_allowed")
    section = plan.strength.beams[0].section
    left = allowed("SP", "No.2", section, Conditions(repeated_ratio=REPEATED_RATIO))
    span_mm = joist_span(left, section, centres_mm=mm_of_inches(16)).extent_mm
    assert table_inches(span_mm) == close("joist_span_allowed")


def test_decking_centres(plan: Plan) -> None:
    """Square as the stock has it; across the joists no further apart than the code's table."""
    square, diagonal = ANSWERS["decking_centres_allowed"]["value"]
    assert inches(plan.supports.most_centres_mm) == pytest.approx(square, abs=0.1)
    asked = RuleQuery(
        board_width_mm=139.7, board_thickness_mm=25.4, board_to_joist_deg=45.0,
        joist_thickness_mm=38.1,
    )  # fmt: skip
    assert inches(softwood().rules["most_centres_mm"](asked).value) <= diagonal + 0.1


def test_the_beams_middle_post_and_its_footing(plan: Plan) -> None:
    deck = plan.raised
    assert (deck.line_count, deck.post_count) == (1, 3)
    middle = plan.strength.posts[1]
    load = middle.dead_kn + middle.live_kn
    assert lb_of_kn(load) == close("middle_post_load")
    least_mm = footing_diameter_mm(load, plan.footings.bearing_kn_m2)
    assert inches(least_mm) == close("footing_diameter_at_least")
    assert plan.footings.under[1].footing.size_mm > least_mm  # its own weight, whole inches


def test_guard_and_steps(plan: Plan) -> None:
    guards, flight = plan.guards, plan.steps.flight
    assert bool(guards.runs) == ANSWERS["guard_needed"]["value"]
    assert inches(guards.height_mm) == ANSWERS["guard_height_min"]["value"]
    assert inches(guards.length_mm) / 12 == close("guard_run_after_stair")
    assert plan.steps.risers == ANSWERS["risers"]["value"]
    assert inches(flight.riser_mm) == close("riser_height")
    assert inches(flight.run_mm) == close("flight_run")


def test_what_it_must_say(plan: Plan) -> None:
    told = said(plan)
    assert "nominal size 2x8 converted to actual: 1 1/2 in by 7 1/4 in" in told
    assert "at its limit, nothing in hand: free end" in told
    assert "a guard is needed, and mostly a permit" in told
    assert any(f.code == "RGN-001" and f.limit == pytest.approx(762) for f in plan.findings)
