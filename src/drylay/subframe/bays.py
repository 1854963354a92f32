"""Bays: the open room between two neighbours that run the joists' way."""

from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.subframe.plane import NEAR_MM, Axis, Place, is_inside, spread
from drylay.subframe.sizes import is_upright
from drylay.subframe.strips import open_stretches
from drylay.subframe.wants import Placed, Timber

#: How wide the middle of a bay is looked at, in mm.
MIDDLE_MM = 0.1


@frozen
class Bay:
    """The room between two neighbours: from face to face, from `low_mm` to `high_mm` along them.

    From `first_mm` to `last_mm` nothing ties them together in the bay's middle: a little more where
    what crosses the bay is slanted, or a splice, which no joist is fixed to. `number` counts the
    left neighbour's line among all there are.
    """

    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float
    first_mm: float
    last_mm: float
    number: int


@frozen
class Upright:
    """A timber that runs the joists' way: its faces and its ends, tip to tip."""

    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float


def is_free(placed: Placed, at: Place) -> bool:
    """Return whether a place lies in the frame and outside every hole."""
    return is_inside(at, placed.ring) and not any(is_inside(at, hole) for hole in placed.holes)


def bays_of(placed: Placed, timbers: Sequence[Timber]) -> list[Bay]:
    """Return the bays at least a thickness wide, from the lowest line on.

    A bay ends where what crosses it stands, or where either neighbour is another; it goes on past
    the joints of its neighbours and their splices.
    """
    uprights = whole_uprights(timbers)
    numbers = {left: n for n, left in enumerate(sorted({one.left_mm for one in uprights}))}
    across = [timber for timber in timbers if not is_upright(timber)]
    crossing = [timber.corners for timber in across]
    ties = [timber.corners for timber in across if timber.kind != "splice"]
    least = placed.wants.timber_thickness_mm
    found = []
    for left, right, low, high in _neighbours(placed, uprights, least):
        axis = Axis(((left.right_mm + right.left_mm) / 2, low), (0.0, 1.0))
        width = right.left_mm - left.right_mm
        untied = open_stretches(axis, MIDDLE_MM, ties, high - low)
        for start, end in open_stretches(axis, width, crossing, high - low):
            first, last = next(
                ((a, b) for a, b in untied if a - MIDDLE_MM <= start and end <= b + MIDDLE_MM),
                (start, end),
            )
            reach = (low + start, low + end, low + first, low + last)
            found.append(Bay(left.right_mm, right.left_mm, *reach, numbers[left.left_mm]))
    return found


def whole_uprights(timbers: Sequence[Timber]) -> list[Upright]:
    """Return what runs the joists' way but splices; what is jointed is whole."""
    found: list[Upright] = []
    joined: list[Upright] = []
    for timber in timbers:
        if is_upright(timber) and timber.kind != "splice":
            (joined if {"joint", "splice"} & {*timber.ends} else found).append(upright_of(timber))
    for one in sorted(joined, key=lambda one: (one.left_mm, one.right_mm, one.low_mm)):
        before = found[-1] if found else None
        if before is not None and _goes_on(before, one):
            found[-1] = Upright(one.left_mm, one.right_mm, before.low_mm, one.high_mm)
        else:
            found.append(one)
    return found


def _goes_on(before: Upright, one: Upright) -> bool:
    """Return whether a timber goes on where another on its line ends."""
    apart = (
        one.left_mm - before.left_mm, one.right_mm - before.right_mm, one.low_mm - before.high_mm
    )  # fmt: skip
    return max(abs(each) for each in apart) < NEAR_MM


def upright_of(timber: Timber) -> Upright:
    """Return where a timber that runs the joists' way stands."""
    return Upright(*spread(u for u, _ in timber.corners), *spread(v for _, v in timber.corners))


def _neighbours(
    placed: Placed, uprights: Sequence[Upright], least_mm: float
) -> list[tuple[Upright, Upright, float, float]]:
    """Return neighbours with room between, and over which stretch they are."""
    levels = sorted({end for one in uprights for end in (one.low_mm, one.high_mm)})
    found: list[tuple[Upright, Upright, float, float]] = []
    still: dict[tuple[Upright, Upright], float] = {}
    for low, high in pairwise(levels):
        middle = (low + high) / 2
        here = sorted(
            (one for one in uprights if one.low_mm < middle < one.high_mm),
            key=lambda one: (one.left_mm, one.right_mm),
        )
        pairs = {
            pair
            for pair in pairwise(here)
            if pair[1].left_mm - pair[0].right_mm >= least_mm
            and is_free(placed, ((pair[0].right_mm + pair[1].left_mm) / 2, middle))
        }
        for pair in [pair for pair in still if pair not in pairs]:
            found.append((*pair, still.pop(pair), low))
        for pair in pairs:
            still.setdefault(pair, low)
    found += [(*pair, low, levels[-1]) for pair, low in still.items()]
    return sorted(found, key=lambda one: (one[0].left_mm, one[2]))
