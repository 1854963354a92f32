"""Where members' marks stand: along them, square to them in a narrow bay, or with a leader."""

from collections.abc import Sequence

from drylay.papers.lettering import Point, width_mm
from drylay.papers.model import Lettering, Shape, View
from drylay.papers.outlined_marks import leader
from drylay.papers.outlined_view import (
    BETWEEN_WAYS,
    WAYS,
    all_at,
    around,
    at,
    moved,
    outward,
    way_of,
)
from drylay.papers.placing import (
    Place,
    first_clear,
    first_led,
    inside,
    line_place,
    places_of,
    put,
    sloped,
)
from drylay.subframe.model import Member

#: How far texts keep off members.
KEEP_MM = 0.2
#: Along a member, where its mark may stand: from its middle outwards, and looked at closely.
SHARES = tuple(0.5 + side * step / 20 for step in range(10) for side in (1, -1))
FINE_SHARES = tuple(0.5 + side * step / 150 for step in range(70) for side in (1, -1))


def strip(view: View, member: Member) -> Place:
    """Return the room that a member takes."""
    half_mm = half_mm_of(view, member) + KEEP_MM
    return line_place(at(view, member.start), at(view, member.end), half_mm)


def member_spots(view: View, member: Member) -> list[Lettering]:
    """Return where a member's mark stands: along it, or square to it in a narrow bay."""
    one, other = at(view, member.start), at(view, member.end)
    off_mm, layer = half_mm_of(view, member) + KEEP_MM, f"{member.kind}-marks"
    spots, closer = (
        beside_line(one, other, member.mark, off_mm=off_mm, layer=layer, shares=shares)
        for shares in (SHARES, FINE_SHARES)
    )
    return [*spots, *closer, *upright_spots(one, other, spots[0], off_mm)]


def led_mark(
    view: View, member: Member, taken: list[Place], texts: list[Place]
) -> list[Shape]:  # fmt: skip
    """Return a member's mark near by, with a leader that strikes no other text."""
    ends = at(view, member.start), at(view, member.end)
    return led(f"{member.kind}-marks", member.mark, ends, taken, texts)


def led(
    layer: str, mark: str, ends: tuple[Point, Point], taken: list[Place], texts: list[Place],
    *, frame: Sequence[Point] = (),
) -> list[Shape]:  # fmt: skip
    """Return a mark near the middle of a line, with a leader that strikes no other text.

    Where a frame is told the mark stands inside of it.
    """
    one, other = ends
    middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
    flat = Lettering(layer=layer, x_mm=middle[0], y_mm=middle[1], text=mark, knocked=True)
    spots = [spot for spot in around(flat, steps=24, step_mm=1.6, ways=(*WAYS, *BETWEEN_WAYS))
             if not frame or inside(spot, frame)]  # fmt: skip
    found = first_led(spots, middle, taken, texts) or first_clear(spots, taken)
    lines = [leader(layer, middle, text) for text in found]
    taken += places_of(lines)
    return [*lines, *found]


def half_mm_of(view: View, member: Member) -> float:
    """Return half a member's thickness on paper: how far its corners are off its centre line."""
    one, other = at(view, member.start), at(view, member.end)
    way = way_of(one, other)
    return max(
        abs((x - one[0]) * way[1] - (y - one[1]) * way[0]) for x, y in all_at(view, member.corners)
    )


def beside_line(
    one: Point, other: Point, text: str, *, off_mm: float, layer: str, shares: tuple[float, ...]
) -> list[Lettering]:  # fmt: skip
    """Return where a text stands along a line, beside it: so far off, at such shares of it."""
    way = way_of(one, other)
    out = outward(way)
    long = ((other[0] - one[0]) ** 2 + (other[1] - one[1]) ** 2) ** 0.5
    flat = Lettering(layer=layer, x_mm=0.0, y_mm=0.0, text=text, knocked=True)
    sloping = sloped(flat, one, other)
    return [
        put(sloping, moved(moved(one, way, long * share), out, side * (off_mm + 1.7)))
        for share in shares for side in (-1.0, 1.0)
    ]  # fmt: skip


def upright_spots(
    one: Point, other: Point, text: Lettering, off_mm: float
) -> list[Lettering]:  # fmt: skip
    """Return where a member's mark stands square to it, beside its middle: for narrow bays."""
    middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
    out = outward(way_of(one, other))
    way = way_of(one, other)
    away = off_mm + 0.8 + width_mm(text.text, text.size_mm) / 2
    turned = sloped(text, (0.0, 0.0), out)
    return [
        put(turned, moved(moved(middle, out, side * (away + more)), way, aside))
        for more in (0.0, 1.0, 2.0) for side in (-1.0, 1.0)
        for aside in (0.0, 0.6, -0.6, 1.2, -1.2, 2.4, -2.4, 4.0, -4.0)
    ]  # fmt: skip
