"""Design in its corners: small decks, narrow covers, lengths that are sold out."""

from decimal import Decimal

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import BoardWish, FasciaWish, Override, RowsWish
from reference_deck import BRIEF, REFERENCE, STOCK, a_length, codes, sized, with_lengths


def test_a_step_of_a_deck_with_one_row_and_two_joists() -> None:
    """145 deep: joists of 55 between 45 rims, so coach screws of 70 reach 25 in from each end."""
    (coach,) = STOCK.coach_screws
    short = evolve(STOCK, coach_screws=(evolve(coach, length_mm=70.0),))
    person = Override(path="fixings.coach_screws.length_least_mm", value=70.0, unit="mm",
                      by="a person", reason="a step of one board")  # fmt: skip
    brief = evolve(sized(400.0, 145.0), overrides=(person,))
    plan = drylay.design(brief, stock=short)
    assert len(plan.surface.rows) == 1
    assert plan.supports.line_count == 2
    assert plan.buildable
    blocked = drylay.design(sized(400.0, 145.0), stock=STOCK)
    assert "FIX-008" in {f.code for f in blocked.findings if f.severity is drylay.Severity.STOP}


@pytest.mark.parametrize(("along_mm", "across_mm"), [(120.0, 2_995.0), (2_995.0, 120.0)])
def test_a_cover_with_no_room_for_a_frame_is_a_stop(along_mm: float, across_mm: float) -> None:
    """Two 45 joists and as much between them need 135, which fascia of 28 each side leave not."""
    fascia = drylay.load_catalogue(REFERENCE.parents[1] / "catalogs" / "hobbleden.toml").fascias
    brief = evolve(
        sized(along_mm, across_mm, grow_across_mm=100.0),
        fascia=FasciaWish(sides=("house", "right", "front", "left"), article=fascia[0].code),
        rows=RowsWish(sliver_mm=30.0, least_rip_mm=30.0),
    )
    plan = drylay.design(brief, stock=evolve(STOCK, fascias=fascia))
    stop = next(f for f in plan.findings if f.code in {"FRM-003"})
    assert stop.limit == 135.0


def test_turning_alone_may_be_preferred() -> None:
    brief = evolve(
        sized(4_030.0, 3_012.0),
        rows=RowsWish(prefer=("turn",)),
        board=BoardWish(article="S03-board", may_turn=True),
    )
    assert drylay.design(brief, stock=STOCK).surface.way_out == "turn"


def test_a_saw_without_kerf_still_takes_something_off_a_rip() -> None:
    brief = evolve(sized(4_030.0, 3_040.0), cutting=evolve(BRIEF.cutting, kerf_mm=0.0))
    plan = drylay.design(brief, stock=STOCK)
    (rip,) = [way for way in plan.surface.ways_out if way.kind == "rip_last"]
    assert rip.last_row_mm < 145.0


@pytest.mark.parametrize("across_mm", [110.0, 130.0])
def test_a_cover_narrower_than_a_board_is_one_ripped_row(across_mm: float) -> None:
    """The row alone: a frame under so narrow a cover has no room for two joists."""
    fit = drylay.fit_rows(depth_mm=across_mm, board_mm=145.0, gap_mm=(4, 5, 8))
    (way,) = [way for way in fit.ways_out if way.honest]
    assert (way.kind, way.rows, way.first_row_mm) == ("rip_last", 1, across_mm)


def test_an_honest_way_out_the_brief_does_not_ask_for_is_priced_but_never_chosen() -> None:
    brief = evolve(sized(4_030.0, 3_012.0, shrink_across_mm=30.0), rows=RowsWish(prefer=("gaps",)))
    plan = drylay.design(brief, stock=STOCK)
    honest = [way for way in plan.surface.ways_out if way.honest]
    assert {way.kind for way in honest} == {"gaps", "shrink", "rip_both", "rip_last"}
    assert all(way.cost is not None for way in honest)
    blocked = drylay.design(evolve(brief, rows=RowsWish(prefer=("grow",))), stock=STOCK)
    (stop,) = [f for f in blocked.findings if f.severity is drylay.Severity.STOP]
    assert "if added to rows.prefer: gaps, rip_both, rip_last, shrink" in stop.message


def test_a_joint_that_leaves_its_screws_no_joist_is_a_stop() -> None:
    """45 joist, end gap 18: 13.5 of bearing, screws 15 from the end."""
    plan = drylay.design(evolve(BRIEF, joints=evolve(BRIEF.joints, end_gap_mm=18.0)), stock=STOCK)
    stop = next(f for f in plan.findings if f.code == "FIX-007")
    assert (stop.measured, stop.limit) == (13.5, 15.0)
    whole = evolve(sized(3_600.0, 2_995.0), joints=evolve(BRIEF.joints, end_gap_mm=18.0))
    assert drylay.design(whole, stock=STOCK).buildable


def test_a_whole_board_is_no_sliver_however_narrow() -> None:
    (board,) = STOCK.boards
    stock = evolve(STOCK, boards=(evolve(board, width_mm=45.0),))
    plan = drylay.design(sized(3_600.0, 20 * 45.0 + 19 * 5.0), stock=stock)
    assert plan.buildable
    assert len(plan.surface.rows) == 20


def test_timber_that_cannot_stand_on_edge_is_a_stop() -> None:
    (timber,) = STOCK.timbers
    stock = evolve(STOCK, timbers=(evolve(timber, depth_mm=45.0),))
    assert "FRM-004" in codes(drylay.design(BRIEF, stock=stock))


def test_the_cheapest_count_may_be_more_than_the_fewest_and_the_audit_agrees() -> None:
    """At 436 apart joints fall so that 1800 boards fit the rows; at 480 they do not."""
    boards = (a_length(1_800.0, "1.80"), a_length(2_400.0, "2.90"))
    wide = with_lengths("boards", boards)
    brief = evolve(
        sized(4_845.0, 2_995.0),
        frame=evolve(BRIEF.frame, most_centres_mm=None, lines="cheapest"),
        joints=evolve(BRIEF.joints, least_supports=3, most_per_row=None),
        overrides=(
            Override(path="supports.most_centres_mm", value=480.0, unit="mm", by="A. Person",
                     reason="thicker boards (invented)"),
        ),
    )  # fmt: skip
    plan = drylay.design(brief, stock=wide)
    fewest = 11  # ceil((4845 - 45) / 480) + 1
    assert plan.supports.line_count > fewest
    assert fewest in [other.value for other in plan.why("supports.line_count").turned_down]
    report = drylay.audit(plan, brief=brief, stock=wide, families=drylay.installed_families())
    assert not [f for f in report.findings if f.severity is drylay.Severity.STOP]


def test_fascia_parts_that_fit_only_off_the_marks_are_still_the_fewest() -> None:
    """7200 in two of 3600 exactly: 1/16 in marks would make one of them longer."""
    from drylay.materials.stock_model import FasciaBoard

    lengths = (a_length(3_600.0, "5.00"), a_length(2_400.0, "3.00"))
    fascia = FasciaBoard(
        code="FA", title="fascia", thickness_mm=28.0, depth_mm=120.0, lengths=lengths
    )
    brief = evolve(
        sized(7_200.0, 2_995.0), units="imperial", fascia=FasciaWish(sides=("front",), article="FA")
    )
    plan = drylay.design(brief, stock=evolve(STOCK, fascias=(fascia,)))
    assert [piece.length_mm for piece in plan.edges.faces[0].pieces] == [3_600.0, 3_600.0]


def test_a_length_that_is_sold_out_is_no_length_for_the_proof_either() -> None:
    """Found by the wild campaign: the audit reckoned with joints only the sold-out board allows."""
    lengths = (a_length(3_600.0, "3.60"), a_length(4_800.0, "4.80"), a_length(6_300.0, "6.00", 0))
    plan = drylay.design(BRIEF, stock=with_lengths("boards", lengths))
    assert plan.buying.purchases[0].bound == Decimal("132.00")


def test_rows_that_cannot_be_made_up_name_the_rules_that_forbid_it() -> None:
    brief = evolve(BRIEF, joints=evolve(BRIEF.joints, most_per_row=0))
    stop = next(f for f in drylay.design(brief, stock=STOCK).findings if f.code == "BUY-001")
    assert "at most 0 joints a row (joints.most_per_row)" in stop.message
