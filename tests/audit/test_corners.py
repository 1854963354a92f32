"""Corners of checks that no planted fault of the lists reaches: each seen to speak, or to hold."""

from typing import Any

import pytest
from attrs import evolve

from audit.ground_faults import levels
from audit.planting import both, to
from audit.sample import sample_plan, sample_witness
from drylay.audit import fascia_places, site_witnessed
from drylay.audit.closed import audit_plan
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.model import Witness
from drylay.audit.reasons import SUMS, UNKNOWN
from drylay.brief.model import GroundPoint, GroundworkWish
from drylay.groundwork.model import Groundwork
from drylay.plan.model import Plan

NOTHING = Groundwork(dig=None, fabric=None, gravel=None, packing=None)


def codes(plan: Plan, witness: Witness | None = None) -> set[str]:
    report = audit_plan(plan, witness=witness)
    assert "AUD-000" not in {finding.code for finding in report.findings}
    return {finding.code for finding in report.findings}


@pytest.mark.parametrize(
    ("code", "edit"),
    [
        ("AUD-606", to("fixings.coach_screws.pilot_mm", None)),
        ("AUD-850", both(levels(underside=30.0, least=0.0, most=0.0),
                         to("groundwork.packing", None))),  # 30 and 10 of gravel: 40, not 25
        ("AUD-852", to("groundwork", NOTHING)),
        ("AUD-920", to("work.lighting.hole_mm", 120.0)),  # 2 x (60 + 20) = 160, the row has 145
    ],
)  # fmt: skip
def test_a_corner_speaks(code: str, edit: Any) -> None:
    assert code in codes(edit(sample_plan()))


def test_a_face_the_board_has_not() -> None:
    witness = sample_witness()
    assert witness.stock is not None
    boards = tuple(evolve(board, faces="grooved") for board in witness.stock.boards)
    stock = evolve(witness.stock, boards=boards)
    assert "AUD-W38" in codes(sample_plan(), evolve(witness, stock=stock))


def test_a_sealed_sheet_in_the_stock() -> None:
    witness = sample_witness()
    assert witness.stock is not None
    fabrics = tuple(evolve(roll, permeable=False) for roll in witness.stock.fabrics)
    stock = evolve(witness.stock, fabrics=fabrics)
    assert "AUD-W44" in codes(sample_plan(), evolve(witness, stock=stock))


def test_ground_that_falls_to_the_house_in_the_brief() -> None:
    witness = sample_witness()
    assert witness.brief is not None
    corners = ((0, 0, -340), (4085, 0, -340), (4085, 595, -300), (0, 595, -300))
    points = tuple(
        GroundPoint(along_mm=float(x), across_mm=float(y), level_mm=float(z)) for x, y, z in corners
    )
    brief = evolve(witness.brief, levels=evolve(witness.brief.levels, points=points))
    assert "AUD-W53" in codes(sample_plan(), evolve(witness, brief=brief))


def test_a_top_that_the_brief_gives() -> None:
    witness = sample_witness()
    assert witness.brief is not None
    brief = evolve(witness.brief, levels=evolve(witness.brief.levels, deck_top_mm=-160.0))
    assert "AUD-W54" in codes(sample_plan(), evolve(witness, brief=brief))


def test_how_far_the_bed_lies_under_the_lawn() -> None:
    """10 to the gravel's top unless told, else the dig's 50 unless told, else nothing."""
    sunk = site_witnessed._bed_sunk_mm
    assert sunk(GroundworkWish()) == 0.0
    assert sunk(GroundworkWish(packer="P")) == 0.0
    assert sunk(GroundworkWish(spoil="bags")) == 50.0
    assert sunk(GroundworkWish(strip_mm=70.0)) == 70.0
    assert sunk(GroundworkWish(gravel="G")) == 10.0
    assert sunk(GroundworkWish(gravel="G", below_lawn_mm=15.0)) == 15.0


def test_a_packer_that_the_stock_does_not_sell() -> None:
    witness = sample_witness()
    assert witness.stock is not None
    assert witness.brief is not None
    bare = evolve(witness, stock=evolve(witness.stock, packers=()))
    with pytest.raises(NothingToMeasure):
        site_witnessed._packed(bare, witness.brief)
    assert site_witnessed._packed(witness, witness.brief) == 10 * 320  # it stands 10 at least
    none = evolve(witness.brief, groundwork=GroundworkWish())
    assert site_witnessed._packed(witness, none) == 0


def test_sums_over_a_plan_without_the_parts_are_not_judged() -> None:
    plan = evolve(sample_plan(), frame=None, edges=None, fixings=None, work=None, surface=None,
                  buying=None)  # fmt: skip
    assert {name for name, of in SUMS.items() if of(plan) is not UNKNOWN} == set()


def spots(length_mm: int, shut: tuple[int, int] | None, spacing_mm: float) -> list[int]:
    """Places on a piece with 40 kept at its ends, one stretch shut by its middle and reach."""
    plan, mm = sample_plan(), 320
    assert plan.fixings is not None
    assert plan.fixings.fascia_screws is not None
    screws = evolve(plan.fixings.fascia_screws, spacing_most_mm=spacing_mm)
    closed = ((shut[0] * mm, shut[1] * mm),) if shut else ()
    allowed = fascia_places.Open(start=0, end=length_mm * mm, shut=closed)
    return [at // mm for at in fascia_places._spots(plan, screws, allowed, 0, length_mm * mm)]


def test_places_on_a_piece_with_room_for_one() -> None:
    """80 long with 40 kept at both ends: the middle, and nothing else."""
    assert spots(80, None, 600.0) == [40]


def test_places_on_a_piece_whose_shut_stretch_is_wider_than_the_spacing() -> None:
    """1077 long, shut from 70 to 750: 680 without a place is more than 600, whatever is tried."""
    assert spots(1077, (410, 340), 600.0) == []


def test_places_that_would_fall_together() -> None:
    """Shut from 1390 to 1918, spaces of 150 and less: two of them would be one place."""
    assert spots(2968, (1654, 264), 150.0) == []
