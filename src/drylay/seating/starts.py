"""Where a search starts: every choice of stances, with all that binds it to the deck's sides."""

from collections.abc import Iterator
from itertools import combinations, product

from attrs import frozen

from drylay.marks import exact
from drylay.seating.model import Allowances, DeckSides
from drylay.seating.search import Clash, Set, Size, Start, clash_of
from drylay.seating.spans import FAR, NEAR
from drylay.seating.things import FAR as AT_FAR
from drylay.seating.things import FREE, Apart, Thing, apart, insets
from drylay.seating.things import NEAR as AT_NEAR
from drylay.seating.zones import Stance

#: The first thing's place; before it come the deck's two sides.
FIRST = 2


@frozen(kw_only=True)
class Deck:
    """What is searched: things, sides, allowances, the grid, and the least and most of both sizes.

    Sizes are in grid steps.
    """

    things: tuple[Thing, ...]
    sides: DeckSides
    room: Allowances
    grid_320: int
    least: Size
    most: Size


def starts_of(deck: Deck) -> list[Start]:
    """Return a start for every choice of stances that differs."""
    known: dict[tuple[int, int, int, int], tuple[Apart, ...]] = {}
    return [
        Start(
            name=choice,
            places=FIRST + len(deck.things),
            bounds=(*_of_deck(deck), *_of_things(deck, choice), *_of_mirrors(deck, choice)),
            clashes=tuple(_clashes(deck, choice, known)),
        )
        for choice in _choices(deck)
    ]


def _choices(deck: Deck) -> Iterator[tuple[int, ...]]:
    """Yield every choice; of pieces alike, later ones are turned no less than earlier ones."""
    pairs = tuple(_alike(deck))
    for choice in product(*(range(len(thing.stances)) for thing in deck.things)):
        if all(choice[one] <= choice[other] for one, other in pairs):
            yield choice


def _alike(deck: Deck) -> Iterator[tuple[int, int]]:
    last: dict[str, int] = {}
    for at, thing in enumerate(deck.things):
        if thing.alike and thing.alike in last:
            yield last[thing.alike], at
        last[thing.alike] = at


def _of_deck(deck: Deck) -> Iterator[Set]:
    for axis in (0, 1):
        yield axis, NEAR, FAR, deck.least[axis]
        yield axis, FAR, NEAR, -deck.most[axis]


def _of_things(deck: Deck, choice: tuple[int, ...]) -> Iterator[Set]:
    """Yield how far each thing stays from the sides; pieces alike stand in their order along."""
    for at, thing in enumerate(deck.things):
        for axis in (0, 1):
            yield from _of_axis(deck, thing, thing.stances[choice[at]], axis, FIRST + at)
    for one, other in _alike(deck):
        if choice[one] == choice[other]:
            yield 0, FIRST + one, FIRST + other, 0


def _of_axis(deck: Deck, thing: Thing, stance: Stance, axis: int, place: int) -> Iterator[Set]:
    near, far = insets(stance, deck.sides, deck.room, axis, deck.grid_320)
    yield axis, place, FAR, far
    if thing.bound[axis] == AT_NEAR:
        yield axis, NEAR, place, 0
        yield axis, place, NEAR, 0
        return
    yield axis, NEAR, place, near
    if thing.bound[axis] == AT_FAR:
        yield axis, FAR, place, -far


def _clashes(
    deck: Deck, choice: tuple[int, ...], known: dict[tuple[int, int, int, int], tuple[Apart, ...]]
) -> Iterator[Clash]:
    for (i, one), (j, other) in combinations(enumerate(deck.things), 2):
        key = (i, choice[i], j, choice[j])
        if key not in known:
            stances = one.stances[choice[i]], other.stances[choice[j]]
            grouped = bool(one.group) and one.group == other.group
            known[key] = apart(*stances, deck.grid_320, grouped=grouped)
        for forbidden in known[key]:
            if forbidden[0] + 1 < forbidden[1] and forbidden[2] + 1 < forbidden[3]:
                yield clash_of(FIRST + i, FIRST + j, forbidden)


def _of_mirrors(deck: Deck, choice: tuple[int, ...]) -> Iterator[Set]:
    """Yield which of two pieces comes first along an axis whose mirror image is the same deck.

    They are two that stand for none alike, so that mirroring changes nothing else.
    """
    lone = [t.alike for t in deck.things]
    pair = [at for at, alike in enumerate(lone) if alike and lone.count(alike) == 1][:2]
    if len(pair) < 2:
        return
    for axis in (0, 1):
        if _is_mirrored(deck, choice, axis):
            one, other = (deck.things[at].stances[choice[at]] for at in pair)
            steps = (_wide(one, axis) - _wide(other, axis)) // deck.grid_320
            yield axis, FIRST + pair[0], FIRST + pair[1], -(-steps // 2)


def _is_mirrored(deck: Deck, choice: tuple[int, ...], axis: int) -> bool:
    sides = deck.sides
    ends = (sides.left, sides.right) if axis == 0 else (sides.house, sides.front)
    if ends[0] != ends[1] or any(thing.bound[axis] != FREE for thing in deck.things):
        return False
    chosen = (thing.stances[at] for thing, at in zip(deck.things, choice, strict=True))
    return all(_is_even(stance, axis, deck.grid_320) for stance in chosen)


def _is_even(stance: Stance, axis: int, grid_320: int) -> bool:
    """Return whether a stance is its own mirror image, and stays on the grid mirrored."""
    wide = _wide(stance, axis)
    kept = {(k.kind, k.at) for k in stance.kept}
    mirrored = set()
    for kind, at in kept:
        ends = [wide - at[axis + 2], wide - at[axis]]
        low, high = (ends[0], at[1]), (ends[1], at[3])
        flipped = (*low, *high) if axis == 0 else (at[0], ends[0], at[2], ends[1])
        mirrored.add((kind, flipped))
    return kept == mirrored and wide % grid_320 == 0


def _wide(stance: Stance, axis: int) -> int:
    return stance.deep_320 if axis else stance.wide_320


def least_area(deck: Deck) -> int:
    """Return an area in grid squares that no deck for these things can go below.

    Bodies and chairs pulled back never lie in one another, nor in a door's swing or a steps' head.
    """
    solid = {"body", "pulled back"}
    taken = sum(
        min(sum(_area(k.at) for k in s.kept if k.kind in solid) for s in thing.stances)
        for thing in deck.things
    )
    stood = [_area(t.stances[0].kept[0].at) for t in deck.things if not t.alike]
    return -(-(taken + max(stood, default=0)) // deck.grid_320**2)


def _area(at: tuple[int, int, int, int]) -> int:
    return (at[2] - at[0]) * (at[3] - at[1])


def grid_steps(length_mm: float, grid_320: int, *, up: bool) -> int:
    """Return a length in whole grid steps, up to the next or down to the last."""
    length = exact(length_mm)
    return -(-length // grid_320) if up else length // grid_320
