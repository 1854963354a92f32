"""The nouns of a deck of tiles, beside the surface: its rows are rows of tiles.

`start_mm` and `length_mm` run along the rows, `across_mm` and `width_mm` across them, all from the
cover's datum corner. A place is named by its row and its number in it: `B2.3` is in row B2 and in
column C3.
"""

from decimal import Decimal

from attrs import frozen

from drylay.reasons import because
from drylay.surface.model import WayOut

#: Where pads stand under a tile.
PAD_KINDS = ("corner", "edge", "centre")


@frozen(kw_only=True)
class TileColumn:
    """One column: its edge nearest the datum, its length, and the joint before it."""

    mark: str
    start_mm: float = because("tiling.way_out")
    length_mm: float = because("tiling.way_out")
    gap_mm: float = because("tiling.way_out")
    cut: bool


@frozen(kw_only=True)
class CutTile:
    """A cut tile by its place: what is left of it along and across the rows."""

    mark: str
    length_mm: float = because("tiling.way_out")
    width_mm: float = because("surface.way_out")


@frozen(kw_only=True)
class SawnTile:
    """A tile that is sawn, and the places of the cut tiles that come out of it."""

    mark: str
    pieces: tuple[str, ...]


@frozen(kw_only=True)
class OtherLay:
    """The tiles with their longer side the other way: how many are cut, and why not so.

    `cost` is the whole order's where it was worked out; `note` says why where it was not.
    """

    run: str
    rows_way: str
    columns_way: str
    cut: int = because("tiling.run")
    cost: Decimal | None = because("tiling.run", default=None)
    note: str = ""


@frozen(kw_only=True)
class Pad:
    """One pad: under a corner, under an edge between corners, or under a tile's middle.

    `height_mm` is what lies between base and tiles there, None without levels.
    """

    kind: str
    start_mm: float = because("tiling.pads.count")
    across_mm: float = because("tiling.pads.count")
    height_mm: float | None = because("tiling.pads.height_least_mm", default=None)


@frozen(kw_only=True)
class Pads:
    """The pads of a deck without a frame, and how high they stand on their base.

    `height_least_mm` and `height_most_mm` are what lies between base and tiles; they are the pad's
    own least height, and `levels_known` is not so, where the brief gives no levels. The base is to
    fall by `base_fall_ratio` at least; by its levels it falls `base_fall_mm` from the house edge to
    the front at the flatter end, below 0 where that is towards the house, and that over the cover's
    depth is `base_measured_ratio`. Both are None without levels.
    """

    article: str
    reach_least_mm: float = because("tiling.pads.reach_least_mm")
    reach_most_mm: float = because("tiling.pads.reach_most_mm")
    levels_known: bool
    height_least_mm: float = because("tiling.pads.height_least_mm")
    height_most_mm: float = because("tiling.pads.height_most_mm")
    at_edges_most_mm: float = because("tiling.pads.at_edges_most_mm")
    at_centre: int = because("tiling.pads.at_centre")
    base_fall_ratio: float = because("tiling.pads.base_fall_ratio")
    base_fall_mm: float | None = because("tiling.pads.base_measured_ratio", default=None)
    base_measured_ratio: float | None = because("tiling.pads.base_measured_ratio", default=None)
    corners: int = because("tiling.pads.count")
    edges: int = because("tiling.pads.count")
    centres: int = because("tiling.pads.count")
    count: int = because("tiling.pads.count")
    pads: tuple[Pad, ...]


@frozen(kw_only=True)
class Bedding:
    """How tiles lie on joists: a joist under every joint, and so many bays to each tile.

    `bearing_mm` is what each tile has of the joist under a joint, `rests` how many places are
    bedded: where joists cross the joints between rows, and the two outer edges.
    """

    bays_per_tile: int = because("tiling.bedding.bays_per_tile")
    bearing_mm: float = because("tiling.bedding.bearing_mm")
    bearing_least_mm: float = because("tiling.bedding.bearing_least_mm")
    rests: int = because("tiling.bedding.rests")


@frozen(kw_only=True)
class Tiling:
    """The tiles: columns beside the surface's rows, what is cut, what it lies on, what it weighs.

    `tile_length_mm` lies along the rows; across them is the surface's `board_width_mm`.
    `cover_change_mm` is how far the cover grew (+) or shrank (-) along the rows. `along_each` and
    `across_each` are how many cut lengths, or widths, come out of one tile. `need` tiles are laid
    and sawn, and no way of cutting needs fewer than `least`.
    """

    support: str
    run: str = because("tiling.run")
    tile_length_mm: float = because("tiling.tile_length_mm")
    least_cut_mm: float = because("tiling.least_cut_mm")
    cover_change_mm: float = because("surface.row_length_mm")
    diagonal_mm: float = because("surface.row_length_mm")
    whole_columns: int = because("tiling.way_out")
    remainder_mm: float = because("tiling.way_out")
    strip_mm: float = because("tiling.way_out")
    way_out: str = because("tiling.way_out")
    columns: tuple[TileColumn, ...]
    ways_out: tuple[WayOut, ...]
    other: OtherLay | None
    places: int = because("tiling.need")
    whole: int = because("tiling.need")
    cut: int = because("tiling.need")
    cut_tiles: tuple[CutTile, ...]
    along_each: int = because("tiling.need")
    across_each: int = because("tiling.need")
    sawn: tuple[SawnTile, ...]
    need: int = because("tiling.need")
    least: int = because("tiling.need")
    density_kg_m3: float = because("tiling.density_kg_m3")
    tile_mass_kg: float = because("tiling.tile_mass_kg")
    mass_kg_m2: float = because("tiling.tile_mass_kg")
    dead_load_kn_m2: float = because("tiling.tile_mass_kg")
    bedding: Bedding | None
    pads: Pads | None
