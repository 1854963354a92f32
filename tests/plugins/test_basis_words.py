"""Words of a design basis, and forms that words are of."""

import pytest

from drylay.plugins.basis_words import fits
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import DesignBasis
from drylay.strength.nds_basis import us_allowable_stress

EC5, US = eurocode_5(), us_allowable_stress()


@pytest.mark.parametrize(
    ("basis", "word"),
    [
        (EC5, "one joist"),
        (EC5, "stated 0.6 by A. Lintel, engineer"),
        (EC5, "Board over three joists 145 x 28 C24"),
        (US, " one  joist "),
    ],
)
def test_a_word_for_sharing(basis: DesignBasis, word: str) -> None:
    assert fits(word, basis.sharings)


@pytest.mark.parametrize(
    ("basis", "word"),
    [
        (EC5, "anchor 6 kN"),
        (EC5, "coach screw 12 x 160 into C24"),
        (EC5, "bolt 12 through 47 C24"),
        (US, "lag screw 1/2 in"),
        (US, "anchor 4.5 kN"),
    ],
)
def test_a_word_for_a_fixing(basis: DesignBasis, word: str) -> None:
    assert fits(word, basis.fixings)


@pytest.mark.parametrize("word", ["", "one", "two joists", "stated by", "stated 0.6 by", "halved"])
def test_other_words(word: str) -> None:
    assert not fits(word, EC5.sharings)
    assert not fits(word, ())
