"""The grid: courses laid end to end by a way out, in either direction."""

from itertools import accumulate

from drylay.marks import exact, to_mm
from drylay.surface.model import Row, WayOut
from drylay.tiling.model import CutTile, TileColumn


def edges_of(way: WayOut, side_mm: float, joint_mm: float) -> tuple[tuple[int, int], ...]:
    """Return the near edge and the width of every course of a way out, in 1/320 mm."""
    side, joint = exact(side_mm), exact(joint_mm)
    first, last = exact(way.first_row_mm), exact(way.last_row_mm)
    widths = [first, *[side] * (way.rows - 2), last] if way.rows > 1 else [first]
    nears = accumulate((width + joint for width in widths[:-1]), initial=0)
    return tuple(zip(nears, widths, strict=True))


def lay_rows(way: WayOut, side_mm: float, joint_mm: float) -> tuple[Row, ...]:
    """Return the rows of tiles of a way out, from the datum edge."""
    return tuple(
        Row(
            mark=f"B{number}",
            near_mm=to_mm(near),
            width_mm=to_mm(width),
            gap_mm=joint_mm if number > 1 else 0.0,
            ripped=width < exact(side_mm),
        )
        for number, (near, width) in enumerate(edges_of(way, side_mm, joint_mm), start=1)
    )


def lay_columns(way: WayOut, side_mm: float, joint_mm: float) -> tuple[TileColumn, ...]:
    """Return the columns of a way out, from the datum edge."""
    return tuple(
        TileColumn(
            mark=f"C{number}",
            start_mm=to_mm(near),
            length_mm=to_mm(width),
            gap_mm=joint_mm if number > 1 else 0.0,
            cut=width < exact(side_mm),
        )
        for number, (near, width) in enumerate(edges_of(way, side_mm, joint_mm), start=1)
    )


def cut_tiles(rows: tuple[Row, ...], columns: tuple[TileColumn, ...]) -> tuple[CutTile, ...]:
    """Return every place whose tile is cut, row by row."""
    return tuple(
        CutTile(mark=f"{row.mark}.{number}", length_mm=column.length_mm, width_mm=row.width_mm)
        for row in rows
        for number, column in enumerate(columns, start=1)
        if row.ripped or column.cut
    )
