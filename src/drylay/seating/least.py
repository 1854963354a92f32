"""The least deck for its furniture, by a search over a grid that leaves nothing out."""

from collections.abc import Callable, Iterable

from drylay.counting import counted
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.reasons import Source
from drylay.seating.laid import layout_of
from drylay.seating.model import (
    Allowances,
    DeckSides,
    FurniturePiece,
    LeastSize,
    Passage,
    Sized,
)
from drylay.seating.pieces import allowances
from drylay.seating.refused import refuse
from drylay.seating.search import Searched, Size, Spot, search
from drylay.seating.starts import Deck, grid_steps, least_area, starts_of
from drylay.seating.things import things_of
from drylay.seating.ways import closed_ways

#: A node is a question answered once; so many take about a quarter of a minute. Assumption.
MOST_NODES = 50_000
#: No deck for furniture is longer; where nothing bounds the search this does. Assumption.
MOST_MM = 100_000.0
BY_SEARCH = Source(kind="arithmetic", title="docs/seating.md", clause="How it searches")
PRACTICE = Source(kind="common practice", title="common practice, no source")


@counted
def least_deck(
    pieces: Iterable[FurniturePiece],
    *,
    sides: DeckSides | None = None,
    passages: Iterable[Passage] = (),
    grid_mm: float = 50.0,
    most_along_mm: float | None = None,
    most_across_mm: float | None = None,
    most_nodes: int = MOST_NODES,
) -> LeastSize:
    """Return the least and the comfortable size of a rectangle that holds all pieces in use.

    Bodies' corners and both sizes lie on the grid; on it, each is proven least, or the result tells
    how far from least it may be.

    Args:
        pieces: What stands on the deck, each under a mark of its own.
        sides: What the deck's sides are; by default a wall at the house and three open ones.
        passages: Who passes behind what, besides what the pieces tell themselves.
        grid_mm: Step of places and sizes.
        most_along_mm: The deck may be no longer along than this.
        most_across_mm: Nor deeper than this.
        most_nodes: So many nodes are opened at either level before the search is cut.

    Raises:
        InputError: Something of it cannot be meant; every fault is listed.

    Source: room for use by common practice, no source; the search is arithmetic.
    """
    asked = tuple(pieces), sides or DeckSides(), tuple(passages)
    bounds = {"most_along_mm": most_along_mm, "most_across_mm": most_across_mm}
    told = {name: value for name, value in bounds.items() if value is not None}
    refuse(*asked, {"grid_mm": grid_mm, **told})
    most_mm = (most_along_mm or MOST_MM, most_across_mm or MOST_MM)
    found = [
        _sized(asked, allowances(level), grid_mm, most_mm, most_nodes)
        for level in ("least", "comfortable")
    ]
    return LeastSize(least=found[0], comfortable=found[1])


Asked = tuple[tuple[FurniturePiece, ...], DeckSides, tuple[Passage, ...]]


def deck_of(
    asked: Asked,
    room: Allowances,
    grid_mm: float,
    most_mm: tuple[float, float],
    least_mm: tuple[float, float] = (0.0, 0.0),
) -> Deck:
    """Return what is searched, within sizes of which the least go up and the most down."""
    grid = exact(grid_mm)
    pieces, sides, passages = asked
    return Deck(
        things=things_of(pieces, sides, passages, room, grid),
        sides=sides,
        room=room,
        grid_320=grid,
        least=(grid_steps(least_mm[0], grid, up=True), grid_steps(least_mm[1], grid, up=True)),
        most=(grid_steps(most_mm[0], grid, up=False), grid_steps(most_mm[1], grid, up=False)),
    )


def _sized(
    asked: Asked,
    room: Allowances,
    grid_mm: float,
    most_mm: tuple[float, float],
    most_nodes: int,
) -> Sized:
    deck = deck_of(asked, room, grid_mm, most_mm)
    starts = starts_of(deck)
    area = search(starts, worth=smaller(deck), most_nodes=most_nodes)
    every = search(starts, worth=frontier(deck), most_nodes=most_nodes, known=area.spots)
    edge = _edge(every.spots)
    layouts = tuple(layout_of(deck, spot) for spot in edge)
    best = min(edge, key=_rank, default=None)
    bound_m2, gap_m2 = _bounds(deck, area if every.open_sizes else every, best)
    return Sized(
        level=room.level,
        best=layouts[edge.index(best)] if best else None,
        layouts=layouts,
        grid_mm=grid_mm,
        proven=not area.open_sizes or not every.open_sizes,
        all_seen=not every.open_sizes,
        nodes=area.nodes + every.nodes,
        most_nodes=most_nodes,
        bound_m2=bound_m2,
        gap_m2=gap_m2,
        allowances=room,
        findings=(
            *_remarks(asked, room, area, every, gap_m2),
            *(closed_ways(layouts[edge.index(best)], room) if best else ()),
        ),
    )


def _rank(spot: Spot) -> tuple[int, int, int]:
    """Return by what a layout is best: area, then the squarer, then the shorter along."""
    return _area(spot), abs(spot.size[0] - spot.size[1]), spot.size[0]


def _area(spot: Spot) -> int:
    return spot.size[0] * spot.size[1]


def _edge(spots: tuple[Spot, ...]) -> list[Spot]:
    """Return the layouts than which none is smaller both ways, the first found of equal sizes."""
    kept: list[Spot] = []
    for spot in sorted(spots, key=lambda each: each.size):
        if not kept or spot.size[1] < kept[-1].size[1]:
            kept.append(spot)
    return kept


def _bounds(deck: Deck, found: Searched, best: Spot | None) -> tuple[float, float]:
    """Return the area in m2 that no layout goes below, and how far the best is above it.

    It is the best's own where all was looked at.
    """
    floor = least_area(deck)
    open_areas = [max(floor, along * across) for along, across in found.open_sizes]
    bound = min([*open_areas, *([_area(best)] if best else [])], default=floor)
    over = _area(best) - bound if best else 0
    square_m2 = (to_mm(deck.grid_320) / 1000) ** 2
    return round(bound * square_m2, 6), round(over * square_m2, 6)


def smaller(deck: Deck) -> Callable[[Size, list[Spot]], bool]:
    """Return the question whether a deck no smaller than a size could have the least area yet."""
    floor = least_area(deck)

    def worth(size: Size, found: list[Spot]) -> bool:
        return not found or max(floor, size[0] * size[1]) < _area(found[-1])

    return worth


def frontier(deck: Deck) -> Callable[[Size, list[Spot]], bool]:
    """Return the question whether a deck no smaller than a size could be new on the frontier.

    It could where some size not yet beaten both ways has the area that furniture takes at least.
    """
    floor, most = least_area(deck), deck.most
    corners: list[Size] = [most]
    seen = 0

    def worth(size: Size, found: list[Spot]) -> bool:
        nonlocal corners, seen
        if seen != len(found):
            corners, seen = _corners(found, most), len(found)
        along, across = size
        for wide, deep in corners:
            if wide >= along and deep >= across and wide * deep >= floor:
                return True
        return False

    return worth


def _corners(found: list[Spot], most: Size) -> list[Size]:
    """Return the largest sizes that no layout found beats both ways."""
    corners, deep = [], most[1]
    for spot in _edge(tuple(found)):
        corners.append((spot.size[0] - 1, deep))
        deep = spot.size[1] - 1
    return [*corners, (most[0], deep)]


def _remarks(
    asked: Asked, room: Allowances, area: Searched, every: Searched, gap_m2: float
) -> Iterable[Finding]:
    if area.open_sizes and every.open_sizes:
        yield cut_short(f"{room.level} size", area.nodes, gap_m2)
    elif every.open_sizes:
        yield not_all_seen(f"{room.level} size", every.nodes)
    elif not every.spots:
        yield Finding(
            code="SEA-005",
            severity=Severity.STOP,
            subject=f"{room.level} size",
            message="no deck within the bounds of the search holds all pieces",
            source=BY_SEARCH,
        )
    yield from hot_notes(asked[0])


def not_all_seen(subject: str, nodes: int) -> Finding:
    """Return the note that other shapes than the least in area were not all looked at."""
    return Finding(
        code="SEA-006",
        severity=Severity.NOTE,
        subject=subject,
        message=f"the least area is proven; not all other shapes were looked at in {nodes} nodes",
        source=BY_SEARCH,
    )


def cut_short(subject: str, nodes: int, gap_m2: float | None) -> Finding:
    """Return the caution of a search that was cut: how much smaller a deck might be, if known."""
    return Finding(
        code="SEA-003",
        severity=Severity.CAUTION,
        subject=subject,
        message=f"the search was cut after {nodes} nodes: a smaller deck may be there",
        measured=gap_m2,
        unit="" if gap_m2 is None else "m2",
        source=BY_SEARCH,
    )


def hot_notes(pieces: tuple[FurniturePiece, ...]) -> Iterable[Finding]:
    """Yield for every piece that burns that it stands on a mat."""
    for piece in pieces:
        if piece.hot:
            yield Finding(
                code="SEA-004",
                severity=Severity.NOTE,
                subject=piece.mark,
                message="it stands on a mat that does not burn",
                source=PRACTICE,
            )
