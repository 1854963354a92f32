"""What a wish's outline is as a ring: points or rectangles, and the house wall put in."""

from collections.abc import Sequence

from attrs import frozen

from drylay.brief.outline_model import OutlinePoint, OutlineRectangle, OutlineWish, WallReading
from drylay.marks import exact
from drylay.rings import (
    Block,
    Label,
    Place,
    Ring,
    Traced,
    is_straight,
    on_line,
    sides,
    traced,
    twice_area,
)

HOUSE = "house"
OPEN = "open"


@frozen(kw_only=True)
class Shape:
    """A ring, and of each of its sides its kind and whether it carries a fascia."""

    corners: Ring
    labels: tuple[Label, ...]


def place_of(along_mm: float, across_mm: float) -> Place:
    """Return a place in whole 1/320 mm."""
    return (exact(along_mm), exact(across_mm))


def of_points(points: Sequence[OutlinePoint]) -> Shape:
    """Return points as a shape, as they stand in the brief."""
    return Shape(
        corners=tuple(place_of(point.along_mm, point.across_mm) for point in points),
        labels=tuple((point.side, point.faced) for point in points),
    )


def block_of(rectangle: OutlineRectangle) -> Block:
    """Return a rectangle as it is added or taken away."""
    low = place_of(rectangle.from_along_mm, rectangle.from_across_mm)
    size = place_of(rectangle.along_mm, rectangle.across_mm)
    says = rectangle.side is not None or rectangle.faced
    return Block(
        low=low,
        high=(low[0] + size[0], low[1] + size[1]),
        adds=rectangle.how == "add",
        label=(rectangle.side or "", rectangle.faced) if says else None,
    )


def traced_of(rectangles: Sequence[OutlineRectangle]) -> Traced:
    """Return what rectangles add up to."""
    return traced([block_of(rectangle) for rectangle in rectangles])


def of_loop(loop: Sequence[tuple[Place, Label | None]]) -> Shape:
    """Return a loop as a shape: a side nothing is said of is the house's on its line, else open."""
    corners = tuple(place for place, _ in loop)
    labels = tuple(
        _told(label, a, b)
        for (_, label), (a, b) in zip(loop, sides(corners), strict=True)
    )  # fmt: skip
    return tidied(Shape(corners=corners, labels=labels))


def _told(label: Label | None, a: Place, b: Place) -> Label:
    kind, faced = label or ("", False)
    if kind:
        return kind, faced
    return (HOUSE, False) if a[1] == b[1] == 0 else (OPEN, faced)


def wall_sides(shape: Shape) -> tuple[int, ...]:
    """Return the house's sides that lie on the line along which a wall is read."""
    return tuple(
        at
        for at, (a, b) in enumerate(sides(shape.corners))
        if shape.labels[at][0] == HOUSE and a[1] == b[1] == 0
    )


def with_wall(shape: Shape, readings: Sequence[WallReading]) -> Shape:
    """Return a shape whose sides along the house wall follow it as it was read."""
    if not readings:
        return shape
    read = [place_of(reading.along_mm, reading.off_mm) for reading in readings]
    walls = set(wall_sides(shape))
    corners: list[Place] = []
    labels: list[Label] = []
    for at, (a, b) in enumerate(sides(shape.corners)):
        beside = at in walls or (at - 1) % len(shape.corners) in walls
        places = [(a[0], on_line(read, a[0])) if beside else a]
        if at in walls:
            places += sorted(
                (place for place in read if min(a[0], b[0]) < place[0] < max(a[0], b[0])),
                reverse=b[0] < a[0],
            )
        corners += places
        labels += [shape.labels[at]] * len(places)
    return tidied(Shape(corners=tuple(corners), labels=tuple(labels)))


def tidied(shape: Shape) -> Shape:
    """Return a shape without corners on a straight between two sides that are called alike."""
    kept = [
        at
        for at in range(len(shape.corners))
        if shape.labels[at - 1] != shape.labels[at] or not is_straight(shape.corners, at)
    ]
    return Shape(
        corners=tuple(shape.corners[at] for at in kept),
        labels=tuple(shape.labels[at] for at in kept),
    )


def rounded(shape: Shape) -> Shape:
    """Return a shape that runs round from the corner nearest the datum corner.

    Of two as near it begins at the one with the lesser along, then the lesser across.
    """
    corners, labels = shape.corners, shape.labels
    if twice_area(corners) < 0:
        corners = (corners[0], *reversed(corners[1:]))
        labels = tuple(reversed(labels))
    first = min(
        range(len(corners)), key=lambda at: (corners[at][0] ** 2 + corners[at][1] ** 2, corners[at])
    )
    return Shape(
        corners=(*corners[first:], *corners[:first]), labels=(*labels[first:], *labels[:first])
    )


def shape_of(wish: OutlineWish) -> Shape:
    """Return a wish's outline, one that `read_brief` has taken.

    Raises:
        ValueError: The rectangles add up to more than one piece.
    """
    if wish.points:
        drawn = tidied(of_points(wish.points))
    else:
        (loop,) = traced_of(wish.rectangles).loops
        drawn = of_loop(loop)
    return rounded(with_wall(drawn, wish.wall))
