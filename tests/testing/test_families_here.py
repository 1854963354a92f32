"""The families of this repository before the contract that every family keeps."""

from attrs import evolve

from drylay.plugins.guard import find_family
from drylay.plugins.loading import installed_families
from drylay.testing import BOARDS, FamilyContract, check_family


class TestSoftwood(FamilyContract):
    family = "softwood"


class TestHardwood(FamilyContract):
    family = "hardwood"


class TestComposite(FamilyContract):
    """Its gap is the clip's, so it covers no board whose clip is not told."""

    family = "composite"
    boards = tuple(evolve(board, clip_gap_mm=5.0) for board in BOARDS)


class TestInsertboard(FamilyContract):
    """It goes by what the groove leaves, so the groove has to be told."""

    family = "insertboard"
    boards = tuple(evolve(board, groove_mm=6.0) for board in BOARDS)


def test_tiles_break_no_law_but_a_bound_of_screws() -> None:
    """They are laid dry, 0 screws, where every board that is screwed has one at the least."""
    tiles = find_family(installed_families(), "tiles")
    assert tiles is not None
    broken = check_family(tiles.family, boards=[evolve(b, support="pads") for b in BOARDS])
    assert [(each.law, each.subject.split(",")[0]) for each in broken] == [
        ("bounds", "screws_per_crossing")
    ]
