"""Setting out an outline: a peg at every corner, each tied by tapes from pegs that stand."""

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from attrs import frozen

from drylay.marks import exact, to_mm
from drylay.work.model import Peg, PegTie, SettingOut
from drylay.work.setting_out import ACCEPTED_MM, three_four_five

#: Tapes that meet at a sharper angle place a peg badly. Common practice, no source.
SHARPEST_DEG = 30.0
#: A corner within this of square is square: what rounding to 1/320 mm does to a short side.
SQUARE_DEG = 0.05

Place = tuple[float, float]
#: Whether a tape can be pulled from one place to another.
Clear = Callable[[Place, Place], bool]


@frozen(kw_only=True)
class _Way:
    """Two pegs, by number, that may place a third, and how far from square their tapes meet."""

    pegs: tuple[int, int]
    off_deg: float


def set_out_corners(corners: Sequence[Place], *, units: str, clear: Clear) -> SettingOut:
    """Return pegs at corners in their order, P1 to P2 the base line, and the ties that set them.

    The others are set in turn, each from the two pegs whose tapes meet nearest to square; one that
    cannot be set well yet waits. Then every peg but the first three has a tie more, to check it.
    Source: geometry; how far a check may be off, and how sharp tapes may meet, is common practice.
    """
    placing = list(_placing(corners, clear))
    checking = _checking(corners, placing, clear)
    legs = _legs(corners, units, clear)
    return SettingOut(
        pegs=tuple(
            Peg(mark=_mark(number), along_mm=along, across_mm=across)
            for number, (along, across) in enumerate(corners)
        ),
        leg_along_mm=legs[0] if legs else None,
        leg_across_mm=legs[1] if legs else None,
        slant_mm=legs[2] if legs else None,
        accepted_mm=ACCEPTED_MM,
        tie_count=len(placing) + len(checking),
        ties=tuple(
            PegTie(
                start=_mark(one),
                end=_mark(other),
                length_mm=tie_mm(corners[one], corners[other]),
                check=check,
            )
            for check, ties in ((False, placing), (True, checking))
            for one, other in ties
        ),
    )


def _mark(number: int) -> str:
    return f"P{number + 1}"


def tie_mm(one: Place, other: Place) -> float:
    """Return how far two places are from each other, to the nearest 1/320 mm."""
    return to_mm(exact(math.dist(one, other)))


def _placing(corners: Sequence[Place], clear: Clear) -> Iterator[tuple[int, int]]:
    """Yield the ties that set the pegs, two for each after the first two."""
    yield 0, 1
    stand, left = [0, 1], list(range(2, len(corners)))
    while left:
        ways = {peg: _best(corners, stand, peg, clear) for peg in left}
        peg = next((n for n in left if _is_good(ways[n])), None)
        if peg is None:
            peg = min(left, key=lambda n: (_off(ways[n]), n))
        way = ways[peg] or _best(corners, stand, peg, lambda _one, _other: True)
        assert way is not None
        for other in way.pegs:
            yield other, peg
        stand.append(peg)
        left.remove(peg)


def _is_good(way: _Way | None) -> bool:
    return way is not None and way.off_deg <= 90 - SHARPEST_DEG


def _off(way: _Way | None) -> float:
    return math.inf if way is None else way.off_deg


def _best(corners: Sequence[Place], stand: Sequence[int], peg: int, clear: Clear) -> _Way | None:
    """Return the two pegs that set another best, the first of equals; None where none can."""
    seen = [other for other in stand if clear(corners[other], corners[peg])]
    ways = [
        _Way(pegs=pair, off_deg=abs(90 - angle_deg(corners[peg], *(corners[n] for n in pair))))
        for pair in combinations(sorted(seen), 2)
    ]
    return min(ways, key=lambda way: (round(way.off_deg, 6), way.pegs), default=None)


def angle_deg(at: Place, one: Place, other: Place) -> float:
    """Return the angle between two tapes that meet at a place, 0 to 180."""
    (x1, y1), (x2, y2) = ((place[0] - at[0], place[1] - at[1]) for place in (one, other))
    return math.degrees(abs(math.atan2(x1 * y2 - y1 * x2, x1 * x2 + y1 * y2)))


def _checking(
    corners: Sequence[Place], placing: Sequence[tuple[int, int]], clear: Clear
) -> list[tuple[int, int]]:
    """Return a tie for each peg but the first three set, the longest that is not used yet."""
    order = list(dict.fromkeys(peg for tie in placing for peg in tie))
    used = {frozenset(tie) for tie in placing}
    found = []
    for peg in order[3:]:
        free = [n for n in range(len(corners)) if n != peg and frozenset((n, peg)) not in used]
        seen = [n for n in free if clear(corners[n], corners[peg])]
        if seen:
            longest = max(seen, key=lambda n: (tie_mm(corners[n], corners[peg]), -n))
            used.add(frozenset((longest, peg)))
            found.append((longest, peg))
    return found


def _legs(corners: Sequence[Place], units: str, clear: Clear) -> tuple[float, float, float] | None:
    """Return the largest 3-4-5 from P1 along the base line and along its other side.

    Its slant can be taped. None where there is none, or where the corner at P1 is not square.
    """
    at, one, other = corners[0], corners[1], corners[-1]
    if abs(angle_deg(at, one, other) - 90) > SQUARE_DEG:
        return None
    sides = [tie_mm(at, one), tie_mm(at, other)]
    while legs := three_four_five(sides[0], sides[1], units):
        ends = [_towards(at, end, leg) for end, leg in zip((one, other), legs, strict=False)]
        if clear(ends[0], ends[1]):
            break
        sides = [leg - to_mm(1) for leg in legs[:2]]
    return legs


def _towards(at: Place, end: Place, by_mm: float) -> Place:
    share = by_mm / math.dist(at, end)
    return at[0] + (end[0] - at[0]) * share, at[1] + (end[1] - at[1]) * share
