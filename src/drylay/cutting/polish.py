"""Takes boards and joints out of a plan that it can do without."""

from itertools import combinations, product

from drylay.cutting.lanes import useful_pieces
from drylay.cutting.ready import Ready
from drylay.cutting.rounding import Draft, redrafted

Sawn = tuple[int, list[int]]  # board, pieces by length index


def polished(ready: Ready, draft: Draft) -> Draft:
    """Return a plan that costs no more, with no board or joint that is easily left out.

    A joint is idle if the pieces it parts could be one on some board; a board is if its pieces
    fit on the others, or if it and another can be had as one that costs no more than both.
    """
    boards: list[Sawn] = [(board, list(pieces)) for board, pieces in draft.boards]
    joints = [[list(line) for line in lines] for lines in draft.joints]
    for index, lines in enumerate(joints):
        lengths = _lengths(ready, index) if any(lines) else {}
        for line in lines:
            _join(ready, boards, line, lengths)
    while _emptied(ready, boards) or _merged(ready, boards):
        pass
    laid = tuple(tuple(tuple(line) for line in lines) for lines in joints)
    return redrafted(ready, [(b, tuple(pieces)) for b, pieces in boards if pieces], laid)


def _lengths(ready: Ready, index: int) -> dict[tuple[int, int], int]:
    """Return the pieces a line may hold, by the stations they end on (-1: start, -2: end)."""
    longest = max(ready.lengths, default=0)
    place = {length: i for i, length in enumerate(ready.lengths)}
    pieces = useful_pieces(ready.task.lines[index], longest)
    return {(tail, head): place[length] for tail, head, length in pieces}


def _join(
    ready: Ready, boards: list[Sawn], line: list[int], lengths: dict[tuple[int, int], int]
) -> None:
    """Leave out the joints of a line whose two pieces can be one."""
    for station in list(line):
        at = line.index(station)
        before = line[at - 1] if at else -1
        after = line[at + 1] if at + 1 < len(line) else -2
        whole = lengths.get((before, after))
        parts = lengths[before, station], lengths[station, after]
        if whole is not None and _replaced(ready, boards, parts, whole):
            line.remove(station)


def _replaced(ready: Ready, boards: list[Sawn], parts: tuple[int, int], whole: int) -> bool:
    """Put one piece in place of two, if some board then has the room for it."""
    for one, other in product(_unlike(boards, parts[0]), _unlike(boards, parts[1])):
        kept = {one: list(boards[one][1]), other: list(boards[other][1])}
        kept[one].remove(parts[0])
        if parts[1] not in kept[other]:
            continue
        kept[other].remove(parts[1])
        for number, pieces in kept.items():
            if _room(ready, (boards[number][0], pieces)) >= ready.sizes[whole]:
                pieces.append(whole)
                for at, left in kept.items():
                    boards[at][1][:] = left
                return True
    return False


def _unlike(boards: list[Sawn], piece: int | None = None) -> list[int]:
    """Return the boards that hold a piece, one of each way of sawing."""
    found = {
        (board, tuple(sorted(pieces))): number
        for number, (board, pieces) in enumerate(boards)
        if piece is None or piece in pieces
    }
    return list(found.values())


def _room(ready: Ready, sawn: Sawn) -> int:
    return ready.boards[sawn[0]].space - sum(ready.sizes[piece] for piece in sawn[1])


def _emptied(ready: Ready, boards: list[Sawn]) -> bool:
    """Empty a board onto the others, the dearest first; return whether one could be."""
    numbered = reversed(list(enumerate(boards)))
    firsts = {(board, tuple(sorted(pieces))): n for n, (board, pieces) in numbered}
    order = sorted(
        firsts.values(),
        key=lambda n: (-ready.boards[boards[n][0]].price, len(boards[n][1]), n),
    )
    for number in order:
        others = [(b, list(pieces)) for n, (b, pieces) in enumerate(boards) if n != number]
        if all(_placed(ready, others, piece) for piece in sorted(boards[number][1])):
            boards[:] = others
            return True
    return False


def _placed(ready: Ready, boards: list[Sawn], piece: int) -> bool:
    """Put a piece on the board with the least room that will do."""
    fits = [sawn for sawn in boards if _room(ready, sawn) >= ready.sizes[piece]]
    if fits:
        min(fits, key=lambda sawn: _room(ready, sawn))[1].append(piece)
    return bool(fits)


def _merged(ready: Ready, boards: list[Sawn]) -> bool:
    """Make one board of two, for no more than both cost; return whether that could be done."""
    unlike = _unlike(boards)
    twice = [n for n in unlike if boards.count(boards[n]) > 1]
    pairs = [*combinations(unlike, 2), *((boards.index(boards[n]), n) for n in twice)]
    for one, other in pairs:
        both = (boards[one], boards[other])
        others = [sawn for n, sawn in enumerate(boards) if n not in (one, other)]
        pieces = [piece for _, of in both for piece in of]
        most = sum(ready.boards[board].price for board, _ in both)
        for board, its in enumerate(ready.boards):
            left = its.limit is None or its.limit > sum(b == board for b, _ in others)
            if left and its.price <= most and _room(ready, (board, pieces)) >= 0:
                boards[:] = [*others, (board, pieces)]
                return True
    return False
