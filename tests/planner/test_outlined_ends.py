"""What of a board hangs free, worked by hand: timbers under its middle, or under both edges."""

import math

import pytest

from drylay.findings import Finding, Severity
from drylay.laying.axes import axes_of
from drylay.laying.parts import Band, Part
from drylay.outline.model import Spot
from drylay.planner.outlined_ends import faces_of
from drylay.planner.outlined_held import free_end_mm, hanging, wood_of
from drylay.subframe.model import Facing
from outlined_gardens import planned

Ring = tuple[tuple[float, float], ...]


def board(*ring: tuple[float, float]) -> Part:
    """Return a board along the house with those corners."""
    band = Band(row="B1", axes=axes_of(0.0), low_mm=0.0, high_mm=160.0)
    return Part(band=band, ring=ring)


def timber(left: float, right: float, low: float = -500.0, high: float = 500.0) -> tuple[Spot, ...]:
    corners = ((left, low), (right, low), (right, high), (left, high))
    return tuple(Spot(along_mm=x, across_mm=y) for x, y in corners)


SQUARE: Ring = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 160.0), (0.0, 160.0))
#: A notch leaves a strip 60 wide from 600 on, off the middle line.
NOTCHED: Ring = (
    (0.0, 0.0), (1000.0, 0.0), (1000.0, 60.0), (600.0, 60.0), (600.0, 160.0), (0.0, 160.0),
)  # fmt: skip


@pytest.mark.parametrize(
    ("ring", "timbers", "free"),
    [
        (SQUARE, [timber(40, 85), timber(900, 945)], 55.0),
        (SQUARE, [timber(40, 85), timber(700, 745)], 255.0),
        (SQUARE, [timber(40, 85), timber(900, 945, high=30)], 915.0),  # one edge alone
        (SQUARE, [timber(40, 85), timber(900, 945, high=30), timber(900, 945, low=130)], 55.0),
        (SQUARE, [timber(1100, 1145)], math.inf),
        (NOTCHED, [timber(0, 45), timber(555, 600)], 400.0),  # its strip begins at 0
        (NOTCHED, [timber(0, 45), timber(555, 600), timber(940, 985)], 15.0),
    ],
)
def test_how_far_ends_hang_free(ring: Ring, timbers: list[tuple[Spot, ...]], free: float) -> None:
    assert free_end_mm(board(*ring), wood_of((), timbers)) == pytest.approx(free)


def test_stretches_that_hang_free() -> None:
    wood = wood_of((), [timber(0, 45), timber(400, 445), timber(900, 945)])
    assert hanging(board(*SQUARE), wood, 355.0) == [(445.0, 900.0)]
    assert hanging(board(*SQUARE), wood, 455.0) == []


def test_fascia_lies_on_the_inner_side_of_its_face() -> None:
    """A side that leads away from the house has the deck towards lesser along."""
    facing = Facing(
        mark="F2", side="E2", start=Spot(along_mm=3000.0, across_mm=0.0),
        end=Spot(along_mm=3000.0, across_mm=2000.0), length_mm=2000.0, start_end="free",
        end_end="free", start_deg=0.0, end_deg=0.0,
    )  # fmt: skip
    (face,) = faces_of([facing], 28.0)
    assert {(at.along_mm, at.across_mm) for at in face} == {
        (3000.0, 0.0), (3000.0, 2000.0), (2972.0, 2000.0), (2972.0, 0.0),
    }  # fmt: skip


@pytest.mark.parametrize(("low", "high"), [(35.0, 80.0), (80.0, 125.0)])
def test_a_line_along_a_face_is_over_the_timber(low: float, high: float) -> None:
    """The middle of 160 is 80: of the timbers that meet there either alone holds the board."""
    wood = wood_of((), [timber(0, 45), timber(45, 900, low, high), timber(900, 945)])
    assert hanging(board(*SQUARE), wood, 355.0) == []


def leaning(right_mm: float) -> list[Finding]:
    """What is told of sharp ends where the right side leans out to there over 1600 of depth."""
    points = [(0, 0, "house"), (2400, 0, "open"), (right_mm, 1600, "open"), (0, 1600, "open")]
    plan = planned(outline={"points": [{"along_mm": x, "across_mm": y, "side": side}
                                       for x, y, side in points]})  # fmt: skip
    assert plan.subframe.joist_run == "across"
    return [finding for finding in plan.findings if finding.code == "FIX-026"]


def test_ends_sharper_than_sixty_degrees_are_to_be_held_at_their_side() -> None:
    """A joist runs away from the house: along a side that leaves 1 in 4 it is cut by atan 4."""
    (caution,) = leaning(2800)
    assert caution.severity == Severity.CAUTION
    assert caution.measured == pytest.approx(math.degrees(math.atan(4.0)), abs=0.05)
    assert (caution.limit, caution.unit, caution.source.kind) == (60.0, "degrees", "assumption")
    assert set(caution.subject) <= set("J0123456789, ")
    assert leaning(2400 + 1600) == []  # 45 degrees


def test_a_noggin_is_set_under_an_end_between_a_joist_and_the_slant_of_a_seam() -> None:
    """A bay 560 deep in a mitred border: row B2 ends 5.6 mm before the noggins under its seam.

    The noggin's slanted end lies past the board's on its middle line, and before it on one face.
    """
    screws = {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90",
              "fascia_screw": "WS-50-60"}  # fmt: skip
    bay = ((0, 0), (1500, 0), (2060, 560), (3540, 560), (4100, 0), (5600, 0), (5600, 3200),
           (0, 3200))  # fmt: skip
    points = [{"along_mm": x, "across_mm": y, "side": "house" if n < 5 else "open",
               "faced": n > 4} for n, (x, y) in enumerate(bay)]  # fmt: skip
    plan = planned(
        outline={"points": points}, laying={"border_courses": 1}, groundwork={},
        fascia={"article": "FA-28-145"}, fixings=screws,
        gap={"preferred_mm": 5, "least_mm": 4, "most_mm": 8}, joints={"end_gap_mm": 4},
        frame={"article": "FT-45-145", "most_centres_mm": 400},
    )  # fmt: skip
    assert [str(each) for each in plan.findings if each.severity is Severity.STOP] == []
