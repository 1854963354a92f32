"""The rows of one field: fitted between its sides, fanned where its far side is not parallel."""

import math
from collections.abc import Sequence

from attrs import evolve, frozen

from drylay.geometry import Region, Ring, bounds, parts_of, ring_of, turned
from drylay.laying.axes import axes_of, placed, spot
from drylay.laying.fit import Depth, RowFit, Step, grown_320
from drylay.laying.model import LaidRow
from drylay.marks import exact, nearest_mark, to_mm

#: A side that leans no more than this from the rows is one that they are fanned to: 2 degrees.
#: Assumption; a wall further off than that is a splay, and boards are cut to it.
FAN_DEG = 2.0
#: A side is parallel to the rows where its ends are no further apart across them than a mark.
FLAT_MM = 0.5


@frozen(kw_only=True)
class FieldShape:
    """One field before its rows: its area, and what lies along the sides rows start and end at.

    `first_row`: "near" or "far". `gap_before`, `gap_after`: a border or another field lies a row's
    gap away there.
    """

    mark: str
    area: Region
    angle_deg: float
    first_row: str
    gap_before: bool = False
    gap_after: bool = False


def first_row_of(field: FieldShape) -> str:
    """Return which side to count rows from: the near one, unless that leans and the far not.

    Counted from a side that leans, the first row would take all of the taper.
    """
    near, far = (_leans(evolve(field, first_row=each)) for each in ("far", "near"))
    return "far" if near and not far else "near"


def first_leans(field: FieldShape) -> bool:
    """Whether the side that rows are counted from leans from them, by no more than a fan."""
    other = "near" if field.first_row == "far" else "far"
    return _leans(evolve(field, first_row=other))


def _leans(field: FieldShape) -> bool:
    """Whether the side opposite the first row leans from the rows, by no more than a fan."""
    rings = _from_first(field)
    return _far_side(rings, max(v for ring in rings for _, v in ring))[1] != 0.0


def depth_of(field: FieldShape) -> tuple[Depth, float]:
    """Return a field across its rows, and by how much its far side leans: 0 where it does not."""
    rings = _from_first(field)
    deep = max(v for ring in rings for _, v in ring)
    flat, fan_mm = _far_side(rings, deep)
    return (
        Depth(
            depth_320=exact(deep) if not fan_mm else exact(deep - max(0.0, fan_mm)),
            far_flat=flat,
            gap_before=field.gap_before,
            gap_after=field.gap_after,
            steps=tuple(_steps(rings, deep)),
        ),
        fan_mm,
    )


def _from_first(field: FieldShape) -> list[Ring]:
    """Return the field's corners along the run, and away from the side that rows start at."""
    axes = axes_of(field.angle_deg)
    area = turned(field.area, axes.cos_ratio, axes.sin_ratio)
    _, near, _, far = bounds(area)
    rings = [ring_of(part) for part in parts_of(area)]
    if field.first_row == "near":
        return [tuple((u, v - near) for u, v in ring) for ring in rings]
    # seen from the other side the corners run the other way round: turned back again
    return [tuple((u, far - v) for u, v in ring[::-1]) for ring in rings]


def _far_side(rings: list[Ring], deep: float) -> tuple[bool, float]:
    """Return whether the field ends at a side that rows can be laid to, and how that leans."""
    least = math.tan(math.radians(FAN_DEG))
    for ring in rings:
        for (u1, v1), (u2, v2) in zip(ring, [*ring[1:], ring[0]], strict=True):
            if max(v1, v2) < deep - FLAT_MM or abs(u2 - u1) < FLAT_MM:
                continue
            if abs(v2 - v1) <= FLAT_MM:
                return True, 0.0
            if abs(v2 - v1) <= least * abs(u2 - u1):
                return True, (v2 - v1) * (1 if u2 > u1 else -1)
    return False, 0.0


def _steps(rings: list[Ring], deep: float) -> list[Step]:
    """Return the sides parallel to the rows between the first and the last, each once."""
    found = set()
    for ring in rings:
        for (u1, v1), (u2, v2) in zip(ring, [*ring[1:], ring[0]], strict=True):
            inner = FLAT_MM < v1 < deep - FLAT_MM
            if inner and abs(v2 - v1) <= FLAT_MM < abs(u2 - u1):
                found.add((exact((v1 + v2) / 2), u2 > u1))
    return [Step(at_320=at, beyond=beyond) for at, beyond in sorted(found)]


@frozen(kw_only=True)
class RowGrid:
    """The rows of one field before they are shared out to its zones.

    `datum_mm` is where the first row's edge lies, left of the run, `from_mm` and `to_mm` where the
    field begins and ends along it: over that way all gaps together grow by `fan_mm`.
    """

    angle_deg: float
    first_row: str
    datum_mm: float
    from_mm: float
    to_mm: float
    fit: RowFit
    fan_mm: float


def grid_of(field: FieldShape, fit: RowFit, *, fan_mm: float) -> RowGrid:
    """Return the rows of a field as fitted, with the fan they are to take up."""
    axes = axes_of(field.angle_deg)
    u1, near, u2, far = bounds(turned(field.area, axes.cos_ratio, axes.sin_ratio))
    return RowGrid(
        angle_deg=field.angle_deg,
        first_row=field.first_row,
        datum_mm=near if field.first_row == "near" else far,
        from_mm=u1,
        to_mm=u2,
        fit=fit,
        fan_mm=fan_mm,
    )


def rows_in(
    grid: RowGrid, area: Region, *, zone: str, board_320: int, first: int
) -> tuple[LaidRow, ...]:
    """Return the rows of a grid that lie in one zone of its field, numbered from `first`."""
    axes = axes_of(grid.angle_deg)
    u1, low, u2, high = bounds(turned(area, axes.cos_ratio, axes.sin_ratio))
    rows: list[LaidRow] = []
    for at, row in enumerate(grid.fit.rows):
        start, end = (u1, _edge_at(grid, at, u1)), (u2, _edge_at(grid, at, u2))
        wide = to_mm(row.width_320) * (1 if grid.first_row == "near" else -1)
        reach = [v for _, v in (start, end)] + [v + wide for _, v in (start, end)]
        if max(reach) < low + FLAT_MM or min(reach) > high - FLAT_MM:
            continue
        rows.append(
            LaidRow(
                mark=f"B{first + len(rows)}",
                zone=zone,
                start=spot(placed(axes, start)),
                end=spot(placed(axes, end)),
                width_mm=to_mm(row.width_320),
                ripped=row.width_320 < board_320,
            )
        )
    return tuple(rows)


def _edge_at(grid: RowGrid, at: int, run_mm: float) -> float:
    """Return where a row's edge lies, left of the run, at a distance along it."""
    gaps = len(grid.fit.rows) - 1
    more = grown_320(exact(grid.fan_mm), at, gaps, grid.fit.mark_320)
    share = (run_mm - grid.from_mm) / (grid.to_mm - grid.from_mm)
    off = to_mm(grid.fit.rows[at].edge_320) + to_mm(more) * share
    return grid.datum_mm + off if grid.first_row == "near" else grid.datum_mm - off


def fan_of(leans_mm: float, gaps: int, *, most_mm: float, mark_mm: float) -> float:
    """Return how much of a lean the rows take up, on marks: no gap grows by more than `most_mm`."""
    most = math.floor(most_mm / mark_mm) * mark_mm * gaps
    return to_mm(nearest_mark(exact(max(-most, min(most, leans_mm))), exact(mark_mm)))


def tapered(depth: Depth, left_mm: float) -> Depth:
    """Return a field as deep as it is where no fan takes up all of a lean that widens it.

    Rows are laid to the deeper end, and the last is sawn to a taper: nothing is left bare. What it
    is at the narrow end counts as cut by a side.
    """
    if left_mm <= 0:
        return depth
    narrow = Step(at_320=depth.depth_320, beyond=False)
    return evolve(depth, depth_320=depth.depth_320 + exact(left_mm), steps=(*depth.steps, narrow))


def mean_gap_mm(rows: Sequence[LaidRow]) -> float:
    """Return the mean of the gaps between rows, where their edges start, to 1/320 mm."""
    run = _way(rows[0])
    edges = [row.start.across_mm * run[0] - row.start.along_mm * run[1] for row in rows]
    deep = abs(edges[-1] - edges[0])
    between = deep - sum(row.width_mm for row in rows[:-1])
    return to_mm(exact(between / (len(rows) - 1)))


def _way(row: LaidRow) -> tuple[float, float]:
    """Return which way a row runs."""
    dx, dy = row.end.along_mm - row.start.along_mm, row.end.across_mm - row.start.across_mm
    long = math.hypot(dx, dy)
    return dx / long, dy / long
