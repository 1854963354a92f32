"""What stands in the way of lines and profiles: the dig, the house, boundaries, pools, trees."""

import math
from collections.abc import Iterator, Sequence

from attrs import frozen

from drylay.geometry import (
    Place,
    Region,
    all_apart,
    apart_mm,
    box,
    grown,
    hole_rings,
    inset,
    minus,
    parts_of,
    region,
    ring_of,
    shifted,
    straights_apart_mm,
    stretches,
    whole,
)
from drylay.groundwork.model import Dig
from drylay.groundwork.outlined_dig import DigSide, grown_by_margins
from drylay.outline.model import Outline, Side, Spot
from drylay.plan.model import Plan

#: How far behind its line a house, a neighbour's ground or a pool is taken to reach, and how far a
#: wall or a boundary is taken to run on straight past the deck. Assumption.
DEEP_MM = 20_000.0
#: So far a stake keeps from a wall's foot or a pool's edge, and from another profile. Common
#: practice, no source.
WALL_CLEAR_MM = 100.0
#: So far a line keeps from another line's profile, that it need not run over it. Common practice,
#: no source.
LINE_CLEAR_MM = 20.0
#: A line along a wall touches it, and is clear.
TOUCHING_MM = 1.0
#: How far a board keeps from what lies behind a side of each kind.
CLEAR_OF = {"house": WALL_CLEAR_MM, "boundary": TOUCHING_MM, "pool": WALL_CLEAR_MM}
#: What rounding leaves of nothing, in tenths of a mm.
HAIR = 1e-6

Board = tuple[Place, Place]


@frozen(kw_only=True)
class Bar:
    """An area that stops a line: what it is, and how far a board keeps from it."""

    what: str
    area: Region
    clear_mm: float


@frozen(kw_only=True)
class Around:
    """What is dug, what stops lines, and what a line would strike without being stopped by it."""

    dug: Region
    bars: tuple[Bar, ...]
    standing: tuple[tuple[str, Region], ...] = ()

    def free(self, boards: Sequence[Board], clear_mm: float) -> list[bool]:
        """Return of each profile's board whether it stands free of all that it keeps clear of."""
        kept = [(self.dug, clear_mm), *((bar.area, bar.clear_mm) for bar in self.bars)]
        return all_apart(boards, [(area, least_mm - HAIR) for area, least_mm in kept])

    def clear_down_mm(self, board: Board) -> float:
        """Return how far a board stands from what is dug, down to 0.1 mm."""
        return math.floor(apart_mm(self.dug, *board) * 10 + HAIR) / 10

    def ahead(self, start: Place, end: Place) -> tuple[float, str]:
        """Return how far on the way from one place to another a line is stopped, and by what."""
        found = []
        for bar in self.bars:
            deep = stretches(grown(bar.area, -TOUCHING_MM), start, end)
            if deep:
                spans = stretches(bar.area, start, end)
                found.append((max(one for one, _ in spans if one <= deep[0][0]), bar.what))
        return min(found, default=(math.inf, ""))


def near_any(straight: Board, others: Sequence[Board], least_mm: float) -> bool:
    """Whether a straight comes nearer to any of the others than it may."""
    return any(straights_apart_mm(straight, other) < least_mm for other in others)


def around_of(plan: Plan, boundaries: Sequence[Board]) -> Around:
    """Return what stands about the deck of a plan, and what was told of boundaries besides."""
    dig = plan.groundwork.dig if plan.groundwork else None
    if plan.outline is not None:
        return _about_outline(plan.outline, dig, _wall_gap_mm(plan), boundaries)
    assert plan.surface is not None
    cover = (plan.surface.cover_along_mm, plan.surface.cover_across_mm)
    margin, at_house = (dig.margin_mm, dig.house_margin_mm) if dig else (0.0, 0.0)
    dug = box(-margin, -at_house, cover[0] + margin, cover[1] + margin)
    bars = [_boundary(board, dug) for board in boundaries]
    if plan.site is not None and plan.site.beside_house:
        wall = -plan.site.wall_gap_mm
        house = box(-DEEP_MM, wall - DEEP_MM, cover[0] + DEEP_MM, wall)
        bars.append(Bar(what="house", area=house, clear_mm=WALL_CLEAR_MM))
    return Around(dug=dug, bars=tuple(bars))


def _wall_gap_mm(plan: Plan) -> float:
    return plan.site.wall_gap_mm if plan.site is not None and plan.site.beside_house else 0.0


def _boundary(board: Board, dug: Region) -> Bar:
    """Return the ground beyond a boundary: on the side of it where the deck is not."""
    left = _strip(board, DEEP_MM)
    right = _strip(board, -DEEP_MM)
    sides = sorted((left, right), key=lambda area: _shared(area, dug))
    return Bar(what="boundary", area=sides[0], clear_mm=CLEAR_OF["boundary"])


def _shared(area: Region, dug: Region) -> float:
    return float(dug.area - minus(dug, area).area)


def _strip(board: Board, left_mm: float) -> Region:
    start, end = board
    one, other = shifted(start, end, left_mm)
    return region((start, end, other, one))


def _about_outline(
    outline: Outline, dig: Dig | None, wall_gap_mm: float, boundaries: Sequence[Board]
) -> Around:
    dug = _dug(outline, dig)
    bars = [_boundary(board, dug) for board in boundaries]
    bars += _sides(outline, wall_gap_mm)
    standing = tuple(
        (opening.mark, grown(region(_place(spot) for spot in opening.within), -TOUCHING_MM))
        for opening in outline.openings
        if opening.kind != "hatch"
    )
    return Around(dug=dug, bars=tuple(bars), standing=standing)


def _dug(outline: Outline, dig: Dig | None) -> Region:
    """Return the outline grown by the dig's margins: roots left alone are kept clear of too."""
    return grown_by_margins(
        [
            DigSide(start_mm=_place(side.start), end_mm=_place(side.end),
                    margin_mm=_margin_mm(side, dig))
            for side in outline.sides
        ]
    )  # fmt: skip


def _margin_mm(side: Side, dig: Dig | None) -> float:
    if dig is None or side.kind in {"boundary", "pool"}:
        return 0.0
    return dig.house_margin_mm if side.kind == "house" else dig.margin_mm


def _sides(outline: Outline, wall_gap_mm: float) -> Iterator[Bar]:
    """Yield what lies behind each side that is no open ground.

    Walls and boundaries run on straight past the deck, but not where the next side is one too.
    """
    own = region(_place(side.start) for side in outline.sides)
    faces = inset(
        [_place(side.start) for side in outline.sides],
        [-wall_gap_mm if side.kind == "house" else 0.0 for side in outline.sides],
    )
    sides, ends = outline.sides, (*faces[1:], faces[0])
    for number, side in enumerate(sides):
        if side.kind not in CLEAR_OF:
            continue
        alone = [
            side.kind not in {"pool", other.kind}
            for other in (sides[number - 1], sides[(number + 1) % len(sides)])
        ]
        face = _run_on(faces[number], ends[number], *(DEEP_MM if each else 0.0 for each in alone))
        behind = minus(_strip(face, -DEEP_MM), own)
        yield Bar(what=side.kind, area=behind, clear_mm=CLEAR_OF[side.kind])


def _run_on(start: Place, end: Place, before_mm: float, after_mm: float) -> Board:
    long = math.dist(start, end)
    way = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    return (
        (start[0] - way[0] * before_mm, start[1] - way[1] * before_mm),
        (end[0] + way[0] * after_mm, end[1] + way[1] * after_mm),
    )


def _place(spot: Spot) -> Place:
    return spot.along_mm, spot.across_mm


def dig_rings(around: Around) -> tuple[tuple[Place, ...], ...]:
    """Return the rings that bound what is dug."""
    parts = parts_of(whole([around.dug]))
    return tuple(ring for part in parts for ring in (ring_of(part), *hole_rings(part)))
