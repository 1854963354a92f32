"""A spot on the deck: which piece, which joists, what holds it there; and what stands below."""

from collections.abc import Iterable, Sequence
from itertools import chain

from attrs import frozen

from drylay.counting import counted
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.upkeep.as_laid import laid_anew
from drylay.upkeep.asked import place_faults, refuse
from drylay.upkeep.model import Crossing, Located, Near, Top, Under
from drylay.upkeep.parts import CARRYING, members, ray_axis, standing, tops
from drylay.upkeep.plane import Place, common, holds, level_span, middle, off_mm, ring_of, spots_of
from drylay.upkeep.screwed import clipped_at, screws_at

ARITHMETIC = Source(kind="arithmetic", title="the plan's own places")
#: A spot between boards is put down to those within so many of the widest gap.
GAPS = 1.5
#: Between tiles and boards no gap is wider, where the plan does not tell. Assumption.
WIDEST_MM = 20.0


@frozen(kw_only=True)
class Beside:
    """A timber that a straight through the spot meets, from where to where off the spot."""

    mark: str
    from_mm: float
    to_mm: float


@counted
def locate(plan: Plan, along_mm: float, across_mm: float) -> Located:
    """Return what lies at a spot of the deck: piece, joists, bay, post and bearer, fixings.

    `along_mm` runs along the house from the datum corner, `across_mm` away from it: on an outline
    that is turned, along the deck's own line. A spot between boards is told as a gap, with the
    pieces on either side; one off the deck with a note (UPK-001). Places are the design's: of rows
    corrected while laying that is cautioned (UPK-006).

    Raises:
        UpkeepError: The plan is blocked and holds no boards, or the spot is no two lengths.

    Source: the plan's own places; arithmetic.
    """
    refuse(place_faults((("along_mm", along_mm), ("across_mm", across_mm))))
    place, on_top, timbers, legs = (along_mm, across_mm), tops(plan), members(plan), standing(plan)
    on = [top for top in on_top if holds(ring_of(top.corners), place)]
    found = on or _about_gap(plan, on_top, place)
    bay = _bay(plan, timbers, place)
    held = [under for under in timbers if under.mark in bay or _is_over(under, place)]
    return Located(
        along_mm=along_mm,
        across_mm=across_mm,
        what="piece" if on else "gap" if found else "off",
        pieces=tuple(top.mark for top in found),
        rows=tuple(dict.fromkeys(top.row for top in found)),
        over=tuple(under.mark for under in timbers if _is_over(under, place)),
        bay=bay,
        nearest=_nearest(timbers, place),
        bearer=_nearest([leg for leg in legs if leg.kind == "bearer"], place),
        post=_nearest([leg for leg in legs if leg.kind == "post"], place),
        crossings=tuple(chain.from_iterable(crossings(plan, top, held) for top in found)),
        findings=(
            *(() if found else (_off(along_mm, across_mm, on_top, place),)),
            *laid_anew(plan),
        ),
    )


def _is_over(under: Under, place: Place) -> bool:
    return holds(ring_of(under.corners), place)


def _about_gap(plan: Plan, on_top: Iterable[Top], place: Place) -> list[Top]:
    """Return the pieces on either side of a gap: those within a gap's width of the spot."""
    most_mm = GAPS * _gap_mm(plan)
    near = [top for top in on_top if off_mm(ring_of(top.corners), place) <= most_mm]
    return near if len(near) > 1 else []


def _gap_mm(plan: Plan) -> float:
    """Return the widest gap of a plan, between rows or between ends."""
    told = [
        plan.surface.gap_most_mm if plan.surface else 0.0,
        max((row.gap_mm for row in plan.surface.rows), default=0.0) if plan.surface else 0.0,
        plan.pieces.end_gap_mm if plan.pieces else 0.0,
        plan.laying.gap_most_mm if plan.laying else 0.0,
        plan.laying.end_gap_mm if plan.laying else 0.0,
        plan.tiles.gap_most_mm if plan.tiles else 0.0,
    ]
    return max(told) or WIDEST_MM


def _bay(plan: Plan, timbers: Iterable[Under], place: Place) -> tuple[str, ...]:
    """Return the joists on either side of a spot, those right under it left out."""
    beside = list(_met(plan, timbers, place))
    before = max((its for its in beside if its.to_mm < 0), key=lambda its: its.to_mm, default=None)
    after = min(
        (its for its in beside if its.from_mm > 0), key=lambda its: its.from_mm, default=None
    )
    return tuple(its.mark for its in (before, after) if its is not None)


def _met(plan: Plan, timbers: Iterable[Under], place: Place) -> Iterable[Beside]:
    """Yield joists that a straight through the spot, square to the joists, meets."""
    axis = ray_axis(plan)
    for under in timbers:
        if under.kind in CARRYING:
            span = level_span(ring_of(under.corners), place, axis)
            if span is not None:
                yield Beside(mark=under.mark, from_mm=span[0], to_mm=span[1])


def _nearest(parts: Sequence[Under], place: Place) -> Near | None:
    """Return the nearest of some parts, of equals the first."""
    if not parts:
        return None
    off, at = min((off_mm(ring_of(its.corners), place), at) for at, its in enumerate(parts))
    return Near(mark=parts[at].mark, off_mm=round(off, 1))


def crossings(plan: Plan, top: Top, timbers: Iterable[Under]) -> Iterable[Crossing]:
    """Yield where a piece lies on some timbers, with what holds it there."""
    ring = ring_of(top.corners)
    for under in timbers:
        shared = common(ring, ring_of(under.corners))
        if shared and top.kind != "tile":
            yield Crossing(
                piece=top.mark,
                member=under.mark,
                at=spots_of([middle(shared)])[0],
                screws=screws_at(plan, top, under.mark),
                clipped=clipped_at(plan, top, under.mark),
            )


def _off(along_mm: float, across_mm: float, on_top: Iterable[Top], place: Place) -> Finding:
    off = min(off_mm(ring_of(top.corners), place) for top in on_top)
    return Finding(
        code="UPK-001",
        severity=Severity.NOTE,
        subject=f"spot {along_mm:g}, {across_mm:g}",
        message="no board lies there; measured is how far off the nearest one is",
        measured=round(off, 1),
        unit="mm",
        source=ARITHMETIC,
    )
