"""Zones and clashes worked out a second way: from where bodies stand, by turning names of sides."""

from itertools import combinations, product

from drylay.seating.model import Allowances, DeckSides, FurniturePiece, Layout, Passage

SIDES = ("house", "right", "front", "left")
Rect = tuple[float, float, float, float]
Kept = tuple[str, Rect]


def turned(side: str, quarters: int) -> str:
    return SIDES[(SIDES.index(side) + quarters) % 4]


def kept_by(piece: FurniturePiece, at: Rect, quarters: int, room: Allowances) -> list[Kept]:
    """All that a piece keeps when its body lies at x, y, right, front."""
    x, y, right, front = at
    chairs = {turned(side, quarters) for side in piece.chairs}
    ways = {turned(side, quarters) for side in piece.passages}
    back, walk = room.pulled_back_mm, room.passage_mm
    out = {side: back if side in chairs else 0.0 for side in SIDES}
    strips = {
        "house": (x, y - back, right, y),
        "right": (right, y, right + back, front),
        "front": (x, front, right, front + back),
        "left": (x - back, y, x, front),
    }
    more = {side: walk if side in ways else 0.0 for side in SIDES}
    # unturned, ways along house and front take the corners: so do those that come of them
    if quarters % 2 == 0:
        wide, deep = (more["left"], more["right"]), (0.0, 0.0)
    else:
        wide, deep = (0.0, 0.0), (more["house"], more["front"])
    set_at = (x - out["left"], y - out["house"], right + out["right"], front + out["front"])
    low = (set_at[0] - wide[0], set_at[1] - deep[0])
    high = (set_at[2] + wide[1], set_at[3] + deep[1])
    passages = {
        "house": (low[0], set_at[1] - walk, high[0], y),
        "right": (right, low[1], set_at[2] + walk, high[1]),
        "front": (low[0], front, high[0], set_at[3] + walk),
        "left": (set_at[0] - walk, low[1], x, high[1]),
    }
    clear = room.clear_mm
    found: list[Kept] = [("body", at)]
    found += [("pulled back", strips[side]) for side in sorted(chairs)]
    found += [("passage", passages[side]) for side in sorted(ways)]
    if piece.hot:
        found.append(("clear", (x - clear, y - clear, right + clear, front + clear)))
    return found


def meet(one: Rect, other: Rect) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def clash(one: list[Kept], other: list[Kept], *, grouped: bool = False) -> bool:
    """Whether two pieces, a door or steps are in one another's way."""
    for (a, mine), (b, its) in product(one, other):
        pair = tuple(sorted((a, b)))
        walked = {"passage", "door", "steps"}
        free = (
            (a in walked and b in walked)
            or pair in {("clear", "clear"), ("clear", "passage")}
            or (grouped and pair == ("passage", "pulled back"))
        )
        if not free and meet(mine, its):
            return True
    return False


def off_deck(
    kept: list[Kept], size: tuple[float, float], sides: DeckSides, room: Allowances
) -> bool:
    """Whether anything reaches where it must not: past an edge, or too near an open one."""
    for kind, at in kept:
        over = (at[1], size[0] - at[2], size[1] - at[3], at[0])
        for side, left in zip(SIDES, over, strict=True):
            is_open = getattr(sides, side) == "open"
            if kind == "clear" and is_open:
                continue
            if left < (room.from_open_edge_mm if kind == "pulled back" and is_open else 0.0):
                return True
    return False


def wrongs(
    layout: Layout,
    pieces: tuple[FurniturePiece, ...],
    sides: DeckSides,
    room: Allowances,
    passages: tuple[Passage, ...] = (),
) -> list[str]:
    """What is wrong with a layout, by its bodies' places and its doors' and steps' zones."""
    size = (layout.along_mm, layout.across_mm)
    stood: list[tuple[str, str, list[Kept]]] = []
    for place in layout.placed:
        piece = next(each for each in pieces if each.mark == place.piece)
        x, y = place.from_along_mm, place.from_across_mm
        more = tuple(wish.side for wish in passages if wish.piece == piece.mark)
        whole = with_ways(piece, more)
        at = (x, y, x + place.along_mm, y + place.across_mm)
        kept = kept_by(whole, at, round(place.turned_deg / 90), room)
        stood.append((piece.mark, piece.group, kept))
    for zone in layout.zones:
        if zone.kind in {"door", "steps"}:
            x, y = zone.from_along_mm, zone.from_across_mm
            stood.append(
                (zone.piece, "", [(zone.kind, (x, y, x + zone.along_mm, y + zone.across_mm))])
            )
    found = [f"{mark} off the deck" for mark, _, kept in stood if off_deck(kept, size, sides, room)]
    for (a, one_group, one), (b, other_group, other) in combinations(stood, 2):
        if clash(one, other, grouped=bool(one_group) and one_group == other_group):
            found.append(f"{a} and {b}")
    if {place.piece for place in layout.placed} != {piece.mark for piece in pieces}:
        found.append("pieces lost")
    return found


def with_ways(piece: FurniturePiece, more: tuple[str, ...]) -> FurniturePiece:
    from attrs import evolve

    return evolve(piece, passages=tuple(dict.fromkeys((*piece.passages, *more))))


def every_size(
    pieces: tuple[FurniturePiece, ...],
    sides: DeckSides,
    room: Allowances,
    grid_mm: float,
    steps: int,
) -> set[tuple[int, int]]:
    """All sizes, none of them smaller both ways than another, by trying every place on the grid."""
    spots = [_spots(piece, room, grid_mm, steps) for piece in pieces]
    least: dict[int, int] = {}
    for choice in product(*spots):
        pairs = combinations(zip(pieces, choice, strict=True), 2)
        if any(
            clash(a, b, grouped=bool(one.group) and one.group == other.group)
            for (one, a), (other, b) in pairs
        ):
            continue
        flat = [each for kept in choice for each in kept]
        if any(off_deck([each], (1e9, 1e9), sides, room) for each in flat):
            continue
        wide, deep = (_reach(flat, axis, sides, room, grid_mm) for axis in (0, 1))
        if wide <= steps and deep <= steps:
            least[wide] = min(deep, least.get(wide, deep))
    edge: set[tuple[int, int]] = set()
    for wide in sorted(least):
        if all(least[wide] < deep for _, deep in edge):
            edge.add((wide, least[wide]))
    return edge


def _spots(piece: FurniturePiece, room: Allowances, grid_mm: float, steps: int) -> list[list[Kept]]:
    found = []
    for quarters in range(4 if piece.may_turn else 1):
        wide, deep = piece.along_mm, piece.across_mm
        if quarters % 2:
            wide, deep = deep, wide
        for i, j in product(range(steps), repeat=2):
            x, y = i * grid_mm, j * grid_mm
            kept = kept_by(piece, (x, y, x + wide, y + deep), quarters, room)
            if kept not in found:
                found.append(kept)
    return found


def _reach(kept: list[Kept], axis: int, sides: DeckSides, room: Allowances, grid_mm: float) -> int:
    far = sides.front if axis else sides.right
    most = 0.0
    for kind, at in kept:
        if kind == "clear" and far == "open":
            continue
        off = room.from_open_edge_mm if kind == "pulled back" and far == "open" else 0.0
        most = max(most, at[axis + 2] + off)
    return int(-(-most // grid_mm))
