"""The laws that every family keeps."""

from attrs import evolve

from drylay.testing import BOARDS, FamilyContract
from drylay_tiles.family import tiles


class TestTiles(FamilyContract):
    """Each law is a test of its own."""

    family = tiles()
    boards = tuple(
        evolve(
            board,
            board_length_mm=600.0 if board.board_width_mm > 100 else 1200.0,
            species="porcelain" if board.joist_thickness_mm > 40 else "larch",
        )
        for board in BOARDS
    )
    not_covered = (
        "screw_length_least_mm",
        "screw_edge_least_mm",
        "screw_end_least_mm",
        "groove_ratio",
    )
