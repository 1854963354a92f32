"""The part of the job sheet on the tiles: grid, cut tiles, what they lie on."""

from drylay.papers.html import FIGURE, TEXT, Html, para, points, separated, table
from drylay.papers.sheet_parts import TILES, below, care, drawings, part
from drylay.papers.tiles_text import (
    carried_told,
    grid_told,
    joints_told,
    mass_told,
    need_told,
)
from drylay.papers.wording import bare
from drylay.plan.model import Plan
from drylay.surface.model import Surface
from drylay.tiling.model import Pad, Pads, Tiling

#: Kinds of pads as their tables call them, and how many columns stand abreast.
KINDS = (("corner", "corners"), ("edge", "edges"), ("centre", "tiles' middles"))
ABREAST = 8
EDGES = (("Course", TEXT), ("Near edge", FIGURE), ("Far edge", FIGURE), ("Size", FIGURE))


def tiles_part(plan: Plan) -> Html:
    """Return the tiles; nothing where the plan has none."""
    surface, tiling, units = plan.surface, plan.tiling, plan.units
    if surface is None or tiling is None:
        return Html("")
    return part(TILES, "Tiles", [
        care(plan, TILES),
        para(grid_told(surface, tiling, units)),
        para(joints_told(surface, units)),
        para(mass_told(tiling, units)),
        _rows(surface, units),
        _columns(tiling, units),
        below("What the tiles lie on", points(carried_told(plan, surface, tiling)),
              *(pad_heights(tiling.pads, units) if tiling.pads else ())),
        below("Cut tiles", para(need_told(tiling)), _cut(tiling, units), _sawn(tiling)),
        *drawings(plan, TILES),
    ])  # fmt: skip


def _rows(surface: Surface, units: str) -> Html:
    lines = [
        _course(row.mark, row.near_mm, row.width_mm, units, cut=row.ripped) for row in surface.rows
    ]
    return table("Rows, from the datum edge they lie along", EDGES, lines)


def _columns(tiling: Tiling, units: str) -> Html:
    lines = [
        _course(column.mark, column.start_mm, column.length_mm, units, cut=column.cut)
        for column in tiling.columns
    ]
    return table("Columns, along the rows from the datum end", EDGES, lines)


def _course(
    mark: str, near_mm: float, wide_mm: float, units: str, *, cut: bool
) -> tuple[str, str, str, str]:
    told = f"{mark}, cut" if cut else mark
    return told, bare(near_mm, units), bare(near_mm + wide_mm, units), bare(wide_mm, units)


def pad_heights(pads: Pads, units: str) -> list[Html]:
    """Return the heights of pads by the grid's lines, a table each kind; nothing without levels."""
    if not pads.levels_known:
        return []
    return [
        part
        for kind, told in KINDS
        for part in _heights([pad for pad in pads.pads if pad.kind == kind], told, units)
    ]


def _heights(pads: list[Pad], told: str, units: str) -> list[Html]:
    """Return tables of heights: lines by how far across, columns by how far along."""
    starts = sorted({pad.start_mm for pad in pads})
    nears = sorted({pad.across_mm for pad in pads})
    high = {(pad.start_mm, pad.across_mm): pad.height_mm for pad in pads}
    tables = []
    each = -(-len(starts) // (-(-len(starts) // ABREAST) or 1)) or 1
    for first in range(0, len(starts), each):
        some = starts[first : first + each]
        columns = [("Across", FIGURE), *((f"at {bare(at, units)}", FIGURE) for at in some)]
        lines = [
            (bare(near, units), *(_high(high.get((at, near)), units) for at in some))
            for near in nears
        ]
        caption = f"Heights of pads under {told}: along the rows at so far, across them at so far"
        tables.append(table(caption, columns, lines))
    return tables


def _high(height_mm: float | None, units: str) -> str:
    return "" if height_mm is None else bare(height_mm, units)


def _cut(tiling: Tiling, units: str) -> Html:
    """Return the cut tiles, those of one size together."""
    sizes: dict[tuple[float, float], list[str]] = {}
    for piece in tiling.cut_tiles:
        sizes.setdefault((piece.length_mm, piece.width_mm), []).append(piece.mark)
    columns = (("Along the rows", FIGURE), ("Across them", FIGURE), ("How many", FIGURE),
               ("Places", TEXT))  # fmt: skip
    lines = [
        (bare(length, units), bare(width, units), str(len(marks)), separated(marks))
        for (length, width), marks in sizes.items()
    ]
    return table("What is left of each cut tile", columns, lines)


def _sawn(tiling: Tiling) -> Html:
    columns = (("Tile", TEXT), ("Gives", TEXT))
    lines = [(tile.mark, separated(tile.pieces)) for tile in tiling.sawn]
    return table("Which cut tiles come out of one tile", columns, lines)
