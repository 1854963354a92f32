"""Where a frame is measured from on a deck that stands askew: peg P1, which can be stood at."""

from drylay.outline.model import Spot
from drylay.papers.outlined_ways import is_askew
from drylay.plan.model import Plan
from drylay.subframe.model import Subframe

DATUM = Spot(along_mm=0.0, across_mm=0.0)


def first_peg(plan: Plan) -> Spot | None:
    """Return where P1 stands; None where the datum corner does to measure from."""
    pegs = plan.work.setting_out.pegs if plan.work else ()
    if not pegs or not is_askew(plan.outline):
        return None
    return Spot(along_mm=pegs[0].along_mm, across_mm=pegs[0].across_mm)


def minus_told(frame: Subframe, peg: Spot) -> str:
    """Return what a minus before a figure from P1 means; "" where none has one."""
    places = [spot for member in frame.members for spot in (member.start, member.end)]
    ways = [
        way
        for way, least in (
            ("to the left of P1", min(spot.along_mm for spot in places) - peg.along_mm),
            ("above it on the drawing", min(spot.across_mm for spot in places) - peg.across_mm),
        )
        if least < 0
    ]
    return f" Minus: {' or '.join(ways)}." if ways else ""


def counted(peg: Spot | None) -> str:
    """Return what a drawing's figures are counted from, as its title block says it."""
    return f"; counted from {'the datum corner' if peg is None else 'peg P1'}"


def from_peg(peg: Spot, joist_run: str) -> float:
    """Return how far a peg stands from the datum corner, square to the joists."""
    return peg.along_mm if joist_run == "across" else peg.across_mm
