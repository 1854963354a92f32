"""A mitred border: boards along every side of an outline, and the mitres where they meet."""

import math
from collections.abc import Sequence
from itertools import combinations

from attrs import frozen

from drylay.geometry import SAME_MM, Place, Ring, area_mm2, common, inset, region, to_side_mm


@frozen(kw_only=True)
class BorderBoard:
    """One board of a border on one side, before joints: its corners, outer edge first."""

    course: int
    side: int
    ring: Ring
    start_deg: float
    end_deg: float
    length_mm: float


@frozen(kw_only=True)
class BorderMitre:
    """Where the border's boards of two sides meet: all courses in one line."""

    side: int
    start: Place
    end: Place
    length_mm: float
    saw_deg: float


def border_mm(courses: int, board_mm: float, gap_mm: float) -> float:
    """Return how wide a border is: its boards and the gaps between them."""
    return courses * board_mm + max(0, courses - 1) * gap_mm


def lay_border(
    ring: Sequence[Place], *, courses: int, board_mm: float, gap_mm: float
) -> tuple[BorderBoard, ...] | None:
    """Return the border's boards, course by course; None where a side is too short for them."""
    if short_side(ring, wide_mm=border_mm(courses, board_mm, gap_mm)) is not None:
        return None
    boards = []
    for course in range(courses):
        off = course * (board_mm + gap_mm)
        outer = inset(ring, [off] * len(ring))
        inner = inset(ring, [off + board_mm] * len(ring))
        boards += [_board(course, side, outer, inner) for side in range(len(ring))]
    return tuple(boards)


def short_side(ring: Sequence[Place], *, wide_mm: float) -> tuple[int, float, float] | None:
    """Return the side that is most too short for a border so wide, its length, and the least.

    The mitres at its two corners meet where a side is only as long as the border's width over the
    tangents of half the corners' angles: plane geometry. None where all sides are longer.
    """
    shorts = []
    for side, start in enumerate(ring):
        after = (side + 1) % len(ring)
        halves = (corner_deg(ring, side) / 2, corner_deg(ring, after) / 2)
        least = sum(wide_mm / math.tan(math.radians(half)) for half in halves)
        shorts.append((math.dist(start, ring[after]) - least, side, least))
    spare, side, least = min(shorts)
    return None if spare > SAME_MM or not wide_mm else (side, spare + least, least)


@frozen(kw_only=True)
class Squeeze:
    """Where an outline leaves no field inside its border: by one side, or between two.

    One side is `length_mm` long, or two are so far apart; more than `least_mm` is wanted.
    """

    sides: tuple[int, ...]
    length_mm: float
    least_mm: float


def squeeze_of(ring: Sequence[Place], off_mm: Sequence[float]) -> Squeeze | None:
    """Return where sides moved inwards by so much each make no ring; None where they do."""
    inner = inset(ring, [off + SAME_MM for off in off_mm])
    if region(inner).is_valid and area_mm2(inner) > 0:
        return None
    sides = [(start, ring[(at + 1) % len(ring)]) for at, start in enumerate(ring)]
    bands = []
    for at, (start, end) in enumerate(sides):
        near, far = inner[at], inner[(at + 1) % len(ring)]
        run, length = _unit(start, end), math.dist(start, end)
        left = _along(run, near, far)
        if left <= 0:
            return Squeeze(sides=(at,), length_mm=length, least_mm=length - left)
        bands.append(region((start, end, far, near)))
    laps = {
        (one, other): common(bands[one], bands[other]).area
        for one, other in combinations(range(len(ring)), 2)
        if 1 < other - one < len(ring) - 1
    }
    one, other = max(laps, key=lambda pair: laps[pair], default=(0, 0))
    if not laps.get((one, other)):
        return None
    return Squeeze(
        sides=(one, other),
        length_mm=_apart(sides[one], sides[other]),
        least_mm=off_mm[one] + off_mm[other],
    )


def _apart(one: tuple[Place, Place], other: tuple[Place, Place]) -> float:
    """Return the least way between two sides, which do not cross."""
    ends = [(end, other) for end in one] + [(end, one) for end in other]
    return min(to_side_mm(end, *side) for end, side in ends)


def _board(course: int, side: int, outer: Ring, inner: Ring) -> BorderBoard:
    after = (side + 1) % len(outer)
    corners = (outer[side], outer[after], inner[after], inner[side])
    run = _unit(outer[side], outer[after])
    reach = [_along(run, outer[side], place) for place in corners]
    wide = math.dist(*_foot(run, outer[side], inner[side]))
    return BorderBoard(
        course=course,
        side=side,
        ring=corners,
        start_deg=math.degrees(math.atan2(reach[3] - reach[0], wide)),
        end_deg=math.degrees(math.atan2(reach[2] - reach[1], wide)),
        length_mm=max(reach) - min(reach),
    )


def mitres(ring: Sequence[Place], *, wide_mm: float) -> tuple[BorderMitre, ...]:
    """Return the mitre at each corner, from the outline's corner inwards.

    Its length is the border's width over the sine of half the corner's angle: plane geometry.
    """
    inner = inset(ring, [wide_mm] * len(ring))
    found = []
    for at in range(len(ring)):
        half = corner_deg(ring, at) / 2
        found.append(
            BorderMitre(
                side=at,
                start=ring[at],
                end=inner[at],
                length_mm=math.dist(ring[at], inner[at]),
                saw_deg=90 - half,
            )
        )
    return tuple(found)


def corner_deg(ring: Sequence[Place], at: int) -> float:
    """Return the angle inside a ring at one of its corners, over 180 where it is re-entrant."""
    (x0, y0), (x1, y1), (x2, y2) = ring[at - 1], ring[at], ring[(at + 1) % len(ring)]
    ahead = math.atan2(y2 - y1, x2 - x1)
    back = math.atan2(y0 - y1, x0 - x1)
    return math.degrees(back - ahead) % 360


def _unit(start: Place, end: Place) -> Place:
    long = math.dist(start, end)
    return ((end[0] - start[0]) / long, (end[1] - start[1]) / long)


def _along(run: Place, start: Place, place: Place) -> float:
    return (place[0] - start[0]) * run[0] + (place[1] - start[1]) * run[1]


def _foot(run: Place, start: Place, place: Place) -> tuple[Place, Place]:
    """Return a place and the foot of its square to a line."""
    reach = _along(run, start, place)
    return place, (start[0] + reach * run[0], start[1] + reach * run[1])
