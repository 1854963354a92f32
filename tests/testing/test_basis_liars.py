"""Design bases that lie, each caught by the law it breaks; and good ones that break none."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from attrs import evolve

from basis_liars import answering, plain
from drylay.errors import InputError
from drylay.strength.model import (
    BeamAsked,
    DeckLoads,
    DesignBasis,
    GuardPostAsked,
    PostAsked,
    Screened,
)
from drylay.strength.nds_basis import us_allowable_stress
from drylay.testing import BASIS_LAWS, BasisContract, check_basis
from drylay.testing.basis_samples import guard_post

GOOD = plain()


class TestEurocode5(BasisContract):
    basis = "eurocode-5"
    wood = "C24"
    fixing = "anchor 6 kN"
    bolt = "M12 4.6"


class TestEurocode5OnABalcony(BasisContract):
    basis = "eurocode-5"
    wood = "D30"
    fixing = "coach screw 12 x 160 into C24"
    use = "balcony"
    bolt = "m12  A4-70"


class TestUsAllowableStress(BasisContract):
    basis = "us-allowable-stress"
    wood = "SP No.2"
    fixing = "lag screw 1/2 in"
    bolt = "1/2 in A307"


class TestUsAnchors(BasisContract):
    basis = us_allowable_stress()
    wood = "Hem-Fir No.2"
    fixing = "anchor 6 kN"
    bolt = "3/8 in A307"


def laws(basis: DesignBasis, **more: str) -> set[str]:
    asked = {"wood": "C24", "fixing": "anchor 6 kN", "bolt": "M12 4.6", **more}
    return {broken.law for broken in check_basis(basis, **asked)}


def beamed(change: Callable[[Screened, BeamAsked, str], Screened]) -> DesignBasis:
    def beam(asked: BeamAsked, use: str) -> Screened:
        return change(GOOD.beam(asked, use), asked, use)

    return evolve(GOOD, beam=beam)


def used(answer: Screened, ratio: float) -> Screened:
    """Return an answer with all its checks used so much."""
    checks = tuple(
        evolve(each, measured=each.limit * ratio, utilisation_ratio=ratio) for each in answer.checks
    )
    return evolve(answer, checks=checks)


def changing() -> DesignBasis:
    heard: Iterator[int] = iter(range(1, 100_000))
    return beamed(lambda answer, _, __: used(answer, 0.5 + 1e-6 * next(heard)))


def unbraced(asked: PostAsked, use: str) -> Screened:
    return used(GOOD.post(asked, use), 0.5)


def crowded(use: str) -> DeckLoads:
    return GOOD.loads("dwelling" if use == "crowd" else use)


def anything(asked: Any, _: str) -> Screened:
    """Answer for any use, any size and any wood as for a joist."""
    sized = asked if asked.length_mm == asked.length_mm else evolve(asked, length_mm=1e3)
    found = GOOD.beam(evolve(sized, wood="C24", sharing=""), "dwelling")
    return found if found.checks else used(GOOD.beam(plain_joist(asked), "dwelling"), 0.5)


def plain_joist(asked: BeamAsked) -> BeamAsked:
    from drylay.testing.basis_samples import joist

    return evolve(joist("C24"), subject=asked.subject)


LIARS = {
    "shape": [plain(title=""), plain(loads=None), plain(sharings=())],
    "raises": [plain(beam=answering(ZeroDivisionError())), plain(post=answering(KeyError("k")))],
    "answer": [
        plain(beam=answering(None)),
        beamed(lambda answer, _, __: evolve(answer, subject="another")),
        beamed(lambda answer, _, __: used(answer, float("nan"))),
        beamed(lambda answer, _, __: evolve(answer, checks=())),
        plain(loads=answering(ValueError("no book"))),
        plain(loads=answering(None)),
    ],
    "covers": [
        plain(loads=answering(InputError(()))),
        beamed(lambda answer, _, __: evolve(answer, stops=("not today",))),
    ],
    "again": [changing()],
    "uses": [plain(loads=crowded), plain(beam=anything)],
    "refuses": [plain(beam=anything)],
    "rises": [
        beamed(lambda answer, _, __: used(answer, 0.5)),
        beamed(lambda answer, asked, _: used(answer, 200.0 / asked.carried_mm)),
        plain(post=unbraced),
    ],
    "falls": [
        beamed(lambda answer, _, __: used(answer, 0.5)),
        beamed(lambda answer, asked, _: used(answer, asked.section.depth_mm / 500)),
    ],
}


@pytest.mark.parametrize(
    ("law", "liar"), [(law, liar) for law, liars in LIARS.items() for liar in liars]
)
def test_a_liar_is_caught(law: str, liar: DesignBasis) -> None:
    assert law in laws(liar)


def test_every_law_has_a_liar() -> None:
    assert set(LIARS) == set(BASIS_LAWS)


def test_good_ones_break_no_law() -> None:
    assert laws(GOOD) == set()


def test_a_basis_asked_about_what_it_does_not_know() -> None:
    assert laws(GOOD, wood="SP No.2") == {"covers"}
    assert laws(GOOD, fixing="nails") == {"covers"}
    assert laws(GOOD, bolt="a peg") == {"covers"}
    assert "covers" in laws(GOOD, use="crowd")


class Unspeakable:
    """What cannot even be written down."""

    def __repr__(self) -> str:
        raise RuntimeError("no words")


def test_what_cannot_be_looked_at_is_of_no_shape() -> None:
    assert laws(1) == {"shape"}  # type: ignore[arg-type]
    assert laws(plain(Unspeakable())) == {"shape"}  # type: ignore[arg-type]


def test_a_basis_may_refuse_by_raising() -> None:
    refusing = answering(InputError(()))
    assert laws(plain(board=refusing)) == set()


def test_a_basis_that_knows_no_guard_posts_is_not_asked_about_them() -> None:
    older = plain(guard_post=None)
    assert laws(older, bolt="") == set()
    assert laws(older) == {"covers"}


def test_one_that_knows_them_is_not_let_off_without_a_bolt() -> None:
    assert laws(GOOD, bolt="") == {"covers"}


def test_lies_about_guard_posts() -> None:
    """Use that never rises; nonsense that passes; what is raised; an answer about nobody."""

    def idle(asked: GuardPostAsked, use: str) -> Screened:
        return used(GOOD.guard_post(asked, use), 0.5)  # type: ignore[misc]

    assert laws(plain(guard_post=idle)) == {"rises", "falls"}
    assert laws(plain(guard_post=answering(KeyError("k")))) == {"raises"}
    passing = used(GOOD.guard_post(guard_post("C24", "M12 4.6"), "dwelling"), 0.5)  # type: ignore[misc]
    assert {"refuses", "uses"} <= laws(plain(guard_post=answering(passing)))
    assert laws(plain(guard_post=answering(None))) == {"answer"}
    assert laws(plain(guard_post=1)) == {"shape"}


def test_a_basis_that_nobody_supplies_is_told() -> None:
    class Gone(BasisContract):
        basis = "gone"

    with pytest.raises(AssertionError, match="no installed plugin supplies the design basis"):
        Gone.broken_laws()
