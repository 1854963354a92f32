"""The part of the job sheet on tiles over an outline: grid, cut tiles, corners, pads."""

from drylay.papers.html import FIGURE, TEXT, Html, para, points, separated, table
from drylay.papers.outlined_tiles_text import (
    begun_told,
    grid_told,
    need_told,
    pads_told,
    straight_cuts,
    weight_told,
)
from drylay.papers.sheet_parts import TILES, below, care, drawings, part
from drylay.papers.wording import bare
from drylay.plan.model import Plan
from drylay.tiling.outline_model import OutlinePads, OutlineTiles


def outlined_tiles_part(plan: Plan) -> Html:
    """Return the tiles; nothing where the plan has none on an outline."""
    tiles, units = plan.tiles, plan.units
    if plan.outline is None or tiles is None:
        return Html("")
    return part(TILES, "Tiles", [
        care(plan, TILES),
        para(grid_told(tiles, plan.outline, units)),
        para(begun_told(tiles, units)),
        para(weight_told(tiles, units)),
        below("What the tiles stand on", points(pads_told(tiles.pads, units)),
              *_heights(tiles.pads, units)),
        below("Cut tiles", para(need_told(tiles)), *_cut(tiles, units), *_sawn(tiles, units)),
        *drawings(plan, TILES),
    ])  # fmt: skip


def _cut(tiles: OutlineTiles, units: str) -> list[Html]:
    """Return straight cuts by size, and the corners of shaped tiles."""
    found = []
    straight = straight_cuts(tiles)
    if straight:
        columns = (("Along the run", FIGURE), ("Across it", FIGURE), ("How many", FIGURE),
                   ("Tiles", TEXT))  # fmt: skip
        rows = [
            (bare(long, units), bare(wide, units), str(len(marks)), separated(marks))
            for (long, wide), marks in straight
        ]
        found.append(table("What is left of each tile cut straight", columns, rows))
    shaped = [tile for tile in tiles.tiles if tile.shaped]
    if shaped:
        columns = (("Tile", TEXT), ("Box along", FIGURE), ("Box across", FIGURE),
                   ("Corners: along, across from the datum corner", TEXT))  # fmt: skip
        rows = [
            (
                tile.mark,
                bare(tile.length_mm, units),
                bare(tile.width_mm, units),
                separated(
                    [
                        f"({bare(at.along_mm, units)}, {bare(at.across_mm, units)})"
                        for at in tile.corners
                    ]
                ),
            )
            for tile in shaped
        ]
        found.append(table("Shaped tiles, marked out from their corners", columns, rows))
    return found


def _sawn(tiles: OutlineTiles, units: str) -> list[Html]:
    if not tiles.sawn:
        return []
    columns = (("Tile", TEXT), ("Gives, its box beginning at along, across", TEXT))
    rows = [
        (
            each.mark,
            separated(
                [
                    f"{piece.mark} ({bare(piece.along_mm, units)}, {bare(piece.across_mm, units)})"
                    for piece in each.pieces
                ]
            ),
        )
        for each in tiles.sawn
    ]
    return [table("Which cut tiles come out of one tile", columns, rows)]


def _heights(pads: OutlinePads, units: str) -> list[Html]:
    """Return every pad with its place and height; nothing without levels."""
    if not pads.levels_known:
        return []
    columns = (("Under", TEXT), ("Along", FIGURE), ("Across", FIGURE), ("Height", FIGURE))
    rows = [
        (pad.kind, bare(pad.at.along_mm, units), bare(pad.at.across_mm, units),
         "" if pad.height_mm is None else bare(pad.height_mm, units))
        for pad in pads.pads
    ]  # fmt: skip
    return [table("Pads, from the datum corner, and how high each stands", columns, rows)]
