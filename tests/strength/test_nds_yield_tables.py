"""The yield limit equations against printed cells of NDS 2018 tables 12A to 12P, and Cg and CP.

Cells in pounds, read as transcribed in a public file that cites page and cell of NDS 2018. The
tables round Fe to 50 psi (footnote 2 of table 12.3.3) and values to 10 lb (bolts, lag screws) or
1 lb (screws, nails); the equations round nothing. A value rises no faster than Fe does, so a cell
is met within half a printed step and 25 psi of the softest wood's Fe.
"""

import pytest

from drylay.strength.model import Section
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_built_up import built_up_ratio
from drylay.strength.nds_dowels import (
    bearing_n_mm2,
    bolt,
    lag_screw,
    nail,
    penetration_bears_mm,
    wood_screw,
)
from drylay.strength.nds_joint_factors import group_ratio
from drylay.strength.nds_joint_model import Dowel, Lateral, Steel, Wood
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_values import dressed
from drylay.strength.nds_yield import double_shear, reduction, single_shear
from drylay.strength.us_units import (
    N_PER_LB,
    lb_of_kn,
    mm_of_feet,
    mm_of_inches,
    psi_of_n_mm2,
)

A36, A653 = "ASTM A36", "ASTM A653 grade 33"
#: Half of what Fe is rounded to in tables.
ROUNDED_PSI = 25
TIP_INCH = {0.25: 0.15625, 0.375: 0.21875, 0.5: 0.3125}


def wood(inches: float, gravity: float, angle: float = 0.0) -> Wood:
    return Wood(bears_mm=mm_of_inches(inches), gravity_ratio=gravity, angle_deg=angle)


def steel(inches: float, grade: str) -> Steel:
    return Steel(bears_mm=mm_of_inches(inches), grade=grade)


def meets(found: Lateral, dowel: Dowel, pieces: tuple[Wood | Steel, ...], cell: float) -> bool:
    step = 10 if dowel.kind in ("bolt", "lag screw") else 1
    softest = min(psi_of_n_mm2(bearing_n_mm2(dowel, piece)) for piece in pieces)
    off = abs(lb_of_kn(found.each_kn) - cell)
    return off <= step / 2 + cell * ROUNDED_PSI / softest


#: Table 12A, bolts through two pieces of one wood: D, tm, ts, G, load to the grain of main and
#: side in degrees, pounds.
TABLE_12A = [
    (0.5, 1.5, 1.5, 0.50, 0, 0, 480), (0.5, 1.5, 1.5, 0.50, 0, 90, 300),
    (0.5, 1.5, 1.5, 0.50, 90, 0, 300), (0.5, 1.5, 1.5, 0.50, 90, 90, 220),
    (0.75, 1.5, 1.5, 0.50, 0, 0, 720), (0.75, 1.5, 1.5, 0.50, 0, 90, 420),
    (0.75, 1.5, 1.5, 0.50, 90, 90, 270), (0.75, 3.5, 1.5, 0.50, 0, 0, 1200),
    (0.75, 3.5, 1.5, 0.50, 0, 90, 590), (0.75, 3.5, 1.5, 0.50, 90, 0, 610),
    (0.75, 3.5, 1.5, 0.50, 90, 90, 510), (1.0, 1.5, 1.5, 0.50, 0, 0, 970),
    (1.0, 1.5, 1.5, 0.50, 90, 90, 310), (1.0, 3.5, 3.5, 0.50, 0, 0, 2260),
    (1.0, 3.5, 3.5, 0.50, 0, 90, 1230), (1.0, 3.5, 3.5, 0.50, 90, 90, 720),
    (0.5, 1.5, 1.5, 0.42, 0, 0, 410), (0.5, 1.5, 1.5, 0.42, 90, 90, 170),
]  # fmt: skip


@pytest.mark.parametrize("cell", TABLE_12A)
def test_bolts_in_two_pieces_of_wood(cell) -> None:
    d, tm, ts, gravity, main, side, pounds = cell
    dowel, pieces = bolt(mm_of_inches(d)), (wood(tm, gravity, main), wood(ts, gravity, side))
    assert meets(single_shear(dowel, *pieces), dowel, pieces, pounds)


#: Table 12B, a 1/4 in plate of A36 beside wood of G 0.50: D, tm, angle, pounds.
@pytest.mark.parametrize(
    ("d", "tm", "angle", "pounds"),
    [(0.5, 1.5, 0, 580), (0.5, 1.5, 90, 310), (0.75, 1.5, 0, 870), (1.0, 3.5, 0, 2270)],
)
def test_bolts_with_a_steel_plate(d, tm, angle, pounds) -> None:
    dowel, pieces = bolt(mm_of_inches(d)), (wood(tm, 0.50, angle), steel(0.25, A36))
    assert meets(single_shear(dowel, *pieces), dowel, pieces, pounds)


#: Tables 12F (wood) and 12G (plates of A36), double shear, G 0.50.
@pytest.mark.parametrize(
    ("d", "tm", "main", "side", "pounds"),
    [
        (0.5, 1.5, 0, wood(1.5, 0.50), 1050), (0.5, 1.5, 0, wood(1.5, 0.50, 90), 730),
        (0.5, 1.5, 90, wood(1.5, 0.50), 470), (0.75, 3.5, 0, wood(1.5, 0.50), 2400),
        (0.75, 3.5, 90, wood(1.5, 0.50), 1370), (0.5, 1.5, 0, steel(0.25, A36), 1050),
        (0.5, 1.5, 90, steel(0.25, A36), 470), (0.75, 3.5, 0, steel(0.25, A36), 3340),
        (0.75, 3.5, 90, steel(0.25, A36), 1370),
    ],
)  # fmt: skip
def test_bolts_in_double_shear(d, tm, main, side, pounds) -> None:
    dowel, pieces = bolt(mm_of_inches(d)), (wood(tm, 0.50, main), side)
    assert meets(double_shear(dowel, *pieces), dowel, pieces, pounds)


def behind(dowel: Dowel, penetration_inch: float, tip_inch: float) -> float:
    return penetration_bears_mm(dowel, mm_of_inches(penetration_inch), mm_of_inches(tip_inch))


#: Tables 12J (wood) and 12K (steel), lag screws 8 D deep without the tip, G 0.50.
@pytest.mark.parametrize(
    ("d", "main", "side", "pounds"),
    [
        (0.25, 0, wood(0.5, 0.50), 120), (0.25, 90, wood(0.5, 0.50, 90), 80),
        (0.25, 0, wood(0.5, 0.50, 90), 90), (0.375, 0, wood(0.5, 0.50), 150),
        (0.375, 90, wood(0.5, 0.50, 90), 90), (0.5, 0, wood(1.5, 0.50), 390),
        (0.5, 90, wood(1.5, 0.50), 270), (0.5, 0, wood(1.5, 0.50, 90), 220),
        (0.5, 90, wood(1.5, 0.50, 90), 200), (0.5, 0, steel(0.25, A36), 520),
        (0.5, 90, steel(0.25, A36), 320), (0.375, 0, steel(0.134, A653), 220),
        (0.375, 90, steel(0.134, A653), 140),
    ],
)  # fmt: skip
def test_lag_screws(d, main, side, pounds) -> None:
    dowel = lag_screw(mm_of_inches(d))
    bears_mm = behind(dowel, 8 * d + TIP_INCH[d], TIP_INCH[d])
    pieces = (Wood(bears_mm=bears_mm, gravity_ratio=0.50, angle_deg=main), side)
    assert meets(single_shear(dowel, *pieces), dowel, pieces, pounds)


#: Tables 12L (wood) and 12M (steel), wood screws 10 D deep, tip 2 D: D, Dr (table L3), G of main.
@pytest.mark.parametrize(
    ("d", "root", "gravity", "side", "pounds"),
    [
        (0.190, 0.152, 0.50, wood(0.5, 0.50), 90), (0.164, 0.131, 0.50, wood(0.5, 0.50), 73),
        (0.242, 0.196, 0.50, wood(0.5, 0.50), 120), (0.190, 0.152, 0.50, wood(1.5, 0.50), 117),
        (0.216, 0.171, 0.42, wood(0.5, 0.42), 91), (0.190, 0.152, 0.50, steel(0.060, A653), 116),
        (0.164, 0.131, 0.50, steel(0.105, A653), 103),
    ],
)  # fmt: skip
def test_wood_screws(d, root, gravity, side, pounds) -> None:
    dowel = wood_screw(mm_of_inches(d), mm_of_inches(root))
    bears_mm = behind(dowel, 10 * d, 2 * d)
    pieces = (Wood(bears_mm=bears_mm, gravity_ratio=gravity), side)
    assert meets(single_shear(dowel, *pieces), dowel, pieces, pounds)


#: Tables 12N (wood) and 12P (steel), nails: D, length (table L4), G of main, side, pounds.
@pytest.mark.parametrize(
    ("d", "long", "gravity", "side", "pounds"),
    [
        (0.113, 2, 0.50, wood(0.75, 0.50), 72), (0.131, 2.5, 0.50, wood(0.75, 0.50), 90),
        (0.148, 3, 0.50, wood(0.75, 0.50), 105), (0.162, 3.5, 0.50, wood(0.75, 0.50), 121),
        (0.113, 2, 0.50, wood(1, 0.50), 72), (0.131, 2.5, 0.50, wood(1, 0.50), 97),
        (0.148, 3, 0.50, wood(1, 0.50), 118), (0.162, 3.5, 0.50, wood(1, 0.50), 141),
        (0.135, 3.5, 0.50, wood(0.75, 0.50), 94), (0.120, 2.875, 0.50, wood(0.75, 0.50), 80),
        (0.120, 2.875, 0.50, wood(1, 0.50), 81), (0.162, 3.5, 0.42, wood(1.5, 0.42), 120),
        (0.162, 3.5, 0.50, steel(0.060, A653), 138), (0.131, 2.5, 0.50, steel(0.134, A653), 117),
    ],
)  # fmt: skip
def test_nails(d, long, gravity, side, pounds) -> None:
    dowel = nail(mm_of_inches(d))
    bears_mm = behind(dowel, long - side.bears_mm / 25.4, 2 * d)
    pieces = (Wood(bears_mm=bears_mm, gravity_ratio=gravity), side)
    assert meets(single_shear(dowel, *pieces), dowel, pieces, pounds)


def test_modes_that_no_table_shows_by_hand() -> None:
    """1/2 in bolt, G 0.50, Fe 5600 psi. tm 0.5, ts 1.5: Im = 0.5 x 0.5 x 5600 / 4 = 350 lb. tm 1,
    ts 3.5: k2 = -1 + sqrt(4 + 2 x 45000 x 3 x 0.25 / (3 x 5600)) = 1.83158, IIIm = 534.2 lb.
    """
    half = bolt(mm_of_inches(0.5))
    crushed = single_shear(half, wood(0.5, 0.50), wood(1.5, 0.50))
    bent = single_shear(half, wood(1.0, 0.50), wood(3.5, 0.50))
    assert (crushed.governing, bent.governing) == ("Im", "IIIm")
    assert lb_of_kn(crushed.each_kn) == pytest.approx(350)
    assert lb_of_kn(bent.each_kn) == pytest.approx(534.21, abs=0.01)
    assert dict(crushed.modes_kn)["II"] / N_PER_LB * 1000 == pytest.approx(388.89, abs=0.01)


def test_steel_in_the_main_piece_by_hand() -> None:
    """1/2 in bolt, A36 plate 1/4 in, G 0.50 beside it 1.5 in: Re = 87000 / 5600, k1 = 0.49964:
    Im 2718.75, Is 1050, II 582.92, IIIm 825.73, IIIs 783.15, IV 981.52 lb.
    """
    found = single_shear(bolt(mm_of_inches(0.5)), steel(0.25, A36), wood(1.5, 0.50))
    pounds = [lb_of_kn(force) for _, force in found.modes_kn]
    assert pounds == pytest.approx([2718.75, 1050, 582.92, 825.73, 783.15, 981.52], abs=0.01)


def test_reduction_terms() -> None:
    """Table 12.3.1B, footnote 1: 1/4 in lag screw, Dr 0.173: (1.73 + 0.5) x 1.25; No. 12: 2.21."""
    lag = lag_screw(mm_of_inches(0.25))
    assert reduction(lag, "IIIs", 90) == pytest.approx(2.7875)
    assert reduction(lag_screw(mm_of_inches(0.3125)), "Im", 90) == pytest.approx(3.4625)
    twelve = wood_screw(mm_of_inches(0.216), mm_of_inches(0.171))
    assert reduction(twelve, "IV", 90) == pytest.approx(2.21)


def test_bearing_strengths_of_the_table() -> None:
    """NDS table 12.3.3, G 0.50, to 50 psi: 5600, 4450 (1/4 in), 3150 (1/2 in), 4650 (nails)."""
    quarter, half, thin = (bolt(mm_of_inches(0.25)), bolt(mm_of_inches(0.5)), nail(4.1148))
    found = [(half, 0, 5600), (quarter, 90, 4450), (half, 90, 3150), (thin, 0, 4650)]
    for dowel, angle, psi in found:
        assert psi_of_n_mm2(bearing_n_mm2(dowel, wood(1.5, 0.50, angle))) == pytest.approx(
            psi, abs=25
        )


#: Tables 11.3.6A (wood beside wood) and 11.3.6C (steel): D 1 in, 4 in apart, E 1,400,000 psi and
#: 30,000,000 psi; areas in square inches.
@pytest.mark.parametrize(
    ("main_in2", "side_in2", "plates", "count", "printed"),
    [
        (12, 12, False, 4, 0.96), (10, 5, False, 8, 0.55), (64, 64, False, 12, 0.88),
        (5, 5 / 12, True, 6, 0.62), (40, 0.8, True, 12, 0.51),
    ],
)  # fmt: skip
def test_group_factors(main_in2, side_in2, plates, count, printed) -> None:
    found = group_ratio(
        bolt(mm_of_inches(1)),
        count=count,
        spacing_mm=mm_of_inches(4),
        main_n=1.4e6 * main_in2 * N_PER_LB,
        side_n=(30e6 if plates else 1.4e6) * side_in2 * N_PER_LB,
        steel=plates,
    )
    assert found == pytest.approx(printed, abs=0.005)


def test_a_built_up_column_of_a_textbook() -> None:
    """Aghayere and Vigil, Structural Wood Design (2007), example 5.7, as transcribed in a public
    test: three 2x6 Douglas fir-larch No.1 nailed, 12 ft, dry: CP = 0.168.
    """
    section: Section = dressed("2x6", 3)
    fir = allowed("DFL", "No.1", section, Conditions(wet=False))
    ratio, way = built_up_ratio(
        fir, section, joined="nailed", length_mm=mm_of_feet(12), braced_mm=mm_of_feet(12)
    )
    assert ratio == pytest.approx(0.16793, abs=1e-5)
    assert way == "across the plies"
