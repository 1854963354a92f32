"""What panels of hatches weigh: their boards and battens, and battens ripped where that is much."""

from collections.abc import Iterator
from math import ceil

from drylay.audit.exact import PER_MM, Fraction, mark_of, ticks
from drylay.audit.fixings import deck_screws
from drylay.audit.flaws import need, same_length
from drylay.audit.lorry import delivery_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import laying_of, outlines, subframe_of
from drylay.audit.outlined_openings import panel_of
from drylay.audit.outlined_panels import BATTENS, tied_hatches
from drylay.audit.wanted import buying_of
from drylay.outline.model import Opening
from drylay.plan.model import Plan

WEIGHT = outlines("Outline: panel_kg")


def panels_weigh(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each panel weighs what its boards and battens do, up to a tenth."""
    brought, laying, subframe = delivery_of(plan), laying_of(plan), subframe_of(plan)
    density = _exactly(need(brought.density_kg_m3, "density of timber"))
    framed = brought.frame_density_kg_m3
    section = _m2(laying.board_width_mm, laying.board_thickness_mm)
    sold = brought.board_kg_m
    board = section * density if sold is None else _exactly(sold)
    board += _exactly(brought.extra_mass_kg_m2 or 0.0) * _m2(laying.board_width_mm, 1000.0)
    timber = _m2(subframe.timber_thickness_mm, subframe.timber_depth_mm)
    timber *= density if framed is None else _exactly(framed)
    for hatch in tied_hatches(plan):
        boards = sum((board * _m(p.cut_mm) for p in panel_of(plan, hatch.opening)), Fraction(0))
        whole = sum((timber * _m(each.length_mm) for each in hatch.battens), Fraction(0))
        depth = _deep(plan, Fraction(ceil((boards + whole) * 10), 10), hatch.opening)
        for batten in hatch.battens:
            message = "not whole, or not ripped where whole ones are too heavy"
            yield from same_length(batten.mark, message, batten.depth_mm, depth, BATTENS)
        mass = boards + whole * Fraction(depth, ticks(subframe.timber_depth_mm))
        wanted, found = float(Fraction(ceil(mass * 10), 10)), hatch.opening.panel_kg
        if found != wanted:
            yield Flaw(subject=hatch.opening.mark, message="not what its boards and battens weigh",
                       measured=found, limit=wanted, unit="kg", source=WEIGHT)  # fmt: skip


def _deep(plan: Plan, whole_kg: Fraction, opening: Opening) -> int:
    """Return how deep a panel's battens are to be: ripped in two where whole it is too heavy."""
    depth, kerf = ticks(subframe_of(plan).timber_depth_mm), ticks(buying_of(plan).kerf_mm)
    half = (depth - kerf) // 2 // mark_of(plan) * mark_of(plan)
    below = ticks(deck_screws(plan).length_mm) - ticks(laying_of(plan).board_thickness_mm)
    heavy = whole_kg > _exactly(opening.panel_most_kg or 0.0)
    return half if heavy and half >= below else depth


def _exactly(number: float) -> Fraction:
    return Fraction(repr(float(number)))


def _m(length_mm: float) -> Fraction:
    return Fraction(ticks(length_mm), 1000 * PER_MM)


def _m2(one_mm: float, other_mm: float) -> Fraction:
    return _m(one_mm) * _m(other_mm)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-995", "panels weigh what boards and battens do, ripped if too heavy", panels_weigh),
)
