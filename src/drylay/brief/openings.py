"""Openings in a brief: which sizes each needs, and whether it lies on the deck.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Iterator

from drylay.brief.drawn import all_read, found_of
from drylay.brief.outline_model import OpeningWish
from drylay.errors import Fault
from drylay.marks import exact, to_mm
from drylay.own_line import shape_on_own_line, turned, turned_back
from drylay.rings import Place, Ring, about, holds
from drylay.shapes import Shape, place_of
from drylay.spaces import nearest_place, stands_in

Read = dict[str, object]

_SIZES = ("size_along_mm", "size_across_mm")
_OF_TREES = ("trunk_mm", "growth_a_year_mm", "years", "sway_mm")
#: What each kind of opening needs, and what it must not have.
_NEEDS: dict[str, tuple[str, ...]] = {
    "hatch": _SIZES,
    "tree": ("trunk_mm", "years"),
    "post": _SIZES,
    "pool": _SIZES,
}
_HAS_NOT: dict[str, tuple[str, ...]] = {
    "hatch": _OF_TREES,
    "tree": _SIZES,
    "post": _OF_TREES,
    "pool": _OF_TREES,
}
#: What a key asks for, in words.
_ASKS = {
    "size_along_mm": "how long it is along the house",
    "size_across_mm": "how long it is away from the house",
    "trunk_mm": "how thick the trunk is",
    "years": "for how many years the tree may grow before the hole is cut again",
}

#: How far inside the deck an opening is told to go that lies off it: room for a rim, doubled
#: trimmers and what is kept clear, whose timber is not known yet. Assumption.
OFF_SIDES_MM = 150.0


def openings_make_sense(read: Read, shape: Shape | None, turned_deg: float) -> Iterator[Fault]:
    """Yield openings that lack a size or have one too many, or do not lie on the deck.

    `turned_deg` is how far the deck's own line, along which their sizes are, is turned.
    """
    own = shape if shape is None or not turned_deg else shape_on_own_line(shape, turned_deg)
    found = found_of(read, "outline.openings", OpeningWish)
    for at, wish in found:
        wrong = [*_missing(at, wish), *_too_much(at, wish)]
        yield from wrong
        if not wrong and own is not None and all_read(read, "points", "rectangles", "wall"):
            yield from _off_the_deck(at, wish, own.corners, turned_deg)


def _missing(at: int, wish: OpeningWish) -> Iterator[Fault]:
    for key in _NEEDS[wish.kind]:
        if getattr(wish, key) is None:
            bare = key.removesuffix("_mm")
            example = "20" if key == "years" else '"..."'
            yield Fault(
                path=f"outline.openings[{at}].{key}",
                found=f"nothing with kind = {wish.kind}",
                wanted=_ASKS[key],
                nearest=f"{bare} = {example}, as measured" if key != "years" else "years = 20",
            )


def _too_much(at: int, wish: OpeningWish) -> Iterator[Fault]:
    for key in _HAS_NOT[wish.kind]:
        value = getattr(wish, key)
        if value is not None:
            yield Fault(
                path=f"outline.openings[{at}].{key}",
                found=f"{value:g} with kind = {wish.kind}",
                wanted=f"nothing of a {'tree' if key in _OF_TREES else 'cover, a post or a pool'}",
                nearest=f"leave {key.removesuffix('_mm')} out",
            )


def _size(wish: OpeningWish) -> Place:
    """Return the least an opening takes: a tree's trunk, the rest their own sizes."""
    along = wish.size_along_mm or wish.trunk_mm or 0.0
    return (exact(along), exact(wish.size_across_mm or along))


def _off_the_deck(
    at: int, wish: OpeningWish, ring: Ring, turned_deg: float
) -> Iterator[Fault]:  # fmt: skip
    middle, size = _own(wish.along_mm, wish.across_mm, turned_deg), _size(wish)
    if holds(ring, about(middle, size)):
        return
    large = _own(wish.along_mm * 1000, wish.across_mm * 1000, turned_deg)
    if holds(ring, about(large, size)):
        yield _in_metres(at, wish)
        return
    rooms = (stands_in(size, exact(off_mm)) for off_mm in (OFF_SIDES_MM, 0.0))
    found = (nearest_place(ring, (), middle, room) for room in rooms)
    near = next((place for place in found if place is not None), None)
    if near is not None and turned_deg:
        near = turned_back(near, turned_deg)
    told = f"({wish.along_mm:g}, {wish.across_mm:g})"
    sizes = " x ".join(f"{to_mm(way):g}" for way in size)
    yield Fault(
        path=f"outline.openings[{at}]",
        found=f"a {wish.kind} of {sizes} mm about {told}, not all of it on the deck",
        wanted="openings within the outline",
        nearest=f"along_mm = {to_mm(near[0]):g}, across_mm = {to_mm(near[1]):g}"
        if near is not None
        else "leave it out: it is larger than the deck",
    )


def _own(along_mm: float, across_mm: float, turned_deg: float) -> Place:
    place = place_of(along_mm, across_mm)
    return turned(place, turned_deg) if turned_deg else place


def _in_metres(at: int, wish: OpeningWish) -> Fault:
    along, across = (f"{way * 1000:.15g}" for way in (wish.along_mm, wish.across_mm))
    return Fault(
        path=f"outline.openings[{at}]",
        found=f"a {wish.kind} about ({wish.along_mm:g}, {wish.across_mm:g}), not all of it on the "
        "deck",
        wanted="openings within the outline, in mm: metres look to be meant",
        nearest=f"along_mm = {along}, across_mm = {across}, if metres are meant",
    )
