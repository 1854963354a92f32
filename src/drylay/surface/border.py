"""A border: the first and the last rows of another board, the field fitted between them."""

from attrs import frozen

from drylay.marks import exact, to_mm
from drylay.surface.limits import RowLimits
from drylay.surface.model import Row, WayOut
from drylay.surface.settle import Laying, even_edges, settle_rows
from drylay.surface.ways import widths_of

Range = tuple[int, int, int]


@frozen(kw_only=True)
class BorderLimits:
    """A border's rows at either edge, in counts of 1/320 mm.

    Ranges of gaps are least, preferred and most: `gap_320` between rows of the border,
    `beside_320` between border and field.
    """

    rows: int
    width_320: int
    gap_320: Range
    beside_320: Range

    @property
    def part_320(self) -> int:
        """What one edge's border takes, the gap to the field with it."""
        return self.rows * self.width_320 + (self.rows - 1) * self.gap_320[1] + self.beside_320[1]


def gap_beside(border: Range, field: Range) -> Range | None:
    """Return the gap that suits two boards side by side, None where none does.

    It is what both ranges allow, the field's preferred gap moved into it.
    Source: arithmetic; a gap that either board does not allow suits neither.
    """
    least, most = max(border[0], field[0]), min(border[2], field[2])
    return (least, min(max(field[1], least), most), most) if least <= most else None


def field_depth_320(depth_320: int, border: BorderLimits) -> int:
    """Return what the border leaves of a depth to the field; below 0 where it does not fit."""
    return depth_320 - 2 * border.part_320


def lay_bordered(limits: RowLimits, way: WayOut, border: BorderLimits) -> tuple[Row, ...]:
    """Return all rows, border, field and border, settled on pencil marks.

    `limits` and `way` are the field's: its depth is what the border leaves.
    """
    field = widths_of(limits, way)
    depth = limits.depth_320 + exact(way.cover_change_mm)
    widths = (border.width_320,) * border.rows
    laying = Laying(
        widths_320=(*widths, *field, *widths),
        ideal_320=_ideal(border, even_edges(field, depth), depth),
        least_320=_gaps(border, len(field), limits.least_320, 0),
        most_320=_gaps(border, len(field), limits.most_320, 2),
        depth_320=depth + 2 * border.part_320,
        mark_320=limits.mark_320,
    )
    inside = range(border.rows, border.rows + len(field))
    return tuple(_rows(laying, settle_rows(laying), inside, limits.board_320))


def _ideal(border: BorderLimits, field: tuple[int, ...], depth: int) -> tuple[int, ...]:
    """Return where near edges lie with each gap as preferred, the field's as it was fitted."""
    pitch, start = border.width_320 + border.gap_320[1], border.part_320
    far = start + depth + border.beside_320[1]
    near = [row * pitch for row in range(border.rows)]
    return (*near, *(start + edge for edge in field), *(far + edge for edge in near))


def _gaps(border: BorderLimits, rows: int, field_320: int, which: int) -> tuple[int, ...]:
    """Return the least or the most gap before each row; before the first there is none."""
    within = (border.gap_320[which],) * (border.rows - 1)
    beside = border.beside_320[which]
    return (0, *within, beside, *(field_320,) * (rows - 1), beside, *within)


def _rows(laying: Laying, edges: tuple[int, ...], inside: range, board_320: int) -> list[Row]:
    rows, before = [], 0
    for index, (edge, width) in enumerate(zip(edges, laying.widths_320, strict=True)):
        row = Row(
            mark=f"B{index + 1}",
            near_mm=to_mm(edge),
            width_mm=to_mm(width),
            gap_mm=to_mm(edge - before),
            ripped=index in inside and width < board_320,
            border=index not in inside,
        )
        rows.append(row)
        before = edge + width
    return rows
