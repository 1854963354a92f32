"""Outlines for laws: sums of rectangles that share sides, and stars of corners about a middle."""

from math import cos, pi, sin

from hypothesis import strategies as st

from drylay.brief.outline_model import OutlinePoint, OutlineRectangle, OutlineWish
from drylay.rings import clashing_sides, is_straight, twice_area
from drylay.shapes import Shape, of_loop, of_points, traced_of

KINDS = ("house", "open", "boundary", "pool")


def rectangle(low: tuple[float, float], size: tuple[float, float], **more) -> OutlineRectangle:
    return OutlineRectangle(
        from_along_mm=low[0], from_across_mm=low[1], along_mm=size[0], across_mm=size[1], **more
    )


@st.composite
def sums(draw: st.DrawFn) -> OutlineWish:
    """An oblong with a wing on either of two sides, and a corner or a bay taken out of it."""
    steps = st.integers(2, 60).map(lambda count: count * 50.0)
    along, across, wing, out = (draw(steps) + 1000 for _ in range(4))
    found = [rectangle((0, 0), (along, across), side=draw(st.sampled_from([None, *KINDS])))]
    if draw(st.booleans()):
        found += [rectangle((along, draw(st.sampled_from([-700.0, 0.0, 50.0]))), (wing, out))]
    if draw(st.booleans()):
        found += [rectangle((300, across), (along - 500, out), side="boundary")]
    if draw(st.booleans()):
        found += [rectangle((200, 0), (400, 300), how="take", side="house")]
    return OutlineWish(rectangles=tuple(found))


@st.composite
def stars(draw: st.DrawFn) -> OutlineWish:
    """Corners about a middle, each at its own distance: simple whatever these are."""
    count = draw(st.integers(3, 9))
    far = draw(st.lists(st.integers(900, 4000), min_size=count, max_size=count))
    kinds = draw(st.lists(st.sampled_from(KINDS), min_size=count, max_size=count))
    points = tuple(
        OutlinePoint(
            along_mm=float(round(2000 + r * cos(2 * pi * k / count + 0.3))),
            across_mm=float(round(1500 + r * sin(2 * pi * k / count + 0.3))),
            side=kind,
        )
        for k, (r, kind) in enumerate(zip(far, kinds, strict=True))
    )
    return OutlineWish(points=points)


def is_sound(wish: OutlineWish) -> bool:
    """Whether a star has not come out with corners in line, or folded."""
    ring = of_points(wish.points).corners
    straight = any(is_straight(ring, at) for at in range(len(ring)))
    return bool(twice_area(ring)) and not straight and not clashing_sides(ring)


def wishes() -> st.SearchStrategy[OutlineWish]:
    return sums() | stars().filter(is_sound)


def pointed(shape: Shape) -> OutlineWish:
    """The same outline told by its corners."""
    return OutlineWish(
        points=tuple(
            OutlinePoint(along_mm=x / 320, across_mm=y / 320, side=kind, faced=faced)
            for (x, y), (kind, faced) in zip(shape.corners, shape.labels, strict=True)
        )
    )


def loop_of(wish: OutlineWish) -> Shape:
    (loop,) = traced_of(wish.rectangles).loops
    return of_loop(loop)
