"""Ground fabric over any area: bands a roll wide, each strip as long as the area in its band."""

import math
from collections.abc import Iterator

from drylay.geometry import Region, bounds, box, common, parts_of
from drylay.groundwork.strips import Strips, strips_over
from drylay.marks import PER_MM, to_mm

#: What areas in floats may put a length off by, in 1/320 mm.
NOISE_320 = 0.1


def both_ways_over(area: Region, *, roll_mm: float, lap_mm: float) -> tuple[Strips, Strips]:
    """Return the strips over an area along the house, and away from it."""
    along, across = (
        Strips(run=run, lengths_mm=tuple(_lengths(area, run, roll_mm=roll_mm, lap_mm=lap_mm)))
        for run in ("along", "across")
    )
    return along, across


def _lengths(area: Region, run: str, *, roll_mm: float, lap_mm: float) -> Iterator[float]:
    """Yield the lengths of strips over an area, band by band.

    The first band begins where the area does, nearest the datum. Parts of a band that lie apart
    along it have strips of their own.
    """
    axis = 0 if run == "along" else 1
    ends = bounds(area)
    low_mm, high_mm = ends[1 - axis], ends[3 - axis]
    for number in range(strips_over(high_mm - low_mm, roll_mm=roll_mm, lap_mm=lap_mm)):
        low = low_mm + number * (roll_mm - lap_mm)
        band = (ends[0], low, ends[2], low + roll_mm) if run == "along" else (
            low, ends[1], low + roll_mm, ends[3]
        )  # fmt: skip
        for start, end in _reaches(common(area, box(*band)), axis):
            yield to_mm(math.ceil((end - start) * PER_MM - NOISE_320))


def _reaches(band: Region, axis: int) -> Iterator[tuple[float, float]]:
    """Yield from where to where a band reaches along its run, parts beside one another as one."""
    if band.is_empty:
        return
    ends = sorted((bounds(part)[axis], bounds(part)[axis + 2]) for part in parts_of(band))
    start, reach = ends[0]
    for low, high in ends[1:]:
        if low > reach:
            yield start, reach
            start = low
        reach = max(reach, high)
    yield start, reach
