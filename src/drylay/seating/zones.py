"""What a piece keeps free round its body, turned any way; and what may lie in what.

Rectangles here are left, house side, right, front in counts of 1/320 mm from the body's corner
nearest the datum.
"""

from attrs import frozen

from drylay.marks import exact
from drylay.seating.model import Allowances, FurniturePiece

Rectangle = tuple[int, int, int, int]
#: Where people only pass.
WALKED = {"passage", "door", "steps"}


@frozen(kw_only=True)
class Kept:
    """One rectangle and what it is kept for."""

    kind: str
    at: Rectangle


@frozen(kw_only=True)
class Stance:
    """A piece turned one way: its body's size and all it keeps."""

    turned_deg: int
    wide_320: int
    deep_320: int
    kept: tuple[Kept, ...]


def may_overlap(one: str, other: str, *, grouped: bool = False) -> bool:
    """Return whether zones of two pieces may lie in one another.

    Ways on foot may cross, and so may the clear zones of two fires, and a passage may lead through
    one; where chairs are pulled back a passage may lie only within a group. All else is kept apart.

    Source: common practice, no source.
    """
    kinds = {one, other}
    if kinds <= WALKED or kinds in ({"clear"}, {"clear", "passage"}):
        return True
    return grouped and kinds == {"pulled back", "passage"}


def stances(piece: FurniturePiece, room: Allowances) -> tuple[Stance, ...]:
    """Return a piece turned every way that differs, unturned first.

    Source: geometry; the room kept by the allowances.
    """
    found = [_unturned(piece, room)]
    for _ in range(3 if piece.may_turn else 0):
        found.append(_turned(found[-1]))
    alike: dict[frozenset[tuple[str, Rectangle]], Stance] = {}
    for stance in found:
        alike.setdefault(frozenset((kept.kind, kept.at) for kept in stance.kept), stance)
    return tuple(alike.values())


def _unturned(piece: FurniturePiece, room: Allowances) -> Stance:
    walk, back, clear = exact(room.passage_mm), exact(room.pulled_back_mm), exact(room.clear_mm)
    wide = piece.count * exact(piece.along_mm) + (piece.count - 1) * walk
    deep = exact(piece.across_mm)
    kept = [Kept(kind="body", at=(0, 0, wide, deep))]
    kept += [Kept(kind="pulled back", at=_beside(side, wide, deep, back)) for side in piece.chairs]
    kept += _passages(piece, kept, wide, deep, walk)
    if piece.hot:
        kept.append(Kept(kind="clear", at=(-clear, -clear, wide + clear, deep + clear)))
    return Stance(turned_deg=0, wide_320=wide, deep_320=deep, kept=tuple(kept))


def _beside(side: str, wide: int, deep: int, off: int) -> Rectangle:
    """Return the strip of a width along a side of the body."""
    return {
        "house": (0, -off, wide, 0),
        "right": (wide, 0, wide + off, deep),
        "front": (0, deep, wide, deep + off),
        "left": (-off, 0, 0, deep),
    }[side]


def _passages(
    piece: FurniturePiece, kept: list[Kept], wide: int, deep: int, walk: int
) -> list[Kept]:
    """Return the ways behind sides: as long as the set with its chairs, corners included.

    They reach inward to the line of the body's side, so that one can step out beside the chairs.
    """
    left, house = min(k.at[0] for k in kept), min(k.at[1] for k in kept)
    right, front = max(k.at[2] for k in kept), max(k.at[3] for k in kept)
    outer_left = left - walk if "left" in piece.passages else left
    outer_right = right + walk if "right" in piece.passages else right
    ways = {
        "house": (outer_left, house - walk, outer_right, 0),
        "right": (wide, house, right + walk, front),
        "front": (outer_left, deep, outer_right, front + walk),
        "left": (left - walk, house, 0, front),
    }
    return [Kept(kind="passage", at=ways[side]) for side in dict.fromkeys(piece.passages)]


def _turned(stance: Stance) -> Stance:
    """Return a stance turned a quarter further: its house side faces right."""
    deep = stance.deep_320
    kept = tuple(
        Kept(kind=each.kind, at=(deep - front, left, deep - house, right))
        for each in stance.kept
        for left, house, right, front in (each.at,)
    )
    return Stance(
        turned_deg=stance.turned_deg + 90,
        wide_320=deep,
        deep_320=stance.wide_320,
        kept=kept,
    )
