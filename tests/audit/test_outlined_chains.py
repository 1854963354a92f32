"""Boards that meet at joints, in chains, and the lines of the proof they are: by hand, 1/320 mm."""

from audit.outlined_sample import outlined_plan, piece, spots
from drylay.audit.exact import Fraction
from drylay.audit.outlined_chains import Chain, _room, off_mitres
from drylay.audit.outlined_tasks import _bays, _numbered
from drylay.audit.plane import UNIT, Run
from drylay.cutting.model import Line

FLAT = Run(cos=UNIT, sin=0)


def test_lines_that_are_cut_off_count_on_and_hold_no_piece() -> None:
    """Members 1 m apart stand on lines 1, 2, 5 and 6; 3 and 4 are told just beyond 2."""
    plan = outlined_plan()  # two supports, 300 mm at least
    places = (0, 320_000, 640_000, 640_001, 640_002, 960_000, 1_280_000, 1_600_000)
    on = dict(zip((320_000, 640_000, 960_000, 1_280_000), (1, 2, 5, 6), strict=True))
    chain = Chain(
        pieces=plan.laying.pieces[:1], length=Fraction(places[-1]),
        stations=tuple((Fraction(each), on.get(each)) for each in (0, *on, places[-1])),
    )  # fmt: skip
    line = Line(count=1, start=0, end=places[-1], stations=places, first_station=1)
    assert list(_numbered(plan, line, chain)) == [(1, 1), (2, 2), (5, 5), (6, 6)]
    assert _bays(plan, line) == 1


def test_a_borders_boards_meet_off_its_mitres() -> None:
    """Whole from 100 to 900 along; the gap is 4 and lies 1 off, told 0.1 inside that."""
    corners = spots((0.0, 105.0), (1000.0, 105.0), (900.0, 205.0), (100.0, 205.0))
    lot = [piece("B1.1", 0.0, 1000.0, kind="border", corners=corners)]
    room = _room(outlined_plan(), FLAT, lot, Fraction(0))
    assert [float(each) / 320 for each in room] == [102.9, 897.1]
    told = [tuple((Fraction(at), None) for at in (20, inner, 980)) for inner in (100, 500)]
    assert [len(off_mitres((Fraction(103), Fraction(897)), each)) for each in told] == [2, 3]
    assert off_mitres(None, told[0]) == told[0]
