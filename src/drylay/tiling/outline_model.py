"""The nouns of tiles on an outline. Places are those of the outline; see `outline.model`.

The tiles' length lies along the run, at `angle_deg` from the house; columns are counted along it,
rows to the left of it. A tile is named by its row and its column: `B2.3`.
"""

from attrs import frozen

from drylay.outline.model import Spot
from drylay.reasons import because

#: Where pads stand under a tile: as on a rectangle.
OUTLINE_PAD_KINDS = ("corner", "edge", "centre")
#: How the outer tiles of a direction are cut; "set_out" where no rectangle's way out names it.
TILE_WAYS = ("as_wished", "rip_both", "rip_last", "set_out")


@frozen(kw_only=True)
class LaidTile:
    """One tile as it lies: its corners, the box about it along the run and across, its narrowest.

    `cut` where a saw touches it, `shaped` where it is then no rectangle of the grid. `hatch` is the
    mark of the hatch that it lifts out of.
    """

    mark: str
    row: int
    column: int
    corners: tuple[Spot, ...] = because("tiles.tile_count")
    length_mm: float = because("tiles.tile_count")
    width_mm: float = because("tiles.tile_count")
    narrow_mm: float = because("tiles.narrowest_mm")
    cut: bool
    shaped: bool
    hatch: str = ""


@frozen(kw_only=True)
class BoxSawn:
    """Where the box about a cut tile lies in the tile that it is sawn from, from one corner."""

    mark: str
    along_mm: float = because("tiles.need")
    across_mm: float = because("tiles.need")


@frozen(kw_only=True)
class TileSawn:
    """A tile that is sawn, and the cut tiles that come out of it."""

    mark: str
    pieces: tuple[BoxSawn, ...]


@frozen(kw_only=True)
class OutlinePad:
    """One pad, and what lies between base and tiles there; `height_mm` is None without levels."""

    kind: str
    at: Spot = because("tiles.pads.count")
    height_mm: float | None = because("tiles.pads.height_least_mm", default=None)


@frozen(kw_only=True)
class OutlinePads:
    """The pads under tiles on an outline: as `tiling.model.Pads`, but for their places.

    One serves all corners of tiles that lie within `shared_mm` of one another.
    """

    article: str
    reach_least_mm: float = because("tiles.pads.reach_least_mm")
    reach_most_mm: float = because("tiles.pads.reach_most_mm")
    levels_known: bool
    height_least_mm: float = because("tiles.pads.height_least_mm")
    height_most_mm: float = because("tiles.pads.height_most_mm")
    at_edges_most_mm: float = because("tiles.pads.at_edges_most_mm")
    at_centre: int = because("tiles.pads.at_centre")
    shared_mm: float = because("tiles.pads.shared_mm")
    base_fall_ratio: float = because("tiles.pads.base_fall_ratio")
    base_fall_mm: float | None = because("tiles.pads.base_measured_ratio", default=None)
    base_measured_ratio: float | None = because("tiles.pads.base_measured_ratio", default=None)
    corners: int = because("tiles.pads.count")
    edges: int = because("tiles.pads.count")
    centres: int = because("tiles.pads.count")
    count: int = because("tiles.pads.count")
    pads: tuple[OutlinePad, ...]


@frozen(kw_only=True)
class OutlineTiles:
    """The tiles of a deck on an outline, what is cut and sawn, and the pads they stand on.

    C1 starts `first_column_mm` along the run from the datum corner, B1 `first_row_mm` to its left.
    `need` tiles are laid and sawn, and no way of cutting boxes needs fewer than `least`.
    """

    support: str
    article: str
    tile_length_mm: float = because("tiles.tile_length_mm")
    tile_width_mm: float = because("tiles.tile_width_mm")
    thickness_mm: float = because("tiles.thickness_mm")
    angle_deg: float = because("tiles.angle_deg")
    gap_least_mm: float = because("tiles.gap_least_mm")
    gap_preferred_mm: float = because("tiles.gap_preferred_mm")
    gap_most_mm: float = because("tiles.gap_most_mm")
    joint_mm: float = because("tiles.joint_mm")
    fall_least_ratio: float = because("tiles.fall_least_ratio")
    combustible: bool = because("tiles.combustible")
    timber: bool = because("tiles.timber")
    wet_slip_least: float | None = because("tiles.wet_slip_least", default=None)
    sliver_limit_mm: float = because("tiles.sliver_limit_mm")
    least_rip_mm: float = because("tiles.least_rip_mm")
    least_cut_mm: float = because("tiles.least_cut_mm")
    first_column_mm: float = because("tiles.first_column_mm")
    first_row_mm: float = because("tiles.first_row_mm")
    column_count: int = because("tiles.first_column_mm")
    row_count: int = because("tiles.first_row_mm")
    along_way: str = because("tiles.first_column_mm")
    across_way: str = because("tiles.first_row_mm")
    narrowest_mm: float = because("tiles.narrowest_mm")
    sliver_count: int = because("tiles.narrowest_mm")
    tile_count: int = because("tiles.tile_count")
    whole: int = because("tiles.tile_count")
    cut: int = because("tiles.tile_count")
    shaped_count: int = because("tiles.tile_count")
    face_m2: float = because("tiles.tile_count")
    joint_m2: float = because("tiles.joint_mm")
    need: int = because("tiles.need")
    least: int = because("tiles.need")
    density_kg_m3: float = because("tiles.density_kg_m3")
    tile_mass_kg: float = because("tiles.tile_mass_kg")
    mass_kg_m2: float = because("tiles.tile_mass_kg")
    dead_load_kn_m2: float = because("tiles.tile_mass_kg")
    tiles: tuple[LaidTile, ...]
    sawn: tuple[TileSawn, ...]
    pads: OutlinePads
