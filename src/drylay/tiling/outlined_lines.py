"""Where a course of tiles may begin in one direction of a grid, so that no side leaves a sliver.

Counts are in 1/320 mm, in the grid's axes: along the run, or to the left of it. Only sides in line
with the grid are looked at here: what a course leaves along them follows from where it begins.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from attrs import frozen

#: So many beginnings of a direction are kept to be laid out.
KEPT = 8


@frozen(kw_only=True)
class LineSide:
    """A side across a direction: where it lies, whether the deck lies beyond it, how long it is."""

    at: int
    beyond: bool
    long: int
    outer: bool = True


@frozen(kw_only=True)
class Course:
    """A tile's size in a direction, the joint after it, the least it is cut to, the saw's kerf.

    What comes off a tile is a *thin* strip where it is less than the tile is thick.
    """

    size: int
    joint: int
    least: int
    kerf: int
    thick: int

    @property
    def module(self) -> int:
        """A tile and its joint."""
        return self.size + self.joint


@frozen(kw_only=True)
class Begun:
    """A place where a course begins, and how long the sides are that it serves badly.

    `bad` lie in a joint or have one along them, `slim` leave a sliver, or less than the saw takes,
    `cut` leave a cut tile, `thin` take off a thin strip. `way` is that of a rectangle's, else "".
    """

    at: int
    bad: int
    slim: int
    cut: int
    thin: int
    way: str


def left_at(side: LineSide, course: Course, begin: int) -> int | None:
    """Return how much of a tile a side leaves, all of it where none is cut; None in a joint."""
    into = (side.at - begin) % course.module
    if side.beyond:
        return course.size - into if into < course.size else None
    return into if 0 < into <= course.size else None


def begun(sides: Sequence[LineSide], course: Course, begin: int) -> Begun:
    """Return how a course that begins at a place serves all sides across it."""
    bad = slim = cut = thin = 0
    for side in sides:
        left = left_at(side, course, begin)
        if left is None:
            bad += side.long
        elif left < course.size:
            cut += side.long
            off = course.size - left
            slim += side.long if left < course.least or off < course.kerf else 0
            thin += side.long if off < course.thick else 0
    way, at = way_of(sides, course, begin), begin % course.module
    return Begun(at=at, bad=bad, slim=slim, cut=cut, thin=thin, way=way)


def way_of(sides: Sequence[LineSide], course: Course, begin: int) -> str:
    """Return how the two outer sides of a rectangle are cut; "" where it is none."""
    outer = [side for side in sides if side.outer]
    if len(outer) != 2:
        return ""
    one, other = (left_at(side, course, begin) for side in outer)
    if one is None or other is None:
        return "set_out"
    if one == other == course.size:
        return "as_wished"
    if course.size in {one, other}:
        return "rip_last"
    return "rip_both" if abs(one - other) <= 1 else "set_out"


def beginnings(
    sides: Sequence[LineSide], course: Course, corners: Iterable[int]
) -> tuple[Begun, ...]:
    """Return the best places for a course to begin, the best first.

    At each side a course begins or ends, or is cut to the least there, or to the most that a saw
    leaves; it lies even between each two sides that face each other, and midway between any two
    of these. Without any side in line with the grid it begins or ends at the deck's corners.
    """
    module = course.module
    places = {at % module for side in sides for at in _at_side(side, course)}
    if not sides:
        places = {at % module for corner in corners for at in (corner, corner - course.size)}
    order = sorted(places)
    after = [*order[1:], *(at + module for at in order[:1])]
    places |= {(one + other) // 2 % module for one, other in zip(order, after, strict=True)}
    places |= {at % module for at in _between(sides, course)}
    found = [begun(sides, course, at) for at in sorted(places)]
    found.sort(key=lambda each: (each.bad, each.slim, each.cut, each.thin))
    named = [each for each in found[KEPT:] if each.way and each.way != "set_out"]
    return (*found[:KEPT], *named)


def _at_side(side: LineSide, course: Course) -> Iterator[int]:
    flush = side.at if side.beyond else side.at - course.size
    back = -1 if side.beyond else 1
    yield from (flush + back * off for off in (0, course.size - course.least, course.kerf))


def _between(sides: Sequence[LineSide], course: Course) -> Iterator[int]:
    """Yield where a tile's middle, or a joint's, lies midway between two sides that face."""
    ones = [side.at for side in sides if side.beyond]
    others = [side.at for side in sides if not side.beyond]
    for one, other in product(ones, others):
        yield (one + other - course.size) // 2
        yield (one + other + course.joint) // 2
