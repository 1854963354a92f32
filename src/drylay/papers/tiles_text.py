"""In words: the cover in tiles, what is cut and sawn, what tiles lie on, and what it takes."""

from itertools import groupby

from drylay.papers.cover_text import way_told
from drylay.papers.layout import heading, para, points
from drylay.papers.wording import (
    RUNS,
    clean,
    many,
    marks_told,
    size,
    size_least,
    size_most,
)
from drylay.plan.model import Plan
from drylay.surface.model import Surface, WayOut
from drylay.tiling.model import OtherLay, Pads, Tiling
from drylay.units import fall_text, mass_text

#: Ways out of tiles in words; their kinds are those of rows of boards.
TILE_WAYS = {
    "as_wished": "whole tiles, as wished",
    "shrink": "make the deck smaller, whole tiles",
    "grow": "make the deck larger, whole tiles",
    "rip_both": "cut alike at both edges",
    "rip_last": "a single cut tile",
}
NO_CUT = "No tile is cut."
PLACED = (
    "Their middles stand in the middle of the joints; along the cover's outer edge set each in "
    "from it by half its own width, so that its rim lies under the tile's edge and none stands out."
)
TABS = (
    "Where pads bring spacer tabs of the joint's width, these are the spacers: leave four in a "
    "crossing of joints; along the outer edge break off those that point outwards or would stand "
    "under the tile, and under tiles' middles break off all."
)


def tile_lines(plan: Plan) -> list[str]:
    """Return what the summary says of cover and tiles; nothing where the plan has none."""
    surface, tiling = plan.surface, plan.tiling
    if surface is None or tiling is None:
        return []
    told = [cover_told(surface, tiling, plan.units), grid_told(surface, tiling, plan.units),
            joints_told(surface, plan.units), mass_told(tiling, plan.units)]  # fmt: skip
    lines = [line for text in told for line in para(text)]
    return [
        *heading("COVER AND TILES"),
        *lines,
        *points([*ways_told(plan, surface, tiling)]),
        *heading("CUT TILES"),
        *points(cuts_told(tiling, plan.units)),
        *heading("WHAT THE TILES LIE ON"),
        *points(carried_told(plan, surface, tiling)),
    ]


def cover_told(surface: Surface, tiling: Tiling, units: str) -> str:
    """Return the cover's size, and how far it is not as wished, either way."""
    along, across = size(surface.cover_along_mm, units), size(surface.cover_across_mm, units)
    changes = [("along the rows", tiling.cover_change_mm), ("across them", surface.cover_change_mm)]
    told = [
        f"{size(abs(by_mm), units)} {'more' if by_mm > 0 else 'less'} {where}"
        for where, by_mm in changes
        if by_mm
    ]
    changed = f"That is {' and '.join(told)} than wished, so that tiles come out whole."
    return (
        f"Cover {along} along the house, {across} away from it. "
        f"{changed if told else 'As wished.'} Left and right: as you stand in the garden facing "
        "the house. The cover's diagonals are both "
        f"{size(tiling.diagonal_mm, units)}."
    )


def grid_told(surface: Surface, tiling: Tiling, units: str) -> str:
    """Return how many tiles there are, of which size, in how many rows and columns."""
    long, wide = size(tiling.tile_length_mm, units), size(surface.board_width_mm, units)
    thick = size(surface.board_thickness_mm, units)
    rows, columns = many(len(surface.rows), "row"), many(len(tiling.columns), "column")
    side = "" if long == wide else f", the longer side {RUNS[surface.run]}"
    return (
        f"{rows} and {columns} of {clean(surface.board_article, 40)}, {long} x {wide} x {thick}"
        f"{side}: {many(tiling.places, 'place')}, {tiling.whole} whole and {tiling.cut} cut."
    )


def joints_told(surface: Surface, units: str) -> str:
    """Return how wide every joint is."""
    least, most = size_least(surface.gap_least_mm, units), size_most(surface.gap_most_mm, units)
    return (
        f"Joints of {size(surface.gap_preferred_mm, units)} by spacers, in line both ways. "
        f"Allowed: {least} to {most}."
    )


def mass_told(tiling: Tiling, units: str) -> str:
    """Return what a tile weighs, and what it lays on the frame or the base."""
    return (
        f"A tile weighs {mass_text(tiling.tile_mass_kg, units)}; the tiles lay "
        f"{tiling.dead_load_kn_m2:g} kN/m2 ({tiling.mass_kg_m2:g} kg/m2) on what carries them."
    )


def ways_told(plan: Plan, surface: Surface, tiling: Tiling) -> list[str]:
    """Return every way out of both directions, what it costs, and what it breaks."""
    currency = plan.buying.currency if plan.buying else ""
    told = []
    for where, what, ways in (
        ("Across the rows", "row", surface.ways_out),
        ("Along the rows", "column", tiling.ways_out),
    ):
        told += [f"{where}: {_way(way, plan.units, currency, what)}" for way in ways]
    return [*told, *(_other(other, currency) for other in [tiling.other] if other)]


def _way(way: WayOut, units: str, currency: str, what: str) -> str:
    return way_told(way, units, currency, name=TILE_WAYS.get(way.kind, way.kind), what=what,
                    gap="joints")  # fmt: skip


def _other(other: OtherLay, currency: str) -> str:
    cost = f", {other.cost:f} {clean(currency, 8)}" if other.cost is not None else ""
    note = f", {clean(other.note, 200)}" if other.note else ""
    ways = ""
    if other.rows_way:
        ways = f": rows {TILE_WAYS[other.rows_way]}, columns {TILE_WAYS[other.columns_way]}"
        ways += f", {many(other.cut, 'cut tile')}"
    return f"With the longer side {RUNS[other.run]}{ways}{cost}{note}"


def cuts_told(tiling: Tiling, units: str) -> list[str]:
    """Return what is cut to which size, out of how many tiles, and why no fewer would do."""
    if not tiling.cut:
        return [NO_CUT, need_told(tiling)]
    sizes = [
        f"{size(length_mm, units)} x {size(width_mm, units)}: "
        f"{marks_told([piece.mark for piece in pieces])}"
        for (length_mm, width_mm), pieces in groupby(
            sorted(tiling.cut_tiles, key=lambda c: (-c.length_mm, -c.width_mm)),
            key=lambda c: (c.length_mm, c.width_mm),
        )
    ]
    side = "along the rows x across them"
    return [
        f"Left of each, {side}; the cut edge outwards, factory edges to the joints.",
        *sizes,
        need_told(tiling),
    ]


def need_told(tiling: Tiling) -> str:
    """Return how many tiles are needed, and that no way of cutting needs fewer."""
    if not tiling.sawn:
        return f"{many(tiling.need, 'tile')} needed, one for each place."
    return (
        f"{many(tiling.need, 'tile')} needed: {tiling.whole} whole, {len(tiling.sawn)} sawn, out "
        f"of which all {tiling.cut} cut ones come ({tiling.along_each} side by side along a tile, "
        f"{tiling.across_each} across). No way of cutting needs fewer than {tiling.least}, for "
        "cut tiles that keep their way round."
    )


def sawn_told(tiling: Tiling) -> list[str]:
    """Return which cut tiles come out of which tile, alike ones together."""
    return [f"{tile.mark}: {' '.join(tile.pieces)}" for tile in tiling.sawn]


def carried_told(plan: Plan, surface: Surface, tiling: Tiling) -> list[str]:
    """Return what the tiles lie on: pads, or joists with their rests."""
    units, bedding = plan.units, tiling.bedding
    if tiling.pads is not None:
        return pads_told(tiling.pads, units)
    if bedding is None:
        return []
    joint = size(surface.gap_preferred_mm, units)
    return [
        f"A frame: a joist under every joint between columns, centred on it, and "
        f"{many(bedding.bays_per_tile, 'bay')} to a tile.",
        f"Beside a joint of {joint} each tile has {size(bedding.bearing_mm, units)} of the joist "
        f"(wanted {size_least(bedding.bearing_least_mm, units)}).",
        f"{many(bedding.rests, 'rest')}, where joists cross the joints between rows and the outer "
        "edges: a thin pad or a dab of adhesive under each, not in the order.",
    ]


def falls_told(ratio: float) -> str:
    """Return how a base falls by its levels."""
    if ratio < 0:
        return "falling to the house"
    return f"falling {fall_text(ratio)} from the house" if ratio else "level"


def pads_told(pads: Pads, units: str) -> list[str]:
    """Return how many pads stand where, and how high."""
    least, most = size(pads.height_least_mm, units), size(pads.height_most_mm, units)
    high = f"{least} high" if least == most else f"{least} to {most} high"
    if not pads.levels_known:
        high = f"how high, nobody knows without levels: counted at {least}"
    apart = size_most(pads.at_edges_most_mm, units)
    reach = f"{size(pads.reach_least_mm, units)} to {size(pads.reach_most_mm, units)}"
    wanted = f"{fall_text(pads.base_fall_ratio)} away from the house is wanted"
    falls = f"The base's fall: {wanted}."
    if pads.base_measured_ratio is not None:
        by_levels = falls_told(pads.base_measured_ratio)
        falls = f"By its levels the base is {by_levels}, at the flatter end; {wanted}."
    edges = f", {pads.edges} under edges longer than {apart}" if pads.edges else ""
    centres = f", {pads.centres} under tiles' middles" if pads.centres else ""
    return [
        f"Pads {clean(pads.article, 40)}, which reach from {reach}: {pads.count}, {pads.corners} "
        f"under corners{edges}{centres}; {high}.",
        falls,
        PLACED,
        TABS,
    ]
