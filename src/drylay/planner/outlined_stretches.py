"""The stretches that boards lie in before any joint: of rows, panels, borders, breaker boards."""

import math
from collections.abc import Iterator, Sequence

from attrs import frozen

from drylay.geometry import Ring, common, region
from drylay.laying.axes import Axes, axes_of, place_of, seen
from drylay.laying.parts import Band, Part, band_of, parts_in
from drylay.outline.model import Opening
from drylay.planner.angles import angle_of
from drylay.planner.job import Job
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_job import sizes_of

#: Numbers of rows in different zones are so far apart: they are no neighbours.
FAR_APART = 1_000


@frozen(kw_only=True)
class Stretch:
    """A stretch of boards before joints: of which row, and what its pieces' marks begin with.

    `angle_deg` is its zone's, None where it lies in none: a short row's own ends are rounded.
    """

    prefix: str
    kind: str
    row: str
    row_number: int
    part: Part
    width_mm: float
    border_side: tuple[int, int] = (0, 0)
    angle_deg: float | None = None


def stretches_of(job: Job, laid: FieldsLaid, openings: Sequence[Opening]) -> tuple[Stretch, ...]:
    """Return every stretch of boards: rows of zones, panels of hatches, borders, breakers."""
    return (
        *_row_stretches(job, laid, openings),
        *_panel_stretches(job, laid, openings),
        *_border_stretches(job, laid),
        *_breaker_stretches(job, laid, openings),
    )


def _row_stretches(job: Job, laid: FieldsLaid, openings: Sequence[Opening]) -> Iterator[Stretch]:
    sizes = sizes_of(job)
    first = {zone.mark: zone.first_row for zone in laid.zones}
    angles = {zone.mark: zone.angle_deg for zone in laid.zones}
    apart = {zone.mark: number * FAR_APART for number, zone in enumerate(laid.zones)}
    for at, row in enumerate(laid.rows):
        number = at + apart[row.zone]
        band = band_of(row, first_row=first[row.zone])
        holes = [_hole(opening, band.axes, sizes.end_gap_mm) for opening in openings]
        parts = parts_in(band, laid.areas[row.zone], holes, end_gap_mm=sizes.end_gap_mm)
        for part in parts:
            yield Stretch(
                prefix=f"{row.mark}.", kind="field", row=row.mark, row_number=number,
                part=part, width_mm=row.width_mm, angle_deg=angles[row.zone],
            )  # fmt: skip


def _hole(opening: Opening, axes: Axes, end_gap_mm: float) -> Ring:
    """Return what an opening takes from boards of a run: of a hatch half an end gap more."""
    ring = tuple(place_of(corner) for corner in opening.corners)
    return ring if opening.kind != "hatch" else _longer(ring, axes, end_gap_mm / 2)


def _longer(ring: Ring, axes: Axes, by_mm: float) -> Ring:
    """Return a shape drawn out along a run, by so much at either end."""
    middle = [sum(place[at] for place in ring) / len(ring) for at in (0, 1)]
    along = [axes.cos_ratio, axes.sin_ratio]
    found = []
    for place in ring:
        reach = sum((place[at] - middle[at]) * along[at] for at in (0, 1))
        more = by_mm if reach > 0 else -by_mm
        found.append((place[0] + more * along[0], place[1] + more * along[1]))
    return tuple(found)


def _panel_stretches(job: Job, laid: FieldsLaid, openings: Sequence[Opening]) -> Iterator[Stretch]:
    """Yield the boards of hatches' panels: whole rows, half an end gap short of the hole."""
    sizes = sizes_of(job)
    first = {zone.mark: zone.first_row for zone in laid.zones}
    angles = {zone.mark: zone.angle_deg for zone in laid.zones}
    hatches = [opening for opening in openings if opening.kind == "hatch"]
    for hatch, opening in enumerate(hatches, start=1):
        for number, row in enumerate(laid.rows):
            band = band_of(row, first_row=first[row.zone])
            ring = tuple(place_of(corner) for corner in opening.corners)
            hole = region(_longer(ring, band.axes, -sizes.end_gap_mm / 2))
            area = common(laid.areas[row.zone], hole)
            for part in parts_in(band, area, (), end_gap_mm=sizes.end_gap_mm):
                yield Stretch(
                    prefix=f"H{hatch}.", kind="hatch", row=row.mark, row_number=number,
                    part=part, width_mm=row.width_mm, angle_deg=angles[row.zone],
                )  # fmt: skip


def _border_stretches(job: Job, laid: FieldsLaid) -> Iterator[Stretch]:
    """Yield the boards of a border: each side of each course is a row of its own."""
    for number, board in enumerate(laid.border, start=1):
        start, end = board.ring[0], board.ring[1]
        yield Stretch(
            prefix=f"K{board.course + 1}.", kind="border", row="",
            row_number=-2 * number, part=_along(board.ring, start, end, sizes_of(job).board_mm),
            width_mm=sizes_of(job).board_mm, border_side=(board.course, board.side),
        )  # fmt: skip


def _along(ring: Ring, start: tuple[float, float], end: tuple[float, float], wide: float) -> Part:
    """Return a shape as a part whose run goes from one place to another, boards on its left."""
    long = math.dist(start, end)
    axes = Axes(cos_ratio=(end[0] - start[0]) / long, sin_ratio=(end[1] - start[1]) / long)
    low = seen(axes, start)[1]
    band = Band(row="", axes=axes, low_mm=low, high_mm=low + wide)
    return Part(band=band, ring=tuple(seen(axes, place) for place in ring))


def _breaker_stretches(
    job: Job, laid: FieldsLaid, openings: Sequence[Opening]
) -> Iterator[Stretch]:
    sizes, angle = sizes_of(job), angle_of(job.brief)
    axes = axes_of(angle)
    across = Axes(cos_ratio=-axes.sin_ratio, sin_ratio=axes.cos_ratio)
    holes = [tuple(place_of(corner) for corner in opening.corners) for opening in openings]
    count = 0
    for breaker, area in zip(laid.breakers, laid.breaker_areas, strict=True):
        # left of the breaker's own run lies what is nearer along the boards'
        band = Band(row="", axes=across, low_mm=-breaker.end_mm, high_mm=-breaker.start_mm)
        for part in parts_in(band, area, holes, end_gap_mm=sizes.end_gap_mm):
            count += 1
            yield Stretch(
                prefix="X", kind="breaker", row="", row_number=-1_000_000 - 2 * count,
                part=part, width_mm=sizes.board_mm,
            )  # fmt: skip
