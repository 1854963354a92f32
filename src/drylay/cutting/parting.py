"""Parts a set of lines in two where no stations for odd and even lines will do for all of it.

The linear programme may let some of the odd lines joint where some of the even ones do: first
the odd ones, from some place on the even ones. Then either part has its own sides.
"""

from collections import Counter

from drylay.cutting.lanes import EACH
from drylay.cutting.master import Master, Prices
from drylay.cutting.ready import make_ready

FEW = 2  # places tried
MOST_ARCS = 6000  # of a programme with a lane for every line


def places_to_part(master: Master, prices: Prices, index: int) -> list[int]:
    """Return places from which on lines of a set may joint otherwise, the likeliest first.

    First of all every line is in a lane of its own, if the programme is then small enough.
    """
    count = master.ready.task.lines[index].count
    shares, found = master.shares(prices), Counter[int]()
    for (lane, station), others in master.clashes.items():
        one = shares[lane][station]
        both = max((shares[other][at] for other, at in others), default=0.0)
        if master.ready.lanes[lane].line == index and min(one, both) > 0.02 and one + both > 0.9:
            found[round(one * count)] += 1
    places = sorted(found, key=lambda place: (-found[place], place))
    arcs = sum(len(lane.arcs) for lane in master.ready.lanes if lane.line == index)
    own = sum(lane.line == index for lane in master.ready.lanes)
    each = [EACH] if arcs // own * count <= MOST_ARCS else []
    return [*each, *(place for place in places if 2 <= place <= count - 2)][:FEW]


def parted(master: Master, index: int, place: int) -> Master:
    """Return a programme of the same fillings, lines of a set apart from a place on."""
    ready = make_ready(master.ready.task, {index: place})
    other = Master(ready, master.limits, master.tick, master.stopped)
    other.add(master.fillings)
    return other
