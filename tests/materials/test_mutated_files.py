"""Two thousand spoilt files, as `tests/campaigns/mutated_files.py` spoils a hundred thousand."""

from pathlib import Path

import pytest

from mutants import Sources, mutant
from spoilt_files import outcome

SOURCES = Sources()
#: Seeds on which something once went wrong.
FOUND = (76, 98, 252, 1642, 19667)


@pytest.mark.parametrize("first", range(0, 2000, 250))
def test_nothing_comes_of_a_spoilt_file_but_faults(first: int, tmp_path: Path) -> None:
    outcomes = {
        seed: outcome(mutant(seed, SOURCES), tmp_path) for seed in range(first, first + 250)
    }
    assert {seed: why for seed, (_, why) in outcomes.items() if why} == {}
    words = [word for word, _ in outcomes.values()]
    assert words.count("refused") > 120
    assert words.count("read") > 10


@pytest.mark.parametrize("seed", FOUND)
def test_what_once_went_wrong_does_no_more(seed: int, tmp_path: Path) -> None:
    assert outcome(mutant(seed, SOURCES), tmp_path)[1] == ""


def test_the_same_seed_spoils_the_same_way() -> None:
    assert [mutant(seed, SOURCES) for seed in range(40)] == [
        mutant(seed, Sources()) for seed in range(40)
    ]
