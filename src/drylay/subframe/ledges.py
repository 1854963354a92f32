"""Ledges: the timbers inside a hatch's hole that its panel's boards end on."""

from collections.abc import Callable, Iterator, Sequence
from itertools import permutations

from attrs import evolve, frozen

from drylay.subframe.bearing import loose_ends
from drylay.subframe.plane import Axis, Corners, Place, along, axis_through, beside, moved, spread
from drylay.subframe.strips import free_parts
from drylay.subframe.wants import Placed, Timber

#: From how far before a side of a hole its ledge is looked for, in mm.
BEFORE_MM = 1e5
#: By how much rounding alone may set a side of a hole aslant, in mm.
ASKEW_MM = 0.05
#: How many timbers to the inside of a side the middle of one stands that is flush with it.
INSIDE, OUTSIDE = 0.5, -0.5
ENDS = 2
#: What is stood along the sides of a hole that lies askew, by the side's number: ledges inside, the
#: rest outside.
BESIDE = (("beside", 0), ("beside", 2))
DOUBLES = (("double", 1), ("double", 3))
LEDGES = (("ledge", 1), ("ledge", 3))

#: What is stood along which side of a hole, one after the other.
Order = tuple[tuple[str, int], ...]
#: Given what stands in the way, the joists of all lines.
Joists = Callable[[Sequence[Sequence[Place]]], list[Timber]]


@frozen(kw_only=True)
class Hole:
    """An opening's hole in the frame's own axes, and its number from 0."""

    mark: str
    number: int
    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float


def ledges(
    placed: Placed, holes: Sequence[Hole], standing: Sequence[Corners], joists: Joists
) -> list[Timber]:
    """Return the ledges of all hatches, and what stands round a hole that lies askew.

    A ledge reaches from one of the timbers that stand to the next; one with no room is left out.

    Source: docs/outline-conventions.md, Frame.
    """
    found: list[Timber] = []
    for hole in holes:
        if hole.number in placed.hatches:
            found += _of_hole(placed, hole, [*standing, *_shapes(found)], joists)
    return found


def _of_hole(
    placed: Placed, hole: Hole, standing: Sequence[Corners], joists: Joists
) -> list[Timber]:
    """Return a hatch's ledges; round one that lies askew what stands outside its sides as well.

    Which of these run on past the others is settled so that no end has to stand in an angle of two
    timbers, where no straight cut bears.
    """
    ring = placed.holes[hole.number]
    if not _is_askew((ring[0], ring[1])):
        return _stood(placed, hole, LEDGES, (standing, joists), doubled=True)
    found: list[tuple[int, list[Timber]]] = []
    for doubled in (True, False):
        for order in _orders():
            lot = _stood(placed, hole, order, (standing, joists), doubled=doubled)
            found.append((_loose(lot, standing), lot))
            if not found[-1][0]:
                return lot
    return min(found, key=lambda each: each[0])[1]


def _orders() -> Iterator[Order]:
    """Yield the orders in which timbers are stood, each running past those after it."""
    yield from ((*order, *LEDGES) for order in permutations((*BESIDE, *DOUBLES)))
    yield (*LEDGES, *DOUBLES, *BESIDE)


def _stood(
    placed: Placed,
    hole: Hole,
    order: Order,
    about: tuple[Sequence[Corners], Joists],
    *,
    doubled: bool,
) -> list[Timber]:
    """Return the timbers along the sides of a hole, in an order.

    With `doubled` off the doubles that would end in an angle are left out: they have no room there.
    """
    ring, (standing, joists) = placed.holes[hole.number], about
    found: list[Timber] = []
    for kind, number in order:
        side = (ring[number], ring[(number + 1) % len(ring)])
        stands = [*standing, *_shapes(found)]
        if kind == "beside":
            found += _beside(placed, hole, side, stands, joists)
        elif kind == "ledge":
            found += _stand(placed, hole, side, INSIDE, stands)
        else:
            outside = _stand(placed, hole, side, OUTSIDE, stands)
            found += [
                evolve(timber, kind="double")
                for timber in outside
                if doubled or not loose_ends(timber, stands)
            ]
    return found


def _loose(lot: Sequence[Timber], standing: Sequence[Corners]) -> int:
    """Return how many ends of some timbers stand against nothing."""
    stands = [*standing, *_shapes(lot)]
    return sum(len(loose_ends(timber, stands)) for timber in lot)


def _shapes(timbers: Sequence[Timber]) -> list[Corners]:
    return [timber.corners for timber in timbers]


def _stand(
    placed: Placed,
    hole: Hole,
    side: tuple[Place, Place],
    off_timbers: float,
    standing: Sequence[Corners],
) -> list[Timber]:
    """Return the timber along a side of a hole, its middle so many timbers off to the inside."""
    thick = placed.wants.timber_thickness_mm
    corners = _along(side, off_timbers * thick, thick, standing)
    if corners is None:
        return []
    return [Timber(kind="trimmer", corners=corners, side=hole.mark, number=hole.number)]


def _beside(
    placed: Placed,
    hole: Hole,
    side: tuple[Place, Place],
    standing: Sequence[Corners],
    joists: Joists,
) -> list[Timber]:
    """Return the trimmer outside a side that boards run along, and its double where it wants one.

    It carries what is left of joists between it and the timbers round the hole.
    """
    found = _stand(placed, hole, side, OUTSIDE, standing)
    stand = [*standing, *_shapes(found), *placed.holes]
    tails = [
        joist
        for joist in joists(stand)
        if any(len(loose_ends(joist, [timber.corners])) < ENDS for timber in found)
    ]
    if len(tails) > 1:
        double = _stand(placed, hole, side, OUTSIDE - 1.0, [*standing, *_shapes(found)])
        found += [evolve(timber, kind="double") for timber in double]
    return found


def panel_ends(ring: Sequence[Place]) -> tuple[tuple[Place, Place], ...]:
    """Return the two sides of a hatch's hole that boards end at, its inside to the left."""
    return (ring[1], ring[2]), (ring[3], ring[0])


def _is_askew(side: tuple[Place, Place]) -> bool:
    (u, v), (w, x) = side
    return min(abs(w - u), abs(x - v)) > ASKEW_MM


def _along(
    side: tuple[Place, Place], off_mm: float, thickness_mm: float, standing: Sequence[Corners]
) -> Corners | None:
    """Return the timber whose middle line lies so far inside a side of a hole, and as it does."""
    axis = axis_through(*side)
    middle = along(axis, side[1])[0] / 2 + BEFORE_MM
    start = beside(axis, off_mm)
    line = Axis(moved(start.origin, start.way, -BEFORE_MM), start.way)
    for part in free_parts(line, thickness_mm, standing, lambda _: True, thickness_mm):
        low, high = spread(along(line, place)[0] for place in part)
        if low < middle < high:
            return part
    return None
