"""Outlines to frame: given corners, or drawn at random as people build them."""

import math
from itertools import pairwise

from attrs import evolve
from hypothesis import assume
from hypothesis import strategies as st
from shapely import Polygon

from drylay.outline.model import Opening, Outline, Side, Spot
from drylay.subframe.wants import FrameWants

Corners = list[tuple[float, float]]


def spot(along_mm: float, across_mm: float) -> Spot:
    return Spot(along_mm=along_mm, across_mm=across_mm)


def outline_of(
    corners: Corners, faced_mm: dict[int, float] | None = None, holes: list[Corners] | None = None
) -> Outline:
    """Return an outline with these corners; sides counted from 0 are faced as told."""
    ring = [*corners, corners[0]]
    turned = [math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) % 360 for a, b in pairwise(ring)]
    sides = tuple(
        Side(
            mark=f"E{number + 1}",
            kind="open",
            start=spot(*a),
            end=spot(*b),
            length_mm=math.dist(a, b),
            corner_deg=(180 - turned[number] + turned[number - 1]) % 360,
            facing_mm=(faced_mm or {}).get(number, 0.0),
        )
        for number, (a, b) in enumerate(pairwise(ring))
    )
    openings = tuple(_opening(number, hole) for number, hole in enumerate(holes or (), start=1))
    area = Polygon(corners).area / 1e6
    return Outline(
        sides=sides,
        openings=openings,
        opening_count=len(openings),
        gross_m2=area,
        net_m2=area,
        perimeter_mm=sum(side.length_mm for side in sides),
    )


def _opening(number: int, hole: Corners) -> Opening:
    corners = tuple(spot(*corner) for corner in hole)
    return Opening(
        mark=f"O{number}",
        kind="post",
        corners=corners,
        within=corners,
        clear_mm=0.0,
        clear_least_mm=0.0,
        clear_most_mm=None,
    )


def box(along: float, across: float, length: float, width: float) -> Corners:
    return [
        (along, across),
        (along + length, across),
        (along + length, across + width),
        (along, across + width),
    ]


WANTS = FrameWants(
    timber_thickness_mm=45.0,
    most_centres_mm=400.0,
    joist_run="across",
    noggin_spacing_most_mm=1800.0,
    mark_mm=0.5,
    end_support_most_mm=100.0,
    reach_mm=9000.0,
)
#: An L round a bay window: the house corner and the bay are behind the line of the wall.
BAY_AND_WING: Corners = [
    (0, 0), (1500, 0), (1950, 450), (2850, 450), (3300, 0), (4800, 0),
    (4800, -1800), (6445, -1800), (6445, 2995), (0, 2995),
]  # fmt: skip


def sizes(least: int, most: int) -> st.SearchStrategy[float]:
    return st.integers(least * 2, most * 2).map(lambda halves: halves / 2)


@st.composite
def rectangles(draw: st.DrawFn) -> Corners:
    return box(0.0, 0.0, draw(sizes(900, 6000)), draw(sizes(900, 5000)))


@st.composite
def ells(draw: st.DrawFn) -> Corners:
    a, b, c, d = (draw(sizes(600, 3000)) for _ in range(4))
    return [(0, 0), (a + b, 0), (a + b, c), (a, c), (a, c + d), (0, c + d)]


@st.composite
def tees(draw: st.DrawFn) -> Corners:
    a, b, c = (draw(sizes(500, 2000)) for _ in range(3))
    d, e = (draw(sizes(600, 2500)) for _ in range(2))
    return [(0, 0), (a + b + c, 0), (a + b + c, d), (a + b, d), (a + b, d + e), (a, d + e),
            (a, d), (0, d)]  # fmt: skip


@st.composite
def yous(draw: st.DrawFn) -> Corners:
    a, b, c = (draw(sizes(600, 2000)) for _ in range(3))
    d, e, f = (draw(sizes(600, 2000)) for _ in range(3))
    return [(0, 0), (a + b + c, 0), (a + b + c, d + e), (a + b, d + e), (a + b, d), (a, d),
            (a, d + f), (0, d + f)]  # fmt: skip


@st.composite
def splayed(draw: st.DrawFn) -> Corners:
    """A shape with some of its corners cut off, at 45 degrees or any other angle."""
    corners = draw(st.one_of(rectangles(), ells(), tees(), yous()))
    found: Corners = []
    for number, (u, v) in enumerate(corners):
        before, after = corners[number - 1], corners[(number + 1) % len(corners)]
        if draw(st.integers(0, 3)):
            found.append((u, v))
            continue
        for end in (before, after):
            length = math.dist((u, v), end)
            part = draw(sizes(150, 250)) / length
            found.append((u + (end[0] - u) * part, v + (end[1] - v) * part))
    return found


@st.composite
def tapered(draw: st.DrawFn) -> Corners:
    """A shape with its corners moved: no side is square to another."""
    corners = draw(st.one_of(rectangles(), ells(), tees(), yous(), splayed()))
    off = st.integers(-100, 100)
    return [(u + draw(off), v + draw(off)) for u, v in corners]


@st.composite
def turned(draw: st.DrawFn) -> Corners:
    corners = draw(st.one_of(rectangles(), ells(), splayed()))
    angle = math.radians(draw(st.integers(1, 179)))
    return [
        (u * math.cos(angle) - v * math.sin(angle), u * math.sin(angle) + v * math.cos(angle))
        for u, v in corners
    ]


def shapes() -> st.SearchStrategy[Corners]:
    return st.one_of(ells(), tees(), yous(), splayed(), tapered(), turned())


@st.composite
def outlines(draw: st.DrawFn, most_holes: int = 3, per_mm: int = 320) -> Outline:
    """Draw an outline with room for its timber, faced or not, with openings clear of all."""
    corners = [(round(u * per_mm) / per_mm, round(v * per_mm) / per_mm) for u, v in draw(shapes())]
    ring = Polygon(corners)
    assume(ring.is_valid)
    room = ring.buffer(-150.0, join_style="mitre")
    assume(not room.is_empty)
    holes: list[Corners] = []
    for _ in range(draw(st.integers(0, most_holes))):
        if room.is_empty:
            break
        left, low, right, high = room.bounds
        along = draw(st.floats(left, right).map(round))
        across = draw(st.floats(low, high).map(round))
        hole = box(along, across, draw(sizes(80, 900)), draw(sizes(80, 900)))
        if room.contains(Polygon(hole)):
            holes.append(hole)
            room = room.difference(Polygon(hole).buffer(250.0, join_style="mitre"))
    faced = draw(st.sampled_from([{}, dict.fromkeys(range(len(corners)), 28.0), {0: 28.0}]))
    return outline_of(corners, faced, holes)


def quarter_turned(outline: Outline) -> Outline:
    """Return an outline turned from along towards across by 90 degrees."""
    return _moved(outline, lambda at: spot(-at.across_mm, at.along_mm), turns=False)


def mirrored(outline: Outline) -> Outline:
    """Return an outline seen in a mirror that stands across the house."""
    return _moved(outline, lambda at: spot(-at.along_mm, at.across_mm), turns=True)


def _moved(outline: Outline, to, *, turns: bool) -> Outline:
    def ring(spots):
        found = tuple(to(at) for at in spots)
        return found[::-1] if turns else found

    corners = [(at.along_mm, at.across_mm) for at in ring([side.start for side in outline.sides])]
    facings = [side.facing_mm for side in outline.sides]
    if turns:
        # the side from a corner to the next is now the one before it, the other way round
        facings = facings[::-1]
        facings = [*facings[1:], facings[0]]
    holes = [[(at.along_mm, at.across_mm) for at in ring(o.corners)] for o in outline.openings]
    return outline_of(corners, dict(enumerate(facings)), holes)


def run(wants: FrameWants, joist_run: str) -> FrameWants:
    return evolve(wants, joist_run=joist_run)
