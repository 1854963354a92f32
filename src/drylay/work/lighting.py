"""Lights let into the boards: holes clear of every timber below, and the cable's way.

A light sits in the middle of a row, and over the middle of a bay. Along a side that rows run
along, all lights sit in one row, the nearest to that side whose holes clear the rim; along the
others in the outermost bay, spread over the rows.
"""

from collections.abc import Iterator
from itertools import pairwise

from attrs import frozen

from drylay.frame.model import Frame
from drylay.marks import MARK_320, exact, nearest_mark, to_mm
from drylay.surface.model import Row, Surface
from drylay.work.model import Light, Lighting

#: How far a hole stays from any timber below it. Assumption: room for the clip and the hand.
CLEAR_LEAST_MM = 20.0
#: Cable left in a loop at every light, so that it can be lifted out. Assumption.
LOOP_MM = 300.0
#: Sides that rows run along, near and far, and those they run up to, by the boards' run.
SIDES_OF = {"along": ("house", "front", "left", "right"),
            "across": ("left", "right", "house", "front")}  # fmt: skip


@frozen(kw_only=True)
class _Holes:
    """What holes must keep clear of, all in 1/320 mm; `left` is each open bay's left joist."""

    surface: Surface
    frame: Frame
    reach: int
    bays: tuple[tuple[int, int], ...]
    left: tuple[str, ...]
    mark: int


def place_lights(
    surface: Surface,
    frame: Frame,
    *,
    side: str,
    count: int,
    hole_mm: float,
    depth_mm: float,
    units: str,
) -> Lighting | None:
    """Return the lights along a side, None where so many do not fit clear of the timber.

    Source: geometry; how far holes stay clear is an assumption.
    """
    half = -(-exact(frame.timber_thickness_mm) // 2)
    centres = [exact(joist.offset_mm) for joist in frame.joists]
    opens = [(n, a, b) for n, (a, b) in enumerate(pairwise(centres)) if b - a > 2 * half]
    bays = tuple((a + half, b - half) for _, a, b in opens)
    reach = -(-exact(hole_mm) // 2) + exact(CLEAR_LEAST_MM)
    holes = _Holes(
        surface=surface,
        frame=frame,
        reach=reach,
        bays=bays,
        left=tuple(frame.joists[n].mark for n, _, _ in opens),
        mark=MARK_320[units],
    )
    sides = SIDES_OF[surface.run]
    places = _in_a_row(holes, side, count) if side in sides[:2] else _in_a_bay(holes, side, count)
    if places is None:
        return None
    lights = tuple(
        Light(mark=f"L{number}", row=row.mark, along_mm=to_mm(along), across_mm=to_mm(across))
        for number, (row, along, across) in enumerate(places, start=1)
    )
    crosses = side in sides[:2] or side == sides[3]
    trunk = _trunk(frame, far=side == sides[1]) if crosses else None
    return Lighting(
        side=side, count=count, hole_mm=hole_mm, depth_mm=depth_mm,
        clear_least_mm=CLEAR_LEAST_MM, lights=lights, trunk_mm=trunk,
        cable_mm=cable_mm(lights, trunk),
    )  # fmt: skip


_Places = list[tuple[Row, int, int]]


def _middle(holes: _Holes, row: Row) -> int:
    """Return the pencil mark nearest the middle of a row."""
    return nearest_mark(exact(row.near_mm) + exact(row.width_mm) // 2, holes.mark)


def _mid_bay(holes: _Holes, bay: int) -> int:
    """Return the pencil mark nearest the middle of a bay."""
    return nearest_mark(sum(holes.bays[bay]) // 2, holes.mark)


def _is_clear(holes: _Holes, bay: int, across: int) -> bool:
    """Whether a hole over the middle of a bay clears joists, rims, splices and noggins."""
    low, high = holes.bays[bay]
    middle = _mid_bay(holes, bay)
    if middle - low < holes.reach or high - middle < holes.reach:
        return False
    return all(
        across + holes.reach <= near or across - holes.reach >= far
        for near, far in _across_the_bay(holes, bay)
    )


def _across_the_bay(holes: _Holes, bay: int) -> Iterator[tuple[int, int]]:
    """Yield from where to where timber lies across a bay: rims with splices, noggins, battens."""
    frame, thick = holes.frame, exact(holes.frame.timber_thickness_mm)
    low, high = holes.bays[bay]
    for number, rim in enumerate(frame.rims):
        spliced = any(s.rim == rim.mark and low < exact(s.offset_mm) < high for s in frame.splices)
        near, far = exact(rim.near_mm), exact(rim.near_mm) + thick
        inwards = thick if spliced else 0
        yield (near, far + inwards) if number == 0 else (near - inwards, far)
    joist = holes.left[bay]
    for batten in frame.battens:
        beside = _mid_bay(holes, bay) - low - thick < holes.reach
        if batten.joist == joist and beside:
            near = exact(batten.near_mm)
            yield near, near + exact(batten.length_mm)
    for noggin in frame.noggins:
        if noggin.left == joist:
            centre = exact(noggin.across_mm)
            yield centre - thick // 2, centre + thick // 2


def _spread(count: int, over: int) -> list[int]:
    """Return `count` of the numbers below `over`, spread as evenly as whole numbers can be."""
    return [(2 * number + 1) * over // (2 * count) for number in range(count)]


def _in_a_row(holes: _Holes, side: str, count: int) -> _Places | None:
    """Return lights in the row nearest the side that has room for all of them."""
    rows = holes.surface.rows
    near = side == SIDES_OF[holes.surface.run][0]
    for row in rows if near else reversed(rows):
        across = _middle(holes, row)
        free = [bay for bay in range(len(holes.bays)) if _is_clear(holes, bay, across)]
        if len(free) >= count and exact(row.width_mm) >= 2 * holes.reach + holes.mark:
            bays = [free[at] for at in _spread(count, len(free))]
            return [(row, _mid_bay(holes, bay), across) for bay in bays]
    return None


def _in_a_bay(holes: _Holes, side: str, count: int) -> _Places | None:
    """Return lights in the outermost bay of the side, in rows spread over the deck."""
    bay = 0 if side == SIDES_OF[holes.surface.run][2] else len(holes.bays) - 1
    free = [
        row
        for row in holes.surface.rows
        if exact(row.width_mm) >= 2 * holes.reach + holes.mark
        and _is_clear(holes, bay, _middle(holes, row))
    ]
    if len(free) < count:
        return None
    along = _mid_bay(holes, bay)
    return [(free[at], along, _middle(holes, free[at])) for at in _spread(count, len(free))]


def _trunk(frame: Frame, *, far: bool) -> float:
    """Return where the cable crosses the joists: a quarter of their length from the lit side.

    There, between 0.25 and 0.4 of the span from a support, a hole on the middle line of up to a
    quarter of the depth weakens a joist least. Source: UK rules for floor joists, from memory.
    """
    joist = frame.joists[0]
    quarter = -(-exact(joist.length_mm) // 4)
    start = exact(joist.near_mm)
    return to_mm(start + exact(joist.length_mm) - quarter if far else start + quarter)


def cable_mm(lights: tuple[Light, ...], trunk_mm: float | None) -> float:
    """Return the cable from the datum corner: the way it runs, there and back to each light.

    Along a trunk to the furthest light, and from it to each light and back; without a trunk
    along the outer joist to the furthest light. A loop at each light on top.
    """
    loops = len(lights) * exact(LOOP_MM)
    furthest = max(exact(light.along_mm) for light in lights)
    if trunk_mm is None:
        return to_mm(max(exact(light.across_mm) for light in lights) + furthest + loops)
    trunk = exact(trunk_mm)
    branches = sum(2 * abs(trunk - exact(light.across_mm)) for light in lights)
    return to_mm(trunk + furthest + branches + loops)
