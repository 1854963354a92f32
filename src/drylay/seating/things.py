"""What has to find its place: pieces, doors and steps, counted in steps of the grid."""

from collections.abc import Iterator
from itertools import groupby

from attrs import evolve, frozen

from drylay.marks import exact
from drylay.seating.model import (
    Allowances,
    DeckSides,
    Door,
    FurniturePiece,
    Passage,
    StepsHead,
)
from drylay.seating.zones import Kept, Rectangle, Stance, may_overlap, stances

#: How a thing lies along one axis: anywhere, at the near side, or at the far side.
FREE, NEAR, FAR = "free", "near", "far"


@frozen(kw_only=True)
class Thing:
    """A piece, a door or the head of steps: its stances, and how it is bound along and across."""

    mark: str
    kind: str
    group: str
    stances: tuple[Stance, ...]
    bound: tuple[str, str] = (FREE, FREE)
    alike: str = ""
    count: int = 1
    each_mm: float = 0.0
    between_mm: float = 0.0


#: Two things may not have `low < other - one < high` along and across at once, in grid steps.
Apart = tuple[int, int, int, int]


def things_of(
    pieces: tuple[FurniturePiece, ...],
    sides: DeckSides,
    passages: tuple[Passage, ...],
    room: Allowances,
    grid_320: int,
) -> tuple[Thing, ...]:
    """Return all that has to find its place: doors, steps, then pieces as they are told."""
    return (
        *(_door(door, at, room, grid_320) for at, door in enumerate(sides.doors, 1)),
        *(_steps(head, at, room, grid_320) for at, head in enumerate(sides.steps, 1)),
        *(_piece(piece, passages, room) for piece in pieces),
    )


def _piece(piece: FurniturePiece, passages: tuple[Passage, ...], room: Allowances) -> Thing:
    more = tuple(wish.side for wish in passages if wish.piece == piece.mark)
    whole = evolve(piece, passages=tuple(dict.fromkeys((*piece.passages, *more))))
    found = stances(whole, room)
    return Thing(
        mark=piece.mark,
        kind=piece.kind,
        group=piece.group,
        stances=found,
        alike=f"{piece.group}|{[(s.turned_deg, s.kept) for s in found]!r}",
        count=piece.count,
        each_mm=piece.along_mm,
        between_mm=room.passage_mm if piece.count > 1 else 0.0,
    )


def _door(door: Door, at: int, room: Allowances, grid_320: int) -> Thing:
    """Return the square its leaf swings over, or the landing before it."""
    deep_mm = door.wide_mm if door.opens == "outward" else room.door_landing_mm
    return _at_side(f"door {at}", "door", door, deep_mm, grid_320)


def _steps(head: StepsHead, at: int, room: Allowances, grid_320: int) -> Thing:
    return _at_side(f"steps {at}", "steps", head, room.steps_head_mm, grid_320)


def _at_side(mark: str, kind: str, stood: Door | StepsHead, deep_mm: float, grid_320: int) -> Thing:
    """Return a rectangle along a side; a place that is told is its offset from the corner."""
    start, wide = exact(stood.from_mm or 0.0), exact(stood.wide_mm)
    deep = -(-exact(deep_mm) // grid_320) * grid_320  # the far side lies on the grid too
    along = stood.side in {"house", "front"}
    at = (start, 0, start + wide, deep) if along else (0, start, deep, start + wide)
    run = FREE if stood.from_mm is None else NEAR
    end = NEAR if stood.side in {"house", "left"} else FAR
    stance = Stance(turned_deg=0, wide_320=at[2], deep_320=at[3], kept=(Kept(kind=kind, at=at),))
    return Thing(
        mark=mark,
        kind=kind,
        group="",
        stances=(stance,),
        bound=(run, end) if along else (end, run),
    )


def insets(
    stance: Stance, sides: DeckSides, room: Allowances, axis: int, grid_320: int
) -> tuple[int, int]:
    """Return how far from the near side a stance starts at least, and the far side from it.

    Chairs keep off open sides; a clear zone only needs room where there is a guard or a wall.
    """
    near_kind, far_kind = (sides.left, sides.right) if axis == 0 else (sides.house, sides.front)
    low = [_inset(k.kind, near_kind, room, -k.at[axis]) for k in stance.kept]
    high = [_inset(k.kind, far_kind, room, k.at[axis + 2]) for k in stance.kept]
    return -(-max(low) // grid_320), -(-max(high) // grid_320)


def _inset(kind: str, side: str, room: Allowances, reach: int) -> int:
    if kind == "clear" and side == "open":
        return 0
    off = exact(room.from_open_edge_mm) if kind == "pulled back" and side == "open" else 0
    return reach + off


def apart(one: Stance, other: Stance, grid_320: int, *, grouped: bool) -> tuple[Apart, ...]:
    """Return the fewest rectangles of differences that two stances may not have.

    The difference is the other's corner less this one's. On an edge of a rectangle they touch.
    """
    found = {
        _steps_apart(mine.at, its.at, grid_320)
        for mine in one.kept
        for its in other.kept
        if not may_overlap(mine.kind, its.kind, grouped=grouped)
    }
    return tuple(sorted(_merged(found)))


def _steps_apart(one: Rectangle, other: Rectangle, grid_320: int) -> Apart:
    return (
        (one[0] - other[2]) // grid_320,
        -((other[0] - one[2]) // grid_320),
        (one[1] - other[3]) // grid_320,
        -((other[1] - one[3]) // grid_320),
    )


def _merged(found: set[Apart]) -> set[Apart]:
    """Return rectangles joined where two make one, without those that lie in another."""
    while True:
        joined = set(_joined(found))
        kept = {each for each in joined if not any(_within(each, one) for one in joined)}
        if kept == found:
            return kept
        found = kept


def _within(one: Apart, other: Apart) -> bool:
    return one != other and (
        other[0] <= one[0] and one[1] <= other[1] and other[2] <= one[2] and one[3] <= other[3]
    )


def _joined(found: set[Apart]) -> Iterator[Apart]:
    """Yield rectangles of one height that overlap as one, and those of one width."""
    turned = {(c, d, a, b) for a, b, c, d in _in_line(found)}
    return ((a, b, c, d) for c, d, a, b in _in_line(turned))


def _in_line(found: set[Apart]) -> Iterator[Apart]:
    rows = groupby(sorted(found, key=lambda each: (each[2:], each[:2])), key=lambda e: e[2:])
    for (top, bottom), row in rows:
        low = high = None
        for left, right, _, _ in row:
            if low is not None and high is not None and left < high:
                high = max(high, right)
                continue
            if low is not None and high is not None:
                yield low, high, top, bottom
            low, high = left, right
        if low is not None and high is not None:
            yield low, high, top, bottom
