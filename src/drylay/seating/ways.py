"""Whether one gets from the door to the steps and to every piece while chairs are pulled back."""

from collections.abc import Iterator

from attrs import frozen

from drylay.findings import Finding, Severity
from drylay.marks import exact
from drylay.reasons import Source
from drylay.seating.model import Allowances, Layout, Zone

#: A square as wide as one person is moved in such steps. Assumption.
STEP_MM = 50.0
PRACTICE = Source(kind="common practice", title="common practice, no source")
Place = tuple[int, int]
Rectangle = tuple[int, int, int, int]
#: What nobody walks through.
SOLID = {"body", "pulled back"}


@frozen(kw_only=True)
class _Floor:
    """The deck in 1/320 mm, what stands on it, and how wide one walks."""

    wide: int
    deep: int
    walker: int
    step: int
    solid: tuple[Rectangle, ...]


def closed_ways(layout: Layout, room: Allowances) -> Iterator[Finding]:
    """Yield a caution for everything that cannot be reached from the first door, or steps.

    A square as wide as a passage is moved over the deck in steps of 50 mm, past bodies and chairs
    pulled back. Without a door or steps nothing is said.

    Source: room for use by common practice, no source; that 50 mm are fine enough is an assumption.
    """
    begins = [zone for kind in ("door", "steps") for zone in layout.zones if zone.kind == kind]
    if not begins:
        return
    start, floor = begins[0], _floor(layout, room)
    reached = _reached(floor, start)
    ends: dict[str, list[Zone]] = {zone.piece: [zone] for zone in begins[1:]}
    for zone in layout.zones:
        if zone.kind in SOLID:
            ends.setdefault(zone.piece, []).append(zone)
    for name, zones in ends.items():
        if not any(_touches(place, floor.walker, _at(z)) for place in reached for z in zones):
            yield Finding(
                code="SEA-007",
                severity=Severity.CAUTION,
                subject=name,
                message=f"no way as wide as this was found to it from {start.piece} while chairs "
                "are pulled back: tell where the door is, or ask for a passage",
                measured=room.passage_mm,
                unit="mm",
                source=PRACTICE,
            )


def _floor(layout: Layout, room: Allowances) -> _Floor:
    return _Floor(
        wide=exact(layout.along_mm),
        deep=exact(layout.across_mm),
        walker=exact(room.passage_mm),
        step=exact(STEP_MM),
        solid=tuple(_at(zone) for zone in layout.zones if zone.kind in SOLID),
    )


def _at(zone: Zone) -> Rectangle:
    left, top = exact(zone.from_along_mm), exact(zone.from_across_mm)
    return left, top, left + exact(zone.along_mm), top + exact(zone.across_mm)


def _touches(place: Place, walker: int, at: Rectangle) -> bool:
    x, y = place
    return x <= at[2] and at[0] <= x + walker and y <= at[3] and at[1] <= y + walker


def _is_free(floor: _Floor, place: Place) -> bool:
    x, y = place
    right, front = x + floor.walker, y + floor.walker
    if x < 0 or y < 0 or right > floor.wide or front > floor.deep:
        return False
    return not any(
        x < at[2] and at[0] < right and y < at[3] and at[1] < front for at in floor.solid
    )


def _reached(floor: _Floor, start: Zone) -> set[Place]:
    """Return every place that is reached from those that touch where one starts."""
    begun = _at(start)
    open_places = [
        (x, y)
        for x in range(0, floor.wide, floor.step)
        for y in range(0, floor.deep, floor.step)
        if _touches((x, y), floor.walker, begun) and _is_free(floor, (x, y))
    ]
    seen = set(open_places)
    while open_places:
        x, y = open_places.pop()
        step = floor.step
        for place in ((x + step, y), (x - step, y), (x, y + step), (x, y - step)):
            if place not in seen and _is_free(floor, place):
                seen.add(place)
                open_places.append(place)
    return seen
