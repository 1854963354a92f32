"""Packers: what lies between the bed and the frame, and how many stand under each joist."""

from attrs import frozen

from drylay.frame.model import Frame
from drylay.groundwork.model import Dig, GravelBed, Packing
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Packer
from drylay.site.model import Levels

#: How far apart packers stand at most under a joist. Assumption: strength is not checked.
SPACING_MOST_MM = 600.0
#: Higher than this a frame stands on legs or bearers, not on packers. Assumption.
HEIGHT_MOST_MM = 150.0
#: How far over its bed a frame may lie where there are no packers: the bed is made up to it.
#: Assumption.
MADE_UP_MOST_MM = 25.0


@frozen(kw_only=True)
class Clearance:
    """What lies between the bed under the deck and the frame: least and most."""

    least_mm: float
    most_mm: float


def sunk_mm(dig: Dig | None, gravel: GravelBed | None) -> float:
    """Return how far under the lawn the bed lies: gravel, else the dig, else the lawn itself."""
    if gravel is not None:
        return gravel.below_lawn_mm
    return dig.depth_mm if dig is not None else 0.0


def clearance(levels: Levels | None, bed_sunk_mm: float) -> Clearance | None:
    """Return the room between bed and frame; None where levels or ground are not known."""
    if levels is None or levels.ground_least_mm is None or levels.ground_most_mm is None:
        return None
    over = exact(levels.underside_mm) + exact(bed_sunk_mm)
    return Clearance(
        least_mm=to_mm(over - exact(levels.ground_most_mm)),
        most_mm=to_mm(over - exact(levels.ground_least_mm)),
    )


def packers_under(joist_mm: float, spacing_most_mm: float) -> int:
    """Return how many packers stand under a joist: one at each end, none too far apart."""
    return -(-exact(joist_mm) // exact(spacing_most_mm)) + 1


def place_packers(
    frame: Frame, packer: Packer, *, spacing_most_mm: float, room: Clearance | None
) -> Packing:
    """Return the packers under all joists, at the packer's least height if no room is known."""
    each = packers_under(frame.joists[0].length_mm, spacing_most_mm)
    return Packing(
        article=packer.code,
        reach_least_mm=packer.least_mm,
        reach_most_mm=packer.most_mm,
        levels_known=room is not None,
        height_least_mm=packer.least_mm if room is None else room.least_mm,
        height_most_mm=packer.least_mm if room is None else room.most_mm,
        spacing_most_mm=spacing_most_mm,
        per_joist=each,
        count=each * len(frame.joists),
    )
