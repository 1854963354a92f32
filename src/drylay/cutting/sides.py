"""Settles which stations the odd lines of a set joint on, and which the even ones."""

from collections.abc import Set as AbstractSet

from attrs import frozen

from drylay.cutting.lanes import Place
from drylay.cutting.master import Master, Prices

SMALL = 1500  # arcs: a linear programme with more takes longer
SURE = 0.7  # the share of its lines from which on a lane is thought to keep a station


@frozen(kw_only=True)
class Sides:
    """Arcs barred so that no two lanes side by side joint too near; the linear optimum then."""

    barred: frozenset[int]
    prices: Prices


def settle_sides(master: Master, most: float, sets: AbstractSet[int]) -> Sides | None:
    """Return sides that keep the lanes of some sets of lines apart, at `most` in money.

    Found depth first: the station most lines joint on takes its place and the neighbours give
    way, or it is barred itself. None if none are found within the limit of the work.
    """
    tries = master.limits.sides * SMALL // max(SMALL, len(master.arcs))
    barred: frozenset[int] = frozenset()
    settled: frozenset[Place] = frozenset()
    open_ends = [(barred, settled)]
    while open_ends and tries > 0:
        tries -= 1
        barred, settled = open_ends.pop()
        at = _barred_solve(master, barred, most)
        places = [] if at is None else _clashing(master, at, settled, sets)
        if at is not None and not places:
            return _final(master, barred | _shared_out(master, at, sets))
        # tried from the end: all that are all but settled, the first alone, all but the first
        if places:
            open_ends.append((barred | _at(master, places[0]), settled))
            open_ends.append(_settled(master, barred, settled, places[:1]))
        if len(places) > 1:
            open_ends.append(_settled(master, barred, settled, places))
    return None


def _settled(
    master: Master, barred: frozenset[int], settled: frozenset[Place], places: list[Place]
) -> tuple[frozenset[int], frozenset[Place]]:
    """Return what is barred and settled once these places are given to their lanes."""
    near = (_too_near(master, place) for place in places)
    return barred.union(*near), settled | set(places)


def _final(master: Master, barred: frozenset[int]) -> Sides | None:
    master.hold_arcs(barred)
    prices = master.solve()
    master.hold_arcs(set())
    return None if prices is None else Sides(barred=barred, prices=prices)


def _shared_out(master: Master, prices: Prices, sets: AbstractSet[int]) -> set[int]:
    """Return the arcs to bar once each station is given to one lane.

    The most used places come first, then those that would cost least to use.
    """
    shares = _shares(master, prices)
    given: set[Place] = set()
    for place, _ in sorted(_dear(master, prices).items(), key=lambda item: _order(item, shares)):
        if given.isdisjoint(master.clashes[place]):
            given.add(place)
    return {
        column
        for column, (lane, arc) in enumerate(master.arcs)
        if arc.station >= 0
        and (lane, arc.station) not in given
        and master.ready.lanes[lane].line in sets
    }


def _order(item: tuple[Place, float], shares: dict[Place, float]) -> tuple[float, float, Place]:
    place, dear = item
    return -round(shares.get(place, 0.0), 6), round(dear, 6), place


def _dear(master: Master, prices: Prices) -> dict[Place, float]:
    """Return, for each place, the least reduced cost of a piece that ends in a joint there."""
    dear: dict[Place, float] = {}
    for column, (lane, arc) in enumerate(master.arcs):
        if arc.station >= 0:
            place = (lane, arc.station)
            dear[place] = min(prices.reduced[column], dear.get(place, prices.reduced[column]))
    return dear


def _barred_solve(master: Master, barred: frozenset[int], most: float) -> Prices | None:
    master.hold_arcs(barred)
    prices = master.solve()
    if prices is None or prices.unmet > 1e-6 or prices.objective > most + 0.5:
        return None
    return prices


def _shares(master: Master, prices: Prices) -> dict[Place, float]:
    """Return the share of each lane's lines that joint at each station."""
    shares: dict[Place, float] = {}
    for column, (lane, arc) in enumerate(master.arcs):
        if arc.station >= 0 and prices.values[column] > 1e-6:
            share = prices.values[column] / master.ready.lanes[lane].count
            shares[lane, arc.station] = shares.get((lane, arc.station), 0.0) + share
    return shares


def _clashing(
    master: Master, prices: Prices, settled: frozenset[Place], sets: AbstractSet[int]
) -> list[Place]:
    """Return places that clash with another lane's: the one with the largest share first.

    Others follow that most lines joint on, if they do not clash with those before.
    """
    shares = _shares(master, prices)
    clashing = [
        place
        for place in shares
        if place not in settled
        and master.ready.lanes[place[0]].line in sets
        and any(other in shares for other in master.clashes[place])
    ]
    found: list[Place] = []
    for place in sorted(clashing, key=lambda place: (-round(shares[place], 6), place)):
        sure = not found or shares[place] > SURE
        if sure and not any(other in found for other in master.clashes[place]):
            found.append(place)
    return found


def _too_near(master: Master, place: Place) -> set[int]:
    """Return the arcs of neighbouring lanes that joint too near a place."""
    return {column for other in master.clashes[place] for column in master.jointed[other]}


def _at(master: Master, place: Place) -> set[int]:
    return set(master.jointed[place])
