"""Marks inside long parts seen from above, and leaders to those that stand beside."""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from drylay.outline.model import Opening, Outline
from drylay.papers.lettering import Point
from drylay.papers.model import FINE_MM, Lettering, Line, Shape, View
from drylay.papers.outlined_view import all_at, around, line_of, moved, way_of
from drylay.papers.placing import (
    Place,
    beyond,
    first_clear,
    inside,
    nearest,
    place_of,
    places_of,
    sloped,
)
from drylay.papers.wording import clean

#: Along a part, where its mark may stand.
SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9)

#: So many rings about an opening are looked at for its name.
RINGS = 30


def mark_spots(layer: str, corners: Sequence[Point], mark: str) -> list[Lettering]:
    """Return where a mark stands inside a part: along its longest edge, at its middle height."""
    one, other = longest(corners)
    way = way_of(one, other)
    across = (-way[1], way[0])
    flat = [((x - one[0]) * way[0] + (y - one[1]) * way[1],
             (x - one[0]) * across[0] + (y - one[1]) * across[1]) for x, y in corners]  # fmt: skip
    low, high = min(t for t, _ in flat), max(t for t, _ in flat)
    middle = (min(n for _, n in flat) + max(n for _, n in flat)) / 2
    spots = [
        sloped(Lettering(layer=layer, x_mm=x, y_mm=y, text=mark, knocked=True), one, other)
        for share in SHARES
        for x, y in [moved(moved(one, way, low + (high - low) * share), across, middle)]
    ]
    return [spot for spot in spots if inside(spot, corners)]


def longest(corners: Sequence[Point]) -> tuple[Point, Point]:
    """Return the ends of a shape's longest edge."""
    count = len(corners)
    edges = [(corners[n], corners[(n + 1) % count]) for n in range(count)]
    return max(edges, key=lambda e: round((e[1][0] - e[0][0]) ** 2 + (e[1][1] - e[0][1]) ** 2, 3))


def leader(layer: str, point: Point, text: Lettering) -> Line:
    """Return a thin line from a point to the nearest edge of a text."""
    return line_of(layer, point, nearest(text, point), FINE_MM)


def opening_texts(
    view: View, outline: Outline, taken: list[Place], beside: tuple[str, ...] = (), *,
    keep_off: Sequence[Place] = (), short: AbstractSet[str] = frozenset(),
) -> list[Shape]:  # fmt: skip
    """Return what each opening is: inside it where that fits, else beside it with a leader.

    Kinds named in `beside` hold marks of their own: their texts stand beside them, off all of
    `keep_off` where there is room. Of openings named in `short` the mark alone will do.
    """
    taken += [place_of(all_at(view, opening.corners)) for opening in outline.openings
              if _too_small(view, opening)]  # fmt: skip
    shapes: list[Shape] = []
    for opening in outline.openings:
        names = _names(opening, short=opening.mark in short)
        found = _inside(view, opening, [] if opening.kind in beside else names, taken)
        outer = names[-1] if opening.mark in short else names[0]
        shapes += found or _outside(view, opening, outer, taken, keep_off)
    return shapes


def _too_small(view: View, opening: Opening) -> bool:
    """Whether an opening holds no text at all, so that none is put over it."""
    corners = all_at(view, opening.corners)
    spots = _middle_spots(corners, opening.mark)
    return not any(inside(spot, corners) for spot in spots)


def _middle_spots(corners: tuple[Point, ...], text: str) -> list[Lettering]:
    x = sum(px for px, _ in corners) / len(corners)
    y = sum(py for _, py in corners) / len(corners)
    return [Lettering(layer="opening-names", x_mm=x, y_mm=y, text=text, knocked=True, turned=turned)
            for turned in (False, True)]  # fmt: skip


def _names(opening: Opening, *, short: bool = False) -> list[str]:
    """Return what an opening may be called, the fullest first."""
    named = f"{opening.mark} {opening.kind}"
    full = f"{named}: {clean(opening.name, 40)}" if opening.name else named
    return list(dict.fromkeys((full, named, *([opening.mark] if short else []))))


def _inside(view: View, opening: Opening, names: list[str], taken: list[Place]) -> list[Shape]:
    """Return the fullest name that fits into an opening; nothing where none does."""
    corners = all_at(view, opening.corners)
    for text in names:
        spots = [spot for spot in _middle_spots(corners, text) if inside(spot, corners)]
        found = first_clear(spots, taken)
        if found:
            return [*found]
    return []


def _outside(
    view: View, opening: Opening, name: str, taken: list[Place], keep_off: Sequence[Place]
) -> list[Shape]:  # fmt: skip
    """Return an opening's name beside it, with a leader that what is placed later keeps off."""
    corners = all_at(view, opening.corners)
    middle = _middle_spots(corners, name)[0]
    spots = [spot for spot in around(middle, steps=RINGS) if beyond(spot, corners)]
    found = first_clear(spots, [*taken, *keep_off]) or first_clear(spots, [*taken])
    lines = [leader("opening-names", _nearest(corners, text), text) for text in found]
    taken += [*places_of(lines), *places_of(found)]
    return [*lines, *found]


def _nearest(corners: Sequence[Point], text: Lettering) -> Point:
    """Return the point of the upright box about a shape that is nearest to a text's anchor."""
    across, down = [x for x, _ in corners], [y for _, y in corners]
    return min(max(text.x_mm, min(across)), max(across)), min(max(text.y_mm, min(down)), max(down))
