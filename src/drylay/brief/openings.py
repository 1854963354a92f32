"""Openings in a brief: which sizes each needs, and whether it lies on the deck.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Iterator

from drylay.brief.drawn import all_read, found_of
from drylay.brief.outline_model import OpeningWish
from drylay.errors import Fault
from drylay.marks import exact, to_mm
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


def openings_make_sense(read: Read, shape: Shape | None) -> Iterator[Fault]:
    """Yield openings that lack a size or have one too many, or do not lie on the deck."""
    found = found_of(read, "outline.openings", OpeningWish)
    for at, wish in found:
        wrong = [*_missing(at, wish), *_too_much(at, wish)]
        yield from wrong
        if not wrong and shape is not None and all_read(read, "points", "rectangles", "wall"):
            yield from _off_the_deck(at, wish, shape.corners)


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


def _off_the_deck(at: int, wish: OpeningWish, ring: Ring) -> Iterator[Fault]:
    middle, size = place_of(wish.along_mm, wish.across_mm), _size(wish)
    if holds(ring, about(middle, size)):
        return
    large = place_of(wish.along_mm * 1000, wish.across_mm * 1000)
    if holds(ring, about(large, size)):
        yield _in_metres(at, wish)
        return
    near = nearest_place(ring, (), middle, stands_in(size, 0))
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


def _in_metres(at: int, wish: OpeningWish) -> Fault:
    along, across = (f"{way * 1000:.15g}" for way in (wish.along_mm, wish.across_mm))
    return Fault(
        path=f"outline.openings[{at}]",
        found=f"a {wish.kind} about ({wish.along_mm:g}, {wish.across_mm:g}), not all of it on the "
        "deck",
        wanted="openings within the outline, in mm: metres look to be meant",
        nearest=f"along_mm = {along}, across_mm = {across}, if metres are meant",
    )
