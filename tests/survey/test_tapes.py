"""Corners out of tapes, against a network adjusted by hand and against scipy's least squares."""

import random
from itertools import combinations
from math import dist, hypot

import numpy as np
import pytest
from attrs import evolve
from scipy.optimize import least_squares

from drylay.errors import InputError
from drylay.papers.garden_text import survey_lines
from drylay.survey.model import FieldBook, Tape
from drylay.survey.network import Net, Solved, solve
from drylay.survey.report import survey_garden
from drylay.survey.settled import settled
from drylay.survey.slips import slips_of
from drylay.survey.tapes import fit_tapes
from survey.tapes_of import check, codes, quad, tapes

NAMES = "ABCDEFGH"


def test_a_braced_quadrilateral_is_adjusted_as_by_hand() -> None:
    """A rectangle of 4000 x 3000 whose one diagonal reads 20 too long, all of one accuracy.

    Six measures, five unknowns: one condition. A braced frame holds itself with forces in step
    with its lengths, 4, 3, 4, 3 in the sides and -5, -5 in the diagonals; by virtual work small
    changes of length that fit together keep 4 a + 3 b + 4 c + 3 d - 5 e - 5 f = 0. The measures
    miss it by w = -5 x 20 = -100. The correlate is k = -w / (16 + 9 + 16 + 9 + 25 + 25) = 1: the
    residuals are 4, 3, 4, 3, -5, -5, and the shares that others check 16, 9, 16, 9, 25, 25 of 100.
    Each residual over 3 x the root of its share is 3.333, and their squares over 9 add up to
    100 / 9 = 11.11.
    """
    fit = quad(AB=4000, BC=3000, CD=4000, DA=3000, AC=5000, BD=5020)
    hand = {"AB": (4, 0.16), "BC": (3, 0.09), "CD": (4, 0.16), "DA": (3, 0.09),
            "AC": (-5, 0.25), "BD": (-5, 0.25)}  # fmt: skip
    for name, (residual, spare) in hand.items():
        each = check(fit, name)
        assert each.residual_mm == pytest.approx(residual, abs=0.05)
        assert each.spare_ratio == pytest.approx(spare, abs=0.002)
        assert abs(each.standardised_ratio or 0) == pytest.approx(10 / 3, abs=0.01)
    assert fit.verdict.chi_square_ratio == pytest.approx(100 / 9, abs=0.05)
    assert fit.verdict.spare == 1
    assert fit.verdict.misfit_mm == pytest.approx(20, abs=0.11)
    # along runs on A-B as adjusted; D leans by (5015 squared - 4995 squared) / (4 x 4004)
    corners = {c.name: (c.along_mm, c.across_mm) for c in fit.corners}
    assert corners["A"] == (0.0, 0.0)
    assert corners["B"] == (4004.0, 0.0)
    lean = (5015**2 - 4995**2) / (4 * 4004)
    assert corners["D"] == pytest.approx((-lean, (3003**2 - lean**2) ** 0.5), abs=0.1)


def test_without_a_measure_to_spare_it_is_plain_geometry() -> None:
    """Errors of two tapes at a right angle: C lies at (AB, BC), so its bars are those tapes'."""
    fit = quad(AB=4000, BC=3000, CD=4000, DA=3000, AC=5000)
    assert [(c.along_mm, c.across_mm) for c in fit.corners] == [
        (0, 0), (4000, 0), (4000, 3000), (0, 3000),
    ]  # fmt: skip
    b, c = fit.corners[1], fit.corners[2]
    assert b.standard_along_mm == 3.0
    assert b.error_along_mm == 5.9  # 1.95996 x 3 = 5.880, told up
    assert c.standard_across_mm == 3.0
    # AC^2 = x^2 + y^2 with y of B-C only: dx = (5 dAC - 3 dBC) / 4, less B's own: see below
    assert c.standard_along_mm == pytest.approx((25 + 9) ** 0.5 / 4 * 3, abs=0.1)
    assert codes(fit) == ["caution SVY-004"]
    assert fit.verdict.agrees is None


def network(rng: random.Random, count: int) -> tuple[list[tuple[float, float]], list[Tape]]:
    """Return corners of an outline and all tapes between them, read with errors."""
    turns = np.linspace(0.2, 2 * np.pi + 0.2, count, endpoint=False)
    places = [
        (rng.uniform(2500, 6000) * float(np.cos(t)), rng.uniform(2500, 6000) * float(np.sin(t)))
        for t in turns
    ]
    lines = [(i, j) for i in range(count) for j in range(i + 1, count)]
    read = [
        Tape(start=NAMES[i], end=NAMES[j], accuracy_mm=rng.choice((1.0, 2.0, 5.0)),
             length_mm=round(dist(places[i], places[j]) + rng.gauss(0, 3), 1))
        for i, j in lines
    ]  # fmt: skip
    return places, read


def oracle(places: list[tuple[float, float]], read: list[Tape], count: int) -> np.ndarray:
    """Return the corners that scipy finds, laid as ours: A at the origin, B along."""

    def off(flat: np.ndarray) -> np.ndarray:
        full = np.insert(flat, [0, 0, 1], 0.0).reshape(-1, 2)
        return np.array([
            (hypot(*(full[NAMES.index(t.end)] - full[NAMES.index(t.start)])) - t.length_mm)
            / (t.accuracy_mm or 1)
            for t in read
        ])  # fmt: skip

    base = np.array(places) - places[0]
    cos, sin = base[1] / hypot(*base[1])
    turned = base @ np.array([[cos, -sin], [sin, cos]])
    begin = np.delete(turned.reshape(-1), [0, 1, 3])
    found = least_squares(off, begin, method="lm", xtol=1e-14, ftol=1e-14)
    return np.insert(found.x, [0, 0, 1], 0.0).reshape(count, 2), 2 * found.cost, found.jac


@pytest.mark.parametrize("seed", range(12))
def test_random_networks_are_those_that_scipy_finds(seed: int) -> None:
    rng = random.Random(seed)
    count = rng.choice((4, 5, 6))
    places, read = network(rng, count)
    fit = fit_tapes(NAMES[:count], read)
    if any(each.left_out for each in fit.tapes):
        read = [t for t, c in zip(read, fit.tapes, strict=True) if not c.left_out]
    found, chi, jac = oracle(places, read, count)
    ours = np.array([(c.along_mm, c.across_mm) for c in fit.corners])
    assert np.abs(ours - found).max() < 0.06
    if len(read) == len(fit.tapes):
        assert fit.verdict.chi_square_ratio == pytest.approx(chi, abs=1e-3)
    sigma = np.insert(np.sqrt(np.diag(np.linalg.inv(jac.T @ jac))), [0, 0, 1], 0.0).reshape(-1, 2)
    told = np.array([(c.standard_along_mm, c.standard_across_mm) for c in fit.corners])
    assert np.all(told >= sigma - 1e-3)
    assert np.all(told <= sigma + 0.11)


def test_four_sides_alone_swing_and_what_would_hold_them_is_told() -> None:
    fit = quad(AB=4000, BC=3000, CD=4000, DA=3000)
    assert codes(fit) == ["stop SVY-005"]
    assert "measure A-C or B-D" in fit.findings[0].message
    assert fit.corners == ()


def test_a_corner_on_one_tape_is_named() -> None:
    fit = fit_tapes("ABCDE", tapes(AB=4000, BC=3000, CD=4000, DA=3000, AC=5000, BD=5000, DE=900))
    assert codes(fit) == ["stop SVY-005"]
    assert "A-E or B-E or C-E" in fit.findings[0].message


def test_one_wrong_of_six_cannot_be_told_by_statistics_and_is_not() -> None:
    """47 is no usual slip: all six stay suspects, and one more measure tells most of them apart."""
    fit = quad(AB=4000, BC=3000, CD=4000, DA=3000, AC=5000, BD=5047)
    assert codes(fit)[0] == "stop SVY-001"
    worse = {round(abs(each.standardised_ratio or 0), 2) for each in fit.tapes}
    assert len(worse) == 1
    assert len(fit.verdict.wrong) == 6
    assert fit.next_measure is not None
    assert len(fit.next_measure.readings) == 6
    wrong = {would.wrong: would.length_mm for would in fit.next_measure.readings}
    assert abs(wrong["A-C"] - wrong["B-D"]) > 30


def test_two_figures_swapped_are_named_where_only_they_explain() -> None:
    """A-D of a shape without symmetry read 3241 for 3421: 180 too short."""
    true = {"A": (0, 0), "B": (5200, 0), "C": (4700, 4100), "D": (-350, 3403)}
    read = {a + b: float(round(dist(true[a], true[b]))) for a, b in
            ("AB", "BC", "CD", "DA", "AC", "BD")}  # fmt: skip
    assert read["DA"] == 3421
    fit = quad(**{**read, "DA": 3241.0})
    assert fit.verdict.wrong == ("D-A",)
    assert codes(fit)[0] == "stop SVY-003"
    assert check(fit, "DA").implied_mm == pytest.approx(3421, abs=3)
    assert check(fit, "DA").slips[0].told == "two figures swapped"
    # a slip is likely and no proof: what to measure if it reads the same is told all the same
    assert fit.next_measure is not None
    assert "if it reads the same measure from" in fit.findings[0].message


def test_metres_beside_millimetres_are_no_shape_and_the_tape_is_named() -> None:
    fit = quad(AB=3600, BC=2400, CD=3.6, DA=2400, AC=4327, BD=4327)
    assert codes(fit) == ["stop SVY-006", "stop SVY-003"]
    assert fit.verdict.wrong == ("C-D",)
    assert check(fit, "CD").slips[0].should_be_mm == 3600
    assert check(fit, "CD").slips[0].told == "metres written as mm"
    assert fit.corners == ()


#: A garden of four corners with M in the far side, tied all over.
TIED = {"A": (0, 0), "B": (6100, 0), "C": (6100, 3900), "D": (100, 4000), "M": (2900, 4600)}
TIES = ("AB", "BC", "CD", "DA", "AC", "BD", "AM", "BM", "CM", "DM")


@pytest.mark.parametrize("off_mm", [-143.0, 67.0])
@pytest.mark.parametrize("name", TIES)
def test_with_more_to_spare_the_wrong_one_is_named_and_left_out(name: str, off_mm: float) -> None:
    read = {a + b: dist(TIED[a], TIED[b]) for a, b in TIES}
    told = tapes(**{**read, name: read[name] + off_mm})
    fit = fit_tapes("ABCDM", told, outline="ABCMD", accuracy_mm=2.0)
    assert fit.verdict.wrong == (f"{name[0]}-{name[1]}",)
    assert check(fit, name).left_out
    assert check(fit, name).implied_mm == pytest.approx(read[name], abs=0.1)
    assert "caution SVY-003" in codes(fit)
    assert not any(code.startswith("stop") for code in codes(fit))
    found = {c.name: (c.along_mm, c.across_mm) for c in fit.corners}
    for corner, place in TIED.items():
        assert dist(found[corner], place) < 0.2


def test_where_two_tapes_answer_for_each_other_both_are_named_and_none_left_out() -> None:
    """B-C and A-C alone say how far C lies from the house: C-D and C-M run along it.

    A wrong B-C is then as likely a wrong A-C.
    """
    places = {**TIED, "M": (3100, 3950)}
    read = {a + b: dist(places[a], places[b]) for a, b in TIES}
    fit = fit_tapes("ABCDM", tapes(**{**read, "BC": read["BC"] + 43}), outline="ABCD")
    assert {"B-C", "A-C"} <= set(fit.verdict.wrong)
    assert not any(each.left_out for each in fit.tapes)
    assert codes(fit)[0] == "stop SVY-001"
    assert fit.next_measure is not None


def test_of_tapes_that_could_be_left_out_the_surely_likelier_one_is() -> None:
    """Six pegs, all fifteen tapes, A-D 20 too long for tapes of 2.

    Without A-M too the rest would pass (sum of squares 9.9, 11.1 allowed), but without A-D it is
    0: 9.9 more is beyond the 6.63 that 99 in 100 stay within.
    """
    places = {**TIED, "N": (3000, 1500)}
    read = {a + b: dist(places[a], places[b]) for a, b in combinations("ABCDMN", 2)}
    told = tapes(**{**read, "AD": read["AD"] + 20})
    fit = fit_tapes("ABCDMN", told, outline="ABCMD", accuracy_mm=2.0)
    assert fit.verdict.wrong == ("A-D",)
    assert check(fit, "AD").left_out


def test_a_shallow_dart_is_told_from_its_kite_by_the_other_diagonal() -> None:
    """D lies 30 within the line from A to C: roughly, the shape with D outside fits as well."""
    true = {"A": (0, 0), "B": (3000, -3000), "C": (6000, 0), "D": (3000, -30)}
    read = {a + b: dist(true[a], true[b]) for a, b in ("AB", "BC", "CD", "DA", "AC", "BD")}
    fit = quad(**read)
    assert fit.verdict.agrees
    assert {a.corner: round(a.angle_deg) for a in fit.angles}["D"] == 181
    assert "caution SVY-009" not in codes(fit)


def test_of_two_shapes_the_one_that_fits_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tapes that just fix a dart or its kite, made as if they had told the kite to be off."""
    true = [(0.0, 0.0), (6000.0, 0.0), (6000.0, 6000.0), (4000.0, 2000.0)]
    kite = (*true[:3], (2000.0, 4000.0))
    lines = ((0, 1), (1, 2), (2, 3), (3, 0), (0, 2))
    net = Net(count=4, base=1, lines=lines, long=tuple(dist(true[a], true[b]) for a, b in lines),
              sigma=(3.0,) * 5, ring=(0, 1, 2, 3))  # fmt: skip
    both = settled(net)
    assert both is not None
    assert both.others
    assert dist(both.solved.places[3], kite[3]) < 1e-6

    def solve_off(net: Net, start: tuple[tuple[float, float], ...]) -> Solved | None:
        found = solve(net, start)
        return evolve(found, chi=50.0) if found and dist(start[3], kite[3]) < 1 else found

    monkeypatch.setattr("drylay.survey.settled.solve", solve_off)
    found = settled(net)
    assert found is not None
    assert dist(found.solved.places[3], true[3]) < 1e-6
    assert not found.others


def test_two_wrong_tapes_stop() -> None:
    read = {a + b: dist(TIED[a], TIED[b]) for a, b in TIES}
    fit = fit_tapes("ABCDM", tapes(**{**read, "AB": read["AB"] + 300, "CM": read["CM"] - 200}))
    assert codes(fit)[:2] == ["stop SVY-006", "stop SVY-001"]
    assert "more than one is wrong" in fit.findings[1].message
    assert fit.corners == ()


def test_a_side_off_parallel_and_a_corner_off_square_are_told() -> None:
    """D 3000 and C 3032 from the house: 32 of taper, and 32 over 4000 is 0.458 degrees."""
    true = {"A": (0, 0), "B": (4000, 0), "C": (4000, 3032), "D": (0, 3000)}
    read = {a + b: dist(true[a], true[b]) for a, b in ("AB", "BC", "CD", "DA", "AC", "BD")}
    fit = fit_tapes("ABCD", tapes(**read), accuracy_mm=1.0)
    (side,) = fit.tapers
    assert side.side == "C-D"
    assert side.taper_mm == pytest.approx(32.0, abs=0.1)
    angles = {each.corner: each for each in fit.angles}
    assert angles["D"].off_square_deg == pytest.approx(0.458, abs=0.001)
    assert angles["C"].off_square_deg == pytest.approx(-0.458, abs=0.001)
    assert angles["A"].off_square_deg == 0.0
    assert "caution SVY-007" in codes(fit)
    assert codes(fit).count("note SVY-008") == 2


def test_an_l_of_six_corners_tied_to_the_house_is_placed_the_right_way_round() -> None:
    """Ties from both ends of the house, A and B, to all corners; E points inwards."""
    true = {"A": (0, 0), "B": (7000, 0), "C": (7000, 2500), "E": (4000, 2500), "F": (4000, 5000),
            "G": (0, 5000)}  # fmt: skip
    ring = "ABCEFG"
    lines = [*zip(ring, ring[1:] + ring[0], strict=True), ("A", "C"), ("A", "E"), ("B", "E"),
             ("A", "F"), ("B", "F"), ("B", "G")]  # fmt: skip
    read = [Tape(start=a, end=b, length_mm=dist(true[a], true[b])) for a, b in lines]
    fit = fit_tapes(ring, read)
    for corner in fit.corners:
        assert (corner.along_mm, corner.across_mm) == pytest.approx(true[corner.name], abs=0.1)
    assert {a.corner: round(a.angle_deg) for a in fit.angles}["E"] == 270
    assert "caution SVY-009" not in codes(fit)


def test_two_shapes_that_fit_alike_are_told() -> None:
    """A dart and its kite: D on either side of A-C, both outlines without a crossing."""
    fit = quad(AB=5000, BC=5000, CD=3300, DA=3300, AC=6000)
    assert "caution SVY-009" in codes(fit)
    assert dist((fit.corners[3].along_mm, fit.corners[3].across_mm),
                (fit.corners[1].along_mm, fit.corners[1].across_mm)) > 4000  # fmt: skip


def test_a_tape_read_twice_is_the_mean_of_both() -> None:
    fit = fit_tapes("ABC", [*tapes(AB=3000, BC=4000, CA=5000), *tapes(AB=3004)])
    assert fit.corners[1].along_mm == 3002.0
    assert fit.verdict.agrees


def test_a_peg_in_the_wall_needs_no_other_side() -> None:
    """M lies in the house wall, 5 out of line: both ties from the garden say so."""
    true = {**TIED, "M": (3000, 5)}
    read = {a + b: dist(true[a], true[b]) for a, b in TIES}
    fit = fit_tapes("ABCDM", tapes(**read), outline="AMBCD")
    assert fit.corners[4].across_mm == pytest.approx(5, abs=0.1)
    assert fit.verdict.agrees
    assert "caution SVY-009" not in codes(fit)


def test_corners_in_one_line_are_no_shape() -> None:
    fit = fit_tapes("ABC", tapes(AB=3000, BC=4000, CA=7000))
    assert codes(fit) == ["stop SVY-010"]


@pytest.mark.parametrize("first", ["AB", "DA"])
def test_the_garden_lies_across_from_the_first_tape(first: str) -> None:
    read = {"AB": 4000, "BC": 3000, "CD": 4000, "DA": 3000, "AC": 5000, "BD": 5000}
    order = [first, *(name for name in read if name != first)]
    fit = fit_tapes("ABCD", tapes(**{name: read[name] for name in order}))
    places = {c.name: (round(c.along_mm), round(c.across_mm)) for c in fit.corners}
    assert places[first.replace("A", "")] == (read[first], 0)
    assert places["C"] == ((4000, 3000) if first == "AB" else (3000, 4000))
    assert fit.outline == tuple("ABCD" if first == "AB" else "ADCB")
    assert all(round(angle.angle_deg) == 90 for angle in fit.angles)


def test_all_that_cannot_be_meant_is_refused_at_once() -> None:
    with pytest.raises(InputError) as raised:
        fit_tapes("ABC", [*tapes(AB=-4, BX=3000), Tape(start="C", end="C", length_mm=1)],
                  accuracy_mm=0)  # fmt: skip
    told = str(raised.value)
    for part in ("accuracy_mm", "tapes[0].length_mm", "tapes[1].end", "tapes[2]"):
        assert part in told


@pytest.mark.parametrize(
    ("read", "true", "told"),
    [
        (4320, 4230, "two figures swapped"),
        (3100, 3000, "100 mm misread, or the tape held at its 100 mark"),
        (3.6, 3600, "metres written as mm"),
        (360, 3600, "cm written as mm"),
        (24000, 2400, "a nought too many"),
        (3962.4, 3657.6, "a foot misread"),
        (2690, 2990, "a 6 and a 9 confused"),
        (5000, 4000, "a whole metre misread"),
    ],
)
def test_a_usual_slip_is_known(read: float, true: float, told: str) -> None:
    assert slips_of(read, true + 2, 10)[0].told == told
    assert slips_of(read, true + 60, 10) == () or slips_of(read, true + 60, 10)[0].told != told


def test_tapes_that_nothing_tests_are_named() -> None:
    """A braced rectangle with a corner E hung on by two tapes: one to spare, but not for them."""
    long = {"AB": 4000, "BC": 3000, "CD": 4000, "DA": 3000, "AC": 5000, "BD": 5000,
            "BE": 2500, "CE": 2500}  # fmt: skip
    fit = fit_tapes(tuple("ABECD"), tapes(**long), outline=tuple("ABECD"))
    assert fit.verdict.spare == 1
    (told,) = [each for each in fit.findings if each.code == "SVY-011"]
    assert "tests B-E, C-E" in told.message
    lines = [line for line in survey_lines(survey_garden(FieldBook(tapes=tapes(**long))))
             if line.startswith("tape ")]  # fmt: skip
    assert [line[5:8] for line in lines if line.endswith("not tested")] == ["B-E", "C-E"]
    whole = fit_tapes(tuple("ABCD"), tapes(**{k: v for k, v in long.items() if "E" not in k}))
    assert "SVY-011" not in {each.code for each in whole.findings}
