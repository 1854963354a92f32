"""Settles which stations the odd lines of a set joint on, and which the even ones."""

from attrs import frozen

from drylay.cutting.master import Master, Prices
from drylay.cutting.solver import INF

Place = tuple[int, int]  # lane, station


@frozen(kw_only=True)
class Sides:
    """Arcs barred so that no two lanes side by side joint too near; the linear optimum then."""

    barred: frozenset[int]
    prices: Prices


def settle_sides(master: Master, most: float = INF) -> Sides | None:
    """Return sides that keep lanes apart and leave a linear optimum of `most` at most.

    Found depth first: the station most lines joint on takes its place and the neighbours give
    way, or it is barred itself. None if none are found within the limit of the work.
    """
    tries = master.limits.sides
    open_ends: list[tuple[frozenset[int], frozenset[Place]]] = []
    barred: frozenset[int] = frozenset()
    settled: frozenset[Place] = frozenset()
    at = _barred_solve(master, barred, most)
    while True:
        place = None if at is None else _clashing(master, at, settled)
        if at is not None and place is None:
            break
        if at is not None and place is not None:
            open_ends.append((barred | _at(master, place), settled))
            barred, settled = barred | _too_near(master, place), settled | {place}
        elif open_ends:
            barred, settled = open_ends.pop()
        else:
            return None
        if tries == 0:
            return None
        tries -= 1
        at = _barred_solve(master, barred, most)
    return _final(master, barred | _shared_out(master, at))


def _final(master: Master, barred: frozenset[int]) -> Sides | None:
    master.hold_arcs(barred)
    prices = master.solve()
    master.hold_arcs(set())
    return None if prices is None else Sides(barred=barred, prices=prices)


def _shared_out(master: Master, prices: Prices) -> set[int]:
    """Return the arcs to bar once each station is given to one lane.

    The most used places come first, then those that would cost least to use.
    """
    shares = _shares(master, prices)
    given: list[Place] = []
    for place in sorted(_dear(master, prices).items(), key=lambda item: _order(item, shares)):
        if not any(_clash(master, place[0], other) for other in given):
            given.append(place[0])
    return {
        column
        for column, (lane, arc) in enumerate(master.arcs)
        if arc.station >= 0 and (lane, arc.station) not in given
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


def _clashing(master: Master, prices: Prices, settled: frozenset[Place]) -> Place | None:
    """Return the place with the largest share among those that clash with another lane."""
    shares = _shares(master, prices)
    clashing = [
        place
        for place in shares
        if place not in settled and any(_clash(master, place, other) for other in shares)
    ]
    return min(clashing, key=lambda place: (-round(shares[place], 6), place), default=None)


def _clash(master: Master, one: Place, other: Place) -> bool:
    pair = min(one[0], other[0]), max(one[0], other[0])
    bays = master.ready.near.get(pair, 0)
    return bays > 0 and abs(_number(master, one) - _number(master, other)) < bays


def _number(master: Master, place: Place) -> int:
    """Return the number of a place's station where all sets count in one."""
    return master.ready.lanes[place[0]].first_station + place[1]


def _too_near(master: Master, place: Place) -> set[int]:
    """Return the arcs of neighbouring lanes that joint too near a place."""
    return {
        column
        for column, (lane, arc) in enumerate(master.arcs)
        if arc.station >= 0 and _clash(master, place, (lane, arc.station))
    }


def _at(master: Master, place: Place) -> set[int]:
    return {
        column for column, (lane, arc) in enumerate(master.arcs) if (lane, arc.station) == place
    }
