"""Packers under the frame of an outline: each timber by itself, those that touch share."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import frozen

from drylay.geometry import Place
from drylay.groundwork.model import Packing
from drylay.groundwork.packing import Clearance, packers_under
from drylay.marks import PER_MM, exact, to_mm
from drylay.materials.stock_model import Packer
from drylay.outline.model import Spot

#: A packer carries a timber whose middle line is so many thicknesses off, and its end likewise.
#: Assumption: packers are about as wide as two timbers that touch.
OFF, END_OFF = 1, 2
#: What rounding to 1/320 mm may put a place off by, in mm.
ROUNDED_MM = 2 / PER_MM


@frozen(kw_only=True)
class Carried:
    """A timber on packers: its middle line."""

    start_mm: Place
    end_mm: Place


def packer_places(
    timbers: Sequence[Carried], *, spacing_most_mm: float, thickness_mm: float
) -> tuple[Place, ...]:
    """Return where packers stand: under both ends of every timber, no further apart than told.

    Timbers are taken in order, and those that stand already are counted in: a packer carries all
    timbers whose middle lines are no more than a thickness off it.
    """
    places: list[Place] = []
    for timber in timbers:
        long = math.dist(timber.start_mm, timber.end_mm)
        there = carrying(timber, places, thickness_mm)
        for reach in _missing(there, long, spacing_most_mm, END_OFF * thickness_mm):
            places.append(_at(timber, reach / long if long else 0.0))
    return tuple(places)


def carrying(timber: Carried, places: Sequence[Place], thickness_mm: float) -> list[float]:
    """Return the packers that carry a timber, by how far along it they stand, in order."""
    (x1, y1), (x2, y2) = timber.start_mm, timber.end_mm
    long = math.dist(timber.start_mm, timber.end_mm)
    near = OFF * thickness_mm + ROUNDED_MM
    found = []
    for x, y in places:
        along = ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / long
        off = abs((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)) / long
        if off <= near and -near <= along <= long + near:
            found.append(min(max(along, 0.0), long))
    return sorted(found)


def _missing(there: list[float], long: float, most: float, end: float) -> Iterator[float]:
    """Yield how far along a timber packers are still wanted."""
    reaches = list(there)
    if not reaches or reaches[0] > end:
        reaches.insert(0, 0.0)
        yield 0.0
    if reaches[-1] < long - end:
        reaches.append(long)
        yield long
    for one, other in pairwise(reaches):
        parts = packers_under(to_mm(exact(other - one)), most) - 1
        for part in range(1, parts):
            yield one + (other - one) * part / parts


def _at(timber: Carried, share: float) -> Place:
    (x1, y1), (x2, y2) = timber.start_mm, timber.end_mm
    return to_mm(exact(x1 + (x2 - x1) * share)), to_mm(exact(y1 + (y2 - y1) * share))


def pack_timbers(
    timbers: Sequence[Carried],
    packer: Packer,
    *,
    spacing_most_mm: float,
    thickness_mm: float,
    room: Clearance | None,
) -> Packing:
    """Return the packers under all timbers, at the packer's least height if no room is known."""
    places = packer_places(timbers, spacing_most_mm=spacing_most_mm, thickness_mm=thickness_mm)
    most = max((len(carrying(timber, places, thickness_mm)) for timber in timbers), default=0)
    return Packing(
        article=packer.code,
        reach_least_mm=packer.least_mm,
        reach_most_mm=packer.most_mm,
        levels_known=room is not None,
        height_least_mm=packer.least_mm if room is None else room.least_mm,
        height_most_mm=packer.least_mm if room is None else room.most_mm,
        spacing_most_mm=spacing_most_mm,
        per_joist=most,
        count=len(places),
        places=tuple(Spot(along_mm=along, across_mm=across) for along, across in places),
    )
