"""Tiles: columns that fill the cover, cut tiles alike and wide enough, sawn from the fewest."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from math import ceil, hypot

from attrs import frozen

from drylay.audit.exact import PER_MM, ceil_div, ticks
from drylay.audit.flaws import conventions, need, off_by, same_count, same_length, same_text
from drylay.audit.ground import room_under_the_frame
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.audit.wanted import buying_of
from drylay.frame.model import Frame
from drylay.plan.model import Plan
from drylay.tiling.model import Pads, Tiling

TILES = conventions("Tiles (tiling)")
#: Tiles as heavy as this make silica dust; tiles heavier than that take two; so many are too many.
MINERAL_KG_M3, LIFT_MOST_KG, MOST_TILES = 1500, 25, 4000
#: Standard gravity in m/s2.
GRAVITY = Fraction("9.80665")


def tiling_of(plan: Plan) -> Tiling:
    """Return the plan's tiling, if it has tiles."""
    return need(plan.tiling, "tiles")


def makes_silica(plan: Plan) -> bool:
    """Return whether the cutting that this plan asks for makes silica dust."""
    tiling = plan.tiles or tiling_of(plan)
    return tiling.cut > 0 and tiling.density_kg_m3 >= MINERAL_KG_M3


@frozen(kw_only=True)
class Courses:
    """One direction of a grid: marks, near edges, widths, joints and cuts, in 1/320 mm."""

    name: str
    side: int
    depth: int
    change: int
    least: int
    marks: tuple[str, ...]
    nears: tuple[int, ...]
    widths: tuple[int, ...]
    joints: tuple[int, ...]
    cut: tuple[bool, ...]


def rows_of(plan: Plan) -> Courses:
    """Return the rows of a grid."""
    surface = surface_of(plan)
    return Courses(
        name="surface.rows",
        side=ticks(surface.board_width_mm),
        depth=ticks(surface.rows_depth_mm),
        change=ticks(surface.cover_change_mm),
        least=ticks(surface.least_rip_mm),
        marks=tuple(row.mark for row in surface.rows),
        nears=tuple(ticks(row.near_mm) for row in surface.rows),
        widths=tuple(ticks(row.width_mm) for row in surface.rows),
        joints=tuple(ticks(row.gap_mm) for row in surface.rows),
        cut=tuple(row.ripped for row in surface.rows),
    )


def columns_of(plan: Plan) -> Courses:
    """Return the columns of a grid."""
    tiling = tiling_of(plan)
    return Courses(
        name="tiling.columns",
        side=ticks(tiling.tile_length_mm),
        depth=ticks(surface_of(plan).row_length_mm),
        change=ticks(tiling.cover_change_mm),
        least=ticks(tiling.least_cut_mm),
        marks=tuple(column.mark for column in tiling.columns),
        nears=tuple(ticks(column.start_mm) for column in tiling.columns),
        widths=tuple(ticks(column.length_mm) for column in tiling.columns),
        joints=tuple(ticks(column.gap_mm) for column in tiling.columns),
        cut=tuple(column.cut for column in tiling.columns),
    )


def both_of(plan: Plan) -> tuple[Courses, Courses]:
    """Return both directions of a grid."""
    tiling_of(plan)
    return rows_of(plan), columns_of(plan)


def columns_fill_the_cover(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless columns begin at the datum, follow each other, and end at the cover's."""
    columns, at = columns_of(plan), 0
    for index, mark in enumerate(columns.marks):
        subject = f"{columns.name}[{index}]"
        yield from same_text(subject, "out of order", mark, f"C{index + 1}", TILES)
        start = at + columns.joints[index]
        if columns.nears[index] != start:
            message = "does not begin a joint beyond the column before it"
            yield off_by(mark, message, columns.nears[index], start, TILES)
        at = columns.nears[index] + columns.widths[index]
    if at != columns.depth:
        yield off_by(columns.name, "columns do not fill the cover", at, columns.depth, TILES)


def joints_are_alike(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joint of either direction that is not the spacers' width."""
    joint = ticks(surface_of(plan).gap_preferred_mm)
    for courses in both_of(plan):
        for index, told in enumerate(courses.joints):
            wanted = joint if index else 0
            if told != wanted:
                message = "not the width of the joints"
                yield off_by(courses.marks[index], message, told, wanted, TILES)


def cuts_are_fair(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless tiles are whole, or cut at the edges alone, alike and large enough."""
    for courses in both_of(plan):
        for mark, width, cut in zip(courses.marks, courses.widths, courses.cut, strict=True):
            if cut != (width != courses.side) or width > courses.side:
                message = "neither whole nor told to be cut"
                yield off_by(mark, message, width, courses.side, TILES)
            if cut and width < courses.least:
                yield off_by(mark, "cut too small", width, courses.least, TILES)
        if any(courses.cut[1:-1]):
            yield Flaw(subject=courses.name, message="cut, but not at an edge", source=TILES)
        first, last = courses.widths[:1], courses.widths[-1:]
        if first and not 0 <= first[0] - last[0] <= 1:
            message = "not cut alike at both edges"
            yield off_by(courses.name, message, first[0], last[0], TILES)


def columns_counted_naively(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless whole columns, remainder and strip are those of the wished cover."""
    tiling, columns = tiling_of(plan), columns_of(plan)
    joint, depth = ticks(surface_of(plan).gap_preferred_mm), columns.depth - columns.change
    whole = (depth + joint) // (columns.side + joint) if columns.side + joint > 0 else 0
    left = depth - whole * columns.side - max(whole - 1, 0) * joint
    message = "not what the wished cover gives"
    yield from same_count("tiling.whole_columns", message, tiling.whole_columns, whole, TILES)
    yield from same_length("tiling.remainder_mm", message, tiling.remainder_mm, left, TILES)
    strip = max(left - joint, 0) if whole else left
    yield from same_length("tiling.strip_mm", message, tiling.strip_mm, strip, TILES)


def places_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless places, whole and cut tiles are the grid's, each cut one listed."""
    tiling, (rows, columns) = tiling_of(plan), both_of(plan)
    places = len(rows.marks) * len(columns.marks)
    wanted = {
        f"{mark}.{number}": (length, width)
        for mark, width, ripped in zip(rows.marks, rows.widths, rows.cut, strict=True)
        for number, (length, cut) in enumerate(
            zip(columns.widths, columns.cut, strict=True), start=1
        )
        if ripped or cut
    }
    told = {c.mark: (ticks(c.length_mm), ticks(c.width_mm)) for c in tiling.cut_tiles}
    if list(told.items()) != list(wanted.items()) or len(tiling.cut_tiles) != len(wanted):
        message = "not every cut place of the grid once, in order, with what is left of it"
        yield Flaw(subject="tiling.cut_tiles", message=message, source=TILES)
    for name, count in (("places", places), ("cut", len(wanted)), ("whole", places - len(wanted))):
        found = getattr(tiling, name)
        yield from same_count(f"tiling.{name}", "not the grid's", found, count, TILES)
    if places > MOST_TILES:
        yield from same_count("tiling.places", "too many to plan", places, MOST_TILES, TILES)


def each_of(plan: Plan) -> tuple[int, int]:
    """Return how many of the largest cut lengths, and widths, come out of one tile."""
    tiling, (rows, columns) = tiling_of(plan), both_of(plan)
    kerf, found = ticks(buying_of(plan).kerf_mm), []
    for courses, name in ((columns, "length_mm"), (rows, "width_mm")):
        sizes = [ticks(getattr(piece, name)) for piece in tiling.cut_tiles]
        cut = [size for size in sizes if 0 < size < courses.side]
        found.append((courses.side + kerf) // (max(cut) + kerf) if cut else 1)
    return found[0], found[1]


def _kinds(plan: Plan) -> dict[str, str]:
    """Return whether each cut tile is cut in length, in width or, as a corner, both ways."""
    tiling, (rows, columns) = tiling_of(plan), both_of(plan)
    kinds = {(True, False): "length", (False, True): "width", (True, True): "corner"}
    return {
        piece.mark: kinds.get(
            (ticks(piece.length_mm) < columns.side, ticks(piece.width_mm) < rows.side), "whole"
        )
        for piece in tiling.cut_tiles
    }


def cut_tiles_come_out(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each cut tile is sawn once, from a tile that holds all it yields."""
    tiling, kinds, (along, across) = tiling_of(plan), _kinds(plan), each_of(plan)
    yield from same_count(
        "tiling.along_each", "not what a tile holds", tiling.along_each, along, TILES
    )
    yield from same_count(
        "tiling.across_each", "not what a tile holds", tiling.across_each, across, TILES
    )
    sawn = Counter(mark for tile in tiling.sawn for mark in tile.pieces)
    for mark in dict.fromkeys((*kinds, *sawn)):
        yield from same_count(mark, "how often it is sawn", sawn[mark], int(mark in kinds), TILES)
    for index, tile in enumerate(tiling.sawn, start=1):
        yield from same_text(f"tiling.sawn[{index - 1}]", "out of order", tile.mark,
                             f"TC{index}", TILES)  # fmt: skip
        count = Counter(kinds.get(mark, "") for mark in tile.pieces)
        room = along * across - across * count["length"] - along * count["width"]
        if room < count["corner"] or (count["length"] and count["width"]) or not tile.pieces:
            message = "does not hold what is sawn from it"
            yield Flaw(subject=tile.mark, message=message, source=TILES)


def no_fewer_tiles_will_do(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the tiles needed are those laid and sawn, and the fewest there can be."""
    tiling, (along, across) = tiling_of(plan), each_of(plan)
    count = Counter(_kinds(plan).values())
    edges = ceil_div(count["length"], along), ceil_div(count["width"], across)
    left = (edges[0] * along - count["length"]) * across
    left += (edges[1] * across - count["width"]) * along
    corners = ceil_div(max(0, count["corner"] - left), along * across)
    least = tiling.whole + sum(edges) + corners
    message = "not the fewest tiles by their weights"
    yield from same_count("tiling.least", message, tiling.least, least, TILES)
    laid = tiling.whole + len(tiling.sawn)
    yield from same_count("tiling.need", "not those laid and sawn", tiling.need, laid, TILES)
    if tiling.need > tiling.least:
        yield from same_count("tiling.need", "fewer would do", tiling.need, tiling.least, TILES)


def tiles_are_weighed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless mass, load and diagonal are the tile's and the cover's own."""
    tiling, surface = tiling_of(plan), surface_of(plan)
    kg = Fraction(repr(float(tiling.tile_mass_kg)))
    sides = ticks(tiling.tile_length_mm) * ticks(surface.board_width_mm)
    area = Fraction(need(sides or None, "size of a tile"), (1000 * PER_MM) ** 2)
    mass = Fraction(ceil(kg / area * 10), 10)
    load = Fraction(ceil(mass * GRAVITY / 10), 100)
    wanted = {"mass_kg_m2": float(mass), "dead_load_kn_m2": float(load)}
    for name, figure in wanted.items():
        if getattr(tiling, name) != figure:
            yield Flaw(subject=f"tiling.{name}", message="not the tile's own",
                       measured=getattr(tiling, name), limit=figure, source=TILES)  # fmt: skip
    diagonal = hypot(surface.cover_along_mm, surface.cover_across_mm)
    if abs(tiling.diagonal_mm - diagonal) > 1e-6 * max(1.0, diagonal):
        message = "not the cover's diagonal"
        yield off_by("tiling.diagonal_mm", message, ticks(tiling.diagonal_mm),
                     ticks(diagonal), TILES)  # fmt: skip
    if kg <= 0 or tiling.density_kg_m3 <= 0:
        yield Flaw(subject="tiling.tile_mass_kg", message="weighs nothing", source=TILES)


def _falls_too_little(pads: Pads) -> bool:
    """Whether the base falls less by its levels than it is to."""
    falls = pads.base_measured_ratio
    return falls is not None and falls < pads.base_fall_ratio


def over_the_bed(plan: Plan, frame: Frame) -> int:
    """Return how high tiles lie over the bed at most, by timber and room below, in 1/320 mm."""
    room, ground = room_under_the_frame(plan), plan.groundwork
    below = room[1] if room is not None else 0
    if room is None and ground is not None and ground.packing is not None:
        below = ticks(ground.packing.height_most_mm)
    return ticks(frame.timber_depth_mm) + max(below, 0)


def cuts_a_trifle(plan: Plan) -> bool:
    """Whether less comes off an outer row or column of tiles than they are thick."""
    thick = ticks(surface_of(plan).board_thickness_mm)
    off = [
        courses.side - width
        for courses in (rows_of(plan), columns_of(plan))
        for width in (*courses.widths[:1], *courses.widths[-1:])
    ]
    return any(0 < each < thick for each in off)


def are_wooden(plan: Plan) -> bool:
    """Whether tiles are timber squares, which do not break: of wood, and no heavier than it."""
    light = tiling_of(plan).density_kg_m3 < MINERAL_KG_M3
    return light and surface_of(plan).timber is not False


def tile_cautions_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each caution on tiles that the findings leave out, or tell for nothing."""
    tiling, frame = tiling_of(plan), plan.frame
    pads, bedding = tiling.pads, tiling.bedding
    high = pads is not None and pads.levels_known and pads.height_most_mm > 100
    deep = frame is not None and over_the_bed(plan, frame) > 100 * PER_MM
    wooden = are_wooden(plan)
    wanted = {
        "TIL-007": pads is not None and not pads.levels_known,
        "TIL-010": makes_silica(plan),
        "TIL-011": tiling.tile_mass_kg > LIFT_MOST_KG,
        "TIL-012": True,
        "TIL-013": True,
        "TIL-014": bedding is not None and not wooden,
        "TIL-015": (high or deep) and not wooden,
        "TIL-016": bedding is not None and bedding.bearing_mm < bedding.bearing_least_mm,
        "TIL-017": pads is not None,
        "TIL-018": wooden,
        "TIL-019": pads is not None,
        "TIL-022": cuts_a_trifle(plan),
        "TIL-023": plan.guards is not None and bool(plan.guards.built),
        "TIL-020": bedding is not None,
        "TIL-021": pads is not None and _falls_too_little(pads),
    }
    told = {finding.code for finding in plan.findings}
    for code, holds in wanted.items():
        if holds != (code in told):
            message = "not among the findings" if holds else "among the findings for nothing"
            yield Flaw(subject=code, message=message, source=TILES)


def no_lengths_are_spare(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each spare length: tiles have their spares in their packs."""
    tiling_of(plan)
    for line in buying_of(plan).spares:
        message = "spare, and no board is bought"
        yield Flaw(subject=line.article, message=message, source=TILES)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-951", "columns and joints fill the cover exactly", columns_fill_the_cover),
    ("AUD-952", "joints between tiles are as wide as their spacers", joints_are_alike),
    ("AUD-953", "tiles are cut at the edges alone, alike, and not too small", cuts_are_fair),
    ("AUD-954", "naive count, remainder and strip of columns are exact", columns_counted_naively),
    ("AUD-955", "places are counted, and every cut tile is listed", places_are_counted),
    ("AUD-956", "each cut tile is sawn once, from a tile that holds it", cut_tiles_come_out),
    ("AUD-957", "no fewer tiles would do", no_fewer_tiles_will_do),
    ("AUD-958", "mass, load and diagonal are the tiles' and the cover's", tiles_are_weighed),
    ("AUD-959", "cautions on tiles stand among the findings", tile_cautions_are_told),
    ("AUD-960", "no length is spare where nothing is a board", no_lengths_are_spare),
)
