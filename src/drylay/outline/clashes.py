"""Openings that clash: with each other, with a rim, with the outline; and where they would fit."""

from collections.abc import Iterator
from itertools import combinations

from attrs import frozen

from drylay.findings import Finding, Severity
from drylay.marks import PER_MM, exact, to_mm
from drylay.outline.model import Opening, Outline
from drylay.outline.sides import WORKS, corners_of, middle_told, ring_of
from drylay.reasons import Source
from drylay.rings import Place, Ring, apart, box, holds, inside, off_side, sides
from drylay.spaces import nearest_place, stands_in

#: Timbers between an opening and a side: the rim, and the opening's trimmer, doubled.
TO_A_SIDE = 3
#: Timbers between two openings: a doubled trimmer of each.
TO_ANOTHER = 4
ROOM = Source(kind="arithmetic", title="room for rims and doubled trimmers side by side")
WHOLE = Source(kind="assumption", title="docs/outline-conventions.md", clause="Outline")
ON_THE_DECK = Source(kind="arithmetic", title="an opening is a hole in the deck")


@frozen(kw_only=True)
class _Deck:
    """What openings are held against: the ring, what each side and each pair keeps free."""

    ring: Ring
    off_sides: tuple[int, ...]
    off_others: int
    border: int
    holes: tuple[Ring, ...]
    turned_deg: float


def clashes(
    outline: Outline, openings: tuple[Opening, ...], *, timber_mm: float, border_mm: float = 0.0
) -> tuple[Finding, ...]:
    """Return a stop for every clash of an opening, with the nearest place that works.

    OUT-001: it does not lie on the deck. OUT-002: there is no room for rim and trimmers between it
    and a side. OUT-003: nor for both openings' trimmers between it and another. OUT-005: it reaches
    into the border, which is so wide.
    """
    deck = _deck(outline, openings, timber_mm, border_mm)
    found = [one for at, each in enumerate(openings) for one in _with_sides(deck, at, each)]
    for i, j in combinations(range(len(openings)), 2):
        found += _with_another(deck, openings, i, j)
    return tuple(found)


def nearest_room(
    outline: Outline,
    openings: tuple[Opening, ...],
    at: int,
    *,
    timber_mm: float,
    border_mm: float = 0.0,
) -> Place | None:
    """Return the middle that an opening is told to be moved to, all others staying; None if none.

    In 1/320 mm, along and across the deck's own line. Source: arithmetic, as in `clashes`.
    """
    near = _near(_deck(outline, openings, timber_mm, border_mm), at, openings[at])
    return None if near is None else near[0]


def _deck(
    outline: Outline, openings: tuple[Opening, ...], timber_mm: float, border_mm: float
) -> _Deck:
    thick = exact(timber_mm)
    return _Deck(
        ring=corners_of(outline),
        off_sides=tuple(exact(side.facing_mm) + TO_A_SIDE * thick for side in outline.sides),
        off_others=TO_ANOTHER * thick,
        border=exact(border_mm),
        holes=tuple(ring_of(opening.corners) for opening in openings),
        turned_deg=outline.turned_deg,
    )


def _with_sides(deck: _Deck, at: int, opening: Opening) -> Iterator[Finding]:
    hole = deck.holes[at]
    if not holds(deck.ring, hole):
        yield Finding(
            code="OUT-001",
            severity=Severity.STOP,
            subject=opening.mark,
            message=f"{_told(opening)} does not lie on the deck: it reaches out of it by the way "
            f"told; {_nearest(deck, at, opening)}",
            measured=to_mm(round(_reach_out(deck.ring, hole))),
            limit=0.0,
            unit="mm",
            source=ON_THE_DECK,
        )
        return
    for number, (off, least) in enumerate(_ways(deck, hole), start=1):
        if off < least:
            yield Finding(
                code="OUT-002",
                severity=Severity.STOP,
                subject=opening.mark,
                message=f"{_told(opening)} is too near side E{number} for the rim and a doubled "
                f"trimmer; {_nearest(deck, at, opening)}",
                measured=to_mm(int(off)),
                limit=to_mm(least),
                unit="mm",
                source=ROOM,
            )
        elif off < deck.border:
            yield _in_border(deck, at, opening, f"E{number}", off)


def _in_border(deck: _Deck, at: int, opening: Opening, side: str, off: float) -> Finding:
    return Finding(
        code="OUT-005",
        severity=Severity.STOP,
        subject=opening.mark,
        message=f"{_told(opening)} reaches into the border along side {side}, whose boards run "
        f"round whole; {_nearest(deck, at, opening)}, or fewer courses (laying.border_courses)",
        measured=to_mm(int(off)),
        limit=to_mm(deck.border),
        unit="mm",
        source=WHOLE,
    )


def _ways(deck: _Deck, hole: Ring) -> Iterator[tuple[float, int]]:
    """Yield how far a hole is from every side, and how far it has to be."""
    for side, least in zip(sides(deck.ring), deck.off_sides, strict=True):
        yield apart(side, hole), least


def _reach_out(ring: Ring, hole: Ring) -> float:
    """Return how far a hole reaches out of a ring, at a corner of either."""
    out = [
        min(off_side(a, b, place) for a, b in sides(ring))
        for place in hole
        if inside(ring, place) < 0
    ]
    poked = [
        min(off_side(a, b, place) for a, b in sides(hole))
        for place in ring
        if inside(hole, place) > 0
    ]
    return max([*out, *poked], default=1.0)


def _with_another(
    deck: _Deck, openings: tuple[Opening, ...], i: int, j: int
) -> Iterator[Finding]:  # fmt: skip
    one, other = deck.holes[i], deck.holes[j]
    over = holds(one, other) or holds(other, one)
    way = 0.0 if over else apart(one, other)
    if way < deck.off_others:
        does = "meets" if way == 0 else "is too near"
        yield Finding(
            code="OUT-003",
            severity=Severity.STOP,
            subject=openings[j].mark,
            message=f"{_told(openings[j])} {does} {_told(openings[i])}: between them doubled "
            f"trimmers of both have to stand; {_nearest(deck, j, openings[j])}",
            measured=to_mm(int(way)),
            limit=to_mm(deck.off_others),
            unit="mm",
            source=ROOM,
        )


def _told(opening: Opening) -> str:
    return f"the {opening.kind} {opening.name}" if opening.name else f"the {opening.kind}"


def _nearest(deck: _Deck, at: int, opening: Opening) -> str:
    """Return where an opening would fit, all others staying: told as its middle."""
    near = _near(deck, at, opening)
    if near is None:
        return "no place on this deck has room for it beside the others"
    place, by = near
    told = f"{WORKS} {middle_told(place, deck.turned_deg)}"
    if deck.turned_deg:  # the ways to it are the deck's own, not the house's
        return told
    ways = " and ".join(f"{abs(by[k]) / PER_MM:g} mm {_way(k, by[k])}" for k in (0, 1) if by[k])
    return f"{told}: {ways}"


def _near(deck: _Deck, at: int, opening: Opening) -> tuple[Place, Place] | None:
    """Return the nearest middle of an opening that has room, and the way there; None if none."""
    hole = deck.holes[at]
    low_x, low_y, high_x, high_y = box(hole)
    place = _middle(ring_of(opening.within))
    middle = ((low_x + high_x) // 2, (low_y + high_y) // 2)
    off_sides = max(*deck.off_sides, deck.border)
    room = stands_in((high_x - low_x, high_y - low_y), off_sides, deck.off_others)
    others = [other for number, other in enumerate(deck.holes) if number != at]
    near = nearest_place(deck.ring, others, middle, room)
    if near is None:
        return None
    by = (near[0] - middle[0], near[1] - middle[1])
    return (place[0] + by[0], place[1] + by[1]), by


def _middle(ring: Ring) -> Place:
    low_x, low_y, high_x, high_y = box(ring)
    return ((low_x + high_x) // 2, (low_y + high_y) // 2)


def _way(axis: int, by: int) -> str:
    if axis == 0:
        return "to the right" if by > 0 else "to the left"
    return "away from the house" if by > 0 else "towards the house"
