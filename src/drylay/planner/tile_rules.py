"""Which rules govern a deck of tiles: those of boards that hold here too, and its own."""

from drylay.brief.model import Brief
from drylay.planner.governed import GOVERNED, JOINTED, GovernedPath

#: Paths of boards that a deck of tiles has too, by how they begin: on pads, and more on a frame.
ANYWHERE = ("surface.", "site.", "buying.spare_ratio")
ON_A_FRAME = (
    "supports.", "frame.", "fixings.coach_screws.", "fixings.frame_screws.",
    "fixings.fascia_screws.", "fixings.board_use_class", "fixings.frame_use_class",
    "fixings.preserver.", "buying.delivery.frame_density",
)  # fmt: skip

OF_TILES = (
    GovernedPath(path="tiling.least_cut_mm", rule="least_piece_mm", looser=-1),
    GovernedPath(path="tiling.density_kg_m3", rule="density_most_kg_m3", looser=-1),
)
BEDDED = (
    GovernedPath(path="tiling.bedding.bays_per_tile", rule="bays_per_piece", looser=-1),
    GovernedPath(path="tiling.bedding.bearing_least_mm", rule="end_bearing_least_mm", looser=-1),
)
PADDED = (
    GovernedPath(path="tiling.pads.at_edges_most_mm", rule="pads_at_edges_most_mm", looser=1),
    GovernedPath(path="tiling.pads.at_centre", rule="pads_at_centre", looser=-1),
)


def tile_paths(support: str) -> tuple[GovernedPath, ...]:
    """Return the governed paths of a deck of tiles on a frame or on pads."""
    begins = ANYWHERE + (ON_A_FRAME if support == "frame" else ())
    boards_only = [governed.path for governed in JOINTED if governed.path.startswith("supports.")]
    shared = tuple(
        governed
        for governed in GOVERNED
        if governed.path.startswith(begins) and governed.path not in boards_only
    )
    return (*shared, *OF_TILES, *(BEDDED if support == "frame" else PADDED))


def paths_of(brief: Brief) -> tuple[GovernedPath, ...]:
    """Return the governed paths of what a brief wants, of boards or of tiles."""
    support = brief.board.support
    return GOVERNED if support is None else tile_paths(support)
