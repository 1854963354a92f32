"""A change of siting, made: the garden and the place as they are after it."""

from attrs import evolve

from drylay.siting.model import DeckPlace, Garden, SitingChange
from drylay.siting.near import shifted


def changed(garden: Garden, place: DeckPlace, change: SitingChange) -> tuple[Garden, DeckPlace]:
    """Return garden and place after a change; unchanged by one that only finds out or asks.

    A place that moves leaves its ground's levels behind: they are not known at the new one.
    """
    match change.kind:
        case "move":
            return garden, shifted(place, change.along_mm, change.across_mm)
        case "level":
            return garden, evolve(place, top_mm=place.top_mm + change.by_mm)
        case "legs":
            return garden, evolve(place, stands="legs")
        case "dig" if place.dig_mm is not None:
            return garden, evolve(place, dig_mm=place.dig_mm + change.by_mm)
        case "fence":
            return _fenced(garden, change), place
        case "drain":
            return _drained(garden, change.subject), place
    return garden, place


def _fenced(garden: Garden, change: SitingChange) -> Garden:
    fences = tuple(
        evolve(fence, height_mm=fence.height_mm + change.by_mm)
        if fence.name == change.subject
        else fence
        for fence in garden.fences
    )
    return evolve(garden, fences=fences)


def _drained(garden: Garden, name: str) -> Garden:
    wet = tuple(evolve(spot, outfall=True) if spot.name == name else spot for spot in garden.wet)
    low = garden.low
    if low is not None and low.name == name:
        low = evolve(low, outfall=True)
    return evolve(garden, wet=wet, low=low)
