"""An outline in a brief that cannot be drawn: every fault of its points or rectangles.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Iterator
from typing import TypeVar

from drylay.brief.metres import points_in_metres, rectangles_in_metres
from drylay.brief.outline_model import OutlinePoint, OutlineRectangle
from drylay.errors import Fault
from drylay.marks import exact, to_mm
from drylay.rings import (
    Place,
    Ring,
    Traced,
    apart,
    box,
    clashing_sides,
    corner_deg,
    idle,
    is_straight,
    twice_area,
)
from drylay.shapes import Shape, block_of, of_loop, of_points, traced_of

Read = dict[str, object]
Noun = TypeVar("Noun")

#: A rectangle as a fault shows how to write one.
A_RECTANGLE = "rectangles = [{ from_along_mm = 0, from_across_mm = 0, along = ..., across = ... }]"
#: More than these are not read: each is held against every other.
MOST = {"points": 200, "rectangles": 40, "wall": 100, "openings": 40}
#: No side may be shorter than this.
SIDE_LEAST_MM = 20.0
#: The box around an outline, either way.
BOX_LEAST_MM, BOX_MOST_MM = 100.0, 100_000.0
#: A corner sharper than this is not sawn or held.
CORNER_LEAST_DEG = 10.0


def found_of(read: Read, path: str, noun: type[Noun]) -> list[tuple[int, Noun]]:
    """Return what could be read of a list at a path, each with where it stands there."""
    found, places = read.get(path), read.get(f"read of {path}")
    if not isinstance(found, tuple) or not isinstance(places, tuple):
        return []
    both = zip(places, found, strict=True)
    return [(at, one) for at, one in both if isinstance(one, noun)]


def all_read(read: Read, *keys: str) -> bool:
    """Return whether all that a brief gives under these keys of `outline` could be read."""
    return not any(read.get(f"refused of outline.{key}") for key in keys)


def told(place: Place) -> str:
    """Return a place as faults name it."""
    return f"({to_mm(place[0]):g}, {to_mm(place[1]):g})"


def shape_read(read: Read) -> tuple[Shape | None, tuple[Fault, ...]]:
    """Return the outline as the brief draws it, its wall not put in; None where it has faults."""
    points = found_of(read, "outline.points", OutlinePoint)
    blocks = found_of(read, "outline.rectangles", OutlineRectangle)
    if points and blocks:
        return None, (_both(),)
    if not all_read(read, "points", "rectangles"):
        return None, ()
    if not points and not blocks:
        return None, (_neither(),)
    if len(points) > MOST["points"] or len(blocks) > MOST["rectangles"]:
        return None, ()
    faults = tuple(_of_points(read, points) if points else _of_rectangles(read, blocks))
    if faults:
        return None, faults
    if points:
        return of_points([point for _, point in points]), ()
    return of_loop(traced_of([block for _, block in blocks]).loops[0]), ()


def _both() -> Fault:
    return Fault(
        path="outline.rectangles",
        found="both points and rectangles",
        wanted="the outline told in one way",
        nearest="leave the rectangles out",
    )


def _neither() -> Fault:
    return Fault(
        path="outline",
        found="neither points nor rectangles",
        wanted="the deck's corners, or rectangles that make it up",
        nearest=A_RECTANGLE,
    )


def too_many(read: Read) -> Iterator[Fault]:
    """Yield lists of an outline that are longer than any deck has use for."""
    for key, most in MOST.items():
        count = len(found_of(read, f"outline.{key}", object))
        if count > most:
            yield Fault(
                path=f"outline.{key}", found=f"{count} of them", wanted=f"at most {most}",
                nearest="leave out what does not change the deck",
            )  # fmt: skip


def _of_points(read: Read, points: list[tuple[int, OutlinePoint]]) -> Iterator[Fault]:
    if len(points) < 3:
        yield Fault(
            path="outline.points",
            found=f"{len(points)} corner{'s' if len(points) > 1 else ''}",
            wanted="three and more",
            nearest="give every corner once, in order round the deck",
        )
        return
    metres = list(points_in_metres(read, points))
    yield from metres
    shape = of_points([point for _, point in points])
    twice = list(_twice(points, shape.corners))
    yield from twice
    if metres or twice:
        return
    crossing = list(_crossing(points, shape.corners))
    yield from crossing
    yield from _in_line(points, shape)
    if not crossing:
        yield from _sizes(shape.corners, [at for at, _ in points])
        yield from _sharp(shape.corners, [at for at, _ in points])


def _twice(points: list[tuple[int, OutlinePoint]], ring: Ring) -> Iterator[Fault]:
    first: dict[Place, int] = {}
    for (at, _), place in zip(points, ring, strict=True):
        other = first.setdefault(place, at)
        if other != at:
            last = at == points[-1][0] and other == points[0][0]
            yield Fault(
                path=f"outline.points[{at}]",
                found=f"the corner {told(place)} again, as outline.points[{other}]",
                wanted="every corner once" + (": the outline closes itself" if last else ""),
                nearest=f"leave outline.points[{at}] out",
            )


def _crossing(points: list[tuple[int, OutlinePoint]], ring: Ring) -> Iterator[Fault]:
    count = len(ring)
    for i, j in clashing_sides(ring):
        first, second = (
            f"from outline.points[{points[k][0]}] {told(ring[k])} to "
            f"outline.points[{points[(k + 1) % count][0]}] {told(ring[(k + 1) % count])}"
            for k in (i, j)
        )
        yield Fault(
            path=f"outline.points[{points[j][0]}]",
            found=f"the side {second} crosses or touches the side {first}",
            wanted="sides that meet at their corners only",
            nearest=_uncrossed(points, ring, i, j),
        )


def _uncrossed(points: list[tuple[int, OutlinePoint]], ring: Ring, i: int, j: int) -> str:
    """Return the fix for two sides that cross: corners between them told in the other order."""
    turned = (*ring[: i + 1], *reversed(ring[i + 1 : j + 1]), *ring[j + 1 :])
    if j > i + 1 and not clashing_sides(turned):
        first, last = points[i + 1][0], points[j][0]
        return f"give outline.points[{first}] to outline.points[{last}] in the other order"
    return f"measure outline.points[{points[j][0]}] again, or give corners in order round the deck"


def _in_line(points: list[tuple[int, OutlinePoint]], shape: Shape) -> Iterator[Fault]:
    """Yield corners on a straight, but where another kind of side begins there."""
    for k, (at, _) in enumerate(points):
        before, label = shape.labels[k - 1], shape.labels[k]
        if not is_straight(shape.corners, k) or (before[0] != label[0] and before[1] == label[1]):
            continue
        alike = before == label
        yield Fault(
            path=f"outline.points[{at}]",
            found=f"{told(shape.corners[k])}, in line with the corners before and after"
            + ("" if alike else ", where fascia begins or ends on a straight"),
            wanted="corners where the outline turns"
            + (", or another kind of side begins" if alike else ", or fascia all along a straight"),
            nearest=f"leave outline.points[{at}] out"
            if alike
            else f"faced = {str(before[1]).lower()} at outline.points[{at}]",
        )


def _sizes(ring: Ring, places: list[int]) -> Iterator[Fault]:
    """Yield sides too short to be any, and an outline too small or too large for a deck."""
    least = exact(SIDE_LEAST_MM)
    for k, at in enumerate(places):
        a, b = ring[k], ring[(k + 1) % len(ring)]
        if (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2 < least**2:
            yield Fault(
                path=f"outline.points[{at}]",
                found=f"a side from {told(a)} to {told(b)}",
                wanted=f"sides of {SIDE_LEAST_MM:g} mm and more",
                nearest=f"leave outline.points[{at}] out",
            )
    yield from _box(ring, "points")


def _sharp(ring: Ring, places: list[int]) -> Iterator[Fault]:
    """Yield corners too sharp, inside the deck or outside it."""
    for k, at in enumerate(places):
        angle = corner_deg(ring[k - 1], ring[k], ring[(k + 1) % len(ring)])
        if min(angle, 360 - angle) < CORNER_LEAST_DEG:
            yield Fault(
                path=f"outline.points[{at}]",
                found=f"a corner of {min(angle, 360 - angle):.3g} degrees at {told(ring[k])}",
                wanted=f"corners of {CORNER_LEAST_DEG:g} degrees and more",
                nearest=f"clip it: two corners {SIDE_LEAST_MM:g} mm apart or more in its place",
            )


def _box(ring: Ring, key: str) -> Iterator[Fault]:
    low_x, low_y, high_x, high_y = box(ring)
    for word, size in (("along", high_x - low_x), ("across", high_y - low_y)):
        if not exact(BOX_LEAST_MM) <= size <= exact(BOX_MOST_MM):
            yield Fault(
                path=f"outline.{key}",
                found=f"a deck of {to_mm(size):g} mm {word} the house"
                if word == "along"
                else f"a deck of {to_mm(size):g} mm away from the house",
                wanted=f"{BOX_LEAST_MM:g} to {BOX_MOST_MM:g} mm",
                nearest=f"give {word}_mm in mm, or {word} as a text with its unit",
            )


def _of_rectangles(read: Read, blocks: list[tuple[int, OutlineRectangle]]) -> Iterator[Fault]:
    metres = list(rectangles_in_metres(read, blocks))
    yield from metres
    if metres:
        return
    nothing = list(_taken_from_nothing(blocks))
    yield from nothing
    sum_of = traced_of([block for _, block in blocks])
    if not sum_of.loops:
        if not nothing:
            yield _gone(blocks)
        return
    faults = list(_pieces(sum_of, blocks))
    yield from faults
    if not faults:
        shape = of_loop(sum_of.loops[0])
        yield from _box(shape.corners, "rectangles")
        yield from _slivers(shape, blocks)
        yield from _part_faced(shape)


def _gone(blocks: list[tuple[int, OutlineRectangle]]) -> Fault:
    taken = [at for at, block in blocks if block.how == "take"]
    at = taken[-1] if taken else blocks[0][0]
    return Fault(
        path=f"outline.rectangles[{at}]",
        found="nothing left of the deck",
        wanted="a deck",
        nearest=f"leave outline.rectangles[{at}] out",
    )


def _taken_from_nothing(blocks: list[tuple[int, OutlineRectangle]]) -> Iterator[Fault]:
    for k in idle([block_of(block) for _, block in blocks]):
        at = blocks[k][0]
        yield Fault(
            path=f"outline.rectangles[{at}]",
            found="a rectangle taken away where no deck is so far",
            wanted="rectangles taken from those before them",
            nearest='how = "add", if it is part of the deck'
            if k == 0
            else f"leave outline.rectangles[{at}] out, or move it onto the deck",
        )


def _pieces(sum_of: Traced, blocks: list[tuple[int, OutlineRectangle]]) -> Iterator[Fault]:
    """Yield pieces that lie apart or touch at a corner, and holes."""
    last = f"outline.rectangles[{blocks[-1][0]}]"
    for place in sum_of.touching:
        yield Fault(
            path=last,
            found=f"parts of the deck that touch at the corner {told(place)} only",
            wanted="one piece, nowhere without width",
            nearest="let rectangles overlap, or share part of a side",
        )
    if sum_of.touching:
        return
    rings = [tuple(place for place, _ in loop) for loop in sum_of.loops]
    pieces = [ring for ring in rings if twice_area(ring) > 0]
    for hole in rings:
        if twice_area(hole) < 0:
            low_x, low_y, high_x, high_y = box(hole)
            yield Fault(
                path=last,
                found=f"a hole from {told((low_x, low_y))} to {told((high_x, high_y))}",
                wanted="one line round the deck",
                nearest="tell what it is for in outline.openings, or let it reach a side",
            )
    if len(pieces) > 1:
        gap = min(apart(pieces[0], other) for other in pieces[1:])
        yield Fault(
            path=last,
            found=f"{len(pieces)} pieces, {gap / exact(1):.4g} mm apart",
            wanted="one piece",
            nearest="add a rectangle that joins them, or make a brief of each",
        )


def _slivers(shape: Shape, blocks: list[tuple[int, OutlineRectangle]]) -> Iterator[Fault]:
    least = exact(SIDE_LEAST_MM)
    ring = shape.corners
    for k, a in enumerate(ring):
        b = ring[(k + 1) % len(ring)]
        if abs(b[0] - a[0]) + abs(b[1] - a[1]) < least:
            at = _last_at(blocks, a, b)
            yield Fault(
                path=f"outline.rectangles[{at}]",
                found=f"a side from {told(a)} to {told(b)}",
                wanted=f"sides of {SIDE_LEAST_MM:g} mm and more",
                nearest=f"let outline.rectangles[{at}] end where its neighbour does",
            )


def _last_at(blocks: list[tuple[int, OutlineRectangle]], a: Place, b: Place) -> int:
    """Return which rectangle has a corner at either end of a side, the last of them."""
    found = blocks[-1][0]
    for at, block in blocks:
        edges = {exact(block.from_along_mm), exact(block.from_along_mm + block.along_mm)}
        ends = {exact(block.from_across_mm), exact(block.from_across_mm + block.across_mm)}
        if any(place[0] in edges and place[1] in ends for place in (a, b)):
            found = at
    return found


def _part_faced(shape: Shape) -> Iterator[Fault]:
    """Yield straights that carry fascia in part."""
    for k, place in enumerate(shape.corners):
        before, label = shape.labels[k - 1], shape.labels[k]
        if is_straight(shape.corners, k) and before[1] != label[1]:
            yield Fault(
                path="outline.rectangles",
                found=f"fascia that begins or ends at {told(place)}, on a straight",
                wanted="fascia all along a straight",
                nearest="faced alike for all rectangles along it",
            )
