"""The laws that every family keeps."""

from attrs import evolve

from drylay.testing import BOARDS, FamilyContract
from drylay_insertboard.family import insertboard


class TestInsertboard(FamilyContract):
    """Each law is a test of its own."""

    family = insertboard()
    boards = tuple(evolve(board, groove_mm=8.0) for board in BOARDS)
