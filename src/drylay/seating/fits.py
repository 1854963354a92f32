"""Whether furniture fits on a cover of a given size; what is short if not, and what mends it."""

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from attrs import evolve, frozen

from drylay.counting import counted
from drylay.findings import Finding, Severity
from drylay.marks import to_mm
from drylay.seating.laid import layout_of
from drylay.seating.least import (
    BY_SEARCH,
    MOST_MM,
    MOST_NODES,
    PRACTICE,
    Asked,
    cut_short,
    deck_of,
    hot_notes,
)
from drylay.seating.model import (
    SIDES,
    Allowances,
    DeckSides,
    Fitted,
    FurniturePiece,
    Layout,
    Passage,
    Remedy,
)
from drylay.seating.pieces import allowances
from drylay.seating.refused import refuse
from drylay.seating.search import Searched, Size, Spot, search
from drylay.seating.starts import Deck, starts_of
from drylay.seating.ways import closed_ways

#: Remedies are tried with so many nodes each, and told only where they are proven. Assumption.
REMEDY_NODES = 5_000


@frozen(kw_only=True)
class _Try:
    asked: Asked
    room: Allowances
    grid_mm: float
    size_mm: tuple[float, float]
    most_nodes: int


@counted
def fits_on(
    pieces: Iterable[FurniturePiece],
    *,
    along_mm: float,
    across_mm: float,
    sides: DeckSides | None = None,
    passages: Iterable[Passage] = (),
    level: str = "least",
    grid_mm: float = 10.0,
    most_nodes: int = MOST_NODES,
) -> Fitted:
    """Return whether all pieces find room on a cover of this size, else what is short.

    What is short is that to the next size on the grid. Each remedy by itself makes all fit: so much
    more along or across, a piece turned that was told to stay as it is, a guard at an open side.

    Args:
        pieces: What stands on the deck.
        along_mm: The cover along the house; what lies beyond its last grid line is left unused.
        across_mm: The cover away from it.
        sides: As in `least_deck`.
        passages: As in `least_deck`.
        level: "least" or "comfortable" allowances.
        grid_mm: Step of places and of what is short.
        most_nodes: So many nodes are opened for each question before it is left open.

    Raises:
        InputError: Something of it cannot be meant; every fault is listed.

    Source: room for use by common practice, no source; the search is arithmetic.
    """
    asked = tuple(pieces), sides or DeckSides(), tuple(passages)
    refuse(*asked, {"grid_mm": grid_mm, "along_mm": along_mm, "across_mm": across_mm})
    one = _Try(
        asked=asked,
        room=allowances(level),
        grid_mm=grid_mm,
        size_mm=(float(along_mm), float(across_mm)),
        most_nodes=most_nodes,
    )
    deck, found = _searched(one, one.size_mm)
    if found.spots:
        layout = evolve(
            layout_of(deck, found.spots[0], deck.most), along_mm=along_mm, across_mm=across_mm
        )
        return _answer(one, found, layout=layout)
    return _short(one, found)


def _first(_size: Size, found: list[Spot]) -> bool:
    return not found


def _searched(one: _Try, most_mm: tuple[float, float]) -> tuple[Deck, Searched]:
    """Return the first layout on a deck of exactly this size."""
    deck = deck_of(one.asked, one.room, one.grid_mm, most_mm)
    deck = evolve(deck, least=deck.most)
    return deck, search(starts_of(deck), worth=_first, most_nodes=one.most_nodes)


def _fits(one: _Try) -> bool:
    return bool(_searched(one, one.size_mm)[1].spots)


def _least_along(axis: int) -> Callable[[Size, list[Spot]], bool]:
    """Return the question whether a deck could be shorter one way than the last one found."""

    def worth(size: Size, found: list[Spot]) -> bool:
        return not found or size[axis] < found[-1].size[axis]

    return worth


def _missing(one: _Try, axis: int) -> tuple[float | None, Searched]:
    """Return how much the cover lacks one way while it stays as it is the other way."""
    most_mm = [MOST_MM, MOST_MM]
    most_mm[1 - axis] = one.size_mm[1 - axis]
    deck = deck_of(one.asked, one.room, one.grid_mm, (most_mm[0], most_mm[1]))
    held = [0, 0]
    held[1 - axis] = deck.most[1 - axis]
    deck = evolve(deck, least=(held[0], held[1]))
    found = search(starts_of(deck), worth=_least_along(axis), most_nodes=one.most_nodes)
    if not found.spots:
        return None, found
    least_mm = to_mm(found.spots[-1].size[axis] * deck.grid_320)
    return round(least_mm - one.size_mm[axis], 4), found


def _short(one: _Try, found: Searched) -> Fitted:
    short, searches = zip(*(_missing(one, axis) for axis in (0, 1)), strict=True)
    nodes = found.nodes + sum(each.nodes for each in searches)
    proven = not any(each.open_sizes for each in (found, *searches))
    remedies = (*_extended(short), *_turned(one), *_guarded(one))
    answer = _answer(one, found)
    return evolve(
        answer,
        short_along_mm=short[0],
        short_across_mm=short[1],
        remedies=remedies,
        nodes=nodes,
        proven=proven,
        findings=(*_shortfalls(one, short, remedies), *_open(proven, nodes), *answer.findings),
    )


def _answer(one: _Try, found: Searched, layout: Layout | None = None) -> Fitted:
    fits = layout is not None
    return Fitted(
        along_mm=one.size_mm[0],
        across_mm=one.size_mm[1],
        level=one.room.level,
        fits=fits,
        layout=layout,
        short_along_mm=0.0 if fits else None,
        short_across_mm=0.0 if fits else None,
        remedies=(),
        grid_mm=one.grid_mm,
        proven=not found.open_sizes,
        nodes=found.nodes,
        findings=(
            *(_tight(one) if fits else ()),
            *(closed_ways(layout, one.room) if layout else ()),
            *hot_notes(one.asked[0]),
        ),
    )


def _tight(one: _Try) -> Iterator[Finding]:
    """Yield a caution where all fits at least, and not in comfort."""
    if one.room.level == "least" and not _fits(evolve(one, room=allowances("comfortable"))):
        yield Finding(
            code="SEA-002",
            severity=Severity.CAUTION,
            subject="cover",
            message="everything fits with the least room for use, and not in comfort",
            source=PRACTICE,
        )


def _open(proven: bool, nodes: int) -> Iterator[Finding]:
    if not proven:
        yield cut_short("cover", nodes, None)


def _extended(short: tuple[float | None, ...]) -> Iterator[Remedy]:
    for name, by_mm in zip(("along", "across"), short, strict=True):
        if by_mm is not None:
            told = f"extend the deck by {by_mm:g} {name}"
            yield Remedy(kind="extend", subject=name, by_mm=by_mm, message=told)


def _turned(one: _Try) -> Iterator[Remedy]:
    """Yield every piece told to stay as it is that would make all fit if it were turned."""
    pieces, sides, passages = one.asked
    for at, piece in enumerate(pieces):
        free = (*pieces[:at], evolve(piece, may_turn=True), *pieces[at + 1 :])
        if not piece.may_turn and _mends(one, (free, sides, passages)):
            told = f"turn {piece.mark}"
            yield Remedy(kind="turn", subject=piece.mark, by_mm=0.0, message=told)


def _guarded(one: _Try) -> Iterator[Remedy]:
    """Yield every open side that would make all fit with a guard."""
    pieces, sides, passages = one.asked
    for side in SIDES:
        guarded = (pieces, with_guard(sides, side), passages)
        if getattr(sides, side) == "open" and _mends(one, guarded):
            told = f"guard the {side} side"
            yield Remedy(kind="guard", subject=side, by_mm=0.0, message=told)


def with_guard(sides: DeckSides, side: str) -> DeckSides:
    """Return a deck's sides with a guard at one more."""
    guard: dict[str, Any] = {side: "guard"}
    return evolve(sides, **guard)


def _mends(one: _Try, asked: Asked) -> bool:
    return _fits(evolve(one, asked=asked, most_nodes=min(one.most_nodes, REMEDY_NODES)))


def _shortfalls(
    one: _Try, short: tuple[float | None, ...], remedies: tuple[Remedy, ...]
) -> Iterator[Finding]:
    """Yield one stop with the lesser of both figures, and everything that would mend it."""
    ways = [(by, name) for by, name in zip(short, ("along", "across"), strict=True) if by]
    mend = "; ".join(remedy.message for remedy in remedies) or "no single change mends that"
    by_mm, name = min(ways, default=(None, ""))
    told = f"short by {by_mm:g} {name}" if by_mm is not None else "the furniture does not fit"
    size_mm = None if by_mm is None else one.size_mm[0 if name == "along" else 1]
    yield Finding(
        code="SEA-001",
        severity=Severity.STOP,
        subject="cover",
        message=f"{told}: {mend}",
        measured=size_mm,
        limit=None if size_mm is None or by_mm is None else size_mm + by_mm,
        unit="mm" if size_mm is not None else "",
        source=BY_SEARCH,
    )
