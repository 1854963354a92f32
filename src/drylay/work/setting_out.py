"""Setting out: pegs at the frame's corners, and the largest 3-4-5 that its sides carry."""

from drylay.edges.model import Edges
from drylay.marks import exact, to_mm
from drylay.work.model import Peg, SettingOut

#: What 3, 4 and 5 are whole multiples of: 100 mm, or a foot.
UNIT_MM = {"metric": 100.0, "imperial": 304.8}
#: How far apart the diagonals of a frame may be. Common practice, no source.
ACCEPTED_MM = 5.0


def set_out(edges: Edges, *, run: str, units: str) -> SettingOut:
    """Return the pegs, P1 nearest the datum corner, then right along the house and round.

    Source: geometry; how far diagonals may differ is common practice, no source.
    """
    near = (edges.frame_start_mm, edges.frame_near_mm)
    sides = (edges.frame_length_mm, edges.frame_depth_mm)
    if run == "across":
        near, sides = (near[1], near[0]), (sides[1], sides[0])
    legs = three_four_five(sides[0], sides[1], units)
    return SettingOut(
        pegs=_pegs(near, sides),
        leg_along_mm=legs[0] if legs else None,
        leg_across_mm=legs[1] if legs else None,
        slant_mm=legs[2] if legs else None,
        accepted_mm=ACCEPTED_MM,
    )


def _pegs(near: tuple[float, float], sides: tuple[float, float]) -> tuple[Peg, ...]:
    left, house = exact(near[0]), exact(near[1])
    right, front = left + exact(sides[0]), house + exact(sides[1])
    places = ((left, house), (right, house), (right, front), (left, front))
    return tuple(
        Peg(mark=f"P{number}", along_mm=to_mm(along), across_mm=to_mm(across))
        for number, (along, across) in enumerate(places, start=1)
    )


def three_four_five(
    along_mm: float, across_mm: float, units: str
) -> tuple[float, float, float] | None:
    """Return how far to measure from P1 along and across, and then corner to corner.

    The largest 3-4-5 in whole hundreds of mm, or whole feet, that the frame's sides can carry.
    Its leg of 4 lies along the longer side: the other way round none is larger. None where even
    the smallest does not fit. Source: Pythagoras, Euclid I.47.
    """
    unit = exact(UNIT_MM[units])
    along, across = exact(along_mm), exact(across_mm)
    times = min(min(along, across) // (3 * unit), max(along, across) // (4 * unit))
    if not times:
        return None
    three, four, five = (to_mm(part * times * unit) for part in (3, 4, 5))
    return (four, three, five) if along >= across else (three, four, five)
