"""A spot of the search as a layout: bodies, zones and sizes in mm."""

from drylay.marks import to_mm
from drylay.seating.model import Layout, Placed, Zone
from drylay.seating.search import Size, Spot
from drylay.seating.starts import FIRST, Deck
from drylay.seating.things import Thing
from drylay.seating.zones import Rectangle, Stance

MM2_PER_M2 = 1_000_000


def layout_of(deck: Deck, spot: Spot, size: Size | None = None) -> Layout:
    """Return the layout of a spot, on a deck of its own size or of a larger one."""
    wide, deep = (to_mm(steps * deck.grid_320) for steps in size or spot.size)
    stood = [_stood(deck, spot, at) for at in range(len(deck.things))]
    return Layout(
        along_mm=wide,
        across_mm=deep,
        area_m2=round(wide * deep / MM2_PER_M2, 6),
        placed=tuple(_placed(*each) for each in stood if each[0].alike),
        zones=tuple(zone for each in stood for zone in _zones(*each)),
    )


Stood = tuple[Thing, Stance, int, int]


def _stood(deck: Deck, spot: Spot, at: int) -> Stood:
    thing = deck.things[at]
    along, across = (row[FIRST + at] * deck.grid_320 for row in (spot.along, spot.across))
    return thing, thing.stances[spot.name[at]], along, across


def _placed(thing: Thing, stance: Stance, along: int, across: int) -> Placed:
    return Placed(
        piece=thing.mark,
        kind=thing.kind,
        turned_deg=float(stance.turned_deg),
        from_along_mm=to_mm(along),
        from_across_mm=to_mm(across),
        along_mm=to_mm(stance.wide_320),
        across_mm=to_mm(stance.deep_320),
        count=thing.count,
        each_mm=thing.each_mm,
        between_mm=thing.between_mm,
    )


def _zones(thing: Thing, stance: Stance, along: int, across: int) -> list[Zone]:
    return [_zone(kept.kind, thing.mark, kept.at, along, across) for kept in stance.kept]


def _zone(kind: str, mark: str, at: Rectangle, along: int, across: int) -> Zone:
    return Zone(
        kind=kind,
        piece=mark,
        from_along_mm=to_mm(along + at[0]),
        from_across_mm=to_mm(across + at[1]),
        along_mm=to_mm(at[2] - at[0]),
        across_mm=to_mm(at[3] - at[1]),
    )
