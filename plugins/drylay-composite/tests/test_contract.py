"""The laws that every family keeps."""

from attrs import evolve

from drylay.testing import BOARDS, FamilyContract
from drylay_composite.family import composite


class TestComposite(FamilyContract):
    """Each law is a test of its own."""

    family = composite()
    boards = tuple(
        evolve(board, clip_gap_mm=5.0, hollow=board.board_width_mm > 100) for board in BOARDS
    )
