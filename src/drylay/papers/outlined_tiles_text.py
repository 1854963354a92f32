"""In words: tiles on an outline, what is cut, what they stand on."""

from itertools import groupby

from drylay.outline.model import Outline
from drylay.papers.layout import heading, para, points
from drylay.papers.outlined_text import openings_told, outline_told
from drylay.papers.outlined_view import angle
from drylay.papers.outlined_ways import from_told
from drylay.papers.quantities import area
from drylay.papers.tiles_text import NO_CUT, PLACED, TABS, falls_told
from drylay.papers.wording import clean, many, marks_told, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.tiling.outline_model import LaidTile, OutlinePads, OutlineTiles
from drylay.units import fall_text, mass_text

#: How a rectangle's outer tiles are cut, in words.
WAYS = {
    "as_wished": "whole tiles at both ends",
    "rip_both": "cut alike at both ends",
    "rip_last": "cut at one end",
    "set_out": "set out so that no side leaves a sliver, if any way does",
}


def outlined_tile_lines(plan: Plan) -> list[str]:
    """Return what the summary says of tiles on an outline; nothing of other decks."""
    outline, tiles, units = plan.outline, plan.tiles, plan.units
    if outline is None or tiles is None:
        return []
    return [
        *heading("OUTLINE"),
        *para(outline_told(outline, units)),
        *points(openings_told(outline, units)),
        *heading("TILES"),
        *para(grid_told(tiles, plan.outline, units)),
        *para(begun_told(tiles, units)),
        *para(weight_told(tiles, units)),
        *heading("CUT TILES"),
        *points(cuts_told(tiles, units)),
        *heading("WHAT THE TILES STAND ON"),
        *points(pads_told(tiles.pads, units)),
    ]


def grid_told(tiles: OutlineTiles, outline: Outline | None, units: str) -> str:
    """Return how many tiles there are, of which size, and their joints."""
    sizes = (tiles.tile_length_mm, tiles.tile_width_mm, tiles.thickness_mm)
    told = " x ".join(size(each, units) for each in sizes)
    least, most = size_least(tiles.gap_least_mm, units), size_most(tiles.gap_most_mm, units)
    return (
        f"{many(tiles.tile_count, 'tile')} of {clean(tiles.article, 40)}, {told}, in "
        f"{many(tiles.row_count, 'row')} and {many(tiles.column_count, 'column')} at "
        f"{angle(tiles.angle_deg)} from {from_told(outline)}: {tiles.whole} whole and "
        f"{tiles.cut} cut, {tiles.shaped_count} of them shaped; "
        f"{area(tiles.face_m2, units)} of tile, joints of "
        f"{size(tiles.joint_mm, units)} by spacers, in line both ways (allowed: {least} to {most})."
    )


def first_whole(tiles: OutlineTiles) -> LaidTile:
    """Return the tile that setting out starts from: the first whole one, the first if none is."""
    return next((tile for tile in tiles.tiles if not tile.cut), tiles.tiles[0])


def begun_told(tiles: OutlineTiles, units: str) -> str:
    """Return where the grid is set out from, and how its ends are cut."""
    first = first_whole(tiles)
    at = first.corners[0]
    ways = (
        f"Along the run: {WAYS[tiles.along_way]}; across it: {WAYS[tiles.across_way]}. "
        if tiles.along_way != "set_out" or tiles.across_way != "set_out"
        else ""
    )
    return (
        f"{ways}Set out from tile {first.mark}: its first corner lies {size(at.along_mm, units)} "
        f"along and {size(at.across_mm, units)} across from the datum corner."
    )


def weight_told(tiles: OutlineTiles, units: str) -> str:
    """Return what a tile weighs, and what tiles lay on their base."""
    return (
        f"A tile weighs {mass_text(tiles.tile_mass_kg, units)}; the tiles lay "
        f"{tiles.dead_load_kn_m2:g} kN/m2 ({tiles.mass_kg_m2:g} kg/m2) on what carries them."
    )


def straight_cuts(tiles: OutlineTiles) -> list[tuple[tuple[float, float], list[str]]]:
    """Return tiles that are cut straight, by what is left of them."""
    lot = [tile for tile in tiles.tiles if tile.cut and not tile.shaped]
    lot.sort(key=lambda tile: (-tile.length_mm, -tile.width_mm))
    return [
        (left, [tile.mark for tile in alike])
        for left, alike in groupby(lot, key=lambda tile: (tile.length_mm, tile.width_mm))
    ]


def cuts_told(tiles: OutlineTiles, units: str) -> list[str]:
    """Return what is cut to which size, which are shaped, and out of how many tiles."""
    if not tiles.cut:
        return [NO_CUT, need_told(tiles)]
    straight = [
        f"{size(long, units)} x {size(wide, units)}: {marks_told(marks)}"
        for (long, wide), marks in straight_cuts(tiles)
    ]
    shaped = [tile.mark for tile in tiles.tiles if tile.shaped]
    told = []
    if straight:
        told = ["Left of each, along the run x across it; the cut edge outwards.", *straight]
    if shaped:
        told.append(f"Shaped, by their corners in the job sheet: {' '.join(shaped)}.")
    return [*told, f"The narrowest is {size(tiles.narrowest_mm, units)} wide.", need_told(tiles)]


def need_told(tiles: OutlineTiles) -> str:
    """Return how many tiles are needed, and how near that is to the fewest."""
    if not tiles.sawn:
        return f"{many(tiles.need, 'tile')} needed, one for each place."
    told = (
        f"{many(tiles.need, 'tile')} needed: {tiles.whole} whole, {len(tiles.sawn)} sawn, out of "
        f"which all {tiles.cut} cut ones come."
    )
    if tiles.need == tiles.least:
        return f"{told} No way of cutting needs fewer, for cut tiles that keep their way round."
    return f"{told} By the boxes about cut tiles {tiles.least} would do at the least."


def pads_told(pads: OutlinePads, units: str) -> list[str]:
    """Return how many pads stand where, and how high."""
    least, most = size(pads.height_least_mm, units), size(pads.height_most_mm, units)
    high = f"{least} high" if least == most else f"{least} to {most} high"
    if not pads.levels_known:
        high = f"how high, nobody knows without levels: counted at {least}"
    reach = f"{size(pads.reach_least_mm, units)} to {size(pads.reach_most_mm, units)}"
    wanted = f"{fall_text(pads.base_fall_ratio)} away from the house is wanted"
    falls = f"The base's fall: {wanted}."
    if pads.base_measured_ratio is not None:
        falls = f"By its levels the base is {falls_told(pads.base_measured_ratio)}; {wanted}."
    apart = size_most(pads.at_edges_most_mm, units)
    edges = f", {pads.edges} under sides longer than {apart}" if pads.edges else ""
    centres = f", {pads.centres} under tiles' middles" if pads.centres else ""
    shared = size(pads.shared_mm, units)
    return [
        f"Pads {clean(pads.article, 40)}, which reach from {reach}: {pads.count}, {pads.corners} "
        f"under corners (those within {shared} of one another share one){edges}{centres}; {high}.",
        falls,
        PLACED,
        TABS,
    ]
